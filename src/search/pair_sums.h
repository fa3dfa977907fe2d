/* What a pair does over its duty at least, by tables over the outlet: docs/theory/search.md, B8. */
#ifndef QUELL_SEARCH_PAIR_SUMS_H
#define QUELL_SEARCH_PAIR_SUMS_H

#include "search/lead.h"
#include "search/outlet_table.h"

/** Classes of flow that are looked at, and what stands at them. */
typedef struct qll_class_list {
    size_t count;
    size_t *flow;                       /* rising */
    double *flow_m3s;                   /* of each */
    float (*per_m3s)[QLL_DEMAND_NODES]; /* what each weighs at the demand nodes, over its flow */
    double low_inlet_pa[QLL_SUPPLY_LEVELS], high_inlet_pa[QLL_SUPPLY_LEVELS]; /* of all of them */
} qll_class_list;

/** Those of one valve at its set-point, each made when it is first asked for. */
typedef struct qll_valve_tables {
    qll_outlet_table duty[QLL_SUPPLY_LEVELS]; /* [supply] */
    qll_outlet_table peaks;                   /* behind the design peaks of the lowest supply */
    bool has_duty, has_peaks;
} qll_valve_tables;

typedef struct qll_pair_room {
    size_t set_count;
    /* [set-point of the second][part] NULL = not taken: of a large catalogue few stand second in any place */
    qll_valve_tables **seconds;
    qll_valve_tables *leads; /* [set-point of the second] */
    qll_class_list classes;
    double low_peak_pa, high_peak_pa; /* what comes at the peaks; no number = not known */
} qll_pair_room;

/** For second valves at so many set-points. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_pair_room_make(const qll_searching *searching, size_t set_count,
                                           qll_pair_room *room);

/** Forgets what was made in another place. */
void qll_pair_room_begin(const qll_searching *searching, const qll_stage_place *place,
                         qll_pair_room *room);

/** Forgets the lead before. */
void qll_pair_room_of_lead(qll_pair_room *room);

/** A pair of a lead that has been solved. */
typedef struct qll_pair_case {
    const qll_searching *searching;
    const qll_lead *lead;
    size_t part, set; /* of the second */
    double set_pa_gauge;
    double chatters;  /* share of such second valves that do at all */
    size_t open_from; /* flow classes below which every second so set is shut; 0 = not known */
} qll_pair_case;

/** Whether set-points rise with the inlet, or stay, as tables must have it. */
bool qll_pair_has_tables(const qll_pair_case *of);

/** Takes the memory of the second's tables, unless that was done in this place, before anything below is asked of a pair.
 * QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_pair_take(const qll_pair_case *of, qll_pair_room *room);

/**
 * Sums of what the lead of @p of does alone, at every supply. False where nothing is known of a pair: in a place with highest
 * inlets, or where a set-point sinks as the inlet rises.
 */
bool qll_pair_sums_alone(const qll_pair_case *of, const qll_pair_room *room,
                         qll_pair_sums sums[QLL_SUPPLY_LEVELS]);

/**
 * What both do at the design peaks at least, less their wear, as they weigh beside the duty: all 0 where that is not known.
 */
void qll_pair_peaks(const qll_pair_case *of, qll_pair_room *room, double row[QLL_ROWS(2)]);

/** What survives of such peaks at most, beside what the lead does alone elsewhere. */
double qll_pair_peaks_survival(const qll_pair_case *of, const double row[QLL_ROWS(2)]);

/** Adds what both do at one supply at least, less hunting and the design peaks, to what the lead does alone. */
void qll_pair_sums_add(const qll_pair_case *of, size_t supply, qll_pair_room *room,
                       qll_pair_sums sums);

/**
 * What a pair gives at every point of work, from @p least_pa to @p most_pa [supply * flow_count + flow], absolute; -INFINITY
 * and INFINITY where that is not known. Only of a pair whose sums are known.
 */
void qll_pair_outlets(const qll_pair_case *of, qll_pair_room *room, double *least_pa,
                      double *most_pa);

/** What survives of such sums and of such peaks at every node: at most, at little cost. */
void qll_pair_sums_survival(const qll_pair_case *of, qll_pair_sums sums[QLL_SUPPLY_LEVELS],
                            const double peaks[QLL_ROWS(2)], double survival[QLL_NODES]);

#endif
