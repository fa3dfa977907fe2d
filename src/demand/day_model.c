#include "demand/day_model.h"

#include "base/files.h"
#include "base/table.h"

#include <assert.h>
#include <math.h>

/* Grid of the flows of uses unless the building is very large. */
#define QLL_PULSE_STEP_M3S 2e-6
/* Multiplications one hour may cost: a day in about 0.1 s. */
#define QLL_HOUR_COST_MAX  4e6

static const char *const profile_names[QLL_USE_COUNT] = {
#define QLL_USE_PROFILE(name, word, set, profile, din, building) [QLL_USE_##name] = (profile),
    QLL_USE_LIST(QLL_USE_PROFILE)
#undef QLL_USE_PROFILE
};

/* ---- hours ---- */

/* The profile's row for @p day or for all days; the row count if there is none. */
static size_t find_shape(const qll_table *table, const char *profile, const char *day)
{
    size_t row = 0;
    while (row < table->row_count
           && !(qll_table_says(table, row, "profile", profile)
                && (qll_table_says(table, row, "day", day)
                    || qll_table_says(table, row, "day", "all")))) {
        row += 1;
    }
    return row;
}

static qll_status read_shape(const qll_scenario *scenario, qll_arena *arena, qll_day_model *model,
                             double *day_volume)
{
    qll_table table;
    qll_status status = qll_table_read_own(qll_file_diurnal, qll_file_diurnal_size, arena, &table);
    if (status == QLL_OK) {
        status =
            qll_table_add_own(qll_file_diurnal_by_sa, qll_file_diurnal_by_sa_size, arena, &table);
    }
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
    model->shape_count = 1;
    for (size_t hour = 0; hour < 24; hour++) {
        model->shapes[0][hour] = scenario->has_hourly
                                     ? scenario->hourly[hour]
                                     : qll_table_number(&table, row, first_hour_at + hour);
    }
    *day_volume = qll_table_number_in(&table, row, "day_volume");
    if (scenario->has_hourly) {
        model->is_other_day = false;
        model->shape_source = (qll_said){.id = QLL_TEXT_HOURS_OWN};
        return QLL_OK;
    }
    model->shape_source = (qll_said){.id = qll_text_named(qll_table_cell_in(&table, row, "says"))};
    return QLL_OK;
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
    /* Three deviations of the factors upwards. */
    const double more = qll_day_model_break_factor(model, true) * (1.0 + 3.0 * model->rate_cv);
    double mean = 0.0;
    double variance = 0.0;
    double greatest = 0.0;
    for (size_t i = 0; i < model->use_count; i++) {
        const qll_end_use *use = &model->uses[i];
        double rate = 0.0;
        for (size_t h = 0; h < 24; h++) {
            rate = fmax(rate, model->shapes[use->shape][h] * more);
        }
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

/* The sum of the factors of like homes is one factor; of two factors one of the same mean and
 * deviation stands for the product. */
static void choose_factors(const qll_scenario *scenario, qll_day_model *model)
{
    const bool is_dwelling = qll_use_is_dwelling(scenario->use);
    const double homes = fmax(is_dwelling ? qll_scenario_homes(scenario) : 1.0, 1.0);
    const double building = scenario->building_hour_cv;
    model->day_cv = scenario->rate_cv / sqrt(homes);
    model->hour_cv = sqrt(scenario->hour_cv * scenario->hour_cv / homes + building * building);
    const double both =
        (1.0 + model->day_cv * model->day_cv) * (1.0 + model->hour_cv * model->hour_cv) - 1.0;
    model->rate_cv = model->hour_cv > 0.0 ? sqrt(both) : model->day_cv;
}

qll_status qll_day_model_make(const qll_scenario *scenario, qll_arena *arena, qll_day_model *model)
{
    assert(scenario->people >= 0.0 && scenario->people <= QLL_PEOPLE_MAX);
    *model = (qll_day_model){0};
    double day_volume = 1.0;
    qll_status status = read_shape(scenario, arena, model, &day_volume);
    if (status == QLL_OK) {
        status = qll_day_model_uses(scenario, day_volume, arena, model);
    }
    if (status != QLL_OK) {
        return status;
    }
    choose_factors(scenario, model);
    if (scenario->break_share > 0.0 && scenario->break_s > 0.0) {
        model->break_share = scenario->break_share;
        model->break_s = scenario->break_s;
    }
    model->step_m3s = choose_step(model);
    return QLL_OK;
}
