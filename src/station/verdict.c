/* docs/theory/verdicts.md. */
#include "station/verdict.h"

#include "station/level.h"
#include "station/rules.h"

#include <math.h>

const char *const qll_rule_words[QLL_RULE_COUNT] = {
#define QLL_RULE_WORD(name, word) word,
    QLL_RULE_LIST(QLL_RULE_WORD)
#undef QLL_RULE_WORD
};

const char *const qll_grade_words[QLL_GRADE_COUNT] = {"good", "unknown", "caution", "fail"};

qll_status qll_station_operate(const qll_station *station, const qll_site *site, double inlet_pa,
                               double flow_m3s, qll_arena *arena, qll_operating_point *point)
{
    qll_operator *made = NULL;
    qll_operating_point *points = NULL;
    if (qll_operator_make(station, site, arena, &made) != QLL_OK
        || qll_points_make(station, 1, arena, &points) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_operate(made, &inlet_pa, &flow_m3s, 1, points);
    qll_point_levels(station, site, true, points);
    *point = points[0];
    return QLL_OK;
}

/* Most verdicts that the rules can put: per outlet, stage or branch, by scenario where it matters. */
static size_t verdict_room(const qll_station *station, const qll_site *site, const qll_duty *duty)
{
    size_t branches = qll_station_valve_count(station);
    size_t pipes = 3; /* before the station, in it and behind it */
    size_t per_scenario = site->outlet_count + 2 + station->stage_count;
    return duty->scenario_count * (per_scenario + pipes) + 4 + 2 * station->stage_count
           + 4 * branches;
}

/* All points that the rules look at. */
static qll_status operate_all(const qll_operator *made, qll_operation *operation, qll_arena *arena)
{
    const qll_duty *duty = operation->duty;
    qll_operating_point *points = NULL;
    qll_operating_point *corners = NULL;
    size_t grid_count = duty->supply_count * duty->flow_count;
    size_t scenario_count = duty->scenario_count;
    if (qll_points_make(operation->station, grid_count, arena, &points) != QLL_OK
        || qll_points_make(operation->station, duty->supply_count * scenario_count + 1, arena,
                           &corners)
               != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t s = 0; s < duty->supply_count; s++) {
        size_t from = s * duty->flow_count;
        qll_operate(made, duty->inlet_pa + from, duty->flow_m3s, duty->flow_count, points + from);
    }
    for (size_t s = 0; s < scenario_count; s++) {
        double peak_m3s = duty->scenarios[s].peak_m3s;
        for (size_t p = 0; p < duty->supply_count; p++) {
            double inlet_pa =
                qll_site_inlet_pa(operation->site, duty->supply_static_pa_gauge[p], peak_m3s);
            qll_operate(made, &inlet_pa, &peak_m3s, 1, &corners[p * scenario_count + s]);
        }
    }
    double no_flow = 0.0;
    qll_operating_point *still = &corners[duty->supply_count * scenario_count];
    double still_pa = duty->inlet_static_pa[duty->supply_count - 1];
    qll_operate(made, &still_pa, &no_flow, 1, still);
    operation->points = points;
    operation->peaks = corners;
    operation->peak_low = corners;
    operation->still = still;
    for (size_t i = 0; i < grid_count; i++) {
        qll_point_levels(operation->station, operation->site, false, &points[i]);
    }
    return QLL_OK;
}

/* Where a point belongs in the shares of time; the worst stage decides. */
typedef enum time_class {
    QLL_TIME_IN_BAND,
    QLL_TIME_BELOW_BAND,
    QLL_TIME_ABOVE_BAND,
    QLL_TIME_BELOW_STABLE,
} time_class;

typedef struct point_class {
    time_class worst;
    bool full_travel, cavitating;
} point_class;

static point_class class_of_point(const qll_operation *operation, const qll_operating_point *point)
{
    const qll_limits *limits = &operation->site->limits;
    point_class found = {QLL_TIME_IN_BAND, false, false};
    if (!point->passes) {
        return (point_class){QLL_TIME_ABOVE_BAND, true, false};
    }
    for (size_t k = 0; k < operation->station->stage_count; k++) {
        size_t count = operation->station->stages[k].branch_count;
        const qll_branch_state *states = point->branches[k];
        const qll_branch_state *charge = &states[qll_in_charge(states, count)];
        time_class here = QLL_TIME_IN_BAND;
        if (!charge->stable) {
            here = QLL_TIME_BELOW_STABLE;
        } else if (charge->velocity_m_s > limits->velocity_high_m_s) {
            here = QLL_TIME_ABOVE_BAND;
        } else if (charge->velocity_m_s < limits->velocity_low_m_s) {
            here = QLL_TIME_BELOW_BAND;
        }
        found.worst = here > found.worst ? here : found.worst;
        found.full_travel = found.full_travel || charge->full_travel;
        for (size_t j = 0; j < count; j++) {
            bool cavitates = states[j].working && states[j].cavitation.margin > 1.0;
            found.cavitating = found.cavitating || cavitates;
        }
    }
    return found;
}

static qll_time_shares shares_of(const qll_operation *operation)
{
    const qll_duty *duty = operation->duty;
    qll_time_shares shares = {.idle = duty->idle_share};
    for (size_t s = 0; s < duty->supply_count; s++) {
        for (size_t f = 0; f < duty->flow_count; f++) {
            double time = duty->supply_weight[s] * duty->weight_time[f];
            point_class found =
                class_of_point(operation, &operation->points[s * duty->flow_count + f]);
            switch (found.worst) {
            case QLL_TIME_IN_BAND: shares.in_band += time; break;
            case QLL_TIME_BELOW_BAND: shares.below_band += time; break;
            case QLL_TIME_ABOVE_BAND: shares.above_band += time; break;
            case QLL_TIME_BELOW_STABLE: shares.below_stable += time; break;
            }
            shares.full_travel += found.full_travel ? time : 0.0;
            shares.cavitating += found.cavitating ? time : 0.0;
        }
    }
    return shares;
}

static void judge_all(const qll_operation *operation, qll_verdict_list *list)
{
    qll_judge_delivery(operation, list);
    qll_judge_static(operation, list);
    qll_judge_ratio(operation, list);
    qll_judge_velocity(operation, list);
    qll_judge_capacity(operation, list);
    qll_judge_low_flow(operation, list);
    qll_judge_cavitation(operation, list);
    qll_judge_noise(operation, list);
    qll_judge_rating(operation, list);
    qll_judge_expansion(operation, list);
    qll_judge_strainer(operation, list);
    qll_judge_hammer(list);
}

/* The outlet at no flow as the supply goes through its day, and what a heater makes of it. */
static qll_status look_at_rest(const qll_operator *made, const qll_operation *operation,
                               qll_arena *arena, qll_assessment *assessment)
{
    const qll_duty *duty = operation->duty;
    const qll_site *site = operation->site;
    qll_operating_point *points = NULL;
    double *no_flow = qll_arena_take(arena, duty->supply_count, sizeof *no_flow);
    if (no_flow == NULL
        || qll_points_make(operation->station, duty->supply_count, arena, &points) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_operate(made, duty->inlet_static_pa, no_flow, duty->supply_count, points);
    qll_rest rest = {
        .low_pa_gauge = points[0].outlet_pa - site->barometric_pa,
        .middle_pa_gauge = points[duty->supply_count / 2].outlet_pa - site->barometric_pa,
        .high_pa_gauge = points[duty->supply_count - 1].outlet_pa - site->barometric_pa,
    };
    assessment->lockup_pa_gauge = rest.high_pa_gauge;
    assessment->lockup_low_pa_gauge = rest.low_pa_gauge;
    assessment->closed = qll_closed_system_of(site, &rest);
    return qll_closed_system_heat(site, arena, &assessment->closed);
}

/* Chooses the strainers and solves the design peaks again with them half blocked. */
static qll_status look_at_strainers(qll_operation *operation, qll_arena *arena,
                                    qll_strainer *const *strainers)
{
    const qll_duty *duty = operation->duty;
    size_t count = duty->scenario_count;
    qll_strainers_choose(operation->station, operation->site, operation->peaks,
                         duty->supply_count * count, strainers);
    double spare_pa = INFINITY;
    for (size_t s = 0; s < count; s++) {
        spare_pa = fmin(spare_pa, qll_strainer_spare_pa(operation, s));
    }
    qll_strainers_spare(operation->station, spare_pa, strainers);
    qll_station *blocked = qll_arena_take(arena, 1, sizeof *blocked);
    qll_operating_point *points = NULL;
    qll_operator *made = NULL;
    if (blocked == NULL
        || qll_strainers_block(operation->station, strainers, arena, blocked) != QLL_OK
        || qll_points_make(blocked, count, arena, &points) != QLL_OK
        || qll_operator_make(blocked, operation->site, arena, &made) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t s = 0; s < count; s++) {
        qll_operate(made, &operation->peak_low[s].inlet_pa, &operation->peak_low[s].flow_m3s, 1,
                    &points[s]);
    }
    operation->blocked = points;
    return QLL_OK;
}

/* The worst verdict of every rule that was judged; returns how many there are. */
static size_t list_worst(const qll_verdict_list *list, qll_verdict worst[QLL_RULE_COUNT])
{
    size_t count = 0;
    for (size_t rule = 0; rule < QLL_RULE_COUNT; rule++) {
        if (list->judged[rule]) {
            worst[count] = list->worst[rule];
            count += 1;
        }
    }
    return count;
}

static void count_grades(qll_assessment *assessment)
{
    assessment->fail_count = 0;
    assessment->caution_count = 0;
    for (size_t i = 0; i < assessment->verdict_count; i++) {
        qll_grade grade = assessment->verdicts[i].grade;
        assessment->fail_count += grade == QLL_GRADE_FAIL ? 1 : 0;
        assessment->caution_count += grade == QLL_GRADE_CAUTION ? 1 : 0;
    }
}

static void put_verdicts(const qll_verdict_list *list, qll_assessment *assessment)
{
    assessment->details = list->items;
    assessment->detail_count = list->count;
    assessment->verdict_count = list_worst(list, assessment->verdicts);
    count_grades(assessment);
}

void qll_assessment_take_run(qll_assessment *assessment, const qll_verdict *verdict)
{
    for (size_t i = 0; i < assessment->verdict_count; i++) {
        qll_verdict *own = &assessment->verdicts[i];
        const bool is_graver = own->grade != QLL_GRADE_UNKNOWN && own->grade > verdict->grade;
        if (own->rule == verdict->rule && !is_graver) {
            *own = *verdict;
        }
    }
    count_grades(assessment);
}

/* The worst, the typical and the loudest. */
enum {
    QLL_KEPT_COUNT = 3
};

/* Solves the station at all points that the rules look at, and judges it; all but the strainers and
 * the verdicts kept lives no longer than the caller's mark. */
static qll_status examine(const qll_operator *made, qll_operation *operation, qll_arena *arena,
                          qll_strainer *const *strainers, qll_assessment *assessment,
                          qll_verdict_list *list)
{
    /* A copy, for the sum adds to the shapes of pipes, and here they live no longer than the mark. */
    qll_yardstick yardstick = *operation->yardstick;
    qll_station_sums sums;
    if (qll_station_sum(operation->station, &yardstick, arena, &sums) != QLL_OK
        || operate_all(made, operation, arena) != QLL_OK
        || look_at_rest(made, operation, arena, assessment) != QLL_OK
        || look_at_strainers(operation, arena, strainers) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    operation->closed = &assessment->closed;
    operation->sums = &sums;
    judge_all(operation, list);
    operation->sums = NULL;
    return qll_judge_hunting(operation, arena, list);
}

qll_status qll_station_assess(const qll_station *station, const qll_yardstick *yardstick,
                              qll_arena *arena, qll_assessment *assessment)
{
    const qll_site *site = yardstick->site;
    const qll_duty *duty = yardstick->duty;
    qll_verdict_list list = {.room = verdict_room(station, site, duty)};
    list.items = qll_arena_take(arena, list.room, sizeof *list.items);
    qll_handover *handovers = qll_arena_take(arena, station->stage_count, sizeof *handovers);
    qll_operating_point *kept = NULL;
    qll_strainer **strainers = qll_strainers_room(station, arena);
    if (list.items == NULL || handovers == NULL || strainers == NULL
        || qll_points_make(station, QLL_KEPT_COUNT, arena, &kept) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_arena_mark mark = qll_arena_now(arena);
    qll_operator *made = NULL;
    qll_operation operation = {
        .station = station, .site = site, .duty = duty, .yardstick = yardstick};
    *assessment = (qll_assessment){.handovers = handovers, .strainers = strainers};
    if (qll_operator_make(station, site, arena, &made) != QLL_OK
        || examine(made, &operation, arena, strainers, assessment, &list) != QLL_OK) {
        qll_arena_reset(arena, mark);
        return QLL_NO_MEMORY;
    }
    assessment->shares = shares_of(&operation);
    put_verdicts(&list, assessment);
    const size_t worst = duty->supply_count * duty->flow_count - 1;
    const size_t at[QLL_KEPT_COUNT] = {worst, qll_typical_point(duty),
                                       qll_loudest_point(&operation)};
    const qll_operating_point *typical = &operation.points[at[1]];
    for (size_t i = 0; i < QLL_KEPT_COUNT; i++) {
        const qll_operating_point *of = &operation.points[at[i]];
        qll_operate(made, &of->inlet_pa, &of->flow_m3s, 1, &kept[i]);
        qll_point_levels(station, site, true, &kept[i]);
    }
    assessment->worst = kept[0];
    assessment->typical = kept[1];
    assessment->loudest = kept[2];
    for (size_t k = 0; k < station->stage_count; k++) {
        handovers[k] = qll_stage_handover(qll_operator_stage(made, k), typical->stage_inlet_pa[k]);
    }
    qll_arena_reset(arena, mark);
    return QLL_OK;
}
