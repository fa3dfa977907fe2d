#include "signals/log_interval.h"

#include <math.h>
#include <string.h>

/* As many of them, within a tenth of one another, make a heartbeat (our assumption). */
#define QLL_HEARTBEAT_LEAST 3
#define QLL_DAY_MS          ((int64_t)86400 * 1000)
/* Flows stay below one class boundary even when all events run at once. */
#define QLL_MOST_FLOW_M3S   1.0

/* The first rows that are wanted, in order; they mostly come so, and are few. */
typedef struct early_rows {
    int64_t *at_ms;
    double *value;  /* NaN if it is none */
    bool *is_three; /* the point may part thousands */
    size_t count;
} early_rows;

static void insert(early_rows *rows, int64_t at_ms, double value, bool is_three)
{
    size_t at = rows->count;
    for (; at > 0 && rows->at_ms[at - 1] > at_ms; at--) {
        rows->at_ms[at] = rows->at_ms[at - 1];
        rows->value[at] = rows->value[at - 1];
        rows->is_three[at] = rows->is_three[at - 1];
    }
    rows->at_ms[at] = at_ms;
    rows->value[at] = value;
    rows->is_three[at] = is_three;
    rows->count += 1;
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

/* A zone of the stamps' own, where no option gives one; true if they have one. */
static bool learn_zone(const qll_log_look *look, qll_log_lane *lane, const qll_text *cells)
{
    qll_stamp stamp;
    if (look->options->zone != NULL || lane->shape->unix_time || lane->shape->date_and_clock
        || !qll_stamp_read(cells[lane->shape->role[QLL_ROLE_TIME]], lane->order, &stamp)
        || !stamp.has_offset) {
        return false;
    }
    lane->zone = (qll_zone){.standard_s = stamp.offset_s};
    return true;
}

static void read_rows(const qll_log_look *look, qll_log_lane *lane, early_rows *rows,
                      bool *own_offsets)
{
    qll_text cells[QLL_LOG_COLUMNS];
    for (size_t i = look->title_count; i < look->line_count; i++) {
        size_t cell_count = qll_log_look_cells(look, lane->shape, i, cells);
        int64_t at_ms = 0;
        if (is_wanted(lane->shape, cells, cell_count)
            && qll_log_row_time(lane, cells, 0, false, &at_ms)) {
            if (rows->count == 0) {
                *own_offsets = learn_zone(look, lane, cells);
            }
            double value = 0.0;
            if (!qll_log_value(lane->shape, cells[lane->shape->value], &value)) {
                value = (double)NAN;
            }
            insert(rows, at_ms, value, qll_log_is_three(cells[lane->shape->value]));
        }
    }
}

/* Long silences of one length in front of rows without flow. */
static int64_t heartbeat_ms(const early_rows *rows, int64_t interval_ms, int64_t *lengths)
{
    size_t found = 0;
    for (size_t i = 1; i < rows->count; i++) {
        int64_t length = rows->at_ms[i] - rows->at_ms[i - 1];
        if (rows->value[i] == 0.0 && length >= QLL_HEARTBEAT_INTERVALS * interval_ms) {
            lengths[found] = length;
            found += 1;
        }
    }
    qll_lengths_sort(lengths, found);
    int64_t middle = found > 0 ? lengths[found / 2] : 0;
    size_t near = 0;
    for (size_t i = 0; i < found; i++) {
        int64_t apart = lengths[i] - middle;
        near += (apart < 0 ? -apart : apart) * 10 <= middle ? 1U : 0U;
    }
    return near >= QLL_HEARTBEAT_LEAST && near * 5 >= found * 3 ? middle : 0;
}

/* The usual interval; true if it is that of rows without flow only. */
static bool find_usual(const early_rows *rows, qll_records_rule *rule, int64_t *lengths)
{
    const bool at_end = rule->stamp == QLL_LOG_STAMP_END;
    const bool samples = rule->kind == QLL_LOG_KIND_FLOW || rule->kind == QLL_LOG_KIND_VOLUME;
    if (samples) {
        rule->interval_ms = qll_usual_interval_ms(rows->at_ms, rows->value, rows->count, at_end,
                                                  true, QLL_FLOWING_LEAST, lengths);
        if (rule->interval_ms > 0) {
            return false;
        }
    }
    rule->interval_ms =
        qll_usual_interval_ms(rows->at_ms, rows->value, rows->count, at_end, false, 1, lengths);
    return samples;
}

static bool find_interval(qll_log_look *look, const qll_log_shape *shape, const early_rows *rows,
                          qll_records_rule *rule, int64_t *lengths)
{
    rule->is_provisional = find_usual(rows, rule, lengths);
    if (rule->interval_ms == 0 || rule->interval_ms > QLL_DAY_MS) {
        return qll_log_refuse(
            look, QLL_CODE_OUT_OF_RANGE, shape->first_line,
            rule->interval_ms == 0 ? QLL_SAYS(LOG_ONE_ROW) : QLL_SAYS(LOG_DAYS_APART), NULL);
    }
    const double heartbeat_s = look->options->heartbeat_s;
    rule->finds_heartbeat = isnan(heartbeat_s);
    if (!isnan(heartbeat_s)) {
        rule->heartbeat_ms = (int64_t)(fmin(fmax(heartbeat_s, 0.0), 86400.0) * 1000.0);
    } else if (rule->kind == QLL_LOG_KIND_FLOW || rule->kind == QLL_LOG_KIND_VOLUME) {
        rule->heartbeat_ms = heartbeat_ms(rows, rule->interval_ms, lengths);
    }
    return true;
}

/* Points that part thousands would mean a thousand times the flow: more than the meter passes, they part
 * decimals. */
static bool is_over_a_thousandth(const early_rows *rows, const qll_records_rule *rule)
{
    for (size_t i = 1; i < rows->count; i++) {
        const double length_s = (double)(rows->at_ms[i] - rows->at_ms[i - 1]) / 1000.0;
        double amount = rows->value[i];
        amount -= rule->kind == QLL_LOG_KIND_REGISTER ? rows->value[i - 1] : 0.0;
        double flow_m3s = amount * rule->factor;
        flow_m3s /= rule->value_is_flow ? 1.0 : length_s;
        if (length_s > 0.0 && rows->is_three[i] && flow_m3s * 1000.0 > rule->most_m3s) {
            return true;
        }
    }
    return false;
}

bool qll_log_interval_find(qll_log_look *look, qll_log_lane *lane, qll_records_rule *rule)
{
    const qll_log_shape *shape = lane->shape;
    const qll_flow_log_options *options = look->options;
    early_rows rows = {.at_ms = qll_arena_take(look->arena, look->line_count, sizeof *rows.at_ms),
                       .value = qll_arena_take(look->arena, look->line_count, sizeof *rows.value),
                       .is_three =
                           qll_arena_take(look->arena, look->line_count, sizeof *rows.is_three)};
    const size_t room = look->line_count > QLL_USUAL_ROWS ? look->line_count : QLL_USUAL_ROWS;
    int64_t *lengths = qll_arena_take(look->arena, room, sizeof *lengths);
    if (rows.at_ms == NULL || rows.value == NULL || rows.is_three == NULL || lengths == NULL) {
        return false;
    }
    bool own_offsets = false;
    read_rows(look, lane, &rows, &own_offsets);
    double most_m3s =
        isnan(options->most_flow_m3s) ? QLL_LOG_MOST_FLOW_M3S : options->most_flow_m3s;
    *rule = (qll_records_rule){
        .kind = shape->kind,
        .stamp = shape->stamp,
        .factor = shape->factor,
        .value_is_flow = shape->value_is_flow,
        .has_channels = shape->has_channels,
        .keyed = shape->keyed,
        .adds_repeated = options->repeated == QLL_LOG_REPEATED_SUM,
        .own_offsets = own_offsets,
        .interval_ms = 1000,
        .most_m3s = most_m3s < QLL_MOST_FLOW_M3S ? most_m3s : QLL_MOST_FLOW_M3S,
        .dead_band_m3s = isnan(options->dead_band_m3s) ? 0.0 : options->dead_band_m3s,
    };
    if (shape->decimal_doubt && shape->kind != QLL_LOG_KIND_EVENTS
        && !is_over_a_thousandth(&rows, rule)) {
        return qll_log_decimal_refuse(look, shape);
    }
    return shape->kind == QLL_LOG_KIND_EVENTS || find_interval(look, shape, &rows, rule, lengths);
}
