/* The hard rules: for each a scene in which it alone decides. docs/theory/recommendation.md, 1. */
#include "building_scene.h"
#include "check.h"
#include "station/fitness.h"

/* A main of 110 psi, 60 psi wanted, a 1-1/2 in pipe, 20 gpm at the peak; one valve of 1 in that has all it
 * takes: Kv 10, 8 psi of fall-off at full travel, 1 psi of hysteresis. */
typedef struct fitness_scene {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still;
    qll_site site;
    qll_outlet outlet;
    scene_demand demand;
    qll_duty duty;
    qll_yardstick yardstick;
    double peak_gpm;
    scene_valve valves[3];
    qll_branch branches[3];
    qll_stage stages[2];
    qll_station station;
    qll_fitness found;
} fitness_scene;

static void add_valve(fitness_scene *made, size_t j, double kv_m3h, const qll_pipe_size *pipe,
                      double set_psi)
{
    scene_valve_make(&made->valves[j], kv_m3h, 8.0 * TEST_SCENE_PSI, 1e-6, pipe->nominal_m);
    made->valves[j].valve.hysteresis_pa = 1.0 * TEST_SCENE_PSI;
    made->branches[j] = scene_branch(&made->valves[j], set_psi * TEST_SCENE_PSI, pipe->bore_m);
}

static void scene_make(fitness_scene *made)
{
    memset(made, 0, sizeof *made);
    made->still = (qll_point){0.0, 110.0 * TEST_SCENE_PSI};
    made->site = scene_site(made->sizes, &made->still);
    made->site.pipe_limit_m = 1.5 * TEST_SCENE_INCH;
    made->site.service_m = 1.5 * TEST_SCENE_INCH;
    made->peak_gpm = 20.0;
    add_valve(made, 0, 10.0, &scene_sizes[1], 60.0);
    made->stages[0] = (qll_stage){made->branches, 1, 110.0 * TEST_SCENE_PSI};
    made->station = (qll_station){made->stages, 1};
}

static void look(fitness_scene *made, qll_arena *arena)
{
    double flow_m3s = made->peak_gpm * TEST_SCENE_GPM;
    double always = 1.0;
    scene_demand_make(&made->demand, flow_m3s, &flow_m3s, &always, 1);
    CHECK(qll_duty_make(&made->site, &made->demand.scenario, 1, 24, arena, &made->duty) == QLL_OK);
    CHECK(scene_yardstick(&made->site, &made->duty, arena, &made->yardstick));
    CHECK(qll_station_fitness(&made->station, &made->yardstick, arena, &made->found) == QLL_OK);
}

/* @p rule is broken by @p breach, and no other. */
static void check_alone(fitness_scene *made, qll_practice rule, double breach)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    look(made, arena);
    CHECK(!made->found.is_fit);
    for (size_t r = 0; r < QLL_PRACTICE_COUNT; r++) {
        if (r == (size_t)rule) {
            CHECK_NEAR(made->found.breach[r], breach, 0.02);
        } else if (!CHECK(made->found.breach[r] == 0.0)) {
            printf("    %s too: %g\n", qll_practice_words[r], made->found.breach[r]);
        }
    }
    CHECK_NEAR(made->found.total, made->found.breach[rule], 1e-12);
    qll_arena_close(arena);
}

static void check_fit(fitness_scene *made)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    look(made, arena);
    if (!CHECK(made->found.is_fit && made->found.total == 0.0)) {
        for (size_t r = 0; r < QLL_PRACTICE_COUNT; r++) {
            printf("    %s %g\n", qll_practice_words[r], made->found.breach[r]);
        }
    }
    qll_arena_close(arena);
}

TEST(what_breaks_nothing_is_fit)
{
    fitness_scene made;
    scene_make(&made);
    check_fit(&made);
}

TEST(rating_alone)
{
    fitness_scene made;
    scene_make(&made);
    made.valves[0].valve.inlet_max_pa_gauge = 100.0 * TEST_SCENE_PSI;
    check_alone(&made, QLL_PRACTICE_RATING, 0.1);
    CHECK_NEAR(made.found.value[QLL_PRACTICE_RATING], 110.0 * TEST_SCENE_PSI, 1e-3);
    CHECK_NEAR(made.found.limit[QLL_PRACTICE_RATING], 100.0 * TEST_SCENE_PSI, 1e-3);
    made.valves[0].valve.inlet_max_pa_gauge = 110.1 * TEST_SCENE_PSI;
    check_fit(&made);
    made.valves[0].valve.set_max_pa_gauge = 55.0 * TEST_SCENE_PSI;
    check_alone(&made, QLL_PRACTICE_RATING, 0.5); /* in tens of psi */
    made.valves[0].valve.set_max_pa_gauge = 60.0 * TEST_SCENE_PSI;
    check_fit(&made);
    made.valves[0].valve.set_min_pa_gauge = 63.0 * TEST_SCENE_PSI;
    made.valves[0].valve.set_max_pa_gauge = 90.0 * TEST_SCENE_PSI;
    check_alone(&made, QLL_PRACTICE_RATING, 0.3);
    scene_make(&made);
    made.valves[0].valve.temperature_max_degc = 12.0; /* water of 15 degC */
    check_alone(&made, QLL_PRACTICE_RATING, 0.3);
}

TEST(size_alone)
{
    fitness_scene made;
    scene_make(&made);
    made.site.pipe_limit_m = 0.75 * TEST_SCENE_INCH;
    check_alone(&made, QLL_PRACTICE_SIZE, 1.0 / (1.05 * 0.75) - 1.0);
    made.site.pipe_limit_m = 0.97 * TEST_SCENE_INCH; /* DN 25 is 1 in */
    check_fit(&made);
    made.site.pipe_limit_m = NAN;
    check_fit(&made);
}

TEST(pilot_alone)
{
    fitness_scene made;
    scene_make(&made);
    made.valves[0].valve.acting = QLL_ACTING_PILOT;
    check_fit(&made);
    made.site.service_m = 1.25 * TEST_SCENE_INCH;
    check_alone(&made, QLL_PRACTICE_PILOT, 1.0);
    made.site.service_m = NAN; /* then the largest that fits counts */
    check_fit(&made);
    made.site.pipe_limit_m = 1.25 * TEST_SCENE_INCH;
    check_alone(&made, QLL_PRACTICE_PILOT, 1.0);
}

TEST(ratio_alone)
{
    fitness_scene made;
    scene_make(&made);
    made.still.y = 180.0 * TEST_SCENE_PSI;
    made.site.supply.static_low_pa_gauge = made.still.y;
    made.site.supply.static_high_pa_gauge = 179.99 * TEST_SCENE_PSI;
    check_fit(&made);
    made.site.supply.static_high_pa_gauge = 189.0 * TEST_SCENE_PSI;
    check_alone(&made, QLL_PRACTICE_RATIO, 189.0 / 60.0 / 3.0 - 1.0);
}

/* A first stage over 60 psi behind it. */
static void make_two_stages(fitness_scene *made, double first_psi)
{
    scene_make(made);
    add_valve(made, 1, 10.0, &scene_sizes[1], 60.0);
    made->branches[0].set_pa_gauge = first_psi * TEST_SCENE_PSI;
    made->stages[1] = (qll_stage){made->branches + 1, 1, first_psi * TEST_SCENE_PSI};
    made->station.stage_count = 2;
}

TEST(order_alone)
{
    fitness_scene made;
    make_two_stages(&made, 85.0);
    check_fit(&made);
    /* 20 gpm through a straight law of Kv 10 over 8 psi, with some 35 psi over it: 4.54 m3/h =
     * 10 x / 8 sqrt(2.41 + ...) psi, so about 2.3 psi of fall-off; 1 psi of hysteresis: 74 psi hold 70.7. */
    make_two_stages(&made, 74.0);
    check_fit(&made);
    make_two_stages(&made, 72.0);
    qll_arena *arena = qll_arena_open(1 << 22);
    look(&made, arena);
    double held_psi = made.found.value[QLL_PRACTICE_ORDER] / TEST_SCENE_PSI;
    CHECK_WITHIN(held_psi, 72.0 - 1.0 - 2.3, 0.2);
    qll_arena_close(arena);
    check_alone(&made, QLL_PRACTICE_ORDER, (70.0 - held_psi) / 10.0);
}

/* A small valve above a large one: Kv 4 and 10. */
static void make_pair(fitness_scene *made, double gap_psi)
{
    scene_make(made);
    add_valve(made, 0, 4.0, &scene_sizes[0], 60.0 + gap_psi);
    add_valve(made, 1, 10.0, &scene_sizes[1], 60.0);
    made->stages[0].branch_count = 2;
}

TEST(hand_over_alone)
{
    fitness_scene made;
    make_pair(&made, 4.0);
    check_fit(&made);
    make_pair(&made, 2.0);
    check_fit(&made); /* both bands, no more */
    make_pair(&made, 1.5);
    check_alone(&made, QLL_PRACTICE_HANDOVER, 0.05);
    make_pair(&made, 7.2); /* nine tenths of 8 psi */
    check_fit(&made);
    make_pair(&made, 7.7);
    check_alone(&made, QLL_PRACTICE_HANDOVER, 0.05);
    /* What moves with the inlet comes too near at the worse end of it. */
    make_pair(&made, 3.0);
    made.site.supply.static_high_pa_gauge = 130.0 * TEST_SCENE_PSI;
    made.valves[1].valve.inlet_effect = 0.1;
    made.stages[0].set_inlet_pa_gauge = 120.0 * TEST_SCENE_PSI;
    check_fit(&made);
    made.valves[1].valve.inlet_effect = 0.15; /* 10 psi above the middle: 1.5 psi nearer */
    check_alone(&made, QLL_PRACTICE_HANDOVER, 0.05);
}

/* v [ft/s] = 0.4085 gpm / d^2 [in] (handbook form), of the valve's own inch. */
TEST(speed_alone)
{
    fitness_scene made;
    scene_make(&made);
    made.peak_gpm = 14.9 / 0.4085;
    check_fit(&made);
    made.peak_gpm = 16.5 / 0.4085;
    check_alone(&made, QLL_PRACTICE_SPEED, 0.1);
    CHECK_NEAR(made.found.value[QLL_PRACTICE_SPEED], 16.5 * TEST_SCENE_FPS, 1e-3);
}

/* No outlet is named: 20 % of 60 psi may be missing; a straight law of 24 psi at full travel. */
TEST(delivery_alone)
{
    fitness_scene made;
    scene_make(&made);
    add_valve(&made, 0, 5.0, &scene_sizes[1], 60.0);
    made.valves[0].points[1].x = 24.0 * TEST_SCENE_PSI;
    made.valves[0].law.full_falloff_pa = 24.0 * TEST_SCENE_PSI;
    check_fit(&made);
    made.valves[0].points[1].y =
        2.9; /* 4.54 m3/h with 62 to 65 psi over it: all but 22 psi of 24 */
    qll_arena *arena = qll_arena_open(1 << 22);
    look(&made, arena);
    double outlet_psi = made.found.value[QLL_PRACTICE_DELIVERY] / TEST_SCENE_PSI;
    double falloff_psi = 60.0 - outlet_psi;
    CHECK_NEAR(2.9 * falloff_psi / 24.0 * sqrt((110.0 - outlet_psi) * TEST_SCENE_PSI / 1e5),
               20.0 * 0.2271247, 1e-3);
    CHECK_NEAR(made.found.limit[QLL_PRACTICE_DELIVERY], 48.0 * TEST_SCENE_PSI, 1e-9);
    qll_arena_close(arena);
    check_alone(&made, QLL_PRACTICE_DELIVERY, (48.0 - outlet_psi) / 10.0);
    /* An outlet that is content with less. */
    made.outlet =
        (qll_outlet){.name = "top", .needs_pa_gauge = (outlet_psi - 1.0) * TEST_SCENE_PSI};
    made.site.outlets = &made.outlet;
    made.site.outlet_count = 1;
    check_fit(&made);
    /* Or one that wants what the street cannot give: 5 psi below the street is all that is asked for. */
    made.outlet.needs_pa_gauge = 200.0 * TEST_SCENE_PSI;
    made.site.set_pa_gauge = 60.0 * TEST_SCENE_PSI;
    check_alone(&made, QLL_PRACTICE_DELIVERY, (55.0 - outlet_psi) / 10.0);
}

TEST(static_alone)
{
    fitness_scene made;
    scene_make(&made);
    made.outlet = (qll_outlet){
        .name = "cellar", .elevation_m = -10.0, .needs_pa_gauge = 20.0 * TEST_SCENE_PSI};
    made.site.outlets = &made.outlet;
    made.site.outlet_count = 1;
    /* 60 psi, 2.9 of lock-up, 10 m of water: 77.1 of 80. */
    check_fit(&made);
    made.site.static_max_pa_gauge = 75.0 * TEST_SCENE_PSI;
    double column_psi = 10.0 * 9.80665 * QLL_REFERENCE_DENSITY_KG_M3 / TEST_SCENE_PSI;
    double rest_psi = 60.0 + 0.2 * TEST_SCENE_BAR / TEST_SCENE_PSI;
    check_alone(&made, QLL_PRACTICE_STATIC, (rest_psi + column_psi - 75.0) / 10.0);
}

int main(void)
{
    TEST_RUN(what_breaks_nothing_is_fit);
    TEST_RUN(rating_alone);
    TEST_RUN(size_alone);
    TEST_RUN(pilot_alone);
    TEST_RUN(ratio_alone);
    TEST_RUN(order_alone);
    TEST_RUN(hand_over_alone);
    TEST_RUN(speed_alone);
    TEST_RUN(delivery_alone);
    TEST_RUN(static_alone);
    return TEST_END();
}
