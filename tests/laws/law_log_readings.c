/* The readings of a log of pressures as they are shown and counted, held against its rows one by one: averages, percentiles, gaps,
 * cycles, and what is wrong with the logger (docs/theory/pressure_log.md, docs/formats/answers.md). */
#include "drawn_rows.h"

static void check_gaps(const qll_pressure_result *result)
{
    static double lengths[TEST_GROUPS];
    size_t count = 0;
    double sum_s = 0.0;
    for (size_t i = 1; i < log_of.count; i++) {
        if (is_gap(i)) {
            lengths[count] = (double)(log_of.at_ms[i] - log_of.at_ms[i - 1]) / 1000.0;
            sum_s += lengths[count];
            count += 1;
        }
    }
    const size_t listed = count < QLL_GAPS_LISTED ? count : QLL_GAPS_LISTED;
    CHECK(result->gap_total == (long long)count && result->gap_count == listed);
    CHECK_WITHIN(result->gap_s, sum_s, 1e-3);
    qsort(lengths, count, sizeof *lengths, by_size);
    double long_s = 0.0;
    double said_s = 0.0;
    for (size_t i = 0; i < result->gap_count; i++) {
        const qll_log_gap *gap = &result->gaps[i];
        CHECK(i == 0 || gap->from_unix_s >= result->gaps[i - 1].to_unix_s);
        bool stands = false;
        for (size_t k = 1; k < log_of.count && !stands; k++) {
            stands = is_gap(k) && (double)log_of.at_ms[k - 1] / 1000.0 == gap->from_unix_s
                     && (double)log_of.at_ms[k] / 1000.0 == gap->to_unix_s;
        }
        CHECK(stands);
        said_s += gap->to_unix_s - gap->from_unix_s;
        long_s += lengths[count - 1 - i];
    }
    CHECK_WITHIN(said_s, long_s, 1e-3);
}

/* ---- what is shown of the readings ---- */

/* Averages of whole seconds where rows come faster; the rows themselves where they do not. */
static size_t seconds_of(const double *values, double *seconds, int64_t *at_ms)
{
    const int64_t width_ms = log_of.interval_ms < 1000 ? 1000 : 1;
    size_t count = 0;
    for (size_t i = 0; i < log_of.count;) {
        const int64_t second = log_of.at_ms[i] / width_ms;
        double sum = 0.0;
        double known = 0.0;
        size_t k = i;
        for (; k < log_of.count && log_of.at_ms[k] / width_ms == second; k++) {
            sum += isnan(values[k]) ? 0.0 : values[k];
            known += isnan(values[k]) ? 0.0 : 1.0;
        }
        seconds[count] = known > 0.0 ? sum / known : (double)NAN;
        at_ms[count] = second * width_ms;
        count += 1;
        i = k;
    }
    return count;
}

/* Average of the seconds that stand in [from_ms, to_ms); NaN of none. */
static double average_in(const double *seconds, const int64_t *at_ms, size_t count, int64_t from_ms,
                         int64_t to_ms)
{
    double sum = 0.0;
    double known = 0.0;
    for (size_t i = 0; i < count; i++) {
        const bool counts = !isnan(seconds[i]) && at_ms[i] >= from_ms && at_ms[i] < to_ms;
        sum += counts ? seconds[i] : 0.0;
        known += counts ? 1.0 : 0.0;
    }
    return known > 0.0 ? sum / known : (double)NAN;
}

/* The whole log in even steps from its first row: each the average of the readings in it. */
static void check_overview(const qll_pressure_result *result)
{
    static double seconds[TEST_MOST];
    static int64_t at_ms[TEST_MOST];
    const qll_pressure_stretch *all = &result->overview;
    const double *const columns[] = {log_of.inlet, log_of.outlet, log_of.flow};
    const double *const shown[] = {all->inlet_pa, all->outlet_pa, all->flow_m3s};
    const int64_t first_ms = log_of.at_ms[0];
    const int64_t last_ms = log_of.at_ms[log_of.count - 1];
    CHECK_WITHIN(all->from_unix_s, (double)first_ms / 1000.0, 1e-6);
    CHECK_WITHIN(all->to_unix_s, (double)(last_ms + log_of.interval_ms) / 1000.0, 1e-6);
    /* The width that doubles from a value's own until 96 hold the log. */
    int64_t width_ms = log_of.interval_ms < 1000 ? 1000 : log_of.interval_ms;
    while ((last_ms - first_ms) / width_ms >= QLL_STRETCH_POINTS) {
        width_ms *= 2;
    }
    CHECK(all->count == (size_t)((last_ms - first_ms) / width_ms) + 1);
    for (size_t c = 0; c < 3; c++) {
        const size_t count = seconds_of(columns[c], seconds, at_ms);
        for (size_t p = 0; p < all->count; p++) {
            const int64_t from_ms = first_ms + (int64_t)p * width_ms;
            /* The second of the first row may have begun before it. */
            const double want = average_in(seconds, at_ms, count, p == 0 ? from_ms - 1000 : from_ms,
                                           from_ms + width_ms);
            CHECK_WITHIN(shown[c][p], log_of.has[c] ? want : (double)NAN,
                         1e-9 * fabs(isnan(want) ? 1.0 : want));
        }
    }
}

/* Nearest rank, to the class of 0.5 kPa that it is kept in. */
static void check_percentiles(const double *values, const double *said)
{
    static double seconds[TEST_MOST];
    static int64_t at_ms[TEST_MOST];
    static const double shares[] = {0.05, 0.5, 0.95};
    const size_t count = seconds_of(values, seconds, at_ms);
    size_t known = 0;
    for (size_t i = 0; i < count; i++) {
        if (!isnan(seconds[i])) {
            seconds[known] = seconds[i];
            known += 1;
        }
    }
    qsort(seconds, known, sizeof *seconds, by_size);
    for (size_t i = 0; i < 3; i++) {
        const double rank = ceil(shares[i] * (double)known);
        CHECK_WITHIN(said[i], seconds[(size_t)fmax(rank, 1.0) - 1], 250.0);
    }
}

static double least_step(const double *values)
{
    double step = (double)INFINITY;
    for (size_t i = 1; i < log_of.count; i++) {
        const double apart = fabs(values[i] - values[i - 1]);
        step = apart > 0.0 && apart < step ? apart : step;
    }
    return step;
}

static void check_readings(const qll_pressure_result *result)
{
    const qll_pressure_features *f = &result->features;
    const double outlet[] = {f->outlet_p05_pa_gauge, f->outlet_median_pa_gauge,
                             f->outlet_p95_pa_gauge};
    const double inlet[] = {f->inlet_p05_pa_gauge, f->inlet_median_pa_gauge, f->inlet_p95_pa_gauge};
    check_percentiles(log_of.outlet, outlet);
    if (log_of.has[QLL_CHANNEL_INLET]) {
        check_percentiles(log_of.inlet, inlet);
    } else {
        CHECK(isnan(inlet[0]) && isnan(inlet[1]) && isnan(inlet[2]));
    }
    CHECK_WITHIN(f->outlet_step_pa, least_step(log_of.outlet), 0.0);
}

/* ---- the tests ---- */

/* Rows of a quarter of a second are taken by the second, those of a second as they are; a channel may be missing. */
TEST(readings_are_averaged_by_the_second)
{
    static const int64_t intervals_ms[] = {100, 250, 1000};
    for (uint64_t seed = 0; seed < 6; seed++) {
        qll_arena *arena = qll_arena_open((size_t)256 << 20);
        dice = qll_random_seeded(seed + 101);
        begin(intervals_ms[seed % 3], seed % 2 == 0, false);
        for (size_t i = 0; i < (seed < 3 ? 700 : 200000); i++) {
            /* All within what cleaning lets pass: 4 kPa. */
            const bool is_lost = qll_random_unit(&dice) < 0.01;
            add(late_ms(), TEST_INLET_PA + 125.0 * floor(drawn_between(0.0, 30.0)),
                is_lost ? (double)NAN : TEST_SET_PA + 125.0 * floor(drawn_between(0.0, 30.0)),
                (double)NAN);
        }
        const qll_pressure_result *result = judged(arena);
        check_gaps(result);
        check_readings(result);
        check_overview(result);
        qll_arena_close(arena);
    }
}

/* With a flow, at intervals that are taken as they are, from half a day to more than what is held at once. */
TEST(readings_of_days_are_shown_and_counted)
{
    static const size_t sizes[] = {20000, 95000, 240000};
    for (uint64_t seed = 0; seed < 3; seed++) {
        qll_arena *arena = qll_arena_open((size_t)256 << 20);
        dice = qll_random_seeded(seed + 1);
        begin(3000 + 1000 * (int64_t)seed, true, true);
        live(sizes[seed], true);
        const qll_pressure_result *result = judged(arena);
        check_gaps(result);
        check_readings(result);
        check_overview(result);
        for (size_t i = 0; i + 1 < result->finding_count; i++) {
            CHECK(result->findings[i].strength >= result->findings[i + 1].strength);
        }
        qll_arena_close(arena);
    }
}

/* Pulses from one level up: each is a cycle as ASTM E1049 counts, and those of 50 psi or more are told. */
TEST(cycles_are_counted_a_day)
{
    for (uint64_t seed = 0; seed < 4; seed++) {
        qll_arena *arena = qll_arena_open((size_t)256 << 20);
        dice = qll_random_seeded(seed + 401);
        begin(2500, false, false);
        double high = 0.0;
        while (log_of.count < 30000) {
            const double pulse_pa = drawn_between(1.0, 6.0) < 3.0 ? 344.7e3 : 344.8e3;
            const size_t low = 1 + (size_t)drawn_between(0.0, 400.0);
            for (size_t i = 0; i < low; i++) {
                add(0, (double)NAN, 300e3 + drawn_between(0.0, 20.0) - 20.0, (double)NAN);
            }
            add(0, (double)NAN, 300e3, (double)NAN);
            add(0, (double)NAN, 300e3 + pulse_pa, (double)NAN);
            add(0, (double)NAN, 300e3, (double)NAN);
            high += pulse_pa >= 50 * 6894.757293168361 ? 1.0 : 0.0;
        }
        const double days = (double)(log_of.at_ms[log_of.count - 1] - log_of.at_ms[0]) / 86400e3;
        CHECK_NEAR(judged(arena)->features.cycles_per_day, high / days, 1e-12);
        qll_arena_close(arena);
    }
}

static const qll_pressure_finding *fault_of(const qll_pressure_result *result,
                                            qll_logger_fault fault)
{
    for (size_t i = 0; i < result->finding_count; i++) {
        if (result->findings[i].word == QLL_PRESSURE_WORD_LOGGER_FAULT
            && result->findings[i].fault == fault) {
            return &result->findings[i];
        }
    }
    return NULL;
}

/* Rows of a gauge that moves, stands still and moves again, beside one that moves. */
static void lay_still(size_t before, size_t still, size_t after, bool is_inlet)
{
    for (size_t i = 0; i < before + still + after; i++) {
        const double moving = 250.0 * floor(drawn_between(0.0, 30.0));
        const double other = 700e3 + 250.0 * floor(drawn_between(0.0, 30.0));
        double one = 400e3 + moving + (i == before + still ? 100.0 : 0.0);
        if (i >= before && i < before + still) {
            one = 410e3;
        }
        if (is_inlet) {
            add(0, one + 300e3, other - 300e3, (double)NAN);
        } else {
            add(0, other, one, (double)NAN);
        }
    }
}

/* One value for half an hour or more is a gauge that is stuck, and how much of the log that was is told. */
TEST(a_gauge_that_stands_still_is_told_from_then_to_then)
{
    for (uint64_t seed = 0; seed < 40; seed++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        dice = qll_random_seeded(seed + 501);
        const bool is_inlet = seed % 4 == 1;
        begin(5000, seed % 2 == 0 || is_inlet, false);
        const size_t before = (size_t)drawn_between(0.0, 3000.0);
        /* Around the 360 rows of half an hour. */
        const size_t still = seed < 20 ? 350 + (size_t)seed : (size_t)drawn_between(20.0, 3000.0);
        const size_t after = (size_t)drawn_between(100.0, 3000.0);
        lay_still(before, still, after, is_inlet);
        const double *const readings = is_inlet ? log_of.inlet : log_of.outlet;
        size_t first = before;
        while (first > 0 && readings[first - 1] == readings[before]) {
            first -= 1;
        }
        const double from_s = (double)log_of.at_ms[first] / 1000.0;
        const double to_s = (double)log_of.at_ms[before + still] / 1000.0;
        const double whole_s = (double)(log_of.at_ms[log_of.count - 1] - log_of.at_ms[0]) / 1000.0;
        const qll_pressure_finding *stuck = fault_of(judged(arena), QLL_LOGGER_FAULT_STUCK);
        if (CHECK((stuck != NULL) == (to_s - from_s >= 1800.0)) && stuck != NULL) {
            CHECK(stuck->channel == (is_inlet ? QLL_CHANNEL_INLET : QLL_CHANNEL_OUTLET));
            CHECK_WITHIN(stuck->from_unix_s, from_s, 1e-3);
            CHECK_WITHIN(stuck->to_unix_s, to_s, 1e-3);
            CHECK_NEAR(stuck->value, (to_s - from_s) / whole_s, 1e-12);
            CHECK_NEAR(stuck->strength, fmin(0.5 + stuck->value, 1.0), 1e-12);
        }
        qll_arena_close(arena);
    }
}

/* Twenty readings or more at the very end of the range, where a step beside it holds few. */
TEST(readings_at_the_end_of_the_range_are_counted)
{
    for (size_t count = 10; count < 40; count++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        dice = qll_random_seeded(count);
        const bool is_top = count % 2 == 0;
        const bool is_inlet = count % 4 < 2;
        begin(5000, true, false);
        size_t at_end = 0;
        for (size_t i = 0; i < 4000; i++) {
            const double outlet = 300e3 + 250.0 * floor(drawn_between(1.0, 1600.0));
            const bool is_there = i % 100 == 50 && at_end < count;
            at_end += is_there ? 1 : 0;
            const double one = is_there ? (is_top ? 700e3 : 300e3) : outlet;
            const double other = drawn_between(0.0, 90e3);
            add(0, is_inlet ? one : 900e3 + other, is_inlet ? 100e3 + other : one, (double)NAN);
        }
        const qll_pressure_finding *clipped = fault_of(judged(arena), QLL_LOGGER_FAULT_CLIPPED);
        if (CHECK((clipped != NULL) == (count >= 20)) && clipped != NULL) {
            CHECK(clipped->channel == (is_inlet ? QLL_CHANNEL_INLET : QLL_CHANNEL_OUTLET));
            CHECK_NEAR(clipped->value, (double)count / 4000.0, 1e-12);
            CHECK(clipped->strength >= 0.5);
        }
        qll_arena_close(arena);
    }
}

/* An outlet over its inlet by 20 kPa for more than nine tenths of the time that both are known. */
TEST(gauges_that_changed_places_are_told_by_their_share)
{
    for (size_t tenth = 0; tenth < 20; tenth++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        dice = qll_random_seeded(tenth);
        begin(5000, true, false);
        const double share = 0.8 + 0.01 * (double)tenth;
        double over = 0.0;
        double both = 0.0;
        for (size_t i = 0; i < 4000; i++) {
            const bool is_over = qll_random_unit(&dice) < share;
            const double inlet = qll_random_unit(&dice) < 0.05 ? (double)NAN : 500e3;
            add(0, inlet, is_over ? 520.5e3 : 519.5e3, (double)NAN);
            both += isnan(inlet) ? 0.0 : 1.0;
            over += is_over && !isnan(inlet) ? 1.0 : 0.0;
        }
        const qll_pressure_result *result = judged(arena);
        const qll_pressure_finding *swapped = fault_of(result, QLL_LOGGER_FAULT_SWAPPED);
        if (CHECK((swapped != NULL) == (over > 0.9 * both)) && swapped != NULL) {
            CHECK_NEAR(swapped->value, over / both, 1e-12);
            /* Nothing else is judged then but the logger. */
            for (size_t i = 0; i < result->finding_count; i++) {
                CHECK(result->findings[i].word == QLL_PRESSURE_WORD_LOGGER_FAULT);
            }
        }
        qll_arena_close(arena);
    }
}

/* What is seen at the least rate of the page's table is judged there, and not at a row a millisecond later. */
TEST(the_least_rate_is_enough)
{
    static const struct {
        qll_pressure_word word;
        int64_t interval_ms;
    } words[] = {
        {QLL_PRESSURE_WORD_CREEP, 60000},
        {QLL_PRESSURE_WORD_THERMAL_EXPANSION, 60000},
        {QLL_PRESSURE_WORD_SET_POINT_DRIFT, 60000},
        {QLL_PRESSURE_WORD_INLET_EFFECT, 60000},
        {QLL_PRESSURE_WORD_LOCK_UP, 10000},
        {QLL_PRESSURE_WORD_FALL_OFF, 10000},
        {QLL_PRESSURE_WORD_FALL_OFF_DRIFT, 10000},
        {QLL_PRESSURE_WORD_STRAINER, 10000},
        {QLL_PRESSURE_WORD_HAMMER, 10},
        {QLL_PRESSURE_WORD_CHATTER, 2},
    };

    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        for (int64_t late = 0; late < 2; late++) {
            qll_arena *arena = qll_arena_open((size_t)64 << 20);
            dice = qll_random_seeded(i);
            begin(words[i].interval_ms + late, true, true);
            for (size_t row = 0; row < 2000; row++) {
                add(0, TEST_INLET_PA, TEST_SET_PA + drawn_between(0.0, 900.0), 0.0);
            }
            const qll_unjudged *unjudged = &judged(arena)->unjudged[words[i].word];
            if (!CHECK((unjudged->holds && unjudged->why == QLL_UNJUDGED_RATE) == (late == 1))) {
                printf("    word %d, %lld ms late\n", (int)words[i].word, (long long)late);
            }
            qll_arena_close(arena);
        }
    }
}

/* Noise that is the sum of twelve draws is normal to a hundredth of its deviation, and told within 5 % (4,000 differences are
 * known to 2 %, and a step is left out of none of them). */
TEST(noise_is_told_as_its_deviation)
{
    for (uint64_t seed = 0; seed < 4; seed++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        dice = qll_random_seeded(seed + 901);
        begin(seed % 2 == 0 ? 1000 : 5000, false, false);
        const double sigma_pa = 200.0 * (double)(seed + 1);
        for (size_t i = 0; i < 4000; i++) {
            double sum = -6.0;
            for (int k = 0; k < 12; k++) {
                sum += qll_random_unit(&dice);
            }
            add(0, (double)NAN, TEST_SET_PA + sigma_pa * sum, (double)NAN);
        }
        CHECK_NEAR(judged(arena)->features.outlet_noise_pa, sigma_pa, 0.05);
        qll_arena_close(arena);
    }
}

/* 1.4826 MAD of the differences of neighbors, over the root of two, to the last row of a log. */
TEST(noise_of_a_short_log_is_that_of_its_differences)
{
    for (size_t size = 18; size < 60; size++) {
        double apart[64];
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        dice = qll_random_seeded(size);
        begin(5000, false, false);
        for (size_t i = 0; i < size; i++) {
            add(0, (double)NAN, TEST_SET_PA + drawn_between(0.0, 3000.0), (double)NAN);
        }
        const size_t count = size - 1;
        for (size_t i = 0; i < count; i++) {
            apart[i] = log_of.outlet[i + 1] - log_of.outlet[i];
        }
        const double middle = quantile(apart, count, 0.5);
        for (size_t i = 0; i < count; i++) {
            apart[i] = fabs(apart[i] - middle);
        }
        const double want = 1.4826 * quantile(apart, count, 0.5) / sqrt(2.0);
        CHECK_NEAR(judged(arena)->features.outlet_noise_pa, want, 1e-6);
        qll_arena_close(arena);
    }
}

int main(void)
{
    TEST_RUN(readings_of_days_are_shown_and_counted);
    TEST_RUN(readings_are_averaged_by_the_second);
    TEST_RUN(cycles_are_counted_a_day);
    TEST_RUN(a_gauge_that_stands_still_is_told_from_then_to_then);
    TEST_RUN(readings_at_the_end_of_the_range_are_counted);
    TEST_RUN(gauges_that_changed_places_are_told_by_their_share);
    TEST_RUN(the_least_rate_is_enough);
    TEST_RUN(noise_is_told_as_its_deviation);
    TEST_RUN(noise_of_a_short_log_is_that_of_its_differences);
    return TEST_END();
}
