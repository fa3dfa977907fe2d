#include "numeric/probability.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

/* A quantile is reached at this much less than its share: F is a sum of rounded terms, and at a tie
 * the last bit must not move the answer by a grid step. */
#define QLL_TIE_GUARD  1e-12
/* Terms of a convolution below this are dropped. */
#define QLL_LEAST_TERM 1e-30
/* Panjer's terms are scaled down when they pass this; far from overflow even times any mean count. */
#define QLL_SCALE_AT   1e250
#define QLL_TWO_PI     6.283185307179586

/* ---- one binomial probability ---- */

/* ln n! - ln(sqrt(2 pi n) (n/e)^n) for n >= 1: Stirling's series from 16 on (its next term is below
 * 1e-17 there), and downwards by the exact difference of neighbours,
 * d(n) - d(n+1) = (n + 1/2) ln(1 + 1/n) - 1. */
static double stirling_error(double n)
{
    double sum = 0.0;
    while (n < 16.0) {
        sum += (n + 0.5) * log1p(1.0 / n) - 1.0;
        n += 1.0;
    }
    static const double series[] = {691.0 / 360360.0, -1.0 / 1188.0, 1.0 / 1680.0,
                                    -1.0 / 1260.0,    1.0 / 360.0,   -1.0 / 12.0};
    double tail = 0.0;
    for (size_t i = 0; i < sizeof series / sizeof series[0]; i++) {
        tail = tail / (n * n) + series[i];
    }
    return sum - tail / n;
}

/* x ln(x/m) + m - x without cancellation: with v = (x-m)/(x+m), ln(x/m) = 2 (v + v^3/3 + ...). */
static double deviance(double x, double m)
{
    const double v = (x - m) / (x + m);
    if (fabs(v) > 0.3) {
        return x * log(x / m) + m - x;
    }
    double sum = (x - m) * v;
    double term = 2.0 * x * v;
    for (int j = 3; j < 100; j += 2) {
        term *= v * v;
        const double next = sum + term / j;
        if (next == sum) {
            break;
        }
        sum = next;
    }
    return sum;
}

double qll_binomial_log(double k, double n, double p)
{
    if (isnan(k) || isnan(n) || !(p >= 0.0 && p <= 1.0)) {
        return NAN;
    }
    if (k < 0.0 || k > n || floor(k) != k || floor(n) != n) {
        return -HUGE_VAL;
    }
    if (p == 0.0 || p == 1.0) {
        return k == n * p ? 0.0 : -HUGE_VAL;
    }
    if (k == 0.0) {
        return n * log1p(-p);
    }
    if (k == n) {
        return n * log(p);
    }
    return stirling_error(n) - stirling_error(k) - stirling_error(n - k) - deviance(k, n * p)
           - deviance(n - k, n * (1.0 - p)) + 0.5 * log(n / (QLL_TWO_PI * k * (n - k)));
}

double qll_normal_quantile(double share)
{
    if (!(share > 0.0 && share < 1.0)) {
        return NAN;
    }
    double low = -40.0;
    double high = 40.0;
    for (int i = 0; i < 200; i++) {
        const double middle = 0.5 * (low + high);
        if (middle <= low || middle >= high) {
            break;
        }
        if (0.5 * erfc(-middle / sqrt(2.0)) < share) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return high;
}

/* ---- sums of binomials ---- */

/* Grid offsets in rising order, each with its probability. */
typedef struct terms {
    size_t *offsets;
    double *p;
    size_t count;
} terms;

/* Probabilities of the grid points from first on. */
typedef struct stretch {
    size_t first, count;
    double *p;
} stretch;

/* The last k (upwards) or first k (downwards) from the mode whose probability is worth keeping. */
static size_t binomial_edge(size_t count, double p, size_t mode, bool upwards)
{
    const double least = log(QLL_LEAST_TERM);
    size_t inside = mode;
    size_t outside = upwards ? count : 0;
    if (qll_binomial_log((double)outside, (double)count, p) >= least) {
        return outside;
    }
    while (inside + 1 < outside || outside + 1 < inside) {
        const size_t middle = inside / 2 + outside / 2 + (inside % 2 + outside % 2) / 2;
        if (qll_binomial_log((double)middle, (double)count, p) >= least) {
            inside = middle;
        } else {
            outside = middle;
        }
    }
    return inside;
}

/* Offsets come in an order in which none lies more than one below the last. */
static void add_term(terms *list, size_t offset, double p)
{
    if (p <= 0.0) {
        return;
    }
    for (size_t back = 1; back <= 2 && back <= list->count; back++) {
        if (list->offsets[list->count - back] == offset) {
            list->p[list->count - back] += p;
            return;
        }
    }
    list->offsets[list->count] = offset;
    list->p[list->count] = p;
    list->count += 1;
}

/* False without memory, or if the sum does not fit the grid. */
static bool group_terms(qll_binomial_group group, qll_arena *arena, terms *list)
{
    const double n = (double)group.count;
    if (!(n * group.size < (double)(SIZE_MAX / 64))) {
        return false;
    }
    const double at = floor((n + 1.0) * group.p);
    const size_t mode = at >= n ? group.count : (size_t)at;
    const size_t low = binomial_edge(group.count, group.p, mode, false);
    const size_t high = binomial_edge(group.count, group.p, mode, true);
    const size_t most = 2 * (high - low + 1);
    *list = (terms){.offsets = qll_arena_take(arena, most, sizeof *list->offsets),
                    .p = qll_arena_take(arena, most, sizeof *list->p)};
    if (list->offsets == NULL || list->p == NULL) {
        return false;
    }
    for (size_t k = low; k <= high; k++) {
        const double value = (double)k * group.size;
        const double whole = floor(value);
        const double p = exp(qll_binomial_log((double)k, n, group.p));
        add_term(list, (size_t)whole, p * (1.0 - (value - whole)));
        add_term(list, (size_t)whole + 1, p * (value - whole));
    }
    return true;
}

/* result = sum of both; its p must be zero and have room. */
static void convolve(const stretch *sum, const terms *list, stretch *result)
{
    const size_t base = list->offsets[0];
    result->first = sum->first + base;
    result->count = sum->count + list->offsets[list->count - 1] - base;
    memset(result->p, 0, result->count * sizeof *result->p);
    for (size_t i = 0; i < list->count; i++) {
        const double p = list->p[i];
        const double *restrict from = sum->p;
        double *restrict to = result->p + (list->offsets[i] - base);
        for (size_t j = 0; j < sum->count; j++) {
            to[j] += p * from[j];
        }
    }
    size_t start = 0;
    while (start + 1 < result->count && result->p[start] < QLL_LEAST_TERM) {
        start += 1;
    }
    while (result->count > start + 1 && result->p[result->count - 1] < QLL_LEAST_TERM) {
        result->count -= 1;
    }
    memmove(result->p, result->p + start, (result->count - start) * sizeof *result->p);
    result->first += start;
    result->count -= start;
}

qll_status qll_poisson_binomial(const qll_binomial_group *groups, size_t group_count, double step,
                                qll_arena *arena, qll_distribution *result)
{
    terms *lists = qll_arena_take(arena, group_count, sizeof *lists);
    if (lists == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t top = 0;
    for (size_t g = 0; g < group_count; g++) {
        assert(groups[g].p >= 0.0 && groups[g].p <= 1.0 && groups[g].size >= 0.0);
        if (!group_terms(groups[g], arena, &lists[g])) {
            return QLL_NO_MEMORY;
        }
        const size_t last = lists[g].offsets[lists[g].count - 1];
        if (last > SIZE_MAX / 16 - top) {
            return QLL_NO_MEMORY;
        }
        top += last;
    }
    double *whole = qll_arena_take(arena, top + 1, sizeof *whole);
    const qll_arena_mark mark = qll_arena_now(arena);
    stretch sum = {.count = 1, .p = qll_arena_take(arena, top + 1, sizeof *sum.p)};
    stretch next = {.p = qll_arena_take(arena, top + 1, sizeof *next.p)};
    if (whole == NULL || sum.p == NULL || next.p == NULL) {
        return QLL_NO_MEMORY;
    }
    sum.p[0] = 1.0;
    for (size_t g = 0; g < group_count; g++) {
        convolve(&sum, &lists[g], &next);
        const stretch swapped = sum;
        sum = next;
        next = swapped;
    }
    memcpy(whole + sum.first, sum.p, sum.count * sizeof *whole);
    qll_arena_reset(arena, mark);
    *result = (qll_distribution){.step = step, .count = sum.first + sum.count, .p = whole};
    return QLL_OK;
}

/* ---- compound Poisson ---- */

/* Neighbouring sizes of positive probability. */
typedef struct run {
    size_t first, count;
} run;

/* A whole number of steps that the sum passes with less than the tail's probability: Chernoff,
 * P(S > x) <= exp(mean_count (M(t) - 1) - t x) for every t > 0, M the moment generating function of
 * one size; t is where the least such x is. */
static double chernoff_top(double mean_count, qll_distribution size, double tail)
{
    const double widest = (double)(size.count - 1);
    const double wanted = -log(tail);
    double low = log(1e-7 / widest);
    double high = log(200.0 / widest);
    double top = HUGE_VAL;
    for (int i = 0; i < 40; i++) {
        const double middle = 0.5 * (low + high);
        const double t = exp(middle);
        double rise = 0.0;  /* M(t) - 1 */
        double slope = 0.0; /* M'(t) */
        for (size_t j = 1; j < size.count; j++) {
            const double more = expm1(t * (double)j);
            rise += size.p[j] * more;
            slope += size.p[j] * (double)j * (more + 1.0);
        }
        top = fmin(top, (mean_count * rise + wanted) / t);
        if (mean_count * (t * slope - rise) < wanted) {
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

/* s g(s) = sum of mean_count j f(j) g(s - j): each g(s), once known, is handed on to all s + j it
 * feeds, so that the inner loop has no chain of additions. Everything is relative to g(0) = 1. */
static void panjer(const double *weight, const run *runs, size_t run_count, double *sum,
                   qll_distribution *result)
{
    const size_t widest = runs[run_count - 1].first + runs[run_count - 1].count;
    result->p[0] = 1.0;
    for (size_t s = 0; s < result->count; s++) {
        if (s > 0) {
            result->p[s] = sum[s] / (double)s;
        }
        if (result->p[s] > QLL_SCALE_AT) {
            scale(result->p, s + 1, 1.0 / QLL_SCALE_AT);
            scale(sum + s, widest, 1.0 / QLL_SCALE_AT);
        }
        const double g = result->p[s];
        for (size_t r = 0; g > 0.0 && r < run_count; r++) {
            const double *restrict from = weight + runs[r].first;
            double *restrict to = sum + s + runs[r].first;
            for (size_t j = 0; j < runs[r].count; j++) {
                to[j] += g * from[j];
            }
        }
    }
}

qll_status qll_compound_poisson(double mean_count, qll_distribution size, double tail,
                                qll_arena *arena, qll_distribution *result)
{
    assert(mean_count >= 0.0 && isfinite(mean_count) && tail > 0.0 && tail < 1.0);
    assert(size.count > 0 && size.p[0] == 0.0);
    size_t count = 1;
    if (mean_count > 0.0 && size.count > 1) {
        const double top = chernoff_top(mean_count, size, tail);
        if (!(top < (double)(SIZE_MAX / 64) - (double)size.count)) {
            return QLL_NO_MEMORY;
        }
        count = (size_t)top + 1;
    }
    *result = (qll_distribution){
        .step = size.step, .count = count, .p = qll_arena_take(arena, count, sizeof *result->p)};
    const qll_arena_mark mark = qll_arena_now(arena);
    run *runs = qll_arena_take(arena, size.count, sizeof *runs);
    double *weight = qll_arena_take(arena, size.count, sizeof *weight);
    double *sum = qll_arena_take(arena, count + size.count, sizeof *sum);
    if (result->p == NULL || runs == NULL || weight == NULL || sum == NULL) {
        return QLL_NO_MEMORY;
    }
    const size_t run_count = find_runs(size, runs);
    if (count == 1 || run_count == 0) {
        result->count = 1;
        result->p[0] = 1.0;
        qll_arena_reset(arena, mark);
        return QLL_OK;
    }
    for (size_t j = 1; j < size.count; j++) {
        weight[j] = mean_count * (double)j * size.p[j];
    }
    panjer(weight, runs, run_count, sum, result);
    double total = 0.0;
    for (size_t s = 0; s < count; s++) {
        total += result->p[s];
    }
    for (size_t s = 0; s < count; s++) {
        result->p[s] /= total;
    }
    qll_arena_reset(arena, mark);
    return QLL_OK;
}

/* ---- what is read off a distribution ---- */

double qll_distribution_quantile(qll_distribution distribution, double share)
{
    double reached = 0.0;
    for (size_t i = 0; i < distribution.count; i++) {
        reached += distribution.p[i];
        if (reached >= share - QLL_TIE_GUARD) {
            return distribution.step * (double)i;
        }
    }
    return distribution.step * (double)(distribution.count - 1);
}

double qll_distribution_mean(qll_distribution distribution)
{
    double sum = 0.0;
    for (size_t i = 0; i < distribution.count; i++) {
        sum += distribution.p[i] * (double)i;
    }
    return distribution.step * sum;
}

double qll_distribution_variance(qll_distribution distribution)
{
    const double mean = qll_distribution_mean(distribution) / distribution.step;
    double sum = 0.0;
    for (size_t i = 0; i < distribution.count; i++) {
        const double away = (double)i - mean;
        sum += distribution.p[i] * away * away;
    }
    return distribution.step * distribution.step * sum;
}
