/* What is worth testing next: docs/theory/diagnosis.md 3. */
#ifndef QUELL_DIAGNOSIS_NEXT_TEST_H
#define QUELL_DIAGNOSIS_NEXT_TEST_H

#include "diagnosis/belief.h"

/** Hours lost by acting against one cause where another is right: [action][cause]. */
typedef struct qll_losses {
    const double *hours;
    size_t count; /* of causes, and of actions */
} qll_losses;

/** The losses of the tables: hours of the cures, and of a callback. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_losses_make(const qll_knowledge *knowledge, qll_arena *arena,
                                        qll_losses *losses);

/** Expected hours of the best action, which goes to @p action unless it is NULL. */
double qll_least_loss(const qll_losses *losses, const double *probability, size_t *action);

/** Hours that would be saved by knowing the cause for certain: expected value of perfect information. */
double qll_value_of_certainty(const qll_losses *losses, const double *probability);

/** A test that may be made, and what it is worth. */
typedef struct qll_next_test {
    size_t evidence;
    double worth_hours; /* expected value of its answer, before its own minutes: eq. 3 */
    double net_hours;   /* less its minutes */
    double gain_bits;   /* of what is not known about the cause, expected */
} qll_next_test;

/** The worth of @p evidence. @p room [2 x cause] is written over. */
qll_next_test qll_test_worth(const qll_belief *belief, const qll_losses *losses, size_t evidence,
                             double *room);

/** How the tests stand, best first. */
typedef struct qll_next_tests {
    const qll_next_test *tests; /* that may be made here and today, then logs */
    size_t count;
    size_t log_count; /* the last so many are logs: days of waiting */
    bool is_done;     /* none is worth making here and today */
} qll_next_tests;

/**
 * All tests that may be made, the next one first.
 *
 * @param skipped [evidence] not to be asked for, such as what a survey answers; NULL = none
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_next_tests_find(const qll_belief *belief, const qll_losses *losses,
                                            const bool *skipped, qll_arena *arena,
                                            qll_next_tests *next);

/** From here on nobody needs another test (docs/theory/diagnosis.md 3). */
#define QLL_SURE_ENOUGH 0.85

/** Under this no cure is advised. */
#define QLL_LIKELY_ENOUGH 0.5

#endif
