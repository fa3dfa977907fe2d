/* What the command line says, in the language that it was asked for. */
#ifndef QUELL_CLI_SAY_H
#define QUELL_CLI_SAY_H

#include "base/said.h"
#include "wording/messages.h"

/** The language that a --language among the arguments names; the first one where there is none, or none such. */
qll_language qll_cli_language(int count, char *const *arguments);

/** The text @p id of QLL_TEXT_CLI_LIST; for those without figures. */
const char *qll_cli_text(qll_language language, qll_text_id id);

/** What somebody gave, such as a path, as it may be shown on a terminal; kept in @p arena. */
qll_argument qll_cli_visible(qll_arena *arena, const char *given);

/** QLL_TEXT_CLI_CANNOT_READ, CANNOT_WRITE or another @p id of a file and the reason that the system gave. */
qll_said qll_cli_of_file(qll_arena *arena, qll_text_id id, const char *path, const char *why);

/** Writes @p said. */
void qll_cli_say(qll_writer *writer, qll_language language, qll_said said);

/** Prints "quell: " and @p said on standard error. */
void qll_cli_complain(qll_arena *arena, qll_language language, qll_said said);

/** Prints @p writer's text on standard error; that there is no memory where it found none. */
void qll_cli_complain_written(qll_writer *writer, qll_language language);

/** The same without memory: "quell: " and the text @p id. */
void qll_cli_complain_bare(qll_language language, qll_text_id id);

#endif
