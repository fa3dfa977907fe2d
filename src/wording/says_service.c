/* The service that carries less than a peak. */
#include "base/customary.h"
#include "wording/wording.h"

#include <math.h>

/* A peak that is cut by less is not worth a sentence: the two figures would read alike (our
 * assumption). */
#define QLL_CUT_SAID 1.05

/* The scenario with the greatest peak that the service cuts; scenario_count if it cuts none. */
static size_t greatest_cut(const qll_duty *duty)
{
    size_t found = duty->scenario_count;
    double most_m3s = 0.0;
    for (size_t i = 0; i < duty->scenario_count; i++) {
        const qll_duty_scenario *scenario = &duty->scenarios[i];
        if (scenario->code_peak_m3s > QLL_CUT_SAID * scenario->peak_m3s
            && scenario->code_peak_m3s > most_m3s) {
            most_m3s = scenario->code_peak_m3s;
            found = i;
        }
    }
    return found;
}

/* "about": two digits in the reader's unit are what such a figure is worth. */
static const char *about(qll_arena *arena, double flow_m3s, qll_unit_system units)
{
    bool is_us = units == QLL_UNITS_US;
    double unit_m3s = is_us ? QLL_GPM_M3S : 1.0;
    double value = flow_m3s / unit_m3s;
    double step = pow(10.0, floor(log10(value)) - 1.0);
    double rounded = round(value / step) * step;
    if (!is_us) {
        return qll_quantity_text(arena, rounded, QLL_KIND_FLOW, units);
    }
    qll_writer writer = qll_writer_new(arena);
    qll_write_format(&writer, step < 1.0 ? "%.1f gpm" : "%.0f gpm", rounded);
    return qll_writer_text(&writer).bytes;
}

static const char *peak_clause(qll_arena *arena, const qll_wording *wording,
                               const qll_demand *demand)
{
    qll_peak_method method = demand->estimates[demand->chosen].method;
    qll_message message = QLL_SAYS_PEAK_OF_CODE;
    if (method == QLL_PEAK_GIVEN) {
        message = QLL_SAYS_PEAK_AS_GIVEN;
    } else if (method == QLL_PEAK_SIMULTANEOUS_USE || method == QLL_PEAK_NORMAL_APPROXIMATION
               || method == QLL_PEAK_PULSE_MODEL || method == QLL_PEAK_METERED) {
        message = QLL_SAYS_PEAK_BY_METHOD;
    }
    const qll_filling fillings[] = {
        {"peak", qll_quantity_text(arena, demand->peak_m3s, QLL_KIND_FLOW, wording->units)},
        {"method", qll_say_method(wording->language, method)},
    };
    qll_writer clause = qll_writer_new(arena);
    qll_say_with(&clause, wording->language, message, fillings, 2);
    return qll_writer_text(&clause).bytes;
}

bool qll_wording_carries(qll_writer *writer, const qll_wording *wording, const qll_service *service,
                         const qll_demand *demand)
{
    bool is_metered = demand->estimates[demand->chosen].method == QLL_PEAK_METERED;
    double carries_m3s = is_metered ? service->pressure_flow_m3s : service->flow_m3s;
    if (!isfinite(carries_m3s)) {
        return false;
    }
    qll_unit_system units = wording->units;
    qll_arena *arena = writer->arena;
    bool is_velocity = !is_metered && service->limit == QLL_SERVICE_VELOCITY;
    bool is_cut = demand->peak_m3s > QLL_CUT_SAID * carries_m3s;
    qll_writer size = qll_writer_new(arena);
    if (isfinite(service->pipe_nominal_m)) {
        qll_units_write_pipe_size(&size, service->pipe_nominal_m, units);
    }
    const qll_filling fillings[] = {
        {"flow", about(arena, carries_m3s, units)},
        {"velocity", qll_quantity_text(arena, wording->site->limits.velocity_max_m_s,
                                       QLL_KIND_VELOCITY, units)},
        {"size", isfinite(service->pipe_nominal_m) ? qll_writer_text(&size).bytes : NULL},
        {"inlet", qll_quantity_text(arena, service->inlet_pa_gauge, QLL_KIND_PRESSURE, units)},
        {"peak", is_cut ? qll_quantity_text(arena, demand->peak_m3s, QLL_KIND_FLOW, units) : NULL},
    };
    qll_say_with(writer, wording->language,
                 is_velocity ? QLL_SAYS_CARRIES_VELOCITY : QLL_SAYS_CARRIES_PRESSURE, fillings,
                 sizeof fillings / sizeof fillings[0]);
    return true;
}

bool qll_wording_service(qll_writer *writer, const qll_wording *wording, const qll_service *service,
                         const qll_demand *demands)
{
    const qll_duty *duty = wording->duty;
    size_t cut = greatest_cut(duty);
    if (cut == duty->scenario_count) {
        return false;
    }
    qll_unit_system units = wording->units;
    qll_arena *arena = writer->arena;
    double carries_m3s = duty->scenarios[cut].peak_m3s;
    bool is_velocity = carries_m3s == service->velocity_flow_m3s;
    qll_writer size = qll_writer_new(arena);
    if (isfinite(service->pipe_nominal_m)) {
        qll_units_write_pipe_size(&size, service->pipe_nominal_m, units);
    }
    const char *peak = peak_clause(arena, wording, &demands[cut]);
    const qll_filling fillings[] = {
        {"flow", about(arena, carries_m3s, units)},
        {"velocity", qll_quantity_text(arena, wording->site->limits.velocity_max_m_s,
                                       QLL_KIND_VELOCITY, units)},
        {"size", isfinite(service->pipe_nominal_m) ? qll_writer_text(&size).bytes : NULL},
        {"inlet", qll_quantity_text(arena, service->inlet_pa_gauge, QLL_KIND_PRESSURE, units)},
        {"peak", peak},
    };
    qll_say_with(writer, wording->language,
                 is_velocity ? QLL_SAYS_SERVICE_VELOCITY : QLL_SAYS_SERVICE_PRESSURE, fillings,
                 sizeof fillings / sizeof fillings[0]);
    return true;
}
