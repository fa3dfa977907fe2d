/* The discrete Fourier transform of real samples, of any length, forth and back. */
#ifndef QUELL_NUMERIC_FOURIER_H
#define QUELL_NUMERIC_FOURIER_H

#include "quell/arena.h"
#include "quell/problems.h"

/** Complex numbers as two arrays, which a compiler turns into vectors. */
typedef struct qll_complexes {
    double *re, *im;
} qll_complexes;

/** Tables and room for one length: one user at a time, who may use it as often as they like. */
typedef struct qll_fourier qll_fourier;

/**
 * Makes the tables for @p count samples: O(n log n) for every length, fastest where it has no prime
 * factor above 13.
 *
 * Method: Stockham's self-sorting mixed-radix transform; lengths with larger primes by Bluestein's
 * chirp (docs/theory/spectrum.md). An even length is transformed as half as many complex numbers.
 * Checked by tests/reference/spectrum.csv and tests/laws/law_fourier.c.
 *
 * @param count 1 or more
 * @return QLL_OK or QLL_NO_MEMORY; the plan lives in @p arena
 */
QLL_MUST_USE qll_status qll_fourier_plan(size_t count, qll_arena *arena, qll_fourier **plan);

/** The least even length of @p least or more that is transformed fastest: of the factors 2, 3 and 5 alone. */
size_t qll_fourier_good_length(size_t least);

/** How many frequencies a transform of @p count real samples has, from 0 to half the rate. */
size_t qll_fourier_bins(size_t count);

/**
 * X[k] = sum over j of x[j] exp(-2 pi i j k / count), k from 0 to count/2; not scaled.
 *
 * @param samples count of them
 * @param bins    room for qll_fourier_bins(count)
 */
void qll_fourier_forward(qll_fourier *plan, const double *samples, qll_complexes bins);

/** A frame of samples that is taken less its mean. */
typedef struct qll_frame {
    const double *samples;
    double mean;
} qll_frame;

/** 2 where two frames at once cost hardly more than one: of an odd @p count; else 1. */
size_t qll_fourier_frames(size_t count);

/**
 * |X[k]|^2 of (samples - mean) x window, for one frame or as many as qll_fourier_frames().
 *
 * @param window count of them
 * @param powers room for qll_fourier_bins(count) of each frame
 */
void qll_fourier_powers(qll_fourier *plan, const qll_frame *frames, size_t frame_count,
                        const double *window, double *const *powers);

/** The samples whose forward transform @p bins is, scaled by 1/count so that both undo each other. */
void qll_fourier_inverse(qll_fourier *plan, qll_complexes bins, double *samples);

#endif
