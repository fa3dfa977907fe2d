#include "signals/log_interval.h"

#include <math.h>
#include <string.h>

/* Silences of a logger that reports changes only are this many intervals at least. */
#define QLL_HEARTBEAT_INTERVALS 5
/* As many of them, within a tenth of one another, make a heartbeat (our assumption). */
#define QLL_HEARTBEAT_LEAST     3
#define QLL_DAY_MS              ((int64_t)86400 * 1000)
/* Flows stay below one class boundary even when all events run at once. */
#define QLL_MOST_FLOW_M3S       1.0

typedef struct early_row {
    int64_t at_ms;
    double value; /* NaN if it is none */
} early_row;

/* By insertion: the rows mostly come in order, and are few. */
static void sort_rows(early_row *rows, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        early_row row = rows[i];
        size_t at = i;
        for (; at > 0 && rows[at - 1].at_ms > row.at_ms; at--) {
            rows[at] = rows[at - 1];
        }
        rows[at] = row;
    }
}

static void sort_lengths(int64_t *lengths, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        int64_t length = lengths[i];
        size_t at = i;
        for (; at > 0 && lengths[at - 1] > length; at--) {
            lengths[at] = lengths[at - 1];
        }
        lengths[at] = length;
    }
}

static bool is_wanted(const qll_log_shape *shape, const qll_text *cells, size_t count)
{
    size_t meter = shape->role[QLL_ROLE_METER];
    size_t key = shape->role[QLL_ROLE_KEY];
    return count >= shape->needed_count && count <= QLL_LOG_COLUMNS
           && (meter >= count || shape->meter.size == 0
               || qll_text_equal(cells[meter], shape->meter))
           && (key >= count || qll_text_equal(cells[key], shape->key));
}

/* A zone of the stamps' own, where no option gives one. */
static void learn_zone(const qll_log_look *look, qll_log_lane *lane, const qll_text *cells)
{
    qll_stamp stamp;
    if (look->options->zone == NULL && !lane->shape->unix_time && !lane->shape->date_and_clock
        && qll_stamp_read(cells[lane->shape->role[QLL_ROLE_TIME]], lane->order, &stamp)
        && stamp.has_offset) {
        lane->zone = (qll_zone){.standard_s = stamp.offset_s};
    }
}

static size_t read_rows(const qll_log_look *look, qll_log_lane *lane, early_row *rows)
{
    size_t count = 0;
    qll_text cells[QLL_LOG_COLUMNS];
    for (size_t i = look->title_count; i < look->line_count; i++) {
        size_t cell_count = qll_log_look_cells(look, lane->shape, i, cells);
        early_row row = {0, (double)NAN};
        if (is_wanted(lane->shape, cells, cell_count)
            && qll_log_row_time(lane, cells, 0, false, &row.at_ms)) {
            if (count == 0) {
                learn_zone(look, lane, cells);
            }
            if (!qll_log_number(cells[lane->shape->value], lane->shape->decimal, &row.value)) {
                row.value = (double)NAN;
            }
            rows[count] = row;
            count += 1;
        }
    }
    sort_rows(rows, count);
    return count;
}

/* The median interval behind rows that flow (in front of them, where the stamp is the end); of all
 * rows, where too few flow. */
static int64_t usual_interval_ms(const early_row *rows, size_t count, bool at_end, bool flowing,
                                 int64_t *lengths)
{
    size_t found = 0;
    for (size_t i = 1; i < count; i++) {
        double value = rows[at_end ? i : i - 1].value;
        int64_t length = rows[i].at_ms - rows[i - 1].at_ms;
        if (length > 0 && (!flowing || value > 0.0)) {
            lengths[found] = length;
            found += 1;
        }
    }
    if (found < (flowing ? 3U : 1U)) {
        return 0;
    }
    sort_lengths(lengths, found);
    return lengths[(found - 1) / 2];
}

/* Long silences of one length in front of rows without flow. */
static int64_t heartbeat_ms(const early_row *rows, size_t count, int64_t interval_ms,
                            int64_t *lengths)
{
    size_t found = 0;
    for (size_t i = 1; i < count; i++) {
        int64_t length = rows[i].at_ms - rows[i - 1].at_ms;
        if (rows[i].value == 0.0 && length >= QLL_HEARTBEAT_INTERVALS * interval_ms) {
            lengths[found] = length;
            found += 1;
        }
    }
    sort_lengths(lengths, found);
    int64_t middle = found > 0 ? lengths[found / 2] : 0;
    size_t near = 0;
    for (size_t i = 0; i < found; i++) {
        int64_t apart = lengths[i] - middle;
        near += (apart < 0 ? -apart : apart) * 10 <= middle ? 1U : 0U;
    }
    return near >= QLL_HEARTBEAT_LEAST && near * 5 >= found * 3 ? middle : 0;
}

bool qll_log_interval_find(qll_log_look *look, qll_log_lane *lane, qll_records_rule *rule)
{
    const qll_log_shape *shape = lane->shape;
    const qll_flow_log_options *options = look->options;
    early_row *rows = qll_arena_take(look->arena, look->line_count, sizeof *rows);
    int64_t *lengths = qll_arena_take(look->arena, look->line_count, sizeof *lengths);
    if (rows == NULL || lengths == NULL) {
        look->problems->no_memory = true;
        return false;
    }
    size_t count = read_rows(look, lane, rows);
    double most_m3s =
        isnan(options->most_flow_m3s) ? QLL_LOG_MOST_FLOW_M3S : options->most_flow_m3s;
    *rule = (qll_records_rule){
        .kind = shape->kind,
        .stamp = shape->stamp,
        .factor = shape->factor,
        .value_is_flow = shape->value_is_flow,
        .keyed = shape->keyed,
        .interval_ms = 1000,
        .most_m3s = most_m3s < QLL_MOST_FLOW_M3S ? most_m3s : QLL_MOST_FLOW_M3S,
        .dead_band_m3s = isnan(options->dead_band_m3s) ? 0.0 : options->dead_band_m3s,
    };
    if (shape->kind == QLL_LOG_KIND_EVENTS) {
        return true;
    }
    bool samples = shape->kind == QLL_LOG_KIND_FLOW || shape->kind == QLL_LOG_KIND_VOLUME;
    bool at_end = shape->stamp == QLL_LOG_STAMP_END;
    int64_t interval_ms =
        samples ? usual_interval_ms(rows, count, at_end, true, lengths) : INT64_C(0);
    if (interval_ms == 0) {
        interval_ms = usual_interval_ms(rows, count, at_end, false, lengths);
    }
    if (interval_ms == 0 || interval_ms > QLL_DAY_MS) {
        return qll_log_refuse_says(look, QLL_CODE_OUT_OF_RANGE, shape->first_line,
                                   interval_ms == 0
                                       ? "the log needs at least two rows of different stamps"
                                       : "the log's rows are more than a day apart",
                                   "");
    }
    rule->interval_ms = interval_ms;
    if (!isnan(options->heartbeat_s)) {
        rule->heartbeat_ms = (int64_t)(fmin(fmax(options->heartbeat_s, 0.0), 86400.0) * 1000.0);
    } else if (samples) {
        rule->heartbeat_ms = heartbeat_ms(rows, count, interval_ms, lengths);
    }
    return true;
}
