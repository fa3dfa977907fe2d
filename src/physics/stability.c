/* Equation numbers are those of docs/theory/stability.md. */
#include "physics/stability.h"

#include "base/customary.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

/* All of it judgement; docs/theory/stability.md says on what. */
typedef struct prior_law {
    double chatters, chatters_power; /* at the reference drop, and of the drop in the odds */
    double share, share_power;       /* the median there, and of the drop */
    double ln_sigma;
} prior_law;

static const prior_law prior_laws[] = {
    [false] = {.chatters = 0.5,
               .chatters_power = 1.23,
               .share = 0.080,
               .share_power = 1.07,
               .ln_sigma = 0.99},
    [true] = {.chatters = 0.9, .share = 0.05, .share_power = 1.2, .ln_sigma = 0.8},
};
static const double reference_drop_pa = 60 * QLL_PSI_PA;

/* Where chatter above the least stable flow has died away, over that flow. */

static double logistic(double x)
{
    return 1 / (1 + exp(-x));
}

qll_chatter_prior qll_stability_prior(bool is_pilot, double drop_pa)
{
    const prior_law *law = &prior_laws[is_pilot];
    if (drop_pa <= 0) {
        return (qll_chatter_prior){.ln_sigma = law->ln_sigma};
    }
    double ratio = drop_pa / reference_drop_pa;
    double odds = law->chatters / (1 - law->chatters) * pow(ratio, law->chatters_power);
    double share = law->share * pow(ratio, law->share_power);
    return (qll_chatter_prior){.chatters = isnan(ratio) ? (double)NAN : 1 - 1 / (1 + odds),
                               .median_share = share > 1 ? 1 : share,
                               .ln_sigma = law->ln_sigma};
}

double qll_stability_drop_power(bool is_pilot)
{
    return prior_laws[is_pilot].share_power;
}

double qll_stability_heard(double flow_over_stable, double power_w, bool is_pilot)
{
    if (isnan(flow_over_stable) || isnan(power_w)) {
        return NAN;
    }
    if (flow_over_stable <= 0 || power_w <= 0 || flow_over_stable >= QLL_HEARD_BEYOND) {
        return 0;
    }
    double below = fmin(flow_over_stable, 1);
    double heard = logistic(QLL_HEARD_LN_ODDS + QLL_HEARD_PER_LN_FLOW * log(below)
                            + QLL_HEARD_PER_LN_POWER * log(power_w));
    heard *= fmin((QLL_HEARD_BEYOND - flow_over_stable) / (QLL_HEARD_BEYOND - 1), 1);
    return is_pilot ? QLL_HEARD_PILOT_SHARE * heard : heard;
}
