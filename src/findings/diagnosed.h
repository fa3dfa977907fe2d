/* What a diagnosis has found, every figure of it. */
#ifndef QUELL_FINDINGS_DIAGNOSED_H
#define QUELL_FINDINGS_DIAGNOSED_H

#include "diagnosis/case.h"
#include "diagnosis/diagnosis.h"
#include "findings/findings.h"

typedef struct qll_diagnosed {
    const qll_knowledge *knowledge;
    const qll_case *of;
    const qll_gathered *gathered;
    const qll_diagnosis *diagnosis;
    const qll_survey *survey;        /* that of the case, else one that has only name and units */
    const qll_check_findings *check; /* of the station that is there; NULL without one */
    const qll_cure *cure;            /* of the check's that cures the likeliest cause; NULL */
    qll_provenance provenance;
    qll_language language;
    const qll_assumed *assumed;
    const qll_problems *problems;
} qll_diagnosed;

#endif
