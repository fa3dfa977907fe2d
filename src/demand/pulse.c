/* The exact day of the Poisson rectangular pulse model (docs/theory/pulse.md).
 *
 * 1. All uses follow one hourly shape, so one event's flow has the same distribution in every hour
 *    and only the number of events running at once changes.
 * 2. Flows are laid on a grid so that their mean is kept: the weight of a grid point is the mean of
 *    the triangle over it (pulse.md, eq. 6).
 * 3. Leak and continuous flows are added as they are, off the grid. */
#include "demand/day_model.h"
#include "demand/demand.h"

#include <assert.h>
#include <math.h>

/* What may be lost of an hour at its upper end. */
#define QLL_HOUR_TAIL 1e-12

/* ---- hours and the day ---- */

/* Share of time that nobody draws where on average @p busy uses run at once. */
static double none_share(double busy, double cv)
{
    const double spread = cv * cv * busy;
    return spread > 0.0 ? exp(-log1p(spread) / (cv * cv)) : exp(-busy);
}

/* Mean and deviation in closed form: of the pulses, of the common factor, and of break and rest. */
static void describe_hour(const qll_day_model *model, double shape, qll_pulse_hour *hour)
{
    double mean = 0.0;
    double square = 0.0;
    for (size_t i = 0; i < model->use_count; i++) {
        const qll_end_use *use = &model->uses[i];
        mean += use->busy * shape * use->flow_m3s.mean;
        square += use->busy * shape * qll_lognormal_square(use->flow_m3s);
    }
    const double in_break = model->break_s / 3600.0;
    const double inside = qll_day_model_break_factor(model, true);
    const double outside = qll_day_model_break_factor(model, false);
    const double factor_square = in_break * inside * inside + (1.0 - in_break) * outside * outside;
    const double moment = mean * mean * factor_square * (1.0 + model->rate_cv * model->rate_cv);
    const double busy = model->busy * shape;
    *hour = (qll_pulse_hour){.busy_count = busy,
                             .mean_m3s = mean,
                             .deviation_m3s = sqrt(fmax(square + moment - mean * mean, 0.0)),
                             .none_share =
                                 in_break * none_share(busy * inside, model->rate_cv)
                                 + (1.0 - in_break) * none_share(busy * outside, model->rate_cv)};
}

/* The day being put together: cells of all hours, those of the hour at hand last. */
typedef struct day_cells {
    qll_distribution hours[24];
    const qll_steady *stretches;
    size_t stretch_count;
    qll_flow_time *cells;
} day_cells;

/* Appends the hour's distribution once for each of its stretches. */
static size_t hour_cells(const day_cells *day, size_t hour, double leak_m3s, qll_flow_time *cells)
{
    size_t count = 0;
    for (size_t s = 0; s < day->stretch_count; s++) {
        const qll_steady *stretch = &day->stretches[s];
        if (stretch->hour != hour) {
            continue;
        }
        const qll_distribution flow = day->hours[hour];
        for (size_t i = 0; i < flow.count; i++) {
            cells[count] =
                (qll_flow_time){.flow_m3s = leak_m3s + stretch->flow_m3s + flow.step * (double)i,
                                .time = flow.p[i] * stretch->duration_s};
            count += 1;
        }
    }
    return count;
}

static size_t count_cells(const day_cells *day)
{
    size_t count = 0;
    for (size_t s = 0; s < day->stretch_count; s++) {
        count += day->hours[day->stretches[s].hour].count;
    }
    return count;
}

/* The flow of one use that runs, and the share of uses that count on the grid. */
typedef struct use_flow {
    qll_distribution size;
    double kept;
} use_flow;

static qll_status hour_part(const qll_day_model *model, const use_flow *use, double busy,
                            qll_arena *arena, qll_distribution *flow)
{
    const qll_random_count number = {.mean = busy * use->kept, .cv = model->rate_cv};
    return qll_compound(number, use->size, QLL_HOUR_TAIL, arena, flow);
}

/* Break and rest of an hour as one distribution, by their shares of time. */
static qll_status hour_with_break(const qll_day_model *model, const use_flow *use, double busy,
                                  qll_arena *arena, qll_distribution *flow)
{
    const double in_break = model->break_s / 3600.0;
    qll_distribution rest;
    qll_status status =
        hour_part(model, use, busy * qll_day_model_break_factor(model, true), arena, flow);
    if (status == QLL_OK) {
        status =
            hour_part(model, use, busy * qll_day_model_break_factor(model, false), arena, &rest);
    }
    if (status != QLL_OK) {
        return status;
    }
    const bool is_longer = rest.count > flow->count;
    const qll_distribution longer = is_longer ? rest : *flow;
    const qll_distribution shorter = is_longer ? *flow : rest;
    const double longer_share = is_longer ? 1.0 - in_break : in_break;
    for (size_t i = 0; i < longer.count; i++) {
        longer.p[i] *= longer_share;
        longer.p[i] += i < shorter.count ? (1.0 - longer_share) * shorter.p[i] : 0.0;
    }
    *flow = longer;
    return QLL_OK;
}

static qll_status hour_distributions(const qll_day_model *model, qll_arena *arena, day_cells *day)
{
    use_flow use = {.size = {.step = model->step_m3s, .count = 1, .p = (double[]){0.0}},
                    .kept = 1.0};
    if (model->use_count > 0) {
        const qll_status status = qll_day_model_flow(model, arena, &use.size, &use.kept);
        if (status != QLL_OK) {
            return status;
        }
    }
    for (size_t h = 0; h < 24; h++) {
        const double busy = model->busy * model->shape[h];
        const qll_status status = model->break_share > 0.0
                                      ? hour_with_break(model, &use, busy, arena, &day->hours[h])
                                      : hour_part(model, &use, busy, arena, &day->hours[h]);
        if (status != QLL_OK) {
            return status;
        }
    }
    return QLL_OK;
}

static qll_status add_hours(const qll_scenario *scenario, const qll_day_model *model,
                            day_cells *cells, qll_arena *arena, qll_pulse_day *day)
{
    size_t count = 0;
    for (size_t h = 0; h < 24; h++) {
        describe_hour(model, model->shape[h], &day->hours[h]);
        day->none_share += day->hours[h].none_share / 24.0;
        const size_t added = hour_cells(cells, h, model->leak_m3s, cells->cells + count);
        const qll_arena_mark mark = qll_arena_now(arena);
        qll_duration hour;
        const qll_status status = qll_duration_make(cells->cells + count, added, arena, &hour);
        if (status != QLL_OK) {
            return status;
        }
        day->hours[h].quantile_m3s = qll_duration_quantile(&hour, scenario->quantile);
        day->hours[h].flow_mean_m3s = hour.mean_m3s;
        qll_arena_reset(arena, mark);
        /* The cells are merged and sorted now; they are written again for the day. */
        count += hour_cells(cells, h, model->leak_m3s, cells->cells + count);
    }
    return qll_duration_make(cells->cells, count, arena, &day->duration);
}

qll_status qll_pulse_day_exact(const qll_scenario *scenario, qll_arena *arena, qll_pulse_day *day)
{
    *day = (qll_pulse_day){0};
    qll_day_model model;
    day_cells cells = {0};
    qll_status status = qll_day_model_make(scenario, arena, &model);
    if (status == QLL_OK) {
        status = qll_steady_day(scenario, arena, &cells.stretches, &cells.stretch_count);
    }
    if (status != QLL_OK) {
        return status;
    }
    day->step_m3s = model.step_m3s;
    day->leak_m3s = model.leak_m3s;
    day->shape_source = model.shape_source;
    day->is_other_day = model.is_other_day;
    status = hour_distributions(&model, arena, &cells);
    if (status != QLL_OK) {
        return status;
    }
    cells.cells = qll_arena_take(arena, count_cells(&cells), sizeof *cells.cells);
    if (cells.cells == NULL) {
        return QLL_NO_MEMORY;
    }
    status = add_hours(scenario, &model, &cells, arena, day);
    day->volume_m3 = day->duration.mean_m3s * QLL_DAY_S;
    return status;
}
