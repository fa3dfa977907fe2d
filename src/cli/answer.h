/* What all commands do: read what is named, ask, and print the answer. */
#ifndef QUELL_CLI_ANSWER_H
#define QUELL_CLI_ANSWER_H

#include "quell/quell.h"
#include "quell/report.h"

#include "base/text.h"
#include "cli/options.h"

/** Prints @p writer's text on standard output. */
QLL_MUST_USE qll_status qll_cli_print(qll_writer *writer, qll_language language);

/** Reads the file at @p path ("-" = standard input) into @p input; complains if it cannot. */
QLL_MUST_USE qll_status qll_cli_read(const char *path, qll_language language, qll_arena *arena,
                                     qll_input *input);

/** The same of the file that @p option names; @p input stays as it is where it is not given. */
QLL_MUST_USE qll_status qll_cli_read_option(const qll_cli_line *line, qll_cli_option option,
                                            qll_arena *arena, qll_input *input);

/** Opens what a command about the survey at @p path names: survey, catalogue, and the files that the survey names. */
QLL_MUST_USE qll_status qll_cli_open_survey(const qll_cli_line *line, const char *path,
                                            qll_arena *arena, qll_question *question);

/** Prints @p text on standard output; complains if it cannot. */
QLL_MUST_USE qll_status qll_cli_print_text(qll_text text, qll_language language, qll_arena *arena);

/** Asks @p question with the common options of @p line, prints the answer and its problems. */
QLL_MUST_USE qll_status qll_cli_ask(qll_question *question, const qll_cli_line *line,
                                    qll_arena *arena);

/** The same for a report, which is not printed but made: what it was made into is in @p made. */
QLL_MUST_USE qll_status qll_cli_make_report(qll_question *question, const qll_cli_line *line,
                                            qll_arena *arena, qll_made_report *made);

#endif
