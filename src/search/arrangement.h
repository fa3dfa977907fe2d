/* Which stages are tried: valves in the order they open, their set-points and offsets. */
#ifndef QUELL_SEARCH_ARRANGEMENT_H
#define QUELL_SEARCH_ARRANGEMENT_H

#include "base/customary.h"
#include "search/search.h"

#define QLL_STAGES_MOST          3
#define QLL_BRANCHES_MOST        3
/* The step to which set-points between two stages are rounded: 5 psi, whatever the units of the
 * survey, so that one building has one answer (our assumption). */
#define QLL_BETWEEN_STEP_PA      (5.0 * QLL_PSI_PA)
/* Steps tried to either side of the equal-sigma pressure. */
#define QLL_BETWEEN_STEPS        2
#define QLL_BETWEEN_MOST         (2 * QLL_BETWEEN_STEPS + 1)
#define QLL_OFFSETS_MOST         7
/* No branch is set farther below the one before it: the building feels every psi when a large valve
 * takes over. A stage with another behind it may have more, since that one takes it up (our
 * assumption; a trade paper sets 3 to 5 psi). */
#define QLL_OFFSET_MOST_PA       (10.0 * QLL_PSI_PA)
#define QLL_OFFSET_MOST_FIRST_PA (15.0 * QLL_PSI_PA)

/** The catalogue as branches without set-points, by rising full Kv, then by id. */
typedef struct qll_pool {
    const qll_branch *branches;
    size_t count;
} qll_pool;

QLL_MUST_USE qll_status qll_pool_make(const qll_site *site, const qll_catalogue *catalogue,
                                      qll_arena *arena, qll_pool *pool);

/** What all choices of one stage have in common. */
typedef struct qll_stage_plan {
    double set_pa_gauge; /* of the branch that opens first */
    double set_inlet_pa_gauge;
    double inlet_low_pa_gauge, inlet_high_pa_gauge; /* at its inlet, for the hand-over */
    size_t branches_least, branches_most;
    double offset_most_pa; /* bounds the one by rule */
    bool all_offsets;      /* else only the one by rule */
} qll_stage_plan;

/** One stage by value. */
typedef struct qll_stage_choice {
    qll_branch branches[QLL_BRANCHES_MOST];
    size_t branch_count;
    double set_inlet_pa_gauge;
} qll_stage_choice;

/** The same as a stage that points into @p choice. */
qll_stage qll_stage_choice_view(const qll_stage_choice *choice);

/** Walks through all choices of a plan: few valves first, then by rising Kv, then by offset. */
typedef struct qll_stage_walk {
    const qll_pool *pool;
    const qll_site *site;
    qll_stage_plan plan;
    size_t valves[QLL_BRANCHES_MOST]; /* in the pool, not falling */
    size_t branch_count;
    double offsets_pa[QLL_OFFSETS_MOST];
    size_t offset_count, offset_next;
} qll_stage_walk;

qll_stage_walk qll_stage_walk_begin(const qll_pool *pool, const qll_site *site,
                                    qll_stage_plan plan);

/** The next choice; false at the end. */
bool qll_stage_walk_next(qll_stage_walk *walk, qll_stage_choice *choice);

/**
 * The valves of @p choice at every offset of @p plan, the one by rule first. Returns how many.
 */
size_t qll_stage_choice_offsets(const qll_stage_choice *choice, const qll_stage_plan *plan,
                                const qll_site *site, qll_stage_choice made[QLL_OFFSETS_MOST]);

/**
 * Offset by rule between @p small and @p next, Pa: the small one's fall-off at its share plus both
 * hysteresis bands, to the next whole psi, within the most of @p plan. docs/theory/search.md, eq. 2.
 */
double qll_offset_by_rule_pa(const qll_branch *small, const qll_branch *next,
                             const qll_stage_plan *plan, const qll_site *site);

/** Set-point of @p branch, Pa gauge, when its inlet has moved by @p inlet_change_pa. */
double qll_branch_moved_set_pa(const qll_branch *branch, double inlet_change_pa);

/**
 * Hand-over: at the plan's lowest and highest inlet every branch's set-point lies below that of the
 * one before it by at least both hysteresis bands, and by no more than the fall-off at which that
 * one still has a tenth of its travel in hand. docs/theory/search.md, eq. 3.
 */
bool qll_handover_holds(const qll_stage_choice *choice, const qll_stage_plan *plan);

/**
 * Set-points between two stages, Pa gauge: the equal-sigma pressure of the highest static supply
 * and up to two steps to either side, at least one step inside both ends. Returns how many.
 */
size_t qll_between_pressures(const qll_site *site, const qll_duty *duty,
                             double between_pa_gauge[QLL_BETWEEN_MOST]);

#endif
