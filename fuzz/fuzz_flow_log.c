/* Any bytes as a log, under several options: figures that hold together, or clean problems; and the
 * same figures whether the bytes come at once (the fast way) or in crumbs (the general way). */
#include "require.h"
#include "signals/flow_log.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static qll_flow_log_options options_of(int choice)
{
    qll_flow_log_options options = qll_flow_log_options_default();
    options.name = "log";
    if (choice == 1) {
        options.unit = "gpm";
        options.order = QLL_LOG_ORDER_DAY_FIRST;
        options.zone = "America/Denver";
        options.decimal = ',';
        options.dead_band_m3s = 1e-6;
    } else if (choice == 2) {
        options.unit = "L";
        options.pulse_m3 = 0.01;
        options.value_column = "meter1Pulse";
        options.blocks_from_first = true;
    } else if (choice == 3) {
        options.unit = "mL";
        options.meter = "home-1";
        options.stamp = QLL_LOG_STAMP_START;
        options.heartbeat_s = 300.0;
        options.repeated = QLL_LOG_REPEATED_SUM;
        options.zone = "EST5EDT4,J60,J300/1:30";
    }
    return options;
}

static void require_result(const qll_flow_log_result *result)
{
    QLL_REQUIRE(result->covered_s > 0.0 && result->unknown_s >= 0.0);
    QLL_REQUIRE(result->volume_m3 >= 0.0 && isfinite(result->volume_m3));
    QLL_REQUIRE(result->has_coarse_step
                || (result->idle_share >= 0.0 && result->idle_share <= 1.0));
    QLL_REQUIRE(result->mean_m3s >= 0.0 && result->max_m3s * (1.0 + 1e-9) >= result->mean_m3s);
    QLL_REQUIRE(result->point_count > 0);
    for (size_t i = 1; i < result->point_count; i++) {
        QLL_REQUIRE(result->points[i].flow_m3s > result->points[i - 1].flow_m3s);
        QLL_REQUIRE(result->points[i].time_share >= result->points[i - 1].time_share);
        QLL_REQUIRE(result->points[i].volume_share >= result->points[i - 1].volume_share);
    }
    const qll_log_point *last = &result->points[result->point_count - 1];
    QLL_REQUIRE(fabs(last->time_share - 1.0) < 1e-9 && fabs(last->volume_share - 1.0) < 1e-9);
    for (size_t w = 0; w < QLL_LOG_PEAKS; w++) {
        const qll_log_peak *peak = &result->peaks[w];
        QLL_REQUIRE(isnan(peak->block_m3s)
                    || peak->block_m3s <= peak->rolling_m3s * (1.0 + 1e-6) + 1e-12);
        QLL_REQUIRE(isnan(peak->rolling_m3s)
                    || peak->rolling_m3s <= result->max_m3s * (1.0 + 1e-6) + 1e-9);
    }
}

static qll_status read_at(void *context, uint64_t at, char *bytes, size_t *size, const char **why)
{
    const qll_text *text = context;
    (void)why;
    QLL_REQUIRE(at <= text->size);
    const size_t left = text->size - (size_t)at;
    *size = *size < left ? *size : left;
    memcpy(bytes, text->bytes + at, *size);
    return QLL_OK;
}

/* In the order of time, or without odd rows. */
static void try_again(qll_flow_log *log, const uint8_t *data, size_t size, qll_arena *arena)
{
    if (!qll_flow_log_wants_again(log)) {
        return;
    }
    qll_text text = {(const char *)data, size};
    const qll_log_source source = {.context = &text, .size = size, .read_at = read_at};
    qll_problems problems = qll_problems_none(arena);
    qll_flow_log_result result;
    const qll_status status = qll_flow_log_again(log, &source, &result, &problems);
    QLL_REQUIRE(status == QLL_OK || status == QLL_REFUSED);
    if (status == QLL_OK) {
        require_result(&result);
    } else {
        QLL_REQUIRE(problems.refusal_count > 0);
        require_clean_problems(&problems);
    }
}

static qll_status run(const qll_flow_log_options *options, const uint8_t *data, size_t size,
                      size_t block, qll_arena *arena, qll_flow_log_result *result,
                      qll_problems *problems)
{
    qll_flow_log *log = qll_flow_log_open(options, arena);
    QLL_REQUIRE(log != NULL);
    qll_status status = QLL_OK;
    for (size_t at = 0; at < size && status == QLL_OK; at += block) {
        status =
            qll_flow_log_feed(log, (const char *)data + at, block < size - at ? block : size - at);
    }
    status = qll_flow_log_finish(log, result, problems);
    QLL_REQUIRE(status == QLL_OK || status == QLL_REFUSED);
    if (block > size) {
        try_again(log, data, size, arena);
    }
    return status;
}

static void require_same(const qll_flow_log_result *a, const qll_flow_log_result *b)
{
    QLL_REQUIRE(a->volume_m3 == b->volume_m3 && a->covered_s == b->covered_s);
    QLL_REQUIRE(a->unknown_s == b->unknown_s && a->point_count == b->point_count);
    QLL_REQUIRE(a->line_count == b->line_count && a->row_count == b->row_count);
    for (size_t kind = 0; kind < QLL_LOG_MEND_COUNT; kind++) {
        QLL_REQUIRE(a->mends[kind].count == b->mends[kind].count);
    }
}

static void try_options(const qll_flow_log_options *options, const uint8_t *data, size_t size)
{
    qll_arena *arena = qll_arena_open((size_t)128 * 1024 * 1024);
    qll_problems problems = qll_problems_none(arena);
    qll_problems again = qll_problems_none(arena);
    qll_flow_log_result whole;
    qll_flow_log_result crumbs;
    qll_status status = run(options, data, size, size + 1, arena, &whole, &problems);
    QLL_REQUIRE(run(options, data, size, 61, arena, &crumbs, &again) == status);
    QLL_REQUIRE(problems.count == again.count);
    if (status == QLL_OK) {
        require_result(&whole);
        require_same(&whole, &crumbs);
    } else {
        QLL_REQUIRE(problems.refusal_count > 0);
        require_clean_problems(&problems);
    }
    qll_arena_close(arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    for (int choice = 0; choice < 4; choice++) {
        qll_flow_log_options options = options_of(choice);
        try_options(&options, data, size);
    }
    return 0;
}
