/* Waves and tones in logs of a hundred rows a second and more, laid down by hand: each is told with its time, height, rise and
 * frequency, and counted (docs/theory/pressure_log.md, "The fast copy"). */
#include "drawn_rows.h"

#include <stddef.h>

#define TEST_TURN 6.283185307179586

/* A tone of whole seconds: of which frequency, how high, in which seconds of how many. */
typedef struct tone {
    double frequency_hz, amplitude_pa, flow_m3s;
    int from_s, to_s, length_s;
} tone;

static const qll_pressure_result *sounding(tone of, int64_t interval_ms, bool has_flow,
                                           qll_arena *arena)
{
    dice = qll_random_seeded(7);
    begin(interval_ms, false, has_flow);
    const size_t rate = (size_t)(1000 / interval_ms);
    for (size_t i = 0; i < (size_t)of.length_s * rate; i++) {
        const int second = (int)(i / rate);
        const double time_s = (double)i / (double)rate;
        const bool sounds = second >= of.from_s && second < of.to_s;
        add(0, (double)NAN,
            TEST_SET_PA + drawn_between(-300.0, 300.0)
                + (sounds ? of.amplitude_pa * sin(TEST_TURN * of.frequency_hz * time_s) : 0.0),
            of.flow_m3s);
    }
    return judged(arena);
}

/* Five seconds of a minute or more, 3 kPa rms or more, from 5 Hz to four tenths of the rate. */
TEST(chatter_is_told_by_its_seconds_its_height_and_its_frequency)
{
    static const struct {
        tone of;
        int64_t interval_ms;
        bool is_there, is_to_act;
    } cases[] = {
        {{40.0, 10e3, 2e-4, 3, 7, 30}, 1, true, false},
        {{40.0, 10e3, 2e-4, 3, 8, 30}, 1, true, true},
        {{16.0, 10e3, 2e-4, 3, 20, 30}, 1, true, true},
        {{250.0, 10e3, 2e-4, 3, 20, 30}, 1, true, true},
        {{90.0, 4.6e3, 2e-4, 3, 20, 30}, 1, true, true},
        {{90.0, 4.0e3, 2e-4, 3, 20, 30}, 1, false, false},
        {{120.0, 20e3, 2e-4, 0, 30, 30}, 2, true, true},
        {{320.0, 20e3, 2e-4, 0, 30, 30}, 1, false, false},
        {{30.0, 20e3, 2e-4, 0, 30, 30}, 4, false, false},
    };

    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        const tone *of = &cases[i].of;
        const qll_pressure_result *result = sounding(*of, cases[i].interval_ms, true, arena);
        const qll_pressure_finding *found = pressure_found(result, QLL_PRESSURE_WORD_CHATTER);
        if (!CHECK((found != NULL) == cases[i].is_there)
            || !CHECK((found != NULL && found->strength >= 0.5) == cases[i].is_to_act)) {
            printf("    case %zu\n", i);
        }
        if (found != NULL) {
            /* A line of the spectrum is a 256th of the rate wide; Hann's window and the noise move the height by 5 %. */
            CHECK_WITHIN(found->frequency_hz, of->frequency_hz,
                         0.6 * 1000.0 / (double)cases[i].interval_ms / 256.0);
            CHECK_NEAR(found->value, of->amplitude_pa, 0.05);
            const double begun_s = (double)log_of.at_ms[0] / 1000.0;
            CHECK_WITHIN(found->from_unix_s, begun_s + of->from_s, 1e-3);
            CHECK_WITHIN(found->to_unix_s, begun_s + of->to_s - 1, 1e-3);
        }
        CHECK(result->unjudged[QLL_PRESSURE_WORD_CHATTER].holds == (cases[i].interval_ms > 2));
        qll_arena_close(arena);
    }
}

/* What stands at the mains' frequency where no water runs is the logger's; where water runs it is the valve's. */
TEST(hum_of_the_mains_is_told_by_where_no_water_runs)
{
    static const double frequencies_hz[] = {50.0, 60.0, 90.0};
    for (size_t i = 0; i < 6; i++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        const bool rests = i % 2 == 0;
        const tone of = {frequencies_hz[i / 2], 10e3, rests ? 0.0 : 2e-4, 2, 22, 30};
        const qll_pressure_result *result = sounding(of, 1, true, arena);
        bool hums = false;
        for (size_t k = 0; k < result->finding_count; k++) {
            const qll_pressure_finding *found = &result->findings[k];
            if (found->word == QLL_PRESSURE_WORD_LOGGER_FAULT
                && found->fault == QLL_LOGGER_FAULT_HUM) {
                hums = true;
                CHECK_WITHIN(found->value, 20.0, 0.0); /* seconds of it */
            }
        }
        CHECK(hums == (rests && i / 2 < 2));
        CHECK((pressure_found(result, QLL_PRESSURE_WORD_CHATTER) == NULL) == hums);
        qll_arena_close(arena);
    }
}

/* A wave that rings and dies away. */
typedef struct wave {
    double frequency_hz, dies_s, height_pa;
    int rise_rows;
} wave;

static double ringing(wave of, double since_s, double rate_hz)
{
    const double rise_s = of.rise_rows / rate_hz;
    if (since_s < 0.0) {
        return 0.0;
    }
    if (since_s < rise_s) {
        return of.height_pa * since_s / rise_s;
    }
    const double after_s = since_s - rise_s;
    return of.height_pa * exp(-after_s / of.dies_s) * cos(TEST_TURN * of.frequency_hz * after_s);
}

/* Waves every 20 s: how many, how many an hour, how hard the hardest, how steep, and at what frequency it rings. */
TEST(a_wave_is_told_by_its_height_its_rise_and_its_ring)
{
    static const struct {
        wave of;
        int64_t interval_ms;
    } cases[] = {{{5.0, 0.8, 240e3, 1}, 10},
                 {{12.0, 0.8, 250e3, 1}, 10},
                 {{24.5, 0.8, 150e3, 2}, 4},
                 {{60.0, 0.8, 250e3, 7}, 1},
                 {{12.0, 0.03, 400e3, 1}, 4}};

    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        dice = qll_random_seeded(i + 1);
        begin(cases[i].interval_ms, false, false);
        const wave of = cases[i].of;
        const double rate_hz = 1000.0 / (double)cases[i].interval_ms;
        const int waves = 3;
        for (size_t row = 0; row < (size_t)(20.0 * waves * rate_hz); row++) {
            const size_t every = (size_t)(20.0 * rate_hz);
            const size_t nth = row / every;
            const double since_s = ((double)(row % every) - 10.0 * rate_hz) / rate_hz;
            /* The second one is the hardest. */
            add(0, (double)NAN,
                TEST_SET_PA + drawn_between(-100.0, 100.0)
                    + (nth == 1 ? 1.0 : 0.8) * ringing(of, since_s, rate_hz),
                (double)NAN);
        }
        const qll_pressure_result *result = judged(arena);
        const qll_pressure_finding *found = pressure_found(result, QLL_PRESSURE_WORD_HAMMER);
        if (CHECK(found != NULL && found->stretch != NULL)) {
            CHECK_WITHIN(found->count, waves, 0.0);
            CHECK_NEAR(found->per_hour, 180.0, 0.001);
            CHECK_WITHIN(found->value, of.height_pa, 300.0);
            /* From the row at most at a tenth to the first at nine tenths. */
            CHECK_WITHIN(found->rise_s, of.rise_rows / rate_hz, 1e-9);
            if (of.dies_s > 0.5) {
                CHECK_WITHIN(found->frequency_hz, of.frequency_hz, 0.5);
            } else { /* it has died away before a frequency is there to be told */
                CHECK(isnan(found->frequency_hz));
            }
            const double begun_s = (double)log_of.at_ms[0] / 1000.0;
            CHECK_WITHIN(found->from_unix_s, begun_s + 10.0, 0.011);
            CHECK_WITHIN(found->to_unix_s, begun_s + 50.0, 0.011);
            /* The hardest one's second and the fifth of one before it; its peak is among the points. */
            double most_pa = 0.0;
            for (size_t p = 0; p < found->stretch->count; p++) {
                most_pa = fmax(most_pa, found->stretch->outlet_pa[p]);
            }
            CHECK_WITHIN(most_pa, TEST_SET_PA + of.height_pa, 300.0);
            CHECK_WITHIN(found->stretch->from_unix_s, begun_s + 29.8, 0.02);
            CHECK_WITHIN(found->stretch->to_unix_s, begun_s + 31.0, 0.02);
        }
        qll_arena_close(arena);
    }
}

/* Single rows that stand out, at 190 rows a second or more: three or more are the logger's, and no hammer. */
TEST(waves_of_one_row_are_glitches)
{
    for (int count = 1; count < 6; count++) {
        for (int64_t interval_ms = 4; interval_ms <= 10; interval_ms += 6) {
            qll_arena *arena = qll_arena_open((size_t)64 << 20);
            begin(interval_ms, false, false);
            dice = qll_random_seeded(3);
            for (int row = 0; row < 6000; row++) {
                const bool is_out = row % 1000 == 500 && row / 1000 < count;
                add(0, (double)NAN,
                    TEST_SET_PA + drawn_between(-100.0, 100.0) + (is_out ? 3e5 : 0.0), (double)NAN);
            }
            const qll_pressure_result *result = judged(arena);
            const qll_pressure_finding *hammer = pressure_found(result, QLL_PRESSURE_WORD_HAMMER);
            const qll_pressure_finding *fault =
                pressure_found(result, QLL_PRESSURE_WORD_LOGGER_FAULT);
            const bool can_tell = interval_ms == 4;
            CHECK((hammer == NULL) == can_tell);
            CHECK(hammer == NULL || hammer->count == count);
            if (CHECK((fault != NULL) == (can_tell && count >= 3)) && fault != NULL) {
                CHECK(fault->fault == QLL_LOGGER_FAULT_GLITCHES && fault->value == count);
            }
            qll_arena_close(arena);
        }
    }
}

/* What goes by seconds is told of their averages: a day and more of half seconds is the log of its seconds. */
TEST(a_faster_log_is_told_by_its_seconds)
{
    static const size_t features[] = {
        offsetof(qll_pressure_features, window_count),
        offsetof(qll_pressure_features, window_s),
        offsetof(qll_pressure_features, late_count),
        offsetof(qll_pressure_features, late_share),
        offsetof(qll_pressure_features, early_share),
        offsetof(qll_pressure_features, lock_up_pa_gauge),
        offsetof(qll_pressure_features, set_point_pa_gauge),
        offsetof(qll_pressure_features, run_count),
        offsetof(qll_pressure_features, high_flow_m3s),
        offsetof(qll_pressure_features, fall_off_pa),
        offsetof(qll_pressure_features, fall_off_slope),
    };
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    dice = qll_random_seeded(3);
    begin(500, true, true);
    live(200000, false);
    log_of.count -= log_of.count % 2;
    const qll_pressure_features fast = judged(arena)->features;
    const size_t seconds = log_of.count / 2;
    for (size_t i = 0; i < seconds; i++) {
        log_of.at_ms[i] = log_of.at_ms[2 * i];
        log_of.inlet[i] = (log_of.inlet[2 * i] + log_of.inlet[2 * i + 1]) / 2.0;
        log_of.outlet[i] = (log_of.outlet[2 * i] + log_of.outlet[2 * i + 1]) / 2.0;
        log_of.flow[i] = (log_of.flow[2 * i] + log_of.flow[2 * i + 1]) / 2.0;
    }
    log_of.count = seconds;
    log_of.interval_ms = 1000;
    CHECK(seconds > 90000); /* more than a copy has room for */
    const qll_pressure_features slow = judged(arena)->features;
    CHECK(slow.window_count > 5.0 && slow.run_count > 20.0);
    for (size_t i = 0; i < sizeof features / sizeof *features; i++) {
        double of_fast, of_slow;
        memcpy(&of_fast, (const char *)&fast + features[i], sizeof of_fast);
        memcpy(&of_slow, (const char *)&slow + features[i], sizeof of_slow);
        if (!CHECK_NEAR(of_fast, of_slow, 1e-9)) {
            printf("    feature %zu\n", i);
        }
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(chatter_is_told_by_its_seconds_its_height_and_its_frequency);
    TEST_RUN(hum_of_the_mains_is_told_by_where_no_water_runs);
    TEST_RUN(a_wave_is_told_by_its_height_its_rise_and_its_ring);
    TEST_RUN(waves_of_one_row_are_glitches);
    TEST_RUN(a_faster_log_is_told_by_its_seconds);
    return TEST_END();
}
