/* Does the high sound move as the ratio does, and does the level swing as often as the pressure hunts? */
#include "numeric/lomb_scargle.h"
#include "signals/sound_beside_state.h"

#include <math.h>

/* Ups and downs over the mean that either needs: two slow drifts go together by chance (our assumption). */
#define QLL_CROSSINGS_LEAST 8
/* Of the variance, that a swing must explain; as for hunting in a log. */
#define QLL_SWING_SHARE     0.3
/* Waves of the slowest swing that is looked for. */
#define QLL_WAVES_LEAST     5.0
#define QLL_SWING_ALARM     0.01

typedef struct series {
    const double *x; /* [column] heard */
    const double *y; /* the same of the log, with the margin on either side */
    size_t count, margin;
} series;

/* Pearson's, of x[i + turn] and y[i + lag]: turned round, and only where y is known. NaN where either stands still. */
static double correlation_at(const series *of, size_t turn, long lag)
{
    double n = 0.0, sx = 0.0, sy = 0.0, sxx = 0.0, syy = 0.0, sxy = 0.0;
    for (size_t i = 0; i < of->count; i++) {
        const double y = of->y[(size_t)((long)(i + of->margin) + lag)];
        const double x = of->x[(i + turn) % of->count];
        if (!isnan(y)) {
            n += 1.0;
            sx += x;
            sy += y;
            sxx += x * x;
            syy += y * y;
            sxy += x * y;
        }
    }
    const double vx = n * sxx - sx * sx, vy = n * syy - sy * sy;
    const bool moves = n > 2.0 && vx > 1e-12 * n * sxx && vy > 1e-12 * n * syy;
    return moves ? (n * sxy - sx * sy) / sqrt(vx * vy) : (double)NAN;
}

/* The greatest at any lag that the clocks may have; how many columns it is. */
static double most_correlation(const series *of, size_t turn, long *best)
{
    double most = NAN;
    for (long lag = -(long)of->margin; lag <= (long)of->margin; lag++) {
        const double now = correlation_at(of, turn, lag);
        if (!isnan(now) && !(now <= most)) {
            most = now;
            *best = lag;
        }
    }
    return most;
}

static size_t crossings_of(const double *values, size_t count)
{
    double sum = 0.0, known = 0.0;
    for (size_t i = 0; i < count; i++) {
        sum += isnan(values[i]) ? 0.0 : values[i];
        known += isnan(values[i]) ? 0.0 : 1.0;
    }
    size_t crossings = 0;
    int side = 0;
    for (size_t i = 0; i < count; i++) {
        const int now = values[i] > sum / known ? 1 : -1;
        crossings += !isnan(values[i]) && side != 0 && now != side;
        side = isnan(values[i]) ? side : now;
    }
    return crossings;
}

/* The ratio as the trade takes it, in gauge pressures; NaN where it means nothing. */
static double *ratios_of(const double *const wide[QLL_CHANNEL_COUNT], size_t count,
                         qll_arena *arena)
{
    double *ratios = qll_arena_take(arena, count, sizeof *ratios);
    for (size_t i = 0; ratios != NULL && i < count; i++) {
        const double outlet_pa = wide[QLL_CHANNEL_OUTLET][i];
        ratios[i] = outlet_pa > 0.0 ? wide[QLL_CHANNEL_INLET][i] / outlet_pa : (double)NAN;
    }
    return ratios;
}

static void judge_ratio(const series *of, double column_s, qll_together *together)
{
    long best = 0;
    together->correlation = most_correlation(of, 0, &best);
    together->lag_s = (double)best * column_s;
    if (isnan(together->correlation) || crossings_of(of->x, of->count) < QLL_CROSSINGS_LEAST
        || crossings_of(of->y + of->margin, of->count) < QLL_CROSSINGS_LEAST) {
        return;
    }
    size_t tried = 0, as_good = 0;
    for (size_t turn = 2 * of->margin; turn + 2 * of->margin <= of->count; turn++) {
        long lag = 0;
        tried += 1;
        as_good += most_correlation(of, turn, &lag) >= together->correlation;
    }
    together->chance = qll_beside_chance(as_good, tried);
    together->is_judged = true;
    together->coincides = together->correlation > 0.0 && together->chance <= QLL_BESIDE_CHANCE;
}

/* The swing that explains most of @p values, in Hz; NaN where none does. */
static double swing_of(const double *time_s, const double *values, size_t count, double least_hz,
                       double most_hz, double step_hz)
{
    double best_hz = NAN, most = QLL_SWING_SHARE;
    const size_t steps = (size_t)((most_hz - least_hz) / step_hz);
    for (size_t i = 0; i <= steps; i++) {
        const double hz = least_hz + step_hz * (double)i;
        const double share = qll_lomb_scargle(time_s, values, count, hz);
        if (share > most) {
            most = share;
            best_hz = hz;
        }
    }
    const double tried = fmax(1.0, (most_hz - least_hz) / step_hz);
    return qll_lomb_scargle_false_alarm(most, count, tried) < QLL_SWING_ALARM ? best_hz
                                                                              : (double)NAN;
}

/* Two swings that know nothing of each other agree as often as one falls so near the other in the range that both can show. */
static void judge_swing(const qll_beside *beside, const double *pressure, qll_arena *arena,
                        qll_beside_result *result)
{
    qll_together *together = &result->together[QLL_BESIDE_SWING];
    double *time_s = qll_arena_take(arena, result->column_count, sizeof *time_s);
    double *heard = qll_arena_take(arena, result->column_count, sizeof *heard);
    double *logged = qll_arena_take(arena, result->column_count, sizeof *logged);
    size_t count = 0;
    for (size_t i = 0;
         time_s != NULL && heard != NULL && logged != NULL && i < result->column_count; i++) {
        if (!isnan(pressure[i])) {
            time_s[count] = result->time_s[i];
            heard[count] = result->level_db[i];
            logged[count] = pressure[i];
            count += 1;
        }
    }
    const double length_s = result->overlap_s;
    const double least_hz = QLL_WAVES_LEAST / length_s;
    const double most_hz =
        0.4 / fmax(beside->window.column_s, (double)beside->interval_ms / 1000.0);
    const double near_hz = 1.0 / length_s;
    if (count < 8 || most_hz <= least_hz + 4.0 * near_hz) {
        return;
    }
    together->heard_hz = swing_of(time_s, heard, count, least_hz, most_hz, 0.25 * near_hz);
    together->logged_hz = swing_of(time_s, logged, count, least_hz, most_hz, 0.25 * near_hz);
    if (isnan(together->heard_hz) || isnan(together->logged_hz)) {
        return;
    }
    const double apart_hz = fabs(together->heard_hz - together->logged_hz);
    together->chance = fmin(1.0, 2.0 * fmax(apart_hz, 0.25 * near_hz) / (most_hz - least_hz));
    together->is_judged = true;
    together->coincides = apart_hz <= near_hz && together->chance <= QLL_BESIDE_CHANCE;
}

qll_status qll_beside_move(const qll_beside *beside, const double *const wide[QLL_CHANNEL_COUNT],
                           qll_arena *arena, qll_beside_result *result)
{
    const double *watched = wide[beside->watched];
    if (watched != NULL) {
        judge_swing(beside, watched + beside->margin, arena, result);
    }
    if (wide[QLL_CHANNEL_INLET] == NULL || wide[QLL_CHANNEL_OUTLET] == NULL) {
        return QLL_OK;
    }
    const double *ratios = ratios_of(wide, beside->column_count, arena);
    if (ratios == NULL) {
        return QLL_NO_MEMORY;
    }
    const series of = {result->high_db, ratios, result->column_count, beside->margin};
    judge_ratio(&of, beside->window.column_s, &result->together[QLL_BESIDE_RATIO]);
    return QLL_OK;
}
