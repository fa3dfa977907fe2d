/* Any bytes as a log of pressures: findings that hold together, or clean problems; and the same findings whether the bytes
 * come at once (the fast way) or in crumbs (the general way). The first 64 KiB are gathered before they are read, so the bytes
 * come once alone and once behind so many plain rows: only there the two ways part. */
#include "require.h"
#include "signals/pressure_log.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#define QLL_PLAIN_ROWS 1700
#define QLL_PLAIN_ROW  ((size_t)64)
#define QLL_INPUT_MOST ((size_t)256 * 1024)

/* Plain rows, a second apart from 2026-03-01 on. */
static size_t plain_rows(char *text, size_t room)
{
    size_t size = (size_t)snprintf(text, room, "time,inlet (kPa),outlet (kPa),flow (L/s)\n");
    for (int i = 0; i < QLL_PLAIN_ROWS; i++) {
        size += (size_t)snprintf(text + size, room - size,
                                 "2026-03-01T00:%02d:%02dZ,69%d.%d,35%d.2,0.%03d\n", i / 60, i % 60,
                                 i % 10, i % 7, i % 5, i / 300 % 2 == 0 ? 0 : 150);
    }
    return size;
}

static qll_flow_log_options options_of(int choice)
{
    qll_flow_log_options options = qll_flow_log_options_default();
    options.name = "log";
    if (choice == 1) {
        options.order = QLL_LOG_ORDER_DAY_FIRST;
        options.zone = "America/Denver";
        options.decimal = ',';
        options.channel_columns[QLL_CHANNEL_OUTLET] = "P";
        options.channel_units[QLL_CHANNEL_OUTLET] = "bar";
    }
    return options;
}

static void require_result(const qll_pressure_result *result)
{
    for (size_t i = 0; i < result->finding_count; i++) {
        const qll_pressure_finding *of = &result->findings[i];
        QLL_REQUIRE(of->strength > 0.0 && of->strength <= 1.0);
        QLL_REQUIRE(i == 0 || of->strength <= result->findings[i - 1].strength);
        QLL_REQUIRE(isfinite(of->value) && of->from_unix_s <= of->to_unix_s);
        QLL_REQUIRE(of->stretch == NULL || of->stretch->count <= QLL_STRETCH_POINTS);
    }
    QLL_REQUIRE(result->gap_count <= QLL_GAPS_LISTED && result->gap_s >= 0.0);
    QLL_REQUIRE((long long)result->gap_count <= result->gap_total);
}

static void require_same(const qll_pressure_result *one, const qll_pressure_result *other)
{
    QLL_REQUIRE(one->finding_count == other->finding_count);
    QLL_REQUIRE(one->log.row_count == other->log.row_count);
    for (size_t i = 0; i < one->finding_count; i++) {
        QLL_REQUIRE(one->findings[i].word == other->findings[i].word
                    && one->findings[i].value == other->findings[i].value);
    }
    const double *features = (const double *)&one->features; /* nothing but numbers */
    const double *others = (const double *)&other->features;
    for (size_t i = 0; i < sizeof one->features / sizeof *features; i++) {
        QLL_REQUIRE(features[i] == others[i] || (isnan(features[i]) && isnan(others[i])));
    }
    for (size_t kind = 0; kind < QLL_LOG_MEND_COUNT; kind++) {
        QLL_REQUIRE(one->log.mends[kind].count == other->log.mends[kind].count);
    }
}

static bool read_bytes(const qll_flow_log_options *options, const uint8_t *data, size_t size,
                       size_t block, qll_arena *arena, qll_pressure_result *result)
{
    static const qll_pressure_expect none = {0};
    qll_problems problems = qll_problems_none(arena);
    qll_flow_log *log = qll_pressure_log_open(options, arena);
    qll_status status = log == NULL ? QLL_NO_MEMORY : QLL_OK;
    for (size_t at = 0; at < size && status == QLL_OK; at += block) {
        status =
            qll_flow_log_feed(log, (const char *)data + at, size - at < block ? size - at : block);
    }
    if (log != NULL) {
        status = qll_flow_log_finish(log, &result->log, &problems);
    }
    QLL_REQUIRE(status == QLL_OK || status == QLL_NO_MEMORY || problems.count > 0);
    return status == QLL_OK && qll_pressure_judge(result->log.taken, &none, arena, result);
}

static void require_both_ways(int choice, const uint8_t *data, size_t size)
{
    static qll_pressure_result whole;
    static qll_pressure_result crumbs;
    const qll_flow_log_options options = options_of(choice);
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    memset(&whole, 0, sizeof whole);
    memset(&crumbs, 0, sizeof crumbs);
    const bool good = read_bytes(&options, data, size, size + 1, arena, &whole);
    const bool again = read_bytes(&options, data, size, 61, arena, &crumbs);
    QLL_REQUIRE(good == again);
    if (good) {
        require_result(&whole);
        require_same(&whole, &crumbs);
    }
    qll_arena_close(arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static char behind[QLL_PLAIN_ROWS * QLL_PLAIN_ROW + QLL_INPUT_MOST];
    static size_t plain_size;
    plain_size = plain_size == 0 ? plain_rows(behind, sizeof behind) : plain_size;
    if (size > QLL_INPUT_MOST) {
        return 0;
    }
    require_both_ways(0, data, size);
    require_both_ways(1, data, size);
    if (size > 0) {
        memcpy(behind + plain_size, data, size);
    }
    require_both_ways(0, (const uint8_t *)behind, plain_size + size);
    return 0;
}
