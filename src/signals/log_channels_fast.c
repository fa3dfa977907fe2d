/* Plain rows of a log of pressures: "2026-03-01T18:30:58.125Z,112.3,60.4,0.35" and the like, without looking for what a row
 * might be. Anything else is left to the general way, which gives the same. */
#include "signals/log_fast.h"
#include "signals/log_row.h"

#include <math.h>
#include <string.h>

/* A cell is looked at only if so many bytes follow its start. */
#define QLL_CELL_LEAST 32
/* From here on a number may stand for "no reading". */
#define QLL_NINES      999.0

bool qll_log_channels_are_fast(const qll_log_shape *shape, qll_log_order order)
{
    bool plain = shape->delimiter != '{' && shape->delimiter != ' ' && !shape->unix_time
                 && !shape->serial && !shape->elapsed && !shape->date_and_clock
                 && order == QLL_LOG_ORDER_YEAR_FIRST && shape->decimal == '.'
                 && shape->role[QLL_ROLE_TIME] == 0 && shape->role[QLL_ROLE_QUALITY] == SIZE_MAX
                 && shape->role[QLL_ROLE_METER] == SIZE_MAX && shape->role[QLL_ROLE_KEY] == SIZE_MAX
                 && !shape->decimal_open && shape->thousands != '.';
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        plain = plain && !shape->channels[c].unit_in_cells;
    }
    return plain;
}

/* The number at @p at, all of it; bytes taken, or 0. */
static inline size_t take_number(const char *at, double *value)
{
    const bool negative = *at == '-';
    size_t size = qll_fast_number(at + negative, value);
    if (size == 0) {
        size =
            qll_is_digit(at[negative]) ? qll_plain_number((qll_text){at + negative, 24}, value) : 0;
    }
    *value = negative ? -*value : *value;
    return size == 0 ? 0 : size + negative;
}

/* Takes the value of a channel into the row; false if the general way must look at it. */
static inline bool take_value(qll_log_lane *lane, qll_channel channel, double value)
{
    const qll_log_channel_column *of = &lane->shape->channels[channel];
    const double si = value * of->times + of->plus;
    const bool can_be = channel == QLL_CHANNEL_FLOW
                            ? si >= 0.0 && si <= QLL_LOG_MOST_FLOW_M3S
                            : channel == QLL_CHANNEL_TEMPERATURE
                                  || (si >= QLL_CHANNEL_LEAST_PA && si <= QLL_CHANNEL_MOST_PA);
    lane->records.row_channel[channel] = si + 0.0; /* turns -0 into 0 */
    return can_be && !(fabs(value) >= QLL_NINES && qll_log_is_sentinel(lane->shape, value));
}

/* Takes the cell at @p at, which is column @p column; its end, or NULL if the general way must look at it. */
static inline const char *take_cell(qll_log_lane *lane, size_t column, const char *at,
                                    const char *end)
{
    const qll_log_shape *shape = lane->shape;
    const unsigned channel = shape->channel_of[column];
    if (end - at < QLL_CELL_LEAST) {
        return NULL;
    }
    if (channel == QLL_CHANNEL_COUNT) {
        while (at < end && *at != shape->delimiter && *at != '\n' && *at != '"') {
            at += 1;
        }
        return at;
    }
    double value = 0.0;
    const size_t size = take_number(at, &value);
    return size == 0 || !take_value(lane, (qll_channel)channel, value) ? NULL : at + size;
}

/* Takes the line at @p at; the start of the next, or NULL. */
static inline const char *fast_row(qll_log_lane *lane, const char *at, const char *end)
{
    const qll_log_shape *shape = lane->shape;
    int64_t at_ms = 0;
    at = qll_fast_stamp_parts(lane, at, &at_ms);
    for (size_t c = 1; at != NULL && c < shape->needed_count; c++) {
        at = take_cell(lane, c, at, end);
        if (at != NULL && c + 1 < shape->needed_count) {
            at = at < end && *at == shape->delimiter ? at + 1 : NULL;
        }
    }
    if (at == NULL || end - at < 2) {
        return NULL;
    }
    const char *next = qll_fast_next_line(at, end, shape->delimiter);
    if (next != NULL) {
        qll_records_take(&lane->records, at_ms, lane->records.row_channel[shape->first_channel],
                         at_ms, 0);
    }
    return next;
}

const char *qll_log_channels_fast(qll_log_lane *lane, const char *at, const char *end,
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
