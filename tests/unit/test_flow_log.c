/* Logs of nine shapes and many faults, invented for these tests, with counts and sums made beside
 * them by a general-purpose language. */
#include "growing.h"
#include "log_options.h"
#include "log_scene.h"
#include "reference/truth.h"
#include "said.h"

#include <stdlib.h>
#include <string.h>

static bool is_path(char *path, size_t size, const char *folder, qll_text name)
{
    int written =
        snprintf(path, size, "tests/data/logs/%s%.*s", folder, (int)name.size, name.bytes);
    return CHECK(written > 0 && (size_t)written < size);
}

TEST(nine_shapes_are_read)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/data/logs/shapes.csv", arena);
    CHECK(rows.row_count == 9);
    for (size_t row = 0; row < rows.row_count; row++) {
        char path[300];
        option_text room;
        is_path(path, sizeof path, "", qll_table_cell(&rows, row, 0));
        qll_flow_log_options options =
            read_options(qll_table_cell(&rows, row, qll_table_column(&rows, "options")), &room);
        log_scene scene = log_scene_file(path, &options);
        const qll_flow_log_result *result = &scene.result;
        bool good = CHECK(scene.status == QLL_OK);
        if (good) {
            good = CHECK(truth_is(&rows, row, "kind", qll_log_kind_word(result->kind)));
            good = CHECK((double)result->row_count == truth_number(&rows, row, "rows")) && good;
            good =
                CHECK_NEAR(result->volume_m3, truth_number(&rows, row, "volume_m3"), 1e-6) && good;
        }
        if (!good) {
            printf("    in %s\n", path);
            log_scene_print(&scene);
        }
        log_scene_end(&scene);
    }
    qll_arena_close(arena);
}

/* Every count of "gap=1 catch-up=2", and none that is not there. */
static bool check_mends(const qll_flow_log_result *result, qll_text wanted)
{
    bool good = true;
    for (int kind = 0; kind < QLL_LOG_MEND_COUNT; kind++) {
        const char *word = qll_log_mend_word((qll_log_mend_kind)kind);
        double count = 0.0;
        for (size_t at = 0; at < wanted.size; at++) {
            qll_text rest = {wanted.bytes + at, wanted.size - at};
            size_t size = strlen(word);
            if ((at == 0 || wanted.bytes[at - 1] == ' ') && rest.size > size + 1
                && memcmp(rest.bytes, word, size) == 0 && rest.bytes[size] == '=') {
                (void)qll_text_number((qll_text){rest.bytes + size + 1, rest.size - size - 1},
                                      &count);
            }
        }
        if (!CHECK((double)result->mends[kind].count == count)) {
            printf("    %s: got %lld, want %g\n", word, result->mends[kind].count, count);
            good = false;
        }
        CHECK(strlen(qll_log_mend_sentence((qll_log_mend_kind)kind)) > 0);
    }
    return good;
}

static bool check_refusal(const log_scene *scene, const qll_table *rows, size_t row)
{
    return CHECK(scene->status == QLL_REFUSED) && CHECK(scene->problems.kept_count == 1)
           && CHECK(truth_is(rows, row, "outcome", qll_code_word(scene->problems.kept[0].code)))
           && CHECK((double)scene->problems.kept[0].place.line == truth_number(rows, row, "line"));
}

TEST(faults_are_mended_and_counted_or_refused)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/data/logs/dirty.csv", arena);
    CHECK(rows.row_count >= 30);
    for (size_t row = 0; row < rows.row_count; row++) {
        char path[300];
        option_text room;
        is_path(path, sizeof path, "dirty/", qll_table_cell(&rows, row, 0));
        qll_flow_log_options options =
            read_options(qll_table_cell(&rows, row, qll_table_column(&rows, "options")), &room);
        log_scene scene = log_scene_file(path, &options);
        const qll_flow_log_result *result = &scene.result;
        bool good = true;
        if (!truth_is(&rows, row, "outcome", "ok")) {
            good = check_refusal(&scene, &rows, row);
        } else if (CHECK(scene.status == QLL_OK)) {
            good =
                check_mends(result, qll_table_cell(&rows, row, qll_table_column(&rows, "mends")));
            good = CHECK_WITHIN(result->covered_s, truth_number(&rows, row, "covered_s"), 1e-9)
                   && good;
            good = CHECK_WITHIN(result->unknown_s, truth_number(&rows, row, "unknown_s"), 1e-9)
                   && good;
            good =
                CHECK_NEAR(result->volume_m3, truth_number(&rows, row, "volume_m3"), 1e-9) && good;
        } else {
            good = false;
        }
        if (!good) {
            printf("    in %s\n", path);
            log_scene_print(&scene);
        }
        log_scene_end(&scene);
    }
    qll_arena_close(arena);
}

TEST(hints_name_the_nearest_word)
{
    qll_flow_log_options options = qll_flow_log_options_default();
    options.zone = "America/Dnver";
    log_scene scene = log_scene_file("tests/data/logs/dirty/unknown_zone.csv", &options);
    CHECK_TEXT(said_problem(&scene.problems, 0).hint, "did you mean \"America/Denver\"?");
    log_scene_end(&scene);
    options.zone = NULL;
    options.value_column = "flwo (L/min)";
    scene = log_scene_file("tests/data/logs/dirty/misspelt_column.csv", &options);
    CHECK_TEXT(said_problem(&scene.problems, 0).hint, "did you mean \"flow (L/min)\"?");
    log_scene_end(&scene);
    options.value_column = NULL;
    scene = log_scene_file("tests/data/logs/dirty/two_meters.csv", &options);
    CHECK_TEXT(scene.problems.kept[0].place.path, "row 16");
    CHECK_TEXT(said_problem(&scene.problems, 0).text,
               "\"B\" is another meter than that of the rows before");
    log_scene_end(&scene);
}

static void grow_row(growing *text, const char *front, long long stamp, double value)
{
    char row[100];
    snprintf(row, sizeof row, "%s%lld,%.9f\n", front, stamp, value);
    grow(text, row);
}

TEST(a_keyed_log_may_be_shuffled_a_little_only)
{
    growing text = {0};
    grow(&text, "key,ts,value\n");
    for (long long i = 0; i < 9000; i++) {
        grow_row(&text, "register_L,", 1700000000 + 60 * i, (double)i);
    }
    size_t sorted = text.size;
    grow_row(&text, "register_L,", 1700000000 + 60 * 8000 + 30, 8000.0);
    qll_flow_log_options options = qll_flow_log_options_default();
    log_scene scene = log_scene_text(text.bytes, text.size, &options, 65536);
    CHECK(scene.status == QLL_OK && scene.result.mends[QLL_LOG_MEND_OUT_OF_ORDER].count == 1);
    log_scene_end(&scene);
    text.size = sorted;
    grow_row(&text, "register_L,", 1700000000 + 60 * 4000 + 30, 4000.0);
    scene = log_scene_text(text.bytes, text.size, &options, 65536);
    CHECK(scene.status == QLL_REFUSED && scene.problems.kept[0].code == QLL_CODE_NOT_RISING);
    CHECK(scene.problems.kept[0].place.line == 9002);
    log_scene_end(&scene);
    free(text.bytes);
}

TEST(a_line_without_end_is_refused)
{
    growing text = {0};
    grow(&text, "time,flow (gpm)\n");
    grow(&text, "2024-01-01 00:00:00,1\n2024-01-01 00:01:00,1\n");
    for (int i = 0; i < 7000; i++) {
        grow(&text, "no end of it, ");
    }
    qll_flow_log_options options = qll_flow_log_options_default();
    log_scene scene = log_scene_text(text.bytes, text.size, &options, 1000);
    CHECK(scene.status == QLL_REFUSED && scene.problems.kept[0].code == QLL_CODE_TOO_LARGE);
    CHECK(scene.problems.kept[0].place.line == 4);
    log_scene_end(&scene);
    free(text.bytes);
}

/* A day of one building, invented: uses of some minutes, the same water in every log. */
static double day_flow(long long second)
{
    long long minute = second / 60;
    double flow = 0.0;
    flow += minute % 37 < 5 ? 4.0 + (double)(second % 7) : 0.0;
    flow += minute > 400 && minute < 430 ? 9.0 + 0.5 * (double)(second % 3) : 0.0;
    return flow;
}

static log_scene day_at(long long interval_s)
{
    growing text = {0};
    grow(&text, "time,flow (L/min)\n");
    for (long long at = 0; at < 86400; at += interval_s) {
        double sum = 0.0;
        for (long long second = at; second < at + interval_s; second++) {
            sum += day_flow(second);
        }
        grow_row(&text, "", 1700006400 + at, sum / (double)interval_s);
    }
    qll_flow_log_options options = qll_flow_log_options_default();
    options.zone = "UTC";
    log_scene scene = log_scene_text(text.bytes, text.size, &options, 65536);
    CHECK(scene.status == QLL_OK);
    free(text.bytes);
    return scene;
}

TEST(one_building_at_three_intervals)
{
    log_scene fine = day_at(1);
    log_scene middle = day_at(60);
    log_scene coarse = day_at(900);
    CHECK_NEAR(middle.result.mean_m3s, fine.result.mean_m3s, 1e-8);
    CHECK_NEAR(coarse.result.mean_m3s, fine.result.mean_m3s, 1e-8);
    CHECK(fine.result.max_m3s > middle.result.max_m3s);
    CHECK(middle.result.max_m3s > coarse.result.max_m3s);
    CHECK(fine.result.idle_share > middle.result.idle_share - 1e-12);
    CHECK(middle.result.idle_share > coarse.result.idle_share);
    CHECK(!fine.result.hides_peaks && !middle.result.hides_peaks && coarse.result.hides_peaks);
    CHECK(isnan(coarse.result.peaks[4].block_m3s) && isnan(middle.result.peaks[0].rolling_m3s));
    /* Blocks that all three resolve are the same. */
    for (size_t w = 6; w < QLL_LOG_PEAKS; w++) {
        CHECK_NEAR(middle.result.peaks[w].block_m3s, fine.result.peaks[w].block_m3s, 1e-8);
        CHECK_NEAR(coarse.result.peaks[w].block_m3s, fine.result.peaks[w].block_m3s, 1e-8);
        CHECK(fine.result.peaks[w].rolling_m3s >= middle.result.peaks[w].rolling_m3s * (1 - 1e-8));
        CHECK(middle.result.peaks[w].rolling_m3s
              >= coarse.result.peaks[w].rolling_m3s * (1 - 1e-8));
    }
    for (size_t w = 1; w < QLL_LOG_PEAKS; w++) {
        CHECK(fine.result.peaks[w].rolling_m3s <= fine.result.peaks[w - 1].rolling_m3s);
        CHECK(fine.result.peaks[w].rolling_m3s >= fine.result.peaks[w].block_m3s);
    }
    /* 2023-11-15, a Wednesday: hour 7 holds minutes 420 to 479. */
    double hour_m3 = 0.0;
    for (long long second = 25200; second < 28800; second++) {
        hour_m3 += day_flow(second) / 60e3;
    }
    CHECK_NEAR(fine.result.profile[0][7].volume_m3, hour_m3, 1e-8);
    CHECK_NEAR(coarse.result.profile[0][7].volume_m3, hour_m3, 1e-8);
    CHECK(fine.result.profile[0][7].time_s == 3600.0 && fine.result.profile[1][7].time_s == 0.0);
    /* Least hour of the night, over all whole minutes it can start on from 02:00 to 04:00. */
    double least_m3s = INFINITY;
    for (long long start = 7200; start <= 14400; start += 60) {
        double volume = 0.0;
        for (long long second = start; second < start + 3600; second++) {
            volume += day_flow(second);
        }
        least_m3s = fmin(least_m3s, volume / 3600.0 / 60e3);
    }
    CHECK_NEAR(middle.result.night_least_m3s, least_m3s, 1e-8);
    CHECK(fine.result.night_least_m3s <= least_m3s * (1 + 1e-8));
    log_scene_end(&fine);
    log_scene_end(&middle);
    log_scene_end(&coarse);
}

/* Volume of 100 pulses under a title line; NaN if the log is refused. US gallon: 3.785411784 L. */
static double volume_of_100_pulses(const char *title)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_writer text = qll_writer_new(arena);
    qll_write_format(&text, "%s\nTime,Pulses\n", title);
    for (int minute = 0; minute < 50; minute++) {
        qll_write_format(&text, "2024-03-04 10:%02d:00,2\n", minute);
    }
    qll_text bytes = qll_writer_text(&text);
    qll_flow_log_options options = qll_flow_log_options_default();
    qll_flow_log *log = qll_flow_log_open(&options, arena);
    qll_problems problems = qll_problems_none(arena);
    qll_flow_log_result result = {.volume_m3 = (double)NAN};
    CHECK(qll_flow_log_feed(log, bytes.bytes, bytes.size) == QLL_OK);
    qll_status status = qll_flow_log_finish(log, &result, &problems);
    double volume_m3 = status == QLL_OK ? result.volume_m3 : (double)NAN;
    qll_arena_close(arena);
    return volume_m3;
}

/* A title line may number its site and its logger. */
TEST(the_weight_of_a_pulse_is_the_number_at_its_unit)
{
    static const char *const told[] = {"0.0416 gal/pulse", "Site 3, logger 12, 0.0416 gal/pulse",
                                       "12 0.0416 gal/pulse", "Meter 7 (gal/pulse): 0.0416",
                                       "Resolution 0.0416 (gal/pulse)"};
    for (size_t i = 0; i < sizeof told / sizeof *told; i++) {
        CHECK_NEAR(volume_of_100_pulses(told[i]), 4.16 * 3.785411784e-3, 1e-9);
    }
    CHECK(isnan(volume_of_100_pulses("Site 3, 0.0416 in gal/pulse")));
    CHECK(isnan(volume_of_100_pulses("Site 3, weight in gal/pulse 1 or 2")));
}

TEST(every_allocation_may_fail)
{
    static const char *const paths[] = {
        "tests/data/logs/shape_4.csv", "tests/data/logs/shape_6.jsonl",
        "tests/data/logs/shape_8.csv", "tests/data/logs/dirty/ambiguous.csv"};
    for (size_t p = 0; p < sizeof paths / sizeof *paths; p++) {
        size_t size = 0;
        char *bytes = log_scene_bytes(paths[p], &size);
        qll_flow_log_options options = qll_flow_log_options_default();
        options.meter = p == 0 ? "home-1" : NULL;
        options.value_column = p == 1 ? "meter1Pulse" : NULL;
        options.pulse_m3 = 0.01;
        size_t failed = 0;
        for (size_t nth = 1; nth < 400; nth++) {
            qll_arena *arena = qll_arena_open((size_t)64 << 20);
            qll_problems problems = qll_problems_none(arena);
            qll_flow_log_result result;
            qll_arena_fail(arena, nth, true);
            qll_flow_log *log = qll_flow_log_open(&options, arena);
            qll_status status = log == NULL ? QLL_NO_MEMORY : QLL_OK;
            for (size_t at = 0; at < size && status == QLL_OK; at += 4096) {
                status = qll_flow_log_feed(log, bytes + at, size - at < 4096 ? size - at : 4096);
            }
            if (log != NULL) {
                status = qll_flow_log_finish(log, &result, &problems);
            }
            failed += status == QLL_NO_MEMORY ? 1U : 0U;
            CHECK(status == QLL_NO_MEMORY || status == (p == 3 ? QLL_REFUSED : QLL_OK));
            qll_arena_close(arena);
        }
        CHECK(failed > 5);
        free(bytes);
    }
}

int main(void)
{
    TEST_RUN(nine_shapes_are_read);
    TEST_RUN(faults_are_mended_and_counted_or_refused);
    TEST_RUN(hints_name_the_nearest_word);
    TEST_RUN(a_keyed_log_may_be_shuffled_a_little_only);
    TEST_RUN(a_line_without_end_is_refused);
    TEST_RUN(one_building_at_three_intervals);
    TEST_RUN(the_weight_of_a_pulse_is_the_number_at_its_unit);
    TEST_RUN(every_allocation_may_fail);
    return TEST_END();
}
