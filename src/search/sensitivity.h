/* How sure the verdicts are: how often each holds when demand, supply and valve data are drawn from
 * what is known of them. docs/theory/sensitivity.md. */
#ifndef QUELL_SEARCH_SENSITIVITY_H
#define QUELL_SEARCH_SENSITIVITY_H

#include "station/verdict.h"

/** How far off what a design rests on may be; docs/theory/sensitivity.md, section 1. Half-widths of
 * even distributions but the first. */
typedef struct qll_uncertainty {
    double demand_ln_sigma; /* of the factor on all flows, lognormal; the design peak stays */
    double static_share;    /* of the main's static pressures */
    double residual_share;  /* of what the main loses with flow */
    double kv_share;        /* of each valve's flow coefficient */
    double xfz_sheet;       /* of xFz where the sheet gives it */
    double xfz_estimated;   /* and where it is estimated */
    double set_drift_pa;    /* of each valve's set-point */
    double lockup_share;    /* of each valve's lock-up rise */
    double stable_ratio;    /* least stable flow between 1/ratio and ratio times the sheet's */
    double stable_ratio_estimated;
} qll_uncertainty;

qll_uncertainty qll_uncertainty_default(void);

/** Share of the draws in which a rule's verdict is what it is without them. */
typedef struct qll_sensitivity {
    double holds_share[QLL_RULE_COUNT]; /* NaN for a rule that was not judged */
    size_t draw_count;
} qll_sensitivity;

/** A building prepared for draws, whatever station stands in it. Opaque. */
typedef struct qll_drawing qll_drawing;

/**
 * Prepares draws for @p site under @p duty.
 *
 * @param seed equal seeds give equal answers
 * @param made lives in @p arena and points at @p site and @p duty
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_drawing_make(const qll_site *site, const qll_duty *duty,
                                         const qll_uncertainty *uncertainty, uint64_t seed,
                                         qll_arena *arena, qll_drawing **made);

/**
 * Draws @p draw_count times and counts how often each grade of @p assessed, the assessment of @p
 * station, comes out. The draws depend on the seed and their number alone: two stations meet the
 * same days. Gives back all it takes of @p arena. QLL_OK or QLL_NO_MEMORY.
 */
QLL_MUST_USE qll_status qll_sensitivity_of(const qll_drawing *drawing, const qll_station *station,
                                           const qll_assessment *assessed, size_t draw_count,
                                           qll_arena *arena, qll_sensitivity *found);

#endif
