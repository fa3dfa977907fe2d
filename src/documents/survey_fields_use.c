#include "documents/field_rows.h"
#include "documents/survey_fields.h"

/* What is wanted of the station: downstream, limits; and the one that is there. */

static const char *const station_words[] = {"where needed", "always"};

/* A field is a row; see documents/field_rows.h. */
/* clang-format off */
static const qll_field downstream_fields[] = {
    {"set_pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "10 psi", "200 psi", SET_RANGE),
        QLL_DEFAULT("60 psi", USUAL_SET),
        QLL_MEANS(DOWNSTREAM_SET_PRESSURE)},
    {"static_max", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "10 psi", "200 psi", SET_RANGE),
        QLL_DEFAULT("80 psi", STATIC_MAX), QLL_MEANS(DOWNSTREAM_STATIC_MAX)},
    {"station", QLL_VALUE_WORD, QLL_WORDS(station_words), QLL_ELSE(DOWNSTREAM_STATION),
        QLL_MEANS(DOWNSTREAM_STATION)},
    {"outlets", QLL_VALUE_LIST, QLL_ENTRIES(100), QLL_ELSE(DOWNSTREAM_OUTLETS),
        QLL_MEANS(DOWNSTREAM_OUTLETS)},
    {"heater", QLL_VALUE_OBJECT, QLL_MEANS(DOWNSTREAM_HEATER)},
    {"expansion_tank", QLL_VALUE_OBJECT, QLL_ELSE(LOG_DEAD_BAND),
        QLL_MEANS(DOWNSTREAM_EXPANSION_TANK)},
};
QLL_GROUP(downstream, DOWNSTREAM, "downstream", downstream_fields);

static const qll_field outlet_fields[] = {
    {"name", QLL_VALUE_TEXT, QLL_NEEDED(NAME)},
    {"elevation", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "-500 ft", "500 ft", LIFT_200), QLL_NEEDED(ELEVATION),
        .example = "52 ft"},
    {"needs", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "0 psi", "150 psi", FIXTURE_NEEDS), QLL_NEEDED(NEEDS)},
    {"path", QLL_VALUE_LIST, QLL_ENTRIES(50), QLL_ELSE(OUTLET_PATH),
        QLL_MEANS(OUTLET_PATH)},
};
QLL_GROUP(outlet, OUTLET, "downstream.outlets[]", outlet_fields);

static const qll_field heater_fields[] = {
    {"volume", QLL_VALUE_QUANTITY, QLL_WITHIN(VOLUME, "0.1 gal", "50000 gal", HEATERS), QLL_NEEDED(HEATED)},
    {"cold", QLL_VALUE_QUANTITY, QLL_WITHIN(TEMPERATURE, "33 degF", "200 degF", LIQUID),
        QLL_DEFAULT("50 degF", WINTER), QLL_MEANS(HEATER_COLD)},
    {"hot", QLL_VALUE_QUANTITY, QLL_WITHIN(TEMPERATURE, "33 degF", "200 degF", LIQUID),
        QLL_DEFAULT("140 degF", LEGIONELLA), QLL_MEANS(HEATER_HOT)},
    {"relief", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "30 psi", "160 psi", RELIEF),
        QLL_DEFAULT("150 psi", USUAL_RELIEF), QLL_MEANS(HEATER_RELIEF)},
};
QLL_GROUP(heater, HEATER, "downstream.heater", heater_fields);

static const qll_field tank_fields[] = {
    {"volume", QLL_VALUE_QUANTITY, QLL_WITHIN(VOLUME, "0.1 gal", "5000 gal", TANKS), QLL_NEEDED(TANK)},
    {"precharge", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "5 psi", "150 psi", TANKS_CHARGED),
        QLL_ELSE(TANK_PRECHARGE),
        QLL_MEANS(TANK_PRECHARGE)},
};
QLL_GROUP(tank, TANK, "downstream.expansion_tank", tank_fields);

static const qll_field limits_fields[] = {
    {"velocity_band", QLL_VALUE_PAIR, QLL_WITHIN(VELOCITY, "0.1 ft/s", "30 ft/s", VELOCITY),
        QLL_DEFAULT("3 ft/s to 6 ft/s", COMMON),
        QLL_MEANS(LIMITS_VELOCITY_BAND)},
    {"velocity_max", QLL_VALUE_QUANTITY, QLL_WITHIN(VELOCITY, "0.1 ft/s", "30 ft/s", VELOCITY),
        .fallback = "8 ft/s",
        .why = {QLL_TEXT_WHY_COPPER, {{QLL_ARGUMENT_WRITTEN, QLL_KIND_VELOCITY, .text = {"5 ft/s", 6}}}},
        QLL_MEANS(LIMITS_VELOCITY_MAX)},
    {"ratio_preferred", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "1", "20", RATIO), QLL_DEFAULT("2", COMMON),
        QLL_MEANS(LIMITS_RATIO_PREFERRED)},
    {"ratio_max", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "1", "20", RATIO), QLL_DEFAULT("3", COMMON),
        QLL_MEANS(LIMITS_RATIO_MAX)},
    {"falloff", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE_DIFFERENCE, "1 psi", "100 psi", HOLDS_CLOSER),
        QLL_ELSE(LIMITS_FALLOFF),
        QLL_MEANS(LIMITS_FALLOFF)},
};
QLL_GROUP(limits, LIMITS, "limits", limits_fields);

static const qll_field existing_fields[] = {
    {"stages", QLL_VALUE_LIST, QLL_ENTRIES(3), QLL_NEEDED(STAGES)},
};
QLL_GROUP(existing, EXISTING, "existing", existing_fields);

static const qll_field stage_fields[] = {
    {"branches", QLL_VALUE_LIST, QLL_ENTRIES(6), QLL_NEEDED(BRANCHES)},
};
QLL_GROUP(stage, STAGE, "existing.stages[]", stage_fields);

static const qll_field branch_fields[] = {
    {"valve", QLL_VALUE_TEXT, QLL_NEEDED(VALVE), .example = "3 in direct"},
    {"set_pressure", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "5 psi", "350 psi", VALVE_OUTLET),
        QLL_NEEDED(SET_PRESSURE)},
};
QLL_GROUP(branch, BRANCH, "existing.stages[].branches[]", branch_fields);
/* clang-format on */
