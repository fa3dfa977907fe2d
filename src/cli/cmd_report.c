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

/* A report on its way into a file. */
typedef struct errand {
    const char *path;
    bool is_json; /* what was made is reported on standard output */
    qll_language language;
    qll_arena *arena;
    qll_made_report made;
} errand;

/* "cannot write sheets.pdf: No space left on device" */
static qll_status complain_write(const errand *run, const char *why)
{
    qll_writer path = qll_writer_new(run->arena);
    qll_write_visible(&path, qll_text_of(run->path));
    const qll_said said = {QLL_TEXT_CLI_CANNOT_WRITE,
                           {qll_as_is(qll_writer_text(&path).bytes), qll_as_is(why)}};
    qll_writer says = qll_writer_new(run->arena);
    qll_cli_say(&says, run->language, said);
    const char *text = qll_writer_text(&says).bytes;
    if (qll_arena_refused(run->arena) > 0) {
        return QLL_NO_MEMORY;
    }
    qll_cli_complain(run->arena, run->language, said);
    qll_text json = {0};
    if (run->is_json) {
        qll_status status = qll_report_tell_failure(run->path, text, run->arena, &json);
        status = status == QLL_OK ? qll_cli_print_text(json, run->language, run->arena) : status;
        return status == QLL_NO_MEMORY ? status : QLL_IO;
    }
    return QLL_IO;
}

/* Cairo, pango and what they lean on end the program where the system gives no memory: so it is asked for first. They
 * take some 60 MiB of a report's sheets; measured. */
static const size_t paper_size = (size_t)96 << 20;

/* The bytes of the file; @p why after QLL_IO. */
static qll_status put_on_paper(const errand *run, qll_text *bytes, const char **why)
{
    const qll_made_report *made = &run->made;
    if (made->form != QLL_SHEETS_PDF) {
        *bytes = made->text;
        return QLL_OK;
    }
    const qll_paper_about about = {
        .title = made->subject,
        .subject = made->title,
        .language = made->language,
        .created = qll_host_created(run->arena),
    };
    if (!qll_host_has_memory(paper_size)) {
        return QLL_NO_MEMORY;
    }
    qll_paper paper;
    qll_status status = qll_pdf_write(made->pages, &about, NULL, run->arena, &paper);
    *bytes = paper.bytes;
    *why = paper.why;
    if (status == QLL_OK && paper.warning[0] != '\0') {
        qll_cli_complain(run->arena, run->language,
                         (qll_said){QLL_TEXT_CLI_WARNING, {qll_as_is(paper.warning)}});
    }
    return status;
}

static qll_status save(const errand *run)
{
    qll_text bytes = {0};
    const char *why = "";
    qll_status status = put_on_paper(run, &bytes, &why);
    if (status == QLL_OK) {
        status = qll_host_write(run->path, bytes, run->arena, &why);
    }
    if (status == QLL_IO) {
        return complain_write(run, why);
    }
    if (status != QLL_OK || !run->is_json) {
        return status;
    }
    qll_text json = {0};
    status = qll_report_tell(&run->made, run->path, bytes.size, run->arena, &json);
    return status == QLL_OK ? qll_cli_print_text(json, run->language, run->arena) : status;
}

/* What FILE is by its ending; QLL_SHEETS_COUNT for an ending nobody knows. */
static qll_sheets_form form_of(const char *path)
{
    static const char *const endings[QLL_SHEETS_COUNT] = {
        [QLL_SHEETS_PDF] = ".pdf", [QLL_SHEETS_HTML] = ".html", [QLL_SHEETS_SVG] = ".svg"};
    int form = 0;
    while (form < QLL_SHEETS_COUNT && (path == NULL || !ends_in(path, endings[form]))) {
        form += 1;
    }
    return (qll_sheets_form)form;
}

/* What is read must not be what is written: a survey that is gone is worth more than sheets. */
static bool is_an_input(const char *path, const qll_cli_line *line, const qll_question *question)
{
    const char *catalogue = line->values[QLL_CLI_CATALOGUE];
    bool is_one = qll_host_same_file(path, line->words[0])
                  || (catalogue != NULL && qll_host_same_file(path, catalogue));
    for (size_t i = 0; i < question->attachment_count; i++) {
        is_one = is_one || qll_host_same_file(path, question->attachments[i].path);
    }
    return is_one;
}

/* What does not go with a file of @p form; NONE. */
static qll_text_id misuse_of(const qll_cli_line *line, qll_sheets_form form)
{
    const bool is_svg = form == QLL_SHEETS_SVG;
    if (form == QLL_SHEETS_COUNT) {
        return QLL_TEXT_CLI_OUTPUT_MISSING;
    }
    if (line->values[QLL_CLI_PLOT] != NULL && !is_svg) {
        return QLL_TEXT_CLI_PLOT_NOT_SVG;
    }
    return line->values[QLL_CLI_SECTIONS] != NULL && is_svg ? QLL_TEXT_CLI_SECTIONS_SVG
                                                            : QLL_TEXT_NONE;
}

qll_status qll_cli_report(const qll_cli_command *command, const qll_cli_line *line,
                          qll_arena *arena)
{
    errand run = {
        .path = line->values[QLL_CLI_OUTPUT],
        .is_json = line->values[QLL_CLI_JSON] != NULL,
        .language = line->language,
        .arena = arena,
    };
    run.made.form = form_of(run.path);
    const qll_text_id misuse = misuse_of(line, run.made.form);
    if (misuse != QLL_TEXT_NONE) {
        qll_cli_complain(arena, line->language, (qll_said){.id = misuse});
        return QLL_WRONG_USE;
    }
    qll_question question = {
        .verb = command->verb,
        .of = line->values[QLL_CLI_OF],
        .sections = line->values[QLL_CLI_SECTIONS],
        .length = line->values[QLL_CLI_LENGTH],
        .date = line->values[QLL_CLI_DATE],
        .plot = line->values[QLL_CLI_PLOT],
        .parts = line->values[QLL_CLI_PARTS],
        .seed = line->values[QLL_CLI_SEED],
    };
    qll_status status = qll_cli_open_survey(line, arena, &question);
    if (status == QLL_OK && is_an_input(run.path, line, &question)) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_OUTPUT_IS_INPUT});
        return QLL_WRONG_USE;
    }
    if (status == QLL_OK) {
        status = qll_cli_make_report(&question, line, arena, &run.made);
    }
    return status == QLL_OK ? save(&run) : status;
}
