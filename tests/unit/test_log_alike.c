/* Rows of a log of pressures that are written as the one before: what is compared gives what is read cell by cell. The truth is
 * the same log in crumbs, of which no line is whole, so that all is read the general way. */
#include "check.h"
#include "signals/flow_log.h"
#include "signals/log_channels.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define QLL_ROWS      3000
#define QLL_TEXT_ROOM ((size_t)512 * 1024)
/* A row is shorter, and there is room for it behind the last. */
#define QLL_CELL_ROOM ((size_t)200)

/* What a taker was handed, bit by bit. */
typedef struct taken {
    size_t count;
    int64_t at_ms[QLL_ROWS];
    double value[QLL_CHANNEL_COUNT][QLL_ROWS];
} taken;

static void *begin(void *context, const qll_channel_facts *facts, qll_arena *arena)
{
    (void)facts;
    (void)arena;
    return context;
}

static void take(void *state, const int64_t *at_ms, const double *const *values, size_t count)
{
    taken *to = state;
    for (size_t i = 0; i < count && CHECK(to->count < QLL_ROWS); i++) {
        to->at_ms[to->count] = at_ms[i];
        for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
            to->value[c][to->count] = values[c] == NULL ? -1.0 : values[c][i];
        }
        to->count += 1;
    }
}

static bool read_log(const char *text, size_t size, size_t block, taken *to,
                     qll_flow_log_result *result)
{
    const qll_channel_taker taker = {.context = to, .begin = begin, .take = take};
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_problems problems = qll_problems_none(arena);
    qll_flow_log_options options = qll_flow_log_options_default();
    options.taker = &taker;
    memset(to, 0, sizeof *to);
    qll_flow_log *log = qll_flow_log_open(&options, arena);
    qll_status status = log == NULL ? QLL_NO_MEMORY : QLL_OK;
    for (size_t at = 0; at < size && status == QLL_OK; at += block) {
        status = qll_flow_log_feed(log, text + at, size - at < block ? size - at : block);
    }
    status = status == QLL_OK ? qll_flow_log_finish(log, result, &problems) : status;
    qll_arena_close(arena);
    return status == QLL_OK;
}

static taken whole;
static taken crumbs;

static bool are_same_values(void)
{
    size_t differ = 0;
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        for (size_t i = 0; i < whole.count; i++) {
            const double one = whole.value[c][i], other = crumbs.value[c][i];
            differ += one == other || (isnan(one) && isnan(other)) ? 0 : 1;
        }
    }
    return differ == 0;
}

/* Blocks of 61 bytes never hold what the fast way asks for; 4096 end in the middle of rows. */
static void check_same(const char *text)
{
    static const size_t blocks[] = {SIZE_MAX / 2, 4096};
    qll_flow_log_result slow;
    CHECK(read_log(text, strlen(text), 61, &crumbs, &slow));
    CHECK(crumbs.count > 100);
    for (size_t b = 0; b < 2; b++) {
        qll_flow_log_result fast;
        CHECK(read_log(text, strlen(text), blocks[b], &whole, &fast));
        CHECK(whole.count == crumbs.count && fast.row_count == slow.row_count
              && fast.line_count == slow.line_count);
        CHECK(memcmp(whole.at_ms, crumbs.at_ms, sizeof whole.at_ms) == 0);
        CHECK(are_same_values());
        for (size_t kind = 0; kind < QLL_LOG_MEND_COUNT; kind++) {
            CHECK(fast.mends[kind].count == slow.mends[kind].count);
        }
    }
}

static uint64_t state = 1;

static unsigned draw(unsigned below)
{
    state = state * 6364136223846793005U + 1442695040888963407U;
    return (unsigned)(state >> 33) % below;
}

/* A cell as loggers write them, and as they should not; @p width changes seldom, so that rows are alike. */
static int put_cell(char *at, unsigned width, unsigned tenths)
{
    const unsigned odd = draw(60);
    switch (odd) {
    case 0: return snprintf(at, QLL_CELL_ROOM, "9999");
    case 1: return snprintf(at, QLL_CELL_ROOM, "-%u.%u", tenths / 10, tenths % 10);
    case 2: return snprintf(at, QLL_CELL_ROOM, "%s", "");
    case 3: return snprintf(at, QLL_CELL_ROOM, "%u.", tenths / 10);
    case 4: return snprintf(at, QLL_CELL_ROOM, ".%u", tenths % 10);
    case 5: return snprintf(at, QLL_CELL_ROOM, "%u.%ue1", tenths / 10, tenths % 10);
    case 6: return snprintf(at, QLL_CELL_ROOM, "\"%u.%u\"", tenths / 10, tenths % 10);
    case 7: return snprintf(at, QLL_CELL_ROOM, "ERR");
    case 8: return snprintf(at, QLL_CELL_ROOM, "%u.%u9999999", tenths / 10, tenths % 10);
    case 9: return snprintf(at, QLL_CELL_ROOM, "9998.9");
    default: break;
    }
    return width == 0   ? snprintf(at, QLL_CELL_ROOM, "%u", tenths / 10)
           : width == 1 ? snprintf(at, QLL_CELL_ROOM, "%u.%u", tenths / 10, tenths % 10)
                        : snprintf(at, QLL_CELL_ROOM, "%u.%u%0*u", tenths / 10, tenths % 10,
                                   (int)width - 1, draw(10));
}

typedef struct form {
    const char *header, *stamp_end; /* behind the seconds */
    const char *between, *behind;   /* more cells */
    int thousandths;                /* ms from row to row; 0 = whole seconds */
    const char *line_end;
    bool is_quoted;
} form;

static char *write_log(const form *as, bool is_odd)
{
    char *text = malloc(QLL_TEXT_ROOM);
    size_t size = (size_t)snprintf(text, QLL_TEXT_ROOM, "%s%s", as->header, as->line_end);
    int64_t ms = INT64_C(86398) * 1000; /* over a minute, an hour and a day soon */
    unsigned width = 1, flow = 0;       /* the flow stands still for some rows, and may come back */
    for (int row = 0; row < QLL_ROWS - 100; row++) {
        ms += as->thousandths > 0 ? as->thousandths : 1000;
        ms += is_odd && draw(50) == 0 ? 3000 : 0;
        const int64_t shown_ms = is_odd && draw(80) == 0 ? ms - 2500 : ms; /* late, or twice */
        const int64_t s = shown_ms / 1000;
        width = draw(40) == 0 ? draw(4) : width;
        flow = draw(12) == 0 ? draw(3) : flow;
        char *at = text + size;
        at +=
            snprintf(at, QLL_CELL_ROOM, "%s2026-03-%02dT%02d:%02d:%02d", as->is_quoted ? "\"" : "",
                     1 + (int)(s / 86400), (int)(s / 3600 % 24), (int)(s / 60 % 60), (int)(s % 60));
        at +=
            as->thousandths > 0 ? snprintf(at, QLL_CELL_ROOM, ".%03d", (int)(shown_ms % 1000)) : 0;
        at += snprintf(at, QLL_CELL_ROOM, "%s%s,%s", as->stamp_end, as->is_quoted ? "\"" : "",
                       as->between);
        at += is_odd ? put_cell(at, width, 6950 + draw(100))
                     : snprintf(at, QLL_CELL_ROOM, "6%02u.5", draw(100));
        *at++ = ',';
        at += is_odd ? put_cell(at, width, 950 + draw(100))
                     : snprintf(at, QLL_CELL_ROOM, "%u.2", 95 + draw(10));
        at += snprintf(at, QLL_CELL_ROOM, ",%s0.%02u%s%s", as->between, flow, as->behind,
                       as->line_end);
        size = (size_t)(at - text);
    }
    return text;
}

TEST(all_forms_read_alike)
{
    static const form forms[] = {
        {"time,inlet (kPa),outlet (kPa),flow (L/s)", "Z", "", "", 0, "\n", false},
        {"time,inlet (psi),outlet (psi),flow (L/s)", "+01:00", "", "", 0, "\n", false},
        {"time,inlet (kPa),outlet (kPa),flow (L/s)", "", "", "", 0, "\r\n", false},
        {"time,inlet (kPa),outlet (kPa),flow (L/s)", "Z", "", "", 4, "\n", false},
        {"time,inlet (kPa),outlet (kPa),flow (L/s)", "", "", "", 1, "\n", false},
        {"time,inlet (kPa),outlet (kPa),flow (L/s),battery", "Z", "", ",3.61", 0, "\n", false},
        {"time,a,inlet (kPa),outlet (kPa),b,flow (L/s)", "Z", "17,", "", 0, "\n", false},
        {"time,inlet (kPa),outlet (kPa),flow (L/s)", "Z", "", "", 0, "\n", true},
    };
    for (size_t f = 0; f < sizeof forms / sizeof *forms; f++) {
        for (int odd = 0; odd < 2; odd++) {
            char *text = write_log(&forms[f], odd == 1);
            check_same(text);
            free(text);
        }
    }
}

/* What is read is what was written, not only the same twice. */
TEST(rows_alike_hold_what_was_written)
{
    char *text = malloc(QLL_TEXT_ROOM);
    size_t size =
        (size_t)snprintf(text, QLL_TEXT_ROOM, "time,inlet (kPa),outlet (kPa),flow (L/s)\n");
    for (int i = 0; i < 2000; i++) {
        size += (size_t)snprintf(text + size, QLL_TEXT_ROOM - size,
                                 "2026-03-01T%02d:%02d:%02dZ,%d.%d,35%d.25,0.%03d\n", i / 3600,
                                 i / 60 % 60, i % 60, 600 + i % 200, i % 10, i % 10, i % 1000);
    }
    qll_flow_log_result result;
    CHECK(read_log(text, size, size, &whole, &result));
    CHECK(whole.count == 2000);
    for (int i = 0; i < 2000; i++) {
        CHECK(whole.at_ms[i] == INT64_C(1772323200000) + (int64_t)i * 1000);
        CHECK_NEAR(whole.value[QLL_CHANNEL_INLET][i], (600 + i % 200 + 0.1 * (i % 10)) * 1e3, 1e-6);
        CHECK_NEAR(whole.value[QLL_CHANNEL_OUTLET][i], (350.25 + i % 10) * 1e3, 1e-6);
        CHECK_NEAR(whole.value[QLL_CHANNEL_FLOW][i], (i % 1000) * 1e-6, 1e-15);
    }
    free(text);
}

int main(void)
{
    TEST_RUN(all_forms_read_alike);
    TEST_RUN(rows_alike_hold_what_was_written);
    return TEST_END();
}
