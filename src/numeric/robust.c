#include "numeric/robust.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

static double middle_of_three(double a, double b, double c)
{
    const double low = a < b ? a : b;
    const double high = a < b ? b : a;
    const double least = high < c ? high : c;
    return low > least ? low : least;
}

/* Move what is less than @p pivot, or what is no greater, to the front; how many those are. No branch depends on a value: each
 * is exchanged with the first of those behind the front, which is itself as long as there is none. */
static size_t part_less(double *values, size_t count, double pivot)
{
    size_t front = 0;
    for (size_t i = 0; i < count; i++) {
        const double value = values[i];
        values[i] = values[front];
        values[front] = value;
        front += value < pivot ? 1U : 0U;
    }
    return front;
}

static size_t part_not_greater(double *values, size_t count, double pivot)
{
    size_t front = 0;
    for (size_t i = 0; i < count; i++) {
        const double value = values[i];
        values[i] = values[front];
        values[front] = value;
        front += value <= pivot ? 1U : 0U;
    }
    return front;
}

/* The value that would stand at @p rank if all were sorted: Hoare's selection, its pivot the middle one of three. What
 * stands before it is no greater, what stands after it no less. */
static double select_rank(double *values, size_t count, size_t rank)
{
    size_t low = 0;
    size_t high = count;
    while (high - low > 1) {
        const double pivot =
            middle_of_three(values[low], values[low + (high - low) / 2], values[high - 1]);
        const size_t less = low + part_less(values + low, high - low, pivot);
        if (rank < less) {
            high = less;
            continue;
        }
        const size_t not_greater = less + part_not_greater(values + less, high - less, pivot);
        if (rank < not_greater) {
            break;
        }
        low = not_greater;
    }
    return values[rank];
}

double qll_quantile(double *values, size_t count, double share)
{
    if (count == 0) {
        return (double)NAN;
    }
    const double place = share * (double)(count - 1);
    const size_t rank = (size_t)place;
    const double low = select_rank(values, count, rank);
    if (place == (double)rank || rank + 1 >= count) {
        return low;
    }
    double high = values[rank + 1];
    for (size_t i = rank + 2; i < count; i++) {
        high = values[i] < high ? values[i] : high;
    }
    return low + (place - (double)rank) * (high - low);
}

double qll_median(double *values, size_t count)
{
    return qll_quantile(values, count, 0.5);
}

double qll_mad_sigma(const double *values, size_t count, double *scratch)
{
    memcpy(scratch, values, count * sizeof *values);
    const double middle = qll_median(scratch, count);
    for (size_t i = 0; i < count; i++) {
        scratch[i] = fabs(values[i] - middle);
    }
    return QLL_MAD_TO_SIGMA * qll_median(scratch, count);
}

double qll_theil_sen(const double *x, const double *y, size_t count, double least_apart,
                     double *scratch)
{
    size_t pairs = 0;
    for (size_t i = 0; i < count; i++) {
        for (size_t j = i + 1; j < count; j++) {
            const double apart = x[j] - x[i];
            if (fabs(apart) > least_apart) {
                scratch[pairs] = (y[j] - y[i]) / apart;
                pairs += 1;
            }
        }
    }
    return qll_median(scratch, pairs);
}

/* Shell's sort: the values are few. */
static void sort(double *values, size_t count)
{
    for (size_t gap = count / 2; gap > 0; gap /= 2) {
        for (size_t i = gap; i < count; i++) {
            const double held = values[i];
            size_t at = i;
            for (; at >= gap && values[at - gap] > held; at -= gap) {
                values[at] = values[at - gap];
            }
            values[at] = held;
        }
    }
}

qll_trend qll_mann_kendall(const double *values, size_t count, double *scratch)
{
    double s = 0.0;
    for (size_t i = 0; i < count; i++) {
        for (size_t j = i + 1; j < count; j++) {
            s += (double)((values[j] > values[i]) - (values[j] < values[i]));
        }
    }
    memcpy(scratch, values, count * sizeof *values);
    sort(scratch, count);
    const double n = (double)count;
    double variance = n * (n - 1.0) * (2.0 * n + 5.0);
    for (size_t from = 0; from < count;) {
        size_t to = from + 1;
        while (to < count && scratch[to] == scratch[from]) {
            to += 1;
        }
        const double ties = (double)(to - from);
        variance -= ties * (ties - 1.0) * (2.0 * ties + 5.0);
        from = to;
    }
    variance /= 18.0;
    const double off = s > 0.0 ? s - 1.0 : s < 0.0 ? s + 1.0 : 0.0;
    return (qll_trend){.s = s, .z = variance > 0.0 ? off / sqrt(variance) : 0.0};
}

/* ---- Hampel ---- */

/* For each value whether more than half of those around it lie within @p least of it: then so does their median, and there
 * is nothing to look at. That is most of a log. */
static void find_close(const double *values, size_t count, size_t half, double least, double *close)
{
    for (size_t i = half; i + half < count; i++) {
        close[i] = 1.0;
    }
    for (size_t k = 1; k <= half; k++) {
        for (size_t i = half; i + half < count; i++) {
            close[i] += (fabs(values[i - k] - values[i]) <= least ? 1.0 : 0.0)
                        + (fabs(values[i + k] - values[i]) <= least ? 1.0 : 0.0);
        }
    }
}

size_t qll_hampel(const double *values, size_t count, size_t half, double times, double least,
                  double *cleaned, double *scratch)
{
    const size_t width = 2 * half + 1;
    double *close = scratch;
    double *around = scratch + count;
    size_t replaced = 0;
    memcpy(cleaned, values, count * sizeof *values);
    if (count < width) {
        return 0;
    }
    find_close(values, count, half, least, close);
    for (size_t first = 0; first + width <= count; first++) {
        if (close[first + half] > (double)half) {
            continue;
        }
        const double value = values[first + half];
        memcpy(around, values + first, width * sizeof *around);
        const double middle = qll_median(around, width);
        if (fabs(value - middle) <= least) {
            continue;
        }
        const double sigma = qll_mad_sigma(values + first, width, around + width);
        if (fabs(value - middle) > times * sigma) {
            cleaned[first + half] = middle;
            replaced += 1;
        }
    }
    return replaced;
}

/* What is within least of the lowest and of the highest is so of each value. If no more than half are not, no median around a
 * value is one of those. Counted so that no branch depends on a value. */
bool qll_hampel_is_idle(const double *values, size_t count, size_t half, double least,
                        double lowest, double highest)
{
    size_t far = 0;
    for (size_t i = 0; i < count; i++) {
        far += values[i] - lowest > least ? 1U : 0U;
        far += highest - values[i] > least ? 1U : 0U;
    }
    return far <= half;
}

/* ---- segmentation ---- */

/* Sum of absolute deviations from their median. */
static double spread_of(const double *values, size_t count, double *scratch)
{
    memcpy(scratch, values, count * sizeof *values);
    const double middle = qll_median(scratch, count);
    double sum = 0.0;
    for (size_t i = 0; i < count; i++) {
        sum += fabs(values[i] - middle);
    }
    return sum;
}

/* The cut of a stretch that takes most off its spread; 0 where none takes more than the penalty. */
static size_t best_cut(const double *values, size_t count, double penalty, double *scratch)
{
    const double whole = spread_of(values, count, scratch);
    double best = penalty;
    size_t cut = 0;
    for (size_t at = 1; at < count; at++) {
        const double gain =
            whole - spread_of(values, at, scratch) - spread_of(values + at, count - at, scratch);
        if (gain > best) {
            best = gain;
            cut = at;
        }
    }
    return cut;
}

static size_t insert_cut(size_t *cuts, size_t count, size_t cut)
{
    size_t at = count;
    for (; at > 0 && cuts[at - 1] > cut; at--) {
        cuts[at] = cuts[at - 1];
    }
    cuts[at] = cut;
    return count + 1;
}

size_t qll_segments(const double *values, size_t count, double penalty, double *scratch,
                    size_t *cuts, size_t most)
{
    size_t found = 0;
    size_t from = 0;
    /* Each stretch is cut as often as it can be before the next one is looked at. */
    for (size_t stretch = 0; stretch <= found && found < most;) {
        const size_t to = stretch < found ? cuts[stretch] : count;
        const size_t cut = to > from ? best_cut(values + from, to - from, penalty, scratch) : 0;
        if (cut > 0) {
            found = insert_cut(cuts, found, from + cut);
        } else {
            from = to;
            stretch += 1;
        }
    }
    return found;
}

double qll_segment_penalty(const double *values, size_t count, double *scratch)
{
    if (count < 3) {
        return 0.0;
    }
    for (size_t i = 0; i + 1 < count; i++) {
        scratch[i] = values[i + 1] - values[i];
    }
    const double sigma = qll_mad_sigma(scratch, count - 1, scratch + count) / sqrt(2.0);
    return 3.0 * sigma * log((double)count);
}
