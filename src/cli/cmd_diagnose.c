/* quell diagnose: a case, and answers beside it. */
#include "cli/answer.h"
#include "cli/commands.h"

qll_status qll_cli_diagnose(const qll_cli_command *command, const qll_cli_line *line,
                            qll_arena *arena)
{
    qll_question question = {
        .verb = command->verb,
        .arguments = line->words + 1,
        .argument_count = line->word_count - 1,
    };
    const qll_status status = qll_cli_open_survey(line, arena, &question);
    return status == QLL_OK ? qll_cli_ask(&question, line, arena) : status;
}
