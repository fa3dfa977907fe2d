#include "records/drift.h"

#include "numeric/robust.h"

#include <math.h>
#include <stdlib.h>

/* Of the normal law, both sides of 95 %. */
#define QLL_Z_95 1.959963984540054

/* How many readings of the stretch that begins at @p from. */
static size_t stretch_size(const qll_drift_point *points, size_t count, size_t from)
{
    size_t size = 1;
    while (from + size < count && !points[from + size].begins) {
        size++;
    }
    return size;
}

/* Slopes of all pairs of a stretch; how many. */
static size_t take_slopes(const qll_drift_point *points, size_t count, double *slopes)
{
    size_t taken = 0;
    for (size_t i = 0; i < count; i++) {
        for (size_t j = i + 1; j < count; j++) {
            const double days = points[j].day - points[i].day;
            if (days > 0.0) {
                slopes[taken] = (points[j].value - points[i].value) / (days / QLL_YEAR_DAYS);
                taken += 1;
            }
        }
    }
    return taken;
}

static double of_ties(double same)
{
    return same * (same - 1.0) * (2.0 * same + 5.0);
}

static bool is_same(double one, double other)
{
    return !(one < other) && !(one > other);
}

/* Kendall's variance, less that of readings of one day, and of equal readings (Sen 1968, eq. 2.6). */
static double variance(const qll_drift_point *points, size_t count)
{
    double sum = of_ties((double)count);
    for (size_t i = 0; i < count; i++) {
        size_t days = 1;
        size_t values = 1;
        bool is_first_day = true;
        bool is_first_value = true;
        for (size_t j = 0; j < count; j++) {
            const bool same_day = is_same(points[i].day, points[j].day);
            const bool same_value = is_same(points[i].value, points[j].value);
            is_first_day = is_first_day && !(j < i && same_day);
            is_first_value = is_first_value && !(j < i && same_value);
            days += j > i && same_day ? 1 : 0;
            values += j > i && same_value ? 1 : 0;
        }
        sum -= is_first_day ? of_ties((double)days) : 0.0;
        sum -= is_first_value ? of_ties((double)values) : 0.0;
    }
    return sum / 18.0;
}

static int by_size(const void *one, const void *other)
{
    const double a = *(const double *)one;
    const double b = *(const double *)other;
    return a < b ? -1 : a > b ? 1 : 0;
}

/* The slopes that bound 95 %: so many pairs from either end. */
static void find_interval(const double *sorted, size_t count, double deviation, qll_drift *drift)
{
    const double half = QLL_Z_95 * deviation;
    const double below = ((double)count - half) / 2.0;
    const double above = ((double)count + half) / 2.0;
    /* Ranks from 1: as many as lie below, and one more than lie up to the other end. */
    const double low = round(below);
    const double high = round(above) + 1.0;
    if (low >= 1.0 && high <= (double)count) {
        drift->low_per_year = sorted[(size_t)low - 1];
        drift->high_per_year = sorted[(size_t)high - 1];
    }
}

/* The line goes through the middle of what is left of the last stretch without the slope. */
static double level_of(const qll_drift_point *points, size_t count, double slope, double *scratch)
{
    const double last = points[count - 1].day;
    for (size_t i = 0; i < count; i++) {
        const double years = (last - points[i].day) / QLL_YEAR_DAYS;
        scratch[i] = points[i].value + (isnan(slope) ? 0.0 : slope * years);
    }
    return qll_median(scratch, count);
}

qll_status qll_drift_of(const qll_drift_point *points, size_t count, qll_arena *arena,
                        qll_drift *drift)
{
    *drift = (qll_drift){
        .count = count,
        .slope_per_year = (double)NAN,
        .low_per_year = (double)NAN,
        .high_per_year = (double)NAN,
        .level = (double)NAN,
        .first_day = count > 0 ? points[0].day : (double)NAN,
        .last_day = count > 0 ? points[count - 1].day : (double)NAN,
    };
    if (count == 0) {
        return QLL_OK;
    }
    double *slopes = qll_arena_take(arena, qll_pair_count(count) + count, sizeof *slopes);
    if (slopes == NULL) {
        return QLL_NO_MEMORY;
    }
    double kendall = 0.0;
    size_t from = 0;
    size_t size = 0;
    for (size_t at = 0; at < count; at += size) {
        from = at;
        size = stretch_size(points, count, at);
        drift->pairs += take_slopes(points + at, size, slopes + drift->pairs);
        kendall += variance(points + at, size);
    }
    if (drift->pairs > 0) {
        qsort(slopes, drift->pairs, sizeof *slopes, by_size);
        const size_t middle = drift->pairs / 2;
        drift->slope_per_year =
            drift->pairs % 2 == 1 ? slopes[middle] : (slopes[middle - 1] + slopes[middle]) / 2.0;
        find_interval(slopes, drift->pairs, sqrt(kendall), drift);
    }
    drift->level =
        level_of(points + from, size, drift->slope_per_year, slopes + qll_pair_count(count));
    return QLL_OK;
}

bool qll_drift_is_sure(const qll_drift *drift)
{
    return drift->low_per_year > 0.0 || drift->high_per_year < 0.0;
}

/* On the last day, where it is beyond the limit already. */
static double reached_at(const qll_drift *drift, double limit, double slope)
{
    const double years = (limit - drift->level) / slope;
    return years <= 100.0 ? drift->last_day + fmax(years, 0.0) * QLL_YEAR_DAYS : (double)NAN;
}

qll_reached qll_drift_reaches(const qll_drift *drift, double low, double high)
{
    const bool is_rising = drift->low_per_year > 0.0;
    const double limit = is_rising ? high : low;
    if (!qll_drift_is_sure(drift) || isnan(limit)) {
        return (qll_reached){(double)NAN, (double)NAN, (double)NAN};
    }
    const double fast = is_rising ? drift->high_per_year : drift->low_per_year;
    const double slow = is_rising ? drift->low_per_year : drift->high_per_year;
    return (qll_reached){reached_at(drift, limit, drift->slope_per_year),
                         reached_at(drift, limit, fast), reached_at(drift, limit, slow)};
}
