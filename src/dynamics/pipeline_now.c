#include "dynamics/pipeline_state.h"

#include <assert.h>
#include <math.h>

const qll_grid *qll_pipeline_grid(const qll_pipeline *pipeline)
{
    return &pipeline->grid;
}

double qll_pipeline_time_s(const qll_pipeline *pipeline)
{
    return pipeline->time_s;
}

const qll_meeting_node *qll_pipeline_joint(const qll_pipeline *pipeline, size_t joint)
{
    return &pipeline->nodes[joint];
}

/* Eq. 5. */
static double held_m3(const qll_pipe *each, const qll_short_pipe *piece)
{
    if (each->cells.count == 0) {
        return piece->room_m3_pa / 2
               * (piece->pressure_pa_gauge[0] + each->first.rise_pa + piece->pressure_pa_gauge[1]
                  + each->last.rise_pa);
    }
    const double z = each->cells.impedance_pa_s_m3;
    const size_t count = each->cells.count;
    double sum_pa = each->now.forward[0] - z * each->first.flow_m3s + each->now.backward[count]
                    + z * each->last.flow_m3s;
    for (size_t i = 1; i < count; i++) {
        sum_pa += each->now.forward[i] + each->now.backward[i];
    }
    return each->cells.step_s / (2 * z) * sum_pa - each->cavities_m3;
}

qll_range qll_pipeline_range(const qll_pipeline *pipeline, size_t line, size_t section)
{
    const qll_pipe *each = &pipeline->pipes[line];
    assert(section <= each->cells.count && each->cells.count > 0);
    if (section == 0 || section == each->cells.count) {
        const qll_seen *met = &pipeline->seen[section == 0 ? each->first.joint : each->last.joint];
        return (qll_range){met->high_pa, met->low_pa};
    }
    const double share = (double)section / (double)each->cells.count;
    const double rise_pa = each->first.rise_pa * (1 - share) + each->last.rise_pa * share;
    return (qll_range){each->envelope.twice_high[section] / 2 - rise_pa,
                       each->envelope.twice_low[section] / 2 - rise_pa};
}

qll_line_now qll_pipeline_line(const qll_pipeline *pipeline, size_t line)
{
    const qll_pipe *each = &pipeline->pipes[line];
    const qll_seen *first = &pipeline->seen[each->first.joint];
    const qll_seen *last = &pipeline->seen[each->last.joint];
    qll_line_now now = {.first_m3s = each->first.flow_m3s,
                        .last_m3s = each->last.flow_m3s,
                        .cavity_m3 = each->cavities_m3,
                        .held_m3 = held_m3(each, &pipeline->short_pipes[line]),
                        .high_pa_gauge = fmax(first->high_pa, last->high_pa),
                        .low_pa_gauge = fmin(first->low_pa, last->low_pa)};
    if (each->cells.count == 0) {
        now.first_m3s = pipeline->short_pipes[line].end_m3s[0];
        now.last_m3s = -pipeline->short_pipes[line].end_m3s[1];
        return now;
    }
    now.cavity_most = each->cavity_most_m3 / each->cell_m3;
    for (size_t i = 1; i < each->cells.count && pipeline->is_watched; i++) {
        const qll_range range = qll_pipeline_range(pipeline, line, i);
        now.high_pa_gauge = fmax(now.high_pa_gauge, range.high_pa_gauge);
        now.low_pa_gauge = fmin(now.low_pa_gauge, range.low_pa_gauge);
    }
    return now;
}

void qll_pipeline_watch(qll_pipeline *pipeline)
{
    pipeline->is_watched = true;
    for (size_t j = 0; j < pipeline->joint_count; j++) {
        const double now_pa = pipeline->nodes[j].pressure_pa_gauge;
        pipeline->seen[j] = (qll_seen){now_pa, now_pa, now_pa};
    }
    for (size_t i = 0; i < pipeline->pipe_count; i++) {
        qll_pipe *each = &pipeline->pipes[i];
        for (size_t k = 0; k <= each->cells.count && each->cells.count > 0; k++) {
            each->envelope.twice_high[k] = each->now.forward[k] + each->now.backward[k];
            each->envelope.twice_low[k] = each->envelope.twice_high[k];
        }
        each->cavity_most_m3 = 0;
    }
}
