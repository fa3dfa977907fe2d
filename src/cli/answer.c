#include "cli/answer.h"

#include "base/document.h"
#include "base/problems.h"
#include "base/table.h"
#include "host/host.h"
#include "wording/says_reason.h"

#include <assert.h>
#include <string.h>

static_assert(QLL_HOST_FILE_SIZE >= QLL_DOCUMENT_SIZE, "a file is cut where its reader refuses it");
/* NOLINTNEXTLINE(misc-redundant-expression): two sizes that need not be equal for ever */
static_assert(QLL_HOST_FILE_SIZE >= QLL_TABLE_SIZE, "a table is cut where its reader refuses it");

qll_status qll_cli_print_text(qll_text text, qll_language language, qll_arena *arena)
{
    const char *why = "";
    qll_status status = qll_host_print(text, &why);
    if (status == QLL_IO) {
        qll_cli_complain(arena, language,
                         (qll_said){QLL_TEXT_CLI_CANNOT_ANSWER, {qll_as_reason(why)}});
    }
    return status;
}

qll_status qll_cli_print(qll_writer *writer, qll_language language)
{
    qll_text text = qll_writer_text(writer);
    return qll_arena_refused(writer->arena) > 0 ? QLL_NO_MEMORY
                                                : qll_cli_print_text(text, language, writer->arena);
}

qll_status qll_cli_read(const char *path, qll_language language, qll_arena *arena, qll_input *input)
{
    qll_text bytes = {0};
    const char *why = "";
    const char *name =
        strcmp(path, "-") == 0 ? qll_cli_text(language, QLL_TEXT_CLI_STANDARD_INPUT) : path;
    qll_status status = qll_host_read(path, arena, &bytes, &why);
    if (status == QLL_IO) {
        qll_cli_complain(arena, language,
                         qll_cli_of_file(arena, QLL_TEXT_CLI_CANNOT_READ, name, why));
    }
    *input = (qll_input){.name = name, .bytes = bytes.bytes, .size = bytes.size};
    return status;
}

qll_status qll_cli_read_option(const qll_cli_line *line, qll_cli_option option, qll_arena *arena,
                               qll_input *input)
{
    const char *path = line->values[option];
    return path == NULL ? QLL_OK : qll_cli_read(path, line->language, arena, input);
}

static void print_problems(const qll_answer *answer, qll_language language, qll_arena *arena)
{
    if (answer->problem_count == 0) {
        return;
    }
    qll_writer writer = qll_writer_new(arena);
    for (size_t i = 0; i < answer->problem_count; i++) {
        qll_problem_write(&writer, &answer->problems[i], answer->warning);
    }
    if (answer->problem_total > answer->problem_count) {
        const size_t more = answer->problem_total - answer->problem_count;
        qll_write(&writer, "quell: ");
        qll_cli_say(&writer, language, (qll_said){QLL_TEXT_CLI_MORE, {qll_as_whole(more)}});
        qll_write(&writer, "\n");
    }
    qll_cli_complain_written(&writer, language);
}

/* A bar on standard error, drawn only when somebody watches and the answer takes its time. */
typedef struct progress_bar {
    double start_s;
    bool is_watched;
    int shown; /* tenths drawn; -1 = no bar yet */
} progress_bar;

static bool show_progress(double share, void *context)
{
    progress_bar *bar = context;
    int tenths = share < 1.0 ? (int)(share * 10.0) : 10;
    if (qll_host_is_stopped()) {
        return false;
    }
    if (!bar->is_watched || qll_host_now_s() - bar->start_s < 1.0 || tenths <= bar->shown) {
        return true;
    }
    static const char full[] = "##########";
    static const char empty[] = "..........";
    qll_host_complain("\r[");
    qll_host_complain(full + 10 - tenths);
    qll_host_complain(empty + tenths);
    qll_host_complain("]");
    bar->shown = tenths;
    return true;
}

/* Asks, for a report if @p made is not NULL; shows progress and problems, prints what there is to print. */
static qll_status answer_question(qll_question *question, const qll_cli_line *line,
                                  qll_arena *arena, qll_made_report *made)
{
    question->form = line->values[QLL_CLI_JSON] != NULL ? QLL_FORM_JSON : QLL_FORM_TEXT;
    question->form = line->values[QLL_CLI_SCHEMA] != NULL ? QLL_FORM_SCHEMA : question->form;
    question->units = line->values[QLL_CLI_UNITS];
    question->language = line->values[QLL_CLI_LANGUAGE];
    progress_bar bar = {
        .start_s = qll_host_now_s(), .is_watched = qll_host_is_watched(), .shown = -1};
    question->progress = show_progress;
    question->progress_context = &bar;
    qll_answer answer;
    qll_status status = made == NULL ? qll_ask(question, arena, &answer)
                                     : qll_make_report(question, made->form, arena, made, &answer);
    if (bar.shown >= 0) {
        qll_host_complain("\r            \r");
    }
    print_problems(&answer, line->language, arena);
    if (answer.bytes != NULL) {
        qll_status printed =
            qll_cli_print_text((qll_text){answer.bytes, answer.size}, line->language, arena);
        status = printed != QLL_OK ? printed : status;
    }
    return status;
}

qll_status qll_cli_ask(qll_question *question, const qll_cli_line *line, qll_arena *arena)
{
    return answer_question(question, line, arena, NULL);
}

qll_status qll_cli_make_report(qll_question *question, const qll_cli_line *line, qll_arena *arena,
                               qll_made_report *made)
{
    return answer_question(question, line, arena, made);
}
