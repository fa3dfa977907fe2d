/* Plain rows of a log of pressures: "2026-03-01T18:30:58.125Z,112.3,60.4,0.35" and the like, without looking for what a row
 * might be. Anything else is left to the general way, which gives the same. */
#include "signals/log_alike.h"
#include "signals/log_fast.h"
#include "signals/log_row.h"

#include <math.h>
#include <string.h>

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
static size_t take_number(const char *at, double *value)
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

/* Puts the number at @p at into its channel's next place; its end, or NULL if the general way must look at it. */
static const char *take_cell(qll_log_lane *lane, qll_plain_cell *cell, const char *at)
{
    double *to = &cell->to[lane->records.count];
    if (qll_cell_is_alike(cell, at, to)) {
        return at + cell->size - 1;
    }
    double value = 0.0;
    const size_t size = take_number(at, &value);
    qll_cell_learn(cell, at, size);
    const double si = value * cell->times + cell->plus;
    if (size == 0 || !(si >= cell->least && si <= cell->most)
        || (!(value >= 0.0 && value < QLL_NINES) && qll_log_is_sentinel(lane->shape, value))) {
        return NULL;
    }
    *to = si + 0.0; /* turns -0 into 0 */
    return at + size;
}

/* Takes the cells at @p at, behind the stamp; the end of the last that is needed, or NULL. */
static const char *take_cells(qll_log_lane *lane, const char *at, const char *end)
{
    const char delimiter = lane->shape->delimiter;
    for (size_t c = 0; c < lane->cell_count; c++) {
        qll_plain_cell *cell = &lane->cells[c];
        at = qll_skip_cells(at, end, delimiter, cell->skipped);
        at = at == NULL ? NULL : take_cell(lane, cell, at);
        if (at == NULL || c + 1 == lane->cell_count) {
            return at;
        }
        if (*at != delimiter) {
            return NULL;
        }
        at += 1;
    }
    return NULL;
}

/* A row that is not simply the next one. */
static void take_odd(qll_log_lane *lane, int64_t at_ms)
{
    qll_records *records = &lane->records;
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        records->row_channel[c] = (double)NAN;
    }
    for (size_t c = 0; c < lane->cell_count; c++) {
        records->row_channel[lane->cells[c].channel] = lane->cells[c].to[records->count];
    }
    qll_records_take_any(records, at_ms, records->row_channel[records->first_channel], at_ms, 0);
}

/* Takes the line at @p at; the start of the next, or NULL. */
static const char *plain_row(qll_log_lane *lane, const char *at, const char *end)
{
    int64_t at_ms = 0;
    at = qll_fast_stamp_parts(lane, at, &at_ms);
    at = at == NULL ? NULL : take_cells(lane, at, end);
    if (at == NULL || end - at < 2) {
        return NULL;
    }
    const char *next = qll_fast_next_line(at, end, lane->shape->delimiter);
    if (next != NULL && !qll_records_take_placed(&lane->records, at_ms)) {
        take_odd(lane, at_ms);
    }
    return next;
}

/* The cells that are taken, by their columns. */
static void find_cells(qll_log_lane *lane)
{
    static const struct {
        double least, most;
    } limits[QLL_CHANNEL_COUNT] = {
        [QLL_CHANNEL_INLET] = {QLL_CHANNEL_LEAST_PA, QLL_CHANNEL_MOST_PA},
        [QLL_CHANNEL_OUTLET] = {QLL_CHANNEL_LEAST_PA, QLL_CHANNEL_MOST_PA},
        [QLL_CHANNEL_FLOW] = {0.0, QLL_LOG_MOST_FLOW_M3S},
        [QLL_CHANNEL_TEMPERATURE] = {-(double)INFINITY, (double)INFINITY},
    };

    const qll_log_shape *shape = lane->shape;
    const qll_records *records = &lane->records;
    size_t after = 1;
    for (size_t column = 1; column < shape->needed_count; column++) {
        const unsigned channel = shape->channel_of[column];
        if (channel < QLL_CHANNEL_COUNT) {
            lane->cells[lane->cell_count] = (qll_plain_cell){
                .channel = (qll_channel)channel,
                .skipped = column - after,
                .least = limits[channel].least,
                .most = limits[channel].most,
                .times = shape->channels[channel].times,
                .plus = shape->channels[channel].plus,
                .to =
                    channel == records->first_channel ? records->value : records->channel[channel],
            };
            lane->cell_count += 1;
            after = column + 1;
        }
    }
}

const char *qll_log_channels_fast(qll_log_lane *lane, const char *at, const char *end,
                                  long long *line_count)
{
    if (lane->cell_count == 0) {
        find_cells(lane);
    }
    for (;;) {
        at = qll_log_alike_rows(lane, at, end, line_count);
        const char *next = end - at >= QLL_FAST_LEAST ? plain_row(lane, at, end) : NULL;
        if (next == NULL) {
            return at;
        }
        at = next;
        *line_count += 1;
    }
}
