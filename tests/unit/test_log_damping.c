/* A meter that settles slowly: every stop decays by the same factor from row to row. The time constant is by definition
 * the time between two rows over the logarithm of their ratio. */
#include "base/random.h"
#include "check.h"
#include "signals/log_damping.h"

#include <math.h>
#include <stdlib.h>

#define QLL_STOPS 12
#define QLL_FALL  14 /* rows of each */

/* Flows that run at 1 and then stop: each row is the one before times a factor, @p early in the first half of a fall and
 * @p late in the second. Rows are a second apart. */
static double time_constant_s(double early, double late)
{
    static qll_damping damping;
    int64_t at_ms = 0;
    qll_damping_begin(&damping, 1000);
    for (size_t stop = 0; stop < QLL_STOPS; stop++) {
        double flow = 1.0;
        for (size_t row = 0; row < QLL_FALL; row++) {
            qll_damping_look(&damping, &at_ms, &flow, 1);
            at_ms += 1000;
            flow *= row < QLL_FALL / 2 ? early : late;
        }
        flow = 0.0;
        qll_damping_look(&damping, &at_ms, &flow, 1);
        at_ms += 1000;
    }
    return qll_damping_time_s(&damping);
}

TEST(a_damped_meter_has_its_time_constant)
{
    CHECK_WITHIN(time_constant_s(exp(-1.0 / 4.0), exp(-1.0 / 4.0)), 4.0, 1e-6);
    CHECK_WITHIN(time_constant_s(exp(-1.0 / 7.0), exp(-1.0 / 7.0)), 7.0, 1e-6);
}

/* A valve that closes does not decay evenly, whichever half is the faster one. */
TEST(a_fall_that_is_not_even_has_none)
{
    CHECK(isnan(time_constant_s(exp(-1.0 / 3.0), exp(-1.0 / 6.0))));
    CHECK(isnan(time_constant_s(exp(-1.0 / 6.0), exp(-1.0 / 3.0))));
}

/* ---- drawn falls, looked at once more row by row ---- */

#define TEST_ROWS ((size_t)4000)

typedef struct rows {
    size_t count;
    int64_t at_ms[TEST_ROWS];
    double flow[TEST_ROWS];
} rows;

static void add(rows *log, int64_t after_ms, double flow)
{
    if (log->count < TEST_ROWS) {
        log->at_ms[log->count] = log->count == 0 ? after_ms : log->at_ms[log->count - 1] + after_ms;
        log->flow[log->count] = flow;
        log->count += 1;
    }
}

static double between(qll_random *dice, double low, double high)
{
    return low + (high - low) * qll_random_unit(dice);
}

/* Falls of any depth, evenness and length; some at once, some across a gap, some small beside the greatest. */
static void draw_falls(rows *log, qll_random *dice, double share_even, double time_rows,
                       double spread)
{
    log->count = 0;
    add(log, 1000, 0.0);
    for (size_t fall = 0; fall < 60; fall++) {
        const bool is_even = qll_random_unit(dice) < share_even;
        const bool has_gap = qll_random_unit(dice) < 0.05;
        const double slow = time_rows * between(dice, 1.0 / spread, spread);
        const size_t length = (size_t)between(dice, 2.0, 40.0);
        double flow =
            qll_random_unit(dice) < 0.2 ? between(dice, 0.02, 0.2) : between(dice, 0.5, 1.0);
        for (size_t i = 0; i < length; i++) {
            add(log, has_gap && i == length / 2 ? 2000 : 1000, flow);
            flow *= exp(-(is_even || i < length / 2 ? 1.0 : between(dice, 1.2, 3.0)) / slow);
        }
        add(log, 1000, qll_random_unit(dice) < 0.5 ? 0.0 : between(dice, 0.0, 1.0));
        if (qll_random_unit(dice) < 0.2) { /* on and off within a row */
            add(log, 1000, between(dice, 0.3, 1.0));
            add(log, 1000, 0.0);
        }
    }
}

static int by_size(const void *one, const void *other)
{
    const double a = *(const double *)one;
    const double b = *(const double *)other;
    return a < b ? -1 : a > b ? 1 : 0;
}

/* A stretch of rows that each lie under the one before and over nothing, an interval apart, is a fall; one row that drops to
 * nothing is one too. It is a stop if it begins at a tenth of the greatest flow or more and ends under 0.3 of where it began; even
 * if it has eight rows or more, of which both halves without the first row decay alike to 1.6 times. Of five even stops or more
 * that are half of all, quartiles within 1.6 times, the middle one counts, if it is three intervals or more. */
static double brute_s(const rows *of)
{
    static double even[TEST_ROWS];
    size_t stops = 0;
    size_t count = 0;
    double greatest = 0.0;
    for (size_t i = 0; i < of->count; i++) {
        greatest = fmax(greatest, of->flow[i]);
    }
    for (size_t from = 0; from < of->count; from++) {
        size_t to = from + 1;
        const double *flow = of->flow;
        if (!(flow[from] > 0.0)
            || (from > 0 && flow[from] < flow[from - 1]
                && of->at_ms[from] - of->at_ms[from - 1] == 1000)) {
            continue; /* in the middle of one */
        }
        while (to < of->count && flow[to] > 0.0 && flow[to] < flow[to - 1]
               && of->at_ms[to] - of->at_ms[to - 1] == 1000) {
            to += 1;
        }
        const size_t size = to - from;
        const bool at_once = size == 1 && to < of->count && flow[to] == 0.0
                             && of->at_ms[to] - of->at_ms[to - 1] == 1000;
        if (flow[from] < 0.1 * greatest || to == of->count
            || !(at_once || (size > 1 && flow[to - 1] <= 0.3 * flow[from]))) {
            continue;
        }
        stops += 1;
        if (size >= 8) {
            const size_t middle = from + size / 2;
            const double early = (double)(middle - from - 1) / log(flow[from + 1] / flow[middle]);
            const double late = (double)(to - 1 - middle) / log(flow[middle] / flow[to - 1]);
            if (early < 1.6 * late && late < 1.6 * early) {
                even[count] = (double)(size - 2) / log(flow[from + 1] / flow[to - 1]);
                count += 1;
            }
        }
    }
    qsort(even, count, sizeof *even, by_size);
    const bool holds = count >= 5 && 2 * count >= stops
                       && even[count * 3 / 4] <= 1.6 * even[count / 4] && even[count / 2] >= 3.0;
    return holds ? even[count / 2] : (double)NAN;
}

TEST(drawn_falls_have_the_time_constant_of_their_rows)
{
    static rows log;
    size_t damped = 0;
    for (uint64_t seed = 1; seed <= 300; seed++) {
        static qll_damping damping;
        qll_random dice = qll_random_seeded(seed);
        draw_falls(&log, &dice, between(&dice, 0.2, 1.0), between(&dice, 2.5, 9.0),
                   between(&dice, 1.0, 2.0));
        qll_damping_begin(&damping, 1000);
        for (size_t from = 0; from < log.count;) { /* in blocks of any size */
            size_t size = 1 + (size_t)between(&dice, 0.0, 200.0);
            size = size < log.count - from ? size : log.count - from;
            qll_damping_look(&damping, log.at_ms + from, log.flow + from, size);
            from += size;
        }
        const double want = brute_s(&log);
        damped += isnan(want) ? 0 : 1;
        CHECK_WITHIN(qll_damping_time_s(&damping), want, 1e-9);
    }
    CHECK(damped > 50 && damped < 250);
}

int main(void)
{
    TEST_RUN(a_damped_meter_has_its_time_constant);
    TEST_RUN(a_fall_that_is_not_even_has_none);
    TEST_RUN(drawn_falls_have_the_time_constant_of_their_rows);
    return TEST_END();
}
