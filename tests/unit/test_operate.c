#include "building_scene.h"
#include "check.h"
#include "station/operate.h"

#define TEST_POINTS \
    150 /* more than go through the stages together, and no whole number of rounds */

/* Two stages: one valve set to 5 bar, then two set to 3.5 and 3.2 bar. */
typedef struct operate_scene {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still;
    qll_site site;
    scene_valve valves[3];
    qll_branch branches[3];
    qll_stage stages[2];
    qll_station station;
} operate_scene;

static void scene_make(operate_scene *made)
{
    made->still = (qll_point){0.0, 9e5};
    made->site = scene_site(made->sizes, &made->still);
    static const double kv_m3h[3] = {12.0, 2.0, 9.0};
    static const double set_pa_gauge[3] = {5e5, 3.5e5, 3.2e5};
    for (size_t j = 0; j < 3; j++) {
        scene_valve_make(&made->valves[j], kv_m3h[j], 5e4, 1e-5, 0.0254);
        made->branches[j] = scene_branch(&made->valves[j], set_pa_gauge[j], 0.026);
    }
    made->stages[0] = (qll_stage){made->branches, 1, 9e5};
    made->stages[1] = (qll_stage){made->branches + 1, 2, 5e5};
    made->station = (qll_station){made->stages, 2};
}

static void check_same(const operate_scene *made, const qll_operating_point *got,
                       const qll_operating_point *want)
{
    CHECK(got->passes == want->passes && got->flow_m3s == want->flow_m3s);
    for (size_t k = 0; k < 2; k++) {
        CHECK_NEAR(got->stage_inlet_pa[k], want->stage_inlet_pa[k], 1e-12);
        CHECK_NEAR(got->stage_outlet_pa[k], want->stage_outlet_pa[k], 1e-12);
        for (size_t j = 0; j < made->stages[k].branch_count; j++) {
            CHECK_WITHIN(got->branches[k][j].flow_m3s, want->branches[k][j].flow_m3s, 1e-12);
        }
    }
    CHECK_NEAR(got->outlet_pa, want->stage_outlet_pa[1], 1e-12);
}

TEST(many_points_are_each_alone)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    operate_scene made;
    scene_make(&made);
    qll_operator *operator_made = NULL;
    qll_operating_point *points = NULL;
    qll_operating_point *alone = NULL;
    CHECK(qll_operator_make(&made.station, &made.site, arena, &operator_made) == QLL_OK);
    CHECK(qll_points_make(&made.station, TEST_POINTS, arena, &points) == QLL_OK);
    CHECK(qll_points_make(&made.station, 1, arena, &alone) == QLL_OK);
    double inlets_pa[TEST_POINTS], flows_m3s[TEST_POINTS];
    for (size_t i = 0; i < TEST_POINTS; i++) {
        inlets_pa[i] = TEST_SCENE_ATM + 5.5e5 + 2e3 * (double)i;
        flows_m3s[i] = i % 10 == 0 ? 0.0 : 1e-6 * pow(1.065, (double)i);
    }
    qll_operate(operator_made, inlets_pa, flows_m3s, TEST_POINTS, points);
    for (size_t i = 0; i < TEST_POINTS; i++) {
        qll_operate(operator_made, &inlets_pa[i], &flows_m3s[i], 1, alone);
        check_same(&made, &points[i], alone);
        CHECK(points[i].inlet_pa == inlets_pa[i] && points[i].flow_m3s == flows_m3s[i]);
    }
    CHECK(points[1].passes && !points[TEST_POINTS - 1].passes);
    /* What the first stage cannot pass has nothing behind it. */
    CHECK(isnan(points[TEST_POINTS - 1].outlet_pa));
    qll_arena_close(arena);
}

/* By hand from the pressures: ratio in gauges, xF = (p1 - p2)/(p1 - pv), sigma its inverse; the worst of the
 * stages and of the valves stands for the point. */
TEST(a_point_says_what_its_stages_do)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    operate_scene made;
    scene_make(&made);
    qll_operator *operator_made = NULL;
    qll_operating_point *point = NULL;
    CHECK(qll_operator_make(&made.station, &made.site, arena, &operator_made) == QLL_OK);
    CHECK(qll_points_make(&made.station, 1, arena, &point) == QLL_OK);
    const double inlet_pa = TEST_SCENE_ATM + 9e5;
    const double flow_m3s = 4e-4;
    qll_operate(operator_made, &inlet_pa, &flow_m3s, 1, point);
    const double vapour_pa = made.site.water.vapour_pressure_pa;
    double worst = 0.0;
    double fastest_m_s = 0.0;
    for (size_t k = 0; k < 2; k++) {
        const qll_stage_state *stage = &point->stages[k];
        double p1 = point->stage_inlet_pa[k];
        double p2 = point->stage_outlet_pa[k];
        CHECK_NEAR(stage->ratio_gauge, (p1 - TEST_SCENE_ATM) / (p2 - TEST_SCENE_ATM), 1e-12);
        CHECK_NEAR(stage->ratio_absolute, p1 / p2, 1e-12);
        CHECK_NEAR(stage->xf, (p1 - p2) / (p1 - vapour_pa), 1e-12);
        CHECK_NEAR(stage->sigma, 1.0 / stage->xf, 1e-12);
        CHECK(stage->in_charge == qll_in_charge(point->branches[k], made.stages[k].branch_count));
        size_t working = 0;
        for (size_t j = 0; j < made.stages[k].branch_count; j++) {
            working += point->branches[k][j].working ? 1 : 0;
            fastest_m_s = fmax(fastest_m_s, point->branches[k][j].velocity_m_s);
        }
        CHECK(stage->working_count == working && working > 0);
        worst = fmax(worst, stage->ratio_gauge);
    }
    CHECK(point->ratio_gauge == worst && worst > 1.0);
    CHECK(point->fastest_m_s == fastest_m_s && fastest_m_s > 0.0);
    qll_arena_close(arena);
}

TEST(friction_moves_every_set_point_by_its_own_band)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    operate_scene made;
    scene_make(&made);
    made.valves[1].valve.hysteresis_pa = 2e4;
    made.valves[2].valve.hysteresis_pa = NAN;
    qll_station shifted;
    CHECK(qll_station_shift(&made.station, -0.5, arena, &shifted) == QLL_OK);
    CHECK_NEAR(shifted.stages[0].branches[0].set_pa_gauge, 5e5 - 2.5e3, 1e-12);
    CHECK_NEAR(shifted.stages[1].branches[0].set_pa_gauge, 3.5e5 - 1e4, 1e-12);
    CHECK(shifted.stages[1].branches[1].set_pa_gauge == 3.2e5);
    CHECK(made.branches[0].set_pa_gauge == 5e5 && shifted.stages[1].set_inlet_pa_gauge == 5e5);
    qll_arena_close(arena);
}

TEST(in_charge_is_the_first_that_passes_most)
{
    qll_branch_state states[3] = {
        {.flow_m3s = 1e-4}, {.flow_m3s = 3e-4}, {.flow_m3s = 3e-4, .full_travel = true}};
    CHECK(qll_in_charge(states, 3) == 1 && qll_in_charge(states, 1) == 0);
    CHECK(!qll_all_full(states, 3) && qll_all_full(&states[2], 1));
}

/* 150 to 50 psi is 3:1, whatever the air weighs; over no pressure at all there is no ratio. */
TEST(the_ratio_is_one_of_gauges)
{
    CHECK_NEAR(qll_gauge_ratio(150.0 * TEST_SCENE_PSI + 8e4, 50.0 * TEST_SCENE_PSI + 8e4, 8e4), 3.0,
               1e-12);
    CHECK_NEAR(qll_gauge_ratio(2e5 + 8e4, 500.0 + 8e4, 8e4), 400.0, 1e-12);
    CHECK(isnan(qll_gauge_ratio(2e5 + 8e4, 8e4, 8e4)));
    CHECK(isnan(qll_gauge_ratio(2e5 + 8e4, 7e4, 8e4)));
}

int main(void)
{
    TEST_RUN(many_points_are_each_alone);
    TEST_RUN(a_point_says_what_its_stages_do);
    TEST_RUN(friction_moves_every_set_point_by_its_own_band);
    TEST_RUN(in_charge_is_the_first_that_passes_most);
    TEST_RUN(the_ratio_is_one_of_gauges);
    return TEST_END();
}
