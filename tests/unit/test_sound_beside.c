#include "base/random.h"
#include "check.h"
#include "signals/flow_log.h"
#include "signals/sound_beside.h"

#include <stdlib.h>

#define QLL_RATE   8000
#define QLL_TWO_PI 6.28318530717958647692
#define QLL_LENGTH 120.0 /* s */
#define QLL_THUMPS 9
#define QLL_LOG_HZ 20

static double uniform(qll_random *random, double low, double high)
{
    return low + (high - low) * qll_random_unit(random);
}

/* Times of bangs in no rhythm, rising. */
static void put_times(qll_random *random, double times[QLL_THUMPS])
{
    const double each = (QLL_LENGTH - 10.0) / QLL_THUMPS;
    for (int i = 0; i < QLL_THUMPS; i++) {
        times[i] = 5.0 + each * (i + uniform(random, 0.1, 0.85));
    }
}

/* Even noise with thumps, whose high notes are as loud as @p loud says, and all of it swells at swell_hz. */
typedef struct scene {
    const double *thumps;
    size_t thump_count;
    double (*loud)(double at_s);
    double swell_hz;
} scene;

static void listen(const scene *of, uint64_t seed, qll_arena *arena, qll_sound_result *heard)
{
    qll_random random = qll_random_seeded(seed);
    qll_sound *sound = NULL;
    CHECK(qll_sound_open(QLL_RATE * 2.0, 1, NULL, arena, &sound) == QLL_OK);
    const size_t rate = (size_t)QLL_RATE * 2;
    static float second[QLL_RATE * 2];
    for (size_t s = 0; s < (size_t)QLL_LENGTH; s++) {
        for (size_t j = 0; j < rate; j++) {
            const double t = (double)s + (double)j / (double)rate;
            const double loud = of->loud == NULL ? 0.01 : of->loud(t);
            const double swell =
                of->swell_hz > 0.0 ? 1.0 + 0.6 * sin(QLL_TWO_PI * of->swell_hz * t) : 1.0;
            double x = loud * swell * uniform(&random, -1, 1);
            for (size_t i = 0; i < of->thump_count; i++) {
                const double since = t - of->thumps[i];
                x += since >= 0.0 && since < 0.3
                         ? 0.5 * exp(-since / 0.03) * sin(QLL_TWO_PI * 150.0 * since)
                         : 0.0;
            }
            second[j] = (float)x;
        }
        CHECK(qll_sound_take(sound, second, rate) == QLL_OK);
    }
    CHECK(qll_sound_finish(sound, heard) == QLL_OK);
}

/* A log from 20 s before the recording to 20 s after it: street pressure, and an outlet with surges. */
typedef struct station {
    const double *surges;
    size_t surge_count;
    double lag_s; /* its clock less the recording's */
    double (*inlet_pa)(double at_s);
    double hunts_hz;
} station;

static qll_beside *put_log(const station *of, const qll_sound_result *heard, uint64_t seed,
                           qll_beside_window *window, qll_arena *arena)
{
    qll_random random = qll_random_seeded(seed);
    *window = (qll_beside_window){.begins = {.is_elapsed = true, .elapsed_s = 20.0},
                                  .duration_s = heard->duration_s,
                                  .column_s = heard->gram.row_s,
                                  .column_count = heard->gram.row_count};
    const qll_channel_taker taker = qll_beside_taker_of(window);
    const qll_channel_facts facts = {.has = {true, true}, .interval_ms = 1000 / QLL_LOG_HZ};
    void *state = taker.begin(taker.context, &facts, arena);
    CHECK(state != NULL);
    for (int i = 0; i < (int)((QLL_LENGTH + 40.0) * QLL_LOG_HZ); i++) {
        const double at_s = (double)i / QLL_LOG_HZ - 20.0 - of->lag_s;
        double outlet_pa = 4e5 + uniform(&random, -1e3, 1e3);
        double inlet_pa = 8e5 + uniform(&random, -1e3, 1e3);
        inlet_pa += of->inlet_pa == NULL ? 0.0 : of->inlet_pa(at_s);
        outlet_pa += of->hunts_hz > 0.0 ? 2e4 * sin(QLL_TWO_PI * of->hunts_hz * at_s + 1.0) : 0.0;
        for (size_t k = 0; k < of->surge_count; k++) {
            const double since = at_s - of->surges[k];
            outlet_pa += since >= 0.0 && since < 0.2 ? 2e5 : 0.0;
        }
        const int64_t at_ms = QLL_LOG_ELAPSED_MS + (int64_t)i * 1000 / QLL_LOG_HZ;
        const double *values[QLL_CHANNEL_COUNT] = {&inlet_pa, &outlet_pa};
        taker.take(state, &at_ms, values, 1);
    }
    return state;
}

TEST(bangs_that_come_with_surges_are_paired_and_the_clocks_told)
{
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    qll_random random = qll_random_seeded(1);
    double times[QLL_THUMPS];
    put_times(&random, times);
    qll_sound_result heard;
    listen(&(scene){.thumps = times, .thump_count = QLL_THUMPS}, 2, arena, &heard);
    qll_beside_window window;
    qll_beside_result result;
    const station of = {.surges = times, .surge_count = QLL_THUMPS, .lag_s = 1.4};
    CHECK(qll_beside_judge(put_log(&of, &heard, 3, &window, arena), &heard, arena, &result)
          == QLL_OK);
    const qll_together *bangs = &result.together[QLL_BESIDE_BANGS];
    CHECK(bangs->heard == QLL_THUMPS && bangs->logged == QLL_THUMPS);
    CHECK(bangs->paired == QLL_THUMPS && bangs->coincides);
    CHECK_WITHIN(bangs->lag_s, 1.4, 0.3);
    CHECK(bangs->chance < 0.01);
    CHECK_WITHIN(result.surges[0].change_pa, 2e5, 3e3);
    CHECK_WITHIN(result.surges[0].at_s, times[0] + 1.4, 0.1);
    CHECK(!result.together[QLL_BESIDE_RATIO].coincides
          && !result.together[QLL_BESIDE_SWING].coincides);
    CHECK_WITHIN(result.overlap_s, QLL_LENGTH, 0.1);
    qll_arena_close(arena);
}

TEST(clocks_that_know_nothing_of_each_other_do_not_coincide)
{
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    qll_random random = qll_random_seeded(11);
    double times[QLL_THUMPS], others[QLL_THUMPS];
    put_times(&random, times);
    qll_sound_result heard;
    listen(&(scene){.thumps = times, .thump_count = QLL_THUMPS}, 12, arena, &heard);
    int coincide = 0;
    for (uint64_t seed = 0; seed < 40; seed++) {
        const qll_arena_mark mark = qll_arena_now(arena);
        put_times(&random, others);
        qll_beside_window window;
        qll_beside_result result;
        const station of = {.surges = others, .surge_count = QLL_THUMPS};
        CHECK(qll_beside_judge(put_log(&of, &heard, 100 + seed, &window, arena), &heard, arena,
                               &result)
              == QLL_OK);
        coincide += result.together[QLL_BESIDE_BANGS].coincides;
        qll_arena_reset(arena, mark);
    }
    /* one in a hundred is meant; of 40 more than 2 have a chance of 0.7 % then */
    CHECK(coincide <= 2);
    qll_arena_close(arena);
}

TEST(bangs_and_surges_in_one_rhythm_prove_nothing)
{
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    double times[QLL_THUMPS];
    for (int i = 0; i < QLL_THUMPS; i++) {
        times[i] = 6.0 + 12.0 * i; /* a machine's, and another's */
    }
    qll_sound_result heard;
    listen(&(scene){.thumps = times, .thump_count = QLL_THUMPS}, 2, arena, &heard);
    qll_beside_window window;
    qll_beside_result result;
    const station of = {.surges = times, .surge_count = QLL_THUMPS};
    CHECK(qll_beside_judge(put_log(&of, &heard, 3, &window, arena), &heard, arena, &result)
          == QLL_OK);
    CHECK(result.together[QLL_BESIDE_BANGS].paired == QLL_THUMPS);
    CHECK(!result.together[QLL_BESIDE_BANGS].coincides);
    qll_arena_close(arena);
}

/* Uneven ups and downs. */
static double up_and_down(double at_s)
{
    return sin(0.31 * at_s) + sin(0.173 * at_s + 0.4 * sin(0.05 * at_s)) + sin(0.47 * at_s + 2.0);
}

static double hissing(double at_s)
{
    return 0.02 * exp(0.3 * up_and_down(at_s));
}

static double street_pa(double at_s)
{
    return 5e4 * up_and_down(at_s);
}

static double other_street_pa(double at_s)
{
    return 5e4 * (sin(0.27 * at_s + 1.0) + sin(0.2 * at_s) + sin(0.55 * at_s));
}

TEST(hiss_follows_the_ratio_or_does_not)
{
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    qll_sound_result heard;
    listen(&(scene){.loud = hissing}, 5, arena, &heard);
    for (int i = 0; i < 2; i++) {
        qll_beside_window window;
        qll_beside_result result;
        const station of = {.inlet_pa = i == 0 ? street_pa : other_street_pa, .lag_s = 1.0};
        CHECK(qll_beside_judge(put_log(&of, &heard, 6, &window, arena), &heard, arena, &result)
              == QLL_OK);
        const qll_together *ratio = &result.together[QLL_BESIDE_RATIO];
        CHECK(ratio->is_judged && ratio->coincides == (i == 0));
        if (i == 0) {
            CHECK(ratio->correlation > 0.9);
            CHECK_WITHIN(ratio->lag_s, 1.0, 0.4);
        }
        CHECK(!result.together[QLL_BESIDE_BANGS].is_judged);
    }
    qll_arena_close(arena);
}

TEST(a_swell_is_held_against_hunting)
{
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    qll_sound_result heard;
    listen(&(scene){.swell_hz = 0.37}, 7, arena, &heard);
    for (int i = 0; i < 2; i++) {
        qll_beside_window window;
        qll_beside_result result;
        const station of = {.hunts_hz = i == 0 ? 0.37 : 0.29};
        CHECK(qll_beside_judge(put_log(&of, &heard, 8, &window, arena), &heard, arena, &result)
              == QLL_OK);
        const qll_together *swing = &result.together[QLL_BESIDE_SWING];
        CHECK(swing->is_judged && swing->coincides == (i == 0));
        CHECK_WITHIN(swing->heard_hz, 0.37, 0.005);
        CHECK_WITHIN(swing->logged_hz, of.hunts_hz, 0.005);
    }
    qll_arena_close(arena);
}

TEST(too_little_in_common_is_refused)
{
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    qll_sound_result heard;
    listen(&(scene){.loud = NULL}, 7, arena, &heard);
    qll_beside_window window;
    qll_beside_result result;
    const station of = {.lag_s = 0.0};
    qll_beside *log = put_log(&of, &heard, 8, &window, arena);
    const qll_channel_taker taker = qll_beside_taker_of(&window);
    const qll_channel_facts facts = {.has = {false, true}, .interval_ms = 1000};
    qll_beside *empty = taker.begin(taker.context, &facts, arena);
    CHECK(qll_beside_judge(log, &heard, arena, &result) == QLL_OK);
    CHECK(qll_beside_judge(empty, &heard, arena, &result) == QLL_REFUSED);
    CHECK(result.overlap_s == 0.0);
    qll_arena_close(arena);
}

static bool begins(const char *text, bool is_name, int64_t local_ms)
{
    qll_begins read;
    const bool is_read = is_name ? qll_begins_in(qll_text_of(text), &read)
                                 : qll_begins_read(qll_text_of(text), &read);
    return is_read && !read.is_elapsed && read.local_ms == local_ms;
}

TEST(a_beginning_is_read_from_text_and_from_names)
{
    const int64_t at_ms = INT64_C(1796047500000); /* 2026-11-30 14:05:00: date -u -d ... +%s */
    CHECK(begins("2026-11-30 14:05:00", false, at_ms));
    CHECK(begins("2026-11-30T14:05:00.5+01:00", false, at_ms + 500));
    CHECK(begins("REC_20261130_140500.wav", true, at_ms));
    CHECK(begins("2026-11-30 14.05.00.flac", true, at_ms));
    CHECK(begins("Recording 20261130140500", true, at_ms));
    CHECK(begins("site 12 2026-11-30-14-05.wav", true, at_ms));
    qll_begins read;
    CHECK(qll_begins_read(qll_text_of("12.5 s"), &read) && read.is_elapsed
          && read.elapsed_s == 12.5);
    CHECK(!qll_begins_read(qll_text_of("noon"), &read));
    CHECK(!qll_begins_read(qll_text_of("12.5 min"), &read));
    CHECK(!qll_begins_in(qll_text_of("noise.wav"), &read));
    CHECK(!qll_begins_in(qll_text_of("20261399_140500.wav"), &read));
    CHECK(!qll_begins_in(qll_text_of("98765432101234567.wav"), &read));
}

int main(void)
{
    TEST_RUN(bangs_that_come_with_surges_are_paired_and_the_clocks_told);
    TEST_RUN(clocks_that_know_nothing_of_each_other_do_not_coincide);
    TEST_RUN(bangs_and_surges_in_one_rhythm_prove_nothing);
    TEST_RUN(hiss_follows_the_ratio_or_does_not);
    TEST_RUN(a_swell_is_held_against_hunting);
    TEST_RUN(too_little_in_common_is_refused);
    TEST_RUN(a_beginning_is_read_from_text_and_from_names);
    return TEST_END();
}
