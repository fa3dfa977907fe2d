#include "documents/read_catalogue.h"

#include <assert.h>
#include <math.h>

/* Units a quantity is tried in, the customary ones first. The last is SI, where every double can
 * be written exactly. */
#define QLL_UNITS_TRIED 4
static const char *const units_tried[QLL_KIND_COUNT][QLL_UNITS_TRIED] = {
    [QLL_KIND_PRESSURE] = {"psi", "bar", "kPa", "Pa"},
    [QLL_KIND_PRESSURE_DIFFERENCE] = {"psi", "bar", "kPa", "Pa"},
    [QLL_KIND_FLOW] = {"gpm", "L/s", "m3/h", "m3/s"},
    [QLL_KIND_LENGTH] = {"in", "mm", "m", "m"},
    [QLL_KIND_TEMPERATURE] = {"degF", "degC", "degC", "degC"},
    [QLL_KIND_FLOW_COEFFICIENT] = {"m3/h", "Cv", "m3/h", "m3/h"},
    [QLL_KIND_MASS] = {"lb", "g", "kg", "kg"},
    [QLL_KIND_SPRING_RATE] = {"lbf/in", "N/mm", "N/m", "N/m"},
    [QLL_KIND_DAMPING] = {"N.s/m", "lbf.s/in", "N.s/m", "N.s/m"},
    [QLL_KIND_TIME] = {"s", "min", "s", "s"},
};
/* Decimals tried in a customary unit; a value typed by a person has no more. */
#define QLL_DECIMALS_TRIED 6

/* SI value of @p number @p unit; NaN if it cannot be read. */
static double read_back(qll_arena *arena, const char *text, qll_kind kind)
{
    qll_quantity quantity;
    qll_units_refusal refusal;
    bool is_read = qll_units_read(qll_text_of(text), kind, arena, &quantity, &refusal);
    return is_read ? quantity.si : (double)NAN;
}

static const char *number_with_unit(qll_arena *arena, double number, const char *unit)
{
    qll_writer writer = qll_writer_new(arena);
    qll_write_number(&writer, number);
    qll_write(&writer, " ");
    qll_write(&writer, unit);
    return qll_writer_text(&writer).bytes;
}

/* The text in @p unit that reads back as the same double, or NULL. */
static const char *text_in(qll_arena *arena, double si, qll_kind kind, const char *unit)
{
    double none = read_back(arena, number_with_unit(arena, 0.0, unit), kind);
    double one = read_back(arena, number_with_unit(arena, 1.0, unit), kind);
    double number = (si - none) / (one - none);
    if (!isfinite(number)) {
        return NULL; /* without memory */
    }
    double scale = 1.0;
    for (int decimals = 0; decimals <= QLL_DECIMALS_TRIED; decimals++) {
        const char *text = number_with_unit(arena, round(number * scale) / scale, unit);
        if (read_back(arena, text, kind) == si) {
            return text;
        }
        scale *= 10.0;
    }
    return NULL;
}

static void put_quantity(qll_json *json, const char *key, double si, qll_kind kind)
{
    if (isnan(si)) {
        return;
    }
    if (key != NULL) {
        qll_json_key(json, key);
    }
    qll_arena *arena = json->writer->arena;
    for (size_t i = 0; i < QLL_UNITS_TRIED; i++) {
        const char *text = text_in(arena, si, kind, units_tried[kind][i]);
        if (text != NULL) {
            qll_json_text(json, text);
            return;
        }
    }
    const char *exact = number_with_unit(arena, si, units_tried[kind][QLL_UNITS_TRIED - 1]);
    qll_json_text(json, exact);
}

static void put_number(qll_json *json, const char *key, double value)
{
    if (isfinite(value)) {
        qll_json_put_number(json, key, value);
    }
}

/* A value that was filled by a default stays out: it is filled again when it is read. */
static double own(const qll_valve *valve, qll_valve_default which, double value)
{
    return (valve->defaulted >> which & 1U) != 0 ? (double)NAN : value;
}

static void put_falloff(qll_json *json, const qll_valve *valve)
{
    qll_json_put_object(json, "falloff");
    put_quantity(json, "inlet", valve->sheet_inlet_pa_gauge, QLL_KIND_PRESSURE);
    put_quantity(json, "set", valve->sheet_set_pa_gauge, QLL_KIND_PRESSURE);
    if (valve->falloff_count == 0) {
        put_quantity(json, "band", valve->band_pa, QLL_KIND_PRESSURE_DIFFERENCE);
        qll_json_close_object(json);
        return;
    }
    qll_json_put_list(json, "points");
    for (size_t i = 0; i < valve->falloff_count; i++) {
        qll_json_open_object(json);
        put_quantity(json, "flow", valve->falloff_points[i].x, QLL_KIND_FLOW);
        put_quantity(json, "falloff", valve->falloff_points[i].y, QLL_KIND_PRESSURE_DIFFERENCE);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

static double known_or_nan(double value)
{
    return value > 0.0 ? value : (double)NAN;
}

static void put_motion(qll_json *json, const qll_valve *valve)
{
    put_quantity(json, "moving_mass", known_or_nan(valve->moving_mass_kg), QLL_KIND_MASS);
    put_quantity(json, "spring_rate", known_or_nan(valve->spring_n_m), QLL_KIND_SPRING_RATE);
    put_quantity(json, "damping", known_or_nan(valve->damping_n_s_m), QLL_KIND_DAMPING);
    put_quantity(json, "diaphragm", known_or_nan(valve->diaphragm_m), QLL_KIND_LENGTH);
    put_quantity(json, "stroke_time", known_or_nan(valve->stroke_s), QLL_KIND_TIME);
}

static void put_valve(qll_json *json, const qll_valve *valve)
{
    qll_json_open_object(json);
    qll_json_put_text(json, "id", valve->id);
    put_quantity(json, "nominal", valve->nominal_m, QLL_KIND_LENGTH);
    qll_json_put_text(json, "acting", qll_acting_words[valve->acting]);
    put_quantity(json, "kv", valve->kv_m3h, QLL_KIND_FLOW_COEFFICIENT);
    qll_json_put_list(json, "set_range");
    put_quantity(json, NULL, valve->set_min_pa_gauge, QLL_KIND_PRESSURE);
    put_quantity(json, NULL, valve->set_max_pa_gauge, QLL_KIND_PRESSURE);
    qll_json_close_list(json);
    put_quantity(json, "inlet_max", valve->inlet_max_pa_gauge, QLL_KIND_PRESSURE);
    put_quantity(json, "temperature_max",
                 own(valve, QLL_VALVE_TEMPERATURE_MAX, valve->temperature_max_degc),
                 QLL_KIND_TEMPERATURE);
    put_falloff(json, valve);
    put_quantity(json, "lockup_rise", own(valve, QLL_VALVE_LOCKUP_RISE, valve->lockup_rise_pa),
                 QLL_KIND_PRESSURE_DIFFERENCE);
    put_number(json, "inlet_effect", own(valve, QLL_VALVE_INLET_EFFECT, valve->inlet_effect));
    put_quantity(json, "flow_min", own(valve, QLL_VALVE_FLOW_MIN, valve->flow_min_m3s),
                 QLL_KIND_FLOW);
    put_quantity(json, "hysteresis", own(valve, QLL_VALVE_HYSTERESIS, valve->hysteresis_pa),
                 QLL_KIND_PRESSURE_DIFFERENCE);
    put_number(json, "fl", own(valve, QLL_VALVE_FL, valve->fl));
    put_number(json, "fd", own(valve, QLL_VALVE_FD, valve->fd));
    put_number(json, "xfz", own(valve, QLL_VALVE_XFZ, valve->xfz));
    put_quantity(json, "seat_bore", own(valve, QLL_VALVE_SEAT_BORE, valve->seat_bore_m),
                 QLL_KIND_LENGTH);
    if (valve->bypass) {
        qll_json_put_bool(json, "bypass", true);
    }
    put_quantity(json, "strainer_kv", valve->strainer_kv_m3h, QLL_KIND_FLOW_COEFFICIENT);
    put_motion(json, valve);
    put_number(json, "price", valve->price);
    put_number(json, "lead_days", valve->lead_days);
    qll_json_close_object(json);
}

static void put_costs(qll_json *json, const qll_costs *costs)
{
    qll_json_put_object(json, "costs");
    put_number(json, "visit", costs->visit);
    put_number(json, "stage", costs->stage);
    if (costs->size_count > 0) {
        qll_json_put_list(json, "sizes");
        for (size_t i = 0; i < costs->size_count; i++) {
            qll_json_open_object(json);
            put_quantity(json, "nominal", costs->sizes[i].nominal_m, QLL_KIND_LENGTH);
            put_number(json, "branch", costs->sizes[i].branch);
            put_number(json, "beside", costs->sizes[i].beside);
            put_number(json, "direct", costs->sizes[i].direct);
            put_number(json, "pilot", costs->sizes[i].pilot);
            qll_json_close_object(json);
        }
        qll_json_close_list(json);
    }
    qll_json_close_object(json);
}

void qll_catalogue_write(qll_json *json, const qll_catalogue *catalogue)
{
    qll_json_open_object(json);
    qll_json_put_whole(json, "catalogue", 1);
    qll_json_put_text(json, "name", catalogue->name);
    if (catalogue->invented) {
        qll_json_put_bool(json, "invented", true);
    }
    if (catalogue->currency != NULL) {
        qll_json_put_text(json, "currency", catalogue->currency);
    }
    if (catalogue->costs != NULL) {
        put_costs(json, catalogue->costs);
    }
    qll_json_put_list(json, "valves");
    for (size_t i = 0; i < catalogue->count; i++) {
        put_valve(json, &catalogue->valves[i]);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}
