#include "numeric/eigenvalues.h"

#include "numeric/complex.h"

#include <assert.h>
#include <float.h>
#include <math.h>
#include <stdint.h>

typedef double complex number;

static const int steps_most = 200; /* for one eigenvalue; a few are usual */

/* Off the diagonal, of row or column i. */
static double size_of(const double *matrix, size_t count, size_t i, bool of_row)
{
    double sum = 0;
    for (size_t j = 0; j < count; j++) {
        sum += j == i ? 0 : fabs(of_row ? matrix[i * count + j] : matrix[j * count + i]);
    }
    return sum;
}

/* Scales row and column i against each other, by powers of two, until both are of one size; whether
 * it moved. */
static bool balance_one(double *matrix, size_t count, size_t i)
{
    double row = size_of(matrix, count, i, true);
    double column = size_of(matrix, count, i, false);
    if (!(row > 0) || !(column > 0) || !isfinite(row) || !isfinite(column)) {
        return false;
    }
    int exponent = (int)lrint(log2(row / column) / 2);
    if (exponent == 0) {
        return false;
    }
    for (size_t j = 0; j < count; j++) {
        if (j != i) {
            matrix[i * count + j] = ldexp(matrix[i * count + j], -exponent);
            matrix[j * count + i] = ldexp(matrix[j * count + i], exponent);
        }
    }
    return true;
}

static void balance(double *matrix, size_t count)
{
    bool moved = true;
    for (int round = 0; moved && round < 100; round++) {
        moved = false;
        for (size_t i = 0; i < count; i++) {
            moved = balance_one(matrix, count, i) || moved;
        }
    }
}

static void swap(double *a, double *b)
{
    double kept = *a;
    *a = *b;
    *b = kept;
}

/* By elimination with the greatest pivot: below the subdiagonal nothing is left. */
static void to_hessenberg(double *a, size_t n)
{
    for (size_t k = 1; k + 1 < n; k++) {
        size_t best = k;
        for (size_t i = k + 1; i < n; i++) {
            best = fabs(a[i * n + k - 1]) > fabs(a[best * n + k - 1]) ? i : best;
        }
        if (a[best * n + k - 1] == 0) {
            continue;
        }
        for (size_t j = 0; best != k && j < n; j++) {
            swap(&a[best * n + j], &a[k * n + j]);
        }
        for (size_t j = 0; best != k && j < n; j++) {
            swap(&a[j * n + best], &a[j * n + k]);
        }
        for (size_t i = k + 1; i < n; i++) {
            double factor = a[i * n + k - 1] / a[k * n + k - 1];
            for (size_t j = k - 1; factor != 0 && j < n; j++) {
                a[i * n + j] -= factor * a[k * n + j];
            }
            for (size_t j = 0; factor != 0 && j < n; j++) {
                a[j * n + k] += factor * a[j * n + i];
            }
        }
    }
}

/* The eigenvalue of the last two rows that is nearer to the last diagonal element. */
static number wilkinson(const number *h, size_t n, size_t last)
{
    number a = h[(last - 1) * n + last - 1];
    number d = h[last * n + last];
    number half = (a - d) / 2;
    number product = h[(last - 1) * n + last] * h[last * n + last - 1];
    number root = csqrt(half * half + product);
    number sum = creal(conj(half) * root) >= 0 ? half + root : half - root;
    return cabs(sum) > 0 ? d - qll_complex_over(product, sum) : d;
}

/* One QR step on the rows first to last, by Givens' rotations from left and right. */
static void qr_step(number *h, size_t n, size_t first, size_t last, number shift, number *turns)
{
    for (size_t i = first; i <= last; i++) {
        h[i * n + i] -= shift;
    }
    for (size_t k = first; k < last; k++) {
        number x = h[k * n + k];
        number y = h[(k + 1) * n + k];
        double length = hypot(cabs(x), cabs(y));
        number c = length > 0 ? x / length : 1;
        number s = length > 0 ? y / length : 0;
        for (size_t j = k; j <= last; j++) {
            number upper = h[k * n + j];
            number lower = h[(k + 1) * n + j];
            h[k * n + j] = conj(c) * upper + conj(s) * lower;
            h[(k + 1) * n + j] = c * lower - s * upper;
        }
        turns[2 * k] = c;
        turns[2 * k + 1] = s;
    }
    for (size_t k = first; k < last; k++) {
        number c = turns[2 * k];
        number s = turns[2 * k + 1];
        for (size_t i = first; i <= k + 1; i++) {
            number left = h[i * n + k];
            number right = h[i * n + k + 1];
            h[i * n + k] = left * c + right * s;
            h[i * n + k + 1] = right * conj(c) - left * conj(s);
        }
    }
    for (size_t i = first; i <= last; i++) {
        h[i * n + i] += shift;
    }
}

/* Whether nothing is left below the diagonal between rows k - 1 and k. */
static bool is_split(const number *h, size_t n, size_t k)
{
    double around = cabs(h[(k - 1) * n + k - 1]) + cabs(h[k * n + k]);
    return cabs(h[k * n + k - 1]) <= DBL_EPSILON * around || cabs(h[k * n + k - 1]) < DBL_MIN;
}

static bool find(number *h, size_t n, number *turns, qll_eigenvalue *values)
{
    int steps = 0;
    for (size_t left = n; left > 0;) {
        size_t last = left - 1;
        size_t first = last;
        while (first > 0 && !is_split(h, n, first)) {
            first -= 1;
        }
        if (first == last) {
            values[last] = (qll_eigenvalue){creal(h[last * n + last]), cimag(h[last * n + last])};
            left -= 1;
            steps = 0;
            continue;
        }
        steps += 1;
        if (steps > steps_most) {
            return false;
        }
        /* Now and then a shift of another kind, so that no cycle lasts. */
        number shift = steps % 10 != 0 ? wilkinson(h, n, last)
                                       : h[last * n + last] + cabs(h[last * n + last - 1]);
        qr_step(h, n, first, last, shift, turns);
    }
    return true;
}

qll_status qll_eigenvalues(double *matrix, size_t count, qll_arena *arena, qll_eigenvalue *values)
{
    assert(matrix != NULL && values != NULL && arena != NULL);
    if (count > 0 && count > SIZE_MAX / count) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count * count; i++) {
        if (!isfinite(matrix[i])) {
            return QLL_REFUSED;
        }
    }
    qll_arena_mark mark = qll_arena_now(arena);
    number *h = qll_arena_take(arena, count * count, sizeof *h);
    number *turns = qll_arena_take(arena, count, 2 * sizeof *turns);
    if (h == NULL || turns == NULL) {
        qll_arena_reset(arena, mark);
        return QLL_NO_MEMORY;
    }
    balance(matrix, count);
    to_hessenberg(matrix, count);
    for (size_t i = 0; i < count; i++) {
        for (size_t j = i == 0 ? 0 : i - 1; j < count; j++) {
            h[i * count + j] = matrix[i * count + j];
        }
    }
    bool found = find(h, count, turns, values);
    qll_arena_reset(arena, mark);
    return found ? QLL_OK : QLL_REFUSED;
}
