/* Sheets on their way into a file: PDF, HTML or SVG by its ending. */
#ifndef QUELL_CLI_SAVE_H
#define QUELL_CLI_SAVE_H

#include "quell/report.h"

#include "cli/options.h"
#include "cli/say.h"

typedef struct qll_cli_errand {
    const char *path;
    bool is_json; /* what was made is reported on standard output */
    qll_language language;
    qll_arena *arena;
    qll_made_report made;
} qll_cli_errand;

/** What the file is by its ending; QLL_SHEETS_COUNT for an ending nobody knows, and for no path. */
qll_sheets_form qll_cli_sheets_form(const char *path);

/** Whether @p line may make sheets beside an answer, where it asks for them: as PDF or HTML, not as JSON too, and over none
 * of the @p count files that are @p read (NULL = not named). Complains if not. */
bool qll_cli_may_make_sheets(const qll_cli_line *line, const char *const *read, size_t count,
                             qll_arena *arena);

/** Asks @p question and prints its answer, or makes the sheets that @p line asks for. */
QLL_MUST_USE qll_status qll_cli_ask_or_make(qll_question *question, const qll_cli_line *line,
                                            qll_arena *arena);

/** The PDF of @p made, as qll_printer of src/server has it. */
QLL_MUST_USE qll_status qll_cli_print_pdf(const qll_made_report *made, qll_arena *arena,
                                          qll_text *bytes, const char **why);

/** Writes what was made to its path, whole or not at all; complains if it cannot. */
QLL_MUST_USE qll_status qll_cli_save(const qll_cli_errand *run);

#endif
