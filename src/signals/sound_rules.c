/* From features to kinds: docs/theory/sound.md, 12. Every step takes its part of what the steps before have left, so the scores'
 * sum is 1. Thresholds: by the physics of the page where there is any, else by recordings made for tuning (tests/sound). */
#include "signals/sound.h"
#include "signals/sound_frames.h"

#include <math.h>

/* Of recordings that are nothing like what the rules were made with (our assumption). */
#define QLL_STRANGE_SHARE 0.05
/* Kurtosis of even noise. */
#define QLL_EVEN          3.0
/* A note that a blow leaves ringing stands no further over its limit: of clamped metal full of water. */
#define QLL_RINGS_DB      10.0
/* From dB to the natural logarithm of a power. */
#define QLL_DB_TO_LOG     0.230258509299404568

/* From 0 to 1 as @p value passes @p middle; 0 of what is not known. */
static double over(double value, double middle, double width)
{
    return isnan(value) ? 0.0 : 1.0 / (1.0 + exp(-(value - middle) / width));
}

static double under(double value, double middle, double width)
{
    return isnan(value) ? 0.0 : 1.0 / (1.0 + exp((value - middle) / width));
}

static double or_else(double value, double otherwise)
{
    return isnan(value) ? otherwise : value;
}

/* Somebody talks, or music: the level swings at the pace of syllables, in no even rhythm and without a steady tone. */
static double talk(const qll_sound_features *f)
{
    return over(f->swing_db, 5.5 + 3.0 * f->tone_share, 0.6) * under(f->quiet_share, 0.82, 0.03)
           * under(f->repeat_wide, 0.45, 0.04) * over(f->syllable_share, 0.13, 0.02);
}

/* How far the frames that have a tone have it at one pitch: of two notes by turns each has half. */
static double one_pitch(const qll_sound_features *f)
{
    return f->toned_share > 0.0 ? over(f->tone_share / f->toned_share, 0.45, 0.03) : 0.0;
}

/* Tones at several pitches, clearer than what blows leave ringing. */
static double tune(const qll_sound_features *f)
{
    return (1.0 - one_pitch(f)) * over(f->toned_share, 0.5, 0.05)
           * over(f->tone_excess_db, QLL_RINGS_DB, 1.0);
}

/* Few deep thumps, quiet between them; the ring of a thump is a rhythm too, so a rhythm asks for higher ones. */
static double hammer(const qll_sound_features *f)
{
    return over(f->thump_db, 11.0 + 14.0 * fmax(0.0, f->repeat_wide - 0.1), 0.8)
           * over(f->quiet_share, 0.87, 0.015) * over(f->thump_balance_db, 0.0, 2.0);
}

/* How much of the time one tone stands by more than @p excess_db over its limit. */
static double toned(const qll_sound_features *f, double excess_db)
{
    return f->tone_share * over(or_else(f->tone_excess_db, 0.0), excess_db, 1.0);
}

/* What two bands have in one even rhythm: blows; or any sound that is no tone, as dull blows that ring into each other leave none
 * that stands out. A note that rings after a blow stands at most 6 dB over the limit, or alone in its band at most 10; a tone that
 * swells mostly more, and what is below it does not swell with it. The more the level swings, the plainer the rhythm must be. */
static double chatter(const qll_sound_features *f)
{
    const double blows =
        fmax(over(f->kurtosis, 3.7 + 2.0 * toned(f, 8.0), 0.15), over(f->thump_db, 9.0, 0.7));
    const double rung = (1.0 - toned(f, QLL_RINGS_DB)) * over(f->repeat_below, 0.14, 0.015);
    return fmax(fmax(blows, 1.0 - toned(f, 6.0)), rung)
           * over(f->repeat_wide, 0.14 + 0.05 * fmax(0.0, f->swing_db - 2.5), 0.015);
}

/* The same tone for a good part of the time; of what swings, as a tune does, for longer: at most half of it, as a squeal may stop. */
static double squeal(const qll_sound_features *f)
{
    const double least_share = fmin(0.5, 0.15 + 0.06 * fmax(0.0, f->swing_db - 4.0));
    return over(f->tone_share, least_share, 0.03) * one_pitch(f);
}

/* How much more of its power 2 to 8 kHz hold in bursts than even noise does, as a multiple of it: both over 50 ms, which single blows
 * mostly leave alone, and over a second, however much its level swings. */
static double burst(const qll_sound_features *f)
{
    const double swing = QLL_DB_TO_LOG * f->high_swing_db;
    return fmin(f->bursts, f->kurtosis / (QLL_EVEN * exp(swing * swing)));
}

/* Collapses that can still be told apart: 2 to 8 kHz hold more than flow leaves there, and more of it in bursts than even noise has. Of
 * that both are known to 0.006 of 1; the limit stands four times that over it. */
static double crackle(const qll_sound_features *f)
{
    return over(burst(f), 1.024, 0.006) * over(f->over_flow_db, 0.0, 1.0);
}

/* So plain as fewer than 24,000 collapses a second leave them, and the many sources of a room's noise do not. */
static double plain_crackle(const qll_sound_features *f)
{
    return over(burst(f), 1.5, 0.1) * over(f->over_flow_db, 0.0, 1.0);
}

/* Collapses so dense that they are even noise again are told by its balance: turbulence loses about 11 dB a decade outside a pipe,
 * cavitation gains. By IEC 60534-8-4's examples its 4 to 10 kHz are 3 dB under to 2 dB over what is below, those of turbulence 9 dB
 * under. */
static double hiss(const qll_sound_features *f)
{
    const double balance = over(f->high_ratio_db, -5.0, 1.0) * over(f->slope_db_decade, -0.5, 1.5);
    return 1.0 - (1.0 - crackle(f)) * (1.0 - balance);
}

/* Nothing but the room: what is as loud in the lowest notes as anywhere, where neither flow nor cavitation leave much outside a pipe, and
 * does not crackle plainly; or no more than with everything shut. */
static double none(const qll_sound_features *f, const double medians[QLL_SOUND_BANDS],
                   const qll_sound_quiet *quiet)
{
    if (quiet == NULL) { /* NaN: not a sound */
        return isnan(f->low_ratio_db) ? 1.0
                                      : over(f->low_ratio_db, -8.8, 1.2) * (1.0 - plain_crackle(f));
    }
    return under(qll_sound_a_level_db(medians) - qll_sound_a_level_db(quiet->medians), 3.0, 0.5);
}

/* Only what the recording has more than that with everything shut. */
static qll_sound_features beyond(const qll_sound_features *features,
                                 const double medians[QLL_SOUND_BANDS],
                                 const qll_sound_quiet *quiet)
{
    qll_sound_features more = *features;
    double excess[QLL_SOUND_BANDS];
    for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
        /* a tenth stays: two recordings of one noise differ by as much */
        excess[b] = fmax(medians[b] - quiet->medians[b], 0.1 * medians[b]);
    }
    qll_sound_shape(excess, &more);
    const qll_frame_tone tone = {quiet->tone_hz, 0.0};
    if (qll_tone_is_near(&tone, features->tone_hz)) {
        more.tone_share = fmax(0.0, features->tone_share - quiet->tone_share);
        more.toned_share = fmax(0.0, features->toned_share - quiet->tone_share);
    }
    more.repeat_wide = fmax(0.0, features->repeat_wide - quiet->repeat_wide);
    return more;
}

/* Takes its part of @p rest for @p kind. */
static void take(double scores[QLL_SOUND_KIND_COUNT], qll_sound_kind kind, double share,
                 double *rest)
{
    scores[kind] += *rest * share;
    *rest *= 1.0 - share;
}

void qll_sound_score(const qll_sound_features *features, const double medians[QLL_SOUND_BANDS],
                     const qll_sound_quiet *quiet, double scores[QLL_SOUND_KIND_COUNT])
{
    const qll_sound_features known = quiet == NULL ? *features : beyond(features, medians, quiet);
    const qll_sound_features *f = &known;
    for (size_t kind = 0; kind < QLL_SOUND_KIND_COUNT; kind++) {
        scores[kind] = 0.0;
    }
    double rest = 1.0;
    take(scores, QLL_SOUND_OTHER, fmax(talk(f), tune(f)), &rest);
    take(scores, QLL_SOUND_HAMMER, hammer(f), &rest);
    take(scores, QLL_SOUND_CHATTER, chatter(f), &rest);
    take(scores, QLL_SOUND_SQUEAL, squeal(f), &rest);
    take(scores, QLL_SOUND_OTHER, over(f->swing_db, 10.0, 1.0), &rest);
    /* before hiss, whose balance a room may have; with everything shut beside it, what is no louder, whatever its shape */
    take(scores, QLL_SOUND_NONE, none(f, medians, quiet), &rest);
    const bool is_heard = f->bandwidth_hz >= 0.99 * QLL_SOUND_BANDWIDTH_HZ;
    take(scores, is_heard ? QLL_SOUND_HISS : QLL_SOUND_OTHER, hiss(f), &rest);
    take(scores, QLL_SOUND_RUSH, over(f->flatness_db, -15.0, 1.5), &rest);
    scores[QLL_SOUND_OTHER] += rest;
    for (size_t kind = 0; kind < QLL_SOUND_KIND_COUNT; kind++) {
        scores[kind] =
            (1.0 - QLL_STRANGE_SHARE) * scores[kind] + QLL_STRANGE_SHARE / QLL_SOUND_KIND_COUNT;
    }
}
