/* From the logs that a survey names to what the demand knows of a meter. */
#include "base/quote.h"
#include "engine/keep.h"
#include "engine/progress.h"
#include "engine/stream_log.h"
#include "wording/says_reason.h"

#include <math.h>
#include <string.h>

static const qll_attachment *find_attachment(const qll_question *question, const char *name)
{
    for (size_t i = 0; i < question->attachment_count; i++) {
        if (strcmp(question->attachments[i].name, name) == 0) {
            return &question->attachments[i];
        }
    }
    return NULL;
}

static void refuse_file(qll_asked *asked, const qll_survey_log *log, const qll_said *says)
{
    (void)qll_problems_add(
        &asked->problems, (qll_fault){.code = QLL_CODE_NO_FILE, .place = log->place, .says = says});
}

/* Hints that ask for what only the survey can say; a log does not know where that is written. */
static bool asks_the_survey(const qll_said *hint)
{
    static const qll_text_id asks[] = {
#define QLL_TEXT_ENTRY(name) QLL_TEXT_##name,
        QLL_TEXT_LOG_ASK_LIST(QLL_TEXT_ENTRY)
#undef QLL_TEXT_ENTRY
            QLL_TEXT_HINT_DID_YOU_MEAN};
    bool found = false;
    for (size_t i = 0; i < sizeof asks / sizeof *asks; i++) {
        found = found || hint->id == asks[i];
    }
    return found;
}

static void take_problems(qll_asked *asked, size_t scenario, const qll_problems *found)
{
    for (size_t i = 0; i < found->kept_count; i++) {
        qll_fault fault = found->kept[i];
        qll_said hint = {.id = QLL_TEXT_HINT_IN_SURVEY};
        if (fault.hint != NULL && asks_the_survey(fault.hint)) {
            hint.arguments[0] = qll_as_said(asked->arena, *fault.hint);
            hint.arguments[1] = qll_as_whole(scenario);
            fault.hint = &hint;
        }
        (void)qll_problems_add(&asked->problems, fault);
    }
}

/* What a log's notes say, as warnings at the place where the survey names it. */
static void warn(qll_asked *asked, const qll_wording *wording, const qll_survey_log *of,
                 const qll_flow_log_result *result)
{
    for (size_t i = 0; i < QLL_LOG_NOTE_COUNT; i++) {
        const qll_log_note_kind kind = (qll_log_note_kind)i;
        if (!result->notes[i].holds || !qll_log_note_warns(kind)) {
            continue;
        }
        qll_writer text = qll_writer_new(asked->arena);
        qll_wording_log_note(&text, wording, kind, &result->notes[i]);
        (void)qll_problems_add(
            &asked->problems,
            (qll_fault){.code = QLL_CODE_OUT_OF_RANGE,
                        .level = QLL_WARNING,
                        .place = of->place,
                        .says = QLL_SAYS_WITH(VALUE, qll_as_is_text(qll_writer_text(&text)))});
    }
}

qll_status qll_read_scenario_log(qll_asked *asked, const qll_survey_log *of, qll_problems *found,
                                 const qll_flow_log_result **result)
{
    const qll_attachment *file = find_attachment(asked->question, of->name);
    if (file == NULL) {
        refuse_file(asked, of,
                    QLL_SAYS_WITH(LOG_NOT_HANDED_IN, qll_as_quoted(qll_text_of(of->name))));
        return QLL_REFUSED;
    }
    qll_flow_log_options options = of->options;
    options.name = file->path == NULL ? of->name : file->path;
    qll_flow_log *log = qll_flow_log_open(&options, asked->arena);
    if (log == NULL) {
        return QLL_NO_MEMORY;
    }
    const char *why = "";
    qll_flow_log_result *read = qll_arena_take(asked->arena, 1, sizeof *read);
    if (read == NULL) {
        return QLL_NO_MEMORY;
    }
    const qll_status status = qll_stream_log(asked, file, log, read, found, &why);
    *result = read;
    if (status == QLL_IO) {
        refuse_file(
            asked, of,
            QLL_SAYS_WITH(LOG_NOT_READ, qll_as_quoted(qll_text_of(of->name)), qll_as_reason(why)));
    }
    return status;
}

/* Reads one log, or takes what is kept of it; what is wrong with it is among the problems then. */
static qll_status read_log(qll_asked *asked, const qll_prepared *prepared, size_t scenario,
                           const qll_flow_log_result **result)
{
    const qll_survey *survey = &prepared->survey;
    const qll_survey_log *of = &survey->logs[scenario];
    const qll_kept_scenario *kept = prepared->kept[scenario];
    const qll_wording wording = {.units = survey->units, .language = asked->language};
    qll_problems found = kept == NULL ? qll_problems_none(asked->arena) : *kept->log_problems;
    qll_status status = QLL_OK;
    if (kept == NULL) {
        status = qll_read_scenario_log(asked, of, &found, result);
    } else {
        *result = kept->result;
    }
    if (status == QLL_OK || status == QLL_REFUSED) {
        take_problems(asked, scenario, &found);
    }
    if (status == QLL_OK) {
        warn(asked, &wording, of, *result);
    }
    return status;
}

/* ---- what the demand takes over ---- */

static bool take_duration(const qll_flow_log_result *log, qll_arena *arena, qll_duration *duration)
{
    qll_duration_point *points = qll_arena_take(arena, log->point_count, sizeof *points);
    for (size_t i = 0; points != NULL && i < log->point_count; i++) {
        points[i] = (qll_duration_point){.flow_m3s = log->points[i].flow_m3s,
                                         .time_share = log->points[i].time_share,
                                         .volume_share = log->points[i].volume_share};
    }
    const bool starts_idle = points != NULL && points[0].flow_m3s == 0.0;
    const double idle_share = starts_idle ? points[0].time_share : 0.0;
    *duration = (qll_duration){.points = points,
                               .count = log->point_count,
                               .idle_share = idle_share,
                               .mean_m3s = log->mean_m3s};
    return points != NULL;
}

/* The averaging times over which the log has a mean; its own interval where there is none. */
static bool take_peaks(const qll_flow_log_result *log, qll_arena *arena, qll_metered *metered)
{
    qll_metered_peak *peaks = qll_arena_take(arena, QLL_LOG_PEAKS, sizeof *peaks);
    if (peaks == NULL) {
        return false;
    }
    for (size_t i = 0; i < QLL_LOG_PEAKS; i++) {
        if (isfinite(log->peaks[i].rolling_m3s)) {
            peaks[metered->peak_count] = (qll_metered_peak){.averaging_s = log->peaks[i].window_s,
                                                            .flow_m3s = log->peaks[i].rolling_m3s};
            metered->peak_count += 1;
        }
    }
    if (metered->peak_count == 0) {
        peaks[0] = (qll_metered_peak){.averaging_s = log->interval_s, .flow_m3s = log->max_m3s};
        if (log->has_coarse_step) {
            peaks[0] = (qll_metered_peak){.averaging_s = log->covered_s, .flow_m3s = log->mean_m3s};
        }
        metered->peak_count = 1;
    }
    metered->peaks = peaks;
    return true;
}

static void take_hours(const qll_flow_log_result *log, qll_metered *metered)
{
    for (size_t h = 0; h < 24; h++) {
        const qll_log_hour *workday = &log->profile[0][h];
        const qll_log_hour *weekend = &log->profile[1][h];
        const double time_s = workday->time_s + weekend->time_s;
        const double volume_m3 = workday->volume_m3 + weekend->volume_m3;
        metered->hours[h] = (qll_metered_hour){
            .mean_m3s = time_s > 0.0 ? volume_m3 / time_s : (double)NAN,
            .weekday_m3s =
                workday->time_s > 0.0 ? workday->volume_m3 / workday->time_s : (double)NAN,
            .weekend_m3s =
                weekend->time_s > 0.0 ? weekend->volume_m3 / weekend->time_s : (double)NAN};
    }
}

/* Reports no more than has been reported: how many days are simulated only shows. */
static bool goes_on(void *asked)
{
    return qll_progress_tell(0.0, asked);
}

const qll_metered *qll_metered_of(qll_asked *asked, const char *name,
                                  const qll_flow_log_result *log)
{
    qll_arena *arena = asked->arena;
    qll_metered *metered = qll_arena_take(arena, 1, sizeof *metered);
    if (metered == NULL) {
        return NULL;
    }
    *metered = (qll_metered){.name = name,
                             .interval_s = log->kind == QLL_LOG_KIND_EVENTS ? 0.0 : log->interval_s,
                             .time_s = log->covered_s,
                             .idle_unknown = log->has_coarse_step,
                             .night_least_m3s = log->night_least_m3s,
                             .seed = asked->seed,
                             .goes_on = goes_on,
                             .goes_on_context = asked};
    take_hours(log, metered);
    return take_duration(log, arena, &metered->duration) && take_peaks(log, arena, metered)
               ? metered
               : NULL;
}

/* The same as it is kept, going on as long as this question does. */
static const qll_metered *kept_metered(qll_asked *asked, const qll_kept_scenario *kept)
{
    qll_metered *metered = qll_arena_take(asked->arena, 1, sizeof *metered);
    if (metered != NULL) {
        *metered = *kept->metered;
        metered->goes_on_context = asked;
    }
    return metered;
}

/* ---- all scenarios ---- */

qll_status qll_prepare_logs(qll_asked *asked, qll_prepared *prepared)
{
    qll_survey *survey = &prepared->survey;
    const size_t count = survey->scenario_count;
    qll_scenario *scenarios = qll_arena_take(asked->arena, count, sizeof *scenarios);
    /* NOLINTNEXTLINE(bugprone-sizeof-expression): pointers are meant */
    prepared->logs = qll_arena_take(asked->arena, count, sizeof *prepared->logs);
    if (scenarios == NULL || prepared->logs == NULL) {
        return QLL_NO_MEMORY;
    }
    bool has_failed = false;
    for (size_t i = 0; i < count; i++) {
        const qll_survey_log *log = &survey->logs[i];
        scenarios[i] = survey->scenarios[i];
        if (log->name == NULL) {
            continue;
        }
        const qll_flow_log_result *result = NULL;
        qll_status status = read_log(asked, prepared, i, &result);
        if (status == QLL_NO_MEMORY || status == QLL_STOPPED) {
            return status;
        }
        has_failed = has_failed || status == QLL_IO;
        if (status == QLL_OK) {
            prepared->logs[i] = result;
            scenarios[i].metered = prepared->kept[i] != NULL
                                       ? kept_metered(asked, prepared->kept[i])
                                       : qll_metered_of(asked, log->name, result);
            if (scenarios[i].metered == NULL) {
                return QLL_NO_MEMORY;
            }
        }
    }
    survey->scenarios = scenarios;
    return has_failed ? QLL_IO : qll_problems_status(&asked->problems);
}
