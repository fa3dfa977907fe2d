/* Rows to copies: averages of seconds, of tenths, the rows themselves. */
#include "signals/pressure_state.h"

#include <math.h>
#include <string.h>

#define QLL_SECOND_MS ((int64_t)1000)
#define QLL_TENTH_MS  ((int64_t)100)
#define QLL_FAST_MS   ((int64_t)10)

static bool begin_copy(qll_copy *copy, const qll_channel_facts *facts, int64_t interval_ms,
                       size_t room, qll_arena *arena)
{
    *copy = (qll_copy){.room = room,
                       .interval_ms = interval_ms,
                       .bin = {.length_ms = interval_ms, .at_ms = INT64_MIN}};
    copy->at_ms = qll_arena_take(arena, room, sizeof *copy->at_ms);
    bool good = copy->at_ms != NULL;
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (facts->has[c]) {
            copy->value[c] = qll_arena_take(arena, room, sizeof *copy->value[c]);
            good = good && copy->value[c] != NULL;
        }
    }
    return good;
}

qll_pressure_state *qll_pressure_begin(const qll_channel_facts *facts, qll_arena *arena)
{
    qll_pressure_state *state = qll_arena_take(arena, 1, sizeof *state);
    if (state == NULL) {
        return NULL;
    }
    const int64_t interval_ms = facts->interval_ms;
    const int64_t slow_ms = interval_ms < QLL_SECOND_MS ? QLL_SECOND_MS : interval_ms;
    const int64_t middle_ms = interval_ms < QLL_TENTH_MS ? QLL_TENTH_MS : interval_ms;
    bool good = begin_copy(&state->slow, facts, slow_ms, QLL_SLOW_ROOM, arena);
    if (middle_ms < slow_ms) {
        good = good && begin_copy(&state->middle, facts, middle_ms, QLL_MIDDLE_ROOM, arena);
    }
    state->facts = *facts;
    state->whole_width_ms = slow_ms;
    state->scratch_room = 3 * QLL_SLOW_ROOM;
    state->scratch = qll_arena_take(arena, state->scratch_room, sizeof *state->scratch);
    state->windows = qll_arena_take(arena, QLL_KEPT_ROOM, sizeof *state->windows);
    state->runs = qll_arena_take(arena, QLL_KEPT_ROOM, sizeof *state->runs);
    state->tiles = qll_arena_take(arena, QLL_SLOW_ROOM / QLL_TILE_VALUES + 1, sizeof *state->tiles);
    good = good && state->tiles != NULL && state->scratch != NULL && state->windows != NULL
           && state->runs != NULL;
    for (size_t p = 0; p < 2; p++) {
        state->classes[p] = qll_arena_take(arena, QLL_CLASS_COUNT, sizeof *state->classes[p]);
        good = good && state->classes[p] != NULL;
        if (facts->has[p]) {
            state->cleaned[p] = qll_arena_take(arena, QLL_SLOW_ROOM, sizeof *state->cleaned[p]);
            good = good && state->cleaned[p] != NULL;
        }
    }
    qll_pressure_count_begin(state);
    if (facts->has[QLL_CHANNEL_OUTLET]) {
        good = good
               && qll_hunt_begin(&state->hunt, middle_ms < slow_ms ? middle_ms : slow_ms, arena)
               && (interval_ms > QLL_FAST_MS || qll_fast_begin(&state->fast, interval_ms, arena));
    }
    state->windows = good ? state->windows : NULL;
    return good ? state : NULL;
}

/* ---- rows into copies ---- */

static void make_room(qll_pressure_state *state, qll_copy *copy)
{
    if (copy->count == copy->room) {
        if (copy == &state->slow) {
            qll_pressure_block(state, false);
        } else {
            qll_pressure_middle(state, false);
        }
    }
}

static void close_bin(qll_pressure_state *state, qll_copy *copy)
{
    qll_binning *bin = &copy->bin;
    if (bin->at_ms == INT64_MIN) {
        return;
    }
    make_room(state, copy);
    copy->at_ms[copy->count] = bin->at_ms;
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (copy->value[c] != NULL) {
            copy->value[c][copy->count] =
                bin->count[c] > 0 ? bin->sum[c] / (double)bin->count[c] : (double)NAN;
        }
        bin->sum[c] = 0.0;
        bin->count[c] = 0;
    }
    copy->count += 1;
    bin->at_ms = INT64_MIN;
}

/* Averages of rows that come faster than the copy. */
static void add_averages(qll_pressure_state *state, qll_copy *copy, const int64_t *at_ms,
                         const double *const *values, size_t from, size_t to)
{
    qll_binning *bin = &copy->bin;
    for (size_t i = from; i < to; i++) {
        const int64_t start_ms = at_ms[i] - at_ms[i] % bin->length_ms;
        if (start_ms != bin->at_ms) {
            close_bin(state, copy);
            bin->at_ms = start_ms;
        }
        for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
            if (copy->value[c] != NULL && !isnan(values[c][i])) {
                bin->sum[c] += values[c][i];
                bin->count[c] += 1;
            }
        }
    }
}

static void add_rows(qll_pressure_state *state, qll_copy *copy, const int64_t *at_ms,
                     const double *const *values, size_t from, size_t to)
{
    while (from < to) {
        make_room(state, copy);
        const size_t left = copy->room - copy->count;
        const size_t part = to - from < left ? to - from : left;
        memcpy(copy->at_ms + copy->count, at_ms + from, part * sizeof *at_ms);
        for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
            if (copy->value[c] != NULL) {
                memcpy(copy->value[c] + copy->count, values[c] + from, part * sizeof(double));
            }
        }
        copy->count += part;
        from += part;
    }
}

static void add_to(qll_pressure_state *state, qll_copy *copy, const int64_t *at_ms,
                   const double *const *values, size_t from, size_t to)
{
    if (copy->interval_ms > state->facts.interval_ms) {
        add_averages(state, copy, at_ms, values, from, to);
    } else {
        add_rows(state, copy, at_ms, values, from, to);
    }
}

/* ---- stretches ---- */

/* Rows without a gap between them. */
static void take_stretch(qll_pressure_state *state, const int64_t *at_ms,
                         const double *const *values, size_t from, size_t to)
{
    qll_pressure_count(state, at_ms, values, from, to);
    if (values[QLL_CHANNEL_OUTLET] != NULL && state->fast.on) {
        const double *flow = values[QLL_CHANNEL_FLOW];
        qll_fast_take(state, at_ms + from, values[QLL_CHANNEL_OUTLET] + from,
                      flow == NULL ? NULL : flow + from, to - from);
    }
    if (state->middle.room > 0) {
        add_to(state, &state->middle, at_ms, values, from, to);
    }
    add_to(state, &state->slow, at_ms, values, from, to);
}

static void note_gap(qll_pressure_state *state, int64_t from_ms, int64_t to_ms)
{
    const qll_log_gap gap = {(double)from_ms / 1000.0, (double)to_ms / 1000.0};
    const double length_s = gap.to_unix_s - gap.from_unix_s;
    state->gap_total += 1;
    state->gap_s += length_s;
    if (state->gap_count == QLL_GAPS_LISTED) {
        size_t least = 0;
        for (size_t i = 1; i < QLL_GAPS_LISTED; i++) {
            least = state->gaps[i].to_unix_s - state->gaps[i].from_unix_s
                            < state->gaps[least].to_unix_s - state->gaps[least].from_unix_s
                        ? i
                        : least;
        }
        if (state->gaps[least].to_unix_s - state->gaps[least].from_unix_s >= length_s) {
            return;
        }
        state->gap_count -= 1;
        memmove(&state->gaps[least], &state->gaps[least + 1],
                (state->gap_count - least) * sizeof *state->gaps);
    }
    state->gaps[state->gap_count] = gap;
    state->gap_count += 1;
}

/* The first row of [from, count) that stands behind a gap; @p count if none does. */
static size_t next_gap(const qll_pressure_state *state, const int64_t *at_ms, size_t from,
                       size_t count)
{
    const int64_t gap_ms = QLL_GAP_TIMES * state->facts.interval_ms;
    if (from == 0 && count > 0 && at_ms[0] - state->last_ms > gap_ms) {
        return 0;
    }
    for (size_t first = from == 0 ? 1 : from; first < count; first += QLL_TILE_VALUES) {
        const size_t end = first + QLL_TILE_VALUES < count ? first + QLL_TILE_VALUES : count;
        int64_t gaps = 0; /* its highest bit tells that there is one */
        for (size_t i = first; i < end; i++) {
            gaps |= gap_ms - (at_ms[i] - at_ms[i - 1]);
        }
        for (size_t i = first; i < end && gaps < 0; i++) {
            if (at_ms[i] - at_ms[i - 1] > gap_ms) {
                return i;
            }
        }
    }
    return count;
}

void qll_pressure_take(qll_pressure_state *state, const int64_t *at_ms, const double *const *values,
                       size_t count)
{
    if (count == 0) {
        return;
    }
    if (!state->started) {
        state->started = true;
        state->first_ms = at_ms[0];
        state->last_ms = at_ms[0];
        state->turn_pa = -(double)INFINITY;
    }
    size_t from = 0;
    for (size_t gap = next_gap(state, at_ms, 0, count); gap < count;
         gap = next_gap(state, at_ms, gap + 1, count)) {
        const int64_t before_ms = gap == 0 ? state->last_ms : at_ms[gap - 1];
        take_stretch(state, at_ms, values, from, gap);
        note_gap(state, before_ms, at_ms[gap]);
        for (size_t p = 0; p < 2; p++) {
            qll_constancy_end(&state->constancy[p], before_ms);
            state->constancy[p].since_ms = at_ms[gap];
        }
        qll_fast_gap(&state->fast);
        from = gap;
    }
    take_stretch(state, at_ms, values, from, count);
    qll_pressure_tiles(state, false);
    state->last_ms = at_ms[count - 1];
}

bool qll_pressure_judge(qll_pressure_state *state, const qll_pressure_expect *expect,
                        qll_arena *arena, qll_pressure_result *result)
{
    if (state->middle.room > 0) {
        close_bin(state, &state->middle);
        qll_pressure_middle(state, true);
    }
    close_bin(state, &state->slow);
    qll_pressure_block(state, true);
    for (size_t p = 0; p < 2; p++) {
        qll_constancy *of = &state->constancy[p];
        qll_constancy_end(of, state->last_ms);
        of->step_pa = of->step_pa < (double)INFINITY ? of->step_pa : 0.0;
    }
    qll_rainflow_end(&state->rainflow);
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        result->has[c] = state->facts.has[c];
    }
    memcpy(result->gaps, state->gaps, sizeof state->gaps);
    result->gap_count = state->gap_count;
    result->gap_total = state->gap_total;
    result->gap_s = state->gap_s;
    result->overview = qll_pressure_whole(state);
    return qll_pressure_findings(state, expect, arena, result);
}
