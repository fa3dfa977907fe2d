/* One night of a campus residential building at 1 s, as logged: duration, bands and averages. Flows
 * are exact but for the classes, within QLL_LOG_CLASS_WIDTH; averages have no class. */
#include "host/unpack.h"
#include "log_scene.h"
#include "truth.h"

#include <stdlib.h>

static const char path[] = "tests/data/real/campus-residential-1s.csv.gz";

static const double gpm_m3s = 3.785411784e-3 / 60.0;

static qll_status feed(void *context, const char *bytes, size_t size)
{
    return qll_flow_log_feed(context, bytes, size);
}

static qll_flow_log_result read_log(bool from_first, qll_arena *arena)
{
    qll_flow_log_result result = {0};
    qll_problems problems = qll_problems_none(arena);
    qll_flow_log_options options = qll_flow_log_options_default();
    options.name = path;
    options.unit = "gpm"; /* the header does not say */
    options.blocks_from_first = from_first;
    size_t size = 0;
    char *bytes = log_scene_bytes(path, &size);
    qll_flow_log *log = qll_flow_log_open(&options, arena);
    qll_unpack *unpack = qll_unpack_open(feed, log);
    CHECK(bytes != NULL && log != NULL && unpack != NULL && qll_unpack_is_packed(bytes, size));
    CHECK(qll_unpack_feed(unpack, bytes, size) == QLL_OK && qll_unpack_finish(unpack) == QLL_OK);
    CHECK(qll_flow_log_finish(log, &result, &problems) == QLL_OK);
    qll_unpack_close(unpack);
    free(bytes);
    return result;
}

static const qll_log_peak *peak_of(const qll_flow_log_result *result, double window_s)
{
    for (size_t i = 0; i < QLL_LOG_PEAKS; i++) {
        if (result->peaks[i].window_s == (int)window_s) {
            return &result->peaks[i];
        }
    }
    CHECK(false);
    printf("    no window of %g s\n", window_s);
    return &result->peaks[0];
}

/* A share between two flows, "3:5"; the classes that hold the limits may fall to either side. */
static bool check_band(const qll_flow_log_result *result, qll_text limits, bool water, double want,
                       double tolerance)
{
    double low = 0.0;
    double high = 0.0;
    size_t size = qll_text_number(limits, &low);
    (void)qll_text_number((qll_text){limits.bytes + size + 1, limits.size - size - 1}, &high);
    /* Below a limit: 0 belongs to the first band. */
    qll_log_point from = qll_flow_log_at(result, low * gpm_m3s * (1.0 - 1e-9));
    qll_log_point to = qll_flow_log_at(result, high * gpm_m3s * (1.0 - 1e-9));
    if (low == 0.0) {
        from = (qll_log_point){0.0, 0.0, 0.0};
    }
    double class_share = 0.0;
    for (size_t i = 1; i < result->point_count; i++) {
        const qll_log_point *point = &result->points[i];
        bool at_limit =
            fabs(point->flow_m3s - low * gpm_m3s) <= low * gpm_m3s * QLL_LOG_CLASS_WIDTH
            || fabs(point->flow_m3s - high * gpm_m3s) <= high * gpm_m3s * QLL_LOG_CLASS_WIDTH;
        class_share += !at_limit ? 0.0
                       : water   ? point->volume_share - point[-1].volume_share
                                 : point->time_share - point[-1].time_share;
    }
    double got = water ? to.volume_share - from.volume_share : to.time_share - from.time_share;
    return CHECK_WITHIN(got, want, tolerance + class_share);
}

static bool check_row(const qll_table *rows, size_t row, const qll_flow_log_result *first,
                      const qll_flow_log_result *clock)
{
    double want = truth_number(rows, row, "expected");
    double tolerance = truth_number(rows, row, "tolerance");
    qll_text text = qll_table_cell(rows, row, qll_table_column(rows, "argument"));
    double argument = 0.0;
    (void)qll_text_number(text, &argument);
    if (truth_is(rows, row, "quantity", "percentile")) {
        double got = argument == 0.0 ? first->points[0].flow_m3s
                                     : qll_flow_log_percentile_m3s(first, argument / 100.0);
        return CHECK_WITHIN(got / gpm_m3s, want, tolerance + want * QLL_LOG_CLASS_WIDTH);
    }
    if (truth_is(rows, row, "quantity", "idle_share")) {
        return CHECK_WITHIN(first->idle_share, want, tolerance);
    }
    if (truth_is(rows, row, "quantity", "mean")) {
        return CHECK_WITHIN(first->mean_m3s / gpm_m3s, want, tolerance);
    }
    if (truth_is(rows, row, "quantity", "rolling")) {
        return CHECK_WITHIN(peak_of(first, argument)->rolling_m3s / gpm_m3s, want, tolerance);
    }
    if (truth_is(rows, row, "quantity", "block")) {
        return CHECK_WITHIN(peak_of(first, argument)->block_m3s / gpm_m3s, want, tolerance);
    }
    if (truth_is(rows, row, "quantity", "zero_share")) {
        return CHECK_WITHIN(peak_of(first, argument)->zero_share, want, tolerance);
    }
    if (truth_is(rows, row, "quantity", "clock_block")) {
        return CHECK_WITHIN(peak_of(clock, argument)->block_m3s / gpm_m3s, want, tolerance);
    }
    if (truth_is(rows, row, "quantity", "clock_zero_share")) {
        return CHECK_WITHIN(peak_of(clock, argument)->zero_share, want, tolerance);
    }
    if (truth_is(rows, row, "quantity", "night_least")) {
        return CHECK_WITHIN(clock->night_least_m3s / gpm_m3s, want, tolerance);
    }
    bool water = truth_is(rows, row, "quantity", "band_volume");
    return CHECK(water || truth_is(rows, row, "quantity", "band_time"))
           && check_band(first, text, water, want, tolerance);
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)32 << 20);
    qll_table rows = truth_read("tests/reference/real_log.csv", arena);
    qll_flow_log_result first = read_log(true, arena);
    qll_flow_log_result clock = read_log(false, arena);
    CHECK(first.row_count == 54922 && first.covered_s == 54922.0 && first.unknown_s == 0.0);
    /* The logger's own total, 688.525 gal, adds 1/60 of every flow. */
    CHECK_NEAR(first.volume_m3, 688.525358066 * 3.785411784e-3, 1e-5);
    CHECK(!first.hides_peaks && !first.never_zero);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!check_row(&rows, row, &first, &clock)) {
            printf("    in real_log.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
