/* Folders: where what comes with the program lies, what is in one, and making one. */
#include "host/host.h"
#include "host/system_says.h"

#include <dirent.h>
#include <errno.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Of an installed program, and of one in a checkout's build/. */
static const char *const beside[] = {"/../share/quell/", "/../web/"};

qll_status qll_host_shared(const char *name, qll_arena *arena, const char **path)
{
    char program[PATH_MAX];
    const ssize_t size = readlink("/proc/self/exe", program, sizeof program);
    *path = NULL;
    size_t folder = size > 0 && (size_t)size < sizeof program ? (size_t)size : 0;
    while (folder > 0 && program[folder - 1] != '/') {
        folder -= 1;
    }
    for (size_t i = 0; i < sizeof beside / sizeof beside[0] && folder > 0; i++) {
        qll_writer found = qll_writer_new(arena);
        qll_write_text(&found, (qll_text){program, folder - 1});
        qll_write(&found, beside[i]);
        qll_write(&found, name);
        if (found.no_memory) {
            return QLL_NO_MEMORY;
        }
        const char *closed = qll_writer_text(&found).bytes;
        if (access(closed, R_OK) == 0) {
            *path = closed;
            return QLL_OK;
        }
    }
    return QLL_OK;
}

const char *qll_host_beside(const char *path, const char *name, qll_arena *arena)
{
    const char *slash = strrchr(path, '/');
    if (slash == NULL || name[0] == '/') {
        return name;
    }
    qll_writer beside_it = qll_writer_new(arena);
    qll_write_text(&beside_it, (qll_text){path, (size_t)(slash - path) + 1});
    qll_write(&beside_it, name);
    return qll_writer_text(&beside_it).bytes;
}

static int in_order(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* Names of the regular files of @p opened into @p names, where it is given; how many there are. */
static qll_status gather(DIR *opened, size_t room, qll_arena *arena, const char **names,
                         size_t *count)
{
    *count = 0;
    rewinddir(opened);
    for (const struct dirent *entry = readdir(opened); entry != NULL; entry = readdir(opened)) {
        struct stat facts;
        if (fstatat(dirfd(opened), entry->d_name, &facts, 0) != 0 || !S_ISREG(facts.st_mode)) {
            continue;
        }
        if (names != NULL && *count < room) {
            names[*count] = qll_arena_copy(arena, entry->d_name, strlen(entry->d_name));
            if (names[*count] == NULL) {
                return QLL_NO_MEMORY;
            }
        }
        *count += 1;
    }
    return QLL_OK;
}

qll_status qll_host_list(const char *folder, qll_arena *arena, const char *const **names,
                         size_t *count, const char **why)
{
    DIR *opened = opendir(folder);
    if (opened == NULL) {
        return qll_system_failed(errno, arena, why);
    }
    size_t room = 0;
    qll_status status = gather(opened, 0, arena, NULL, &room);
    const char **made = qll_arena_take(arena, room, sizeof *made);
    if (status == QLL_OK) {
        status = made == NULL ? QLL_NO_MEMORY : gather(opened, room, arena, made, count);
    }
    (void)closedir(opened);
    if (status == QLL_OK) {
        *count = *count < room ? *count : room; /* what came meanwhile is left */
        qsort(made, *count, sizeof *made, in_order);
        *names = made;
    }
    return status;
}

qll_status qll_host_make_folder(const char *path, qll_arena *arena, const char **why)
{
    struct stat facts;
    if (stat(path, &facts) == 0) {
        return S_ISDIR(facts.st_mode) ? QLL_OK : qll_system_failed(ENOTDIR, arena, why);
    }
    return mkdir(path, 0777) == 0 ? QLL_OK : qll_system_failed(errno, arena, why);
}
