/* The same kinds a fourth way, written once the rules took bursts by their standard error, from docs/theory/sound.md and from what is published of each source, and
 * run once. Noise is drawn as a spectrum with chance phases and turned back into time, so that its shape is exactly what is asked for; what comes in blows is
 * put together blow by blow; room and phone are a sparse echo and a curve over frequency.
 *
 * Rush: IEC 60534-8-4's turbulence through a pipe's wall. Hiss: collapses of bubbles of many sizes, each with its rebound, in Rayleigh's time. Squeal: a tone that
 * wanders, with its harmonics. Chatter: a disc that strikes its seat and, often, its stop. Hammer: a square wave in the pipe that shakes its clips. None: what falls
 * with frequency, hum, a clock. Other: somebody talks, plays, or crumples paper. Ranges are our choice but where the source is named. */
#include "numeric/fourier.h"
#include "sound/recordings_simulated.h"

#include <string.h>

/* ---- noise by its spectrum ---- */

/* Power by frequency, to a factor. */
typedef double shape(const double *numbers, double hz);

/* Adds noise of that shape, of @p strength as its rms. */
static void add_noise(stage *on, shape *of, const double *numbers, double strength,
                      qll_arena *arena)
{
    const qll_arena_mark mark = qll_arena_now(arena);
    const size_t bins = qll_fourier_bins(on->count);
    qll_fourier *plan = NULL;
    qll_complexes spectrum = {qll_arena_take(arena, bins, sizeof(double)),
                              qll_arena_take(arena, bins, sizeof(double))};
    double *noise = qll_arena_take(arena, on->count, sizeof *noise);
    if (spectrum.re == NULL || spectrum.im == NULL || noise == NULL
        || qll_fourier_plan(on->count, arena, &plan) != QLL_OK) {
        return;
    }
    for (size_t k = 1; k + 1 < bins; k++) {
        const double height = sqrt(of(numbers, (double)k * on->rate_hz / (double)on->count));
        spectrum.re[k] = height * normal(on);
        spectrum.im[k] = height * normal(on);
    }
    qll_fourier_inverse(plan, spectrum, noise);
    const double factor = strength / rms(noise, on->count);
    for (size_t j = 0; j < on->count; j++) {
        on->out[j] += factor * noise[j];
    }
    qll_arena_reset(arena, mark);
}

/* Turbulence of IEC 60534-8-4, 1/(r^3/4 + 1/r) a third octave, outside a wall that lets through 20 dB a decade more. */
static double flow_shape(const double *peak_hz, double hz)
{
    const double r = hz / *peak_hz;
    return r / (0.25 * r * r * r + 1.0 / r);
}

static double falling_shape(const double *power, double hz)
{
    return pow(fmax(hz, 15.0), -*power);
}

static void add_flow(stage *on, double strength, qll_arena *arena)
{
    const double peak_hz = on->is_hard ? spread(on, 180, 1200) : spread(on, 250, 900);
    add_noise(on, flow_shape, &peak_hz, strength, arena);
}

static double times_db(double db)
{
    return pow(10.0, db / 20.0);
}

/* ---- collapses ---- */

/* A spike that rises and falls as fast. */
static void add_spike(stage *on, double at_s, double wide_s, double height)
{
    const double middle = at_s * on->rate_hz, wide = fmax(wide_s * on->rate_hz, 0.3);
    const size_t reach = (size_t)(6.0 * wide) + 2, at = (size_t)middle;
    for (size_t j = at < reach ? 0 : at - reach; j <= at + reach && j < on->count; j++) {
        on->out[j] += height * exp(-fabs((double)j - middle) / wide);
    }
}

/* Bubbles of radius R under p collapse in 0.915 R sqrt(density/p) (Rayleigh 1917), with a spike of a tenth of it; what is left
 * collapses again, weaker. */
static void add_collapses(stage *on)
{
    const double per_s = on->is_hard ? spread(on, 60, 60000) : spread(on, 100, 16000);
    const double middle_m = spread(on, 2e-4, 2e-3), pressure_pa = within(on, 1e5, 5e5);
    const double sizes = within(on, 0.2, 0.6), again = within(on, 0.1, 0.5);
    const double end_s = (double)on->count / on->rate_hz;
    double at_s = 0.0;
    while (at_s < end_s) {
        const double radius_m = middle_m * exp(sizes * normal(on));
        const double falls_s = 0.915 * radius_m * sqrt(999.0 / pressure_pa);
        const double height = pow(radius_m / middle_m, 1.5);
        add_spike(on, at_s, 0.1 * falls_s, height);
        add_spike(on, at_s + 1.6 * falls_s, 0.1 * falls_s, again * height);
        at_s += -log(1.0 - qll_random_unit(&on->random)) / per_s;
    }
    double before = 0.0; /* the wall */
    for (size_t j = 0; j < on->count; j++) {
        const double now = on->out[j];
        on->out[j] = now - before;
        before = now;
    }
    to_unit(on);
}

/* ---- a tone ---- */

static void add_tone(stage *on, double tone_hz)
{
    const double heights[3] = {1.0, times_db(-within(on, 15, 35)), times_db(-within(on, 20, 40))};
    const double drift = within(on, 0.0, on->is_hard ? 0.03 : 0.012);
    const double swell = within(on, 0.0, 0.4), swell_hz = spread(on, 0.3, 6);
    const double from_s = chance(on, 0.6) ? 0.0 : within(on, 0.2, 3.5);
    double phase = 0.0, off = 0.0;
    for (size_t j = (size_t)(from_s * on->rate_hz); j < on->count; j++) {
        const double t = (double)j / on->rate_hz;
        off += -off / on->rate_hz + drift * sqrt(2.0 / on->rate_hz) * normal(on);
        phase += QLL_TWO_PI * tone_hz * (1.0 + off) / on->rate_hz;
        const double level = 1.0 + swell * sin(QLL_TWO_PI * swell_hz * t);
        for (int i = 0; i < 3; i++) {
            on->out[j] += (i + 1) * tone_hz < 0.45 * on->rate_hz
                              ? level * heights[i] * sin((i + 1) * phase)
                              : 0.0;
        }
    }
    to_unit(on);
}

/* ---- blows ---- */

/* What rings after a blow: notes that die away by a loss factor. */
typedef struct rings {
    double hz[7], loss[7], height[7];
    size_t count;
} rings;

static rings rings_of(stage *on, size_t count, double low_hz, double high_hz)
{
    rings made = {.count = count};
    for (size_t i = 0; i < count; i++) {
        made.hz[i] = spread(on, low_hz, high_hz);
        made.loss[i] = spread(on, 0.015, 0.06);
        made.height[i] = within(on, 0.2, 1.0);
    }
    return made;
}

/* A blow that lasts @p long_s moves slow notes as it does a note of no frequency, and fast ones less. */
static void add_blow(stage *on, const rings *of, double at_s, double long_s, double height)
{
    for (size_t i = 0; i < of->count; i++) {
        const double turns = of->hz[i] * long_s, decay = 0.5 * QLL_TWO_PI * of->hz[i] * of->loss[i];
        const double moved = height * of->height[i] / (1.0 + 4.0 * turns * turns);
        const size_t from = (size_t)(at_s * on->rate_hz),
                     last = (size_t)(6.0 / decay * on->rate_hz);
        for (size_t j = 0; j < last && from + j < on->count; j++) {
            const double t = (double)j / on->rate_hz;
            on->out[from + j] += moved * exp(-decay * t) * sin(QLL_TWO_PI * of->hz[i] * t);
        }
    }
}

static void add_chatter(stage *on)
{
    const rings seat = rings_of(on, 4 + (size_t)within(on, 0, 3.99), 150, 3500);
    const double period_s = 1.0 / within(on, 8, on->is_hard ? 55 : 48);
    const double jitter = on->is_hard ? within(on, 0.02, 0.08) : within(on, 0.01, 0.05);
    const double long_s = spread(on, 1e-4, 4e-4),
                 stop = chance(on, 0.5) ? within(on, 0.1, 0.6) : 0.0;
    const double part = within(on, 0.3, 0.7);
    for (double at_s = within(on, 0, 0.05); at_s < (double)on->count / on->rate_hz;) {
        add_blow(on, &seat, at_s, long_s, exp(0.2 * normal(on)));
        if (stop > 0.0) {
            add_blow(on, &seat, at_s + part * period_s, long_s, stop * exp(0.2 * normal(on)));
        }
        at_s += period_s * fmax(0.3, 1.0 + jitter * normal(on));
    }
    to_unit(on);
}

static void add_hammer(stage *on)
{
    const rings clips = rings_of(on, 5, 60, 400);
    const double wave_hz = spread(on, 4, 30), keeps = within(on, 0.35, 0.75);
    const double front_s = spread(on, 0.003, 0.02);
    const int closings = 1 + (int)within(on, 0, 1.99);
    for (int i = 0; i < closings; i++) {
        double at_s = within(on, 0.7 + 4.7 * i, 4.4 + 4.7 * i), height = 1.0;
        for (int half = 0; half < 6; half++) {
            add_blow(on, &clips, at_s, front_s, half % 2 == 0 ? height : -height);
            at_s += 0.5 / wave_hz;
            height *= keeps;
        }
    }
    double loudest = 0.0;
    const size_t window = (size_t)(0.05 * on->rate_hz);
    for (size_t j = 0; j + window <= on->count; j += window / 2) {
        loudest = fmax(loudest, rms(on->out + j, window));
    }
    for (size_t j = 0; j < on->count; j++) {
        on->out[j] /= loudest;
    }
}

/* ---- a room, and people in it ---- */

static void add_quiet(stage *on, qll_arena *arena)
{
    const double power = within(on, 1.2, 2.2);
    add_noise(on, falling_shape, &power, 1.0, arena);
    const double mains_hz = chance(on, 0.5) ? 50 : 60;
    const double hum = chance(on, 0.4) ? within(on, 0.05, 0.4) : 0.0;
    for (size_t j = 0; j < on->count; j++) {
        for (int k = 1; k <= 4; k++) {
            on->out[j] += hum / k * sin(QLL_TWO_PI * k * mains_hz * (double)j / on->rate_hz + k);
        }
    }
    if (chance(on, 0.3)) {
        const rings clock = rings_of(on, 3, 1500, 5000);
        const double height = within(on, 0.05, 0.3);
        double at_s = within(on, 0, 1);
        while (at_s < QLL_RECORDING_SECONDS) {
            add_blow(on, &clock, at_s, 1e-4, height);
            at_s += 1.0;
        }
    }
    to_unit(on);
}

static void add_talk(stage *on)
{
    const double pitch_hz = within(on, 90, 230);
    double phase = 0.0;
    for (double at_s = within(on, 0, 0.4); at_s < QLL_RECORDING_SECONDS;) {
        const double long_s = within(on, 0.09, 0.3), strength = within(on, 0.3, 1.0);
        const bool is_voiced = chance(on, 0.75);
        two_pole formants[3] = {filter_of(on, QLL_PASS_BAND, within(on, 300, 800), 5),
                                filter_of(on, QLL_PASS_BAND, within(on, 900, 2200), 8),
                                filter_of(on, QLL_PASS_BAND, within(on, 2300, 3400), 10)};
        two_pole teeth = filter_of(on, QLL_PASS_BAND, within(on, 3000, 6500), 1.5);
        const size_t from = (size_t)(at_s * on->rate_hz), count = (size_t)(long_s * on->rate_hz);
        for (size_t j = 0; j < count && from + j < on->count; j++) {
            const double rise = sin(0.5 * QLL_TWO_PI * (double)j / (double)count);
            phase += pitch_hz * (1.1 - 0.2 * (double)j / (double)count) / on->rate_hz;
            const double push = phase >= 1.0 ? 1.0 : 0.0;
            phase -= push;
            double y = is_voiced ? 0.0 : 0.05 * pass(&teeth, normal(on));
            for (int i = 0; i < 3 && is_voiced; i++) {
                y += pass(&formants[i], push) / (i + 1.0);
            }
            on->out[from + j] += strength * rise * y;
        }
        at_s += long_s + within(on, 0.0, 0.08) + (chance(on, 0.15) ? within(on, 0.2, 0.8) : 0.0);
    }
}

static void add_tune(stage *on)
{
    const double low_hz = spread(on, 200, 500), note_s = within(on, 0.2, 0.6);
    double at_s = 0.0;
    while (at_s < QLL_RECORDING_SECONDS) {
        const double hz = low_hz * pow(2.0, floor(within(on, 0, 13)) / 12.0);
        rings note = {.count = 5};
        for (size_t i = 0; i < note.count; i++) {
            note.hz[i] = hz * (double)(i + 1);
            note.loss[i] = 2.0 / (QLL_TWO_PI * note.hz[i] * within(on, 0.08, 0.3));
            note.height[i] = 1.0 / (double)(i + 1);
        }
        add_blow(on, &note, at_s, 1e-4, within(on, 0.4, 1.0));
        at_s += note_s;
    }
}

static void add_paper(stage *on)
{
    const double busy_hz = within(on, 1, 4);
    for (double at_s = 0.0; at_s < QLL_RECORDING_SECONDS;) {
        const rings crack = rings_of(on, 4, 600, 7000);
        add_blow(on, &crack, at_s, 1e-4, exp(0.8 * normal(on)));
        const double busy = 0.5 + 0.5 * sin(QLL_TWO_PI * busy_hz * at_s);
        at_s += -log(1.0 - qll_random_unit(&on->random)) / (3.0 + 150.0 * busy * busy * busy);
    }
}

static void add_other(stage *on)
{
    switch ((int)within(on, 0, 2.999)) {
    case 0: add_talk(on); break;
    case 1: add_tune(on); break;
    default: add_paper(on); break;
    }
    to_unit(on);
}

/* ---- through the room and the phone ---- */

static void add_echoes(stage *on, double *dry)
{
    memcpy(dry, on->out, on->count * sizeof *dry);
    const double die_s = spread(on, 0.05, 0.2), level = times_db(-within(on, 6, 16));
    for (int i = 0; i < 24; i++) {
        const double late_s = spread(on, 0.001, 0.12);
        const double height = level * exp(-late_s / die_s) * (chance(on, 0.5) ? 1.0 : -1.0);
        const size_t late = (size_t)(late_s * on->rate_hz);
        for (size_t j = late; j < on->count; j++) {
            on->out[j] += height * dry[j - late];
        }
    }
}

/* The phone's curve: ends of two poles, a ripple of 3 dB at most. */
static void add_curve(stage *on, qll_arena *arena)
{
    const size_t bins = qll_fourier_bins(on->count);
    qll_fourier *plan = NULL;
    qll_complexes spectrum = {qll_arena_take(arena, bins, sizeof(double)),
                              qll_arena_take(arena, bins, sizeof(double))};
    if (spectrum.re == NULL || spectrum.im == NULL
        || qll_fourier_plan(on->count, arena, &plan) != QLL_OK) {
        return;
    }
    const double low_hz = spread(on, 60, 220), high_hz = spread(on, 9000, 15000);
    const double ripple_db = within(on, 0, 3), waves = within(on, 1, 5),
                 start = within(on, 0, 6.28);
    qll_fourier_forward(plan, on->out, spectrum);
    for (size_t k = 0; k < bins; k++) {
        const double hz = fmax(1.0, (double)k * on->rate_hz / (double)on->count);
        const double bottom = 1.0 / sqrt(1.0 + pow(low_hz / hz, 4)),
                     top = 1.0 / sqrt(1.0 + pow(hz / high_hz, 4));
        const double kept = bottom * top * times_db(ripple_db * sin(waves * log(hz) + start));
        spectrum.re[k] *= kept;
        spectrum.im[k] *= kept;
    }
    qll_fourier_inverse(plan, spectrum, on->out);
}

static void add_phone(stage *on, recording_kind kind, float *samples, qll_arena *arena)
{
    const double whole = kind == QLL_RECORDING_HAMMER ? 1.0 : rms(on->out, on->count);
    if (kind != QLL_RECORDING_NONE) {
        const double power = within(on, 0.7, 1.5);
        const double under_db = on->is_hard ? within(on, 8, 25) : within(on, 25, 45);
        add_noise(on, falling_shape, &power, whole * times_db(-under_db), arena);
    }
    add_curve(on, arena);
    const bool has_gain = chance(on, 0.35);
    const double quick = 1.0 / (0.01 * on->rate_hz),
                 slow = 1.0 / (within(on, 0.2, 1) * on->rate_hz);
    const double strength = within(on, 0.3, 0.8);
    double level = whole, peak = 0.0;
    for (size_t j = 0; j < on->count; j++) {
        const double size = fabs(on->out[j]);
        level += (size > level ? quick : slow) * (size - level);
        on->out[j] *= has_gain ? pow(fmax(level, 0.05 * whole) / whole, -strength) : 1.0;
        peak = fmax(peak, fabs(on->out[j]));
    }
    const double gain = (chance(on, 0.12) ? spread(on, 1.1, 1.6) : spread(on, 0.05, 0.9)) / peak;
    for (size_t j = 0; j < on->count; j++) {
        const double y = fmax(-1.0, fmin(0.99997, gain * on->out[j]));
        samples[j] = (float)(rint(32768.0 * y + within(on, -0.5, 0.5)) / 32768.0);
    }
}

static void add_kind(stage *on, recording_kind kind, qll_arena *arena)
{
    const double flow = times_db(on->is_hard ? within(on, -9, 3) : within(on, -20, -6));
    double tone_hz = 0.0;
    switch (kind) {
    case QLL_RECORDING_SQUEAL:
        do { /* St U / t, as the page has it */
            tone_hz = within(on, 0.2, 0.35) * within(on, 8, 38) / within(on, 0.001, 0.005);
        } while (tone_hz < 400.0 || tone_hz > 8000.0);
        add_tone(on, tone_hz);
        add_flow(on, flow, arena);
        break;
    case QLL_RECORDING_HISS:
        add_collapses(on);
        add_flow(on, times_db(on->is_hard ? within(on, -12, 2) : within(on, -15, 0)), arena);
        break;
    case QLL_RECORDING_CHATTER:
        add_chatter(on);
        add_flow(on, flow, arena);
        break;
    case QLL_RECORDING_HAMMER:
        add_hammer(on);
        add_flow(on, times_db(on->is_hard ? within(on, -20, -9) : within(on, -35, -18)), arena);
        break;
    case QLL_RECORDING_RUSH: add_flow(on, 1.0, arena); break;
    case QLL_RECORDING_NONE: add_quiet(on, arena); break;
    case QLL_RECORDING_OTHER:
    case QLL_RECORDING_COUNT: add_other(on); break;
    }
}

recording recording_make_summed(recording_kind kind, bool is_hard, uint64_t seed, qll_arena *arena)
{
    stage on = {.random = qll_random_seeded(seed * 104729 + (uint64_t)kind * 2 + is_hard),
                .is_hard = is_hard};
    on.rate_hz = chance(&on, 0.5) ? 48000 : 44100;
    on.count = (size_t)on.rate_hz * QLL_RECORDING_SECONDS;
    recording made = {.rate_hz = on.rate_hz, .count = on.count};
    made.samples = qll_arena_take(arena, on.count, sizeof *made.samples);
    const qll_arena_mark mark = qll_arena_now(arena);
    on.out = qll_arena_take(arena, on.count, sizeof *on.out);
    double *dry = qll_arena_take(arena, on.count, sizeof *dry);
    if (made.samples != NULL && on.out != NULL && dry != NULL) {
        add_kind(&on, kind, arena);
        add_echoes(&on, dry);
        add_phone(&on, kind, made.samples, arena);
    }
    qll_arena_reset(arena, mark);
    return made;
}
