#include "signals/sound_beside.h"

#include "signals/sound_beside_state.h"

#include <math.h>
#include <string.h>

static const char *const words[QLL_BESIDE_COUNT] = {
#define QLL_BESIDE_WORD(name, word) [QLL_BESIDE_##name] = (word),
    QLL_BESIDE_LIST(QLL_BESIDE_WORD)
#undef QLL_BESIDE_WORD
};

const char *qll_beside_word(qll_beside_kind kind)
{
    return words[kind];
}

/* ---- columns ---- */

/* Power of the bands from @p from on; those above half the rate are left out. */
static double power_of(const float *row, size_t from)
{
    double power = 0.0;
    for (size_t b = from; b < QLL_SOUND_BANDS; b++) {
        power += isnan(row[b]) ? 0.0 : (double)row[b];
    }
    return power;
}

static bool put_levels(const qll_sound_result *heard, qll_arena *arena, qll_beside_result *result)
{
    const qll_sound_gram *gram = &heard->gram;
    double *time_s = qll_arena_take(arena, gram->row_count, sizeof *time_s);
    double *level = qll_arena_take(arena, gram->row_count, sizeof *level);
    double *high = qll_arena_take(arena, gram->row_count, sizeof *high);
    if (time_s == NULL || level == NULL || high == NULL) {
        return false;
    }
    size_t from = 0;
    while (from < QLL_SOUND_BANDS && heard->edge_hz[from] < 0.99 * QLL_BESIDE_HIGH_HZ) {
        from += 1;
    }
    for (size_t i = 0; i < gram->row_count; i++) {
        time_s[i] = ((double)i + 0.5) * gram->row_s;
        level[i] = 10.0 * log10(fmax(power_of(gram->rows[i], 0), QLL_BESIDE_SILENCE));
        high[i] = 10.0 * log10(fmax(power_of(gram->rows[i], from), QLL_BESIDE_SILENCE));
    }
    result->column_count = gram->row_count;
    result->time_s = time_s;
    result->level_db = level;
    result->high_db = high;
    return true;
}

/* Means of a channel; what no row fell into lies straight between its neighbors, if they are no more than two rows apart. */
static double *means_of(const qll_beside *of, size_t channel)
{
    double *means = qll_arena_take(of->arena, of->column_count, sizeof *means);
    if (means == NULL) {
        return NULL;
    }
    const double most_s = fmax(2.0 * (double)of->interval_ms / 1000.0, of->window.column_s);
    const size_t most = (size_t)ceil(most_s / of->window.column_s) + 1;
    size_t before = SIZE_MAX;
    for (size_t i = 0; i < of->column_count; i++) {
        means[i] = NAN;
        if (of->counts[channel][i] == 0.0) {
            continue;
        }
        means[i] = of->sums[channel][i] / of->counts[channel][i];
        for (size_t j = before + 1; before != SIZE_MAX && i - before <= most && j < i; j++) {
            const double share = (double)(j - before) / (double)(i - before);
            means[j] = means[before] + share * (means[i] - means[before]);
        }
        before = i;
    }
    return means;
}

static bool put_channels(const qll_beside *of, qll_beside_result *result,
                         const double *wide[QLL_CHANNEL_COUNT])
{
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        wide[c] = NULL;
        if (!of->has[c]) {
            continue;
        }
        wide[c] = means_of(of, c);
        if (wide[c] == NULL) {
            return false;
        }
        result->pa[c] = wide[c] + of->margin;
    }
    return true;
}

/* ---- the whole ---- */

static void put_times(const qll_beside *of, qll_beside_result *result)
{
    const double duration_s = of->window.duration_s;
    result->interval_s = (double)of->interval_ms / 1000.0;
    result->log_from_s = (double)(of->first_ms - of->began_ms) / 1000.0;
    result->log_to_s = (double)(of->last_ms - of->began_ms) / 1000.0;
    const double from_s = fmax(0.0, result->log_from_s);
    result->overlap_s = fmax(0.0, fmin(duration_s, result->log_to_s) - from_s);
}

qll_status qll_beside_judge(qll_beside *beside, const qll_sound_result *heard, qll_arena *arena,
                            qll_beside_result *result)
{
    *result = (qll_beside_result){.surges = beside->surges, .surge_count = beside->surge_count};
    put_times(beside, result);
    if (beside->is_short_of_memory || !put_levels(heard, arena, result)) {
        return QLL_NO_MEMORY;
    }
    if (!(result->overlap_s >= QLL_BESIDE_LEAST_S)) {
        return QLL_REFUSED;
    }
    const double *wide[QLL_CHANNEL_COUNT];
    if (!put_channels(beside, result, wide)) {
        return QLL_NO_MEMORY;
    }
    for (size_t kind = 0; kind < QLL_BESIDE_COUNT; kind++) {
        result->together[kind] = qll_together_none();
    }
    const qll_status status = qll_beside_pair(heard, arena, result);
    return status == QLL_OK ? qll_beside_move(beside, wide, arena, result) : status;
}
