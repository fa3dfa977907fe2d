/* quell log: what a log of pressures says. */
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/save.h"
#include "host/host.h"
#include "host/stream.h"

#include <string.h>

static qll_status open_survey(const qll_cli_line *line, qll_arena *arena, qll_question *question)
{
    const char *survey = line->values[QLL_CLI_SURVEY];
    if (survey == NULL) {
        return QLL_OK;
    }
    if (strcmp(survey, "-") == 0 && strcmp(line->words[0], "-") == 0) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_LOG_TWICE});
        return QLL_WRONG_USE;
    }
    return qll_cli_open_survey(line, survey, arena, question);
}

/* The sheets, into a file. */
static qll_status make_sheets(qll_question *question, const qll_cli_line *line, qll_arena *arena)
{
    qll_cli_errand run = {
        .path = line->values[QLL_CLI_OUTPUT], .language = line->language, .arena = arena};
    run.made.form = qll_cli_sheets_form(run.path);
    if (run.made.form == QLL_SHEETS_COUNT || run.made.form == QLL_SHEETS_SVG) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_SHEETS_MISSING});
        return QLL_WRONG_USE;
    }
    if (line->values[QLL_CLI_JSON] != NULL) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_JSON_OR_OUTPUT});
        return QLL_WRONG_USE;
    }
    if (qll_host_same_file(run.path, line->words[0])
        || (line->values[QLL_CLI_SURVEY] != NULL
            && qll_host_same_file(run.path, line->values[QLL_CLI_SURVEY]))) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_OUTPUT_IS_INPUT});
        return QLL_WRONG_USE;
    }
    qll_status status = qll_cli_make_report(question, line, arena, &run.made);
    return status == QLL_OK ? qll_cli_save(&run) : status;
}

qll_status qll_cli_log(const qll_cli_command *command, const qll_cli_line *line, qll_arena *arena)
{
    const bool is_standard = strcmp(line->words[0], "-") == 0;
    qll_host_file file = {.path = is_standard ? "/dev/stdin" : line->words[0], .arena = arena};
    const qll_attachment log = {
        .name = is_standard ? qll_cli_text(line->language, QLL_TEXT_CLI_STANDARD_INPUT)
                            : line->words[0],
        .stream = qll_host_stream,
        .again = qll_host_again,
        .context = &file};
    qll_question question = {.verb = command->verb,
                             .log = &log,
                             .arguments = line->words + 1,
                             .argument_count = line->word_count - 1};
    qll_status status = open_survey(line, arena, &question);
    if (status != QLL_OK) {
        return status;
    }
    return line->values[QLL_CLI_OUTPUT] != NULL ? make_sheets(&question, line, arena)
                                                : qll_cli_ask(&question, line, arena);
}
