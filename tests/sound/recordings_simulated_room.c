/* Of the simulated recordings: what is no water, the room, and the phone. */
#include "sound/recordings_simulated.h"

#include <string.h>

void simulate_none(stage *on)
{
    two_pole deep = filter_of(on, QLL_PASS_LOW, spread(on, 20, 60), 0.7);
    two_pole air = filter_of(on, QLL_PASS_LOW, spread(on, 120, 500), 0.6);
    const double draught = within(on, 0.02, 0.3), mains_hz = chance(on, 0.5) ? 50.0 : 60.0;
    const double motor = chance(on, 0.5) ? spread(on, 0.02, 0.6) : 0.0,
                 falls = within(on, 0.8, 2.0);
    const double clock = chance(on, on->is_hard ? 0.3 : 0.15) ? spread(on, 0.2, 2.0) : 0.0;
    body ticks = body_of(on, 3, 1500, 6000);
    const double hiss = spread(on, 0.003, 0.02);
    for (size_t j = 0; j < on->count; j++) {
        const double t = (double)j / on->rate_hz;
        double now = 8.0 * pass(&deep, normal(on)) + draught * 3.0 * pass(&air, normal(on))
                     + hiss * normal(on);
        for (int k = 2; k <= 12 && motor > 0.0; k += 2) {
            now += motor * pow(0.5 * k, -falls) * sin(QLL_TWO_PI * mains_hz * k * t + k * k);
        }
        const bool is_tick = j % (size_t)on->rate_hz < 12;
        on->out[j] = now + ring(&ticks, is_tick ? clock : 0.0);
    }
    to_unit(on);
}

/* ---- other ---- */

static void talk(stage *on)
{
    const double pitch_hz = spread(on, 85, 250);
    double at_s = within(on, 0, 0.5), phase = 0.0;
    while (at_s < QLL_RECORDING_SECONDS) {
        const double long_s = within(on, 0.09, 0.3), height = exp(0.4 * normal(on));
        const bool is_voiced = chance(on, 0.75);
        two_pole mouth[3] = {filter_of(on, QLL_PASS_BAND, spread(on, 280, 800), 5),
                             filter_of(on, QLL_PASS_BAND, spread(on, 900, 2200), 9),
                             filter_of(on, QLL_PASS_BAND, spread(on, 2300, 3400), 14)};
        two_pole teeth = filter_of(on, QLL_PASS_BAND, spread(on, 3000, 7000), 1.5);
        const size_t from = (size_t)(at_s * on->rate_hz), by = (size_t)(long_s * on->rate_hz);
        for (size_t i = 0; i < by && from + i < on->count; i++) {
            const double t = (double)i / (double)by;
            phase += pitch_hz * (1.1 - 0.2 * t) / on->rate_hz;
            phase -= floor(phase);
            /* Rosenberg's glottis: opens slowly, shuts at once */
            const double open = phase < 0.6 ? sin(0.5 * QLL_TWO_PI * phase / 0.6) * phase : 0.0;
            double now = is_voiced ? 0.0 : 0.4 * pass(&teeth, normal(on));
            for (int m = 0; m < 3; m++) {
                now += is_voiced ? pass(&mouth[m], open + 0.01 * normal(on)) / (1 + m) : 0.0;
            }
            on->out[from + i] += height * now * sin(0.5 * QLL_TWO_PI * t);
        }
        at_s += long_s + (chance(on, 0.18) ? within(on, 0.3, 1.2) : within(on, 0.0, 0.1));
    }
}

/* Karplus and Strong's string: noise that goes round and is smoothed. */
static void pluck(stage *on)
{
    const double beat_s = within(on, 0.2, 0.5);
    double at_s = within(on, 0, 0.3);
    while (at_s < QLL_RECORDING_SECONDS) {
        const size_t around =
            (size_t)(on->rate_hz / (110.0 * pow(2.0, floor(within(on, 0, 30)) / 12.0)));
        double string[512];
        for (size_t i = 0; i < around; i++) {
            string[i] = within(on, -1, 1);
        }
        const size_t from = (size_t)(at_s * on->rate_hz), by = (size_t)(1.2 * on->rate_hz);
        for (size_t i = 0; around > 0 && i < by && from + i < on->count; i++) {
            const size_t here = i % around, next = (i + 1) % around;
            on->out[from + i] += string[here];
            string[here] = 0.498 * (string[here] + string[next]);
        }
        at_s += beat_s * (1 + (int)within(on, 0, 2.0));
    }
}

static void wash_dishes(stage *on)
{
    double at_s = within(on, 0, 0.4);
    while (at_s < QLL_RECORDING_SECONDS) {
        body plate = body_of(on, 5, 600, 7000);
        const size_t from = (size_t)(at_s * on->rate_hz), by = (size_t)(0.3 * on->rate_hz);
        const double height = exp(0.8 * normal(on));
        for (size_t i = 0; i < by && from + i < on->count; i++) {
            on->out[from + i] += ring(&plate, i < 20 ? height : 0.0);
        }
        at_s += spread(on, 0.05, 1.2);
    }
}

void simulate_other(stage *on)
{
    const double which = within(on, 0, 1);
    if (which < 0.5) {
        talk(on);
    } else if (which < 0.75) {
        pluck(on);
    } else {
        wash_dishes(on);
    }
    to_unit(on);
}

/* ---- the room and the phone ---- */

/* Schroeder's: four loops side by side. */
static void add_room(stage *on)
{
    const double die_s = spread(on, 0.08, 0.4), level = pow(10.0, within(on, -16, -5) / 20.0);
    static double loops[4][4096];
    size_t late[4];
    memset(loops, 0, sizeof loops);
    for (int i = 0; i < 4; i++) {
        late[i] = (size_t)(within(on, 0.004, 0.03) * on->rate_hz);
    }
    for (size_t j = 0; j < on->count; j++) {
        double back = 0.0;
        for (int i = 0; i < 4; i++) {
            double *of = &loops[i][j % late[i]];
            back += *of;
            const double keeps = pow(10.0, -3.0 * (double)late[i] / on->rate_hz / die_s);
            *of = on->out[j] + keeps * *of;
        }
        on->out[j] += 0.5 * level * back;
    }
}

void simulate_phone(stage *on, recording_kind kind, float *samples)
{
    add_room(on);
    const double whole = kind == QLL_RECORDING_HAMMER ? 1.0 : rms(on->out, on->count);
    const double room_db = on->is_hard ? -within(on, 8, 25) : -within(on, 25, 45);
    two_pole rumble = filter_of(on, QLL_PASS_LOW, spread(on, 40, 120), 0.6);
    two_pole bottom = filter_of(on, QLL_PASS_HIGH, spread(on, 60, 220), 0.7);
    two_pole top = filter_of(on, QLL_PASS_LOW, spread(on, 9000, 15000), 0.7);
    two_pole capsule = filter_of(on, QLL_PASS_BAND, spread(on, 1500, 9000), within(on, 0.7, 2));
    const double lifts = within(on, -0.25, 0.4);
    const bool has_gain = chance(on, 0.35);
    const double power = within(on, 0.3, 0.7), slow = 1.0 / (within(on, 0.1, 0.6) * on->rate_hz);
    double level = whole * whole, peak = 0.0;
    for (size_t j = 0; j < on->count; j++) {
        const double x = normal(on);
        const double room =
            pow(10.0, room_db / 20.0) * whole * (6.0 * pass(&rumble, x) + 0.3 * normal(on));
        double y = on->out[j] + (kind == QLL_RECORDING_NONE ? 0.0 : room);
        y = pass(&top, pass(&bottom, y));
        y += lifts * pass(&capsule, y);
        level += slow * (y * y - level);
        y *=
            has_gain ? pow(fmax(level, 0.01 * whole * whole) / (whole * whole), -0.5 * power) : 1.0;
        on->out[j] = y;
        peak = fmax(peak, fabs(y));
    }
    const double gain = (chance(on, 0.12) ? spread(on, 1.1, 1.6) : spread(on, 0.03, 0.9)) / peak;
    for (size_t j = 0; j < on->count; j++) {
        const double y = gain * on->out[j] + (on->is_hard ? 3e-4 : 1e-4) * normal(on);
        samples[j] = (float)(rint(fmax(-1.0, fmin(0.99997, y)) * 32768.0) / 32768.0);
    }
}
