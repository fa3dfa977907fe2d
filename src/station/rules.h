/* What the rules share: internal to verdict.c, verdict_list.c and the rule_*.c files.
 * docs/theory/verdicts.md. */
#ifndef QUELL_STATION_RULES_H
#define QUELL_STATION_RULES_H

#include "station/fitness.h"
#include "station/verdict.h"

#include <stdint.h>

/** A station solved over its whole duty and at its corners. */
typedef struct qll_operation {
    const qll_station *station;
    const qll_site *site;
    const qll_duty *duty;
    const qll_yardstick *yardstick;
    const qll_station_sums *sums;        /* what the hazards come to, for cost and verdicts alike */
    const qll_operating_point *points;   /* [supply * flow_count + flow] */
    const qll_operating_point *peaks;    /* [supply * scenario_count + scenario], design peaks */
    const qll_operating_point *peak_low; /* those at the lowest supply */
    const qll_operating_point *still;    /* no flow, highest supply */
    const qll_closed_system *closed;
    const qll_operating_point *blocked; /* [scenario], as peak_low, with half-blocked strainers */
} qll_operation;

/** The verdicts found so far. */
typedef struct qll_verdict_list {
    qll_verdict *items; /* NULL: only the worst of each rule are kept */
    size_t count, room;
    qll_verdict worst[QLL_RULE_COUNT];
    double stress[QLL_RULE_COUNT]; /* of the worst; greater is worse among equal grades */
    bool judged[QLL_RULE_COUNT];
} qll_verdict_list;

/** Adds a verdict; the first of equal grade and stress stays the worst of its rule. */
void qll_verdict_put(qll_verdict_list *list, const qll_verdict *verdict, double stress);

/** Grades a new verdict by the chance that it fails, over all nodes: fail above 1/2, caution above 1/10. */
void qll_verdict_weigh(qll_verdict *verdict, double fails_chance);

/** The same, but never more than a caution. */
void qll_verdict_weigh_at_most_caution(qll_verdict *verdict, double fails_chance);

/** Not looked at. */
void qll_verdict_unknown(qll_verdict *verdict, qll_finding finding);

/** Chance of a complaint by row @p row of @p hazards alone, over the shared nodes. */
double qll_row_chance(const qll_unknowns *unknowns, const qll_hazard_sums *hazards, size_t row);

/** The same of a valve's own nodes, each an equal part of the shared node: rows from @p row on. */
double qll_own_chance(const qll_unknowns *unknowns, const qll_hazard_sums *hazards, size_t row);

/** What no gauge shows (our assumption). */
#define QLL_SHOWN_NOWHERE_PA 500.0

/** A spot that names nothing. */
#define QLL_SPOT_WHOLE ((qll_spot){SIZE_MAX, SIZE_MAX, SIZE_MAX, SIZE_MAX})

/** What a point weighs in the flowing time and in the water; supply level included. */
double qll_flowing_share(const qll_duty *duty, size_t supply, size_t flow);
double qll_water_share(const qll_duty *duty, size_t supply, size_t flow);

/** What is in hand at the station's outlet at a scenario's design peak and the lowest supply, Pa: the
 * least over all outlets, or of the permitted fall-off where none is named; below 0 it is short. */
double qll_delivery_in_hand_pa(const qll_operation *operation, size_t scenario);

/** What strainers may take off the outlet at the scenario's design peak: half of what is in hand. */
double qll_strainer_spare_pa(const qll_operation *operation, size_t scenario);

/** True if a scenario's design peak breaks the hard rule of delivery at the lowest supply. */
bool qll_delivery_breaks(const qll_operation *operation, size_t scenario);

/** Index of the point at the class below which half of the water flows, at the middle supply. */
size_t qll_typical_point(const qll_duty *duty);

/** Index of the loudest of all points; levels must be known. */
size_t qll_loudest_point(const qll_operation *operation);

void qll_judge_delivery(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_static(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_ratio(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_velocity(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_capacity(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_low_flow(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_cavitation(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_noise(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_rating(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_expansion(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_strainer(const qll_operation *operation, qll_verdict_list *list);
/** Needs memory of its own, given back. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_judge_hunting(const qll_operation *operation, qll_arena *arena,
                                          qll_verdict_list *list);
/** Not looked at without a run. */
void qll_judge_hammer(qll_verdict_list *list);

#endif
