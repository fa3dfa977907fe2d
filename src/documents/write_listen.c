/* listen/1: what a recording holds. */
#include "documents/write_common.h"
#include "signals/sound.h"

#include <math.h>

static void put_recording(qll_json *json, const qll_listen_findings *findings)
{
    const qll_sound_result *result = findings->result;
    qll_json_put_object(json, "recording");
    qll_json_put_text(json, "name", findings->name);
    qll_json_put_number(json, "duration_s", result->duration_s);
    qll_json_put_number(json, "rate_hz", result->rate_hz);
    qll_json_put_number(json, "used_rate_hz", result->used_rate_hz);
    qll_json_put_number(json, "channels", result->channels);
    qll_json_put_number(json, "clipped_share", result->clipped_share);
    qll_json_put_number(json, "broken_samples", (double)result->broken_count);
    qll_json_put_bool(json, "quiet", findings->quiet_level_db != NULL);
    qll_json_close_object(json);
}

static void put_findings(qll_json *json, const qll_wording *wording,
                         const qll_listen_findings *findings)
{
    const qll_sound_result *result = findings->result;
    qll_json_put_list(json, "findings");
    for (size_t i = 0; i < result->share_count; i++) {
        const qll_sound_share *share = &result->shares[i];
        qll_json_open_object(json);
        qll_json_put_text(json, "kind", qll_sound_kind_word(share->kind));
        qll_json_put_number(json, "share", share->share);
        qll_json_put_number(json, "confidence", share->confidence);
        qll_json_put_number(json, "from_s", result->stretches[share->stretch].from_s);
        qll_json_put_number(json, "to_s", result->stretches[share->stretch].to_s);
        qll_writer says = qll_writer_new(json->writer->arena);
        qll_wording_heard(&says, wording, result, share);
        qll_json_put_written(json, "says", &says);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_features(qll_json *json, const qll_sound_features *features)
{
    qll_json_put_object(json, "features");
#define QLL_SOUND_PUT(name) qll_json_put_figure(json, #name, features->name);
    QLL_SOUND_FEATURE_LIST(QLL_SOUND_PUT)
#undef QLL_SOUND_PUT
    qll_json_close_object(json);
}

static void put_stretches(qll_json *json, const qll_sound_result *result)
{
    qll_json_put_list(json, "stretches");
    for (size_t i = 0; i < result->stretch_count; i++) {
        const qll_sound_stretch *stretch = &result->stretches[i];
        qll_json_open_object(json);
        qll_json_put_number(json, "from_s", stretch->from_s);
        qll_json_put_number(json, "to_s", stretch->to_s);
        qll_json_put_text(json, "kind", qll_sound_kind_word(stretch->kind));
        qll_json_put_object(json, "scores");
        for (size_t kind = 0; kind < QLL_SOUND_KIND_COUNT; kind++) {
            qll_json_put_number(json, qll_sound_kind_word((qll_sound_kind)kind),
                                stretch->scores[kind]);
        }
        qll_json_close_object(json);
        put_features(json, &stretch->features);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_events(qll_json *json, const qll_sound_result *result)
{
    qll_json_put_list(json, "events");
    for (size_t i = 0; i < result->event_count; i++) {
        const qll_sound_event *event = &result->events[i];
        qll_json_open_object(json);
        qll_json_put_text(json, "kind", qll_sound_kind_word(event->kind));
        qll_json_put_number(json, "from_s", event->from_s);
        qll_json_put_number(json, "to_s", event->to_s);
        qll_json_put_figure(json, "tone_hz", event->tone_hz);
        qll_json_put_figure(json, "height_db", event->height_db);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_spectrum(qll_json *json, const qll_listen_findings *findings)
{
    qll_json_put_list(json, "spectrum");
    for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
        qll_json_open_object(json);
        qll_json_put_number(json, "from_hz", findings->result->edge_hz[b]);
        qll_json_put_number(json, "to_hz", findings->result->edge_hz[b + 1]);
        qll_json_put_figure(json, "level_db", findings->level_db[b]);
        qll_json_put_figure(json, "quiet_level_db",
                            findings->quiet_level_db == NULL ? (double)NAN
                                                             : findings->quiet_level_db[b]);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_spectrogram(qll_json *json, const qll_listen_findings *findings)
{
    const qll_sound_result *result = findings->result;
    qll_json_put_object(json, "spectrogram");
    qll_json_put_number(json, "row_s", result->gram.row_s);
    qll_json_put_list(json, "edges_hz");
    for (size_t edge = 0; edge <= QLL_SOUND_BANDS; edge++) {
        qll_json_number(json, result->edge_hz[edge]);
    }
    qll_json_close_list(json);
    qll_json_put_list(json, "levels_db");
    for (size_t i = 0; i < result->gram.row_count; i++) {
        qll_json_open_list(json);
        for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
            qll_json_figure(json, findings->gram_db[i][b]);
        }
        qll_json_close_list(json);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

static void put_seat_tone(qll_json *json, const qll_wording *wording,
                          const qll_listen_findings *findings)
{
    const qll_seat_tone *tone = findings->seat_tone;
    if (tone == NULL) {
        qll_json_put_null(json, "seat_tone");
        return;
    }
    qll_json_put_object(json, "seat_tone");
    qll_json_put_figure(json, "low_hz", tone->low_hz);
    qll_json_put_figure(json, "high_hz", tone->high_hz);
    qll_json_put_figure(json, "velocity_low_m_s", tone->slow_m_s);
    qll_json_put_figure(json, "velocity_high_m_s", tone->fast_m_s);
    qll_json_put_figure(json, "tone_hz", findings->tone_hz);
    qll_writer says = qll_writer_new(json->writer->arena);
    qll_wording_seat_tone(&says, wording, tone, findings->tone_hz);
    qll_json_put_written(json, "says", &says);
    qll_json_close_object(json);
}

static void put_limits(qll_json *json, const qll_listen_findings *findings)
{
    qll_json_put_list(json, "limits");
    for (unsigned limit = 0; limit < QLL_SOUND_LIMIT_COUNT; limit++) {
        if ((findings->result->limits & (1U << limit)) != 0) {
            qll_json_open_object(json);
            qll_json_put_text(json, "limit", qll_sound_limit_word((qll_sound_limit)limit));
            qll_json_put_text(json, "says",
                              qll_say_untold(findings->language, (qll_sound_limit)limit));
            qll_json_close_object(json);
        }
    }
    qll_json_close_list(json);
}

void qll_listen_write(qll_json *json, const qll_listen_findings *findings)
{
    const qll_wording wording = {.units = findings->units, .language = findings->language};
    const qll_sound_result *result = findings->result;
    qll_json_open_object(json);
    qll_json_put_head(json, "listen", &wording, findings->problems);
    qll_json_put_parents(json, &wording, findings->assumed, findings->sources,
                         findings->source_count);
    put_recording(json, findings);
    put_findings(json, &wording, findings);
    put_features(json, &result->stretches[result->shares[0].stretch].features);
    if (qll_has_part(findings->left_out, QLL_PART_STRETCHES)) {
        put_stretches(json, result);
    }
    if (qll_has_part(findings->left_out, QLL_PART_EVENTS)) {
        put_events(json, result);
    }
    put_seat_tone(json, &wording, findings);
    qll_beside_write(json, &wording, findings->beside);
    if (qll_has_part(findings->left_out, QLL_PART_SPECTRUM)) {
        put_spectrum(json, findings);
    }
    if (qll_has_part(findings->left_out, QLL_PART_SPECTROGRAM)) {
        put_spectrogram(json, findings);
    }
    put_limits(json, findings);
    qll_json_put_sheets(json, &findings->page);
    qll_json_close_object(json);
}
