/* Made-up cases of trouble, drawn from the tables (docs/theory/diagnosis.md 6), and how well they are diagnosed. */
#ifndef QUELL_TESTS_DIAGNOSIS_WORLD_H
#define QUELL_TESTS_DIAGNOSIS_WORLD_H

#include "base/random.h"
#include "diagnosis/diagnosis.h"
#include "numeric/sample.h"

#include <math.h>
#include <stdlib.h>

/* exact: as the tables say. masked: a group is lost with 0.2, and every site has shares of its own, Dirichlet(12 p).
 * alike: how far the answers of one group go together where the cause shows. A case that is typical of its cause in one
 * answer then is so in the others, while each answer by itself stays as likely as it is: a normal copula. */
typedef struct world {
    const qll_knowledge *knowledge;
    unsigned site;
    bool is_masked;
    double alike; /* correlation of two answers of a group, 0 to below 1 */
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

/* Picks as world_pick() does, but by how typical a case is: @p typical 0 gives the answer that speaks most for the
 * cause, 1 the one that speaks most against it. */
static inline size_t world_pick_typical(const qll_evidence *evidence, const double *weight,
                                        const double *by_cause, double typical)
{
    bool passed[64] = {false};
    double sum = 0.0;
    for (size_t o = 0; o < evidence->outcome_count; o++) {
        sum += weight[o];
    }
    double left = sum * typical;
    size_t best = 0;
    for (size_t n = 0; n < evidence->outcome_count; n++) {
        best = SIZE_MAX;
        for (size_t o = 0; o < evidence->outcome_count; o++) {
            if (!passed[o]
                && (best == SIZE_MAX
                    || by_cause[o] * evidence->outcomes[best].usual
                           > by_cause[best] * evidence->outcomes[o].usual)) {
                best = o;
            }
        }
        passed[best] = true;
        if (left < weight[best]) {
            break;
        }
        left -= weight[best];
    }
    return best;
}

static inline void world_draw(world *of, world_case *drawn)
{
    const qll_knowledge *knowledge = of->knowledge;
    double weight[64];
    double by_cause[64];
    double shared[64];
    bool lost[64];
    for (size_t c = 0; c < knowledge->cause_count; c++) {
        weight[c] = world_weight(of, c);
    }
    drawn->cause = world_pick(of, weight, knowledge->cause_count);
    for (size_t g = 0; g < knowledge->group_count; g++) {
        lost[g] = of->is_masked && qll_random_unit(&of->random) < 0.2;
        shared[g] = of->alike > 0.0 ? qll_sample_normal(&of->random) : 0.0;
    }
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        const qll_evidence *evidence = &knowledge->evidence[e];
        for (size_t o = 0; o < evidence->outcome_count; o++) {
            by_cause[o] = qll_likelihood(knowledge, e, o, drawn->cause);
            const double p = lost[evidence->group] ? evidence->outcomes[o].usual : by_cause[o];
            /* A Dirichlet number is a gamma number of shape 12 p over their sum; its spread is 1/sqrt(shape). */
            weight[o] = of->is_masked ? p * qll_sample_gamma(&of->random, 1.0 / sqrt(12.0 * p)) : p;
        }
        if (of->alike > 0.0 && !lost[evidence->group]) {
            const double own = qll_sample_normal(&of->random);
            const double both =
                sqrt(of->alike) * shared[evidence->group] + sqrt(1.0 - of->alike) * own;
            drawn->answers[e] =
                world_pick_typical(evidence, weight, by_cause, 0.5 * erfc(-both / sqrt(2.0)));
        } else {
            drawn->answers[e] = world_pick(of, weight, evidence->outcome_count);
        }
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

static inline void world_add(world_score *score, const qll_belief *belief, size_t truth)
{
    const double *p = belief->probability;
    size_t above = 0;
    for (size_t c = 0; c < belief->knowledge->cause_count; c++) {
        const double miss = p[c] - (c == truth ? 1.0 : 0.0);
        score->brier += miss * miss;
        above += p[c] > p[truth] || (p[c] >= p[truth] && c < truth) ? 1 : 0;
    }
    score->log_loss -= log(p[truth]);
    const double top = p[qll_belief_likeliest(belief)];
    const bool is_hit = above == 0;
    const size_t bin = top < 1.0 ? (size_t)(10.0 * top) : 9;
    score->bin_said[bin] += top;
    score->bin_hit[bin] += is_hit ? 1.0 : 0.0;
    score->bin_count[bin] += 1;
    score->cases += 1;
    score->hits += is_hit ? 1 : 0;
    score->hits_of_three += above < 3 ? 1 : 0;
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
        qll_belief belief;
        if (qll_belief_make(of->knowledge, &given, arena, &belief) == QLL_OK) {
            world_add(&score, &belief, one.cause);
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
        world_add(&score, &diagnosis.belief, one.cause);
        qll_arena_close(arena);
    }
    return score;
}

#endif
