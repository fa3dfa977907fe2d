/* What both files of the driven recordings share: filters by integrators, a bank of third octaves, notes as turning vectors. */
#ifndef QUELL_TESTS_RECORDINGS_DRIVEN_H
#define QUELL_TESTS_RECORDINGS_DRIVEN_H

#include "sound/recordings_simulated.h"

/* Two integrators in a loop, by the trapezoidal rule. */
typedef struct loop {
    double g, damping, first, second;
} loop;

typedef struct loop_out {
    double low, band, high;
} loop_out;

static inline loop loop_of(double rate_hz, double hz, double q)
{
    return (loop){.g = tan(0.5 * QLL_TWO_PI * fmin(hz, 0.45 * rate_hz) / rate_hz),
                  .damping = 1.0 / q};
}

static inline loop_out turn(loop *of, double x)
{
    const double high = (x - (of->g + of->damping) * of->first - of->second)
                        / (1.0 + of->g * (of->g + of->damping));
    const double band = of->g * high + of->first;
    const double low = of->g * band + of->second;
    of->first = of->g * high + band;
    of->second = of->g * band + low;
    return (loop_out){low, band, high};
}

/* Third octaves side by side. */
#define QLL_THIRDS 23

typedef struct thirds {
    loop bands[QLL_THIRDS];
    double gains[QLL_THIRDS];
} thirds;

/* Power of a third octave by its middle, to a factor. */
typedef double third_power(double hz, double peak_hz);

static inline thirds thirds_of(double rate_hz, third_power *of, double peak_hz)
{
    thirds made = {.gains = {0}};
    for (int i = 0; i < QLL_THIRDS; i++) {
        const double hz = 100.0 * pow(10.0, 0.1 * i);
        made.bands[i] = loop_of(rate_hz, hz, 4.3185);
        /* white noise and even pulses have a third octave's power by its width already */
        made.gains[i] = sqrt(of(hz, peak_hz) / hz) / 4.3185;
    }
    return made;
}

static inline double through_thirds(thirds *of, double x)
{
    double sum = 0.0;
    for (int i = 0; i < QLL_THIRDS; i++) {
        /* neighbors by turns, so that they do not cancel where they meet */
        sum += (i % 2 == 0 ? 1.0 : -1.0) * of->gains[i] * turn(&of->bands[i], x).band;
    }
    return sum;
}

/* Notes that die away, each a vector that turns and shrinks. */
#define QLL_NOTES 7

typedef struct notes {
    double re[QLL_NOTES], im[QLL_NOTES], turn_re[QLL_NOTES], turn_im[QLL_NOTES], height[QLL_NOTES];
    int count;
} notes;

static inline void add_note(stage *on, notes *to, double hz, double loss, double height)
{
    const double angle = QLL_TWO_PI * hz / on->rate_hz, keeps = exp(-0.5 * loss * angle);
    to->turn_re[to->count] = keeps * cos(angle);
    to->turn_im[to->count] = keeps * sin(angle);
    to->re[to->count] = to->im[to->count] = 0.0;
    to->height[to->count] = height;
    to->count += 1;
}

static inline double sound_notes(notes *of, double force)
{
    double sum = 0.0;
    for (int i = 0; i < of->count; i++) {
        const double re = of->re[i] * of->turn_re[i] - of->im[i] * of->turn_im[i] + force;
        of->im[i] = of->re[i] * of->turn_im[i] + of->im[i] * of->turn_re[i];
        of->re[i] = re;
        sum += of->height[i] * of->im[i];
    }
    return sum;
}

/* A room at rest; somebody talks, stacks dishes or plays; recordings_driven_room.c. */
void drive_none(stage *on);
void drive_other(stage *on);

/* Through a room's walls and the phone, to @p samples; @p dry: room for as many. */
void drive_phone(stage *on, recording_kind kind, double *dry, float *samples);

#endif
