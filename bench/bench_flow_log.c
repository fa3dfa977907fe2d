/* A generated log of one row per second: MB/s of the reader, against counting line breaks in the same
 * file in the same run (blocks of 64 KiB and memchr, as `wc -l` does), and peak memory.
 *
 *     bench_flow_log [MB]        default 64 */
#define _POSIX_C_SOURCE 200809L
#include "signals/flow_log.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>
#include <unistd.h>

#define QLL_BLOCK  ((size_t)64 * 1024)
#define QLL_ROUNDS 5

static double seconds(void)
{
    struct timespec now;
    timespec_get(&now, TIME_UTC);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* Bursts of some minutes, silence between them; flows of four to seven digits. */
static bool generate(const char *path, size_t size)
{
    FILE *file = fopen(path, "wb");
    if (file == NULL) {
        return false;
    }
    size_t written = (size_t)fprintf(file, "time,flow (gpm)\n");
    time_t at = 1500000000;
    unsigned long long state = 1;
    while (written < size) {
        char day[32];
        const struct tm *parts = gmtime(&at);
        strftime(day, sizeof day, "%Y-%m-%dT%H:%M", parts);
        for (int second = 0; second < 60; second++) {
            state = state * 6364136223846793005ULL + 1442695040888963407ULL;
            double flow = (at / 60) % 7 < 4 ? 0.0 : (double)(state >> 44) / 1e5;
            written += (size_t)fprintf(file, "%s:%02dZ,%.*f\n", day, second,
                                       flow == 0.0 ? 1 : 3 + (int)(state % 3), flow);
        }
        at += 60;
    }
    return fclose(file) == 0;
}

static double count_lines(const char *path, char *block, long long *lines)
{
    double start = seconds();
    int file = open(path, O_RDONLY);
    ssize_t size = 0;
    *lines = 0;
    while ((size = read(file, block, QLL_BLOCK)) > 0) {
        const char *end = block + size;
        for (const char *at = block; (at = memchr(at, '\n', (size_t)(end - at))) != NULL; at++) {
            *lines += 1;
        }
    }
    close(file);
    return seconds() - start;
}

static double read_log(const char *path, char *block, qll_flow_log_result *result, bool *good)
{
    double start = seconds();
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_problems problems = qll_problems_none(arena);
    qll_flow_log_options options = qll_flow_log_options_default();
    qll_flow_log *log = qll_flow_log_open(&options, arena);
    int file = open(path, O_RDONLY);
    ssize_t size = 0;
    *good = log != NULL && file >= 0;
    while (*good && (size = read(file, block, QLL_BLOCK)) > 0) {
        *good = qll_flow_log_feed(log, block, (size_t)size) == QLL_OK;
    }
    *good = *good && qll_flow_log_finish(log, result, &problems) == QLL_OK;
    close(file);
    qll_arena_close(arena);
    return seconds() - start;
}

int main(int count, char **arguments)
{
    size_t size = (size_t)64 << 20;
    if (count > 1) {
        size = (size_t)strtoul(arguments[1], NULL, 10) << 20;
    }
    char path[64];
    snprintf(path, sizeof path, "/tmp/bench_flow_log_%ld.csv", (long)getpid());
    char *block = malloc(QLL_BLOCK);
    if (block == NULL) {
        return 1;
    }
    if (!generate(path, size)) {
        free(block);
        return 1;
    }
    double least_count = 1e9;
    double least_read = 1e9;
    bool good = true;
    long long lines = 0;
    qll_flow_log_result result = {0};
    for (int round = 0; round < QLL_ROUNDS && good; round++) {
        double counted = count_lines(path, block, &lines);
        double taken = read_log(path, block, &result, &good);
        least_count = counted < least_count ? counted : least_count;
        least_read = taken < least_read ? taken : least_read;
    }
    unlink(path);
    free(block);
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    double megabytes = (double)size / 1e6;
    printf("mb,lines,read_mb_s,count_mb_s,ratio,ns_per_line,peak_memory_kb\n");
    printf("%.0f,%lld,%.0f,%.0f,%.2f,%.1f,%ld\n", megabytes, lines, megabytes / least_read,
           megabytes / least_count, least_read / least_count, 1e9 * least_read / (double)lines,
           usage.ru_maxrss);
    return good && result.line_count == lines && result.row_count == lines - 1 ? 0 : 1;
}
