#include "physics/valve.h"

#include "base/customary.h"
#include "physics/sizing.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>

const char *const qll_acting_words[QLL_ACTING_COUNT] = {"direct", "pilot"};

static const double pa_per_bar = 1e5;
static const double seconds_per_hour = 3600;
/* Share of full Kv within which a sheet point counts as full travel (rounding only). */
static const double full_travel_slack = 1e-9;

/* Our assumptions for what a sheet leaves out, per way of acting; docs/theory/valve.md says why. */
typedef struct assumption {
    double lockup_rise_pa;
    double inlet_effect;
    double flow_min_share; /* of the flow at full Kv, drop and outlet 3 bar */
} assumption;

static const assumption assumptions[QLL_ACTING_COUNT] = {
    [QLL_ACTING_DIRECT] = {.lockup_rise_pa = 3 * QLL_PSI_PA,
                           .inlet_effect = 0.05,
                           .flow_min_share = 0.10},
    [QLL_ACTING_PILOT] = {.lockup_rise_pa = 1 * QLL_PSI_PA,
                          .inlet_effect = 0,
                          .flow_min_share = 0.05},
};

/* Where the assumed least stable flow stands, and where a sheet's stands that has no pressures. */
static const qll_stability_point assumed_at = {.drop_pa = 3e5, .outlet_pa_gauge = 3e5};

qll_stability_point qll_valve_stability_reference(const qll_valve *valve)
{
    assert(valve != NULL);
    qll_stability_point sheet = {
        .drop_pa = valve->sheet_inlet_pa_gauge - valve->sheet_set_pa_gauge,
        .outlet_pa_gauge = valve->sheet_set_pa_gauge,
    };
    return sheet.drop_pa > 0 && sheet.outlet_pa_gauge > 0 ? sheet : assumed_at;
}

/* The assumed share of the flow at full Kv, moved to the pressures of the sheet. */
static double assumed_flow_min_m3s(const qll_valve *valve, double share)
{
    qll_stability_point at = qll_valve_stability_reference(valve);
    double full_flow = valve->kv_m3h / seconds_per_hour * sqrt(assumed_at.drop_pa / pa_per_bar);
    return share * full_flow * qll_stability_measure(at.drop_pa, at.outlet_pa_gauge)
           / qll_stability_measure(assumed_at.drop_pa, assumed_at.outlet_pa_gauge);
}

static void fill(qll_valve *valve, double *value, qll_valve_default which, double assumed)
{
    if (isnan(*value)) {
        *value = assumed;
        valve->defaulted |= 1u << which;
    }
}

void qll_valve_fill_defaults(qll_valve *valve)
{
    assert(valve != NULL && valve->acting < QLL_ACTING_COUNT);
    const assumption *assumed = &assumptions[valve->acting];
    fill(valve, &valve->temperature_max_degc, QLL_VALVE_TEMPERATURE_MAX, (180 - 32) / 1.8);
    fill(valve, &valve->lockup_rise_pa, QLL_VALVE_LOCKUP_RISE, assumed->lockup_rise_pa);
    fill(valve, &valve->inlet_effect, QLL_VALVE_INLET_EFFECT, assumed->inlet_effect);
    fill(valve, &valve->flow_min_m3s, QLL_VALVE_FLOW_MIN,
         assumed_flow_min_m3s(valve, assumed->flow_min_share));
    fill(valve, &valve->hysteresis_pa, QLL_VALVE_HYSTERESIS, 1 * QLL_PSI_PA);
    fill(valve, &valve->fl, QLL_VALVE_FL, 0.90);
    fill(valve, &valve->fd, QLL_VALVE_FD, 0.46);
    /* Stays NaN: qll_xfz_estimate() at the Kv of the moment. */
    fill(valve, &valve->xfz, QLL_VALVE_XFZ, NAN);
}

/* Kv at a fall-off point of the sheet, taken with water of 15 degC at sea level; NaN if the point
 * makes no sense. */
static double point_kv(const qll_valve *valve, const qll_point *point)
{
    double outlet = valve->sheet_set_pa_gauge - point->y;
    double drop = valve->sheet_inlet_pa_gauge - outlet;
    if (!(outlet >= 0) || !(drop > 0)) {
        return NAN;
    }
    double atmosphere = qll_barometric_pa(0);
    const qll_water water = qll_water_at(15, atmosphere);
    double choked =
        qll_valve_choked_drop_pa(valve->sheet_inlet_pa_gauge + atmosphere, valve->fl, &water);
    if (drop > choked) {
        drop = choked;
    }
    return drop > 0 ? point->x * seconds_per_hour / sqrt(drop / pa_per_bar) : (double)NAN;
}

/* Lays the knots of the sheet's points after (0, 0); false if they are no opening law. */
static bool lay_points(const qll_valve *valve, qll_point *knots, size_t *count)
{
    for (size_t i = 0; i < valve->falloff_count; i++) {
        const qll_point *point = &valve->falloff_points[i];
        if (i == 0 && point->x == 0 && point->y == 0) {
            continue; /* the origin is a knot already */
        }
        qll_point knot = {.x = point->y, .y = point_kv(valve, point)};
        const qll_point *before = &knots[*count - 1];
        if (!isfinite(knot.x) || !(knot.x > before->x) || !(knot.y > before->y)
            || !(knot.y <= valve->kv_m3h * (1 + full_travel_slack))) {
            return false;
        }
        knots[*count] = knot;
        *count += 1;
    }
    return *count > 1;
}

/* From the last point on the last slope to full travel. */
static void extend_to_full(double kv_m3h, qll_point *knots, size_t *count)
{
    qll_point *last = &knots[*count - 1];
    const qll_point *before = last - 1;
    if (last->y >= kv_m3h * (1 - full_travel_slack)) {
        last->y = kv_m3h;
        return;
    }
    double slope = (last->y - before->y) / (last->x - before->x);
    knots[*count] = (qll_point){.x = last->x + (kv_m3h - last->y) / slope, .y = kv_m3h};
    *count += 1;
}

qll_status qll_opening_law_make(const qll_valve *valve, qll_arena *arena, qll_opening_law *law)
{
    assert(valve != NULL && arena != NULL && law != NULL);
    if (!(valve->kv_m3h > 0) || !isfinite(valve->kv_m3h) || valve->falloff_count > SIZE_MAX - 2) {
        return QLL_REFUSED;
    }
    qll_point *knots = qll_arena_take(arena, valve->falloff_count + 2, sizeof *knots);
    if (knots == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t count = 1; /* (0, 0) */
    if (valve->falloff_count > 0) {
        if (!lay_points(valve, knots, &count)) {
            return QLL_REFUSED;
        }
        extend_to_full(valve->kv_m3h, knots, &count);
    } else {
        if (!(valve->band_pa > 0) || !isfinite(valve->band_pa)) {
            return QLL_REFUSED;
        }
        knots[count] = (qll_point){.x = valve->band_pa, .y = valve->kv_m3h};
        count += 1;
    }
    double full = knots[count - 1].x;
    if (!isfinite(full)) {
        return QLL_REFUSED;
    }
    *law = (qll_opening_law){.kv_of_falloff = {.points = knots, .count = count},
                             .full_falloff_pa = full};
    return QLL_OK;
}

double qll_opening_law_kv(const qll_opening_law *law, double falloff_pa)
{
    assert(law != NULL);
    return qll_curve_at(law->kv_of_falloff, falloff_pa);
}

double qll_valve_ff(const qll_water *water)
{
    return qll_sizing_ff(water->vapour_pressure_pa, QLL_WATER_CRITICAL_PA);
}

double qll_valve_choked_drop_pa(double inlet_pa, double fl, const qll_water *water)
{
    return qll_sizing_choked_drop_pa(inlet_pa, fl, qll_valve_ff(water), water->vapour_pressure_pa);
}

/* The drop that moves water, Pa; 0 if the outlet is not below the inlet; NaN for nonsense. */
static double sizing_drop_pa(double inlet_pa, double outlet_pa, double fl, const qll_water *water)
{
    double choked = qll_valve_choked_drop_pa(inlet_pa, fl, water);
    double drop = inlet_pa - outlet_pa;
    if (isnan(choked) || isnan(drop)) {
        return NAN;
    }
    return fmax(fmin(drop, choked), 0);
}

double qll_valve_flow_m3s(double kv_m3h, double inlet_pa, double outlet_pa, double fl,
                          const qll_water *water)
{
    assert(water != NULL);
    if (!(kv_m3h >= 0)) {
        return NAN;
    }
    double drop_pa = sizing_drop_pa(inlet_pa, outlet_pa, fl, water);
    return kv_m3h * qll_sizing_unit_flow_m3s(drop_pa, water->density_kg_m3);
}

double qll_valve_kv_m3h(double flow_m3s, double inlet_pa, double outlet_pa, double fl,
                        const qll_water *water)
{
    assert(water != NULL);
    double drop_pa = sizing_drop_pa(inlet_pa, outlet_pa, fl, water);
    double unit = qll_sizing_unit_flow_m3s(drop_pa, water->density_kg_m3);
    if (!(flow_m3s >= 0) || isnan(unit)) {
        return NAN;
    }
    if (flow_m3s == 0) {
        return 0;
    }
    return unit > 0 ? flow_m3s / unit : (double)NAN;
}
