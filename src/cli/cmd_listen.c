/* quell listen: what kind of noise a recording holds. */
#include "base/quote.h"
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/save.h"
#include "host/host.h"
#include "host/recording.h"

#include <string.h>

/* The recording at @p path; complains if it cannot be read. */
static qll_status open_recording(const char *path, qll_language language, qll_arena *arena,
                                 qll_host_recording **opened, qll_recording *recording)
{
    const char *why = "";
    const qll_status status = qll_host_recording_open(path, arena, opened, recording, &why);
    if (status == QLL_IO || status == QLL_REFUSED) {
        qll_writer shown = qll_writer_new(arena);
        qll_write_visible(&shown, qll_text_of(path));
        qll_cli_complain(arena, language,
                         (qll_said){QLL_TEXT_CLI_CANNOT_READ,
                                    {qll_as_is(qll_writer_text(&shown).bytes), qll_as_is(why)}});
    }
    return status;
}

static qll_status answer(qll_question *question, const qll_cli_line *line, qll_arena *arena)
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
            qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_OUTPUT_IS_INPUT});
            return false;
        }
    }
    if (from_input > 1) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_ONE_INPUT});
        return false;
    }
    const qll_sheets_form form = qll_cli_sheets_form(output);
    if (output != NULL && form != QLL_SHEETS_PDF && form != QLL_SHEETS_HTML) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_SHEETS_MISSING});
        return false;
    }
    if (output != NULL && line->values[QLL_CLI_JSON] != NULL) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_JSON_OR_OUTPUT});
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
    qll_status status = open_recording(line->words[0], line->language, arena, &opened, &recording);
    question.recording = &recording;
    if (status == QLL_OK && quiet_path != NULL) {
        status = open_recording(quiet_path, line->language, arena, &opened_quiet, &quiet);
        question.quiet = &quiet;
    }
    if (status == QLL_OK && survey != NULL) {
        status = qll_cli_open_survey(line, survey, arena, &question);
    }
    if (status == QLL_OK) {
        status = answer(&question, line, arena);
    }
    qll_host_recording_close(opened);
    qll_host_recording_close(opened_quiet);
    return status;
}
