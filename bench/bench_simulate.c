/* One year of a hundred homes, second by second, written out as 31.5 million floats, against a loop
 * that writes as many floats to memory already touched. */
#include "demand/simulate.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define BENCH_DAYS  365
#define BENCH_TRIES 7

typedef struct tape {
    float *flow_m3s;
    size_t count;
} tape;

static void record(void *context, const qll_second_block *block)
{
    tape *to = context;
    float *place = to->flow_m3s + to->count;
    for (size_t s = 0; s < block->count; s++) {
        place[s] = (float)block->flow_m3s[s];
    }
    to->count += block->count;
}

static double seconds(void)
{
    struct timespec now;
    timespec_get(&now, TIME_UTC);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void write_floats(float *place, size_t count, float value)
{
    for (size_t i = 0; i < count; i++) {
        place[i] = value;
    }
}

int main(void)
{
    const qll_scenario scenario = {.name = "homes",
                                   .use = QLL_USE_HOUSE,
                                   .people = 230,
                                   .homes = 100,
                                   .peak_method = QLL_PEAK_METHOD_COUNT,
                                   .peak_given_m3s = (double)NAN,
                                   .quantile = 0.99};
    const size_t count = (size_t)BENCH_DAYS * QLL_DAY_SECONDS;
    float *year = malloc(count * sizeof *year);
    if (year == NULL) {
        return 1;
    }
    double written_s = HUGE_VAL;
    double simulated_s = HUGE_VAL;
    double volume_m3 = 0.0;
    size_t arena_size = 0;
    write_floats(year, count, 0.5F);
    for (int i = 0; i < BENCH_TRIES; i++) {
        double start = seconds();
        write_floats(year, count, (float)i);
        written_s = fmin(written_s, seconds() - start);
        start = seconds();
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        qll_simulator *simulator = NULL;
        if (qll_simulator_make(&scenario, 1, arena, &simulator) != QLL_OK) {
            return 1;
        }
        tape to = {.flow_m3s = year};
        for (int day = 0; day < BENCH_DAYS; day++) {
            qll_simulator_day(simulator, record, &to);
        }
        simulated_s = fmin(simulated_s, seconds() - start);
        arena_size = qll_arena_size(arena);
        qll_arena_close(arena);
    }
    for (size_t s = 0; s < count; s++) {
        volume_m3 += (double)year[s];
    }
    printf(
        "a year of 100 homes, 1 s: %.3f s; writing as many floats: %.3f s; ratio %.2f (goal 4)\n",
        simulated_s, written_s, simulated_s / written_s);
    printf("    %.1f m3 a day; arena %.1f MB\n", volume_m3 / BENCH_DAYS, (double)arena_size / 1e6);
    free(year);
    return 0;
}
