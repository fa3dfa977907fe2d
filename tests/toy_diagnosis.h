/* Three causes and two tests, small enough to be worked by hand: docs/theory/diagnosis.md 1 and 3. */
#ifndef QUELL_TESTS_TOY_DIAGNOSIS_H
#define QUELL_TESTS_TOY_DIAGNOSIS_H

#include "diagnosis/next_test.h"

static const qll_cause toy_causes[] = {
    {.word = "c1", .weight = 0.5}, {.word = "c2", .weight = 0.3}, {.word = "c3", .weight = 0.2}};
static const qll_outcome toy_two_outcomes[] = {{.word = "yes", .usual = 0.5},
                                               {.word = "no", .usual = 0.5}};
static const qll_outcome toy_three_outcomes[] = {
    {.word = "b0", .usual = 0.4}, {.word = "b1", .usual = 0.3}, {.word = "b2", .usual = 0.3}};
static const double toy_likelihood[] = {0.9, 0.2, 0.1, 0.1, 0.8, 0.9, 0.7, 0.2,
                                        0.1, 0.2, 0.6, 0.3, 0.1, 0.2, 0.6};
static const double toy_hours[] = {1, 5.5, 4, 4.5, 2, 5, 3, 5, 0.5};
static const qll_losses toy_losses = {.hours = toy_hours, .count = 3};

/* @p evidence: room for two */
static inline qll_knowledge toy_knowledge(qll_evidence *evidence, bool same_group)
{
    evidence[0] = (qll_evidence){.word = "A",
                                 .minutes = 15,
                                 .outcomes = toy_two_outcomes,
                                 .outcome_count = 2,
                                 .only_if.evidence = QLL_NOT_KNOWN};
    evidence[1] = (qll_evidence){.word = "B",
                                 .minutes = 6,
                                 .outcomes = toy_three_outcomes,
                                 .outcome_count = 3,
                                 .first = 2,
                                 .group = same_group ? 0 : 1,
                                 .only_if.evidence = QLL_NOT_KNOWN};
    return (qll_knowledge){.causes = toy_causes,
                           .cause_count = 3,
                           .other = QLL_NOT_KNOWN,
                           .evidence = evidence,
                           .evidence_count = 2,
                           .group_count = 2,
                           .outcome_count = 5,
                           .likelihood = toy_likelihood,
                           .copied_share = 0.3};
}

/* Brier's score where the first cause is the true one. */
static inline double toy_brier(const qll_belief *belief)
{
    const double *p = belief->probability;
    return (p[0] - 1.0) * (p[0] - 1.0) + p[1] * p[1] + p[2] * p[2];
}

#endif
