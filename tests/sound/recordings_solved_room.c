/* Of the solved recordings: what is no water, the room's answer, and the phone. */
#include "sound/recordings_solved.h"

#include <string.h>

/* ---- a room at rest ---- */

/* White noise by how loud it is with A: of 20 kHz, an octave at 1 kHz has 28.5 dB over its density and A leaves 41 dB of it (our sum over
 * IEC 61672-1's curve). */
static double white_of(double a_db, double rate_hz)
{
    return pow(10.0, (a_db - 41.0) / 20.0) * sqrt(0.5 * rate_hz);
}

/* A room from RC 20 to 45 (ANSI S12.2: straight lines of 5 dB an octave, named by their level at 1 kHz), a little steeper or as flat as
 * the 1/f of C.4; over it what a phone's microphone makes itself, 28 to 36 dB with A (signal-to-noise ratios of 58 to 66 dB with A against 94 dB are
 * what data sheets of such microphones state); often the mains in a ballast or a pump. All in dB over 20 uPa. */
void solve_none(stage *on)
{
    /* an octave of 1/f is as loud as the next */
    const double octave_db = on->is_hard ? within(on, -1.0, 6.5) : within(on, 0.0, 5.5);
    ladder walls = ladder_of(on, 1.0 + octave_db / (10.0 * log10(2.0)));
    const double at_1_khz_db = within(on, 20.0, 45.0);
    const double own = white_of(within(on, 28.0, 36.0), on->rate_hz);
    /* what comes through the ladder in the octave of 1 kHz */
    two_pole octave = filter_of(on, QLL_PASS_BAND, 1000.0, sqrt(2.0));
    ladder same = walls;
    double sum = 0.0;
    for (int j = 0; j < 200000; j++) {
        const double y = pass(&octave, fall(&same, normal(on)));
        sum += j >= 50000 ? y * y : 0.0;
    }
    /* a filter of one resonance is half pi wider than an octave is */
    const double gain = pow(10.0, at_1_khz_db / 20.0) / sqrt(sum / 150000.0 / 1.57);
    const double mains_hz = (chance(on, 0.5) ? 50.0 : 60.0) * (1.0 + within(on, -5e-4, 5e-4));
    const double hum = chance(on, 0.5) ? pow(10.0, within(on, 15.0, 50.0) / 20.0) : 0.0;
    for (size_t j = 0; j < on->count; j++) {
        const double t = (double)j / on->rate_hz;
        double y = gain * fall(&walls, normal(on)) + own * normal(on);
        for (int k = 1; k <= 6 && hum > 0.0; k++) { /* a core is pulled twice a turn */
            y += hum * (k % 2 == 0 ? 2.0 : 0.6) / (k * k) * sin(QLL_TWO_PI * k * mains_hz * t + k);
        }
        on->out[j] = y;
    }
    to_unit(on);
}

/* ---- other ---- */

/* Somebody talks: the harmonics of a pitch, each as loud as the mouth lets it be, and breath. */
static double mouth_lets(double hz, const double formants_hz[3])
{
    double sum = 0.0;
    for (int i = 0; i < 3; i++) {
        const double off = (hz - formants_hz[i]) / (50.0 + 0.05 * formants_hz[i]);
        sum += 1.0 / ((1.0 + i) * (1.0 + off * off));
    }
    return sum;
}

static void add_talk(stage *on)
{
    const double pitch_hz = spread(on, 85, 230);
    double phase = 0.0;
    double at_s = within(on, 0.0, 0.5);
    while (at_s < QLL_RECORDING_SECONDS) {
        const double long_s = within(on, 0.09, 0.3), strength = spread(on, 0.25, 1.0);
        const double bends = within(on, 0.85, 1.15);
        const bool is_voiced = chance(on, 0.75);
        const double formants_hz[3] = {spread(on, 270, 850), spread(on, 850, 2400),
                                       spread(on, 2400, 3400)};
        two_pole teeth = filter_of(on, QLL_PASS_HIGH, spread(on, 2500, 5000), 0.8);
        const size_t from = (size_t)(at_s * on->rate_hz), count = (size_t)(long_s * on->rate_hz);
        for (size_t j = 0; j < count && from + j < on->count; j++) {
            const double part = (double)j / (double)count;
            const double rise = fmin(1.0, 6.0 * fmin(part, 1.0 - part));
            const double hz = pitch_hz * (1.0 + (bends - 1.0) * part);
            phase += QLL_TWO_PI * hz / on->rate_hz;
            double y = 0.0;
            for (int k = 1; is_voiced && k * hz < 4200.0; k++) {
                y += mouth_lets(k * hz, formants_hz) / k * sin(k * phase);
            }
            y += (is_voiced ? 0.01 : 0.12) * pass(&teeth, normal(on));
            on->out[from + j] += strength * rise * y;
        }
        phase = fmod(phase, QLL_TWO_PI);
        at_s += long_s + (chance(on, 0.18) ? within(on, 0.25, 1.0) : within(on, 0.0, 0.1));
    }
}

/* Plucked strings: what was plucked goes round and is averaged with its neighbor (Karplus and Strong, Computer Music Journal 7 (1983)
 * no. 2, from memory). */
static void add_strings(stage *on)
{
    static const int steps[] = {0, 2, 4, 5, 7, 9, 11, 12, 14, 16};
    static double string[1024];
    const double low_hz = spread(on, 110, 330), beat_s = spread(on, 0.15, 0.6);
    const double keeps = within(on, 0.985, 0.999);
    double at_s = 0.0;
    while (at_s < QLL_RECORDING_SECONDS) {
        const double hz = low_hz * pow(2.0, steps[(size_t)within(on, 0, 9.999)] / 12.0);
        const double long_s = beat_s * (chance(on, 0.3) ? 2.0 : 1.0);
        const size_t turn = (size_t)(on->rate_hz / hz - 0.5), round = turn < 2 ? 2 : turn;
        const double strength = spread(on, 0.4, 1.0);
        for (size_t i = 0; i < round; i++) {
            string[i] = within(on, -strength, strength);
        }
        const size_t from = (size_t)(at_s * on->rate_hz);
        const size_t count = (size_t)(long_s * on->rate_hz);
        for (size_t j = 0; j < count && from + j < on->count; j++) {
            double *now = &string[j % round];
            on->out[from + j] += *now;
            *now = keeps * 0.5 * (*now + string[(j + 1) % round]);
        }
        at_s += long_s;
    }
}

/* Somebody types: keys go down and up, at no even pace, with pauses. */
static void add_typing(stage *on)
{
    springs key = {.count = 0};
    for (int i = 0; i < 6; i++) {
        add_spring(on, &key, spread(on, 250, 5500), spread(on, 0.03, 0.12), within(on, 0.2, 1.0));
    }
    double down_s = within(on, 0.0, 0.5), up_s = -1.0, strength = 1.0;
    for (size_t j = 0; j < on->count; j++) {
        const double t = (double)j / on->rate_hz;
        double force = 0.0;
        if (t >= down_s) {
            strength = exp(0.4 * normal(on));
            force = strength;
            up_s = t + within(on, 0.04, 0.11);
            down_s = t + (chance(on, 0.12) ? within(on, 0.4, 1.5) : spread(on, 0.09, 0.35));
        } else if (up_s > 0.0 && t >= up_s) {
            force = 0.35 * strength;
            up_s = -1.0;
        }
        on->out[j] = move(&key, force);
    }
}

void solve_other(stage *on)
{
    const double which = qll_random_unit(&on->random);
    if (which < 0.6) {
        add_talk(on);
    } else if (which < 0.8) {
        add_strings(on);
    } else {
        add_typing(on);
    }
    to_unit(on);
}

/* ---- the room's answer ---- */

/* Four delays that feed each other, none lost and none favored (Jot and Chaigne, AES preprint 3030, 1991, from memory). */
#define QLL_DELAYS 4
#define QLL_ROUND  2400

static void add_answer(stage *on)
{
    static double held[QLL_DELAYS][QLL_ROUND];
    memset(held, 0, sizeof held);
    size_t late[QLL_DELAYS];
    double keeps[QLL_DELAYS];
    const double dies_s = spread(on, 0.12, 0.5), level = pow(10.0, -within(on, 6, 18) / 20.0);
    lag dull[QLL_DELAYS];
    for (int i = 0; i < QLL_DELAYS; i++) {
        late[i] = (size_t)(within(on, 0.005 + 0.008 * i, 0.012 + 0.008 * i) * on->rate_hz);
        keeps[i] = pow(10.0, -3.0 * (double)late[i] / on->rate_hz / dies_s);
        dull[i] = lag_of(on, spread(on, 4000, 12000));
    }
    for (size_t j = 0; j < on->count; j++) {
        double back[QLL_DELAYS], sum = 0.0;
        for (int i = 0; i < QLL_DELAYS; i++) {
            back[i] = keeps[i] * behind(&dull[i], held[i][j % late[i]]);
            sum += back[i];
        }
        for (int i = 0; i < QLL_DELAYS; i++) { /* Householder's mirror */
            held[i][j % late[i]] = on->out[j] + back[i] - 0.5 * sum;
        }
        on->out[j] += level * sum;
    }
}

/* ---- the phone ---- */

/* Gain by blocks of 20 ms, so far as it follows. */
static void follow(stage *on)
{
    const double whole = rms(on->out, on->count), most = pow(10.0, within(on, 3, 12) / 20.0);
    const double down = within(on, 0.5, 1.0), up = within(on, 0.02, 0.2);
    const size_t block = (size_t)(0.02 * on->rate_hz);
    double gain = 1.0;
    for (size_t from = 0; from < on->count; from += block) {
        const size_t count = block < on->count - from ? block : on->count - from;
        const double wanted = fmin(most, fmax(1.0 / most, whole / rms(on->out + from, count)));
        const double before = gain;
        gain *= pow(wanted / gain, wanted < gain ? down : up);
        for (size_t j = 0; j < count; j++) {
            on->out[from + j] *= before + (gain - before) * (double)j / (double)count;
        }
    }
}

static void add_room(stage *on, recording_kind kind)
{
    const double under_db = on->is_hard ? within(on, 8, 25) : within(on, 25, 45);
    ladder room = ladder_of(on, within(on, 1.0, 2.0));
    const double whole = kind == QLL_RECORDING_HAMMER ? 1.0 : rms(on->out, on->count);
    ladder same = room;
    double sum = 0.0;
    for (int j = 0; j < 100000; j++) {
        const double y = fall(&same, normal(on));
        sum += y * y;
    }
    const double gain = whole * pow(10.0, -under_db / 20.0) / sqrt(sum / 100000.0);
    for (size_t j = 0; j < on->count; j++) {
        on->out[j] += gain * fall(&room, normal(on));
    }
}

void solve_phone(stage *on, recording_kind kind, float *samples)
{
    add_answer(on);
    if (kind != QLL_RECORDING_NONE) {
        add_room(on, kind);
    }
    const double bottom_hz = spread(on, 60, 220), top_hz = spread(on, 9000, 15000);
    lag ends[4] = {lag_of(on, bottom_hz), lag_of(on, bottom_hz), lag_of(on, top_hz),
                   lag_of(on, top_hz)};
    two_pole bump = filter_of(on, QLL_PASS_BAND, spread(on, 800, 6000), within(on, 0.7, 2.0));
    const double bumps = pow(10.0, within(on, -3, 3) / 20.0) - 1.0;
    for (size_t j = 0; j < on->count; j++) {
        double y = on->out[j];
        for (int i = 0; i < 4; i++) {
            const double low = behind(&ends[i], y);
            y = i < 2 ? y - low : low;
        }
        on->out[j] = y + bumps * pass(&bump, y);
    }
    if (chance(on, 0.35)) {
        follow(on);
    }
    double peak = 0.0;
    for (size_t j = 0; j < on->count; j++) {
        peak = fmax(peak, fabs(on->out[j]));
    }
    const double loud = (chance(on, 0.12) ? spread(on, 1.1, 1.6) : spread(on, 0.05, 0.9)) / peak;
    for (size_t j = 0; j < on->count; j++) {
        const double y = fmax(-1.0, fmin(0.99997, loud * on->out[j]));
        samples[j] = (float)(rint(32768.0 * y + within(on, -0.5, 0.5)) / 32768.0);
    }
}
