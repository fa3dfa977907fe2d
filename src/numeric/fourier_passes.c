#include "numeric/fourier_complex.h"

/* Stockham's self-sorting transform, decimation in frequency. A pass of radix r over groups p = 0 to
 * rest - 1 takes the members x[q + stride (p + rest j)], j = 0 to r - 1, transforms them by r, turns
 * the k-th by exp(-2 pi i p k / (r rest)), and puts it at q + stride (r p + k). The next pass has the
 * stride times r. Nothing is ever reversed, and the loop over q runs over neighbours. */

#include <math.h>
#include <string.h>

/* 3: cos and sin of 120 degrees; 5: of 72 and 144 degrees */
#define QLL_SIN_120 0.86602540378443864676
#define QLL_COS_72  0.30901699437494742410
#define QLL_COS_144 (-0.80901699437494742410)
#define QLL_SIN_72  0.95105651629515357212
#define QLL_SIN_144 0.58778525229247312917

typedef struct number {
    double re, im;
} number;

static inline number turned(number value, const double *turn)
{
    return (number){value.re * turn[0] - value.im * turn[1],
                    value.re * turn[1] + value.im * turn[0]};
}

static inline number sum(number a, number b)
{
    return (number){a.re + b.re, a.im + b.im};
}

static inline number difference(number a, number b)
{
    return (number){a.re - b.re, a.im - b.im};
}

/* a - i b and a + i b */
static inline number minus_i(number a, number b)
{
    return (number){a.re + b.im, a.im - b.re};
}

static inline number plus_i(number a, number b)
{
    return (number){a.re - b.im, a.im + b.re};
}

#define QLL_AT(array, index)         ((number){(array##_re)[index], (array##_im)[index]})
#define QLL_PUT(array, index, value) put((array##_re) + (index), (array##_im) + (index), value)

static inline void put(double *re, double *im, number value)
{
    *re = value.re;
    *im = value.im;
}

static void pass_2(const qll_fourier_stage *stage, qll_complexes from, qll_complexes to)
{
    const size_t s = stage->stride, apart = s * stage->rest;
    for (size_t p = 0; p < stage->rest; p++) {
        const double *turn = stage->turns + 2 * p;
        const double *restrict x_re = from.re + s * p, *restrict x_im = from.im + s * p;
        double *restrict y_re = to.re + s * 2 * p, *restrict y_im = to.im + s * 2 * p;
        for (size_t q = 0; q < s; q++) {
            const number a = QLL_AT(x, q), b = QLL_AT(x, q + apart);
            QLL_PUT(y, q, sum(a, b));
            QLL_PUT(y, q + s, turned(difference(a, b), turn));
        }
    }
}

static void pass_3(const qll_fourier_stage *stage, qll_complexes from, qll_complexes to)
{
    const size_t s = stage->stride, apart = s * stage->rest;
    for (size_t p = 0; p < stage->rest; p++) {
        const double *turn = stage->turns + 4 * p;
        const double *restrict x_re = from.re + s * p, *restrict x_im = from.im + s * p;
        double *restrict y_re = to.re + s * 3 * p, *restrict y_im = to.im + s * 3 * p;
        for (size_t q = 0; q < s; q++) {
            const number a = QLL_AT(x, q), b = QLL_AT(x, q + apart), c = QLL_AT(x, q + 2 * apart);
            const number both = sum(b, c), apiece = difference(b, c);
            const number middle = {a.re - 0.5 * both.re, a.im - 0.5 * both.im};
            const number side = {QLL_SIN_120 * apiece.re, QLL_SIN_120 * apiece.im};
            QLL_PUT(y, q, sum(a, both));
            QLL_PUT(y, q + s, turned(minus_i(middle, side), turn));
            QLL_PUT(y, q + 2 * s, turned(plus_i(middle, side), turn + 2));
        }
    }
}

static void pass_4(const qll_fourier_stage *stage, qll_complexes from, qll_complexes to)
{
    const size_t s = stage->stride, apart = s * stage->rest;
    for (size_t p = 0; p < stage->rest; p++) {
        const double *turn = stage->turns + 6 * p;
        const double *restrict x_re = from.re + s * p, *restrict x_im = from.im + s * p;
        double *restrict y_re = to.re + s * 4 * p, *restrict y_im = to.im + s * 4 * p;
        for (size_t q = 0; q < s; q++) {
            const number a = QLL_AT(x, q), b = QLL_AT(x, q + apart);
            const number c = QLL_AT(x, q + 2 * apart), d = QLL_AT(x, q + 3 * apart);
            const number ac = sum(a, c), bd = sum(b, d);
            const number a_c = difference(a, c), b_d = difference(b, d);
            QLL_PUT(y, q, sum(ac, bd));
            QLL_PUT(y, q + s, turned(minus_i(a_c, b_d), turn));
            QLL_PUT(y, q + 2 * s, turned(difference(ac, bd), turn + 2));
            QLL_PUT(y, q + 3 * s, turned(plus_i(a_c, b_d), turn + 4));
        }
    }
}

static void pass_5(const qll_fourier_stage *stage, qll_complexes from, qll_complexes to)
{
    const size_t s = stage->stride, apart = s * stage->rest;
    for (size_t p = 0; p < stage->rest; p++) {
        const double *turn = stage->turns + 8 * p;
        const double *restrict x_re = from.re + s * p, *restrict x_im = from.im + s * p;
        double *restrict y_re = to.re + s * 5 * p, *restrict y_im = to.im + s * 5 * p;
        for (size_t q = 0; q < s; q++) {
            const number a = QLL_AT(x, q), b = QLL_AT(x, q + apart), c = QLL_AT(x, q + 2 * apart);
            const number d = QLL_AT(x, q + 3 * apart), e = QLL_AT(x, q + 4 * apart);
            const number be = sum(b, e), cd = sum(c, d);
            const number b_e = difference(b, e), c_d = difference(c, d);
            const number near = {a.re + QLL_COS_72 * be.re + QLL_COS_144 * cd.re,
                                 a.im + QLL_COS_72 * be.im + QLL_COS_144 * cd.im};
            const number far = {a.re + QLL_COS_144 * be.re + QLL_COS_72 * cd.re,
                                a.im + QLL_COS_144 * be.im + QLL_COS_72 * cd.im};
            const number near_side = {QLL_SIN_72 * b_e.re + QLL_SIN_144 * c_d.re,
                                      QLL_SIN_72 * b_e.im + QLL_SIN_144 * c_d.im};
            const number far_side = {QLL_SIN_144 * b_e.re - QLL_SIN_72 * c_d.re,
                                     QLL_SIN_144 * b_e.im - QLL_SIN_72 * c_d.im};
            QLL_PUT(y, q, sum(a, sum(be, cd)));
            QLL_PUT(y, q + s, turned(minus_i(near, near_side), turn));
            QLL_PUT(y, q + 2 * s, turned(minus_i(far, far_side), turn + 2));
            QLL_PUT(y, q + 3 * s, turned(plus_i(far, far_side), turn + 4));
            QLL_PUT(y, q + 4 * s, turned(plus_i(near, near_side), turn + 6));
        }
    }
}

/* Half of an odd group: sums and differences of its members j and radix - j. */
typedef struct pairs {
    number first, sums[QLL_FOURIER_RADIX_MOST / 2], differences[QLL_FOURIER_RADIX_MOST / 2];
} pairs;

/* Member k of the group's transform is middle - i side, member radix - k is middle + i side. */
static inline void member(const pairs *group, const double *roots, size_t k, size_t r,
                          number *middle, number *side)
{
    *middle = group->first;
    *side = (number){0};
    for (size_t j = 1; j <= r / 2; j++) {
        const double *root = roots + 2 * (j * k % r); /* cos and -sin */
        middle->re += root[0] * group->sums[j - 1].re;
        middle->im += root[0] * group->sums[j - 1].im;
        side->re -= root[1] * group->differences[j - 1].re;
        side->im -= root[1] * group->differences[j - 1].im;
    }
}

/* A radix known when it is compiled leaves no loop but that over q. */
static inline void pass_odd(const qll_fourier_stage *stage, qll_complexes from, qll_complexes to,
                            const size_t r)
{
    const size_t s = stage->stride, apart = s * stage->rest;
    for (size_t p = 0; p < stage->rest; p++) {
        const double *turn = stage->turns + 2 * (r - 1) * p;
        const double *restrict x_re = from.re + s * p, *restrict x_im = from.im + s * p;
        double *restrict y_re = to.re + s * r * p, *restrict y_im = to.im + s * r * p;
        for (size_t q = 0; q < s; q++) {
            pairs group = {.first = QLL_AT(x, q)};
            number all = group.first;
            for (size_t j = 1; j <= r / 2; j++) {
                const number a = QLL_AT(x, q + j * apart), b = QLL_AT(x, q + (r - j) * apart);
                group.sums[j - 1] = sum(a, b);
                group.differences[j - 1] = difference(a, b);
                all = sum(all, group.sums[j - 1]);
            }
            QLL_PUT(y, q, all);
            for (size_t k = 1; k <= r / 2; k++) {
                number middle, side;
                member(&group, stage->roots, k, r, &middle, &side);
                QLL_PUT(y, q + k * s, turned(minus_i(middle, side), turn + 2 * (k - 1)));
                QLL_PUT(y, q + (r - k) * s, turned(plus_i(middle, side), turn + 2 * (r - k - 1)));
            }
        }
    }
}

static void pass(const qll_fourier_stage *stage, qll_complexes from, qll_complexes to)
{
    switch (stage->radix) {
    case 2: pass_2(stage, from, to); break;
    case 3: pass_3(stage, from, to); break;
    case 4: pass_4(stage, from, to); break;
    case 5: pass_5(stage, from, to); break;
    case 7: pass_odd(stage, from, to, 7); break;
    case 11: pass_odd(stage, from, to, 11); break;
    default: pass_odd(stage, from, to, QLL_FOURIER_RADIX_MOST); break;
    }
}

void qll_fourier_passes(const qll_fourier_complex *plan, qll_complexes values)
{
    qll_complexes from = values, to = plan->spare;
    for (size_t i = 0; i < plan->stage_count; i++) {
        pass(&plan->stages[i], from, to);
        const qll_complexes done = to;
        to = from;
        from = done;
    }
    if (from.re != values.re) {
        memcpy(values.re, from.re, plan->count * sizeof *values.re);
        memcpy(values.im, from.im, plan->count * sizeof *values.im);
    }
}
