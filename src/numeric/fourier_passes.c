#include "base/wide.h"
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

static inline number turned(number value, number turn)
{
    return (number){value.re * turn.re - value.im * turn.im,
                    value.re * turn.im + value.im * turn.re};
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

/* The members of one group: what is read, what is written, and the turns of the members from the second on. */
typedef struct group {
    const double *x_re, *x_im;
    double *y_re, *y_im;
    const double *turn_re, *turn_im;
    size_t apart, stride, rest;
} group;

static inline number at(const group *of, size_t member)
{
    return (number){of->x_re[member * of->apart], of->x_im[member * of->apart]};
}

static inline void put(const group *of, size_t member, number value)
{
    of->y_re[member * of->stride] = value.re;
    of->y_im[member * of->stride] = value.im;
}

static inline void put_turned(const group *of, size_t member, number value)
{
    const size_t place = (member - 1) * of->rest;
    put(of, member, turned(value, (number){of->turn_re[place], of->turn_im[place]}));
}

static inline void transform_2(const group *of)
{
    const number a = at(of, 0), b = at(of, 1);
    put(of, 0, sum(a, b));
    put_turned(of, 1, difference(a, b));
}

static inline void transform_3(const group *of)
{
    const number a = at(of, 0), b = at(of, 1), c = at(of, 2);
    const number both = sum(b, c), apiece = difference(b, c);
    const number middle = {a.re - 0.5 * both.re, a.im - 0.5 * both.im};
    const number side = {QLL_SIN_120 * apiece.re, QLL_SIN_120 * apiece.im};
    put(of, 0, sum(a, both));
    put_turned(of, 1, minus_i(middle, side));
    put_turned(of, 2, plus_i(middle, side));
}

static inline void transform_4(const group *of)
{
    const number a = at(of, 0), b = at(of, 1), c = at(of, 2), d = at(of, 3);
    const number ac = sum(a, c), bd = sum(b, d);
    const number a_c = difference(a, c), b_d = difference(b, d);
    put(of, 0, sum(ac, bd));
    put_turned(of, 1, minus_i(a_c, b_d));
    put_turned(of, 2, difference(ac, bd));
    put_turned(of, 3, plus_i(a_c, b_d));
}

static inline void transform_5(const group *of)
{
    const number a = at(of, 0), b = at(of, 1), c = at(of, 2), d = at(of, 3), e = at(of, 4);
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
    put(of, 0, sum(a, sum(be, cd)));
    put_turned(of, 1, minus_i(near, near_side));
    put_turned(of, 2, minus_i(far, far_side));
    put_turned(of, 3, plus_i(far, far_side));
    put_turned(of, 4, plus_i(near, near_side));
}

/* Half of an odd group: sums and differences of its members j and radix - j. */
typedef struct pairs {
    number first, sums[QLL_FOURIER_RADIX_MOST / 2], differences[QLL_FOURIER_RADIX_MOST / 2];
} pairs;

/* Member k of the group's transform is middle - i side, member radix - k is middle + i side. */
static inline void member(const pairs *of, const double *roots, size_t k, size_t r, number *middle,
                          number *side)
{
    *middle = of->first;
    *side = (number){0};
    for (size_t j = 1; j <= r / 2; j++) {
        const double *root = roots + 2 * (j * k % r); /* cos and -sin */
        middle->re += root[0] * of->sums[j - 1].re;
        middle->im += root[0] * of->sums[j - 1].im;
        side->re -= root[1] * of->differences[j - 1].re;
        side->im -= root[1] * of->differences[j - 1].im;
    }
}

/* A radix known when it is compiled leaves no loop. */
static inline void transform_odd(const group *of, const double *roots, const size_t r)
{
    pairs half = {.first = at(of, 0)};
    number all = half.first;
    for (size_t j = 1; j <= r / 2; j++) {
        const number a = at(of, j), b = at(of, r - j);
        half.sums[j - 1] = sum(a, b);
        half.differences[j - 1] = difference(a, b);
        all = sum(all, half.sums[j - 1]);
    }
    put(of, 0, all);
    for (size_t k = 1; k <= r / 2; k++) {
        number middle, side;
        member(&half, roots, k, r, &middle, &side);
        put_turned(of, k, minus_i(middle, side));
        put_turned(of, r - k, plus_i(middle, side));
    }
}

/* Group p of a pass of radix r, its first of stride members. */
static inline group group_at(const qll_fourier_stage *stage, size_t r, size_t p, size_t q,
                             qll_complexes from, qll_complexes to)
{
    const size_t s = stage->stride, x = s * p + q, y = s * r * p + q;
    return (group){from.re + x,         from.im + x,     to.re + y, to.im + y,  stage->turns.re + p,
                   stage->turns.im + p, s * stage->rest, s,         stage->rest};
}

/* The first pass has groups of one, so it runs over the groups. */
#define QLL_PASS(r, transform)                                                        \
    QLL_WIDE static void pass_##r(const qll_fourier_stage *stage, qll_complexes from, \
                                  qll_complexes to)                                   \
    {                                                                                 \
        const size_t rest = stage->rest, stride = stage->stride;                      \
        if (stride == 1) {                                                            \
            QLL_APART                                                                 \
            for (size_t p = 0; p < rest; p++) {                                       \
                const group of = group_at(stage, r, p, 0, from, to);                  \
                transform;                                                            \
            }                                                                         \
            return;                                                                   \
        }                                                                             \
        for (size_t p = 0; p < rest; p++) {                                           \
            QLL_APART                                                                 \
            for (size_t q = 0; q < stride; q++) {                                     \
                const group of = group_at(stage, r, p, q, from, to);                  \
                transform;                                                            \
            }                                                                         \
        }                                                                             \
    }

QLL_PASS(2, transform_2(&of))
QLL_PASS(3, transform_3(&of))
QLL_PASS(4, transform_4(&of))
QLL_PASS(5, transform_5(&of))
QLL_PASS(7, transform_odd(&of, stage->roots, 7))
QLL_PASS(11, transform_odd(&of, stage->roots, 11))
QLL_PASS(13, transform_odd(&of, stage->roots, 13))

static void pass(const qll_fourier_stage *stage, qll_complexes from, qll_complexes to)
{
    switch (stage->radix) {
    case 2: pass_2(stage, from, to); break;
    case 3: pass_3(stage, from, to); break;
    case 4: pass_4(stage, from, to); break;
    case 5: pass_5(stage, from, to); break;
    case 7: pass_7(stage, from, to); break;
    case 11: pass_11(stage, from, to); break;
    default: pass_13(stage, from, to); break;
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
