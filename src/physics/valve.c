#include "physics/valve.h"

#include "base/count.h"
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
} assumption;

static const assumption assumptions[QLL_ACTING_COUNT] = {
    [QLL_ACTING_DIRECT] = {.lockup_rise_pa = 3 * QLL_PSI_PA, .inlet_effect = 0.05},
    [QLL_ACTING_PILOT] = {.lockup_rise_pa = 1 * QLL_PSI_PA, .inlet_effect = 0},
};

/* Where the least stable flow stands of a sheet that has no pressures (our assumption). */
static const qll_stability_point assumed_at = {.drop_pa = 3e5, .outlet_pa_gauge = 3e5};

/* The pressures that the least stable flow is stated at. */
static qll_stability_point stability_reference(const qll_valve *valve)
{
    qll_stability_point sheet = {
        .drop_pa = valve->sheet_inlet_pa_gauge - valve->sheet_set_pa_gauge,
        .outlet_pa_gauge = valve->sheet_set_pa_gauge,
    };
    return sheet.drop_pa > 0 && sheet.outlet_pa_gauge > 0 ? sheet : assumed_at;
}

/* At full opening over the root of the drop in Pa. */
static double full_flow_per_root(const qll_valve *valve)
{
    return valve->kv_m3h / seconds_per_hour / sqrt(pa_per_bar);
}

/* The prior's median at the pressures of the sheet. */
static double assumed_flow_min_m3s(const qll_valve *valve)
{
    double drop_pa = stability_reference(valve).drop_pa;
    double share = qll_stability_prior(valve->acting == QLL_ACTING_PILOT, drop_pa).median_share;
    return share * full_flow_per_root(valve) * sqrt(drop_pa);
}

qll_least_flow qll_valve_least_flow(const qll_valve *valve)
{
    assert(valve != NULL);
    qll_stability_point point = stability_reference(valve);
    qll_stability_here sheet = qll_stability_at(point.drop_pa, point.outlet_pa_gauge);
    qll_least_flow law = {
        .per_measure = valve->flow_min_m3s / sheet.measure,
        .full_per_root = full_flow_per_root(valve),
        .drop_power = qll_stability_drop_power(valve->acting == QLL_ACTING_PILOT),
        .is_estimate = (valve->defaulted & (1u << QLL_VALVE_FLOW_MIN)) != 0,
    };
    law.ln_share = log(valve->flow_min_m3s / (law.full_per_root * sheet.root))
                   - law.drop_power * sheet.ln_drop;
    return law;
}

qll_chatter_prior qll_valve_chatter(const qll_valve *valve, double drop_pa, double outlet_pa_gauge)
{
    const qll_least_flow law = qll_valve_least_flow(valve);
    qll_chatter_prior prior = qll_stability_prior(valve->acting == QLL_ACTING_PILOT, drop_pa);
    const qll_stability_here here = qll_stability_at(drop_pa, outlet_pa_gauge);
    double share = here.root > 0 || isnan(here.root)
                       ? qll_least_flow_m3s(&law, &here) / (law.full_per_root * here.root)
                       : 0;
    prior.median_share = share > 1 ? 1 : share;
    if (!law.is_estimate) {
        prior.chatters = prior.median_share > 0 ? 1 : prior.median_share;
        prior.ln_sigma = QLL_STABILITY_STATED_LN_SIGMA;
    } else if (valve->build.is_known) {
        double odds = valve->build.odds_ratio * prior.chatters / (1 - prior.chatters);
        prior.chatters = 1 - 1 / (1 + odds);
        prior.ln_sigma = valve->build.ln_sigma;
    }
    return prior;
}

void qll_valve_take_build(qll_valve *valve, const qll_chatter_build *build)
{
    assert(valve != NULL && build != NULL);
    valve->build = *build;
    if (build->is_known && (valve->defaulted & (1u << QLL_VALVE_FLOW_MIN)) != 0) {
        valve->flow_min_m3s = build->share_ratio * assumed_flow_min_m3s(valve);
    }
}

static void fill(qll_valve *valve, double *value, qll_valve_default which, double assumed)
{
    if (isnan(*value)) {
        *value = assumed;
        valve->defaulted |= 1u << which;
    }
}

/* What its sheet does not say of its motion, as far as its kind moves by it. */
static void mark_motion(qll_valve *valve)
{
    const bool is_pilot = valve->acting == QLL_ACTING_PILOT;

    const struct {
        double value;
        bool matters;
        qll_valve_default which;
    } of[] = {{valve->moving_mass_kg, !is_pilot, QLL_VALVE_MOVING_MASS},
              {valve->spring_n_m, !is_pilot, QLL_VALVE_SPRING_RATE},
              {valve->damping_n_s_m, !is_pilot, QLL_VALVE_DAMPING},
              {valve->diaphragm_m, !is_pilot, QLL_VALVE_DIAPHRAGM},
              {valve->stroke_s, is_pilot, QLL_VALVE_STROKE_TIME}};

    for (size_t i = 0; i < QLL_COUNT(of); i++) {
        if (of[i].matters && !(of[i].value > 0)) {
            valve->defaulted |= 1u << of[i].which;
        }
    }
}

void qll_valve_fill_defaults(qll_valve *valve)
{
    assert(valve != NULL && valve->acting < QLL_ACTING_COUNT);
    const assumption *assumed = &assumptions[valve->acting];
    fill(valve, &valve->temperature_max_degc, QLL_VALVE_TEMPERATURE_MAX, (180 - 32) / 1.8);
    fill(valve, &valve->lockup_rise_pa, QLL_VALVE_LOCKUP_RISE, assumed->lockup_rise_pa);
    fill(valve, &valve->inlet_effect, QLL_VALVE_INLET_EFFECT, assumed->inlet_effect);
    fill(valve, &valve->flow_min_m3s, QLL_VALVE_FLOW_MIN, assumed_flow_min_m3s(valve));
    fill(valve, &valve->hysteresis_pa, QLL_VALVE_HYSTERESIS, 1 * QLL_PSI_PA);
    fill(valve, &valve->fl, QLL_VALVE_FL, 0.90);
    fill(valve, &valve->fd, QLL_VALVE_FD, 0.46);
    fill(valve, &valve->seat_bore_m, QLL_VALVE_SEAT_BORE, QLL_SEAT_SHARE * valve->nominal_m);
    /* Stays NaN: qll_xfz_estimate() at the Kv of the moment. */
    fill(valve, &valve->xfz, QLL_VALVE_XFZ, NAN);
    mark_motion(valve);
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
