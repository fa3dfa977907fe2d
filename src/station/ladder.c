/* docs/theory/ladder.md. */
#include "station/ladder.h"

#include "station/fitness.h"
#include "station/verdict.h"

#include <math.h>
#include <stdint.h>

const char *const qll_ladder_time_words[QLL_LADDER_TIME_COUNT] = {
    [QLL_LADDER_NIGHT] = "night",
    [QLL_LADDER_PEAK] = "peak",
};

/* What a ladder is climbed with. */
typedef struct climb {
    const qll_station *station;
    const qll_site *site;
    qll_operating_point point;
    double main_pa_gauge;
    qll_ladder_time time;
} climb;

static qll_ladder_step step_of(qll_step_kind kind, double pressure_pa_gauge, double flow_m3s)
{
    return (qll_ladder_step){.kind = kind,
                             .stage = SIZE_MAX,
                             .pressure_pa_gauge = pressure_pa_gauge,
                             .flow_m3s = flow_m3s,
                             .velocity_m_s = NAN,
                             .velocity_max_m_s = NAN};
}

static void put_velocity(const qll_site *site, const qll_pipe_size *size, double bore_m,
                         qll_ladder_step *step)
{
    step->size = size;
    step->velocity_m_s = qll_pipe_velocity_m_s(step->flow_m3s, bore_m);
    step->velocity_max_m_s = qll_site_pipe_most_m_s(site, size);
    step->too_fast = qll_is_above_m_s(step->velocity_m_s, step->velocity_max_m_s);
}

static qll_step_kind kind_of(qll_element_kind kind)
{
    switch (kind) {
    case QLL_ELEMENT_PIPE: return QLL_STEP_PIPE;
    case QLL_ELEMENT_METER: return QLL_STEP_METER;
    case QLL_ELEMENT_BACKFLOW: return QLL_STEP_BACKFLOW;
    case QLL_ELEMENT_STRAINER: return QLL_STEP_STRAINER;
    case QLL_ELEMENT_LOSS: return QLL_STEP_DEVICE;
    }
    return QLL_STEP_DEVICE;
}

static qll_ladder_step stage_step(const climb *up, size_t stage)
{
    const qll_operating_point *point = &up->point;
    const qll_branch_state *states = point->branches[stage];
    qll_ladder_step step = step_of(
        QLL_STEP_STAGE, point->stage_outlet_pa[stage] - up->site->barometric_pa, point->flow_m3s);
    step.stage = stage;
    if (isnan(step.pressure_pa_gauge)) {
        return step;
    }
    step.velocity_m_s = 0.0;
    for (size_t j = 0; j < up->station->stages[stage].branch_count; j++) {
        step.velocity_m_s = fmax(step.velocity_m_s, states[j].velocity_m_s);
    }
    step.velocity_max_m_s = QLL_SPEED_MOST_M_S;
    step.too_fast = qll_is_above_m_s(step.velocity_m_s, step.velocity_max_m_s);
    return step;
}

/* There is no pressure below none: a main or a pipe that would need one cannot give the flow. */
static void leave_out_impossible(const qll_site *site, qll_ladder_step *steps, size_t count)
{
    for (size_t k = 0; k < count; k++) {
        if (steps[k].pressure_pa_gauge + site->barometric_pa <= 0.0) {
            steps[k].pressure_pa_gauge = NAN;
        }
    }
}

static qll_status climb_to_station(const climb *up, qll_arena *arena, qll_ladder *ladder)
{
    const qll_site *site = up->site;
    size_t count = 1 + site->upstream_count + up->station->stage_count;
    qll_ladder_step *steps = qll_arena_take(arena, count, sizeof *steps);
    if (steps == NULL) {
        return QLL_NO_MEMORY;
    }
    double flow_m3s = up->point.flow_m3s;
    double pressure_pa = up->main_pa_gauge;
    steps[0] = step_of(QLL_STEP_MAIN, pressure_pa, flow_m3s);
    for (size_t i = 0; i < site->upstream_count; i++) {
        const qll_element *element = &site->upstream[i];
        pressure_pa -= qll_element_drop_pa(element, flow_m3s, &site->water);
        steps[1 + i] = step_of(kind_of(element->kind), pressure_pa, flow_m3s);
        if (element->kind == QLL_ELEMENT_PIPE) {
            put_velocity(site, element->size, element->pipe.bore_m, &steps[1 + i]);
        }
    }
    for (size_t k = 0; k < up->station->stage_count; k++) {
        steps[1 + site->upstream_count + k] = stage_step(up, k);
    }
    leave_out_impossible(site, steps, count);
    *ladder = (qll_ladder){up->time, SIZE_MAX, steps, count, NAN};
    return QLL_OK;
}

static qll_status climb_to_outlet(const climb *up, size_t outlet, qll_arena *arena,
                                  qll_ladder *ladder)
{
    const qll_site *site = up->site;
    const qll_outlet *to = &site->outlets[outlet];
    qll_ladder_step *steps = qll_arena_take(arena, to->path_count + 1, sizeof *steps);
    if (steps == NULL) {
        return QLL_NO_MEMORY;
    }
    double pressure_pa = up->point.outlet_pa - site->barometric_pa;
    double flow_m3s = up->point.flow_m3s;
    for (size_t i = 0; i < to->path_count; i++) {
        const qll_path_run *run = &to->path[i];
        flow_m3s = qll_path_carries_m3s(run, up->point.flow_m3s);
        pressure_pa -= qll_pipe_drop_pa(&run->pipe, flow_m3s, &site->water);
        steps[i] = step_of(QLL_STEP_PIPE, pressure_pa, flow_m3s);
        put_velocity(site, run->size, run->pipe.bore_m, &steps[i]);
    }
    pressure_pa -= qll_site_column_pa(site, to->elevation_m);
    steps[to->path_count] = step_of(QLL_STEP_OUTLET, pressure_pa, flow_m3s);
    leave_out_impossible(site, steps, to->path_count + 1);
    *ladder = (qll_ladder){up->time, outlet, steps, to->path_count + 1,
                           steps[to->path_count].pressure_pa_gauge - to->needs_pa_gauge};
    return QLL_OK;
}

static qll_status climb_all(const climb *up, qll_arena *arena, qll_ladder *ladders)
{
    qll_status status = climb_to_station(up, arena, &ladders[0]);
    for (size_t i = 0; status == QLL_OK && i < up->site->outlet_count; i++) {
        status = climb_to_outlet(up, i, arena, &ladders[1 + i]);
    }
    return status;
}

qll_status qll_ladders_make(const qll_station *station, const qll_site *site, const qll_duty *duty,
                            qll_arena *arena, const qll_ladder **ladders, size_t *count)
{
    size_t each = 1 + site->outlet_count;
    qll_ladder *made = qll_arena_take(arena, QLL_LADDER_TIME_COUNT * each, sizeof *made);
    if (made == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t time = 0; time < QLL_LADDER_TIME_COUNT; time++) {
        bool is_night = time == QLL_LADDER_NIGHT;
        double static_pa_gauge =
            duty->supply_static_pa_gauge[is_night ? duty->supply_count - 1 : 0];
        double flow_m3s = is_night ? 0.0 : duty->peak_m3s;
        climb up = {.station = station,
                    .site = site,
                    .main_pa_gauge =
                        qll_supply_pressure_pa_gauge(&site->supply, static_pa_gauge, flow_m3s),
                    .time = (qll_ladder_time)time};
        qll_status status =
            qll_station_operate(station, site, qll_site_inlet_pa(site, static_pa_gauge, flow_m3s),
                                flow_m3s, arena, &up.point);
        if (status == QLL_OK) {
            status = climb_all(&up, arena, made + time * each);
        }
        if (status != QLL_OK) {
            return status;
        }
    }
    *ladders = made;
    *count = QLL_LADDER_TIME_COUNT * each;
    return QLL_OK;
}

const qll_ladder_step *qll_ladder_fastest(const qll_ladder *ladder)
{
    const qll_ladder_step *fastest = NULL;
    double greatest = 0.0;
    for (size_t k = 0; k < ladder->count; k++) {
        const qll_ladder_step *step = &ladder->steps[k];
        double share = step->velocity_m_s / step->velocity_max_m_s;
        if (isfinite(share) && share > greatest) {
            fastest = step;
            greatest = share;
        }
    }
    return fastest;
}
