#include "cli/options.h"

#include "base/quote.h"
#include "base/words.h"

#include <string.h>

typedef struct option_entry {
    const char *word;
    const char *value;
    const char *help;
} option_entry;

static const option_entry options[QLL_CLI_OPTION_COUNT] = {
#define QLL_CLI_OPTION_ENTRY(name, option, value, help) [QLL_CLI_##name] = {option, value, help},
    QLL_CLI_OPTION_LIST(QLL_CLI_OPTION_ENTRY)
#undef QLL_CLI_OPTION_ENTRY
};

const char *qll_cli_option_word(qll_cli_option option)
{
    return options[option].word;
}

/* The option called @p word; QLL_CLI_OPTION_COUNT if there is none. */
static size_t find_option(qll_text word)
{
    size_t found = 0;
    while (found < QLL_CLI_OPTION_COUNT && !qll_text_is(word, options[found].word)) {
        found += 1;
    }
    return found;
}

static qll_status refuse_unknown(qll_text word, qll_writer *complaint)
{
    /* Without their dashes, which all of them share: -h is not nearly -o, and -json is --json. */
    const char *words[QLL_CLI_OPTION_COUNT];
    for (size_t i = 0; i < QLL_CLI_OPTION_COUNT; i++) {
        words[i] = options[i].word + strspn(options[i].word, "-");
    }
    qll_text bare = word;
    while (bare.size > 0 && bare.bytes[0] == '-') {
        bare = (qll_text){bare.bytes + 1, bare.size - 1};
    }
    const char *nearest = qll_words_nearest(bare, words, QLL_CLI_OPTION_COUNT);
    size_t meant = 0;
    while (meant < QLL_CLI_OPTION_COUNT && words[meant] != nearest) {
        meant += 1;
    }
    qll_write(complaint, "there is no option ");
    qll_write_quoted(complaint, word);
    if (meant < QLL_CLI_OPTION_COUNT) {
        qll_write_format(complaint, "; did you mean %s?", options[meant].word);
    } else {
        qll_write(complaint, "; see quell --help");
    }
    return QLL_WRONG_USE;
}

/* Takes one option; @p taken gets how many arguments it used up. */
static qll_status take_option(const char *argument, const char *following, qll_cli_line *line,
                              int *taken, qll_writer *complaint)
{
    const char *equals = strchr(argument, '=');
    qll_text word = qll_text_of(argument);
    if (equals != NULL) {
        word.size = (size_t)(equals - argument);
    }
    size_t found = find_option(word);
    *taken = 1;
    if (found == QLL_CLI_OPTION_COUNT) {
        return refuse_unknown(word, complaint);
    }
    const option_entry *option = &options[found];
    if (option->value == NULL && equals != NULL) {
        qll_write_format(complaint, "%s takes no value", option->word);
        return QLL_WRONG_USE;
    }
    if (option->value == NULL) {
        line->values[found] = "";
        return QLL_OK;
    }
    const char *value = equals != NULL ? equals + 1 : following;
    if (value == NULL || value[0] == '\0') {
        qll_write_format(complaint, "%s needs a value: %s %s", option->word, option->word,
                         option->value);
        return QLL_WRONG_USE;
    }
    line->values[found] = value;
    *taken = equals != NULL ? 1 : 2;
    return QLL_OK;
}

qll_status qll_cli_parse(int count, char *const *arguments, qll_arena *arena, qll_cli_line *line,
                         qll_writer *complaint)
{
    *line = (qll_cli_line){0};
    line->words = qll_arena_take(arena, (size_t)count, sizeof *line->words);
    if (line->words == NULL) {
        return QLL_NO_MEMORY;
    }
    bool only_words = false;
    int i = 1;
    while (i < count) {
        const char *argument = arguments[i];
        if (!only_words && strcmp(argument, "--") == 0) {
            only_words = true;
            i += 1;
        } else if (!only_words && argument[0] == '-' && argument[1] != '\0') {
            int taken = 1;
            const char *following = i + 1 < count ? arguments[i + 1] : NULL;
            qll_status status = take_option(argument, following, line, &taken, complaint);
            if (status != QLL_OK) {
                return status;
            }
            i += taken;
        } else {
            line->words[line->word_count] = argument;
            line->word_count += 1;
            i += 1;
        }
    }
    return QLL_OK;
}

void qll_cli_options_help(qll_writer *writer, unsigned set)
{
    for (size_t i = 0; i < QLL_CLI_OPTION_COUNT; i++) {
        if ((set & (1U << i)) == 0) {
            continue;
        }
        const option_entry *option = &options[i];
        const char *value = option->value == NULL ? "" : option->value;
        size_t width = strlen(option->word) + 1 + strlen(value);
        qll_write_format(writer, "  %s %s", option->word, value);
        qll_write_byte(writer, ' ', width < 18 ? 18 - width : 2);
        qll_write(writer, option->help);
        qll_write(writer, "\n");
    }
}
