#include "demand/scenario.h"
#include "documents/field_rows.h"
#include "documents/survey_fields.h"
#include "signals/flow_log.h"

/* How the building is used: who draws water, by what, and what a meter says of it. */

/* In the order of their enumerations, of which the first member means that nothing is said. */
static const char *const log_kinds[] = {"flow", "volume", "pulses", "register", "events"};
static const char *const log_orders[] = {"year first", "day first", "month first"};
static const char *const log_stamps[] = {"start", "end"};
static const char *const log_repeated[] = {"last", "sum"};
static const char *const decimal_marks[] = {"point", "comma"};
_Static_assert(QLL_COUNT(log_kinds) + 1 == QLL_LOG_KIND_COUNT, "every kind has a word");
_Static_assert(QLL_COUNT(log_orders) + 1 == QLL_LOG_ORDER_COUNT, "every order has words");
_Static_assert(QLL_COUNT(log_repeated) + 1 == QLL_LOG_REPEATED_COUNT, "every way has a word");
_Static_assert(QLL_COUNT(log_stamps) + 1 == QLL_LOG_STAMP_COUNT, "every stamp has a word");

/* A field is a row; see documents/field_rows.h. */
/* clang-format off */
static const qll_field scenario_fields[] = {
    {"name", QLL_VALUE_TEXT, QLL_ELSE(SCENARIO_NAME),
        QLL_MEANS(SCENARIO_NAME)},
    {"use", QLL_VALUE_WORD, .words = qll_use_words, .word_count = QLL_USE_COUNT,
        QLL_ELSE(SCENARIO_USE), .means = QLL_TEXT_MEANS_USE},
    {"people", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "1", "100000", SOMEBODY_DRAWS),
        QLL_ELSE(SCENARIO_PEOPLE),
        QLL_MEANS(SCENARIO_PEOPLE)},
    {"homes", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "20000", ONE_BUILDING),
        QLL_ELSE(SCENARIO_HOMES), QLL_MEANS(SCENARIO_HOMES)},
    {"baths", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0.5", "20", ONE_HOME),
        QLL_ELSE(SCENARIO_BATHS),
        QLL_MEANS(SCENARIO_BATHS)},
    {"rooms", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "20000", ONE_BUILDING),
        QLL_MEANS(SCENARIO_ROOMS)},
    {"beds", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "20000", ONE_BUILDING),
        QLL_MEANS(SCENARIO_BEDS)},
    {"pupils", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "100000", ONE_BUILDING),
        QLL_MEANS(SCENARIO_PUPILS)},
    {"seats", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "20000", ONE_BUILDING),
        QLL_MEANS(SCENARIO_SEATS)},
    {"employees", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "100000", ONE_BUILDING),
        QLL_MEANS(SCENARIO_EMPLOYEES)},
    {"fixtures", QLL_VALUE_LIST, QLL_ENTRIES(500),
        QLL_MEANS(SCENARIO_FIXTURES)},
    {"continuous", QLL_VALUE_LIST, QLL_ENTRIES(100), QLL_MEANS(SCENARIO_CONTINUOUS)},
    {"weight", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0.001", "1000", WEIGHTS), QLL_DEFAULT("1", ALL_ALIKE),
        QLL_MEANS(SCENARIO_WEIGHT)},
    {"peak", QLL_VALUE_WORD_OR_QUANTITY, .words = qll_peak_method_words, .word_count = QLL_PEAK_GIVEN, QLL_WITHIN(FLOW, "0.1 gpm", "20000 gpm", BUILDING_FLOW),
        QLL_ELSE(SCENARIO_PEAK), QLL_FORM(SCENARIO_PEAK),
        QLL_MEANS(SCENARIO_PEAK)},
    {"quantile", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0.5", "0.9999", QUANTILE),
        QLL_DEFAULT("0.99", STUDY_QUANTILE), QLL_MEANS(SCENARIO_QUANTILE)},
    {"log", QLL_VALUE_TEXT,
        QLL_MEANS(SCENARIO_LOG)},
    {"pulse", QLL_VALUE_QUANTITY, QLL_WITHIN(VOLUME, "0.00001 gal", "10000 gal", PULSE),
        QLL_ELSE(SCENARIO_PULSE), QLL_MEANS(SCENARIO_PULSE)},
    {"time_zone", QLL_VALUE_TEXT, QLL_ELSE(SCENARIO_TIME_ZONE),
        QLL_FORM(SCENARIO_TIME_ZONE),
        QLL_MEANS(SCENARIO_TIME_ZONE)},
    {"log_format", QLL_VALUE_OBJECT, QLL_ELSE(SCENARIO_LOG_FORMAT),
        QLL_MEANS(SCENARIO_LOG_FORMAT)},
    {"day", QLL_VALUE_WORD, .words = qll_day_kind_words, .word_count = QLL_DAY_KIND_COUNT,
        QLL_DEFAULT("weekday", MOST_DAYS), QLL_MEANS(SCENARIO_DAY)},
    {"volume_per_person", QLL_VALUE_QUANTITY, QLL_WITHIN(VOLUME, "0.1 gal", "2600 gal", VOLUME),
        QLL_ELSE(SCENARIO_VOLUME_PER_PERSON),
        QLL_MEANS(SCENARIO_VOLUME_PER_PERSON)},
    {"variation", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "2", DAYS_WITHOUT), QLL_DEFAULT("0", DAYS_BY_CHANCE),
        QLL_MEANS(SCENARIO_VARIATION)},
    {"variation_hour", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "3", HOURS_WITHOUT),
        QLL_ELSE(SCENARIO_VARIATION_HOUR),
        QLL_MEANS(SCENARIO_VARIATION_HOUR)},
    {"habits", QLL_VALUE_WORD, .words = qll_habits_words, .word_count = QLL_HABITS_COUNT,
        QLL_ELSE(SCENARIO_HABITS),
        QLL_MEANS(SCENARIO_HABITS)},
    {"hourly", QLL_VALUE_HOURLY, QLL_WITHIN(NUMBER, "0", "1000000", HOURLY), QLL_ELSE(SCENARIO_HOURLY),
        QLL_FORM(SCENARIO_HOURLY),
        QLL_MEANS(SCENARIO_HOURLY)},
    {"outdoor", QLL_VALUE_WORD, .words = qll_outdoor_words, .word_count = QLL_OUTDOOR_COUNT,
        QLL_ELSE(SCENARIO_OUTDOOR),
        QLL_MEANS(SCENARIO_OUTDOOR)},
    {"season", QLL_VALUE_WORD, .words = qll_season_words, .word_count = QLL_SEASON_COUNT,
        QLL_DEFAULT("summer", SUMMER), QLL_MEANS(SCENARIO_SEASON)},
    {"breaks", QLL_VALUE_OBJECT, QLL_ELSE(SCENARIO_BREAKS),
        QLL_MEANS(SCENARIO_BREAKS)},
    {"outlet_pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "1 psi", "300 psi", OUTLETS_WORK),
        QLL_ELSE(SCENARIO_OUTLET_PRESSURE), .means = QLL_TEXT_MEANS_OUTLET_PRESSURE},
    {"reference_pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "1 psi", "300 psi", OUTLETS_WORK),
        QLL_ELSE(SCENARIO_REFERENCE_PRESSURE),
        QLL_MEANS(SCENARIO_REFERENCE_PRESSURE)},
    {"loading_units", QLL_VALUE_OBJECT, QLL_ELSE(SCENARIO_LOADING_UNITS),
        QLL_MEANS(SCENARIO_LOADING_UNITS)},
};
QLL_GROUP(scenario, SCENARIO, "scenarios[]", scenario_fields);

static const qll_field log_fields[] = {
    {"kind", QLL_VALUE_WORD, QLL_WORDS(log_kinds), QLL_ELSE(LOG_KIND),
        QLL_MEANS(LOG_KIND)},
    {"unit", QLL_VALUE_TEXT, QLL_ELSE(LOG_UNIT),
        QLL_FORM(LOG_UNIT),
        QLL_MEANS(LOG_UNIT)},
    {"value_column", QLL_VALUE_TEXT, QLL_ELSE(LOG_VALUE_COLUMN),
        QLL_MEANS(LOG_VALUE_COLUMN)},
    {"time_column", QLL_VALUE_TEXT, QLL_ELSE(LOG_VALUE_COLUMN),
        QLL_MEANS(LOG_TIME_COLUMN)},
    {"meter", QLL_VALUE_TEXT, QLL_ELSE(LOG_METER),
        QLL_MEANS(LOG_METER)},
    {"meter_column", QLL_VALUE_TEXT, QLL_ELSE(LOG_METER_COLUMN),
        QLL_MEANS(LOG_METER_COLUMN)},
    {"repeated", QLL_VALUE_WORD, QLL_WORDS(log_repeated), QLL_ELSE(LOG_REPEATED),
        QLL_MEANS(LOG_REPEATED)},
    {"key", QLL_VALUE_TEXT, QLL_ELSE(LOG_METER),
        QLL_MEANS(LOG_KEY)},
    {"order", QLL_VALUE_WORD, QLL_WORDS(log_orders), QLL_ELSE(LOG_ORDER),
        QLL_MEANS(LOG_ORDER)},
    {"decimal", QLL_VALUE_WORD, QLL_WORDS(decimal_marks), QLL_ELSE(LOG_DECIMAL),
        QLL_MEANS(LOG_DECIMAL)},
    {"stamp", QLL_VALUE_WORD, QLL_WORDS(log_stamps), QLL_ELSE(LOG_STAMP),
        QLL_MEANS(LOG_STAMP)},
    {"most_flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0.1 gpm", "20000 gpm", METER_PASSES),
        QLL_ELSE(LOG_MOST_FLOW),
        QLL_MEANS(LOG_MOST_FLOW)},
    {"dead_band", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "100 gpm", METER_BLIND), QLL_ELSE(LOG_DEAD_BAND),
        QLL_MEANS(LOG_DEAD_BAND)},
    {"least_quality", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "1000", QUALITY), QLL_ELSE(LOG_LEAST_QUALITY),
        QLL_MEANS(LOG_LEAST_QUALITY)},
    {"heartbeat", QLL_VALUE_QUANTITY, QLL_WITHIN(TIME, "0 s", "24 h", SILENCE),
        QLL_ELSE(LOG_HEARTBEAT),
        QLL_MEANS(LOG_HEARTBEAT)},
};
QLL_GROUP(log, LOG, "scenarios[].log_format", log_fields);

static const qll_field breaks_fields[] = {
    {"share", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "1", SHARE), QLL_NEEDED(BREAK_SHARE)},
    {"length", QLL_VALUE_QUANTITY, QLL_WITHIN(TIME, "1 min", "60 min", BREAK), QLL_NEEDED(BREAK_LENGTH)},
};
QLL_GROUP(breaks, BREAKS, "scenarios[].breaks", breaks_fields);

static const qll_field loading_fields[] = {
    {"en_806_3", QLL_VALUE_LIST, QLL_ENTRIES(QLL_POINTS_MAX), QLL_MEANS(LOADING_EN_806_3)},
    {"bs_6700", QLL_VALUE_LIST, QLL_ENTRIES(QLL_POINTS_MAX), QLL_MEANS(LOADING_BS_6700)},
};
QLL_GROUP(loading, LOADING, "scenarios[].loading_units", loading_fields);

static const qll_field graph_fields[] = {
    {"units", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "1000000", ONE_BUILDING), QLL_NEEDED(LOADING_UNITS)},
    {"flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "20000 gpm", BUILDING_FLOW), QLL_NEEDED(GRAPH_FLOW)},
};
QLL_GROUP(graph_en, GRAPH, "scenarios[].loading_units.en_806_3[]", graph_fields);
QLL_GROUP(graph_bs, GRAPH, "scenarios[].loading_units.bs_6700[]", graph_fields);

static const qll_field fixture_fields[] = {
    {"fixture", QLL_VALUE_NAME, QLL_NAMES(FIXTURES), QLL_NEEDED(FIXTURE), QLL_FORM(FIXTURE)},
    {"count", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "50000", ONE_BUILDING), QLL_NEEDED(COUNT)},
    {"occupancy", QLL_VALUE_WORD, .words = qll_occupancy_words, .word_count = QLL_OCCUPANCY_COUNT - 1,
        QLL_ELSE(FIXTURE_OCCUPANCY),
        QLL_MEANS(FIXTURE_OCCUPANCY)},
    {"flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0.05 gpm", "500 gpm", FIXTURE_FLOW),
        QLL_ELSE(FIXTURE_FLOW), QLL_MEANS(FIXTURE_FLOW)},
    {"use_probability", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0.0001", "1", PROBABILITY),
        QLL_ELSE(FIXTURE_FLOW), QLL_MEANS(FIXTURE_USE_PROBABILITY)},
};
QLL_GROUP(fixture, FIXTURE, "scenarios[].fixtures[]", fixture_fields);

static const qll_field continuous_fields[] = {
    {"name", QLL_VALUE_TEXT, QLL_NEEDED(DRAWS)},
    {"flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "20000 gpm", BUILDING_FLOW), QLL_NEEDED(ITS_FLOW)},
    {"hours", QLL_VALUE_HOURS, QLL_DEFAULT("00:00-24:00", NO_HOURS), QLL_FORM(CONTINUOUS_HOURS),
        QLL_MEANS(CONTINUOUS_HOURS)},
};
QLL_GROUP(continuous, CONTINUOUS, "scenarios[].continuous[]", continuous_fields);
/* clang-format on */
