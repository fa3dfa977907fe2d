/* Sheets on their way into a file: PDF, HTML or SVG by its ending. */
#ifndef QUELL_CLI_SAVE_H
#define QUELL_CLI_SAVE_H

#include "quell/report.h"

typedef struct qll_errand {
    const char *path;
    bool is_json; /* what was made is reported on standard output */
    qll_arena *arena;
    qll_made_report made;
} qll_errand;

/** What the file at @p path is by its ending; QLL_SHEETS_COUNT for an ending nobody knows, and for NULL. */
qll_sheets_form qll_cli_form_of(const char *path);

/** Writes what was made; complains if it cannot. */
QLL_MUST_USE qll_status qll_cli_save(const qll_errand *run);

#endif
