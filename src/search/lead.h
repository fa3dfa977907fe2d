/* While only its first branch is open, a stage does what that branch does alone: terms of single
 * valves, found one by one, serve all stages that they lead. */
#ifndef QUELL_SEARCH_LEAD_H
#define QUELL_SEARCH_LEAD_H

#include "search/tally.h"

/**
 * True if with @p outlet_pa behind it (absolute) only the first branch of the stage is open, and the
 * stage does what that branch does alone. A first one that is wide open beside others does not: by
 * itself it would be at its end, in company it is not.
 */
bool qll_leads_alone(const qll_tally_stage *of, double inlet_pa, double outlet_pa);

/** A term that has been found; one set to zero has not. */
static inline bool qll_term_is_known(const qll_tally_term *term)
{
    return !(term->outlet_pa == 0.0);
}

/**
 * Terms of a stage at @p count points. Those of its first branch alone are taken from @p lead where
 * they are known there, and left there where they are found; the others are solved.
 *
 * @param lead [point], terms of the first branch alone at the same points
 */
void qll_terms_find(const qll_tally_stage *of, const double *inlet_pa, const double *flow_m3s,
                    size_t count, qll_tally_term *lead, qll_tally_term *terms);

#endif
