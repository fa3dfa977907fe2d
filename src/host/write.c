/* A file is replaced whole or not at all. */
#include "host/host.h"
#include "host/system_says.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

/* Writes all; false with errno set if that cannot be. */
static bool write_all(int file, qll_text bytes)
{
    while (bytes.size > 0) {
        ssize_t written = write(file, bytes.bytes, bytes.size);
        if (written < 0 && errno == EINTR) {
            continue;
        }
        if (written < 0) {
            return false;
        }
        bytes.bytes += written;
        bytes.size -= (size_t)written;
    }
    return true;
}

/* A device or pipe: there is nothing to replace. */
static qll_status write_through(const char *path, qll_text bytes, qll_arena *arena,
                                const char **why)
{
    int file = open(path, O_WRONLY | O_CLOEXEC);
    if (file < 0) {
        return qll_system_failed(errno, arena, why);
    }
    bool wrote = write_all(file, bytes);
    int error = errno;
    if (close(file) != 0 && wrote) {
        wrote = false;
        error = errno;
    }
    return wrote ? QLL_OK : qll_system_failed(error, arena, why);
}

/* Mode of a new file: what the process's mask leaves. */
static mode_t mode_of_new(void)
{
    mode_t mask = umask(0);
    (void)umask(mask);
    return 0666 & ~mask;
}

/* Fills the file behind @p file and puts it in the place of @p path. */
static bool put_in_place(int file, const char *made, const char *path, qll_text bytes, mode_t mode)
{
    bool done = write_all(file, bytes) && fchmod(file, mode) == 0 && fsync(file) == 0;
    int error = errno;
    if (close(file) != 0 && done) {
        done = false;
        error = errno;
    }
    if (done && rename(made, path) == 0) {
        return true;
    }
    error = done ? errno : error;
    (void)unlink(made);
    errno = error;
    return false;
}

/* The name must outlive a loss of power too; where a folder cannot be synced, it does not. */
static void sync_folder(const char *folder)
{
    int opened = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (opened >= 0) {
        (void)fsync(opened);
        (void)close(opened);
    }
}

static qll_status replace(const char *path, qll_text bytes, mode_t mode, qll_arena *arena,
                          const char **why)
{
    const char *slash = strrchr(path, '/');
    size_t folder_size = slash == NULL ? 0 : (size_t)(slash - path) + 1;
    const char *folder =
        slash == NULL ? "./" : qll_text_closed((qll_text){path, folder_size}, arena);
    qll_writer name = qll_writer_new(arena);
    qll_write(&name, folder == NULL ? "" : folder);
    qll_write(&name, ".quell-");
    qll_write_byte(&name, 'X', 6); /* which mkstemp() replaces */
    if (folder == NULL || name.no_memory) {
        return QLL_NO_MEMORY;
    }
    qll_text closed = qll_writer_text(&name);
    char *made = qll_arena_copy(arena, closed.bytes, closed.size);
    if (made == NULL) {
        return QLL_NO_MEMORY;
    }
    int file = mkstemp(made);
    if (file < 0) {
        return qll_system_failed(errno, arena, why);
    }
    if (!put_in_place(file, made, path, bytes, mode)) {
        return qll_system_failed(errno, arena, why);
    }
    sync_folder(folder);
    return QLL_OK;
}

/* Where the links of @p path lead, so that the file is replaced and not a link to it. NULL: no such
 * file yet, or no memory (@p no_memory). */
static const char *real_path(const char *path, qll_arena *arena, bool *no_memory)
{
    char *resolved = realpath(path, NULL);
    const char *kept = NULL;
    if (resolved != NULL) {
        kept = qll_arena_copy(arena, resolved, strlen(resolved));
        *no_memory = kept == NULL;
        free(resolved);
    }
    return kept;
}

qll_status qll_host_write(const char *path, qll_text bytes, qll_arena *arena, const char **why)
{
    struct stat old;
    if (stat(path, &old) != 0) {
        return errno == ENOENT ? replace(path, bytes, mode_of_new(), arena, why)
                               : qll_system_failed(errno, arena, why);
    }
    if (!S_ISREG(old.st_mode)) {
        return write_through(path, bytes, arena, why);
    }
    if (access(path, W_OK) != 0) {
        return qll_system_failed(errno, arena, why);
    }
    bool no_memory = false;
    const char *real = real_path(path, arena, &no_memory);
    if (no_memory) {
        return QLL_NO_MEMORY;
    }
    return replace(real == NULL ? path : real, bytes, old.st_mode & 07777, arena, why);
}

const char *qll_host_created(qll_arena *arena)
{
    time_t now = time(NULL);
    const char *epoch = getenv("SOURCE_DATE_EPOCH");
    double seconds = 0;
    if (epoch != NULL && qll_text_number(qll_text_of(epoch), &seconds) == strlen(epoch)
        && seconds >= 0 && seconds < 253402300800.0) {
        now = (time_t)seconds;
    }
    struct tm parts = {0};
    char text[32] = "";
    if (gmtime_r(&now, &parts) == NULL
        || strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts) == 0) {
        return "";
    }
    const char *copy = qll_arena_copy(arena, text, strlen(text));
    return copy == NULL ? "" : copy;
}
