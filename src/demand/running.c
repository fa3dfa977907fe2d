#include "demand/running.h"

#include <math.h>

void qll_limited_durations(qll_lognormal duration_s, double *limited_s)
{
    for (size_t n = 0; n < QLL_AGE_COUNT; n++) {
        limited_s[n] = qll_lognormal_limited(duration_s, QLL_AGE_STEP_S * (double)n);
    }
}

void qll_running_chances(const qll_visit_part *part, const double *limited_s, double *chances)
{
    if (part->offset == QLL_OFFSET_UNIFORM) {
        const size_t longest = (size_t)fmax(round(part->offset_s / QLL_AGE_STEP_S), 1.0);
        for (size_t n = 0; n < QLL_AGE_COUNT; n++) {
            const double before_s = n > longest ? limited_s[n - longest] : 0.0;
            chances[n] = (limited_s[n] - before_s) / (QLL_AGE_STEP_S * (double)longest);
        }
        return;
    }
    /* p(s + h) = e^(-h/m) p(s) + (1 - e^(-h/m)) times the mean of P(D > u) over the step. */
    const double stay =
        part->offset == QLL_OFFSET_NONE ? 0.0 : exp(-QLL_AGE_STEP_S / part->offset_s);
    chances[0] = 0.0;
    for (size_t n = 1; n < QLL_AGE_COUNT; n++) {
        const double survival = (limited_s[n] - limited_s[n - 1]) / QLL_AGE_STEP_S;
        chances[n] = stay * chances[n - 1] + (1.0 - stay) * survival;
    }
}

/* Binomial: of so many uses each runs with the chance. */
static void fixed_counts(size_t uses, double chance, double *counts)
{
    counts[0] = 1.0;
    for (size_t k = 1; k < QLL_RUNNING_MOST; k++) {
        counts[k] = 0.0;
    }
    for (size_t n = 0; n < uses; n++) {
        const size_t most = n + 1 < QLL_RUNNING_MOST ? n + 1 : QLL_RUNNING_MOST - 1;
        for (size_t k = most; k > 0; k--) {
            counts[k] = counts[k] * (1.0 - chance) + counts[k - 1] * chance;
        }
        counts[0] *= 1.0 - chance;
    }
}

void qll_running_counts(const qll_visit_part *part, double chance, double *counts)
{
    const double mean = part->count_mean;
    double sum = 0.0;
    if (part->count == QLL_COUNT_POISSON) {
        counts[0] = exp(-mean * chance);
        for (size_t k = 1; k < QLL_RUNNING_MOST; k++) {
            counts[k] = counts[k - 1] * mean * chance / (double)k;
        }
    } else if (part->count == QLL_COUNT_GEOMETRIC) {
        /* P(K = k) = a (1 - a)^(k - 1), each kept with the chance. */
        const double a = 1.0 / mean;
        const double d = 1.0 - (1.0 - a) * (1.0 - chance);
        counts[0] = a * (1.0 - chance) / d;
        counts[1] = a * chance / (d * d);
        for (size_t k = 2; k < QLL_RUNNING_MOST; k++) {
            counts[k] = counts[k - 1] * (1.0 - a) * chance / d;
        }
    } else {
        fixed_counts((size_t)mean, chance, counts);
    }
    for (size_t k = 0; k < QLL_RUNNING_MOST; k++) {
        sum += counts[k];
    }
    counts[QLL_RUNNING_MOST] = fmax(1.0 - sum, 0.0);
}

double qll_count_pairs(const qll_visit_part *part)
{
    const double mean = part->count_mean;
    switch (part->count) {
    case QLL_COUNT_POISSON: return mean * mean;
    case QLL_COUNT_GEOMETRIC: return 2.0 * mean * (mean - 1.0);
    case QLL_COUNT_FIXED: break;
    }
    return mean * (mean - 1.0);
}
