/* quell report: the sheets to hand over, as a file. */
#include "base/quote.h"
#include "cli/answer.h"
#include "cli/commands.h"
#include "host/host.h"
#include "paper/paper.h"

#include <string.h>

static bool ends_in(const char *path, const char *ending)
{
    size_t size = strlen(path);
    size_t least = strlen(ending);
    return size > least && strcmp(path + size - least, ending) == 0;
}

/* "cannot write sheets.pdf: No space left on device" */
static qll_status complain_write(const char *path, const char *why, qll_arena *arena)
{
    qll_writer says = qll_writer_new(arena);
    qll_write(&says, "cannot write ");
    qll_write_visible(&says, qll_text_of(path));
    qll_write(&says, ": ");
    qll_text text = qll_writer_text(&says);
    qll_cli_complain(arena, text.bytes == NULL ? "cannot write: " : text.bytes, why);
    return QLL_IO;
}

static qll_status save(const char *path, qll_text bytes, qll_arena *arena)
{
    const char *why = "";
    qll_status status = qll_host_write(path, bytes, arena, &why);
    return status == QLL_IO ? complain_write(path, why, arena) : status;
}

static qll_status save_pdf(const char *path, qll_question *question, const qll_cli_line *line,
                           qll_arena *arena)
{
    qll_pages pages;
    qll_answer answer;
    qll_status status = qll_cli_answer(question, line, arena, &pages, &answer);
    if (status != QLL_OK) {
        return status;
    }
    const qll_paper_about about = {
        .title = pages.subject,
        .subject = pages.title,
        .language = pages.language,
        .created = qll_host_created(arena),
    };
    qll_paper paper;
    status = qll_pdf_write(pages.canvas, &about, NULL, arena, &paper);
    if (status == QLL_IO) {
        return complain_write(path, paper.why, arena);
    }
    return status == QLL_OK ? save(path, paper.bytes, arena) : status;
}

static qll_status save_text(const char *path, qll_question *question, const qll_cli_line *line,
                            qll_arena *arena)
{
    qll_answer answer;
    qll_status status = qll_cli_answer(question, line, arena, NULL, &answer);
    return status == QLL_OK ? save(path, (qll_text){answer.bytes, answer.size}, arena) : status;
}

/* What FILE is by its ending; text stands for an ending nobody knows. */
static qll_form form_of(const char *path)
{
    if (path != NULL && ends_in(path, ".html")) {
        return QLL_FORM_HTML;
    }
    return path != NULL && ends_in(path, ".svg") ? QLL_FORM_SVG : QLL_FORM_TEXT;
}

qll_status qll_cli_report(const qll_cli_command *command, const qll_cli_line *line,
                          qll_arena *arena)
{
    const char *path = line->values[QLL_CLI_OUTPUT];
    bool is_pdf = path != NULL && ends_in(path, ".pdf");
    qll_question question = {
        .verb = command->verb,
        .form = form_of(path),
        .sections = line->values[QLL_CLI_SECTIONS],
        .plot = line->values[QLL_CLI_PLOT],
        .seed = line->values[QLL_CLI_SEED],
    };
    if (!is_pdf && question.form == QLL_FORM_TEXT) {
        qll_cli_complain(arena,
                         "say where the report goes: -o FILE.pdf, -o FILE.html or -o FILE.svg", "");
        return QLL_WRONG_USE;
    }
    if (question.plot != NULL && question.form != QLL_FORM_SVG) {
        qll_cli_complain(arena, "--plot wants -o FILE.svg: PDF and HTML have every figure", "");
        return QLL_WRONG_USE;
    }
    qll_status status = qll_cli_open_survey(line, arena, &question);
    if (status != QLL_OK) {
        return status;
    }
    return is_pdf ? save_pdf(path, &question, line, arena)
                  : save_text(path, &question, line, arena);
}
