#include "numeric/probability.h"

#include "base/count.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* A quantile is reached at this much less than its share: F is a sum of rounded terms, and at a tie
 * the last bit must not move the answer by a grid step. */
#define QLL_TIE_GUARD  1e-12
/* Terms of a convolution below this are dropped. */
#define QLL_LEAST_TERM 1e-30
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
    for (size_t i = 0; i < QLL_COUNT(series); i++) {
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

double qll_poisson_log(double k, double mean)
{
    if (isnan(k) || !(mean >= 0.0 && isfinite(mean))) {
        return (double)NAN;
    }
    if (k < 0.0 || floor(k) != k) {
        return -HUGE_VAL;
    }
    if (mean == 0.0) {
        return k == 0.0 ? 0.0 : -HUGE_VAL;
    }
    if (k == 0.0) {
        return -mean;
    }
    return -stirling_error(k) - deviance(k, mean) - 0.5 * log(QLL_TWO_PI * k);
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
    size_t group; /* whose they are */
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

/* Terms taken together: each pass over the result is a load and a store saved for all but one. */
#define QLL_TERMS_AT_ONCE 4

/* Adds term @p i of @p list for the sums @p first to @p end - 1. */
static void add_shifted(const stretch *sum, const terms *list, size_t i, size_t first, size_t end,
                        double *result)
{
    const double p = list->p[i];
    const double *restrict from = sum->p;
    double *restrict to = result + (list->offsets[i] - list->offsets[0]);
    for (size_t j = first; j < end; j++) {
        to[j] += p * from[j];
    }
}

/* Adds four terms from @p i on; where not all four reach, one by one. */
static void add_four(const stretch *sum, const terms *list, size_t i, double *result)
{
    const size_t *offsets = list->offsets + i;
    const size_t width = offsets[3] - offsets[0];
    if (width >= sum->count) {
        for (size_t t = 0; t < QLL_TERMS_AT_ONCE; t++) {
            add_shifted(sum, list, i + t, 0, sum->count, result);
        }
        return;
    }
    for (size_t t = 0; t < QLL_TERMS_AT_ONCE; t++) {
        add_shifted(sum, list, i + t, 0, offsets[3] - offsets[t], result);
        add_shifted(sum, list, i + t, sum->count - (offsets[t] - offsets[0]), sum->count, result);
    }
    const double p0 = list->p[i];
    const double p1 = list->p[i + 1];
    const double p2 = list->p[i + 2];
    const double p3 = list->p[i + 3];
    const double *restrict from0 = sum->p + width;
    const double *restrict from1 = from0 - (offsets[1] - offsets[0]);
    const double *restrict from2 = from0 - (offsets[2] - offsets[0]);
    const double *restrict from3 = sum->p;
    double *restrict to = result + (offsets[3] - list->offsets[0]);
    const size_t count = sum->count - width;
    for (size_t j = 0; j < count; j++) {
        to[j] += (p0 * from0[j] + p1 * from1[j]) + (p2 * from2[j] + p3 * from3[j]);
    }
}

/* result = sum of both; its p must have room. */
static void convolve(const stretch *sum, const terms *list, stretch *result)
{
    const size_t base = list->offsets[0];
    result->first = sum->first + base;
    result->count = sum->count + list->offsets[list->count - 1] - base;
    memset(result->p, 0, result->count * sizeof *result->p);
    size_t i = 0;
    for (; i + QLL_TERMS_AT_ONCE <= list->count; i += QLL_TERMS_AT_ONCE) {
        add_four(sum, list, i, result->p);
    }
    for (; i < list->count; i++) {
        add_shifted(sum, list, i, 0, sum->count, result->p);
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

/* Narrow groups first: the sum stays short while most terms are added. */
static int by_width(const void *left, const void *right)
{
    const terms *a = left;
    const terms *b = right;
    const size_t a_width = a->offsets[a->count - 1] - a->offsets[0];
    const size_t b_width = b->offsets[b->count - 1] - b->offsets[0];
    if (a_width != b_width) {
        return a_width < b_width ? -1 : 1;
    }
    return (a->group > b->group) - (a->group < b->group);
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
        lists[g].group = g;
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
    qsort(lists, group_count, sizeof *lists, by_width);
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
