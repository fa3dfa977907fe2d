/* A stretch of a recording in time: what comes in blows, in what rhythm. */
#ifndef QUELL_SIGNALS_SOUND_ENVELOPE_H
#define QUELL_SIGNALS_SOUND_ENVELOPE_H

#include "numeric/fourier.h"
#include "signals/sound.h"
#include "signals/sound_bands.h"

/** A thump found. */
typedef struct qll_sound_thump {
    double at_s, height_db; /* over the median */
} qll_sound_thump;

typedef struct qll_sound_envelope {
    double rate_hz;                      /* of the samples */
    size_t hop;                          /* samples of a step, about 1 ms */
    double step_s;                       /* its length */
    size_t room, count;                  /* steps */
    double (*power)[QLL_ENVELOPE_BANDS]; /* [step] mean square */
    double *work, *sorted;               /* room for as many steps */
    size_t shortest, longest;            /* steps from blow to blow in a rhythm */
    size_t length;                       /* of the transform for the rhythm */
    qll_fourier *fourier;
    qll_complexes bins;
    qll_sound_bands bands;                /* from the lower edge on, to the upper edge */
    float (*squares)[QLL_ENVELOPE_BANDS]; /* of a step */
    double *seconds[2];                   /* kurtosis and crest of each second */
    size_t second_count, window_count;
    qll_sound_thump *thumps;
    size_t thump_count; /* of this stretch */
} qll_sound_envelope;

/** Makes room for stretches of at most @p most samples at @p rate_hz. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_sound_envelope_open(double rate_hz, size_t most, qll_arena *arena,
                                                qll_sound_envelope *envelope);

/** Kurtosis and crest, rhythm, thumps, swing of a stretch. The filters go on from the stretch before. */
void qll_sound_envelope_take(qll_sound_envelope *envelope, const double *samples, size_t count,
                             qll_sound_features *features);

/* The parts of it. */
/** Steps from blow to blow that are looked for, and the length of the transform that tells them. */
void qll_sound_rhythm_open(qll_sound_envelope *envelope);
void qll_sound_rhythm(qll_sound_envelope *envelope, qll_sound_features *features);
void qll_sound_thumps(qll_sound_envelope *envelope, qll_sound_features *features);
void qll_sound_swing(qll_sound_envelope *envelope, qll_sound_features *features);

#endif
