/* The exact day of the Poisson rectangular pulse model (docs/theory/pulse.md).
 *
 * 1. All uses follow one hourly shape, so one event's flow has the same distribution in every hour
 *    and only the number of events running at once changes.
 * 2. Flows are laid on a grid so that their mean is kept: the weight of a grid point is the mean of
 *    the triangle over it (pulse.md, eq. 6).
 * 3. Leak and continuous flows are added as they are, off the grid. */
#include "base/files.h"
#include "base/table.h"
#include "demand/demand.h"

#include <assert.h>
#include <math.h>

#define QLL_DAY_S          86400.0
/* Grid of the flows of uses unless the building is very large. */
#define QLL_PULSE_STEP_M3S 2e-6
/* Multiplications one hour may cost: a day in about 0.1 s. */
#define QLL_HOUR_COST_MAX  4e6
/* A lognormal flow is cut this many deviations above its median: 1e-9 of the events. */
#define QLL_LOGNORMAL_CUT  6.0
/* What may be lost of an hour at its upper end. */
#define QLL_HOUR_TAIL      1e-12

/* One kind of use: events at N per day in all, rectangles of mean duration and lognormal flow. */
typedef struct end_use {
    double busy; /* mean number running at once over the day */
    double flow_m3s;
    double ln_sigma; /* of the flow; 0 = constant */
} end_use;

typedef struct day_model {
    end_use *uses;
    size_t use_count;
    double busy; /* of all uses */
    double leak_m3s;
    double shape[24]; /* hourly multipliers */
    double greatest_shape;
} day_model;

/* ---- the tables ---- */

static const char *const set_names[QLL_USE_COUNT] = {
#define QLL_USE_SET(name, word, set, profile) [QLL_USE_##name] = (set),
    QLL_USE_LIST(QLL_USE_SET)
#undef QLL_USE_SET
};

static const char *const profile_names[QLL_USE_COUNT] = {
#define QLL_USE_PROFILE(name, word, set, profile) [QLL_USE_##name] = (profile),
    QLL_USE_LIST(QLL_USE_PROFILE)
#undef QLL_USE_PROFILE
};

static double home_count(const qll_scenario *scenario)
{
    if (!isnan(scenario->homes)) {
        return scenario->homes;
    }
    return qll_use_is_dwelling(scenario->use) ? scenario->people / QLL_PEOPLE_PER_HOME : 0.0;
}

/* Adds a row of data/enduse.csv: one that runs all day is a leak, any other a kind of use. */
static void add_use(const qll_table *table, size_t row, const qll_scenario *scenario,
                    day_model *model)
{
    const bool per_home =
        qll_text_is(qll_table_cell(table, row, qll_table_column(table, "per")), "dwelling");
    const double events = qll_table_number(table, row, qll_table_column(table, "events_per_day"));
    const double duration_s = qll_table_number(table, row, qll_table_column(table, "dur_mean_s"));
    const double flow_m3s =
        qll_table_number(table, row, qll_table_column(table, "flow_mean_lps")) * 1e-3;
    const double sigma = qll_table_number(table, row, qll_table_column(table, "flow_ln_sigma"));
    const double busy =
        (per_home ? home_count(scenario) : scenario->people) * events * duration_s / QLL_DAY_S;
    assert(isfinite(busy) && isfinite(flow_m3s));
    if (duration_s >= QLL_DAY_S) {
        model->leak_m3s += busy * flow_m3s;
        return;
    }
    if (busy <= 0.0) {
        return;
    }
    model->uses[model->use_count] =
        (end_use){.busy = busy, .flow_m3s = flow_m3s, .ln_sigma = isnan(sigma) ? 0.0 : sigma};
    model->use_count += 1;
    model->busy += busy;
}

static qll_status read_uses(const qll_scenario *scenario, qll_arena *arena, day_model *model)
{
    const qll_text source = {.bytes = (const char *)qll_file_enduse, .size = qll_file_enduse_size};
    qll_problems problems = qll_problems_none(arena);
    qll_table table;
    const qll_status status = qll_table_read(source, "data/enduse.csv", arena, &table, &problems);
    assert(status != QLL_REFUSED);
    if (status != QLL_OK) {
        return status;
    }
    model->uses = qll_arena_take(arena, table.row_count, sizeof *model->uses);
    if (model->uses == NULL) {
        return QLL_NO_MEMORY;
    }
    const size_t set_at = qll_table_column(&table, "set");
    size_t found = 0;
    for (size_t row = 0; row < table.row_count; row++) {
        if (qll_text_is(qll_table_cell(&table, row, set_at), set_names[scenario->use])) {
            add_use(&table, row, scenario, model);
            found += 1;
        }
    }
    assert(found > 0);
    return QLL_OK;
}

static qll_status read_shape(const qll_scenario *scenario, qll_arena *arena, day_model *model)
{
    const qll_text source = {.bytes = (const char *)qll_file_diurnal,
                             .size = qll_file_diurnal_size};
    qll_problems problems = qll_problems_none(arena);
    qll_table table;
    const qll_status status = qll_table_read(source, "data/diurnal.csv", arena, &table, &problems);
    assert(status != QLL_REFUSED);
    if (status != QLL_OK) {
        return status;
    }
    const size_t profile_at = qll_table_column(&table, "profile");
    const size_t day_at = qll_table_column(&table, "day");
    const size_t first_hour_at = qll_table_column(&table, "h00");
    size_t row = 0;
    while (row < table.row_count
           && !(qll_text_is(qll_table_cell(&table, row, profile_at), profile_names[scenario->use])
                && qll_text_is(qll_table_cell(&table, row, day_at), "weekday"))) {
        row += 1;
    }
    assert(row < table.row_count);
    for (size_t hour = 0; hour < 24; hour++) {
        model->shape[hour] = qll_table_number(&table, row, first_hour_at + hour);
        model->greatest_shape = fmax(model->greatest_shape, model->shape[hour]);
    }
    return QLL_OK;
}

/* ---- the flow of one event on the grid ---- */

static double greatest_flow(const end_use *use)
{
    const double sigma = use->ln_sigma;
    return use->flow_m3s * exp(sigma * (QLL_LOGNORMAL_CUT - 0.5 * sigma));
}

static double normal_below(double z)
{
    return 0.5 * erfc(-z / sqrt(2.0));
}

/* Mean of min(flow, limit) in units of the mean flow: the lognormal's limited expected value. */
static double limited_mean(const end_use *use, double limit_m3s)
{
    if (limit_m3s <= 0.0) {
        return 0.0;
    }
    const double ratio = limit_m3s / use->flow_m3s;
    const double z = log(ratio) / use->ln_sigma + 0.5 * use->ln_sigma;
    return normal_below(z - use->ln_sigma) + ratio * normal_below(-z);
}

/* Adds @p share of events whose flow is this use's. Exactly the mean of the flow is kept: a
 * constant flow is shared between its two neighbours; of a lognormal one each grid point gets the
 * mean of the triangle over it, a second difference of limited means; what lies beyond the cut is
 * drawn to the last point. */
static void lay_on_grid(const end_use *use, double share, double step_m3s, double *p)
{
    if (use->ln_sigma <= 0.0) {
        const double at = use->flow_m3s / step_m3s;
        const double whole = floor(at);
        p[(size_t)whole] += share * (1.0 - (at - whole));
        p[(size_t)whole + 1] += share * (at - whole);
        return;
    }
    const double scale = share * use->flow_m3s / step_m3s;
    const size_t last = (size_t)ceil(greatest_flow(use) / step_m3s);
    double before = 0.0;
    double here = 0.0;
    for (size_t j = 0; j < last; j++) {
        const double after = limited_mean(use, step_m3s * (double)(j + 1));
        const double slope = (here - before) - (after - here);
        const double weight = j == 0 ? share - scale * after : scale * slope;
        p[j] += fmax(weight, 0.0);
        before = here;
        here = after;
    }
    p[last] += fmax(scale * (here - before), 0.0);
}

static double choose_step(const day_model *model)
{
    double mean = 0.0;
    double variance = 0.0;
    double greatest = 0.0;
    for (size_t i = 0; i < model->use_count; i++) {
        const end_use *use = &model->uses[i];
        const double busy = use->busy * model->greatest_shape;
        mean += busy * use->flow_m3s;
        variance += busy * use->flow_m3s * use->flow_m3s * exp(use->ln_sigma * use->ln_sigma);
        greatest = fmax(greatest, greatest_flow(use));
    }
    double step = QLL_PULSE_STEP_M3S;
    const double top = mean + 8.0 * sqrt(variance) + 2.0 * greatest;
    while (top / step * (greatest / step) > QLL_HOUR_COST_MAX) {
        step *= 2.0;
    }
    return step;
}

/* One event's flow, flows that round to 0 left out; @p kept is the share of events that remain. */
static qll_status event_sizes(const day_model *model, double step_m3s, qll_arena *arena,
                              qll_distribution *size, double *kept)
{
    double greatest = 0.0;
    for (size_t i = 0; i < model->use_count; i++) {
        greatest = fmax(greatest, greatest_flow(&model->uses[i]));
    }
    const size_t count = (size_t)ceil(greatest / step_m3s) + 2;
    *size = (qll_distribution){
        .step = step_m3s, .count = count, .p = qll_arena_take(arena, count, sizeof *size->p)};
    if (size->p == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < model->use_count; i++) {
        lay_on_grid(&model->uses[i], model->uses[i].busy / model->busy, step_m3s, size->p);
    }
    *kept = 1.0 - size->p[0];
    size->p[0] = 0.0;
    for (size_t j = 1; j < count; j++) {
        size->p[j] /= *kept;
    }
    return QLL_OK;
}

/* ---- hours and the day ---- */

static void describe_hour(const day_model *model, double shape, qll_pulse_hour *hour)
{
    double mean = 0.0;
    double variance = 0.0;
    for (size_t i = 0; i < model->use_count; i++) {
        const end_use *use = &model->uses[i];
        const double busy = use->busy * shape;
        mean += busy * use->flow_m3s;
        variance += busy * use->flow_m3s * use->flow_m3s * exp(use->ln_sigma * use->ln_sigma);
    }
    *hour = (qll_pulse_hour){.busy_count = model->busy * shape,
                             .mean_m3s = mean,
                             .deviation_m3s = sqrt(variance),
                             .none_share = exp(-model->busy * shape)};
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

static qll_status hour_distributions(const day_model *model, double step_m3s, qll_arena *arena,
                                     day_cells *day)
{
    qll_distribution size = {.step = step_m3s, .count = 1, .p = (double[]){0.0}};
    double kept = 1.0;
    if (model->use_count > 0) {
        const qll_status status = event_sizes(model, step_m3s, arena, &size, &kept);
        if (status != QLL_OK) {
            return status;
        }
    }
    for (size_t h = 0; h < 24; h++) {
        const double busy = model->busy * model->shape[h] * kept;
        const qll_status status =
            qll_compound_poisson(busy, size, QLL_HOUR_TAIL, arena, &day->hours[h]);
        if (status != QLL_OK) {
            return status;
        }
    }
    return QLL_OK;
}

static qll_status add_hours(const qll_scenario *scenario, const day_model *model, day_cells *cells,
                            qll_arena *arena, qll_pulse_day *day)
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
        qll_arena_reset(arena, mark);
        /* The cells are merged and sorted now; they are written again for the day. */
        count += hour_cells(cells, h, model->leak_m3s, cells->cells + count);
    }
    return qll_duration_make(cells->cells, count, arena, &day->duration);
}

qll_status qll_pulse_day_exact(const qll_scenario *scenario, qll_arena *arena, qll_pulse_day *day)
{
    assert(scenario->people >= 0.0 && scenario->people <= QLL_PEOPLE_MAX);
    *day = (qll_pulse_day){0};
    day_model model = {0};
    day_cells cells = {0};
    qll_status status = read_uses(scenario, arena, &model);
    if (status == QLL_OK) {
        status = read_shape(scenario, arena, &model);
    }
    if (status == QLL_OK) {
        status = qll_steady_day(scenario, arena, &cells.stretches, &cells.stretch_count);
    }
    if (status != QLL_OK) {
        return status;
    }
    day->step_m3s = choose_step(&model);
    day->leak_m3s = model.leak_m3s;
    status = hour_distributions(&model, day->step_m3s, arena, &cells);
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
