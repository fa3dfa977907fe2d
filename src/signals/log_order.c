/* The log is gone through once for its stretches: how far each reaches in the file and in time, and
 * whether it rises or falls. Then the stretches are merged by time, each read forwards or from its end.
 * Memory holds the list of stretches and a line's room for each that covers the moment at hand. */
#include "signals/log_order.h"

#include <stdlib.h>
#include <string.h>

/* Rows this many usual intervals out of place do not end a stretch: the reader puts them right. */
#define QLL_ORDER_SLACK   16
/* An hour that comes twice on the clock, and a little. */
#define QLL_ORDER_HOUR_MS ((int64_t)3660 * 1000)

typedef struct run {
    uint64_t start, end; /* bytes */
    int64_t first_ms, least_ms, most_ms;
    bool falls;
} run;

/* Lines of a range of bytes, from its start or from its end. */
typedef struct line_reader {
    const qll_log_source *source;
    uint64_t start, end; /* not yet read */
    bool falls;
    char *room; /* QLL_LOG_LINE_SIZE bytes */
    const char *at;
    size_t left; /* bytes at hand */
    qll_text line;
    int64_t at_ms; /* of the line; INT64_MIN if it has no stamp: it stays with its neighbour */
} line_reader;

typedef struct ordering {
    qll_log_lane lane;
    const qll_log_source *source;
    int64_t slack_ms;
    run *runs;
    size_t run_count;
    bool is_shuffled;
    qll_arena *arena;
} ordering;

/* More bytes behind (or in front of) those at hand, which move to the other end of the room. */
static qll_status fill(line_reader *r)
{
    const size_t space = QLL_LOG_LINE_SIZE - r->left;
    const uint64_t unread = r->end - r->start;
    size_t wanted = unread < space ? (size_t)unread : space;
    const char *why = "";
    if (r->falls) {
        char *to = r->room + QLL_LOG_LINE_SIZE - r->left;
        memmove(to, r->at, r->left);
        r->at = to - wanted;
        const qll_status status =
            r->source->read_at(r->source->context, r->end - wanted, to - wanted, &wanted, &why);
        r->end -= wanted;
        r->left += wanted;
        return status;
    }
    memmove(r->room, r->at, r->left);
    r->at = r->room;
    const qll_status status =
        r->source->read_at(r->source->context, r->start, r->room + r->left, &wanted, &why);
    r->start = wanted == 0 ? r->end : r->start + wanted;
    r->left += wanted;
    return status;
}

/* The last line at hand, or all of it where the range begins there; false if more bytes are needed. */
static bool take_last(line_reader *r)
{
    size_t end = r->left;
    end -= end > 0 && r->at[end - 1] == '\n' ? 1U : 0U;
    size_t start = end;
    while (start > 0 && r->at[start - 1] != '\n') {
        start -= 1;
    }
    if (start == 0 && r->start < r->end && r->left < QLL_LOG_LINE_SIZE) {
        return false;
    }
    r->line = (qll_text){r->at + start, end - start};
    r->left = start;
    return true;
}

static bool take_first(line_reader *r)
{
    const char *stop = r->left == 0 ? NULL : memchr(r->at, '\n', r->left);
    if (stop == NULL && r->start < r->end && r->left < QLL_LOG_LINE_SIZE) {
        return false;
    }
    const size_t size = stop == NULL ? r->left : (size_t)(stop - r->at);
    r->line = (qll_text){r->at, size};
    const size_t taken = stop == NULL ? size : size + 1;
    r->at += taken;
    r->left -= taken;
    return true;
}

/* The next line; one longer than the room comes in pieces, which the reader refuses. */
static qll_status next_line(line_reader *r, bool *more)
{
    *more = true;
    for (;;) {
        if (r->left > 0 && (r->falls ? take_last(r) : take_first(r))) {
            return QLL_OK;
        }
        if (r->start >= r->end) {
            *more = false;
            return QLL_OK;
        }
        const qll_status status = fill(r);
        if (status != QLL_OK) {
            return status;
        }
    }
}

static bool is_empty(qll_text line)
{
    return line.size == 0 || (line.size == 1 && line.bytes[0] == '\r');
}

static bool time_of(ordering *o, qll_text line, int64_t *at_ms)
{
    const qll_log_shape *shape = o->lane.shape;
    qll_text cells[QLL_LOG_COLUMNS];
    const qll_arena_mark mark = qll_arena_now(o->arena);
    if (line.size > 0 && line.bytes[line.size - 1] == '\r') {
        line.size -= 1;
    }
    const size_t count = shape->delimiter == '{' ? qll_log_json_cells(shape, line, o->arena, cells)
                                                 : qll_log_split(line, shape->delimiter, cells);
    const bool good = count >= shape->needed_count && count <= QLL_LOG_COLUMNS
                      && qll_log_row_time(&o->lane, cells, 0, false, at_ms);
    qll_arena_reset(o->arena, mark);
    return good;
}

/* ---- the stretches ---- */

static void begin_run(ordering *o, uint64_t start, int64_t at_ms)
{
    if (o->run_count == QLL_ORDER_RUNS) {
        o->is_shuffled = true;
        return;
    }
    if (o->run_count > 0) {
        o->runs[o->run_count - 1].end = start;
    }
    o->runs[o->run_count] =
        (run){.start = start, .first_ms = at_ms, .least_ms = at_ms, .most_ms = at_ms};
    o->run_count += 1;
}

/* Does a row go on with the stretch, which may rise, fall or not yet show which? */
static bool goes_on(const ordering *o, run *last, int64_t at_ms)
{
    const int64_t slack = o->slack_ms;
    const bool rises = last->most_ms > last->first_ms + slack;
    const bool falls = last->least_ms < last->first_ms - slack;
    if ((rises && at_ms < last->most_ms - slack) || (falls && at_ms > last->least_ms + slack)) {
        return false;
    }
    last->least_ms = at_ms < last->least_ms ? at_ms : last->least_ms;
    last->most_ms = at_ms > last->most_ms ? at_ms : last->most_ms;
    last->falls = last->least_ms < last->first_ms - slack
                  || (!rises && last->first_ms - last->least_ms > last->most_ms - last->first_ms);
    return true;
}

static qll_status find_runs(ordering *o, uint64_t *head_end)
{
    line_reader all = {.source = o->source,
                       .end = o->source->size,
                       .room = qll_arena_take(o->arena, QLL_LOG_LINE_SIZE, 1)};
    if (all.room == NULL) {
        return QLL_NO_MEMORY;
    }
    all.at = all.room;
    long long line_count = 0;
    bool more = true;
    *head_end = 0;
    while (!o->is_shuffled) {
        const uint64_t start = all.start - all.left;
        const qll_status status = next_line(&all, &more);
        if (status != QLL_OK) {
            return status;
        }
        if (!more) {
            break;
        }
        line_count += 1;
        int64_t at_ms = 0;
        if (line_count < o->lane.shape->first_line) {
            *head_end = all.start - all.left;
        } else if (!is_empty(all.line) && time_of(o, all.line, &at_ms)
                   && (o->run_count == 0 || !goes_on(o, &o->runs[o->run_count - 1], at_ms))) {
            begin_run(o, o->run_count == 0 ? *head_end : start, at_ms);
        }
    }
    if (o->run_count > 0) {
        o->runs[o->run_count - 1].end = o->source->size;
    }
    return QLL_OK;
}

static int by_time(const void *a, const void *b)
{
    const run *first = a;
    const run *second = b;
    if (first->least_ms != second->least_ms) {
        return first->least_ms < second->least_ms ? -1 : 1;
    }
    return first->start < second->start ? -1 : first->start > second->start;
}

/* How many stretches cover one moment. */
static size_t most_at_once(const ordering *o)
{
    int64_t ends_ms[QLL_ORDER_ACTIVE + 1];
    size_t open = 0;
    size_t most = 0;
    for (size_t i = 0; i < o->run_count && most <= QLL_ORDER_ACTIVE; i++) {
        size_t kept = 0;
        for (size_t k = 0; k < open; k++) {
            if (ends_ms[k] >= o->runs[i].least_ms) {
                ends_ms[kept] = ends_ms[k];
                kept += 1;
            }
        }
        ends_ms[kept] = o->runs[i].most_ms;
        open = kept + 1;
        most = open > most ? open : most;
    }
    return most;
}

/* ---- in the order of time ---- */

typedef struct merge {
    ordering *of;
    line_reader readers[QLL_ORDER_ACTIVE];
    size_t reader_count, next_run;
    qll_flow_log *log;
    char *out;
    size_t out_size;
    qll_status told; /* what the log says of its bytes */
} merge;

static void put(merge *m, const char *bytes, size_t size)
{
    if (size > QLL_LOG_LINE_SIZE - m->out_size && m->told == QLL_OK) {
        m->told = qll_flow_log_feed(m->log, m->out, m->out_size);
        m->out_size = 0;
    }
    if (m->told == QLL_OK) {
        memcpy(m->out + m->out_size, bytes, size);
        m->out_size += size;
    }
}

/* What stands above the rows, as it is. */
static qll_status put_head(merge *m, uint64_t size)
{
    const qll_log_source *source = m->of->source;
    const char *why = "";
    qll_status status = QLL_OK;
    for (uint64_t at = 0; at < size && status == QLL_OK && m->told == QLL_OK;) {
        char block[4096];
        size_t got = size - at < sizeof block ? (size_t)(size - at) : sizeof block;
        status = source->read_at(source->context, at, block, &got, &why);
        put(m, block, got);
        at = got == 0 ? size : at + got;
    }
    return status;
}

/* The reader's next line; the reader is given back where there is none. */
static qll_status advance(merge *m, size_t i)
{
    line_reader *r = &m->readers[i];
    bool more = false;
    qll_status status = next_line(r, &more);
    while (status == QLL_OK && more && is_empty(r->line)) {
        status = next_line(r, &more);
    }
    if (status == QLL_OK && more) {
        if (!time_of(m->of, r->line, &r->at_ms)) {
            r->at_ms = INT64_MIN;
        }
        return QLL_OK;
    }
    char *room = r->room;
    m->reader_count -= 1;
    *r = m->readers[m->reader_count];
    m->readers[m->reader_count].room = room;
    return status;
}

static qll_status open_next(merge *m)
{
    const run *next = &m->of->runs[m->next_run];
    line_reader *r = &m->readers[m->reader_count];
    char *room = r->room != NULL ? r->room : qll_arena_take(m->of->arena, QLL_LOG_LINE_SIZE, 1);
    if (room == NULL) {
        return QLL_NO_MEMORY;
    }
    *r = (line_reader){.source = m->of->source,
                       .start = next->start,
                       .end = next->end,
                       .falls = next->falls,
                       .room = room,
                       .at = next->falls ? room + QLL_LOG_LINE_SIZE : room};
    m->next_run += 1;
    m->reader_count += 1;
    return advance(m, m->reader_count - 1);
}

static size_t earliest(const merge *m)
{
    size_t best = 0;
    for (size_t i = 1; i < m->reader_count; i++) {
        best = m->readers[i].at_ms < m->readers[best].at_ms ? i : best;
    }
    return best;
}

static qll_status put_rows(merge *m)
{
    qll_status status = QLL_OK;
    while (status == QLL_OK && m->told == QLL_OK
           && (m->reader_count > 0 || m->next_run < m->of->run_count)) {
        const size_t first = earliest(m);
        if (m->next_run < m->of->run_count
            && (m->reader_count == 0
                || m->of->runs[m->next_run].least_ms <= m->readers[first].at_ms)) {
            status = open_next(m);
            continue;
        }
        put(m, m->readers[first].line.bytes, m->readers[first].line.size);
        put(m, "\n", 1);
        status = advance(m, first);
    }
    return status;
}

qll_status qll_log_order_feed(const qll_log_lane *lane, const qll_log_source *source,
                              qll_flow_log *log, qll_arena *arena, qll_log_found_order *order)
{
    const int64_t interval_ms = lane->records.rule.interval_ms;
    ordering o = {.lane = *lane,
                  .source = source,
                  .slack_ms =
                      lane->zone.has_summer ? QLL_ORDER_HOUR_MS : QLL_ORDER_SLACK * interval_ms,
                  .runs = qll_arena_take(arena, QLL_ORDER_RUNS, sizeof(run)),
                  .arena = arena};
    merge m = {.of = &o, .log = log, .out = qll_arena_take(arena, QLL_LOG_LINE_SIZE, 1)};
    if (o.runs == NULL || m.out == NULL) {
        return QLL_NO_MEMORY;
    }
    o.lane.second = false;
    uint64_t head_end = 0;
    qll_status status = find_runs(&o, &head_end);
    if (status != QLL_OK) {
        return status;
    }
    qsort(o.runs, o.run_count, sizeof *o.runs, by_time);
    if (o.is_shuffled || most_at_once(&o) > QLL_ORDER_ACTIVE) {
        *order = QLL_LOG_SHUFFLED;
        return QLL_OK;
    }
    *order = o.run_count == 1 && o.runs[0].falls ? QLL_LOG_NEWEST_FIRST : QLL_LOG_JOINED;
    status = put_head(&m, head_end);
    status = status == QLL_OK ? put_rows(&m) : status;
    if (status == QLL_OK && m.told == QLL_OK) {
        m.told = qll_flow_log_feed(log, m.out, m.out_size);
    }
    return m.told == QLL_NO_MEMORY ? QLL_NO_MEMORY : status;
}
