/* One table of options: parsing, usage and help come from it. */
#ifndef QUELL_CLI_OPTIONS_H
#define QUELL_CLI_OPTIONS_H

#include "quell/languages.h"
#include "quell/problems.h"

#include "base/text.h"

/* "en|es": the codes of the list, without the stroke before the first. */
#define QLL_CLI_LANGUAGE(name, code) "|" #code
#define QLL_CLI_LANGUAGES            (&(QLL_LANGUAGE_LIST(QLL_CLI_LANGUAGE))[1])

/** X(NAME, option, what its value is called or NULL for a flag, help). */
#define QLL_CLI_OPTION_LIST(X)                                                                     \
    X(CATALOGUE, "--catalogue", "FILE", "the valves to choose from; without it the generic ones")  \
    X(OUTPUT, "-o", "FILE", "where the report goes: FILE.pdf, FILE.html or FILE.svg")              \
    X(OF, "--of", "WHAT", "whose sheets: demand, design or check; without it design")              \
    X(SECTIONS, "--sections", "LIST", "only these, for example \"cover,station\"; without it all") \
    X(LENGTH, "--length", "short|full", "how much; without it short for a plain house, else full") \
    X(DATE, "--date", "DATE", "date of the sheets, for example 2026-11-30; without it a line")     \
    X(PLOT, "--plot", "NAME", "the one figure that goes into FILE.svg; without it schematic")      \
    X(PARTS, "--parts", "LIST", "only these parts, for example \"points,maps\"; without it all")   \
    X(FIGURES, "--figures", "LIST", "with --json: these drawings inside the answer, or \"all\"")   \
    X(FLOW, "--flow", "Q", "show this flow only, for example \"12 gpm\"")                          \
    X(INLET, "--inlet", "P", "this pressure at the station instead of the supply's")               \
    X(SURVEY, "--survey", "FILE", "the site: where the seats of its station may whistle")          \
    X(QUIET, "--quiet", "FILE", "a recording of the same place with everything closed")            \
    X(SEED, "--seed", "N", "whole number for draws, where there is a log; without it 1")           \
    X(JSON, "--json", NULL, "one JSON document for machines")                                      \
    X(UNITS, "--units", "us|si", "units of the answer; without it as the survey says")             \
    X(LANGUAGE, "--language", QLL_CLI_LANGUAGES,                                                   \
      "language of the sheets; figures keep the decimal point")                                    \
    X(HELP, "--help", NULL, "this help")                                                           \
    X(VERSION, "--version", NULL, "the version of quell")

typedef enum qll_cli_option {
#define QLL_CLI_OPTION_NAME(name, option, value, help) QLL_CLI_##name,
    QLL_CLI_OPTION_LIST(QLL_CLI_OPTION_NAME)
#undef QLL_CLI_OPTION_NAME
    QLL_CLI_OPTION_COUNT
} qll_cli_option;

/** A command's set of options: one bit each. */
#define QLL_CLI_BIT(name) (1U << QLL_CLI_##name)

/** A command line taken apart. */
typedef struct qll_cli_line {
    const char *values[QLL_CLI_OPTION_COUNT]; /* NULL if not given; "" for a flag */
    const char **words;                       /* what is no option, in order */
    size_t word_count;
} qll_cli_line;

/**
 * Takes the arguments apart. Options may stand anywhere; "--option value" and "--option=value" are
 * the same; the last one of a kind counts; after "--" nothing is an option; "-" is a word.
 *
 * @param complaint gets a sentence when the line makes no sense
 * @return QLL_OK, QLL_WRONG_USE or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_cli_parse(int count, char *const *arguments, qll_arena *arena,
                                      qll_cli_line *line, qll_writer *complaint);

/** The option as typed: "--json". */
const char *qll_cli_option_word(qll_cli_option option);

/** The lines of help for the options in @p set. */
void qll_cli_options_help(qll_writer *writer, unsigned set);

#endif
