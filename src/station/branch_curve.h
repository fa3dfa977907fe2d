/* A branch's flow coefficient over its fall-off, strainer and reducers included: internal to the
 * station module. */
#ifndef QUELL_STATION_BRANCH_CURVE_H
#define QUELL_STATION_BRANCH_CURVE_H

#include "station/station.h"

/** c(falloff) by straight lines: flow = c * sqrt(drop), and the Kv of the valve alone
 * between the same knots. Arrays, so that a search touches one. */
typedef struct qll_branch_curve {
    size_t count;
    const double *falloff_pa; /* rising from 0; one more after the last, infinity */
    const double *c;          /* m3/s per sqrt(Pa), rising from 0; stays at the last */
    const double *slope;      /* of c from each knot to the next; 0 at the last */
    const double *kv_m3h;     /* rising from 0 to full */
    const double *kv_slope;   /* as of c */
} qll_branch_curve;

/** Flow in m3/s of Kv = 1 m3/h at a drop of 1 Pa, for this water. */
double qll_flow_per_kv(const qll_water *water);

/* No trim cavitates from the first drop on, nor does any hold out to the last. */
#define QLL_XFZ_LEAST 0.05
#define QLL_XFZ_MOST  0.95

/** xFz of the branch's valve at a Kv of its own: the sheet's or the estimate, and its shift. */
static inline double qll_branch_xfz(const qll_branch *branch, double kv_m3h)
{
    const qll_valve *valve = branch->valve;
    double xfz = isnan(valve->xfz) ? qll_xfz_estimate(kv_m3h, valve->fl, valve->fd) : valve->xfz;
    if (branch->xfz_shift == 0.0) {
        return xfz;
    }
    double shifted = xfz + branch->xfz_shift;
    shifted = shifted > QLL_XFZ_LEAST ? shifted : QLL_XFZ_LEAST;
    return shifted < QLL_XFZ_MOST ? shifted : QLL_XFZ_MOST;
}

/**
 * The curve of @p branch. With something in series, 1/Kvc^2 = 1/Kv^2 + 1/Ks^2 at every knot, and
 * knots so close that straight lines between are wrong by less than 1e-4 of Kvc.
 */
QLL_MUST_USE qll_status qll_branch_curve_make(const qll_branch *branch, const qll_water *water,
                                              qll_arena *arena, qll_branch_curve *curve);

/** The last knot at or before a fall-off; the first if there is none. */
static inline size_t qll_branch_curve_segment(const qll_branch_curve *curve, double falloff_pa)
{
    size_t at = 0;
    for (size_t left = curve->count; left > 1;) {
        size_t half = left / 2;
        size_t before = curve->falloff_pa[at + half] <= falloff_pa;
        at += half & (0 - before);
        left -= half;
    }
    return at;
}

/** Where the curve stands at a fall-off: c and the slope to the right of it; the valve's own Kv. */
typedef struct qll_branch_c {
    double c, slope, kv_m3h;
} qll_branch_c;

static inline qll_branch_c qll_branch_curve_at(const qll_branch_curve *curve, double falloff_pa)
{
    if (!(falloff_pa > 0.0)) {
        return (qll_branch_c){0.0, 0.0, 0.0};
    }
    size_t at = qll_branch_curve_segment(curve, falloff_pa);
    double beyond_pa = falloff_pa - curve->falloff_pa[at];
    return (qll_branch_c){.c = curve->c[at] + curve->slope[at] * beyond_pa,
                          .slope = curve->slope[at],
                          .kv_m3h = curve->kv_m3h[at] + curve->kv_slope[at] * beyond_pa};
}

#endif
