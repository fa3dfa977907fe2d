/* quell calc: the handbook. */
#include "cli/answer.h"
#include "cli/commands.h"

qll_status qll_cli_calc(const qll_cli_command *command, const qll_cli_line *line, qll_arena *arena)
{
    qll_question question = {
        .verb = command->verb,
        .help = line->values[QLL_CLI_HELP] != NULL,
    };
    if (line->word_count > 0) {
        question.calc = line->words[0];
        question.arguments = line->words + 1;
        question.argument_count = line->word_count - 1;
    }
    return qll_cli_ask(&question, line, arena);
}
