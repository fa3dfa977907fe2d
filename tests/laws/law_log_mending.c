/* Laws of the log reader: the order of files changes no figure, and no single row that is moved, doubled,
 * scaled or emptied moves the mean by more than 5 % unless the log says so or is refused. */
#include "log_scene.h"

#include <math.h>

#define TEST_ROWS 1440

typedef struct text_log {
    char *rows[TEST_ROWS * 2];
    size_t count;
    char *bytes;
    size_t size;
} text_log;

/* gpm of uses that last some minutes, made up: about 0.7 on average, 13 at most. */
static double flow_gpm(size_t minute)
{
    unsigned long long state = (minute / 3 + 1) * 6364136223846793005ULL + 1442695040888963407ULL;
    state ^= state >> 29;
    state *= 0xBF58476D1CE4E5B9ULL;
    state ^= state >> 32;
    const double chance = (double)(state % 1000) / 1000.0;
    return chance < 0.8
               ? 0.0
               : round((chance - 0.79) * 60.0 * 1000.0 + (double)(minute % 3) * 90.0) / 1000.0;
}

typedef enum form {
    QLL_TEST_FLOW,
    QLL_TEST_VOLUME,
    QLL_TEST_REGISTER,
    QLL_TEST_PULSES,
    QLL_TEST_FORMS
} form;

static const char *const headers[QLL_TEST_FORMS] = {"Time,Flow (gpm)\n", "Time,Usage (gal)\n",
                                                    "Time,Reading (gal)\n",
                                                    "0.1 gal/pulse\nTime,Pulses\n"};

static double value_of(form kind, size_t minute)
{
    static double readings[TEST_ROWS];
    for (size_t i = 0; i < TEST_ROWS && readings[TEST_ROWS - 1] == 0.0; i++) {
        readings[i] = (i == 0 ? 48120.0 : readings[i - 1]) + flow_gpm(i);
    }
    switch (kind) {
    case QLL_TEST_REGISTER: return readings[minute];
    case QLL_TEST_PULSES: return round(flow_gpm(minute) * 10.0);
    case QLL_TEST_FLOW:
    case QLL_TEST_VOLUME:
    case QLL_TEST_FORMS: break;
    }
    return flow_gpm(minute);
}

static char *row_of(form kind, size_t minute, double times, bool empty)
{
    char row[64];
    const size_t day = 18 + minute / 1440;
    const int size = snprintf(row, sizeof row, "2024-07-%02zu %02zu:%02zu:00,", day,
                              minute / 60 % 24, minute % 60);
    if (!empty) {
        snprintf(row + size, sizeof row - (size_t)size, kind == QLL_TEST_PULSES ? "%.0f" : "%.3f",
                 value_of(kind, minute) * times);
    }
    const size_t room = strlen(row) + 1;
    char *copy = malloc(room);
    if (copy == NULL) {
        abort();
    }
    memcpy(copy, row, room);
    return copy;
}

/* Rows of all minutes from @p first on. */
static void fill(text_log *log, form kind, size_t first, size_t count)
{
    for (size_t i = first; i < first + count; i++) {
        log->rows[log->count] = row_of(kind, i, 1.0, false);
        log->count += 1;
    }
}

static void read_log(text_log *log, form kind, log_scene *scene)
{
    const qll_flow_log_options options = qll_flow_log_options_default();
    const size_t room = log->count * 40 + 100;
    char *bytes = realloc(log->bytes, room);
    if (bytes == NULL) {
        abort();
    }
    log->bytes = bytes;
    log->size = (size_t)snprintf(bytes, room, "%s", headers[kind]);
    for (size_t i = 0; i < log->count; i++) {
        log->size += (size_t)snprintf(bytes + log->size, room - log->size, "%s\n", log->rows[i]);
    }
    *scene = log_scene_whole(log->bytes, log->size, &options);
}

static void clear(text_log *log)
{
    for (size_t i = 0; i < log->count; i++) {
        free(log->rows[i]);
    }
    log->count = 0;
}

static bool warns(const qll_flow_log_result *result)
{
    bool any = false;
    for (size_t i = 0; i < QLL_LOG_NOTE_COUNT; i++) {
        any = any || (result->notes[i].holds && qll_log_note_warns((qll_log_note_kind)i));
    }
    return any;
}

/* ---- one row changed ---- */

typedef enum mutation {
    QLL_TEST_MOVED,
    QLL_TEST_DOUBLED,
    QLL_TEST_EMPTIED,
    QLL_TEST_SCALED
} mutation;

static void mutate(text_log *log, form kind, mutation what, size_t at, double times)
{
    char *row = log->rows[at];
    if (what == QLL_TEST_MOVED) {
        const size_t to = (at + TEST_ROWS / 2) % TEST_ROWS;
        for (size_t i = at; i != to; i = (i + 1) % TEST_ROWS) {
            log->rows[i] = log->rows[(i + 1) % TEST_ROWS];
        }
        log->rows[to] = row;
    } else if (what == QLL_TEST_DOUBLED) {
        log->rows[log->count] = row_of(kind, at, 1.0, false);
        log->count += 1;
    } else {
        free(row);
        log->rows[at] = row_of(kind, at, times, what == QLL_TEST_EMPTIED);
    }
}

static void sweep(form kind)
{
    static const double scales[] = {0.001, 0.5, 0.9, 1.001, 1.1, 3.0, 10.0, 100.0, 1000.0};
    static text_log log;
    log.count = 0;
    log.bytes = NULL;
    fill(&log, kind, 0, TEST_ROWS);
    static log_scene plain;
    static log_scene changed;
    read_log(&log, kind, &plain);
    CHECK(plain.status == QLL_OK && !warns(&plain.result));
    for (size_t at = 5; at < TEST_ROWS; at += 197) {
        for (size_t m = 0; m < 3 + sizeof scales / sizeof *scales; m++) {
            const mutation what = m < 3 ? (mutation)m : QLL_TEST_SCALED;
            const double times = m < 3 ? 1.0 : scales[m - 3];
            clear(&log);
            fill(&log, kind, 0, TEST_ROWS);
            mutate(&log, kind, what, at, times);
            read_log(&log, kind, &changed);
            const double ratio = changed.result.mean_m3s / plain.result.mean_m3s;
            const bool said = changed.status == QLL_REFUSED || warns(&changed.result);
            if (!CHECK(said || fabs(ratio - 1.0) <= 0.05)) {
                printf("    kind %d, row %zu, mutation %zu (times %g): mean times %.3f\n",
                       (int)kind, at, m, times, ratio);
            }
            log_scene_end(&changed);
        }
    }
    log_scene_end(&plain);
    clear(&log);
    free(log.bytes);
}

TEST(no_row_moves_the_mean_unsaid)
{
    for (int kind = 0; kind < QLL_TEST_FORMS; kind++) {
        sweep((form)kind);
    }
}

/* ---- the order of files ---- */

static void check_same(const log_scene *got, const log_scene *want)
{
    if (!CHECK(got->status == QLL_OK && want->status == QLL_OK)) {
        log_scene_print(got);
        return;
    }
    const qll_flow_log_result *a = &got->result;
    const qll_flow_log_result *b = &want->result;
    CHECK(a->row_count == b->row_count && a->mean_m3s == b->mean_m3s);
    CHECK(a->volume_m3 == b->volume_m3 && a->idle_share == b->idle_share);
    CHECK(a->max_m3s == b->max_m3s && a->point_count == b->point_count);
    CHECK(a->covered_s == b->covered_s && a->unknown_s == b->unknown_s);
    for (size_t w = 0; w < QLL_LOG_PEAKS; w++) {
        CHECK_WITHIN(a->peaks[w].rolling_m3s, b->peaks[w].rolling_m3s, 0.0);
    }
    for (size_t p = 0; p < a->point_count; p++) {
        CHECK(a->points[p].flow_m3s == b->points[p].flow_m3s
              && a->points[p].time_share == b->points[p].time_share);
    }
}

/* Six files of four hours each: all orders that begin with any of them, and newest first. */
TEST(the_order_of_files_changes_no_figure)
{
    static const size_t orders[][6] = {{5, 4, 3, 2, 1, 0}, {1, 0, 3, 2, 5, 4}, {2, 3, 4, 5, 0, 1},
                                       {3, 0, 5, 1, 4, 2}, {4, 5, 2, 0, 1, 3}, {0, 5, 1, 4, 2, 3}};
    static log_scene sorted;
    static log_scene mixed;
    for (int kind = 0; kind < QLL_TEST_FORMS; kind++) {
        static text_log log;
        log.count = 0;
        log.bytes = NULL;
        fill(&log, (form)kind, 0, TEST_ROWS);
        read_log(&log, (form)kind, &sorted);
        for (size_t o = 0; o < sizeof orders / sizeof *orders; o++) {
            clear(&log);
            for (size_t f = 0; f < 6; f++) {
                fill(&log, (form)kind, orders[o][f] * 240, 240);
            }
            read_log(&log, (form)kind, &mixed);
            check_same(&mixed, &sorted);
            log_scene_end(&mixed);
        }
        clear(&log);
        for (size_t i = TEST_ROWS; i-- > 0;) {
            fill(&log, (form)kind, i, 1);
        }
        read_log(&log, (form)kind, &mixed);
        check_same(&mixed, &sorted);
        CHECK(mixed.result.notes[QLL_LOG_NOTE_NEWEST_FIRST].holds);
        log_scene_end(&mixed);
        log_scene_end(&sorted);
        clear(&log);
        free(log.bytes);
    }
}

int main(void)
{
    TEST_RUN(no_row_moves_the_mean_unsaid);
    TEST_RUN(the_order_of_files_changes_no_figure);
    return TEST_END();
}
