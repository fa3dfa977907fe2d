/* What is bought for a station: by its shape, whatever the shape. */
#include "base/random.h"
#include "building_scene.h"
#include "check.h"
#include "piping_drawn.h"
#include "report/diagram.h"
#include "station/installing.h"

#define TEST_STAGES   4
#define TEST_BRANCHES 4

/* A random station of the scene's sizes: valve, strainer and pipe of any size each. */
typedef struct random_station {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still;
    qll_site site;
    scene_valve valves[TEST_STAGES][TEST_BRANCHES];
    qll_branch branches[TEST_STAGES][TEST_BRANCHES];
    qll_stage stages[TEST_STAGES];
    qll_station station;
    qll_strainer strainers[TEST_STAGES][TEST_BRANCHES];
    qll_strainer *rows[TEST_STAGES];
    qll_assessment assessment;
} random_station;

static size_t below(qll_random *random, size_t count)
{
    return (size_t)(qll_random_unit(random) * (double)count);
}

static void make(random_station *made, qll_random *random)
{
    *made =
        (random_station){.still = {0.0, (60.0 + 120.0 * qll_random_unit(random)) * TEST_SCENE_PSI}};
    made->site = scene_site(made->sizes, &made->still);
    bool has_header = below(random, 4) > 0;
    made->site.header = has_header ? &scene_sizes[below(random, TEST_SCENE_SIZES)] : NULL;
    made->station = (qll_station){made->stages, 1 + below(random, TEST_STAGES)};
    for (size_t s = 0; s < made->station.stage_count; s++) {
        made->stages[s] = (qll_stage){made->branches[s], 1 + below(random, TEST_BRANCHES), 1e6};
        made->rows[s] = made->strainers[s];
        for (size_t b = 0; b < made->stages[s].branch_count; b++) {
            const qll_pipe_size *size = &scene_sizes[below(random, TEST_SCENE_SIZES)];
            const qll_pipe_size *screen = &scene_sizes[below(random, TEST_SCENE_SIZES)];
            scene_valve_make(&made->valves[s][b], 2.0, 1e5, 1e-5, size->nominal_m);
            made->branches[s][b] = scene_branch(&made->valves[s][b], 4e5, size->bore_m);
            made->strainers[s][b] = (qll_strainer){
                .in_body = below(random, 4) == 0, .mesh = 60, .nominal_m = screen->nominal_m};
        }
    }
    made->assessment = (qll_assessment){.lockup_pa_gauge = 4.2e5, .strainers = made->rows};
}

/* How many of a kind the list has at a branch, or in all (stage SIZE_MAX). */
static size_t count_of(const qll_pieces *pieces, qll_piece_kind kind, size_t stage, size_t branch)
{
    size_t count = 0;
    for (size_t i = 0; i < pieces->count; i++) {
        const qll_piece *piece = &pieces->pieces[i];
        bool is_here = stage == SIZE_MAX || (piece->stage == stage && piece->branch == branch);
        count += piece->kind == kind && is_here ? piece->count : 0;
    }
    return count;
}

/* Walks the water's way and counts where the size changes. */
static size_t changes(double pipe_m, double strainer_m, double valve_m)
{
    return (size_t)(pipe_m != strainer_m) + (size_t)(strainer_m != valve_m)
           + (size_t)(valve_m != pipe_m);
}

static void check_branch(const random_station *made, const qll_pieces *pieces, size_t s, size_t b)
{
    double valve_m = made->valves[s][b].valve.nominal_m;
    double pipe_m = made->site.header == NULL ? valve_m : made->site.header->nominal_m;
    bool in_body = made->strainers[s][b].in_body;
    double strainer_m = in_body ? valve_m : made->strainers[s][b].nominal_m;
    CHECK(count_of(pieces, QLL_PIECE_VALVE, s, b) == 1);
    CHECK(count_of(pieces, QLL_PIECE_STOP, s, b) == 2);
    CHECK(count_of(pieces, QLL_PIECE_UNION, s, b) == 2);
    CHECK(count_of(pieces, QLL_PIECE_REDUCER, s, b) == changes(pipe_m, strainer_m, valve_m));
    /* Where a strainer's loss is read it can be read; a screen in the body has no cock behind it. */
    CHECK(count_of(pieces, QLL_PIECE_COCK, s, b) == (in_body ? 0 : 1));
    CHECK(count_of(pieces, QLL_PIECE_SCREEN, s, b) == (in_body ? 1 : 0));
    CHECK(count_of(pieces, QLL_PIECE_STRAINER, s, b) == (in_body ? 0 : 1));
}

TEST(every_station_has_its_parts)
{
    static random_station made;
    for (uint64_t seed = 0; seed < 2000; seed++) {
        qll_arena *arena = qll_arena_open(1 << 20);
        qll_random random = qll_random_seeded(seed);
        make(&made, &random);
        qll_pieces pieces;
        const qll_extra_parts extra = {seed % 2 == 0 ? 7e5 : (double)NAN,
                                       seed % 3 == 0 ? 0.02 : (double)NAN};
        CHECK(qll_pieces_of(&made.station, &made.site, &made.assessment, extra,
                            (qll_unit_system)(seed % 2), arena, &pieces)
              == QLL_OK);
        size_t valves = qll_station_valve_count(&made.station);
        for (size_t s = 0; s < made.station.stage_count; s++) {
            for (size_t b = 0; b < made.stages[s].branch_count; b++) {
                check_branch(&made, &pieces, s, b);
            }
        }
        size_t beside = valves - made.station.stage_count;
        size_t cocks = count_of(&pieces, QLL_PIECE_COCK, SIZE_MAX, 0);
        CHECK(count_of(&pieces, QLL_PIECE_GAUGE, SIZE_MAX, 0) == made.station.stage_count + 1);
        CHECK(count_of(&pieces, QLL_PIECE_TEE, SIZE_MAX, 0) == 2 * beside);
        CHECK(count_of(&pieces, QLL_PIECE_ELBOW, SIZE_MAX, 0) == 2 * beside);
        CHECK(count_of(&pieces, QLL_PIECE_TEST_GAUGE, SIZE_MAX, 0) == (cocks > 0 ? 1 : 0));
        CHECK(count_of(&pieces, QLL_PIECE_HOSE_VALVE, SIZE_MAX, 0) == 1);
        CHECK(count_of(&pieces, QLL_PIECE_RELIEF, SIZE_MAX, 0) == (seed % 2 == 0 ? 1 : 0));
        CHECK(count_of(&pieces, QLL_PIECE_TANK, SIZE_MAX, 0) == (seed % 3 == 0 ? 1 : 0));
        qll_arena_close(arena);
    }
}

/* The drawing has as many stops, unions, reducers, cocks and valves as are bought. */
TEST(what_is_bought_is_drawn)
{
    static random_station made;
    for (uint64_t seed = 0; seed < 300; seed++) {
        qll_arena *arena = qll_arena_open(1 << 24);
        qll_random random = qll_random_seeded(30000 + seed);
        make(&made, &random);
        const qll_branch_sizes *rows[TEST_STAGES];
        qll_branch_sizes sizes[TEST_STAGES][TEST_BRANCHES];
        for (size_t s = 0; s < made.station.stage_count; s++) {
            rows[s] = sizes[s];
            for (size_t b = 0; b < made.stages[s].branch_count; b++) {
                sizes[s][b] =
                    qll_branch_sizes_of(&made.station, &made.site, &made.assessment, s, b);
            }
        }
        bool has_relief = seed % 2 == 0;
        qll_pieces pieces;
        CHECK(qll_pieces_of(&made.station, &made.site, &made.assessment,
                            (qll_extra_parts){has_relief ? 7e5 : (double)NAN, NAN}, QLL_UNITS_US,
                            arena, &pieces)
              == QLL_OK);
        qll_canvas canvas = qll_canvas_new(174, 94, arena);
        const qll_figure figure = {&canvas, {2, 2, 170, 90}, QLL_UNITS_US, QLL_LANGUAGE_EN};
        qll_diagram_draw(
            &figure,
            &(qll_diagram){.station = &made.station, .sizes = rows, .has_relief = has_relief});
        check_drawn_parts(&canvas, 75.0, &pieces);
        qll_arena_close(arena);
    }
}

/* A reducer's larger end is larger, and a gauge's scale takes what stands there with a fifth to spare. */
TEST(sizes_and_scales_fit)
{
    static random_station made;
    for (uint64_t seed = 0; seed < 500; seed++) {
        qll_arena *arena = qll_arena_open(1 << 20);
        qll_random random = qll_random_seeded(10000 + seed);
        make(&made, &random);
        qll_pieces pieces;
        CHECK(qll_pieces_of(&made.station, &made.site, &made.assessment,
                            (qll_extra_parts){NAN, NAN}, (qll_unit_system)(seed % 2), arena,
                            &pieces)
              == QLL_OK);
        for (size_t i = 0; i < pieces.count; i++) {
            const qll_piece *piece = &pieces.pieces[i];
            CHECK(piece->count > 0);
            CHECK(piece->kind != QLL_PIECE_REDUCER || piece->nominal_m > piece->smaller_m);
            if (piece->kind == QLL_PIECE_GAUGE) {
                double stands = piece->joint == 0 ? made.still.y : 4.2e5;
                CHECK(0.8 * piece->scale_pa_gauge >= stands - 1.0);
                CHECK(piece->scale_pa_gauge <= 2.5 * stands); /* fine enough to be read */
            }
        }
        qll_arena_close(arena);
    }
}

/* By hand: lock-up 4.2 bar is 60.9 psi, and 25 more 85.9: 90 psi, 6 bar. */
TEST(a_relief_valve_is_advised_where_the_street_stands_above_what_faucets_bear)
{
    static random_station made;
    qll_random random = qll_random_seeded(7);
    make(&made, &random);
    made.station.stage_count = 1;

    const struct {
        double still_pa;
        qll_unit_system units;
        double opens_pa;
    } cases[] = {{124.0 * TEST_SCENE_PSI, QLL_UNITS_US, NAN},
                 {126.0 * TEST_SCENE_PSI, QLL_UNITS_US, 90.0 * TEST_SCENE_PSI},
                 {125.0 * TEST_SCENE_PSI, QLL_UNITS_US, NAN},
                 {8.6 * TEST_SCENE_BAR, QLL_UNITS_SI, NAN},
                 {8.7 * TEST_SCENE_BAR, QLL_UNITS_SI, 6.0 * TEST_SCENE_BAR}};

    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        made.still.y = cases[i].still_pa;
        made.site.supply.static_high_pa_gauge = cases[i].still_pa;
        const qll_installing found = qll_installing_of(&made.station, &made.site, &made.assessment,
                                                       (qll_occupied){0}, cases[i].units);
        CHECK(found.applies[QLL_INSTALL_RELIEF] == isfinite(cases[i].opens_pa));
        if (isfinite(cases[i].opens_pa)) {
            CHECK_NEAR(found.relief_pa_gauge, cases[i].opens_pa, 1e-9);
        }
    }
}

/* By hand: the first stage holds 4 bar and the rise of its seat, whatever the street has: with one valve stuck open no more than that
 * stands on the building; what it holds above 125 psi (8.6 bar) does ask for a relief valve. */
TEST(of_two_stages_one_still_regulates)
{
    static random_station made;
    qll_random random = qll_random_seeded(7);
    make(&made, &random);
    made.station.stage_count = 2;
    made.stages[0] = (qll_stage){made.branches[0], 1, 1e6};
    made.stages[1] = (qll_stage){made.branches[1], 1, 1e6};
    scene_valve_make(&made.valves[0][0], 2.0, 1e5, 1e-5, 0.02);
    scene_valve_make(&made.valves[1][0], 2.0, 1e5, 1e-5, 0.02);
    made.branches[1][0] = scene_branch(&made.valves[1][0], 4e5, 0.02);
    made.still.y = 200.0 * TEST_SCENE_PSI;
    made.site.supply.static_high_pa_gauge = made.still.y;

    for (int high = 0; high < 2; high++) {
        const double set_pa = high == 1 ? 9e5 : 4e5;
        made.branches[0][0] = scene_branch(&made.valves[0][0], set_pa, 0.02);
        const qll_installing found = qll_installing_of(&made.station, &made.site, &made.assessment,
                                                       (qll_occupied){0}, QLL_UNITS_SI);
        CHECK(found.highest_pa_gauge >= set_pa && found.highest_pa_gauge < set_pa + 1e5);
        CHECK(found.applies[QLL_INSTALL_RELIEF] == (high == 1));
    }
}

/* A relief valve behind the station opens at what the last gauge has to show: 130 of 160 psi is more than four fifths.
 * The gauges before it are as they were. */
TEST(the_last_gauge_reads_what_the_relief_valve_opens_at)
{
    static random_station made;
    qll_random random = qll_random_seeded(9);
    make(&made, &random);
    qll_arena *arena = qll_arena_open(1 << 20);
    for (int relief = 0; relief < 2; relief++) {
        const qll_extra_parts extra = {relief == 1 ? 130.0 * TEST_SCENE_PSI : (double)NAN, NAN};
        qll_pieces pieces;
        CHECK(qll_pieces_of(&made.station, &made.site, &made.assessment, extra, QLL_UNITS_US, arena,
                            &pieces)
              == QLL_OK);
        for (size_t i = 0; i < pieces.count; i++) {
            const qll_piece *piece = &pieces.pieces[i];
            if (piece->kind == QLL_PIECE_GAUGE && piece->joint == made.station.stage_count) {
                CHECK_NEAR(piece->scale_pa_gauge, (relief == 1 ? 200.0 : 100.0) * TEST_SCENE_PSI,
                           1e-12);
            } else if (piece->kind == QLL_PIECE_GAUGE && piece->joint > 0) {
                CHECK_NEAR(piece->scale_pa_gauge, 100.0 * TEST_SCENE_PSI, 1e-12);
            }
        }
    }
    qll_arena_close(arena);
}

/* Only what applies to the station and the building is said. */
TEST(notes_are_of_this_station)
{
    static random_station made;
    for (uint64_t seed = 0; seed < 200; seed++) {
        qll_random random = qll_random_seeded(20000 + seed);
        make(&made, &random);
        bool has_single = false;
        for (size_t s = 0; s < made.station.stage_count; s++) {
            has_single = has_single || made.stages[s].branch_count == 1;
        }
        made.site.water.temperature_degc = seed % 2 == 0 ? 10.0 : 20.0;
        for (int never = 0; never < 2; never++) {
            const qll_installing found =
                qll_installing_of(&made.station, &made.site, &made.assessment,
                                  (qll_occupied){never == 1, seed % 3 == 0}, QLL_UNITS_US);
            CHECK(found.applies[QLL_INSTALL_STAGES] == (made.station.stage_count > 1));
            CHECK(found.applies[QLL_INSTALL_SPARE] == (never == 1 && has_single));
            CHECK(found.applies[QLL_INSTALL_BRANCHES] == (never == 1 && !has_single));
            CHECK(found.applies[QLL_INSTALL_FROST] == (seed % 2 == 0));
            CHECK(found.applies[QLL_INSTALL_GROWTH] == (seed % 3 == 0));
            CHECK(found.applies[QLL_INSTALL_POSITION]
                  && !found.applies[QLL_INSTALL_POSITION_PILOT]);
            CHECK(found.behind_m == 2.0 * found.before_m && found.space_m > 0.0);
        }
    }
}

int main(void)
{
    TEST_RUN(every_station_has_its_parts);
    TEST_RUN(what_is_bought_is_drawn);
    TEST_RUN(sizes_and_scales_fit);
    TEST_RUN(a_relief_valve_is_advised_where_the_street_stands_above_what_faucets_bear);
    TEST_RUN(of_two_stages_one_still_regulates);
    TEST_RUN(the_last_gauge_reads_what_the_relief_valve_opens_at);
    TEST_RUN(notes_are_of_this_station);
    return TEST_END();
}
