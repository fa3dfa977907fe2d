/* Velocity: 15 ft/s in a valve's own size, wear by the duty, and 8 ft/s in the pipes. */
#include "station/rules.h"

#include <math.h>
#include <stdint.h>

/* A branch in charge of less of the water than this is judged by the design peak alone (our
 * assumption). */
#define QLL_WORK_LEAST_SHARE 0.01

/* Where a branch works and how fast, in its own size. */
typedef struct branch_work {
    double water;     /* share of all water while it is in charge */
    double speed_sum; /* of velocity, by that share */
    double peak_m_s;  /* the greatest velocity at any scenario's design peak and any supply */
    double peak_flow_m3s;
} branch_work;

/* What a branch would have to carry of a flow the stage cannot pass: its part of the full openings. */
static double wanted_m3s(const qll_stage *stage, size_t branch, double flow_m3s)
{
    double full = 0.0;
    for (size_t j = 0; j < stage->branch_count; j++) {
        full += stage->branches[j].valve->kv_m3h;
    }
    return flow_m3s * stage->branches[branch].valve->kv_m3h / full;
}

static void see_peak(const qll_stage *stage, const qll_operating_point *point, qll_spot at,
                     branch_work *work)
{
    double flow_m3s = point->branches[at.stage][at.branch].flow_m3s;
    if (isnan(point->stage_outlet_pa[at.stage])) {
        flow_m3s = wanted_m3s(stage, at.branch, point->flow_m3s);
    }
    double bore_m = qll_branch_own_bore_m(&stage->branches[at.branch]);
    double velocity = qll_pipe_velocity_m_s(flow_m3s, bore_m);
    if (velocity > work->peak_m_s) {
        work->peak_m_s = velocity;
        work->peak_flow_m3s = flow_m3s;
    }
}

static branch_work work_of(const qll_operation *operation, size_t stage, size_t branch)
{
    const qll_duty *duty = operation->duty;
    const qll_stage *of = &operation->station->stages[stage];
    branch_work work = {0};
    for (size_t s = 0; s < duty->supply_count; s++) {
        for (size_t f = 0; f < duty->flow_count; f++) {
            const qll_operating_point *point = &operation->points[s * duty->flow_count + f];
            const qll_branch_state *states = point->branches[stage];
            if (states[branch].working && qll_in_charge(states, of->branch_count) == branch) {
                double water = qll_water_share(duty, s, f);
                work.water += water;
                work.speed_sum += water * states[branch].velocity_m_s;
            }
        }
    }
    const qll_spot at = {.stage = stage, .branch = branch};
    for (size_t i = 0; i < duty->supply_count * duty->scenario_count; i++) {
        see_peak(of, &operation->peaks[i], at, &work);
    }
    return work;
}

/* The smallest size of the station's pipe that keeps the limit; NaN if there is none. */
static double right_size_m(const qll_site *site, double flow_m3s, double limit_m_s)
{
    double right_m = NAN;
    for (size_t i = 0; i < site->station_size_count; i++) {
        const qll_pipe_size *size = site->station_sizes[i];
        double own_bore_m = fmin(size->nominal_m, size->bore_m);
        if (qll_pipe_velocity_m_s(flow_m3s, own_bore_m) <= limit_m_s) {
            right_m = fmin(right_m, size->nominal_m);
        }
    }
    return right_m;
}

static void grade_work(const qll_operation *operation, const branch_work *work,
                       qll_verdict *verdict)
{
    const qll_limits *limits = &operation->site->limits;
    if (verdict->value_at_peak / QLL_SPEED_MOST_M_S - 1.0 > QLL_PRACTICE_SLACK) {
        verdict->grade = QLL_GRADE_FAIL;
        verdict->finding = QLL_FINDING_VELOCITY_ABOVE_MAX;
        verdict->limit = QLL_SPEED_MOST_M_S;
        verdict->right_size_m =
            right_size_m(operation->site, work->peak_flow_m3s, QLL_SPEED_MOST_M_S);
        return;
    }
    /* Wear is summed over a stage; a valve that is never fast has no part in it. */
    const qll_hazard_sums *hazards = operation->sums->stages[verdict->spot.stage].hazards;
    if (verdict->value_at_peak > QLL_WEAR_FROM_M_S) {
        qll_verdict_weigh_at_most_caution(
            verdict, qll_row_chance(operation->yardstick->unknowns, hazards, QLL_ROW_WEAR));
    }
    if (verdict->grade != QLL_GRADE_GOOD) {
        verdict->finding = QLL_FINDING_VELOCITY_FAST;
        verdict->limit = QLL_WEAR_FROM_M_S;
    } else if (verdict->value > limits->velocity_high_m_s) {
        verdict->finding = QLL_FINDING_VELOCITY_QUICK;
        verdict->limit = limits->velocity_high_m_s;
    } else if (verdict->value < limits->velocity_low_m_s) {
        verdict->finding = QLL_FINDING_VELOCITY_SLOW;
        verdict->limit = limits->velocity_low_m_s;
    } else {
        verdict->finding = QLL_FINDING_VELOCITY_IN_BAND;
        verdict->limit = limits->velocity_high_m_s;
    }
}

/* How far from the band, as a share of its end; too fast counts double. */
static double stress_of(const qll_limits *limits, const qll_verdict *verdict)
{
    double below = (limits->velocity_low_m_s - verdict->value) / limits->velocity_low_m_s;
    double above = (fmax(verdict->value, verdict->value_at_peak) - limits->velocity_high_m_s)
                   / limits->velocity_high_m_s;
    return fmax(below, 2.0 * above);
}

/* A pipe at a scenario's design peak; behind the station on the way to an outlet. */
typedef struct run_pipe {
    const qll_pipe_size *size;
    double bore_m, flow_m3s;
    size_t scenario, outlet;
} run_pipe;

/* A caution that names the pipe, or nothing. */
static void judge_pipe(const qll_operation *operation, const run_pipe *pipe, qll_verdict_list *list)
{
    qll_verdict verdict = qll_verdict_new(QLL_RULE_VELOCITY, QLL_KIND_VELOCITY);
    verdict.value = qll_pipe_velocity_m_s(pipe->flow_m3s, pipe->bore_m);
    verdict.limit = qll_site_pipe_most_m_s(operation->site, pipe->size);
    if (qll_is_above_m_s(verdict.value, verdict.limit)) {
        verdict.grade = QLL_GRADE_CAUTION;
        verdict.finding = QLL_FINDING_VELOCITY_PIPE;
        verdict.pipe = pipe->size;
        verdict.spot.scenario = pipe->scenario;
        verdict.spot.outlet = pipe->outlet;
        qll_verdict_put(list, &verdict, verdict.value / verdict.limit);
    }
}

/* Of the pipes behind the station the one farthest above its limit, or nearest to it. */
static void judge_ways(const qll_operation *operation, size_t scenario, qll_verdict_list *list)
{
    const qll_site *site = operation->site;
    double worst = 0.0;
    run_pipe found = {.scenario = scenario, .outlet = SIZE_MAX};
    for (size_t i = 0; i < site->outlet_count; i++) {
        for (size_t k = 0; k < site->outlets[i].path_count; k++) {
            const qll_path_run *run = &site->outlets[i].path[k];
            double flow_m3s =
                qll_path_carries_m3s(run, operation->duty->scenarios[scenario].peak_m3s);
            double share = qll_pipe_velocity_m_s(flow_m3s, run->pipe.bore_m)
                           / qll_site_pipe_most_m_s(site, run->size);
            if (share > worst) {
                worst = share;
                found.size = run->size;
                found.bore_m = run->pipe.bore_m;
                found.flow_m3s = flow_m3s;
                found.outlet = i;
            }
        }
    }
    if (found.outlet != SIZE_MAX) {
        judge_pipe(operation, &found, list);
    }
}

/* The pipe that the valves stand in, the narrowest before it, and the fastest behind it. */
static void judge_pipes(const qll_operation *operation, qll_verdict_list *list)
{
    const qll_site *site = operation->site;
    const qll_element *narrowest = NULL;
    for (size_t i = 0; i < site->upstream_count; i++) {
        const qll_element *element = &site->upstream[i];
        if (element->kind == QLL_ELEMENT_PIPE
            && (narrowest == NULL || element->pipe.bore_m < narrowest->pipe.bore_m)) {
            narrowest = element;
        }
    }
    for (size_t s = 0; s < operation->duty->scenario_count; s++) {
        run_pipe pipe = {
            .flow_m3s = operation->duty->scenarios[s].peak_m3s, .scenario = s, .outlet = SIZE_MAX};
        if (narrowest != NULL) {
            pipe.size = narrowest->size;
            pipe.bore_m = narrowest->pipe.bore_m;
            judge_pipe(operation, &pipe, list);
        }
        if (site->header != NULL) {
            pipe.size = site->header;
            pipe.bore_m = site->header->bore_m;
            judge_pipe(operation, &pipe, list);
        }
        judge_ways(operation, s, list);
    }
}

void qll_judge_velocity(const qll_operation *operation, qll_verdict_list *list)
{
    for (size_t k = 0; k < operation->station->stage_count; k++) {
        for (size_t j = 0; j < operation->station->stages[k].branch_count; j++) {
            branch_work work = work_of(operation, k, j);
            bool works = work.water >= QLL_WORK_LEAST_SHARE;
            qll_verdict verdict = qll_verdict_new(QLL_RULE_VELOCITY, QLL_KIND_VELOCITY);
            verdict.value = works ? work.speed_sum / work.water : work.peak_m_s;
            verdict.value_at_peak = work.peak_m_s;
            verdict.spot.stage = k;
            verdict.spot.branch = j;
            grade_work(operation, &work, &verdict);
            qll_verdict_put(list, &verdict, stress_of(&operation->site->limits, &verdict));
        }
    }
    judge_pipes(operation, list);
}
