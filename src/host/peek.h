/* A look at a file that another library is going to open. */
#ifndef QUELL_HOST_PEEK_H
#define QUELL_HOST_PEEK_H

#include "quell/arena.h"
#include "quell/problems.h"

/**
 * Reads the first bytes of the file at @p path.
 *
 * @param bytes room for @p most
 * @param size  how many there are, @p most at most; 0 where there is no file, too
 * @param why   on QLL_IO what the system says of it, constant or in @p arena
 */
QLL_MUST_USE qll_status qll_host_peek(const char *path, qll_arena *arena, unsigned char *bytes,
                                      size_t most, size_t *size, bool *is_there, const char **why);

/** Makes an empty file at @p path; @p was_there: nothing was made, something is there. As qll_host_peek(). */
QLL_MUST_USE qll_status qll_host_take_name(const char *path, qll_arena *arena, bool *was_there,
                                           const char **why);

/** Takes the file at @p path away, if there is one. */
void qll_host_remove(const char *path);

#endif
