/* Of the driven recordings: what is no water, the room's walls, and the phone. */
#include "sound/recordings_driven.h"

#include <stdlib.h>
#include <string.h>

/* ---- a room at rest ---- */

/* Noise that falls by 3 dB an octave: values that are held, each twice as long as the one before, and change by chance, so that
 * nothing comes at a pace (Voss, McCartney). */
typedef struct held {
    double values[16];
} held;

static double next_held(stage *on, held *of)
{
    const double which = -log2(1.0 - qll_random_unit(&on->random));
    of->values[which < 15.0 ? (size_t)which : 15] = normal(on);
    double sum = normal(on);
    for (size_t i = 0; i < 16; i++) {
        sum += of->values[i];
    }
    return sum;
}

static held held_of(stage *on)
{
    held made = {.values = {0}};
    for (size_t i = 0; i < 16; i++) {
        made.values[i] = normal(on);
    }
    return made;
}

void drive_none(stage *on)
{
    held room = held_of(on);
    loop deep = loop_of(on->rate_hz, spread(on, 80, 900), 0.7);
    const double steep = within(on, 0.0, 1.0);
    const double mains_hz = (chance(on, 0.5) ? 50.0 : 60.0) * (1.0 + within(on, -1e-3, 1e-3));
    const double hum = chance(on, 0.5) ? spread(on, 0.05, 1.0) : 0.0, falls = within(on, 0.7, 2.0);
    double phase[8];
    for (int k = 0; k < 8; k++) {
        phase[k] = within(on, 0, QLL_TWO_PI);
    }
    for (size_t j = 0; j < on->count; j++) {
        const double x = next_held(on, &room);
        double y = (1.0 - steep) * x + 3.0 * steep * turn(&deep, x).low;
        for (int k = 1; k <= 8 && hum > 0.0; k++) {
            const double t = (double)j / on->rate_hz;
            y += 4.0 * hum * pow(k, -falls) * sin(QLL_TWO_PI * k * mains_hz * t + phase[k - 1]);
        }
        on->out[j] = y;
    }
    to_unit(on);
}

/* ---- other ---- */

/* A throat of eight tubes (Kelly and Lochbaum): waves up and down, partly thrown back where two meet. */
#define QLL_TUBES 8

typedef struct throat {
    double up[QLL_TUBES], down[QLL_TUBES], wide[QLL_TUBES];
} throat;

static double breathe(throat *of, double x)
{
    double up[QLL_TUBES], down[QLL_TUBES];
    up[0] = x + 0.75 * of->down[0];
    for (int i = 0; i + 1 < QLL_TUBES; i++) {
        const double k = (of->wide[i] - of->wide[i + 1]) / (of->wide[i] + of->wide[i + 1]);
        up[i + 1] = (1.0 + k) * of->up[i] - k * of->down[i + 1];
        down[i] = k * of->up[i] + (1.0 - k) * of->down[i + 1];
    }
    const double out = of->up[QLL_TUBES - 1];
    down[QLL_TUBES - 1] = -0.85 * out;
    memcpy(of->up, up, sizeof up);
    memcpy(of->down, down, sizeof down);
    return out;
}

/* Somebody talks: syllables with a pitch, and breath between them. A tube of 17 cm in eight parts takes 16 samples there and back at
 * 16 kHz, so each step is held for three samples. */
static void add_talk(stage *on)
{
    throat mouth = {.up = {0}};
    const double pitch_hz = within(on, 85, 220);
    double phase = 0.0, held_out = 0.0, push_sum = 0.0;
    size_t at = (size_t)(within(on, 0.0, 0.4) * on->rate_hz);
    loop soft = loop_of(on->rate_hz, 5500, 0.7);
    while (at < on->count) {
        const size_t count = (size_t)(within(on, 0.1, 0.28) * on->rate_hz);
        const bool is_voiced = chance(on, 0.8);
        const double strength = within(on, 0.3, 1.0), slides = within(on, -0.2, 0.1);
        for (int i = 0; i < QLL_TUBES; i++) {
            mouth.wide[i] = spread(on, 0.5, 6.0);
        }
        for (size_t j = 0; j < count && at + j < on->count; j++) {
            const double part = (double)j / (double)count, rise = sin(0.5 * QLL_TWO_PI * part);
            phase += pitch_hz * (1.0 + slides * part) / on->rate_hz;
            phase -= floor(phase);
            /* the folds open for part of a turn, and shut fast */
            const double glottis = phase < 0.6 ? phase * phase * (0.6 - phase) * 20.0 : 0.0;
            push_sum += is_voiced ? glottis + 0.02 * normal(on) : 0.25 * normal(on);
            if ((at + j) % 3 == 0) {
                held_out = breathe(&mouth, strength * rise * push_sum / 3.0);
                push_sum = 0.0;
            }
            on->out[at + j] = turn(&soft, held_out).low;
        }
        at += count
              + (size_t)((within(on, 0.0, 0.07) + (chance(on, 0.2) ? within(on, 0.2, 0.7) : 0.0))
                         * on->rate_hz);
    }
    double before = 0.0; /* lips */
    for (size_t j = 0; j < on->count; j++) {
        const double now = on->out[j];
        on->out[j] = now - 0.95 * before;
        before = now;
    }
}

/* Plates and cups, at no rhythm. */
static void add_dishes(stage *on)
{
    const double busy = spread(on, 1.0, 6.0);
    double next_s = 0.0;
    notes plate = {.count = 0};
    for (size_t j = 0; j < on->count; j++) {
        double push = 0.0;
        if ((double)j / on->rate_hz >= next_s) {
            plate.count = 0;
            for (int i = 0; i < 6; i++) {
                add_note(on, &plate, spread(on, 700, 7000), spread(on, 0.003, 0.03),
                         within(on, 0.2, 1.0));
            }
            push = exp(0.7 * normal(on));
            next_s += -log(1.0 - qll_random_unit(&on->random)) / busy;
        }
        on->out[j] = sound_notes(&plate, push);
    }
}

/* A tune, each note a tone whose phase another one swings. */
static void add_tune(stage *on)
{
    const double low_hz = spread(on, 180, 450), beat_s = within(on, 0.18, 0.5);
    double at_s = 0.0;
    while (at_s < QLL_RECORDING_SECONDS) {
        const double hz = low_hz * pow(2.0, floor(within(on, 0, 15)) / 12.0);
        const double bright = within(on, 0.5, 3.0), dies_s = within(on, 0.08, 0.4);
        for (size_t j = (size_t)(at_s * on->rate_hz);
             j < on->count && (double)j / on->rate_hz < at_s + 1.0; j++) {
            const double t = (double)j / on->rate_hz - at_s, fades = exp(-t / dies_s);
            on->out[j] +=
                fades * sin(QLL_TWO_PI * hz * t + bright * fades * sin(QLL_TWO_PI * 2 * hz * t));
        }
        at_s += beat_s;
    }
}

void drive_other(stage *on)
{
    const double which = qll_random_unit(&on->random);
    if (which < 0.6) {
        add_talk(on);
    } else if (which < 0.8) {
        add_dishes(on);
    } else {
        add_tune(on);
    }
    to_unit(on);
}

/* ---- walls and phone ---- */

/* The images of a source in six walls, up to three times thrown back (Allen and Berkley, J. Acoust. Soc. Am. 65 (1979) 943, from
 * memory). */
static void add_walls(stage *on, double *dry)
{
    memcpy(dry, on->out, on->count * sizeof *dry);
    double size_m[3], from_m[3], to_m[3];
    for (int i = 0; i < 3; i++) {
        size_m[i] = within(on, 1.2, 4.0);
        from_m[i] = within(on, 0.2, 0.8) * size_m[i];
    }
    for (int i = 0; i < 3; i++) {
        to_m[i] = fmin(fmax(from_m[i] + within(on, -0.3, 0.3), 0.1), size_m[i] - 0.1);
    }
    const double throws = sqrt(1.0 - within(on, 0.15, 0.6));
    double direct_m = 0.0;
    for (int i = 0; i < 3; i++) {
        direct_m += (to_m[i] - from_m[i]) * (to_m[i] - from_m[i]);
    }
    direct_m = fmax(sqrt(direct_m), 0.2);
    for (int image = 0; image < 343; image++) {
        const int at[3] = {image % 7 - 3, image / 7 % 7 - 3, image / 49 - 3};
        const int walls = abs(at[0]) + abs(at[1]) + abs(at[2]);
        if (walls == 0 || walls > 3) {
            continue;
        }
        double square = 0.0;
        for (int i = 0; i < 3; i++) {
            const bool is_turned = at[i] % 2 != 0;
            const double x = at[i] * size_m[i] + (is_turned ? size_m[i] - from_m[i] : from_m[i]);
            square += (x - to_m[i]) * (x - to_m[i]);
        }
        const double way_m = sqrt(square), height = pow(throws, walls) * direct_m / way_m;
        const size_t late = (size_t)(fmax(0.0, way_m - direct_m) / 343.0 * on->rate_hz);
        for (size_t j = late; j < on->count; j++) {
            on->out[j] += height * dry[j - late];
        }
    }
}

void drive_phone(stage *on, recording_kind kind, double *dry, float *samples)
{
    add_walls(on, dry);
    const double whole = kind == QLL_RECORDING_HAMMER ? 1.0 : rms(on->out, on->count);
    held room = held_of(on);
    const double under = pow(10.0, (on->is_hard ? -within(on, 8, 25) : -within(on, 25, 45)) / 20.0);
    loop bottom = loop_of(on->rate_hz, spread(on, 60, 220), 0.7);
    loop top = loop_of(on->rate_hz, spread(on, 9000, 15000), 0.7);
    const size_t case_late = (size_t)(within(on, 1e-4, 4e-4) * on->rate_hz);
    const double case_height = within(on, 0.0, 0.2);
    /* a limiter: down at once, up slowly */
    const double limit = chance(on, 0.35) ? whole * spread(on, 0.3, 1.5) : HUGE_VAL;
    const double up = 1.0 / (spread(on, 0.05, 0.5) * on->rate_hz);
    double gain = 1.0, peak = 0.0;
    for (size_t j = 0; j < on->count; j++) {
        const double noise =
            kind == QLL_RECORDING_NONE ? 0.0 : whole * under * next_held(on, &room) / 4.1;
        const double low = turn(&top, on->out[j] + noise).low, y = turn(&bottom, low).high;
        dry[j] = y;
        const double cased = y + (j >= case_late ? case_height * dry[j - case_late] : 0.0);
        gain += up * (1.0 - gain);
        gain = fmin(gain, limit / fmax(fabs(cased), 1e-12));
        on->out[j] = gain * cased;
        peak = fmax(peak, fabs(on->out[j]));
    }
    const double loud = (chance(on, 0.12) ? spread(on, 1.1, 1.6) : spread(on, 0.05, 0.9)) / peak;
    for (size_t j = 0; j < on->count; j++) {
        const double y = fmax(-1.0, fmin(0.99997, loud * on->out[j]));
        samples[j] = (float)(rint(32768.0 * y + within(on, -0.5, 0.5)) / 32768.0);
    }
}
