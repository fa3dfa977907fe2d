/* Does what a heater pushes out find room? */
#include "station/rules.h"
#include "station/tank_size.h"

#include <math.h>

static void grade_tank(const qll_site *site, const qll_closed_system *closed, qll_verdict *verdict)
{
    verdict->kind = QLL_KIND_VOLUME;
    verdict->value = closed->tank_m3;
    verdict->limit = site->tank.volume_m3;
    verdict->value_at_peak = closed->precharge_pa_gauge;
    verdict->grade = QLL_GRADE_CAUTION;
    verdict->room_pa = closed->limit_pa_gauge - closed->rest_pa_gauge;
    verdict->tank = closed->cures;
    if (closed->has_tank && site->tank.volume_m3 >= QLL_TANK_ENOUGH * closed->tank_at_own_m3) {
        verdict->finding = QLL_FINDING_EXPANSION_TANK_ENOUGH;
        verdict->grade = QLL_GRADE_GOOD;
    } else if (!qll_tank_is_sensible(closed->tank_m3, site->heater.volume_m3)) {
        verdict->finding = QLL_FINDING_EXPANSION_LITTLE_ROOM;
    } else if (closed->has_tank) {
        /* Also where it is charged so high that it takes nothing below the limit. */
        verdict->finding = QLL_FINDING_EXPANSION_TANK_SMALL;
    } else {
        verdict->finding = QLL_FINDING_EXPANSION_TANK_MISSING;
        verdict->limit = NAN;
    }
}

/* True if the relief valve decides. Either rule alone is somebody's practice; a set that breaks both
 * is wrong everywhere. */
static bool grade_relief(const qll_site *site, const qll_closed_system *closed,
                         qll_verdict *verdict)
{
    double relief_pa_gauge = site->heater.relief_pa_gauge;
    double least_pa_gauge = fmin(closed->relief_static_pa_gauge, closed->relief_margin_pa_gauge);
    double both_pa_gauge = fmax(closed->relief_static_pa_gauge, closed->relief_margin_pa_gauge);
    if (relief_pa_gauge >= both_pa_gauge) {
        return false;
    }
    bool is_low = relief_pa_gauge < least_pa_gauge;
    verdict->grade = is_low ? QLL_GRADE_FAIL : QLL_GRADE_CAUTION;
    verdict->finding =
        is_low ? QLL_FINDING_EXPANSION_RELIEF_LOW : QLL_FINDING_EXPANSION_RELIEF_NEAR;
    verdict->value = relief_pa_gauge;
    verdict->limit = is_low ? least_pa_gauge : both_pa_gauge;
    verdict->value_at_peak = closed->rest_pa_gauge;
    return true;
}

/* True if a by-pass in every stage lets water back to the main. A backflow preventer before the
 * station stops it there. */
static bool lets_water_back(const qll_operation *operation)
{
    for (size_t i = 0; i < operation->site->upstream_count; i++) {
        if (operation->site->upstream[i].kind == QLL_ELEMENT_BACKFLOW) {
            return false;
        }
    }
    for (size_t k = 0; k < operation->station->stage_count; k++) {
        const qll_stage *stage = &operation->station->stages[k];
        bool any = false;
        for (size_t j = 0; j < stage->branch_count; j++) {
            any = any || stage->branches[j].valve->bypass;
        }
        if (!any) {
            return false;
        }
    }
    return true;
}

/* By-passes open once the outlet stands above the inlet, so they hold it at the main's pressure: a
 * protection only as long as that is permitted behind the station (from memory). */
static bool grade_bypass(const qll_operation *operation, qll_verdict *verdict)
{
    const qll_duty *duty = operation->duty;
    double main_pa_gauge =
        duty->inlet_static_pa[duty->supply_count - 1] - operation->site->barometric_pa;
    if (!lets_water_back(operation) || main_pa_gauge > operation->closed->limit_pa_gauge) {
        return false;
    }
    verdict->finding = QLL_FINDING_EXPANSION_BYPASS;
    verdict->value = main_pa_gauge;
    verdict->limit = operation->closed->limit_pa_gauge;
    return true;
}

void qll_judge_expansion(const qll_operation *operation, qll_verdict_list *list)
{
    const qll_site *site = operation->site;
    const qll_closed_system *closed = operation->closed;
    qll_verdict verdict = qll_verdict_new(QLL_RULE_EXPANSION, QLL_KIND_PRESSURE);
    if (!closed->has_heater) {
        qll_verdict_unknown(&verdict, QLL_FINDING_EXPANSION_NO_HEATER);
    } else {
        qll_verdict relief = verdict;
        bool relief_decides = grade_relief(site, closed, &relief);
        if (relief_decides && relief.grade == QLL_GRADE_FAIL) {
            verdict = relief;
        } else if (grade_bypass(operation, &verdict)) {
            verdict = relief_decides ? relief : verdict;
        } else if (isnan(closed->tank_m3)) {
            verdict.grade = QLL_GRADE_CAUTION;
            verdict.finding = QLL_FINDING_EXPANSION_NO_ROOM;
            verdict.tank = closed->cures;
            verdict.value = closed->rest_pa_gauge;
            verdict.limit = closed->limit_pa_gauge;
        } else {
            grade_tank(site, closed, &verdict);
            verdict = verdict.grade == QLL_GRADE_GOOD && relief_decides ? relief : verdict;
        }
    }
    qll_verdict_put(list, &verdict, 0.0);
}
