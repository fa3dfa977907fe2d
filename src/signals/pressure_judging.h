/* Judging what a log of pressures has left, for the files that do it. */
#ifndef QUELL_SIGNALS_PRESSURE_JUDGING_H
#define QUELL_SIGNALS_PRESSURE_JUDGING_H

#include "signals/pressure_state.h"

/* Findings of one log: one of each word, and one of each fault of either pressure. */
#define QLL_FINDINGS_MOST ((size_t)QLL_PRESSURE_WORD_COUNT + 2 * (size_t)QLL_LOGGER_FAULT_COUNT)
/* Records that slopes of all pairs are taken of: more are thinned evenly. */
#define QLL_PAIRED_MOST   ((size_t)512)

/* Flows of which a slope is taken differ by more. */
#define QLL_FLOW_APART_M3S 3e-5

typedef struct qll_points {
    double x[QLL_PAIRED_MOST], y[QLL_PAIRED_MOST];
    size_t count;
} qll_points;

/** In rising order of x. */
void qll_points_sort(qll_points *p);

/** Which of @p count records is the one at @p i of @p kept that are evenly thinned. */
static inline size_t qll_kept_place(size_t i, size_t kept, size_t count)
{
    return kept == count ? i : i * count / kept;
}

typedef struct qll_judging {
    qll_pressure_state *state;
    const qll_pressure_expect *expect;
    qll_pressure_result *result;
    qll_arena *arena;
    qll_pressure_finding *findings; /* [QLL_FINDINGS_MOST] */
    size_t count;
    double inlet_effect;     /* NaN = not known */
    double corrected_effect; /* what readings are corrected by: 0 where it is not known */
    double inlet_median_pa;
} qll_judging;

/** Straight from 0 at @p none over 0.5 at @p act to 1 at @p sure, which rise. */
double qll_grade(double value, double none, double act, double sure);

/** A finding with everything unknown but word and times; NULL, and nothing is added, if its strength is too little. */
qll_pressure_finding *qll_finding_add(qll_judging *j, qll_pressure_word word, double strength,
                                      double value, int64_t from_ms, int64_t to_ms);

/* Each looks at one side of the log and adds what it finds. */
void qll_judge_inlet_effect(qll_judging *j);
void qll_judge_flow(qll_judging *j); /* fall-off, strainer, and the set-point that it tells */
void qll_judge_rest(qll_judging *j); /* creep, thermal expansion, lock-up */
void qll_judge_supply(qll_judging *j);
void qll_judge_drift(qll_judging *j);
void qll_judge_fall_off_drift(qll_judging *j); /* behind qll_judge_flow() */
void qll_judge_motion(qll_judging *j);         /* hunting, chatter, hammer, air */
void qll_judge_logger(qll_judging *j);
void qll_judge_unjudged(qll_judging *j);

#endif
