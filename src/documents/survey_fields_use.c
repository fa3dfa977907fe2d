#include "documents/field_rows.h"
#include "documents/survey_fields.h"

/* What is wanted of the station: downstream, limits; and the one that is there. */

static const char *const station_words[] = {"where needed", "always"};

/* A field is a row; see documents/field_rows.h. */
/* clang-format off */
static const qll_field downstream_fields[] = {
    {"set_pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "10 psi", "200 psi", SET_RANGE),
        QLL_DEFAULT("60 psi", USUAL_SET),
        .meaning = "wanted at the station's outlet; below supply, and the lowest outlet below `static_max`"},
    {"static_max", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "10 psi", "200 psi", SET_RANGE),
        QLL_DEFAULT("80 psi", STATIC_MAX), .meaning = "never to be exceeded at the lowest outlet"},
    {"station", QLL_VALUE_WORD, QLL_WORDS(station_words), .computed = "where needed",
        .meaning = "always: one is wanted even where the supply never exceeds what is allowed"},
    {"outlets", QLL_VALUE_LIST, .computed = "none: only the pressure at the station's outlet is judged",
        .meaning = "the outlets that are hardest to serve"},
    {"heater", QLL_VALUE_OBJECT, .meaning = "the water heater downstream of the station"},
    {"expansion_tank", QLL_VALUE_OBJECT, .computed = "none",
        .meaning = "the tank that takes up what the heater's water grows by"},
};
QLL_GROUP(downstream, DOWNSTREAM, "downstream", downstream_fields);

static const qll_field outlet_fields[] = {
    {"name", QLL_VALUE_TEXT, QLL_NEEDED(NAME)},
    {"elevation", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "-500 ft", "500 ft", LIFT_200), QLL_NEEDED(ELEVATION),
        .form = "a length, \"52 ft\""},
    {"needs", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "0 psi", "150 psi", FIXTURE_NEEDS), QLL_NEEDED(NEEDS)},
    {"path", QLL_VALUE_LIST, .computed = "no pipes: nothing is lost on the way",
        .meaning = "pipes from the station to the outlet, in order"},
};
QLL_GROUP(outlet, OUTLET, "downstream.outlets[]", outlet_fields);

static const qll_field heater_fields[] = {
    {"volume", QLL_VALUE_QUANTITY, QLL_WITHIN(VOLUME, "0.1 gal", "50000 gal", HEATERS), QLL_NEEDED(HEATED)},
    {"cold", QLL_VALUE_QUANTITY, QLL_WITHIN(TEMPERATURE, "33 degF", "200 degF", LIQUID),
        QLL_DEFAULT("50 degF", WINTER), .meaning = "of the water that comes in"},
    {"hot", QLL_VALUE_QUANTITY, QLL_WITHIN(TEMPERATURE, "33 degF", "200 degF", LIQUID),
        QLL_DEFAULT("140 degF", LEGIONELLA), .meaning = "of the water it holds"},
    {"relief", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "30 psi", "160 psi", RELIEF),
        QLL_DEFAULT("150 psi", USUAL_RELIEF), .meaning = "pressure at which its relief valve opens"},
};
QLL_GROUP(heater, HEATER, "downstream.heater", heater_fields);

static const qll_field tank_fields[] = {
    {"volume", QLL_VALUE_QUANTITY, QLL_WITHIN(VOLUME, "0.1 gal", "5000 gal", TANKS), QLL_NEEDED(TANK)},
    {"precharge", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "5 psi", "150 psi", TANKS_CHARGED),
        .computed = "the station's outlet at no flow and the middle supply",
        .meaning = "pressure of its air while no water is in it"},
};
QLL_GROUP(tank, TANK, "downstream.expansion_tank", tank_fields);

static const qll_field limits_fields[] = {
    {"velocity_band", QLL_VALUE_PAIR, QLL_WITHIN(VELOCITY, "0.1 ft/s", "30 ft/s", VELOCITY),
        QLL_DEFAULT("3 ft/s to 6 ft/s", COMMON),
        .meaning = "where the velocity in a working valve's pipe should lie"},
    {"velocity_max", QLL_VALUE_QUANTITY, QLL_WITHIN(VELOCITY, "0.1 ft/s", "30 ft/s", VELOCITY),
        .fallback = "8 ft/s",
        .why = {QLL_TEXT_WHY_COPPER, {{QLL_ARGUMENT_WRITTEN, QLL_KIND_VELOCITY, .text = {"5 ft/s", 6}}}},
        .meaning = "never above"},
    {"ratio_preferred", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "1", "20", RATIO), QLL_DEFAULT("2", COMMON),
        .meaning = "inlet over outlet, gauge, that one stage should not exceed"},
    {"ratio_max", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "1", "20", RATIO), QLL_DEFAULT("3", COMMON),
        .meaning = "inlet over outlet, gauge, that one stage must not exceed"},
    {"falloff", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE_DIFFERENCE, "1 psi", "100 psi", HOLDS_CLOSER),
        .computed = "20 psi, at most 0.4 of `set_pressure`: direct-acting valves are rated at 10 psi to 15 psi (common practice, no source), and at the design peak a little more is allowed (our assumption)",
        .meaning = "how far the outlet may fall below `set_pressure` at the design peak"},
};
QLL_GROUP(limits, LIMITS, "limits", limits_fields);

static const qll_field existing_fields[] = {
    {"stages", QLL_VALUE_LIST, QLL_NEEDED(STAGES)},
};
QLL_GROUP(existing, EXISTING, "existing", existing_fields);

static const qll_field stage_fields[] = {
    {"branches", QLL_VALUE_LIST, QLL_NEEDED(BRANCHES)},
};
QLL_GROUP(stage, STAGE, "existing.stages[]", stage_fields);

static const qll_field branch_fields[] = {
    {"valve", QLL_VALUE_TEXT, QLL_NEEDED(VALVE), .form = "text, \"3 in direct\""},
    {"set_pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "5 psi", "350 psi", VALVE_OUTLET),
        QLL_NEEDED(SET_PRESSURE)},
};
QLL_GROUP(branch, BRANCH, "existing.stages[].branches[]", branch_fields);
/* clang-format on */
