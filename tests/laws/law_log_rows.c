/* What a log of pressures is told by, counted once more from its rows the slow way, by the definitions of
 * docs/theory/pressure_log.md: windows without flow, runs of steady flow, and how many of the windows rise. */
#include "drawn_rows.h"

/* ---- windows and runs, by the page ---- */

typedef struct window {
    size_t from, to;
} window;

typedef struct group_of {
    size_t count;
    window of[TEST_GROUPS];
} group_of;

static double length_s(window of)
{
    return (double)(log_of.at_ms[of.to - 1] - log_of.at_ms[of.from] + log_of.interval_ms) / 1000.0;
}

static void keep(group_of *group, window of)
{
    if (group->count == TEST_GROUPS) {
        abort();
    }
    group->of[group->count] = of;
    group->count += 1;
}

static bool is_idle(size_t i)
{
    return log_of.flow[i] <= 5e-6 && !isnan(log_of.outlet[i]);
}

static void find_windows(group_of *windows)
{
    windows->count = 0;
    for (size_t from = 0; from < log_of.count;) {
        size_t to = from;
        while (to < log_of.count && is_idle(to) && (to == from || !is_gap(to))) {
            to += 1;
        }
        if (to > from && length_s((window){from, to}) >= 660.0) {
            keep(windows, (window){from, to});
        }
        from = to > from ? to : from + 1;
    }
}

static void find_runs(group_of *runs)
{
    runs->count = 0;
    for (size_t from = 0; from < log_of.count;) {
        double sum = 0.0;
        size_t to = from;
        while (to < log_of.count && log_of.flow[to] > 2e-5 && (to == from || !is_gap(to))) {
            const double mean = to == from ? log_of.flow[from] : sum / (double)(to - from);
            const double off = fabs(log_of.flow[to] - mean);
            if (off > 1e-5 && off > 0.12 * mean) {
                break;
            }
            sum += log_of.flow[to];
            to += 1;
        }
        const int64_t length_ms = (int64_t)(to - from) * log_of.interval_ms;
        const size_t edges = 2 * (size_t)(3000 / log_of.interval_ms);
        if (length_ms >= 20000 && to - from >= edges + 2) {
            keep(runs, (window){from, to});
        }
        from = to > from ? to : from + 1;
    }
}

/* Median of the values whose time is in [low_s, high_s) behind the first one's. */
static double median_in(const double *values, window of, double low_s, double high_s)
{
    static double some[TEST_MOST];
    size_t count = 0;
    for (size_t i = of.from; i < of.to; i++) {
        const double since_s = (double)(log_of.at_ms[i] - log_of.at_ms[of.from]) / 1000.0;
        if (since_s >= low_s && since_s < high_s) {
            some[count] = values[i];
            count += 1;
        }
    }
    return quantile(some, count, 0.5);
}

static void check_windows(const qll_pressure_result *result)
{
    static group_of windows;
    static double starts[TEST_GROUPS];
    find_windows(&windows);
    double sum_s = 0.0;
    double late = 0.0;
    for (size_t i = 0; i < windows.count; i++) {
        sum_s += length_s(windows.of[i]);
        late += length_s(windows.of[i]) >= 4500.0 ? 1.0 : 0.0;
        starts[i] = median_in(log_of.outlet, windows.of[i], 60.0, 120.0);
    }
    CHECK(windows.count > 20);
    const qll_pressure_features *f = &result->features;
    CHECK_WITHIN(f->window_count, (double)windows.count, 0.0);
    CHECK_WITHIN(f->window_s, sum_s, 1e-3);
    CHECK_WITHIN(f->late_count, late, 0.0);
    CHECK_WITHIN(f->lock_up_pa_gauge, quantile(starts, windows.count, 0.5), 1e-6);
    CHECK_WITHIN(f->early_share, 0.0, 0.0);
    /* The lower quartile of what windows start at, over the set-point. */
    const qll_pressure_finding *lock_up = pressure_found(result, QLL_PRESSURE_WORD_LOCK_UP);
    if (lock_up != NULL) {
        const double quarter_pa = quantile(starts, windows.count, 0.25);
        CHECK_WITHIN(lock_up->level_pa_gauge, quarter_pa, 1e-6);
        CHECK_WITHIN(lock_up->value, quarter_pa - f->set_point_pa_gauge, 1e-6);
    }
}

static void check_runs(const qll_pressure_result *result)
{
    static group_of runs;
    static double flows[TEST_GROUPS];
    find_runs(&runs);
    CHECK(runs.count > 10);
    for (size_t i = 0; i < runs.count; i++) {
        const window inner = {runs.of[i].from + (size_t)(3000 / log_of.interval_ms),
                              runs.of[i].to - (size_t)(3000 / log_of.interval_ms)};
        flows[i] = median_in(log_of.flow, inner, 0.0, 1e9);
    }
    const qll_pressure_features *f = &result->features;
    CHECK_WITHIN(f->run_count, (double)runs.count, 0.0);
    /* The 95 % flow is one of the runs' own; the line was laid down, and the gauge rounds it. */
    quantile(flows, runs.count, 0.95);
    const size_t at = (size_t)(0.95 * (double)(runs.count - 1));
    if (runs.count <= 512) {
        CHECK_WITHIN(f->high_flow_m3s, flows[at], 1e-12);
    } else { /* 512 of them, evenly */
        CHECK(f->high_flow_m3s > quantile(flows, runs.count, 0.92)
              && f->high_flow_m3s < quantile(flows, runs.count, 0.98));
    }
    CHECK_NEAR(f->fall_off_slope, TEST_DROOP, 0.01);
    CHECK_WITHIN(f->set_point_pa_gauge, TEST_SET_PA, 500.0);
    CHECK_WITHIN(f->fall_off_pa, TEST_DROOP * f->high_flow_m3s, 1000.0);
    const qll_pressure_finding *fall_off = pressure_found(result, QLL_PRESSURE_WORD_FALL_OFF);
    if (fall_off != NULL) {
        CHECK_WITHIN(fall_off->value, f->fall_off_pa, 0.0);
        CHECK_WITHIN(fall_off->flow_m3s, f->high_flow_m3s, 0.0);
        CHECK_WITHIN(fall_off->level_pa_gauge, f->set_point_pa_gauge, 0.0);
    }
    CHECK(pressure_found(result, QLL_PRESSURE_WORD_STRAINER) == NULL);
}

/* ---- the tests ---- */

/* From half a day to more than what is held at once. */
TEST(windows_and_runs_are_those_of_the_page)
{
    static const int64_t intervals_ms[] = {3000, 5000, 10000};
    static const size_t sizes[] = {20000, 95000, 240000};
    for (uint64_t seed = 0; seed < 6; seed++) {
        qll_arena *arena = qll_arena_open((size_t)256 << 20);
        dice = qll_random_seeded(seed + 1);
        begin(intervals_ms[seed % 3], true, true);
        live(sizes[seed / 2], true);
        const qll_pressure_result *result = judged(arena);
        check_windows(result);
        check_runs(result);
        for (size_t i = 0; i + 1 < result->finding_count; i++) {
            CHECK(result->findings[i].strength >= result->findings[i + 1].strength);
        }
        qll_arena_close(arena);
    }
}

/* Windows in which the outlet rises by a straight line, or not at all: how many do, and how fast the middle one does. */
TEST(rises_are_counted_with_their_rates)
{
    for (uint64_t seed = 0; seed < 4; seed++) {
        static double late[TEST_GROUPS];
        qll_arena *arena = qll_arena_open((size_t)256 << 20);
        dice = qll_random_seeded(seed + 201);
        begin(5000, true, true);
        double windows = 0.0;
        double rising = 0.0;
        double long_ones = 0.0;
        size_t late_count = 0;
        double most_pa = 0.0;
        while (log_of.count < 150000) {
            windows += 1.0;
            const bool is_long = qll_random_unit(&dice) < 0.5;
            const bool rises = qll_random_unit(&dice) < 0.75;
            const double rate_pa_s = rises ? drawn_between(4.0, 6.0) : 0.0;
            idle(is_long ? drawn_between(4600.0, 9000.0) : drawn_between(700.0, 4400.0), rate_pa_s,
                 false);
            most_pa = fmax(most_pa, log_of.outlet[log_of.count - 1]);
            rising += rises ? 1.0 : 0.0;
            long_ones += is_long ? 1.0 : 0.0;
            if (rises && is_long) {
                late[late_count] = rate_pa_s;
                late_count += 1;
            }
            use(20e-5, 20, false);
        }
        const qll_pressure_result *result = judged(arena);
        const qll_pressure_features *f = &result->features;
        CHECK_WITHIN(f->window_count, windows, 0.0);
        CHECK_WITHIN(f->late_count, long_ones, 0.0);
        CHECK_WITHIN(f->early_share, rising / windows, 1e-12);
        CHECK_WITHIN(f->late_share, (double)late_count / long_ones, 1e-12);
        const qll_pressure_finding *creep = pressure_found(result, QLL_PRESSURE_WORD_CREEP);
        if (CHECK(creep != NULL && creep->stretch != NULL)) {
            CHECK_NEAR(creep->value, quantile(late, late_count, 0.5), 1e-6);
            CHECK_WITHIN(creep->share, (double)late_count / long_ones, 1e-12);
            /* The greatest average of half a minute stands up to 45 s before the top of the steepest line. */
            CHECK(creep->level_pa_gauge < most_pa && creep->level_pa_gauge > most_pa - 6.0 * 45.0);
            CHECK(!creep->ends_at_inlet && isnan(creep->expected) && isnan(creep->flow_m3s));
        }
        qll_arena_close(arena);
    }
}

/* Where there is no flow, what stands still at the top is at rest. */
TEST(without_a_flow_rest_is_where_the_outlet_stands)
{
    for (uint64_t seed = 0; seed < 4; seed++) {
        qll_arena *arena = qll_arena_open((size_t)256 << 20);
        dice = qll_random_seeded(seed + 301);
        begin(seed % 2 == 0 ? 3000 : 10000, true, false);
        double windows = 0.0;
        double sum_s = 0.0;
        while (log_of.count < 120000) {
            const size_t rest =
                (size_t)(drawn_between(200.0, 4000.0) * 1000.0 / (double)log_of.interval_ms);
            for (size_t i = 0; i < rest; i++) {
                add(0, TEST_INLET_PA, TEST_LOCK_PA + 250.0 * floor(drawn_between(0.0, 8.0)),
                    (double)NAN);
            }
            const int64_t rest_ms = (int64_t)rest * log_of.interval_ms;
            windows += rest_ms >= 660000 ? 1.0 : 0.0;
            sum_s += rest_ms >= 660000 ? (double)rest_ms / 1000.0 : 0.0;
            const size_t drawing = 5 + (size_t)drawn_between(0.0, 20.0);
            for (size_t i = 0; i < drawing; i++) {
                add(0, TEST_INLET_PA, TEST_LOCK_PA - 20e3 - 250.0 * floor(drawn_between(0.0, 60.0)),
                    (double)NAN);
            }
        }
        const qll_pressure_result *result = judged(arena);
        CHECK(windows > 20.0);
        CHECK_WITHIN(result->features.window_count, windows, 0.0);
        CHECK_WITHIN(result->features.window_s, sum_s, 1e-3);
        CHECK_WITHIN(result->features.run_count, 0.0, 0.0);
        qll_arena_close(arena);
    }
}

/* Of more runs and windows than are kept each is counted, and what is kept is spread over all: the same
 * line goes through them. */
TEST(records_are_thinned_evenly)
{
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    dice = qll_random_seeded(951);
    begin(10000, true, true);
    static double flows[20000];
    size_t runs = 0;
    while (log_of.count < 200000) {
        const double flow = drawn_between(6e-5, 60e-5);
        add(0, TEST_INLET_PA, TEST_SET_PA, 1e-5);
        for (int i = 0; i < 10; i++) {
            add(0, TEST_INLET_PA, TEST_SET_PA - TEST_DROOP * flow, flow);
        }
        flows[runs] = flow;
        runs += 1;
    }
    const qll_pressure_features *f = &judged(arena)->features;
    CHECK_WITHIN(f->run_count, (double)runs, 0.0);
    CHECK(runs > 12288);
    CHECK_NEAR(f->fall_off_slope, TEST_DROOP, 1e-6);
    CHECK_NEAR(f->set_point_pa_gauge, TEST_SET_PA, 1e-6);
    CHECK(f->high_flow_m3s > quantile(flows, runs, 0.92)
          && f->high_flow_m3s < quantile(flows, runs, 0.98));
    qll_arena_close(arena);
}

/* ---- nights ---- */

#define TEST_DAY_MS  ((int64_t)86400 * 1000)
#define TEST_HOUR_MS ((int64_t)3600 * 1000)

/* Days from five in the morning to five in the morning: whose night a moment is. */
static int64_t night_at(int64_t at_ms)
{
    return (at_ms + 19 * TEST_HOUR_MS) / TEST_DAY_MS;
}

/* Windows of two to nine hours between uses, each at its night's level. */
static void live_by_nights(int64_t days, double drift_pa, int64_t step_day, double step_pa)
{
    add(0, TEST_INLET_PA, TEST_SET_PA, 1e-5);
    const int64_t first = night_at(log_of.at_ms[0]);
    while (log_of.at_ms[log_of.count - 1] - log_of.at_ms[0] < days * TEST_DAY_MS) {
        const int64_t night = night_at(log_of.at_ms[log_of.count - 1] + log_of.interval_ms) - first;
        const double level_pa =
            TEST_LOCK_PA + drift_pa * (double)night + (night >= step_day ? step_pa : 0.0);
        const size_t rest = (size_t)(drawn_between(2.0, 9.0) * 3600e3 / (double)log_of.interval_ms);
        for (size_t i = 0; i < rest; i++) {
            add(0, TEST_INLET_PA, level_pa, 0.0);
        }
        use(20e-5, 6, false);
    }
}

/* Nights of which a window holds some time between two and five; the first and the last of them. */
static size_t count_nights(int64_t *first, int64_t *last)
{
    static group_of windows;
    find_windows(&windows);
    size_t count = 0;
    *last = -1;
    for (size_t i = 0; i < windows.count; i++) {
        const int64_t start_ms = log_of.at_ms[windows.of[i].from];
        const int64_t end_ms = log_of.at_ms[windows.of[i].to - 1] + log_of.interval_ms;
        const int64_t night = night_at(start_ms);
        const int64_t midnight_ms = night * TEST_DAY_MS;
        if (end_ms > midnight_ms + 2 * TEST_HOUR_MS && night != *last) {
            *first = count == 0 ? night : *first;
            *last = night;
            count += 1;
        }
    }
    return count;
}

TEST(a_set_point_that_drifts_is_told_by_its_nights)
{
    for (uint64_t seed = 0; seed < 6; seed++) {
        qll_arena *arena = qll_arena_open((size_t)256 << 20);
        dice = qll_random_seeded(seed + 601);
        const double drift_pa = seed == 5 ? 0.0 : seed % 2 == 0 ? 2000.0 : -2000.0;
        begin(10000, true, true);
        live_by_nights(10 + 3 * (int64_t)seed, drift_pa, INT64_MAX, 0.0);
        int64_t first = 0;
        int64_t last = 0;
        const double nights = (double)count_nights(&first, &last);
        const qll_pressure_result *result = judged(arena);
        CHECK_WITHIN(result->features.night_count, nights, 0.0);
        const qll_pressure_finding *drift =
            pressure_found(result, QLL_PRESSURE_WORD_SET_POINT_DRIFT);
        const qll_unjudged *unjudged = &result->unjudged[QLL_PRESSURE_WORD_SET_POINT_DRIFT];
        CHECK(unjudged->holds == (nights < 14.0));
        CHECK(!unjudged->holds || unjudged->why == QLL_UNJUDGED_TIME);
        if (CHECK((drift != NULL) == (nights >= 14.0 && drift_pa != 0.0)) && drift != NULL) {
            const double over_pa = drift_pa * (double)(last - first);
            CHECK_NEAR(drift->value, over_pa, 1e-9);
            CHECK(!drift->is_step && !drift->is_from_survey && drift->strength >= 0.5);
        }
        qll_arena_close(arena);
    }
}

TEST(a_set_point_that_was_moved_is_told_from_that_night)
{
    for (uint64_t seed = 0; seed < 4; seed++) {
        qll_arena *arena = qll_arena_open((size_t)256 << 20);
        dice = qll_random_seeded(seed + 701);
        const int64_t day = 7 + (int64_t)seed;
        const double by_pa = seed % 2 == 0 ? 25e3 : -25e3;
        begin(10000, true, true);
        live_by_nights(20, 0.0, day, by_pa);
        const qll_pressure_result *result = judged(arena);
        const qll_pressure_finding *drift =
            pressure_found(result, QLL_PRESSURE_WORD_SET_POINT_DRIFT);
        if (CHECK(drift != NULL)) {
            CHECK(drift->is_step);
            CHECK_NEAR(drift->value, by_pa, 1e-9);
            CHECK_NEAR(drift->level_pa_gauge, TEST_LOCK_PA + by_pa, 1e-9);
            CHECK(night_at((int64_t)(drift->from_unix_s * 1000.0)) - night_at(log_of.at_ms[0])
                  == day);
            CHECK_WITHIN(drift->to_unix_s, (double)log_of.at_ms[log_of.count - 1] / 1000.0, 1e-3);
        }
        qll_arena_close(arena);
    }
}

/* ---- an outlet that ends at its inlet ---- */

/* Of ten windows some end within 15 kPa of the inlet, from 40 kPa below it or more. From the half on that is what is told. */
TEST(creep_that_ends_at_the_inlet_is_told_by_its_windows)
{
    for (int ending = 0; ending <= 10; ending++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        dice = qll_random_seeded(801);
        begin(5000, true, true);
        for (int w = 0; w < 10; w++) {
            for (int i = 0; i < 600; i++) {
                const double risen = fmin(fmax(((double)i - 12.0) / 400.0, 0.0), 1.0);
                const double inlet = TEST_LOCK_PA + 60e3;
                add(0, inlet, TEST_LOCK_PA + (w < ending ? 46e3 : 0.0) * risen, 0.0);
            }
            use(20e-5, 6, false);
        }
        const qll_pressure_result *result = judged(arena);
        const qll_pressure_finding *creep = pressure_found(result, QLL_PRESSURE_WORD_CREEP);
        CHECK_WITHIN(result->features.early_share, ending / 10.0, 1e-12);
        if (CHECK((creep != NULL) == (ending > 2)) && creep != NULL) {
            CHECK(creep->ends_at_inlet == (ending >= 5));
            CHECK((creep->strength >= 0.5) == (ending >= 5));
            CHECK_WITHIN(creep->share, ending / 10.0, 1e-12);
        }
        qll_arena_close(arena);
    }
}

int main(void)
{
    TEST_RUN(windows_and_runs_are_those_of_the_page);
    TEST_RUN(rises_are_counted_with_their_rates);
    TEST_RUN(without_a_flow_rest_is_where_the_outlet_stands);
    TEST_RUN(a_set_point_that_drifts_is_told_by_its_nights);
    TEST_RUN(a_set_point_that_was_moved_is_told_from_that_night);
    TEST_RUN(creep_that_ends_at_the_inlet_is_told_by_its_windows);
    TEST_RUN(records_are_thinned_evenly);
    return TEST_END();
}
