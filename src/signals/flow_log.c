/* The log comes in blocks. The first bytes are kept until the shape is known; from there on every
 * line is read once and forgotten. While the order of a date's numbers is open, the log is read in
 * every order that is left, each with figures of its own; the first row that fits one order only
 * decides. */
#include "signals/flow_log.h"

#include "signals/log_interval.h"
#include "signals/log_reader.h"
#include "signals/log_repeated.h"

#include <math.h>
#include <string.h>

#define QLL_HEAD_SIZE  QLL_LOG_LINE_SIZE
#define QLL_HEAD_LINES ((size_t)1000)

qll_flow_log_options qll_flow_log_options_default(void)
{
    return (qll_flow_log_options){.pulse_m3 = (double)NAN,
                                  .most_flow_m3s = (double)NAN,
                                  .dead_band_m3s = (double)NAN,
                                  .least_quality = (double)NAN,
                                  .heartbeat_s = (double)NAN};
}

qll_flow_log *qll_flow_log_open(const qll_flow_log_options *options, qll_arena *arena)
{
    qll_flow_log *log = qll_arena_take(arena, 1, sizeof *log);
    if (log == NULL) {
        return NULL;
    }
    log->options = *options;
    log->arena = arena;
    log->problems = qll_problems_none(arena);
    log->head = qll_arena_take(arena, QLL_HEAD_SIZE, 1);
    log->carry = qll_arena_take(arena, QLL_LOG_LINE_SIZE, 1);
    log->shape = qll_arena_take(arena, 1, sizeof *log->shape);
    log->look = (qll_log_look){.options = &log->options, .arena = arena};
    log->look.lines = qll_arena_take(arena, QLL_HEAD_LINES, sizeof *log->look.lines);
    if (log->head == NULL || log->carry == NULL || log->shape == NULL || log->look.lines == NULL) {
        return NULL;
    }
    log->look.problems = &log->problems;
    return log;
}

static qll_status fail(qll_flow_log *log)
{
    log->status =
        qll_problems_status(&log->problems) == QLL_NO_MEMORY ? QLL_NO_MEMORY : QLL_REFUSED;
    return log->status;
}

/* ---- lines ---- */

/* Blanks at the ends of a line may be empty cells. */
static qll_text without_return(const char *bytes, size_t size)
{
    return (qll_text){bytes, size > 0 && bytes[size - 1] == '\r' ? size - 1 : size};
}

static bool is_passed_over(qll_flow_log *log, qll_text line)
{
    if (qll_text_trimmed(line).size == 0 || line.bytes[0] == '#') {
        return true;
    }
    if (log->shape->header.size > 0 && qll_text_equal(line, log->shape->header)) {
        for (size_t i = 0; i < log->lane_count; i++) {
            qll_records_mend(&log->lanes[i].records, QLL_LOG_MEND_HEADER, log->line_count,
                             INT64_MIN);
        }
        return true;
    }
    return false;
}

/* Lanes that cannot read a stamp which another can are given up. */
static void drop_lanes(qll_flow_log *log, const qll_row_state *states)
{
    size_t readable = 0;
    for (size_t i = 0; i < log->lane_count; i++) {
        readable += states[i] != QLL_ROW_BAD_STAMP ? 1U : 0U;
    }
    size_t kept = 0;
    for (size_t i = 0; i < log->lane_count; i++) {
        if (states[i] == QLL_ROW_BAD_STAMP && readable == 0) {
            qll_records_mend(&log->lanes[i].records, QLL_LOG_MEND_STAMP, log->line_count,
                             INT64_MIN);
        }
        if (states[i] != QLL_ROW_BAD_STAMP || readable == 0) {
            if (kept != i) {
                log->lanes[kept] = log->lanes[i];
            }
            kept += 1;
        }
    }
    log->lane_count = kept;
}

static bool refuse_row(qll_flow_log *log, qll_code code, const qll_said *says, const qll_said *hint)
{
    qll_writer path = qll_writer_new(log->arena);
    if (log->begun) {
        qll_write_format(&path, "row %lld", log->line_count - log->shape->first_line + 1);
    }
    return qll_log_refuse_at(&log->look, code, log->line_count, qll_writer_text(&path).bytes, says,
                             hint);
}

static bool refuse_meter(qll_flow_log *log, const qll_text *cells)
{
    const size_t column = log->shape->role[QLL_ROLE_METER];
    /* The cell's bytes are the caller's, and gone before the problem is said. */
    const char *meter = qll_text_closed(cells[column], log->arena);
    if (meter == NULL) {
        return false;
    }
    return refuse_row(log, QLL_CODE_CONTRADICTION,
                      QLL_SAYS_WITH(LOG_OTHER_METER, qll_as_quoted(qll_text_of(meter))),
                      QLL_SAYS_WITH(ASK_METER, qll_as_quoted(log->shape->columns[column].name)));
}

static bool take_line(qll_flow_log *log, qll_text line)
{
    log->line_count += 1;
    line = without_return(line.bytes, line.size);
    if (log->line_count < log->shape->first_line || is_passed_over(log, line)) {
        return true;
    }
    qll_text cells[QLL_LOG_COLUMNS];
    bool json = log->shape->delimiter == '{';
    qll_arena_mark mark = qll_arena_now(log->arena);
    size_t count = json ? qll_log_json_cells(log->shape, line, log->arena, cells)
                        : qll_log_split(line, log->shape->delimiter, cells);
    if (json && count == 0 && qll_text_trimmed(line).size <= 1) {
        return true; /* the brackets around a list */
    }
    qll_row_state states[QLL_LOG_ORDER_COUNT] = {QLL_ROW_TAKEN};
    bool bad = count > QLL_LOG_COLUMNS;
    count = bad ? QLL_LOG_COLUMNS : count;
    for (size_t i = 0; i < log->lane_count; i++) {
        states[i] = qll_log_row_take(&log->lanes[i], cells, count, log->line_count);
        bad = bad || states[i] == QLL_ROW_BAD_STAMP;
    }
    bool good = true;
    if (states[0] == QLL_ROW_METER) {
        good = refuse_meter(log, cells);
    } else if (log->lanes[0].records.too_far) {
        good = refuse_row(log, QLL_CODE_NOT_RISING,
                          QLL_SAYS_WITH(LOG_TOO_FAR, qll_as_whole(QLL_LOG_WINDOW_KEYED)),
                          QLL_SAYS(HINT_SORT));
    } else if (bad) {
        drop_lanes(log, states);
    }
    if (json && good) {
        qll_arena_reset(log->arena, mark);
    }
    return good;
}

static bool refuse_long_line(qll_flow_log *log)
{
    log->line_count += 1;
    return refuse_row(log, QLL_CODE_TOO_LARGE,
                      QLL_SAYS_WITH(LOG_LINE_LONG, qll_as_whole(QLL_LOG_LINE_SIZE)),
                      QLL_SAYS(HINT_ROW_PER_LINE));
}

/* Keeps the end of a block for the next one. */
static bool carry(qll_flow_log *log, const char *bytes, size_t size)
{
    if (size > QLL_LOG_LINE_SIZE - log->carry_size) {
        return refuse_long_line(log);
    }
    memcpy(log->carry + log->carry_size, bytes, size);
    log->carry_size += size;
    return true;
}

/* Empty lines, eight at a time: a file of nothing else costs no more than its bytes. */
static const char *skip_empty(const char *at, const char *end, long long *line_count)
{
    const char *start = at;
    uint64_t eight = 0;
    while (end - at >= 8) {
        memcpy(&eight, at, sizeof eight);
        if (eight != UINT64_C(0x0A0A0A0A0A0A0A0A)) {
            break;
        }
        at += 8;
    }
    while (at < end && *at == '\n') {
        at += 1;
    }
    *line_count += at - start;
    while (end - at >= 2 && at[0] == '\r' && at[1] == '\n') {
        at += 2;
        *line_count += 1;
    }
    return at;
}

/* Past whole rows of the plainest form and past empty lines. */
static const char *take_fast(qll_flow_log *log, const char *at, const char *end)
{
    if (log->fast) {
        at = log->shape->has_channels
                 ? qll_log_channels_fast(&log->lanes[0], at, end, &log->line_count)
                 : qll_log_rows_fast(&log->lanes[0], at, end, &log->line_count);
    }
    return at < end && (*at == '\n' || *at == '\r') ? skip_empty(at, end, &log->line_count) : at;
}

static bool take_block(qll_flow_log *log, const char *bytes, size_t size)
{
    const char *at = bytes;
    const char *end = bytes + size;
    while (at < end) {
        at = log->carry_size == 0 ? take_fast(log, at, end) : at;
        if (at == end) {
            return true;
        }
        const char *stop = memchr(at, '\n', (size_t)(end - at));
        if (stop == NULL) {
            return carry(log, at, (size_t)(end - at));
        }
        qll_text line = {at, (size_t)(stop - at)};
        if (log->carry_size > 0) {
            if (!carry(log, at, line.size)) {
                return false;
            }
            line = (qll_text){log->carry, log->carry_size};
            log->carry_size = 0;
        }
        if (line.size > QLL_LOG_LINE_SIZE) {
            return refuse_long_line(log);
        }
        if (!take_line(log, line)) {
            return false;
        }
        log->fast = log->lane_count == 1
                    && (log->shape->has_channels
                            ? qll_log_channels_are_fast(log->shape, log->lanes[0].order)
                            : qll_log_row_is_fast(log->shape, log->lanes[0].order));
        at = stop + 1;
    }
    return true;
}

/* ---- the head ---- */

/* Cuts the head into lines; the last one only if the log ends there. */
static void cut_head(qll_flow_log *log, qll_text head)
{
    const char *at = head.bytes;
    const char *end = head.bytes + head.size;
    while (at < end && log->look.line_count < QLL_HEAD_LINES) {
        const char *stop = memchr(at, '\n', (size_t)(end - at));
        if (stop == NULL && !log->ended_early) {
            break;
        }
        const char *line_end = stop == NULL ? end : stop;
        log->look.lines[log->look.line_count] = without_return(at, (size_t)(line_end - at));
        log->look.line_count += 1;
        at = line_end + 1;
    }
}

static bool check_bytes(qll_flow_log *log, qll_text head)
{
    if (head.size >= 2 && memcmp(head.bytes, "\x1F\x8B", 2) == 0) {
        return qll_log_refuse(&log->look, QLL_CODE_ENCODING, 0, QLL_SAYS(LOG_COMPRESSED),
                              QLL_SAYS(HINT_UNPACK));
    }
    if (head.size > 0 && memchr(head.bytes, '\0', head.size) != NULL) {
        const char *zero = memchr(head.bytes, '\0', head.size);
        long long line = 1;
        for (const char *at = head.bytes; at < zero; at++) {
            line += *at == '\n' ? 1 : 0;
        }
        return qll_log_refuse(&log->look, QLL_CODE_ENCODING, line, QLL_SAYS(LOG_ZERO_BYTES),
                              QLL_SAYS(HINT_SAVE_UTF8));
    }
    if (log->look.line_count == 0) {
        if (head.size == 0) {
            return qll_log_refuse(&log->look, QLL_CODE_EMPTY_LIST, 0, QLL_SAYS(LOG_EMPTY), NULL);
        }
        return refuse_long_line(log);
    }
    return true;
}

/* The last digit of a channel's first cells: the least step that they are written in, in SI. */
static double step_of(const qll_flow_log *log, qll_channel channel)
{
    const qll_log_shape *shape = log->shape;
    const qll_log_look *look = &log->look;
    qll_text cells[QLL_LOG_COLUMNS];
    size_t most = 0;
    bool any = false;
    for (size_t i = look->title_count; i < look->line_count; i++) {
        if (qll_log_look_cells(look, shape, i, cells) != shape->column_count) {
            continue;
        }
        const qll_text cell = cells[shape->channels[channel].column];
        size_t decimals = 0;
        bool is_behind = false;
        for (size_t b = 0; b < cell.size; b++) {
            decimals += is_behind && qll_is_digit(cell.bytes[b]) ? 1U : 0U;
            is_behind = is_behind || cell.bytes[b] == shape->decimal;
            any = any || qll_is_digit(cell.bytes[b]);
        }
        most = decimals > most ? decimals : most;
    }
    return any ? shape->channels[channel].times * pow(10.0, -(double)most) : 0.0;
}

static bool begin_channels(qll_flow_log *log, qll_log_lane *lane)
{
    const qll_log_shape *shape = log->shape;
    qll_channel_facts facts = {.interval_ms = lane->records.rule.interval_ms,
                               .zone = shape->elapsed ? NULL : &lane->zone};
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        facts.has[c] = shape->channels[c].column != SIZE_MAX;
        facts.step[c] = facts.has[c] ? step_of(log, (qll_channel)c) : 0.0;
    }
    return qll_records_begin_channels(&lane->records, log->options.taker, &facts, log->arena);
}

static bool open_lanes(qll_flow_log *log)
{
    qll_log_shape *shape = log->shape;
    bool many = !shape->unix_time && !shape->serial && !shape->elapsed;
    for (int order = QLL_LOG_ORDER_YEAR_FIRST; order < QLL_LOG_ORDER_COUNT; order++) {
        if ((many && (shape->orders & 1U << order) != 0)
            || (!many && order == QLL_LOG_ORDER_YEAR_FIRST)) {
            log->lanes[log->lane_count] = (qll_log_lane){.shape = shape,
                                                         .options = &log->options,
                                                         .order = (qll_log_order)order,
                                                         .zone = shape->zone,
                                                         .last_local_ms = INT64_MIN};
            log->lane_count += 1;
        }
    }
    for (size_t i = 0; i < log->lane_count; i++) {
        qll_records_rule rule;
        if (!qll_log_interval_find(&log->look, &log->lanes[i], &rule)) {
            return false;
        }
        if (log->lane_count == 1 && !qll_log_repeated_check(&log->look, &log->lanes[i])) {
            return false;
        }
        if (!qll_records_begin(&log->lanes[i].records, &rule, &log->lanes[i].zone,
                               log->options.blocks_from_first, log->arena)
            || (shape->has_channels && !begin_channels(log, &log->lanes[i]))) {
            return false;
        }
    }
    return true;
}

static bool begin(qll_flow_log *log)
{
    qll_text head = {log->head, log->head_size};
    if (head.size >= 3 && memcmp(head.bytes, "\xEF\xBB\xBF", 3) == 0) {
        head = (qll_text){head.bytes + 3, head.size - 3};
    }
    cut_head(log, head);
    if (!check_bytes(log, head) || !qll_log_shape_find(&log->look, log->shape)
        || !(log->options.taker != NULL ? qll_log_channels_find(&log->look, log->shape)
                                        : qll_log_measure_find(&log->look, log->shape))
        || !open_lanes(log)) {
        return false;
    }
    log->begun = true;
    return take_block(log, head.bytes, head.size);
}

static qll_status feed_text(void *context, const char *bytes, size_t size)
{
    qll_flow_log *log = context;
    if (log->status != QLL_OK) {
        return log->status;
    }
    if (!log->begun) {
        size_t part = size < QLL_HEAD_SIZE - log->head_size ? size : QLL_HEAD_SIZE - log->head_size;
        if (part > 0) {
            memcpy(log->head + log->head_size, bytes, part);
        }
        log->head_size += part;
        if (log->head_size < QLL_HEAD_SIZE) {
            return QLL_OK;
        }
        if (!begin(log)) {
            return fail(log);
        }
        bytes += part;
        size -= part;
    }
    return size == 0 || take_block(log, bytes, size) ? QLL_OK : fail(log);
}

qll_status qll_flow_log_feed(qll_flow_log *log, const char *bytes, size_t size)
{
    return qll_utf16_feed(&log->utf16, bytes, size, feed_text, log);
}

/* ---- the end ---- */

static bool refuse_order(qll_flow_log *log)
{
    return qll_log_refuse(&log->look, QLL_CODE_CONTRADICTION, log->shape->first_line,
                          QLL_SAYS(LOG_DATES_OPEN), QLL_SAYS(ASK_ORDER));
}

static const char *name_of(qll_flow_log *log, size_t column)
{
    if (column == SIZE_MAX) {
        return "";
    }
    return qll_text_closed(log->shape->columns[column].name, log->arena);
}

static bool end(qll_flow_log *log, qll_flow_log_result *result)
{
    if (!log->begun) {
        log->ended_early = true;
        if (!begin(log)) {
            return false;
        }
    }
    if (log->carry_size > 0) {
        qll_text line = {log->carry, log->carry_size};
        log->carry_size = 0;
        if (!take_line(log, line)) {
            return false;
        }
    }
    if (log->lane_count > 1) {
        return refuse_order(log);
    }
    const qll_log_shape *shape = log->shape;
    *result = (qll_flow_log_result){
        .kind = shape->kind,
        .order = shape->unix_time || shape->serial || shape->elapsed ? QLL_LOG_ORDER_UNKNOWN
                                                                     : log->lanes[0].order,
        .stamp = shape->stamp,
        .delimiter = shape->delimiter,
        .decimal = shape->decimal,
        .unit = shape->unit_name,
        .local_known = shape->local_known,
        .line_count = log->line_count,
    };
    result->time_column =
        name_of(log, shape->role[shape->date_and_clock ? QLL_ROLE_DATE : QLL_ROLE_TIME]);
    result->value_column = name_of(log, shape->value);
    if (shape->has_channels) {
        result->is_elapsed = shape->elapsed;
        result->zone = &log->lanes[0].zone;
        result->offset_known =
            log->options.zone != NULL || shape->unix_time || log->lanes[0].records.rule.own_offsets;
        for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
            const size_t column = shape->channels[c].column;
            result->channel_columns[c] = column == SIZE_MAX ? NULL : name_of(log, column);
            result->channel_units[c] = column == SIZE_MAX ? NULL : shape->channels[c].unit;
        }
        qll_records_end_channels(&log->lanes[0].records, result);
        return qll_log_trust_rows(log, result);
    }
    return qll_records_end(&log->lanes[0].records, log->arena, result)
           && qll_log_meter_of(&log->lanes[0].records, log->arena, result)
           && qll_log_trust(log, result);
}

qll_status qll_flow_log_finish(qll_flow_log *log, qll_flow_log_result *result,
                               qll_problems *problems)
{
    if (log->status == QLL_OK) {
        log->status = qll_utf16_end(&log->utf16, feed_text, log);
    }
    if (log->status == QLL_OK && !end(log, result)) {
        (void)fail(log);
    }
    for (size_t i = 0; i < log->problems.kept_count; i++) {
        (void)qll_problems_add(problems, log->problems.kept[i]);
    }
    const bool starved = qll_problems_status(&log->problems) == QLL_NO_MEMORY
                         || qll_problems_status(problems) == QLL_NO_MEMORY;
    return starved ? QLL_NO_MEMORY : log->status;
}
