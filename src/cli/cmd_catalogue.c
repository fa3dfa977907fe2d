/* quell catalogue import and fit: CSV to JSON; quell catalogue list. */
#include "cli/answer.h"
#include "cli/commands.h"

qll_status qll_cli_import(const qll_cli_command *command, const qll_cli_line *line,
                          qll_arena *arena)
{
    qll_question question = {.verb = command->verb};
    qll_status status = qll_cli_read(line->words[0], line->language, arena, &question.document);
    return status == QLL_OK ? qll_cli_ask(&question, line, arena) : status;
}

qll_status qll_cli_list(const qll_cli_command *command, const qll_cli_line *line, qll_arena *arena)
{
    qll_question question = {.verb = command->verb};
    const qll_status status =
        qll_cli_read_option(line, QLL_CLI_CATALOGUE, arena, &question.catalogue);
    return status == QLL_OK ? qll_cli_ask(&question, line, arena) : status;
}
