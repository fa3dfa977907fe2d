/* A case read, weighed, and set beside the station of its survey. */
#ifndef QUELL_ENGINE_DIAGNOSE_H
#define QUELL_ENGINE_DIAGNOSE_H

#include "engine/engine.h"
#include "findings/diagnosed.h"

/** A diagnosis with all it stands on. Its parts point at one another. */
typedef struct qll_diagnosed_case {
    qll_document document;
    qll_document survey_document; /* the survey in the case */
    qll_knowledge knowledge;
    qll_case of;
    qll_gathered gathered;
    qll_known known;
    const bool *skipped; /* [evidence] not to be asked for */
    qll_diagnosis diagnosis;
    qll_survey blank; /* where the case has no survey */

    union {
        qll_prepared prepared;
        qll_checked checked;
    } from;

    qll_diagnosed findings;
} qll_diagnosed_case;

/** The tables, with the question's own likelihoods. QLL_OK, QLL_REFUSED or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_prepare_knowledge(qll_asked *asked, qll_knowledge *knowledge);

/** Reads the case at diagnosed->document and gathers what is known, also from its survey. Problems are collected. */
QLL_MUST_USE qll_status qll_find_case(qll_asked *asked, const qll_knowledge *knowledge,
                                      qll_diagnosed_case *diagnosed);

/** Reads the case of the question and works the diagnosis out. */
QLL_MUST_USE qll_status qll_find_diagnosis(qll_asked *asked, qll_diagnosed_case *diagnosed);

/** What the station that is there tells of the case; figures that it does not tell are left as they are. */
QLL_MUST_USE qll_status qll_find_facts(qll_asked *asked, const qll_checked *checked,
                                       const qll_case *of, qll_case_facts *facts);

#endif
