/* Cavitation at a valve's own opening, and what its data sheet rates it for. */
#include "station/rules.h"

#include <math.h>

/* How a branch cavitates over its duty. */
typedef struct branch_cavitation {
    double worst_margin;
    double above; /* share of the flowing time */
    const qll_operating_point *worst;
} branch_cavitation;

/* The worst is that of all points, however short they last. */
static branch_cavitation cavitation_of(const qll_operation *operation, size_t stage, size_t branch)
{
    const qll_duty *duty = operation->duty;
    branch_cavitation found = {0};
    for (size_t s = 0; s < duty->supply_count; s++) {
        for (size_t f = 0; f < duty->flow_count; f++) {
            const qll_operating_point *point = &operation->points[s * duty->flow_count + f];
            const qll_branch_state *state = &point->branches[stage][branch];
            if (!state->working) {
                continue;
            }
            double margin = state->cavitation.margin;
            if (found.worst == NULL || margin > found.worst_margin) {
                found.worst_margin = margin;
                found.worst = point;
            }
            found.above += margin > 1.0 ? qll_flowing_share(duty, s, f) : 0.0;
        }
    }
    return found;
}

static qll_cavitation_corner corner_of(const qll_operation *operation, qll_spot spot,
                                       const branch_cavitation *found)
{
    const qll_operating_point *point = found->worst;
    if (point == NULL) {
        return (qll_cavitation_corner){.split_pa_gauge = NAN};
    }
    qll_cavitation_corner corner = {.flow_m3s = point->flow_m3s,
                                    .inlet_pa = point->stage_inlet_pa[spot.stage],
                                    .indices = point->branches[spot.stage][spot.branch].cavitation,
                                    .split_pa_gauge = NAN};
    double between_pa = NAN;
    if (found->worst_margin > 1.0 && operation->station->stage_count == 1
        && qll_stage_split(corner.inlet_pa, point->outlet_pa,
                           operation->site->water.vapour_pressure_pa, 2, NULL, false,
                           &between_pa)) {
        corner.split_pa_gauge = between_pa - operation->site->barometric_pa;
    }
    return corner;
}

static qll_finding say_cavitation(const qll_verdict *verdict)
{
    switch (verdict->grade) {
    case QLL_GRADE_FAIL:
        return verdict->corner.indices.regime >= QLL_REGIME_DAMAGING
                   ? QLL_FINDING_CAVITATION_DAMAGING
                   : QLL_FINDING_CAVITATION_OFTEN;
    case QLL_GRADE_CAUTION:
        return verdict->value > 1.0 ? QLL_FINDING_CAVITATION_HEARD : QLL_FINDING_CAVITATION_NEAR;
    case QLL_GRADE_GOOD:
    case QLL_GRADE_UNKNOWN:
    case QLL_GRADE_COUNT: break;
    }
    return verdict->value > 1.0 ? QLL_FINDING_CAVITATION_SLIGHT : QLL_FINDING_CAVITATION_QUIET;
}

void qll_judge_cavitation(const qll_operation *operation, qll_verdict_list *list)
{
    const qll_unknowns *unknowns = operation->yardstick->unknowns;
    for (size_t k = 0; k < operation->station->stage_count; k++) {
        for (size_t j = 0; j < operation->station->stages[k].branch_count; j++) {
            branch_cavitation found = cavitation_of(operation, k, j);
            qll_verdict verdict = qll_verdict_new(QLL_RULE_CAVITATION, QLL_KIND_NUMBER);
            verdict.value = found.worst_margin;
            verdict.limit = 1.0;
            verdict.value_at_peak = found.above;
            verdict.spot.stage = k;
            verdict.spot.branch = j;
            verdict.corner = corner_of(operation, verdict.spot, &found);
            qll_verdict_weigh(&verdict, qll_own_chance(unknowns, operation->sums->stages[k].hazards,
                                                       qll_row_cavitation(j)));
            verdict.finding = say_cavitation(&verdict);
            if (verdict.finding == QLL_FINDING_CAVITATION_SLIGHT) {
                verdict.past_share = found.above;
            }
            qll_verdict_put(list, &verdict, found.worst_margin);
        }
    }
}

static void grade_rating(const qll_operation *operation, const qll_branch *branch,
                         qll_verdict *verdict)
{
    const qll_valve *valve = branch->valve;
    double water_degc = operation->site->water.temperature_degc;
    verdict->grade = QLL_GRADE_FAIL;
    if (verdict->value / valve->inlet_max_pa_gauge - 1.0 > QLL_PRACTICE_SLACK) {
        verdict->finding = QLL_FINDING_RATING_INLET;
        return;
    }
    if (qll_breach_of_range(valve, branch->set_pa_gauge) > QLL_PRACTICE_SLACK) {
        bool below = branch->set_pa_gauge < valve->set_min_pa_gauge;
        verdict->finding = QLL_FINDING_RATING_SET_RANGE;
        verdict->value = branch->set_pa_gauge;
        verdict->limit = below ? valve->set_min_pa_gauge : valve->set_max_pa_gauge;
        return;
    }
    if (water_degc > valve->temperature_max_degc) {
        verdict->finding = QLL_FINDING_RATING_TEMPERATURE;
        verdict->kind = QLL_KIND_TEMPERATURE;
        verdict->value = water_degc;
        verdict->limit = valve->temperature_max_degc;
        return;
    }
    verdict->grade = QLL_GRADE_GOOD;
    verdict->finding = QLL_FINDING_RATING_WITHIN;
}

void qll_judge_rating(const qll_operation *operation, qll_verdict_list *list)
{
    for (size_t k = 0; k < operation->station->stage_count; k++) {
        /* Behind another stage: what that locks up at. */
        double inlet_pa = operation->still->stage_inlet_pa[k] - operation->site->barometric_pa;
        const qll_stage *stage = &operation->station->stages[k];
        for (size_t j = 0; j < stage->branch_count; j++) {
            qll_verdict verdict = qll_verdict_new(QLL_RULE_RATING, QLL_KIND_PRESSURE);
            verdict.value = inlet_pa;
            verdict.limit = stage->branches[j].valve->inlet_max_pa_gauge;
            verdict.spot.stage = k;
            verdict.spot.branch = j;
            grade_rating(operation, &stage->branches[j], &verdict);
            qll_verdict_put(list, &verdict, verdict.value / fmax(verdict.limit, 1.0));
        }
    }
}
