/* How much water people draw and when, where a survey says so; where it does not, whose habits are taken
 * and that they are. */
#include "base/count.h"
#include "base/files.h"
#include "base/table.h"
#include "documents/survey_parts.h"

#include <assert.h>
#include <math.h>

/* Of a home's rates from hour to hour: 85 metered homes of Alicante against visits (our statistics); for
 * the whole building what those groups of homes have in common. */
#define QLL_HOME_HOUR_CV     1.1
#define QLL_BUILDING_HOUR_CV 0.13
/* Of the volume's logarithm: its range is taken as 10 % to 90 %, 2 x 1.2816 deviations. */
#define QLL_RANGE_DEVIATIONS 2.5631
/* Share of a school's hour in its break, and how long that is (our assumption). */
#define QLL_SCHOOL_SHARE     0.6
#define QLL_SCHOOL_BREAK_S   900.0

/* ---- the volume ---- */

/* A volume of the table in m3. */
static double volume_at(qll_reader *reader, const qll_table *table, size_t row, const char *column)
{
    qll_quantity quantity = {0};
    qll_units_refusal refusal;
    const bool is_read = qll_units_read(qll_table_cell_in(table, row, column), QLL_KIND_VOLUME,
                                        reader->arena, &quantity, &refusal);
    assert(is_read);
    return is_read ? quantity.si : (double)NAN;
}

/* Lists the row as assumed: "45 gal (between 38 gal and 60 gal: indoors ...)". */
static void assume_volume(const qll_object *object, const qll_table *table, size_t row)
{
    const qll_text_id source = qll_text_named(qll_table_cell_in(table, row, "says"));
    qll_object_assume(
        object, "volume_per_person",
        qll_as_written(qll_table_cell_in(table, row, "volume"), QLL_KIND_VOLUME),
        (qll_said){QLL_TEXT_WHY_BETWEEN,
                   {qll_as_written(qll_table_cell_in(table, row, "least"), QLL_KIND_VOLUME),
                    qll_as_written(qll_table_cell_in(table, row, "most"), QLL_KIND_VOLUME),
                    qll_as_text(source)}});
}

static void take_volume(const qll_object *object, qll_scenario *scenario)
{
    qll_reader *reader = object->reader;
    qll_table table;
    const qll_status status =
        qll_table_read_own(qll_file_habits, qll_file_habits_size, reader->arena, &table);
    if (status != QLL_OK) {
        return;
    }
    size_t row = 0;
    while (row < table.row_count
           && !(qll_table_says(&table, row, "use", qll_use_words[scenario->use])
                && qll_table_says(&table, row, "habits", qll_habits_words[scenario->habits]))) {
        row += 1;
    }
    assert(row < table.row_count);
    scenario->day_volume_m3 = volume_at(reader, &table, row, "volume");
    scenario->volume_ln_sigma =
        log(volume_at(reader, &table, row, "most") / volume_at(reader, &table, row, "least"))
        / QLL_RANGE_DEVIATIONS;
    assume_volume(object, &table, row);
}

/* ---- days and hours ---- */

static void read_factors(const qll_object *object, bool is_dwelling, qll_scenario *scenario)
{
    scenario->rate_cv = qll_or_0(qll_object_quantity(object, "variation"));
    if (qll_object_find(object, "variation_hour") != NULL) {
        scenario->hour_cv = qll_or_0(qll_object_quantity(object, "variation_hour"));
    } else if (is_dwelling) {
        scenario->hour_cv = QLL_HOME_HOUR_CV;
        qll_object_assume(object, "variation_hour", qll_as_number(QLL_HOME_HOUR_CV),
                          (qll_said){.id = QLL_TEXT_WHY_HOME_HOURS});
    } else {
        qll_object_assume(object, "variation_hour", qll_as_whole(0),
                          (qll_said){.id = QLL_TEXT_WHY_HOURS_BY_CHANCE});
    }
    scenario->building_hour_cv =
        is_dwelling && scenario->hour_cv > 0.0 ? QLL_BUILDING_HOUR_CV : 0.0;
}

static void assume_break(const qll_object *object)
{
    qll_object_assume(
        object, "breaks",
        qll_as_said(object->reader->arena,
                    (qll_said){QLL_TEXT_VALUE_BREAK,
                               {qll_as_number(QLL_SCHOOL_SHARE),
                                qll_as_written(qll_text_of("15 min"), QLL_KIND_TIME)}}),
        (qll_said){QLL_TEXT_WHY_BREAK,
                   {qll_as_written(qll_text_of("10 min"), QLL_KIND_TIME),
                    qll_as_written(qll_text_of("15 min"), QLL_KIND_TIME)}});
}

static void read_breaks(const qll_object *object, qll_scenario *scenario)
{
    if (qll_object_find(object, "breaks") != NULL) {
        qll_object breaks = qll_object_inner(object, "breaks", &qll_group_breaks);
        scenario->break_share = qll_or_0(qll_object_quantity(&breaks, "share"));
        scenario->break_s = qll_or_0(qll_object_quantity(&breaks, "length"));
        return;
    }
    if (scenario->use == QLL_USE_SCHOOL) {
        scenario->break_share = QLL_SCHOOL_SHARE;
        scenario->break_s = QLL_SCHOOL_BREAK_S;
        assume_break(object);
        return;
    }
    qll_object_assume_text(object, "breaks", QLL_TEXT_VALUE_NONE, QLL_TEXT_WHY_EVEN_HOUR);
}

/* 24 numbers, scaled to a mean of 1. */
static void read_hourly(const qll_object *object, qll_scenario *scenario)
{
    const qll_node *list = qll_object_find(object, "hourly");
    if (list == NULL) {
        return;
    }
    const qll_field *field = qll_group_field(object->group, "hourly");
    const qll_pair range = qll_field_range(field, object->reader->arena);
    double sum = 0.0;
    size_t count = 0;
    bool is_good = list->kind == QLL_NODE_LIST && list->child_count == 24;
    for (const qll_node *node = list->first_child; is_good && node != NULL; node = node->next) {
        is_good = node->kind == QLL_NODE_NUMBER && node->number >= range.low
                  && node->number <= range.high;
        scenario->hourly[count] = is_good ? node->number : 0.0;
        sum += scenario->hourly[count];
        count += 1;
    }
    if (!is_good || sum <= 0.0) {
        (void)qll_reader_wrong_kind(
            object->reader, list,
            QLL_SAYS_WITH(EXPECT_HOURLY, qll_as_is(field->least), qll_as_is(field->most)));
        return;
    }
    for (size_t h = 0; h < 24; h++) {
        scenario->hourly[h] *= 24.0 / sum;
    }
    scenario->has_hourly = true;
}

/* ---- outdoors ---- */

static void read_outdoor(const qll_object *object, bool is_dwelling, qll_scenario *scenario)
{
    const qll_node *node = qll_object_find(object, "outdoor");
    if (node == NULL) {
        const bool is_house = scenario->use == QLL_USE_HOUSE;
        scenario->outdoor = is_house ? QLL_OUTDOOR_HOSE : QLL_OUTDOOR_NONE;
        if (is_house && scenario->habits == QLL_HABITS_US) {
            qll_object_assume(object, "outdoor", qll_as_word(qll_outdoor_words[QLL_OUTDOOR_HOSE]),
                              (qll_said){.id = QLL_TEXT_WHY_HOSE_US});
        } else if (is_house) {
            qll_object_assume(object, "outdoor", qll_as_word(qll_outdoor_words[QLL_OUTDOOR_HOSE]),
                              (qll_said){.id = QLL_TEXT_WHY_HOSE_METRIC});
        }
    } else {
        const size_t word = qll_object_word(object, "outdoor");
        scenario->outdoor = word == SIZE_MAX ? QLL_OUTDOOR_NONE : (qll_outdoor)word;
        if (scenario->outdoor != QLL_OUTDOOR_NONE && !is_dwelling) {
            (void)qll_reader_refuse_fixed(object->reader, qll_object_where(object, "outdoor"),
                                          QLL_CODE_CONTRADICTION, QLL_SAYS(OUTDOOR_ELSEWHERE), NULL,
                                          (qll_fix){.op = QLL_FIX_REMOVE});
        }
    }
    if (scenario->outdoor == QLL_OUTDOOR_NONE && qll_object_find(object, "season") == NULL) {
        return;
    }
    const size_t season = qll_object_word(object, "season");
    scenario->season = season == SIZE_MAX ? QLL_SEASON_SUMMER : (qll_season)season;
}

/* ---- all of it ---- */

static void read_whose(const qll_survey_pass *pass, const qll_object *object,
                       qll_scenario *scenario)
{
    const bool is_us = pass->survey->units == QLL_UNITS_US;
    scenario->habits = is_us ? QLL_HABITS_US : QLL_HABITS_METRIC;
    if (qll_object_find(object, "habits") == NULL) {
        qll_object_assume(
            object, "habits", qll_as_word(qll_habits_words[scenario->habits]),
            (qll_said){.id = is_us ? QLL_TEXT_WHY_UNITS_US : QLL_TEXT_WHY_UNITS_METRIC});
        return;
    }
    const size_t word = qll_object_word(object, "habits");
    scenario->habits = word == SIZE_MAX ? scenario->habits : (qll_habits)word;
}

static void assume_homes(const qll_object *object, const qll_scenario *scenario)
{
    const double homes = qll_scenario_homes(scenario);
    if (qll_object_find(object, "homes") != NULL || !isfinite(homes)) {
        return;
    }
    qll_writer value = qll_writer_new(object->reader->arena);
    qll_write_format(&value, "%.3g", homes);
    qll_object_assume(object, "homes", qll_as_is_text(qll_writer_text(&value)),
                      (qll_said){.id = scenario->use == QLL_USE_HOUSE
                                           ? QLL_TEXT_WHY_HOUSE_ONE_HOME
                                           : QLL_TEXT_WHY_PEOPLE_IN_EACH});
}

/* Where a log says it all these count for nothing, but what cannot be meant is refused all the same. */
static void check_unused(const qll_object *object)
{
    static const char *const quantities[] = {"variation", "variation_hour"};
    static const char *const words[] = {"habits", "outdoor", "season"};
    for (size_t i = 0; i < QLL_COUNT(quantities); i++) {
        if (qll_object_find(object, quantities[i]) != NULL) {
            (void)qll_object_quantity(object, quantities[i]);
        }
    }
    for (size_t i = 0; i < QLL_COUNT(words); i++) {
        if (qll_object_find(object, words[i]) != NULL) {
            (void)qll_object_word(object, words[i]);
        }
    }
    if (qll_object_find(object, "breaks") != NULL) {
        const qll_object breaks = qll_object_inner(object, "breaks", &qll_group_breaks);
        (void)qll_object_quantity(&breaks, "share");
        (void)qll_object_quantity(&breaks, "length");
    }
}

void qll_read_habits(const qll_survey_pass *pass, const qll_object *object, qll_scenario *scenario)
{
    const bool is_use = (size_t)scenario->use < QLL_USE_COUNT;
    const bool is_dwelling = is_use && qll_use_is_dwelling(scenario->use);
    const bool is_assumed = is_use && scenario->people > 0.0;
    read_hourly(object, scenario);
    if (!is_assumed) { /* the log says it all */
        scenario->day_volume_m3 = qll_or_0(qll_object_quantity(object, "volume_per_person"));
        check_unused(object);
        return;
    }
    read_whose(pass, object, scenario);
    if (is_dwelling) {
        assume_homes(object, scenario);
    }
    scenario->has_visits = is_dwelling || scenario->use == QLL_USE_HOTEL;
    if (qll_object_find(object, "volume_per_person") != NULL) {
        scenario->day_volume_m3 = qll_or_0(qll_object_quantity(object, "volume_per_person"));
    } else {
        take_volume(object, scenario);
    }
    read_factors(object, is_dwelling, scenario);
    read_breaks(object, scenario);
    read_outdoor(object, is_dwelling, scenario);
}
