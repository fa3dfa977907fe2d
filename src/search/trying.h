/* What a walk does with one lead: as a stage by itself, and beside one second valve after another. docs/theory/search.md, 3. */
#ifndef QUELL_SEARCH_TRYING_H
#define QUELL_SEARCH_TRYING_H

#include "search/bound.h"
#include "search/walk.h"

/** A lead under way. Stays where it was begun: what it holds points into it. */
typedef struct qll_trying {
    const qll_walk *walk;
    qll_walk_room *room;
    qll_searching *searching;
    const qll_stage_place *place;
    qll_lead lead;
    qll_seconds tables;
    double rest_pa_gauge; /* what comes at rest, at least */
    double
        rests; /* chance that the lead's outlet is not too high at rest; a second valve only raises it */
} qll_trying;

/** What is known of all pairs of the lead at one set-point of the second. */
typedef struct qll_pairing {
    size_t set, placing;     /* as in qll_marks */
    double alone[QLL_NODES]; /* survives of what the lead does surely alone */
    double open_share[QLL_NODES];
    double *floors;   /* [size of the second] qll_peaks_floor() */
    size_t open_from; /* the second is shut at flow classes below */
    size_t count;     /* second valves listed of a size */
} qll_pairing;

/** Makes the tables of the walk's place; no lead yet. */
void qll_trying_begin(const qll_walk *walk, qll_walk_room *room, qll_trying *made);

/** Sets a part as the lead, enough for the hard rules. */
void qll_trying_lead(qll_trying *at, size_t index, double set_pa_gauge);

/** Solves the lead over the whole duty; then it may be tried. */
void qll_trying_solve(qll_trying *at);

/** What the lead gives by itself. */
qll_inlets qll_trying_outlets(const qll_trying *at);

/** The lead by itself is a stage of one valve; it goes to the walk's sink where it may matter. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_try_single(qll_trying *at);

/** Second valves at @p set, a set-point of the place. */
void qll_pairing_begin(const qll_trying *at, size_t set, size_t placing, qll_pairing *made);

/** The lead and one of them. */
qll_pair_case qll_pairing_case(const qll_trying *at, size_t index, const qll_pairing *pairs);

/**
 * A pair by what it does at least, then in full, or no further than its peaks in an early walk; it goes to the walk's sink
 * where it may matter.
 *
 * @param of       what is known of it so far
 * @param survival what survives at most of what the lead does alone, and of hunting
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_try_second(qll_trying *at, size_t index, const qll_pairing *pairs,
                                       qll_half_bound *of, const double survival[QLL_NODES]);

#endif
