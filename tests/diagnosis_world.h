/* Made-up cases of trouble, drawn from the tables (docs/theory/diagnosis.md 6), and how well they are diagnosed. */
#ifndef QUELL_TESTS_DIAGNOSIS_WORLD_H
#define QUELL_TESTS_DIAGNOSIS_WORLD_H

#include "base/random.h"
#include "diagnosis/diagnosis.h"
#include "numeric/sample.h"

#include <math.h>
#include <stdlib.h>

/* exact: as the tables say. masked: a group is lost with 0.2, and every site has shares of its own, Dirichlet(12 p). */
typedef struct world {
    const qll_knowledge *knowledge;
    unsigned site;
    bool is_masked;
    qll_random random;
} world;

/* A case: what is wrong, and what every question would be answered. */
typedef struct world_case {
    size_t cause;
    size_t *answers; /* [evidence] */
} world_case;

static inline size_t world_pick(world *of, const double *weight, size_t count)
{
    double sum = 0.0;
    for (size_t i = 0; i < count; i++) {
        sum += weight[i];
    }
    double left = sum * qll_random_unit(&of->random);
    size_t i = 0;
    while (i + 1 < count && left >= weight[i]) {
        left -= weight[i];
        i += 1;
    }
    return i;
}

static inline double world_weight(const world *of, size_t cause)
{
    const qll_cause *c = &of->knowledge->causes[cause];
    return (c->needs & ~of->site) == 0 ? c->weight : 0.0;
}

static inline void world_draw(world *of, world_case *drawn)
{
    const qll_knowledge *knowledge = of->knowledge;
    double weight[64];
    bool lost[64];
    for (size_t c = 0; c < knowledge->cause_count; c++) {
        weight[c] = world_weight(of, c);
    }
    drawn->cause = world_pick(of, weight, knowledge->cause_count);
    for (size_t g = 0; g < knowledge->group_count; g++) {
        lost[g] = of->is_masked && qll_random_unit(&of->random) < 0.2;
    }
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        const qll_evidence *evidence = &knowledge->evidence[e];
        for (size_t o = 0; o < evidence->outcome_count; o++) {
            const double p = lost[evidence->group] ? evidence->outcomes[o].usual
                                                   : qll_likelihood(knowledge, e, o, drawn->cause);
            /* A Dirichlet number is a gamma number of shape 12 p over their sum; its spread is 1/sqrt(shape). */
            weight[o] = of->is_masked ? p * qll_sample_gamma(&of->random, 1.0 / sqrt(12.0 * p)) : p;
        }
        drawn->answers[e] = world_pick(of, weight, evidence->outcome_count);
    }
}

/* How well a set of cases went. */
typedef struct world_score {
    size_t cases, hits, hits_of_three;
    double brier, log_loss;
    double bin_said[10], bin_hit[10];
    size_t bin_count[10];
    double answers, minutes;
} world_score;

static inline void world_add(world_score *score, const qll_diagnosis *diagnosis, size_t truth)
{
    const double *p = diagnosis->belief.probability;
    for (size_t c = 0; c < diagnosis->belief.knowledge->cause_count; c++) {
        const double miss = p[c] - (c == truth ? 1.0 : 0.0);
        score->brier += miss * miss;
    }
    score->log_loss -= log(p[truth]);
    const double top = diagnosis->causes[0].probability;
    const bool is_hit = diagnosis->causes[0].cause == truth;
    const size_t bin = top < 1.0 ? (size_t)(10.0 * top) : 9;
    score->bin_said[bin] += top;
    score->bin_hit[bin] += is_hit ? 1.0 : 0.0;
    score->bin_count[bin] += 1;
    score->cases += 1;
    score->hits += is_hit ? 1 : 0;
    for (size_t i = 0; i < 3 && i < diagnosis->cause_count; i++) {
        score->hits_of_three += diagnosis->causes[i].cause == truth ? 1 : 0;
    }
}

/* Expected calibration error over ten bins of the likeliest cause's share. */
static inline double world_calibration(const world_score *score)
{
    double sum = 0.0;
    for (size_t b = 0; b < 10; b++) {
        sum += fabs(score->bin_hit[b] - score->bin_said[b]);
    }
    return sum / (double)score->cases;
}

/* The visit of docs/theory/diagnosis.md 6: the seven questions, and seven things to look at and test. */
static inline bool world_is_of_visit(const qll_evidence *evidence)
{
    static const char *const tests[] = {
        "bonnet_leak", "lockup_vs_set",   "creep_10min",         "falloff",
        "strainer_dp", "adjust_response", "throttle_or_add_flow"};
    for (size_t i = 0; i < sizeof tests / sizeof *tests; i++) {
        if (qll_text_is(qll_text_of(evidence->word), tests[i])) {
            return true;
        }
    }
    return evidence->kind == QLL_EVIDENCE_KIND_ASK;
}

/* Asks @p count cases: @p level 0 only the questions, 1 the whole visit, 2 all there is. */
static inline world_score world_visit(world *of, size_t count, int level, qll_arena *lasting)
{
    const size_t evidence_count = of->knowledge->evidence_count;
    world_case one = {.answers = qll_arena_take(lasting, evidence_count, sizeof(size_t))};
    size_t *known = qll_arena_take(lasting, evidence_count, sizeof *known);
    world_score score = {0};
    for (size_t n = 0; n < count; n++) {
        qll_arena *arena = qll_arena_open((size_t)16 << 20);
        world_draw(of, &one);
        for (size_t e = 0; e < evidence_count; e++) {
            const qll_evidence *evidence = &of->knowledge->evidence[e];
            const bool is_asked = level == 2 || (level == 1 && world_is_of_visit(evidence))
                                  || evidence->kind == QLL_EVIDENCE_KIND_ASK;
            known[e] = is_asked ? one.answers[e] : QLL_NOT_KNOWN;
            score.answers += is_asked ? 1.0 : 0.0;
            score.minutes += is_asked ? evidence->minutes : 0.0;
        }
        const qll_known given = {.site = of->site, .answers = known};
        qll_diagnosis diagnosis;
        if (qll_diagnose(of->knowledge, &given, NULL, arena, &diagnosis) == QLL_OK) {
            world_add(&score, &diagnosis, one.cause);
        }
        qll_arena_close(arena);
    }
    return score;
}

/* Asks each case what is worth asking next, until nothing is. Logs are not waited for. */
static inline world_score world_policy(world *of, size_t count, qll_arena *lasting)
{
    const size_t evidence_count = of->knowledge->evidence_count;
    world_case one = {.answers = qll_arena_take(lasting, evidence_count, sizeof(size_t))};
    size_t *known = qll_arena_take(lasting, evidence_count, sizeof *known);
    world_score score = {0};
    for (size_t n = 0; n < count; n++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        world_draw(of, &one);
        for (size_t e = 0; e < evidence_count; e++) {
            known[e] = QLL_NOT_KNOWN;
        }
        const qll_known given = {.site = of->site, .answers = known};
        qll_diagnosis diagnosis;
        while (qll_diagnose(of->knowledge, &given, NULL, arena, &diagnosis) == QLL_OK
               && !diagnosis.next.is_done) {
            const size_t e = diagnosis.next.tests[0].evidence;
            known[e] = one.answers[e];
            score.answers += 1.0;
            score.minutes += of->knowledge->evidence[e].minutes;
        }
        world_add(&score, &diagnosis, one.cause);
        qll_arena_close(arena);
    }
    return score;
}

#endif
