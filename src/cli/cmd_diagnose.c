/* quell diagnose: a case, and answers beside it; on a terminal it asks for them, the one that is worth most first. */
#include "base/count.h"
#include "base/quote.h"
#include "base/wrap.h"
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/say.h"
#include "host/host.h"

#include <stdint.h>
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

/* What was typed at the prompt. */
typedef enum typed {
    TYPED_ANSWER,
    TYPED_BACK, /* the answer before is taken back */
    TYPED_END   /* whoever sits there wants no more */
} typed;

typedef struct talk {
    qll_question *question;
    size_t said_before;  /* arguments that stood there when the talk began */
    const char *dangers; /* that were shown */
    qll_language language;
    qll_arena *arena;
} talk;

/* A number of the list stands for its answer; whatever else is typed is one itself: "7 psi", "squeal". */
static typed read_typed(const char *line, const qll_asking *asking, const char **answer)
{
    if (line == NULL || line[strspn(line, " \r\t")] == '\0') {
        return TYPED_END;
    }
    const qll_text trimmed = qll_text_trimmed(qll_text_of(line));
    if (qll_text_is(trimmed, "-")) {
        return TYPED_BACK;
    }
    const size_t number = read_number(line, asking->answer_count);
    *answer = number == SIZE_MAX ? line : number == 0 ? "?" : asking->answers[number - 1];
    return TYPED_ANSWER;
}

/* "sound_kind=none", put behind the arguments there are. */
static qll_status add_answer(const talk *of, const char *asked, const char *says)
{
    qll_question *question = of->question;
    const char **more = qll_arena_take(of->arena, question->argument_count + 1, sizeof *more);
    qll_writer answer = qll_writer_new(of->arena);
    qll_write_format(&answer, "%s=", asked);
    qll_write_text(&answer, qll_text_trimmed(qll_text_of(says)));
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

/* Why what was typed is no answer: of a reading, what is wrong with it. */
static void write_refusal(qll_writer *writer, qll_language language, const qll_answer *answer)
{
    if (answer->problem_count > 0 && answer->problems[0].code != QLL_CODE_UNKNOWN_WORD) {
        qll_write_wrapped(writer, "", qll_text_of(answer->problems[0].text));
    } else {
        qll_write_format(writer, "%s\n", qll_cli_text(language, QLL_TEXT_CLI_NO_SUCH_NUMBER));
    }
}

/* Asks until something comes that answers, and then for what is to be asked after it. */
static qll_status ask_one(talk *of, qll_asking *asking, bool *is_over)
{
    qll_writer shown = qll_writer_new(of->arena);
    write_dangers(&shown, asking, &of->dangers);
    write_question(&shown, asking);
    while (true) {
        const char *line = NULL;
        const char *says = NULL;
        qll_status status = qll_cli_print(&shown, of->language);
        status = status == QLL_OK ? qll_host_read_line(of->arena, &line) : status;
        const typed what = read_typed(line, asking, &says);
        *is_over = what == TYPED_END;
        if (status != QLL_OK || *is_over) {
            return status;
        }
        if (what == TYPED_BACK && of->question->argument_count > of->said_before) {
            of->question->argument_count -= 1;
        } else if (what == TYPED_ANSWER) {
            status = add_answer(of, asking->question, says);
        }
        qll_asking next = *asking;
        qll_answer answer = {0};
        status = status == QLL_OK ? qll_ask_next(of->question, of->arena, &next, &answer) : status;
        if (what == TYPED_BACK || (status != QLL_REFUSED && status != QLL_WRONG_USE)) {
            *asking = status == QLL_OK ? next : *asking;
            return status;
        }
        of->question->argument_count -= 1;
        shown = qll_writer_new(of->arena);
        write_refusal(&shown, of->language, &answer);
        qll_write(&shown, asking->prompt);
    }
}

/* Until nothing is worth asking, or nobody answers. */
static qll_status ask_all(qll_question *question, qll_language language, qll_arena *arena)
{
    talk of = {.question = question,
               .said_before = question->argument_count,
               .language = language,
               .arena = arena};
    qll_asking asking;
    qll_answer answer;
    bool is_over = false;
    qll_status status = qll_ask_next(question, arena, &asking, &answer);
    while (status == QLL_OK && !is_over && asking.question != NULL) {
        status = ask_one(&of, &asking, &is_over);
    }
    /* What is wrong with the case is said by the answer itself. */
    return status == QLL_REFUSED || status == QLL_WRONG_USE ? QLL_OK : status;
}

/* A word as a shell takes it. */
static void write_shell_word(qll_writer *writer, const char *word)
{
    static const char plain[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
                                "_-./=:,+@%";
    if (word[0] != '\0' && word[strspn(word, plain)] == '\0') {
        qll_write(writer, word);
        return;
    }
    qll_writer quoted = qll_writer_new(writer->arena);
    for (const char *at = word; *at != '\0'; at++) {
        if (*at == '\'') {
            qll_write(&quoted, "'\\''");
        } else {
            qll_write_byte(&quoted, *at, 1);
        }
    }
    qll_write(writer, "'");
    qll_write_visible(writer, qll_writer_text(&quoted));
    qll_write(writer, "'");
}

/* The command that gives the same answer again, with the options that it hangs on. */
static qll_status print_again(const qll_cli_command *command, const qll_cli_line *line,
                              const qll_question *question, qll_arena *arena)
{
    static const struct {
        qll_cli_option option;
        const char *name;
    } kept[] = {{QLL_CLI_CATALOGUE, "--catalogue"},
                {QLL_CLI_LIKELIHOOD, "--likelihood"},
                {QLL_CLI_UNITS, "--units"},
                {QLL_CLI_LANGUAGE, "--language"}};

    qll_writer again = qll_writer_new(arena);
    qll_write_format(&again, "\nquell %s", command->name);
    for (size_t i = 0; i < QLL_COUNT(kept); i++) {
        if (line->values[kept[i].option] != NULL) {
            qll_write_format(&again, " %s ", kept[i].name);
            write_shell_word(&again, line->values[kept[i].option]);
        }
    }
    qll_write(&again, " ");
    write_shell_word(&again, line->words[0]);
    for (size_t i = 0; i < question->argument_count; i++) {
        qll_write(&again, " ");
        write_shell_word(&again, question->arguments[i]);
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
    /* Whoever stopped it in the middle has still said what was said. */
    const bool is_kept = is_talk && (status == QLL_OK || status == QLL_STOPPED);
    const qll_status kept = is_kept ? print_again(command, line, &question, arena) : QLL_OK;
    return status != QLL_OK ? status : kept;
}
