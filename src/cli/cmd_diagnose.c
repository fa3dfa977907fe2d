/* quell diagnose: a case, and answers beside it; on a terminal it asks for them, the one that is worth most first. */
#include "base/quote.h"
#include "base/wrap.h"
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/say.h"
#include "host/host.h"

#include <stdlib.h>
#include <string.h>

static void write_question(qll_writer *writer, const qll_asking *asking)
{
    qll_write(writer, "\n");
    qll_write_wrapped(writer, "", qll_text_of(asking->stands));
    qll_write(writer, "\n");
    qll_write_wrapped(writer, "", qll_text_of(asking->asks));
    if (asking->how != NULL) {
        qll_write_wrapped(writer, "  ", qll_text_of(asking->how));
    }
    if (asking->caution != NULL) {
        qll_write_wrapped(writer, "  ! ", qll_text_of(asking->caution));
    }
    for (size_t i = 0; i < asking->answer_count; i++) {
        qll_write_format(writer, "  %zu  %s\n", i + 1, asking->says[i]);
    }
    qll_write(writer, asking->prompt);
}

/* Whatever is dangerous stands before all questions; again only when it is no longer the same. */
static void write_dangers(qll_writer *writer, const qll_asking *asking, const char **shown)
{
    if (asking->dangers == NULL || (*shown != NULL && strcmp(asking->dangers, *shown) == 0)) {
        return;
    }
    *shown = asking->dangers;
    qll_write(writer, "\n");
    for (const char *line = asking->dangers; *line != '\0';) {
        const size_t size = strcspn(line, "\n");
        qll_write_wrapped(writer, "! ", (qll_text){line, size});
        line += size + 1;
    }
}

/* The number on the line, from 0 to @p most; SIZE_MAX if there is none such. */
static size_t read_number(const char *line, size_t most)
{
    char *end = NULL;
    const long number = strtol(line, &end, 10);
    end += strspn(end, " \r\t");
    return end == line || *end != '\0' || number < 0 || (unsigned long)number > most
               ? SIZE_MAX
               : (size_t)number;
}

/* Asks until a number comes; SIZE_MAX: whoever sits there wants no more. */
static qll_status ask_one(const qll_asking *asking, const char **dangers, qll_language language,
                          qll_arena *arena, size_t *number)
{
    qll_writer shown = qll_writer_new(arena);
    write_dangers(&shown, asking, dangers);
    write_question(&shown, asking);
    *number = SIZE_MAX;
    while (*number == SIZE_MAX) {
        const char *line = NULL;
        qll_status status = qll_cli_print(&shown, language);
        status = status == QLL_OK ? qll_host_read_line(arena, &line) : status;
        if (status != QLL_OK || line == NULL || line[strspn(line, " \r\t")] == '\0') {
            return status;
        }
        *number = read_number(line, asking->answer_count);
        shown = qll_writer_new(arena);
        qll_write_format(&shown, "%s\n%s", qll_cli_text(language, QLL_TEXT_CLI_NO_SUCH_NUMBER),
                         asking->prompt);
    }
    return QLL_OK;
}

/* "sound_kind=none", put behind the arguments there are. */
static qll_status add_answer(qll_question *question, const qll_asking *asking, size_t number,
                             qll_arena *arena)
{
    const char **more = qll_arena_take(arena, question->argument_count + 1, sizeof *more);
    qll_writer answer = qll_writer_new(arena);
    qll_write_format(&answer, "%s=%s", asking->question,
                     number == 0 ? "?" : asking->answers[number - 1]);
    if (more == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < question->argument_count; i++) {
        more[i] = question->arguments[i];
    }
    more[question->argument_count] = qll_writer_text(&answer).bytes;
    question->arguments = more;
    question->argument_count += 1;
    return QLL_OK;
}

/* Until nothing is worth asking, or nobody answers. */
static qll_status ask_all(qll_question *question, qll_language language, qll_arena *arena)
{
    qll_asking asking;
    qll_answer answer;
    const char *dangers = NULL; /* that were shown */
    qll_status status = qll_ask_next(question, arena, &asking, &answer);
    while (status == QLL_OK && asking.question != NULL) {
        size_t number = SIZE_MAX;
        status = ask_one(&asking, &dangers, language, arena, &number);
        if (status != QLL_OK || number == SIZE_MAX) {
            return status;
        }
        status = add_answer(question, &asking, number, arena);
        status = status == QLL_OK ? qll_ask_next(question, arena, &asking, &answer) : status;
    }
    /* What is wrong with the case is said by the answer itself. */
    return status == QLL_REFUSED || status == QLL_WRONG_USE ? QLL_OK : status;
}

/* The command that gives the same answer again. */
static qll_status print_again(const qll_cli_command *command, const qll_cli_line *line,
                              const qll_question *question, qll_arena *arena)
{
    qll_writer again = qll_writer_new(arena);
    qll_write_format(&again, "\nquell %s ", command->name);
    qll_write_visible(&again, qll_text_of(line->words[0]));
    for (size_t i = 0; i < question->argument_count; i++) {
        qll_write(&again, " ");
        qll_write_visible(&again, qll_text_of(question->arguments[i]));
    }
    qll_write(&again, "\n");
    return qll_cli_print(&again, line->language);
}

qll_status qll_cli_diagnose(const qll_cli_command *command, const qll_cli_line *line,
                            qll_arena *arena)
{
    qll_question question = {
        .units = line->values[QLL_CLI_UNITS],
        .language = line->values[QLL_CLI_LANGUAGE],
        .arguments = line->words + 1,
        .argument_count = line->word_count - 1,
    };
    const bool is_learning = line->values[QLL_CLI_LEARN] != NULL;
    const bool is_talk = qll_host_is_asked() && line->values[QLL_CLI_JSON] == NULL && !is_learning
                         && strcmp(line->words[0], "-") != 0;
    question.verb = is_learning ? QLL_VERB_LEARN : command->verb;
    qll_status status = qll_cli_open_survey(line, line->words[0], arena, &question);
    if (status == QLL_OK) {
        status = qll_cli_read_option(line, QLL_CLI_LIKELIHOOD, arena, &question.likelihood);
    }
    status = status == QLL_OK && is_talk ? ask_all(&question, line->language, arena) : status;
    if (status == QLL_OK && is_talk) {
        status = qll_cli_print_text(qll_text_of("\n"), line->language, arena);
    }
    status = status == QLL_OK ? qll_cli_ask(&question, line, arena) : status;
    return status == QLL_OK && is_talk ? print_again(command, line, &question, arena) : status;
}
