/* What a sheet that says how its valve moves tells of its chatter, beside all plausible builds. */
#ifndef QUELL_DYNAMICS_MOTION_BUILD_H
#define QUELL_DYNAMICS_MOTION_BUILD_H

#include "dynamics/motion.h"
#include "dynamics/regulator.h"

/** Builds that a sheet leaves possible, put to the criterion of a felt swing (valve_motion.md, 22). */
typedef struct qll_build_tally {
    size_t count;    /* builds looked at */
    size_t keeps_up; /* of them, at any flow */
    double
        ln_share; /* of those, mean of ln of the greatest such flow over that at full opening; NaN without one */
    double ln_sigma; /* spread of it; NaN with fewer than two */
} qll_build_tally;

/**
 * Tallies @p count builds of @p valve at 60 psi over it and 55 psi behind it: what its sheet says stays, the rest is
 * drawn from its ranges, pipes too, the same every time.
 *
 * @return QLL_REFUSED for a pilot valve or a sheet that makes no valve; QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_build_tally_of(const qll_valve *valve, const qll_opening_law *law,
                                           size_t count, qll_arena *arena, qll_build_tally *tally);

/** How the prior moves for @p valve; is_known false where its sheet does not say enough, or no build of it makes
 * sense. QLL_OK or QLL_NO_MEMORY. docs/theory/stability.md, 7. */
QLL_MUST_USE qll_status qll_chatter_build_of(const qll_valve *valve, const qll_opening_law *law,
                                             qll_arena *arena, qll_chatter_build *build);

#endif
