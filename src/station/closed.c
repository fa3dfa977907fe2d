/* docs/theory/expansion.md, eq. 6 to 9. */
#include "station/closed.h"

#include "base/customary.h"
#include "physics/material.h"
#include "station/tank_size.h"

#include <math.h>

/* The heater's shell where a survey cannot say: steel, 160 bores to a wall, as 400 mm by 2.5 mm (our
 * assumption). */
#define QLL_SHELL_BORE_M     0.400
#define QLL_SHELL_WALL_M     0.0025
/* The limit stays so far under the relief valve's set that it does not weep: 10 % (a trade article on expansion tanks,
 * 2015: 135 psi under a relief valve of 150 psi). */
#define QLL_RELIEF_SHARE     0.9
/* Static pressure ahead of a safety valve: at most 75 % of its set (EN 806-2, by way of a trade journal). */
#define QLL_STATIC_SHARE     0.75
/* A relief valve stands 25 psi above the normal maximum (from memory). */
#define QLL_RELIEF_MARGIN_PA (25.0 * QLL_PSI_PA)
/* A setting this much lower is a thing one can do (our assumption). */
#define QLL_TANK_STEP_PA     (5.0 * QLL_PSI_PA)
/* A heating-up is followed in so many steps. */
#define QLL_HEATING_STEPS    64

static const double quarter_turn = 0.78539816339744831; /* pi/4 */

static bool is_known(double volume_m3)
{
    return volume_m3 > 0.0;
}

static double volume_m3(const qll_pipe_run *pipe)
{
    return quarter_turn * pipe->bore_m * pipe->bore_m * pipe->length_m;
}

/* The outlet with most pipe on its way: pipes of several outlets may be the same ones, so that only
 * one way is counted. Less pipe gives way less: the safe side. */
static const qll_outlet *most_pipe(const qll_site *site)
{
    const qll_outlet *found = NULL;
    double most_m3 = 0.0;
    for (size_t i = 0; i < site->outlet_count; i++) {
        double sum_m3 = 0.0;
        for (size_t k = 0; k < site->outlets[i].path_count; k++) {
            sum_m3 += volume_m3(&site->outlets[i].path[k].pipe);
        }
        if (sum_m3 > most_m3) {
            most_m3 = sum_m3;
            found = &site->outlets[i];
        }
    }
    return found;
}

qll_closed_part qll_heater_part(const qll_heater *heater)
{
    const qll_material *steel = qll_material_find(qll_text_of("steel"));
    return (qll_closed_part){.volume_m3 = heater->volume_m3,
                             .temperature_degc = heater->cold_degc,
                             .is_heated = true,
                             .bore_m = QLL_SHELL_BORE_M,
                             .wall_m = QLL_SHELL_WALL_M,
                             .modulus_pa = steel->modulus_pa,
                             .poisson = steel->poisson,
                             .wall_expansion_per_k = steel->expansion_per_k};
}

/* False for a pipe of which too little is known, or that holds nothing. */
static bool pipe_part(const qll_site *site, const qll_path_run *run, qll_closed_part *part)
{
    const qll_material *material =
        run->size == NULL ? NULL : qll_material_find(qll_text_of(run->size->material));
    if (material == NULL || !(volume_m3(&run->pipe) > 0.0)) {
        return false;
    }
    *part = (qll_closed_part){.volume_m3 = volume_m3(&run->pipe),
                              .temperature_degc = site->water.temperature_degc,
                              .bore_m = run->size->bore_m,
                              .wall_m = run->size->wall_m,
                              .modulus_pa = material->modulus_pa,
                              .poisson = material->poisson,
                              .wall_expansion_per_k = material->expansion_per_k};
    return true;
}

/* Eq. 4 summed over the heating: the pressure is held at its start, where water is a little softer
 * than later on. */
static void follow_heating(const qll_site *site, qll_closed_part *parts, size_t count,
                           qll_closed_system *closed)
{
    const qll_heater *heater = &site->heater;
    double start_pa = closed->rest_pa_gauge + site->barometric_pa;
    double to_relief_pa = heater->relief_pa_gauge - closed->rest_pa_gauge;
    double step_k = (heater->hot_degc - heater->cold_degc) / QLL_HEATING_STEPS;
    double sum_pa = 0.0;
    closed->kelvin_to_relief = NAN;
    closed->rise_pa_per_k = qll_closed_rise_pa_per_k(parts, count, start_pa);
    closed->rise_pa = 0.0;
    for (int i = 0; i < QLL_HEATING_STEPS; i++) {
        parts[0].temperature_degc = heater->cold_degc + (i + 0.5) * step_k;
        double rise_pa = step_k * qll_closed_rise_pa_per_k(parts, count, start_pa);
        if (isnan(closed->kelvin_to_relief) && sum_pa + rise_pa >= to_relief_pa) {
            double into = rise_pa > 0.0 ? fmax(to_relief_pa - sum_pa, 0.0) / rise_pa : 0.0;
            closed->kelvin_to_relief = (i + into) * step_k;
        }
        sum_pa += rise_pa;
        closed->rise_pa = fmax(closed->rise_pa, sum_pa);
    }
}

/* Pressures that decide on a tank, gauge Pa. */
typedef struct tank_pressures {
    double precharge, rest, limit;
} tank_pressures;

/* Eq. 3a; NaN if no tank has room. */
static double tank_m3(const qll_site *site, double expanded_m3, tank_pressures at)
{
    double air_pa = site->barometric_pa;
    double share =
        qll_expansion_tank_share(at.precharge + air_pa, at.rest + air_pa, at.limit + air_pa);
    return share > 0.0 ? expanded_m3 / share : (double)NAN;
}

static double needed_m3(const qll_site *site, const qll_closed_system *closed,
                        double precharge_pa_gauge)
{
    return tank_m3(
        site, closed->expanded_m3,
        (tank_pressures){precharge_pa_gauge, closed->rest_pa_gauge, closed->limit_pa_gauge});
}

static double sensible_m3(const qll_site *site, double needed)
{
    return qll_tank_is_sensible(needed, site->heater.volume_m3) ? needed : (double)NAN;
}

/* A lower setting moves the outlet at no flow by as much. The growth is that at the present pressure: it
 * hardly depends on it. */
static qll_tank_cures cures_of(const qll_site *site, const qll_closed_system *closed)
{
    qll_tank_cures cures = {.relief_limit_pa_gauge =
                                QLL_RELIEF_SHARE * site->heater.relief_pa_gauge};
    const tank_pressures now = {closed->precharge_pa_gauge, closed->rest_pa_gauge,
                                closed->limit_pa_gauge};
    for (int i = 0; i < QLL_TANK_STEPS; i++) {
        double by_pa = (i + 1) * QLL_TANK_STEP_PA;
        const tank_pressures lower = {now.precharge - by_pa, now.rest - by_pa, now.limit};
        cures.lower_by_pa[i] = by_pa;
        cures.lower_m3[i] = sensible_m3(site, tank_m3(site, closed->expanded_m3, lower));
    }
    const tank_pressures relief = {now.precharge, now.rest, cures.relief_limit_pa_gauge};
    cures.by_relief_m3 = cures.relief_limit_pa_gauge > now.limit
                             ? sensible_m3(site, tank_m3(site, closed->expanded_m3, relief))
                             : (double)NAN;
    return cures;
}

qll_closed_system qll_closed_system_of(const qll_site *site, const qll_rest *rest)
{
    const qll_heater *heater = &site->heater;
    qll_closed_system closed = {.has_heater = is_known(heater->volume_m3),
                                .has_tank = is_known(site->tank.volume_m3),
                                .rest_pa_gauge = rest->high_pa_gauge,
                                .rise_pa_per_k = NAN,
                                .rise_pa = NAN,
                                .kelvin_to_relief = NAN,
                                .expanded_m3 = NAN,
                                .limit_pa_gauge = NAN,
                                .precharge_pa_gauge = NAN,
                                .tank_m3 = NAN,
                                .tank_at_own_m3 = NAN,
                                .relief_static_pa_gauge = NAN,
                                .relief_margin_pa_gauge = NAN,
                                .cures = {.lower_m3 = {NAN, NAN}, .by_relief_m3 = NAN}};
    if (!closed.has_heater) {
        return closed;
    }
    closed.precharge_pa_gauge = rest->middle_pa_gauge;
    closed.limit_pa_gauge = fmin(site->static_max_pa_gauge - qll_site_lowest_column_pa(site),
                                 QLL_RELIEF_SHARE * heater->relief_pa_gauge);
    closed.relief_static_pa_gauge = rest->high_pa_gauge / QLL_STATIC_SHARE;
    closed.relief_margin_pa_gauge = rest->high_pa_gauge + QLL_RELIEF_MARGIN_PA;
    const qll_heated heated = {.volume_m3 = heater->volume_m3,
                               .cold_degc = heater->cold_degc,
                               .hot_degc = heater->hot_degc,
                               .pressure_pa = rest->high_pa_gauge + site->barometric_pa};
    closed.expanded_m3 = fmax(qll_expanded_m3(&heated), 0.0);
    closed.tank_m3 = needed_m3(site, &closed, closed.precharge_pa_gauge);
    closed.cures = cures_of(site, &closed);
    if (closed.has_tank) {
        double own_pa_gauge = site->tank.precharge_pa_gauge;
        closed.tank_at_own_m3 = needed_m3(
            site, &closed, isnan(own_pa_gauge) ? closed.precharge_pa_gauge : own_pa_gauge);
    }
    return closed;
}

qll_status qll_closed_system_heat(const qll_site *site, qll_arena *arena, qll_closed_system *closed)
{
    if (!closed->has_heater) {
        return QLL_OK;
    }
    const qll_outlet *outlet = most_pipe(site);
    size_t most = outlet == NULL ? 1 : outlet->path_count + 1;
    qll_arena_mark mark = qll_arena_now(arena);
    qll_closed_part *parts = qll_arena_take(arena, most, sizeof *parts);
    if (parts == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t count = 1;
    parts[0] = qll_heater_part(&site->heater);
    for (size_t i = 0; i + 1 < most; i++) {
        count += pipe_part(site, &outlet->path[i], &parts[count]) ? 1 : 0;
    }
    follow_heating(site, parts, count, closed);
    qll_arena_reset(arena, mark);
    return QLL_OK;
}
