#include "signals/log_row.h"

#include "signals/log_fast.h"

#include <math.h>
#include <string.h>

/* An end that differs from start and duration by more is a contradiction: stamps are cut to 1 s. */
#define QLL_DURATION_SLACK_MS 1000
#define QLL_MINUTE_MS         ((int64_t)60 * 1000)
#define QLL_HOUR_MS           ((int64_t)3600 * 1000)
/* No log runs for ten years. */
#define QLL_ELAPSED_MOST_S    3.2e8

/* ---- stamps ---- */

/* Local to universal time. Rows come in order, so an hour that came twice is the second one from the
 * row on that is earlier on the clock than the one before. */
static int64_t to_utc(qll_log_lane *lane, int64_t local_ms, long long line, bool mends)
{
    qll_zone_oddity oddity = QLL_ZONE_PLAIN;
    int64_t utc_ms = qll_zone_utc_ms(&lane->zone, local_ms, true, &oddity);
    if (oddity == QLL_ZONE_TWICE) {
        if (mends && !lane->second && local_ms < lane->last_local_ms) {
            lane->second = true;
            qll_records_mend(&lane->records, QLL_LOG_MEND_REPEATED_HOUR, line, INT64_MIN);
        }
        utc_ms = qll_zone_utc_ms(&lane->zone, local_ms, !lane->second, &oddity);
    } else if (mends) {
        lane->second = false;
        if (oddity == QLL_ZONE_NEVER) {
            qll_records_mend(&lane->records, QLL_LOG_MEND_SKIPPED_HOUR, line, INT64_MIN);
        }
    }
    if (mends) {
        lane->last_local_ms = local_ms;
    }
    return utc_ms;
}

/* What the clock of the place shows at this row: its own offset, else that of the log. The minute that
 * is kept for the fast way has the offset of its own row. */
static void take_offset(qll_log_lane *lane, const qll_stamp *stamp)
{
    const int32_t offset_s = stamp->has_offset ? stamp->offset_s : lane->zone.standard_s;
    lane->has_prefix = lane->has_prefix && offset_s == lane->records.row_offset_s;
    lane->records.row_offset_s = offset_s;
}

/* Which hours the log knows: from 1 to 12 only is a clock that goes round twice a day. */
static void take_hour(qll_log_lane *lane, int64_t local_ms)
{
    const int64_t step_ms = local_ms - lane->clock_ms;
    const int64_t jump_ms = step_ms < 0 ? -step_ms : step_ms;
    lane->hours |= 1U << (unsigned)(local_ms / QLL_HOUR_MS % 24);
    lane->half_turns += jump_ms >= 11 * QLL_HOUR_MS && jump_ms < 12 * QLL_HOUR_MS ? 1 : 0;
    lane->clock_ms = local_ms;
}

static bool stamp_utc(qll_log_lane *lane, qll_text text, long long line, bool mends,
                      int64_t *utc_ms)
{
    qll_stamp stamp;
    if (!qll_stamp_read(text, lane->order, &stamp)) {
        return false;
    }
    *utc_ms = stamp.has_offset ? stamp.local_ms - (int64_t)stamp.offset_s * 1000
                               : to_utc(lane, stamp.local_ms, line, mends);
    if (mends) {
        take_offset(lane, &stamp);
        take_hour(lane, stamp.local_ms);
    }
    return true;
}

bool qll_log_row_time(qll_log_lane *lane, const qll_text *cells, long long line, bool mends,
                      int64_t *utc_ms)
{
    const qll_log_shape *shape = lane->shape;
    bool good = false;
    if (shape->unix_time) {
        good = qll_stamp_unix(cells[shape->role[QLL_ROLE_TIME]], utc_ms);
    } else if (shape->elapsed) {
        double elapsed = 0.0;
        good = qll_log_number(cells[shape->role[QLL_ROLE_TIME]], shape->decimal, &elapsed)
               && elapsed >= 0.0 && elapsed * shape->elapsed_s < QLL_ELAPSED_MOST_S;
        *utc_ms =
            good ? QLL_LOG_ELAPSED_MS + (int64_t)(elapsed * shape->elapsed_s * 1000.0 + 0.5) : 0;
    } else if (shape->serial) {
        int64_t local_ms = 0;
        good = qll_stamp_serial(cells[shape->role[QLL_ROLE_TIME]], &local_ms);
        *utc_ms = good ? to_utc(lane, local_ms, line, mends) : 0;
    } else if (shape->date_and_clock) {
        qll_stamp stamp;
        int64_t clock_ms = 0;
        good = qll_stamp_read(cells[shape->role[QLL_ROLE_DATE]], lane->order, &stamp)
               && !stamp.has_clock
               && qll_stamp_clock(cells[shape->role[QLL_ROLE_CLOCK]], &clock_ms);
        if (good && shape->clock_is_hour) {
            clock_ms *= 60; /* it was read as minutes */
        }
        if (good) {
            *utc_ms = to_utc(lane, stamp.local_ms + clock_ms, line, mends);
            take_hour(lane, stamp.local_ms + clock_ms);
        }
    } else {
        good = stamp_utc(lane, cells[shape->role[QLL_ROLE_TIME]], line, mends, utc_ms);
    }
    return good && *utc_ms >= QLL_STAMP_LEAST_MS && *utc_ms < QLL_STAMP_END_MS;
}

/* End of an event: by its duration where there is one, else by its own stamp. */
static bool read_end(qll_log_lane *lane, const qll_text *cells, size_t count, int64_t start_ms,
                     int64_t *end_ms, bool *disagrees)
{
    const qll_log_shape *shape = lane->shape;
    size_t end = shape->role[QLL_ROLE_END];
    size_t duration = shape->role[QLL_ROLE_DURATION];
    bool has_end = end < count
                   && (shape->unix_time ? qll_stamp_unix(cells[end], end_ms)
                                        : stamp_utc(lane, cells[end], 0, false, end_ms));
    double length = 0.0;
    bool has_length = duration < count && !isnan(shape->duration_s)
                      && qll_log_number(cells[duration], shape->decimal, &length) && length > 0.0
                      && length * shape->duration_s < 1e9;
    if (has_length) {
        int64_t by_length_ms = start_ms + (int64_t)(length * shape->duration_s * 1000.0 + 0.5);
        int64_t apart_ms = has_end ? by_length_ms - *end_ms : 0;
        *disagrees = apart_ms > QLL_DURATION_SLACK_MS || apart_ms < -QLL_DURATION_SLACK_MS;
        *end_ms = by_length_ms;
    }
    return (has_end || has_length) && *end_ms >= start_ms;
}

qll_row_state qll_log_row_take(qll_log_lane *lane, const qll_text *cells, size_t count,
                               long long line)
{
    const qll_log_shape *shape = lane->shape;
    qll_records *records = &lane->records;
    size_t meter = shape->role[QLL_ROLE_METER];
    size_t key = shape->role[QLL_ROLE_KEY];
    if (count < shape->needed_count) {
        qll_records_mend(records, QLL_LOG_MEND_SHORT_ROW, line, INT64_MIN);
        return QLL_ROW_TAKEN;
    }
    bool other_meter =
        meter < count && shape->meter.size > 0 && !qll_text_equal(cells[meter], shape->meter);
    if (other_meter && lane->options->meter == NULL) {
        return QLL_ROW_METER;
    }
    if (other_meter || (key < count && !qll_text_equal(cells[key], shape->key))) {
        qll_records_mend(records, QLL_LOG_MEND_OTHER, line, INT64_MIN);
        return QLL_ROW_TAKEN;
    }
    int64_t at_ms = 0;
    if (!qll_log_row_time(lane, cells, line, true, &at_ms)) {
        return QLL_ROW_BAD_STAMP;
    }
    int64_t end_ms = at_ms;
    bool disagrees = false;
    if (shape->kind == QLL_LOG_KIND_EVENTS
        && !read_end(lane, cells, count, at_ms, &end_ms, &disagrees)) {
        return QLL_ROW_BAD_STAMP;
    }
    if (disagrees) {
        qll_records_mend(records, QLL_LOG_MEND_DURATION, line, INT64_MIN);
    }
    const double value = shape->has_channels ? qll_log_row_channels(lane, cells, count, line)
                                             : qll_log_row_value(lane, cells, count, line);
    qll_records_take(records, at_ms, value, end_ms, line);
    return QLL_ROW_TAKEN;
}

/* ---- the fast way ---- */

bool qll_log_row_is_fast(const qll_log_shape *shape, qll_log_order order)
{
    return shape->delimiter != '{' && shape->delimiter != ' ' && !shape->unix_time && !shape->serial
           && !shape->has_channels && !shape->date_and_clock && order == QLL_LOG_ORDER_YEAR_FIRST
           && shape->decimal == '.' && shape->role[QLL_ROLE_TIME] == 0 && shape->value > 0
           && shape->role[QLL_ROLE_METER] == SIZE_MAX && shape->role[QLL_ROLE_KEY] == SIZE_MAX
           && shape->role[QLL_ROLE_QUALITY] == SIZE_MAX && !shape->unit_by_row
           && !shape->decimal_open && shape->thousands != '.' && shape->kind != QLL_LOG_KIND_EVENTS;
}

/* What stands behind the seconds, as one number. */
static uint64_t suffix_bits(const char *at, size_t size)
{
    uint64_t bits = 0;
    memcpy(&bits, at, size);
    return bits;
}

/* What stands behind the seconds at @p at, with the delimiter; three decimals may be any. */
static void learn_tail(qll_log_lane *lane, const char *at, size_t decimals, bool is_quoted)
{
    const size_t size = (decimals > 0 ? decimals + 1 : 0) + lane->suffix_size + 1;
    const bool fits = !is_quoted && size <= sizeof lane->tail && (decimals == 0 || decimals == 3);
    lane->tail_size = fits ? size : 0;
    lane->has_thousandths = decimals == 3;
    lane->tail = lane->tail_mask = 0;
    if (fits) {
        lane->tail = suffix_bits(at, size);
        memset(&lane->tail_mask, 0xFF, size);
    }
    if (fits && lane->has_thousandths) {
        memset((char *)&lane->tail_mask + 1, 0, decimals);
        lane->tail &= lane->tail_mask;
    }
}

/* Another minute of the same hour, of a stamp with an offset of its own: only its two digits differ. */
static bool learn_minute(qll_log_lane *lane, const char *at)
{
    const unsigned tens = (unsigned)(at[14] - '0');
    const unsigned ones = (unsigned)(at[15] - '0');
    uint64_t tail = 0;
    memcpy(&tail, at + QLL_STAMP_SIZE, sizeof tail);
    if (!lane->has_prefix || !lane->has_offset || lane->tail_size == 0 || tens > 5 || ones > 9
        || memcmp(at, lane->prefix, QLL_HOUR_SIZE) != 0
        || ((tail ^ lane->tail) & lane->tail_mask) != 0) {
        return false;
    }
    const int later = (at[14] - lane->prefix[14]) * 10 + at[15] - lane->prefix[15];
    lane->prefix_ms += later * QLL_MINUTE_MS;
    lane->clock_ms += later * QLL_MINUTE_MS;
    memcpy(lane->prefix + QLL_HOUR_SIZE, at + QLL_HOUR_SIZE, QLL_PREFIX_SIZE - QLL_HOUR_SIZE);
    return lane->prefix_ms >= QLL_STAMP_LEAST_MS
           && lane->prefix_ms + QLL_MINUTE_MS <= QLL_STAMP_END_MS;
}

bool qll_fast_learn(qll_log_lane *lane, const char *at, char close)
{
    if (close != '"' && learn_minute(lane, at)) {
        return true;
    }
    size_t size = 0;
    size_t tail = QLL_STAMP_SIZE;
    while (at[QLL_STAMP_SIZE] == '.' && tail < QLL_STAMP_SIZE + QLL_FRACTION_SIZE
           && (tail == QLL_STAMP_SIZE || qll_is_digit(at[tail]))) {
        tail += 1;
    }
    size = tail;
    while (size <= tail + QLL_SUFFIX_SIZE && at[size] != close) {
        size += 1;
    }
    lane->has_prefix = false;
    if (size > tail + QLL_SUFFIX_SIZE || at[4] != '-' || at[13] != ':' || at[16] != ':') {
        return false;
    }
    qll_stamp stamp;
    if (!qll_stamp_read((qll_text){at, size}, QLL_LOG_ORDER_YEAR_FIRST, &stamp)) {
        return false;
    }
    int64_t utc_ms = 0;
    if (stamp.has_offset) {
        utc_ms = stamp.local_ms - (int64_t)stamp.offset_s * 1000;
    } else {
        qll_zone_oddity oddity = QLL_ZONE_PLAIN;
        (void)qll_zone_utc_ms(&lane->zone, stamp.local_ms, true, &oddity);
        if (oddity != QLL_ZONE_PLAIN) {
            return false; /* twice a year the general way counts what is odd */
        }
        utc_ms = to_utc(lane, stamp.local_ms, 0, true);
    }
    const int64_t second_ms = stamp.local_ms % QLL_MINUTE_MS;
    if (utc_ms < QLL_STAMP_LEAST_MS || utc_ms >= QLL_STAMP_END_MS) {
        return false;
    }
    memcpy(lane->prefix, at, QLL_PREFIX_SIZE);
    lane->suffix_size = size - tail;
    lane->suffix = suffix_bits(at + tail, lane->suffix_size);
    memset(&lane->suffix_mask, 0, sizeof lane->suffix_mask);
    memset(&lane->suffix_mask, 0xFF, lane->suffix_size);
    lane->prefix_ms = utc_ms - second_ms;
    learn_tail(lane, at + QLL_STAMP_SIZE, tail > QLL_STAMP_SIZE ? tail - QLL_STAMP_SIZE - 1 : 0,
               close == '"');
    take_offset(lane, &stamp);
    take_hour(lane, stamp.local_ms);
    lane->has_prefix = true;
    lane->has_offset = stamp.has_offset;
    return true;
}

/* Behind the stamp at @p at, which may stand in quotes; NULL if it is not plain. At least 64 bytes
 * follow. */
static inline const char *fast_stamp(qll_log_lane *lane, const char *at, int64_t *at_ms)
{
    bool quoted = *at == '"';
    char close = quoted ? '"' : lane->shape->delimiter;
    at += quoted ? 1 : 0;
    uint64_t behind = 0;
    memcpy(&behind, at + QLL_STAMP_SIZE, sizeof behind);
    if ((!lane->has_prefix || memcmp(at, lane->prefix, QLL_PREFIX_SIZE) != 0
         || (behind & lane->suffix_mask) != lane->suffix)
        && !qll_fast_learn(lane, at, close)) {
        return NULL;
    }
    unsigned tens = (unsigned)(at[17] - '0');
    unsigned ones = (unsigned)(at[18] - '0');
    if (at[16] != ':' || tens > 5 || ones > 9) {
        return NULL;
    }
    *at_ms = lane->prefix_ms + (int64_t)(tens * 10 + ones) * 1000;
    at += QLL_STAMP_SIZE + lane->suffix_size;
    if (*at != close) {
        return NULL;
    }
    at += quoted ? 1 : 0;
    return *at == lane->shape->delimiter ? at + 1 : NULL;
}

/* Skips to the column of the value; NULL if a cell in front is not plain. */
static const char *skip_cells(const qll_log_shape *shape, const char *at, const char *end)
{
    for (size_t c = 1; c < shape->value; c++) {
        while (at < end && *at != shape->delimiter && *at != '\n' && *at != '"') {
            at += 1;
        }
        if (at == end || *at != shape->delimiter) {
            return NULL;
        }
        at += 1;
    }
    return at;
}

/* Takes the line at @p at; behind it, or NULL. */
static inline const char *fast_row(qll_log_lane *lane, const char *at, const char *end)
{
    int64_t at_ms = 0;
    char delimiter = lane->shape->delimiter;
    at = fast_stamp(lane, at, &at_ms);
    if (at != NULL && lane->shape->value > 1) {
        at = skip_cells(lane->shape, at, end);
    }
    if (at == NULL || end - at < 32) {
        return NULL;
    }
    double value = 0.0;
    size_t line_end = qll_near_line_end(at);
    size_t size = qll_fast_number(at, &value);
    if (size > 0 && size == line_end && line_end < 16 && value < 999.0) {
        qll_records_take(&lane->records, at_ms, value, at_ms, 0);
        return at + line_end + 1;
    }
    if (size == 0) {
        /* A negative or long number, one with an exponent or in quotes is left to the general way. */
        size = qll_is_digit(*at) ? qll_plain_number((qll_text){at, 24}, &value) : 0;
    }
    at += size;
    if (size == 0 || (value >= 999.0 && qll_log_is_sentinel(lane->shape, value))) {
        return NULL;
    }
    const char *next = qll_fast_next_line(at, end, delimiter);
    if (next != NULL) {
        qll_records_take(&lane->records, at_ms, value, at_ms, 0);
    }
    return next;
}

const char *qll_log_rows_fast(qll_log_lane *lane, const char *at, const char *end,
                              long long *line_count)
{
    while (end - at >= QLL_FAST_LEAST) {
        const char *next = fast_row(lane, at, end);
        if (next == NULL) {
            break;
        }
        at = next;
        *line_count += 1;
    }
    return at;
}
