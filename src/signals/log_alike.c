/* A logger writes its rows alike: the same minute sixty times, each number with as many digits as the one before. So the bytes
 * of a row are held against where digits and marks stood in the last one, eight at a time; if they fit, its numbers are
 * there without looking for where they begin and end (docs/theory/pressure_log.md, "What a row costs"). */
#include "signals/log_alike.h"

#include "signals/log_fast.h"

#include <math.h>
#include <string.h>

const char *qll_skip_cells(const char *at, const char *end, char delimiter, size_t count)
{
    for (; count > 0; count--) {
        while (at < end && *at != delimiter && *at != '\n' && *at != '"') {
            at += 1;
        }
        if (at == end || *at != delimiter) {
            return NULL;
        }
        at += 1;
    }
    return end - at < QLL_CELL_LEAST ? NULL : at;
}

#if defined(__BYTE_ORDER__) && __BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__

void qll_cell_learn(qll_plain_cell *cell, const char *at, size_t size)
{
    static const double powers[7] = {1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6};
    uint64_t bytes = 0;
    memcpy(&bytes, at, sizeof bytes);
    const unsigned point = qll_digit_count(bytes);
    cell->end = 0;
    if (size == 0 || size > 7 || point == 0 || point > size || point + 1 == size
        || (point < size && at[point] != '.')
        || (point < size && point + 1 + qll_digit_count(bytes >> (8 * (point + 1))) != size)) {
        return;
    }
    const bool has_point = point < size;
    const size_t digits = has_point ? size - 1 : size;
    cell->is_mark = (UINT64_C(0xFF) << (8 * size)) | (UINT64_C(0xFF) << (8 * point));
    cell->marks = bytes & cell->is_mark;
    cell->is_digit =
        UINT64_C(0x8080808080808080) & ((UINT64_C(1) << (8 * size)) - 1) & ~cell->is_mark;
    cell->before = (UINT64_C(1) << (8 * point)) - 1;
    cell->behind = ~cell->before;
    cell->shift = (unsigned)(64 - 8 * digits);
    cell->size = (unsigned)size + 1;
    cell->power = powers[digits - point];
    const double most = fmin((cell->most - cell->plus) / cell->times, QLL_NINES);
    const bool can_be = cell->plus >= cell->least && most > 0.0;
    cell->end = can_be ? (uint64_t)(most * cell->power) : 0;
}

/* What is compared with, and how far the rows have come: at hand while rows are taken. */
typedef struct alike {
    const qll_log_lane *lane;
    uint64_t prefix[2];
    uint64_t tail, tail_mask;
    size_t count; /* rows that wait */
} alike;

static inline uint64_t eight_bytes(const char *at)
{
    uint64_t bytes = 0;
    memcpy(&bytes, at, sizeof bytes);
    return bytes;
}

/* The seconds of the stamp at @p at, in ms from its minute on; -1 if it is written otherwise. */
static inline int64_t stamp_ms(const alike *with, const char *at)
{
    const uint64_t clock = eight_bytes(at + QLL_PREFIX_SIZE) ^ UINT64_C(0x30303A);
    const uint64_t tail = eight_bytes(at + QLL_STAMP_SIZE);
    const unsigned tens = clock >> 8 & 0xFF;
    const unsigned ones = clock >> 16 & 0xFF;
    const uint64_t other = (eight_bytes(at) ^ with->prefix[0])
                           | (eight_bytes(at + sizeof tail) ^ with->prefix[1]) | (clock & 0xFF)
                           | ((tail ^ with->tail) & with->tail_mask);
    if (other != 0 || tens > 5 || ones > 9) {
        return -1;
    }
    const int64_t ms = (int64_t)(tens * 10 + ones) * 1000;
    if (!with->lane->has_thousandths) {
        return ms;
    }
    const uint64_t past = qll_past_zero(tail >> 8);
    return (qll_no_digits(past) & UINT64_C(0x808080)) != 0
               ? -1
               : ms + (int64_t)qll_shifted_value(past, 40);
}

/* Puts the numbers of the cells at @p at into their channels' next places; behind them, or NULL if one is written otherwise. */
static inline const char *take_cells(const alike *with, const char *at, const char *end)
{
    const qll_log_lane *lane = with->lane;
    const qll_plain_cell *last = lane->cells + lane->cell_count;
    for (const qll_plain_cell *cell = lane->cells; cell < last; cell++) {
        if (cell->skipped > 0) {
            at = qll_skip_cells(at, end, lane->shape->delimiter, cell->skipped);
            if (at == NULL) {
                return NULL;
            }
        }
        const uint64_t bytes = eight_bytes(at);
        const uint64_t past = qll_past_zero(bytes);
        const uint64_t digits =
            qll_shifted_value((past & cell->before) | (past >> 8 & cell->behind), cell->shift);
        const uint64_t other =
            (qll_no_digits(past) & cell->is_digit) | ((bytes ^ cell->marks) & cell->is_mark);
        if (other != 0 || digits >= cell->end) {
            return NULL;
        }
        cell->to[with->count] = (double)(int64_t)digits / cell->power * cell->times + cell->plus;
        at += cell->size;
    }
    return at[-1] == '\n' ? at : qll_fast_next_line(at - 1, end, lane->shape->delimiter);
}

const char *qll_log_alike_rows(qll_log_lane *lane, const char *at, const char *end,
                               long long *line_count)
{
    qll_records *records = &lane->records;
    if (!lane->has_prefix || lane->tail_size == 0 || records->count == 0) {
        return at;
    }
    alike with = {.lane = lane,
                  .prefix = {eight_bytes(lane->prefix), eight_bytes(lane->prefix + 8)},
                  .tail = lane->tail,
                  .tail_mask = lane->tail_mask,
                  .count = records->count};
    const size_t cells_at = QLL_STAMP_SIZE + lane->tail_size;
    const int64_t minute_ms = lane->prefix_ms;
    int64_t before_ms = records->at_ms[with.count - 1];
    long long taken = 0;
    while (end - at >= QLL_FAST_LEAST) {
        const int64_t ms = stamp_ms(&with, at);
        const char *next = ms < 0 ? NULL : take_cells(&with, at + cells_at, end);
        if (next == NULL || minute_ms + ms <= before_ms) {
            break;
        }
        before_ms = minute_ms + ms;
        records->at_ms[with.count] = before_ms;
        with.count += 1;
        taken += 1;
        at = next;
        if (with.count == records->room) {
            records->count = with.count;
            qll_records_hand_on(records, records->room - records->window);
            with.count = records->count;
        }
    }
    records->count = with.count;
    *line_count += taken;
    return at;
}

#else

void qll_cell_learn(qll_plain_cell *cell, const char *at, size_t size)
{
    (void)cell;
    (void)at;
    (void)size;
}

const char *qll_log_alike_rows(qll_log_lane *lane, const char *at, const char *end,
                               long long *line_count)
{
    (void)lane;
    (void)end;
    (void)line_count;
    return at;
}

#endif
