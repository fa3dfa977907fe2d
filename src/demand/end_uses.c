/* Uses and visits of a scenario out of data/enduse*.csv and data/visits.csv. */
#include "base/files.h"
#include "base/table.h"
#include "demand/day_model.h"

#include <assert.h>
#include <math.h>

/* Share of a summer's outdoor uses, by season (our assumption; the peak month of utilities in
 * Washington State is about 2.5 times a low one). */
static const double season_share[QLL_SEASON_COUNT] = {
    [QLL_SEASON_SUMMER] = 1.0,
    [QLL_SEASON_SPRING] = 0.35,
    [QLL_SEASON_AUTUMN] = 0.35,
    [QLL_SEASON_WINTER] = 0.0,
};

static const char *const set_names[QLL_USE_COUNT] = {
#define QLL_USE_SET(name, word, set, profile, din, building) [QLL_USE_##name] = (set),
    QLL_USE_LIST(QLL_USE_SET)
#undef QLL_USE_SET
};

/* Homes of the US have larger uses: flats the newer ones, houses those of the stock. */
static const char *set_of(const qll_scenario *scenario)
{
    if (scenario->habits == QLL_HABITS_US && scenario->use == QLL_USE_APARTMENT) {
        return "quell US dwelling efficient";
    }
    if (scenario->habits == QLL_HABITS_US && scenario->use == QLL_USE_HOUSE) {
        return "quell US dwelling stock";
    }
    return set_names[scenario->use];
}

/* What is read, and what is being made. */
typedef struct set_reader {
    const qll_scenario *scenario;
    qll_day_model *model;
    qll_table uses, visits;
    qll_end_use *made_uses;
    qll_visit *made_visits;
    size_t *use_of_row;   /* a row's use, from 1; 0 = not taken */
    bool *comes_in_visit; /* by row */
    double table_m3;      /* a person's day by the set at hand: uses and steady flows */
    double rest_share[24];
    bool has_rest;
} set_reader;

static double number_or_0(const qll_table *table, size_t row, const char *column)
{
    const double value = qll_table_number_in(table, row, column);
    return isnan(value) ? 0.0 : value;
}

/* How many there are of what a row counts by. */
static double units_of(const set_reader *reader, const qll_table *table, size_t row)
{
    return qll_table_says(table, row, "per", "dwelling") ? qll_scenario_homes(reader->scenario)
                                                         : reader->scenario->people;
}

/* ---- pressure ---- */

static double reference_pa(const qll_scenario *scenario)
{
    return scenario->reference_pa_gauge > 0.0 ? scenario->reference_pa_gauge
                                              : QLL_OUTLET_REFERENCE_PA_GAUGE;
}

static double outlet_ratio(const qll_scenario *scenario, qll_outlet_response outlet)
{
    return scenario->outlet_pa_gauge > 0.0
               ? qll_outlet_flow_ratio(outlet, scenario->outlet_pa_gauge, reference_pa(scenario))
               : 1.0;
}

static double leak_ratio(const qll_scenario *scenario)
{
    return scenario->outlet_pa_gauge > 0.0
               ? qll_leak_flow_ratio(scenario->outlet_pa_gauge, reference_pa(scenario))
               : 1.0;
}

/* ---- hours ---- */

/* Even multipliers over the row's own hours, mean 1; false where it follows the building's. */
static bool own_hours(const qll_table *table, size_t row, double *shape)
{
    const double from_h = qll_table_number_in(table, row, "from_h");
    const double to_h = qll_table_number_in(table, row, "to_h");
    if (isnan(from_h) || isnan(to_h)) {
        return false;
    }
    for (size_t h = 0; h < 24; h++) {
        shape[h] = (double)h >= from_h && (double)h < to_h ? 24.0 / (to_h - from_h) : 0.0;
    }
    return true;
}

static size_t find_shape(qll_day_model *model, const double *shape)
{
    for (size_t s = 1; s < model->shape_count; s++) {
        size_t h = 0;
        while (h < 24 && model->shapes[s][h] == shape[h]) {
            h += 1;
        }
        if (h == 24) {
            return s;
        }
    }
    assert(model->shape_count < QLL_SHAPES_MOST);
    for (size_t h = 0; h < 24; h++) {
        model->shapes[model->shape_count][h] = shape[h];
    }
    model->shape_count += 1;
    return model->shape_count - 1;
}

/* ---- rows ---- */

static void take_leak(set_reader *reader, size_t row)
{
    const qll_table *table = &reader->uses;
    const double ratio = leak_ratio(reader->scenario);
    qll_leaks *leaks = &reader->model->leaks;
    *leaks =
        (qll_leaks){.homes = units_of(reader, table, row),
                    .share = number_or_0(table, row, "events_per_day"),
                    .flow_m3s = {.mean = number_or_0(table, row, "flow_mean_lps") * 1e-3 * ratio,
                                 .ln_sigma = number_or_0(table, row, "flow_ln_sigma")}};
    reader->model->leak_m3s = leaks->homes * leaks->share * leaks->flow_m3s.mean;
}

/* A flow that runs evenly within its hours. */
static void take_steady(set_reader *reader, size_t row)
{
    const qll_table *table = &reader->uses;
    double shape[24];
    const bool has_hours = own_hours(table, row, shape);
    assert(has_hours);
    (void)has_hours;
    const double day_m3 =
        number_or_0(table, row, "flow_mean_lps") * 1e-3 * number_or_0(table, row, "dur_mean_s");
    reader->table_m3 += day_m3;
    for (size_t h = 0; h < 24; h++) {
        reader->model->steady_m3s[h] +=
            units_of(reader, table, row) * day_m3 * shape[h] / QLL_DAY_S;
    }
}

/* A kind of use; how often it comes is for its visits to say, or where it comes alone the row. */
static void take_use(set_reader *reader, size_t row)
{
    const qll_table *table = &reader->uses;
    const qll_outlet_response outlet = {
        .is_regulated = qll_table_says(table, row, "regulated", "yes"),
        .is_volumetric = qll_table_says(table, row, "response", "volume")};
    const double ratio = outlet_ratio(reader->scenario, outlet);
    const double duration_s = number_or_0(table, row, "dur_mean_s");
    const double flow_m3s = number_or_0(table, row, "flow_mean_lps") * 1e-3;
    assert(duration_s > 0.0 && flow_m3s > 0.0);
    double shape[24];
    reader->made_uses[reader->model->use_count] =
        (qll_end_use){.duration_s = {.mean = duration_s / (outlet.is_volumetric ? ratio : 1.0),
                                     .ln_sigma = number_or_0(table, row, "dur_ln_sigma")},
                      .flow_m3s = {.mean = flow_m3s * ratio,
                                   .ln_sigma = number_or_0(table, row, "flow_ln_sigma")},
                      .shape = own_hours(table, row, shape) ? find_shape(reader->model, shape) : 0};
    reader->model->use_count += 1;
}

static qll_visit *add_visit(set_reader *reader, double per_day, size_t shape)
{
    qll_visit *visit = &reader->made_visits[reader->model->visit_count];
    *visit = (qll_visit){.per_day = per_day, .shape = shape};
    reader->model->visit_count += 1;
    return visit;
}

static void add_part(set_reader *reader, qll_visit *visit, qll_visit_part part)
{
    assert(visit->part_count < QLL_VISIT_PARTS_MOST);
    visit->parts[visit->part_count] = part;
    visit->part_count += 1;
    qll_end_use *use = &reader->made_uses[part.use];
    use->busy += visit->per_day * part.count_mean * use->duration_s.mean / QLL_DAY_S;
}

/* Volume of a use by the table, whatever the pressure. */
static double table_volume(const qll_table *table, size_t row)
{
    return number_or_0(table, row, "dur_mean_s") * number_or_0(table, row, "flow_mean_lps") * 1e-3;
}

/* ---- visits ---- */

static qll_count_law count_law(const qll_table *table, size_t row)
{
    if (qll_table_says(table, row, "count", "poisson")) {
        return QLL_COUNT_POISSON;
    }
    return qll_table_says(table, row, "count", "geometric") ? QLL_COUNT_GEOMETRIC : QLL_COUNT_FIXED;
}

static qll_offset_law offset_law(const qll_table *table, size_t row)
{
    if (qll_table_says(table, row, "offset", "exponential")) {
        return QLL_OFFSET_EXPONENTIAL;
    }
    return qll_table_says(table, row, "offset", "uniform") ? QLL_OFFSET_UNIFORM : QLL_OFFSET_NONE;
}

/* The row of the use called as in @p row of the visits, within its set; the row count if none. */
static size_t row_of_use(const set_reader *reader, size_t row)
{
    const qll_text set = qll_table_cell_in(&reader->visits, row, "set");
    const qll_text use = qll_table_cell_in(&reader->visits, row, "use");
    size_t at = 0;
    while (at < reader->uses.row_count
           && !(qll_text_equal(qll_table_cell_in(&reader->uses, at, "set"), set)
                && qll_text_equal(qll_table_cell_in(&reader->uses, at, "use"), use))) {
        at += 1;
    }
    return at;
}

/* Visits of @p set whose uses were taken. */
static void take_visits(set_reader *reader, const char *set, double share)
{
    const qll_table *table = &reader->visits;
    qll_text before = {0};
    qll_visit *visit = NULL;
    for (size_t i = 0; i < table->row_count; i++) {
        if (!qll_table_says(table, i, "set", set)) {
            continue;
        }
        const size_t row = row_of_use(reader, i);
        assert(row < reader->uses.row_count);
        if (reader->use_of_row[row] == 0) {
            continue;
        }
        reader->comes_in_visit[row] = true;
        const size_t use = reader->use_of_row[row] - 1;
        const qll_text name = qll_table_cell_in(table, i, "visit");
        if (visit == NULL || !qll_text_equal(name, before)) {
            const double rate = number_or_0(table, i, "visits_per_day") * share;
            visit =
                add_visit(reader, rate * units_of(reader, table, i), reader->made_uses[use].shape);
        }
        before = name;
        const double mean = number_or_0(table, i, "count_mean");
        add_part(reader, visit,
                 (qll_visit_part){.use = use,
                                  .count = count_law(table, i),
                                  .count_mean = mean,
                                  .offset = offset_law(table, i),
                                  .offset_s = number_or_0(table, i, "offset_s")});
        reader->table_m3 +=
            number_or_0(table, i, "visits_per_day") * mean * table_volume(&reader->uses, row);
    }
}

/* Uses that no visit holds come alone. */
static void take_alone(set_reader *reader)
{
    const qll_table *table = &reader->uses;
    for (size_t row = 0; row < table->row_count; row++) {
        if (reader->use_of_row[row] == 0 || reader->comes_in_visit[row]) {
            continue;
        }
        const size_t use = reader->use_of_row[row] - 1;
        const double events = number_or_0(table, row, "events_per_day");
        qll_visit *visit =
            add_visit(reader, events * units_of(reader, table, row), reader->made_uses[use].shape);
        add_part(reader, visit, (qll_visit_part){.use = use, .count_mean = 1.0});
        reader->table_m3 += events * table_volume(table, row);
    }
}

/* ---- a set, and the outdoor set ---- */

static void take_row(set_reader *reader, size_t row)
{
    const qll_table *table = &reader->uses;
    if (qll_table_says(table, row, "response", "leak")) {
        take_leak(reader, row);
    } else if (qll_table_says(table, row, "response", "steady")) {
        take_steady(reader, row);
    } else if (qll_table_says(table, row, "response", "rest")) {
        reader->has_rest = own_hours(table, row, reader->rest_share);
    } else {
        take_use(reader, row);
        reader->use_of_row[row] = reader->model->use_count;
    }
}

static void take_set(set_reader *reader)
{
    const char *set = set_of(reader->scenario);
    for (size_t row = 0; row < reader->uses.row_count; row++) {
        if (qll_table_says(&reader->uses, row, "set", set)) {
            take_row(reader, row);
        }
    }
    if (reader->scenario->has_visits) {
        take_visits(reader, set, 1.0);
    }
    take_alone(reader);
}

static void take_outdoor(set_reader *reader)
{
    const qll_scenario *scenario = reader->scenario;
    const double share = season_share[scenario->season];
    if (scenario->outdoor == QLL_OUTDOOR_NONE || share <= 0.0) {
        return;
    }
    const char *set = scenario->habits == QLL_HABITS_US ? "quell outdoor" : "quell outdoor metric";
    for (size_t row = 0; row < reader->uses.row_count; row++) {
        if (qll_table_says(&reader->uses, row, "set", set)
            && (scenario->outdoor == QLL_OUTDOOR_IRRIGATION
                || qll_table_says(&reader->uses, row, "use", "hose"))) {
            take_row(reader, row);
        }
    }
    take_visits(reader, set, share);
}

/* ---- the day's volume ---- */

/* Scales what was taken so far: by the day's share of a weekday, and to the volume if one is given.
 * Where the set has a rest, a volume above its uses goes there. */
static void scale_uses(set_reader *reader, double day_share)
{
    const qll_scenario *scenario = reader->scenario;
    qll_day_model *model = reader->model;
    double factor = day_share;
    double rest_m3 = 0.0;
    if (scenario->day_volume_m3 > 0.0) {
        const double over = scenario->day_volume_m3 - reader->table_m3;
        const bool to_rest = reader->has_rest && over > 0.0;
        rest_m3 = to_rest ? over * day_share : 0.0;
        factor *= to_rest ? 1.0 : scenario->day_volume_m3 / reader->table_m3;
    }
    for (size_t i = 0; i < model->use_count; i++) {
        reader->made_uses[i].busy *= factor;
    }
    for (size_t v = 0; v < model->visit_count; v++) {
        reader->made_visits[v].per_day *= factor;
    }
    for (size_t h = 0; h < 24; h++) {
        model->steady_m3s[h] *= factor;
        model->steady_m3s[h] +=
            rest_m3 > 0.0 ? scenario->people * rest_m3 * reader->rest_share[h] / QLL_DAY_S : 0.0;
    }
}

/* Uses of nobody are left out: a visit that never comes has no law. */
static void drop_unused(set_reader *reader)
{
    qll_day_model *model = reader->model;
    size_t kept = 0;
    for (size_t v = 0; v < model->visit_count; v++) {
        if (reader->made_visits[v].per_day > 0.0) {
            reader->made_visits[kept] = reader->made_visits[v];
            kept += 1;
        }
    }
    model->visit_count = kept;
    model->use_count = kept > 0 ? model->use_count : 0;
    for (size_t i = 0; i < model->use_count; i++) {
        model->busy += reader->made_uses[i].busy;
    }
    model->uses = reader->made_uses;
    model->visits = reader->made_visits;
}

qll_status qll_day_model_uses(const qll_scenario *scenario, double day_share, qll_arena *arena,
                              qll_day_model *model)
{
    set_reader reader = {.scenario = scenario, .model = model};
    qll_status status =
        qll_table_read_own(qll_file_enduse, qll_file_enduse_size, arena, &reader.uses);
    if (status == QLL_OK) {
        status = qll_table_add_own(qll_file_enduse_by_sa, qll_file_enduse_by_sa_size, arena,
                                   &reader.uses);
    }
    if (status == QLL_OK) {
        status = qll_table_read_own(qll_file_visits, qll_file_visits_size, arena, &reader.visits);
    }
    if (status != QLL_OK) {
        return status;
    }
    const size_t rows = reader.uses.row_count;
    reader.made_uses = qll_arena_take(arena, rows, sizeof *reader.made_uses);
    reader.made_visits =
        qll_arena_take(arena, rows + reader.visits.row_count, sizeof *reader.made_visits);
    reader.use_of_row = qll_arena_take(arena, rows, sizeof *reader.use_of_row);
    reader.comes_in_visit = qll_arena_take(arena, rows, sizeof *reader.comes_in_visit);
    if (reader.made_uses == NULL || reader.made_visits == NULL || reader.use_of_row == NULL
        || reader.comes_in_visit == NULL) {
        return QLL_NO_MEMORY;
    }
    take_set(&reader);
    assert(reader.table_m3 > 0.0);
    scale_uses(&reader, day_share);
    take_outdoor(&reader);
    drop_unused(&reader);
    return QLL_OK;
}
