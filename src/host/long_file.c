#include "host/long_file.h"

#include "base/text.h"
#include "host/system_says.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

struct qll_long_file {
    FILE *stream;
    const char *path, *made; /* where it goes, and where it is written; NULL of standard output */
    qll_arena *arena;
};

qll_status qll_long_file_begin(const char *path, qll_arena *arena, qll_long_file **file,
                               const char **why)
{
    qll_long_file *begun = qll_arena_take(arena, 1, sizeof *begun);
    if (begun == NULL) {
        return QLL_NO_MEMORY;
    }
    *begun = (qll_long_file){.stream = stdout, .path = path, .arena = arena};
    *file = begun;
    if (path == NULL) {
        return QLL_OK;
    }
    qll_writer made = qll_writer_new(arena);
    /* Six letters, which mkstemp() chooses. */
    qll_write_format(&made, "%s.", path);
    qll_write_byte(&made, 'X', 6);
    char *name = qll_arena_copy(arena, qll_writer_text(&made).bytes, made.size);
    if (name == NULL || made.no_memory) {
        return QLL_NO_MEMORY;
    }
    const int descriptor = mkstemp(name);
    begun->stream = descriptor < 0 ? NULL : fdopen(descriptor, "wb");
    begun->made = name;
    return begun->stream == NULL ? qll_system_failed(errno, arena, why) : QLL_OK;
}

qll_status qll_long_file_write(qll_long_file *file, qll_text bytes, const char **why)
{
    return bytes.size == 0 || fwrite(bytes.bytes, 1, bytes.size, file->stream) == bytes.size
               ? QLL_OK
               : qll_system_failed(errno, file->arena, why);
}

qll_status qll_long_file_end(qll_long_file *file, bool keep, const char **why)
{
    if (file->path == NULL) {
        return fflush(file->stream) == 0 ? QLL_OK : qll_system_failed(errno, file->arena, why);
    }
    int error = fflush(file->stream) == 0 && fsync(fileno(file->stream)) == 0 ? 0 : errno;
    error = fclose(file->stream) != 0 && error == 0 ? errno : error;
    if (keep && error == 0 && rename(file->made, file->path) == 0) {
        return QLL_OK;
    }
    error = keep && error == 0 ? errno : error;
    (void)unlink(file->made);
    return keep ? qll_system_failed(error, file->arena, why) : QLL_OK;
}
