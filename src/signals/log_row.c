#include "signals/log_row.h"

#include <math.h>
#include <string.h>

/* An end that differs from start and duration by more is a contradiction: stamps are cut to 1 s. */
#define QLL_DURATION_SLACK_MS 1000

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

static bool stamp_utc(qll_log_lane *lane, qll_text text, long long line, bool mends,
                      int64_t *utc_ms)
{
    qll_stamp stamp;
    if (!qll_stamp_read(text, lane->order, &stamp)) {
        return false;
    }
    *utc_ms = stamp.has_offset ? stamp.local_ms - (int64_t)stamp.offset_s * 1000
                               : to_utc(lane, stamp.local_ms, line, mends);
    return true;
}

bool qll_log_row_time(qll_log_lane *lane, const qll_text *cells, long long line, bool mends,
                      int64_t *utc_ms)
{
    const qll_log_shape *shape = lane->shape;
    bool good = false;
    if (shape->unix_time) {
        good = qll_stamp_unix(cells[shape->role[QLL_ROLE_TIME]], utc_ms);
    } else if (shape->date_and_clock) {
        qll_stamp stamp;
        int64_t clock_ms = 0;
        good = qll_stamp_read(cells[shape->role[QLL_ROLE_DATE]], lane->order, &stamp)
               && !stamp.has_clock
               && qll_stamp_clock(cells[shape->role[QLL_ROLE_CLOCK]], &clock_ms);
        if (good) {
            *utc_ms = to_utc(lane, stamp.local_ms + clock_ms, line, mends);
        }
    } else {
        good = stamp_utc(lane, cells[shape->role[QLL_ROLE_TIME]], line, mends, utc_ms);
    }
    return good && *utc_ms >= QLL_STAMP_LEAST_MS && *utc_ms < QLL_STAMP_END_MS;
}

/* ---- values ---- */

static bool is_one_of(qll_text cell, const char *const *words, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (qll_log_name_equal(cell, qll_text_of(words[i]))) {
            return true;
        }
    }
    return false;
}

static bool is_poor(const qll_log_lane *lane, qll_text quality)
{
    static const char *const good[] = {"A", "OK", "good", "valid"};
    double value = 0.0;
    if (quality.size == 0) {
        return false;
    }
    if (qll_log_number(quality, lane->shape->decimal, &value)) {
        double least = lane->options->least_quality;
        return isnan(least) ? value <= 0.0 : value < least;
    }
    return !is_one_of(quality, good, sizeof good / sizeof *good);
}

/* What loggers write for "no reading": a row of nines, mostly negative (common practice, no source). */
static bool is_sentinel(const qll_log_shape *shape, double value)
{
    double size = fabs(value);
    bool nines = size == 999.0 || size == 9999.0 || size == 99999.0 || size == 999999.0
                 || size == 9999.9 || size == 99999.9 || size == 999.9 || size == 999.99;
    return nines && (value < 0.0 || shape->kind == QLL_LOG_KIND_FLOW);
}

static double read_value(qll_log_lane *lane, const qll_text *cells, size_t count, long long line)
{
    static const char *const nothing[] = {"nan", "null", "na", "none", "nodata"};
    const qll_log_shape *shape = lane->shape;
    qll_text cell = cells[shape->value];
    size_t quality = shape->role[QLL_ROLE_QUALITY];
    double value = (double)NAN;
    qll_log_mend_kind mend = QLL_LOG_MEND_COUNT;
    if (!qll_log_number(cell, shape->decimal, &value)) {
        /* Marks alone ("", "--") have no letters either. */
        bool empty = qll_log_name_equal(cell, (qll_text){"", 0})
                     || is_one_of(cell, nothing, sizeof nothing / sizeof *nothing);
        mend = empty ? QLL_LOG_MEND_EMPTY : QLL_LOG_MEND_UNREADABLE;
    } else if (is_sentinel(shape, value)) {
        mend = QLL_LOG_MEND_SENTINEL;
    } else if (quality < count && is_poor(lane, cells[quality])) {
        mend = QLL_LOG_MEND_POOR_SIGNAL;
    }
    if (mend == QLL_LOG_MEND_COUNT) {
        return value;
    }
    qll_records_mend(&lane->records, mend, line, INT64_MIN);
    return (double)NAN;
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
    qll_records_take(records, at_ms, read_value(lane, cells, count, line), end_ms, line);
    return QLL_ROW_TAKEN;
}

/* ---- the fast way ---- */

bool qll_log_row_is_fast(const qll_log_shape *shape, qll_log_order order)
{
    return shape->delimiter != '{' && shape->delimiter != ' ' && !shape->unix_time
           && !shape->date_and_clock && order == QLL_LOG_ORDER_YEAR_FIRST && shape->decimal == '.'
           && shape->role[QLL_ROLE_TIME] == 0 && shape->value > 0
           && shape->role[QLL_ROLE_METER] == SIZE_MAX && shape->role[QLL_ROLE_KEY] == SIZE_MAX
           && shape->role[QLL_ROLE_QUALITY] == SIZE_MAX && shape->kind != QLL_LOG_KIND_EVENTS;
}

static bool is_digit(char byte)
{
    return (unsigned)(byte - '0') < 10;
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
    memcpy(lane->suffix, at + QLL_STAMP_SIZE, lane->suffix_size);
    lane->prefix_ms = utc_ms - second_ms;
    lane->has_prefix = true;
    return true;
}

/* Behind the stamp at @p at, which may stand in quotes; NULL if it is not plain. At least 64 bytes
 * follow. */
static const char *fast_stamp(qll_log_lane *lane, const char *at, int64_t *at_ms)
{
    bool quoted = *at == '"';
    char close = quoted ? '"' : lane->shape->delimiter;
    at += quoted ? 1 : 0;
    if ((!lane->has_prefix || memcmp(at, lane->prefix, QLL_PREFIX_SIZE) != 0
         || memcmp(at + QLL_STAMP_SIZE, lane->suffix, lane->suffix_size) != 0)
        && !learn_prefix(lane, at, close)) {
        return NULL;
    }
    if (at[16] != ':' || (unsigned)(at[17] - '0') > 5 || !is_digit(at[18])) {
        return NULL;
    }
    *at_ms = lane->prefix_ms + ((at[17] - '0') * 10 + (at[18] - '0')) * 1000;
    at += QLL_STAMP_SIZE + lane->suffix_size;
    if (*at != close) {
        return NULL;
    }
    at += quoted ? 1 : 0;
    return *at == lane->shape->delimiter ? at + 1 : NULL;
}

const char *qll_log_row_fast(qll_log_lane *lane, const char *at, const char *end)
{
    int64_t at_ms = 0;
    char delimiter = lane->shape->delimiter;
    if (end - at < 64) {
        return NULL;
    }
    at = fast_stamp(lane, at, &at_ms);
    for (size_t c = 1; at != NULL && c < lane->shape->value; c++) {
        while (at < end && *at != delimiter && *at != '\n' && *at != '"') {
            at += 1;
        }
        at = at < end && *at == delimiter ? at + 1 : NULL;
    }
    if (at == NULL || end - at < 32) {
        return NULL;
    }
    double value = 0.0;
    /* A negative or long number, one with an exponent or in quotes is left to the general way. */
    size_t size = is_digit(*at) ? qll_plain_number((qll_text){at, 24}, &value) : 0;
    at += size;
    if (size == 0 || is_sentinel(lane->shape, value)) {
        return NULL;
    }
    const char *next = at + 1;
    if (*at == '\r') {
        next = at[1] == '\n' ? at + 2 : NULL;
    } else if (*at == delimiter) {
        const char *line_end = memchr(at, '\n', (size_t)(end - at));
        next = line_end == NULL ? NULL : line_end + 1;
    } else if (*at != '\n') {
        next = NULL;
    }
    if (next != NULL) {
        qll_records_take(&lane->records, at_ms, value, at_ms, 0);
    }
    return next;
}
