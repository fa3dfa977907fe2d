/* What is wrong, why one thinks so, what does not fit, and what to test next. */
#ifndef QUELL_DIAGNOSIS_DIAGNOSIS_H
#define QUELL_DIAGNOSIS_DIAGNOSIS_H

#include "diagnosis/next_test.h"
#include "diagnosis/two_faults.h"

/** An answer that speaks for a cause or against it. */
typedef struct qll_speaks_for {
    size_t evidence;
    double times; /* so many times as likely as where the cause is another: over 1 speaks for it */
} qll_speaks_for;

typedef struct qll_ranked_cause {
    size_t cause;
    double probability;
    const qll_speaks_for *reasons; /* the strongest for it first, then those against it */
    size_t reason_count;
} qll_ranked_cause;

typedef struct qll_diagnosis {
    qll_belief belief;
    qll_losses losses;
    const qll_ranked_cause *causes; /* that the site can have, the likeliest first */
    size_t cause_count;
    const size_t *doubts; /* evidence whose answer hardly fits the likeliest cause */
    size_t doubt_count;
    qll_two_faults two;
    qll_next_tests next;
    size_t action; /* the cure of least expected loss; QLL_NOT_KNOWN while none is likely enough */
    size_t answer_count;
} qll_diagnosis;

/**
 * Weighs what is known.
 *
 * @param knowledge,known with its answers must outlive the diagnosis
 * @param skipped [evidence] not to be asked for; NULL = none
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_diagnose(const qll_knowledge *knowledge, const qll_known *known,
                                     const bool *skipped, qll_arena *arena,
                                     qll_diagnosis *diagnosis);

#endif
