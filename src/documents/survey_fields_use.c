#include "documents/survey_fields.h"

/* What is wanted of the station: downstream, limits; and the one that is there. */

#define QLL_COUNT(array) (sizeof(array) / sizeof(array)[0])

static const char set_range[] =
    "valves are built for outlets from 10 psi to 200 psi (our assumption)";
static const char temperature_range[] = "water in a building is liquid and does not boil";
static const char velocity_range[] = "water in pipes of buildings runs no faster or slower "
                                     "(our assumption)";
static const char ratio_range[] = "a valve reduces, and above 20:1 none is made (our assumption)";

static const char *const station_words[] = {"where needed", "always"};

/* clang-format 14 crashes on lists of structs that name unequal members. */
/* clang-format off */
static const qll_field downstream_fields[] = {
    {.key = "set_pressure",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE,
     .least = "10 psi",
     .most = "200 psi",
     .because = set_range,
     .fallback = "60 psi",
     .why = {.id = QLL_TEXT_WHY_USUAL_SET},
     .meaning = "wanted at the station's outlet; below supply, and the lowest outlet below `static_max`"},
    {.key = "static_max",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE,
     .least = "10 psi",
     .most = "200 psi",
     .because = set_range,
     .fallback = "80 psi",
     .why = {.id = QLL_TEXT_WHY_STATIC_MAX},
     .meaning = "never to be exceeded at the lowest outlet"},
    {.key = "station",
     .value = QLL_VALUE_WORD,
     .words = station_words,
     .word_count = QLL_COUNT(station_words),
     .computed = "where needed",
     .meaning = "always: one is wanted even where the supply never exceeds what is permitted"},
    {.key = "outlets",
     .value = QLL_VALUE_LIST,
     .computed = "none: only the pressure at the station's outlet is judged",
     .meaning = "the outlets that are hardest to serve"},
    {.key = "heater", .value = QLL_VALUE_OBJECT, .meaning = "the water heater behind the station"},
    {.key = "expansion_tank",
     .value = QLL_VALUE_OBJECT,
     .computed = "none",
     .meaning = "the tank that takes up what the heater's water grows by"},
};
const qll_field_group qll_group_downstream = {"downstream", "downstream", downstream_fields,
                                              QLL_COUNT(downstream_fields)};

static const qll_field outlet_fields[] = {
    {.key = "name",
     .value = QLL_VALUE_TEXT,
     .obligatory = true,
     .meaning = "what it is called in answers"},
    {.key = "elevation",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_LENGTH,
     .form = "a length, \"52 ft\"",
     .least = "-500 ft",
     .most = "500 ft",
     .because = "200 psi lift water 460 ft, and one zone reaches no further down",
     .obligatory = true,
     .meaning = "above the station; negative below it"},
    {.key = "needs",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE,
     .least = "0 psi",
     .most = "150 psi",
     .because = "no fixture needs more (our assumption), and none works below the atmosphere",
     .obligatory = true,
     .meaning = "least pressure at the outlet while it runs"},
    {.key = "path",
     .value = QLL_VALUE_LIST,
     .computed = "no pipes: nothing is lost on the way",
     .meaning = "pipes from the station to the outlet, in order"},
};
const qll_field_group qll_group_outlet = {"an outlet", "downstream.outlets[]", outlet_fields,
                                          QLL_COUNT(outlet_fields)};

static const qll_field heater_fields[] = {
    {.key = "volume",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_VOLUME,
     .least = "0.1 gal",
     .most = "50000 gal",
     .because = "heaters of buildings are no smaller or larger (our assumption)",
     .obligatory = true,
     .meaning = "volume of heated water"},
    {.key = "cold",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_TEMPERATURE,
     .least = "33 degF",
     .most = "200 degF",
     .because = temperature_range,
     .fallback = "50 degF",
     .why = {.id = QLL_TEXT_WHY_WINTER},
     .meaning = "of the water that comes in"},
    {.key = "hot",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_TEMPERATURE,
     .least = "33 degF",
     .most = "200 degF",
     .because = temperature_range,
     .fallback = "140 degF",
     .why = {.id = QLL_TEXT_WHY_LEGIONELLA},
     .meaning = "of the water it holds"},
    {.key = "relief",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE,
     .least = "30 psi",
     .most = "160 psi",
     .because = "relief valves of water heaters open at 30 psi to 150 psi (from memory)",
     .fallback = "150 psi",
     .why = {.id = QLL_TEXT_WHY_USUAL_RELIEF},
     .meaning = "pressure at which its relief valve opens"},
};
const qll_field_group qll_group_heater = {"heater", "downstream.heater", heater_fields,
                                          QLL_COUNT(heater_fields)};

static const qll_field tank_fields[] = {
    {.key = "volume",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_VOLUME,
     .least = "0.1 gal",
     .most = "5000 gal",
     .because = "tanks of buildings are no smaller or larger (our assumption)",
     .obligatory = true,
     .meaning = "volume of the whole tank, air and water"},
    {.key = "precharge",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE,
     .least = "5 psi",
     .most = "150 psi",
     .because = "tanks are charged to a building's pressures (our assumption)",
     .computed = "the station's outlet at no flow and the middle supply",
     .meaning = "pressure of its air while no water is in it"},
};
const qll_field_group qll_group_tank = {"the expansion tank", "downstream.expansion_tank",
                                        tank_fields, QLL_COUNT(tank_fields)};

static const qll_field limits_fields[] = {
    {.key = "velocity_band",
     .value = QLL_VALUE_PAIR,
     .kind = QLL_KIND_VELOCITY,
     .least = "0.1 ft/s",
     .most = "30 ft/s",
     .because = velocity_range,
     .fallback = "3 ft/s to 6 ft/s",
     .why = {.id = QLL_TEXT_WHY_COMMON},
     .meaning = "where the velocity in a working valve's pipe should lie"},
    {.key = "velocity_max",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_VELOCITY,
     .least = "0.1 ft/s",
     .most = "30 ft/s",
     .because = velocity_range,
     .fallback = "8 ft/s",
     .why = {.id = QLL_TEXT_WHY_COPPER},
     .meaning = "never above"},
    {.key = "ratio_preferred",
     .value = QLL_VALUE_QUANTITY,
     .least = "1",
     .most = "20",
     .because = ratio_range,
     .fallback = "2",
     .why = {.id = QLL_TEXT_WHY_COMMON},
     .meaning = "inlet over outlet, gauge, that one stage should not exceed"},
    {.key = "ratio_max",
     .value = QLL_VALUE_QUANTITY,
     .least = "1",
     .most = "20",
     .because = ratio_range,
     .fallback = "3",
     .why = {.id = QLL_TEXT_WHY_COMMON},
     .meaning = "inlet over outlet, gauge, that one stage must not exceed"},
    {.key = "falloff",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE_DIFFERENCE,
     .least = "1 psi",
     .most = "100 psi",
     .because = "no valve holds closer than 1 psi, and the outlet keeps some pressure",
     .computed = "20 psi, at most 0.4 of `set_pressure`: direct-acting valves are rated at 10 psi to 15 psi (common practice, no source), and at the design peak some more is let pass",
     .meaning = "how far the outlet may fall below `set_pressure` at the design peak"},
};
const qll_field_group qll_group_limits = {"limits", "limits", limits_fields, QLL_COUNT(limits_fields)};

static const qll_field existing_fields[] = {
    {.key = "stages",
     .value = QLL_VALUE_LIST,
     .obligatory = true,
     .meaning = "1 to 3 stages in series, in the way of the water"},
};
const qll_field_group qll_group_existing = {"existing", "existing", existing_fields,
                                            QLL_COUNT(existing_fields)};

static const qll_field stage_fields[] = {
    {.key = "branches",
     .value = QLL_VALUE_LIST,
     .obligatory = true,
     .meaning = "1 to 6 valves in parallel"},
};
const qll_field_group qll_group_stage = {"a stage", "existing.stages[]", stage_fields,
                                         QLL_COUNT(stage_fields)};

static const qll_field branch_fields[] = {
    {.key = "valve",
     .value = QLL_VALUE_TEXT,
     .obligatory = true,
     .form = "text, \"3 in direct\"",
     .meaning = "the id of a valve of the catalogue, or size and kind: the catalogue's valve of these "
                "whose range holds `set_pressure`, of several the middle one by Kv"},
    {.key = "set_pressure",
     .value = QLL_VALUE_QUANTITY,
     .kind = QLL_KIND_PRESSURE,
     .least = "5 psi",
     .most = "350 psi",
     .because = "no valve is made for an outlet below or above (our assumption)",
     .obligatory = true,
     .meaning = "what it is set to, read at a trickle"},
};
const qll_field_group qll_group_branch = {"a branch", "existing.stages[].branches[]", branch_fields,
                                          QLL_COUNT(branch_fields)};
/* clang-format on */
