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
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_NO_COMMAND});
        return QLL_WRONG_USE;
    }
    size_t count = 0;
    const qll_cli_command *commands = qll_cli_commands(&count);
    const char **names = qll_arena_take(arena, count, sizeof *names);
    if (names == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_text word = qll_text_of(line->words[0]);
    qll_writer halves = qll_writer_new(arena);
    for (size_t i = 0; i < count; i++) {
        names[i] = commands[i].name;
        /* The first half of commands of two words. */
        if (strncmp(names[i], word.bytes, word.size) == 0 && names[i][word.size] == ' ') {
            qll_write(&halves, halves.size > 0 ? ", " : "");
            qll_write(&halves, names[i]);
        }
    }
    const bool is_half = halves.size > 0;
    const char *nearest =
        is_half ? qll_writer_text(&halves).bytes : qll_words_nearest(word, names, count);
    const qll_text_id says = is_half           ? QLL_TEXT_CLI_COMMAND_HALF
                             : nearest != NULL ? QLL_TEXT_CLI_COMMAND_NEAR
                                               : QLL_TEXT_CLI_COMMAND_UNKNOWN;
    qll_cli_complain(arena, line->language,
                     (qll_said){says, {qll_as_quoted(word), qll_as_is(nearest)}});
    return QLL_WRONG_USE;
}

/* The words after the name must be as many as the command takes, its options those it knows. */
static bool fits(const qll_cli_command *command, const qll_cli_line *line, qll_arena *arena)
{
    for (size_t i = 0; i < QLL_CLI_OPTION_COUNT; i++) {
        if (line->values[i] != NULL && (command->options & (UINT64_C(1) << i)) == 0) {
            const char *word = qll_cli_option_word((qll_cli_option)i);
            qll_cli_complain(arena, line->language,
                             (qll_said){QLL_TEXT_CLI_COMMAND_OPTION,
                                        {qll_as_is(command->name), qll_as_is(word)}});
            return false;
        }
    }
    if (line->values[QLL_CLI_HELP] == NULL
        && (line->word_count < command->words_least || line->word_count > command->words_most)) {
        qll_cli_complain(arena, line->language, qll_cli_usage(command, line->language));
        return false;
    }
    return true;
}

static qll_status run(int count, char *const *arguments, qll_arena *arena)
{
    qll_cli_line line;
    qll_writer text = qll_writer_new(arena);
    qll_said complaint = {.id = QLL_TEXT_NONE};
    qll_status status = qll_cli_parse(count, arguments, arena, &line, &complaint);
    if (status == QLL_WRONG_USE) {
        qll_cli_complain(arena, line.language, complaint);
    }
    if (status != QLL_OK) {
        return status;
    }
    if (line.values[QLL_CLI_VERSION] != NULL) {
        qll_write_format(&text, "quell %s\n", qll_version());
        return qll_cli_print(&text, line.language);
    }
    if (line.word_count == 0 && line.values[QLL_CLI_HELP] != NULL) {
        qll_cli_help(&text, line.language);
        return qll_cli_print(&text, line.language);
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
        qll_cli_command_help(&text, line.language, command);
        return qll_cli_print(&text, line.language);
    }
    return command->run(command, &line, arena);
}

int main(int count, char **arguments)
{
    qll_host_heed_signals();
    const qll_language language = qll_cli_language(count, arguments);
    qll_arena *arena = qll_arena_open(ceiling_size);
    if (arena == NULL) {
        qll_cli_complain_bare(language, QLL_TEXT_CLI_NO_MEMORY);
        return exit_status(QLL_NO_MEMORY);
    }
    qll_status status = run(count, arguments, arena);
    if (status == QLL_NO_MEMORY) {
        qll_cli_complain_bare(language, QLL_TEXT_CLI_NO_MEMORY);
    } else if (status == QLL_STOPPED) {
        qll_cli_complain_bare(language, QLL_TEXT_CLI_STOPPED);
    }
    qll_arena_close(arena);
    return exit_status(status);
}
