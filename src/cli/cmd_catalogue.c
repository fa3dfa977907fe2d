/* quell catalogue import: CSV to JSON. */
#include "cli/answer.h"
#include "cli/commands.h"

qll_status qll_cli_import(const qll_cli_command *command, const qll_cli_line *line,
                          qll_arena *arena)
{
    qll_question question = {.verb = command->verb};
    qll_status status = qll_cli_read(line->words[0], arena, &question.document);
    return status == QLL_OK ? qll_cli_ask(&question, line, arena) : status;
}
