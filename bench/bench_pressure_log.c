/* A generated log of a row per second with two pressures and a flow: rows a second of the whole reading, judging included,
 * against the meter-log reader on the rows of the same stamps and flows in the same run; and peak memory.
 *
 *     bench_pressure_log [MB]        default 256 */
#define _POSIX_C_SOURCE 200809L
#include "signals/pressure_log.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

#define QLL_BLOCK  ((size_t)64 * 1024)
#define QLL_ROUNDS 3

static double seconds(void)
{
    struct timespec now;
    timespec_get(&now, TIME_UTC);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static unsigned long long state = 1;

static double noise(void)
{
    state = state * 6364136223846793005ULL + 1442695040888963407ULL;
    return (double)(state >> 40) / 16777216.0 - 0.5;
}

/* Both logs of the same rows; bursts of some minutes, silence between them. */
static long long generate(const char *pressures, const char *flows, size_t size)
{
    FILE *first = fopen(pressures, "wb");
    FILE *second = fopen(flows, "wb");
    long long rows = 0;
    if (first == NULL || second == NULL) {
        return 0;
    }
    size_t written = (size_t)fprintf(first, "time,inlet (kPa),outlet (kPa),flow (L/s)\n");
    fprintf(second, "time,flow (L/s)\n");
    time_t at = 1500000000;
    while (written < size) {
        char day[32];
        const struct tm *parts = gmtime(&at);
        strftime(day, sizeof day, "%Y-%m-%dT%H:%M", parts);
        for (int s = 0; s < 60; s++) {
            const double flow = (at / 60) % 40 < 25 ? 0.0 : 0.15 + 0.01 * noise();
            written +=
                (size_t)fprintf(first, "%s:%02dZ,%.1f,%.1f,%.3f\n", day, s, 700.0 + 3.0 * noise(),
                                (flow > 0.0 ? 350.0 : 362.0) + 3.0 * noise(), flow);
            fprintf(second, "%s:%02dZ,%.3f\n", day, s, flow);
            rows += 1;
        }
        at += 60;
    }
    return fclose(first) == 0 && fclose(second) == 0 ? rows : 0;
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

int main(int count, char **arguments)
{
    const size_t size = (count > 1 ? (size_t)strtoul(arguments[1], NULL, 10) : (size_t)256) << 20;
    const char *folder = getenv("TMPDIR") == NULL ? "/tmp" : getenv("TMPDIR");
    char pressures[512];
    char flows[512];
    snprintf(pressures, sizeof pressures, "%s/quell_bench_pressure.csv", folder);
    snprintf(flows, sizeof flows, "%s/quell_bench_flow.csv", folder);
    char *block = malloc(QLL_BLOCK);
    const long long rows = generate(pressures, flows, size);
    double best[2] = {1e9, 1e9};
    bool good = rows > 0 && block != NULL;
    for (int round = 0; round < QLL_ROUNDS && good; round++) {
        for (int which = 0; which < 2 && good; which++) {
            const double took = read_one(which == 0 ? flows : pressures, which == 1, block, &good);
            best[which] = took < best[which] ? took : best[which];
        }
    }
    remove(pressures);
    remove(flows);
    free(block);
    if (!good) {
        printf("the logs could not be read\n");
        return 1;
    }
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    printf("meter log     %6.2f million rows/s\n", (double)rows / best[0] / 1e6);
    printf("pressure log  %6.2f million rows/s, %.2f of the meter log's; %ld kB at most\n",
           (double)rows / best[1] / 1e6, best[0] / best[1], usage.ru_maxrss);
    return 0;
}
