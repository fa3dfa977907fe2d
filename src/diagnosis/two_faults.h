/* Whether two things are wrong at once: docs/theory/diagnosis.md 4. */
#ifndef QUELL_DIAGNOSIS_TWO_FAULTS_H
#define QUELL_DIAGNOSIS_TWO_FAULTS_H

#include "diagnosis/belief.h"

typedef struct qll_two_faults {
    double share; /* how likely it is that there are two, whichever */
    size_t first,
        second; /* the likeliest two, the likelier first; QLL_NOT_KNOWN where no two can be */
    double pair_share; /* how likely these two are */
} qll_two_faults;

/** Weighs every two causes against every one. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_two_faults_find(const qll_belief *belief, qll_arena *arena,
                                            qll_two_faults *two);

#endif
