/* What must hold for any station: random ones, from a fixed seed. */
#include "base/random.h"
#include "building_scene.h"
#include "check.h"
#include "station/level.h"

#define TEST_STATIONS 200

typedef struct drawn {
    qll_random random;
    scene_valve valves[3];
    qll_branch branches[3];
    qll_stage stage;
} drawn;

static double between(drawn *draw, double low, double high)
{
    return low + (high - low) * qll_random_unit(&draw->random);
}

static void draw_stage(drawn *draw, size_t count)
{
    double inlet_effect = between(draw, -0.05, 0.1);
    bool same_effect = qll_random_unit(&draw->random) < 0.5;
    for (size_t j = 0; j < count; j++) {
        scene_valve_make(&draw->valves[j], between(draw, 0.5, 20.0), between(draw, 2e4, 1.5e5),
                         between(draw, 1e-6, 1e-4), between(draw, 0.01, 0.06));
        draw->valves[j].valve.inlet_effect = same_effect ? inlet_effect : between(draw, -0.05, 0.1);
        draw->valves[j].valve.fl = between(draw, 0.6, 0.95);
        draw->branches[j] = scene_branch(&draw->valves[j], between(draw, 2e5, 5e5),
                                         draw->valves[j].valve.nominal_m);
        bool strainer = qll_random_unit(&draw->random) < 0.5;
        draw->branches[j].series_kv_m3h =
            strainer ? draw->valves[j].valve.kv_m3h * between(draw, 0.8, 4.0) : (double)NAN;
    }
    draw->stage = (qll_stage){draw->branches, count, 8e5};
}

static qll_stage_solver *solver_of(const qll_stage *stage, qll_arena *arena)
{
    qll_water water = scene_water();
    qll_stage_solver *solver = NULL;
    CHECK(qll_stage_solver_make(stage, &water, TEST_SCENE_ATM, arena, &solver) == QLL_OK);
    return solver;
}

static double sum_at(const qll_stage_solver *solver, size_t count, double inlet_pa,
                     double outlet_pa)
{
    qll_branch_state states[3];
    qll_stage_states(solver, inlet_pa, 1.0, outlet_pa, states);
    double sum = 0.0;
    for (size_t j = 0; j < count; j++) {
        sum += states[j].flow_m3s;
        CHECK(states[j].opening >= 0.0 && states[j].opening <= 1.0);
    }
    return sum;
}

TEST(the_outlet_falls_as_the_flow_rises_and_flows_add_up)
{
    drawn draw = {.random = qll_random_seeded(1)};
    for (int i = 0; i < TEST_STATIONS; i++) {
        qll_arena *arena = qll_arena_open(1 << 22);
        size_t count = 1 + (size_t)i % 3;
        draw_stage(&draw, count);
        const qll_stage_solver *solver = solver_of(&draw.stage, arena);
        double inlet_pa = between(&draw, 1e5, 12e5) + TEST_SCENE_ATM;
        double before = qll_stage_solve(solver, inlet_pa, 0.0).outlet_pa;
        bool passed = true;
        for (int step = 0; step < 38; step++) {
            double flow = 1e-6 * pow(1.3, step);
            qll_stage_point point = qll_stage_solve(solver, inlet_pa, flow);
            CHECK(passed || !point.passes); /* what is too much stays too much */
            passed = point.passes;
            if (!passed) {
                continue;
            }
            CHECK(point.converged && fabs(point.residual) <= 1e-12 * flow);
            CHECK(point.outlet_pa <= before * (1.0 + 1e-13) && point.outlet_pa < inlet_pa);
            before = point.outlet_pa;
            /* An outlet pressure is a double: the flow, known to 1e-12 of itself, lies between those
             * of its neighbours. */
            double last_bits = 1e-15 * inlet_pa;
            CHECK(sum_at(solver, count, inlet_pa, point.outlet_pa + last_bits)
                  <= flow * (1.0 + 2e-12));
            CHECK(sum_at(solver, count, inlet_pa, point.outlet_pa - last_bits)
                  >= flow * (1.0 - 2e-12));
        }
        qll_arena_close(arena);
    }
}

TEST(side_by_side_is_one_by_one)
{
    drawn draw = {.random = qll_random_seeded(2)};
    for (int i = 0; i < TEST_STATIONS; i++) {
        qll_arena *arena = qll_arena_open(1 << 22);
        draw_stage(&draw, 1 + (size_t)i % 3);
        const qll_stage_solver *solver = solver_of(&draw.stage, arena);
        double inlets[37], flows[37];
        qll_stage_point points[37];
        for (size_t p = 0; p < 37; p++) {
            inlets[p] = between(&draw, 0.5e5, 12e5) + TEST_SCENE_ATM;
            flows[p] = p % 9 == 0 ? 0.0 : between(&draw, 1e-6, 1e-2);
        }
        inlets[4] = (double)NAN;
        flows[5] = (double)NAN;
        qll_stage_solve_many(solver, inlets, flows, 37, points);
        for (size_t p = 0; p < 37; p++) {
            qll_stage_point one = qll_stage_solve(solver, inlets[p], flows[p]);
            CHECK(one.passes == points[p].passes && one.converged == points[p].converged);
            CHECK_NEAR(points[p].outlet_pa, one.outlet_pa, 1e-12);
        }
        qll_arena_close(arena);
    }
}

TEST(raising_a_set_point_never_lowers_the_outlet)
{
    drawn draw = {.random = qll_random_seeded(3)};
    for (int i = 0; i < TEST_STATIONS; i++) {
        qll_arena *arena = qll_arena_open(1 << 22);
        size_t count = 1 + (size_t)i % 3;
        draw_stage(&draw, count);
        double inlet_pa = between(&draw, 4e5, 12e5) + TEST_SCENE_ATM;
        double flow = between(&draw, 1e-6, 3e-3);
        double before = qll_stage_solve(solver_of(&draw.stage, arena), inlet_pa, flow).outlet_pa;
        draw.branches[(size_t)i % count].set_pa_gauge += between(&draw, 0.0, 5e4);
        double after = qll_stage_solve(solver_of(&draw.stage, arena), inlet_pa, flow).outlet_pa;
        CHECK((isnan(before) && isnan(after)) || after >= before * (1.0 - 1e-13));
        qll_arena_close(arena);
    }
}

TEST(equal_branches_carry_equal_flow)
{
    drawn draw = {.random = qll_random_seeded(4)};
    for (int i = 0; i < TEST_STATIONS; i++) {
        qll_arena *arena = qll_arena_open(1 << 22);
        draw_stage(&draw, 1);
        draw.branches[1] = draw.branches[0];
        draw.branches[2] = draw.branches[0];
        double inlet_pa = 9e5 + TEST_SCENE_ATM;
        double flow = between(&draw, 1e-6, 5e-4);
        qll_stage_point one = qll_stage_solve(solver_of(&draw.stage, arena), inlet_pa, flow);
        qll_stage three = {draw.branches, 3, 8e5};
        const qll_stage_solver *solver = solver_of(&three, arena);
        qll_stage_point all = qll_stage_solve(solver, inlet_pa, 3.0 * flow);
        CHECK(one.passes == all.passes);
        if (one.passes) {
            CHECK_NEAR(all.outlet_pa, one.outlet_pa, 1e-12);
            qll_branch_state states[3];
            qll_stage_states(solver, inlet_pa, 3.0 * flow, all.outlet_pa, states);
            CHECK(states[0].flow_m3s == states[1].flow_m3s);
            CHECK(states[1].flow_m3s == states[2].flow_m3s);
            CHECK_NEAR(states[0].flow_m3s, flow, 1e-8);
        }
        qll_arena_close(arena);
    }
}

TEST(a_scaled_valve_passes_a_scaled_flow)
{
    drawn draw = {.random = qll_random_seeded(5)};
    for (int i = 0; i < TEST_STATIONS; i++) {
        qll_arena *arena = qll_arena_open(1 << 22);
        draw_stage(&draw, 2);
        double inlet_pa = 9e5 + TEST_SCENE_ATM;
        double flow = between(&draw, 1e-6, 1e-3);
        double before = qll_stage_solve(solver_of(&draw.stage, arena), inlet_pa, flow).outlet_pa;
        double scale = between(&draw, 0.1, 10.0);
        for (size_t j = 0; j < 2; j++) {
            draw.valves[j].valve.kv_m3h *= scale;
            draw.valves[j].points[1].y *= scale;
            draw.branches[j].series_kv_m3h *= scale;
        }
        double after =
            qll_stage_solve(solver_of(&draw.stage, arena), inlet_pa, scale * flow).outlet_pa;
        CHECK_NEAR(after, before, 1e-9);
        qll_arena_close(arena);
    }
}

/* The time of a point goes where its worst stage says, by the branch in charge: below stable flow before
 * above the band before below it (docs/theory/verdicts.md). */
static void add_time(const qll_limits *limits, const qll_stage *stages,
                     const qll_operating_point *point, double time, qll_time_shares *sum)
{
    bool unstable = false;
    bool fast = !point->passes;
    bool slow = false;
    bool full = !point->passes;
    bool cavitates = false;
    for (size_t k = 0; k < 2 && point->passes; k++) {
        const qll_branch_state *states = point->branches[k];
        const qll_branch_state *charge = &states[qll_in_charge(states, stages[k].branch_count)];
        unstable = unstable || !charge->stable;
        fast = fast || (charge->stable && charge->velocity_m_s > limits->velocity_high_m_s);
        slow = slow || (charge->stable && charge->velocity_m_s < limits->velocity_low_m_s);
        full = full || charge->full_travel;
        for (size_t j = 0; j < stages[k].branch_count; j++) {
            cavitates = cavitates || (states[j].working && states[j].cavitation.margin > 1.0);
        }
    }
    sum->below_stable += unstable ? time : 0.0;
    sum->above_band += !unstable && fast ? time : 0.0;
    sum->below_band += !unstable && !fast && slow ? time : 0.0;
    sum->in_band += !unstable && !fast && !slow ? time : 0.0;
    sum->full_travel += full ? time : 0.0;
    sum->cavitating += cavitates ? time : 0.0;
}

static void add_point(const qll_station *station, const qll_site *site, const qll_duty *duty,
                      size_t s, size_t f, qll_arena *arena, qll_time_shares *sums)
{
    qll_operating_point point;
    CHECK(qll_station_operate(station, site, duty->inlet_pa[s * duty->flow_count + f],
                              duty->flow_m3s[f], arena, &point)
          == QLL_OK);
    for (size_t k = 0; k < 2 && point.passes; k++) {
        CHECK(point.stage_outlet_pa[k] < point.stage_inlet_pa[k]);
    }
    CHECK(isnan(point.level.level_dba)
          || (point.level.low_dba <= point.level.level_dba
              && point.level.level_dba <= point.level.high_dba));
    add_time(&site->limits, station->stages, &point, duty->supply_weight[s] * duty->weight_time[f],
             sums);
}

static void check_sums(const qll_time_shares *time, const qll_time_shares *again)
{
    CHECK_WITHIN(time->below_stable, again->below_stable, 1e-12);
    CHECK_WITHIN(time->above_band, again->above_band, 1e-12);
    CHECK_WITHIN(time->below_band, again->below_band, 1e-12);
    CHECK_WITHIN(time->in_band, again->in_band, 1e-12);
    CHECK_WITHIN(time->full_travel, again->full_travel, 1e-12);
    CHECK_WITHIN(time->cavitating, again->cavitating, 1e-12);
}

/* A random two-stage station on a site, over a random duty. */
static void check_assessment(drawn *draw, qll_arena *arena)
{
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still = {0.0, between(draw, 5e5, 12e5)};
    qll_site site = scene_site(sizes, &still);
    site.supply.static_low_pa_gauge = 0.9 * still.y;
    double flows[4], shares[4];
    for (size_t i = 0; i < 4; i++) {
        flows[i] = (i == 0 ? 1e-6 : flows[i - 1]) * between(draw, 1.5, 10.0);
        shares[i] = between(draw, 0.01, 0.24);
    }
    scene_demand demand;
    scene_demand_make(&demand, flows[3] * between(draw, 0.8, 1.5), flows, shares, 4);
    qll_duty duty;
    draw_stage(draw, 3);
    qll_stage stages[2] = {{draw->branches, 1, still.y}, {draw->branches + 1, 2, 4e5}};
    draw->branches[0].set_pa_gauge = 4.5e5;
    qll_noise_path path;
    const qll_noise_pipe copper = {0.026, 1.27e-3, 8940, 3600, 1.2, 343, false};
    qll_noise_path_make(&copper, &path);
    for (size_t j = 0; j < 3; j++) {
        draw->branches[j].path = &path;
    }
    qll_station station = {stages, 2};
    qll_assessment found;
    CHECK(qll_duty_make(&site, &demand.scenario, 1, 24, arena, &duty) == QLL_OK);
    CHECK(scene_assess(&station, &site, &duty, arena, &found) == QLL_OK);
    const qll_time_shares *time = &found.shares;
    CHECK_NEAR(time->idle + time->below_stable + time->below_band + time->in_band
                   + time->above_band,
               1.0, 1e-12);
    CHECK(time->full_travel <= 1.0 && time->cavitating <= 1.0);
    CHECK(found.verdict_count == QLL_RULE_COUNT);
    /* The typical point: middle supply, the class below which half of the water flows. */
    size_t middle = 0;
    double below = duty.weight_volume[0];
    while (below < 0.5 && middle + 1 < duty.flow_count) {
        middle += 1;
        below += duty.weight_volume[middle];
    }
    CHECK(found.typical.flow_m3s == duty.flow_m3s[middle]);
    CHECK(found.typical.inlet_pa == duty.inlet_pa[duty.flow_count + middle]);
    qll_time_shares sums = {.idle = duty.idle_share};
    for (size_t s = 0; s < duty.supply_count; s++) {
        for (size_t f = 0; f < duty.flow_count; f++) {
            add_point(&station, &site, &duty, s, f, arena, &sums);
        }
    }
    check_sums(&found.shares, &sums);
}

TEST(shares_end_at_one_and_are_sums_over_points)
{
    drawn draw = {.random = qll_random_seeded(6)};
    for (int i = 0; i < 50; i++) {
        qll_arena *arena = qll_arena_open(1 << 24);
        check_assessment(&draw, arena);
        qll_arena_close(arena);
    }
}

int main(void)
{
    TEST_RUN(the_outlet_falls_as_the_flow_rises_and_flows_add_up);
    TEST_RUN(side_by_side_is_one_by_one);
    TEST_RUN(raising_a_set_point_never_lowers_the_outlet);
    TEST_RUN(equal_branches_carry_equal_flow);
    TEST_RUN(a_scaled_valve_passes_a_scaled_flow);
    TEST_RUN(shares_end_at_one_and_are_sums_over_points);
    return TEST_END();
}
