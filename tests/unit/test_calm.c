/* What calms: the amounts are held against runs of the full model, with and without them. */
#include "check.h"
#include "dynamics/calm.h"
#include "dynamics/held.h"
#include "moving_scene.h"

static qll_arena *arena;
static const double swing_pa = QLL_FELT_SWING * 3e5;

static qll_regulator pilot_of(double nominal_m, double kv_m3h)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    scene.valve = moving_valve(nominal_m, kv_m3h, 0.3e5);
    scene.valve.acting = QLL_ACTING_PILOT;
    scene.motion.of[QLL_MOTION_STROKE_S] = 3;
    scene.motion.of[QLL_MOTION_PILOT_PA] = 0.05e5;
    scene.motion.of[QLL_MOTION_LAG_S] = 0.1;
    CHECK(moving_scene_regulator(&scene, arena) == QLL_OK);
    return scene.regulator;
}

static qll_around around_pair(void)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    return moving_around(&scene, 1e-11);
}

static bool is_felt(const qll_regulator *valves, size_t count, const qll_around *around,
                    double flow_m3s)
{
    qll_lumped lumped;
    qll_motion_found found = {.is_felt = false};
    const qll_motion_event event = {1.3 * flow_m3s, flow_m3s, 0.04, 90, 30, 1e-4};
    CHECK(qll_lumped_make(valves, count, around, arena, &lumped) == QLL_OK);
    CHECK(qll_motion_run(&lumped, &event, arena, &found) == QLL_OK);
    return found.is_felt;
}

TEST(an_offset_stops_two_pilots_that_hunt)
{
    qll_regulator pair[2] = {pilot_of(0.0254, 5), pilot_of(0.0508, 20)};
    const qll_around around = around_pair();
    const double flow = 5e-4;
    CHECK(is_felt(pair, 2, &around, flow));  /* set alike they hunt */
    CHECK(!is_felt(pair, 1, &around, flow)); /* the small one alone does not */
    const qll_calm_case given = {pair, 2, &around, &flow, 1, swing_pa};
    qll_calm calm;
    CHECK(qll_calm_find(&given, QLL_CALM_BY_OFFSET, 0.5e5, arena, &calm) == QLL_OK);
    CHECK(calm.is_needed && calm.is_found && !calm.is_felt);
    CHECK(calm.amount > 0.02e5 && calm.amount < 0.3e5 && calm.swing < QLL_FELT_SWING);
    pair[1].set_pa -= calm.amount;
    CHECK(!is_felt(pair, 2, &around, flow));
    pair[1].set_pa += 0.9 * calm.amount;
    CHECK(is_felt(pair, 2, &around, flow)); /* a tenth of it is not enough */
}

TEST(no_offset_stops_one_that_hunts_alone)
{
    const qll_regulator pair[2] = {pilot_of(0.0508, 20), pilot_of(0.0508, 20)};
    const qll_around around = around_pair();
    const double flow = 2e-4;
    CHECK(is_felt(pair, 1, &around, flow));
    const qll_calm_case given = {pair, 2, &around, &flow, 1, swing_pa};
    qll_calm calm;
    CHECK(qll_calm_find(&given, QLL_CALM_BY_OFFSET, 0.5e5, arena, &calm) == QLL_OK);
    CHECK(calm.is_needed && !calm.is_found);
}

/* (15): A c >= m K_x is enough whatever surrounds the valve, so no more is ever asked for. */
TEST(damping_stops_chatter)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    qll_regulator *valve = &scene.regulator;
    valve->friction_n = 0;
    const qll_around around = moving_around(&scene, 1e-11);
    const double flow = 1e-4;
    const qll_calm_case given = {valve, 1, &around, &flow, 1, swing_pa};
    qll_calm calm;
    qll_lumped lumped;
    double values[16];
    CHECK(qll_lumped_make(valve, 1, &around, arena, &lumped) == QLL_OK);
    CHECK(qll_lumped_rest(&lumped, flow, values));
    const qll_regulator_place place = qll_lumped_place(&lumped, values, 0);
    const qll_regulator_slopes slopes = qll_regulator_slopes_at(valve, lumped.modes[0], &place);
    const double enough = valve->mass_kg * slopes.to_outlet[QLL_BY_LIFT] / valve->outlet_m2;
    CHECK(qll_calm_find(&given, QLL_CALM_BY_DAMPING, 10 * enough, arena, &calm) == QLL_OK);
    if (calm.is_needed) {
        CHECK(calm.is_found && !calm.is_felt);
        CHECK(valve->damping_n_s_m + calm.amount <= 1.03 * enough);
    }
    valve->passage_n_s2_m2 = 0;
    CHECK(qll_calm_find(&given, QLL_CALM_BY_DAMPING, 10 * enough, arena, &calm) == QLL_OK);
    CHECK(calm.is_needed && calm.is_found && !calm.is_felt);
    CHECK(valve->damping_n_s_m + calm.amount <= 1.03 * enough);
}

TEST(air_stops_it_or_is_not_found)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    scene.regulator.friction_n = 0;
    scene.regulator.passage_n_s2_m2 = 0;
    const qll_around around = moving_around(&scene, 1e-11);
    const double flow = 1e-4;
    const qll_calm_case given = {&scene.regulator, 1, &around, &flow, 1, swing_pa};
    qll_calm calm;
    CHECK(qll_calm_find(&given, QLL_CALM_BY_AIR, 0.02, arena, &calm) == QLL_OK);
    CHECK(calm.is_needed);
    CHECK(!calm.is_found || calm.amount <= 0.02);
}

TEST(what_is_calm_needs_nothing)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    scene.regulator.damping_n_s_m *= 1e3;
    const qll_around around = moving_around(&scene, 1e-11);
    const double flow = 3e-4;
    const qll_calm_case given = {&scene.regulator, 1, &around, &flow, 1, swing_pa};
    qll_calm calm;
    CHECK(qll_calm_find(&given, QLL_CALM_BY_DAMPING, 100, arena, &calm) == QLL_OK);
    CHECK(!calm.is_needed && !calm.is_found && calm.amount == 0 && !calm.is_felt);
    CHECK(qll_calm_find(&given, QLL_CALM_BY_DAMPING, 0, arena, &calm) == QLL_REFUSED);
    CHECK(qll_calm_find(&given, QLL_CALM_BY_DAMPING, NAN, arena, &calm) == QLL_REFUSED);
}

int main(void)
{
    arena = qll_arena_open(1 << 26);
    TEST_RUN(an_offset_stops_two_pilots_that_hunt);
    TEST_RUN(no_offset_stops_one_that_hunts_alone);
    TEST_RUN(damping_stops_chatter);
    TEST_RUN(air_stops_it_or_is_not_found);
    TEST_RUN(what_is_calm_needs_nothing);
    qll_arena_close(arena);
    return TEST_END();
}
