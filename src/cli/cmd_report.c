/* quell report: the sheets to hand over, as a file. */
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/save.h"
#include "host/host.h"

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
    qll_cli_errand run = {
        .path = line->values[QLL_CLI_OUTPUT],
        .is_json = line->values[QLL_CLI_JSON] != NULL,
        .language = line->language,
        .arena = arena,
    };
    run.made.form = qll_cli_sheets_form(run.path);
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
    qll_status status = qll_cli_open_survey(line, line->words[0], arena, &question);
    if (status == QLL_OK && is_an_input(run.path, line, &question)) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_OUTPUT_IS_INPUT});
        return QLL_WRONG_USE;
    }
    if (status == QLL_OK) {
        status = qll_cli_make_report(&question, line, arena, &run.made);
    }
    return status == QLL_OK ? qll_cli_save(&run) : status;
}
