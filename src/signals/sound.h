/* What kind of noise a recording holds: squeal, hiss, chatter, hammer, rush, none of them, or something else.
 *
 * docs/theory/sound.md says how; nothing here knows a level in the room, only what the recording holds. */
#ifndef QUELL_SIGNALS_SOUND_H
#define QUELL_SIGNALS_SOUND_H

#include "quell/arena.h"
#include "quell/problems.h"

#include <stdbool.h>
#include <stdint.h>

/** X(NAME, word): alarms first. */
#define QLL_SOUND_KIND_LIST(X) \
    X(SQUEAL, "squeal")        \
    X(HISS, "hiss")            \
    X(CHATTER, "chatter")      \
    X(HAMMER, "hammer")        \
    X(RUSH, "rush")            \
    X(NONE, "none")            \
    X(OTHER, "other")

typedef enum qll_sound_kind {
#define QLL_SOUND_KIND_NAME(name, word) QLL_SOUND_##name,
    QLL_SOUND_KIND_LIST(QLL_SOUND_KIND_NAME)
#undef QLL_SOUND_KIND_NAME
    QLL_SOUND_KIND_COUNT
} qll_sound_kind;

/** The word of @p kind, for machines: "squeal". */
const char *qll_sound_kind_word(qll_sound_kind kind);

/* Sixth octaves from 89 Hz to 10 kHz: edge k is 1000 x 10^(0.05 (k - 21)) Hz. */
#define QLL_SOUND_BANDS      41
#define QLL_SOUND_BANDS_DOWN 21
double qll_sound_band_edge_hz(size_t edge);

/** X(NAME): what is measured of a stretch, in the unit its name ends in; docs/theory/sound.md defines each. */
#define QLL_SOUND_FEATURE_LIST(X) \
    X(level_db)                   \
    X(level_a_db)                 \
    X(bandwidth_hz)               \
    X(tone_share)                 \
    X(toned_share)                \
    X(tone_hz)                    \
    X(tone_excess_db)             \
    X(prominence_db)              \
    X(low_ratio_db)               \
    X(slope_db_decade)            \
    X(high_ratio_db)              \
    X(over_flow_db)               \
    X(flatness_db)                \
    X(centroid_hz)                \
    X(kurtosis)                   \
    X(crest_db)                   \
    X(bursts)                     \
    X(repeat_strength)            \
    X(repeat_wide)                \
    X(repeat_hz)                  \
    X(repeat_below)               \
    X(thump_db)                   \
    X(thumps_per_s)               \
    X(thump_balance_db)           \
    X(quiet_share)                \
    X(impulse_prominence)         \
    X(swing_db)                   \
    X(high_swing_db)              \
    X(syllable_share)

typedef struct qll_sound_features {
#define QLL_SOUND_FEATURE(name) double name;
    QLL_SOUND_FEATURE_LIST(QLL_SOUND_FEATURE)
#undef QLL_SOUND_FEATURE
} qll_sound_features;

/* ---- what is found ---- */

/* A stretch is so long, the last one up to half as long again. */
#define QLL_SOUND_STRETCH_S     10.0
/* A shorter recording tells nothing. */
#define QLL_SOUND_LEAST_S       5.0
/* Beyond it another rate says no more, and below it nothing is told apart. */
#define QLL_SOUND_RATE_MOST_HZ  768000.0
#define QLL_SOUND_RATE_LEAST_HZ 8000.0
#define QLL_SOUND_CHANNELS_MOST 64
/* More clipped samples than this spoil what is measured. */
#define QLL_SOUND_CLIPPED_MOST  0.001
/* Without so much of the spectrum a hiss is not told from a rush. */
#define QLL_SOUND_BANDWIDTH_HZ  10000.0
/* A kind less likely than this is only perhaps so. */
#define QLL_SOUND_LIKELY        0.6

/** X(NAME, word): what a recording cannot tell; the first four are so of any. */
#define QLL_SOUND_LIMIT_LIST(X) \
    X(LEVEL, "level")           \
    X(RANGE, "range")           \
    X(WHICH, "which")           \
    X(CAUSE, "cause")           \
    X(NO_QUIET, "no-quiet")     \
    X(BANDWIDTH, "bandwidth")   \
    X(CLIPPED, "clipped")       \
    X(BROKEN, "broken")         \
    X(CANCELS, "cancels")

typedef enum qll_sound_limit {
#define QLL_SOUND_LIMIT_NAME(name, word) QLL_SOUND_LIMIT_##name,
    QLL_SOUND_LIMIT_LIST(QLL_SOUND_LIMIT_NAME)
#undef QLL_SOUND_LIMIT_NAME
    QLL_SOUND_LIMIT_COUNT
} qll_sound_limit;

/** The word of @p limit, for machines: "no-quiet". */
const char *qll_sound_limit_word(qll_sound_limit limit);

/** Ten seconds or so, judged by themselves. */
typedef struct qll_sound_stretch {
    double from_s, to_s;
    qll_sound_features features;
    double scores[QLL_SOUND_KIND_COUNT]; /* their sum is 1 */
    qll_sound_kind kind;                 /* the likeliest */
} qll_sound_stretch;

/** Something that has a time. */
typedef struct qll_sound_event {
    qll_sound_kind kind; /* SQUEAL: a tone; HAMMER: a thump */
    double from_s, to_s; /* the same of a thump */
    double tone_hz;      /* NaN of a thump */
    double height_db;    /* over the limit of a prominent tone; over the median level */
} qll_sound_event;

/** A kind that was heard. */
typedef struct qll_sound_share {
    qll_sound_kind kind;
    double share;      /* of the time, by stretches */
    double confidence; /* its mean score in them */
    size_t stretch;    /* the one that shows it best */
} qll_sound_share;

/** Band powers over time; rows are merged two by two when they are many. */
typedef struct qll_sound_gram {
    double row_s; /* of a row */
    size_t row_count;
    float (*rows)[QLL_SOUND_BANDS]; /* power in each sixth octave; NaN above half the rate */
} qll_sound_gram;

typedef struct qll_sound_result {
    double rate_hz;      /* as recorded */
    double used_rate_hz; /* that it was looked at with */
    unsigned channels;
    double duration_s;
    double clipped_share;  /* of the samples */
    uint64_t broken_count; /* samples that are no number, taken for silence */
    unsigned limits;       /* a bit for each qll_sound_limit that holds */
    const qll_sound_stretch *stretches;
    size_t stretch_count;
    const qll_sound_event *events;
    size_t event_count;
    qll_sound_share shares[QLL_SOUND_KIND_COUNT]; /* the longest first */
    size_t share_count;
    double medians[QLL_SOUND_BANDS]; /* mean of the stretches' band medians */
    qll_sound_gram gram;
    double edge_hz[QLL_SOUND_BANDS + 1]; /* of these bands */
} qll_sound_result;

/** What the same place sounds like with everything shut. */
typedef struct qll_sound_quiet {
    double medians[QLL_SOUND_BANDS];
    double tone_share, tone_hz;
    double repeat_wide;
} qll_sound_quiet;

/** @p result as what others are held against. */
qll_sound_quiet qll_sound_quiet_of(const qll_sound_result *result);

/** How likely each kind is, by @p features alone: docs/theory/sound.md, 12. @p quiet NULL = not given. */
void qll_sound_score(const qll_sound_features *features, const double medians[QLL_SOUND_BANDS],
                     const qll_sound_quiet *quiet, double scores[QLL_SOUND_KIND_COUNT]);

/** A recording on its way in. */
typedef struct qll_sound qll_sound;

/**
 * @param rate_hz  from QLL_SOUND_RATE_LEAST_HZ to QLL_SOUND_RATE_MOST_HZ
 * @param channels 1 to QLL_SOUND_CHANNELS_MOST; their mean is listened to
 * @param quiet    NULL, or what stays until the result is there
 * @return QLL_OK or QLL_NO_MEMORY; QLL_REFUSED of another rate or number of channels. All lives in @p arena
 */
QLL_MUST_USE qll_status qll_sound_open(double rate_hz, unsigned channels,
                                       const qll_sound_quiet *quiet, qll_arena *arena,
                                       qll_sound **sound);

/** Takes @p count samples of each channel, interleaved, full scale 1. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_sound_take(qll_sound *sound, const float *samples, size_t count);

/** @return QLL_OK or QLL_NO_MEMORY; QLL_REFUSED if it is shorter than QLL_SOUND_LEAST_S: duration_s says how long it is */
QLL_MUST_USE qll_status qll_sound_finish(qll_sound *sound, qll_sound_result *result);

#endif
