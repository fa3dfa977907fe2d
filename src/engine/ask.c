#include "quell/quell.h"
#include "quell/report.h"

#include "base/quote.h"
#include "engine/choose.h"
#include "engine/keep.h"
#include "engine/progress.h"
#include "report/pictures.h"
#include "report/report.h"
#include "signals/log_zone.h"

#include <string.h>

const char *qll_version(void)
{
    return QLL_VERSION;
}

typedef qll_status ask_function(qll_asked *asked);

static ask_function *const asks[QLL_VERB_COUNT] = {
    [QLL_VERB_DEMAND] = qll_ask_demand,     [QLL_VERB_DESIGN] = qll_ask_design,
    [QLL_VERB_CHECK] = qll_ask_check,       [QLL_VERB_CALC] = qll_ask_calc,
    [QLL_VERB_IMPORT] = qll_ask_import,     [QLL_VERB_FIT] = qll_ask_fit,
    [QLL_VERB_LIST] = qll_ask_list,         [QLL_VERB_REPORT] = qll_ask_report,
    [QLL_VERB_DIAGNOSE] = qll_ask_diagnose, [QLL_VERB_LEARN] = qll_ask_learn,
    [QLL_VERB_LOG] = qll_ask_log,           [QLL_VERB_LISTEN] = qll_ask_listen,
    [QLL_VERB_DESCRIBE] = qll_ask_describe, [QLL_VERB_SIMULATE] = qll_ask_simulate,
};

/* A whole number of at most 18 digits; refused if it is none. */
static uint64_t read_seed(qll_asked *asked, const char *word)
{
    uint64_t seed = 0;
    size_t count = strlen(word);
    bool is_whole = count > 0 && count <= 18;
    for (size_t i = 0; i < count && is_whole; i++) {
        is_whole = word[i] >= '0' && word[i] <= '9';
        seed = 10 * seed + (uint64_t)(unsigned char)(word[i] - '0');
    }
    if (!is_whole) {
        qll_asked_refuse(asked, QLL_CODE_NO_NUMBER, "--seed",
                         QLL_SAYS_WITH(SEED_UNKNOWN, qll_as_quoted(qll_text_of(word))), NULL);
    }
    return seed;
}

/* "2026-11-30": a day of the calendar. */
static bool is_date(const char *word)
{
    static const char form[] = "dddd-dd-dd";
    for (size_t i = 0; i < sizeof form; i++) {
        if (form[i] == 'd' ? !qll_is_digit(word[i]) : word[i] != form[i]) {
            return false;
        }
    }
    const int year =
        1000 * (word[0] - '0') + 100 * (word[1] - '0') + 10 * (word[2] - '0') + word[3] - '0';
    const int month = 10 * (word[5] - '0') + word[6] - '0';
    const int day = 10 * (word[8] - '0') + word[9] - '0';
    int y = 0;
    int m = 0;
    int d = 0;
    qll_calendar_date(qll_calendar_days(year, month, day), &y, &m, &d);
    return y == year && m == month && d == day;
}

/* A report has forms of its own, which no other answer has; which one, where a front end makes the file, is
 * said apart from the question. */
static void check_form(qll_asked *asked)
{
    const qll_question *question = asked->question;
    if ((unsigned)question->form > QLL_FORM_SCHEMA
        || (question->form == QLL_FORM_SCHEMA && question->verb != QLL_VERB_DESCRIBE)) {
        qll_asked_refuse(asked, QLL_CODE_UNKNOWN_WORD, "", QLL_SAYS(FORM_WRONG), NULL);
        return;
    }
    bool is_sheets = question->form == QLL_FORM_HTML || question->form == QLL_FORM_SVG;
    bool is_report = question->verb == QLL_VERB_REPORT;
    if (asked->asking != NULL && question->verb != QLL_VERB_DIAGNOSE) {
        qll_asked_refuse(asked, QLL_CODE_UNKNOWN_WORD, "", QLL_SAYS(FORM_WRONG), NULL);
        return;
    }
    bool has_sheets = is_report || question->verb == QLL_VERB_LOG;
    if (question->verb == QLL_VERB_LISTEN || question->verb == QLL_VERB_SIMULATE) {
        has_sheets = asked->made != NULL && asked->made->form != QLL_SHEETS_SVG;
        is_report = has_sheets;
        is_sheets = question->form == QLL_FORM_SVG || (has_sheets && is_sheets);
    }
    if (asked->made != NULL ? is_sheets || !has_sheets
                            : (is_report ? question->form == QLL_FORM_TEXT : is_sheets)) {
        qll_asked_refuse(asked, QLL_CODE_UNKNOWN_WORD, "", QLL_SAYS(FORM_WRONG), NULL);
    }
}

/* Whose sheets, which of them, how much of them, of which day. */
static void choose_report(qll_asked *asked)
{
    const qll_question *question = asked->question;
    asked->of = QLL_REPORT_OF_DESIGN;
    if (question->of != NULL) {
        const qll_choice choice = {"--of", qll_report_of_words, QLL_REPORT_OF_COUNT,
                                   QLL_TEXT_SHEETS_UNKNOWN};
        asked->of = (unsigned)qll_choose(asked, &choice, question->of);
    }
    asked->sections = QLL_SECTIONS_ALL;
    if (question->sections != NULL) {
        const qll_choice choice = {"--sections", qll_section_words, QLL_SECTION_COUNT,
                                   QLL_TEXT_SECTION_UNKNOWN};
        asked->sections = qll_choose_set(asked, &choice, question->sections);
    }
    asked->length = QLL_REPORT_LENGTH_COUNT;
    if (question->length != NULL) {
        const qll_choice choice = {"--length", qll_report_length_words, QLL_REPORT_LENGTH_COUNT,
                                   QLL_TEXT_LENGTH_UNKNOWN};
        asked->length = (unsigned)qll_choose(asked, &choice, question->length);
    }
    if (question->date != NULL && !is_date(question->date)) {
        qll_asked_refuse(asked, QLL_CODE_OUT_OF_RANGE, "--date",
                         QLL_SAYS_WITH(DATE_UNKNOWN, qll_as_quoted(qll_text_of(question->date))),
                         NULL);
    }
}

/* Does the question itself make sense? */
static bool makes_sense(qll_asked *asked)
{
    static const char *const systems[] = {"us", "si"};
    const qll_question *question = asked->question;
    if (question->language != NULL) {
        const qll_choice choice = {"--language", qll_language_words, QLL_LANGUAGE_COUNT,
                                   QLL_TEXT_LANGUAGE_UNKNOWN};
        size_t found = qll_choose(asked, &choice, question->language);
        asked->language = found < QLL_LANGUAGE_COUNT ? (qll_language)found : QLL_LANGUAGE_EN;
    }
    if (question->units != NULL) {
        const qll_choice choice = {"--units", systems, 2, QLL_TEXT_UNITS_UNKNOWN};
        asked->units =
            qll_choose(asked, &choice, question->units) == 1 ? QLL_UNITS_SI : QLL_UNITS_US;
    }
    asked->seed = question->seed == NULL ? 1 : read_seed(asked, question->seed);
    choose_report(asked);
    if (question->plot != NULL) {
        qll_choose_figure(asked, "--plot", question->plot, false, &asked->plot);
    }
    qll_choose_parts(asked);
    qll_choose_figures(asked);
    check_form(asked);
    bool needs_document = question->verb != QLL_VERB_CALC && question->verb != QLL_VERB_LIST
                          && question->verb != QLL_VERB_LOG && question->verb != QLL_VERB_LISTEN
                          && question->verb != QLL_VERB_DESCRIBE;
    if (question->verb == QLL_VERB_LISTEN && question->recording == NULL) {
        qll_asked_refuse(asked, QLL_CODE_MISSING_KEY, "", QLL_SAYS(RECORDING_MISSING), NULL);
    }
    if ((needs_document && question->document.bytes == NULL)
        || (question->verb == QLL_VERB_LOG && question->log == NULL)) {
        qll_asked_refuse(asked, QLL_CODE_MISSING_KEY, "", QLL_SAYS(DOCUMENT_MISSING), NULL);
    }
    return asked->problems.refusal_count == 0;
}

/* The problems as machines read them, in place of an answer. */
static void write_refusal(qll_asked *asked)
{
    asked->writer = qll_writer_new(asked->arena);
    qll_json json = qll_json_new(&asked->writer);
    const qll_wording wording = {.units = asked->units, .language = asked->language};
    qll_refusal_write(&json, qll_verb_words[asked->question->verb], &wording, &asked->problems);
    qll_write(&asked->writer, "\n");
}

/* Moves the text and the problems into the answer. */
static qll_status hand_over(qll_asked *asked, qll_status status, qll_answer *answer)
{
    bool is_json = asked->question->form == QLL_FORM_JSON;
    if ((status == QLL_REFUSED || status == QLL_IO) && is_json) {
        write_refusal(asked);
    }
    if (status == QLL_OK || ((status == QLL_REFUSED || status == QLL_IO) && is_json)) {
        qll_text text = qll_writer_text(&asked->writer);
        answer->bytes = text.bytes;
        answer->size = text.size;
    }
    size_t count = asked->problems.kept_count;
    qll_problem *problems = qll_arena_take(asked->arena, count, sizeof *problems);
    if (problems == NULL) {
        *answer = (qll_answer){0};
        return QLL_NO_MEMORY;
    }
    const qll_wording wording = {.units = asked->units, .language = asked->language};
    for (size_t i = 0; i < count; i++) {
        problems[i] = qll_wording_problem(asked->arena, &wording, &asked->problems.kept[i]);
    }
    answer->problems = problems;
    answer->problem_count = count;
    answer->problem_total = asked->problems.count;
    answer->warning = qll_say(asked->language, QLL_SAYS_WARNING);
    return status;
}

static qll_status ask(qll_asked *asked, qll_answer *answer)
{
    if ((unsigned)asked->question->verb >= QLL_VERB_COUNT) {
        qll_asked_refuse(asked, QLL_CODE_UNKNOWN_WORD, "", QLL_SAYS(VERB_UNKNOWN), NULL);
        return hand_over(asked, QLL_WRONG_USE, answer);
    }
    if (!makes_sense(asked)) {
        return hand_over(asked, QLL_WRONG_USE, answer);
    }
    qll_progress_phase(asked, 0.0, 1.0);
    qll_status status = asks[asked->question->verb](asked);
    if (status == QLL_OK) {
        qll_progress_phase(asked, 1.0, 1.0);
        (void)qll_progress_tell(1.0, asked); /* there is an answer by now: nothing to stop */
    }
    return hand_over(asked, status, answer);
}

/* What the answer is to become, where it is no text: one of the two, or neither. */
typedef struct becoming {
    qll_made_report *made;
    qll_asking *asking;
} becoming;

static qll_status ask_whole(const qll_question *question, qll_kept *kept, qll_arena *arena,
                            becoming what, qll_answer *answer)
{
    *answer = (qll_answer){0};
    qll_asked asked = {
        .question = question,
        .arena = arena,
        .problems = qll_problems_none(arena),
        .assumed = qll_assumed_none(arena),
        .kept = kept,
        .made = what.made,
        .asking = what.asking,
        .writer = qll_writer_new(arena),
    };
    size_t refused = qll_arena_refused(arena);
    qll_status status = ask(&asked, answer);
    /* A hint or a place may be left out when memory is short; an answer is whole or none. */
    if (qll_arena_refused(arena) != refused) {
        *answer = (qll_answer){0};
        return QLL_NO_MEMORY;
    }
    return status;
}

qll_status qll_ask(const qll_question *question, qll_arena *arena, qll_answer *answer)
{
    return ask_whole(question, NULL, arena, (becoming){0}, answer);
}

qll_status qll_ask_kept(qll_kept *kept, const qll_question *question, qll_arena *arena,
                        qll_answer *answer)
{
    qll_keep_begin(kept);
    return ask_whole(question, kept, arena, (becoming){0}, answer);
}

/* What was made stands elsewhere; only a refusal as JSON is an answer by itself. */
static qll_status only_problems(qll_status status, qll_answer *answer)
{
    if (status == QLL_OK) {
        answer->bytes = NULL;
        answer->size = 0;
    }
    return status;
}

qll_status qll_make_report(const qll_question *question, qll_sheets_form form, qll_arena *arena,
                           qll_made_report *made, qll_answer *answer)
{
    *made = (qll_made_report){.form = form};
    qll_status status = ask_whole(question, NULL, arena, (becoming){.made = made}, answer);
    return only_problems(status, answer);
}

qll_status qll_ask_next(const qll_question *question, qll_arena *arena, qll_asking *asking,
                        qll_answer *answer)
{
    *asking = (qll_asking){0};
    const qll_status status =
        ask_whole(question, NULL, arena, (becoming){.asking = asking}, answer);
    return only_problems(status, answer);
}
