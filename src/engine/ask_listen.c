/* What kind of noise a recording holds. */
#include "quell/report.h"

#include "base/count.h"
#include "engine/engine.h"
#include "engine/find_beside.h"
#include "engine/progress.h"
#include "report/report.h"
#include "signals/sound.h"
#include "station/seat_tone.h"
#include "wording/says_reason.h"

#include <math.h>
#include <string.h>

/* Nobody knows how long a recording is: after so many seconds half of it is reported as done. */
#define QLL_SECONDS_HALF   120.0
/* Samples that are listened to in some milliseconds. */
#define QLL_FRAMES_PER_ASK ((size_t)1 << 16)

/* Silence put in their place is still heard around for what it is (our assumption). */
#define QLL_BROKEN_MOST 0.5

/* A recording that is being listened to. */
typedef struct listening {
    qll_asked *asked;
    qll_sound *sound;
    double rate_hz, seconds;
    unsigned channels;
} listening;

static qll_status feed(void *context, const float *samples, size_t count)
{
    listening *at = context;
    qll_status status = QLL_OK;
    for (size_t done = 0; done < count && status == QLL_OK;) {
        const size_t part = count - done < QLL_FRAMES_PER_ASK ? count - done : QLL_FRAMES_PER_ASK;
        status = qll_sound_take(at->sound, samples + done * at->channels, part);
        done += part;
        at->seconds += (double)part / at->rate_hz;
        const double share = at->seconds / (at->seconds + QLL_SECONDS_HALF);
        if (status == QLL_OK && !qll_progress_tell(share, at->asked)) {
            status = QLL_STOPPED;
        }
    }
    return status;
}

static qll_status refuse(qll_asked *asked, const qll_recording *recording, qll_code code,
                         const qll_said *says, const qll_said *hint)
{
    qll_asked_refuse(asked, code, recording->name == NULL ? "" : recording->name, says, hint);
    return code == QLL_CODE_NO_FILE ? QLL_IO : QLL_REFUSED;
}

static qll_status refuse_short(qll_asked *asked, const qll_recording *recording, double duration_s)
{
    return refuse(asked, recording, QLL_CODE_OUT_OF_RANGE,
                  QLL_SAYS_WITH(RECORDING_SHORT, qll_as_number(0.1 * floor(10.0 * duration_s))),
                  QLL_SAYS(HINT_RECORD_TEN));
}

static qll_status listen(qll_asked *asked, const qll_recording *recording,
                         const qll_sound_quiet *quiet, qll_sound_result *result)
{
    listening at = {.asked = asked, .rate_hz = recording->rate_hz, .channels = recording->channels};
    qll_status status =
        qll_sound_open(recording->rate_hz, recording->channels, quiet, asked->arena, &at.sound);
    if (status == QLL_REFUSED) {
        return refuse(asked, recording, QLL_CODE_OUT_OF_RANGE,
                      QLL_SAYS_WITH(RECORDING_RATE, qll_as_number(recording->rate_hz),
                                    qll_as_whole(recording->channels)),
                      NULL);
    }
    const char *why = "";
    *result = (qll_sound_result){0};
    if (status == QLL_OK) {
        status = recording->stream(recording->context, feed, &at, &why);
    }
    if (status == QLL_IO) {
        return refuse(asked, recording, QLL_CODE_NO_FILE,
                      QLL_SAYS_WITH(RECORDING_FAILED, qll_as_quoted(qll_text_of(recording->name)),
                                    qll_as_reason(why)),
                      NULL);
    }
    status = status == QLL_OK ? qll_sound_finish(at.sound, result) : status;
    if (status == QLL_REFUSED) {
        return refuse_short(asked, recording, result->duration_s);
    }
    const double samples = result->duration_s * result->rate_hz * result->channels;
    if (status == QLL_OK && (double)result->broken_count > QLL_BROKEN_MOST * samples) {
        return refuse(asked, recording, QLL_CODE_OUT_OF_RANGE, QLL_SAYS(RECORDING_BROKEN), NULL);
    }
    return status;
}

/* ---- the station ---- */

/* What the seats do over the station's flows, at its lowest, middle and highest supply. */
static qll_status find_seat_tone(qll_asked *asked, const qll_prepared *prepared,
                                 const qll_station *station, qll_seat_tone *tone)
{
    qll_duty duty;
    qll_operator *made = NULL;
    qll_operating_point *point = NULL;
    const qll_site *site = &prepared->survey.site;
    qll_status status = qll_prepare_duty(asked, prepared, &duty);
    if (status == QLL_OK) {
        status = qll_operator_make(station, site, asked->arena, &made);
    }
    if (status == QLL_OK) {
        status = qll_points_make(station, 1, asked->arena, &point);
    }
    *tone = qll_seat_tone_none();
    for (size_t i = 0; status == QLL_OK && i < duty.supply_count * duty.flow_count; i++) {
        qll_operate(made, &duty.inlet_pa[i], &duty.flow_m3s[i % duty.flow_count], 1, point);
        qll_seat_tone_see(tone, station, &site->water, point);
    }
    return status;
}

/* Where the seats of the survey's station may whistle; NULL where the survey names none. */
static qll_status look_at_station(qll_asked *asked, const qll_seat_tone **found)
{
    qll_prepared prepared;
    qll_catalogue catalogue = {0};
    qll_station station;
    qll_status status = qll_prepare_survey(asked, &prepared);
    if (status != QLL_OK) {
        return status;
    }
    status = qll_prepare_catalogue(asked, &prepared, &catalogue);
    if (status != QLL_OK || prepared.survey.existing_count == 0) {
        return status;
    }
    qll_prepare_header(asked, &prepared);
    status = qll_survey_existing(&prepared.survey, &catalogue, asked->arena, &station,
                                 &asked->assumed, &asked->problems);
    qll_seat_tone *tone = qll_arena_take(asked->arena, 1, sizeof *tone);
    if (status == QLL_OK && tone == NULL) {
        return QLL_NO_MEMORY;
    }
    status = status == QLL_OK ? find_seat_tone(asked, &prepared, &station, tone) : status;
    if (status == QLL_OK && !isnan(tone->slow_m_s)) {
        qll_assumed_add(&asked->assumed, qll_as_text(QLL_TEXT_WHAT_SEAT_LAND), qll_as_is("1-5 mm"),
                        (qll_said){.id = QLL_TEXT_WHY_SEAT_LAND});
        *found = tone;
    }
    return status;
}

/* ---- the findings ---- */

/* To 0.1 dB, which is more than two recordings of one noise agree to. */
static double decibels(double power)
{
    return power > 0.0 ? 0.1 * floor(100.0 * log10(power) + 0.5) : (double)NAN;
}

static const double *levels_of(qll_asked *asked, const qll_sound_result *result)
{
    double *levels = qll_arena_take(asked->arena, QLL_SOUND_BANDS, sizeof *levels);
    for (size_t b = 0; levels != NULL && b < QLL_SOUND_BANDS; b++) {
        levels[b] = decibels(result->medians[b]);
    }
    return levels;
}

static bool put_gram(qll_asked *asked, const qll_sound_result *result,
                     qll_listen_findings *findings)
{
    double(*rows)[QLL_SOUND_BANDS] =
        qll_arena_take(asked->arena, result->gram.row_count, sizeof *rows);
    for (size_t i = 0; rows != NULL && i < result->gram.row_count; i++) {
        for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
            rows[i][b] = decibels((double)result->gram.rows[i][b]);
        }
    }
    findings->gram_db = (const double(*)[QLL_SOUND_BANDS])rows;
    return rows != NULL;
}

static double tone_of(const qll_sound_result *result)
{
    for (size_t i = 0; i < result->share_count; i++) {
        if (result->shares[i].kind == QLL_SOUND_SQUEAL) {
            return result->stretches[result->shares[i].stretch].features.tone_hz;
        }
    }
    return NAN;
}

static qll_status find(qll_asked *asked, qll_sound_result *result, qll_listen_findings *findings)
{
    const qll_question *question = asked->question;
    qll_status status = QLL_OK;
    if (question->document.bytes != NULL) {
        status = look_at_station(asked, &findings->seat_tone);
    }
    qll_sound_result with_all_closed;
    qll_sound_quiet quiet;
    const double half = question->quiet == NULL ? 0.0 : 0.5;
    qll_progress_phase(asked, 0.0, half);
    if (status == QLL_OK && question->quiet != NULL) {
        status = listen(asked, question->quiet, NULL, &with_all_closed);
        if (status == QLL_OK) {
            quiet = qll_sound_quiet_of(&with_all_closed);
            findings->quiet_level_db = levels_of(asked, &with_all_closed);
        }
    }
    const double heard = question->log == NULL ? 1.0 : 0.8;
    qll_progress_phase(asked, half, heard);
    if (status == QLL_OK) {
        status =
            listen(asked, question->recording, question->quiet == NULL ? NULL : &quiet, result);
    }
    if (status == QLL_OK && question->log != NULL) {
        qll_progress_phase(asked, heard, 1.0);
        status = qll_find_beside(asked, result, &findings->beside);
    }
    if (status != QLL_OK) {
        return status;
    }
    findings->level_db = levels_of(asked, result);
    findings->tone_hz = tone_of(result);
    const bool has_all = findings->level_db != NULL && put_gram(asked, result, findings)
                         && (question->quiet == NULL || findings->quiet_level_db != NULL);
    return has_all ? QLL_OK : QLL_NO_MEMORY;
}

/* ---- the answer ---- */

static qll_status make_sheets(qll_asked *asked, const qll_listen_findings *findings)
{
    qll_sheet sheet;
    qll_listen_make(findings, asked->arena, &sheet);
    return qll_asked_write_sheet(asked, &sheet);
}

/* The same inside the answer. */
static bool tell_sheets(qll_asked *asked, qll_listen_findings *findings)
{
    qll_sheet sheet;
    qll_listen_make(findings, asked->arena, &sheet);
    return qll_asked_tell_sheet(asked, &sheet, &findings->page);
}

static qll_status write_answer(qll_asked *asked, qll_listen_findings *findings)
{
    if (asked->made != NULL || asked->question->form == QLL_FORM_HTML) {
        return make_sheets(asked, findings);
    }
    if (asked->question->form == QLL_FORM_JSON) {
        if (qll_has_part(asked->left_out, QLL_PART_SHEETS) && !tell_sheets(asked, findings)) {
            return QLL_NO_MEMORY;
        }
        qll_json json = qll_json_new(&asked->writer);
        qll_listen_write(&json, findings);
        qll_write(&asked->writer, "\n");
    } else {
        qll_listen_print(&asked->writer, findings);
    }
    return QLL_OK;
}

qll_status qll_ask_listen(qll_asked *asked)
{
    static const qll_said sources[] = {
        {.id = QLL_TEXT_SOURCE_SOUND_RULES},   {.id = QLL_TEXT_SOURCE_TONES},
        {.id = QLL_TEXT_SOURCE_IMPULSES},      {.id = QLL_TEXT_SOURCE_WEIGHTING},
        {.id = QLL_TEXT_SOURCE_VALVE_SPECTRA}, {.id = QLL_TEXT_SOURCE_STROUHAL}};
    const char *name = asked->question->recording->name;
    qll_sound_result result;
    qll_listen_findings findings = {
        .name = name == NULL ? "" : name,
        .result = &result,
        .language = asked->language,
        .assumed = &asked->assumed,
        .problems = &asked->problems,
        .sources = sources,
        .left_out = asked->left_out,
    };
    qll_status status = find(asked, &result, &findings);
    findings.units = asked->units;
    findings.source_count = QLL_COUNT(sources) - (findings.seat_tone == NULL ? 1 : 0);
    if (status == QLL_OK) {
        status = write_answer(asked, &findings);
    }
    return status == QLL_OK ? qll_asked_finish(asked) : status;
}
