/* What is kept of a log for later: the readings that findings rest on, records thinned evenly, and the hour of the day. */
#include "signals/pressure_state.h"

#include <math.h>
#include <string.h>

static double average(const double *values, size_t from, size_t to)
{
    double sum = 0.0;
    size_t known = 0;
    for (size_t i = from; values != NULL && i < to; i++) {
        sum += isnan(values[i]) ? 0.0 : values[i];
        known += isnan(values[i]) ? 0U : 1U;
    }
    return known == 0 ? (double)NAN : sum / (double)known;
}

void qll_pressure_keep(qll_pressure_state *state, const qll_series *series, qll_pressure_word word,
                       double score, size_t from, size_t to)
{
    qll_stretch_kept *kept = &state->kept[word];
    if (to <= from || !(score > kept->score)) {
        return;
    }
    qll_pressure_stretch *stretch = &kept->stretch;
    const size_t count = to - from < QLL_STRETCH_POINTS ? to - from : QLL_STRETCH_POINTS;
    kept->score = score;
    stretch->from_unix_s = (double)series->at_ms[from] / 1000.0;
    stretch->to_unix_s = (double)(series->at_ms[to - 1] + series->interval_ms) / 1000.0;
    stretch->count = count;
    for (size_t p = 0; p < count; p++) {
        const size_t first = from + (to - from) * p / count;
        const size_t end = from + (to - from) * (p + 1) / count;
        stretch->inlet_pa[p] = average(series->value[QLL_CHANNEL_INLET], first, end);
        stretch->outlet_pa[p] = average(series->value[QLL_CHANNEL_OUTLET], first, end);
        stretch->flow_m3s[p] = average(series->value[QLL_CHANNEL_FLOW], first, end);
    }
}

int64_t qll_pressure_clock_ms(const qll_pressure_state *state, int64_t at_ms)
{
    const int64_t day_ms = (int64_t)86400 * 1000;
    const int32_t offset_s =
        state->facts.zone == NULL ? 0 : qll_zone_offset_s(state->facts.zone, at_ms);
    const int64_t of_day = (at_ms + (int64_t)offset_s * 1000) % day_ms;
    return of_day < 0 ? of_day + day_ms : of_day;
}

bool qll_thin(qll_thinning *thinning, void *records, size_t size, size_t *count)
{
    thinning->stride = thinning->stride == 0 ? 1 : thinning->stride;
    thinning->skipped += 1;
    if (thinning->skipped < thinning->stride) {
        return false;
    }
    thinning->skipped = 0;
    if (*count == QLL_KEPT_ROOM) {
        char *at = records;
        for (size_t i = 1; i < QLL_KEPT_ROOM / 2; i++) {
            memcpy(at + i * size, at + 2 * i * size, size);
        }
        *count = QLL_KEPT_ROOM / 2;
        thinning->stride *= 2;
    }
    return true;
}
