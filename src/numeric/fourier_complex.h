/* What the real transform stands on: the complex one, of lengths that factor well and of all others. */
#ifndef QUELL_NUMERIC_FOURIER_COMPLEX_H
#define QUELL_NUMERIC_FOURIER_COMPLEX_H

#include "numeric/fourier.h"

#define QLL_FOURIER_STAGES     64 /* more than any size_t has factors */
#define QLL_FOURIER_RADIX_MOST 13 /* beyond it Bluestein's detour is the shorter way */

/** One pass of Stockham's transform: @p rest groups of @p radix, @p stride apart. */
typedef struct qll_fourier_stage {
    size_t radix, rest, stride;
    qll_complexes turns; /* of member 1 in each group, of member 2 in each, to member radix - 1 */
    const double *roots; /* the radix-th roots of one: re, im, ...; NULL where a pass has its own */
} qll_fourier_stage;

/** Forward transform of @p count complex numbers, in place. */
typedef struct qll_fourier_complex {
    size_t count;
    size_t stage_count;
    qll_fourier_stage stages[QLL_FOURIER_STAGES];
    qll_complexes spare;               /* as many again */
    struct qll_fourier_complex *inner; /* not NULL: by chirp, of a longer length that factors */
    qll_complexes chirp, kernel, padded;
} qll_fourier_complex;

QLL_MUST_USE qll_status qll_fourier_complex_plan(size_t count, qll_arena *arena,
                                                 qll_fourier_complex *plan);
void qll_fourier_complex_forward(qll_fourier_complex *plan, qll_complexes values);

/** The passes of a length that factors; @p values and the plan's room for as many are both used up. */
void qll_fourier_passes(const qll_fourier_complex *plan, qll_complexes values);

/** Room for @p count complex numbers, set to zero; re is NULL where there is none. */
qll_complexes qll_complexes_take(qll_arena *arena, size_t count);

#endif
