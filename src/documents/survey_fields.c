#include "documents/survey_fields.h"

#include "documents/read_costs.h"
#include "station/site.h"

/* What may stand before and behind the water: survey, supply, upstream. The downstream side,
 * scenarios, limits and the existing station are in survey_fields_use.c. */

#define QLL_COUNT(array) (sizeof(array) / sizeof(array)[0])

static const char supply_range[] =
    "mains are rated to 350 psi at most (ductile iron, AWWA C151, from memory), and a main that "
    "gives water stands above the atmosphere";
static const char flow_range[] =
    "water does not run backwards, and no building main carries more (our assumption)";
static const char size_range[] = "pipes in buildings run from 1/4 in to 24 in (our assumption)";
static const char length_range[] =
    "a length is not negative, and this is one building (our assumption)";
static const char loss_range[] =
    "a device takes pressure and adds none, and none is built to take more (our assumption)";

static const char *const unit_words[] = {"us", "si"};

/* clang-format 14 crashes on lists of structs that name unequal members. */
/* clang-format off */
static const qll_field survey_fields[] = {
    {.key = "survey",
     .value = QLL_VALUE_WHOLE,
     .obligatory = true,
     .form = "1",
     .meaning = "1, the version of this format"},
    {.key = "name",
     .value = QLL_VALUE_TEXT,
     .fallback = "survey",
     .why = {.id = QLL_TEXT_WHY_NO_NAME},
     .meaning = "what the building is called in answers"},
    {.key = "units",
     .value = QLL_VALUE_WORD,
     .words = unit_words,
     .word_count = QLL_COUNT(unit_words),
     .fallback = "us",
     .why = {.id = QLL_TEXT_WHY_NO_UNITS},
     .meaning = "units of what people read; the survey itself may mix units freely"},
    {.key = "site", .value = QLL_VALUE_OBJECT, .meaning = "where it stands"},
    {.key = "water", .value = QLL_VALUE_OBJECT, .meaning = "the water"},
    {.key = "supply",
     .value = QLL_VALUE_OBJECT,
     .obligatory = true,
     .meaning = "what the main gives"},
    {.key = "upstream",
     .value = QLL_VALUE_LIST,
     .computed = "nothing stands before the station",
     .meaning = "what the water passes before the station, in order"},
    {.key = "station_pipe",
     .value = QLL_VALUE_OBJECT,
     .meaning = "the pipe that the station is built in"},
    {.key = "downstream", .value = QLL_VALUE_OBJECT, .meaning = "what is wanted behind it"},
    {.key = "scenarios",
     .value = QLL_VALUE_LIST,
     .obligatory = true,
     .meaning = "the ways the building is used, at least one"},
    {.key = "limits", .value = QLL_VALUE_OBJECT, .meaning = "how good is good enough"},
    {.key = "costs",
     .value = QLL_VALUE_OBJECT,
     .computed = "the catalogue's, else data/installed_costs.csv",
     .meaning = "what work and visits cost here, in the catalogue's money"},
    {.key = "existing",
     .value = QLL_VALUE_OBJECT,
     .meaning = "the station that is there, for `quell check`"},
};
const qll_field_group qll_group_survey = {"the survey", "", survey_fields, QLL_COUNT(survey_fields)};

static const qll_field site_fields[] = {
    {.key = "elevation",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .form = "a length, \"52 ft\"",
     .least = "-1500 ft",
     .most = "16000 ft",
     .because = "people live from the Dead Sea to the high Andes",
     .fallback = "0 ft",
     .why = {QLL_TEXT_WHY_SEA_LEVEL,
             {{.form = QLL_ARGUMENT_WRITTEN, .kind = QLL_KIND_LENGTH, .text = {"1000 ft", 7}},
              {.form = QLL_ARGUMENT_WRITTEN,
               .kind = QLL_KIND_PRESSURE_DIFFERENCE,
               .text = {"0.5 psi", 7}}}},
     .meaning = "height above sea level; gives the atmospheric pressure"},
    {.key = "barometric",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE,
     .least = "7 psia",
     .most = "16 psia",
     .because = "the atmosphere lies between these wherever people live (ISO 2533)",
     .computed = "from `elevation`",
     .form = "an absolute pressure, \"14.7 psia\"",
     .meaning = "atmospheric pressure at the site, not reduced to sea level; instead of elevation"},
    {.key = "people",
     .value = QLL_VALUE_WORD,
     .words = qll_people_words,
     .word_count = QLL_PEOPLE_COUNT,
     .fallback = "next room",
     .why = {.id = QLL_TEXT_WHY_NOISE_FOLLOWS},
     .meaning = "where people are, as seen from the station; decides what is heard"},
};
const qll_field_group qll_group_site = {"site", "site", site_fields, QLL_COUNT(site_fields)};

static const qll_field water_fields[] = {
    {.key = "temperature",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_TEMPERATURE,
     .least = "33 degF",
     .most = "200 degF",
     .because = "water in a building is liquid and does not boil",
     .fallback = "60 degF",
     .why = {.id = QLL_TEXT_WHY_COLD_WATER},
     .meaning = "of the water in the station"},
};
const qll_field_group qll_group_water = {"water", "water", water_fields, QLL_COUNT(water_fields)};

static const qll_field supply_fields[] = {
    {.key = "static_high",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE,
     .least = "0 psi",
     .most = "400 psi",
     .because = supply_range,
     .computed = "the pressure of the flow test at no flow",
     .meaning =
         "highest static pressure of the main, seen at night; this or a flow test is needed"},
    {.key = "static_low",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE,
     .least = "0 psi",
     .most = "400 psi",
     .because = supply_range,
     .computed = "the pressure of the flow test at no flow, else `static_high`",
     .meaning = "lowest static pressure that must be reckoned with"},
    {.key = "flow_test",
     .value = QLL_VALUE_LIST,
     .computed = "the main keeps its pressure at every flow, with a warning",
     .meaning = "pressure of the main at rising flows"},
};
const qll_field_group qll_group_supply = {"supply", "supply", supply_fields, QLL_COUNT(supply_fields)};

static const qll_field flow_test_fields[] = {
    {.key = "flow",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_FLOW,
     .least = "0 gpm",
     .most = "20000 gpm",
     .because = flow_range,
     .obligatory = true,
     .meaning = "the flow, rising from point to point"},
    {.key = "pressure",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE,
     .least = "0 psi",
     .most = "400 psi",
     .because = supply_range,
     .obligatory = true,
     .meaning = "the pressure at that flow, not rising"},
};
const qll_field_group qll_group_flow_test = {"a point of the flow test", "supply.flow_test[]",
                                             flow_test_fields, QLL_COUNT(flow_test_fields)};

/* A pipe before the station has no `carries`, one behind it no `rise`: the elevation of the outlet
 * counts there. Both groups are a part of this list. */
static const qll_field pipe_fields[] = {
    {.key = "carries",
     .value = QLL_VALUE_OWN,
     .kind = QLL_KIND_FLOW,
     .least = "0 gpm",
     .most = "20000 gpm",
     .because = flow_range,
     .fallback = "peak",
     .why = {.id = QLL_TEXT_WHY_WHOLE_FLOW},
     .form = "\"peak\" or a flow",
     .meaning = "what runs in it when the station runs at its design peak"},
    {.key = "pipe",
     .value = QLL_VALUE_OWN,
     .obligatory = true,
     .form = "a pipe family",
     .meaning = "what the pipe is"},
    {.key = "nominal",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .least = "1/4 in",
     .most = "24 in",
     .because = size_range,
     .obligatory = true,
     .meaning = "a size of that family"},
    {.key = "length",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .form = "a length, \"60 ft\"",
     .least = "0 ft",
     .most = "10000 ft",
     .because = length_range,
     .obligatory = true,
     .meaning = "length along the pipe"},
    {.key = "fittings",
     .value = QLL_VALUE_OWN,
     .fallback = "none",
     .why = {.id = QLL_TEXT_WHY_NO_FITTINGS},
     .form = "an object, fitting to count: {\"elbow 90\": 4}",
     .meaning = "fittings in it"},
    {.key = "rise",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .form = "a length, \"12 ft\"",
     .least = "-1000 ft",
     .most = "1000 ft",
     .because = "400 psi lift water 920 ft; a pipe of one building rises or falls no further",
     .fallback = "0 ft",
     .why = {.id = QLL_TEXT_WHY_NO_RISE},
     .meaning = "its outlet above its inlet; negative where it falls"},
};
const qll_field_group qll_group_pipe = {"a pipe", "upstream[]", &pipe_fields[1],
                                        QLL_COUNT(pipe_fields) - 1};
const qll_field_group qll_group_path = {"a pipe to the outlet", "downstream.outlets[].path[]",
                                        pipe_fields, QLL_COUNT(pipe_fields) - 1};

/* Kinds of meters. Only for displacement meters is there a table; others bring their own loss. */
static const char *const meter_words[] = {"displacement", "turbine",    "compound",
                                          "multi-jet",    "ultrasonic", "electromagnetic"};

static const qll_field meter_fields[] = {
    {.key = "meter",
     .value = QLL_VALUE_WORD,
     .words = meter_words,
     .word_count = QLL_COUNT(meter_words),
     .obligatory = true,
     .meaning = "the kind; all but displacement need `loss`"},
    {.key = "nominal",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .form = "a length, \"1-1/2 in\"; \"5/8 x 3/4 in\" is a 5/8 in meter with 3/4 in ends",
     .least = "1/4 in",
     .most = "24 in",
     .because = size_range,
     .meaning = "its size; needed without `loss`"},
    {.key = "loss",
     .value = QLL_VALUE_LIST,
     .computed = "the displacement meter table of data/meter_loss.csv",
     .meaning = "the meter's own loss at rising flows"},
};
const qll_field_group qll_group_meter = {"a meter", "upstream[]", meter_fields,
                                         QLL_COUNT(meter_fields)};

/* In the order of qll_backflow_kind; what else the first is called comes after them. */
static const char *const backflow_words[] = {"reduced pressure", "double check", "RPZ", "RP"};

static const qll_field backflow_fields[] = {
    {.key = "backflow",
     .value = QLL_VALUE_WORD,
     .words = backflow_words,
     .word_count = QLL_COUNT(backflow_words),
     .obligatory = true,
     .meaning = "the kind of assembly"},
    {.key = "nominal",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .least = "1/4 in",
     .most = "24 in",
     .because = size_range,
     .meaning = "its size; needed without `loss`"},
    {.key = "loss",
     .value = QLL_VALUE_LIST,
     .computed = "the usual loss of its kind and size (docs/theory/fitting.md)",
     .meaning = "the assembly's own loss at rising flows"},
};
const qll_field_group qll_group_backflow = {"a backflow preventer", "upstream[]", backflow_fields,
                                            QLL_COUNT(backflow_fields)};

static const qll_field strainer_fields[] = {
    {.key = "strainer",
     .value = QLL_VALUE_OWN,
     .obligatory = true,
     .form = "a mesh, \"40 mesh\" or 40",
     .meaning = "the screen's openings per inch"},
    {.key = "nominal",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .least = "1/4 in",
     .most = "24 in",
     .because = size_range,
     .obligatory = true,
     .meaning = "size of its connections"},
    {.key = "area_ratio",
     .value = QLL_VALUE_QUANTITY,
     .least = "1",
     .most = "10",
     .because = "bodies give room for screens of 1 to 10 times the pipe (our assumption)",
     .fallback = "2",
     .why = {.id = QLL_TEXT_WHY_LOWER_END},
     .meaning = "area of the whole screen over that of the pipe"},
    {.key = "blocked",
     .value = QLL_VALUE_QUANTITY,
     .least = "0",
     .most = "0.95",
     .because = "a share of the openings, and with none left no water runs",
     .fallback = "0",
     .why = {.id = QLL_TEXT_WHY_CLEAN_SCREEN},
     .meaning = "share of its openings that dirt has closed"},
};
const qll_field_group qll_group_strainer = {"a strainer", "upstream[]", strainer_fields,
                                            QLL_COUNT(strainer_fields)};

static const qll_field device_fields[] = {
    {.key = "device",
     .value = QLL_VALUE_TEXT,
     .obligatory = true,
     .meaning = "what it is: a softener, a filter"},
    {.key = "loss",
     .value = QLL_VALUE_LIST,
     .obligatory = true,
     .meaning = "its loss at rising flows"},
};
const qll_field_group qll_group_device = {"a device", "upstream[]", device_fields,
                                          QLL_COUNT(device_fields)};

static const qll_field loss_fields[] = {
    {.key = "flow",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_FLOW,
     .least = "0 gpm",
     .most = "20000 gpm",
     .because = flow_range,
     .obligatory = true,
     .meaning = "the flow, rising from point to point"},
    {.key = "pressure",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE_DIFFERENCE,
     .least = "0 psi",
     .most = "100 psi",
     .because = loss_range,
     .obligatory = true,
     .meaning = "the pressure lost at that flow"},
};
const qll_field_group qll_group_loss = {"a point of the loss", "upstream[].loss[]", loss_fields,
                                        QLL_COUNT(loss_fields)};

static const qll_field station_pipe_fields[] = {
    {.key = "pipe",
     .value = QLL_VALUE_OWN,
     .fallback = "copper L",
     .why = {.id = QLL_TEXT_WHY_USUAL_PIPE},
     .form = "a pipe family",
     .meaning = "gives the bores of the valves' connecting pipes"},
    {.key = "nominal",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .least = "1/4 in",
     .most = "24 in",
     .because = size_range,
     .computed = "the service's size, else what the design peak needs",
     .meaning = "size of the pipe that the station is built in; no valve is larger"},
};
const qll_field_group qll_group_station_pipe = {"station_pipe", "station_pipe", station_pipe_fields,
                                                QLL_COUNT(station_pipe_fields)};

/* clang-format on */

const qll_field_group *const *qll_survey_groups(size_t *count)
{
    static const qll_field_group *const groups[] = {
        &qll_group_survey,     &qll_group_site,     &qll_group_water,     &qll_group_supply,
        &qll_group_flow_test,  &qll_group_pipe,     &qll_group_meter,     &qll_group_backflow,
        &qll_group_strainer,   &qll_group_device,   &qll_group_loss,      &qll_group_station_pipe,
        &qll_group_downstream, &qll_group_outlet,   &qll_group_path,      &qll_group_heater,
        &qll_group_tank,       &qll_group_scenario, &qll_group_fixture,   &qll_group_continuous,
        &qll_group_log,        &qll_group_breaks,   &qll_group_loading,   &qll_group_graph_en,
        &qll_group_graph_bs,   &qll_group_limits,   &qll_group_existing,  &qll_group_stage,
        &qll_group_branch,     &qll_group_costs,    &qll_group_size_cost,
    };
    *count = QLL_COUNT(groups);
    return groups;
}
