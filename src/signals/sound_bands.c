#include "signals/sound_bands.h"

#include <math.h>
#include <stdbool.h>

#define QLL_PI      3.14159265358979323846
/* Under this a filter's state is silence: what is left of it would only slow the machine down. */
#define QLL_SILENCE 1e-18F

static const double from_hz[QLL_ENVELOPE_BANDS] = {150, 600, 2000, 80};
static const double to_hz[QLL_ENVELOPE_BANDS] = {600, 2000, 8000, 1200};

/* Butterworth's second order by the bilinear transform, up from or down to an edge. */
static void make_section(qll_sections *sections, size_t band, double edge_hz, double rate_hz,
                         bool is_up)
{
    const double k = tan(QLL_PI * fmin(edge_hz, 0.45 * rate_hz) / rate_hz);
    const double whole = 1.0 + sqrt(2.0) * k + k * k;
    const double b0 = (is_up ? 1.0 : k * k) / whole;
    sections->b0[band] = (float)b0;
    sections->b1[band] = (float)(is_up ? -2.0 * b0 : 2.0 * b0);
    sections->a1[band] = (float)(2.0 * (k * k - 1.0) / whole);
    sections->a2[band] = (float)((1.0 - sqrt(2.0) * k + k * k) / whole);
}

qll_sound_bands qll_sound_bands_at(double rate_hz)
{
    qll_sound_bands bands = {0};
    for (size_t band = 0; band < QLL_ENVELOPE_BANDS; band++) {
        make_section(&bands.up, band, from_hz[band], rate_hz, true);
        make_section(&bands.down, band, to_hz[band], rate_hz, false);
    }
    return bands;
}

static float hushed(float state)
{
    return fabsf(state) < QLL_SILENCE ? 0.0F : state;
}

static void hush(qll_sections *of)
{
    for (size_t b = 0; b < QLL_ENVELOPE_BANDS; b++) {
        of->s1[b] = hushed(of->s1[b]);
        of->s2[b] = hushed(of->s2[b]);
    }
}

/* One sample through a section of every band; the bands are independent, so a compiler makes vectors of them. */
static inline void pass(qll_sections *restrict of, float *restrict values)
{
    for (size_t b = 0; b < QLL_ENVELOPE_BANDS; b++) {
        const float x = values[b], y = of->b0[b] * x + of->s1[b];
        of->s1[b] =
            (of->b1[b] * x + of->s2[b]) - of->a1[b] * y; /* the next sample waits for y alone */
        of->s2[b] = of->b0[b] * x - of->a2[b] * y;
        values[b] = y;
    }
}

static void square(qll_sections *restrict up, qll_sections *restrict down,
                   const double *restrict samples, size_t count,
                   float (*restrict squares)[QLL_ENVELOPE_BANDS])
{
    for (size_t j = 0; j < count; j++) {
        float *values = squares[j];
        const float sample = (float)samples[j];
        for (size_t b = 0; b < QLL_ENVELOPE_BANDS; b++) {
            values[b] = sample;
        }
        pass(up, values);
        pass(down, values);
        for (size_t b = 0; b < QLL_ENVELOPE_BANDS; b++) {
            values[b] *= values[b];
        }
    }
}

void qll_sound_bands_take(qll_sound_bands *bands, const double *samples, size_t count,
                          float (*squares)[QLL_ENVELOPE_BANDS])
{
    square(&bands->up, &bands->down, samples, count, squares);
    hush(&bands->up);
    hush(&bands->down);
}
