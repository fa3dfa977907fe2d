/* A log of the same minutes, put beside a recording. */
#include "engine/find_beside.h"

#include "base/quote.h"
#include "engine/log_asked.h"
#include "engine/progress.h"
#include "engine/stream_log.h"

#include <math.h>

static qll_status refuse(qll_asked *asked, qll_code code, const qll_said *says,
                         const qll_said *hint)
{
    const char *name = asked->question->recording->name;
    qll_asked_refuse(asked, code, name == NULL ? "" : name, says, hint);
    return QLL_REFUSED;
}

/* When the recording began: what is said counts before what the file says, and that before its name. */
static qll_status find_begin(qll_asked *asked, qll_begins *begins, qll_began *from)
{
    const qll_question *question = asked->question;
    const qll_recording *recording = question->recording;
    if (question->begins != NULL) {
        *from = QLL_BEGAN_SAID;
        return qll_begins_read(qll_text_of(question->begins), begins)
                   ? QLL_OK
                   : refuse(asked, QLL_CODE_SYNTAX,
                            QLL_SAYS_WITH(BEGINS_UNREADABLE,
                                          qll_as_quoted(qll_text_of(question->begins))),
                            QLL_SAYS(HINT_BEGINS));
    }
    if (recording->began != NULL && qll_begins_read(qll_text_of(recording->began), begins)) {
        *from = QLL_BEGAN_FILE;
    } else if (recording->name != NULL && qll_begins_in(qll_text_of(recording->name), begins)) {
        *from = QLL_BEGAN_NAME;
    } else {
        *from = QLL_BEGAN_TOGETHER;
        *begins = (qll_begins){.is_elapsed = true};
    }
    return QLL_OK;
}

static void assume(qll_asked *asked, const qll_begins *begins, qll_began from)
{
    static const qll_text_id whys[QLL_BEGAN_COUNT] = {[QLL_BEGAN_FILE] = QLL_TEXT_WHY_BEGINS_FILE,
                                                      [QLL_BEGAN_NAME] = QLL_TEXT_WHY_BEGINS_NAME,
                                                      [QLL_BEGAN_TOGETHER] =
                                                          QLL_TEXT_WHY_BEGINS_TOGETHER};
    if (from == QLL_BEGAN_SAID) {
        return;
    }
    qll_writer shown = qll_writer_new(asked->arena);
    const long long of_day_s = begins->local_ms / 1000 % 86400;
    if (begins->is_elapsed) {
        qll_write(&shown, "0 s");
    } else {
        qll_write_format(&shown, "%02lld:%02lld:%02lld", of_day_s / 3600, of_day_s / 60 % 60,
                         of_day_s % 60);
    }
    qll_assumed_add(&asked->assumed, qll_as_text(QLL_TEXT_WHAT_BEGINS),
                    qll_as_is(qll_writer_text(&shown).bytes), (qll_said){.id = whys[from]});
}

static qll_status read(qll_asked *asked, qll_beside_window *window, qll_flow_log_result *result)
{
    const qll_attachment *file = asked->question->log;
    const qll_channel_taker taker = qll_beside_taker_of(window);
    qll_flow_log_options options = qll_flow_log_options_default();
    options.name = file->path == NULL ? file->name : file->path;
    options.taker = &taker;
    if (!qll_asked_log_options(asked, &options)) {
        return qll_problems_status(&asked->problems);
    }
    qll_flow_log *log = qll_flow_log_open(&options, asked->arena);
    if (log == NULL) {
        return QLL_NO_MEMORY;
    }
    const char *why = "";
    qll_problems found = qll_problems_none(asked->arena);
    const qll_status status = qll_stream_log(asked, file, log, result, &found, &why);
    if (status == QLL_IO) {
        return qll_asked_log_failed(asked, why);
    }
    if (status != QLL_NO_MEMORY && status != QLL_STOPPED) {
        qll_asked_log_problems(asked, &found);
    }
    return status;
}

qll_status qll_find_beside(qll_asked *asked, const qll_sound_result *heard,
                           const qll_beside_findings **beside)
{
    qll_beside_window window = {.duration_s = heard->duration_s,
                                .column_s = heard->gram.row_s,
                                .column_count = heard->gram.row_count};
    qll_beside_findings *made = qll_arena_take(asked->arena, 1, sizeof *made);
    qll_beside_result *result = qll_arena_take(asked->arena, 1, sizeof *result);
    qll_flow_log_result *log = qll_arena_take(asked->arena, 1, sizeof *log);
    if (made == NULL || result == NULL || log == NULL) {
        return QLL_NO_MEMORY;
    }
    *made = (qll_beside_findings){.name = asked->question->log->name, .result = result};
    qll_status status = find_begin(asked, &window.begins, &made->began);
    status = status == QLL_OK ? read(asked, &window, log) : status;
    if (status != QLL_OK) {
        return status;
    }
    if (made->began == QLL_BEGAN_TOGETHER && !log->is_elapsed) {
        return refuse(asked, QLL_CODE_MISSING_KEY, QLL_SAYS(BEGINS_UNKNOWN), QLL_SAYS(HINT_BEGINS));
    }
    status = qll_beside_judge(log->taken, heard, asked->arena, result);
    if (status == QLL_REFUSED) {
        return refuse(asked, QLL_CODE_OUT_OF_RANGE,
                      QLL_SAYS_WITH(BESIDE_APART, qll_as_number(floor(result->overlap_s)),
                                    qll_as_number(floor(result->log_from_s + 0.5)),
                                    qll_as_number(floor(result->log_to_s + 0.5))),
                      QLL_SAYS(HINT_BEGINS));
    }
    assume(asked, &window.begins, made->began);
    *beside = made;
    return status;
}
