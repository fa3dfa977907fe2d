#include "documents/catalogue_fields.h"

#include "documents/field_rows.h"
#include "documents/read_costs.h"

/* A field is a row; see documents/field_rows.h. */
/* clang-format off */
static const qll_field catalogue_fields[] = {
    {"catalogue", QLL_VALUE_WHOLE, QLL_NEEDED(VERSION), .form = "1"},
    {"name", QLL_VALUE_TEXT, QLL_DEFAULT("catalogue", NO_NAME), .meaning = "its name in answers"},
    {"invented", QLL_VALUE_FLAG, .computed = "false",
        .meaning = "true: no valve of it can be bought, and answers say so"},
    {"currency", QLL_VALUE_TEXT, .computed = "not said: answers call it the catalog's currency",
        .form = "three capital letters, \"EUR\"",
        .meaning = "of the prices, by its letters in ISO 4217; shown beside them"},
    {"costs", QLL_VALUE_OBJECT, .computed = "data/installed_costs.csv",
        .meaning = "what work and visits cost, in `currency`; a survey's own come first"},
    {"valves", QLL_VALUE_LIST, QLL_NEEDED(VALVES)},
};
QLL_GROUP(catalogue, CATALOGUE, "", catalogue_fields);

static const qll_field valve_fields[] = {
    {"id", QLL_VALUE_TEXT, QLL_NEEDED(ID)},
    {"nominal", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "1/4 in", "12 in", BUILDING_VALVES), QLL_NEEDED(CONNECTIONS)},
    {"acting", QLL_VALUE_WORD, .words = qll_acting_words, .word_count = QLL_ACTING_COUNT, QLL_NEEDED(ACTING)},
    {"kv", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW_COEFFICIENT, "0.05 m3/h", "3000 m3/h", VALVE_KV), QLL_NEEDED(KV)},
    {"set_range", QLL_VALUE_PAIR, QLL_WITHIN(PRESSURE, "0 psi", "400 psi", VALVE_INLET), QLL_NEEDED(SET_RANGE)},
    {"inlet_max", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "10 psi", "600 psi", VALVE_INLET), QLL_NEEDED(INLET_MAX)},
    {"temperature_max", QLL_VALUE_QUANTITY, QLL_WITHIN(TEMPERATURE, "60 degF", "400 degF", VALVE_TEMPERATURE),
        .computed = "180 degF (our assumption)", .meaning = "highest temperature of the water"},
    {"falloff", QLL_VALUE_OBJECT, .computed = "`band` must be given then",
        .meaning = "how the outlet falls as flow rises"},
    {"band", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE_DIFFERENCE, "0.1 psi", "150 psi", VALVE_DROP),
        .computed = "`falloff` must be given then",
        .meaning = "fall-off at full travel, instead of `falloff`: the opening follows it evenly"},
    {"lockup_rise", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE_DIFFERENCE, "0 psi", "50 psi", VALVE_DROP),
        .computed = "3 psi direct, 1 psi pilot (our assumption)",
        .meaning = "how far the outlet is above the set-point at no flow"},
    {"inlet_effect", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "-0.5", "0.5", INLET_EFFECT),
        .computed = "0.05 direct, 0 pilot (our assumption)",
        .meaning = "change of the outlet per change of the inlet, signed"},
    {"flow_min", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "5000 gpm", VALVE_FLOW),
        .computed = "8 % direct, 5 % pilot of the flow at full Kv with 60 psi over it, a greater share at a greater drop (our estimate)",
        .meaning = "least flow at which it throttles steadily, at the pressures of `falloff`"},
    {"hysteresis", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE_DIFFERENCE, "0 psi", "30 psi", VALVE_DROP),
        .computed = "1 psi (our assumption)", .meaning = "between opening and closing at the same flow"},
    {"fl", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0.3", "1", TRIM_FACTOR), .computed = "0.90 (our assumption)",
        .meaning = "FL, liquid pressure recovery"},
    {"fd", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0.01", "1.5", STYLE_MODIFIER), .computed = "0.46 (our assumption)",
        .meaning = "Fd, valve style modifier"},
    {"xfz", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0.05", "1", TRIM_FACTOR),
        .computed = "estimated from the opening, IEC 60534-8-4 eq. 3a",
        .meaning = "xFz, where cavitation is first heard, at 6 bar inlet"},
    {"seat_bore", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "0.05 in", "12 in", BUILDING_VALVES),
        .computed = "0.55 of the nominal size (our assumption)", .meaning = "bore of its seat, for the noise"},
    {"bypass", QLL_VALUE_FLAG, .computed = "false",
        .meaning = "true: it lets water back to the inlet when the outlet is above it"},
    {"strainer_kv", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW_COEFFICIENT, "0.05 m3/h", "5000 m3/h", VALVE_KV),
        .computed = "no screen in the body", .meaning = "flow coefficient of the clean screen in its body"},
    {"price", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "10000000", PRICE),
        .computed = "estimated by size and kind (`costs`)", .meaning = "in the catalog's `currency`"},
    {"lead_days", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "3650", TEN_YEARS), .computed = "unknown",
        .meaning = "days until it is delivered"},
};
QLL_GROUP(valve, VALVE, "valves[]", valve_fields);

static const qll_field falloff_fields[] = {
    {"inlet", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "10 psi", "600 psi", VALVE_INLET), QLL_NEEDED(MEASURED_INLET)},
    {"set", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "1 psi", "400 psi", VALVE_INLET), QLL_NEEDED(MEASURED_SET)},
    {"points", QLL_VALUE_LIST, .computed = "`band` must be given then", .meaning = "fall-off at rising flows"},
    {"band", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE_DIFFERENCE, "0.1 psi", "150 psi", VALVE_DROP),
        .computed = "`points` must be given then", .meaning = "fall-off at full travel, instead of points"},
};
QLL_GROUP(falloff, FALLOFF, "valves[].falloff", falloff_fields);

static const qll_field falloff_point_fields[] = {
    {"flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "20000 gpm", VALVE_FLOW), QLL_NEEDED(RISING_FLOW)},
    {"falloff", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE_DIFFERENCE, "0 psi", "150 psi", VALVE_DROP),
        QLL_NEEDED(FALLOFF)},
};
QLL_GROUP(falloff_point, FALLOFF_POINT, "valves[].falloff.points[]", falloff_point_fields);

/* clang-format on */

const qll_field_group *const *qll_catalogue_groups(size_t *count)
{
    static const qll_field_group *const groups[] = {&qll_group_catalogue, &qll_group_valve,
                                                    &qll_group_falloff,   &qll_group_falloff_point,
                                                    &qll_group_costs,     &qll_group_size_cost};
    *count = QLL_COUNT(groups);
    return groups;
}
