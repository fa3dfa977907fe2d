#include "cli/options.h"

#include "base/quote.h"
#include "base/words.h"

#include <string.h>

typedef struct option_entry {
    const char *word;
    const char *choices; /* NULL */
    qll_text_id value;   /* what it is called; NONE where there are choices, and of a flag */
    qll_text_id help;
} option_entry;

static const option_entry options[QLL_CLI_OPTION_COUNT] = {
#define QLL_CLI_OPTION_ENTRY(name, option, choices, value) \
    [QLL_CLI_##name] = {option, choices, QLL_TEXT_##value, QLL_TEXT_CLI_OPTION_IS_##name},
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

static bool has_value(const option_entry *option)
{
    return option->choices != NULL || option->value != QLL_TEXT_NONE;
}

/* "FILE", "us|si". */
static const char *value_of(const option_entry *option, qll_language language)
{
    return option->choices != NULL ? option->choices : qll_cli_text(language, option->value);
}

static qll_status refuse_unknown(qll_text word, qll_said *complaint)
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
    *complaint = meant < QLL_CLI_OPTION_COUNT
                     ? (qll_said){QLL_TEXT_CLI_OPTION_NEAR,
                                  {qll_as_quoted(word), qll_as_is(options[meant].word)}}
                     : (qll_said){QLL_TEXT_CLI_OPTION_UNKNOWN, {qll_as_quoted(word)}};
    return QLL_WRONG_USE;
}

/* Takes one option; @p taken gets how many arguments it used up. */
static qll_status take_option(const char *argument, const char *following, qll_cli_line *line,
                              int *taken, qll_said *complaint)
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
    if (!has_value(option) && equals != NULL) {
        *complaint = (qll_said){QLL_TEXT_CLI_OPTION_ALONE, {qll_as_is(option->word)}};
        return QLL_WRONG_USE;
    }
    if (!has_value(option)) {
        line->values[found] = "";
        return QLL_OK;
    }
    const char *value = equals != NULL ? equals + 1 : following;
    if (value == NULL || value[0] == '\0') {
        *complaint =
            (qll_said){QLL_TEXT_CLI_OPTION_VALUE,
                       {qll_as_is(option->word), qll_as_is(value_of(option, line->language))}};
        return QLL_WRONG_USE;
    }
    line->values[found] = value;
    *taken = equals != NULL ? 1 : 2;
    return QLL_OK;
}

qll_status qll_cli_parse(int count, char *const *arguments, qll_arena *arena, qll_cli_line *line,
                         qll_said *complaint)
{
    *line = (qll_cli_line){.language = qll_cli_language(count, arguments)};
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

void qll_cli_help_row(qll_writer *writer, qll_text left, size_t width, const char *right)
{
    const size_t taken = qll_text_width(left);
    qll_write(writer, "  ");
    qll_write_text(writer, left);
    qll_write_byte(writer, ' ', taken < width ? width - taken : 2);
    qll_write(writer, right);
    qll_write(writer, "\n");
}

void qll_cli_options_help(qll_writer *writer, qll_language language, uint64_t set)
{
    for (size_t i = 0; i < QLL_CLI_OPTION_COUNT; i++) {
        if ((set & (UINT64_C(1) << i)) == 0) {
            continue;
        }
        const option_entry *option = &options[i];
        qll_writer typed = qll_writer_new(writer->arena);
        qll_write(&typed, option->word);
        qll_write(&typed, " ");
        qll_write(&typed, has_value(option) ? value_of(option, language) : "");
        qll_cli_help_row(writer, qll_writer_text(&typed), 18, qll_cli_text(language, option->help));
    }
}
