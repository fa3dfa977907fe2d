#include "host/peek.h"

#include "host/system_says.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <unistd.h>

qll_status qll_host_peek(const char *path, qll_arena *arena, unsigned char *bytes, size_t most,
                         size_t *size, bool *is_there, const char **why)
{
    *size = 0;
    *is_there = true;
    errno = 0;
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        *is_there = errno != ENOENT;
        return *is_there ? qll_system_failed(errno, arena, why) : QLL_OK;
    }
    *size = fread(bytes, 1, most, file);
    const int error = ferror(file) != 0 ? errno : 0;
    (void)fclose(file);
    return error == 0 ? QLL_OK : qll_system_failed(error, arena, why);
}

qll_status qll_host_take_name(const char *path, qll_arena *arena, bool *was_there, const char **why)
{
    const int file = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    *was_there = file < 0 && errno == EEXIST;
    if (file < 0) {
        return *was_there ? QLL_OK : qll_system_failed(errno, arena, why);
    }
    (void)close(file);
    return QLL_OK;
}

void qll_host_remove(const char *path)
{
    (void)unlink(path);
}
