/* A table of likelihoods that closed cases have moved: docs/theory/diagnosis.md 5. */
#ifndef QUELL_DIAGNOSIS_LEARN_H
#define QUELL_DIAGNOSIS_LEARN_H

#include "diagnosis/belief.h"

/** So many cases a table of judgement is worth (our assumption). */
#define QLL_TABLE_IS_WORTH 20.0

typedef struct qll_learning {
    const qll_knowledge *knowledge; /* the table that is moved */
    double *count;                  /* [outcome of all][cause] answers of closed cases */
    size_t case_count;
    double brier_sum;       /* of the table's diagnoses, over the cases */
    double brier_prior_sum; /* of what is believed with nothing known */
} qll_learning;

/** QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_learning_begin(const qll_knowledge *knowledge, qll_arena *arena,
                                           qll_learning *learning);

/** Adds a case whose cause is known. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_learning_add(qll_learning *learning, const qll_known *known,
                                         size_t cause, qll_arena *arena);

/** How many answers to @p evidence were told where it was @p cause. */
double qll_learning_told(const qll_learning *learning, size_t evidence, size_t cause);

/** P(outcome | cause) by table and cases. */
double qll_learning_share(const qll_learning *learning, size_t evidence, size_t outcome,
                          size_t cause);

#endif
