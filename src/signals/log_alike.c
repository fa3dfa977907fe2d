/* A logger writes its rows alike: the same minute sixty times, each number with as many digits as the one before. So the bytes
 * of a row are held against where digits and marks stood in the last one, eight at a time; if they fit, its numbers are
 * there without looking for where they begin and end. Where no cell is passed over such rows are as long as each other, so
 * some are taken together, column by column (docs/theory/pressure_log.md, "What a row costs"). */
#include "signals/log_alike.h"

#include "signals/log_fast.h"

#include <math.h>
#include <string.h>

/* Rows of one length that are asked for together at first: two are hardly read in vain, and with twice as many each time a
 * minute of seconds is five looks. */
#define QLL_FIRST_ROWS ((size_t)2)

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
    qll_records *records;
    uint64_t prefix[2];
    uint64_t tail, tail_mask;
    size_t cells_at; /* where the first cell begins in a row */
    int64_t minute_ms;
    int64_t *at_ms;    /* of the rows that wait */
    size_t count;      /* how many */
    int64_t before_ms; /* the last one's */
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

/* The digits of the number that @p bytes begin with; false if it is written otherwise or is more than can be. */
static inline bool digits_of(const qll_plain_cell *cell, uint64_t bytes, uint64_t *digits)
{
    const uint64_t past = qll_past_zero(bytes);
    *digits = qll_shifted_value((past & cell->before) | (past >> 8 & cell->behind), cell->shift);
    const uint64_t other =
        (qll_no_digits(past) & cell->is_digit) | ((bytes ^ cell->marks) & cell->is_mark);
    return other == 0 && *digits < cell->end;
}

static inline double value_of(const qll_plain_cell *cell, uint64_t digits)
{
    return (double)(int64_t)digits / cell->power * cell->times + cell->plus;
}

bool qll_cell_is_alike(const qll_plain_cell *cell, const char *at, double *si)
{
    uint64_t digits = 0;
    if (cell->end == 0 || !digits_of(cell, eight_bytes(at), &digits)) {
        return false;
    }
    *si = value_of(cell, digits);
    return true;
}

/* ---- row by row ---- */

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
        uint64_t digits = 0;
        if (!digits_of(cell, eight_bytes(at), &digits)) {
            return NULL;
        }
        cell->to[with->count] = value_of(cell, digits);
        at += cell->size;
    }
    return at[-1] == '\n' ? at : qll_fast_next_line(at - 1, end, lane->shape->delimiter);
}

/* The row at @p at; behind it, or NULL. */
static const char *take_row(alike *with, const char *at, const char *end)
{
    const int64_t ms = stamp_ms(with, at);
    const char *next = ms < 0 ? NULL : take_cells(with, at + with->cells_at, end);
    if (next == NULL || with->minute_ms + ms <= with->before_ms) {
        return NULL;
    }
    with->before_ms = with->minute_ms + ms;
    with->at_ms[with->count] = with->before_ms;
    with->count += 1;
    return next;
}

/* ---- rows of one length, column by column ---- */

/* How long each row is that is written as the one before; 0 if that depends on more than its numbers. */
static size_t row_size(const qll_log_lane *lane, size_t cells_at)
{
    size_t size = cells_at;
    for (size_t c = 0; c < lane->cell_count; c++) {
        const qll_plain_cell *cell = &lane->cells[c];
        if (cell->skipped > 0 || cell->end == 0) {
            return 0;
        }
        size += cell->size;
    }
    const qll_plain_cell *last = &lane->cells[lane->cell_count - 1];
    const char behind = (char)(last->marks >> (8 * (last->size - 1)));
    return behind == '\n' ? size : behind == '\r' ? size + 1 : 0;
}

/* The stamps of at most @p count rows; how many of them fit and are the next in time. */
static size_t take_stamps(alike *with, const char *at, size_t size, size_t count)
{
    int64_t before_ms = with->before_ms;
    for (size_t i = 0; i < count; i++, at += size) {
        const int64_t ms = stamp_ms(with, at);
        if (ms < 0 || with->minute_ms + ms <= before_ms || at[size - 1] != '\n') {
            return i;
        }
        before_ms = with->minute_ms + ms;
        with->at_ms[with->count + i] = before_ms;
    }
    return count;
}

/* True if a column says the same in all rows, as a flow does at rest. Where its first and last number differ it is not asked
 * further. */
static bool stands_still(const qll_plain_cell *cell, const char *at, size_t size, size_t count)
{
    const uint64_t counts = UINT64_MAX >> (64 - 8 * cell->size);
    const uint64_t first = eight_bytes(at);
    uint64_t other = (eight_bytes(at + (count - 1) * size) ^ first) & counts;
    for (size_t i = 1; i + 1 < count && other == 0; i++) {
        other = (eight_bytes(at + i * size) ^ first) & counts;
    }
    return other == 0;
}

/* The numbers of one column, the first at @p at; how many fit. */
static size_t take_column(const qll_plain_cell *column, const char *at, size_t size, size_t count,
                          double *to)
{
    const qll_plain_cell cell = *column; /* at hand, whatever is written to */
    const bool is_one = stands_still(column, at, size, count);
    uint64_t digits = 0;
    for (size_t i = 0; i < (is_one ? 1 : count); i++, at += size) {
        if (!digits_of(&cell, eight_bytes(at), &digits)) {
            return i;
        }
        to[i] = value_of(&cell, digits);
    }
    for (size_t i = 1; i < count && is_one; i++) {
        to[i] = to[0];
    }
    return count;
}

/* At most @p count rows from @p at on; how many were taken. */
static size_t take_rows(alike *with, const char *at, size_t size, size_t count)
{
    const qll_log_lane *lane = with->lane;
    count = take_stamps(with, at, size, count);
    at += with->cells_at;
    for (size_t c = 0; c < lane->cell_count && count > 0; c++) {
        const qll_plain_cell *cell = &lane->cells[c];
        count = take_column(cell, at, size, count, cell->to + with->count);
        at += cell->size;
    }
    if (count > 0) {
        with->count += count;
        with->before_ms = with->at_ms[with->count - 1];
    }
    return count;
}

/* ---- both ---- */

static void hand_on_if_full(alike *with, qll_records *records)
{
    if (with->count == records->room) {
        records->count = with->count;
        qll_records_hand_on(records, records->room - records->window);
        with->count = records->count;
    }
}

/* Rows of @p size each, asked for a few first and then twice as many each time, so that little is read in vain where they do not
 * stay alike. */
static const char *take_even(alike *with, const char *at, const char *end, size_t size,
                             long long *line_count)
{
    qll_records *records = with->records;
    for (size_t asked = QLL_FIRST_ROWS; end - at >= QLL_FAST_LEAST;
         asked = 2 * asked < records->room ? 2 * asked : records->room) {
        const size_t left = (size_t)(end - at - QLL_FAST_LEAST) / size + 1;
        const size_t room = records->room - with->count;
        const size_t most = left < room ? left : room;
        const size_t count = asked < most ? asked : most;
        const size_t taken = take_rows(with, at, size, count);
        at += taken * size;
        *line_count += (long long)taken;
        hand_on_if_full(with, records);
        if (taken < count) {
            return at;
        }
    }
    return at;
}

static const char *take_uneven(alike *with, const char *at, const char *end, long long *line_count)
{
    while (end - at >= QLL_FAST_LEAST) {
        const char *next = take_row(with, at, end);
        if (next == NULL) {
            return at;
        }
        at = next;
        *line_count += 1;
        hand_on_if_full(with, with->records);
    }
    return at;
}

const char *qll_log_alike_rows(qll_log_lane *lane, const char *at, const char *end,
                               long long *line_count)
{
    qll_records *records = &lane->records;
    if (!lane->has_prefix || lane->tail_size == 0 || records->count == 0) {
        return at;
    }
    alike with = {.lane = lane,
                  .records = records,
                  .prefix = {eight_bytes(lane->prefix), eight_bytes(lane->prefix + 8)},
                  .tail = lane->tail,
                  .tail_mask = lane->tail_mask,
                  .cells_at = QLL_STAMP_SIZE + lane->tail_size,
                  .minute_ms = lane->prefix_ms,
                  .at_ms = records->at_ms,
                  .before_ms = records->at_ms[records->count - 1],
                  .count = records->count};
    const size_t size = row_size(lane, with.cells_at);
    at = size > 0 ? take_even(&with, at, end, size, line_count)
                  : take_uneven(&with, at, end, line_count);
    records->count = with.count;
    return at;
}

#else

void qll_cell_learn(qll_plain_cell *cell, const char *at, size_t size)
{
    (void)cell;
    (void)at;
    (void)size;
}

bool qll_cell_is_alike(const qll_plain_cell *cell, const char *at, double *si)
{
    (void)cell;
    (void)at;
    (void)si;
    return false;
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
