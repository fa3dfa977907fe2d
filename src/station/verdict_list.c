/* How verdicts are graded and kept: docs/theory/verdicts.md. */
#include "station/rules.h"

#include <assert.h>
#include <math.h>

/* More likely than not it fails; one in ten is worth a word (our assumption). */
#define QLL_FAIL_CHANCE    0.5
#define QLL_CAUTION_CHANCE 0.1

qll_verdict qll_verdict_new(qll_rule rule, qll_kind kind)
{
    return (qll_verdict){.rule = rule,
                         .grade = QLL_GRADE_GOOD,
                         .kind = kind,
                         .value = NAN,
                         .limit = NAN,
                         .value_at_peak = NAN,
                         .past_share = NAN,
                         .right_size_m = NAN,
                         .holds_share = 1.0,
                         .spot = QLL_SPOT_WHOLE};
}

void qll_verdict_put(qll_verdict_list *list, const qll_verdict *verdict, double stress)
{
    qll_rule rule = verdict->rule;
    if (list->items != NULL) {
        assert(list->count < list->room);
        list->items[list->count] = *verdict;
        list->count += 1;
    }
    const qll_verdict *worst = &list->worst[rule];
    bool is_worse = verdict->grade > worst->grade
                    || (verdict->grade == worst->grade && stress > list->stress[rule]);
    if (!list->judged[rule] || is_worse) {
        list->worst[rule] = *verdict;
        list->stress[rule] = stress;
        list->judged[rule] = true;
    }
}

void qll_verdict_weigh(qll_verdict *verdict, double fails_chance)
{
    const double slack = 1e-9; /* what a sum of chances is off by in its last bits */
    verdict->holds_share = 1.0 - fails_chance;
    if (!(fails_chance <= QLL_CAUTION_CHANCE + slack)) {
        verdict->grade =
            fails_chance <= QLL_FAIL_CHANCE + slack ? QLL_GRADE_CAUTION : QLL_GRADE_FAIL;
        verdict->holds_share = fails_chance;
    }
}

void qll_verdict_weigh_at_most_caution(qll_verdict *verdict, double fails_chance)
{
    qll_verdict_weigh(verdict, fails_chance);
    if (verdict->grade == QLL_GRADE_FAIL) {
        verdict->grade = QLL_GRADE_CAUTION;
    }
}

void qll_verdict_unknown(qll_verdict *verdict, qll_finding finding)
{
    verdict->grade = QLL_GRADE_UNKNOWN;
    verdict->finding = finding;
    verdict->holds_share = NAN;
}

double qll_row_chance(const qll_unknowns *unknowns, const qll_hazard_sums *hazards, size_t row)
{
    double chance = 0.0;
    for (size_t k = 0; k < QLL_NODES; k++) {
        chance += unknowns->chance[k] * qll_complaint_chance(hazards->at[row][k]);
    }
    return chance;
}

double qll_own_chance(const qll_unknowns *unknowns, const qll_hazard_sums *hazards, size_t row)
{
    double chance = 0.0;
    for (size_t own = 0; own < QLL_OWN_NODES; own++) {
        chance += qll_row_chance(unknowns, hazards, row + own) / QLL_OWN_NODES;
    }
    return chance;
}

double qll_flowing_share(const qll_duty *duty, size_t supply, size_t flow)
{
    double flowing = 1.0 - duty->idle_share;
    return flowing > 0.0 ? duty->supply_weight[supply] * duty->weight_time[flow] / flowing : 0.0;
}

double qll_water_share(const qll_duty *duty, size_t supply, size_t flow)
{
    return duty->supply_weight[supply] * duty->weight_volume[flow];
}
