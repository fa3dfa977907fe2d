/* Binomial, Poisson and compound distributions on a grid, and their quantiles. */
#ifndef QUELL_NUMERIC_PROBABILITY_H
#define QUELL_NUMERIC_PROBABILITY_H

#include "quell/arena.h"
#include "quell/problems.h"

/** A distribution on 0, 1, 2, ... times a step. p sums to 1. */
typedef struct qll_distribution {
    double step;
    size_t count;
    double *p;
} qll_distribution;

/** ln of the binomial probability of k of n at p, accurate in the tails; -inf where impossible. */
double qll_binomial_log(double k, double n, double p);

/**
 * Distribution of the sum of independent groups: group g adds multiples[g] grid steps for each of
 * Bin(counts[g], p[g]). Direct convolution; every retained probability has a relative error of
 * about 1e-13. Terms below 1e-300 are dropped.
 *
 * @return QLL_OK or QLL_NO_MEMORY; result.p lives in @p arena
 */
QLL_MUST_USE qll_status qll_poisson_binomial(const size_t *multiples, const size_t *counts,
                                             const double *p, size_t group_count, double step,
                                             qll_arena *arena, qll_distribution *result);

/**
 * Compound Poisson by Panjer's recursion: the sum of Poisson(@p mean_count) independent sizes, each
 * distributed as @p size (whose p[0] must be 0). All terms are positive, so nothing cancels.
 * Source: Panjer (1981), recursive evaluation of a family of compound distributions (from memory;
 * checked against the convolution series in tests/unit/test_probability.c).
 *
 * @param tail the result is cut where less than this probability remains, for example 1e-12
 */
QLL_MUST_USE qll_status qll_compound_poisson(double mean_count, qll_distribution size, double tail,
                                             qll_arena *arena, qll_distribution *result);

/** Least grid value with F >= share, with a guard of 1e-12 against ties in the last bit. */
double qll_distribution_quantile(qll_distribution distribution, double share);

double qll_distribution_mean(qll_distribution distribution);
double qll_distribution_variance(qll_distribution distribution);

#endif
