#include "transient/watch.h"

#include "dynamics/pipeline.h"

#include <math.h>

/* Of a trace: two values a bin. */
static const size_t trace_room = (size_t)2 * QLL_BINS;
/* A valve whose lift moves by less of its travel stands still, whatever rings in the pipe behind it. */
static const double still_share = 1e-4;

/* ---- beginning ---- */

static double lift_share(const qll_regulator_boundary *valve)
{
    return fmax(valve->lift_m, 0) / valve->regulator->full_m;
}

static double pressure_pa(const qll_watch *watch, size_t joint)
{
    return qll_pipeline_joint(watch->pipeline, joint)->pressure_pa_gauge;
}

/* Into boundaries and pipes in one piece, of all joints; through draws alone. */
static double into_boundaries_m3s(const qll_watch *watch)
{
    double sum_m3s = 0;
    for (size_t j = 0; j < watch->tree->network.joint_count; j++) {
        sum_m3s += qll_pipeline_joint(watch->pipeline, j)->outflow_m3s;
    }
    return sum_m3s;
}

static double into_draws_m3s(const qll_watch *watch)
{
    const qll_instant now = {.time_s = qll_pipeline_time_s(watch->pipeline), .step_s = 1};
    double sum_m3s = 0;
    for (size_t i = 0; i < watch->tree->draw_count; i++) {
        const qll_tree_draw *draw = &watch->tree->draws[i];
        const double pa = pressure_pa(watch, draw->joint);
        qll_through through = {0};
        qll_opening_kind.through(&draw->opening, &now, &pa, &through);
        sum_m3s += through.flow_m3s[0];
    }
    return sum_m3s;
}

/* In the pipes that waves run through. */
static double held_m3(const qll_watch *watch)
{
    double sum_m3 = 0;
    for (size_t i = 0; i < watch->tree->network.line_count; i++) {
        const bool is_lumped = qll_pipeline_grid(watch->pipeline)->pipes[i].cells == 0;
        sum_m3 += is_lumped ? 0 : qll_pipeline_line(watch->pipeline, i).held_m3;
    }
    return sum_m3;
}

static bool has_vapour(const qll_watch *watch)
{
    bool any = false;
    for (size_t j = 0; j < watch->tree->network.joint_count; j++) {
        any = any || qll_pipeline_joint(watch->pipeline, j)->cavity_m3 > 0;
    }
    return any;
}

qll_status qll_watch_begin(const qll_run_plan *plan, const qll_tree *tree, qll_pipeline *pipeline,
                           double step_s, qll_arena *arena, qll_watch *watch)
{
    const size_t stages = tree->stage_count, joints = tree->network.joint_count;
    *watch = (qll_watch){.plan = plan,
                         .tree = tree,
                         .pipeline = pipeline,
                         .sample_room = (size_t)(plan->watched_s / step_s) + 2,
                         .trace_count = QLL_TRACES + tree->valve_count,
                         .is_counted = true};
    watch->joints = qll_arena_take(arena, joints, sizeof *watch->joints);
    watch->valves = qll_arena_take(arena, tree->valve_count, sizeof *watch->valves);
    watch->samples = qll_arena_take(arena, stages * watch->sample_room, sizeof *watch->samples);
    watch->bins = qll_arena_take(arena, watch->trace_count * QLL_BINS, sizeof *watch->bins);
    watch->bin_seen = qll_arena_take(arena, QLL_BINS, sizeof *watch->bin_seen);
    if (watch->joints == NULL || watch->valves == NULL || watch->samples == NULL
        || watch->bins == NULL || watch->bin_seen == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < tree->valve_count; i++) {
        watch->valves[i] = (qll_valve_seen){.least_share = 1};
    }
    for (size_t j = 0; j < joints; j++) {
        const double pa = pressure_pa(watch, j);
        watch->joints[j] =
            (qll_joint_seen){.before_pa_gauge = pa, .high_pa_gauge = pa, .low_pa_gauge = pa};
    }
    watch->held_m3 = held_m3(watch);
    watch->into_m3s = into_boundaries_m3s(watch);
    return QLL_OK;
}

/* ---- a step ---- */

static void see_joints(qll_watch *watch, double now_s)
{
    for (size_t j = 0; j < watch->tree->network.joint_count; j++) {
        qll_joint_seen *seen = &watch->joints[j];
        const double pa = pressure_pa(watch, j);
        if (pa > seen->high_pa_gauge) {
            seen->high_pa_gauge = pa;
            seen->high_s = now_s;
        }
        if (pa < seen->low_pa_gauge) {
            seen->low_pa_gauge = pa;
            seen->low_s = now_s;
        }
        seen->cavity_m3 = fmax(seen->cavity_m3, qll_pipeline_joint(watch->pipeline, j)->cavity_m3);
    }
}

static double trace_value(const qll_watch *watch, size_t trace)
{
    const qll_tree *tree = watch->tree;
    const size_t joints[QLL_TRACES] = {tree->draws[watch->plan->followed].joint, tree->outlet_joint,
                                       tree->stage_joint[0]};
    return trace < QLL_TRACES ? pressure_pa(watch, joints[trace])
                              : lift_share(&tree->valves[trace - QLL_TRACES]);
}

static void see_traces(qll_watch *watch, double now_s)
{
    const double share = now_s / watch->plan->until_s;
    const size_t bin = share < 1 ? (size_t)(share * QLL_BINS) : QLL_BINS - 1;
    for (size_t trace = 0; trace < watch->trace_count; trace++) {
        qll_bin *own = &watch->bins[trace * QLL_BINS + bin];
        const double value = trace_value(watch, trace);
        if (watch->bin_seen[bin] == 0) {
            *own = (qll_bin){.low = value, .high = value};
        }
        if (value < own->low) {
            own->low = value;
            own->low_is_first = false;
        }
        if (value > own->high) {
            own->high = value;
            own->low_is_first = true;
        }
    }
    watch->bin_seen[bin] += 1;
}

/* Valves while they are judged. A blow on a seat is taken back by the boundary until it is asked. */
static void see_valves(qll_watch *watch)
{
    const bool has_room = watch->sample_count < watch->sample_room;
    for (size_t k = 0; k < watch->tree->stage_count && has_room; k++) {
        watch->samples[k * watch->sample_room + watch->sample_count] =
            pressure_pa(watch, watch->tree->stage_joint[2 * k + 1]);
    }
    watch->sample_count += has_room;
    for (size_t i = 0; i < watch->tree->valve_count; i++) {
        qll_regulator_boundary *valve = &watch->tree->valves[i];
        qll_valve_seen *seen = &watch->valves[i];
        seen->least_share = fmin(seen->least_share, lift_share(valve));
        seen->most_share = fmax(seen->most_share, lift_share(valve));
        seen->motion.blows += valve->blow_m_s > 0;
        seen->motion.blow_m_s = fmax(seen->motion.blow_m_s, valve->blow_m_s);
        valve->blow_m_s = 0;
    }
}

void qll_watch_step(qll_watch *watch, double step_s, bool is_wave)
{
    const double now_s = qll_pipeline_time_s(watch->pipeline);
    see_joints(watch, now_s);
    if (watch->plan->sees != NULL) {
        const double pa_gauge[QLL_TRACES] = {trace_value(watch, 0), trace_value(watch, 1),
                                             trace_value(watch, 2)};
        watch->plan->sees(now_s, pa_gauge, watch->plan->sees_context);
    }
    see_traces(watch, now_s);
    if (now_s >= watch->plan->until_s - watch->plan->watched_s) {
        see_valves(watch);
    } else {
        for (size_t i = 0; i < watch->tree->valve_count; i++) {
            watch->tree->valves[i].blow_m_s = 0;
        }
    }
    const double into_m3s = into_boundaries_m3s(watch);
    watch->is_counted = watch->is_counted && is_wave && !has_vapour(watch);
    watch->went_m3 += step_s / 2 * (watch->into_m3s + into_m3s);
    watch->drawn_m3 += step_s * into_draws_m3s(watch);
    watch->into_m3s = into_m3s;
}

/* ---- the end ---- */

static void judge_valves(qll_watch *watch, double step_s)
{
    const qll_station *station = watch->plan->tree.station;
    size_t valve = 0;
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++, valve++) {
            const qll_motion_samples samples = {
                .pressure_pa = &watch->samples[k * watch->sample_room],
                .count = watch->sample_count,
                .every_s = step_s,
                .set_pa_gauge = station->stages[k].branches[j].set_pa_gauge,
                .blows = watch->valves[valve].motion.blows};
            if (samples.count > 0) {
                qll_motion_judge(&samples, &watch->valves[valve].motion);
            }
            if (watch->valves[valve].most_share - watch->valves[valve].least_share < still_share) {
                watch->valves[valve].motion.state = QLL_MOTION_STATE_STABLE;
                watch->valves[valve].motion.is_felt = false;
            }
        }
    }
}

static qll_status keep_lines(const qll_watch *watch, qll_arena *arena, qll_run_found *found)
{
    const qll_network *network = &watch->tree->network;
    qll_line_seen *lines = qll_arena_take(arena, network->line_count, sizeof *lines);
    if (lines == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < network->line_count; i++) {
        const qll_line_now now = qll_pipeline_line(watch->pipeline, i);
        const qll_joint_seen *first = &watch->joints[network->lines[i].from];
        const qll_joint_seen *last = &watch->joints[network->lines[i].to];
        lines[i] = (qll_line_seen){
            .high_pa_gauge =
                fmax(now.high_pa_gauge, fmax(first->high_pa_gauge, last->high_pa_gauge)),
            .low_pa_gauge = fmin(now.low_pa_gauge, fmin(first->low_pa_gauge, last->low_pa_gauge)),
            .cavity_share = now.cavity_most};
    }
    found->lines = lines;
    return QLL_OK;
}

static qll_status keep_traces(const qll_watch *watch, qll_arena *arena, qll_run_found *found)
{
    double *time_s = qll_arena_take(arena, trace_room, sizeof *time_s);
    double **traces = qll_arena_take(arena, watch->trace_count, sizeof *traces);
    if (time_s == NULL || traces == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t t = 0; t < watch->trace_count; t++) {
        traces[t] = qll_arena_take(arena, trace_room, sizeof **traces);
        if (traces[t] == NULL) {
            return QLL_NO_MEMORY;
        }
    }
    size_t count = 0;
    for (size_t bin = 0; bin < QLL_BINS; bin++) {
        if (watch->bin_seen[bin] == 0) {
            continue;
        }
        const double width_s = watch->plan->until_s / QLL_BINS;
        time_s[count] = ((double)bin + 0.25) * width_s;
        time_s[count + 1] = ((double)bin + 0.75) * width_s;
        for (size_t t = 0; t < watch->trace_count; t++) {
            const qll_bin *own = &watch->bins[t * QLL_BINS + bin];
            traces[t][count] = own->low_is_first ? own->low : own->high;
            traces[t][count + 1] = own->low_is_first ? own->high : own->low;
        }
        count += 2;
    }
    found->traces = (qll_run_traces){
        .time_s = time_s, .lift_share = (const double *const *)&traces[QLL_TRACES], .count = count};
    for (size_t t = 0; t < QLL_TRACES; t++) {
        found->traces.pa_gauge[t] = traces[t];
    }
    return QLL_OK;
}

qll_status qll_watch_end(qll_watch *watch, double step_s, qll_arena *arena, qll_run_found *found)
{
    judge_valves(watch, step_s);
    found->joints = watch->joints;
    found->valves = watch->valves;
    found->drawn_m3 = watch->drawn_m3;
    found->water_off_m3 =
        watch->is_counted ? held_m3(watch) - watch->held_m3 + watch->went_m3 : (double)NAN;
    found->ended_s = qll_pipeline_time_s(watch->pipeline);
    const qll_status status = keep_lines(watch, arena, found);
    return status == QLL_OK ? keep_traces(watch, arena, found) : status;
}
