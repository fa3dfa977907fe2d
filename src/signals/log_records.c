#include "signals/log_records.h"

#include <math.h>
#include <string.h>

bool qll_records_begin(qll_records *r, const qll_records_rule *rule, const qll_zone *zone,
                       bool blocks_from_first, qll_arena *arena)
{
    *r = (qll_records){.rule = *rule,
                       .window = rule->keyed ? QLL_LOG_WINDOW_KEYED : QLL_LOG_WINDOW,
                       .room = rule->has_channels && !rule->keyed ? QLL_CHANNELS_ROOM
                                                                  : QLL_RECORDS_ROOM,
                       .floor_ms = INT64_MIN,
                       .least_ms = INT64_MAX,
                       .rate = rule->factor};
    if (!rule->value_is_flow) {
        r->rate = rule->factor / ((double)rule->interval_ms / 1000.0);
    }
    r->is_provisional = rule->is_provisional;
    for (size_t i = 0; i < QLL_LOG_MEND_COUNT; i++) {
        r->mends[i].first_unix_s = (double)NAN;
    }
    r->at_ms = qll_arena_take(arena, QLL_RECORDS_ROOM, sizeof *r->at_ms);
    r->value = qll_arena_take(arena, QLL_RECORDS_ROOM, sizeof *r->value);
    bool good = r->at_ms != NULL && r->value != NULL;
    if (rule->kind == QLL_LOG_KIND_EVENTS) {
        r->end_ms = qll_arena_take(arena, QLL_RECORDS_ROOM, sizeof *r->end_ms);
        r->events = qll_arena_take(arena, QLL_RECORDS_EVENTS, sizeof *r->events);
        good = good && r->end_ms != NULL && r->events != NULL;
    }
    if (rule->own_offsets && !rule->has_channels) {
        r->offset_s = qll_arena_take(arena, QLL_RECORDS_ROOM, sizeof *r->offset_s);
        good = good && r->offset_s != NULL;
    }
    if (rule->kind == QLL_LOG_KIND_FLOW && rule->interval_ms <= QLL_DAMPING_FINE_MS) {
        r->damping = qll_arena_take(arena, 1, sizeof *r->damping);
        good = good && r->damping != NULL;
        if (r->damping != NULL) {
            qll_damping_begin(r->damping, rule->interval_ms);
        }
    }
    if (rule->is_provisional) {
        r->lengths = qll_arena_take(arena, QLL_USUAL_ROWS, sizeof *r->lengths);
        good = good && r->lengths != NULL;
    }
    return good
           && (rule->has_channels
               || qll_statistics_begin(&r->statistics, qll_nice_interval_ms(rule->interval_ms),
                                       rule->is_provisional, zone, blocks_from_first, arena));
}

bool qll_records_begin_channels(qll_records *r, const qll_channel_taker *taker,
                                const qll_channel_facts *facts, qll_arena *arena)
{
    bool good = true;
    bool is_first = true;
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (facts->has[c] && is_first) {
            is_first = false;
            r->first_channel = (qll_channel)c;
        } else if (facts->has[c]) {
            r->channel[c] = qll_arena_take(arena, QLL_RECORDS_ROOM, sizeof *r->channel[c]);
            good = good && r->channel[c] != NULL;
        }
    }
    r->taker = taker;
    r->taken = taker->begin(taker->context, facts, arena);
    return good && r->taken != NULL;
}

/* Makes room at @p place of a column for one more. */
static void open_place(void *column, size_t size, size_t place, size_t count)
{
    char *at = (char *)column + place * size;
    memmove(at + size, at, (count - place) * size);
}

/* Puts a row in its place among those held back. */
static void insert(qll_records *r, size_t place, int64_t at_ms, double value, int64_t end_ms)
{
    open_place(r->at_ms, sizeof *r->at_ms, place, r->count);
    open_place(r->value, sizeof *r->value, place, r->count);
    r->at_ms[place] = at_ms;
    r->value[place] = value;
    if (r->end_ms != NULL) {
        open_place(r->end_ms, sizeof *r->end_ms, place, r->count);
        r->end_ms[place] = end_ms;
    }
    if (r->offset_s != NULL) {
        open_place(r->offset_s, sizeof *r->offset_s, place, r->count);
        r->offset_s[place] = r->row_offset_s;
    }
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (r->channel[c] != NULL) {
            open_place(r->channel[c], sizeof *r->channel[c], place, r->count);
        }
    }
    qll_records_put_channels(r, place);
    r->count += 1;
    if (r->count == r->room) {
        qll_records_hand_on(r, r->room - r->window);
    }
}

/* True if another value was there; the later one counts, unless it is unknown. */
static bool replace(double *kept, double value)
{
    const bool differs = !isnan(*kept) && !isnan(value) && *kept != value;
    *kept = isnan(value) ? *kept : value;
    return differs;
}

/* A row with the stamp of the one at @p place. */
static void repeat(qll_records *r, size_t place, double value, long long line)
{
    qll_log_mend_kind kind = QLL_LOG_MEND_DUPLICATE;
    if (r->rule.adds_repeated) {
        kind = QLL_LOG_MEND_ADDED;
        r->value[place] += value;
    } else if (replace(&r->value[place], value)) {
        kind = QLL_LOG_MEND_CONFLICT;
    }
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (r->channel[c] != NULL && replace(&r->channel[c][place], r->row_channel[c])) {
            kind = QLL_LOG_MEND_CONFLICT;
        }
    }
    if (r->offset_s != NULL) {
        r->offset_s[place] = r->row_offset_s;
    }
    qll_records_mend(r, kind, line, r->at_ms[place]);
}

void qll_records_take_any(qll_records *r, int64_t at_ms, double value, int64_t end_ms,
                          long long line)
{
    size_t place = r->count;
    while (place > 0 && r->at_ms[place - 1] > at_ms && r->count - place <= r->window) {
        place -= 1;
    }
    bool too_late = r->count - place > r->window || (place == 0 && at_ms <= r->floor_ms);
    if (too_late) {
        r->too_far = r->too_far || r->rule.keyed;
        qll_records_mend(r, QLL_LOG_MEND_LATE, line, at_ms);
        return;
    }
    /* Events of one start are several events; two rows of one stamp are one too many. */
    if (place > 0 && r->at_ms[place - 1] == at_ms && r->end_ms == NULL) {
        repeat(r, place - 1, value, line);
        return;
    }
    if (place < r->count) {
        qll_records_mend(r, QLL_LOG_MEND_OUT_OF_ORDER, line, at_ms);
    }
    insert(r, place, at_ms, value, end_ms);
}

/* The rows of all channels, for whoever takes them. */
static void hand_channels(qll_records *r, size_t first, size_t count)
{
    const double *values[QLL_CHANNEL_COUNT] = {NULL};
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        values[c] = r->channel[c] == NULL ? NULL : r->channel[c] + first;
    }
    values[r->first_channel] = r->value + first;
    r->taker->take(r->taken, r->at_ms + first, values, count);
}

static void hand_rows(qll_records *r, size_t first, size_t count)
{
    if (r->taker != NULL) {
        hand_channels(r, first, count);
        return;
    }
    if (r->damping != NULL && r->damping->wanted) {
        qll_damping_look(r->damping, r->at_ms + first, r->value + first, count);
    }
    switch (r->rule.kind) {
    case QLL_LOG_KIND_UNKNOWN:
    case QLL_LOG_KIND_FLOW:
    case QLL_LOG_KIND_VOLUME:
    case QLL_LOG_KIND_COUNT:
        qll_records_samples(r, r->at_ms + first, r->value + first, count);
        break;
    case QLL_LOG_KIND_PULSES:
        for (size_t i = first; i < first + count; i++) {
            qll_records_pulses(r, r->at_ms[i], r->value[i]);
        }
        break;
    case QLL_LOG_KIND_REGISTER:
        for (size_t i = first; i < first + count; i++) {
            qll_records_register(r, r->at_ms[i], r->value[i]);
        }
        break;
    case QLL_LOG_KIND_EVENTS:
        for (size_t i = first; i < first + count; i++) {
            qll_records_event(r, r->at_ms[i], r->end_ms[i], r->value[i]);
        }
        break;
    }
}

/* What lies between two rows began by the clock of the first of them. */
static void hand_rows_by_offset(qll_records *r, size_t count)
{
    int32_t offset_s = r->statistics.zone.standard_s;
    if (r->floor_ms == INT64_MIN) {
        offset_s = r->offset_s[0];
        qll_statistics_offset(&r->statistics, r->at_ms[0], offset_s);
    }
    size_t first = 0;
    for (size_t i = 0; i < count; i++) {
        if (r->offset_s[i] != offset_s) {
            hand_rows(r, first, i + 1 - first);
            first = i + 1;
            offset_s = r->offset_s[i];
            qll_statistics_offset(&r->statistics, r->at_ms[i], offset_s);
        }
    }
    hand_rows(r, first, count - first);
}

void qll_records_hand_on(qll_records *r, size_t count)
{
    if (count == 0) {
        return;
    }
    count = r->is_provisional ? qll_records_settle(r, count) : count;
    r->taken_count += (long long)count;
    r->first_ms = r->floor_ms == INT64_MIN ? r->at_ms[0] : r->first_ms;
    if (r->offset_s == NULL) {
        hand_rows(r, 0, count);
    } else {
        hand_rows_by_offset(r, count);
    }
    r->floor_ms = r->last_ms = r->at_ms[count - 1];
    r->count -= count;
    memmove(r->at_ms, r->at_ms + count, r->count * sizeof *r->at_ms);
    memmove(r->value, r->value + count, r->count * sizeof *r->value);
    if (r->end_ms != NULL) {
        memmove(r->end_ms, r->end_ms + count, r->count * sizeof *r->end_ms);
    }
    if (r->offset_s != NULL) {
        memmove(r->offset_s, r->offset_s + count, r->count * sizeof *r->offset_s);
    }
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (r->channel[c] != NULL) {
            memmove(r->channel[c], r->channel[c] + count, r->count * sizeof *r->channel[c]);
        }
    }
}

void qll_records_end_channels(qll_records *r, qll_flow_log_result *result)
{
    while (r->count > 0) {
        qll_records_hand_on(r, r->count);
    }
    result->row_count = r->taken_count;
    result->first_unix_s = (double)r->first_ms / 1000.0;
    result->last_unix_s = (double)r->last_ms / 1000.0;
    result->interval_s = (double)r->rule.interval_ms / 1000.0;
    result->taken = r->taken;
    memcpy(result->mends, r->mends, sizeof r->mends);
}

bool qll_records_end(qll_records *r, qll_arena *arena, qll_flow_log_result *result)
{
    while (r->count > 0) {
        qll_records_hand_on(r, r->count);
    }
    qll_records_last(r);
    if (!qll_statistics_end(&r->statistics, arena, result)) {
        return false;
    }
    result->row_count = r->taken_count;
    result->first_unix_s = (double)r->first_ms / 1000.0;
    result->last_unix_s = (double)r->last_ms / 1000.0;
    result->unknown_s = (double)r->unknown_ms / 1000.0;
    result->unplaced_m3 = r->unplaced_m3;
    result->volume_m3 += r->unplaced_m3;
    double interval_s = (double)r->rule.interval_ms / 1000.0;
    bool has_interval = r->rule.kind != QLL_LOG_KIND_EVENTS;
    bool all_regular = r->irregular == 0;
    result->interval_s = has_interval ? interval_s : (double)NAN;
    result->least_interval_s = result->longest_interval_s = result->interval_s;
    result->regular_share = has_interval ? 1.0 : (double)NAN;
    if (has_interval && !all_regular) {
        bool usual = r->irregular < r->intervals;
        double least_s = (double)r->least_ms / 1000.0;
        double longest_s = (double)r->longest_ms / 1000.0;
        result->least_interval_s = usual ? fmin(least_s, interval_s) : least_s;
        result->longest_interval_s = usual ? fmax(longest_s, interval_s) : longest_s;
        result->regular_share = 1.0 - (double)r->irregular / (double)r->intervals;
    }
    result->quantum_m3s = r->rule.kind == QLL_LOG_KIND_PULSES ? r->rate : (double)NAN;
    result->hides_peaks = has_interval && interval_s > 60.0;
    result->never_zero = result->idle_share == 0.0;
    memcpy(result->mends, r->mends, sizeof r->mends);
    return true;
}
