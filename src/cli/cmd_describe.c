/* quell describe: what documents may hold. */
#include "cli/answer.h"
#include "cli/commands.h"

qll_status qll_cli_describe(const qll_cli_command *command, const qll_cli_line *line,
                            qll_arena *arena)
{
    qll_question question = {
        .verb = command->verb,
        .about = line->word_count > 0 ? line->words[0] : NULL,
        .key = line->word_count > 1 ? line->words[1] : NULL,
    };
    const qll_status status =
        qll_cli_read_option(line, QLL_CLI_CATALOGUE, arena, &question.catalogue);
    return status == QLL_OK ? qll_cli_ask(&question, line, arena) : status;
}
