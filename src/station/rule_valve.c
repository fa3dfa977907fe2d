/* Cavitation at a valve's own opening, and what its data sheet rates it for. */
#include "station/rules.h"

#include <math.h>

/* Classes with less of the flowing time than this, some seconds a day, are not lived in (our
 * assumption). */
#define QLL_LIVED_SHARE    1e-4
/* A seat survives damaging cavitation for so much of the flowing time (our assumption). */
#define QLL_DAMAGING_SHARE 0.01
/* Above this share of the flowing time "sometimes" is "often" (our assumption). */
#define QLL_OFTEN_SHARE    0.10

/* How a branch cavitates over its duty. */
typedef struct branch_cavitation {
    double worst_margin;
    double above, damaging; /* shares of the flowing time */
    const qll_operating_point *worst;
} branch_cavitation;

static branch_cavitation cavitation_of(const qll_operation *operation, size_t stage, size_t branch)
{
    const qll_duty *duty = operation->duty;
    branch_cavitation found = {0};
    for (size_t s = 0; s < duty->supply_count; s++) {
        for (size_t f = 0; f < duty->flow_count; f++) {
            const qll_operating_point *point = &operation->points[s * duty->flow_count + f];
            const qll_branch_state *state = &point->branches[stage][branch];
            double share = qll_flowing_share(duty, s, f);
            if (!state->working || share < QLL_LIVED_SHARE) {
                continue;
            }
            if (found.worst == NULL || state->cavitation.margin > found.worst_margin) {
                found.worst_margin = state->cavitation.margin;
                found.worst = point;
            }
            found.above += state->cavitation.margin > 1.0 ? share : 0.0;
            found.damaging += state->cavitation.regime >= QLL_REGIME_DAMAGING ? share : 0.0;
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

void qll_judge_cavitation(const qll_operation *operation, qll_verdict_list *list)
{
    for (size_t k = 0; k < operation->station->stage_count; k++) {
        for (size_t j = 0; j < operation->station->stages[k].branch_count; j++) {
            branch_cavitation found = cavitation_of(operation, k, j);
            qll_verdict verdict = {.rule = QLL_RULE_CAVITATION,
                                   .grade = QLL_GRADE_GOOD,
                                   .finding = QLL_FINDING_CAVITATION_QUIET,
                                   .value = found.worst_margin,
                                   .limit = 1.0,
                                   .kind = QLL_KIND_NUMBER,
                                   .value_at_peak = found.above,
                                   .right_size_m = NAN,
                                   .spot = QLL_SPOT_WHOLE};
            verdict.spot.stage = k;
            verdict.spot.branch = j;
            verdict.corner = corner_of(operation, verdict.spot, &found);
            if (found.damaging > QLL_DAMAGING_SHARE) {
                verdict.grade = QLL_GRADE_FAIL;
                verdict.finding = QLL_FINDING_CAVITATION_DAMAGING;
            } else if (found.worst_margin > 1.0) {
                verdict.grade = QLL_GRADE_CAUTION;
                verdict.finding = found.above > QLL_OFTEN_SHARE ? QLL_FINDING_CAVITATION_OFTEN
                                                                : QLL_FINDING_CAVITATION_SOMETIMES;
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
    if (verdict->value > valve->inlet_max_pa_gauge) {
        verdict->finding = QLL_FINDING_RATING_INLET;
        return;
    }
    bool below = branch->set_pa_gauge < valve->set_min_pa_gauge;
    if (below || branch->set_pa_gauge > valve->set_max_pa_gauge) {
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
            qll_verdict verdict = {.rule = QLL_RULE_RATING,
                                   .value = inlet_pa,
                                   .limit = stage->branches[j].valve->inlet_max_pa_gauge,
                                   .kind = QLL_KIND_PRESSURE,
                                   .value_at_peak = NAN,
                                   .right_size_m = NAN,
                                   .spot = QLL_SPOT_WHOLE};
            verdict.spot.stage = k;
            verdict.spot.branch = j;
            grade_rating(operation, &stage->branches[j], &verdict);
            qll_verdict_put(list, &verdict, verdict.value / fmax(verdict.limit, 1.0));
        }
    }
}
