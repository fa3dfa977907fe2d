/* A binomial number of leaking homes, each with its own flow (docs/theory/pulse.md, 13). */
#include "demand/flow_law.h"

#include <math.h>

/* What may be lost at either end of a sum. */
#define QLL_LEAK_TAIL   1e-15
/* From so many leaks on their mean stands for them: it is within 4 % of them then. */
#define QLL_LEAKS_MOST  1000.0
/* Rounds in which a leak's mean is found again after nothing of it may round to 0. */
#define QLL_LEAK_ROUNDS 6

/* Probabilities of first, first + 1, ... steps. */
typedef struct span {
    size_t first, count;
    double *p;
} span;

double qll_no_leak_share(const qll_leaks *leaks)
{
    const double whole = floor(leaks->homes);
    return pow(1.0 - leaks->share, whole) * (1.0 - leaks->share * (leaks->homes - whole));
}

static span trimmed(span of)
{
    double tail = 0.0;
    while (of.count > 1 && tail + of.p[of.count - 1] < QLL_LEAK_TAIL) {
        tail += of.p[of.count - 1];
        of.count -= 1;
    }
    double head = 0.0;
    while (of.count > 1 && head + of.p[0] < QLL_LEAK_TAIL) {
        head += of.p[0];
        of.p += 1;
        of.first += 1;
        of.count -= 1;
    }
    return of;
}

static qll_status multiply(span a, span b, qll_arena *arena, span *product)
{
    *product = (span){.first = a.first + b.first, .count = a.count + b.count - 1};
    product->p = qll_arena_take(arena, product->count, sizeof *product->p);
    if (product->p == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < a.count; i++) {
        for (size_t j = 0; j < b.count; j++) {
            product->p[i + j] += a.p[i] * b.p[j];
        }
    }
    *product = trimmed(*product);
    return QLL_OK;
}

/* One home that leaks: never 0 where its mean is over a step, so that it never counts as idle. */
static void lay_leak(qll_lognormal flow_m3s, double step, size_t count, double *p)
{
    const double least = flow_m3s.ln_sigma > 0.0 ? 1.5 * step : step;
    if (flow_m3s.mean < least) {
        qll_lognormal_lay(flow_m3s, 1.0, step, p);
        return;
    }
    qll_lognormal laid = flow_m3s;
    for (size_t round = 0; round < QLL_LEAK_ROUNDS; round++) {
        for (size_t j = 0; j < count; j++) {
            p[j] = 0.0;
        }
        qll_lognormal_lay(laid, 1.0, step, p);
        p[1] += p[0];
        p[0] = 0.0;
        double mean = 0.0;
        for (size_t j = 1; j < count; j++) {
            mean += step * (double)j * p[j];
        }
        laid.mean *= flow_m3s.mean / mean;
    }
}

static qll_status one_home(const qll_leaks *leaks, double chance, double step, qll_arena *arena,
                           span *home)
{
    const size_t count = qll_lognormal_count(leaks->flow_m3s, step) + 1;
    *home = (span){.count = count, .p = qll_arena_take(arena, count, sizeof *home->p)};
    if (home->p == NULL) {
        return QLL_NO_MEMORY;
    }
    lay_leak(leaks->flow_m3s, step, count, home->p);
    for (size_t j = 0; j < count; j++) {
        home->p[j] *= chance;
    }
    home->p[0] += 1.0 - chance;
    return QLL_OK;
}

/* The sum of @p homes like homes, by squaring. */
static qll_status many_homes(span home, size_t homes, qll_arena *arena, span *sum)
{
    qll_status status = QLL_OK;
    while (homes > 0 && status == QLL_OK) {
        if (homes % 2 == 1) {
            status = multiply(*sum, home, arena, sum);
        }
        homes /= 2;
        if (homes > 0 && status == QLL_OK) {
            status = multiply(home, home, arena, &home);
        }
    }
    return status;
}

static qll_status lay_out(span of, double step, qll_arena *arena, qll_distribution *flow)
{
    *flow = (qll_distribution){.step = step, .count = of.first + of.count};
    flow->p = qll_arena_take(arena, flow->count, sizeof *flow->p);
    if (flow->p == NULL) {
        return QLL_NO_MEMORY;
    }
    double total = 0.0;
    for (size_t j = 0; j < of.count; j++) {
        total += of.p[j];
    }
    for (size_t j = 0; j < of.count; j++) {
        flow->p[of.first + j] = of.p[j] / total;
    }
    return QLL_OK;
}

qll_status qll_leak_law_make(const qll_day_model *model, qll_arena *arena, qll_distribution *flow)
{
    const qll_leaks *leaks = &model->leaks;
    double none = 1.0;
    span sum = {.count = 1, .p = &none};
    if (leaks->homes * leaks->share > QLL_LEAKS_MOST) {
        double mean[2] = {0.0};
        const double at = model->leak_m3s / model->step_m3s;
        mean[1] = at - floor(at);
        mean[0] = 1.0 - mean[1];
        return lay_out((span){(size_t)at, 2, mean}, model->step_m3s, arena, flow);
    }
    if (model->leak_m3s > 0.0) {
        const double whole = floor(leaks->homes);
        span home = {0};
        span part = {0};
        qll_status status = one_home(leaks, leaks->share, model->step_m3s, arena, &home);
        if (status == QLL_OK) {
            status = one_home(leaks, leaks->share * (leaks->homes - whole), model->step_m3s, arena,
                              &part);
        }
        if (status == QLL_OK) {
            status = many_homes(trimmed(home), (size_t)whole, arena, &sum);
        }
        if (status == QLL_OK) {
            status = multiply(sum, trimmed(part), arena, &sum);
        }
        if (status != QLL_OK) {
            return status;
        }
    }
    return lay_out(sum, model->step_m3s, arena, flow);
}
