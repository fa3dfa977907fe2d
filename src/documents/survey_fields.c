#include "documents/survey_fields.h"

#include "documents/field_rows.h"
#include "documents/read_costs.h"
#include "station/site.h"

/* What may stand before and behind the water: survey, supply, upstream. The downstream side,
 * scenarios, limits and the existing station are in survey_fields_use.c. */

static const char *const unit_words[] = {"us", "si"};

/* Without it there is room for a pen. */
#define QLL_A_LINE .computed = "a line to write on"

/* A field is a row; see documents/field_rows.h. */
/* clang-format off */
static const qll_field survey_fields[] = {
    {"survey", QLL_VALUE_WHOLE, QLL_NEEDED(VERSION), .form = "1"},
    {"name", QLL_VALUE_TEXT, QLL_DEFAULT("survey", NO_NAME), .meaning = "what the building is called in answers"},
    {"units", QLL_VALUE_WORD, QLL_WORDS(unit_words), QLL_DEFAULT("us", NO_UNITS),
        .meaning = "units of what people read; the survey itself may mix units freely"},
    {"project", QLL_VALUE_OBJECT, .meaning = "what the title block of the report says"},
    {"site", QLL_VALUE_OBJECT, .meaning = "where it is"},
    {"water", QLL_VALUE_OBJECT, .meaning = "the water"},
    {"supply", QLL_VALUE_OBJECT, QLL_NEEDED(SUPPLY)},
    {"upstream", QLL_VALUE_LIST, .computed = "nothing is upstream of the station",
        .meaning = "what the water passes before the station, in order"},
    {"station_pipe", QLL_VALUE_OBJECT, .meaning = "the pipe that the station is built in"},
    {"downstream", QLL_VALUE_OBJECT, .meaning = "what is wanted downstream of it"},
    {"scenarios", QLL_VALUE_LIST, QLL_NEEDED(SCENARIOS)},
    {"limits", QLL_VALUE_OBJECT, .meaning = "how good is good enough"},
    {"costs", QLL_VALUE_OBJECT, .computed = "the catalog's, else data/installed_costs.csv",
        .meaning = "what work and callbacks cost here, in the catalog's currency"},
    {"existing", QLL_VALUE_OBJECT, .meaning = "the station that is there, for `quell check`"},
};
QLL_GROUP(survey, SURVEY, "", survey_fields);

static const qll_field project_fields[] = {
    {"name", QLL_VALUE_TEXT, QLL_A_LINE, .meaning = "the job"},
    {"customer", QLL_VALUE_TEXT, QLL_A_LINE, .meaning = "whom the sheets are for"},
    {"address", QLL_VALUE_TEXT, QLL_A_LINE, .meaning = "where the building is"},
    {"prepared_by", QLL_VALUE_TEXT, QLL_A_LINE, .meaning = "who answers for the sheets"},
    {"license", QLL_VALUE_TEXT, QLL_A_LINE, .meaning = "number of that person's license"},
    {"revision", QLL_VALUE_TEXT, QLL_A_LINE, .meaning = "of the sheets, \"A\" or \"2\""},
};
QLL_GROUP(project, PROJECT, "project", project_fields);

static const qll_field site_fields[] = {
    {"elevation", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "-1500 ft", "16000 ft", DEAD_SEA), .fallback = "0 ft",
        .why = {QLL_TEXT_WHY_SEA_LEVEL,
                {{QLL_ARGUMENT_WRITTEN, QLL_KIND_LENGTH, .text = {"1000 ft", 7}},
                 {QLL_ARGUMENT_WRITTEN, QLL_KIND_PRESSURE_DIFFERENCE, .text = {"0.52 psi", 8}}}},
        .form = "a length, \"52 ft\"", .meaning = "height above sea level; gives the atmospheric pressure"},
    {"barometric", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "7 psia", "16 psia", ATMOSPHERE),
        .computed = "from `elevation`", .form = "an absolute pressure, \"14.7 psia\"",
        .meaning = "atmospheric pressure at the site, not reduced to sea level; instead of elevation"},
    {"people", QLL_VALUE_WORD, .words = qll_people_words, .word_count = QLL_PEOPLE_COUNT,
        QLL_DEFAULT("next room", NOISE_FOLLOWS),
        .meaning = "where people are, as seen from the station; decides what is heard"},
};
QLL_GROUP(site, SITE, "site", site_fields);

static const qll_field water_fields[] = {
    {"temperature", QLL_VALUE_QUANTITY, QLL_WITHIN(TEMPERATURE, "33 degF", "200 degF", LIQUID),
        QLL_DEFAULT("60 degF", COLD_WATER), .meaning = "of the water in the station"},
};
QLL_GROUP(water, WATER, "water", water_fields);

static const qll_field supply_fields[] = {
    {"static_high", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "0 psi", "400 psi", MAIN_RATED),
        .computed = "the pressure of the flow test at no flow",
        .meaning = "highest static pressure of the main, seen at night; this or a flow test is needed"},
    {"static_low", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "0 psi", "400 psi", MAIN_RATED),
        .computed = "the pressure of the flow test at no flow, else `static_high`",
        .meaning = "lowest static pressure to expect"},
    {"flow_test", QLL_VALUE_LIST, .computed = "the main keeps its pressure at every flow, with a warning",
        .meaning = "pressure of the main at rising flows"},
};
QLL_GROUP(supply, SUPPLY, "supply", supply_fields);

static const qll_field flow_test_fields[] = {
    {"flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "20000 gpm", MAIN_FLOW), QLL_NEEDED(RISING_FLOW)},
    {"pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "0 psi", "400 psi", MAIN_RATED), QLL_NEEDED(PRESSURE)},
};
QLL_GROUP(flow_test, FLOW_TEST, "supply.flow_test[]", flow_test_fields);

/* A pipe before the station has no `carries`, one behind it no `rise`: the elevation of the outlet
 * counts there. Both groups are a part of this list. */
static const qll_field pipe_fields[] = {
    {"carries", QLL_VALUE_OWN, QLL_WITHIN(FLOW, "0 gpm", "20000 gpm", MAIN_FLOW), QLL_DEFAULT("peak", WHOLE_FLOW),
        .form = "\"peak\" or a flow", .meaning = "what runs in it when the station runs at its design peak"},
    {"pipe", QLL_VALUE_OWN, QLL_NEEDED(PIPE), .form = "a pipe family"},
    {"nominal", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "1/4 in", "24 in", PIPE_SIZES), QLL_NEEDED(FAMILY_SIZE)},
    {"length", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "0 ft", "10000 ft", ONE_BUILDING_LENGTH), QLL_NEEDED(LENGTH),
        .form = "a length, \"60 ft\""},
    {"fittings", QLL_VALUE_OWN, QLL_DEFAULT("none", NO_FITTINGS),
        .form = "an object, fitting to count: {\"elbow 90\": 4}", .meaning = "fittings in it"},
    {"rise", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "-1000 ft", "1000 ft", LIFT_400), QLL_DEFAULT("0 ft", NO_RISE),
        .form = "a length, \"12 ft\"", .meaning = "its outlet above its inlet; negative where it falls"},
};
const qll_field_group qll_group_pipe = {QLL_TEXT_GROUP_PIPE, "upstream[]", &pipe_fields[1],
                                        QLL_COUNT(pipe_fields) - 1};
const qll_field_group qll_group_path = {QLL_TEXT_GROUP_PATH, "downstream.outlets[].path[]",
                                        pipe_fields, QLL_COUNT(pipe_fields) - 1};

/* Kinds of meters. Only for displacement meters is there a table; others bring their own loss. */
static const char *const meter_words[] = {"displacement", "turbine",    "compound",
                                          "multi-jet",    "ultrasonic", "electromagnetic"};

static const qll_field meter_fields[] = {
    {"meter", QLL_VALUE_WORD, QLL_WORDS(meter_words), QLL_NEEDED(METER)},
    {"nominal", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "1/4 in", "24 in", PIPE_SIZES),
        .form = "a length, \"1-1/2 in\"; \"5/8 x 3/4 in\" is a 5/8 in meter with 3/4 in ends",
        .meaning = "its size; needed without `loss`"},
    {"loss", QLL_VALUE_LIST, .computed = "the displacement meter table of data/meter_loss.csv",
        .meaning = "the meter's own loss at rising flows"},
};
QLL_GROUP(meter, METER, "upstream[]", meter_fields);

/* In the order of qll_backflow_kind; what else the first is called comes after them. */
static const char *const backflow_words[] = {"reduced pressure", "double check", "RPZ", "RP"};

static const qll_field backflow_fields[] = {
    {"backflow", QLL_VALUE_WORD, QLL_WORDS(backflow_words), QLL_NEEDED(BACKFLOW)},
    {"nominal", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "1/4 in", "24 in", PIPE_SIZES),
        .meaning = "its size; needed without `loss`"},
    {"loss", QLL_VALUE_LIST, .computed = "the usual loss of its kind and size (docs/theory/fitting.md)",
        .meaning = "the assembly's own loss at rising flows"},
};
QLL_GROUP(backflow, BACKFLOW, "upstream[]", backflow_fields);

static const qll_field strainer_fields[] = {
    {"strainer", QLL_VALUE_OWN, QLL_NEEDED(STRAINER), .form = "a mesh, \"40 mesh\" or 40"},
    {"nominal", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "1/4 in", "24 in", PIPE_SIZES), QLL_NEEDED(CONNECTIONS)},
    {"area_ratio", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "1", "10", SCREEN_ROOM), QLL_DEFAULT("2", LOWER_END),
        .meaning = "area of the whole screen over that of the pipe"},
    {"blocked", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "0.95", OPENINGS), QLL_DEFAULT("0", CLEAN_SCREEN),
        .meaning = "share of its openings that dirt has closed"},
};
QLL_GROUP(strainer, STRAINER, "upstream[]", strainer_fields);

static const qll_field device_fields[] = {
    {"device", QLL_VALUE_TEXT, QLL_NEEDED(DEVICE)},
    {"loss", QLL_VALUE_LIST, QLL_NEEDED(LOSS)},
};
QLL_GROUP(device, DEVICE, "upstream[]", device_fields);

static const qll_field loss_fields[] = {
    {"flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "20000 gpm", MAIN_FLOW), QLL_NEEDED(RISING_FLOW)},
    {"pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE_DIFFERENCE, "0 psi", "100 psi", DEVICE_LOSS),
        QLL_NEEDED(PRESSURE_LOST)},
};
QLL_GROUP(loss, LOSS, "upstream[].loss[]", loss_fields);

static const qll_field station_pipe_fields[] = {
    {"pipe", QLL_VALUE_OWN, QLL_DEFAULT("copper L", USUAL_PIPE), .form = "a pipe family",
        .meaning = "gives the bores of the valves' connecting pipes"},
    {"nominal", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "1/4 in", "24 in", PIPE_SIZES),
        .computed = "the service's size, else what the design peak needs",
        .meaning = "size of the pipe that the station is built in; no valve is larger"},
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
