/* The search once more without any thrift: everything is built, everything is assessed in full,
 * everything is compared with everything. Written from docs/theory/search.md, not from the code. */
#ifndef QUELL_TESTS_SEARCH_BRUTE_H
#define QUELL_TESTS_SEARCH_BRUTE_H

#include "search_scene.h"

#include <stdlib.h>
#include <string.h>

enum {
    QLL_BRUTE_MOST = 40000
};

typedef struct brute_station {
    qll_branch branches[2][3];
    qll_stage stages[2];
    qll_station station;
    qll_objectives objectives;
    size_t parts;
    size_t fails, cautions;
    bool is_beaten;
} brute_station;

typedef struct brute {
    const qll_site *site;
    const qll_duty *duty;
    const qll_catalogue *catalogue;
    qll_arena *arena;
    qll_branch sorted[16];
    brute_station *stations; /* those that break no hard rule */
    size_t count;
    size_t tried;
} brute;

/** One stage with its inlet and set-points filled in. */
typedef struct brute_stage {
    qll_branch branches[3];
    size_t count;
    double set_inlet_pa_gauge;
} brute_stage;

static inline int brute_by_kv(const void *a, const void *b)
{
    const qll_branch *x = a;
    const qll_branch *y = b;
    if (x->valve->kv_m3h != y->valve->kv_m3h) {
        return x->valve->kv_m3h < y->valve->kv_m3h ? -1 : 1;
    }
    return strcmp(x->valve->id, y->valve->id);
}

static inline void brute_sort(brute *all)
{
    for (size_t i = 0; i < all->catalogue->count; i++) {
        const qll_valve *valve = &all->catalogue->valves[i];
        const qll_pipe_size *nearest = all->site->station_sizes[0];
        for (size_t k = 1; k < all->site->station_size_count; k++) {
            const qll_pipe_size *size = all->site->station_sizes[k];
            if (fabs(log(size->nominal_m / valve->nominal_m))
                < fabs(log(nearest->nominal_m / valve->nominal_m))) {
                nearest = size;
            }
        }
        all->sorted[i] = (qll_branch){.valve = valve,
                                      .law = &all->catalogue->laws[i],
                                      .pipe_bore_m = nearest->bore_m,
                                      .series_kv_m3h = valve->strainer_kv_m3h};
    }
    qsort(all->sorted, all->catalogue->count, sizeof all->sorted[0], brute_by_kv);
}

static inline double brute_lowest_inlet(const qll_duty *duty)
{
    double lowest = INFINITY;
    for (size_t s = 0; s < duty->supply_count; s++) {
        lowest = fmin(lowest, duty->inlet_pa[s * duty->flow_count + duty->flow_count - 1]);
    }
    return lowest;
}

static inline double brute_highest_inlet(const qll_duty *duty)
{
    double highest = 0.0;
    for (size_t s = 0; s < duty->supply_count; s++) {
        highest = fmax(highest, duty->inlet_static_pa[s]);
    }
    return highest;
}

/** What stages are built for, and where they go. */
typedef struct brute_plan {
    double set_pa_gauge, set_inlet_pa_gauge;
    double inlets_pa_gauge[2]; /* lowest and highest */
    size_t most;               /* valves */
    double offset_most_psi;
    bool all_offsets;
    brute_stage *stages;
    size_t count;
} brute_plan;

/* Eq. 2: fall-off at the top of the velocity band plus both hysteresis bands, in whole psi. */
static inline double brute_rule_psi(const brute *all, const qll_branch *a, const qll_branch *b,
                                    const brute_stage *stage, const brute_plan *plan)
{
    double velocity = all->site->limits.velocity_high_m_s;
    double flow = velocity * 3.14159265358979 * a->pipe_bore_m * a->pipe_bore_m / 4.0;
    double atmosphere = all->site->barometric_pa;
    double kv = qll_valve_kv_m3h(flow, stage->set_inlet_pa_gauge + atmosphere,
                                 plan->set_pa_gauge + atmosphere, a->valve->fl, &all->site->water);
    double falloff = 0.0; /* by small steps, as one would read it off a chart */
    double step = a->law->full_falloff_pa / 200000.0;
    while (falloff <= a->law->full_falloff_pa && qll_opening_law_kv(a->law, falloff) < kv) {
        falloff += step;
    }
    double most = fmin(0.9 * a->law->full_falloff_pa, plan->offset_most_psi * TEST_PSI);
    double wanted = fmin(falloff + a->valve->hysteresis_pa + b->valve->hysteresis_pa, most);
    double whole = ceil(wanted / TEST_PSI);
    return whole * TEST_PSI <= most ? whole : floor(most / TEST_PSI);
}

static inline bool brute_hands_over(const brute_stage *stage, const double inlets_pa_gauge[2])
{
    for (size_t i = 0; i + 1 < stage->count; i++) {
        const qll_branch *a = &stage->branches[i];
        const qll_branch *b = &stage->branches[i + 1];
        for (size_t k = 0; k < 2; k++) {
            double moved = inlets_pa_gauge[k] - stage->set_inlet_pa_gauge;
            double apart = a->set_pa_gauge - b->set_pa_gauge
                           + (a->valve->inlet_effect - b->valve->inlet_effect) * moved;
            if (apart < a->valve->hysteresis_pa + b->valve->hysteresis_pa - 0.01
                || apart > 0.9 * a->law->full_falloff_pa + 0.01 || apart <= 0.0) {
                return false;
            }
        }
    }
    return true;
}

/* The same valves at every offset; those that hand over wrongly are left out. */
static inline void brute_offsets(const brute *all, brute_stage stage, brute_plan *plan)
{
    static const double psi[] = {3.0, 4.0, 5.0, 6.0, 8.0, 10.0};
    double by_rule = 0.0;
    for (size_t i = 0; i + 1 < stage.count; i++) {
        by_rule = fmax(
            by_rule, brute_rule_psi(all, &stage.branches[i], &stage.branches[i + 1], &stage, plan));
    }
    size_t ladder = plan->all_offsets && stage.count > 1 ? 6 : 0;
    for (size_t k = 0; k <= ladder; k++) {
        double offset = k == ladder ? by_rule : psi[k];
        if (k < ladder && offset == by_rule) {
            continue;
        }
        for (size_t i = 0; i < stage.count; i++) {
            stage.branches[i].set_pa_gauge = plan->set_pa_gauge - (double)i * offset * TEST_PSI;
        }
        if (brute_hands_over(&stage, plan->inlets_pa_gauge)) {
            plan->stages[plan->count++] = stage;
        }
    }
}

/* All stages of up to plan->most valves that stand in the order of Kv. */
static inline void brute_stages(const brute *all, brute_plan *plan)
{
    const size_t n = all->catalogue->count;
    for (size_t a = 0; a < n; a++) {
        brute_stage stage = {.branches = {all->sorted[a]},
                             .count = 1,
                             .set_inlet_pa_gauge = plan->set_inlet_pa_gauge};
        brute_offsets(all, stage, plan);
        for (size_t b = a; b < n && plan->most >= 2; b++) {
            stage.branches[1] = all->sorted[b];
            stage.count = 2;
            brute_offsets(all, stage, plan);
            for (size_t c = b; c < n && plan->most >= 3; c++) {
                stage.branches[2] = all->sorted[c];
                stage.count = 3;
                brute_offsets(all, stage, plan);
            }
        }
    }
}

static inline bool brute_is_hard(qll_rule rule)
{
    return rule == QLL_RULE_RATING || rule == QLL_RULE_STATIC || rule == QLL_RULE_DELIVERY
           || rule == QLL_RULE_CAPACITY;
}

static inline bool brute_try(brute *all, const brute_stage *first, const brute_stage *second)
{
    brute_station *made = &all->stations[all->count];
    const brute_stage *given[2] = {first, second};
    size_t stage_count = second == NULL ? 1 : 2;
    made->parts = 0;
    for (size_t i = 0; i < stage_count; i++) {
        memcpy(made->branches[i], given[i]->branches, sizeof made->branches[i]);
        made->stages[i] = (qll_stage){.branches = made->branches[i],
                                      .branch_count = given[i]->count,
                                      .set_inlet_pa_gauge = given[i]->set_inlet_pa_gauge};
        made->parts += given[i]->count;
    }
    made->station = (qll_station){.stages = made->stages, .stage_count = stage_count};
    qll_arena_mark mark = qll_arena_now(all->arena);
    qll_assessment assessment;
    qll_status status =
        qll_station_assess(&made->station, all->site, all->duty, all->arena, &assessment);
    all->tried += 1;
    bool broken = status != QLL_OK;
    for (size_t i = 0; !broken && i < assessment.verdict_count; i++) {
        const qll_verdict *verdict = &assessment.verdicts[i];
        broken = verdict->grade == QLL_GRADE_FAIL && brute_is_hard(verdict->rule);
    }
    if (!broken) {
        made->objectives = assessment.objectives;
        made->fails = assessment.fail_count;
        made->cautions = assessment.caution_count;
        made->is_beaten = false;
        all->count += 1;
    }
    qll_arena_reset(all->arena, mark);
    return status == QLL_OK && all->count < QLL_BRUTE_MOST;
}

static inline bool brute_one_stage(brute *all)
{
    static brute_stage stages[QLL_BRUTE_MOST];
    double atmosphere = all->site->barometric_pa;
    brute_plan plan = {.set_pa_gauge = all->site->set_pa_gauge,
                       .set_inlet_pa_gauge = all->duty->inlet_static_pa[1] - atmosphere,
                       .inlets_pa_gauge = {brute_lowest_inlet(all->duty) - atmosphere,
                                           brute_highest_inlet(all->duty) - atmosphere},
                       .most = 3,
                       .offset_most_psi = 10.0,
                       .all_offsets = true,
                       .stages = stages};
    brute_stages(all, &plan);
    for (size_t i = 0; i < plan.count; i++) {
        if (!brute_try(all, &stages[i], NULL)) {
            return false;
        }
    }
    return true;
}

static inline void brute_plans_at(const brute *all, double between_pa_gauge, brute_plan plans[2])
{
    double atmosphere = all->site->barometric_pa;
    plans[0] = (brute_plan){.set_pa_gauge = between_pa_gauge,
                            .set_inlet_pa_gauge = all->duty->inlet_static_pa[1] - atmosphere,
                            .inlets_pa_gauge = {brute_lowest_inlet(all->duty) - atmosphere,
                                                brute_highest_inlet(all->duty) - atmosphere},
                            .most = 2,
                            .offset_most_psi = 15.0};
    plans[1] = (brute_plan){.set_pa_gauge = all->site->set_pa_gauge,
                            .set_inlet_pa_gauge = between_pa_gauge,
                            .inlets_pa_gauge = {between_pa_gauge, between_pa_gauge},
                            .most = 2,
                            .offset_most_psi = 10.0};
}

static inline bool brute_pairs(brute *all, const brute_plan plans[2])
{
    for (size_t i = 0; i < plans[0].count * plans[1].count; i++) {
        if (!brute_try(all, &plans[0].stages[i % plans[0].count],
                       &plans[1].stages[i / plans[0].count])) {
            return false;
        }
    }
    return true;
}

static inline bool brute_two_stages_at(brute *all, double between_pa_gauge)
{
    static brute_stage firsts[1000];
    static brute_stage seconds[1000];
    brute_plan plans[2];
    brute_plans_at(all, between_pa_gauge, plans);
    plans[0].stages = firsts;
    plans[1].stages = seconds;
    brute_stages(all, &plans[0]);
    brute_stages(all, &plans[1]);
    return brute_pairs(all, plans);
}

/* A station of two stages with one of them at all its offsets, the one it has once more among them. */
static inline bool brute_offsets_of(brute *all, const brute_station *found, size_t moved)
{
    brute_stage stages[2][8];
    brute_plan plans[2];
    brute_plans_at(all, found->branches[0][0].set_pa_gauge, plans);
    for (size_t k = 0; k < 2; k++) {
        brute_stage stage = {.count = found->stages[k].branch_count,
                             .set_inlet_pa_gauge = found->stages[k].set_inlet_pa_gauge};
        memcpy(stage.branches, found->branches[k], sizeof stage.branches);
        plans[k].all_offsets = true;
        plans[k].stages = stages[k];
        if (k == moved) {
            brute_offsets(all, stage, &plans[k]);
        } else {
            stages[k][0] = stage;
            plans[k].count = 1;
        }
    }
    return brute_pairs(all, plans);
}

static inline bool brute_two_stages(brute *all)
{
    double atmosphere = all->site->barometric_pa;
    double vapour = all->site->water.vapour_pressure_pa;
    double highest = brute_highest_inlet(all->duty);
    double wanted = all->site->set_pa_gauge;
    double middle = vapour + sqrt((highest - vapour) * (wanted + atmosphere - vapour)) - atmosphere;
    double step = 5.0 * TEST_PSI;
    for (int k = -2; k <= 2; k++) {
        double between = (floor(middle / step + 0.5) + k) * step;
        bool is_inside = between >= wanted + step && between <= highest - atmosphere - step;
        if (is_inside && !brute_two_stages_at(all, between)) {
            return false;
        }
    }
    return true;
}

/* Less than zero if a is clearly less than b. */
static inline int brute_compare(double a, double b, double least)
{
    double tie = fmax(least, 1e-9 * fmax(fabs(a), fabs(b)));
    return fabs(a - b) <= tie ? 0 : (a < b ? -1 : 1);
}

/* Order by name: fewer stages, then stage by stage fewer branches, ids, higher set-points. */
static inline bool brute_comes_first(const brute_station *a, const brute_station *b)
{
    if (a->station.stage_count != b->station.stage_count) {
        return a->station.stage_count < b->station.stage_count;
    }
    for (size_t i = 0; i < a->station.stage_count; i++) {
        const qll_stage *x = &a->stages[i];
        const qll_stage *y = &b->stages[i];
        if (x->branch_count != y->branch_count) {
            return x->branch_count < y->branch_count;
        }
        for (size_t k = 0; k < x->branch_count; k++) {
            int order = strcmp(x->branches[k].valve->id, y->branches[k].valve->id);
            if (order != 0) {
                return order < 0;
            }
        }
        for (size_t k = 0; k < x->branch_count; k++) {
            if (x->branches[k].set_pa_gauge != y->branches[k].set_pa_gauge) {
                return x->branches[k].set_pa_gauge > y->branches[k].set_pa_gauge;
            }
        }
    }
    return false;
}

static inline bool brute_supersedes(const brute_station *a, const brute_station *b)
{
    const int signs[4] = {
        brute_compare(a->objectives.noise, b->objectives.noise, 1e-12),
        brute_compare(a->objectives.unsteady, b->objectives.unsteady, 1e-3),
        brute_compare(a->objectives.wear, b->objectives.wear, 1e-12),
        brute_compare(a->objectives.price, b->objectives.price, 1e-12),
    };
    bool less = false;
    for (size_t i = 0; i < 4; i++) {
        if (signs[i] > 0) {
            return false;
        }
        less = less || signs[i] < 0;
    }
    if (less) {
        return true;
    }
    return a->parts != b->parts ? a->parts < b->parts : brute_comes_first(a, b);
}

static inline bool brute_is_same(const brute_station *a, const brute_station *b)
{
    return !brute_comes_first(a, b) && !brute_comes_first(b, a);
}

static inline void brute_mark(brute *all)
{
    for (size_t i = 0; i < all->count; i++) {
        all->stations[i].is_beaten = false;
        for (size_t k = 0; k < all->count && !all->stations[i].is_beaten; k++) {
            /* Of two that are the same, the first stays. */
            all->stations[i].is_beaten =
                i != k
                && (brute_is_same(&all->stations[i], &all->stations[k])
                        ? k < i
                        : brute_supersedes(&all->stations[k], &all->stations[i]));
        }
    }
}

/* Where one stage breaks the ratio rule, one stage of what is left of two is moved. */
static inline bool brute_more_offsets(brute *all, size_t moved)
{
    double highest = brute_highest_inlet(all->duty) - all->site->barometric_pa;
    const size_t count = all->count;
    for (size_t i = 0; i < count && highest / all->site->set_pa_gauge > 3.0; i++) {
        if (!all->stations[i].is_beaten && all->stations[i].station.stage_count == 2
            && !brute_offsets_of(all, &all->stations[i], moved)) {
            return false;
        }
    }
    brute_mark(all);
    return true;
}

/** Builds and assesses everything, then marks what is beaten. */
static inline bool brute_all(brute *all, size_t stages_max)
{
    all->stations = calloc(QLL_BRUTE_MOST, sizeof *all->stations);
    if (all->stations == NULL) {
        return false;
    }
    brute_sort(all);
    bool done = brute_one_stage(all) && (stages_max < 2 || brute_two_stages(all));
    brute_mark(all);
    return done && (stages_max < 2 || (brute_more_offsets(all, 1) && brute_more_offsets(all, 0)));
}

#endif
