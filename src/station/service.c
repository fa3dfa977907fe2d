/* docs/theory/service.md. */
#include "station/service.h"

#include "base/customary.h"
#include "numeric/root.h"

#include <math.h>

/* Left above the wanted pressure, so that a valve has something to work with (our assumption). */
#define QLL_WORKING_PA   (5.0 * QLL_PSI_PA)
/* Of what stands there as soon as water moves: a street that hardly stands above the wanted pressure is
 * not called one that carries nothing (our assumption). */
#define QLL_STREET_SHARE 0.8
/* As good as nothing, yet it opens a backflow preventer, and a flow no building's service reaches; m3/s. */
#define QLL_TRICKLE_M3S  1e-7
#define QLL_GREATEST_M3S 1.0
/* Width of the last bracket, of the flow. */
#define QLL_FLOW_WIDTH   1e-10

static const double quarter_turn = 0.78539816339744831; /* pi/4 */

static double lowest_inlet_pa_gauge(const qll_site *site, double flow_m3s)
{
    return qll_site_inlet_pa(site, site->supply.static_low_pa_gauge, flow_m3s)
           - site->barometric_pa;
}

static const qll_element *narrowest_pipe(const qll_site *site)
{
    const qll_element *found = NULL;
    for (size_t i = 0; i < site->upstream_count; i++) {
        const qll_element *element = &site->upstream[i];
        bool is_pipe = element->kind == QLL_ELEMENT_PIPE && element->pipe.bore_m > 0.0;
        if (is_pipe && (found == NULL || element->pipe.bore_m < found->pipe.bore_m)) {
            found = element;
        }
    }
    return found;
}

typedef struct spare {
    const qll_site *site;
    double inlet_pa_gauge;
} spare;

static double spare_pa(double flow_m3s, void *context)
{
    const spare *of = context;
    return lowest_inlet_pa_gauge(of->site, flow_m3s) - of->inlet_pa_gauge;
}

/* Eq. 3. Steps outward to the first flow that leaves too little, so that a loss which falls with flow
 * cannot hide it. */
static double pressure_flow_m3s(const qll_site *site, double inlet_pa_gauge)
{
    spare of = {site, inlet_pa_gauge};
    double low_m3s = QLL_TRICKLE_M3S;
    while (low_m3s < QLL_GREATEST_M3S) {
        double high_m3s = 2.0 * low_m3s;
        if (spare_pa(high_m3s, &of) <= 0.0) {
            double width_m3s = QLL_FLOW_WIDTH * high_m3s;
            return qll_root_find(low_m3s, high_m3s, width_m3s, spare_pa, &of).value;
        }
        low_m3s = high_m3s;
    }
    return NAN;
}

qll_service qll_service_of(const qll_site *site)
{
    qll_service service = {.limit = QLL_SERVICE_UNLIMITED,
                           .flow_m3s = NAN,
                           .velocity_flow_m3s = NAN,
                           .pressure_flow_m3s = NAN,
                           .pipe_nominal_m = NAN,
                           .inlet_pa_gauge = NAN};
    const qll_element *pipe = narrowest_pipe(site);
    if (pipe != NULL) {
        double bore_m = pipe->pipe.bore_m;
        service.velocity_flow_m3s =
            site->limits.velocity_max_m_s * quarter_turn * bore_m * bore_m; /* eq. 1 */
        service.pipe_nominal_m = pipe->size == NULL ? (double)NAN : pipe->size->nominal_m;
    }
    double moving_pa_gauge = lowest_inlet_pa_gauge(site, QLL_TRICKLE_M3S);
    if (moving_pa_gauge > 0.0) {
        service.inlet_pa_gauge =
            fmin(site->set_pa_gauge + QLL_WORKING_PA, QLL_STREET_SHARE * moving_pa_gauge); /* 2 */
        service.pressure_flow_m3s = pressure_flow_m3s(site, service.inlet_pa_gauge);
    }
    if (service.velocity_flow_m3s > 0.0) {
        service.limit = QLL_SERVICE_VELOCITY;
        service.flow_m3s = service.velocity_flow_m3s;
    }
    if (service.pressure_flow_m3s > 0.0 && !(service.flow_m3s <= service.pressure_flow_m3s)) {
        service.limit = QLL_SERVICE_PRESSURE;
        service.flow_m3s = service.pressure_flow_m3s;
    }
    return service;
}

double qll_service_peak_m3s(const qll_service *service, double peak_m3s, bool is_metered)
{
    double carries_m3s = is_metered ? service->pressure_flow_m3s : service->flow_m3s;
    return isnan(carries_m3s) ? peak_m3s : fmin(peak_m3s, carries_m3s);
}
