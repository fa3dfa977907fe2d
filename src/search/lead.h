/* A valve alone in its place, solved once over the whole duty: it is a stage by itself, and all that a
 * pair does while its second valve is still shut. docs/theory/search.md, 3. */
#ifndef QUELL_SEARCH_LEAD_H
#define QUELL_SEARCH_LEAD_H

#include "search/searching.h"

/* Rows of one valve alone. */
#define QLL_LEAD_ROWS QLL_ROWS(1)

/** Room for leads, used again and again. */
typedef struct qll_lead_room {
    double *outlet_pa;       /* [supply * flow_count + flow] */
    double *highest_pa;      /* the same at the highest inlets of the place */
    qll_hazard_row *prefix;  /* [(supply * (flow_count + 1) + flow) * QLL_LEAD_ROWS + row] */
    double *peak_pa;         /* [scenario * QLL_SUPPLY_LEVELS + supply] */
    double *hard_m3s;        /* [scenario] what it passes at the least outlet that is fit */
    qll_stage_point *points; /* [flow_count] */
    qll_solver_room solver;
} qll_lead_room;

QLL_MUST_USE qll_status qll_lead_room_make(const qll_searching *searching, qll_lead_room *room);

/** The valves of a pick as a stage; it points into itself. */
typedef struct qll_picked {
    qll_branch branches[QLL_BRANCHES_MOST];
    qll_branch_ruler rulers[QLL_BRANCHES_MOST];
    qll_stage stage;
    qll_stage_ruler ruler; /* hunting left 0 */
} qll_picked;

/** A valve with a set-point in a place. Stays where it was made: the solver points into it. */
typedef struct qll_lead {
    const qll_stage_place *place;
    const qll_part *part;
    size_t index; /* of the part in the pool */
    double set_pa_gauge;
    qll_picked picked; /* by itself */
    double rest_pa;    /* its outlet at no flow; NaN without an inlet */
    qll_lead_room *room;
} qll_lead;

/** Puts @p pick in @p place. Its solver lives in @p room until the next one. */
void qll_pick_set(const qll_searching *searching, const qll_stage_place *place,
                  const qll_pick *pick, qll_solver_room *room, qll_picked *made);

/** Sets part @p index to @p set_pa_gauge in @p place and solves the design peaks and no flow, enough for
 * the hard rules. It lives in @p room until the next one. */
void qll_lead_begin(qll_searching *searching, const qll_stage_place *place, size_t index,
                    double set_pa_gauge, qll_lead_room *room, qll_lead *lead);

/** Solves it over the whole duty, for qll_lead_survival() and qll_lead_alone_until(). */
void qll_lead_solve(qll_searching *searching, qll_lead *lead);

/** What survives of the lead where its outlet is at least @p alone_pa(gauge set-point of another). With
 * -INFINITY: of the lead as a stage by itself. */
void qll_lead_survival(const qll_searching *searching, const qll_lead *lead,
                       double other_set_pa_gauge, double survival[QLL_NODES]);

/** At every node the share of what flows, half by time and half by water, in which a valve of the pool set to
 * @p other_set_pa_gauge is surely open beside the lead: at least. */
void qll_lead_both_open(const qll_searching *searching, const qll_lead *lead,
                        double other_set_pa_gauge, double open_share[QLL_NODES]);

/**
 * First flow class of a supply at which the lead is not surely alone beside a set-point.
 *
 * @param from it is known to be alone at classes below
 */
size_t qll_lead_alone_until(const qll_searching *searching, const qll_lead *lead, size_t supply,
                            size_t from, double other_set_pa_gauge, qll_effects effects);

/** The same at any supply. */
size_t qll_lead_alone_anywhere(const qll_searching *searching, const qll_lead *lead,
                               double other_set_pa_gauge, qll_effects effects);

/** What a part passes at the least outlet that is fit, at a scenario's peak. */
double qll_part_hard_m3s(const qll_searching *searching, const qll_stage_place *place,
                         const qll_part *part, double set_pa_gauge, size_t scenario);

/**
 * True if the lead surely runs too fast at a design peak beside any valve set to @p other_set_pa_gauge: with that one open
 * the outlet stands no higher than its set-point, and the lead passes at least what it does there.
 */
bool qll_lead_is_too_fast(const qll_searching *searching, const qll_lead *lead,
                          double other_set_pa_gauge);

/** Whether it stands low enough with nothing running, by itself; a second valve beside it only lifts it. */
bool qll_lead_rests(const qll_searching *searching, const qll_lead *lead);

/** The first hard rule that a single valve in its place breaks; QLL_PRACTICE_COUNT if none. */
qll_practice qll_lead_broken(const qll_searching *searching, const qll_lead *lead);

#endif
