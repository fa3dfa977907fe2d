/* The outside world: files, standard output, the terminal and the clock. */
#ifndef QUELL_HOST_HOST_H
#define QUELL_HOST_HOST_H

#include "quell/problems.h"

#include "base/text.h"

/* The most that is read of a file; more than that no reader takes. */
#define QLL_HOST_FILE_SIZE ((size_t)64 * 1024 * 1024)

/**
 * Reads all of the file at @p path, or of standard input if @p path is "-".
 *
 * Of a file longer than QLL_HOST_FILE_SIZE come a few bytes more than that: enough for its reader to
 * refuse it for its size.
 *
 * @param bytes in @p arena, closed by a zero byte that does not count
 * @param why   on QLL_IO what the system says of it, constant or in @p arena
 * @return QLL_OK, QLL_IO (cannot be opened or read) or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_host_read(const char *path, qll_arena *arena, qll_text *bytes,
                                      const char **why);

/**
 * Makes the file at @p path hold @p bytes: all of them, or it stays as it was. A new file beside it is
 * written, pushed to the disk and put in its place; it keeps the old one's mode, and its owner where the system lets
 * us. INT, TERM and HUP wait meanwhile, and what a killed run has left beside it is taken away. A path that is no
 * regular file (a device, a pipe) is written to as it is.
 *
 * @param why on QLL_IO what the system says of it, constant or in @p arena
 * @return QLL_OK, QLL_IO or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_host_write(const char *path, qll_text bytes, qll_arena *arena,
                                       const char **why);

/** Whether both paths lead to one regular file, through links too. */
bool qll_host_same_file(const char *one, const char *other);

/**
 * Where @p name lies that comes with the program: in share/quell beside an installed one's bin, or in build/web of a checkout.
 *
 * @param path in @p arena; NULL where it came without
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_host_shared(const char *name, qll_arena *arena, const char **path);

/**
 * The names of the regular files in @p folder, in byte order.
 *
 * @param names in @p arena
 * @param why   on QLL_IO what the system says of it
 * @return QLL_OK, QLL_IO or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_host_list(const char *folder, qll_arena *arena,
                                      const char *const **names, size_t *count, const char **why);

/** A file called @p name in a document at @p path: beside it, or by its whole path; "" without memory. In @p arena or @p name. */
const char *qll_host_beside(const char *path, const char *name, qll_arena *arena);

/** Makes the folder @p path where there is none; the one it lies in must be there. As qll_host_list(). */
QLL_MUST_USE qll_status qll_host_make_folder(const char *path, qll_arena *arena, const char **why);

/** From now on the first INT, TERM or HUP is noted, for qll_host_is_stopped(), and the second ends the program. */
void qll_host_heed_signals(void);
bool qll_host_is_stopped(void);

/** Holds INT, TERM and HUP back from this thread and from those it will start, so that only qll_host_await_stop() meets them. */
void qll_host_hold_signals(void);

/** Waits, at rest, until one of them comes; lets them in only meanwhile. */
void qll_host_await_stop(void);

/** Lets all other threads of the machine go before this one. */
void qll_host_yield_way(void);

/** How many processors there are for this program; 1 at least. */
size_t qll_host_processors(void);

/** Whether the system would give @p size bytes more: for libraries that end the program where it does not. */
bool qll_host_has_memory(size_t size);

/** Now as ISO 8601, "2026-01-31T12:00:00Z"; or the time that SOURCE_DATE_EPOCH names (seconds since
 * 1970), so that the same input gives the same bytes. In @p arena; "" without memory. */
const char *qll_host_created(qll_arena *arena);

/** Room for what qll_host_stamp() writes. */
#define QLL_HOST_STAMP_SIZE 25

/** Now as ISO 8601 to the millisecond, "2026-01-31T12:00:00.123Z", whatever SOURCE_DATE_EPOCH says: for a journal. */
void qll_host_stamp(char stamp[QLL_HOST_STAMP_SIZE]);

/**
 * Writes @p bytes to standard output and pushes them all the way out, so that a full disk is seen.
 *
 * @param why on QLL_IO what the system says of it
 */
QLL_MUST_USE qll_status qll_host_print(qll_text bytes, const char **why);

/** Writes @p closed to standard error. */
void qll_host_complain(const char *closed);

/** Whether somebody sits at standard input and output, so that questions can be asked. */
bool qll_host_is_asked(void);

/**
 * Reads a line of standard input, without its end, as it is typed.
 *
 * @param line in @p arena; NULL at the end of input
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_host_read_line(qll_arena *arena, const char **line);

/**
 * The same for a password: a terminal does not show it while it is typed. @p prompt is shown where there is a terminal.
 *
 * @param line in @p arena; NULL at the end of input
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_host_read_secret(const char *prompt, qll_arena *arena,
                                             const char **line);

/** True if somebody watches standard error. */
bool qll_host_is_watched(void);

/** Seconds on a clock that never runs backwards; only differences mean something. */
double qll_host_now_s(void);

#endif
