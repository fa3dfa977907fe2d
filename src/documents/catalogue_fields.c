#include "documents/catalogue_fields.h"

#include "documents/field_rows.h"
#include "documents/read_costs.h"

/* A field is a row; see documents/field_rows.h. */
/* clang-format off */
static const qll_field catalogue_fields[] = {
    {"catalogue", QLL_VALUE_VERSION, QLL_NEEDED(VERSION)},
    {"name", QLL_VALUE_TEXT, QLL_ELSE(CATALOGUE_NAME), QLL_MEANS(CATALOGUE_NAME)},
    {"invented", QLL_VALUE_FLAG, QLL_ELSE(CATALOGUE_INVENTED),
        QLL_MEANS(CATALOGUE_INVENTED)},
    {"currency", QLL_VALUE_CURRENCY, QLL_ELSE(CATALOGUE_CURRENCY),
        QLL_FORM(CATALOGUE_CURRENCY),
        QLL_MEANS(CATALOGUE_CURRENCY)},
    {"costs", QLL_VALUE_OBJECT, QLL_ELSE(CATALOGUE_COSTS),
        QLL_MEANS(CATALOGUE_COSTS)},
    {"valves", QLL_VALUE_LIST, QLL_ENTRIES(QLL_VALVES_MAX), QLL_NEEDED(VALVES)},
};
QLL_GROUP(catalogue, CATALOGUE, "", catalogue_fields);

static const qll_field valve_fields[] = {
    {"id", QLL_VALUE_TEXT, QLL_NEEDED(ID)},
    {"nominal", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "1/4 in", "12 in", BUILDING_VALVES), QLL_NEEDED(CONNECTIONS)},
    {"acting", QLL_VALUE_WORD, .words = qll_acting_words, .word_count = QLL_ACTING_COUNT, QLL_NEEDED(ACTING)},
    {"kv", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW_COEFFICIENT, "0.05 m3/h", "3000 m3/h", VALVE_KV), QLL_NEEDED(KV)},
    {"set_range", QLL_VALUE_PAIR, QLL_WITHIN(PRESSURE, "0 psi", "400 psi", VALVE_INLET), QLL_NEEDED(SET_RANGE)},
    {"inlet_max", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "10 psi", "600 psi", VALVE_INLET), QLL_NEEDED(INLET_MAX)},
    {"temperature_max", QLL_VALUE_QUANTITY, QLL_WITHIN(TEMPERATURE, "60 degF", "400 degF", VALVE_TEMPERATURE), .example = "180 degF",
        QLL_ELSE(VALVE_TEMPERATURE_MAX), QLL_MEANS(VALVE_TEMPERATURE_MAX)},
    {"falloff", QLL_VALUE_OBJECT, QLL_ELSE(VALVE_FALLOFF),
        QLL_MEANS(VALVE_FALLOFF)},
    {"band", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE_DIFFERENCE, "0.1 psi", "150 psi", VALVE_DROP),
        QLL_ELSE(VALVE_BAND),
        QLL_MEANS(VALVE_BAND)},
    {"lockup_rise", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE_DIFFERENCE, "0 psi", "50 psi", VALVE_DROP),
        QLL_ELSE(VALVE_LOCKUP_RISE),
        QLL_MEANS(VALVE_LOCKUP_RISE)},
    {"inlet_effect", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "-0.5", "0.5", INLET_EFFECT),
        QLL_ELSE(VALVE_INLET_EFFECT),
        QLL_MEANS(VALVE_INLET_EFFECT)},
    {"flow_min", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "5000 gpm", VALVE_FLOW),
        QLL_ELSE(VALVE_FLOW_MIN),
        QLL_MEANS(VALVE_FLOW_MIN)},
    {"hysteresis", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE_DIFFERENCE, "0 psi", "30 psi", VALVE_DROP),
        QLL_ELSE(VALVE_HYSTERESIS), QLL_MEANS(VALVE_HYSTERESIS)},
    {"fl", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0.3", "1", TRIM_FACTOR), QLL_ELSE(VALVE_FL),
        QLL_MEANS(VALVE_FL)},
    {"fd", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0.01", "1.5", STYLE_MODIFIER), QLL_ELSE(VALVE_FD),
        QLL_MEANS(VALVE_FD)},
    {"xfz", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0.05", "1", TRIM_FACTOR),
        QLL_ELSE(VALVE_XFZ),
        QLL_MEANS(VALVE_XFZ)},
    {"seat_bore", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "0.05 in", "12 in", BUILDING_VALVES),
        QLL_ELSE(VALVE_SEAT_BORE), QLL_MEANS(VALVE_SEAT_BORE)},
    {"bypass", QLL_VALUE_FLAG, QLL_ELSE(CATALOGUE_INVENTED),
        QLL_MEANS(VALVE_BYPASS)},
    {"strainer_kv", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW_COEFFICIENT, "0.05 m3/h", "5000 m3/h", VALVE_KV),
        QLL_ELSE(VALVE_STRAINER_KV), QLL_MEANS(VALVE_STRAINER_KV)},
    {"moving_mass", QLL_VALUE_QUANTITY, QLL_WITHIN(MASS, "1 g", "500 kg", VALVE_MOTION),
        QLL_ELSE(VALVE_MOVING_MASS), QLL_MEANS(VALVE_MOVING_MASS)},
    {"spring_rate", QLL_VALUE_QUANTITY, QLL_WITHIN(SPRING_RATE, "0.1 N/mm", "50000 N/mm", VALVE_MOTION),
        QLL_ELSE(VALVE_SPRING_RATE), QLL_MEANS(VALVE_SPRING_RATE)},
    {"damping", QLL_VALUE_QUANTITY, QLL_WITHIN(DAMPING, "0.01 N.s/m", "1000000 N.s/m", VALVE_MOTION),
        QLL_ELSE(VALVE_DAMPING), QLL_MEANS(VALVE_DAMPING)},
    {"diaphragm", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "0.25 in", "40 in", VALVE_MOTION),
        QLL_ELSE(VALVE_DIAPHRAGM), QLL_MEANS(VALVE_DIAPHRAGM)},
    {"stroke_time", QLL_VALUE_QUANTITY, QLL_WITHIN(TIME, "0.1 s", "10 min", VALVE_MOTION), .example = "10 s",
        QLL_ELSE(VALVE_STROKE_TIME), QLL_MEANS(VALVE_STROKE_TIME)},
    {"price", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "10000000", PRICE),
        QLL_ELSE(VALVE_PRICE), QLL_MEANS(VALVE_PRICE)},
    {"lead_days", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "3650", TEN_YEARS), QLL_ELSE(VALVE_LEAD_DAYS),
        QLL_MEANS(VALVE_LEAD_DAYS)},
};
QLL_GROUP(valve, VALVE, "valves[]", valve_fields);

static const qll_field falloff_fields[] = {
    {"inlet", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "10 psi", "600 psi", VALVE_INLET), QLL_NEEDED(MEASURED_INLET)},
    {"set", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE, "1 psi", "400 psi", VALVE_INLET), QLL_NEEDED(MEASURED_SET)},
    {"points", QLL_VALUE_LIST, QLL_ENTRIES(QLL_POINTS_MAX), QLL_ELSE(VALVE_FALLOFF), QLL_MEANS(FALLOFF_POINTS)},
    {"band", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE_DIFFERENCE, "0.1 psi", "150 psi", VALVE_DROP),
        QLL_ELSE(FALLOFF_BAND), QLL_MEANS(FALLOFF_BAND)},
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
