/* Least flow at which a reducing valve throttles steadily, and how it moves with the pressures. */
#ifndef QUELL_PHYSICS_STABILITY_H
#define QUELL_PHYSICS_STABILITY_H

#include <math.h>
#include <stdbool.h>

/** What is thought of valves whose sheet does not state a least stable flow. */
typedef struct qll_chatter_prior {
    double chatters;     /* share of such valves that chatter at any flow, pi */
    double median_share; /* phi of those: least stable flow over full-open flow at the same drop */
    double ln_sigma;     /* ln phi is normal about the median; what lies above 1 counts as 1 */
} qll_chatter_prior;

/**
 * The prior at @p drop_pa over the valve. It is judgement, nothing measured: the trend with the drop
 * from simulated valves of plausible build, the level from the trade, no trend with size
 * (docs/theory/stability.md, 1 and 2). No drop: nothing chatters. NaN in, NaN out.
 */
qll_chatter_prior qll_stability_prior(bool is_pilot, double drop_pa);

/**
 * What the criterion of its swing says of one build, beside all plausible ones: how the prior of a silent sheet moves
 * (docs/theory/stability.md, 7). The level stays the prior's.
 */
typedef struct qll_chatter_build {
    bool is_known;
    double odds_ratio;  /* of chattering at all */
    double share_ratio; /* of the median least stable flow */
    double ln_sigma;    /* about that median */
} qll_chatter_build;

/* Spread of ln phi round what a sheet states (our assumption). */
#define QLL_STABILITY_STATED_LN_SIGMA 0.5

/**
 * Chance that chatter is heard of a valve that chatters at some flow: judgement on simulated valves
 * (docs/theory/stability.md, 4).
 *
 * @param flow_over_stable the flow over the least stable flow there; 0 from 1.6 on
 * @param power_w          flow x drop at the seat; 0 without power
 * @param is_pilot         hunting is slower than a tap's noise: half as likely heard
 */
double qll_stability_heard(double flow_over_stable, double power_w, bool is_pilot);

/** Where a least stable flow is stated or asked for. */
typedef struct qll_stability_point {
    double drop_pa;         /* over the valve, > 0 */
    double outlet_pa_gauge; /* > 0 */
} qll_stability_point;

/**
 * What a stated least stable flow grows with: sqrt(drop) / (1/drop + 1/outlet). Its ratio between two
 * points is that of the least stable flows of one valve. 0 where there is no drop or no pressure
 * behind it.
 */
static inline double qll_stability_measure(double drop_pa, double outlet_pa_gauge)
{
    if (drop_pa <= 0 || outlet_pa_gauge <= 0) {
        return 0;
    }
    return sqrt(drop_pa) * drop_pa * outlet_pa_gauge / (drop_pa + outlet_pa_gauge);
}

/** A point as the least stable flow sees it. */
typedef struct qll_stability_here {
    double measure; /* qll_stability_measure() */
    double root;    /* of the drop, Pa^1/2; 0 without one */
    double ln_drop; /* of the drop in Pa; -infinity without one. Only an estimate needs it. */
} qll_stability_here;

static inline qll_stability_here qll_stability_at(double drop_pa, double outlet_pa_gauge)
{
    return (qll_stability_here){.measure = qll_stability_measure(drop_pa, outlet_pa_gauge),
                                .root = drop_pa <= 0 ? 0 : sqrt(drop_pa),
                                .ln_drop = drop_pa <= 0 ? (double)-INFINITY : log(drop_pa)};
}

/**
 * How the least stable flow of one valve moves with the pressures: as stated on a sheet by the measure
 * above; as estimated by the prior's own law, share of the full flow over drop, at most all of it.
 * qll_valve_least_flow() makes it.
 */
typedef struct qll_least_flow {
    double per_measure;          /* stated; m3/s */
    double full_per_root;        /* full-open flow over the root of the drop */
    double ln_share, drop_power; /* estimated: ln of the share is ln_share + drop_power ln(drop) */
    bool is_estimate;
} qll_least_flow;

/** The least stable flow at a point, m3/s; 0 without a drop. */
static inline double qll_least_flow_m3s(const qll_least_flow *law, const qll_stability_here *here)
{
    if (!law->is_estimate) {
        return law->per_measure * here->measure;
    }
    double ln_share = law->ln_share + law->drop_power * here->ln_drop;
    return (ln_share > 0 ? 1 : exp(ln_share)) * law->full_per_root * here->root;
}

/** Power of the drop that the prior's median share grows with. */
double qll_stability_drop_power(bool is_pilot);

/* Logistic in the logarithms of q/q_st and of the power in watts; MEMORY of docs/theory/stability.md. */
#define QLL_HEARD_LN_ODDS      (-1.04 - 1.87)
#define QLL_HEARD_PER_LN_FLOW  (1.07 / 2.302585092994046)
#define QLL_HEARD_PER_LN_POWER (1.87 / 2.302585092994046)
/* From the least stable flow to so many times it the chance falls to nothing. */
#define QLL_HEARD_BEYOND       1.6
#define QLL_HEARD_PILOT_SHARE  0.5

#endif
