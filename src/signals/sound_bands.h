/* Four bands of a sound at once, squared. */
#ifndef QUELL_SIGNALS_SOUND_BANDS_H
#define QUELL_SIGNALS_SOUND_BANDS_H

#include <stddef.h>

/* Bands that the envelope is followed in: three for a rhythm, one for thumps. */
enum {
    QLL_ENVELOPE_LOW,    /* 150 to 600 Hz */
    QLL_ENVELOPE_MIDDLE, /* 600 to 2000 Hz */
    QLL_ENVELOPE_HIGH,   /* 2 to 8 kHz */
    QLL_ENVELOPE_THUMP,  /* 80 to 1200 Hz */
    QLL_ENVELOPE_BANDS
};

/**
 * One second-order section for each band, side by side: y = b0 x + s1, and so on (transposed form II). In float, of which a vector
 * holds all bands: rounding stays 70 dB under the lowest band's input, and what is read from them is levels to a dB.
 */
typedef struct qll_sections {
    float b0[QLL_ENVELOPE_BANDS], b1[QLL_ENVELOPE_BANDS]; /* b2 = b0 */
    float a1[QLL_ENVELOPE_BANDS], a2[QLL_ENVELOPE_BANDS];
    float s1[QLL_ENVELOPE_BANDS], s2[QLL_ENVELOPE_BANDS];
} qll_sections;

typedef struct qll_sound_bands {
    qll_sections up, down; /* from the lower edge on, to the upper edge */
} qll_sound_bands;

/** The bands at @p rate_hz, after silence. */
qll_sound_bands qll_sound_bands_at(double rate_hz);

/** Squares what each band has of @p count samples; goes on from the samples before. */
void qll_sound_bands_take(qll_sound_bands *bands, const double *samples, size_t count,
                          float (*squares)[QLL_ENVELOPE_BANDS]);

#endif
