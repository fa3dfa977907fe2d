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

qll_status qll_cli_report(const qll_cli_command *command, const qll_cli_line *line,
                          qll_arena *arena)
{
    qll_errand run = {
        .path = line->values[QLL_CLI_OUTPUT],
        .is_json = line->values[QLL_CLI_JSON] != NULL,
        .arena = arena,
    };
    run.made.form = qll_cli_form_of(run.path);
    if (run.made.form == QLL_SHEETS_COUNT) {
        qll_cli_complain(arena,
                         "say where the report goes: -o FILE.pdf, -o FILE.html or -o FILE.svg", "");
        return QLL_WRONG_USE;
    }
    bool is_svg = run.made.form == QLL_SHEETS_SVG;
    if (line->values[QLL_CLI_PLOT] != NULL && !is_svg) {
        qll_cli_complain(arena, "--plot wants -o FILE.svg: PDF and HTML have every figure", "");
        return QLL_WRONG_USE;
    }
    if (line->values[QLL_CLI_SECTIONS] != NULL && is_svg) {
        qll_cli_complain(arena,
                         "--sections wants -o FILE.pdf or -o FILE.html: an SVG is one figure", "");
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
    qll_status status = qll_cli_open_survey(line->words[0], line, arena, &question);
    if (status == QLL_OK && is_an_input(run.path, line, &question)) {
        qll_cli_complain(arena, "-o names a file that is read; choose another name for the report",
                         "");
        return QLL_WRONG_USE;
    }
    if (status == QLL_OK) {
        status = qll_cli_make_report(&question, line, arena, &run.made);
    }
    return status == QLL_OK ? qll_cli_save(&run) : status;
}
