/* Rows of a log of pressures that are written as the one before: compared rather than read. */
#ifndef QUELL_SIGNALS_LOG_ALIKE_H
#define QUELL_SIGNALS_LOG_ALIKE_H

#include "signals/log_row.h"

/* A cell is looked at only if so many bytes follow its start: more than a plain number is long, and as many as all cells of
 * a row that is written as the one before. */
#define QLL_CELL_LEAST 40
/* A number from here on or below zero may stand for "no reading" (log_value.c). */
#define QLL_NINES      9999.0

/** Keeps how the number at @p at is written, all of whose @p size bytes were taken (0: none), and what stands behind it. */
void qll_cell_learn(qll_plain_cell *cell, const char *at, size_t size);

/** The number at @p at, with what stands behind it, if it is written as the one before in its cell. */
bool qll_cell_is_alike(const qll_plain_cell *cell, const char *at, double *si);

/** Behind @p count cells that nobody takes; NULL if one of them is not plain or under QLL_CELL_LEAST bytes follow. */
const char *qll_skip_cells(const char *at, const char *end, char delimiter, size_t count);

/**
 * Takes lines from @p at on as long as they are written as the one before: the same minute, behind it the same bytes, in each
 * cell points and digits where they were. Gives what qll_log_channels_fast() gives without it.
 *
 * @return where the first line starts that is written otherwise, or is not the next in time
 */
const char *qll_log_alike_rows(qll_log_lane *lane, const char *at, const char *end,
                               long long *line_count);

#endif
