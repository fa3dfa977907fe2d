/* What a finding of a log or a recording answers. */
#ifndef QUELL_DIAGNOSIS_FINDING_H
#define QUELL_DIAGNOSIS_FINDING_H

#include "diagnosis/case.h"

typedef struct qll_found_answer {
    size_t evidence, outcome; /* QLL_NOT_KNOWN where it answers nothing */
    size_t same_fact; /* evidence that tells the same: where that is known, this is not used */
    double figure;    /* NaN where it is by no figure */
    bool is_there;    /* the finding is strong enough; else it answers "no" */
} qll_found_answer;

qll_found_answer qll_finding_answer(const qll_knowledge *knowledge,
                                    const qll_case_finding *finding);

/** The kind of the value of a log's finding: QLL_KIND_NUMBER where there is no other. */
qll_kind qll_finding_kind(const qll_knowledge *knowledge, const char *word);

#endif
