#include "documents/case_fields.h"

#include "diagnosis/case.h"
#include "documents/field_rows.h"

static const char *const unit_words[] = {"us", "si"};
static const char *const as_words[] = {"found", "left"};

/* A field is a row; see documents/field_rows.h. */
/* clang-format off */
static const qll_field case_fields[] = {
    {"case", QLL_VALUE_VERSION, QLL_NEEDED(VERSION)},
    {"name", QLL_VALUE_TEXT, QLL_DEFAULT("case", NO_NAME), QLL_MEANS(CASE_NAME)},
    {"units", QLL_VALUE_WORD, QLL_WORDS(unit_words), QLL_ELSE(CASE_UNITS),
        QLL_MEANS(CASE_UNITS)},
    {"survey", QLL_VALUE_SURVEY, QLL_MEANS(CASE_SURVEY)},
    {"site", QLL_VALUE_OBJECT, QLL_MEANS(CASE_SITE)},
    {"symptoms", QLL_VALUE_ANSWERS, QLL_NAMES(QUESTIONS), QLL_FORM(CASE_SYMPTOMS),
        QLL_MEANS(CASE_SYMPTOMS)},
    {"readings", QLL_VALUE_LIST, QLL_ENTRIES(1000), QLL_MEANS(CASE_READINGS)},
    {"tests", QLL_VALUE_LIST, QLL_ENTRIES(200), QLL_MEANS(CASE_TESTS)},
    {"findings", QLL_VALUE_LIST, QLL_ENTRIES(1000), QLL_MEANS(CASE_FINDINGS)},
    {"done", QLL_VALUE_TEXTS, QLL_ENTRIES(100), QLL_MEANS(CASE_DONE)},
    {"cause", QLL_VALUE_NAME, QLL_NAMES(CAUSES), QLL_FORM(CASE_CAUSE), QLL_MEANS(CASE_CAUSE)},
};
QLL_GROUP(case, CASE, "", case_fields);

static const qll_field case_site_fields[] = {
    {"water_heater", QLL_VALUE_FLAG, QLL_ELSE(CASE_SITE_WATER_HEATER), QLL_MEANS(CASE_SITE_WATER_HEATER)},
    {"backflow_preventer", QLL_VALUE_FLAG, QLL_ELSE(CASE_SITE_BACKFLOW_PREVENTER), QLL_MEANS(CASE_SITE_BACKFLOW_PREVENTER)},
    {"pilot_operated", QLL_VALUE_FLAG, QLL_ELSE(CASE_SITE_PILOT_OPERATED), QLL_MEANS(CASE_SITE_PILOT_OPERATED)},
    {"branches", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "6", BUILDING_VALVES), QLL_ELSE(CASE_SITE_BRANCHES), QLL_MEANS(CASE_SITE_BRANCHES)},
    {"stages", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "3", BUILDING_VALVES), QLL_ELSE(CASE_SITE_BRANCHES), QLL_MEANS(CASE_SITE_STAGES)},
    {"set_pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "1 psi", "200 psi", SET_RANGE), QLL_ELSE(CASE_SITE_SET_PRESSURE),
        QLL_MEANS(CASE_SITE_SET_PRESSURE)},
};
QLL_GROUP(case_site, SITE, "site", case_site_fields);

static const qll_field reading_fields[] = {
    {"gauge", QLL_VALUE_WORD, .words = qll_gauge_words, .word_count = QLL_GAUGE_COUNT, QLL_NEEDED(GAUGE)},
    {"pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "0 psi", "400 psi", MAIN_RATED), QLL_NEEDED(READING)},
    {"flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "20000 gpm", MAIN_FLOW), QLL_ELSE(READING_FLOW),
        QLL_MEANS(READING_FLOW)},
    {"at", QLL_VALUE_TEXT, QLL_ELSE(READING_FLOW), QLL_MEANS(READING_AT)},
    {"as", QLL_VALUE_WORD, QLL_WORDS(as_words), QLL_ELSE(READING_AS),
        QLL_MEANS(READING_AS)},
};
QLL_GROUP(reading, READING, "readings[]", reading_fields);

static const qll_field test_fields[] = {
    {"test", QLL_VALUE_NAME, QLL_NAMES(QUESTIONS), QLL_NEEDED(TEST), QLL_FORM(TEST)},
    {"outcome", QLL_VALUE_TEXT, QLL_FORM(TEST_OUTCOME), QLL_MEANS(TEST_OUTCOME)},
    {"measured", QLL_VALUE_MEASURED, QLL_FORM(TEST_MEASURED), QLL_MEANS(TEST_MEASURED)},
    {"at", QLL_VALUE_TEXT, QLL_ELSE(READING_FLOW), QLL_MEANS(READING_AT)},
};
QLL_GROUP(test, TEST, "tests[]", test_fields);

static const qll_field log_finding_fields[] = {
    {"finding", QLL_VALUE_NAME, QLL_NAMES(LOG_FINDINGS), QLL_NEEDED(FINDING), QLL_FORM(LOG_FINDING_FINDING)},
    {"strength", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "1", SHARE), QLL_ELSE(LOG_FINDING_STRENGTH),
        QLL_MEANS(LOG_FINDING_STRENGTH)},
    {"value", QLL_VALUE_FIGURE, QLL_FORM(LOG_FINDING_VALUE), QLL_MEANS(LOG_FINDING_VALUE)},
    {"unit", QLL_VALUE_TEXT, QLL_ELSE(LOG_FINDING_UNIT), QLL_MEANS(LOG_FINDING_UNIT)},
    {"frequency_hz", QLL_VALUE_FIGURE, QLL_FORM(LOG_FINDING_VALUE), QLL_MEANS(LOG_FINDING_FREQUENCY_HZ)},
    {"per_hour", QLL_VALUE_FIGURE, QLL_FORM(LOG_FINDING_VALUE), QLL_MEANS(LOG_FINDING_PER_HOUR)},
    {"ratio", QLL_VALUE_FIGURE, QLL_FORM(LOG_FINDING_VALUE), QLL_MEANS(LOG_FINDING_RATIO)},
};
QLL_OPEN_GROUP(log_finding, FINDING, "findings[]", log_finding_fields);

static const qll_field sound_finding_fields[] = {
    {"kind", QLL_VALUE_NAME, QLL_NAMES(SOUND_FINDINGS), QLL_NEEDED(FINDING), QLL_FORM(SOUND_FINDING_KIND)},
    {"confidence", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "1", SHARE), QLL_ELSE(LOG_FINDING_STRENGTH),
        QLL_MEANS(SOUND_FINDING_CONFIDENCE)},
};
QLL_OPEN_GROUP(sound_finding, FINDING, "findings[]", sound_finding_fields);

static const qll_field together_fields[] = {
    {"what", QLL_VALUE_NAME, QLL_NAMES(TOGETHER), QLL_NEEDED(FINDING), QLL_FORM(TOGETHER_WHAT)},
    {"coincides", QLL_VALUE_FLAG, QLL_ELSE(TOGETHER_COINCIDES), QLL_MEANS(TOGETHER_COINCIDES)},
    {"per_hour", QLL_VALUE_FIGURE, QLL_FORM(LOG_FINDING_VALUE), QLL_MEANS(TOGETHER_PER_HOUR)},
    {"logged_hz", QLL_VALUE_FIGURE, QLL_FORM(LOG_FINDING_VALUE), QLL_MEANS(TOGETHER_LOGGED_HZ)},
};
QLL_OPEN_GROUP(together, FINDING, "findings[]", together_fields);


static const qll_field cases_fields[] = {
    {"cases", QLL_VALUE_VERSION, QLL_NEEDED(VERSION)},
    {"closed", QLL_VALUE_LIST, QLL_ENTRIES(100000), QLL_NEEDED(CASES)},
};
QLL_GROUP(cases, CASES, "(cases)", cases_fields);

static const qll_field likelihood_fields[] = {
    {"likelihood", QLL_VALUE_VERSION, QLL_NEEDED(VERSION)},
    {"cases", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "0", "100000", ONE_BUILDING), QLL_MEANS(LIKELIHOOD_CASES)},
    {"table_is_worth", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "100000", ONE_BUILDING), QLL_MEANS(LIKELIHOOD_TABLE_IS_WORTH)},
    {"brier", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "2", SHARE), QLL_MEANS(LIKELIHOOD_BRIER)},
    {"brier_with_nothing_known", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "2", SHARE), QLL_MEANS(LIKELIHOOD_BRIER_WITH_NOTHING_KNOWN)},
    {"rows", QLL_VALUE_LIST, QLL_ENTRIES(10000), QLL_MEANS(LIKELIHOOD_ROWS)},
};
QLL_GROUP(likelihood, LIKELIHOOD, "(likelihood)", likelihood_fields);

static const qll_field likelihood_row_fields[] = {
    {"cause", QLL_VALUE_NAME, QLL_NAMES(CAUSES), QLL_NEEDED(CAUSE), QLL_FORM(CASE_CAUSE)},
    {"evidence", QLL_VALUE_NAME, QLL_NAMES(QUESTIONS), QLL_NEEDED(TEST), QLL_FORM(TEST)},
    {"shares", QLL_VALUE_SHARES, QLL_NEEDED(SHARES), QLL_FORM(LIKELIHOOD_ROW_SHARES)},
    {"told", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "100000", ONE_BUILDING), QLL_MEANS(LIKELIHOOD_ROW_TOLD)},
};
QLL_GROUP(likelihood_row, LIKELIHOOD_ROW, "rows[]", likelihood_row_fields);

/* clang-format on */

const qll_field_group *const *qll_case_groups(size_t *count)
{
    static const qll_field_group *const groups[] = {
        &qll_group_case,        &qll_group_case_site,     &qll_group_reading,  &qll_group_test,
        &qll_group_log_finding, &qll_group_sound_finding, &qll_group_together, &qll_group_cases,
        &qll_group_likelihood,  &qll_group_likelihood_row};
    *count = QLL_COUNT(groups);
    return groups;
}
