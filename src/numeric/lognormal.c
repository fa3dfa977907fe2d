#include "numeric/lognormal.h"

#include <math.h>

#define QLL_LOGNORMAL_CUT 6.0

double qll_lognormal_square(qll_lognormal amount)
{
    return amount.mean * amount.mean * exp(amount.ln_sigma * amount.ln_sigma);
}

double qll_lognormal_top(qll_lognormal amount)
{
    const double sigma = amount.ln_sigma;
    return amount.mean * exp(sigma * (QLL_LOGNORMAL_CUT - 0.5 * sigma));
}

size_t qll_lognormal_count(qll_lognormal amount, double step)
{
    return (size_t)ceil(qll_lognormal_top(amount) / step) + 2;
}

static double normal_below(double z)
{
    return 0.5 * erfc(-z / sqrt(2.0));
}

/* Mean of min(amount, limit) in units of the mean: the lognormal's limited expected value. */
static double limited_mean(qll_lognormal amount, double limit)
{
    if (limit <= 0.0) {
        return 0.0;
    }
    const double ratio = limit / amount.mean;
    const double z = log(ratio) / amount.ln_sigma + 0.5 * amount.ln_sigma;
    return normal_below(z - amount.ln_sigma) + ratio * normal_below(-z);
}

double qll_lognormal_limited(qll_lognormal amount, double limit)
{
    if (amount.ln_sigma <= 0.0) {
        return fmax(fmin(amount.mean, limit), 0.0);
    }
    return limit >= qll_lognormal_top(amount) ? amount.mean
                                              : amount.mean * limited_mean(amount, limit);
}

void qll_lognormal_lay(qll_lognormal amount, double share, double step, double *p)
{
    if (amount.ln_sigma <= 0.0) {
        const double at = amount.mean / step;
        const double whole = floor(at);
        p[(size_t)whole] += share * (1.0 - (at - whole));
        p[(size_t)whole + 1] += share * (at - whole);
        return;
    }
    const double scale = share * amount.mean / step;
    const size_t last = (size_t)ceil(qll_lognormal_top(amount) / step);
    double before = 0.0;
    double here = 0.0;
    for (size_t j = 0; j < last; j++) {
        const double after = limited_mean(amount, step * (double)(j + 1));
        const double slope = (here - before) - (after - here);
        const double weight = j == 0 ? share - scale * after : scale * slope;
        p[j] += fmax(weight, 0.0);
        before = here;
        here = after;
    }
    p[last] += fmax(scale * (here - before), 0.0);
}
