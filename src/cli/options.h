/* One table of options: parsing, usage and help come from it. */
#ifndef QUELL_CLI_OPTIONS_H
#define QUELL_CLI_OPTIONS_H

#include "quell/languages.h"
#include "quell/problems.h"

#include "base/text.h"
#include "cli/say.h"

#include <stdint.h>

/* "en|es": the codes of the list, without the stroke before the first. */
#define QLL_CLI_LANGUAGE(name, code) "|" #code
#define QLL_CLI_LANGUAGES            (&(QLL_LANGUAGE_LIST(QLL_CLI_LANGUAGE))[1])

/** X(NAME, option, the values it may have or NULL, what its value is called; neither of a flag). What it is for:
 * QLL_TEXT_CLI_OPTION_IS_x. */
#define QLL_CLI_OPTION_LIST(X)                             \
    X(CATALOGUE, "--catalogue", NULL, CLI_VALUE_FILE)      \
    X(OUTPUT, "-o", NULL, CLI_VALUE_FILE)                  \
    X(OF, "--of", NULL, CLI_VALUE_WHAT)                    \
    X(SECTIONS, "--sections", NULL, CLI_VALUE_LIST)        \
    X(LENGTH, "--length", "short|full", NONE)              \
    X(DATE, "--date", NULL, CLI_VALUE_DATE)                \
    X(PLOT, "--plot", NULL, CLI_VALUE_NAME)                \
    X(PARTS, "--parts", NULL, CLI_VALUE_LIST)              \
    X(FIGURES, "--figures", NULL, CLI_VALUE_LIST)          \
    X(SURVEY, "--survey", NULL, CLI_VALUE_FILE)            \
    X(QUIET, "--quiet", NULL, CLI_VALUE_FILE)              \
    X(LOG, "--log", NULL, CLI_VALUE_FILE)                  \
    X(BEGINS, "--begins", NULL, CLI_VALUE_TIME)            \
    X(FLOW, "--flow", NULL, CLI_VALUE_Q)                   \
    X(INLET, "--inlet", NULL, CLI_VALUE_P)                 \
    X(EVENT, "--event", "closure|demand|heater|day", NONE) \
    X(OUTLET, "--outlet", NULL, CLI_VALUE_NAME)            \
    X(BEFORE, "--before", NULL, CLI_VALUE_Q)               \
    X(WITHIN, "--within", NULL, CLI_VALUE_T)               \
    X(LIKELIHOOD, "--likelihood", NULL, CLI_VALUE_FILE)    \
    X(LEARN, "--learn", NULL, NONE)                        \
    X(STORE, "--store", NULL, CLI_VALUE_STORE)             \
    X(WHO, "--who", NULL, CLI_VALUE_NAME)                  \
    X(TODAY, "--today", NULL, CLI_VALUE_DATE)              \
    X(SEED, "--seed", NULL, CLI_VALUE_N)                   \
    X(SCHEMA, "--schema", NULL, NONE)                      \
    X(ADDRESS, "--address", NULL, CLI_VALUE_NAME)          \
    X(PORT, "--port", NULL, CLI_VALUE_N)                   \
    X(HOST, "--host", NULL, CLI_VALUE_LIST)                \
    X(ADD, "--add", NULL, CLI_VALUE_NAME)                  \
    X(CERTIFICATE, "--certificate", NULL, CLI_VALUE_FILE)  \
    X(KEY, "--key", NULL, CLI_VALUE_FILE)                  \
    X(JSON, "--json", NULL, NONE)                          \
    X(UNITS, "--units", "us|si", NONE)                     \
    X(LANGUAGE, "--language", QLL_CLI_LANGUAGES, NONE)     \
    X(HELP, "--help", NULL, NONE)                          \
    X(VERSION, "--version", NULL, NONE)

typedef enum qll_cli_option {
#define QLL_CLI_OPTION_NAME(name, option, choices, value) QLL_CLI_##name,
    QLL_CLI_OPTION_LIST(QLL_CLI_OPTION_NAME)
#undef QLL_CLI_OPTION_NAME
    QLL_CLI_OPTION_COUNT
} qll_cli_option;

/** A command's set of options: one bit each. */
#define QLL_CLI_BIT(name) (UINT64_C(1) << QLL_CLI_##name)

/** A command line taken apart. */
typedef struct qll_cli_line {
    const char *values[QLL_CLI_OPTION_COUNT]; /* NULL if not given; "" for a flag */
    const char **words;                       /* what is no option, in order */
    size_t word_count;
    qll_language language;
} qll_cli_line;

/**
 * Takes the arguments apart. Options may stand anywhere; "--option value" and "--option=value" are
 * the same; the last one of a kind counts; after "--" nothing is an option; "-" is a word.
 *
 * @param complaint what is said when the line makes no sense
 * @return QLL_OK, QLL_WRONG_USE or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_cli_parse(int count, char *const *arguments, qll_arena *arena,
                                      qll_cli_line *line, qll_said *complaint);

/** The option as typed: "--json". */
const char *qll_cli_option_word(qll_cli_option option);

/** The lines of help for the options in @p set. */
void qll_cli_options_help(qll_writer *writer, qll_language language, uint64_t set);

/** A row of help: @p left, padded to @p width, and @p right. */
void qll_cli_help_row(qll_writer *writer, qll_text left, size_t width, const char *right);

#endif
