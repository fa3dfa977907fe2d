#include "base/quote.h"
#include "base/words.h"
#include "engine/engine.h"
#include "report/report.h"
#include "wording/says_calc.h"

#include <string.h>

/* The name of every calculation with what it answers. */
static void print_list(qll_writer *writer, qll_language language)
{
    size_t count = 0;
    size_t widest = 0;
    const qll_calc *const *calcs = qll_calcs(&count);
    for (size_t i = 0; i < count; i++) {
        size_t width = strlen(calcs[i]->name);
        widest = width > widest ? width : widest;
    }
    for (size_t i = 0; i < count; i++) {
        qll_write(writer, calcs[i]->name);
        qll_write_byte(writer, ' ', widest + 2 - strlen(calcs[i]->name));
        qll_write(writer, qll_say_calc_title(language, calcs[i]));
        qll_write(writer, "\n");
    }
}

static qll_status list(qll_asked *asked)
{
    if (asked->question->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&asked->writer);
        const qll_wording wording = {.units = asked->units, .language = asked->language};
        qll_calc_list_write(&json, &wording);
        qll_write(&asked->writer, "\n");
    } else {
        print_list(&asked->writer, asked->language);
    }
    return qll_asked_finish(asked);
}

static qll_status refuse_name(qll_asked *asked, const char *name)
{
    size_t count = 0;
    const qll_calc *const *calcs = qll_calcs(&count);
    const char **words = qll_arena_take(asked->arena, count, sizeof *words);
    if (words == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        words[i] = calcs[i]->name;
    }
    const char *nearest = qll_words_nearest(qll_text_of(name), words, count);
    qll_asked_refuse(asked, QLL_CODE_UNKNOWN_WORD, "calc",
                     QLL_SAYS_WITH(CALC_UNKNOWN, qll_as_quoted(qll_text_of(name))),
                     nearest == NULL ? QLL_SAYS(HINT_CALC_LIST)
                                     : qll_hint_word(nearest, asked->arena));
    return QLL_WRONG_USE;
}

/* "key=value", split at the first '='. */
static void split(qll_asked *asked, const char *given, size_t index, qll_calc_argument *argument)
{
    qll_writer source = qll_writer_new(asked->arena);
    qll_write_format(&source, "argument %zu", index + 1);
    argument->source = qll_writer_text(&source).bytes;
    const char *equals = strchr(given, '=');
    if (equals == NULL || equals == given) {
        qll_asked_refuse(asked, QLL_CODE_SYNTAX, argument->source,
                         QLL_SAYS_WITH(ARGUMENT_UNPARTED, qll_as_quoted(qll_text_of(given))),
                         QLL_SAYS(HINT_ARGUMENT));
        return;
    }
    argument->key = qll_text_trimmed((qll_text){given, (size_t)(equals - given)});
    argument->value = qll_text_trimmed(qll_text_of(equals + 1));
}

static void write_answer(qll_asked *asked, const qll_calc_answer *answer)
{
    if (asked->question->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&asked->writer);
        const qll_wording wording = {.units = answer->units, .language = asked->language};
        qll_calc_write(&json, answer, &wording, &asked->problems);
        qll_write(&asked->writer, "\n");
    } else {
        const qll_wording wording = {.units = asked->units, .language = asked->language};
        qll_calc_print(&asked->writer, answer, &wording);
    }
}

/* The last refusal said that the inputs lie beyond the method. */
static void hint_at_validity(qll_asked *asked, const qll_calc *calc)
{
    qll_said *hint = qll_arena_take(asked->arena, 1, sizeof *hint);
    if (hint != NULL) {
        *hint =
            (qll_said){QLL_TEXT_VALUE, {qll_as_is(qll_say_calc_validity(asked->language, calc))}};
        asked->problems.kept[asked->problems.kept_count - 1].hint = hint;
    }
}

qll_status qll_ask_calc(qll_asked *asked)
{
    const qll_question *question = asked->question;
    if (question->calc == NULL) {
        return list(asked);
    }
    const qll_calc *calc = qll_calc_find(qll_text_of(question->calc));
    if (calc == NULL) {
        return refuse_name(asked, question->calc);
    }
    if (question->help) {
        const qll_wording wording = {.units = asked->units, .language = asked->language};
        qll_calc_help(&asked->writer, calc, &wording);
        return qll_asked_finish(asked);
    }
    size_t count = question->argument_count;
    qll_calc_argument *arguments = qll_arena_take(asked->arena, count, sizeof *arguments);
    if (arguments == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        split(asked, question->arguments[i], i, &arguments[i]);
    }
    if (asked->problems.count > 0) {
        return qll_problems_status(&asked->problems);
    }
    /* People read it, and what is wrong with it, in the units in which they asked. */
    if (question->units == NULL) {
        asked->units = qll_calc_units(arguments, count);
    }
    qll_calc_answer answer = {0};
    qll_status status = qll_calc_run(calc, arguments, count, asked->arena, &answer, &asked->assumed,
                                     &asked->problems);
    if (answer.is_beyond && asked->problems.kept_count > 0) {
        hint_at_validity(asked, calc);
    }
    if (status != QLL_OK) {
        return status;
    }
    bool si = question->units != NULL && strcmp(question->units, "si") == 0;
    answer.units = si ? QLL_UNITS_SI : QLL_UNITS_US;
    write_answer(asked, &answer);
    return qll_asked_finish(asked);
}
