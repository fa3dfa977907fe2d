#include "cli/save.h"

#include "cli/answer.h"
#include "host/host.h"
#include "paper/paper.h"


/* "cannot write sheets.pdf: No space left on device" */
static qll_status complain_write(const qll_cli_errand *run, const char *why)
{
    const qll_said said = qll_cli_of_file(run->arena, QLL_TEXT_CLI_CANNOT_WRITE, run->path, why);
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

/* Cairo, pango and what they lean on end the program where the system gives no memory: so it is asked for first. What
 * they fill is some 60 MiB, but pango looks for fonts in threads, up to three at once, each with a stack and a heap
 * reserved for it: 216 MiB of addresses at most, measured. */
static const size_t paper_size = (size_t)320 << 20;

static qll_status put_on_paper(const qll_made_report *made, qll_arena *arena, qll_paper *paper)
{
    const qll_paper_about about = {
        .title = made->subject,
        .subject = made->title,
        .language = made->language,
        .created = qll_host_created(arena),
    };
    *paper = (qll_paper){.why = "", .warning = ""};
    return qll_host_has_memory(paper_size) ? qll_pdf_write(made->pages, &about, NULL, arena, paper)
                                           : QLL_NO_MEMORY;
}

qll_status qll_cli_print_pdf(const qll_made_report *made, qll_arena *arena, qll_text *bytes,
                             const char **why)
{
    qll_paper paper;
    const qll_status status = put_on_paper(made, arena, &paper);
    *bytes = paper.bytes;
    *why = paper.why;
    return status;
}

/* The bytes of the file; @p why after QLL_IO. */
static qll_status make_bytes(const qll_cli_errand *run, qll_text *bytes, const char **why)
{
    if (run->made.form != QLL_SHEETS_PDF) {
        *bytes = run->made.text;
        return QLL_OK;
    }
    qll_paper paper;
    const qll_status status = put_on_paper(&run->made, run->arena, &paper);
    *bytes = paper.bytes;
    *why = paper.why;
    if (status == QLL_OK && paper.warning[0] != '\0') {
        qll_cli_complain(run->arena, run->language,
                         (qll_said){QLL_TEXT_CLI_WARNING, {qll_as_is(paper.warning)}});
    }
    return status;
}

qll_status qll_cli_save(const qll_cli_errand *run)
{
    qll_text bytes = {0};
    const char *why = "";
    qll_status status = make_bytes(run, &bytes, &why);
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

qll_sheets_form qll_cli_sheets_form(const char *path)
{
    static const char *const endings[QLL_SHEETS_COUNT] = {
        [QLL_SHEETS_PDF] = ".pdf", [QLL_SHEETS_HTML] = ".html", [QLL_SHEETS_SVG] = ".svg"};
    int form = 0;
    while (form < QLL_SHEETS_COUNT
           && (path == NULL || !qll_text_ends_in(qll_text_of(path), endings[form]))) {
        form += 1;
    }
    return (qll_sheets_form)form;
}

bool qll_cli_may_make_sheets(const qll_cli_line *line, const char *const *read, size_t count,
                             qll_arena *arena)
{
    const char *output = line->values[QLL_CLI_OUTPUT];
    const qll_sheets_form form = qll_cli_sheets_form(output);
    qll_text_id misuse = QLL_TEXT_NONE;
    if (output == NULL) {
        return true;
    }
    if (form != QLL_SHEETS_PDF && form != QLL_SHEETS_HTML) {
        misuse = QLL_TEXT_CLI_SHEETS_MISSING;
    } else if (line->values[QLL_CLI_JSON] != NULL) {
        misuse = QLL_TEXT_CLI_JSON_OR_OUTPUT;
    }
    for (size_t i = 0; i < count && misuse == QLL_TEXT_NONE; i++) {
        if (read[i] != NULL && qll_host_same_file(output, read[i])) {
            misuse = QLL_TEXT_CLI_OUTPUT_IS_INPUT;
        }
    }
    if (misuse != QLL_TEXT_NONE) {
        qll_cli_complain(arena, line->language, (qll_said){.id = misuse});
    }
    return misuse == QLL_TEXT_NONE;
}

qll_status qll_cli_ask_or_make(qll_question *question, const qll_cli_line *line, qll_arena *arena)
{
    const char *output = line->values[QLL_CLI_OUTPUT];
    if (output == NULL) {
        return qll_cli_ask(question, line, arena);
    }
    qll_cli_errand run = {.path = output,
                          .language = line->language,
                          .arena = arena,
                          .made = {.form = qll_cli_sheets_form(output)}};
    const qll_status status = qll_cli_make_report(question, line, arena, &run.made);
    return status == QLL_OK ? qll_cli_save(&run) : status;
}
