#include "records/calibration.h"

#include <math.h>
#include <stdlib.h>

/* Of the normal law, both sides of 95 %. */
#define QLL_Z_95 1.959963984540054

/* No odds are off by more than e to this. */
#define QLL_SHIFT_MOST 30.0

/* Chances of 0 and 1 have no odds: nobody is surer than one in a million. */
#define QLL_CHANCE_EDGE 1e-6

static double shifted(double chance, double shift)
{
    const double inside = fmin(fmax(chance, QLL_CHANCE_EDGE), 1.0 - QLL_CHANCE_EDGE);
    return 1.0 / (1.0 + exp(-(log(inside / (1.0 - inside)) + shift)));
}

/* How far what happened lies above what is expected with the odds shifted so, in standard deviations. */
static double score(const qll_watched *watched, size_t count, double happened, double shift)
{
    double expected = 0.0;
    double variance = 0.0;
    for (size_t i = 0; i < count; i++) {
        const double chance = shifted(watched[i].chance, shift);
        expected += chance;
        variance += chance * (1.0 - chance);
    }
    return (happened - expected) / sqrt(fmax(variance, 1e-300));
}

/* The shift at which the score is @p wanted; it falls as the shift rises. */
static double shift_at(const qll_watched *watched, size_t count, double happened, double wanted)
{
    double low = -QLL_SHIFT_MOST;
    double high = QLL_SHIFT_MOST;
    for (int i = 0; i < 60; i++) {
        const double middle = (low + high) / 2.0;
        if (score(watched, count, happened, middle) > wanted) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return (low + high) / 2.0;
}

static void find_factor(const qll_watched *watched, qll_calibration *calibration)
{
    const size_t count = calibration->count;
    const double happened = (double)calibration->happened;
    const bool has_none = calibration->happened == 0;
    const bool has_all = calibration->happened == count;
    calibration->odds_factor = has_none  ? 0.0
                               : has_all ? (double)INFINITY
                                         : exp(shift_at(watched, count, happened, 0.0));
    calibration->factor_low = has_none ? 0.0 : exp(shift_at(watched, count, happened, QLL_Z_95));
    calibration->factor_high =
        has_all ? (double)INFINITY : exp(shift_at(watched, count, happened, -QLL_Z_95));
}

/* Wilson, E. B. 1927, "Probable inference", J. Am. Stat. Assoc. 22: the interval of a share. */
static void find_share(qll_calibration_group *group)
{
    const double n = (double)group->count;
    const double share = (double)group->happened / n;
    const double z2 = QLL_Z_95 * QLL_Z_95;
    const double middle = (share + z2 / (2.0 * n)) / (1.0 + z2 / n);
    const double half =
        QLL_Z_95 * sqrt(share * (1.0 - share) / n + z2 / (4.0 * n * n)) / (1.0 + z2 / n);
    group->low = fmax(middle - half, 0.0);
    group->high = fmin(middle + half, 1.0);
}

static int by_chance(const void *one, const void *other)
{
    const qll_watched *a = one;
    const qll_watched *b = other;
    return a->chance < b->chance ? -1 : a->chance > b->chance ? 1 : 0;
}

static void find_groups(const qll_watched *sorted, qll_calibration *calibration)
{
    const size_t most = calibration->count / QLL_CALIBRATION_LEAST;
    const size_t groups = most < QLL_CALIBRATION_GROUPS ? most : QLL_CALIBRATION_GROUPS;
    for (size_t g = 0; g < groups; g++) {
        qll_calibration_group *group = &calibration->groups[g];
        const size_t from = g * calibration->count / groups;
        const size_t to = (g + 1) * calibration->count / groups;
        for (size_t i = from; i < to; i++) {
            group->count += 1;
            group->happened += sorted[i].happened ? 1 : 0;
            group->chance += sorted[i].chance;
        }
        group->chance /= (double)group->count;
        find_share(group);
    }
    calibration->group_count = groups;
}

qll_status qll_calibrate(const qll_watched *watched, size_t count, qll_arena *arena,
                         qll_calibration *calibration)
{
    *calibration =
        (qll_calibration){.count = count, .odds_factor = 1.0, .factor_high = (double)INFINITY};
    double variance = 0.0;
    qll_watched *sorted = qll_arena_take(arena, count, sizeof *sorted);
    if (sorted == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        sorted[i] = watched[i];
        calibration->happened += watched[i].happened ? 1 : 0;
        calibration->expected += watched[i].chance;
        variance += watched[i].chance * (1.0 - watched[i].chance);
    }
    const double half = QLL_Z_95 * sqrt(variance);
    calibration->expected_low = fmax(calibration->expected - half, 0.0);
    calibration->expected_high = fmin(calibration->expected + half, (double)count);
    if (qll_calibration_is_told(calibration)) {
        qsort(sorted, count, sizeof *sorted, by_chance);
        find_factor(sorted, calibration);
        find_groups(sorted, calibration);
    }
    return QLL_OK;
}

bool qll_calibration_is_told(const qll_calibration *calibration)
{
    return calibration->count >= QLL_CALIBRATION_LEAST;
}

bool qll_calibration_fits(const qll_calibration *calibration)
{
    return calibration->factor_low <= 1.0 && calibration->factor_high >= 1.0;
}
