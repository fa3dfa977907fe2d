/* What hazard.c and hazard_least.c share: docs/theory/recommendation.md, 4. Internal to the station module,
 * but for the search's bounds. */
#ifndef QUELL_STATION_HAZARD_TERMS_H
#define QUELL_STATION_HAZARD_TERMS_H

#include "base/customary.h"
#include "physics/stability.h"
#include "station/hazard.h"

#include <math.h>

/* How a share of the time becomes a complaint. */
#define QLL_COMPLAINT         2.0
#define QLL_NOISE_SPAN_DB     20.0
#define QLL_WEAR_SPAN_M_S     (7.0 * QLL_FOOT_M)
#define QLL_CAVITATION_SPAN   0.25
#define QLL_CAVITATION_HALF_W 60.0

static inline double qll_clamp(double x)
{
    return x > 0.0 ? (x < 1.0 ? x : 1.0) : 0.0;
}

/* What chatter is made of: flow over the median least stable flow at least and at most. */
typedef struct qll_chatter_terms {
    double least_over, most_over;
    double opening, share, power_w;
} qll_chatter_terms;

/* A flow over the median least stable flow; INFINITY where the valve has none. */
static inline double qll_over_stable(double flow_m3s, double stable_m3s)
{
    return stable_m3s > 0.0 ? flow_m3s / stable_m3s : (double)INFINITY;
}

/* Chatter of one valve at each node of its least stable flow. */
static inline void qll_put_chatter(const qll_branch_ruler *ruler, const qll_chatter_terms *at,
                                   double *row)
{
    const double farthest = QLL_HEARD_BEYOND * ruler->stable_factor[QLL_OWN_NODES - 1];
    if (!(at->most_over < farthest) || !(at->opening < QLL_HEARD_BEYOND)) {
        return;
    }
    const double odds = exp(QLL_HEARD_LN_ODDS + QLL_HEARD_PER_LN_POWER * log(at->power_w));
    const double less = exp(QLL_HEARD_PER_LN_FLOW * log(at->least_over));
    for (size_t m = 0; m < QLL_OWN_NODES; m++) {
        double over = at->most_over / ruler->stable_factor[m];
        over = over > at->opening ? over : at->opening; /* no least flow above the full one */
        double below = less * ruler->odds_factor[m];
        double here = odds * (below < 1.0 ? below : 1.0);
        double left = qll_clamp((QLL_HEARD_BEYOND - over) / (QLL_HEARD_BEYOND - 1.0));
        row[m] = at->share * ruler->heard_share * left * here / (1.0 + here);
    }
}

/* Wear of a valve that water passes at this velocity in its own size, with so much of the station's flow. */
static inline double qll_wear_severity(double share, double velocity_m_s)
{
    return share * qll_clamp((velocity_m_s - QLL_WEAR_FROM_M_S) / QLL_WEAR_SPAN_M_S);
}

/* Of cavitation, where xFz is @p xfz at one node and @p scaled the margin times the xFz it was figured with. */
static inline double qll_cavitation_severity(double xfz, double scaled)
{
    xfz = xfz > QLL_XFZ_LEAST ? xfz : QLL_XFZ_LEAST;
    xfz = xfz < QLL_XFZ_MOST ? xfz : QLL_XFZ_MOST;
    return qll_clamp((scaled / xfz - 1.0) / QLL_CAVITATION_SPAN);
}

static inline double qll_heard_severity(const qll_yardstick *yardstick, double energy)
{
    return energy > yardstick->energy_from
               ? qll_clamp(10.0 * log10(energy / yardstick->energy_from) / QLL_NOISE_SPAN_DB)
               : 0.0;
}

#endif
