#include "demand/day_model.h"

#include "base/files.h"
#include "base/table.h"

#include <assert.h>
#include <math.h>

/* Grid of the flows of uses unless the building is very large. */
#define QLL_PULSE_STEP_M3S 2e-6
/* Multiplications one hour may cost: a day in about 0.1 s. */
#define QLL_HOUR_COST_MAX  4e6

static const char *const set_names[QLL_USE_COUNT] = {
#define QLL_USE_SET(name, word, set, profile, din, building) [QLL_USE_##name] = (set),
    QLL_USE_LIST(QLL_USE_SET)
#undef QLL_USE_SET
};

static const char *const profile_names[QLL_USE_COUNT] = {
#define QLL_USE_PROFILE(name, word, set, profile, din, building) [QLL_USE_##name] = (profile),
    QLL_USE_LIST(QLL_USE_PROFILE)
#undef QLL_USE_PROFILE
};

/* ---- uses ---- */

/* One row of data/enduse.csv, per person or home. */
typedef struct use_row {
    bool is_per_home;
    double events, duration_s, duration_ln_sigma, flow_m3s, flow_ln_sigma;
    qll_outlet_response outlet;
} use_row;

static double number_or_0(const qll_table *table, size_t row, const char *column)
{
    const double value = qll_table_number(table, row, qll_table_column(table, column));
    return isnan(value) ? 0.0 : value;
}

static bool cell_is(const qll_table *table, size_t row, const char *column, const char *word)
{
    return qll_text_is(qll_table_cell(table, row, qll_table_column(table, column)), word);
}

static use_row read_row(const qll_table *table, size_t row)
{
    return (use_row){
        .is_per_home = cell_is(table, row, "per", "dwelling"),
        .events = number_or_0(table, row, "events_per_day"),
        .duration_s = number_or_0(table, row, "dur_mean_s"),
        .duration_ln_sigma = number_or_0(table, row, "dur_ln_sigma"),
        .flow_m3s = number_or_0(table, row, "flow_mean_lps") * 1e-3,
        .flow_ln_sigma = number_or_0(table, row, "flow_ln_sigma"),
        .outlet = {.is_regulated = cell_is(table, row, "regulated", "yes"),
                   .is_volumetric = cell_is(table, row, "response", "volume")},
    };
}

static double reference_pa(const qll_scenario *scenario)
{
    return scenario->reference_pa_gauge > 0.0 ? scenario->reference_pa_gauge
                                              : QLL_OUTLET_REFERENCE_PA_GAUGE;
}

/* Adds a row: one that runs all day is a leak, any other a kind of use. */
static void add_use(const use_row *row, const qll_scenario *scenario, qll_end_use *uses,
                    qll_day_model *model)
{
    const double people = row->is_per_home ? qll_scenario_homes(scenario) : scenario->people;
    const bool has_pressure = scenario->outlet_pa_gauge > 0.0;
    const double pressure_pa = scenario->outlet_pa_gauge;
    assert(row->events > 0.0 && row->duration_s > 0.0 && row->flow_m3s > 0.0);
    if (row->duration_s >= QLL_DAY_S) {
        const double ratio =
            has_pressure ? qll_leak_flow_ratio(pressure_pa, reference_pa(scenario)) : 1.0;
        model->leak_m3s += people * row->events * row->flow_m3s * ratio;
        return;
    }
    const double ratio =
        has_pressure ? qll_outlet_flow_ratio(row->outlet, pressure_pa, reference_pa(scenario))
                     : 1.0;
    const double duration_s = row->duration_s / (row->outlet.is_volumetric ? ratio : 1.0);
    const double busy = people * row->events * duration_s / QLL_DAY_S;
    if (busy <= 0.0) {
        return;
    }
    uses[model->use_count] =
        (qll_end_use){.busy = busy,
                      .duration_s = {.mean = duration_s, .ln_sigma = row->duration_ln_sigma},
                      .flow_m3s = {.mean = row->flow_m3s * ratio, .ln_sigma = row->flow_ln_sigma}};
    model->use_count += 1;
}

/* Scales all rates: the day's share of a weekday, and the volume per person if one is given. */
static void scale_uses(const qll_scenario *scenario, double day_volume, double table_m3,
                       qll_end_use *uses, qll_day_model *model)
{
    double factor = day_volume;
    if (scenario->day_volume_m3 > 0.0 && table_m3 > 0.0) {
        factor *= scenario->day_volume_m3 / table_m3;
    }
    for (size_t i = 0; i < model->use_count; i++) {
        uses[i].busy *= factor;
        model->busy += uses[i].busy;
    }
    model->uses = uses;
}

static qll_status read_uses(const qll_scenario *scenario, double day_volume, qll_arena *arena,
                            qll_day_model *model)
{
    const qll_text source = {.bytes = (const char *)qll_file_enduse, .size = qll_file_enduse_size};
    qll_problems problems = qll_problems_none(arena);
    qll_table table;
    const qll_status status = qll_table_read(source, "data/enduse.csv", arena, &table, &problems);
    assert(status != QLL_REFUSED);
    if (status != QLL_OK) {
        return status;
    }
    qll_end_use *uses = qll_arena_take(arena, table.row_count, sizeof *uses);
    if (uses == NULL) {
        return QLL_NO_MEMORY;
    }
    const size_t set_at = qll_table_column(&table, "set");
    double table_m3 = 0.0; /* a person's day by the table, leaks left aside */
    for (size_t i = 0; i < table.row_count; i++) {
        if (!qll_text_is(qll_table_cell(&table, i, set_at), set_names[scenario->use])) {
            continue;
        }
        const use_row row = read_row(&table, i);
        add_use(&row, scenario, uses, model);
        if (row.duration_s < QLL_DAY_S) {
            table_m3 += row.events * row.duration_s * row.flow_m3s;
        }
    }
    assert(table_m3 > 0.0);
    scale_uses(scenario, day_volume, table_m3, uses, model);
    return QLL_OK;
}

/* ---- hours ---- */

/* The profile's row for @p day or for all days; the row count if there is none. */
static size_t find_shape(const qll_table *table, const char *profile, const char *day)
{
    size_t row = 0;
    while (row < table->row_count
           && !(cell_is(table, row, "profile", profile)
                && (cell_is(table, row, "day", day) || cell_is(table, row, "day", "all")))) {
        row += 1;
    }
    return row;
}

static qll_status read_shape(const qll_scenario *scenario, qll_arena *arena, qll_day_model *model,
                             double *day_volume)
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
    const char *profile = profile_names[scenario->use];
    size_t row = find_shape(&table, profile, qll_day_kind_words[scenario->day]);
    model->is_other_day = row == table.row_count;
    if (model->is_other_day) {
        row = find_shape(&table, profile, qll_day_kind_words[QLL_DAY_WEEKDAY]);
    }
    assert(row < table.row_count);
    const size_t first_hour_at = qll_table_column(&table, "h00");
    for (size_t hour = 0; hour < 24; hour++) {
        model->shape[hour] = qll_table_number(&table, row, first_hour_at + hour);
        model->greatest_shape = fmax(model->greatest_shape, model->shape[hour]);
    }
    *day_volume = qll_table_number(&table, row, qll_table_column(&table, "day_volume"));
    model->shape_source =
        qll_text_closed(qll_table_cell(&table, row, qll_table_column(&table, "source")), arena);
    return model->shape_source == NULL ? QLL_NO_MEMORY : QLL_OK;
}

/* ---- grid ---- */

double qll_day_model_break_factor(const qll_day_model *model, bool inside)
{
    if (model->break_share <= 0.0) {
        return 1.0;
    }
    const double outside = 1.0 - model->break_share;
    return inside ? outside + model->break_share * 3600.0 / model->break_s : outside;
}

static double choose_step(const qll_day_model *model)
{
    /* Three deviations of the day's factor upwards. */
    const double rate = model->greatest_shape * qll_day_model_break_factor(model, true)
                        * (1.0 + 3.0 * model->rate_cv);
    double mean = 0.0;
    double variance = 0.0;
    double greatest = 0.0;
    for (size_t i = 0; i < model->use_count; i++) {
        const qll_end_use *use = &model->uses[i];
        mean += use->busy * rate * use->flow_m3s.mean;
        variance += use->busy * rate * qll_lognormal_square(use->flow_m3s);
        greatest = fmax(greatest, qll_lognormal_top(use->flow_m3s));
    }
    double step = QLL_PULSE_STEP_M3S;
    const double top = mean + 8.0 * sqrt(variance) + 2.0 * greatest;
    while (top / step * (greatest / step) > QLL_HOUR_COST_MAX) {
        step *= 2.0;
    }
    return step;
}

qll_status qll_day_model_make(const qll_scenario *scenario, qll_arena *arena, qll_day_model *model)
{
    assert(scenario->people >= 0.0 && scenario->people <= QLL_PEOPLE_MAX);
    *model = (qll_day_model){0};
    double day_volume = 1.0;
    qll_status status = read_shape(scenario, arena, model, &day_volume);
    if (status == QLL_OK) {
        status = read_uses(scenario, day_volume, arena, model);
    }
    if (status != QLL_OK) {
        return status;
    }
    const double homes = qll_use_is_dwelling(scenario->use) ? qll_scenario_homes(scenario) : 1.0;
    model->rate_cv = scenario->rate_cv / sqrt(fmax(homes, 1.0));
    if (scenario->break_share > 0.0 && scenario->break_s > 0.0) {
        model->break_share = scenario->break_share;
        model->break_s = scenario->break_s;
    }
    model->step_m3s = choose_step(model);
    return QLL_OK;
}

qll_status qll_day_model_flow(const qll_day_model *model, qll_arena *arena, qll_distribution *flow,
                              double *kept)
{
    size_t count = 0;
    for (size_t i = 0; i < model->use_count; i++) {
        const size_t needed = qll_lognormal_count(model->uses[i].flow_m3s, model->step_m3s);
        count = needed > count ? needed : count;
    }
    *flow = (qll_distribution){.step = model->step_m3s,
                               .count = count,
                               .p = qll_arena_take(arena, count, sizeof *flow->p)};
    if (flow->p == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < model->use_count; i++) {
        qll_lognormal_lay(model->uses[i].flow_m3s, model->uses[i].busy / model->busy,
                          model->step_m3s, flow->p);
    }
    *kept = 1.0 - flow->p[0];
    flow->p[0] = 0.0;
    for (size_t j = 1; j < count; j++) {
        flow->p[j] /= *kept;
    }
    return QLL_OK;
}
