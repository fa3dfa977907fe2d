/* Finds the command, runs it, and maps what came of it to the exit status. */
#include "base/quote.h"
#include "base/words.h"
#include "cli/answer.h"
#include "cli/commands.h"
#include "host/host.h"

#include <string.h>

/* The most memory one command may take; a design of a large catalogue needs a few tens of MiB. */
static const size_t ceiling_size = (size_t)1024 * 1024 * 1024;

static int exit_status(qll_status status)
{
    switch (status) {
    case QLL_OK: return 0;
    case QLL_REFUSED: return 1;
    case QLL_WRONG_USE: return 2;
    case QLL_NO_MEMORY:
    case QLL_STOPPED:
    case QLL_BUSY:
    case QLL_IO: return 3;
    }
    return 3;
}

static qll_status refuse_command(const qll_cli_line *line, qll_arena *arena)
{
    if (line->word_count == 0) {
        qll_cli_complain(arena, "no command is given; see quell --help", "");
        return QLL_WRONG_USE;
    }
    size_t count = 0;
    const qll_cli_command *commands = qll_cli_commands(&count);
    const char **names = qll_arena_take(arena, count, sizeof *names);
    if (names == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_text word = qll_text_of(line->words[0]);
    const char *nearest = NULL;
    for (size_t i = 0; i < count; i++) {
        names[i] = commands[i].name;
        /* The first half of a command of two words. */
        if (strncmp(names[i], word.bytes, word.size) == 0 && names[i][word.size] == ' ') {
            nearest = names[i];
        }
    }
    if (nearest == NULL) {
        nearest = qll_words_nearest(word, names, count);
    }
    qll_writer complaint = qll_writer_new(arena);
    qll_write(&complaint, "there is no command ");
    qll_write_quoted(&complaint, word);
    if (nearest != NULL) {
        qll_write_format(&complaint, "; did you mean %s?", nearest);
    } else {
        qll_write(&complaint, "; see quell --help");
    }
    qll_cli_complain(arena, qll_writer_text(&complaint).bytes, "");
    return QLL_WRONG_USE;
}

/* The words after the name must be as many as the command takes, its options those it knows. */
static bool fits(const qll_cli_command *command, const qll_cli_line *line, qll_arena *arena)
{
    for (size_t i = 0; i < QLL_CLI_OPTION_COUNT; i++) {
        if (line->values[i] != NULL && (command->options & (1U << i)) == 0) {
            qll_writer complaint = qll_writer_new(arena);
            qll_write_format(&complaint, "%s has no option ", command->name);
            qll_cli_complain(arena, qll_writer_text(&complaint).bytes,
                             qll_cli_option_word((qll_cli_option)i));
            return false;
        }
    }
    if (line->values[QLL_CLI_HELP] == NULL
        && (line->word_count < command->words_least || line->word_count > command->words_most)) {
        qll_writer complaint = qll_writer_new(arena);
        qll_write_format(&complaint, "usage: quell %s [OPTION ...] %s", command->name,
                         command->arguments);
        qll_cli_complain(arena, qll_writer_text(&complaint).bytes, "");
        return false;
    }
    return true;
}

static qll_status run(int count, char *const *arguments, qll_arena *arena)
{
    qll_cli_line line;
    qll_writer text = qll_writer_new(arena);
    qll_status status = qll_cli_parse(count, arguments, arena, &line, &text);
    if (status == QLL_WRONG_USE) {
        qll_cli_complain(arena, qll_writer_text(&text).bytes, "");
    }
    if (status != QLL_OK) {
        return status;
    }
    if (line.values[QLL_CLI_VERSION] != NULL) {
        qll_write(&text, "quell " QLL_VERSION "\n");
        return qll_cli_print(&text);
    }
    if (line.word_count == 0 && line.values[QLL_CLI_HELP] != NULL) {
        qll_cli_help(&text);
        return qll_cli_print(&text);
    }
    size_t taken = 0;
    const qll_cli_command *command = qll_cli_command_find(&line, &taken);
    if (command == NULL) {
        return refuse_command(&line, arena);
    }
    line.words += taken;
    line.word_count -= taken;
    if (!fits(command, &line, arena)) {
        return QLL_WRONG_USE;
    }
    bool is_named_calc = command->verb == QLL_VERB_CALC && line.word_count > 0;
    if (line.values[QLL_CLI_HELP] != NULL && !is_named_calc) {
        qll_cli_command_help(&text, command);
        return qll_cli_print(&text);
    }
    return command->run(command, &line, arena);
}

int main(int count, char **arguments)
{
    qll_arena *arena = qll_arena_open(ceiling_size);
    if (arena == NULL) {
        qll_host_complain("quell: out of memory\n");
        return exit_status(QLL_NO_MEMORY);
    }
    qll_status status = run(count, arguments, arena);
    if (status == QLL_NO_MEMORY) {
        qll_host_complain("quell: out of memory\n");
    }
    qll_arena_close(arena);
    return exit_status(status);
}
