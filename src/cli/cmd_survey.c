/* quell demand, design and check: the three questions about a survey. */
#include "cli/answer.h"
#include "cli/commands.h"

#include <string.h>

qll_status qll_cli_survey(const qll_cli_command *command, const qll_cli_line *line,
                          qll_arena *arena)
{
    const char *catalogue = line->values[QLL_CLI_CATALOGUE];
    if (catalogue != NULL && strcmp(catalogue, "-") == 0 && strcmp(line->words[0], "-") == 0) {
        qll_cli_complain(arena, "survey and catalogue cannot both come from standard input", "");
        return QLL_WRONG_USE;
    }
    qll_question question = {
        .verb = command->verb,
        .flow = line->values[QLL_CLI_FLOW],
        .inlet = line->values[QLL_CLI_INLET],
    };
    qll_status status = qll_cli_read(line->words[0], arena, &question.document);
    if (status == QLL_OK && catalogue != NULL) {
        status = qll_cli_read(catalogue, arena, &question.catalogue);
    }
    return status == QLL_OK ? qll_cli_ask(&question, line, arena) : status;
}
