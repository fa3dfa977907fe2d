#include "documents/survey_fields.h"

#include "base/customary.h"
#include "documents/field_rows.h"
#include "documents/read_costs.h"
#include "station/site.h"

/* What may stand before and behind the water: survey, supply, upstream. The downstream side,
 * scenarios, limits and the existing station are in survey_fields_use.c. */

static const char *const unit_words[] = {"us", "si"};

/* Without it there is room for a pen. */
#define QLL_A_LINE QLL_ELSE(A_LINE)

/* A field is a row; see documents/field_rows.h. */
/* clang-format off */
static const qll_field survey_fields[] = {
    {"survey", QLL_VALUE_VERSION, QLL_NEEDED(VERSION)},
    {"name", QLL_VALUE_TEXT, QLL_DEFAULT("survey", NO_NAME), QLL_MEANS(SURVEY_NAME)},
    {"units", QLL_VALUE_WORD, QLL_WORDS(unit_words), QLL_DEFAULT("us", NO_UNITS),
        QLL_MEANS(SURVEY_UNITS)},
    {"project", QLL_VALUE_OBJECT, QLL_MEANS(SURVEY_PROJECT)},
    {"site", QLL_VALUE_OBJECT, QLL_MEANS(SURVEY_SITE)},
    {"water", QLL_VALUE_OBJECT, QLL_MEANS(SURVEY_WATER)},
    {"supply", QLL_VALUE_OBJECT, QLL_NEEDED(SUPPLY)},
    {"upstream", QLL_VALUE_LIST, QLL_ENTRIES(50), QLL_ELSE(SURVEY_UPSTREAM),
        QLL_MEANS(SURVEY_UPSTREAM)},
    {"station_pipe", QLL_VALUE_OBJECT, QLL_MEANS(SURVEY_STATION_PIPE)},
    {"downstream", QLL_VALUE_OBJECT, QLL_MEANS(SURVEY_DOWNSTREAM)},
    {"scenarios", QLL_VALUE_LIST, QLL_ENTRIES(50), QLL_NEEDED(SCENARIOS)},
    {"limits", QLL_VALUE_OBJECT, QLL_MEANS(SURVEY_LIMITS)},
    {"costs", QLL_VALUE_OBJECT, QLL_ELSE(SURVEY_COSTS),
        QLL_MEANS(SURVEY_COSTS)},
    {"existing", QLL_VALUE_OBJECT, QLL_MEANS(SURVEY_EXISTING)},
};
QLL_GROUP(survey, SURVEY, "", survey_fields);

static const qll_field project_fields[] = {
    {"name", QLL_VALUE_TEXT, QLL_A_LINE, QLL_MEANS(PROJECT_NAME)},
    {"customer", QLL_VALUE_TEXT, QLL_A_LINE, QLL_MEANS(PROJECT_CUSTOMER)},
    {"address", QLL_VALUE_TEXT, QLL_A_LINE, QLL_MEANS(PROJECT_ADDRESS)},
    {"prepared_by", QLL_VALUE_TEXT, QLL_A_LINE, QLL_MEANS(PROJECT_PREPARED_BY)},
    {"license", QLL_VALUE_TEXT, QLL_A_LINE, QLL_MEANS(PROJECT_LICENSE)},
    {"revision", QLL_VALUE_TEXT, QLL_A_LINE, QLL_MEANS(PROJECT_REVISION)},
};
QLL_GROUP(project, PROJECT, "project", project_fields);

static const qll_field site_fields[] = {
    {"elevation", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "-1500 ft", "16000 ft", DEAD_SEA), .fallback = "0 ft",
        .why = {QLL_TEXT_WHY_SEA_LEVEL,
                {{QLL_ARGUMENT_THUMB, QLL_KIND_LENGTH, .value = 1000.0 * QLL_FOOT_M},
                 {QLL_ARGUMENT_THUMB, QLL_KIND_PRESSURE_DIFFERENCE, .value = 0.52 * QLL_PSI_PA}}},
        .example = "52 ft", QLL_MEANS(SITE_ELEVATION)},
    {"barometric", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "7 psia", "16 psia", ATMOSPHERE),
        QLL_ELSE(SITE_BAROMETRIC), .example = "14.7 psia",
        QLL_MEANS(SITE_BAROMETRIC)},
    {"people", QLL_VALUE_WORD, .words = qll_people_words, .word_count = QLL_PEOPLE_COUNT,
        QLL_DEFAULT("next room", NOISE_FOLLOWS),
        QLL_MEANS(SITE_PEOPLE)},
};
QLL_GROUP(site, SITE, "site", site_fields);

static const qll_field water_fields[] = {
    {"temperature", QLL_VALUE_QUANTITY, QLL_WITHIN(TEMPERATURE, "33 degF", "200 degF", LIQUID),
        QLL_DEFAULT("60 degF", COLD_WATER), QLL_MEANS(WATER_TEMPERATURE)},
};
QLL_GROUP(water, WATER, "water", water_fields);

static const qll_field supply_fields[] = {
    {"static_high", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "0 psi", "400 psi", MAIN_RATED),
        QLL_ELSE(SUPPLY_STATIC_HIGH),
        QLL_MEANS(SUPPLY_STATIC_HIGH)},
    {"static_low", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "0 psi", "400 psi", MAIN_RATED),
        QLL_ELSE(SUPPLY_STATIC_LOW),
        QLL_MEANS(SUPPLY_STATIC_LOW)},
    {"flow_test", QLL_VALUE_LIST, QLL_ENTRIES(QLL_POINTS_MAX), QLL_ELSE(SUPPLY_FLOW_TEST),
        QLL_MEANS(SUPPLY_FLOW_TEST)},
};
QLL_GROUP(supply, SUPPLY, "supply", supply_fields);

static const qll_field flow_test_fields[] = {
    {"flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "20000 gpm", MAIN_FLOW), QLL_NEEDED(RISING_FLOW)},
    {"pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "0 psi", "400 psi", MAIN_RATED), QLL_NEEDED(PRESSURE)},
};
QLL_GROUP(flow_test, FLOW_TEST, "supply.flow_test[]", flow_test_fields);

static const char *const carries_words[] = {"peak"};

/* A pipe before the station has no `carries`, one behind it no `rise`: the elevation of the outlet
 * counts there. Both groups are a part of this list. */
static const qll_field pipe_fields[] = {
    {"carries", QLL_VALUE_WORD_OR_QUANTITY, QLL_WORDS(carries_words), QLL_WITHIN(FLOW, "0 gpm", "20000 gpm", MAIN_FLOW), QLL_DEFAULT("peak", WHOLE_FLOW),
        QLL_FORM(PIPE_CARRIES), QLL_MEANS(PIPE_CARRIES)},
    {"pipe", QLL_VALUE_NAME, QLL_NAMES(PIPES), QLL_NEEDED(PIPE), QLL_FORM(PIPE)},
    {"nominal", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "1/4 in", "24 in", PIPE_SIZES), QLL_NEEDED(FAMILY_SIZE)},
    {"length", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "0 ft", "10000 ft", ONE_BUILDING_LENGTH), QLL_NEEDED(LENGTH),
        .example = "60 ft"},
    {"fittings", QLL_VALUE_COUNTS, QLL_NAMES(FITTINGS), QLL_WITHIN(NUMBER, "0", "1000", ONE_RUN), QLL_DEFAULT("none", NO_FITTINGS),
        QLL_FORM(PIPE_FITTINGS), QLL_MEANS(PIPE_FITTINGS)},
    {"rise", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "-1000 ft", "1000 ft", LIFT_400), QLL_DEFAULT("0 ft", NO_RISE),
        .example = "12 ft", QLL_MEANS(PIPE_RISE)},
};
const qll_field_group qll_group_pipe = {QLL_TEXT_GROUP_PIPE, "upstream[]", &pipe_fields[1],
                                        QLL_COUNT(pipe_fields) - 1, false};
const qll_field_group qll_group_path = {QLL_TEXT_GROUP_PATH, "downstream.outlets[].path[]",
                                        pipe_fields, QLL_COUNT(pipe_fields) - 1, false};

/* Kinds of meters. Only for displacement meters is there a table; others bring their own loss. */
static const char *const meter_words[] = {"displacement", "turbine",    "compound",
                                          "multi-jet",    "ultrasonic", "electromagnetic"};

static const qll_field meter_fields[] = {
    {"meter", QLL_VALUE_WORD, QLL_WORDS(meter_words), QLL_NEEDED(METER)},
    {"nominal", QLL_VALUE_METER_SIZE, QLL_WITHIN(LENGTH, "1/4 in", "24 in", PIPE_SIZES),
        QLL_FORM(METER_NOMINAL),
        QLL_MEANS(METER_NOMINAL)},
    {"loss", QLL_VALUE_LIST, QLL_ENTRIES(QLL_POINTS_MAX), QLL_ELSE(METER_LOSS),
        QLL_MEANS(METER_LOSS)},
};
QLL_GROUP(meter, METER, "upstream[]", meter_fields);

/* In the order of qll_backflow_kind; what else the first is called comes after them. */
static const char *const backflow_words[] = {"reduced pressure", "double check", "RPZ", "RP"};

static const qll_field backflow_fields[] = {
    {"backflow", QLL_VALUE_WORD, QLL_WORDS(backflow_words), QLL_NEEDED(BACKFLOW)},
    {"nominal", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "1/4 in", "24 in", PIPE_SIZES),
        QLL_MEANS(METER_NOMINAL)},
    {"loss", QLL_VALUE_LIST, QLL_ENTRIES(QLL_POINTS_MAX), QLL_ELSE(BACKFLOW_LOSS),
        QLL_MEANS(BACKFLOW_LOSS)},
};
QLL_GROUP(backflow, BACKFLOW, "upstream[]", backflow_fields);

static const qll_field strainer_fields[] = {
    {"strainer", QLL_VALUE_MESH, QLL_NAMES(MESHES), QLL_NEEDED(STRAINER), QLL_FORM(STRAINER)},
    {"nominal", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "1/4 in", "24 in", PIPE_SIZES), QLL_NEEDED(CONNECTIONS)},
    {"area_ratio", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "1", "10", SCREEN_ROOM), QLL_DEFAULT("2", LOWER_END),
        QLL_MEANS(STRAINER_AREA_RATIO)},
    {"blocked", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "0.95", OPENINGS), QLL_DEFAULT("0", CLEAN_SCREEN),
        QLL_MEANS(STRAINER_BLOCKED)},
};
QLL_GROUP(strainer, STRAINER, "upstream[]", strainer_fields);

static const qll_field device_fields[] = {
    {"device", QLL_VALUE_TEXT, QLL_NEEDED(DEVICE)},
    {"loss", QLL_VALUE_LIST, QLL_ENTRIES(QLL_POINTS_MAX), QLL_NEEDED(LOSS)},
};
QLL_GROUP(device, DEVICE, "upstream[]", device_fields);

static const qll_field loss_fields[] = {
    {"flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "20000 gpm", MAIN_FLOW), QLL_NEEDED(RISING_FLOW)},
    {"pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE_DIFFERENCE, "0 psi", "100 psi", DEVICE_LOSS),
        QLL_NEEDED(PRESSURE_LOST)},
};
QLL_GROUP(loss, LOSS, "upstream[].loss[]", loss_fields);

static const qll_field station_pipe_fields[] = {
    {"pipe", QLL_VALUE_NAME, QLL_NAMES(PIPES), QLL_DEFAULT("copper L", USUAL_PIPE), QLL_FORM(PIPE),
        QLL_MEANS(STATION_PIPE_PIPE)},
    {"nominal", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "1/4 in", "24 in", PIPE_SIZES),
        QLL_ELSE(STATION_PIPE_NOMINAL),
        QLL_MEANS(STATION_PIPE_NOMINAL)},
};
QLL_GROUP(station_pipe, STATION_PIPE, "station_pipe", station_pipe_fields);

/* clang-format on */

const qll_field_group *const *qll_survey_groups(size_t *count)
{
    static const qll_field_group *const groups[] = {
        &qll_group_survey,       &qll_group_project,    &qll_group_site,     &qll_group_water,
        &qll_group_supply,       &qll_group_flow_test,  &qll_group_pipe,     &qll_group_meter,
        &qll_group_backflow,     &qll_group_strainer,   &qll_group_device,   &qll_group_loss,
        &qll_group_station_pipe, &qll_group_downstream, &qll_group_outlet,   &qll_group_path,
        &qll_group_heater,       &qll_group_tank,       &qll_group_scenario, &qll_group_fixture,
        &qll_group_continuous,   &qll_group_log,        &qll_group_breaks,   &qll_group_loading,
        &qll_group_graph_en,     &qll_group_graph_bs,   &qll_group_limits,   &qll_group_existing,
        &qll_group_stage,        &qll_group_branch,     &qll_group_costs,    &qll_group_size_cost,
    };
    *count = QLL_COUNT(groups);
    return groups;
}
