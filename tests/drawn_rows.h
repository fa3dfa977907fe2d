/* Rows of a log of pressures, drawn, and what is found of them. The slow way to look at them again is in tests/laws/law_log_*.c. */
#ifndef QUELL_TESTS_DRAWN_ROWS_H
#define QUELL_TESTS_DRAWN_ROWS_H

#include "base/random.h"
#include "check.h"
#include "pressure_found.h"

#include <stdlib.h>

#define TEST_MOST   ((size_t)260000)
#define TEST_GROUPS ((size_t)4096)

/* Rows of an inlet, an outlet and a flow; a channel that is not there is all NaN. */
typedef struct rows {
    int64_t interval_ms;
    size_t count;
    int64_t at_ms[TEST_MOST];
    double inlet[TEST_MOST], outlet[TEST_MOST], flow[TEST_MOST];
    bool has[QLL_CHANNEL_COUNT];
} rows;

static rows log_of; /* too large for a frame */
static qll_random dice;

static inline double drawn_between(double low, double high)
{
    return low + (high - low) * qll_random_unit(&dice);
}

static inline void begin(int64_t interval_ms, bool has_inlet, bool has_flow)
{
    log_of.interval_ms = interval_ms;
    log_of.count = 0;
    log_of.has[QLL_CHANNEL_INLET] = has_inlet;
    log_of.has[QLL_CHANNEL_OUTLET] = true;
    log_of.has[QLL_CHANNEL_FLOW] = has_flow;
    log_of.has[QLL_CHANNEL_TEMPERATURE] = false;
}

/* One row, an interval and @p late_ms behind the last one. */
static inline void add(int64_t late_ms, double inlet, double outlet, double flow)
{
    const size_t at = log_of.count;
    if (at == TEST_MOST) {
        abort();
    }
    log_of.at_ms[at] =
        at == 0 ? (int64_t)1772323200000 : log_of.at_ms[at - 1] + log_of.interval_ms + late_ms;
    log_of.inlet[at] = inlet;
    log_of.outlet[at] = outlet;
    log_of.flow[at] = flow;
    log_of.count += 1;
}

#define TEST_BLOCK ((size_t)3001)

/* A block of one channel; behind it stands what nobody may look at, so near to the last value that a step of it would show. */
static inline const double *block_of(const double *values, size_t size, double *room)
{
    memcpy(room, values, size * sizeof *room);
    room[size] = room[size - 1] + 1e-3;
    return room;
}

/* Judged as it comes from a reader, in blocks of any size. */
static inline const qll_pressure_result *judged(qll_arena *arena)
{
    static qll_pressure_result result;
    static const qll_pressure_expect none = {0};
    qll_channel_facts facts = {.interval_ms = log_of.interval_ms};
    memcpy(facts.has, log_of.has, sizeof facts.has);
    qll_pressure_state *state = qll_pressure_begin(&facts, arena);
    memset(&result, 0, sizeof result);
    for (size_t from = 0; state != NULL && from < log_of.count;) {
        static double room[3][TEST_BLOCK + 1];
        size_t size = 1 + (size_t)drawn_between(0.0, 3000.0);
        size = size < log_of.count - from ? size : log_of.count - from;
        const double *values[QLL_CHANNEL_COUNT] = {
            log_of.has[QLL_CHANNEL_INLET] ? block_of(log_of.inlet + from, size, room[0]) : NULL,
            block_of(log_of.outlet + from, size, room[1]),
            log_of.has[QLL_CHANNEL_FLOW] ? block_of(log_of.flow + from, size, room[2]) : NULL,
            NULL};
        qll_pressure_take(state, log_of.at_ms + from, values, size);
        from += size;
    }
    result.log.row_count = (long long)log_of.count;
    CHECK(state != NULL && qll_pressure_judge(state, &none, arena, &result));
    return &result;
}

static inline int by_size(const void *one, const void *other)
{
    const double a = *(const double *)one;
    const double b = *(const double *)other;
    return a < b ? -1 : a > b ? 1 : 0;
}

/* Quantile of a sorted list, straight between neighbors (Hyndman and Fan's type 7). */
static inline double quantile(double *values, size_t count, double share)
{
    qsort(values, count, sizeof *values, by_size);
    const double at = share * (double)(count - 1);
    const size_t low = (size_t)at;
    const size_t high = low + 1 < count ? low + 1 : low;
    return values[low] + (at - (double)low) * (values[high] - values[low]);
}

static inline bool is_gap(size_t i)
{
    return log_of.at_ms[i] - log_of.at_ms[i - 1] > 5 * log_of.interval_ms;
}

/* ---- days that are drawn ---- */

#define TEST_SET_PA   400e3
#define TEST_DROOP    1e8 /* Pa per m3/s */
#define TEST_LOCK_PA  430e3
#define TEST_INLET_PA 800e3

/* To the 250 Pa of the gauge. */
static inline double gauged(double pa)
{
    return 250.0 * round(pa / 250.0);
}

static inline int64_t late_ms(void)
{
    const double turn = qll_random_unit(&dice);
    return turn < 0.999    ? 0
           : turn < 0.9995 ? 4 * log_of.interval_ms /* no gap yet */
                           : (int64_t)drawn_between(6.0, 3000.0) * log_of.interval_ms; /* one */
}

/* Nobody draws for so long; the outlet rises by a straight line. */
static inline void idle(double for_s, double rate_pa_s, bool has_gaps)
{
    const double start_pa = TEST_LOCK_PA + gauged(drawn_between(0.0, 20e3));
    const size_t count = (size_t)(for_s * 1000.0 / (double)log_of.interval_ms);
    for (size_t i = 0; i < count; i++) {
        const double since_s = (double)i * (double)log_of.interval_ms / 1000.0;
        const double rise_pa = rate_pa_s * fmax(since_s - 60.0, 0.0);
        const double outlet = rate_pa_s > 0.0 ? start_pa + rise_pa : start_pa;
        add(has_gaps ? late_ms() : 0, TEST_INLET_PA,
            has_gaps && qll_random_unit(&dice) < 2e-4 ? (double)NAN : outlet,
            qll_random_unit(&dice) < 0.5 ? 0.0 : 5e-6);
    }
}

/* A use: a row that is neither steady nor none, then a flow within a hundredth of its own, then such a row again. */
static inline void use(double flow_m3s, size_t count, bool has_gaps)
{
    add(0, TEST_INLET_PA, gauged(TEST_SET_PA), 1e-5);
    for (size_t i = 0; i < count; i++) {
        const double flow = flow_m3s * drawn_between(0.99, 1.01);
        add(has_gaps ? late_ms() : 0, TEST_INLET_PA, gauged(TEST_SET_PA - TEST_DROOP * flow_m3s),
            flow);
    }
    add(0, TEST_INLET_PA, gauged(TEST_SET_PA), 1e-5);
}

/* Uses from below what counts as a run to well over it. */
static inline void live(size_t rows_wanted, bool has_gaps)
{
    while (log_of.count < rows_wanted) {
        idle(qll_random_unit(&dice) < 0.5 ? drawn_between(5.0, 1200.0)
                                          : drawn_between(600.0, 9000.0),
             0.0, has_gaps);
        const size_t uses = 1 + (size_t)drawn_between(0.0, 4.0);
        for (size_t u = 0; u < uses; u++) {
            const double least = 20000.0 / (double)log_of.interval_ms;
            use(drawn_between(0.5e-5, 60e-5), (size_t)drawn_between(1.0, 3.0 * least), has_gaps);
        }
    }
}

#endif
