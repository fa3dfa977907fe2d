#include "dynamics/pipeline_state.h"

#include <assert.h>
#include <math.h>

/* ---- beginning ---- */

/* Half of a cell's friction at an end, per flow. */
static double end_friction(const qll_pipe *each, double flow_m3s)
{
    return (each->cells.friction.linear_pa_s_m3
            + each->cells.friction.square_pa_s2_m6 * fabs(flow_m3s))
           / 2;
}

/* Eq. 12: pressures and flows straight between the ends, as waves. */
static void fill_waves(qll_pipe *each, double first_pa, double last_pa)
{
    const double z = each->cells.impedance_pa_s_m3;
    const size_t count = each->cells.count;
    for (size_t i = 0; i <= count; i++) {
        const double share = (double)i / (double)count;
        const double flow_m3s = each->first.flow_m3s * (1 - share) + each->last.flow_m3s * share;
        const double half_pa = qll_friction_pa(&each->cells.friction, flow_m3s) / 2;
        const double middle_pa = first_pa * (1 - share) + last_pa * share;
        each->now.forward[i] = middle_pa - half_pa + z * flow_m3s;
        each->now.backward[i] = middle_pa + half_pa - z * flow_m3s;
        each->cavity_m3[i] = 0;
    }
    /* At an end only half of a section's friction lies within. */
    const double first_half = end_friction(each, each->first.flow_m3s) * each->first.flow_m3s;
    const double last_half = end_friction(each, each->last.flow_m3s) * each->last.flow_m3s;
    each->first.arrived_pa = first_pa - first_half - z * each->first.flow_m3s;
    each->last.arrived_pa = last_pa + last_half + z * each->last.flow_m3s;
    each->cavities_m3 = 0;
}

static void fill_pipes(qll_pipeline *pipeline)
{
    for (size_t i = 0; i < pipeline->pipe_count; i++) {
        qll_pipe *each = &pipeline->pipes[i];
        if (each->cells.count > 0) {
            fill_waves(each,
                       pipeline->nodes[each->first.joint].pressure_pa_gauge + each->first.rise_pa,
                       pipeline->nodes[each->last.joint].pressure_pa_gauge + each->last.rise_pa);
        }
    }
    pipeline->quiet_s = 0;
    pipeline->in_pieces = false;
}

static void see(qll_pipeline *pipeline)
{
    for (size_t j = 0; j < pipeline->joint_count; j++) {
        qll_seen *each = &pipeline->seen[j];
        each->high_pa = fmax(each->high_pa, pipeline->nodes[j].pressure_pa_gauge);
        each->low_pa = fmin(each->low_pa, pipeline->nodes[j].pressure_pa_gauge);
    }
}

/* Nothing has been seen yet but what is now. */
static void see_anew(qll_pipeline *pipeline)
{
    for (size_t j = 0; j < pipeline->joint_count; j++) {
        const double now_pa = pipeline->nodes[j].pressure_pa_gauge;
        pipeline->seen[j] = (qll_seen){now_pa, now_pa, now_pa};
    }
}

/* Nodes without pipes but for those in one piece. */
static void isolate(qll_pipeline *pipeline)
{
    for (size_t j = 0; j < pipeline->joint_count; j++) {
        const bool holds = !isnan(pipeline->joints[j].held_pa_gauge);
        pipeline->nodes[j].vapour_pa_gauge = pipeline->vapour_pa_gauge;
        pipeline->nodes[j].arrival =
            (qll_arrival){.pressure_pa_gauge = holds ? pipeline->joints[j].held_pa_gauge : 0,
                          .admittance_m3s_pa = holds ? (double)INFINITY : 0};
    }
}

/* Flows at the ends of all pipes from those that were in one piece. */
static void take_over(qll_pipeline *pipeline)
{
    for (size_t i = 0; i < pipeline->pipe_count; i++) {
        pipeline->pipes[i].first.flow_m3s = pipeline->short_pipes[i].end_m3s[0];
        pipeline->pipes[i].last.flow_m3s = -pipeline->short_pipes[i].end_m3s[1];
    }
}

double qll_pipeline_rest(qll_pipeline *pipeline, double time_s)
{
    isolate(pipeline);
    for (size_t j = 0; j < pipeline->joint_count; j++) {
        pipeline->nodes[j].pressure_pa_gauge = pipeline->joints[j].start_pa_gauge;
        pipeline->nodes[j].cavity_m3 = 0;
    }
    const qll_instant now = {.time_s = time_s, .step_s = (double)INFINITY};
    const double worst_pa = qll_meeting_end_step(pipeline->quiet, pipeline->nodes, &now);
    pipeline->time_s = time_s;
    take_over(pipeline);
    fill_pipes(pipeline);
    see_anew(pipeline);
    return worst_pa;
}

/* What stands at the joints takes their pressures as at rest. */
static void settle(qll_pipeline *pipeline, const qll_instant *now)
{
    for (size_t i = 0; i < pipeline->boundary_count; i++) {
        const qll_boundary *boundary = &pipeline->boundaries[i];
        double pressure_pa[QLL_PORTS_MOST] = {0};
        for (size_t port = 0; port < boundary->kind->port_count; port++) {
            pressure_pa[port] = pipeline->nodes[boundary->node[port]].pressure_pa_gauge;
        }
        if (boundary->kind->accept != NULL) {
            boundary->kind->accept(boundary->state, now, pressure_pa);
        }
    }
}

void qll_pipeline_begin(qll_pipeline *pipeline, double time_s, const double *joint_pa_gauge,
                        const double *line_m3s)
{
    isolate(pipeline);
    for (size_t j = 0; j < pipeline->joint_count; j++) {
        pipeline->nodes[j].pressure_pa_gauge = joint_pa_gauge[j];
        pipeline->nodes[j].cavity_m3 = 0;
    }
    settle(pipeline, &(qll_instant){.time_s = time_s, .step_s = (double)INFINITY});
    for (size_t i = 0; i < pipeline->pipe_count; i++) {
        qll_short_pipe *piece = &pipeline->short_pipes[i];
        piece->flow_m3s = piece->end_m3s[0] = line_m3s[i];
        piece->end_m3s[1] = -line_m3s[i];
        piece->pressure_pa_gauge[0] = joint_pa_gauge[pipeline->pipes[i].first.joint];
        piece->pressure_pa_gauge[1] = joint_pa_gauge[pipeline->pipes[i].last.joint];
    }
    pipeline->time_s = time_s;
    take_over(pipeline);
    fill_pipes(pipeline);
    see_anew(pipeline);
}

/* Where the joints were before the step. */
static void remember(qll_pipeline *pipeline)
{
    for (size_t j = 0; j < pipeline->joint_count; j++) {
        pipeline->seen[j].before_pa = pipeline->nodes[j].pressure_pa_gauge;
    }
}

/* ---- one step of the waves ---- */

static void sweep(const qll_pipeline *pipeline, qll_pipe *each)
{
    const qll_vapour_line vapour = {
        .first_pa = pipeline->vapour_pa_gauge + each->first.rise_pa,
        .last_pa = pipeline->vapour_pa_gauge + each->last.rise_pa,
    };
    qll_envelope *envelope = pipeline->is_watched ? &each->envelope : NULL;
    bool is_plain = each->cavities_m3 == 0;
    if (is_plain) {
        is_plain = qll_sweep_plain(&each->cells, each->now, each->next,
                                   fmax(vapour.first_pa, vapour.last_pa));
    }
    if (is_plain && envelope != NULL) {
        qll_sweep_envelope(&each->cells, each->next, envelope);
    } else if (!is_plain) {
        each->cavities_m3 = qll_sweep_careful(&each->cells, each->now, each->next, vapour,
                                              each->cavity_m3, envelope);
        for (size_t i = 1; each->cavities_m3 > 0 && i < each->cells.count; i++) {
            each->cavity_most_m3 = fmax(each->cavity_most_m3, each->cavity_m3[i]);
        }
    }
    each->first.arrives_pa = each->now.backward[1];
    each->last.arrives_pa = each->now.forward[each->cells.count - 1];
}

static double impedance_at(const qll_pipe *each, const qll_line_end *end)
{
    return each->cells.impedance_pa_s_m3 + end_friction(each, end->flow_m3s);
}

/* Eq. 8, when @p share of the step is over. */
static void arrive(qll_meeting_node *nodes, const qll_pipe *each, const qll_line_end *end,
                   double share)
{
    qll_arrival *arrival = &nodes[end->joint].arrival;
    if (isinf(arrival->admittance_m3s_pa)) {
        return;
    }
    const double wave_pa = end->arrived_pa * (1 - share) + end->arrives_pa * share - end->rise_pa;
    const double own = 1 / impedance_at(each, end);
    const double all = arrival->admittance_m3s_pa + own;
    arrival->pressure_pa_gauge += (wave_pa - arrival->pressure_pa_gauge) * (own / all);
    arrival->admittance_m3s_pa = all;
}

static void arrive_all(qll_pipeline *pipeline, double share)
{
    isolate(pipeline);
    for (size_t i = 0; i < pipeline->pipe_count; i++) {
        const qll_pipe *each = &pipeline->pipes[i];
        if (each->cells.count > 0) {
            arrive(pipeline->nodes, each, &each->first, share);
            arrive(pipeline->nodes, each, &each->last, share);
        }
    }
}

/* What leaves the ends, now that the joints' pressures are known. */
static void leave(const qll_meeting_node *nodes, qll_pipe *each)
{
    const double first_pa = nodes[each->first.joint].pressure_pa_gauge + each->first.rise_pa;
    const double last_pa = nodes[each->last.joint].pressure_pa_gauge + each->last.rise_pa;
    const double twice_z = 2 * each->cells.impedance_pa_s_m3;
    each->first.flow_m3s = (first_pa - each->first.arrives_pa) / impedance_at(each, &each->first);
    each->last.flow_m3s = (each->last.arrives_pa - last_pa) / impedance_at(each, &each->last);
    each->next.forward[0] = each->first.arrives_pa + twice_z * each->first.flow_m3s;
    each->next.backward[each->cells.count] = each->last.arrives_pa - twice_z * each->last.flow_m3s;
    each->first.arrived_pa = each->first.arrives_pa;
    each->last.arrived_pa = each->last.arrives_pa;
    const qll_waves before = each->now;
    each->now = each->next;
    each->next = before;
}

/* In how many parts a step of the pipes is taken where boundaries want shorter ones. */
static size_t parts_of_step(const qll_pipeline *pipeline)
{
    double shortest_s = pipeline->grid.step_s;
    for (size_t i = 0; i < pipeline->boundary_count; i++) {
        const qll_boundary *boundary = &pipeline->boundaries[i];
        if (boundary->kind->longest_step_s != NULL) {
            shortest_s = fmin(shortest_s, boundary->kind->longest_step_s(boundary->state));
        }
    }
    assert(shortest_s > 0);
    /* A step of which rounding has taken a little is still one. */
    return (size_t)ceil(pipeline->grid.step_s / shortest_s * (1 - 1e-12));
}

double qll_pipeline_step(qll_pipeline *pipeline)
{
    const double step_s = pipeline->grid.step_s;
    if (pipeline->in_pieces) {
        fill_pipes(pipeline);
    }
    for (size_t i = 0; i < pipeline->pipe_count; i++) {
        if (pipeline->pipes[i].cells.count > 0) {
            sweep(pipeline, &pipeline->pipes[i]);
        }
    }
    remember(pipeline);
    const size_t parts = parts_of_step(pipeline);
    double worst_pa = 0;
    for (size_t part = 1; part <= parts; part++) {
        const double share = (double)part / (double)parts;
        const qll_instant now = {.time_s = pipeline->time_s + share * step_s,
                                 .step_s = step_s / (double)parts};
        arrive_all(pipeline, share);
        worst_pa = fmax(worst_pa, qll_meeting_end_step(pipeline->waves, pipeline->nodes, &now));
        see(pipeline);
    }
    for (size_t i = 0; i < pipeline->pipe_count; i++) {
        if (pipeline->pipes[i].cells.count > 0) {
            leave(pipeline->nodes, &pipeline->pipes[i]);
        }
    }
    pipeline->time_s += step_s;
    return worst_pa;
}

/* ---- quiet stretches ---- */

double qll_pipeline_moved_pa(const qll_pipeline *pipeline)
{
    double most_pa = 0;
    for (size_t j = 0; j < pipeline->joint_count; j++) {
        most_pa =
            fmax(most_pa, fabs(pipeline->nodes[j].pressure_pa_gauge - pipeline->seen[j].before_pa));
    }
    return most_pa;
}

static bool has_vapour(const qll_pipeline *pipeline)
{
    bool any = false;
    for (size_t j = 0; j < pipeline->joint_count; j++) {
        any = any || pipeline->nodes[j].cavity_m3 > 0;
    }
    for (size_t i = 0; i < pipeline->pipe_count; i++) {
        any = any || pipeline->pipes[i].cavities_m3 > 0;
    }
    return any;
}

bool qll_pipeline_is_quiet(qll_pipeline *pipeline, double change_pa)
{
    const bool is_still = qll_pipeline_moved_pa(pipeline) <= change_pa && !has_vapour(pipeline);
    pipeline->quiet_s = is_still ? pipeline->quiet_s + pipeline->grid.step_s : 0;
    return pipeline->quiet_s >= pipeline->loop_s;
}

/* Every pipe that had waves becomes one piece with the mean of its ends' flows. */
static void gather(qll_pipeline *pipeline)
{
    for (size_t i = 0; i < pipeline->pipe_count; i++) {
        const qll_pipe *each = &pipeline->pipes[i];
        if (each->cells.count > 0) {
            qll_short_pipe *piece = &pipeline->short_pipes[i];
            piece->flow_m3s = (each->first.flow_m3s + each->last.flow_m3s) / 2;
            piece->pressure_pa_gauge[0] = pipeline->nodes[each->first.joint].pressure_pa_gauge;
            piece->pressure_pa_gauge[1] = pipeline->nodes[each->last.joint].pressure_pa_gauge;
        }
    }
}

double qll_pipeline_quiet_step(qll_pipeline *pipeline, double step_s)
{
    if (!pipeline->in_pieces) {
        gather(pipeline);
        isolate(pipeline);
    }
    pipeline->in_pieces = true;
    remember(pipeline);
    pipeline->time_s += step_s;
    const qll_instant now = {.time_s = pipeline->time_s, .step_s = step_s};
    const double worst_pa = qll_meeting_end_step(pipeline->quiet, pipeline->nodes, &now);
    take_over(pipeline);
    see(pipeline);
    return worst_pa;
}
