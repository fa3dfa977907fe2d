#include "documents/case_fields.h"

#include "diagnosis/case.h"
#include "documents/field_rows.h"

static const char *const unit_words[] = {"us", "si"};
static const char *const as_words[] = {"found", "left"};

/* A field is a row; see documents/field_rows.h. */
/* clang-format off */
static const qll_field case_fields[] = {
    {"case", QLL_VALUE_WHOLE, QLL_NEEDED(VERSION), .form = "1"},
    {"name", QLL_VALUE_TEXT, QLL_DEFAULT("case", NO_NAME), .meaning = "what the visit is called in answers"},
    {"units", QLL_VALUE_WORD, QLL_WORDS(unit_words), .computed = "the survey's, else \"us\"",
        .meaning = "units of what people read"},
    {"survey", QLL_VALUE_OBJECT, .meaning = "the building, as in [survey.md](survey.md); with `existing` the station is computed, not asked for"},
    {"site", QLL_VALUE_OBJECT, .meaning = "what there is, where no survey tells it"},
    {"symptoms", QLL_VALUE_OWN, .form = "an object, question to answer: {\"sound_kind\": \"squeal\"}",
        .meaning = "what people tell; what is not known is left out"},
    {"readings", QLL_VALUE_LIST, .meaning = "what the gauges read"},
    {"tests", QLL_VALUE_LIST, .meaning = "tests that were made; of two of one kind the last counts"},
    {"findings", QLL_VALUE_LIST, .meaning = "`findings` of `quell log` and `quell listen`, as they stand there"},
    {"done", QLL_VALUE_LIST, .meaning = "what was done, a text each, for the sheet of the visit"},
    {"cause", QLL_VALUE_OWN, .form = "a cause", .meaning = "what it was, once it is known; for `--learn`"},
};
QLL_GROUP(case, CASE, "", case_fields);

static const qll_field case_site_fields[] = {
    {"water_heater", QLL_VALUE_FLAG, .computed = "by the survey's `downstream.heater`; without a survey true", .meaning = "hot water is made here"},
    {"backflow_preventer", QLL_VALUE_FLAG, .computed = "by the survey's `upstream`; without a survey false", .meaning = "there is one"},
    {"pilot_operated", QLL_VALUE_FLAG, .computed = "by the survey's `existing`; without it false", .meaning = "a valve of the station is pilot-operated"},
    {"branches", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "6", BUILDING_VALVES), .computed = "by the survey's `existing`; without it 1", .meaning = "valves side by side"},
    {"stages", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "3", BUILDING_VALVES), .computed = "by the survey's `existing`; without it 1", .meaning = "valves in series"},
    {"set_pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "1 psi", "200 psi", SET_RANGE), .computed = "by the survey's `existing`",
        .meaning = "what the last stage is set to; lock-up is judged against it"},
};
QLL_GROUP(case_site, SITE, "site", case_site_fields);

static const qll_field reading_fields[] = {
    {"gauge", QLL_VALUE_WORD, .words = qll_gauge_words, .word_count = QLL_GAUGE_COUNT, QLL_NEEDED(GAUGE)},
    {"pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "0 psi", "400 psi", MAIN_RATED), QLL_NEEDED(READING)},
    {"flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "20000 gpm", MAIN_FLOW), .computed = "not known",
        .meaning = "what ran then; \"0 gpm\" = no flow"},
    {"at", QLL_VALUE_TEXT, .computed = "not known", .meaning = "when"},
    {"as", QLL_VALUE_WORD, QLL_WORDS(as_words), .computed = "\"found\"",
        .meaning = "before or after the work; what is left is no sign of what was wrong"},
};
QLL_GROUP(reading, READING, "readings[]", reading_fields);

static const qll_field test_fields[] = {
    {"test", QLL_VALUE_OWN, QLL_NEEDED(TEST), .form = "a question or test"},
    {"outcome", QLL_VALUE_OWN, .form = "one of its answers", .meaning = "how it ended; this or `measured`"},
    {"measured", QLL_VALUE_OWN, .form = "a quantity of its kind: \"6 psi\", 2.4", .meaning = "what was read, where its answers have figures"},
    {"at", QLL_VALUE_TEXT, .computed = "not known", .meaning = "when"},
};
QLL_GROUP(test, TEST, "tests[]", test_fields);

static const qll_field log_finding_fields[] = {
    {"finding", QLL_VALUE_OWN, QLL_NEEDED(FINDING), .form = "a finding of `quell log`"},
    {"strength", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "1", SHARE), .computed = "1",
        .meaning = "from 0.5 on it is there, below it is not"},
    {"value", QLL_VALUE_OWN, .form = "a number, or null", .meaning = "how much, in `unit`"},
    {"unit", QLL_VALUE_TEXT, .computed = "psi for pressures; none else", .meaning = "of `value`"},
    {"frequency_hz", QLL_VALUE_OWN, .form = "a number, or null", .meaning = "of hunting and chatter: swings a second, in place of `value`"},
    {"per_hour", QLL_VALUE_OWN, .form = "a number, or null", .meaning = "of hammer: spikes an hour, in place of `value`"},
    {"ratio", QLL_VALUE_OWN, .form = "a number, or null",
        .meaning = "of fall-off: how many times what the survey's station should have, in place of `value`; without it the finding is no evidence"},
};
QLL_GROUP(log_finding, FINDING, "findings[]", log_finding_fields);

static const qll_field sound_finding_fields[] = {
    {"kind", QLL_VALUE_OWN, QLL_NEEDED(FINDING), .form = "a finding of `quell listen`"},
    {"confidence", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "1", SHARE), .computed = "1",
        .meaning = "under 0.5 it counts for nothing"},
};
QLL_GROUP(sound_finding, FINDING, "findings[]", sound_finding_fields);


static const qll_field cases_fields[] = {
    {"cases", QLL_VALUE_WHOLE, QLL_NEEDED(VERSION), .form = "1"},
    {"closed", QLL_VALUE_LIST, QLL_NEEDED(CASES)},
};
QLL_GROUP(cases, CASES, "(cases)", cases_fields);

static const qll_field likelihood_fields[] = {
    {"likelihood", QLL_VALUE_WHOLE, QLL_NEEDED(VERSION), .form = "1"},
    {"cases", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "0", "100000", ONE_BUILDING), .meaning = "how many it comes from"},
    {"table_is_worth", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "100000", ONE_BUILDING), .meaning = "so many cases the built-in table counts for"},
    {"brier", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "2", SHARE), .meaning = "mean squared miss of the diagnoses of these cases by the table before"},
    {"brier_with_nothing_known", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "2", SHARE), .meaning = "the same where nothing but the site is known"},
    {"rows", QLL_VALUE_LIST, .meaning = "the rows that take the place of the built-in ones"},
};
QLL_GROUP(likelihood, LIKELIHOOD, "(likelihood)", likelihood_fields);

static const qll_field likelihood_row_fields[] = {
    {"cause", QLL_VALUE_OWN, QLL_NEEDED(CAUSE), .form = "a cause"},
    {"evidence", QLL_VALUE_OWN, QLL_NEEDED(TEST), .form = "a question or test"},
    {"shares", QLL_VALUE_OWN, QLL_NEEDED(SHARES), .form = "an object, answer to share: {\"yes\": 0.9, \"no\": 0.1}"},
    {"told", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "100000", ONE_BUILDING), .meaning = "answers of closed cases in it"},
};
QLL_GROUP(likelihood_row, LIKELIHOOD_ROW, "rows[]", likelihood_row_fields);

/* clang-format on */

const qll_field_group *const *qll_case_groups(size_t *count)
{
    static const qll_field_group *const groups[] = {
        &qll_group_case,  &qll_group_case_site,   &qll_group_reading,
        &qll_group_test,  &qll_group_log_finding, &qll_group_sound_finding,
        &qll_group_cases, &qll_group_likelihood,  &qll_group_likelihood_row};
    *count = QLL_COUNT(groups);
    return groups;
}
