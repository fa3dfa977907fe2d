#include "diagnosis/two_faults.h"

#include <math.h>

/* One visit in ten has two faults: our assumption. */
#define QLL_TWO_SHARE 0.1

/* Two causes are weighed with this. */
typedef struct weighing {
    const qll_belief *belief;
    const bool *
        touches; /* [evidence][cause] whether it changes what is usual; of evidence that is known */
    double *seen; /* [group] written over for each two */
    double most;  /* greatest log weight of a single cause, so that exp() stays in range */
} weighing;

static bool may_be(const qll_belief *belief, size_t cause)
{
    return isfinite(belief->log_prior[cause]) && cause != belief->knowledge->other;
}

static bool does_touch(const qll_knowledge *knowledge, size_t evidence, size_t cause)
{
    const qll_evidence *of = &knowledge->evidence[evidence];
    for (size_t o = 0; o < of->outcome_count; o++) {
        if (qll_likelihood(knowledge, evidence, o, cause) != of->outcomes[o].usual) {
            return true;
        }
    }
    return false;
}

/* P(what was answered | both). */
static double share_of_two(const weighing *of, size_t evidence, size_t a, size_t b)
{
    const qll_knowledge *knowledge = of->belief->knowledge;
    const size_t outcome = of->belief->known.answers[evidence];
    const bool *touches = &of->touches[evidence * knowledge->cause_count];
    const double of_a = qll_likelihood(knowledge, evidence, outcome, a);
    const double of_b = qll_likelihood(knowledge, evidence, outcome, b);
    if (touches[a] == touches[b]) {
        return 0.5 * of_a + 0.5 * of_b;
    }
    return touches[a] ? of_a : of_b;
}

static double weight_of_two(const weighing *of, size_t a, size_t b)
{
    const qll_belief *belief = of->belief;
    const qll_knowledge *knowledge = belief->knowledge;
    for (size_t g = 0; g < knowledge->group_count; g++) {
        of->seen[g] = 0.0;
    }
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        if (belief->known.answers[e] != QLL_NOT_KNOWN) {
            of->seen[knowledge->evidence[e].group] += log(share_of_two(of, e, a, b));
        }
    }
    double weight = belief->log_prior[a] + belief->log_prior[b] - of->most;
    for (size_t g = 0; g < knowledge->group_count; g++) {
        weight +=
            qll_group_weight(knowledge, belief->answer_count[g], of->seen[g], belief->usual[g]);
    }
    return exp(weight);
}

/* Sums over every two: of their priors, and of their weights, whose greatest goes to @p two. */
static double weigh_all(const weighing *of, double *prior_sum, qll_two_faults *two)
{
    const qll_belief *belief = of->belief;
    double sum = 0.0;
    for (size_t a = 0; a < belief->knowledge->cause_count; a++) {
        for (size_t b = a + 1; b < belief->knowledge->cause_count; b++) {
            if (!may_be(belief, a) || !may_be(belief, b)) {
                continue;
            }
            const double weight = weight_of_two(of, a, b);
            sum += weight;
            *prior_sum += exp(belief->log_prior[a] + belief->log_prior[b]);
            if (two->first == QLL_NOT_KNOWN || weight > two->pair_share) {
                const bool is_in_order = belief->probability[a] >= belief->probability[b];
                two->first = is_in_order ? a : b;
                two->second = is_in_order ? b : a;
                two->pair_share = weight;
            }
        }
    }
    return sum;
}

static qll_status prepare(const qll_belief *belief, qll_arena *arena, weighing *of)
{
    const qll_knowledge *knowledge = belief->knowledge;
    bool *touches =
        qll_arena_take(arena, knowledge->evidence_count * knowledge->cause_count, sizeof *touches);
    *of = (weighing){
        .belief = belief,
        .touches = touches,
        .seen = qll_arena_take(arena, knowledge->group_count, sizeof(double)),
        .most = -HUGE_VAL,
    };
    if (touches == NULL || of->seen == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t c = 0; c < knowledge->cause_count; c++) {
        of->most = fmax(of->most, belief->log_weight[c]);
        for (size_t e = 0; e < knowledge->evidence_count; e++) {
            touches[e * knowledge->cause_count + c] =
                belief->known.answers[e] != QLL_NOT_KNOWN && does_touch(knowledge, e, c);
        }
    }
    return QLL_OK;
}

qll_status qll_two_faults_find(const qll_belief *belief, qll_arena *arena, qll_two_faults *two)
{
    weighing of;
    *two = (qll_two_faults){.first = QLL_NOT_KNOWN, .second = QLL_NOT_KNOWN};
    if (prepare(belief, arena, &of) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    double singles = 0.0;
    for (size_t c = 0; c < belief->knowledge->cause_count; c++) {
        singles += exp(belief->log_weight[c] - of.most);
    }
    double prior = 0.0;
    const double pairs = weigh_all(&of, &prior, two);
    if (!(prior > 0.0)) {
        return QLL_OK;
    }
    const double scale = QLL_TWO_SHARE / prior;
    const double all = (1.0 - QLL_TWO_SHARE) * singles + scale * pairs;
    two->share = scale * pairs / all;
    two->pair_share = scale * two->pair_share / all;
    return QLL_OK;
}
