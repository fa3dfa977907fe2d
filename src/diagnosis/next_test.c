#include "diagnosis/next_test.h"

#include <math.h>
#include <stdlib.h>

/* Tests are at least so long where bits are set against minutes. */
#define QLL_LEAST_MINUTES 2.0

/* A test that would take over 25 minutes for each bit is not made for bits alone. */
#define QLL_LEAST_BITS_PER_MINUTE (1.0 / 25.0)

qll_status qll_losses_make(const qll_knowledge *knowledge, qll_arena *arena, qll_losses *losses)
{
    const size_t count = knowledge->cause_count;
    double *hours = qll_arena_take(arena, count * count, sizeof *hours);
    if (hours == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t a = 0; a < count; a++) {
        for (size_t c = 0; c < count; c++) {
            const double wrong = knowledge->causes[c].hours
                                 + (a == knowledge->other ? 0.0 : knowledge->callback_hours);
            hours[a * count + c] = knowledge->causes[a].hours + (a == c ? 0.0 : wrong);
        }
    }
    *losses = (qll_losses){.hours = hours, .count = count};
    return QLL_OK;
}

double qll_least_loss(const qll_losses *losses, const double *probability, size_t *action)
{
    double least = HUGE_VAL;
    for (size_t a = 0; a < losses->count; a++) {
        double hours = 0.0;
        for (size_t c = 0; c < losses->count; c++) {
            hours += losses->hours[a * losses->count + c] * probability[c];
        }
        if (hours < least) {
            least = hours;
            if (action != NULL) {
                *action = a;
            }
        }
    }
    return least;
}

double qll_value_of_certainty(const qll_losses *losses, const double *probability)
{
    double known = 0.0;
    for (size_t c = 0; c < losses->count; c++) {
        double least = HUGE_VAL;
        for (size_t a = 0; a < losses->count; a++) {
            least = fmin(least, losses->hours[a * losses->count + c]);
        }
        known += probability[c] * least;
    }
    return qll_least_loss(losses, probability, NULL) - known;
}

static double entropy_bits(const double *probability, size_t count)
{
    double bits = 0.0;
    for (size_t c = 0; c < count; c++) {
        bits -= probability[c] > 0.0 ? probability[c] * log2(probability[c]) : 0.0;
    }
    return bits;
}

qll_next_test qll_test_worth(const qll_belief *belief, const qll_losses *losses, size_t evidence,
                             double *room)
{
    const qll_evidence *of = &belief->knowledge->evidence[evidence];
    double hours = qll_least_loss(losses, belief->probability, NULL);
    double bits = entropy_bits(belief->probability, losses->count);
    for (size_t o = 0; o < of->outcome_count; o++) {
        const double share = qll_belief_if(belief, evidence, o, room);
        hours -= share * qll_least_loss(losses, room, NULL);
        bits -= share * entropy_bits(room, losses->count);
    }
    const double worth_hours = fmax(hours, 0.0);
    return (qll_next_test){
        .evidence = evidence,
        .worth_hours = worth_hours,
        .net_hours = worth_hours - of->minutes / 60.0,
        .gain_bits = fmax(bits, 0.0),
    };
}

/* What qsort() compares: whether it waits, then what it is worth. */
typedef struct rank {
    qll_next_test test;
    bool is_log;
    double worth;
} rank;

static int compare(const void *a, const void *b)
{
    const rank *first = a;
    const rank *second = b;
    if (first->is_log != second->is_log) {
        return first->is_log ? 1 : -1;
    }
    if (first->worth != second->worth) {
        return first->worth > second->worth ? -1 : 1;
    }
    return first->test.evidence < second->test.evidence ? -1 : 1;
}

static size_t measure_all(const qll_belief *belief, const qll_losses *losses, const bool *skipped,
                          double *room, rank *ranks)
{
    const qll_knowledge *knowledge = belief->knowledge;
    size_t count = 0;
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        if ((skipped == NULL || !skipped[e]) && qll_belief_may_ask(belief, e)) {
            ranks[count] = (rank){
                .test = qll_test_worth(belief, losses, e, room),
                .is_log = knowledge->evidence[e].kind == QLL_EVIDENCE_KIND_LOG,
            };
            count += 1;
        }
    }
    return count;
}

/* By hours saved where one saves any; else by bits a minute. */
static bool order(const qll_knowledge *knowledge, rank *ranks, size_t count)
{
    bool saves = false;
    for (size_t i = 0; i < count; i++) {
        saves = saves || (!ranks[i].is_log && ranks[i].test.net_hours > 0.0);
    }
    for (size_t i = 0; i < count; i++) {
        const double minutes = knowledge->evidence[ranks[i].test.evidence].minutes;
        ranks[i].worth = saves ? ranks[i].test.net_hours
                               : ranks[i].test.gain_bits / fmax(minutes, QLL_LEAST_MINUTES);
    }
    qsort(ranks, count, sizeof *ranks, compare);
    return saves;
}

qll_status qll_next_tests_find(const qll_belief *belief, const qll_losses *losses,
                               const bool *skipped, qll_arena *arena, qll_next_tests *next)
{
    const qll_knowledge *knowledge = belief->knowledge;
    double *room = qll_arena_take(arena, knowledge->cause_count, sizeof *room);
    rank *ranks = qll_arena_take(arena, knowledge->evidence_count, sizeof *ranks);
    qll_next_test *tests = qll_arena_take(arena, knowledge->evidence_count, sizeof *tests);
    if (room == NULL || ranks == NULL || tests == NULL) {
        return QLL_NO_MEMORY;
    }
    const size_t count = measure_all(belief, losses, skipped, room, ranks);
    const bool saves = order(knowledge, ranks, count);
    *next = (qll_next_tests){.tests = tests, .count = count};
    for (size_t i = 0; i < count; i++) {
        tests[i] = ranks[i].test;
        next->log_count += ranks[i].is_log ? 1 : 0;
    }
    const double likeliest = belief->probability[qll_belief_likeliest(belief)];
    next->is_done =
        likeliest >= QLL_SURE_ENOUGH || next->count == next->log_count
        || (!saves
            && (likeliest >= QLL_LIKELY_ENOUGH || ranks[0].worth < QLL_LEAST_BITS_PER_MINUTE));
    return QLL_OK;
}
