/* Capacity at the design peak, and flows too small to throttle steadily. */
#include "station/rules.h"

#include <math.h>

/* Beyond this opening little travel is left to regulate with (our assumption). */
#define QLL_OPENING_NEAR_FULL 0.95

/* Kv of all branches over their full Kv: what the stage has opened of what it has. */
static double stage_opening(const qll_stage *stage, const qll_branch_state *states)
{
    double open = 0.0;
    double full = 0.0;
    for (size_t j = 0; j < stage->branch_count; j++) {
        open += states[j].kv_m3h;
        full += stage->branches[j].valve->kv_m3h;
    }
    return open / full;
}

static void grade_capacity(const qll_operation *operation, size_t scenario, size_t stage,
                           qll_verdict *verdict)
{
    const qll_operating_point *point = &operation->peak_low[scenario];
    const qll_stage *of = &operation->station->stages[stage];
    verdict->finding = QLL_FINDING_CAPACITY_IN_HAND;
    if (isnan(point->stage_outlet_pa[stage])) {
        verdict->value = 1.0;
        verdict->grade = QLL_GRADE_FAIL;
        verdict->finding = QLL_FINDING_CAPACITY_CANNOT_PASS;
        return;
    }
    verdict->value = stage_opening(of, point->branches[stage]);
    if (qll_all_full(point->branches[stage], of->branch_count)) {
        /* A fixed orifice from here on: bad if the building goes short by it. */
        bool is_short = qll_delivery_breaks(operation, scenario);
        verdict->grade = is_short ? QLL_GRADE_FAIL : QLL_GRADE_CAUTION;
        verdict->finding = QLL_FINDING_CAPACITY_FULL_TRAVEL;
    } else if (verdict->value > QLL_OPENING_NEAR_FULL) {
        verdict->grade = QLL_GRADE_CAUTION;
        verdict->finding = QLL_FINDING_CAPACITY_NEAR_FULL;
    }
}

void qll_judge_capacity(const qll_operation *operation, qll_verdict_list *list)
{
    for (size_t s = 0; s < operation->duty->scenario_count; s++) {
        for (size_t k = 0; k < operation->station->stage_count; k++) {
            qll_verdict verdict = qll_verdict_new(QLL_RULE_CAPACITY, QLL_KIND_NUMBER);
            verdict.limit = QLL_OPENING_NEAR_FULL;
            verdict.spot.stage = k;
            verdict.spot.scenario = s;
            if (operation->station->stages[k].branch_count == 1) {
                verdict.spot.branch = 0;
            }
            grade_capacity(operation, s, k, &verdict);
            qll_verdict_put(list, &verdict, verdict.value);
        }
    }
}

/* Shares of the flowing time and of the water that a branch, in charge, passes unsteadily. */
typedef struct unsteady_share {
    double time, water;
} unsteady_share;

static unsteady_share unsteady_of(const qll_operation *operation, size_t stage, size_t branch)
{
    const qll_duty *duty = operation->duty;
    size_t branch_count = operation->station->stages[stage].branch_count;
    unsteady_share share = {0.0, 0.0};
    for (size_t s = 0; s < duty->supply_count; s++) {
        for (size_t f = 0; f < duty->flow_count; f++) {
            const qll_branch_state *states =
                operation->points[s * duty->flow_count + f].branches[stage];
            if (!states[branch].stable && qll_in_charge(states, branch_count) == branch) {
                share.time += qll_flowing_share(duty, s, f);
                share.water += qll_water_share(duty, s, f);
            }
        }
    }
    return share;
}

/* Up to such a share of the flowing time is called seldom (our assumption). */
#define QLL_SELDOM 0.05

/* How often a valve's chatter brings a complaint: the share of such valves that chatter at all, at each node
 * of its least stable flow. */
static void grade_low_flow(const qll_operation *operation, qll_verdict *verdict)
{
    const qll_stage_sums *sums = &operation->sums->stages[verdict->spot.stage];
    const size_t branch = verdict->spot.branch;
    const qll_valve *valve = operation->station->stages[verdict->spot.stage].branches[branch].valve;
    double chance =
        sums->branches[branch].chatters
        * qll_own_chance(operation->yardstick->unknowns, sums->hazards, qll_row_chatter(branch));
    if (qll_valve_least_flow(valve).is_estimate) {
        qll_verdict_weigh_at_most_caution(verdict, chance);
    } else {
        qll_verdict_weigh(verdict, chance);
    }
    verdict->finding = !(verdict->value > 0.0) ? QLL_FINDING_LOW_FLOW_NEVER
                       : verdict->value > QLL_SELDOM && verdict->value_at_peak > 0.0
                           ? QLL_FINDING_LOW_FLOW_WEAK
                           : QLL_FINDING_LOW_FLOW_STABLE;
    if (verdict->grade != QLL_GRADE_GOOD) {
        verdict->finding = verdict->grade == QLL_GRADE_FAIL ? QLL_FINDING_LOW_FLOW_MUCH
                           : verdict->value > 0.0           ? QLL_FINDING_LOW_FLOW_SOME
                                                            : QLL_FINDING_LOW_FLOW_UNSURE;
    }
}

void qll_judge_low_flow(const qll_operation *operation, qll_verdict_list *list)
{
    for (size_t k = 0; k < operation->station->stage_count; k++) {
        for (size_t j = 0; j < operation->station->stages[k].branch_count; j++) {
            unsteady_share share = unsteady_of(operation, k, j);
            qll_verdict verdict = qll_verdict_new(QLL_RULE_LOW_FLOW, QLL_KIND_NUMBER);
            verdict.value = share.time;
            verdict.value_at_peak = share.water;
            verdict.spot.stage = k;
            verdict.spot.branch = j;
            grade_low_flow(operation, &verdict);
            qll_verdict_put(list, &verdict, share.time + share.water);
        }
    }
}
