#include "base/random.h"
#include "check.h"
#include "moving_scene.h"
#include "pipe_ends.h"

static qll_arena *arena;

/* ---- (14): valve, compliance and load alone, by Routh. ---- */

/* Left less right side of the criterion, over their sum. */
static double routh(const qll_regulator *r, const qll_lumped *l, const double *y)
{
    const qll_regulator_place p = qll_lumped_place(l, y, 0);
    const qll_regulator_slopes s = qll_regulator_slopes_at(r, l->modes[0], &p);
    double m = r->mass_kg, c = r->damping_n_s_m, k = r->spring_n_m, a = r->outlet_m2;
    double held = l->around.behind_m3_pa;
    double load = y[l->at.taps] * qll_smooth_root_slope(p.outlet_pa - l->around.barometric_pa);
    double g = -s.to_outlet[QLL_BY_OUTLET] + load;
    double gain = s.to_outlet[QLL_BY_LIFT];
    double left = (c * held + m * g) * (k * held + c * g + a * a);
    double right = m * held * (k * g + a * gain);
    return (left - right) / (left + right);
}

static void random_valve(moving_scene *scene, qll_random *random)
{
    for (int i = 0; i < QLL_MOTION_COUNT; i++) {
        scene->motion.of[i] = qll_motion_within((qll_motion_value)i, qll_random_unit(random));
    }
    scene->motion.of[QLL_MOTION_JET] = 0;
    scene->valve.inlet_effect = 0;
    CHECK(moving_scene_regulator(scene, arena) == QLL_OK);
}

TEST(eigenvalues_say_what_routh_says)
{
    qll_random random = qll_random_seeded(1);
    int stable = 0, unstable = 0;
    for (int i = 0; i < 400; i++) {
        moving_scene scene;
        moving_scene_make(&scene, arena);
        random_valve(&scene, &random);
        const qll_around around = {
            .supply_pa = scene.set_inlet_pa,
            .barometric_pa = TEST_ATMOSPHERE_PA,
            .behind_m3_pa = 1e-13 * pow(1e5, qll_random_unit(&random)),
        };
        qll_lumped lumped;
        double y[4];
        CHECK(qll_lumped_make(&scene.regulator, 1, &around, arena, &lumped) == QLL_OK);
        CHECK(lumped.at.count == 4);
        CHECK(qll_lumped_rest(&lumped, 3e-3 * pow(0.01, qll_random_unit(&random)), y));
        qll_linear linear;
        CHECK(qll_lumped_linear(&lumped, y, arena, &linear) == QLL_OK);
        double by_routh = routh(&scene.regulator, &lumped, y);
        if (fabs(by_routh) > 1e-6) {
            CHECK((by_routh > 0) == (linear.margin > 0));
            CHECK((by_routh > 0) == (linear.growth_per_s < 0));
            stable += by_routh > 0;
            unstable += by_routh < 0;
        }
    }
    CHECK(stable > 50 && unstable > 50);
}

/* hydraulics' example without the displaced water is unstable below 2.7436e-10 m3/Pa as G goes to 0; with
 * it A c = 0.0565 is far below m K_x = 0.116 and C must be over (m K_x - A c) A/(c k). */
TEST(displaced_water_moves_the_edge)
{
    qll_point opening[] = {{0, 0}, {4e-3, 5.0 / 3600 / sqrt(1e5)}};
    qll_point falloff[] = {{0, 0}, {4e-3, 60e3 * 4e-3 / 2.827e-3}};
    const qll_regulator valve = {.acting = QLL_ACTING_DIRECT,
                                 .opening = {opening, 2},
                                 .falloff = {falloff, 2},
                                 .full_m = 4e-3,
                                 .outlet_m2 = 2.827e-3,
                                 .set_pa = 4e5,
                                 .set_inlet_pa = 9e5,
                                 .choke_share = 10,
                                 .seat_n_m = 1e7,
                                 .mass_kg = 0.15,
                                 .spring_n_m = 60e3,
                                 .damping_n_s_m = 20,
                                 .breakaway = 1};
    double gain = 5.0 / 3600 / 4e-3 * sqrt(5);
    double edge = (0.15 * gain - 2.827e-3 * 20) * 2.827e-3 / (20 * 60e3);
    CHECK(edge > 1e-10 && edge < 2e-10);
    for (int side = -1; side <= 1; side += 2) {
        const qll_around around = {
            .supply_pa = 9e5, .barometric_pa = 1e5, .behind_m3_pa = edge * (1 + 0.02 * side)};
        qll_lumped lumped;
        double y[4];
        CHECK(qll_lumped_make(&valve, 1, &around, arena, &lumped) == QLL_OK);
        CHECK(qll_lumped_rest(&lumped, 1e-8, y));
        qll_linear linear;
        CHECK(qll_lumped_linear(&lumped, y, arena, &linear) == QLL_OK);
        CHECK((linear.growth_per_s < 0) == (side > 0));
    }
}

/* (15) */
TEST(damping_enough_for_the_gain_is_stable_with_any_compliance)
{
    double held = 1e-13;
    while (held < 1e-6) {
        moving_scene scene;
        moving_scene_make(&scene, arena);
        scene.valve.inlet_effect = 0;
        if (!CHECK(moving_scene_regulator(&scene, arena) == QLL_OK)) {
            return;
        }
        qll_regulator *r = &scene.regulator;
        double gain = r->opening.points[1].y / r->full_m * sqrt(5e5 + 1e5);
        r->damping_n_s_m = gain * r->mass_kg / r->outlet_m2;
        const qll_around around = {.supply_pa = scene.set_inlet_pa,
                                   .barometric_pa = TEST_ATMOSPHERE_PA,
                                   .behind_m3_pa = held};
        qll_lumped lumped;
        double y[4];
        CHECK(qll_lumped_make(r, 1, &around, arena, &lumped) == QLL_OK);
        double flow = 1e-6;
        while (flow < 3e-3) {
            qll_linear linear;
            CHECK(qll_lumped_rest(&lumped, flow, y));
            CHECK(qll_lumped_linear(&lumped, y, arena, &linear) == QLL_OK);
            CHECK(linear.margin > 0);
            flow *= 3;
        }
        held *= 3;
    }
}

/* ---- (16) to (18): the ends of pipes. ---- */

static qll_end_case ends_of(const moving_scene *scene, const qll_lumped *l, const double *y)
{
    const qll_regulator_place p = qll_lumped_place(l, y, 0);
    double load = y[l->at.taps] * qll_smooth_root_slope(y[l->at.far] - TEST_ATMOSPHERE_PA);
    return (qll_end_case){.valve = &scene->regulator,
                          .inlet_pa = p.inlet_pa,
                          .outlet_pa = p.outlet_pa,
                          .outlet = {.taps_m3s_pa = load}};
}

/* A pipe so short that it is a lump: both criteria see the same, up to (omega travel)^2, 10^-3 at 200 Hz and more. */
TEST(short_pipes_are_lumps)
{
    const double short_m = 0.03;
    qll_random random = qll_random_seeded(3);
    int unstable = 0, stable = 0;
    for (int i = 0; i < 40; i++) {
        moving_scene scene;
        moving_scene_make(&scene, arena);
        random_valve(&scene, &random);
        double density = scene.water.density_kg_m3, held;
        const qll_lumped_pipe pipe = {short_m, 0.026, 1250, 0};
        qll_around around = moving_around(&scene, 3e-11 * pow(1000, qll_random_unit(&random)));
        around.before = (qll_plug){0};
        around.behind = qll_lumped_pipe_plug(&pipe, density, &held);
        around.far_m3_pa = 1e-10;
        qll_lumped lumped;
        double y[8];
        CHECK(qll_lumped_make(&scene.regulator, 1, &around, arena, &lumped) == QLL_OK);
        CHECK(qll_lumped_rest(&lumped, 1.2e-3 * pow(0.1, qll_random_unit(&random)), y));
        qll_linear lumps, waves;
        CHECK(qll_lumped_linear(&lumped, y, arena, &lumps) == QLL_OK);
        qll_end_case ends = ends_of(&scene, &lumped, y);
        double area = 3.14159265358979 / 4 * 0.026 * 0.026;
        ends.outlet.impedance_pa_s_m3 = density * 1250 / area;
        ends.outlet.travel_s = 2 * short_m / 1250;
        ends.outlet.loss = 1e-6;
        ends.outlet.here_m3_pa = around.behind_m3_pa - held / 2;
        ends.outlet.far_m3_pa = around.far_m3_pa - held / 2;
        unsigned growing;
        CHECK(test_end_linear(&ends, &waves, &growing) == QLL_OK);
        if (fabs(lumps.margin) > 3e-5) {
            CHECK((growing > 0) == (lumps.margin < 0));
            CHECK((waves.margin < 0) == (lumps.margin < 0));
            unstable += growing > 0;
            stable += growing == 0;
        }
        if (growing > 0) {
            CHECK_NEAR(waves.frequency_hz, lumps.frequency_hz, 1e-3);
            /* Of the whole eigenvalue, of which the growth is a small part. */
            CHECK_WITHIN(waves.growth_per_s, lumps.growth_per_s,
                         1e-4 * 2 * 3.14159265358979 * lumps.frequency_hz);
        }
    }
    CHECK(unstable > 5 && stable > 5);
}

/* The turn of the argument counts what Newton's method finds. */
TEST(counts_and_roots_agree_with_long_pipes)
{
    qll_random random = qll_random_seeded(5);
    int unstable = 0;
    for (int i = 0; i < 60; i++) {
        moving_scene scene;
        moving_scene_make(&scene, arena);
        random_valve(&scene, &random);
        const qll_around around = moving_around(&scene, 1e-12);
        qll_lumped lumped;
        double y[8];
        CHECK(qll_lumped_make(&scene.regulator, 1, &around, arena, &lumped) == QLL_OK);
        CHECK(qll_lumped_rest(&lumped, 1e-3 * pow(0.03, qll_random_unit(&random)), y));
        qll_end_case ends = ends_of(&scene, &lumped, y);
        ends.outlet.impedance_pa_s_m3 = ends.inlet.impedance_pa_s_m3 = 2.35e9;
        ends.inlet.travel_s = 2 * (1 + 29 * qll_random_unit(&random)) / 1250;
        ends.outlet.travel_s = 2 * (1 + 14 * qll_random_unit(&random)) / 1250;
        ends.inlet.loss = ends.outlet.loss = 0.05;
        ends.inlet.here_m3_pa = ends.outlet.here_m3_pa = 1e-12;
        ends.outlet.far_m3_pa = 1e-11;
        qll_linear linear;
        unsigned growing;
        CHECK(test_end_linear(&ends, &linear, &growing) == QLL_OK);
        CHECK((growing > 0) == (linear.growth_per_s > 0));
        CHECK((growing > 0) == (linear.margin < 0));
        unstable += growing > 0;
    }
    CHECK(unstable > 5 && unstable < 60);
}

TEST(what_has_no_motion_is_refused)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    qll_end_case ends = {.valve = &scene.regulator, .inlet_pa = 9e5, .outlet_pa = 3.9e5};
    qll_linear linear;
    CHECK(test_end_linear(&ends, &linear, NULL) == QLL_OK);
    ends.outlet_pa = 5e5; /* shut */
    CHECK(test_end_linear(&ends, &linear, NULL) == QLL_REFUSED);
    ends.outlet_pa = 10e5;
    CHECK(test_end_linear(&ends, &linear, NULL) == QLL_REFUSED);
    ends.outlet_pa = 3.9e5;
    ends.outlet.loss = 1;
    CHECK(test_end_linear(&ends, &linear, NULL) == QLL_REFUSED);
    ends.outlet.loss = 0;
    ends.inlet.impedance_pa_s_m3 = NAN;
    CHECK(test_end_linear(&ends, &linear, NULL) == QLL_REFUSED);
    ends.inlet.impedance_pa_s_m3 = 0;
    scene.regulator.acting = QLL_ACTING_PILOT;
    CHECK(test_end_linear(&ends, &linear, NULL) == QLL_REFUSED);
}

int main(void)
{
    arena = qll_arena_open(1 << 26);
    TEST_RUN(eigenvalues_say_what_routh_says);
    TEST_RUN(displaced_water_moves_the_edge);
    TEST_RUN(damping_enough_for_the_gain_is_stable_with_any_compliance);
    TEST_RUN(short_pipes_are_lumps);
    TEST_RUN(counts_and_roots_agree_with_long_pipes);
    TEST_RUN(what_has_no_motion_is_refused);
    qll_arena_close(arena);
    return TEST_END();
}
