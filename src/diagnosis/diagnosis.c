#include "diagnosis/diagnosis.h"

#include <math.h>
#include <stdlib.h>

/* An answer less likely than this under the likeliest cause does not fit it; one that changes the odds by less than
 * the other figure is no reason (both our assumption). */
#define QLL_DOUBTED      0.05
#define QLL_REASON_LEAST 1.5

/* P(answer | any cause but @p cause), by what is believed of them. */
static double otherwise(const qll_belief *belief, size_t evidence, size_t outcome, size_t cause)
{
    double sum = 0.0;
    double weight = 0.0;
    for (size_t c = 0; c < belief->knowledge->cause_count; c++) {
        if (c != cause && isfinite(belief->log_prior[c])) {
            const double prior = exp(belief->log_prior[c]);
            sum += prior * qll_likelihood(belief->knowledge, evidence, outcome, c);
            weight += prior;
        }
    }
    return weight > 0.0 ? sum / weight
                        : belief->knowledge->evidence[evidence].outcomes[outcome].usual;
}

static int compare_reasons(const void *a, const void *b)
{
    const qll_speaks_for *first = a;
    const qll_speaks_for *second = b;
    if (first->times != second->times) {
        return first->times > second->times ? -1 : 1;
    }
    return first->evidence < second->evidence ? -1 : 1;
}

static qll_status find_reasons(const qll_belief *belief, size_t answer_count, qll_arena *arena,
                               qll_ranked_cause *cause)
{
    qll_speaks_for *reasons = qll_arena_take(arena, answer_count, sizeof *reasons);
    if (reasons == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t e = 0; e < belief->knowledge->evidence_count; e++) {
        const size_t outcome = belief->known.answers[e];
        if (outcome == QLL_NOT_KNOWN) {
            continue;
        }
        const double times = qll_likelihood(belief->knowledge, e, outcome, cause->cause)
                             / otherwise(belief, e, outcome, cause->cause);
        if (times >= QLL_REASON_LEAST || times <= 1.0 / QLL_REASON_LEAST) {
            reasons[cause->reason_count] = (qll_speaks_for){.evidence = e, .times = times};
            cause->reason_count += 1;
        }
    }
    qsort(reasons, cause->reason_count, sizeof *reasons, compare_reasons);
    cause->reasons = reasons;
    return QLL_OK;
}

static int compare_causes(const void *a, const void *b)
{
    const qll_ranked_cause *first = a;
    const qll_ranked_cause *second = b;
    if (first->probability != second->probability) {
        return first->probability > second->probability ? -1 : 1;
    }
    return first->cause < second->cause ? -1 : 1;
}

static qll_status rank_causes(qll_arena *arena, qll_diagnosis *diagnosis)
{
    const qll_belief *belief = &diagnosis->belief;
    const size_t count = belief->knowledge->cause_count;
    qll_ranked_cause *ranked = qll_arena_take(arena, count, sizeof *ranked);
    if (ranked == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t c = 0; c < count; c++) {
        if (isfinite(belief->log_prior[c])) {
            qll_ranked_cause *one = &ranked[diagnosis->cause_count];
            *one = (qll_ranked_cause){.cause = c, .probability = belief->probability[c]};
            if (find_reasons(belief, diagnosis->answer_count, arena, one) != QLL_OK) {
                return QLL_NO_MEMORY;
            }
            diagnosis->cause_count += 1;
        }
    }
    qsort(ranked, diagnosis->cause_count, sizeof *ranked, compare_causes);
    diagnosis->causes = ranked;
    return QLL_OK;
}

static qll_status find_doubts(qll_arena *arena, qll_diagnosis *diagnosis)
{
    const qll_belief *belief = &diagnosis->belief;
    const size_t likeliest = qll_belief_likeliest(belief);
    size_t *doubts = qll_arena_take(arena, diagnosis->answer_count, sizeof *doubts);
    if (doubts == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t e = 0; e < belief->knowledge->evidence_count; e++) {
        const size_t outcome = belief->known.answers[e];
        if (outcome != QLL_NOT_KNOWN
            && qll_likelihood(belief->knowledge, e, outcome, likeliest) < QLL_DOUBTED) {
            doubts[diagnosis->doubt_count] = e;
            diagnosis->doubt_count += 1;
        }
    }
    diagnosis->doubts = doubts;
    return QLL_OK;
}

static size_t count_answers(const qll_knowledge *knowledge, const qll_known *known)
{
    size_t count = 0;
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        count += known->answers[e] != QLL_NOT_KNOWN ? 1 : 0;
    }
    return count;
}

qll_status qll_diagnose(const qll_knowledge *knowledge, const qll_known *known, const bool *skipped,
                        qll_arena *arena, qll_diagnosis *diagnosis)
{
    *diagnosis = (qll_diagnosis){
        .action = QLL_NOT_KNOWN,
        .answer_count = count_answers(knowledge, known),
    };
    qll_belief *belief = &diagnosis->belief;
    if (qll_belief_make(knowledge, known, arena, belief) != QLL_OK
        || qll_losses_make(knowledge, arena, &diagnosis->losses) != QLL_OK
        || rank_causes(arena, diagnosis) != QLL_OK || find_doubts(arena, diagnosis) != QLL_OK
        || qll_two_faults_find(belief, arena, &diagnosis->two) != QLL_OK
        || qll_next_tests_find(belief, &diagnosis->losses, skipped, arena, &diagnosis->next)
               != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    if (belief->probability[qll_belief_likeliest(belief)] >= QLL_LIKELY_ENOUGH) {
        (void)qll_least_loss(&diagnosis->losses, belief->probability, &diagnosis->action);
    }
    return QLL_OK;
}
