#include "base/random.h"
#include "signals/sound_frames.h"
#include "signals/sound_halving.h"
#include "sound/heard.h"

static void add_tone(float *samples, double from_s, double to_s, double hz, double height)
{
    for (size_t j = (size_t)(from_s * QLL_RATE); j < (size_t)(to_s * QLL_RATE); j++) {
        samples[j] += (float)(height * sin(QLL_TWO_PI * hz * (double)j / QLL_RATE));
    }
}

/* A deep note that dies away. */
static void add_thump(float *samples, double at_s, double height)
{
    for (size_t j = 0; j < QLL_RATE / 4; j++) {
        const double t = (double)j / QLL_RATE;
        samples[(size_t)(at_s * QLL_RATE) + j] +=
            (float)(height * exp(-t / 0.03) * sin(QLL_TWO_PI * 150.0 * t));
    }
}

/* What half the rate keeps of a tone, as amplitude. */
static double kept(double share_of_rate)
{
    static qll_halving halving;
    static float samples[QLL_HALVING_BLOCK];
    qll_halving_open(&halving);
    for (size_t j = 0; j < QLL_HALVING_BLOCK; j++) {
        samples[j] = (float)sin(QLL_TWO_PI * share_of_rate * (double)j);
    }
    const size_t count = qll_halving_take(&halving, samples, QLL_HALVING_BLOCK, samples);
    double squares = 0.0;
    for (size_t j = 200; j < count; j++) {
        squares += (double)samples[j] * (double)samples[j];
    }
    return sqrt(2.0 * squares / (double)(count - 200));
}

TEST(halving_keeps_what_is_wanted_and_takes_out_what_would_come_back)
{
    CHECK_WITHIN(kept(0.01), 1.0, 0.005);
    CHECK_WITHIN(kept(0.15), 1.0, 0.005);
    CHECK_WITHIN(kept(0.226), 1.0, 0.005);
    for (int i = 0; i < 18; i++) {
        CHECK(kept(0.275 + 0.0125 * i) < 0.00335); /* 49.5 dB */
    }
}

TEST(silence_is_none_whatever_its_channels)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    float *samples = sound_of(20);
    for (unsigned channels = 1; channels <= 2; channels++) {
        qll_sound_result result = {0};
        CHECK(listen(samples, 10, channels, 1000, NULL, arena, &result) == QLL_OK);
        CHECK(result.share_count == 1 && result.shares[0].kind == QLL_SOUND_NONE);
        CHECK(result.event_count == 0 && result.clipped_share == 0.0);
    }
    free(samples);
    qll_arena_close(arena);
}

TEST(a_recording_of_under_five_seconds_or_of_no_rate_is_refused)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    float *samples = sound_of(5);
    qll_sound_result result;
    CHECK(listen(samples, 4.99, 1, 4096, NULL, arena, &result) == QLL_REFUSED);
    CHECK_WITHIN(result.duration_s, 4.99, 1e-3);
    CHECK(listen(samples, 5, 1, 4096, NULL, arena, &result) == QLL_OK);
    qll_sound *sound = NULL;
    CHECK(qll_sound_open(7999, 1, NULL, arena, &sound) == QLL_REFUSED);
    CHECK(qll_sound_open(NAN, 1, NULL, arena, &sound) == QLL_REFUSED);
    CHECK(qll_sound_open(1e6, 1, NULL, arena, &sound) == QLL_REFUSED);
    CHECK(qll_sound_open(48000, 0, NULL, arena, &sound) == QLL_REFUSED);
    CHECK(qll_sound_open(48000, 65, NULL, arena, &sound) == QLL_REFUSED);
    CHECK(qll_sound_open(8000, 64, NULL, arena, &sound) == QLL_OK);
    free(samples);
    qll_arena_close(arena);
}

TEST(samples_that_are_no_numbers_are_counted_and_taken_for_silence)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    float *samples = sound_of(6);
    add_noise(samples, 0, 6, 0.1, 1);
    samples[10] = NAN;
    samples[20000] = INFINITY;
    samples[30000] = -1e30F;
    samples[40000] = 1.0F;
    qll_sound_result result;
    CHECK(listen(samples, 6, 1, 777, NULL, arena, &result) == QLL_OK);
    CHECK(result.broken_count == 3);
    CHECK_NEAR(result.clipped_share, 1.0 / (6.0 * QLL_RATE), 1e-9);
    CHECK(!isnan(result.stretches[0].features.level_db));
    free(samples);
    qll_arena_close(arena);
}

TEST(channels_that_cancel_are_noticed)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    float *mono = sound_of(6), *both = sound_of(12);
    add_noise(mono, 0, 6, 0.1, 1);
    for (size_t j = 0; j < (size_t)6 * QLL_RATE; j++) {
        both[2 * j] = mono[j];
        both[2 * j + 1] = -mono[j];
    }
    qll_sound_result result;
    CHECK(listen(both, 6, 2, 4096, NULL, arena, &result) == QLL_OK);
    CHECK((result.limits & (1U << QLL_SOUND_LIMIT_CANCELS)) != 0);
    free(mono);
    free(both);
    qll_arena_close(arena);
}

/* What no recording tells is said of each, and what this one does not of no other: docs/theory/sound.md. */
TEST(what_a_recording_cannot_tell_is_said_of_it_alone)
{
    enum {
        QLL_PLAIN,
        QLL_CLIPPED,
        QLL_BROKEN,
        QLL_DULL, /* as through a wall: 800 Hz, four times over */
        QLL_FORMS
    };

    static const unsigned beside[QLL_FORMS] = {0, 1U << QLL_SOUND_LIMIT_CLIPPED,
                                               1U << QLL_SOUND_LIMIT_BROKEN,
                                               1U << QLL_SOUND_LIMIT_BANDWIDTH};
    const unsigned always = 1U << QLL_SOUND_LIMIT_LEVEL | 1U << QLL_SOUND_LIMIT_RANGE
                            | 1U << QLL_SOUND_LIMIT_WHICH | 1U << QLL_SOUND_LIMIT_CAUSE
                            | 1U << QLL_SOUND_LIMIT_NO_QUIET;
    for (int form = 0; form < QLL_FORMS; form++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        float *samples = sound_of(10);
        add_noise(samples, 0, 10, form == QLL_CLIPPED ? 2.0 : 0.3, 5);
        for (size_t j = 0; j < (size_t)10 * QLL_RATE; j++) {
            if (form == QLL_CLIPPED) {
                samples[j] = fminf(fmaxf(samples[j], -1.0F), 1.0F);
            } else if (form == QLL_BROKEN && j % 9600 == 0) {
                samples[j] = NAN;
            }
        }
        for (int pass = 0; form == QLL_DULL && pass < 4; pass++) {
            double past = 0.0;
            for (size_t j = 0; j < (size_t)10 * QLL_RATE; j++) {
                past += 0.1 * ((double)samples[j] - past);
                samples[j] = (float)past;
            }
        }
        qll_sound_result result;
        CHECK(listen(samples, 10, 1, 4096, NULL, arena, &result) == QLL_OK);
        if (!CHECK(result.limits == (always | beside[form]))) {
            printf("    form %d: %x, not %x\n", form, result.limits, always | beside[form]);
        }
        free(samples);
        qll_arena_close(arena);
    }
}

TEST(a_tone_has_its_time_and_frequency)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    float *samples = sound_of(30);
    add_noise(samples, 0, 30, 0.01, 2);
    add_tone(samples, 7, 16, 2500, 0.1);
    qll_sound_result result;
    CHECK(listen(samples, 30, 1, 4096, NULL, arena, &result) == QLL_OK);
    CHECK(result.stretch_count == 3);
    CHECK_WITHIN(result.duration_s, 30, 1e-9);
    CHECK(result.stretches[1].kind == QLL_SOUND_SQUEAL);
    CHECK_WITHIN(result.stretches[1].features.tone_hz, 2500, 5);
    if (CHECK(result.event_count == 1)) { /* over the end of the first stretch */
        CHECK_WITHIN(result.events[0].from_s, 7, 0.6);
        CHECK_WITHIN(result.events[0].to_s, 16, 0.6);
        CHECK_WITHIN(result.events[0].tone_hz, 2500, 5);
    }
    free(samples);
    qll_arena_close(arena);
}

/* A tone that stops and comes again is two, in one stretch of ten seconds or over its end; one that goes on over the end
 * is one; at another pitch it is another. */
/* A clear tone whose third harmonic stands as clear of what is around it, though 30 dB down: each of the two is a tone of its own,
 * so the weaker one does not take the other's place. */
TEST(a_harmonic_does_not_hide_its_tone)
{
    static const double tones_hz[] = {900.0, 1600.0, 2638.0, 2950.0};
    for (size_t i = 0; i < sizeof tones_hz / sizeof *tones_hz; i++) {
        float *samples = sound_of(10.0);
        add_tone(samples, 0.0, 10.0, tones_hz[i], 0.5);
        add_tone(samples, 0.0, 10.0, 3.0 * tones_hz[i], 0.5 * pow(10.0, -30.0 / 20.0));
        add_noise(samples, 0.0, 10.0, 0.002, 5);
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        qll_sound_result result = {0};
        CHECK(listen(samples, 10.0, 1, 4096, NULL, arena, &result) == QLL_OK);
        CHECK(result.stretches[0].kind == QLL_SOUND_SQUEAL);
        CHECK_WITHIN(result.stretches[0].features.tone_hz, tones_hz[i], 2.0);
        CHECK_WITHIN(result.stretches[0].features.tone_share, 1.0, 1e-12);
        qll_arena_close(arena);
        free(samples);
    }
}

TEST(a_tone_that_comes_again_is_another)
{
    static const struct {
        double from_s[2], to_s[2], hz[2];
        size_t count;
    } cases[] = {
        {{2, 6}, {4, 8.5}, {2500, 2500}, 2},
        {{5, 13}, {8, 17}, {2500, 2500}, 2},
        {{5, 10}, {10, 15}, {2500, 2500}, 1},
        {{5, 10}, {10, 15}, {2500, 4100}, 2},
    };

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        float *samples = sound_of(20);
        add_noise(samples, 0, 20, 0.01, 2);
        for (int t = 0; t < 2; t++) {
            add_tone(samples, cases[i].from_s[t], cases[i].to_s[t], cases[i].hz[t], 0.1);
        }
        qll_sound_result result;
        CHECK(listen(samples, 20, 1, 4096, NULL, arena, &result) == QLL_OK);
        size_t count = 0;
        const qll_sound_event *first = NULL;
        const qll_sound_event *last = NULL;
        for (size_t e = 0; e < result.event_count; e++) {
            if (result.events[e].kind == QLL_SOUND_SQUEAL) { /* its sudden start may thump */
                count += 1;
                last = &result.events[e];
                first = first == NULL ? last : first;
            }
        }
        if (CHECK(count == cases[i].count)) {
            CHECK_WITHIN(first->from_s, cases[i].from_s[0], 0.6);
            CHECK_WITHIN(last->to_s, cases[i].to_s[1], 0.6);
            CHECK_WITHIN(last->tone_hz, cases[i].hz[1], 10);
        } else {
            printf("    case %zu: %zu tones\n", i, count);
        }
        free(samples);
        qll_arena_close(arena);
    }
}

TEST(thumps_have_their_times)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    float *samples = sound_of(12);
    add_noise(samples, 0, 12, 0.005, 3);
    add_thump(samples, 3.0, 0.5);
    add_thump(samples, 8.5, 0.3);
    qll_sound_result result;
    CHECK(listen(samples, 12, 1, 4096, NULL, arena, &result) == QLL_OK);
    CHECK(result.stretch_count == 1 && result.stretches[0].kind == QLL_SOUND_HAMMER);
    if (CHECK(result.event_count == 2)) {
        CHECK_WITHIN(result.events[0].from_s, 3.0, 0.02);
        CHECK_WITHIN(result.events[1].from_s, 8.5, 0.02);
    }
    free(samples);
    qll_arena_close(arena);
}

/* A note whose level swings by 6 dB to either side, @p swing_hz times a second: its level is off by 6/sqrt(2) dB on average, less
 * what averaging over 20 ms takes of a sine, and all of that swing is at this one rate. */
static void check_swing(double swing_hz, double in_syllables)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    float *samples = sound_of(10);
    for (size_t j = 0; j < (size_t)10 * QLL_RATE; j++) {
        const double t = (double)j / QLL_RATE;
        const double level_db = 6.0 * sin(QLL_TWO_PI * swing_hz * t);
        samples[j] = (float)(0.05 * pow(10.0, level_db / 20.0) * sin(QLL_TWO_PI * 1000.0 * t));
    }
    const qll_sound_features features = features_of(samples, arena);
    const double half_turn = 0.5 * QLL_TWO_PI * swing_hz * 0.02;
    CHECK_NEAR(features.swing_db, 6.0 / sqrt(2.0) * sin(half_turn) / half_turn, 0.03);
    CHECK_WITHIN(features.syllable_share, in_syllables, 0.1);
    qll_arena_close(arena);
}

/* docs/theory/sound.md, 9: speech swings 1.5 to 8 times a second. */
TEST(a_level_that_swings_as_speech_does_is_told_from_one_that_does_not)
{
    check_swing(4.0, 1.0);
    check_swing(15.0, 0.0);
}

TEST(what_is_there_with_everything_shut_is_none)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    float *shut = sound_of(10), *open = sound_of(10);
    add_noise(shut, 0, 10, 0.05, 4);
    add_noise(open, 0, 10, 0.05, 5);
    qll_sound_result result;
    CHECK(listen(shut, 10, 1, 4096, NULL, arena, &result) == QLL_OK);
    CHECK(result.shares[0].kind == QLL_SOUND_HISS); /* alone, white noise is one */
    const qll_sound_quiet quiet = qll_sound_quiet_of(&result);
    CHECK(listen(open, 10, 1, 4096, &quiet, arena, &result) == QLL_OK);
    CHECK(result.shares[0].kind == QLL_SOUND_NONE);
    add_noise(open, 0, 10, 0.3, 6);
    CHECK(listen(open, 10, 1, 4096, &quiet, arena, &result) == QLL_OK);
    CHECK(result.shares[0].kind == QLL_SOUND_HISS);
    /* a refrigerator's whine that is there anyway is no squeal */
    add_tone(shut, 0, 10, 1000, 0.2);
    CHECK(listen(shut, 10, 1, 4096, NULL, arena, &result) == QLL_OK);
    CHECK(result.shares[0].kind == QLL_SOUND_SQUEAL);
    const qll_sound_quiet whine = qll_sound_quiet_of(&result);
    CHECK(listen(shut, 10, 1, 4096, &whine, arena, &result) == QLL_OK);
    CHECK(result.shares[0].kind == QLL_SOUND_NONE);
    free(shut);
    free(open);
    qll_arena_close(arena);
}

TEST(memory_is_bounded_and_its_end_is_said)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    float *samples = sound_of(60);
    add_noise(samples, 0, 60, 0.1, 7);
    qll_sound *sound = NULL;
    qll_sound_result result;
    CHECK(qll_sound_open(QLL_RATE, 1, NULL, arena, &sound) == QLL_OK);
    const size_t opened = qll_arena_size(arena);
    for (int minute = 0; minute < 5; minute++) {
        CHECK(qll_sound_take(sound, samples, (size_t)60 * QLL_RATE) == QLL_OK);
    }
    CHECK(qll_sound_finish(sound, &result) == QLL_OK);
    CHECK_WITHIN(result.duration_s, 300, 1e-6);
    CHECK(result.stretch_count == 30 && result.gram.row_count <= 512);
    CHECK_WITHIN(result.gram.row_s * (double)result.gram.row_count, 300, 1e-6);
    CHECK(qll_arena_size(arena) - opened < (size_t)1 << 20);
    qll_status status = QLL_NO_MEMORY;
    for (size_t nth = 1; status == QLL_NO_MEMORY && nth < 200; nth++) {
        const qll_arena_mark mark = qll_arena_now(arena);
        qll_arena_fail(arena, nth, false);
        status = listen(samples, 12, 1, 4096, NULL, arena, &result);
        qll_arena_reset(arena, mark);
    }
    CHECK(status == QLL_OK);
    free(samples);
    qll_arena_close(arena);
}

/* Pulses of one sample at random times, over even noise. */
static qll_sound_features features_of_pulses(double per_s, double noise, uint64_t seed,
                                             qll_arena *arena)
{
    float *samples = sound_of(10);
    add_noise(samples, 0, 10, noise, seed);
    qll_random random = qll_random_seeded(seed + 1);
    for (size_t j = 0; j < (size_t)10 * QLL_RATE; j++) {
        const bool falls = qll_random_unit(&random) < per_s / QLL_RATE;
        samples[j] += falls ? (float)(0.2 * (2.0 * qll_random_unit(&random) - 1.0)) : 0.0F;
    }
    return features_of(samples, arena);
}

TEST(bursts_are_many_collapses_and_neither_even_noise_nor_a_few_ticks)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    /* its samples are spread evenly, which have 1.8 before a quarter of the spectrum is taken, and come near 3 by that */
    CHECK_WITHIN(features_of_pulses(0, 0.1, 1, arena).bursts, 0.95, 0.06);
    CHECK(features_of_pulses(500, 1e-4, 2, arena).bursts > 2.0);
    CHECK(features_of_pulses(5000, 1e-4, 3, arena).bursts > 1.3);
    CHECK(features_of_pulses(5, 1e-3, 4, arena).bursts < 1.1);
    CHECK(features_of_pulses(5, 1e-3, 4, arena).kurtosis > 10.0);
    /* Cumulants add up: of pulses in a share p of the samples, sizes spread evenly, (1/5)/(1/9)/p - 3 is left beyond even noise. */
    const double few = features_of_pulses(2000, 0.0, 5, arena).bursts - 1.0;
    const double many = features_of_pulses(8000, 0.0, 6, arena).bursts - 1.0;
    CHECK_NEAR(few / many, (1.8 * QLL_RATE / 2000 - 3.0) / (1.8 * QLL_RATE / 8000 - 3.0), 0.15);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(halving_keeps_what_is_wanted_and_takes_out_what_would_come_back);
    TEST_RUN(silence_is_none_whatever_its_channels);
    TEST_RUN(a_recording_of_under_five_seconds_or_of_no_rate_is_refused);
    TEST_RUN(samples_that_are_no_numbers_are_counted_and_taken_for_silence);
    TEST_RUN(channels_that_cancel_are_noticed);
    TEST_RUN(what_a_recording_cannot_tell_is_said_of_it_alone);
    TEST_RUN(a_tone_has_its_time_and_frequency);
    TEST_RUN(a_harmonic_does_not_hide_its_tone);
    TEST_RUN(a_tone_that_comes_again_is_another);
    TEST_RUN(thumps_have_their_times);
    TEST_RUN(a_level_that_swings_as_speech_does_is_told_from_one_that_does_not);
    TEST_RUN(what_is_there_with_everything_shut_is_none);
    TEST_RUN(memory_is_bounded_and_its_end_is_said);
    TEST_RUN(bursts_are_many_collapses_and_neither_even_noise_nor_a_few_ticks);
    return TEST_END();
}
