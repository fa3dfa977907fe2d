/* The slow copy as it grows, 64 values at a time while they are at hand: cleaned, counted, and noted where there is nothing to
 * look at, so that what looks for windows and runs may pass it by (docs/theory/pressure_log.md, "What a row costs"). */
#include "numeric/robust.h"
#include "signals/pressure_span.h"
#include "signals/pressure_state.h"

#include <math.h>
#include <string.h>

/* Seconds are cleaned; of rows further apart a single one may be a draw-off. */
#define QLL_CLEANED_MS     ((int64_t)2000)
#define QLL_HAMPEL_HALF    ((size_t)5)
#define QLL_HAMPEL_TIMES   3.0
#define QLL_HAMPEL_PA      4000.0
/* Of a tile so many are cleaned at once. */
#define QLL_CLEANED_VALUES ((size_t)16)
#define QLL_AROUND         (QLL_TILE_VALUES + 2 * QLL_HAMPEL_HALF)
/* An outlet over its inlet by more, most of the time, has changed places with it. */
#define QLL_SWAPPED_PA     20000.0

static const qll_channel shown[3] = {QLL_CHANNEL_INLET, QLL_CHANNEL_OUTLET, QLL_CHANNEL_FLOW};

/* Values [from, to), of which those from `fresh` on were not counted before, and [first, end) around them, that medians are
 * taken of. */
typedef struct tile {
    size_t from, fresh, to;
    size_t first, end;
    bool is_even;       /* no gap in [first, end) */
    qll_span own[3];    /* of what is shown; NaN where it is not there */
    qll_span around[2]; /* of the pressures */
} tile;

/* ---- cleaning ---- */

static bool is_gap(const qll_copy *slow, size_t i)
{
    return slow->at_ms[i] - slow->at_ms[i - 1] > QLL_GAP_TIMES * slow->interval_ms;
}

/* True if neighbors of [first, end) are nowhere further apart than a gap. The highest bit says so of all. */
static bool is_even(const qll_copy *slow, size_t first, size_t end)
{
    const int64_t gap_ms = QLL_GAP_TIMES * slow->interval_ms;
    int64_t gaps = 0;
    for (size_t i = first + 1; i < end; i++) {
        gaps |= gap_ms - (slow->at_ms[i] - slow->at_ms[i - 1]);
    }
    return gaps >= 0;
}

/* Hampel's filter on values [first, end), and what it makes of those of [from, to) among them; how many it moved. */
static size_t clean_part(qll_pressure_state *state, size_t channel, size_t first, size_t end,
                         size_t from, size_t to)
{
    double cleaned[QLL_AROUND];
    const size_t moved =
        qll_hampel(state->slow.value[channel] + first, end - first, QLL_HAMPEL_HALF,
                   QLL_HAMPEL_TIMES, QLL_HAMPEL_PA, cleaned, state->scratch);
    if (moved > 0) {
        memcpy(state->cleaned[channel] + from, cleaned + (from - first),
               (to - from) * sizeof *cleaned);
    }
    return moved;
}

/* A tile that a gap or an unknown value parts. */
static size_t clean_parts(qll_pressure_state *state, const tile *of, size_t channel)
{
    const qll_copy *slow = &state->slow;
    const double *values = slow->value[channel];
    size_t moved = 0;
    for (size_t first = of->first; first < of->end;) {
        size_t end = first;
        while (end < of->end && !isnan(values[end]) && (end == first || !is_gap(slow, end))) {
            end += 1;
        }
        const size_t from = first > of->from ? first : of->from;
        const size_t to = end < of->to ? end : of->to;
        moved += to > from ? clean_part(state, channel, first, end, from, to) : 0;
        first = end > first ? end : first + 1;
    }
    return moved;
}

/* A tile of which nothing parts. */
static size_t clean_whole(qll_pressure_state *state, const tile *of, size_t channel)
{
    size_t moved = 0;
    for (size_t from = of->from; from < of->to; from += QLL_CLEANED_VALUES) {
        const size_t to = from + QLL_CLEANED_VALUES < of->to ? from + QLL_CLEANED_VALUES : of->to;
        const size_t first = from < QLL_HAMPEL_HALF ? 0 : from - QLL_HAMPEL_HALF;
        const size_t end = to + QLL_HAMPEL_HALF < of->end ? to + QLL_HAMPEL_HALF : of->end;
        const qll_span span = qll_span_of(state->slow.value[channel] + first, end - first);
        if (span.most - span.least > QLL_HAMPEL_PA
            && !qll_hampel_is_idle(state->slow.value[channel] + first, end - first, QLL_HAMPEL_HALF,
                                   QLL_HAMPEL_PA, span.least, span.most)) {
            moved += clean_part(state, channel, first, end, from, to);
        }
    }
    return moved;
}

/* Seconds are cleaned; true if a value moved. */
static bool clean(qll_pressure_state *state, const tile *of, size_t channel)
{
    const qll_span *span = &of->around[channel];
    memcpy(state->cleaned[channel] + of->from, state->slow.value[channel] + of->from,
           (of->to - of->from) * sizeof(double));
    if (state->slow.interval_ms > QLL_CLEANED_MS || span->most - span->least <= QLL_HAMPEL_PA) {
        return false;
    }
    return (isnan(span->sum) || !of->is_even ? clean_parts(state, of, channel)
                                             : clean_whole(state, of, channel))
           > 0;
}

/* ---- counting ---- */

/* The class of a value, which is known. */
static int class_of(double pressure_pa)
{
    double class = (pressure_pa - QLL_CHANNEL_LEAST_PA) / QLL_CLASS_PA;
    class = class > 0.0 ? class : 0.0;
    return (int)(class < (double)(QLL_CLASS_COUNT - 1) ? class : (double)(QLL_CLASS_COUNT - 1));
}

static void count_classes(qll_pressure_state *state, const tile *of, size_t channel)
{
    const double *values = state->cleaned[channel] + of->fresh;
    const size_t count = of->to - of->fresh;
    int classes[QLL_TILE_VALUES];
    size_t known = 0;
    if (isnan(of->own[channel].sum)) {
        for (size_t i = 0; i < count; i++) {
            classes[known] = isnan(values[i]) ? 0 : class_of(values[i]);
            known += isnan(values[i]) ? 0U : 1U;
        }
    } else {
        for (; known < count; known++) {
            classes[known] = class_of(values[known]);
        }
    }
    for (size_t i = 0; i < known; i++) {
        state->classes[channel][classes[i]] += 1;
    }
    state->class_total[channel] += (long long)known;
}

static void count_swapped(qll_pressure_state *state, const tile *of)
{
    const qll_span *inlet_span = &of->around[QLL_CHANNEL_INLET];
    const qll_span *outlet_span = &of->around[QLL_CHANNEL_OUTLET];
    if (outlet_span->most - inlet_span->least <= QLL_SWAPPED_PA
        && !isnan(inlet_span->sum + outlet_span->sum)) {
        state->both_s += (double)(of->to - of->fresh);
        return;
    }
    const double *inlet = state->cleaned[QLL_CHANNEL_INLET];
    const double *outlet = state->cleaned[QLL_CHANNEL_OUTLET];
    long long over = 0;
    long long both = 0;
    for (size_t i = of->fresh; i < of->to; i++) {
        const double apart = outlet[i] - inlet[i];
        over += apart > QLL_SWAPPED_PA ? 1 : 0;
        both += isnan(apart) ? 0 : 1;
    }
    state->swapped_s += (double)over;
    state->both_s += (double)both;
}

/* ---- the whole log ---- */

/* Pairs of averages become one. */
static void widen_whole(qll_pressure_state *state)
{
    const size_t room = QLL_WHOLE_POINTS;
    for (size_t c = 0; c < 3; c++) {
        for (size_t k = 0; k < room; k++) {
            const bool half = k < room / 2;
            state->whole_sum[c][k] =
                half ? state->whole_sum[c][2 * k] + state->whole_sum[c][2 * k + 1] : 0.0;
            state->whole_count[c][k] =
                half ? state->whole_count[c][2 * k] + state->whole_count[c][2 * k + 1] : 0;
        }
    }
    state->whole_width_ms *= 2;
}

static void add_to_average(qll_pressure_state *state, size_t at, const tile *of, size_t from,
                           size_t to)
{
    for (size_t c = 0; c < 3; c++) {
        const double *values = state->slow.value[shown[c]];
        double sum = of->own[c].sum;
        size_t known = to - from;
        if (isnan(sum) || known < of->to - of->from) {
            sum = 0.0;
            known = 0;
            for (size_t k = from; values != NULL && k < to; k++) {
                sum += isnan(values[k]) ? 0.0 : values[k];
                known += isnan(values[k]) ? 0U : 1U;
            }
        }
        state->whole_sum[c][at] += sum;
        state->whole_count[c][at] += (uint32_t)known;
    }
}

/* The whole log in at most twice as many averages as are shown: when they are full, pairs become one. */
static void add_to_whole(qll_pressure_state *state, const tile *of)
{
    const int64_t *at_ms = state->slow.at_ms;
    for (size_t from = of->fresh; from < of->to;) {
        size_t at = (size_t)((at_ms[from] - state->first_ms) / state->whole_width_ms);
        while (at >= QLL_WHOLE_POINTS) {
            widen_whole(state);
            at /= 2;
        }
        const int64_t end_ms = state->first_ms + (int64_t)(at + 1) * state->whole_width_ms;
        size_t to = of->to;
        while (at_ms[to - 1] >= end_ms) {
            to -= 1;
        }
        add_to_average(state, at, of, from, to);
        from = to;
    }
}

/* ---- a tile ---- */

static qll_span span_around(const double *values, const tile *of, qll_span own)
{
    own = qll_span_joined(own, qll_span_of(values + of->first, of->from - of->first));
    return qll_span_joined(own, qll_span_of(values + of->to, of->end - of->to));
}

static void look_at(qll_pressure_state *state, size_t from, size_t to)
{
    const qll_copy *slow = &state->slow;
    tile of = {.from = from,
               .fresh = from < state->known ? state->known : from,
               .to = to,
               .first = from < QLL_HAMPEL_HALF ? 0 : from - QLL_HAMPEL_HALF,
               .end = to + QLL_HAMPEL_HALF < slow->count ? to + QLL_HAMPEL_HALF : slow->count};
    of.fresh = of.fresh < to ? of.fresh : to;
    qll_tile *noted = &state->tiles[from / QLL_TILE_VALUES];
    *noted = (qll_tile){.is_as_read = true};
    for (size_t c = 0; c < 3; c++) {
        const double *values = slow->value[shown[c]];
        of.own[c].sum = (double)NAN;
        if (values != NULL) {
            of.own[c] = qll_span_of(values + from, to - from);
        }
    }
    noted->flow_most_m3s = of.own[2].most;
    of.is_even = is_even(slow, of.first, of.end);
    noted->is_whole = of.is_even && !isnan(of.own[1].sum + of.own[2].sum);
    for (size_t c = 0; c <= QLL_CHANNEL_OUTLET; c++) {
        if (slow->value[c] != NULL) {
            of.around[c] = span_around(slow->value[c], &of, of.own[c]);
            noted->is_as_read = !clean(state, &of, c) && noted->is_as_read;
            count_classes(state, &of, c);
        }
    }
    if (state->cleaned[0] != NULL && state->cleaned[1] != NULL) {
        count_swapped(state, &of);
    }
    add_to_whole(state, &of);
}

void qll_pressure_tiles(qll_pressure_state *state, bool is_last)
{
    const size_t count = state->slow.count;
    const size_t behind = is_last ? 0 : QLL_HAMPEL_HALF;
    while (state->tiled < count) {
        const size_t to =
            state->tiled + QLL_TILE_VALUES < count ? state->tiled + QLL_TILE_VALUES : count;
        if (to + behind > count || (!is_last && to - state->tiled < QLL_TILE_VALUES)) {
            return;
        }
        look_at(state, state->tiled, to);
        state->tiled = to;
    }
}
