/* What friction holds; law_valve_motion.c holds it against runs of the whole model, which knows nothing of
 * describing functions. */
#include "check.h"
#include "dynamics/held.h"
#include "dynamics/motion_state.h"
#include "random_motion.h"

static qll_arena *arena;

static qll_held held_at(const qll_regulator *valve, const qll_around *around, double flow_m3s,
                        double swing_pa)
{
    qll_lumped lumped;
    double values[16];
    qll_held held = {.keeps_up = false};
    CHECK(qll_lumped_make(valve, 1, around, arena, &lumped) == QLL_OK);
    CHECK(qll_lumped_rest(&lumped, flow_m3s, values));
    CHECK(qll_lumped_held(&lumped, values, swing_pa, arena, &held) == QLL_OK);
    return held;
}

TEST(without_friction_it_is_the_criterion)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    const qll_around around = moving_around(&scene, 1e-11);
    scene.regulator.friction_n = 0;
    scene.regulator.passage_n_s2_m2 = 0;
    const double damping = scene.regulator.damping_n_s_m;
    int grows = 0, dies = 0;
    for (int i = 0; i < 14; i++) {
        const double flow = 2e-5 * pow(1.3, i);
        scene.regulator.damping_n_s_m = damping * (i % 2 == 0 ? 1 : 30);
        qll_held held = held_at(&scene.regulator, &around, flow, 0.05 * 3e5);
        CHECK(held.keeps_up == (held.smallest.margin < 0));
        grows += held.keeps_up;
        dies += !held.keeps_up;
    }
    CHECK(grows > 2 && dies > 2);
}

TEST(friction_holds_a_swing_that_is_small_enough)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    const qll_around around = moving_around(&scene, 1e-11);
    scene.regulator.passage_n_s2_m2 = 0;
    const double flow = 1e-4;
    /* Dry friction alone: held below some swing, and from there on never again. */
    bool before = false;
    int changes = 0;
    double swing = 1;
    while (swing < 1e6) {
        bool keeps_up = held_at(&scene.regulator, &around, flow, swing).keeps_up;
        changes += keeps_up != before;
        before = keeps_up;
        swing *= 1.5;
    }
    CHECK(!held_at(&scene.regulator, &around, flow, 1).keeps_up);
    CHECK(changes <= 1);
    scene.regulator.friction_n *= 1e3;
    CHECK(!held_at(&scene.regulator, &around, flow, 0.05 * 3e5).keeps_up);
}

TEST(more_of_either_never_lets_a_swing_go)
{
    qll_random random = qll_random_seeded(9);
    for (int i = 0; i < 40; i++) {
        random_motion drawn;
        qll_arena_mark mark = qll_arena_now(arena);
        CHECK(random_motion_make(&drawn, 0.0254, 90 * 6894.757, &random, arena) == QLL_OK);
        qll_regulator more = drawn.scene.regulator;
        more.friction_n *= 10;
        more.passage_n_s2_m2 *= 10;
        const double flow = 0.02 * drawn.full_m3s, swing = 0.05 * 55 * 6894.757;
        if (!held_at(&drawn.scene.regulator, &drawn.around, flow, swing).keeps_up) {
            CHECK(!held_at(&more, &drawn.around, flow, swing).keeps_up);
        }
        qll_arena_reset(arena, mark);
    }
}

/* A pilot at rest lies in its dead band; the criterion must see it nevertheless (17 of 21 such points hunt in runs). */
TEST(a_pilot_is_not_calm_because_of_its_dead_band)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    scene.valve.acting = QLL_ACTING_PILOT;
    scene.motion.of[QLL_MOTION_STROKE_S] = 3;
    scene.motion.of[QLL_MOTION_PILOT_PA] = 0.05e5;
    scene.motion.of[QLL_MOTION_LAG_S] = 0.1;
    CHECK(moving_scene_regulator(&scene, arena) == QLL_OK);
    CHECK(scene.regulator.dead_pa > 0);
    const qll_around around = moving_around(&scene, 1e-11);
    int agree = 0, unstable = 0;
    double share = 0.01;
    while (share < 0.2) {
        const double flow = share * scene.valve.kv_m3h / 3600 * sqrt(5);
        qll_lumped lumped;
        qll_motion_found found;
        const qll_motion_event event = {1.3 * flow, flow, 0.04, 60, 20, 1e-4};
        CHECK(qll_lumped_make(&scene.regulator, 1, &around, arena, &lumped) == QLL_OK);
        CHECK(qll_motion_run(&lumped, &event, arena, &found) == QLL_OK);
        qll_held held = held_at(&scene.regulator, &around, flow, 0.05 * 3e5);
        agree += held.keeps_up == found.is_felt;
        unstable += held.keeps_up;
        share *= 1.5;
    }
    CHECK(unstable >= 3 && agree >= 6);
}

TEST(nonsense_is_refused)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    const qll_around around = moving_around(&scene, 1e-11);
    qll_lumped lumped;
    double values[16];
    qll_held held;
    CHECK(qll_lumped_make(&scene.regulator, 1, &around, arena, &lumped) == QLL_OK);
    CHECK(qll_lumped_rest(&lumped, 1e-4, values));
    const double bad[] = {0, -1, NAN, INFINITY};
    for (int i = 0; i < 4; i++) {
        CHECK(qll_lumped_held(&lumped, values, bad[i], arena, &held) == QLL_REFUSED);
    }
}

int main(void)
{
    arena = qll_arena_open(1 << 24);
    TEST_RUN(without_friction_it_is_the_criterion);
    TEST_RUN(friction_holds_a_swing_that_is_small_enough);
    TEST_RUN(more_of_either_never_lets_a_swing_go);
    TEST_RUN(a_pilot_is_not_calm_because_of_its_dead_band);
    TEST_RUN(nonsense_is_refused);
    qll_arena_close(arena);
    return TEST_END();
}
