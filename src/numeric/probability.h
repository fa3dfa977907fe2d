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

/**
 * ln of the binomial probability of k of n at p; -inf where impossible, NaN for p outside 0 to 1.
 *
 * Absolute error (so the relative error of the probability) under 1e-12 for n up to 1e5 wherever
 * the probability is above 1e-300: tests/reference/binomial.csv.
 * Method: C. Loader, "Fast and accurate computation of binomial probabilities", 2000 (from memory).
 */
double qll_binomial_log(double k, double n, double p);

/** ln of the Poisson probability of k at @p mean; -inf where impossible, NaN for a mean below 0. */
double qll_poisson_log(double k, double mean);

/** The z with standard normal probability @p share below it; NaN unless 0 < share < 1. */
double qll_normal_quantile(double share);

/** Some like members of a sum: each adds @p size grid steps with probability @p p. */
typedef struct qll_binomial_group {
    size_t count;
    double p;    /* 0 to 1 */
    double size; /* >= 0; where a multiple of it falls between grid points, its probability is
                    shared between the two so that the mean is kept */
} qll_binomial_group;

/**
 * Distribution of the sum of independent groups: direct convolution of their binomials. All terms
 * are positive, so every probability above 1e-20 has a relative error of about 1e-13; terms below
 * 1e-30 are dropped on the way.
 *
 * Takes time and memory by the span of the result in grid steps; the caller chooses the step.
 *
 * @return QLL_OK or QLL_NO_MEMORY; result.p lives in @p arena
 */
QLL_MUST_USE qll_status qll_poisson_binomial(const qll_binomial_group *groups, size_t group_count,
                                             double step, qll_arena *arena,
                                             qll_distribution *result);

/** How many members a random sum has: Poisson, its mean times a gamma factor of mean 1. */
typedef struct qll_random_count {
    double mean; /* 0 or more */
    double cv;   /* of the factor, 0 or more; 0 = plain Poisson */
} qll_random_count;

/**
 * The sum of a random number of independent sizes, each distributed as @p size (whose p[0] must be
 * 0), by Panjer's recursion. All terms are positive, so nothing cancels; scaled on the way, a mean
 * count of 1e6 neither underflows nor overflows.
 *
 * Source: Panjer (1981), recursive evaluation of a family of compound distributions (from memory;
 * checked against the convolution series in tests/unit/test_compound.c). With a gamma factor the
 * count is negative binomial, a member of the same family.
 *
 * @param tail the result is cut where less than this probability remains (by Chernoff's bound), for
 *             example 1e-12, and then divided by its sum
 * @return QLL_OK or QLL_NO_MEMORY; result.p lives in @p arena
 */
QLL_MUST_USE qll_status qll_compound(qll_random_count number, qll_distribution size, double tail,
                                     qll_arena *arena, qll_distribution *result);

/** Least grid value with F >= share, with a guard of 1e-12 against ties in the last bit. */
double qll_distribution_quantile(qll_distribution distribution, double share);

double qll_distribution_mean(qll_distribution distribution);
double qll_distribution_variance(qll_distribution distribution);

#endif
