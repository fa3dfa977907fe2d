#include "drawn.h"
#include "report/figures.h"

static qll_arena *arena;

static const qll_box area = {2, 2, 166, 90};

static qll_canvas page(void)
{
    return qll_canvas_new(170, 94, arena);
}

static const double x[] = {0, 1e-3, 2e-3, 3e-3};
static const double y[] = {4e5, 3.9e5, 3.7e5, 3e5};

static qll_plot simple(const qll_curve_drawn *curve)
{
    return (qll_plot){.x = qll_axis_of("flow", QLL_KIND_FLOW, QLL_UNITS_SI, 0, 3e-3),
                      .y = qll_axis_of("outlet", QLL_KIND_PRESSURE, QLL_UNITS_SI, 3e5, 4e5),
                      .curves = curve,
                      .curve_count = 1};
}

/* The first polyline of more than two points. */
static const qll_item *curve_item(const qll_canvas *canvas)
{
    for (size_t i = 0; i < canvas->count; i++) {
        if (canvas->items[i].kind == QLL_ITEM_PATH && canvas->items[i].point_count > 2
            && !canvas->items[i].is_closed) {
            return &canvas->items[i];
        }
    }
    return NULL;
}

TEST(a_curve_stands_where_its_figures_say)
{
    const qll_curve_drawn curve = {
        .name = "valve", .tag = "", .x = x, .y = y, .count = 4, .width_mm = 0.4};
    const qll_plot plot = simple(&curve);
    qll_canvas canvas = page();
    qll_plot_draw(&canvas, area, &plot);
    const qll_item *item = curve_item(&canvas);
    if (!CHECK(item != NULL && item->point_count == 4)) {
        return;
    }
    /* Axes from 0 to 3 L/s and 3 to 4 bar: the ends of the data are corners of the frame. */
    double width = item->points[3].x_mm - item->points[0].x_mm;
    double height = item->points[3].y_mm - item->points[0].y_mm;
    CHECK(width > 100 && height > 50);
    CHECK_NEAR(item->points[1].x_mm - item->points[0].x_mm, width / 3, 1e-9);
    CHECK_NEAR(item->points[1].y_mm - item->points[0].y_mm, 0.1 * height, 1e-9);
    CHECK_NEAR(item->points[2].y_mm - item->points[0].y_mm, 0.3 * height, 1e-9);
    CHECK(drawn_says(&canvas, "flow, L/s") && drawn_says(&canvas, "outlet, bar"));
    CHECK(drawn_says(&canvas, "valve"));
}

TEST(us_units_have_their_own_round_numbers)
{
    const qll_curve_drawn curve = {
        .name = "", .tag = "", .x = x, .y = y, .count = 4, .width_mm = 0.4};
    qll_plot plot = simple(&curve);
    plot.x = qll_axis_of("flow", QLL_KIND_FLOW, QLL_UNITS_US, 0, 3e-3);
    plot.y = qll_axis_of("outlet", QLL_KIND_PRESSURE, QLL_UNITS_US, 3e5, 4e5);
    qll_canvas canvas = page();
    qll_plot_draw(&canvas, area, &plot);
    CHECK(drawn_says(&canvas, "flow, gpm") && drawn_says(&canvas, "outlet, psi"));
    CHECK(drawn_says(&canvas, "50") && drawn_says(&canvas, "10"));
}

TEST(what_leaves_the_frame_is_cut_off)
{
    static const double far_x[] = {-1, 1e-3, 2e-3, 5};
    static const double far_y[] = {4e5, 3.5e5, 9e9, -9e9};
    const qll_curve_drawn curve = {
        .name = "", .tag = "A", .x = far_x, .y = far_y, .count = 4, .width_mm = 0.4};
    const qll_plot plot = simple(&curve);
    qll_canvas canvas = page();
    qll_plot_draw(&canvas, area, &plot);
    CHECK(drawn_outside(&canvas) == 0);
}

TEST(a_gap_breaks_the_line)
{
    static const double with_gap[] = {4e5, NAN, 3.7e5, 3e5};
    const qll_curve_drawn curve = {
        .name = "", .tag = "", .x = x, .y = with_gap, .count = 4, .width_mm = 0.77};
    const qll_plot plot = simple(&curve);
    qll_canvas canvas = page();
    qll_plot_draw(&canvas, area, &plot);
    size_t lines = 0;
    for (size_t i = 0; i < canvas.count; i++) {
        bool is_curve = canvas.items[i].paint.pen.width_mm == 0.77;
        lines += is_curve ? 1 : 0;
        CHECK(!is_curve || canvas.items[i].point_count == 2);
    }
    CHECK(lines == 1);
}

static const double odd[] = {NAN, INFINITY, -INFINITY, 0, -1, 1e300, 5e-324, 1, 4e5, 1e-3};

/* Every figure from figures that mean nothing: some drawing, no crash, nothing outside. */
static void draw_odd(size_t shift, const char *said)
{
    double values[25];
    qll_fill fills[8];
    for (size_t i = 0; i < 25; i++) {
        values[i] = odd[(i * 7 + shift) % (sizeof odd / sizeof odd[0])];
        fills[i % 8] = (qll_fill)((i + shift) % QLL_FILL_COUNT);
    }
    const char *const names[] = {said, "", said, "x"};
    const qll_range_drawn range = {said, values[0], values[1]};
    const qll_strip strip = {said, &range, 1};
    const qll_guide guides[] = {{said, values[2]}, {said, 4e5}, {said, 4.01e5}};
    const qll_falloff_curve curve = {said,      "AAAA",    values,         values + 3,    10,
                                     values[5], values[6], shift % 2 == 0, shift % 3 == 0};
    const qll_falloff_curve both[] = {curve, curve}; /* with a closer look */
    const qll_level_curve level = {said, said, values, values + 9, 10};
    const qll_candidate_drawn candidates[] = {{said, values[1], values[2]}, {"2", 3, 0.4}};
    for (int which = 0; which < 8; which++) {
        qll_canvas canvas = page();
        const qll_figure figure = {&canvas, area, QLL_UNITS_US, QLL_LANGUAGE_EN};
        switch (which) {
        case 0:
            qll_figure_duration(&figure, &(qll_duration_figure){values, values, values + 1, 20,
                                                                values[3], shift % 2 == 0,
                                                                values[4], &range, 1, &strip, 1});
            break;
        case 1:
            qll_figure_day(&figure, &(qll_day_figure){values, values, 0.99, values[shift % 9]});
            break;
        case 2:
            qll_figure_falloff(
                &figure, &(qll_falloff_figure){both, 1 + shift % 2, guides, 3, values[shift % 7]});
            break;
        case 3:
            qll_figure_ladder(&figure,
                              &(qll_ladder_figure){names, values, values + 4, 4, guides, 3});
            break;
        case 4:
            qll_figure_map(
                &figure, &(qll_map_figure){values, values + 5, 4, 2, fills, values + 9, values[2]});
            break;
        case 5: qll_figure_spectrum(&figure, &level, 1); break;
        case 6: qll_figure_noise(&figure, &level, 1, guides, 3); break;
        default:
            qll_figure_candidates(&figure, &(qll_candidates_figure){candidates, 2, 0, "EUR"});
            break;
        }
        CHECK(drawn_outside(&canvas) == 0);
        (void)drawn_svg(&canvas, said);
    }
}

TEST(figures_that_mean_nothing_are_survived)
{
    char *lengthy = qll_arena_take(arena, 10001, 1);
    memset(lengthy, 'w', 10000);
    for (size_t shift = 0; shift < 20; shift++) {
        draw_odd(shift, "<script>&\x01\xE2\x80\xAE\xFF");
    }
    draw_odd(1, lengthy);
    draw_odd(2, "");
}

TEST(words_do_not_lie_on_words)
{
    const qll_curve_drawn curves[] = {
        {"a curve with quite a long name", "A", x, y, 4, qll_look_of(0), 0.4, false},
        {"another of them, no shorter than the first", "B", x, y, 4, qll_look_of(1), 0.4, false},
        {"and a third", "C", x, y, 4, qll_look_of(2), 0.4, true},
    };
    const qll_guide levels[] = {{"never above 5.5 bar", 3.98e5},
                                {"wanted 4.6 bar", 3.99e5},
                                {"what the farthest outlet needs at the peak", 4e5},
                                {"lowest", 3e5}};
    const qll_guide uprights[] = {
        {"design peak 2.9 L/s", 2.9e-3}, {"metered peak 2.7 L/s", 2.7e-3}, {"mean 0.1 L/s", 1e-4}};
    qll_plot plot = simple(curves);
    plot.curve_count = 3;
    plot.levels = levels;
    plot.level_count = 4;
    plot.uprights = uprights;
    plot.upright_count = 3;
    qll_canvas canvas = page();
    qll_plot_draw(&canvas, area, &plot);
    CHECK(drawn_overlaps(&canvas) == 0);
    CHECK(drawn_outside(&canvas) == 0);
}

/* The middle of the first text that reads @p text; NaN where none does. */
static qll_xy middle_of(const qll_canvas *canvas, const char *text)
{
    for (size_t i = 0; i < canvas->count; i++) {
        const qll_item *item = &canvas->items[i];
        if (item->kind == QLL_ITEM_TEXT && qll_text_is(item->text, text)) {
            return item->points[0];
        }
    }
    return (qll_xy){NAN, NAN};
}

static qll_canvas draw_named(const char *const *names, size_t count)
{
    static const double at[] = {0, 1, 2, 3, 4, 5, 6, 7};
    static const double level[] = {4e5, 3.9e5, 3.7e5, 3.6e5, 3.5e5, 3.4e5, 3.2e5, 3e5};
    const qll_curve_drawn curve = {
        .name = "way", .tag = "", .x = at, .y = level, .count = count, .width_mm = 0.4};
    qll_plot plot = simple(&curve);
    plot.x = qll_axis_of("after", QLL_KIND_NUMBER, QLL_UNITS_SI, 0, (double)count - 1);
    plot.x.names = names;
    plot.x.name_count = count;
    qll_canvas canvas = page();
    qll_plot_draw(&canvas, area, &plot);
    return canvas;
}

/* Eight places on 17 cm have some 16 mm each, where at 9 points "main" fits and "thermostatically" does not: names then
 * stand by turns in two rows, every word whole, and no row reaches into the other. */
TEST(names_with_long_words_stand_by_turns_in_two_rows)
{
    static const char *const short_names[] = {"main",  "pipe",  "meter",  "stop",
                                              "valve", "riser", "branch", "tap"};
    static const char *const long_names[] = {"main",  "thermostatically",        "meter",  "stop",
                                             "valve", "thermostatically mixing", "branch", "tap"};
    const qll_canvas one_row = draw_named(short_names, 8);
    for (size_t i = 1; i < 8; i++) {
        CHECK_WITHIN(middle_of(&one_row, short_names[i]).y_mm, middle_of(&one_row, "main").y_mm,
                     1e-9);
    }
    const qll_canvas two_rows = draw_named(long_names, 8);
    const double first_mm = middle_of(&two_rows, "main").y_mm;
    const double second_mm = middle_of(&two_rows, "thermostatically").y_mm;
    CHECK(isfinite(second_mm) && second_mm - first_mm > 2.0);
    for (size_t i = 2; i < 8; i += 2) {
        CHECK_WITHIN(middle_of(&two_rows, long_names[i]).y_mm, first_mm, 1e-9);
    }
    CHECK_WITHIN(middle_of(&two_rows, "stop").y_mm, second_mm, 1e-9);
    CHECK_WITHIN(middle_of(&two_rows, "tap").y_mm, second_mm, 1e-9);
    CHECK_WITHIN(middle_of(&two_rows, "thermostatically mixing").y_mm, second_mm, 1e-9);
    /* The frame gives up the second row's height. */
    CHECK(curve_item(&two_rows) != NULL && curve_item(&one_row) != NULL
          && curve_item(&two_rows)->points[7].y_mm < curve_item(&one_row)->points[7].y_mm - 2.0);
}

TEST(the_same_twice)
{
    const qll_curve_drawn curve = {
        .name = "valve", .tag = "A", .x = x, .y = y, .count = 4, .width_mm = 0.4};
    const qll_plot plot = simple(&curve);
    qll_canvas one = page();
    qll_canvas two = page();
    qll_plot_draw(&one, area, &plot);
    qll_plot_draw(&two, area, &plot);
    CHECK(qll_text_equal(drawn_svg(&one, "t"), drawn_svg(&two, "t")));
}

TEST(curves_are_told_apart_without_colour)
{
    for (size_t i = 0; i < 6; i++) {
        for (size_t k = 0; k < i; k++) {
            qll_look a = qll_look_of(i);
            qll_look b = qll_look_of(k);
            CHECK(a.dash != b.dash || a.marker != b.marker);
        }
    }
}

TEST(without_memory_it_leaves_out)
{
    const qll_curve_drawn curve = {
        .name = "valve", .tag = "A", .x = x, .y = y, .count = 4, .width_mm = 0.4};
    const qll_plot plot = simple(&curve);
    qll_canvas whole = page();
    qll_plot_draw(&whole, area, &plot);
    size_t nth = 1;
    for (bool failed = true; failed && nth < 1000; nth++) {
        qll_arena *small = qll_arena_open((size_t)1 << 22);
        qll_canvas canvas = qll_canvas_new(170, 94, small);
        qll_arena_fail(small, nth, false);
        qll_plot_draw(&canvas, area, &plot);
        failed = qll_arena_refused(small) > 0;
        CHECK(failed ? canvas.count <= whole.count : canvas.count == whole.count);
        qll_arena_close(small);
    }
    CHECK(nth > 20 && nth < 1000);
}

int main(void)
{
    arena = qll_arena_open((size_t)1 << 28);
    TEST_RUN(a_curve_stands_where_its_figures_say);
    TEST_RUN(us_units_have_their_own_round_numbers);
    TEST_RUN(what_leaves_the_frame_is_cut_off);
    TEST_RUN(a_gap_breaks_the_line);
    TEST_RUN(figures_that_mean_nothing_are_survived);
    TEST_RUN(words_do_not_lie_on_words);
    TEST_RUN(names_with_long_words_stand_by_turns_in_two_rows);
    TEST_RUN(the_same_twice);
    TEST_RUN(curves_are_told_apart_without_colour);
    TEST_RUN(without_memory_it_leaves_out);
    qll_arena_close(arena);
    return TEST_END();
}
