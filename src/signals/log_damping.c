/* A fall counts as a stop when it begins over a tenth of the greatest flow (under that meters are noisy) and
 * ends under 30 % of where it began; it is even when both its halves
 * decay alike. A damped meter has mostly even stops, and all of one time constant (docs/theory/flow_log.md,
 * our choice of the shares). */
#include "signals/log_damping.h"

#include <math.h>
#include <string.h>

#define QLL_STOP_SHARE     0.3
#define QLL_STOP_FROM      0.1
#define QLL_EVEN_ROWS      8
#define QLL_EVEN_TIMES     1.6 /* one half against the other */
#define QLL_ALIKE_TIMES    1.6 /* upper quartile over lower */
#define QLL_EVEN_LEAST     5
#define QLL_SLOW_INTERVALS 3.0

void qll_damping_begin(qll_damping *d, int64_t interval_ms)
{
    memset(d, 0, sizeof *d);
    d->interval_ms = interval_ms;
    d->wanted = true;
}

static double time_constant_s(const qll_damping *d, size_t from, size_t to)
{
    const double rows = (double)(to - from);
    return rows * ((double)d->interval_ms / 1000.0) / log(d->fall[from] / d->fall[to]);
}

static void add_stop(qll_damping *d, double from, double time_s)
{
    if (d->stops < QLL_FALLS) {
        d->from[d->stops] = from;
        d->time_s[d->stops] = time_s;
        d->stops += 1;
    }
}

static void end_fall(qll_damping *d)
{
    const size_t size = d->fall_size;
    double time_s = (double)NAN;
    d->fall_size = 0;
    if (size < 2 || d->fall[size - 1] > QLL_STOP_SHARE * d->fall[0]) {
        return;
    }
    if (size >= QLL_EVEN_ROWS) {
        /* The first row may still belong to the flow before. */
        const size_t middle = size / 2;
        const double early_s = time_constant_s(d, 1, middle);
        const double late_s = time_constant_s(d, middle, size - 1);
        if (early_s < QLL_EVEN_TIMES * late_s && late_s < QLL_EVEN_TIMES * early_s) {
            time_s = time_constant_s(d, 1, size - 1);
        }
    }
    add_stop(d, d->fall[0], time_s);
}

void qll_damping_look(qll_damping *d, const int64_t *at_ms, const double *values, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const double value = values[i];
        const bool follows = d->fall_size > 0 && at_ms[i] - d->before_ms == d->interval_ms;
        if (!(follows && value < d->fall[d->fall_size - 1] && value > 0.0)) {
            if (follows && value == 0.0 && d->fall_size == 1) {
                add_stop(d, d->fall[0], (double)NAN); /* from flow to none at once */
            }
            end_fall(d);
        }
        if (value > 0.0 && d->fall_size < QLL_FALL_ROWS) {
            d->fall[d->fall_size] = value;
            d->fall_size += 1;
        }
        d->greatest = value > d->greatest ? value : d->greatest;
        d->before_ms = at_ms[i];
    }
    d->rows += (long long)count;
    d->wanted = d->rows < QLL_DAMPING_ROWS;
}

static void sort(double *values, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        const double value = values[i];
        size_t at = i;
        for (; at > 0 && values[at - 1] > value; at--) {
            values[at] = values[at - 1];
        }
        values[at] = value;
    }
}

double qll_damping_time_s(const qll_damping *d)
{
    double sorted[QLL_FALLS];
    size_t stops = 0;
    size_t count = 0;
    for (size_t i = 0; d != NULL && i < d->stops; i++) {
        if (d->from[i] >= QLL_STOP_FROM * d->greatest) {
            stops += 1;
            sorted[count] = d->time_s[i];
            count += isnan(d->time_s[i]) ? 0U : 1U;
        }
    }
    if (d == NULL || count < QLL_EVEN_LEAST || count * 2 < stops) {
        return (double)NAN;
    }
    sort(sorted, count);
    const double middle_s = sorted[count / 2];
    const bool alike = sorted[count * 3 / 4] <= QLL_ALIKE_TIMES * sorted[count / 4];
    const bool slow = middle_s * 1000.0 >= QLL_SLOW_INTERVALS * (double)d->interval_ms;
    return alike && slow ? middle_s : (double)NAN;
}
