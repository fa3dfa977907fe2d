/* What a log of pressures says: the log read, judged, and held against what the survey's station should do. */
#include "quell/report.h"

#include "base/quote.h"
#include "base/words.h"
#include "engine/engine.h"
#include "engine/log_asked.h"
#include "engine/progress.h"
#include "engine/stream_log.h"
#include "findings/pressure.h"
#include "report/report.h"
#include "signals/log_zone.h"
#include "station/operate.h"
#include "wording/says_reason.h"

#include <math.h>
#include <string.h>

/* The survey's part of the work, where there is one: reading it takes little beside a long log. */
#define QLL_SHARE_SURVEY 0.1
#define QLL_SHARE_READ   0.9

/* ---- what the file does not say ---- */

enum {
    QLL_LOG_KEY_ORDER,
    QLL_LOG_KEY_DECIMAL,
    QLL_LOG_KEY_ZONE,
    QLL_LOG_KEY_TIME,
    QLL_LOG_KEY_COLUMNS
};

static const char *const keys[] = {"dates",      "decimal",     "time_zone", "time",
                                   "inlet",      "outlet",      "flow",      "temperature",
                                   "inlet_unit", "outlet_unit", "flow_unit", "temperature_unit"};

#define QLL_LOG_KEY_COUNT (sizeof keys / sizeof *keys)

static void refuse_word(qll_asked *asked, size_t key, const char *value, const char *words)
{
    qll_asked_refuse(asked, QLL_CODE_UNKNOWN_WORD, keys[key],
                     QLL_SAYS_WITH(LOG_WORD_UNKNOWN, qll_as_quoted(qll_text_of(value)),
                                   qll_as_is(keys[key]), qll_as_is(words)),
                     NULL);
}

static void take_option(qll_asked *asked, qll_flow_log_options *options, size_t key,
                        const char *value)
{
    static const char *const orders[] = {"", "year-first", "day-first", "month-first"};
    qll_zone zone;
    switch (key) {
    case QLL_LOG_KEY_ORDER:
        for (int order = 1; order < QLL_LOG_ORDER_COUNT; order++) {
            options->order =
                strcmp(value, orders[order]) == 0 ? (qll_log_order)order : options->order;
        }
        if (options->order == QLL_LOG_ORDER_UNKNOWN) {
            refuse_word(asked, key, value, "day-first, month-first, year-first");
        }
        return;
    case QLL_LOG_KEY_DECIMAL:
        options->decimal = strcmp(value, "comma") == 0   ? ','
                           : strcmp(value, "point") == 0 ? '.'
                                                         : '\0';
        if (options->decimal == '\0') {
            refuse_word(asked, key, value, "point, comma");
        }
        return;
    case QLL_LOG_KEY_ZONE:
        options->zone = value;
        if (!qll_zone_read(qll_text_of(value), &zone)) {
            const char *nearest = qll_zone_nearest(qll_text_of(value));
            qll_asked_refuse(asked, QLL_CODE_UNKNOWN_WORD, keys[key],
                             QLL_SAYS_WITH(ZONE_UNKNOWN, qll_as_quoted(qll_text_of(value))),
                             qll_hint_word(nearest, asked->arena));
        }
        return;
    case QLL_LOG_KEY_TIME: options->time_column = value; return;
    default: break;
    }
    const size_t channel = key - QLL_LOG_KEY_COLUMNS;
    if (channel < QLL_CHANNEL_COUNT) {
        options->channel_columns[channel] = value;
    } else {
        options->channel_units[channel - QLL_CHANNEL_COUNT] = value;
    }
}

static const char *all_keys(qll_asked *asked)
{
    qll_writer text = qll_writer_new(asked->arena);
    for (size_t k = 0; k < QLL_LOG_KEY_COUNT; k++) {
        qll_write(&text, k == 0 ? "" : ", ");
        qll_write(&text, keys[k]);
    }
    return qll_writer_text(&text).bytes;
}

bool qll_asked_log_options(qll_asked *asked, qll_flow_log_options *options)
{
    const qll_question *question = asked->question;
    for (size_t i = 0; i < question->argument_count; i++) {
        const char *given = question->arguments[i];
        const char *equals = strchr(given, '=');
        const qll_text name = {given, equals == NULL ? 0 : (size_t)(equals - given)};
        if (name.size == 0) {
            qll_asked_refuse(asked, QLL_CODE_SYNTAX, "log",
                             QLL_SAYS_WITH(ARGUMENT_UNPARTED, qll_as_quoted(qll_text_of(given))),
                             NULL);
            continue;
        }
        const size_t key = qll_words_place(name, keys, QLL_LOG_KEY_COUNT);
        if (key == QLL_LOG_KEY_COUNT) {
            qll_asked_refuse(
                asked, QLL_CODE_UNKNOWN_KEY, "log",
                QLL_SAYS_WITH(LOG_KEY_UNKNOWN, qll_as_quoted(name), qll_as_is(all_keys(asked))),
                qll_hint_word(qll_words_nearest(name, keys, QLL_LOG_KEY_COUNT), asked->arena));
            continue;
        }
        take_option(asked, options, key, equals + 1);
    }
    return asked->problems.refusal_count == 0;
}

/* How a hint of the reader is followed here: by an argument. */
static const char *argument_of(const qll_said *hint)
{
    static const struct {
        qll_text_id hint;
        const char *argument;
    } all[] = {{QLL_TEXT_ASK_DECIMAL, "decimal=point, decimal=comma"},
               {QLL_TEXT_ASK_ORDER, "dates=month-first, dates=day-first"},
               {QLL_TEXT_ASK_ORDER_OR_CUT, "dates=month-first, dates=day-first"}};

    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        if (hint != NULL && hint->id == all[i].hint) {
            return all[i].argument;
        }
    }
    return NULL;
}

void qll_asked_log_problems(qll_asked *asked, const qll_problems *found)
{
    for (size_t i = 0; i < found->kept_count; i++) {
        qll_fault fault = found->kept[i];
        const char *argument = argument_of(fault.hint);
        qll_said hint = {.id = QLL_TEXT_HINT_AS_ARGUMENT};
        if (argument != NULL) {
            hint.arguments[0] = qll_as_said(asked->arena, *fault.hint);
            hint.arguments[1] = qll_as_is(argument);
            fault.hint = &hint;
        }
        (void)qll_problems_add(&asked->problems, fault);
    }
}

/* ---- what the station should do ---- */

typedef struct compared {
    qll_prepared prepared;
    qll_catalogue catalogue;
    qll_station station;
    const qll_operator *made;
    qll_operating_point *point;
} compared;

static double outlet_pa_gauge(void *context, double inlet_pa_gauge, double flow_m3s)
{
    const compared *with = context;
    const double barometric_pa = with->prepared.survey.site.barometric_pa;
    const double inlet_pa = inlet_pa_gauge + barometric_pa;
    qll_operate(with->made, &inlet_pa, &flow_m3s, 1, with->point);
    return with->point->outlet_pa - barometric_pa;
}

static qll_status prepare_comparison(qll_asked *asked, compared *with, qll_pressure_expect *expect)
{
    qll_progress_phase(asked, 0.0, QLL_SHARE_SURVEY);
    qll_status status =
        qll_prepare_existing(asked, &with->prepared, &with->catalogue, &with->station);
    qll_operator *made = NULL;
    if (status == QLL_OK) {
        status =
            qll_operator_make(&with->station, &with->prepared.survey.site, asked->arena, &made);
    }
    if (status == QLL_OK) {
        with->made = made;
        status = qll_points_make(&with->station, 1, asked->arena, &with->point);
    }
    if (status == QLL_OK) {
        *expect = (qll_pressure_expect){.context = with, .outlet_pa_gauge = outlet_pa_gauge};
        asked->units = asked->question->units == NULL ? with->prepared.survey.units : asked->units;
    }
    return status;
}

/* ---- times ---- */

static qll_log_moment moment_of(const qll_flow_log_result *log, double unix_s)
{
    if (log->is_elapsed) {
        return (qll_log_moment){.is_elapsed = true,
                                .elapsed_s = unix_s - (double)QLL_LOG_ELAPSED_MS / 1000.0};
    }
    const int64_t at_ms = (int64_t)floor(unix_s * 1000.0 + 0.5);
    const int32_t offset_s = log->zone == NULL ? 0 : qll_zone_offset_s(log->zone, at_ms);
    const int64_t local_ms = at_ms + (int64_t)offset_s * 1000;
    const int64_t day_ms = (int64_t)86400 * 1000;
    const int64_t of_day = ((local_ms % day_ms) + day_ms) % day_ms;
    qll_log_moment moment = {.has_offset = log->offset_known,
                             .offset_minutes = offset_s / 60,
                             .hour = (int)(of_day / 3600000),
                             .minute = (int)(of_day / 60000 % 60),
                             .second = (double)(of_day % 60000) / 1000.0};
    qll_calendar_date((local_ms - of_day) / day_ms, &moment.year, &moment.month, &moment.day);
    return moment;
}

static bool find_times(qll_asked *asked, qll_pressure_findings *findings)
{
    const qll_pressure_result *result = findings->result;
    qll_log_stretch *at = qll_arena_take(asked->arena, result->finding_count + 1, sizeof *at);
    qll_log_stretch *gaps = qll_arena_take(asked->arena, result->gap_count + 1, sizeof *gaps);
    if (at == NULL || gaps == NULL) {
        return false;
    }
    for (size_t i = 0; i < result->finding_count; i++) {
        at[i].from = moment_of(&result->log, result->findings[i].from_unix_s);
        at[i].to = moment_of(&result->log, result->findings[i].to_unix_s);
    }
    for (size_t i = 0; i < result->gap_count; i++) {
        gaps[i].from = moment_of(&result->log, result->gaps[i].from_unix_s);
        gaps[i].to = moment_of(&result->log, result->gaps[i].to_unix_s);
    }
    findings->whole.from = moment_of(&result->log, result->log.first_unix_s);
    findings->whole.to = moment_of(&result->log, result->log.last_unix_s);
    findings->at = at;
    findings->gaps = gaps;
    while (findings->act_count < result->finding_count
           && result->findings[findings->act_count].strength >= QLL_STRENGTH_ACT) {
        findings->act_count += 1;
    }
    return true;
}

/* ---- the question ---- */

qll_status qll_asked_log_failed(qll_asked *asked, const char *why)
{
    const qll_attachment *file = asked->question->log;
    qll_asked_refuse(
        asked, QLL_CODE_NO_FILE, "",
        QLL_SAYS_WITH(LOG_NOT_READ, qll_as_quoted(qll_text_of(file->name)), qll_as_reason(why)),
        NULL);
    return QLL_IO;
}

/* The units of the log's own titles, where nobody says which. */
static void take_units(qll_asked *asked, const qll_pressure_result *result)
{
    for (size_t c = 0; c < QLL_CHANNEL_COUNT && asked->question->units == NULL; c++) {
        qll_unit_system system;
        if (result->log.channel_units[c] != NULL) {
            qll_writer one = qll_writer_new(asked->arena);
            qll_write(&one, "1 ");
            qll_write(&one, result->log.channel_units[c]);
            if (qll_units_system_of(qll_writer_text(&one), &system)) {
                asked->units = system;
                return;
            }
        }
    }
}

static qll_status read_log(qll_asked *asked, const qll_pressure_expect *expect,
                           qll_pressure_result *result)
{
    const qll_attachment *file = asked->question->log;
    qll_flow_log_options options = qll_flow_log_options_default();
    options.name = file->path == NULL ? file->name : file->path;
    if (!qll_asked_log_options(asked, &options)) {
        return qll_problems_status(&asked->problems);
    }
    qll_flow_log *log = qll_pressure_log_open(&options, asked->arena);
    if (log == NULL) {
        return QLL_NO_MEMORY;
    }
    const char *why = "";
    qll_problems found = qll_problems_none(asked->arena);
    qll_progress_phase(asked, expect->context == NULL ? 0.0 : QLL_SHARE_SURVEY, QLL_SHARE_READ);
    const qll_status status = qll_stream_log(asked, file, log, &result->log, &found, &why);
    if (status == QLL_IO) {
        return qll_asked_log_failed(asked, why);
    }
    if (status == QLL_NO_MEMORY || status == QLL_STOPPED) {
        return status;
    }
    qll_asked_log_problems(asked, &found);
    if (status != QLL_OK) {
        return status;
    }
    if (expect->context == NULL) {
        take_units(asked, result);
    }
    return qll_pressure_judge(result->log.taken, expect, asked->arena, result) ? QLL_OK
                                                                               : QLL_NO_MEMORY;
}

/* The sheets, for a front end that writes the file. */
static qll_status make_sheets(qll_asked *asked, const qll_pressure_findings *findings)
{
    qll_sheet sheet;
    qll_pressure_sheet(findings, asked->arena, false, &sheet);
    return qll_asked_write_sheet(asked, &sheet);
}

/* The same inside the answer. */
static bool tell_sheets(qll_asked *asked, qll_pressure_findings *findings)
{
    qll_sheet sheet;
    qll_pressure_sheet(findings, asked->arena, false, &sheet);
    return qll_asked_tell_sheet(asked, &sheet, &findings->page);
}

static qll_status write_answer(qll_asked *asked, qll_pressure_findings *findings)
{
    if (asked->made != NULL) {
        return make_sheets(asked, findings);
    }
    if (asked->question->form == QLL_FORM_JSON) {
        if (qll_has_part(asked->left_out, QLL_PART_SHEETS) && !tell_sheets(asked, findings)) {
            return QLL_NO_MEMORY;
        }
        qll_json json = qll_json_new(&asked->writer);
        qll_pressure_write(&json, findings);
        qll_write(&asked->writer, "\n");
        return QLL_OK;
    }
    qll_pressure_print(&asked->writer, findings);
    return QLL_OK;
}

qll_status qll_ask_log(qll_asked *asked)
{
    qll_pressure_expect expect = {0};
    compared *with = qll_arena_take(asked->arena, 1, sizeof *with);
    qll_pressure_result *result = qll_arena_take(asked->arena, 1, sizeof *result);
    if (with == NULL || result == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_status status = QLL_OK;
    if (asked->question->document.bytes != NULL) {
        status = prepare_comparison(asked, with, &expect);
    }
    if (status == QLL_OK) {
        status = read_log(asked, &expect, result);
    }
    if (status != QLL_OK) {
        return status;
    }
    const qll_attachment *file = asked->question->log;
    qll_pressure_findings findings = {
        .name = file->name,
        .result = result,
        .survey = expect.context == NULL ? NULL : with->prepared.survey.name,
        .units = asked->units,
        .language = asked->language,
        .assumed = &asked->assumed,
        .problems = &asked->problems,
    };
    if (!find_times(asked, &findings)) {
        return QLL_NO_MEMORY;
    }
    status = write_answer(asked, &findings);
    return status == QLL_OK ? qll_asked_finish(asked) : status;
}
