#include "numeric/probability.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>

/* Panjer's terms are scaled down when they pass this; far from overflow even times any mean count. */
#define QLL_SCALE_AT 1e250

/* Neighbouring sizes of positive probability. */
typedef struct run {
    size_t first, count;
} run;

/* ln of the mean of exp(t times the sum), and its slope, from those of M(t) - 1 of one size:
 * Poisson, mean (M - 1); negative binomial, -ln(1 - cv^2 mean (M - 1)) / cv^2. */
static double log_moment(qll_random_count number, double rise, double *slope)
{
    const double spread = number.cv * number.cv * number.mean;
    if (spread <= 0.0) {
        *slope *= number.mean;
        return number.mean * rise;
    }
    if (spread * rise >= 1.0) {
        *slope = HUGE_VAL;
        return HUGE_VAL;
    }
    *slope *= number.mean / (1.0 - spread * rise);
    return -log1p(-spread * rise) / (number.cv * number.cv);
}

/* A whole number of steps that the sum passes with less than the tail's probability: Chernoff,
 * P(S > x) <= exp(ln moment(t) - t x) for every t > 0; t is where the least such x is. */
static double chernoff_top(qll_random_count number, qll_distribution size, double tail)
{
    const double widest = (double)(size.count - 1);
    const double wanted = -log(tail);
    double low = log(1e-9 / widest);
    double high = log(200.0 / widest);
    double top = HUGE_VAL;
    for (int i = 0; i < 50; i++) {
        const double middle = 0.5 * (low + high);
        const double t = exp(middle);
        double rise = 0.0;  /* M(t) - 1 */
        double slope = 0.0; /* M'(t) */
        const double ratio = exp(t);
        double grown = 1.0; /* exp(t j) */
        for (size_t j = 1; j < size.count; j++) {
            grown *= ratio;
            rise += size.p[j] * (grown - 1.0);
            slope += size.p[j] * (double)j * grown;
        }
        const double moment = log_moment(number, rise, &slope);
        top = fmin(top, (moment + wanted) / t);
        if (moment < HUGE_VAL && t * slope - moment < wanted) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return ceil(top);
}

static size_t find_runs(qll_distribution size, run *runs)
{
    size_t count = 0;
    for (size_t j = 1; j < size.count; j++) {
        if (size.p[j] <= 0.0) {
            continue;
        }
        if (size.p[j - 1] <= 0.0) {
            runs[count] = (run){.first = j};
            count += 1;
        }
        runs[count - 1].count += 1;
    }
    return count;
}

static void scale(double *values, size_t count, double factor)
{
    for (size_t i = 0; i < count; i++) {
        values[i] *= factor;
    }
}

/* What one size hands on to the sums above it. */
typedef struct panjer_weights {
    const double *steady; /* (a + b) j f(j) */
    const double *rising; /* a f(j), of which the sum at hand takes s times; NULL if a = 0 */
    const run *runs;
    size_t run_count;
} panjer_weights;

/* g(s) = sum of (a + b j/s) f(j) g(s - j), that is
 * s g(s) = sum of (a (s - j) + (a + b) j) f(j) g(s - j): each g(s), once known, is handed on to all
 * s + j it feeds, so that the inner loop has no chain of additions. All is relative to g(0) = 1. */
static void hand_on(const panjer_weights *weights, double g, double s, double *sum)
{
    for (size_t r = 0; r < weights->run_count; r++) {
        const size_t first = weights->runs[r].first;
        const size_t count = weights->runs[r].count;
        const double *restrict steady = weights->steady + first;
        double *restrict to = sum + first;
        if (weights->rising == NULL) {
            for (size_t j = 0; j < count; j++) {
                to[j] += g * steady[j];
            }
            continue;
        }
        const double *restrict rising = weights->rising + first;
        const double gs = g * s;
        for (size_t j = 0; j < count; j++) {
            to[j] += g * steady[j] + gs * rising[j];
        }
    }
}

static void panjer(const panjer_weights *weights, double *sum, qll_distribution *result)
{
    const run last = weights->runs[weights->run_count - 1];
    const size_t widest = last.first + last.count;
    result->p[0] = 1.0;
    for (size_t s = 0; s < result->count; s++) {
        if (s > 0) {
            result->p[s] = sum[s] / (double)s;
        }
        if (result->p[s] > QLL_SCALE_AT) {
            scale(result->p, s + 1, 1.0 / QLL_SCALE_AT);
            scale(sum + s, widest, 1.0 / QLL_SCALE_AT);
        }
        if (result->p[s] > 0.0) {
            hand_on(weights, result->p[s], (double)s, sum + s);
        }
    }
}

/* Weights of a size distribution with a positive size; false without memory. With spread v = cv^2
 * mean the family's a = v / (1 + v) and a + b = mean / (1 + v). */
static bool make_weights(qll_random_count number, qll_distribution size, qll_arena *arena,
                         panjer_weights *weights)
{
    const double spread = number.cv * number.cv * number.mean;
    double *steady = qll_arena_take(arena, size.count, sizeof *steady);
    double *rising = spread > 0.0 ? qll_arena_take(arena, size.count, sizeof *rising) : NULL;
    if (steady == NULL || (spread > 0.0 && rising == NULL)) {
        return false;
    }
    for (size_t j = 1; j < size.count; j++) {
        steady[j] = number.mean / (1.0 + spread) * (double)j * size.p[j];
        if (rising != NULL) {
            rising[j] = spread / (1.0 + spread) * size.p[j];
        }
    }
    weights->steady = steady;
    weights->rising = rising;
    return true;
}

static void divide_by_sum(qll_distribution *result)
{
    double total = 0.0;
    for (size_t s = 0; s < result->count; s++) {
        total += result->p[s];
    }
    for (size_t s = 0; s < result->count; s++) {
        result->p[s] /= total;
    }
}

qll_status qll_compound(qll_random_count number, qll_distribution size, double tail,
                        qll_arena *arena, qll_distribution *result)
{
    assert(number.mean >= 0.0 && isfinite(number.mean) && number.cv >= 0.0);
    assert(tail > 0.0 && tail < 1.0 && size.count > 0 && size.p[0] == 0.0);
    size_t count = 1;
    if (number.mean > 0.0 && size.count > 1) {
        const double top = chernoff_top(number, size, tail);
        if (!(top < (double)(SIZE_MAX / 64) - (double)size.count)) {
            return QLL_NO_MEMORY;
        }
        count = (size_t)top + 1;
    }
    *result = (qll_distribution){
        .step = size.step, .count = count, .p = qll_arena_take(arena, count, sizeof *result->p)};
    const qll_arena_mark mark = qll_arena_now(arena);
    run *runs = qll_arena_take(arena, size.count, sizeof *runs);
    double *sum = qll_arena_take(arena, count + size.count, sizeof *sum);
    panjer_weights weights = {.runs = runs};
    if (result->p == NULL || runs == NULL || sum == NULL
        || !make_weights(number, size, arena, &weights)) {
        return QLL_NO_MEMORY;
    }
    weights.run_count = find_runs(size, runs);
    if (count == 1 || weights.run_count == 0) {
        result->count = 1;
        result->p[0] = 1.0;
    } else {
        panjer(&weights, sum, result);
        divide_by_sum(result);
    }
    qll_arena_reset(arena, mark);
    return QLL_OK;
}
