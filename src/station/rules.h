/* What the rules share: internal to verdict.c, hard_rule.c and the rule_*.c files.
 * docs/theory/verdicts.md. */
#ifndef QUELL_STATION_RULES_H
#define QUELL_STATION_RULES_H

#include "station/verdict.h"

#include <stdint.h>

/** A station solved over its whole duty and at its corners. */
typedef struct qll_operation {
    const qll_station *station;
    const qll_site *site;
    const qll_duty *duty;
    bool grades_only;                     /* levels are figured only where the rules look */
    const qll_operating_point *points;    /* [supply * flow_count + flow] */
    const qll_operating_point *peak_low;  /* [scenario], its design peak at the lowest supply */
    const qll_operating_point *peak_high; /* [scenario], the same at the highest */
    const qll_operating_point *still;     /* no flow, highest supply */
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

/** A spot that names nothing. */
#define QLL_SPOT_WHOLE ((qll_spot){SIZE_MAX, SIZE_MAX, SIZE_MAX, SIZE_MAX})

/** What a point weighs in the flowing time and in the water; supply level included. */
double qll_flowing_share(const qll_duty *duty, size_t supply, size_t flow);
double qll_water_share(const qll_duty *duty, size_t supply, size_t flow);

/** Pressure in hand at an outlet of the site at a scenario's design peak and the lowest supply, Pa;
 * an outlet pressure that cannot be held counts as none. */
double qll_delivery_margin_pa(const qll_operation *operation, size_t scenario, size_t outlet);

/** What is in hand at the station's outlet at a scenario's design peak and the lowest supply, Pa: the
 * least over all outlets, or of the permitted fall-off where none is named; below 0 it is short. */
double qll_delivery_in_hand_pa(const qll_operation *operation, size_t scenario);

/** The grade of delivery at a scenario's design peak, over all outlets or by fall-off. */
qll_grade qll_delivery_grade(const qll_operation *operation, size_t scenario);

void qll_judge_delivery(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_static(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_ratio(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_velocity(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_capacity(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_low_flow(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_cavitation(const qll_operation *operation, qll_verdict_list *list);
/** Index of the point at the class below which half of the water flows, at the middle supply. */
size_t qll_typical_point(const qll_duty *duty);

/** True if people live with a class long enough for the noise rule to look at it. */
bool qll_is_lived_with(const qll_duty *duty, size_t flow);

/** Index of the loudest point of the classes people live with; levels must be known. */
size_t qll_loudest_point(const qll_operation *operation);

void qll_judge_noise(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_rating(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_expansion(const qll_operation *operation, qll_verdict_list *list);
void qll_judge_strainer(const qll_operation *operation, qll_verdict_list *list);

#endif
