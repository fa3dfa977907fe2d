/* What a calculation takes: its inputs, formula, validity and source. */
#include "report/columns.h"
#include "report/report.h"
#include "wording/language.h"
#include "wording/says_calc.h"

#include <string.h>

static const char *say(const qll_writer *writer, const qll_wording *wording, const qll_said *said)
{
    return qll_said_text(writer->arena, wording, said);
}

/* "  flow    through the pipe (a flow, such as 12 gpm); required" */
static void write_input(qll_writer *writer, const qll_wording *wording, const qll_calc_input *input,
                        size_t widest)
{
    qll_writer first = qll_writer_new(writer->arena);
    qll_write_format(&first, "  %s", input->key);
    qll_write_byte(&first, ' ', widest + 2 - strlen(input->key));
    qll_writer line = qll_writer_new(writer->arena);
    qll_write(&line, qll_said_entry(wording->language, input->help));
    if (!input->is_word && input->kind != QLL_KIND_NUMBER) {
        const qll_argument example =
            qll_as_is(input->example != NULL ? input->example : qll_units_example(input->kind));
        const bool is_shown = input->fallback == NULL;
        qll_write(&line, " ");
        qll_write(&line, say(writer, wording,
                             is_shown ? QLL_SAYS_WITH(CALC_TAKES_SUCH_AS, qll_as_kind(input->kind),
                                                      example)
                                      : QLL_SAYS_WITH(CALC_TAKES, qll_as_kind(input->kind))));
    }
    if (input->required) {
        qll_write(&line, say(writer, wording, QLL_SAYS(CALC_IS_REQUIRED)));
    }
    if (input->fallback != NULL) {
        qll_write(&line,
                  say(writer, wording, QLL_SAYS_WITH(CALC_DEFAULTS, qll_as_is(input->fallback))));
    }
    if (input->repeated) {
        qll_write(&line, say(writer, wording, QLL_SAYS(CALC_REPEATS)));
    }
    qll_write_wrapped(writer, qll_writer_text(&first).bytes, qll_writer_text(&line));
}

static void write_usage(qll_writer *writer, const qll_wording *wording, const qll_calc *calc)
{
    qll_writer usage = qll_writer_new(writer->arena);
    qll_write_format(&usage, "calc %s", calc->name);
    for (size_t i = 0; i < calc->input_count; i++) {
        if (calc->inputs[i].required) {
            const qll_argument key = qll_as_is(calc->inputs[i].key);
            qll_write(&usage, say(writer, wording, QLL_SAYS_WITH(CALC_REQUIRED_KEY, key)));
        }
    }
    qll_writer languages = qll_writer_new(writer->arena);
    for (size_t i = 0; i < QLL_LANGUAGE_COUNT; i++) {
        qll_write(&languages, i == 0 ? "" : "|");
        qll_write(&languages, qll_language_words[i]);
    }
    const qll_argument codes = qll_as_is(qll_writer_text(&languages).bytes);
    qll_write(&usage, say(writer, wording, QLL_SAYS_WITH(CALC_OPTIONS, codes)));
    qll_write_wrapped(writer, say(writer, wording, QLL_SAYS(CALC_USAGE)), qll_writer_text(&usage));
}

static void write_line(qll_writer *writer, const qll_wording *wording, const qll_said *head,
                       const char *line)
{
    qll_write_wrapped(writer, say(writer, wording, head), qll_text_of(line));
}

void qll_calc_help(qll_writer *writer, const qll_calc *calc, const qll_wording *wording)
{
    const qll_language language = wording->language;
    size_t widest = 0;
    for (size_t i = 0; i < calc->input_count; i++) {
        size_t width = strlen(calc->inputs[i].key);
        widest = width > widest ? width : widest;
    }
    write_usage(writer, wording, calc);
    qll_write(writer, "\n");
    qll_write(writer, qll_say_calc_title(language, calc));
    qll_write(writer, "\n\n");
    qll_write(writer, say(writer, wording, QLL_SAYS(CALC_INPUTS)));
    qll_write(writer, "\n");
    for (size_t i = 0; i < calc->input_count; i++) {
        write_input(writer, wording, &calc->inputs[i], widest);
    }
    qll_write(writer, "\n");
    write_line(writer, wording, QLL_SAYS(CALC_FORMULA), calc->formula);
    write_line(writer, wording, QLL_SAYS(CALC_VALIDITY), qll_say_calc_validity(language, calc));
    write_line(writer, wording, QLL_SAYS(CALC_SOURCE), qll_say_calc_source(language, calc));
}
