#include "station/site.h"

#include "base/customary.h"
#include "physics/nominal.h"

#include <math.h>

const char *const qll_people_words[QLL_PEOPLE_COUNT] = {"same room", "next room", "plant room"};

/* Eq. 8 of docs/theory/fitting.md. */
static double own_loss_pa(qll_curve loss, double flow_m3s)
{
    if (!(flow_m3s >= 0.0)) {
        return NAN;
    }
    if (flow_m3s == 0.0) {
        return 0.0; /* no loss is relied upon when nothing flows: the safe side for static pressure */
    }
    qll_point last = loss.points[loss.count - 1];
    if (flow_m3s > last.x && last.x > 0.0) {
        double ratio = flow_m3s / last.x;
        return last.y * ratio * ratio;
    }
    return qll_curve_at(loss, flow_m3s);
}

double qll_site_meter_nominal_m(const qll_site *site)
{
    double nominal_m = (double)NAN;
    for (size_t i = 0; i < site->upstream_count; i++) {
        const qll_element *element = &site->upstream[i];
        if (element->kind == QLL_ELEMENT_METER && element->meter != NULL) {
            nominal_m = element->meter->nominal_m;
        }
    }
    return nominal_m;
}

double qll_element_drop_pa(const qll_element *element, double flow_m3s, const qll_water *water)
{
    if (element->loss.count > 0) {
        return own_loss_pa(element->loss, flow_m3s);
    }
    switch (element->kind) {
    case QLL_ELEMENT_PIPE:
        return qll_pipe_drop_pa(&element->pipe, flow_m3s, water)
               + water->density_kg_m3 * QLL_GRAVITY_M_S2 * element->pipe.rise_m;
    case QLL_ELEMENT_METER: return qll_meter_drop_pa(element->meter, flow_m3s);
    case QLL_ELEMENT_BACKFLOW: return qll_backflow_drop_pa(&element->backflow, flow_m3s);
    case QLL_ELEMENT_STRAINER:
        return qll_screen_drop_pa(&element->screen, element->bore_m, element->blocked, flow_m3s,
                                  water);
    case QLL_ELEMENT_LOSS: break; /* nobody knows what it takes but by a loss of its own */
    }
    return NAN;
}

const qll_pipe_size *qll_site_size(const qll_site *site, double nominal_m)
{
    const qll_pipe_size *found = NULL;
    double least = INFINITY;
    for (size_t i = 0; i < site->station_size_count; i++) {
        const qll_pipe_size *size = site->station_sizes[i];
        bool is_same = qll_nominal_same(size->nominal_m, nominal_m);
        /* By ratio, so that 1/2 in is no nearer to 1 in than 1 in to 2 in. */
        double distance = is_same ? 0.0 : fabs(log(size->nominal_m / nominal_m));
        if (distance < least) {
            least = distance;
            found = size;
        }
    }
    return found;
}

const qll_pipe_size *qll_site_smallest_size(const qll_site *site, double flow_m3s,
                                            double velocity_m_s)
{
    for (size_t i = 0; i < site->station_size_count; i++) {
        if (qll_pipe_velocity_m_s(flow_m3s, site->station_sizes[i]->bore_m) <= velocity_m_s) {
            return site->station_sizes[i];
        }
    }
    return NULL;
}

const qll_pipe_size *qll_site_header(const qll_site *site, double service_m, double peak_m3s)
{
    if (service_m > 0.0) {
        return qll_site_size(site, service_m);
    }
    return qll_site_smallest_size(site, peak_m3s, site->limits.velocity_high_m_s);
}

double qll_site_upstream_drop_pa(const qll_site *site, double flow_m3s)
{
    double drop_pa = 0.0;
    for (size_t i = 0; i < site->upstream_count; i++) {
        drop_pa += qll_element_drop_pa(&site->upstream[i], flow_m3s, &site->water);
    }
    return drop_pa;
}

double qll_site_inlet_pa(const qll_site *site, double static_pa_gauge, double flow_m3s)
{
    return site->barometric_pa
           + qll_supply_pressure_pa_gauge(&site->supply, static_pa_gauge, flow_m3s)
           - qll_site_upstream_drop_pa(site, flow_m3s);
}

double qll_site_still_pa_gauge(const qll_site *site)
{
    return qll_site_inlet_pa(site, site->supply.static_high_pa_gauge, 0.0) - site->barometric_pa;
}

double qll_site_column_pa(const qll_site *site, double height_m)
{
    return site->water.density_kg_m3 * QLL_GRAVITY_M_S2 * height_m;
}

size_t qll_site_lowest_outlet(const qll_site *site)
{
    size_t found = site->outlet_count;
    double lowest_m = INFINITY;
    for (size_t i = 0; i < site->outlet_count; i++) {
        if (site->outlets[i].elevation_m < lowest_m) {
            lowest_m = site->outlets[i].elevation_m;
            found = i;
        }
    }
    return found;
}

double qll_site_lowest_column_pa(const qll_site *site)
{
    size_t lowest = qll_site_lowest_outlet(site);
    return lowest == site->outlet_count
               ? 0.0
               : qll_site_column_pa(site, -site->outlets[lowest].elevation_m);
}

double qll_path_carries_m3s(const qll_path_run *run, double flow_m3s)
{
    return isnan(run->carries_m3s) ? flow_m3s : fmin(run->carries_m3s, flow_m3s);
}

double qll_outlet_wants_pa_gauge(const qll_site *site, const qll_outlet *outlet, double flow_m3s)
{
    double wants_pa = outlet->needs_pa_gauge + qll_site_column_pa(site, outlet->elevation_m);
    for (size_t i = 0; i < outlet->path_count; i++) {
        const qll_path_run *run = &outlet->path[i];
        double carries_m3s = qll_path_carries_m3s(run, flow_m3s);
        wants_pa += qll_pipe_drop_pa(&run->pipe, carries_m3s, &site->water);
    }
    return wants_pa;
}

double qll_site_falloff_pa(const qll_site *site)
{
    const double most_share = 0.4;
    double share = site->limits.falloff_share;
    return isnan(share) ? fmin(QLL_FALLOFF_USUAL_PA, most_share * site->set_pa_gauge)
                        : share * site->set_pa_gauge;
}

double qll_site_pipe_most_m_s(const qll_site *site, const qll_pipe_size *size)
{
    return size == NULL ? site->limits.velocity_max_m_s
                        : qll_pipe_velocity_max_m_s(size, site->water.temperature_degc);
}
