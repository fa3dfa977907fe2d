/* Logs whose clock is set within them, and logs that begin with silence. The truth is the same log
 * written another way: in universal time with the zone said beside it, or with every silence written
 * out. */
#include "log_scene.h"
#include "signals/log_zone.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define QLL_TEXT_ROOM ((size_t)4 << 20)

static const int64_t day_s = 86400;

typedef struct sheet {
    char *bytes;
    size_t size;
} sheet;

static sheet sheet_new(void)
{
    sheet made = {.bytes = malloc(QLL_TEXT_ROOM)};
    CHECK(made.bytes != NULL);
    return made;
}

static void put(sheet *to, const char *text)
{
    size_t size = strlen(text);
    if (to->bytes != NULL && CHECK(to->size + size < QLL_TEXT_ROOM)) {
        memcpy(to->bytes + to->size, text, size + 1);
        to->size += size;
    }
}

static int floor_mod(int64_t a, int b)
{
    int rest = (int)(a % b);
    return rest < 0 ? rest + b : rest;
}

/* "2017-11-05T01:15:00-06:00"; without its end if @p with_offset is false. */
static void put_stamp(sheet *to, int64_t utc_s, int offset_s, bool with_offset)
{
    const int64_t local_s = utc_s + offset_s;
    const int of_day = floor_mod(local_s, 86400);
    int year = 0;
    int month = 0;
    int day = 0;
    qll_calendar_date((local_s - of_day) / 86400, &year, &month, &day);
    char text[64];
    snprintf(text, sizeof text, "%04d-%02d-%02dT%02d:%02d:%02d", year, month, day, of_day / 3600,
             of_day / 60 % 60, of_day % 60);
    put(to, text);
    if (with_offset) {
        snprintf(text, sizeof text, "%c%02d:%02d", offset_s < 0 ? '-' : '+', abs(offset_s) / 3600,
                 abs(offset_s) / 60 % 60);
        put(to, text);
    }
}

static void check_same_hours(const qll_flow_log_result *got, const qll_flow_log_result *want)
{
    CHECK(got->row_count == want->row_count && got->covered_s == want->covered_s);
    CHECK_NEAR(got->volume_m3, want->volume_m3, 1e-12);
    CHECK_NEAR(got->night_least_m3s, want->night_least_m3s, 1e-9);
    for (int weekend = 0; weekend < 2; weekend++) {
        for (int hour = 0; hour < 24; hour++) {
            const qll_log_hour *a = &got->profile[weekend][hour];
            const qll_log_hour *b = &want->profile[weekend][hour];
            if (!CHECK(a->time_s == b->time_s && fabs(a->volume_m3 - b->volume_m3) < 1e-9)) {
                printf("    %s %d h: %g s of %g s\n", weekend ? "weekend" : "weekday", hour,
                       a->time_s, b->time_s);
            }
        }
    }
}

/* A week of quarter hours round a change of the clock: more is drawn the later it is. */
static sheet week(int64_t first_s, const qll_zone *zone, bool own_offsets, const char *name,
                  char delimiter)
{
    sheet to = sheet_new();
    char text[64];
    snprintf(text, sizeof text, "time%c%s\n", delimiter, name);
    put(&to, text);
    for (int64_t at_s = first_s; at_s < first_s + 7 * day_s; at_s += 900) {
        const int offset_s = qll_zone_offset_s(zone, at_s * 1000);
        put_stamp(&to, at_s, own_offsets ? offset_s : 0, true);
        snprintf(text, sizeof text, "%c%d.5\n", delimiter, floor_mod(at_s + offset_s, 86400) / 900);
        put(&to, text);
    }
    return to;
}

/* Summer time of the Energy Policy Act of 2005 began on 2017-03-12 and ended on 2017-11-05. */
TEST(every_stamps_own_offset_counts)
{
    static const struct {
        const char *name;
        char delimiter;
        int64_t first_s;
    } cases[] = {
        {"flow (gpm)", ',', INT64_C(1488931200)},   /* 2017-03-08 */
        {"flow (gpm)", ',', INT64_C(1509494400)},   /* 2017-11-01 */
        {"volume (gal)", ',', INT64_C(1488931200)}, /* stamps at the ends, the general way */
        {"flow_gpm", ' ', INT64_C(1509494400)},
        {"meter reading (gal)", ';', INT64_C(1509494400)},
    };

    qll_zone zone;
    CHECK(qll_zone_read(qll_text_of("America/Denver"), &zone));
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sheet own = week(cases[i].first_s, &zone, true, cases[i].name, cases[i].delimiter);
        sheet utc = week(cases[i].first_s, &zone, false, cases[i].name, cases[i].delimiter);
        qll_flow_log_options options = qll_flow_log_options_default();
        log_scene got = log_scene_text(own.bytes, own.size, &options, 1000);
        options.zone = "America/Denver";
        log_scene want = log_scene_text(utc.bytes, utc.size, &options, 1000);
        CHECK(want.status == QLL_OK);
        if (CHECK(got.status == QLL_OK)) {
            check_same_hours(&got.result, &want.result);
        } else {
            log_scene_print(&got);
        }
        log_scene_end(&got);
        log_scene_end(&want);
        free(own.bytes);
        free(utc.bytes);
    }
}

/* A flow at 08:00 to 09:00 by the clock stays there when the clock is set, whatever the first row said;
 * rows out of order, and rows of the same minute in two offsets, keep their own. */
TEST(offsets_follow_their_rows_into_order)
{
    static const char log[] = "time,flow (gpm)\n"
                              "2017-11-03T07:00:00-06:00,0\n2017-11-03T08:00:00-06:00,6\n"
                              "2017-11-03T09:00:00-06:00,0\n2017-11-03T10:00:00-06:00,0\n"
                              "2017-11-06T08:00:00-07:00,6\n2017-11-06T07:00:00-07:00,0\n"
                              "2017-11-06T10:00:00-07:00,0\n2017-11-06T09:00:00-07:00,0\n"
                              "2017-11-07T08:00:00-07:00,6\n2017-11-07T09:00:00-07:00,0\n"
                              "2017-11-07T12:00:00-05:00,0\n";
    const qll_flow_log_options options = qll_flow_log_options_default();
    log_scene scene = log_scene_text(log, sizeof log - 1, &options, 7);
    CHECK(scene.status == QLL_OK);
    const qll_flow_log_result *result = &scene.result;
    CHECK(result->mends[QLL_LOG_MEND_OUT_OF_ORDER].count == 2);
    for (int hour = 0; hour < 24; hour++) {
        const double volume_m3 = result->profile[0][hour].volume_m3;
        CHECK(hour == 8 ? volume_m3 > 0.0 : volume_m3 == 0.0);
    }
    CHECK(result->profile[0][8].time_s == 3 * 3600.0);
    log_scene_end(&scene);
}

/* ---- silence first ---- */

/* What was drawn, second by second in steps of 4 s: none but for short draws from the day on. */
static int draw_of(int64_t at_s, int64_t from_s)
{
    const int of_hour = floor_mod(at_s, 3600);
    return at_s >= from_s && of_hour >= 1200 && of_hour < 1320 ? 5 + of_hour / 4 % 7 : 0;
}

/* The log of a logger that is silent while nothing flows, but for a row every 5 min; @p dense: every
 * 4 s is written. */
static sheet quiet_log(int days, int64_t from_s, bool dense, const char *name)
{
    sheet to = sheet_new();
    char text[64];
    snprintf(text, sizeof text, "time,%s\n", name);
    put(&to, text);
    const int64_t first_s = INT64_C(1498608000); /* 2017-06-28 */
    for (int64_t at_s = first_s; at_s < first_s + days * day_s; at_s += 4) {
        const int draw = draw_of(at_s - first_s, from_s);
        const bool was_drawing = draw_of(at_s - 4 - first_s, from_s) > 0;
        const bool is_last = at_s + 4 >= first_s + days * day_s;
        if (dense || is_last || draw > 0 || was_drawing || (at_s - first_s) % 300 == 0) {
            put_stamp(&to, at_s, 0, false);
            snprintf(text, sizeof text, ",%d\n", draw);
            put(&to, text);
        }
    }
    return to;
}

/* @p slack_s: how much more time without flow may be known. */
static void check_same_figures(const qll_flow_log_result *got, const qll_flow_log_result *want,
                               double slack_s)
{
    const double more_s = got->covered_s - want->covered_s;
    CHECK(got->interval_s == 4.0 && want->interval_s == 4.0);
    CHECK_NEAR(got->volume_m3, want->volume_m3, 1e-12);
    CHECK(more_s >= 0.0 && more_s <= slack_s);
    CHECK(got->unknown_s == 0.0 && !got->hides_peaks);
    CHECK_NEAR((1.0 - got->idle_share) * got->covered_s, (1.0 - want->idle_share) * want->covered_s,
               1e-9);
    CHECK_NEAR(got->max_m3s, want->max_m3s, 1e-12);
    CHECK(got->night_least_m3s == want->night_least_m3s);
    CHECK(got->point_count == want->point_count);
    for (size_t w = 1; w < QLL_LOG_PEAKS; w++) {
        const qll_log_peak *a = &got->peaks[w];
        const qll_log_peak *b = &want->peaks[w];
        CHECK_NEAR(a->rolling_m3s, b->rolling_m3s, 1e-9);
        CHECK_NEAR(a->block_m3s, b->block_m3s, 1e-9);
        CHECK_NEAR(a->zero_share, b->zero_share, 1e-4);
    }
    for (int hour = 0; hour < 24; hour++) {
        CHECK(fabs(got->profile[0][hour].time_s - want->profile[0][hour].time_s) <= slack_s);
        CHECK(fabs(got->profile[0][hour].volume_m3 - want->profile[0][hour].volume_m3) < 1e-9);
    }
}

static void compare_quiet(int days, int64_t from_s, const char *name, qll_log_stamp stamp)
{
    sheet quiet = quiet_log(days, from_s, false, name);
    sheet dense = quiet_log(days, from_s, true, name);
    qll_flow_log_options options = qll_flow_log_options_default();
    options.stamp = stamp;
    log_scene got = log_scene_text(quiet.bytes, quiet.size, &options, 4096);
    log_scene want = log_scene_text(dense.bytes, dense.size, &options, 4096);
    if (CHECK(got.status == QLL_OK && want.status == QLL_OK)) {
        check_same_figures(&got.result, &want.result, stamp == QLL_LOG_STAMP_END ? 300.0 : 0.0);
    } else {
        log_scene_print(&got);
    }
    log_scene_end(&got);
    log_scene_end(&want);
    free(quiet.bytes);
    free(dense.bytes);
}

/* The first 64 KiB, from which a log's shape and interval come, hold over ten days of heartbeats. */
TEST(a_log_that_begins_with_heartbeats_is_read_by_its_draws)
{
    compare_quiet(2, 0, "flow (gpm)", QLL_LOG_STAMP_START); /* draws from the first row on */
    compare_quiet(6, 4 * day_s, "flow (gpm)", QLL_LOG_STAMP_START); /* behind the first thousand */
    compare_quiet(6, 4 * day_s, "volume (gal)", QLL_LOG_STAMP_END);
    compare_quiet(6, 4 * day_s + 900, "volume (gal)", QLL_LOG_STAMP_START);
}

/* The finest there is: silent for five days, then an hour and a half ten times a second, at 3 to 7 gpm by turns of a second.
 * Every five seconds, and so every hour, the mean is 5 gpm. */
TEST(a_log_that_wakes_up_is_read_to_the_tenth_of_a_second)
{
    sheet to = sheet_new();
    put(&to, "time,flow (gpm)\n");
    char text[64];
    const int64_t first_ms = INT64_C(1498608000000); /* 2017-06-28 */
    const int64_t draw_ms = first_ms + 5 * day_s * 1000;
    for (int64_t at_ms = first_ms; at_ms < draw_ms; at_ms += 300000) {
        snprintf(text, sizeof text, "%lld,0\n", (long long)at_ms);
        put(&to, text);
    }
    const int rows = 54000;
    for (int i = 0; i <= rows; i++) {
        snprintf(text, sizeof text, "%lld,%d\n", (long long)draw_ms + 100LL * i,
                 i == rows ? 0 : 3 + i / 10 % 5);
        put(&to, text);
    }
    const qll_flow_log_options options = qll_flow_log_options_default();
    log_scene scene = log_scene_text(to.bytes, to.size, &options, 4096);
    const double mean_m3s = 5.0 * 3.785411784e-3 / 60.0;
    if (CHECK(scene.status == QLL_OK)) {
        const qll_log_peak *hour = &scene.result.peaks[QLL_LOG_PEAKS - 1];
        CHECK(scene.result.interval_s == 0.1);
        CHECK(scene.result.first_unix_s == 1498608000.0);
        CHECK(scene.result.last_unix_s == 1498608000.0 + 5.0 * 86400.0 + 5400.0);
        CHECK_NEAR(scene.result.volume_m3, mean_m3s * 5400.0, 1e-9);
        CHECK_NEAR(hour->rolling_m3s, mean_m3s, 1e-9);
        CHECK_NEAR(scene.result.peaks[0].rolling_m3s, mean_m3s * 7.0 / 5.0, 1e-9);
        CHECK_NEAR(scene.result.max_m3s, mean_m3s * 7.0 / 5.0, 1e-9);
        for (size_t w = 0; w < QLL_LOG_PEAKS;
             w++) { /* nothing flows in 5 days of 5 days and 90 min */
            CHECK_NEAR(scene.result.peaks[w].zero_share, 7200.0 / (7200.0 + 90.0),
                       w + 1 < QLL_LOG_PEAKS ? 1e-12 : 1e-2);
        }
    } else {
        log_scene_print(&scene);
    }
    log_scene_end(&scene);
    free(to.bytes);
}

TEST(a_log_that_never_draws_has_no_other_interval)
{
    sheet quiet = quiet_log(6, INT64_MAX, false, "flow (gpm)");
    const qll_flow_log_options options = qll_flow_log_options_default();
    log_scene scene = log_scene_text(quiet.bytes, quiet.size, &options, 4096);
    CHECK(scene.status == QLL_OK && scene.result.interval_s == 300.0);
    CHECK(scene.result.idle_share == 1.0 && scene.result.volume_m3 == 0.0);
    CHECK(scene.result.row_count == 6 * 288 + 1);
    log_scene_end(&scene);
    free(quiet.bytes);
}

int main(void)
{
    TEST_RUN(every_stamps_own_offset_counts);
    TEST_RUN(offsets_follow_their_rows_into_order);
    TEST_RUN(a_log_that_begins_with_heartbeats_is_read_by_its_draws);
    TEST_RUN(a_log_that_wakes_up_is_read_to_the_tenth_of_a_second);
    TEST_RUN(a_log_that_never_draws_has_no_other_interval);
    return TEST_END();
}
