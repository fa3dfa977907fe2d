#include "documents/survey_fields.h"

#include "documents/read_costs.h"
#include "station/site.h"

/* What may stand before and behind the water: survey, supply, upstream. The downstream side,
 * scenarios, limits and the existing station are in survey_fields_use.c. */

#define QLL_COUNT(array) (sizeof(array) / sizeof(array)[0])

static const char *const unit_words[] = {"us", "si"};

/* clang-format 14 crashes on lists of structs that name unequal members. */
/* clang-format off */
static const qll_field survey_fields[] = {
    {.key = "survey",
     .value = QLL_VALUE_WHOLE,
     .obligatory = true,
     .form = "1",
     .means = QLL_TEXT_MEANS_VERSION},
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
     .means = QLL_TEXT_MEANS_SUPPLY},
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
     .means = QLL_TEXT_MEANS_SCENARIOS},
    {.key = "limits", .value = QLL_VALUE_OBJECT, .meaning = "how good is good enough"},
    {.key = "costs",
     .value = QLL_VALUE_OBJECT,
     .computed = "the catalogue's, else data/installed_costs.csv",
     .meaning = "what work and visits cost here, in the catalogue's money"},
    {.key = "existing",
     .value = QLL_VALUE_OBJECT,
     .meaning = "the station that is there, for `quell check`"},
};
const qll_field_group qll_group_survey = {QLL_TEXT_GROUP_SURVEY, "", survey_fields, QLL_COUNT(survey_fields)};

static const qll_field site_fields[] = {
    {.key = "elevation",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .form = "a length, \"52 ft\"",
     .least = "-1500 ft",
     .most = "16000 ft",
     .because = QLL_TEXT_BECAUSE_DEAD_SEA,
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
     .because = QLL_TEXT_BECAUSE_ATMOSPHERE,
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
const qll_field_group qll_group_site = {QLL_TEXT_GROUP_SITE, "site", site_fields, QLL_COUNT(site_fields)};

static const qll_field water_fields[] = {
    {.key = "temperature",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_TEMPERATURE,
     .least = "33 degF",
     .most = "200 degF",
     .because = QLL_TEXT_BECAUSE_LIQUID,
     .fallback = "60 degF",
     .why = {.id = QLL_TEXT_WHY_COLD_WATER},
     .meaning = "of the water in the station"},
};
const qll_field_group qll_group_water = {QLL_TEXT_GROUP_WATER, "water", water_fields, QLL_COUNT(water_fields)};

static const qll_field supply_fields[] = {
    {.key = "static_high",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE,
     .least = "0 psi",
     .most = "400 psi",
     .because = QLL_TEXT_BECAUSE_MAIN_RATED,
     .computed = "the pressure of the flow test at no flow",
     .meaning =
         "highest static pressure of the main, seen at night; this or a flow test is needed"},
    {.key = "static_low",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE,
     .least = "0 psi",
     .most = "400 psi",
     .because = QLL_TEXT_BECAUSE_MAIN_RATED,
     .computed = "the pressure of the flow test at no flow, else `static_high`",
     .meaning = "lowest static pressure that must be reckoned with"},
    {.key = "flow_test",
     .value = QLL_VALUE_LIST,
     .computed = "the main keeps its pressure at every flow, with a warning",
     .meaning = "pressure of the main at rising flows"},
};
const qll_field_group qll_group_supply = {QLL_TEXT_GROUP_SUPPLY, "supply", supply_fields, QLL_COUNT(supply_fields)};

static const qll_field flow_test_fields[] = {
    {.key = "flow",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_FLOW,
     .least = "0 gpm",
     .most = "20000 gpm",
     .because = QLL_TEXT_BECAUSE_MAIN_FLOW,
     .obligatory = true,
     .means = QLL_TEXT_MEANS_RISING_FLOW},
    {.key = "pressure",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE,
     .least = "0 psi",
     .most = "400 psi",
     .because = QLL_TEXT_BECAUSE_MAIN_RATED,
     .obligatory = true,
     .means = QLL_TEXT_MEANS_PRESSURE},
};
const qll_field_group qll_group_flow_test = {QLL_TEXT_GROUP_FLOW_TEST, "supply.flow_test[]",
                                             flow_test_fields, QLL_COUNT(flow_test_fields)};

/* A pipe before the station has no `carries`, one behind it no `rise`: the elevation of the outlet
 * counts there. Both groups are a part of this list. */
static const qll_field pipe_fields[] = {
    {.key = "carries",
     .value = QLL_VALUE_OWN,
     .kind = QLL_KIND_FLOW,
     .least = "0 gpm",
     .most = "20000 gpm",
     .because = QLL_TEXT_BECAUSE_MAIN_FLOW,
     .fallback = "peak",
     .why = {.id = QLL_TEXT_WHY_WHOLE_FLOW},
     .form = "\"peak\" or a flow",
     .meaning = "what runs in it when the station runs at its design peak"},
    {.key = "pipe",
     .value = QLL_VALUE_OWN,
     .obligatory = true,
     .form = "a pipe family",
     .means = QLL_TEXT_MEANS_PIPE},
    {.key = "nominal",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .least = "1/4 in",
     .most = "24 in",
     .because = QLL_TEXT_BECAUSE_PIPE_SIZES,
     .obligatory = true,
     .means = QLL_TEXT_MEANS_FAMILY_SIZE},
    {.key = "length",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .form = "a length, \"60 ft\"",
     .least = "0 ft",
     .most = "10000 ft",
     .because = QLL_TEXT_BECAUSE_ONE_BUILDING_LENGTH,
     .obligatory = true,
     .means = QLL_TEXT_MEANS_LENGTH},
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
     .because = QLL_TEXT_BECAUSE_LIFT_400,
     .fallback = "0 ft",
     .why = {.id = QLL_TEXT_WHY_NO_RISE},
     .meaning = "its outlet above its inlet; negative where it falls"},
};
const qll_field_group qll_group_pipe = {QLL_TEXT_GROUP_PIPE, "upstream[]", &pipe_fields[1],
                                        QLL_COUNT(pipe_fields) - 1};
const qll_field_group qll_group_path = {QLL_TEXT_GROUP_PATH, "downstream.outlets[].path[]",
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
     .means = QLL_TEXT_MEANS_METER},
    {.key = "nominal",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .form = "a length, \"1-1/2 in\"; \"5/8 x 3/4 in\" is a 5/8 in meter with 3/4 in ends",
     .least = "1/4 in",
     .most = "24 in",
     .because = QLL_TEXT_BECAUSE_PIPE_SIZES,
     .meaning = "its size; needed without `loss`"},
    {.key = "loss",
     .value = QLL_VALUE_LIST,
     .computed = "the displacement meter table of data/meter_loss.csv",
     .meaning = "the meter's own loss at rising flows"},
};
const qll_field_group qll_group_meter = {QLL_TEXT_GROUP_METER, "upstream[]", meter_fields,
                                         QLL_COUNT(meter_fields)};

/* In the order of qll_backflow_kind; what else the first is called comes after them. */
static const char *const backflow_words[] = {"reduced pressure", "double check", "RPZ", "RP"};

static const qll_field backflow_fields[] = {
    {.key = "backflow",
     .value = QLL_VALUE_WORD,
     .words = backflow_words,
     .word_count = QLL_COUNT(backflow_words),
     .obligatory = true,
     .means = QLL_TEXT_MEANS_BACKFLOW},
    {.key = "nominal",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .least = "1/4 in",
     .most = "24 in",
     .because = QLL_TEXT_BECAUSE_PIPE_SIZES,
     .meaning = "its size; needed without `loss`"},
    {.key = "loss",
     .value = QLL_VALUE_LIST,
     .computed = "the usual loss of its kind and size (docs/theory/fitting.md)",
     .meaning = "the assembly's own loss at rising flows"},
};
const qll_field_group qll_group_backflow = {QLL_TEXT_GROUP_BACKFLOW, "upstream[]", backflow_fields,
                                            QLL_COUNT(backflow_fields)};

static const qll_field strainer_fields[] = {
    {.key = "strainer",
     .value = QLL_VALUE_OWN,
     .obligatory = true,
     .form = "a mesh, \"40 mesh\" or 40",
     .means = QLL_TEXT_MEANS_STRAINER},
    {.key = "nominal",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .least = "1/4 in",
     .most = "24 in",
     .because = QLL_TEXT_BECAUSE_PIPE_SIZES,
     .obligatory = true,
     .means = QLL_TEXT_MEANS_CONNECTIONS},
    {.key = "area_ratio",
     .value = QLL_VALUE_QUANTITY,
     .least = "1",
     .most = "10",
     .because = QLL_TEXT_BECAUSE_SCREEN_ROOM,
     .fallback = "2",
     .why = {.id = QLL_TEXT_WHY_LOWER_END},
     .meaning = "area of the whole screen over that of the pipe"},
    {.key = "blocked",
     .value = QLL_VALUE_QUANTITY,
     .least = "0",
     .most = "0.95",
     .because = QLL_TEXT_BECAUSE_OPENINGS,
     .fallback = "0",
     .why = {.id = QLL_TEXT_WHY_CLEAN_SCREEN},
     .meaning = "share of its openings that dirt has closed"},
};
const qll_field_group qll_group_strainer = {QLL_TEXT_GROUP_STRAINER, "upstream[]", strainer_fields,
                                            QLL_COUNT(strainer_fields)};

static const qll_field device_fields[] = {
    {.key = "device",
     .value = QLL_VALUE_TEXT,
     .obligatory = true,
     .means = QLL_TEXT_MEANS_DEVICE},
    {.key = "loss",
     .value = QLL_VALUE_LIST,
     .obligatory = true,
     .means = QLL_TEXT_MEANS_LOSS},
};
const qll_field_group qll_group_device = {QLL_TEXT_GROUP_DEVICE, "upstream[]", device_fields,
                                          QLL_COUNT(device_fields)};

static const qll_field loss_fields[] = {
    {.key = "flow",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_FLOW,
     .least = "0 gpm",
     .most = "20000 gpm",
     .because = QLL_TEXT_BECAUSE_MAIN_FLOW,
     .obligatory = true,
     .means = QLL_TEXT_MEANS_RISING_FLOW},
    {.key = "pressure",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE_DIFFERENCE,
     .least = "0 psi",
     .most = "100 psi",
     .because = QLL_TEXT_BECAUSE_DEVICE_LOSS,
     .obligatory = true,
     .means = QLL_TEXT_MEANS_PRESSURE_LOST},
};
const qll_field_group qll_group_loss = {QLL_TEXT_GROUP_LOSS, "upstream[].loss[]", loss_fields,
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
     .because = QLL_TEXT_BECAUSE_PIPE_SIZES,
     .computed = "the service's size, else what the design peak needs",
     .meaning = "size of the pipe that the station is built in; no valve is larger"},
};
const qll_field_group qll_group_station_pipe = {QLL_TEXT_GROUP_STATION_PIPE, "station_pipe", station_pipe_fields,
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
