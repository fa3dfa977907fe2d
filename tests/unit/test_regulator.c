#include "check.h"
#include "dynamics/lumped.h"
#include "moving_scene.h"
#include "station/balance.h"

static qll_arena *arena;

/* ---- What a valve is made of. ---- */

TEST(a_sheet_gives_what_it_says)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    const qll_regulator *r = &scene.regulator;
    /* 14 mm seat (0.55 of 25.4 mm), diaphragm 12 times that, travel 0.22 of it: the middle of the ranges. */
    double seat = 3.14159265358979 / 4 * 0.01397 * 0.01397;
    CHECK_NEAR(r->outlet_m2 - r->inlet_m2, 12 * seat, 1e-12);
    CHECK_NEAR(r->inlet_m2 / r->outlet_m2, 0.05, 1e-12);
    CHECK_NEAR(r->full_m, 0.22 * 0.01397, 1e-12);
    /* Fall-off at full travel holds the spring. */
    CHECK_NEAR(r->spring_n_m * r->full_m, r->outlet_m2 * 0.85e5, 1e-12);
    /* 3 psi of lock-up squeeze the seat by 17 micrometers. */
    CHECK_NEAR(r->seat_n_m * 17e-6, r->outlet_m2 * 20684.27, 1e-6);
    /* A cube of water on the area, and the water in the passage: 12 mm of it, (1/0.03)^2 times as quick. */
    double area = r->outlet_m2 - r->inlet_m2;
    double water = scene.water.density_kg_m3;
    CHECK_NEAR(r->mass_kg, water * (pow(r->outlet_m2, 1.5) + 0.012 * area / 0.03), 1e-12);
}

TEST(what_a_catalog_knows_wins)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    scene.valve.moving_mass_kg = 0.2;
    scene.valve.spring_n_m = 50e3;
    scene.valve.damping_n_s_m = 33;
    scene.valve.diaphragm_m = sqrt(3e-3 * 4 / 3.14159265358979323846);
    scene.valve.hysteresis_pa = 4000;
    scene.valve.defaulted = 0;
    CHECK(moving_scene_regulator(&scene, arena) == QLL_OK);
    const qll_regulator *r = &scene.regulator;
    CHECK_NEAR(r->outlet_m2 * 0.95, 3e-3, 1e-12);
    CHECK(r->spring_n_m == 50e3 && r->damping_n_s_m == 33);
    CHECK_NEAR(r->full_m, r->outlet_m2 * 0.85e5 / 50e3, 1e-12);
    CHECK_NEAR(r->friction_n, 2000 * r->outlet_m2, 1e-12);
    CHECK_NEAR(r->mass_kg, 0.2 + scene.water.density_kg_m3 * 0.012 * 3e-3 / 0.03, 1e-12);
}

TEST(nonsense_is_refused)
{
    moving_scene scene;
    const double bad[] = {-1, 0, NAN, INFINITY};
    for (int i = 0; i < 4; i++) {
        moving_scene_make(&scene, arena);
        scene.motion.of[QLL_MOTION_PASSAGE] = bad[i];
        CHECK(moving_scene_regulator(&scene, arena) == QLL_REFUSED);
        moving_scene_make(&scene, arena);
        scene.motion.of[QLL_MOTION_TRAVEL] = bad[i];
        CHECK(moving_scene_regulator(&scene, arena) == QLL_REFUSED);
        moving_scene_make(&scene, arena);
        scene.motion.of[QLL_MOTION_BREAKAWAY] = bad[i];
        CHECK(moving_scene_regulator(&scene, arena) == QLL_REFUSED);
    }
    moving_scene_make(&scene, arena);
    scene.valve.inlet_effect = 1;
    CHECK(moving_scene_regulator(&scene, arena) == QLL_REFUSED);
    moving_scene_make(&scene, arena);
    scene.set_pa = NAN;
    CHECK(moving_scene_regulator(&scene, arena) == QLL_REFUSED);
    moving_scene_make(&scene, arena);
    scene.motion.of[QLL_MOTION_JET] = 50; /* stronger than any spring */
    CHECK(moving_scene_regulator(&scene, arena) == QLL_REFUSED);
}

/* ---- What moves it. ---- */

static double value_of(const qll_regulator *r, qll_regulator_mode mode,
                       const qll_regulator_place *p, int which)
{
    qll_regulator_moves m = qll_regulator_at(r, mode, p);
    return which < 2 ? m.rate[which] : which == 2 ? m.from_inlet_m3s : m.to_outlet_m3s;
}

static void check_slopes(const qll_regulator *r, qll_regulator_mode mode, qll_regulator_place p)
{
    qll_regulator_slopes s = qll_regulator_slopes_at(r, mode, &p);
    double *of[QLL_BY_COUNT] = {&p.lift_m, &p.second, &p.inlet_pa, &p.outlet_pa};
    bool pilot = r->acting == QLL_ACTING_PILOT;
    const double small[QLL_BY_COUNT] = {1e-8, pilot ? 1 : 1e-6, 10, 10};
    const double *rows[4] = {s.rate[0], s.rate[1], s.from_inlet, s.to_outlet};
    for (int which = 0; which < 4; which++) {
        for (int by = 0; by < QLL_BY_COUNT; by++) {
            double kept = *of[by];
            *of[by] = kept + small[by];
            double above = value_of(r, mode, &p, which);
            *of[by] = kept - small[by];
            double below = value_of(r, mode, &p, which);
            *of[by] = kept;
            double size = fabs(above) + fabs(below);
            CHECK_WITHIN(rows[which][by], (above - below) / (2 * small[by]),
                         2e-6 * fabs(rows[which][by]) + 4e-16 * size / small[by] + 1e-30);
        }
    }
}

/* A pilot's second place is a pressure, else it is a speed: on either side of rest, at two outlets. */
static void check_around(const qll_regulator *r, qll_regulator_mode mode, double lift_m, bool pilot)
{
    for (int sign = -1; sign <= 1; sign += 2) {
        const double second = pilot ? 3.9e5 + 3e3 * sign : 0.03 * sign;
        check_slopes(r, mode, (qll_regulator_place){lift_m, second, 9e5, 3.8e5});
        check_slopes(r, mode, (qll_regulator_place){lift_m, second, 9e5, 1e4});
    }
}

TEST(slopes_are_those_of_the_rates)
{
    for (int pilot = 0; pilot < 2; pilot++) {
        moving_scene scene;
        moving_scene_make(&scene, arena);
        scene.valve.acting = pilot ? QLL_ACTING_PILOT : QLL_ACTING_DIRECT;
        scene.motion.of[QLL_MOTION_JET] = 0.2;
        CHECK(moving_scene_regulator(&scene, arena) == QLL_OK);
        const qll_regulator *r = &scene.regulator;
        const qll_drive drives[] = {QLL_DRIVE_FREE, QLL_DRIVE_UP, QLL_DRIVE_DOWN, QLL_DRIVE_HELD};
        const double lifts[] = {-2e-5, 0.4e-3, 2e-3, r->full_m + 1e-5};
        for (int i = 0; i < 4; i++) {
            for (int j = 0; j < 4; j++) {
                qll_regulator_mode mode = {qll_regulator_region(r, lifts[j]), drives[i]};
                check_around(r, mode, lifts[j], pilot != 0);
            }
        }
    }
}

/* What the pressures do on the plug is what it does on the water: but for the seat's throttling nothing
 * is won or lost. */
TEST(the_water_it_displaces_takes_what_the_pressures_give)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    const qll_regulator *r = &scene.regulator;
    const qll_regulator_mode mode = {1, QLL_DRIVE_FREE};
    qll_regulator_place p = {1e-3, 0.05, 9e5, 3.9e5};
    const qll_regulator_moves at = qll_regulator_at(r, mode, &p);
    double through = qll_regulator_flow_m3s(r, 1, &p);
    double displaced_w =
        p.inlet_pa * (at.from_inlet_m3s - through) - p.outlet_pa * (at.to_outlet_m3s - through);
    p.inlet_pa = r->set_inlet_pa;
    p.outlet_pa = r->set_pa;
    double without = qll_regulator_at(r, mode, &p).rate[1];
    double by_pressure_w = r->mass_kg * (at.rate[1] - without) * p.second;
    double reference_w = (r->inlet_m2 * r->set_inlet_pa - r->outlet_m2 * r->set_pa) * p.second;
    CHECK_NEAR(displaced_w, by_pressure_w + reference_w, 1e-9);
    CHECK_NEAR(at.to_outlet_m3s - through, r->outlet_m2 * p.second, 1e-15);
}

TEST(the_seat_never_pulls_and_takes_energy_out_of_a_blow)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    const qll_regulator *r = &scene.regulator;
    const qll_regulator_mode in_seat = {0, QLL_DRIVE_FREE};
    qll_regulator_place p = {-1e-5, 0, r->set_inlet_pa, r->set_pa};
    double still = qll_regulator_at(r, in_seat, &p).rate[1] * r->mass_kg;
    CHECK_NEAR(still, (r->seat_n_m + r->spring_n_m) * 1e-5, 1e-12);
    p.second = -0.1;
    double going_in = qll_regulator_at(r, in_seat, &p).rate[1];
    p.second = 0.1;
    double coming_out = qll_regulator_at(r, in_seat, &p).rate[1];
    CHECK(going_in > coming_out);
    p.second = 10; /* torn off: only spring, damping and passage are left */
    double torn = qll_regulator_at(r, in_seat, &p).rate[1] * r->mass_kg;
    CHECK_NEAR(torn, r->spring_n_m * 1e-5 - r->damping_n_s_m * 10 - r->passage_n_s2_m2 * 100,
               1e-12);
    CHECK(qll_regulator_flow_m3s(r, 0, &p) == 0);
}

/* ---- At rest: what the balance of a stage says, by other code. ---- */

TEST(rest_is_the_balance_of_a_stage)
{
    for (int pilot = 0; pilot < 2; pilot++) {
        moving_scene scene;
        moving_scene_make(&scene, arena);
        scene.valve.acting = pilot ? QLL_ACTING_PILOT : QLL_ACTING_DIRECT;
        CHECK(moving_scene_regulator(&scene, arena) == QLL_OK);
        const double atmosphere = 101325;
        qll_branch branch = {.valve = &scene.valve,
                             .law = &scene.law,
                             .set_pa_gauge = scene.set_pa - atmosphere,
                             .pipe_bore_m = 0.0254,
                             .series_kv_m3h = NAN};
        qll_stage stage = {&branch, 1, scene.set_inlet_pa - atmosphere};
        qll_stage_solver *solver;
        CHECK(qll_stage_solver_make(&stage, &scene.water, atmosphere, arena, &solver) == QLL_OK);
        double inlet_pa = 6e5;
        while (inlet_pa < 14e5) {
            double flow = 1e-5;
            while (flow < 2e-3) {
                qll_stage_point point = qll_stage_solve(solver, inlet_pa, flow);
                double lift = qll_regulator_rest_m(&scene.regulator, inlet_pa, point.outlet_pa);
                qll_regulator_place place = {.lift_m = lift,
                                             .second = 0,
                                             .inlet_pa = inlet_pa,
                                             .outlet_pa = point.outlet_pa};
                size_t region = qll_regulator_region(&scene.regulator, lift);
                CHECK_NEAR(qll_regulator_flow_m3s(&scene.regulator, region, &place), flow, 2e-8);
                flow *= 2;
            }
            inlet_pa += 1e5;
        }
    }
}

int main(void)
{
    arena = qll_arena_open(1 << 24);
    TEST_RUN(a_sheet_gives_what_it_says);
    TEST_RUN(what_a_catalog_knows_wins);
    TEST_RUN(nonsense_is_refused);
    TEST_RUN(slopes_are_those_of_the_rates);
    TEST_RUN(the_water_it_displaces_takes_what_the_pressures_give);
    TEST_RUN(the_seat_never_pulls_and_takes_energy_out_of_a_blow);
    TEST_RUN(rest_is_the_balance_of_a_stage);
    qll_arena_close(arena);
    return TEST_END();
}
