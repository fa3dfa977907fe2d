/* The same kinds a fifth way, written once a rhythm in two bands was enough for chatter: what drives a sound is followed in time and moves what rings.
 *
 * Rush: chance through a bank of third octaves, as loud as IEC 60534-8-4's turbulence is outside a pipe. Hiss: collapses that wait for each other (a renewal of gamma
 * law), of log-normal sizes, through a bank of its cavitation. Squeal: van der Pol's oscillator. Chatter: pressure that fills until it lets a disc go, again and again,
 * and the disc strikes; while it sits the flow is shut. Hammer: a wave that runs up and down a pipe and shakes its clips. Ranges: C.4 of the method (8 to 55 blows a
 * second, 1 to 8 % uneven, 4 to 7 notes from 150 to 3500 Hz; 100 to 16,000 collapses a second; rush with its peak at 250 to 900 Hz; rings of 4 to 30 Hz; 8 to 25 dB over
 * the noise where it is hard), our choice where it names none. All were set before a recording was listened to. */
#include "sound/recordings_driven.h"

#include <string.h>

static double times_db(double db)
{
    return pow(10.0, db / 20.0);
}

/* IEC 60534-8-4, third octaves; a pipe's wall lets through 20 dB a decade more. */
static double turbulent(double hz, double peak_hz)
{
    const double r = hz / peak_hz;
    return r * r / (0.25 * r * r * r + 1.0 / r);
}

static double cavitating(double hz, double peak_hz)
{
    const double r = hz / peak_hz;
    return r * r / (0.25 * pow(r, 1.5) + pow(r, -1.5));
}

/* ---- flow, that something may shut ---- */

/* Adds flow of @p strength as its rms; @p open: how far it is open at each sample, NULL = always. */
static void add_flow(stage *on, double strength, const float *open)
{
    const double peak_hz = on->is_hard ? spread(on, 160, 1300) : spread(on, 250, 900);
    const qll_random again = on->random;
    double sum = 0.0;
    for (int pass = 0; pass < 2; pass++) { /* first for its level, then to be added */
        const double factor = pass == 0 ? 0.0 : strength / sqrt(sum / (double)on->count);
        on->random = again;
        thirds bank = thirds_of(on->rate_hz, turbulent, peak_hz);
        for (size_t j = 0; j < on->count; j++) {
            const double y =
                through_thirds(&bank, normal(on)) * (open == NULL ? 1.0 : (double)open[j]);
            sum += pass == 0 ? y * y : 0.0;
            on->out[j] += factor * y;
        }
    }
}

/* ---- collapses ---- */

/* Marsaglia and Tsang's gamma, of mean 1, for shapes of 1 and more. */
static double gamma_wait(stage *on, double shape)
{
    const double d = shape - 1.0 / 3.0, c = 1.0 / sqrt(9.0 * d);
    for (;;) {
        const double x = normal(on), v = pow(fmax(1.0 + c * x, 0.0), 3);
        if (v > 0.0
            && log(1.0 - qll_random_unit(&on->random)) < 0.5 * x * x + d - d * v + d * log(v)) {
            return d * v / shape;
        }
    }
}

static void drive_hiss(stage *on)
{
    const double per_s = on->is_hard ? spread(on, 60, 30000) : spread(on, 100, 16000);
    const double peak_hz = on->is_hard ? spread(on, 1200, 9000) : spread(on, 2000, 7000);
    const double shape = within(on, 1.0, 3.0), sizes = within(on, 0.4, 1.0);
    thirds bank = thirds_of(on->rate_hz, cavitating, peak_hz);
    double next_s = 0.0;
    for (size_t j = 0; j < on->count; j++) {
        double push = 0.0;
        while (next_s < ((double)j + 1.0) / on->rate_hz) {
            push += exp(sizes * normal(on));
            next_s += gamma_wait(on, shape) / per_s;
        }
        on->out[j] = through_thirds(&bank, push);
    }
    to_unit(on);
    add_flow(on, times_db(on->is_hard ? within(on, -12, 0) : within(on, -15, -3)), NULL);
}

/* ---- a tone that keeps itself up ---- */

static void drive_squeal(stage *on)
{
    double tone_hz = 0.0;
    do { /* St U / t */
        tone_hz = within(on, 0.2, 0.35) * within(on, 10, 35) / within(on, 0.001, 0.004);
    } while (tone_hz < 500.0 || tone_hz > 7500.0);
    const double bends = spread(on, 0.03, 0.6), drift = within(on, 0.0, on->is_hard ? 0.03 : 0.01);
    const double swell = within(on, 0.0, on->is_hard ? 0.6 : 0.35), swell_hz = spread(on, 0.4, 7);
    const int steps = 6;
    double x = 0.1, v = 0.0, off = 0.0;
    for (size_t j = 0; j < on->count; j++) {
        off += -off / (0.7 * on->rate_hz) + drift * sqrt(2.0 / (0.7 * on->rate_hz)) * normal(on);
        const double w = QLL_TWO_PI * tone_hz * (1.0 + off), dt = 1.0 / (on->rate_hz * steps);
        for (int i = 0; i < steps; i++) {
            v += dt * (bends * w * (1.0 - x * x) * v - w * w * x);
            x += dt * v;
        }
        on->out[j] = x * (1.0 + swell * sin(QLL_TWO_PI * swell_hz * (double)j / on->rate_hz));
    }
    to_unit(on);
    add_flow(on, times_db(on->is_hard ? within(on, -12, 0) : within(on, -20, -8)), NULL);
}

/* ---- a disc that is let go and strikes ---- */

static notes fittings(stage *on)
{
    notes made = {.count = 0};
    const int count = 4 + (int)within(on, 0, 3.999);
    for (int i = 0; i < count; i++) {
        add_note(on, &made, spread(on, 150, 3500), spread(on, 0.01, 0.06), within(on, 0.3, 1.0));
    }
    return made;
}

static void drive_chatter(stage *on, float *open)
{
    notes seat = fittings(on);
    const double blows_hz = on->is_hard ? within(on, 6, 60) : within(on, 8, 55);
    const double uneven = on->is_hard ? within(on, 0.03, 0.1) : within(on, 0.01, 0.08);
    const double contact_s = spread(on, 1.5e-4, 6e-4), sits = within(on, 0.1, 0.45);
    const double leaks = within(on, 0.1, 0.7), hard = within(on, 0.1, 0.3);
    double filled = qll_random_unit(&on->random), lets_go = 1.0, since_s = 1.0, force = 0.0;
    for (size_t j = 0; j < on->count; j++) {
        filled += blows_hz / on->rate_hz;
        if (filled >= lets_go) {
            filled = 0.0;
            lets_go = fmax(0.3, 1.0 + uneven * normal(on));
            since_s = 0.0;
            force = exp(hard * normal(on));
        }
        since_s += 1.0 / on->rate_hz;
        /* half a sine while they touch */
        const double push =
            since_s < contact_s ? force * sin(0.5 * QLL_TWO_PI * since_s / contact_s) : 0.0;
        on->out[j] = sound_notes(&seat, push);
        open[j] = filled < sits ? (float)leaks : 1.0F;
    }
    to_unit(on);
    add_flow(on, times_db(on->is_hard ? within(on, -12, 0) : within(on, -20, -8)), open);
}

/* ---- a wave in a pipe ---- */

static void drive_hammer(stage *on)
{
    notes clips = {.count = 0};
    for (int i = 0; i < 5; i++) {
        add_note(on, &clips, spread(on, 60, 450), spread(on, 0.03, 0.12), within(on, 0.3, 1.0));
    }
    static double pipe[24000];
    memset(pipe, 0, sizeof pipe);
    /* there and back takes half of a ring's period, and turns it over */
    const size_t way = (size_t)(0.5 / spread(on, 4, 30) * on->rate_hz);
    const double keeps = within(on, 0.4, 0.8), dull = spread(on, 0.02, 0.3);
    const int closings = 1 + (int)within(on, 0, 1.999);
    double at_s[2] = {within(on, 0.8, 4.5), within(on, 5.3, 9.0)}, end = 0.0;
    const double closes_s = spread(on, 0.003, 0.02);
    for (size_t j = 0; j < on->count; j++) {
        double jump = 0.0; /* of pressure, from sample to sample: that is what shakes */
        for (int i = 0; i < closings; i++) {
            const double t = (double)j / on->rate_hz - at_s[i];
            jump += t >= 0.0 && t < closes_s ? 1.0 / (closes_s * on->rate_hz) : 0.0;
        }
        double *back = &pipe[j % way];
        end += dull * (-keeps * *back - end); /* what comes back, dulled */
        *back = jump + end;
        on->out[j] = sound_notes(&clips, jump + end);
    }
    double loudest = 0.0;
    const size_t window = (size_t)(0.05 * on->rate_hz);
    for (size_t j = 0; j + window <= on->count; j += window / 2) {
        loudest = fmax(loudest, rms(on->out + j, window));
    }
    for (size_t j = 0; j < on->count; j++) {
        on->out[j] /= loudest;
    }
    add_flow(on, times_db(on->is_hard ? within(on, -20, -9) : within(on, -35, -18)), NULL);
}

static void drive(stage *on, recording_kind kind, float *open)
{
    switch (kind) {
    case QLL_RECORDING_SQUEAL: drive_squeal(on); break;
    case QLL_RECORDING_HISS: drive_hiss(on); break;
    case QLL_RECORDING_CHATTER: drive_chatter(on, open); break;
    case QLL_RECORDING_HAMMER: drive_hammer(on); break;
    case QLL_RECORDING_RUSH: add_flow(on, 1.0, NULL); break;
    case QLL_RECORDING_NONE: drive_none(on); break;
    case QLL_RECORDING_OTHER:
    case QLL_RECORDING_COUNT: drive_other(on); break;
    }
}

recording recording_make_driven(recording_kind kind, bool is_hard, uint64_t seed, qll_arena *arena)
{
    stage on = {.random = qll_random_seeded(seed * 15485863 + (uint64_t)kind * 2 + is_hard),
                .is_hard = is_hard};
    on.rate_hz = chance(&on, 0.5) ? 48000 : 44100;
    on.count = (size_t)on.rate_hz * QLL_RECORDING_SECONDS;
    recording made = {.rate_hz = on.rate_hz, .count = on.count};
    made.samples = qll_arena_take(arena, on.count, sizeof *made.samples);
    const qll_arena_mark mark = qll_arena_now(arena);
    on.out = qll_arena_take(arena, on.count, sizeof *on.out);
    double *dry = qll_arena_take(arena, on.count, sizeof *dry);
    if (made.samples != NULL && on.out != NULL && dry != NULL) {
        drive(&on, kind, made.samples);
        drive_phone(&on, kind, dry, made.samples);
    }
    qll_arena_reset(arena, mark);
    return made;
}
