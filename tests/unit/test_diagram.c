#include "drawn.h"
#include "report/diagram.h"

static qll_arena *arena;

static const char lengthy[] = "a valve with a name so long that no drawing has room for all of it";

/* A station of so many stages of so many branches (the last stage one fewer). */
static qll_station station_of(size_t stages, size_t branches, const char *id)
{
    qll_stage *made = qll_arena_take(arena, stages, sizeof *made);
    for (size_t s = 0; s < stages; s++) {
        size_t count = s + 1 == stages && branches > 1 ? branches - 1 : branches;
        qll_branch *row = qll_arena_take(arena, count, sizeof *row);
        for (size_t b = 0; b < count; b++) {
            qll_valve *valve = qll_arena_take(arena, 1, sizeof *valve);
            *valve = (qll_valve){.id = b == 1 ? id : "G-D50",
                                 .nominal_m = 0.05,
                                 .acting = b == 0 ? QLL_ACTING_PILOT : QLL_ACTING_DIRECT};
            row[b] = (qll_branch){.valve = valve, .set_pa_gauge = 4e5 - 1e4 * (double)b};
        }
        made[s] = (qll_stage){.branches = row, .branch_count = count};
    }
    return (qll_station){made, stages};
}

/* Sizes of a branch: a reducer at every place but where there is a screen in the body. */
static const qll_branch_sizes *const *sizes_of(const qll_station *station)
{
    const qll_branch_sizes **stages =
        qll_arena_take(arena, station->stage_count, sizeof(const qll_branch_sizes *));
    for (size_t s = 0; s < station->stage_count; s++) {
        size_t count = station->stages[s].branch_count;
        qll_branch_sizes *row = qll_arena_take(arena, count, sizeof *row);
        for (size_t b = 0; b < count; b++) {
            bool has_cock = b != 2;
            row[b] = (qll_branch_sizes){.in = has_cock ? -1 : 0,
                                        .between = has_cock ? -1 : 0,
                                        .out = has_cock ? 1 : 0,
                                        .has_cock = has_cock};
        }
        stages[s] = row;
    }
    return stages;
}

/* As it is there, or as it is to be put in, with all that may stand on it. */
static qll_canvas drawing(const qll_station *station, bool is_new)
{
    qll_canvas canvas = qll_canvas_new(174, 94, arena);
    const qll_figure figure = {&canvas, {2, 2, 170, 90}, QLL_UNITS_US, QLL_LANGUAGE_EN};
    qll_diagram_draw(&figure, &(qll_diagram){.station = station,
                                             .sizes = is_new ? sizes_of(station) : NULL,
                                             .has_relief = is_new});
    return canvas;
}

TEST(every_shape_fits_and_no_word_lies_on_another)
{
    for (size_t stages = 1; stages <= 4; stages++) {
        for (size_t branches = 1; branches <= 4; branches++) {
            qll_station station = station_of(stages, branches, lengthy);
            for (int is_new = 0; is_new < 2; is_new++) {
                qll_canvas canvas = drawing(&station, is_new == 1);
                CHECK(qll_arena_refused(arena) == 0 && canvas.count > 20);
                CHECK(drawn_outside(&canvas) == 0);
                CHECK(drawn_overlaps(&canvas) == 0);
            }
        }
    }
}

TEST(a_valve_is_named_sized_and_set)
{
    qll_station station = station_of(1, 2, "G-D20");
    qll_canvas canvas = drawing(&station, false);
    CHECK(drawn_says(&canvas, "A  G-D50"));
    CHECK(drawn_says(&canvas, "2 in"));
    CHECK(drawn_says(&canvas, "set 58 psi"));
    CHECK(drawn_says(&canvas, "P0") && drawn_says(&canvas, "P1") && !drawn_says(&canvas, "P2"));
    CHECK(!drawn_says(&canvas, "TA") && !drawn_says(&canvas, "D") && !drawn_says(&canvas, "R"));
    qll_station staged = station_of(2, 2, "G-D20");
    canvas = drawing(&staged, true);
    CHECK(drawn_says(&canvas, "1B  G-D20") && drawn_says(&canvas, "2A  G-D50"));
    CHECK(drawn_says(&canvas, "P2") && drawn_says(&canvas, "T1A") && drawn_says(&canvas, "T1B"));
    CHECK(drawn_says(&canvas, "D") && drawn_says(&canvas, "R"));
}

TEST(odd_ids_neither_break_nor_inject)
{
    static const char *const odd[] = {"<script>", "\x01\x1B[0m", "\xE2\x80\xAEtxet", "\xFF\xFE",
                                      "",         "\xE6\xB0\xB4"};
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
        qll_station station = station_of(3, 3, odd[i]);
        qll_canvas canvas = drawing(&station, true);
        qll_text svg = drawn_svg(&canvas, odd[i]);
        CHECK(strstr(svg.bytes, "<script") == NULL);
        CHECK(drawn_overlaps(&canvas) == 0);
    }
}

TEST(a_station_of_a_hundred_valves_is_drawn_small)
{
    qll_station station = station_of(10, 10, lengthy);
    qll_canvas canvas = drawing(&station, true);
    CHECK(drawn_outside(&canvas) == 0);
    (void)drawn_svg(&canvas, "t");
}

TEST(nothing_is_drawn_of_nothing)
{
    const qll_station none = {NULL, 0};
    CHECK(drawing(&none, true).count == 0);
    qll_station station = station_of(1, 1, "");
    qll_canvas canvas = qll_canvas_new(174, 94, arena);
    const qll_figure figure = {&canvas, {2, 2, NAN, 90}, QLL_UNITS_US, QLL_LANGUAGE_EN};
    qll_diagram_draw(&figure, &(qll_diagram){.station = &station});
    CHECK(canvas.count == 0);
}

TEST(without_memory_it_leaves_out)
{
    qll_station station = station_of(2, 2, "G-D20");
    const qll_canvas whole = drawing(&station, false);
    size_t nth = 1;
    for (bool failed = true; failed && nth < 2000; nth++) {
        qll_arena *small = qll_arena_open((size_t)1 << 22);
        qll_canvas canvas = qll_canvas_new(174, 94, small);
        const qll_figure figure = {&canvas, {2, 2, 170, 90}, QLL_UNITS_US, QLL_LANGUAGE_EN};
        qll_arena_fail(small, nth, false);
        qll_diagram_draw(&figure, &(qll_diagram){.station = &station});
        failed = qll_arena_refused(small) > 0;
        CHECK(failed ? canvas.count <= whole.count : canvas.count == whole.count);
        qll_arena_close(small);
    }
    CHECK(nth > 50 && nth < 2000);
}

int main(void)
{
    arena = qll_arena_open((size_t)1 << 28);
    TEST_RUN(every_shape_fits_and_no_word_lies_on_another);
    TEST_RUN(a_valve_is_named_sized_and_set);
    TEST_RUN(odd_ids_neither_break_nor_inject);
    TEST_RUN(a_station_of_a_hundred_valves_is_drawn_small);
    TEST_RUN(nothing_is_drawn_of_nothing);
    TEST_RUN(without_memory_it_leaves_out);
    qll_arena_close(arena);
    return TEST_END();
}
