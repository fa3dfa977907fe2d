/* What the merged knots give and what the bracketed search among each branch's own knots gives is
 * the same: for random stages from a fixed seed, over a wide range of inlets. */
#include "base/random.h"
#include "check.h"
#include "station/stage_solver.h"
#include "station_scene.h"

#define TEST_STAGES   3000
#define TEST_POINTS   48 /* three rounds of side by side */
#define TEST_BRANCHES 3
#define TEST_KNOTS    6

typedef struct drawn {
    qll_random random;
    qll_valve valves[TEST_BRANCHES];
    qll_point points[TEST_BRANCHES][TEST_KNOTS];
    qll_opening_law laws[TEST_BRANCHES];
    qll_branch branches[TEST_BRANCHES];
    qll_stage stage;
} drawn;

static double between(drawn *draw, double low, double high)
{
    return low + (high - low) * qll_random_unit(&draw->random);
}

static bool one_in(drawn *draw, double of)
{
    return qll_random_unit(&draw->random) * of < 1.0;
}

/* A law of up to six points; whole kPa now and then, so that knots of branches coincide. */
static void draw_law(drawn *draw, size_t j, double kv_m3h, bool whole)
{
    size_t count = 2 + (size_t)between(draw, 0.0, TEST_KNOTS - 1.0);
    qll_point *points = draw->points[j];
    points[0] = (qll_point){0.0, 0.0};
    for (size_t i = 1; i < count; i++) {
        double step_pa = whole ? 1e4 * ceil(between(draw, 0.1, 3.0)) : between(draw, 2e3, 4e4);
        points[i].x = points[i - 1].x + step_pa;
        points[i].y = points[i - 1].y + between(draw, 0.05, 1.0);
    }
    for (size_t i = 1; i < count; i++) {
        points[i].y *= kv_m3h / points[count - 1].y;
    }
    draw->laws[j] = (qll_opening_law){{points, count}, points[count - 1].x};
}

static void draw_stage(drawn *draw, size_t count)
{
    bool same_set = one_in(draw, 4.0);
    bool same_law = one_in(draw, 6.0);
    bool whole = one_in(draw, 3.0);
    bool close = one_in(draw, 2.0);
    for (size_t j = 0; j < count; j++) {
        double kv_m3h = between(draw, 0.5, 20.0);
        draw_law(draw, j, kv_m3h, whole);
        draw->valves[j] = (qll_valve){.kv_m3h = kv_m3h,
                                      .fl = between(draw, 0.6, 0.95),
                                      .inlet_effect = between(draw, -0.05, 0.1),
                                      .sheet_inlet_pa_gauge = 8e5,
                                      .sheet_set_pa_gauge = 3e5};
        double least_pa = close ? 4e5 : 2e5;
        double set_pa = between(draw, least_pa, 5e5);
        set_pa = whole ? 1e4 * floor(set_pa / 1e4) : set_pa;
        draw->branches[j] = (qll_branch){
            .valve = &draw->valves[j],
            .law = &draw->laws[same_law ? 0 : j],
            .set_pa_gauge = same_set && j > 0 ? draw->branches[0].set_pa_gauge : set_pa,
            .pipe_bore_m = 0.025,
            .series_kv_m3h = one_in(draw, 3.0) ? kv_m3h * between(draw, 0.8, 4.0) : (double)NAN};
        draw->valves[j].inlet_effect =
            one_in(draw, 5.0) ? draw->valves[0].inlet_effect : draw->valves[j].inlet_effect;
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

/* What passes at a fall-off of the first branch, unless something chokes. */
static double flow_at(const qll_stage_solver *solver, double inlet_pa, double falloff_pa)
{
    double outlet_pa = qll_leg_set_pa(&solver->legs[0], inlet_pa) - falloff_pa;
    double c = 0.0;
    for (size_t j = 0; j < solver->stage->branch_count; j++) {
        const qll_leg *leg = &solver->legs[j];
        c += qll_branch_curve_at(&leg->curve, qll_leg_set_pa(leg, inlet_pa) - outlet_pa).c;
    }
    return c * sqrt(fmax(inlet_pa - outlet_pa, 0.0));
}

static void check_same(qll_stage_point got, qll_stage_point safe, double inlet_pa, double flow_m3s)
{
    CHECK(got.passes == safe.passes && got.converged == safe.converged);
    if (safe.passes) {
        CHECK(fabs(got.residual) <= QLL_RESIDUAL_SHARE * flow_m3s);
        /* The flow goes with the root of the drop at the least, so that 1e-12 of it on each side is
         * 4e-12 of the drop; and an outlet is known to some last bits of the inlet. */
        double drop_pa = inlet_pa - safe.outlet_pa;
        CHECK_WITHIN(got.outlet_pa, safe.outlet_pa, 4e-12 * drop_pa + 1e-15 * inlet_pa);
    }
}

TEST(merged_knots_and_the_bracketed_search_agree)
{
    drawn draw = {.random = qll_random_seeded(7)};
    qll_arena *arena = qll_arena_open(1 << 22);
    qll_arena_mark mark = qll_arena_now(arena);
    for (size_t i = 0; i < TEST_STAGES; i++) {
        draw_stage(&draw, 1 + i % TEST_BRANCHES);
        const qll_stage_solver *solver = solver_of(&draw.stage, arena);
        double inlets[TEST_POINTS], flows[TEST_POINTS];
        qll_stage_point points[TEST_POINTS];
        /* Beside inlets near the one the stage was set with, some far below and far above. */
        double low_pa = one_in(&draw, 2.0) ? 7e5 : 5e4;
        double high_pa = one_in(&draw, 2.0) ? 11e5 : 25e5;
        for (size_t p = 0; p < TEST_POINTS; p++) {
            inlets[p] = TEST_SCENE_ATM + between(&draw, low_pa, high_pa);
            flows[p] = p % 3 == 0 ? pow(10.0, between(&draw, -6.0, -1.5))
                                  : flow_at(solver, inlets[p], between(&draw, 0.0, 1.5e5));
        }
        inlets[0] = 8e5 + TEST_SCENE_ATM; /* where the knots of whole kPa coincide */
        qll_stage_solve_many(solver, inlets, flows, TEST_POINTS, points);
        for (size_t p = 0; p < TEST_POINTS; p++) {
            qll_stage_point safe = qll_solve_branches(solver, inlets[p], flows[p]);
            check_same(points[p], safe, inlets[p], flows[p]);
            check_same(qll_stage_solve(solver, inlets[p], flows[p]), safe, inlets[p], flows[p]);
        }
        qll_arena_reset(arena, mark);
    }
    qll_arena_close(arena);
}

/* The flow of a knot itself, at an inlet at which knots of two branches coincide. */
TEST(a_flow_that_ends_at_a_knot_is_found)
{
    drawn draw = {.random = qll_random_seeded(8)};
    qll_arena *arena = qll_arena_open(1 << 22);
    qll_arena_mark mark = qll_arena_now(arena);
    for (size_t i = 0; i < TEST_STAGES; i++) {
        draw_stage(&draw, 2);
        const qll_stage_solver *solver = solver_of(&draw.stage, arena);
        const qll_leg *first = &solver->legs[0];
        const qll_leg *second = &solver->legs[1];
        double parting = first->set_per_inlet - second->set_per_inlet;
        double knot_pa = first->curve.falloff_pa[i % first->curve.count];
        double other_pa = second->curve.falloff_pa[i % second->curve.count];
        double apart_pa = (second->set_pa - other_pa) - (first->set_pa - knot_pa);
        double inlet_pa = parting == 0.0 ? 0.0 : apart_pa / parting;
        double outlet_pa = qll_leg_set_pa(first, inlet_pa) - knot_pa;
        double drop_pa = inlet_pa - outlet_pa;
        bool meet = inlet_pa > 2e5 && inlet_pa < 3e6 && drop_pa > 1e3
                    && drop_pa < qll_choked_drop_pa(solver, solver->fl_squared_least, inlet_pa);
        double flow_m3s = flow_at(solver, inlet_pa, knot_pa);
        if (meet && flow_m3s > 0.0) {
            qll_stage_point point = qll_stage_solve(solver, inlet_pa, flow_m3s);
            CHECK(point.converged && point.passes);
            CHECK_WITHIN(point.outlet_pa, outlet_pa, 4e-12 * drop_pa + 2e-15 * inlet_pa);
        }
        qll_arena_reset(arena, mark);
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(merged_knots_and_the_bracketed_search_agree);
    TEST_RUN(a_flow_that_ends_at_a_knot_is_found);
    return TEST_END();
}
