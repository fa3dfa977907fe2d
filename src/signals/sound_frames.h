/* A stretch of a recording, frame by frame: band levels and tones. */
#ifndef QUELL_SIGNALS_SOUND_FRAMES_H
#define QUELL_SIGNALS_SOUND_FRAMES_H

#include "numeric/spectrum.h"
#include "signals/sound.h"
#include "signals/sound_tone.h"

/** The tone of a frame that stands out most. */
typedef struct qll_frame_tone {
    double frequency_hz;
    double excess_db; /* tone-to-noise ratio less its limit; -inf where there is none */
} qll_frame_tone;

/** What the frames of a stretch are worked out with, and into. */
typedef struct qll_sound_frames {
    qll_framing framing;
    double *density, *sum; /* of the frame at hand */
    double *mean;          /* density over all frames of the stretch */
    size_t bin_count;
    double step_hz, hop_s;
    size_t room;  /* most frames of a stretch */
    size_t count; /* of this one */
    double edge_hz[QLL_SOUND_BANDS + 1];
    double (
        *bands)[QLL_SOUND_BANDS]; /* [frame] power in each sixth octave; NaN above half the rate */
    qll_frame_tone *tones;        /* [frame] */
    double *sorted;               /* room for as many */
} qll_sound_frames;

/** Makes room for stretches of at most @p most samples at @p rate_hz. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_sound_frames_open(double rate_hz, size_t most, qll_arena *arena,
                                              qll_sound_frames *frames);

/** Takes the frames of a stretch apart; at least one frame long. */
void qll_sound_frames_take(qll_sound_frames *frames, const double *samples, size_t count);

/** The median of @p values, which it moves about; NaN of none. */
double qll_sound_median(double *values, size_t count);

/** The median of each band over the frames, in place of @p medians. */
void qll_sound_band_medians(const qll_sound_frames *frames, double medians[QLL_SOUND_BANDS]);

/** Level, bandwidth, shape of @p medians; the tone that most frames have, and its prominence. */
void qll_sound_spectral(const qll_sound_frames *frames, const double medians[QLL_SOUND_BANDS],
                        qll_sound_features *features);

/** Slope, ratios, flatness and centroid of band powers. */
void qll_sound_shape(const double medians[QLL_SOUND_BANDS], qll_sound_features *features);

/** Their A-weighted level. */
double qll_sound_a_level_db(const double medians[QLL_SOUND_BANDS]);

/** Tones of one source are this near, as a share of their frequency. */
#define QLL_TONE_NEAR 0.06

static inline bool qll_tone_is_near(const qll_frame_tone *tone, double frequency_hz)
{
    return tone->excess_db >= 0.0 && tone->frequency_hz <= (1.0 + QLL_TONE_NEAR) * frequency_hz
           && tone->frequency_hz >= (1.0 - QLL_TONE_NEAR) * frequency_hz;
}

#endif
