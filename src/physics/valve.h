/* A reducing valve: its data sheet, its opening law, and the flow it passes. */
#ifndef QUELL_PHYSICS_VALVE_H
#define QUELL_PHYSICS_VALVE_H

#include "base/problems.h"
#include "numeric/curve.h"
#include "physics/stability.h"
#include "physics/water.h"

#include <math.h>
#include <stdbool.h>

typedef enum qll_acting {
    QLL_ACTING_DIRECT,
    QLL_ACTING_PILOT,
    QLL_ACTING_COUNT
} qll_acting;

extern const char *const qll_acting_words[QLL_ACTING_COUNT]; /* "direct", "pilot" */

/** Sheet values that a catalogue may leave out; X(bit name, JSON key). */
#define QLL_VALVE_DEFAULT_LIST(X)         \
    X(TEMPERATURE_MAX, "temperature_max") \
    X(LOCKUP_RISE, "lockup_rise")         \
    X(INLET_EFFECT, "inlet_effect")       \
    X(FLOW_MIN, "flow_min")               \
    X(HYSTERESIS, "hysteresis")           \
    X(FL, "fl")                           \
    X(FD, "fd")                           \
    X(XFZ, "xfz")                         \
    X(SEAT_BORE, "seat_bore")             \
    X(MOVING_MASS, "moving_mass")         \
    X(SPRING_RATE, "spring_rate")         \
    X(DAMPING, "damping")                 \
    X(DIAPHRAGM, "diaphragm")             \
    X(STROKE_TIME, "stroke_time")

typedef enum qll_valve_default {
#define QLL_VALVE_DEFAULT_NAME(name, key) QLL_VALVE_##name,
    QLL_VALVE_DEFAULT_LIST(QLL_VALVE_DEFAULT_NAME)
#undef QLL_VALVE_DEFAULT_NAME
    QLL_VALVE_DEFAULT_COUNT
} qll_valve_default;

/** What a data sheet gives. Unset optional numbers are NaN until qll_valve_fill_defaults(). */
typedef struct qll_valve {
    const char *id;
    double nominal_m;
    qll_acting acting;
    unsigned defaulted; /* bit per qll_valve_default that was filled */
    double kv_m3h;      /* full open */
    double set_min_pa_gauge, set_max_pa_gauge;
    double inlet_max_pa_gauge;
    double temperature_max_degc;
    double sheet_inlet_pa_gauge; /* at which the fall-off points were measured */
    double sheet_set_pa_gauge;
    const qll_point *falloff_points; /* x = flow m3/s, y = fall-off Pa, both rising */
    size_t falloff_count;            /* 0 if band_pa is given instead */
    double band_pa;                  /* fall-off at full travel, linear law */
    double lockup_rise_pa;
    double inlet_effect; /* outlet change per inlet change; positive = rises with the inlet */
    double flow_min_m3s; /* least stable flow at the sheet's pressures */
    double hysteresis_pa;
    double fl, fd, xfz;     /* xfz NaN = estimated from the opening */
    double seat_bore_m;     /* do of the noise method */
    double strainer_kv_m3h; /* clean screen in the body; NaN if none */
    double price;           /* NaN if unknown */
    double lead_days;       /* NaN if unknown */
    bool bypass;            /* relieves to the inlet when the outlet stands above it */
    /* How it moves (docs/theory/valve_motion.md): few sheets say; over 0 where this one does. Defaults fill
     * nothing in here, for what is assumed is a range: its bit alone is set. */
    double moving_mass_kg, spring_n_m, damping_n_s_m;
    double diaphragm_m; /* diameter of the area that the outlet works on */
    double stroke_s;    /* pilot operated: from shut to open */
    qll_chatter_build
        build; /* what follows from that for its chatter; not known: the prior holds */
} qll_valve;

/** Does its sheet say enough of its motion to tell its chatter from that of other builds? */
static inline bool qll_valve_says_motion(const qll_valve *valve)
{
    return valve->acting == QLL_ACTING_DIRECT && valve->moving_mass_kg > 0 && valve->spring_n_m > 0
           && valve->damping_n_s_m > 0;
}

/** Takes what was found of its build. A least stable flow that its sheet states stays. */
void qll_valve_take_build(qll_valve *valve, const qll_chatter_build *build);

/** Its hysteresis band, Pa; 0 where it is not known. */
static inline double qll_valve_hysteresis_pa(const qll_valve *valve)
{
    return isnan(valve->hysteresis_pa) ? 0.0 : valve->hysteresis_pa;
}

/** Seat over nominal size where no sheet says: 0.5 to 0.6 is usual (our assumption). */
#define QLL_SEAT_SHARE 0.55

/** How its least stable flow moves with the pressures: as stated by stability.md 5, as estimated by
 * the prior's law, flow_min_m3s at the sheet's pressures either way. */
qll_least_flow qll_valve_least_flow(const qll_valve *valve);

/**
 * What is thought of its chatter with @p drop_pa over and @p outlet_pa_gauge behind it: the prior
 * where the sheet is silent; where it states a least flow, all such valves, round that flow moved
 * here. median_share is at most 1.
 */
qll_chatter_prior qll_valve_chatter(const qll_valve *valve, double drop_pa, double outlet_pa_gauge);

/** Bore of its seat: the sheet's, or 0.55 of its size (our assumption). */
static inline double qll_valve_seat_m(const qll_valve *valve)
{
    return valve->seat_bore_m > 0.0 ? valve->seat_bore_m : QLL_SEAT_SHARE * valve->nominal_m;
}

/** Fills what the sheet leaves out by the stated defaults (docs/theory/valve.md) and marks it. */
void qll_valve_fill_defaults(qll_valve *valve);

/**
 * Flow coefficient over fall-off: the opening law. x = fall-off Pa from 0, y = Kv m3/h, both
 * rising, last y = kv_m3h at full travel; straight lines between.
 */
typedef struct qll_opening_law {
    qll_curve kv_of_falloff;
    double full_falloff_pa; /* x of the last knot */
} qll_opening_law;

/**
 * Builds the law from the sheet: at each point Kv = q/sqrt(dp) with dp = inlet - (set - fall-off),
 * water of 15 degC, at most the choked drop if fl is known; from the last point on the last slope to
 * full Kv; or the straight line of band_pa. A first point (0, 0) may stand or be left out.
 *
 * @param law its points live in @p arena
 * @return QLL_OK; QLL_REFUSED if no such law exists (Kv of a point above full Kv, or not rising);
 *         QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_opening_law_make(const qll_valve *valve, qll_arena *arena,
                                             qll_opening_law *law);

/** Kv at @p falloff_pa: 0 at or below 0, full beyond full travel. */
double qll_opening_law_kv(const qll_opening_law *law, double falloff_pa);

/** Liquid pressure recovery: critical pressure ratio factor FF = 0.96 - 0.28 sqrt(pv/pc). */
double qll_valve_ff(const qll_water *water);

/** Pressure drop beyond which flow no longer grows, Pa: FL^2 (p1 - FF pv), p1 absolute. */
double qll_valve_choked_drop_pa(double inlet_pa, double fl, const qll_water *water);

/**
 * Flow through Kv from absolute inlet to outlet, choked where it must be, m3/s; turbulent, no
 * reducers (IEC 60534-2-1). 0 if the outlet is not below the inlet; NaN for a negative Kv or a NaN.
 */
double qll_valve_flow_m3s(double kv_m3h, double inlet_pa, double outlet_pa, double fl,
                          const qll_water *water);

/** Kv that passes @p flow_m3s, m3/h (the inverse); NaN if no Kv does. */
double qll_valve_kv_m3h(double flow_m3s, double inlet_pa, double outlet_pa, double fl,
                        const qll_water *water);

/** Exact ratio Cv / Kv. */
#define QLL_CV_PER_KV 1.1560992283536566

#endif
