#include "base/random.h"
#include "check.h"
#include "dynamics/motion_state.h"
#include "moving_scene.h"

static qll_arena *arena;

#define TEST_VALUES_MOST 12

/* ---- Equations. ---- */

static void two_valves(moving_scene *scene, qll_regulator *valves)
{
    moving_scene_make(scene, arena);
    scene->motion.of[QLL_MOTION_JET] = 0.1;
    CHECK(moving_scene_regulator(scene, arena) == QLL_OK);
    valves[0] = scene->regulator;
    scene->valve.acting = QLL_ACTING_PILOT;
    scene->motion.of[QLL_MOTION_JET] = 0;
    CHECK(moving_scene_regulator(scene, arena) == QLL_OK);
    valves[1] = scene->regulator;
}

/* A state off its rest, everything moving. */
static void stirred(const qll_lumped *l, qll_random *random, double *y)
{
    const double by[TEST_VALUES_MOST] = {1e-4, 0.05, 1e-4, 3e3, 2e4, 1e-4, 2e4, 2e4, 1e-4, 1e-7};
    for (size_t i = 0; i < l->at.count; i++) {
        y[i] += by[i] * (2 * qll_random_unit(random) - 1);
    }
}

TEST(slopes_of_two_valves_with_air_and_pipes)
{
    moving_scene scene;
    qll_regulator valves[2];
    two_valves(&scene, valves);
    qll_around around = moving_around(&scene, 1e-11);
    around.air_m3 = 2e-6;
    around.air_at_pa = 4e5;
    qll_lumped l;
    double y[TEST_VALUES_MOST];
    CHECK(qll_lumped_make(valves, 2, &around, arena, &l) == QLL_OK && l.at.count == 10);
    CHECK(qll_lumped_rest(&l, 8e-4, y));
    qll_random random = qll_random_seeded(2);
    stirred(&l, &random, y);
    double slopes[100] = {0};
    qll_lumped_slopes(&l, y, slopes);
    const double small[] = {1e-9, 1e-6, 1e-9, 1, 1, 1e-9, 1, 1, 1e-9, 1e-12};
    for (size_t column = 0; column < 10; column++) {
        double above[TEST_VALUES_MOST], below[TEST_VALUES_MOST], kept = y[column];
        y[column] = kept + small[column];
        qll_lumped_rates(&l, y, above);
        y[column] = kept - small[column];
        qll_lumped_rates(&l, y, below);
        y[column] = kept;
        for (size_t row = 0; row < 10; row++) {
            double got = slopes[row * 10 + column];
            double rounding = 1e-15 * (fabs(above[row]) + fabs(below[row])) / small[column];
            CHECK_WITHIN(got, (above[row] - below[row]) / (2 * small[column]),
                         1e-5 * fabs(got) + 30 * rounding);
        }
    }
}

/* What the nodes and the diaphragm gain is what the supply gives less what the taps draw. */
TEST(water_is_neither_made_nor_lost)
{
    moving_scene scene;
    qll_regulator valves[2];
    two_valves(&scene, valves);
    const qll_around around = moving_around(&scene, 1e-11);
    qll_lumped l;
    double y[TEST_VALUES_MOST], rates[TEST_VALUES_MOST];
    CHECK(qll_lumped_make(valves, 2, &around, arena, &l) == QLL_OK);
    CHECK(qll_lumped_rest(&l, 8e-4, y));
    qll_random random = qll_random_seeded(4);
    for (int i = 0; i < 20; i++) {
        stirred(&l, &random, y);
        qll_lumped_rates(&l, y, rates);
        double held = around.before_m3_pa * rates[l.at.inlet]
                      + around.behind_m3_pa * rates[l.at.outlet]
                      + around.far_m3_pa * rates[l.at.far];
        double chamber = (valves[0].outlet_m2 - valves[0].inlet_m2) * y[1];
        double taps = y[l.at.taps] * qll_smooth_root(y[l.at.far] - around.barometric_pa);
        CHECK_WITHIN(held, y[l.at.flow_in] - taps + chamber, 1e-15);
    }
}

TEST(rest_stays_at_rest)
{
    moving_scene scene;
    qll_regulator valves[2];
    two_valves(&scene, valves);
    const qll_around around = moving_around(&scene, 1e-11);
    qll_lumped l;
    double y[TEST_VALUES_MOST], rates[TEST_VALUES_MOST];
    CHECK(qll_lumped_make(valves, 2, &around, arena, &l) == QLL_OK);
    double flow = 0;
    while (flow < 1e-3) {
        CHECK(qll_lumped_rest(&l, flow, y));
        qll_lumped_rates(&l, y, rates);
        CHECK_WITHIN(rates[1] * valves[0].mass_kg, 0, 1e-6 * valves[0].outlet_m2 * 4e5);
        CHECK_WITHIN(rates[2], 0, 1e-12);
        CHECK_WITHIN(rates[l.at.far] * around.far_m3_pa, 0, 1e-15);
        CHECK_WITHIN(rates[l.at.outlet] * around.behind_m3_pa, 0, 1e-9 * flow + 1e-14);
        flow = flow * 2 + 1e-6;
    }
}

/* ---- Friction and seat, by closed forms: pressures that do not give, so a mass on a spring. ---- */

static qll_regulator block(double friction_n)
{
    static const qll_point opening[] = {{0, 0}, {10e-3, 1e-6}}, falloff[] = {{0, 0}, {10e-3, 2e5}};
    return (qll_regulator){.acting = QLL_ACTING_DIRECT,
                           .opening = {opening, 2},
                           .falloff = {falloff, 2},
                           .full_m = 10e-3,
                           .outlet_m2 = 3e-3,
                           .set_pa = 5e5,
                           .set_inlet_pa = 9e5,
                           .choke_share = 10,
                           .seat_n_m = 1e7,
                           .mass_kg = 0.5,
                           .spring_n_m = 60e3,
                           .damping_n_s_m = 0,
                           .friction_n = friction_n,
                           .breakaway = 1.5};
}

static const qll_around nothing_gives = {
    .supply_pa = 9e5, .behind_m3_pa = 1e6, .barometric_pa = 1e5};

static qll_run_count run_block(const qll_regulator *valve, double lift_m, double outlet_pa,
                               double duration_s, double *y)
{
    qll_lumped l;
    CHECK(qll_lumped_make(valve, 1, &nothing_gives, arena, &l) == QLL_OK);
    y[0] = lift_m;
    y[1] = 0;
    y[2] = outlet_pa;
    y[3] = 0;
    l.modes[0] = (qll_regulator_mode){qll_regulator_region(valve, lift_m), QLL_DRIVE_FREE};
    const qll_run_order order = {
        .duration_s = duration_s, .tolerance = 1e-9, .steps_most = 1000000};
    qll_run_count count;
    CHECK(qll_lumped_run(&l, &order, y, arena, &count) == QLL_OK && count.finished);
    return count;
}

/* Every half swing ends 2 F/k nearer to the middle, until the spring is too weak for what holds at rest. */
TEST(friction_takes_its_share_of_every_half_swing)
{
    const double friction = 12, step = 2 * friction / 60e3,
                 period = 2 * 3.14159265358979 * sqrt(0.5 / 60e3);
    const qll_regulator valve = block(friction);
    double y[4];
    const double middle = 5e-3; /* 5 bar less 1 bar on 30 cm2 is 300 N, 5 mm of the spring */
    for (int halves = 0; halves < 4; halves++) {
        (void)run_block(&valve, middle + 1.9e-3, 4e5, period / 2 * halves + 1e-9, y);
        double sign = halves % 2 == 0 ? 1 : -1;
        CHECK_WITHIN(y[0], middle + sign * (1.9e-3 - halves * step), 1e-11);
    }
    /* 1.9 mm less 0.4 each half swing: 1.5, 1.1, 0.7, 0.3; 0.3 mm pull with 18 N, as much as holds at rest
     * but for rounding, so it is started 1 % nearer. */
    (void)run_block(&valve, middle + 1.897e-3, 4e5, 10, y);
    CHECK_WITHIN(y[0], middle + 0.297e-3, 1e-10);
    CHECK(y[1] == 0);
}

TEST(what_holds_at_rest_holds_until_it_gives_way)
{
    const qll_regulator valve = block(12);
    double y[4];
    qll_run_count held = run_block(&valve, 5e-3 + 0.299e-3, 4e5, 10, y);
    CHECK(y[0] == 5e-3 + 0.299e-3 && held.events == 0 && held.steps < 60);
    (void)run_block(&valve, 5e-3 + 0.301e-3, 4e5, 10, y);
    /* 0.301 mm: off, and as far beyond F/k = 0.2 mm as it was before it. */
    CHECK_WITHIN(y[0], 5e-3 + 0.4e-3 - 0.301e-3, 1e-11);
}

typedef struct bounces {
    int count;
    double time_s[8], speed_m_s[8];
} bounces;

static void note_blow(void *context, double time_s, size_t valve, bool seat, double speed_m_s)
{
    bounces *b = context;
    CHECK(valve == 0 && seat);
    if (b->count < 8) {
        b->time_s[b->count] = time_s;
        b->speed_m_s[b->count] = speed_m_s;
    }
    b->count += 1;
}

/* From 1 mm above a seat that 30 N close: a free swing about -0.5 mm until it meets the seat, half a swing
 * in seat and spring together, and back. Without losses for ever. */
TEST(a_plug_meets_its_seat_where_and_as_fast_as_it_must)
{
    qll_regulator valve = block(0);
    qll_lumped l;
    double y[4] = {1e-3, 0, 5.1e5, 0};
    CHECK(qll_lumped_make(&valve, 1, &nothing_gives, arena, &l) == QLL_OK);
    l.modes[0] = (qll_regulator_mode){1, QLL_DRIVE_FREE};
    bounces b = {0};
    const qll_run_order order = {.duration_s = 0.1,
                                 .tolerance = 1e-10,
                                 .steps_most = 1000000,
                                 .watch = {.blow = note_blow, .context = &b}};
    qll_run_count count;
    CHECK(qll_lumped_run(&l, &order, y, arena, &count) == QLL_OK);
    /* 3e-3 m2 x 0.1 bar = 30 N over 60 N/mm: the middle lies 0.5 mm below the seat; 1.5 mm of swing. */
    double own = sqrt(60e3 / 0.5), in_seat = sqrt((60e3 + 1e7) / 0.5);
    double speed = own * sqrt(1.5 * 1.5 - 0.5 * 0.5) * 1e-3;
    double falls = acos(0.5 / 1.5) / own;
    /* In the seat the middle lies 30 N/(k + k_s) deep: atan of speed over that, on either side. */
    double sunk = 30 / (60e3 + 1e7);
    double stays = 2 * (3.14159265358979 - atan2(speed / in_seat, sunk)) / in_seat;
    CHECK(b.count >= 8);
    for (int i = 0; i < 8 && i < b.count; i++) {
        CHECK_NEAR(b.speed_m_s[i], speed, 1e-7);
        /* It leaves faster than it sinks only by the time above. */
        CHECK_NEAR(b.time_s[i], falls + i * (stays + 2 * falls), 1e-6);
    }
}

TEST(a_soft_seat_takes_energy_out_of_every_blow)
{
    qll_regulator valve = block(0);
    valve.seat_loss_s_m = 3;
    qll_lumped l;
    double y[4] = {1e-3, 0, 5.1e5, 0};
    CHECK(qll_lumped_make(&valve, 1, &nothing_gives, arena, &l) == QLL_OK);
    l.modes[0] = (qll_regulator_mode){1, QLL_DRIVE_FREE};
    bounces b = {0};
    const qll_run_order order = {.duration_s = 0.1,
                                 .tolerance = 1e-8,
                                 .steps_most = 1000000,
                                 .watch = {.blow = note_blow, .context = &b}};
    qll_run_count count;
    CHECK(qll_lumped_run(&l, &order, y, arena, &count) == QLL_OK);
    CHECK(b.count >= 8);
    for (int i = 1; i < 8; i++) {
        CHECK(b.speed_m_s[i] < b.speed_m_s[i - 1] && b.speed_m_s[i] > 0.3 * b.speed_m_s[i - 1]);
    }
}

/* ---- The state that a run shows. ---- */

static qll_motion_found found_of(moving_scene *scene, const qll_around *around, double share,
                                 double duration_s)
{
    double full = 5.0 / 3600 * sqrt(5);
    qll_lumped l;
    CHECK(qll_lumped_make(&scene->regulator, 1, around, arena, &l) == QLL_OK);
    const qll_motion_event event = {.flow_before_m3s = 1.3 * share * full,
                                    .flow_m3s = share * full,
                                    .taps_s = 0.04,
                                    .duration_s = duration_s,
                                    .watched_s = duration_s / 4,
                                    .tolerance = 1e-4};
    qll_motion_found found;
    CHECK(qll_motion_run(&l, &event, arena, &found) == QLL_OK);
    CHECK(found.count.finished);
    CHECK(found.least_ever_pa <= found.least_pa && found.most_ever_pa >= found.most_pa);
    return found;
}

TEST(states_are_told_apart)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    scene.motion.of[QLL_MOTION_FRICTION_PA] = 0;
    scene.valve.inlet_effect = 0;
    CHECK(moving_scene_regulator(&scene, arena) == QLL_OK);
    qll_around around = moving_around(&scene, 1e-11);
    qll_motion_found found = found_of(&scene, &around, 0.1, 4);
    CHECK(found.state == QLL_MOTION_STATE_CHATTERING && found.swing > 0.05 && found.is_felt);
    CHECK(found.frequency_hz > 100 && found.frequency_hz < 130);
    /* A twentieth of the compliance of a liter of air, and it is still. */
    around.behind_m3_pa = 1e-8;
    found = found_of(&scene, &around, 0.1, 12);
    CHECK(found.state == QLL_MOTION_STATE_STABLE && found.swing < 1e-4 && !found.is_felt);
    /* Friction keeps the first one quiet. */
    scene.motion.of[QLL_MOTION_FRICTION_PA] = 2100;
    CHECK(moving_scene_regulator(&scene, arena) == QLL_OK);
    around = moving_around(&scene, 1e-11);
    found = found_of(&scene, &around, 0.1, 4);
    CHECK(found.state == QLL_MOTION_STATE_STABLE && found.swing < 1e-6);
}

TEST(a_pilot_valve_too_quick_for_its_flow_hunts)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    scene.valve.acting = QLL_ACTING_PILOT;
    scene.valve.band_pa = 0.05e5;
    scene.motion.of[QLL_MOTION_STROKE_S] = 1.5;
    scene.motion.of[QLL_MOTION_FRICTION_PA] = 500;
    scene.motion.of[QLL_MOTION_LAG_S] = 0.1;
    CHECK(moving_scene_regulator(&scene, arena) == QLL_OK);
    const qll_around around = moving_around(&scene, 1e-9);
    qll_motion_found quick = found_of(&scene, &around, 0.02, 40);
    CHECK(quick.state == QLL_MOTION_STATE_HUNTING || quick.state == QLL_MOTION_STATE_SLAMMING);
    CHECK(quick.frequency_hz > 0.1 && quick.frequency_hz < 20);
    scene.motion.of[QLL_MOTION_STROKE_S] = 60;
    CHECK(moving_scene_regulator(&scene, arena) == QLL_OK);
    CHECK(found_of(&scene, &around, 0.2, 40).state == QLL_MOTION_STATE_STABLE);
}

/* ---- What makes no sense. ---- */

TEST(nonsense_is_refused)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    qll_lumped l;
    const double bad[] = {-1, NAN, INFINITY};
    for (int i = 0; i < 3; i++) {
        qll_around around = moving_around(&scene, 1e-11);
        around.behind_m3_pa = bad[i];
        CHECK(qll_lumped_make(&scene.regulator, 1, &around, arena, &l) == QLL_REFUSED);
        around = moving_around(&scene, 1e-11);
        around.supply_pa = bad[i];
        CHECK(qll_lumped_make(&scene.regulator, 1, &around, arena, &l) == QLL_REFUSED);
        around = moving_around(&scene, 1e-11);
        around.before.inertance_kg_m4 = bad[i];
        CHECK(qll_lumped_make(&scene.regulator, 1, &around, arena, &l) == QLL_REFUSED);
        around = moving_around(&scene, 1e-11);
        around.air_m3 = bad[i];
        CHECK(qll_lumped_make(&scene.regulator, 1, &around, arena, &l) == QLL_REFUSED);
    }
    const qll_around around = moving_around(&scene, 1e-11);
    CHECK(qll_lumped_make(&scene.regulator, 0, &around, arena, &l) == QLL_REFUSED);
    CHECK(qll_lumped_make(&scene.regulator, 1, &around, arena, &l) == QLL_OK);
    double y[TEST_VALUES_MOST];
    CHECK(!qll_lumped_rest(&l, NAN, y) && !qll_lumped_rest(&l, -1, y)
          && !qll_lumped_rest(&l, 1, y));
    CHECK(qll_lumped_rest(&l, 3e-4, y));
    const qll_run_order good = {.duration_s = 0.01, .tolerance = 1e-4, .steps_most = 10000};
    qll_run_count count;
    for (int i = 0; i < 3; i++) {
        qll_run_order order = good;
        order.duration_s = bad[i];
        CHECK(qll_lumped_run(&l, &order, y, arena, &count) == QLL_REFUSED);
        order = good;
        order.tolerance = bad[i];
        CHECK(qll_lumped_run(&l, &order, y, arena, &count) == QLL_REFUSED);
        order = good;
        order.move.from_s = bad[i];
        CHECK(qll_lumped_run(&l, &order, y, arena, &count) == QLL_REFUSED);
        order = good;
        order.move.opening_after = bad[i];
        CHECK(qll_lumped_run(&l, &order, y, arena, &count) == QLL_REFUSED);
        qll_motion_event event = {3e-4, 3e-4, 0, bad[i], 0.001, 1e-4};
        qll_motion_found found;
        CHECK(qll_motion_run(&l, &event, arena, &found) == QLL_REFUSED);
        event = (qll_motion_event){bad[i], 3e-4, 0, 1, 0.1, 1e-4};
        CHECK(qll_motion_run(&l, &event, arena, &found) == QLL_REFUSED);
    }
}

TEST(a_run_that_may_not_step_says_so)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    const qll_around around = moving_around(&scene, 1e-11);
    qll_lumped l;
    double y[TEST_VALUES_MOST];
    CHECK(qll_lumped_make(&scene.regulator, 1, &around, arena, &l) == QLL_OK);
    CHECK(qll_lumped_rest(&l, 3e-4, y));
    y[l.at.outlet] = 3e5;
    const qll_run_order order = {.duration_s = 10, .tolerance = 1e-8, .steps_most = 5};
    qll_run_count count;
    CHECK(qll_lumped_run(&l, &order, y, arena, &count) == QLL_OK && !count.finished);
}

TEST(no_memory_is_said)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    const qll_around around = moving_around(&scene, 1e-11);
    qll_lumped l;
    CHECK(qll_lumped_make(&scene.regulator, 1, &around, arena, &l) == QLL_OK);
    const qll_motion_event event = {3e-4, 3e-4, 0, 0.2, 0.01, 1e-4};
    qll_motion_found found;
    size_t before = qll_arena_count(arena);
    CHECK(qll_motion_run(&l, &event, arena, &found) == QLL_OK);
    size_t takes = qll_arena_count(arena) - before;
    CHECK(takes > 5);
    for (size_t nth = 1; nth <= takes; nth++) {
        qll_arena_fail(arena, nth, false);
        CHECK(qll_motion_run(&l, &event, arena, &found) == QLL_NO_MEMORY);
    }
    qll_arena_fail(arena, 0, false);
}

int main(void)
{
    arena = qll_arena_open(1 << 26);
    TEST_RUN(slopes_of_two_valves_with_air_and_pipes);
    TEST_RUN(water_is_neither_made_nor_lost);
    TEST_RUN(rest_stays_at_rest);
    TEST_RUN(friction_takes_its_share_of_every_half_swing);
    TEST_RUN(what_holds_at_rest_holds_until_it_gives_way);
    TEST_RUN(a_plug_meets_its_seat_where_and_as_fast_as_it_must);
    TEST_RUN(a_soft_seat_takes_energy_out_of_every_blow);
    TEST_RUN(states_are_told_apart);
    TEST_RUN(a_pilot_valve_too_quick_for_its_flow_hunts);
    TEST_RUN(nonsense_is_refused);
    TEST_RUN(a_run_that_may_not_step_says_so);
    TEST_RUN(no_memory_is_said);
    qll_arena_close(arena);
    return TEST_END();
}
