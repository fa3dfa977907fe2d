/* docs/theory/need.md. */
#include "station/need.h"

#include <stdint.h>

/* What stands beside the station counts though nobody names it: heater, hose bibb, the basement sink. */
static double depth_pa(const qll_site *site)
{
    double column_pa = qll_site_lowest_column_pa(site);
    return column_pa <= 0.0 ? 0.0 : column_pa; /* no number stays none */
}

bool qll_station_is_needed(const qll_site *site)
{
    if (!site->has_static_high || site->station_always) {
        return true;
    }
    /* Eq. 1. What cannot be computed is not below a limit. */
    return !(qll_site_still_pa_gauge(site) + depth_pa(site) <= site->static_max_pa_gauge);
}

qll_status qll_need_of(const qll_site *site, double peak_m3s, qll_arena *arena, qll_need *need)
{
    qll_bare_outlet *outlets = qll_arena_take(arena, site->outlet_count, sizeof *outlets);
    if (outlets == NULL) {
        return QLL_NO_MEMORY;
    }
    double still = qll_site_still_pa_gauge(site);
    double peak =
        qll_site_inlet_pa(site, site->supply.static_low_pa_gauge, peak_m3s) - site->barometric_pa;
    for (size_t i = 0; i < site->outlet_count; i++) {
        const qll_outlet *outlet = &site->outlets[i];
        double in_hand = peak - qll_outlet_wants_pa_gauge(site, outlet, peak_m3s);
        outlets[i] = (qll_bare_outlet){
            .still_pa_gauge = still - qll_site_column_pa(site, outlet->elevation_m),
            .peak_pa_gauge = in_hand + outlet->needs_pa_gauge, /* eq. 2 */
            .in_hand_pa_gauge = in_hand,
        };
    }
    size_t lowest = qll_site_lowest_outlet(site);
    *need = (qll_need){
        .is_needed = qll_station_is_needed(site),
        .lowest = depth_pa(site) > 0.0 ? lowest : SIZE_MAX,
        .lowest_still_pa_gauge = still + depth_pa(site),
        .inlet_peak_pa_gauge = peak,
        .outlets = outlets,
    };
    return QLL_OK;
}
