/* The rows of a log that go by during a recording: their means by column, and the surges among them. */
#include "numeric/robust.h"
#include "signals/flow_log.h"
#include "signals/log_zone.h"
#include "signals/sound_beside_state.h"

#include <math.h>
#include <string.h>

#define QLL_SURGE_APART_MS 1000
/* A surge is so many times the scatter of the rows before it. */
#define QLL_SURGE_SIGMAS   6.0

/* Of a moment that a clock showed. */
static int64_t began_ms_of(const qll_begins *begins, const qll_zone *zone)
{
    qll_zone_oddity oddity;
    if (begins->is_elapsed || zone == NULL || begins->has_offset) {
        return begins->local_ms - (int64_t)begins->offset_s * 1000;
    }
    return qll_zone_utc_ms(zone, begins->local_ms, false, &oddity);
}

static void *begin(void *context, const qll_channel_facts *facts, qll_arena *arena)
{
    const qll_beside_window *window = context;
    qll_beside *made = qll_arena_take(arena, 1, sizeof *made);
    if (made == NULL) {
        return NULL;
    }
    made->window = *window;
    made->arena = arena;
    made->began_ms = began_ms_of(&window->begins, facts->zone);
    made->from_first = window->begins.is_elapsed;
    made->interval_ms = facts->interval_ms;
    made->watched = facts->has[QLL_CHANNEL_OUTLET] ? QLL_CHANNEL_OUTLET : QLL_CHANNEL_INLET;
    made->margin = (size_t)ceil(QLL_BESIDE_CLOCKS_S / window->column_s);
    made->column_count = window->column_count + 2 * made->margin;
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        made->has[c] = facts->has[c];
        made->sums[c] = qll_arena_take(arena, made->column_count, sizeof **made->sums);
        made->counts[c] = qll_arena_take(arena, made->column_count, sizeof **made->counts);
        if (made->sums[c] == NULL || made->counts[c] == NULL) {
            return NULL;
        }
    }
    return made;
}

/* Drops rows that are too old to be held against one at @p at_ms. */
static void forget(qll_beside *of, int64_t at_ms)
{
    while (of->before_count > QLL_BESIDE_BEFORE_LEAST) {
        const size_t oldest =
            (of->next + QLL_BESIDE_BEFORE_MOST - of->before_count) % QLL_BESIDE_BEFORE_MOST;
        if (of->before_ms[oldest] >= at_ms - QLL_BESIDE_BEFORE_MS) {
            return;
        }
        of->before_count -= 1;
    }
}

static void remember(qll_beside *of, int64_t at_ms, double pa)
{
    of->before[of->next] = pa;
    of->before_ms[of->next] = at_ms;
    of->next = (of->next + 1) % QLL_BESIDE_BEFORE_MOST;
    of->before_count += of->before_count < QLL_BESIDE_BEFORE_MOST ? 1 : 0;
}

static void add_surge(qll_beside *of, int64_t at_ms, double at_s, double change_pa)
{
    if (of->surge_count == of->surge_room) {
        const size_t room = of->surge_room == 0 ? 16 : 2 * of->surge_room;
        qll_surge *grown = qll_arena_take(of->arena, room, sizeof *grown);
        if (grown == NULL) {
            of->is_short_of_memory = true;
            return;
        }
        if (of->surge_count > 0) {
            memcpy(grown, of->surges, of->surge_count * sizeof *grown);
        }
        of->surges = grown;
        of->surge_room = room;
    }
    of->surges[of->surge_count] = (qll_surge){at_s, change_pa};
    of->surge_count += 1;
    of->surge_ms = at_ms;
}

/* Within a second of a surge only its height is looked for. */
static void watch(qll_beside *of, int64_t at_ms, double at_s, double pa)
{
    if (of->surge_count > 0 && at_ms < of->surge_ms + QLL_SURGE_APART_MS) {
        qll_surge *last = &of->surges[of->surge_count - 1];
        const double change_pa = pa - of->surge_base_pa;
        last->change_pa = fabs(change_pa) > fabs(last->change_pa) ? change_pa : last->change_pa;
    } else if (of->before_count >= QLL_BESIDE_BEFORE_LEAST) {
        double rows[QLL_BESIDE_BEFORE_MOST];
        for (size_t i = 0; i < of->before_count; i++) {
            rows[i] =
                of->before[(of->next + QLL_BESIDE_BEFORE_MOST - 1 - i) % QLL_BESIDE_BEFORE_MOST];
        }
        const double sigma_pa = qll_mad_sigma(rows, of->before_count, of->sorted);
        const double base_pa = qll_median(rows, of->before_count);
        if (fabs(pa - base_pa) > fmax(QLL_BESIDE_SURGE_PA, QLL_SURGE_SIGMAS * sigma_pa)) {
            of->surge_base_pa = base_pa;
            add_surge(of, at_ms, at_s, pa - base_pa);
            of->before_count = 0; /* what comes after is held against what it settles at */
        }
    }
    forget(of, at_ms);
    remember(of, at_ms, pa);
}

static void take(void *state, const int64_t *at_ms, const double *const *values, size_t count)
{
    qll_beside *of = state;
    const double end_s = of->window.duration_s + QLL_BESIDE_CLOCKS_S;
    for (size_t i = 0; i < count; i++) {
        if (of->row_count == 0) {
            of->first_ms = at_ms[i];
            of->began_ms = of->from_first
                               ? at_ms[i] + (int64_t)(1000.0 * of->window.begins.elapsed_s)
                               : of->began_ms;
        }
        of->last_ms = at_ms[i];
        of->row_count += 1;
        const double at_s = (double)(at_ms[i] - of->began_ms) / 1000.0;
        if (at_s < -QLL_BESIDE_CLOCKS_S || at_s >= end_s) {
            continue;
        }
        const size_t column = (size_t)(at_s / of->window.column_s + (double)of->margin);
        for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
            if (values[c] != NULL && !isnan(values[c][i]) && column < of->column_count) {
                of->sums[c][column] += values[c][i];
                of->counts[c][column] += 1.0;
            }
        }
        const double *watched = values[of->watched];
        if (watched != NULL && !isnan(watched[i])) {
            watch(of, at_ms[i], at_s, watched[i]);
        }
    }
}

qll_channel_taker qll_beside_taker_of(qll_beside_window *window)
{
    return (qll_channel_taker){.context = window, .begin = begin, .take = take};
}
