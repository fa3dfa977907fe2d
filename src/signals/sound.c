#include "signals/sound.h"

#include "signals/sound_envelope.h"
#include "signals/sound_frames.h"
#include "signals/sound_intake.h"

#include <math.h>
#include <string.h>

#define QLL_GRAM_ROWS     512 /* when there are more, they are merged two by two */
#define QLL_CANCELS_UNDER 0.05
#define QLL_TONE_LEAST_S  1.0 /* of a tone that is an event */
#define QLL_TONE_GAP      2   /* frames that a tone may be missing and still be the same */

static const char *const words[QLL_SOUND_KIND_COUNT] = {
#define QLL_SOUND_WORD(name, word) [QLL_SOUND_##name] = (word),
    QLL_SOUND_KIND_LIST(QLL_SOUND_WORD)
#undef QLL_SOUND_WORD
};

static const char *const limit_words[QLL_SOUND_LIMIT_COUNT] = {
#define QLL_SOUND_WORD(name, word) [QLL_SOUND_LIMIT_##name] = (word),
    QLL_SOUND_LIMIT_LIST(QLL_SOUND_WORD)
#undef QLL_SOUND_WORD
};

const char *qll_sound_limit_word(qll_sound_limit limit)
{
    return limit_words[limit];
}

const char *qll_sound_kind_word(qll_sound_kind kind)
{
    return words[kind];
}

struct qll_sound {
    qll_arena *arena;
    const qll_sound_quiet *quiet;
    double rate_hz;
    qll_sound_intake intake;
    double *samples; /* that wait to be looked at */
    size_t sample_count, sample_room, stretch_samples;
    uint64_t done_count; /* samples of the stretches before */
    qll_sound_frames frames;
    qll_sound_envelope envelope;
    qll_sound_stretch *stretches;
    size_t stretch_count, stretch_room;
    qll_sound_event *events;
    size_t event_count, event_room;
    double medians[QLL_SOUND_BANDS]; /* sum of the stretches', each by its length */
    qll_sound_gram gram;
    size_t merged;     /* frames that make a row */
    size_t row_frames; /* frames of the row that grows */
};

qll_status qll_sound_open(double rate_hz, unsigned channels, const qll_sound_quiet *quiet,
                          qll_arena *arena, qll_sound **sound)
{
    if (!(rate_hz >= QLL_SOUND_RATE_LEAST_HZ && rate_hz <= QLL_SOUND_RATE_MOST_HZ) || channels == 0
        || channels > QLL_SOUND_CHANNELS_MOST) {
        return QLL_REFUSED;
    }
    qll_sound *made = qll_arena_take(arena, 1, sizeof *made);
    if (made == NULL) {
        return QLL_NO_MEMORY;
    }
    made->arena = arena;
    made->quiet = quiet;
    made->rate_hz = rate_hz;
    made->merged = 1;
    if (qll_sound_intake_open(rate_hz, channels, arena, &made->intake) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    const double used_hz = made->intake.used_rate_hz;
    made->stretch_samples = (size_t)(QLL_SOUND_STRETCH_S * used_hz);
    made->sample_room = made->stretch_samples + made->stretch_samples / 2 + QLL_HALVING_BLOCK;
    made->samples = qll_arena_take(arena, made->sample_room, sizeof *made->samples);
    made->gram.rows = qll_arena_take(arena, QLL_GRAM_ROWS, sizeof *made->gram.rows);
    if (made->samples == NULL || made->gram.rows == NULL
        || qll_sound_frames_open(used_hz, made->sample_room, arena, &made->frames) != QLL_OK
        || qll_sound_envelope_open(used_hz, made->sample_room, arena, &made->envelope) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    *sound = made;
    return QLL_OK;
}

/* Room for one more of @p size bytes; NULL without memory. */
static void *grow(qll_arena *arena, void *list, size_t count, size_t *room, size_t size)
{
    if (count < *room) {
        return list;
    }
    const size_t more = *room == 0 ? 16 : 2 * *room;
    char *grown = qll_arena_take(arena, more, size);
    if (grown != NULL) {
        if (count > 0) {
            memcpy(grown, list, count * size);
        }
        *room = more;
    }
    return grown;
}

static qll_status add_event(qll_sound *sound, const qll_sound_event *event)
{
    qll_sound_event *events =
        grow(sound->arena, sound->events, sound->event_count, &sound->event_room, sizeof *events);
    if (events == NULL) {
        return QLL_NO_MEMORY;
    }
    sound->events = events;
    events[sound->event_count] = *event;
    sound->event_count += 1;
    return QLL_OK;
}

/* NULL if there was none. Thumps may stand behind it. */
static qll_sound_event *last_tone(const qll_sound *sound)
{
    for (size_t i = sound->event_count; i > 0; i--) {
        if (sound->events[i - 1].kind == QLL_SOUND_SQUEAL) {
            return &sound->events[i - 1];
        }
    }
    return NULL;
}

/* A tone that goes on where the last one of the stretch before stopped is that one. */
static qll_status add_tone(qll_sound *sound, const qll_sound_event *tone)
{
    qll_sound_event *last = last_tone(sound);
    const qll_frame_tone heard = {tone->tone_hz, 0.0};
    if (last != NULL && tone->from_s <= last->to_s + 4.0 * sound->frames.hop_s
        && qll_tone_is_near(&heard, last->tone_hz)) {
        last->to_s = tone->to_s;
        last->height_db = fmax(last->height_db, tone->height_db);
        return QLL_OK;
    }
    return add_event(sound, tone);
}

/* Runs of frames that have the stretch's tone. */
static qll_status add_tones(qll_sound *sound, double from_s, double tone_hz)
{
    const qll_sound_frames *frames = &sound->frames;
    qll_sound_event run = {.kind = QLL_SOUND_SQUEAL, .tone_hz = tone_hz, .height_db = -INFINITY};
    size_t first = 0, last = 0, missing = QLL_TONE_GAP + 1;
    qll_status status = QLL_OK;
    for (size_t i = 0; i <= frames->count && status == QLL_OK; i++) {
        const bool is_there = i < frames->count && qll_tone_is_near(&frames->tones[i], tone_hz);
        if (is_there) {
            first = missing > QLL_TONE_GAP ? i : first;
            run.height_db = missing > QLL_TONE_GAP
                                ? frames->tones[i].excess_db
                                : fmax(run.height_db, frames->tones[i].excess_db);
            last = i;
            missing = 0;
            continue;
        }
        missing += 1;
        const bool ends =
            missing == QLL_TONE_GAP + 1 || (i == frames->count && missing <= QLL_TONE_GAP);
        run.from_s = from_s + (double)first * frames->hop_s;
        run.to_s = from_s + (double)(last + 2) * frames->hop_s;
        if (ends && run.height_db >= 0.0 && run.to_s - run.from_s >= QLL_TONE_LEAST_S) {
            status = add_tone(sound, &run);
        }
    }
    return status;
}

/* Blows in a rhythm are chatter, and what they make ring is no tone of its own; what thumps in a voice or a tune is no hammer. */
static qll_status add_events(qll_sound *sound, const qll_sound_stretch *stretch)
{
    qll_status status = QLL_OK;
    if (stretch->kind != QLL_SOUND_CHATTER && !isnan(stretch->features.tone_hz)) {
        status = add_tones(sound, stretch->from_s, stretch->features.tone_hz);
    }
    const qll_sound_envelope *envelope = &sound->envelope;
    const bool are_single = stretch->kind != QLL_SOUND_CHATTER && stretch->kind != QLL_SOUND_OTHER;
    for (size_t i = 0; i < envelope->thump_count && are_single && status == QLL_OK; i++) {
        const double at_s = stretch->from_s + envelope->thumps[i].at_s;
        status = add_event(sound, &(qll_sound_event){QLL_SOUND_HAMMER, at_s, at_s, NAN,
                                                     envelope->thumps[i].height_db});
    }
    return status;
}

/* ---- bands over time ---- */

static void merge_rows(qll_sound_gram *gram)
{
    for (size_t i = 0; i < gram->row_count / 2; i++) {
        for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
            gram->rows[i][b] = 0.5F * (gram->rows[2 * i][b] + gram->rows[2 * i + 1][b]);
        }
    }
    gram->row_count /= 2;
}

static void add_rows(qll_sound *sound)
{
    qll_sound_gram *gram = &sound->gram;
    for (size_t i = 0; i < sound->frames.count; i++) {
        if (sound->row_frames == 0 && gram->row_count == QLL_GRAM_ROWS) {
            merge_rows(gram);
            sound->merged *= 2;
        }
        float *row = gram->rows[gram->row_count];
        for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
            const float part = (float)(sound->frames.bands[i][b] / (double)sound->merged);
            row[b] = sound->row_frames == 0 ? part : row[b] + part;
        }
        sound->row_frames += 1;
        if (sound->row_frames == sound->merged) {
            gram->row_count += 1;
            sound->row_frames = 0;
        }
    }
}

/* ---- stretches ---- */

static double level_of(const double *samples, size_t count)
{
    double squares = 0.0;
    for (size_t j = 0; j < count; j++) {
        squares += samples[j] * samples[j];
    }
    return squares > 0.0 ? 10.0 * log10(squares / (double)count) : -(double)INFINITY;
}

static qll_status look(qll_sound *sound, size_t count)
{
    qll_sound_stretch *stretches = grow(sound->arena, sound->stretches, sound->stretch_count,
                                        &sound->stretch_room, sizeof *stretches);
    if (stretches == NULL) {
        return QLL_NO_MEMORY;
    }
    sound->stretches = stretches;
    qll_sound_stretch *stretch = &stretches[sound->stretch_count];
    const double used_hz = sound->intake.used_rate_hz;
    *stretch = (qll_sound_stretch){.from_s = (double)sound->done_count / used_hz,
                                   .to_s = (double)(sound->done_count + count) / used_hz};
    double medians[QLL_SOUND_BANDS];
    qll_sound_frames_take(&sound->frames, sound->samples, count);
    qll_sound_band_medians(&sound->frames, medians);
    stretch->features.level_db = level_of(sound->samples, count);
    qll_sound_spectral(&sound->frames, medians, &stretch->features);
    qll_sound_envelope_take(&sound->envelope, sound->samples, count, &stretch->features);
    qll_sound_score(&stretch->features, medians, sound->quiet, stretch->scores);
    for (int kind = 0; kind < QLL_SOUND_KIND_COUNT; kind++) {
        if (stretch->scores[kind] > stretch->scores[stretch->kind]) {
            stretch->kind = (qll_sound_kind)kind;
        }
    }
    for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
        sound->medians[b] += medians[b] * (double)count;
    }
    add_rows(sound);
    sound->stretch_count += 1;
    sound->done_count += count;
    sound->sample_count -= count;
    memmove(sound->samples, sound->samples + count, sound->sample_count * sizeof *sound->samples);
    return add_events(sound, stretch);
}

qll_status qll_sound_take(qll_sound *sound, const float *samples, size_t count)
{
    while (count > 0) {
        const size_t part = count < QLL_HALVING_BLOCK ? count : QLL_HALVING_BLOCK;
        const size_t given = qll_sound_intake_take(&sound->intake, samples, part);
        double *waiting = sound->samples + sound->sample_count;
        for (size_t j = 0; j < given; j++) {
            waiting[j] = (double)sound->intake.block[j];
        }
        sound->sample_count += given;
        samples += part * sound->intake.channels;
        count -= part;
        if (sound->sample_count >= sound->stretch_samples + sound->stretch_samples / 2) {
            const qll_status status = look(sound, sound->stretch_samples);
            if (status != QLL_OK) {
                return status;
            }
        }
    }
    return QLL_OK;
}

/* ---- the whole ---- */

static bool is_narrow(const qll_sound *sound)
{
    bool found = false;
    for (size_t i = 0; i < sound->stretch_count; i++) {
        found = found || sound->stretches[i].features.bandwidth_hz < 0.99 * QLL_SOUND_BANDWIDTH_HZ;
    }
    return found;
}

static unsigned limits_of(const qll_sound *sound, const qll_sound_result *result)
{
    const qll_sound_intake *intake = &sound->intake;
    const bool holds[QLL_SOUND_LIMIT_COUNT] = {
        [QLL_SOUND_LIMIT_LEVEL] = true,
        [QLL_SOUND_LIMIT_RANGE] = true,
        [QLL_SOUND_LIMIT_WHICH] = true,
        [QLL_SOUND_LIMIT_CAUSE] = true,
        [QLL_SOUND_LIMIT_NO_QUIET] = sound->quiet == NULL,
        [QLL_SOUND_LIMIT_BANDWIDTH] = is_narrow(sound),
        [QLL_SOUND_LIMIT_CLIPPED] = result->clipped_share > QLL_SOUND_CLIPPED_MOST,
        [QLL_SOUND_LIMIT_BROKEN] = intake->broken_count > 0,
        [QLL_SOUND_LIMIT_CANCELS] = intake->mean_squares < QLL_CANCELS_UNDER * intake->squares,
    };
    unsigned limits = 0;
    for (unsigned i = 0; i < QLL_SOUND_LIMIT_COUNT; i++) {
        limits |= holds[i] ? 1U << i : 0U;
    }
    return limits;
}

static void add_share(const qll_sound *sound, qll_sound_kind kind, qll_sound_result *result)
{
    qll_sound_share share = {.kind = kind};
    double whole_s = 0.0, best = -1.0;
    for (size_t i = 0; i < sound->stretch_count; i++) {
        const qll_sound_stretch *stretch = &sound->stretches[i];
        const double long_s = stretch->to_s - stretch->from_s;
        whole_s += long_s;
        if (stretch->kind != kind) {
            continue;
        }
        share.share += long_s;
        share.confidence += long_s * stretch->scores[kind];
        if (stretch->scores[kind] > best) {
            best = stretch->scores[kind];
            share.stretch = i;
        }
    }
    if (share.share <= 0.0) {
        return;
    }
    share.confidence /= share.share;
    share.share /= whole_s;
    size_t place = result->share_count;
    for (; place > 0 && result->shares[place - 1].share < share.share; place--) {
        result->shares[place] = result->shares[place - 1];
    }
    result->shares[place] = share;
    result->share_count += 1;
}

qll_status qll_sound_finish(qll_sound *sound, qll_sound_result *result)
{
    const qll_sound_intake *intake = &sound->intake;
    *result = (qll_sound_result){.rate_hz = sound->rate_hz,
                                 .used_rate_hz = intake->used_rate_hz,
                                 .channels = intake->channels,
                                 .duration_s = (double)intake->count / sound->rate_hz,
                                 .broken_count = intake->broken_count};
    if (result->duration_s < QLL_SOUND_LEAST_S) {
        return QLL_REFUSED;
    }
    result->clipped_share =
        (double)intake->clipped_count / ((double)intake->count * intake->channels);
    const qll_status status = sound->sample_count > sound->frames.framing.frame
                                  ? look(sound, sound->sample_count)
                                  : QLL_OK;
    if (status != QLL_OK) {
        return status;
    }
    result->stretches = sound->stretches;
    result->stretch_count = sound->stretch_count;
    result->events = sound->events;
    result->event_count = sound->event_count;
    result->gram = sound->gram;
    result->gram.row_s = result->duration_s / (double)result->gram.row_count;
    for (size_t edge = 0; edge <= QLL_SOUND_BANDS; edge++) {
        result->edge_hz[edge] = sound->frames.edge_hz[edge];
    }
    result->limits = limits_of(sound, result);
    for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
        result->medians[b] = sound->medians[b] / (double)sound->done_count;
    }
    for (int kind = 0; kind < QLL_SOUND_KIND_COUNT; kind++) {
        add_share(sound, (qll_sound_kind)kind, result);
    }
    return QLL_OK;
}

qll_sound_quiet qll_sound_quiet_of(const qll_sound_result *result)
{
    qll_sound_quiet quiet = {.tone_hz = NAN};
    memcpy(quiet.medians, result->medians, sizeof quiet.medians);
    for (size_t i = 0; i < result->stretch_count; i++) {
        const qll_sound_features *features = &result->stretches[i].features;
        if (features->tone_share > quiet.tone_share) {
            quiet.tone_share = features->tone_share;
            quiet.tone_hz = features->tone_hz;
        }
        quiet.repeat_wide = fmax(quiet.repeat_wide, features->repeat_wide);
    }
    return quiet;
}
