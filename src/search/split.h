/* One set-point between two stages: all first stages there, and bounds of the second one under way. */
#ifndef QUELL_SEARCH_SPLIT_H
#define QUELL_SEARCH_SPLIT_H

#include "search/searching.h"

#include <stdint.h>

/* Inlet pressures of a second stage are counted in cells of this width; its terms are found at their
 * edges and bounded between (our choice: narrow against every jump and bend that was met). */
#define QLL_CELL_PA     10000.0
#define QLL_CELLS_MOST  64 /* of one flow class; wider ones where they do not reach */
/* Better ones that are remembered of each first stage. */
#define QLL_BETTER_MOST 16
#define QLL_NO_ROW      SIZE_MAX

/** A flow class: its points stand side by side, one for each supply level. */
typedef struct qll_flow_group {
    size_t from, to; /* points */
    double flow_m3s;
    double weight;          /* of all its supply levels */
    double low_pa, high_pa; /* outlets of all first stages, absolute */
    double cell_pa;
    size_t cell_from, cell_count;     /* among the cells of the split */
    bool is_occupied[QLL_CELLS_MOST]; /* some first stage has an outlet there */
    size_t edge_from;                 /* those of occupied cells, among the edges of the split */
} qll_flow_group;

typedef struct qll_first_stage {
    qll_stage_choice choice;
    size_t lead; /* its first valve, in the pool */
    double total_noise, total_wear, price;
    double order; /* rises with all three */
    qll_stage_corners corners;
    qll_tally_term *terms; /* [point] */
    bool *leads_alone;     /* [point], only its first branch is open */
    /* Where the terms of stages behind it stand: those behind its first branch alone; those behind all of it,
     * or QLL_NO_ROW. */
    size_t lead_row, own_row;
    double *noise, *wear; /* [group], sums over its points */
    unsigned char *cells; /* [group][2]: least and greatest cell of its outlets */
    /* Places of some that are no worse in noise, wear and price, and stand before it. */
    size_t better[QLL_BETTER_MOST];
    size_t better_count;
} qll_first_stage;

/** Sums of terms, weights included; a lower bound of them. */
typedef struct qll_bound {
    double noise, unsteady, wear;
} qll_bound;

typedef struct qll_split {
    qll_stage_plan first_plan, second_plan;
    qll_flow_group *groups;
    size_t group_count;
    double *inlet_pa, *flow_m3s; /* [point], of the station */
    qll_tally_term *lead_terms;  /* [valve of the pool][point], as first stages; found one by one */
    qll_first_stage **firsts;    /* the least noisy, worn and dear first */
    size_t first_count;
    qll_stage_corners best; /* of the second stage under way, its inlets the best of all firsts */
    bool second_carries;    /* some second stage so far keeps the rules of its own */
    size_t edge_count;
    double *edge_inlet_pa, *edge_flow_m3s; /* [edge] */
    qll_tally_term *edges;                 /* [edge], of the second stage under way */
    qll_tally_term *lead_edges; /* [valve of the pool][edge], of leads alone; found one by one */
    size_t cell_count;
    qll_bound *cells;  /* of all groups, for the second stage under way and a weight of one */
    qll_bound least;   /* whichever first stage stands before it */
    qll_bound *behind; /* [group], behind the first stage under way, for a weight of one */
    qll_bound *rest;   /* [group + 1]: bounds of the pair from this group on */
    bool *is_beaten;   /* [first]: by the least bound of the second stage under way */
} qll_split;

/** A second stage and what a glance at it promises. */
typedef struct qll_second_choice {
    qll_stage_choice choice;
    size_t lead; /* its first valve, in the pool */
    qll_objectives glance;
    double order; /* rises with all four */
} qll_second_choice;

qll_bound qll_bound_sum(qll_bound a, qll_bound b);

/** The plans of both stages with @p between_pa_gauge between them. */
qll_split qll_split_at(const qll_searching *searching, double between_pa_gauge);

/** Finds groups, and all first stages that break no rule of their own, and puts them in order. */
QLL_MUST_USE qll_status qll_split_begin(qll_searching *searching, qll_split *split);

/** Bounds of a second stage with valve @p lead of the pool first: cells and least. */
void qll_split_bound(const qll_tally_stage *of, size_t lead, qll_split *split);

/** Room for one first stage; NULL without memory. */
qll_first_stage *qll_first_stage_take(const qll_searching *searching, const qll_split *split);

/** Solves a first stage whose choice and lead stand: price, terms and their sums. */
void qll_first_stage_solve(const qll_split *split, const qll_duty_points *points,
                           const qll_tally_stage *of, qll_first_stage *first);

/** Bounds of the second stage behind @p first: behind and rest. */
void qll_split_bound_pair(qll_split *split, const qll_first_stage *first);

/** The second stages of @p plan, the most promising first. */
QLL_MUST_USE qll_status qll_split_seconds(qll_searching *searching, const qll_stage_plan *plan,
                                          const qll_split *split, qll_second_choice ***ordered,
                                          size_t *count);

/** How many choices a plan has. */
size_t qll_stage_choice_count(const qll_searching *searching, const qll_stage_plan *plan);

/** The same plan with three valves side by side. */
qll_stage_plan qll_stage_plan_of_three(const qll_stage_plan *plan);

#endif
