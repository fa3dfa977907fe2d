/* quell listen: what kind of noise a recording holds. */
#include "base/quote.h"
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/save.h"
#include "host/host.h"
#include "host/recording.h"

#include <string.h>

/* The recording at @p path; complains if it cannot be read. */
static qll_status open_recording(const char *path, qll_arena *arena, qll_host_recording **opened,
                                 qll_recording *recording)
{
    const char *why = "";
    const qll_status status = qll_host_recording_open(path, arena, opened, recording, &why);
    if (status == QLL_IO || status == QLL_REFUSED) {
        qll_writer says = qll_writer_new(arena);
        qll_write(&says, "cannot read ");
        qll_write_visible(&says, qll_text_of(path));
        qll_write(&says, ": ");
        const char *text = qll_writer_text(&says).bytes;
        qll_cli_complain(arena, text, why);
    }
    return status;
}

static qll_status answer(qll_question *question, const qll_cli_line *line, qll_arena *arena)
{
    const char *output = line->values[QLL_CLI_OUTPUT];
    if (output == NULL) {
        return qll_cli_ask(question, line, arena);
    }
    qll_errand run = {.path = output, .arena = arena, .made = {.form = qll_cli_form_of(output)}};
    const qll_status status = qll_cli_make_report(question, line, arena, &run.made);
    return status == QLL_OK ? qll_cli_save(&run) : status;
}

/* Standard input is one file; what is read must not be what is written. */
static bool makes_sense(const qll_cli_line *line, qll_arena *arena)
{
    const char *const read[] = {line->words[0], line->values[QLL_CLI_QUIET],
                                line->values[QLL_CLI_SURVEY], line->values[QLL_CLI_CATALOGUE]};
    const char *output = line->values[QLL_CLI_OUTPUT];
    size_t from_input = 0;
    for (size_t i = 0; i < sizeof read / sizeof read[0]; i++) {
        from_input += read[i] != NULL && strcmp(read[i], "-") == 0;
        if (read[i] != NULL && output != NULL && qll_host_same_file(output, read[i])) {
            qll_cli_complain(arena, "-o names a file that is read; choose another name", "");
            return false;
        }
    }
    if (from_input > 1) {
        qll_cli_complain(arena, "only one file can come from standard input", "");
        return false;
    }
    const qll_sheets_form form = qll_cli_form_of(output);
    if (output != NULL && form != QLL_SHEETS_PDF && form != QLL_SHEETS_HTML) {
        qll_cli_complain(arena, "say where the sheets go: -o FILE.pdf or -o FILE.html", "");
        return false;
    }
    if (output != NULL && line->values[QLL_CLI_JSON] != NULL) {
        qll_cli_complain(arena,
                         "--json prints the answer, -o makes its sheets: ask for one of them", "");
        return false;
    }
    return true;
}

qll_status qll_cli_listen(const qll_cli_command *command, const qll_cli_line *line,
                          qll_arena *arena)
{
    if (!makes_sense(line, arena)) {
        return QLL_WRONG_USE;
    }
    const char *survey = line->values[QLL_CLI_SURVEY], *quiet_path = line->values[QLL_CLI_QUIET];
    qll_question question = {.verb = command->verb, .parts = line->values[QLL_CLI_PARTS]};
    qll_host_recording *opened = NULL, *opened_quiet = NULL;
    qll_recording recording, quiet;
    qll_status status = open_recording(line->words[0], arena, &opened, &recording);
    question.recording = &recording;
    if (status == QLL_OK && quiet_path != NULL) {
        status = open_recording(quiet_path, arena, &opened_quiet, &quiet);
        question.quiet = &quiet;
    }
    if (status == QLL_OK && survey != NULL) {
        status = qll_cli_open_survey(survey, line, arena, &question);
    }
    if (status == QLL_OK) {
        status = answer(&question, line, arena);
    }
    qll_host_recording_close(opened);
    qll_host_recording_close(opened_quiet);
    return status;
}
