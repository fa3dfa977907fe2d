/* quell log: what a log of pressures says. */
#include "base/count.h"
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
                             .parts = line->values[QLL_CLI_PARTS],
                             .arguments = line->words + 1,
                             .argument_count = line->word_count - 1};
    const char *const read[] = {line->words[0], line->values[QLL_CLI_SURVEY],
                                line->values[QLL_CLI_CATALOGUE]};
    if (!qll_cli_may_make_sheets(line, read, QLL_COUNT(read), arena)) {
        return QLL_WRONG_USE;
    }
    const qll_status status = open_survey(line, arena, &question);
    return status == QLL_OK ? qll_cli_ask_or_make(&question, line, arena) : status;
}
