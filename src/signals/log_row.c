#include "signals/log_row.h"

#include <math.h>
#include <string.h>

/* An end that differs from start and duration by more is a contradiction: stamps are cut to 1 s. */
#define QLL_DURATION_SLACK_MS 1000
#define QLL_HOUR_MS           ((int64_t)3600 * 1000)

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
    qll_records_take(records, at_ms, qll_log_row_value(lane, cells, count, line), end_ms, line);
    return QLL_ROW_TAKEN;
}

/* ---- the fast way ---- */

bool qll_log_row_is_fast(const qll_log_shape *shape, qll_log_order order)
{
    return shape->delimiter != '{' && shape->delimiter != ' ' && !shape->unix_time && !shape->serial
           && !shape->date_and_clock && order == QLL_LOG_ORDER_YEAR_FIRST && shape->decimal == '.'
           && shape->role[QLL_ROLE_TIME] == 0 && shape->value > 0
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

/* Reads the stamp at @p at the general way and keeps its minute. */
static bool learn_prefix(qll_log_lane *lane, const char *at, char close)
{
    size_t size = QLL_STAMP_SIZE;
    while (size <= QLL_STAMP_SIZE + QLL_SUFFIX_SIZE && at[size] != close) {
        size += 1;
    }
    lane->has_prefix = false;
    if (size > QLL_STAMP_SIZE + QLL_SUFFIX_SIZE || at[4] != '-' || at[13] != ':' || at[16] != ':'
        || at[QLL_STAMP_SIZE] == '.') {
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
    int64_t second_ms = (int64_t)((at[17] - '0') * 10 + (at[18] - '0')) * 1000;
    if (utc_ms < QLL_STAMP_LEAST_MS || utc_ms >= QLL_STAMP_END_MS) {
        return false;
    }
    memcpy(lane->prefix, at, QLL_PREFIX_SIZE);
    lane->suffix_size = size - QLL_STAMP_SIZE;
    lane->suffix = suffix_bits(at + QLL_STAMP_SIZE, lane->suffix_size);
    memset(&lane->suffix_mask, 0, sizeof lane->suffix_mask);
    memset(&lane->suffix_mask, 0xFF, lane->suffix_size);
    lane->prefix_ms = utc_ms - second_ms;
    take_offset(lane, &stamp);
    take_hour(lane, stamp.local_ms);
    lane->has_prefix = true;
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
        && !learn_prefix(lane, at, close)) {
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

#if defined(__BYTE_ORDER__) && __BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__

/* How many of the eight bytes from the lowest on are digits. */
static inline unsigned digit_count(uint64_t bytes)
{
    uint64_t past = bytes ^ UINT64_C(0x3030303030303030);
    uint64_t other = ((past + UINT64_C(0x7676767676767676)) | past) & UINT64_C(0x8080808080808080);
    return other == 0 ? 8 : (unsigned)__builtin_ctzll(other) / 8;
}

/* The number of the lowest @p count bytes, digits, 1 to 8 of them: pairs, then fours, then all. */
static inline uint64_t digits_value(uint64_t bytes, unsigned count)
{
    bytes = (bytes ^ UINT64_C(0x3030303030303030)) << (64 - 8 * count);
    bytes = bytes * 10 + (bytes >> 8);
    bytes = ((bytes & UINT64_C(0x00FF00FF00FF00FF)) * (1 + (UINT64_C(100) << 16))) >> 16;
    return ((bytes & UINT64_C(0x0000FFFF0000FFFF)) * (1 + (UINT64_C(10000) << 32))) >> 32;
}

/* As qll_plain_number(), for up to 7 digits on either side of the point: no branch depends on how
 * many there are. At least 16 bytes follow. */
static inline size_t fast_number(const char *at, double *value)
{
    static const double powers[8] = {1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7};
    static const uint64_t whole[8] = {1, 10, 100, 1000, 10000, 100000, 1000000, 10000000};
    uint64_t bytes = 0;
    memcpy(&bytes, at, sizeof bytes);
    unsigned count = digit_count(bytes);
    if (count == 0 || count == 8 || at[count] != '.') {
        return 0;
    }
    uint64_t behind = 0;
    memcpy(&behind, at + count + 1, sizeof behind);
    unsigned decimals = digit_count(behind);
    char next = at[count + 1 + decimals];
    if (decimals == 0 || decimals == 8 || next == 'e' || next == 'E') {
        return 0;
    }
    uint64_t digits = digits_value(bytes, count) * whole[decimals] + digits_value(behind, decimals);
    *value = (double)digits / powers[decimals];
    return count + 1 + decimals;
}

/* Where the first line break of the 16 bytes at @p at stands; 16 if there is none. The next line's
 * start comes from here and not from the number's length, so that the machine can begin the next line
 * while this one's digits are still in work. */
static inline size_t near_line_end(const char *at)
{
    const uint64_t ones = UINT64_C(0x0101010101010101);
    uint64_t found[2];
    memcpy(found, at, sizeof found);
    for (int i = 0; i < 2; i++) {
        uint64_t other = found[i] ^ (ones * '\n');
        found[i] = (other - ones) & ~other & (ones * 0x80);
    }
    if (found[0] != 0) {
        return (size_t)__builtin_ctzll(found[0]) / 8;
    }
    return found[1] == 0 ? 16 : 8 + (size_t)__builtin_ctzll(found[1]) / 8;
}

#else

static inline size_t near_line_end(const char *at)
{
    (void)at;
    return 16;
}

static inline size_t fast_number(const char *at, double *value)
{
    (void)at;
    (void)value;
    return 0;
}

#endif

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
    size_t line_end = near_line_end(at);
    size_t size = fast_number(at, &value);
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
    const char *next = at + 1;
    if (*at == '\r') {
        next = at[1] == '\n' ? at + 2 : NULL;
    } else if (*at == delimiter) {
        const char *stop = memchr(at, '\n', (size_t)(end - at));
        next = stop == NULL ? NULL : stop + 1;
    } else if (*at != '\n') {
        next = NULL;
    }
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
