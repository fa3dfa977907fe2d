/* quell simulate: what happens in time. */
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/save.h"

qll_status qll_cli_simulate(const qll_cli_command *command, const qll_cli_line *line,
                            qll_arena *arena)
{
    const char *const read[] = {line->words[0], line->values[QLL_CLI_CATALOGUE]};
    if (!qll_cli_may_make_sheets(line, read, 2, arena)) {
        return QLL_WRONG_USE;
    }
    qll_question question = {
        .verb = command->verb,
        .event = line->values[QLL_CLI_EVENT],
        .outlet = line->values[QLL_CLI_OUTLET],
        .flow = line->values[QLL_CLI_FLOW],
        .before = line->values[QLL_CLI_BEFORE],
        .within = line->values[QLL_CLI_WITHIN],
        .seed = line->values[QLL_CLI_SEED],
    };
    qll_status status = qll_cli_open_survey(line, line->words[0], arena, &question);
    return status == QLL_OK ? qll_cli_ask_or_make(&question, line, arena) : status;
}
