/* What both files of the simulated recordings share: chance, filters of two poles, bodies that ring. */
#ifndef QUELL_TESTS_RECORDINGS_SIMULATED_H
#define QUELL_TESTS_RECORDINGS_SIMULATED_H

#include "base/random.h"
#include "sound/recordings.h"

#include <math.h>

#define QLL_TWO_PI 6.28318530717958647692

typedef struct stage {
    qll_random random;
    bool is_hard;
    double rate_hz;
    size_t count;
    double *out;
} stage;

static inline double within(stage *on, double low, double high)
{
    return low + (high - low) * qll_random_unit(&on->random);
}

static inline double spread(stage *on, double low, double high)
{
    return low * pow(high / low, qll_random_unit(&on->random));
}

static inline bool chance(stage *on, double share)
{
    return qll_random_unit(&on->random) < share;
}

/* Marsaglia's polar method. */
static inline double normal(stage *on)
{
    double x = 0.0, size = 0.0;
    do {
        x = within(on, -1, 1);
        const double y = within(on, -1, 1);
        size = x * x + y * y;
    } while (size >= 1.0 || size <= 0.0);
    return x * sqrt(-2.0 * log(size) / size);
}

/* ---- filters of two poles, by the bilinear transform ---- */

typedef struct two_pole {
    double b0, b1, b2, a1, a2, s1, s2;
} two_pole;

typedef enum two_pole_kind {
    QLL_PASS_LOW,
    QLL_PASS_HIGH,
    QLL_PASS_BAND
} two_pole_kind;

static inline two_pole filter_of(const stage *on, two_pole_kind kind, double hz, double q)
{
    const double w = QLL_TWO_PI * fmin(hz, 0.45 * on->rate_hz) / on->rate_hz;
    const double alpha = sin(w) / (2.0 * q), whole = 1.0 + alpha, c = cos(w);
    two_pole made = {.a1 = -2.0 * c / whole, .a2 = (1.0 - alpha) / whole};
    if (kind == QLL_PASS_BAND) {
        made.b0 = alpha / whole;
        made.b2 = -made.b0;
    } else {
        const double side = kind == QLL_PASS_LOW ? 1.0 - c : 1.0 + c;
        made.b0 = made.b2 = 0.5 * side / whole;
        made.b1 = (kind == QLL_PASS_LOW ? 1.0 : -1.0) * side / whole;
    }
    return made;
}

static inline double pass(two_pole *of, double x)
{
    const double y = of->b0 * x + of->s1;
    of->s1 = of->b1 * x - of->a1 * y + of->s2;
    of->s2 = of->b2 * x - of->a2 * y;
    return y;
}

static inline double rms(const double *signal, size_t count)
{
    double sum = 0.0;
    for (size_t j = 0; j < count; j++) {
        sum += signal[j] * signal[j];
    }
    return sqrt(sum / (double)count) + 1e-12;
}

static inline void to_unit(stage *on)
{
    const double factor = 1.0 / rms(on->out, on->count);
    for (size_t j = 0; j < on->count; j++) {
        on->out[j] *= factor;
    }
}

/* Resonances of a body, struck by forces. */
typedef struct body {
    two_pole modes[7];
    double heights[7];
    size_t count;
} body;

static inline body body_of(stage *on, size_t count, double low_hz, double high_hz)
{
    body made = {.count = count};
    for (size_t i = 0; i < count; i++) {
        made.modes[i] =
            filter_of(on, QLL_PASS_BAND, spread(on, low_hz, high_hz), spread(on, 5, 40));
        made.heights[i] = within(on, 0.3, 1.0);
    }
    return made;
}

static inline double ring(body *of, double force)
{
    double sum = 0.0;
    for (size_t i = 0; i < of->count; i++) {
        sum += of->heights[i] * pass(&of->modes[i], force);
    }
    return sum;
}

/* The room's own noise; somebody talks, plucks strings or washes dishes: recordings_simulated_room.c. */
void simulate_none(stage *on);
void simulate_other(stage *on);

/* Through the room and the phone, to @p samples. */
void simulate_phone(stage *on, recording_kind kind, float *samples);

#endif
