/* How likely each cause is, given what is known: docs/theory/diagnosis.md 1. */
#ifndef QUELL_DIAGNOSIS_BELIEF_H
#define QUELL_DIAGNOSIS_BELIEF_H

#include "diagnosis/knowledge.h"

/** What is known of a site; it is only read. */
typedef struct qll_known {
    unsigned site;         /* what it has, a set of qll_site_has */
    const size_t *answers; /* [evidence] outcome, or QLL_NOT_KNOWN */
} qll_known;

/** The causes weighed. Everything lives in the arena it was made in. */
typedef struct qll_belief {
    const qll_knowledge *knowledge;
    qll_known known;
    double *probability;  /* [cause] sums to 1; 0 of those that the site cannot have */
    double *seen;         /* [group][cause] sum of ln P(answer | cause): S of eq. 1 */
    double *usual;        /* [group] sum of ln of the usual shares: B */
    size_t *answer_count; /* [group] */
    double *log_prior;    /* [cause] -INFINITY where the site cannot have it */
    double *log_weight;   /* [cause] prior and all groups, before they are made to sum to 1 */
} qll_belief;

/**
 * Weighs the causes by eq. 1 and 2.
 *
 * @param known its answers must outlive the belief
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_belief_make(const qll_knowledge *knowledge, const qll_known *known,
                                        qll_arena *arena, qll_belief *belief);

/** ln of what a group of @p count answers weighs, by the sums S and B of their logarithms: eq. 1; 0 where there are none. */
double qll_group_weight(const qll_knowledge *knowledge, size_t count, double seen, double usual);

/**
 * How likely the answer @p outcome to @p evidence (not known yet) is: eq. 4.
 *
 * @param posterior [cause] gets what would be believed then, summing to 1
 */
double qll_belief_if(const qll_belief *belief, size_t evidence, size_t outcome, double *posterior);

/** Whether @p evidence, not known yet, is worth asking for on this site, after these answers. */
bool qll_belief_may_ask(const qll_belief *belief, size_t evidence);

/** The likeliest cause. */
size_t qll_belief_likeliest(const qll_belief *belief);

#endif
