/* A generated log of a row per second with two pressures and a flow: rows and MB a second of the whole reading, judging
 * included, against the meter-log reader on the same rows, in the same run: on the very same bytes, of which it takes the flow,
 * and on stamps and flows alone. Time is the processor's, best of several rounds; and peak memory.
 *
 * The same on days as people live them (tests/pressure_days.c), where water starts and stops more often and readings differ more.
 *
 *     bench_pressure_log [MB [ROUNDS]]        default 256, 5 */
#define _POSIX_C_SOURCE 200809L
#include "pressure_days.h"
#include "signals/pressure_log.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

#define QLL_BLOCK ((size_t)64 * 1024)

static double seconds(void)
{
    struct timespec used;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &used);
    return (double)used.tv_sec + 1e-9 * (double)used.tv_nsec;
}

static unsigned long long state = 1;

static double noise(void)
{
    state = state * 6364136223846793005ULL + 1442695040888963407ULL;
    return (double)(state >> 40) / 16777216.0 - 0.5;
}

/* Two logs of the same rows, which grow: with pressures and without. */
typedef struct logs {
    FILE *pressures, *flows;
    time_t at;
    size_t written;
    long long rows;
} logs;

static void put_row(logs *to, double inlet_kpa, double outlet_kpa, double flow_ls)
{
    char stamp[32];
    const struct tm *parts = gmtime(&to->at);
    strftime(stamp, sizeof stamp, "%Y-%m-%dT%H:%M:%SZ", parts);
    to->written += (size_t)fprintf(to->pressures, "%s,%.1f,%.1f,%.3f\n", stamp, inlet_kpa,
                                   outlet_kpa, flow_ls);
    fprintf(to->flows, "%s,%.3f\n", stamp, flow_ls);
    to->rows += 1;
    to->at += 1;
}

/* Bursts of some minutes, silence between them. */
static void put_bursts(logs *to, size_t size)
{
    while (to->written < size) {
        const double flow_ls = (to->at / 60) % 40 < 25 ? 0.0 : 0.15 + 0.01 * noise();
        const double outlet_kpa = (flow_ls > 0.0 ? 350.0 : 362.0) + 3.0 * noise();
        put_row(to, 700.0 + 3.0 * noise(), outlet_kpa, flow_ls);
    }
}

/* Days on which nothing is wrong, one after the other. */
static void put_days(logs *to, size_t size)
{
    for (uint64_t seed = 1; to->written < size; seed++) {
        qll_arena *arena = qll_arena_open((size_t)512 << 20);
        const day_log day = day_make(QLL_DAY_HEALTHY, seed, 800.0, arena);
        for (size_t i = 0; i < day.count && to->written < size; i++) {
            put_row(to, 1e-3 * day.value[QLL_CHANNEL_INLET][i],
                    1e-3 * day.value[QLL_CHANNEL_OUTLET][i], 1e3 * day.value[QLL_CHANNEL_FLOW][i]);
        }
        qll_arena_close(arena);
    }
}

static long long generate(const char *pressures, const char *flows, bool of_days, size_t size)
{
    logs to = {.pressures = fopen(pressures, "wb"), .flows = fopen(flows, "wb"), .at = 1500000000};
    if (to.pressures == NULL || to.flows == NULL) {
        return 0;
    }
    to.written = (size_t)fprintf(to.pressures, "time,inlet (kPa),outlet (kPa),flow (L/s)\n");
    fprintf(to.flows, "time,flow (L/s)\n");
    if (of_days) {
        put_days(&to, size);
    } else {
        put_bursts(&to, size);
    }
    return fclose(to.pressures) == 0 && fclose(to.flows) == 0 ? to.rows : 0;
}

static double read_one(const char *path, bool is_pressure, char *block, bool *good)
{
    static qll_pressure_result result;
    static const qll_pressure_expect none = {0};
    const double start = seconds();
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    qll_problems problems = qll_problems_none(arena);
    const qll_flow_log_options options = qll_flow_log_options_default();
    qll_flow_log *log =
        is_pressure ? qll_pressure_log_open(&options, arena) : qll_flow_log_open(&options, arena);
    FILE *file = fopen(path, "rb");
    size_t size = 0;
    *good = log != NULL && file != NULL;
    while (*good && (size = fread(block, 1, QLL_BLOCK, file)) > 0) {
        *good = qll_flow_log_feed(log, block, size) == QLL_OK;
    }
    *good = *good && qll_flow_log_finish(log, &result.log, &problems) == QLL_OK
            && (!is_pressure || qll_pressure_judge(result.log.taken, &none, arena, &result));
    if (file != NULL) {
        fclose(file);
    }
    qll_arena_close(arena);
    return seconds() - start;
}

/* One way to read one of the files. */
typedef struct way {
    const char *name, *path;
    bool is_pressure;
    double megabytes, best_s;
} way;

static double megabytes_of(const char *path)
{
    FILE *file = fopen(path, "rb");
    double size = 0.0;
    if (file != NULL && fseek(file, 0, SEEK_END) == 0) {
        size = (double)ftell(file);
    }
    if (file != NULL) {
        fclose(file);
    }
    return size / 1e6;
}

/* False if the logs cannot be read. */
static bool compare(const char *what, bool of_days, size_t size, long rounds, char *block)
{
    const char *folder = getenv("TMPDIR") == NULL ? "/tmp" : getenv("TMPDIR");
    char pressures[512];
    char flows[512];
    snprintf(pressures, sizeof pressures, "%s/quell_bench_pressure.csv", folder);
    snprintf(flows, sizeof flows, "%s/quell_bench_flow.csv", folder);
    const long long rows = generate(pressures, flows, of_days, size);
    way ways[] = {{"meter log, stamps and flows alone", flows, false, megabytes_of(flows), 1e9},
                  {"meter log, the same bytes", pressures, false, megabytes_of(pressures), 1e9},
                  {"pressure log", pressures, true, megabytes_of(pressures), 1e9}};
    bool good = rows > 0;
    for (long round = 0; round < rounds && good; round++) {
        for (size_t i = 0; i < 3 && good; i++) {
            const double took = read_one(ways[i].path, ways[i].is_pressure, block, &good);
            ways[i].best_s = took < ways[i].best_s ? took : ways[i].best_s;
        }
    }
    remove(pressures);
    remove(flows);
    for (size_t i = 0; i < 3 && good; i++) {
        printf("%s,\"%s\",%.1f,%.2f,%.0f,%.2f\n", what, ways[i].name,
               1e6 * ways[i].megabytes / (double)rows, (double)rows / ways[i].best_s / 1e6,
               ways[i].megabytes / ways[i].best_s, ways[i].best_s / ways[2].best_s);
    }
    return good;
}

int main(int count, char **arguments)
{
    const size_t size = (count > 1 ? (size_t)strtoul(arguments[1], NULL, 10) : (size_t)256) << 20;
    const long rounds = count > 2 ? strtol(arguments[2], NULL, 10) : 5;
    char *block = malloc(QLL_BLOCK);
    if (block == NULL) {
        return 1;
    }
    printf("rows,log,bytes_per_row,million_rows_s,mb_s,ratio_to_it\n");
    const bool good =
        compare("bursts", false, size, rounds, block) && compare("days", true, size, rounds, block);
    free(block);
    if (!good) {
        printf("the logs could not be read\n");
        return 1;
    }
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    printf("peak_memory_kb,%ld\n", usage.ru_maxrss);
    return 0;
}
