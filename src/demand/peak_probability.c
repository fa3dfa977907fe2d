/* Simultaneous use: the exact distribution of the flow of independent fixtures
 * (docs/theory/simultaneous_use.md). */
#include "base/count.h"
#include "base/customary.h"
#include "demand/demand.h"

#include <math.h>

/* Flows are looked for as multiples of these, in this order, so that sums are exact on the grid. */
static const double grid_bases_m3s[] = {
    0.01 * QLL_GPM_M3S, /* 0.01 gpm */
    1e-6,               /* 0.001 L/s */
    0.1e-3 / 60.0,      /* 0.1 L/min */
};

/* Flows count as multiples within this share: what conversion between units may round. */
#define QLL_MULTIPLE_SHARE  1e-9
/* Of flows without a common step: at most this step, and this many steps in the least flow. */
#define QLL_ODD_STEP_M3S    1e-6
#define QLL_ODD_STEP_COUNT  50.0
/* Multiplications a convolution may cost by the rough count below: about 0.1 s. */
#define QLL_COST_MAX        1e9
/* Standard deviations on both sides within which a binomial stays above the terms dropped. */
#define QLL_SPAN_DEVIATIONS 24.0

static double as_multiple(double flow_m3s, double step_m3s)
{
    const double ratio = flow_m3s / step_m3s;
    const double whole = round(ratio);
    return fabs(ratio - whole) <= QLL_MULTIPLE_SHARE * whole ? whole : ratio;
}

static double common_divisor(double a, double b)
{
    while (b > 0.0) {
        const double rest = fmod(a, b);
        a = b;
        b = rest;
    }
    return a;
}

static bool group_counts(const qll_use_group *group)
{
    return group->count > 0 && group->probability > 0.0;
}

/* The greatest step of which all flows are multiples, if they are multiples of a base; else 0. */
static double common_step(const qll_use_group *groups, size_t count, double base_m3s)
{
    double divisor = 0.0;
    for (size_t g = 0; g < count; g++) {
        if (!group_counts(&groups[g])) {
            continue;
        }
        const double multiple = as_multiple(groups[g].flow_m3s, base_m3s);
        if (floor(multiple) != multiple || multiple < 1.0 || multiple > 1e12) {
            return 0.0;
        }
        divisor = common_divisor(multiple, divisor);
    }
    return divisor * base_m3s;
}

static double odd_step(const qll_use_group *groups, size_t count)
{
    double step = QLL_ODD_STEP_M3S;
    for (size_t g = 0; g < count; g++) {
        if (group_counts(&groups[g])) {
            step = fmin(step, groups[g].flow_m3s / QLL_ODD_STEP_COUNT);
        }
    }
    return step;
}

/* Multiplications of the convolution on a grid of @p step_m3s, roughly. */
static double convolution_cost(const qll_use_group *groups, size_t count, double step_m3s)
{
    double variance = 0.0;
    double widest = 0.0;
    double entries = 0.0;
    for (size_t g = 0; g < count; g++) {
        const double n = (double)groups[g].count;
        const double spread = n * groups[g].probability * (1.0 - groups[g].probability);
        const double terms = fmin(n, QLL_SPAN_DEVIATIONS * (1.0 + sqrt(spread)) + 1.0);
        const double size = groups[g].flow_m3s / step_m3s;
        variance += spread * size * size;
        widest += terms * size;
        entries += fmin(terms, terms * size + 2.0);
    }
    const double length = fmin(widest, QLL_SPAN_DEVIATIONS * sqrt(variance) + widest / 8.0);
    return entries * (length + 1.0);
}

static double choose_step(const qll_use_group *groups, size_t count)
{
    double step = 0.0;
    for (size_t b = 0; b < QLL_COUNT(grid_bases_m3s) && step <= 0.0; b++) {
        step = common_step(groups, count, grid_bases_m3s[b]);
    }
    if (step <= 0.0) {
        step = odd_step(groups, count);
    }
    for (int i = 0; i < 2200 && convolution_cost(groups, count, step) > QLL_COST_MAX; i++) {
        step *= 2.0;
    }
    return step;
}

static bool in_range(const qll_use_group *groups, size_t count, double quantile)
{
    size_t left = QLL_FIXTURE_COUNT_MAX;
    for (size_t g = 0; g < count; g++) {
        if (!(groups[g].flow_m3s > 0.0) || !isfinite(groups[g].flow_m3s)
            || !(groups[g].probability >= 0.0 && groups[g].probability <= 1.0)
            || groups[g].count > left) {
            return false;
        }
        left -= groups[g].count;
    }
    return quantile > 0.0 && quantile < 1.0;
}

/* Least flow over 0 with the quantile of the time in which at least one fixture runs. */
static double busy_quantile(const qll_simultaneous *use, double quantile)
{
    if (use->idle_share >= 1.0) {
        return 0.0;
    }
    const double share = use->idle_share + quantile * (1.0 - use->idle_share);
    return fmax(qll_distribution_quantile(use->distribution, share), use->step_m3s);
}

/* Mean + z deviations of the flow given that it is not 0: its mean is mu / (1 - P0) and its variance
 * ((1 - P0) sigma^2 - P0 mu^2) / (1 - P0)^2. */
static double normal_busy(const qll_simultaneous *use, double quantile)
{
    const double busy = 1.0 - use->idle_share;
    if (busy <= 0.0) {
        return 0.0;
    }
    const double square = busy * use->deviation_m3s * use->deviation_m3s
                          - use->idle_share * use->mean_m3s * use->mean_m3s;
    return (use->mean_m3s + qll_normal_quantile(quantile) * sqrt(fmax(square, 0.0))) / busy;
}

qll_status qll_simultaneous_use(const qll_use_group *groups, size_t count, double quantile,
                                qll_arena *arena, qll_simultaneous *result)
{
    if (!in_range(groups, count, quantile)) {
        return QLL_REFUSED;
    }
    const double step = choose_step(groups, count);
    qll_binomial_group *sums = qll_arena_take(arena, count, sizeof *sums);
    if (sums == NULL) {
        return QLL_NO_MEMORY;
    }
    *result = (qll_simultaneous){.step_m3s = step};
    double log_idle = 0.0;
    double variance = 0.0;
    for (size_t g = 0; g < count; g++) {
        const double n = (double)groups[g].count;
        const double p = groups[g].probability;
        const double flow = groups[g].flow_m3s;
        sums[g] =
            (qll_binomial_group){.count = groups[g].count, .p = p, .size = as_multiple(flow, step)};
        if (group_counts(&groups[g]) && floor(sums[g].size) != sums[g].size) {
            result->rounding_m3s += step;
        }
        log_idle += n > 0.0 ? n * log1p(-p) : 0.0;
        result->busy_count += n * p;
        result->mean_m3s += n * p * flow;
        variance += n * p * (1.0 - p) * flow * flow;
    }
    result->idle_share = exp(log_idle);
    result->deviation_m3s = sqrt(variance);
    result->normal_m3s = result->mean_m3s + qll_normal_quantile(quantile) * result->deviation_m3s;
    result->normal_busy_m3s = normal_busy(result, quantile);
    const qll_status status = qll_poisson_binomial(sums, count, step, arena, &result->distribution);
    if (status != QLL_OK) {
        return status;
    }
    result->flow_m3s = qll_distribution_quantile(result->distribution, quantile);
    result->flow_busy_m3s = busy_quantile(result, quantile);
    return QLL_OK;
}
