#include "sound/heard.h"

/* Ten seconds of even noise, each sample a sum of twelve, whose level swings by @p swing_db to either side @p swing_hz times a second. */
static float *swinging_noise(double swing_db, double swing_hz, uint64_t seed)
{
    float *samples = sound_of(10);
    qll_random random = qll_random_seeded(seed);
    for (size_t j = 0; j < (size_t)10 * QLL_RATE; j++) {
        double sum = -6.0;
        for (int i = 0; i < 12; i++) {
            sum += qll_random_unit(&random);
        }
        const double level_db = swing_db * sin(QLL_TWO_PI * swing_hz * (double)j / QLL_RATE);
        samples[j] = (float)(0.02 * pow(10.0, level_db / 20.0) * sum);
    }
    return samples;
}

static qll_sound_features features_of_even_noise(double swing_db, uint64_t seed, qll_arena *arena)
{
    return features_of(swinging_noise(swing_db, 4.0, seed), arena);
}

/* docs/theory/sound.md, 11: the kurtosis of even noise is 3, known to 0.018 of ten seconds and to as much of windows; its level swings
 * by chance alone, of which 0.2 dB may be left where the band is a little narrower than it is called. */
TEST(even_noise_has_neither_bursts_nor_swing)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    for (uint64_t seed = 1; seed <= 3; seed++) {
        const qll_sound_features even = features_of_even_noise(0, seed, arena);
        CHECK_WITHIN(even.bursts, 1.0, 0.024);
        CHECK_WITHIN(even.kurtosis, 3.0, 4 * 0.018);
        CHECK(even.high_swing_db < 0.35);
    }
    const double half_turn = 0.5 * QLL_TWO_PI * 4.0 * 0.02;
    const qll_sound_features swung = features_of_even_noise(6.0, 4, arena);
    CHECK_NEAR(swung.high_swing_db, 6.0 / sqrt(2.0) * sin(half_turn) / half_turn, 0.03);
    const double swing = log(10.0) / 10.0 * swung.high_swing_db;
    CHECK(swung.kurtosis > 3.3 && swung.kurtosis / (3.0 * exp(swing * swing)) < 1.0);
    qll_arena_close(arena);
}

static qll_sound_stretch stretch_of(float *samples, qll_arena *arena)
{
    qll_sound_result result;
    CHECK(listen(samples, 10, 1, 4096, NULL, arena, &result) == QLL_OK);
    free(samples);
    return result.stretches[0];
}

/* docs/theory/sound.md, 7: even noise that comes and goes 23 times a second has no blow that stands out, and is chatter; at the mains'
 * frequency it is hum; a tone that does so is a squeal. */
TEST(a_rhythm_that_two_bands_have_is_chatter_without_blows)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    const qll_sound_stretch dull = stretch_of(swinging_noise(2.0, 23.0, 7), arena);
    CHECK(dull.kind == QLL_SOUND_CHATTER);
    CHECK_NEAR(dull.features.repeat_hz, 23.0, 0.03);
    CHECK(dull.features.kurtosis < 3.5 && dull.features.thump_db < 8.0);
    for (int mains_hz = 50; mains_hz <= 60; mains_hz += 10) {
        const qll_sound_stretch hum = stretch_of(swinging_noise(2.0, mains_hz, 8), arena);
        CHECK(hum.kind != QLL_SOUND_CHATTER && hum.features.repeat_wide < 0.1);
    }
    float *samples = sound_of(10);
    for (size_t j = 0; j < (size_t)10 * QLL_RATE; j++) {
        const double t = (double)j / QLL_RATE;
        samples[j] =
            (float)(0.05 * (1.0 + 0.5 * sin(QLL_TWO_PI * 23.0 * t)) * sin(QLL_TWO_PI * 2000.0 * t));
    }
    add_noise(samples, 0, 10, 0.005, 9);
    CHECK(stretch_of(samples, arena).kind == QLL_SOUND_SQUEAL);
    qll_arena_close(arena);
}

/* A tone of 2.5 kHz over even noise, either of which comes and goes 23 times a second. */
static qll_sound_features features_of_tone(double tone_height, bool tone_swings, bool noise_swings,
                                           qll_arena *arena)
{
    float *samples = swinging_noise(noise_swings ? 3.0 : 0.0, 23.0, 11);
    for (size_t j = 0; j < (size_t)10 * QLL_RATE; j++) {
        const double t = (double)j / QLL_RATE;
        const double level = 1.0 + (tone_swings ? 0.5 * sin(QLL_TWO_PI * 23.0 * t) : 0.0);
        samples[j] += (float)(tone_height * level * sin(QLL_TWO_PI * 2500.0 * t));
    }
    return features_of(samples, arena);
}

/* docs/theory/sound.md, 7: what is below a tone does not swell with it, unless it is the tone itself that a filter leaves there. */
TEST(a_rhythm_below_a_tone_is_not_the_tones)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    CHECK(features_of_tone(0.01, false, false, arena).repeat_below < 0.1);
    CHECK(features_of_tone(0.01, true, false, arena).repeat_below < 0.1);
    CHECK(features_of_tone(0.01, false, true, arena).repeat_below > 0.3);
    const qll_sound_features loud = features_of_tone(0.9, true, false, arena);
    CHECK(loud.repeat_strength > 0.3 && loud.repeat_below < 0.1);
    qll_arena_close(arena);
}

/* Notes of a second each at several pitches are a tune, the same note again and again is a squeal. */
TEST(one_pitch_squeals_and_several_are_a_tune)
{
    static const double notes_hz[] = {880.0, 1175.0, 988.0, 1319.0, 1047.0};
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    for (int is_tune = 0; is_tune < 2; is_tune++) {
        float *samples = sound_of(10);
        for (size_t j = 0; j < (size_t)10 * QLL_RATE; j++) {
            const double t = (double)j / QLL_RATE,
                         hz = notes_hz[is_tune == 1 ? j / QLL_RATE % 5 : 0];
            samples[j] = (float)(0.1 * sin(QLL_TWO_PI * hz * t));
        }
        add_noise(samples, 0, 10, 0.005, 12);
        const qll_sound_stretch stretch = stretch_of(samples, arena);
        CHECK(stretch.kind == (is_tune == 1 ? QLL_SOUND_OTHER : QLL_SOUND_SQUEAL));
        CHECK(stretch.features.toned_share > 0.9);
        CHECK((stretch.features.tone_share > 0.9) == (is_tune == 0));
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(even_noise_has_neither_bursts_nor_swing);
    TEST_RUN(a_rhythm_that_two_bands_have_is_chatter_without_blows);
    TEST_RUN(a_rhythm_below_a_tone_is_not_the_tones);
    TEST_RUN(one_pitch_squeals_and_several_are_a_tune);
    return TEST_END();
}
