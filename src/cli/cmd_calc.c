/* quell calc: the handbook. */
#include "cli/answer.h"
#include "cli/commands.h"
#include "handbook/handbook.h"
#include "report/columns.h"
#include "wording/language.h"
#include "wording/says_calc.h"

#include <string.h>

/* "  flow    through the pipe (a flow, such as 12 gpm); required" */
static void write_input(qll_writer *writer, const qll_calc_input *input, size_t widest)
{
    qll_writer first = qll_writer_new(writer->arena);
    qll_write_format(&first, "  %s", input->key);
    qll_write_byte(&first, ' ', widest + 2 - strlen(input->key));
    qll_writer line = qll_writer_new(writer->arena);
    qll_write(&line, qll_said_entry(QLL_LANGUAGE_EN, input->help));
    if (!input->is_word && input->kind != QLL_KIND_NUMBER) {
        qll_write_format(&line, " (%s", qll_units_kind_phrase(input->kind));
        if (input->fallback == NULL) {
            qll_write(&line, ", such as ");
            qll_write(&line,
                      input->example != NULL ? input->example : qll_units_example(input->kind));
        }
        qll_write(&line, ")");
    }
    if (input->required) {
        qll_write(&line, "; required");
    }
    if (input->fallback != NULL) {
        qll_write_format(&line, "; default %s", input->fallback);
    }
    if (input->repeated) {
        qll_write(&line, "; may be repeated");
    }
    qll_write_wrapped(writer, qll_writer_text(&first).bytes, qll_writer_text(&line));
}

static qll_status print_help(const qll_calc *calc, qll_arena *arena)
{
    qll_writer writer = qll_writer_new(arena);
    qll_writer usage = qll_writer_new(arena);
    qll_write_format(&usage, "calc %s", calc->name);
    size_t widest = 0;
    for (size_t i = 0; i < calc->input_count; i++) {
        size_t width = strlen(calc->inputs[i].key);
        widest = width > widest ? width : widest;
        if (calc->inputs[i].required) {
            qll_write_format(&usage, " %s=VALUE", calc->inputs[i].key);
        }
    }
    qll_write(&usage, " [KEY=VALUE ...] [--json] [--units us|si] [--language en|es]");
    qll_write_wrapped(&writer, "usage: quell ", qll_writer_text(&usage));
    qll_write(&writer, "\n");
    qll_write(&writer, qll_say_calc_title(QLL_LANGUAGE_EN, calc));
    qll_write(&writer, "\n\ninputs:\n");
    for (size_t i = 0; i < calc->input_count; i++) {
        write_input(&writer, &calc->inputs[i], widest);
    }
    qll_write(&writer, "\n");
    qll_write_wrapped(&writer, "formula: ", qll_text_of(calc->formula));
    qll_write_wrapped(&writer,
                      "validity: ", qll_text_of(qll_say_calc_validity(QLL_LANGUAGE_EN, calc)));
    qll_write_wrapped(&writer, "source: ", qll_text_of(qll_say_calc_source(QLL_LANGUAGE_EN, calc)));
    return qll_cli_print(&writer);
}

qll_status qll_cli_calc(const qll_cli_command *command, const qll_cli_line *line, qll_arena *arena)
{
    qll_question question = {.verb = command->verb};
    if (line->word_count > 0) {
        question.calc = line->words[0];
        question.arguments = line->words + 1;
        question.argument_count = line->word_count - 1;
    }
    /* Without a known name the engine's answer is the help: the list, or the nearest name. */
    const qll_calc *calc = question.calc == NULL ? NULL : qll_calc_find(qll_text_of(question.calc));
    if (line->values[QLL_CLI_HELP] != NULL && calc != NULL) {
        return print_help(calc, arena);
    }
    return qll_cli_ask(&question, line, arena);
}
