/* Random numbers of given distributions from a seeded stream. */
#ifndef QUELL_NUMERIC_SAMPLE_H
#define QUELL_NUMERIC_SAMPLE_H

#include "quell/arena.h"
#include "quell/problems.h"

#include "base/random.h"

/** A standard normal number (Box and Muller 1958). */
double qll_sample_normal(qll_random *random);

/**
 * A gamma number of mean 1 and coefficient of variation @p cv (over 0; below 1e-7 it is 1):
 * Marsaglia and Tsang, "A simple method for generating gamma variables", ACM TOMS 26 (3), 2000
 * (from memory).
 */
double qll_sample_gamma(qll_random *random, double cv);

/** A Poisson number; @p mean 0 or more and finite. By inversion, outwards from the mode. */
double qll_sample_poisson(qll_random *random, double mean);

/** One cell of an alias table: 0 with a share of the cell, else the other value. */
typedef struct qll_alias_cell {
    uint32_t threshold; /* share of the cell's own value, times 2^32; full cells alias themselves */
    uint32_t other;
} qll_alias_cell;

/** Draws whole numbers of a given distribution in constant time: Walker 1977. */
typedef struct qll_alias {
    const qll_alias_cell *cells; /* a power of two of them */
    unsigned shift;              /* 64 - log2 of their number */
} qll_alias;

/**
 * The table for 0 to @p count - 1 with probabilities @p p, which add up to 1 within rounding.
 *
 * @param count 1 to 2^24
 * @return QLL_OK or QLL_NO_MEMORY; lives in @p arena
 */
QLL_MUST_USE qll_status qll_alias_make(const double *p, size_t count, qll_arena *arena,
                                       qll_alias *alias);

/** The next number. */
static inline uint32_t qll_alias_draw(qll_alias alias, qll_random *random)
{
    const uint64_t bits = qll_random_bits(random);
    const uint32_t index = (uint32_t)(bits >> alias.shift);
    const qll_alias_cell cell = alias.cells[index];
    return (uint32_t)bits < cell.threshold ? index : cell.other;
}

#endif
