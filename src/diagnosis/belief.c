#include "diagnosis/belief.h"

#include <math.h>

/* lambda of eq. 1: n answers of a group count as so many times one. */
static double tempered(const qll_knowledge *knowledge, size_t count)
{
    return count < 2 ? 1.0 : 1.0 / (1.0 + knowledge->copied_share * ((double)count - 1.0));
}

/* ln((1 - m) exp(seen) + m exp(usual)), of exponents already tempered. */
static double either(const qll_knowledge *knowledge, double seen, double usual)
{
    const double lost = knowledge->lost_share;
    if (lost <= 0.0) {
        return seen;
    }
    const double most = seen > usual ? seen : usual;
    return most + log((1.0 - lost) * exp(seen - most) + lost * exp(usual - most));
}

double qll_group_weight(const qll_knowledge *knowledge, size_t count, double seen, double usual)
{
    const double lambda = tempered(knowledge, count);
    return count == 0 ? 0.0 : either(knowledge, lambda * seen, lambda * usual);
}

/* The same of group @p group for @p cause. */
static double group_weight(const qll_belief *belief, size_t group, size_t cause)
{
    return qll_group_weight(belief->knowledge, belief->answer_count[group],
                            belief->seen[group * belief->knowledge->cause_count + cause],
                            belief->usual[group]);
}

/* exp of @p log_weight, made to sum to 1. */
static void make_sum_1(const double *log_weight, size_t count, double *probability)
{
    double most = -HUGE_VAL;
    for (size_t c = 0; c < count; c++) {
        most = log_weight[c] > most ? log_weight[c] : most;
    }
    double sum = 0.0;
    for (size_t c = 0; c < count; c++) {
        probability[c] = exp(log_weight[c] - most);
        sum += probability[c];
    }
    for (size_t c = 0; c < count; c++) {
        probability[c] /= sum;
    }
}

static void add_answers(qll_belief *belief)
{
    const qll_knowledge *knowledge = belief->knowledge;
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        const qll_evidence *evidence = &knowledge->evidence[e];
        const size_t outcome = belief->known.answers[e];
        if (outcome == QLL_NOT_KNOWN) {
            continue;
        }
        double *seen = &belief->seen[evidence->group * knowledge->cause_count];
        for (size_t c = 0; c < knowledge->cause_count; c++) {
            seen[c] += log(qll_likelihood(knowledge, e, outcome, c));
        }
        belief->usual[evidence->group] += log(evidence->outcomes[outcome].usual);
        belief->answer_count[evidence->group] += 1;
    }
}

static void weigh(qll_belief *belief)
{
    const qll_knowledge *knowledge = belief->knowledge;
    double sum = 0.0;
    for (size_t c = 0; c < knowledge->cause_count; c++) {
        const qll_cause *cause = &knowledge->causes[c];
        const bool may_be = (cause->needs & ~belief->known.site) == 0;
        belief->log_prior[c] = may_be ? log(cause->weight) : -HUGE_VAL;
        sum += may_be ? cause->weight : 0.0;
    }
    for (size_t c = 0; c < knowledge->cause_count; c++) {
        belief->log_prior[c] -= log(sum);
        belief->log_weight[c] = belief->log_prior[c];
        for (size_t g = 0; g < knowledge->group_count; g++) {
            belief->log_weight[c] += group_weight(belief, g, c);
        }
    }
    make_sum_1(belief->log_weight, knowledge->cause_count, belief->probability);
}

qll_status qll_belief_make(const qll_knowledge *knowledge, const qll_known *known, qll_arena *arena,
                           qll_belief *belief)
{
    const size_t causes = knowledge->cause_count;
    const size_t groups = knowledge->group_count;
    *belief = (qll_belief){
        .knowledge = knowledge,
        .known = *known,
        .probability = qll_arena_take(arena, causes, sizeof(double)),
        .seen = qll_arena_take(arena, groups * causes, sizeof(double)),
        .usual = qll_arena_take(arena, groups, sizeof(double)),
        .answer_count = qll_arena_take(arena, groups, sizeof(size_t)),
        .log_prior = qll_arena_take(arena, causes, sizeof(double)),
        .log_weight = qll_arena_take(arena, causes, sizeof(double)),
    };
    if (belief->probability == NULL || belief->seen == NULL || belief->usual == NULL
        || belief->answer_count == NULL || belief->log_prior == NULL
        || belief->log_weight == NULL) {
        return QLL_NO_MEMORY;
    }
    add_answers(belief);
    weigh(belief);
    return QLL_OK;
}

double qll_belief_if(const qll_belief *belief, size_t evidence, size_t outcome, double *posterior)
{
    const qll_knowledge *knowledge = belief->knowledge;
    const size_t group = knowledge->evidence[evidence].group;
    const size_t count = belief->answer_count[group];
    const double now = tempered(knowledge, count);
    const double then = tempered(knowledge, count + 1);
    const double usual_share = knowledge->evidence[evidence].outcomes[outcome].usual;
    const double usual = belief->usual[group];
    double predicted = 0.0;
    for (size_t c = 0; c < knowledge->cause_count; c++) {
        const double seen = belief->seen[group * knowledge->cause_count + c];
        const double share = qll_likelihood(knowledge, evidence, outcome, c);
        const double before = group_weight(belief, group, c);
        const double shows = count == 0 ? 1.0 - knowledge->lost_share
                                        : (1.0 - knowledge->lost_share) * exp(now * seen - before);
        predicted += belief->probability[c] * (shows * share + (1.0 - shows) * usual_share);
        posterior[c] =
            belief->log_weight[c] - before
            + either(knowledge, then * (seen + log(share)), then * (usual + log(usual_share)));
    }
    make_sum_1(posterior, knowledge->cause_count, posterior);
    return predicted;
}

bool qll_belief_may_ask(const qll_belief *belief, size_t evidence)
{
    const qll_condition *only_if = &belief->knowledge->evidence[evidence].only_if;
    if (belief->known.answers[evidence] != QLL_NOT_KNOWN
        || (only_if->site & ~belief->known.site) != 0) {
        return false;
    }
    if (only_if->evidence == QLL_NOT_KNOWN) {
        return true;
    }
    const size_t answered = belief->known.answers[only_if->evidence];
    return answered != QLL_NOT_KNOWN && only_if->outcomes[answered];
}

size_t qll_belief_likeliest(const qll_belief *belief)
{
    size_t best = 0;
    for (size_t c = 1; c < belief->knowledge->cause_count; c++) {
        if (belief->probability[c] > belief->probability[best]) {
            best = c;
        }
    }
    return best;
}
