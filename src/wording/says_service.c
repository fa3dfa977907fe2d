/* The service that carries less than a peak. */
#include "base/count.h"
#include "base/customary.h"
#include "wording/texts.h"
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
static const char *about(qll_writer *writer, double flow_m3s, qll_unit_system units)
{
    double unit_m3s = units == QLL_UNITS_US ? QLL_GPM_M3S : 1.0;
    double value = flow_m3s / unit_m3s;
    double step = pow(10.0, floor(log10(value)) - 1.0);
    return qll_text_quantity(writer, round(value / step) * step * unit_m3s, QLL_KIND_FLOW, units);
}

static const char *peak_clause(qll_writer *writer, const qll_wording *wording,
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
        {"peak", qll_text_quantity(writer, demand->peak_m3s, QLL_KIND_FLOW, wording->units)},
        {"method", qll_say_method(wording->language, method)},
    };
    return qll_text_said(writer, wording->language, message, fillings, 2);
}

static void say_carries(qll_writer *writer, const qll_wording *wording, qll_message says,
                        const qll_service *service, double carries_m3s, const char *peak)
{
    const qll_unit_system units = wording->units;
    const double nominal_m = service->pipe_nominal_m;
    const qll_filling fillings[] = {
        {"flow", about(writer, carries_m3s, units)},
        {"velocity", qll_text_quantity(writer, wording->site->limits.velocity_max_m_s,
                                       QLL_KIND_VELOCITY, units)},
        {"size", isfinite(nominal_m) ? qll_text_size(writer, nominal_m, units) : NULL},
        {"inlet", qll_text_quantity(writer, service->inlet_pa_gauge, QLL_KIND_PRESSURE, units)},
        {"peak", peak},
    };
    qll_say_with(writer, wording->language, says, fillings, QLL_COUNT(fillings));
}

bool qll_wording_carries(qll_writer *writer, const qll_wording *wording, const qll_service *service,
                         const qll_demand *demand)
{
    bool is_metered = demand->estimates[demand->chosen].method == QLL_PEAK_METERED;
    double carries_m3s = is_metered ? service->pressure_flow_m3s : service->flow_m3s;
    if (!isfinite(carries_m3s)) {
        return false;
    }
    bool is_velocity = !is_metered && service->limit == QLL_SERVICE_VELOCITY;
    bool is_cut = demand->peak_m3s > QLL_CUT_SAID * carries_m3s;
    say_carries(
        writer, wording, is_velocity ? QLL_SAYS_CARRIES_VELOCITY : QLL_SAYS_CARRIES_PRESSURE,
        service, carries_m3s,
        is_cut ? qll_text_quantity(writer, demand->peak_m3s, QLL_KIND_FLOW, wording->units) : NULL);
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
    double carries_m3s = duty->scenarios[cut].peak_m3s;
    bool is_velocity = carries_m3s == service->velocity_flow_m3s;
    say_carries(writer, wording,
                is_velocity ? QLL_SAYS_SERVICE_VELOCITY : QLL_SAYS_SERVICE_PRESSURE, service,
                carries_m3s, peak_clause(writer, wording, &demands[cut]));
    return true;
}
