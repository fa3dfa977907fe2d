/* A file that is written piece by piece, of any length: in its place whole, or not at all. */
#ifndef QUELL_HOST_LONG_FILE_H
#define QUELL_HOST_LONG_FILE_H

#include "quell/arena.h"
#include "quell/problems.h"
#include "quell/text.h"

typedef struct qll_long_file qll_long_file;

/**
 * Begins a file that will lie at @p path; standard output where it is NULL.
 *
 * @param file in @p arena; ended with qll_long_file_end()
 * @param why  on QLL_IO what the system says, as of all that follow
 */
QLL_MUST_USE qll_status qll_long_file_begin(const char *path, qll_arena *arena,
                                            qll_long_file **file, const char **why);

QLL_MUST_USE qll_status qll_long_file_write(qll_long_file *file, qll_text bytes, const char **why);

/** Puts it in its place, pushed to the disk; or throws it away where @p keep is false. */
QLL_MUST_USE qll_status qll_long_file_end(qll_long_file *file, bool keep, const char **why);

#endif
