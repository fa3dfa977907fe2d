/* A file is replaced whole or not at all. */
#include "host/host.h"
#include "host/system_says.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
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

/* The name a file has while it is filled, with so many letters more, which mkstemp() chooses. */
#define QLL_MADE_NAME    ".quell-"
#define QLL_MADE_LETTERS 6

/* Signals that would end the program while a half filled file lies about wait until it is in its place or gone; one that
 * says that the file is too large is told by write() as well. */
static void hold_signals(sigset_t *before)
{
    sigset_t held;
    (void)sigemptyset(&held);
    (void)sigaddset(&held, SIGINT);
    (void)sigaddset(&held, SIGTERM);
    (void)sigaddset(&held, SIGHUP);
    (void)sigprocmask(SIG_BLOCK, &held, before);
}

/* The owner of the file that is replaced, where the system lets us; bits that lend the owner's rights only then. */
static bool take_after(int file, const struct stat *old, mode_t mode)
{
    const bool is_same =
        old == NULL || old->st_uid == geteuid() || fchown(file, old->st_uid, (gid_t)-1) == 0;
    if (old != NULL && old->st_gid != getegid() && fchown(file, (uid_t)-1, old->st_gid) != 0) {
        mode &= 0777;
    }
    return fchmod(file, is_same ? mode : mode & 0777) == 0;
}

/* Fills the file behind @p file and puts it in the place of @p path. */
static bool put_in_place(int file, const char *made, const char *path, qll_text bytes,
                         const struct stat *old)
{
    const mode_t mode = old == NULL ? mode_of_new() : old->st_mode & 07777;
    bool done = write_all(file, bytes) && take_after(file, old, mode) && fsync(file) == 0;
    int error = errno;
    if (done && rename(made, path) != 0) {
        done = false;
        error = errno;
    }
    if (!done) {
        (void)unlink(made);
    }
    if (close(file) != 0 && done) {
        done = false;
        error = errno;
    }
    errno = error;
    return done;
}

/* A new file in @p folder that nobody else sweeps away: it is locked while it is open. -1 with errno set. */
static int make_file(char *made)
{
    for (int tries = 0; tries < 10; tries++) {
        memset(made + strlen(made) - QLL_MADE_LETTERS, 'X', QLL_MADE_LETTERS);
        int file = mkstemp(made);
        if (file < 0) {
            return -1;
        }
        struct stat facts;
        if (flock(file, LOCK_EX | LOCK_NB) == 0 && fstat(file, &facts) == 0 && facts.st_nlink > 0) {
            return file;
        }
        (void)close(file);
    }
    errno = EBUSY;
    return -1;
}

/* Takes away what a run that was killed has left in @p folder: files of such a name that nobody holds locked. */
static void sweep(const char *folder)
{
    DIR *opened = opendir(folder);
    if (opened == NULL) {
        return;
    }
    for (const struct dirent *entry = readdir(opened); entry != NULL; entry = readdir(opened)) {
        const size_t kept = sizeof QLL_MADE_NAME - 1;
        if (strlen(entry->d_name) != kept + QLL_MADE_LETTERS
            || strncmp(entry->d_name, QLL_MADE_NAME, kept) != 0) {
            continue;
        }
        int file =
            openat(dirfd(opened), entry->d_name, O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
        struct stat facts;
        if (file >= 0 && fstat(file, &facts) == 0 && S_ISREG(facts.st_mode)
            && facts.st_uid == geteuid() && flock(file, LOCK_EX | LOCK_NB) == 0) {
            (void)unlinkat(dirfd(opened), entry->d_name, 0);
        }
        if (file >= 0) {
            (void)close(file);
        }
    }
    (void)closedir(opened);
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

/* No file could be made beside the one that is to be written, which may itself be open to us: then the folder is named. */
static qll_status folder_refuses(int error, qll_arena *arena, const char **why)
{
    const qll_status status = qll_system_failed(error, arena, why);
    if (error != EACCES && error != EPERM && error != EROFS) {
        return status;
    }
    qll_writer says = qll_writer_new(arena);
    qll_write(&says, "its folder takes no new file: ");
    qll_write(&says, *why);
    *why = qll_writer_text(&says).bytes;
    return says.no_memory ? QLL_NO_MEMORY : status;
}

/* @p old: of the file that is there; NULL = none. */
static qll_status replace(const char *path, qll_text bytes, const struct stat *old,
                          qll_arena *arena, const char **why)
{
    const char *slash = strrchr(path, '/');
    size_t folder_size = slash == NULL ? 0 : (size_t)(slash - path) + 1;
    const char *folder =
        slash == NULL ? "./" : qll_text_closed((qll_text){path, folder_size}, arena);
    qll_writer name = qll_writer_new(arena);
    qll_write(&name, folder == NULL ? "" : folder);
    qll_write(&name, QLL_MADE_NAME);
    qll_write_byte(&name, 'X', QLL_MADE_LETTERS);
    qll_text closed = qll_writer_text(&name);
    char *made = qll_arena_copy(arena, closed.bytes, closed.size);
    if (folder == NULL || name.no_memory || made == NULL) {
        return QLL_NO_MEMORY;
    }
    sweep(folder);
    sigset_t before;
    hold_signals(&before);
    int file = make_file(made);
    bool done = file >= 0 && put_in_place(file, made, path, bytes, old);
    int error = errno;
    (void)sigprocmask(SIG_SETMASK, &before, NULL);
    if (file < 0) {
        return folder_refuses(error, arena, why);
    }
    if (!done) {
        return qll_system_failed(error, arena, why);
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
        struct stat link;
        if (errno == ENOENT && lstat(path, &link) == 0) {
            *why = "it is a link to a file that is not there";
            return QLL_IO;
        }
        return errno == ENOENT ? replace(path, bytes, NULL, arena, why)
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
    return replace(real == NULL ? path : real, bytes, &old, arena, why);
}

bool qll_host_same_file(const char *one, const char *other)
{
    struct stat a;
    struct stat b;
    return stat(one, &a) == 0 && stat(other, &b) == 0 && a.st_dev == b.st_dev
           && a.st_ino == b.st_ino && S_ISREG(a.st_mode);
}
