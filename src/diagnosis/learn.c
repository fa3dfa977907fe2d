#include "diagnosis/learn.h"

qll_status qll_learning_begin(const qll_knowledge *knowledge, qll_arena *arena,
                              qll_learning *learning)
{
    *learning = (qll_learning){
        .knowledge = knowledge,
        .count = qll_arena_take(arena, knowledge->outcome_count * knowledge->cause_count,
                                sizeof(double)),
    };
    return learning->count == NULL ? QLL_NO_MEMORY : QLL_OK;
}

static double brier(const qll_belief *belief, size_t truth)
{
    double sum = 0.0;
    for (size_t c = 0; c < belief->knowledge->cause_count; c++) {
        const double miss = belief->probability[c] - (c == truth ? 1.0 : 0.0);
        sum += miss * miss;
    }
    return sum;
}

static size_t place(const qll_learning *learning, size_t evidence, size_t outcome, size_t cause)
{
    return (learning->knowledge->evidence[evidence].first + outcome)
               * learning->knowledge->cause_count
           + cause;
}

qll_status qll_learning_add(qll_learning *learning, const qll_known *known, size_t cause,
                            qll_arena *arena)
{
    const qll_knowledge *knowledge = learning->knowledge;
    size_t *nothing = qll_arena_take(arena, knowledge->evidence_count, sizeof *nothing);
    if (nothing == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        nothing[e] = QLL_NOT_KNOWN;
    }
    const qll_known prior = {.site = known->site, .answers = nothing};
    qll_belief told;
    qll_belief untold;
    if (qll_belief_make(knowledge, known, arena, &told) != QLL_OK
        || qll_belief_make(knowledge, &prior, arena, &untold) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    learning->brier_sum += brier(&told, cause);
    learning->brier_prior_sum += brier(&untold, cause);
    learning->case_count += 1;
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        if (known->answers[e] != QLL_NOT_KNOWN) {
            learning->count[place(learning, e, known->answers[e], cause)] += 1.0;
        }
    }
    return QLL_OK;
}

double qll_learning_told(const qll_learning *learning, size_t evidence, size_t cause)
{
    double sum = 0.0;
    for (size_t o = 0; o < learning->knowledge->evidence[evidence].outcome_count; o++) {
        sum += learning->count[place(learning, evidence, o, cause)];
    }
    return sum;
}

double qll_learning_share(const qll_learning *learning, size_t evidence, size_t outcome,
                          size_t cause)
{
    const double table = qll_likelihood(learning->knowledge, evidence, outcome, cause);
    const double told = learning->count[place(learning, evidence, outcome, cause)];
    return (QLL_TABLE_IS_WORTH * table + told)
           / (QLL_TABLE_IS_WORTH + qll_learning_told(learning, evidence, cause));
}
