/* The same kinds built another way, written from docs/theory/sound.md after the rules were frozen: everything in time, sample by
 * sample, by resonators, an oscillator that keeps itself going, a disc that bounces, pulses that come in clusters.
 *
 * Rush: noise through two low passes and a high pass. Hiss: collapses, each a damped note of 2 to 12 kHz, in clusters. Squeal: van
 * der Pol's oscillator at St U / t, pushed by the rush. Chatter: a disc thrown off its seat and falling back, that strikes
 * resonators. Hammer: the square wave of a closed pipe, dying away, through a wall's resonances. None: a leaky sum of noise, and a
 * fan. Other: a voice of pulses through three resonators, or someone who walks about and puts things down. */
#include "base/random.h"
#include "sound/recordings.h"

#include <math.h>
#include <string.h>

#define QLL_TWO_PI 6.28318530717958647692

typedef struct qll_scene {
    qll_random random;
    bool is_hard;
    double rate_hz;
    size_t count;
    double *out;
} qll_scene;

static double unit(qll_scene *scene)
{
    return qll_random_unit(&scene->random);
}

static double within(qll_scene *scene, double low, double high)
{
    return low + (high - low) * unit(scene);
}

/* Nearly normal: the sum of twelve. */
static double noise(qll_scene *scene)
{
    double sum = -6.0;
    for (int i = 0; i < 12; i++) {
        sum += unit(scene);
    }
    return sum;
}

/* A resonance: two poles. */
typedef struct resonator {
    double a, b, gain, y1, y2;
} resonator;

static resonator tuned(const qll_scene *scene, double frequency_hz, double decay_s)
{
    const double r = exp(-1.0 / (decay_s * scene->rate_hz));
    return (resonator){.a = 2.0 * r * cos(QLL_TWO_PI * frequency_hz / scene->rate_hz),
                       .b = -r * r,
                       .gain = sin(QLL_TWO_PI * frequency_hz / scene->rate_hz)};
}

static double ring(resonator *of, double push)
{
    const double y = of->gain * push + of->a * of->y1 + of->b * of->y2;
    of->y2 = of->y1;
    of->y1 = y;
    return y;
}

/* One pole; what is left over is its high pass. */
typedef struct pole {
    double share, y;
} pole;

static pole pole_at(const qll_scene *scene, double frequency_hz)
{
    return (pole){.share = 1.0 - exp(-QLL_TWO_PI * frequency_hz / scene->rate_hz)};
}

static double low(pole *of, double x)
{
    of->y += of->share * (x - of->y);
    return of->y;
}

static double high(pole *of, double x)
{
    return x - low(of, x);
}

static double level(const double *signal, size_t count)
{
    double sum = 0.0;
    for (size_t j = 0; j < count; j++) {
        sum += signal[j] * signal[j];
    }
    return sqrt(sum / (double)count) + 1e-12;
}

static void set_level(qll_scene *scene, double to)
{
    const double factor = to / level(scene->out, scene->count);
    for (size_t j = 0; j < scene->count; j++) {
        scene->out[j] *= factor;
    }
}

/* ---- noises ---- */

typedef struct water {
    pole up, first, second;
} water;

static water water_of(qll_scene *scene)
{
    const double peak_hz = scene->is_hard ? within(scene, 200, 1300) : within(scene, 280, 850);
    return (water){pole_at(scene, 0.6 * peak_hz), pole_at(scene, 1.2 * peak_hz),
                   pole_at(scene, within(scene, 2500, 5000))};
}

/* Falls by about 10 dB a decade, per third octave, above its peak: density by 20. */
static double flowing(qll_scene *scene, water *of)
{
    const double x = low(&of->first, high(&of->up, noise(scene)));
    return 0.8 * x + 0.2 * low(&of->second, x);
}

static void add_water(qll_scene *scene, double relative_db)
{
    water of = water_of(scene);
    double sum = 0.0;
    for (int j = 0; j < 20000; j++) {
        const double x = flowing(scene, &of);
        sum += x * x;
    }
    const double gain = pow(10.0, relative_db / 20.0) / sqrt(sum / 20000.0);
    for (size_t j = 0; j < scene->count; j++) {
        scene->out[j] += gain * flowing(scene, &of);
    }
}

static void make_rush(qll_scene *scene)
{
    add_water(scene, 0.0);
}

static void make_hiss(qll_scene *scene)
{
    const double per_s = (scene->is_hard ? 200 : 600) * pow(20.0, unit(scene));
    resonator voices[6];
    for (int i = 0; i < 6; i++) {
        voices[i] = tuned(scene, 2000.0 * pow(6.0, unit(scene)), within(scene, 0.00008, 0.0003));
    }
    double cluster = 1.0;
    for (size_t j = 0; j < scene->count; j++) {
        cluster += (1.0 - cluster) * 20.0 / scene->rate_hz
                   + 0.5 * noise(scene) * sqrt(40.0 / scene->rate_hz);
        const bool falls_in = unit(scene) < fmax(cluster, 0.05) * per_s / scene->rate_hz;
        const int which = (int)(6.0 * unit(scene));
        const double push = falls_in ? -log(1.0 - unit(scene)) : 0.0;
        for (int i = 0; i < 6; i++) {
            scene->out[j] += ring(&voices[i], i == which ? push : 0.0);
        }
    }
    set_level(scene, 1.0);
    add_water(scene, scene->is_hard ? within(scene, -8, 0) : within(scene, -18, -6));
}

static void make_squeal(qll_scene *scene)
{
    double tone_hz = 0.0;
    do {
        tone_hz = within(scene, 0.2, 0.35) * within(scene, 8, 35) / within(scene, 0.001, 0.005);
    } while (tone_hz < 450.0 || tone_hz > 7000.0);
    water push = water_of(scene);
    const double damping = within(scene, 0.02, 0.3);
    double x = 0.1, v = 0.0, pitch = 1.0;
    const int parts = 4; /* steps within a sample, so that the oscillator stays on its way */
    for (size_t j = 0; j < scene->count; j++) {
        pitch += (1.0 - pitch) / scene->rate_hz
                 + (scene->is_hard ? 0.012 : 0.004) * noise(scene) * sqrt(2.0 / scene->rate_hz);
        const double w = QLL_TWO_PI * tone_hz * pitch / (scene->rate_hz * parts);
        const double shove = 0.3 * flowing(scene, &push);
        for (int i = 0; i < parts; i++) {
            v += w * (damping * (1.0 - x * x) * v - x + shove);
            x += w * v;
        }
        scene->out[j] = x;
    }
    set_level(scene, 1.0);
    add_water(scene, scene->is_hard ? within(scene, -8, 4) : within(scene, -18, -5));
}

static void make_chatter(qll_scene *scene)
{
    resonator modes[6];
    for (int i = 0; i < 6; i++) {
        modes[i] = tuned(scene, 150.0 * pow(22.0, unit(scene)), within(scene, 0.003, 0.015));
    }
    const double period_s = 1.0 / (scene->is_hard ? within(scene, 8, 52) : within(scene, 9, 42));
    const double spread = scene->is_hard ? within(scene, 0.03, 0.08) : within(scene, 0.01, 0.04);
    double next_s = 0.02, height = 0.0, speed = 0.0;
    for (size_t j = 0; j < scene->count; j++) {
        const double t = (double)j / scene->rate_hz;
        double blow = 0.0;
        if (t >= next_s) { /* thrown off again, so high that it is back after a period */
            const double whole_s = period_s * (1.0 + spread * noise(scene));
            blow = 1.0 + 0.2 * noise(scene);
            speed = 0.5 * whole_s;
            next_s = t + whole_s;
        }
        speed -= 1.0 / scene->rate_hz;
        height = fmax(0.0, height + speed / scene->rate_hz);
        for (int i = 0; i < 6; i++) {
            scene->out[j] += ring(&modes[i], blow * (0.5 + unit(scene)));
        }
    }
    set_level(scene, 1.0);
    add_water(scene, scene->is_hard ? within(scene, -10, 2) : within(scene, -20, -7));
}

static void make_hammer(qll_scene *scene)
{
    const int closings = unit(scene) < 0.5 ? 1 : 2;
    resonator wall[4];
    for (int i = 0; i < 4; i++) {
        wall[i] = tuned(scene, 70.0 * pow(10.0, unit(scene)), within(scene, 0.01, 0.035));
    }
    const double ring_hz = 4.0 * pow(7.0, unit(scene)), die_s = within(scene, 0.05, 0.2);
    double at_s[2] = {within(scene, 1, 4), within(scene, 5.5, 8.5)};
    double before = 0.0;
    pole dull = pole_at(scene, within(scene, 300, 900));
    for (size_t j = 0; j < scene->count; j++) {
        const double t = (double)j / scene->rate_hz;
        double pressure = 0.0;
        for (int i = 0; i < closings; i++) {
            if (t >= at_s[i]) {
                const double since_s = t - at_s[i];
                const bool is_up = fmod(since_s * ring_hz, 1.0) < 0.5;
                pressure += (is_up ? 1.0 : -1.0) * exp(-since_s / die_s);
            }
        }
        const double jump = low(&dull, pressure) - before;
        before = dull.y;
        for (int i = 0; i < 4; i++) {
            scene->out[j] += ring(&wall[i], jump);
        }
    }
    double loudest = 0.0;
    const size_t window = (size_t)(0.05 * scene->rate_hz);
    for (size_t j = 0; j + window <= scene->count; j += window) {
        loudest = fmax(loudest, level(scene->out + j, window));
    }
    for (size_t j = 0; j < scene->count; j++) {
        scene->out[j] /= loudest;
    }
    add_water(scene, scene->is_hard ? within(scene, -19, -9) : within(scene, -32, -18));
}

static void make_none(qll_scene *scene)
{
    pole leak = pole_at(scene, within(scene, 15, 60)),
         also = pole_at(scene, within(scene, 200, 900));
    const double fan_hz = within(scene, 20, 29), blades = 2.0 + floor(4.0 * unit(scene));
    const double fan = unit(scene) < 0.5 ? within(scene, 0.05, 0.6) : 0.0;
    const double bright = within(scene, 0.02, 0.15);
    for (size_t j = 0; j < scene->count; j++) {
        const double t = (double)j / scene->rate_hz, x = noise(scene);
        const double deep = 12.0 * low(&leak, x) + low(&also, x) + bright * x;
        const double turn = QLL_TWO_PI * fan_hz * t;
        scene->out[j] =
            deep + fan * (sin(turn) + sin(blades * turn) + 0.3 * sin(2.0 * blades * turn));
    }
    set_level(scene, 1.0);
}

static void talk(qll_scene *scene)
{
    double at_s = within(scene, 0, 0.5), phase = 0.0;
    const double pitch_hz = within(scene, 85, 240);
    while (at_s < QLL_RECORDING_SECONDS) {
        const double long_s = within(scene, 0.1, 0.32), strength = within(scene, 0.3, 1.2);
        const bool is_voiced = unit(scene) < 0.72;
        resonator mouth[3] = {tuned(scene, within(scene, 280, 850), 0.004),
                              tuned(scene, within(scene, 900, 2300), 0.003),
                              tuned(scene, within(scene, 2300, 3500), 0.002)};
        pole breath = pole_at(scene, within(scene, 2000, 4000));
        const size_t steps = (size_t)(long_s * scene->rate_hz);
        for (size_t i = 0; i < steps; i++) {
            const double t = (double)i / (double)steps;
            const size_t j = (size_t)(at_s * scene->rate_hz) + i;
            if (j >= scene->count) {
                break;
            }
            phase += pitch_hz * (1.0 + 0.2 * sin(3.0 * t)) / scene->rate_hz;
            const double pulse = phase >= 1.0 ? 1.0 : 0.0;
            phase -= floor(phase);
            double out = is_voiced ? 0.0 : 0.05 * high(&breath, noise(scene));
            for (int m = 0; m < 3; m++) {
                out += ring(&mouth[m], is_voiced ? pulse + 0.01 * noise(scene) : 0.0) / (1 + m);
            }
            scene->out[j] += strength * out * 4.0 * t * (1.0 - t);
        }
        at_s +=
            long_s * within(scene, 0.9, 1.3) + (unit(scene) < 0.2 ? within(scene, 0.2, 1.0) : 0.0);
    }
}

static void walk(qll_scene *scene)
{
    double at_s = within(scene, 0.1, 0.5);
    while (at_s < QLL_RECORDING_SECONDS) {
        resonator floor_board[3] = {
            tuned(scene, within(scene, 80, 250), within(scene, 0.01, 0.03)),
            tuned(scene, within(scene, 200, 900), within(scene, 0.005, 0.02)),
            tuned(scene, within(scene, 1000, 4000), within(scene, 0.002, 0.01))};
        const size_t from = (size_t)(at_s * scene->rate_hz);
        const double strength = exp(0.7 * noise(scene));
        for (size_t j = from; j < scene->count && j < from + (size_t)(0.2 * scene->rate_hz); j++) {
            const double push = j < from + 100 ? 0.1 * fabs(noise(scene)) : 0.0;
            for (int i = 0; i < 3; i++) {
                scene->out[j] += strength * ring(&floor_board[i], push) / (1 + i);
            }
        }
        at_s += within(scene, 0.25, 0.9);
    }
}

static void make_other(qll_scene *scene)
{
    if (unit(scene) < 0.65) {
        talk(scene);
    } else {
        walk(scene);
    }
    set_level(scene, 1.0);
}

/* ---- the phone ---- */

/* A wall or a table sends it back a little later; then the ends of the phone's range, its gain, noise and steps. */
static void take_down(qll_scene *scene, recording_kind kind, float *samples)
{
    const size_t late[2] = {(size_t)(within(scene, 0.0008, 0.004) * scene->rate_hz),
                            (size_t)(within(scene, 0.005, 0.02) * scene->rate_hz)};
    const double back[2] = {within(scene, 0.1, 0.5), within(scene, 0.05, 0.3)};
    for (size_t j = scene->count; j-- > 0;) {
        for (int i = 0; i < 2; i++) {
            scene->out[j] += j >= late[i] ? back[i] * scene->out[j - late[i]] : 0.0;
        }
    }
    const double room_db = kind == QLL_RECORDING_NONE ? -99.0
                           : scene->is_hard           ? -within(scene, 8, 25)
                                                      : -within(scene, 25, 45);
    const double whole = kind == QLL_RECORDING_HAMMER ? 1.0 : level(scene->out, scene->count);
    pole deep = pole_at(scene, 60), ends[4];
    const double bottom_hz = within(scene, 60, 200), top_hz = within(scene, 10000, 15000);
    for (int i = 0; i < 4; i++) {
        ends[i] = pole_at(scene, i < 2 ? bottom_hz : top_hz);
    }
    const bool has_gain = unit(scene) < 0.35;
    const double attack = 1.0 / (0.05 * scene->rate_hz), release = 1.0 / (0.8 * scene->rate_hz);
    double follow = whole, peak = 0.0;
    for (size_t j = 0; j < scene->count; j++) {
        const double x = noise(scene);
        const double room = pow(10.0, room_db / 20.0) * whole * (6.0 * low(&deep, x) + 0.3 * x);
        double y = high(&ends[1], high(&ends[0], scene->out[j] + room));
        y = low(&ends[3], low(&ends[2], y));
        const double loud = fabs(y);
        follow += (loud > follow ? attack : release) * (loud - follow);
        y *= has_gain ? pow(fmax(follow, 0.05 * whole) / whole, -0.4) : 1.0;
        scene->out[j] = y;
        peak = fmax(peak, fabs(y));
    }
    const double gain =
        (unit(scene) < 0.12 ? within(scene, 1.1, 1.5) : within(scene, 0.05, 0.9)) / peak;
    for (size_t j = 0; j < scene->count; j++) {
        const double y = gain * scene->out[j] + 2e-4 * noise(scene);
        samples[j] = (float)(rint(fmax(-1.0, fmin(0.99997, y)) * 32768.0) / 32768.0);
    }
}

recording recording_make_other(recording_kind kind, bool is_hard, uint64_t seed, qll_arena *arena)
{
    static void (*const makers[QLL_RECORDING_COUNT])(qll_scene *) = {
        make_squeal, make_hiss, make_chatter, make_hammer, make_rush, make_none, make_other};
    qll_scene scene = {.random = qll_random_seeded(seed * 1000003 + (uint64_t)kind * 17 + is_hard),
                       .is_hard = is_hard};
    scene.rate_hz = unit(&scene) < 0.5 ? 48000 : 44100;
    scene.count = (size_t)scene.rate_hz * QLL_RECORDING_SECONDS;
    recording made = {.rate_hz = scene.rate_hz, .count = scene.count};
    made.samples = qll_arena_take(arena, scene.count, sizeof *made.samples);
    scene.out = qll_arena_take(arena, scene.count, sizeof *scene.out);
    makers[kind](&scene);
    take_down(&scene, kind, made.samples);
    return made;
}
