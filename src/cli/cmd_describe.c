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
    const char *catalogue = line->values[QLL_CLI_CATALOGUE];
    const qll_status status =
        catalogue == NULL ? QLL_OK
                          : qll_cli_read(catalogue, line->language, arena, &question.catalogue);
    return status == QLL_OK ? qll_cli_ask(&question, line, arena) : status;
}
