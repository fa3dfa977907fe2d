/* docs/theory/fit.md. */
#include "physics/valve_fit.h"

#include <assert.h>
#include <math.h>

/* A point, sorted by fall-off. */
typedef struct sample {
    double falloff_pa, kv_m3h;
    size_t index; /* as given */
} sample;

typedef struct straight {
    double kv_m3h, band_pa;
    double sum; /* of squared shares */
} straight;

/* The drop that moves water at a point of a sheet, bar, as the opening law takes it: water of 15 degC
 * at sea level. */
static double drop_bar(double inlet_pa_gauge, double outlet_pa_gauge, double fl)
{
    double atmosphere_pa = qll_barometric_pa(0);
    const qll_water water = qll_water_at(15, atmosphere_pa);
    double choked_pa = qll_valve_choked_drop_pa(inlet_pa_gauge + atmosphere_pa, fl, &water);
    return fmin(inlet_pa_gauge - outlet_pa_gauge, choked_pa) / 1e5;
}

double qll_sheet_flow_m3s(double kv_m3h, double inlet_pa_gauge, double outlet_pa_gauge, double fl)
{
    return kv_m3h * sqrt(drop_bar(inlet_pa_gauge, outlet_pa_gauge, fl)) / 3600;
}

static double measured_kv(const qll_capacity_point *point, double fl)
{
    double outlet_pa_gauge = point->set_pa_gauge - point->falloff_pa;
    if (!(point->flow_m3s > 0 && point->falloff_pa > 0 && outlet_pa_gauge >= 0
          && point->set_pa_gauge < point->inlet_pa_gauge)) {
        return NAN;
    }
    return point->flow_m3s / qll_sheet_flow_m3s(1, point->inlet_pa_gauge, outlet_pa_gauge, fl);
}

/* By rising fall-off; equal ones by Kv. Insertion: sheets have tens of points. */
static void insert(sample *samples, size_t count, sample added)
{
    size_t at = count;
    while (at > 0
           && (samples[at - 1].falloff_pa > added.falloff_pa
               || (samples[at - 1].falloff_pa == added.falloff_pa
                   && samples[at - 1].kv_m3h > added.kv_m3h))) {
        samples[at] = samples[at - 1];
        at -= 1;
    }
    samples[at] = added;
}

static bool find_fault(const sample *samples, size_t count, double kv_m3h, qll_valve_fit *fit)
{
    const sample *most = &samples[0];
    for (size_t i = 0; i < count; i++) {
        const sample *here = &samples[i];
        if (here->kv_m3h > kv_m3h * (1 + QLL_FIT_AGREE)) {
            fit->fault = QLL_FIT_ABOVE_FULL;
            fit->first = here->index;
            return true;
        }
        bool same = here->falloff_pa == most->falloff_pa;
        double apart = here->kv_m3h / most->kv_m3h;
        if (apart < 1 - QLL_FIT_AGREE || (same && apart > 1 + QLL_FIT_AGREE)) {
            fit->fault = QLL_FIT_CONTRADICTION;
            fit->first = most->index;
            fit->second = here->index;
            return true;
        }
        most = here->kv_m3h >= most->kv_m3h ? here : most;
    }
    return false;
}

static double opening(double falloff_pa, double band_pa)
{
    return fmin(1, falloff_pa / band_pa);
}

static double sum_of(const sample *samples, size_t count, double kv_m3h, double band_pa)
{
    double sum = 0;
    for (size_t i = 0; i < count; i++) {
        double share = kv_m3h * opening(samples[i].falloff_pa, band_pa) / samples[i].kv_m3h - 1;
        sum += share * share;
    }
    return sum;
}

static void try_law(const sample *samples, size_t count, double kv_m3h, double band_pa,
                    straight *best)
{
    if (!(kv_m3h > 0 && band_pa > 0 && isfinite(kv_m3h) && isfinite(band_pa))) {
        return;
    }
    double sum = sum_of(samples, count, kv_m3h, band_pa);
    if (sum < best->sum) {
        *best = (straight){kv_m3h, band_pa, sum};
    }
}

/* Least squares of m x - 1 over x = what a unit of the parameter gives over what was measured. */
static double least_squares(const sample *samples, size_t from, size_t to, double band_pa)
{
    double once = 0;
    double twice = 0;
    for (size_t i = from; i < to; i++) {
        double x =
            (isnan(band_pa) ? samples[i].falloff_pa : opening(samples[i].falloff_pa, band_pa))
            / samples[i].kv_m3h;
        once += x;
        twice += x * x;
    }
    return once / twice;
}

/* Eq. 3: the first @p open points throttle, the others are fully open; or full travel lies at a
 * point. One of these is the least of all. */
static straight fit_straight(const sample *samples, size_t count, double given_kv_m3h)
{
    straight best = {NAN, NAN, INFINITY};
    bool given = !isnan(given_kv_m3h);
    for (size_t open = 1; open <= count; open++) {
        double slope = least_squares(samples, 0, open, NAN); /* Kv per Pa */
        double at_pa = samples[open - 1].falloff_pa;
        double at_kv = given ? given_kv_m3h : least_squares(samples, 0, count, at_pa);
        try_law(samples, count, at_kv, at_pa, &best);
        if (given || open < count) {
            /* All lie beyond the first fall-off: openings of 1. */
            double full_kv =
                given ? given_kv_m3h : least_squares(samples, open, count, samples[0].falloff_pa);
            try_law(samples, count, full_kv, full_kv / slope, &best);
        }
    }
    return best;
}

/* Points of one fall-off, and neighbours that break the rise within what agrees, become their mean:
 * pool adjacent violators, each mean weighted by the points in it. */
static size_t merge(const sample *samples, size_t count, size_t *weights, qll_point *law)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        law[kept] = (qll_point){samples[i].falloff_pa, samples[i].kv_m3h};
        weights[kept] = 1;
        kept += 1;
        while (kept > 1
               && (law[kept - 1].x <= law[kept - 2].x || law[kept - 1].y <= law[kept - 2].y)) {
            size_t together = weights[kept - 1] + weights[kept - 2];
            double share = (double)weights[kept - 1] / (double)together;
            law[kept - 2].x += (law[kept - 1].x - law[kept - 2].x) * share;
            law[kept - 2].y += (law[kept - 1].y - law[kept - 2].y) * share;
            weights[kept - 2] = together;
            kept -= 1;
        }
    }
    return kept;
}

static void put_rows(const sample *samples, size_t count, const qll_capacity_point *points,
                     qll_valve_fit *fit, qll_fit_row *rows)
{
    fit->worst_share = 0;
    for (size_t i = 0; i < count; i++) {
        double fitted = fit->kv_m3h * opening(samples[i].falloff_pa, fit->band_pa);
        double share = fitted / samples[i].kv_m3h - 1;
        size_t at = samples[i].index;
        rows[at] = (qll_fit_row){.kv_m3h = samples[i].kv_m3h,
                                 .fitted_flow_m3s = points[at].flow_m3s * (1 + share),
                                 .residual_share = share};
        fit->worst_share = fmax(fit->worst_share, fabs(share));
    }
    fit->rows = rows;
}

qll_status qll_valve_fit_make(const qll_capacity_point *points, size_t count, double kv_m3h,
                              double fl, qll_arena *arena, qll_valve_fit *fit)
{
    assert(points != NULL || count == 0);
    *fit = (qll_valve_fit){.kv_m3h = NAN, .band_pa = NAN, .rms_share = NAN, .worst_share = NAN};
    if (count < 2) {
        fit->fault = QLL_FIT_TOO_FEW;
        return QLL_OK;
    }
    sample *samples = qll_arena_take(arena, count, sizeof *samples);
    qll_fit_row *rows = qll_arena_take(arena, count, sizeof *rows);
    qll_point *law = qll_arena_take(arena, count, sizeof *law);
    size_t *weights = qll_arena_take(arena, count, sizeof *weights);
    if (samples == NULL || rows == NULL || law == NULL || weights == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        sample added = {points[i].falloff_pa, measured_kv(&points[i], fl), i};
        if (!(added.kv_m3h > 0) || !isfinite(added.kv_m3h)) {
            fit->fault = QLL_FIT_IMPOSSIBLE;
            fit->first = i;
            return QLL_OK;
        }
        insert(samples, i, added);
    }
    if (find_fault(samples, count, kv_m3h, fit)) {
        return QLL_OK;
    }
    straight best = fit_straight(samples, count, kv_m3h);
    fit->kv_m3h = best.kv_m3h;
    fit->band_pa = best.band_pa;
    fit->rms_share = sqrt(best.sum / (double)count);
    fit->full_travel_seen =
        !isnan(kv_m3h) || best.band_pa < samples[count - 1].falloff_pa * (1 - 1e-9);
    put_rows(samples, count, points, fit, rows);
    fit->law = law;
    fit->law_count = merge(samples, count, weights, law);
    return QLL_OK;
}
