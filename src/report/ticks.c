#include "report/ticks.h"

#include <assert.h>
#include <math.h>

/* What is a whole number of steps may come out a little off. */
#define QLL_STEP_SLACK 1e-9

/* 10 to the power @p exponent; exact where a double can be, so that 0.2 is 2/10 and not 2 times 0.1. */
static double scaled(double mantissa, int exponent)
{
    return exponent < 0 ? mantissa / pow(10, -exponent) : mantissa * pow(10, exponent);
}

static double range_steps(double low, double high, double step)
{
    return ceil(high / step - QLL_STEP_SLACK) - floor(low / step + QLL_STEP_SLACK);
}

qll_ticks qll_ticks_cover(double low, double high, size_t most_steps)
{
    static const double mantissas[] = {1, 2, 5};
    assert(isfinite(low) && isfinite(high) && most_steps >= 2);
    double from = fmin(low, high);
    double to = fmax(low, high);
    double least = fmax(fabs(from), fabs(to)) * 1e-9;
    if (to - from <= fmax(least, 1e-300)) {
        /* A twentieth of less than this is no number any more. */
        double half = fabs(from) < 1e-290 ? 0.5 : fabs(from) * 0.05;
        from -= half;
        to += half;
    }
    /* Halved first: the ends may lie as far apart as no double can say. */
    int exponent = (int)floor(log10((to / 2 - from / 2) * 2 / (double)most_steps)) - 1;
    for (int tries = 0; tries < 12; tries++) {
        int decade = exponent + tries / 3;
        double step = scaled(mantissas[tries % 3], decade);
        double steps = range_steps(from, to, step);
        if (steps <= (double)most_steps) {
            return (qll_ticks){
                .first = floor(from / step + QLL_STEP_SLACK) * step,
                .step = step,
                .count = (size_t)steps + 1,
                .decimals = decade < 0 ? (decade < -9 ? 9 : -decade) : 0,
            };
        }
    }
    return (qll_ticks){.first = from, .step = to - from, .count = 2};
}

size_t qll_ticks_cover_log(double low, double high, double *values, size_t room)
{
    static const double mantissas[] = {1, 2, 5};
    assert(low > 0 && high >= low && isfinite(high) && room >= 2);
    int first = (int)floor(log10(low));
    int last = (int)ceil(log10(high));
    /* Beyond four decades the numbers between would run into each other. */
    bool is_wide = log10(high / low) > 4;
    size_t count = 0;
    for (int decade = first; decade <= last; decade++) {
        for (size_t i = 0; i < (is_wide ? 1 : 3); i++) {
            double value = scaled(mantissas[i], decade);
            if (count > 0 && value <= low * (1 + QLL_STEP_SLACK)) {
                count = 0; /* a later one starts nearer */
            }
            if (count < room) {
                values[count] = value;
                count += 1;
            }
            if (value >= high * (1 - QLL_STEP_SLACK)) {
                return count;
            }
        }
    }
    return count;
}

double qll_tick_value(const qll_ticks *ticks, size_t index)
{
    /* From the number of steps, so that 0 is 0 and not what is left of a sum. */
    double steps = round(ticks->first / ticks->step);
    return fabs(steps * ticks->step - ticks->first) <= ticks->step * 1e-6
               ? (steps + (double)index) * ticks->step
               : ticks->first + (double)index * ticks->step;
}

void qll_tick_write(qll_writer *writer, double value, int decimals)
{
    double unit = pow(10, -decimals);
    double shown = fabs(value) < unit / 2 ? 0 : value;
    qll_write_format(writer, "%.*f", decimals, shown);
}

int qll_tick_decimals(double value)
{
    int decimals = 0;
    double scale = 1;
    while (decimals < 9
           && fabs(value * scale - round(value * scale)) > 1e-6 * fabs(value * scale)) {
        decimals += 1;
        scale *= 10;
    }
    return decimals;
}
