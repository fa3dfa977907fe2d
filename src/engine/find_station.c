/* Figures of a station: how it is set, its price and its tank, the way of the water through it. */
#include "engine/find.h"
#include "engine/progress.h"
#include "station/costs.h"
#include "station/tank_size.h"

#include <math.h>

static qll_status find_settings(const qll_standing *at, qll_arena *arena,
                                const qll_setting *const **settings)
{
    const qll_station *station = at->station;
    const qll_setting **made =
        qll_arena_take(arena, station->stage_count, sizeof(const qll_setting *));
    qll_setting *room = qll_arena_take(arena, qll_station_valve_count(station), sizeof *room);
    if (made == NULL || room == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t s = 0; s < station->stage_count; s++) {
        made[s] = room;
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            *room++ = qll_setting_of(station, at->site, at->duty->peak_m3s, s, b);
        }
    }
    *settings = made;
    return QLL_OK;
}

/* One that is there and too small is bought anew; one that is only charged wrong is not. */
static bool is_tank_bought(const qll_site *site, const qll_closed_system *closed)
{
    double least_m3 = QLL_TANK_ENOUGH * fmin(closed->tank_m3, closed->tank_at_own_m3);
    bool is_enough = closed->has_tank && site->tank.volume_m3 >= least_m3;
    return !is_enough && qll_tank_is_sensible(closed->tank_m3, site->heater.volume_m3);
}

qll_status qll_find_station(const qll_standing *at, const qll_closed_system *closed,
                            qll_unit_system units, qll_arena *arena, qll_station_figures *figures)
{
    double sold_m3 = closed->has_heater ? qll_tank_sold_m3(closed->tank_m3, units) : (double)NAN;
    bool is_part = is_tank_bought(at->site, closed);
    *figures = (qll_station_figures){
        .relief_least_pa_gauge =
            fmin(closed->relief_static_pa_gauge, closed->relief_margin_pa_gauge),
        .relief_clear_pa_gauge =
            fmax(closed->relief_static_pa_gauge, closed->relief_margin_pa_gauge),
        .list_price = qll_costs_list_price(at->station),
        .tank_sold_m3 = sold_m3,
        .tank_part_m3 = !is_part         ? (double)NAN
                        : isnan(sold_m3) ? closed->tank_m3
                                         : sold_m3,
    };
    return find_settings(at, arena, &figures->settings);
}

qll_status qll_find_upstream(const qll_site *site, double flow_m3s, qll_arena *arena,
                             const double **drop_pa)
{
    double *drops_pa = qll_arena_take(arena, site->upstream_count, sizeof *drops_pa);
    if (drops_pa == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < site->upstream_count; i++) {
        drops_pa[i] = qll_element_drop_pa(&site->upstream[i], flow_m3s, &site->water);
    }
    *drop_pa = drops_pa;
    return QLL_OK;
}

qll_status qll_find_way(qll_asked *asked, const qll_standing *at, qll_way *way)
{
    qll_arena *arena = asked->arena;
    *way = (qll_way){.ladder_count = 0};
    qll_status status = QLL_OK;
    if (qll_has_part(asked->skipped, QLL_PART_LADDER)) {
        status = qll_ladders_make(at->station, at->site, at->duty, arena, &way->ladders,
                                  &way->ladder_count);
        status = status == QLL_OK ? qll_progress_step(asked, 0, 2) : status;
    }
    if (status == QLL_OK && qll_has_part(asked->skipped, QLL_PART_MAPS)) {
        status = qll_maps_make(at->station, at->site, at->duty, arena, &way->maps, &way->map_count);
        status = status == QLL_OK ? qll_progress_step(asked, 1, 2) : status;
    }
    return status;
}

qll_spectrum qll_find_spectrum(const qll_standing *at, const qll_operating_point *point)
{
    qll_spectrum spectrum = {.flow_m3s = point->flow_m3s};
    spectrum.has_level = qll_point_spectrum(at->station, at->site, point, spectrum.bands);
    return spectrum;
}
