#include "host/host.h"

#include "host/system_says.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

static qll_status read_stream(FILE *file, qll_arena *arena, qll_text *bytes, const char **why)
{
    qll_writer writer = qll_writer_new(arena);
    char block[8192];
    for (;;) {
        errno = 0;
        size_t size = fread(block, 1, sizeof block, file);
        int error = errno;
        qll_write_text(&writer, (qll_text){block, size});
        if (ferror(file)) {
            return qll_system_failed(error, arena, why);
        }
        if (writer.no_memory) {
            return QLL_NO_MEMORY;
        }
        if (writer.size > QLL_HOST_FILE_SIZE || (size < sizeof block && feof(file))) {
            break;
        }
    }
    *bytes = qll_writer_text(&writer);
    return writer.no_memory ? QLL_NO_MEMORY : QLL_OK;
}

qll_status qll_host_read(const char *path, qll_arena *arena, qll_text *bytes, const char **why)
{
    if (strcmp(path, "-") == 0) {
        return read_stream(stdin, arena, bytes, why);
    }
    errno = 0;
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return qll_system_failed(errno, arena, why);
    }
    qll_status status = read_stream(file, arena, bytes, why);
    (void)fclose(file);
    return status;
}

qll_status qll_host_print(qll_text bytes, const char **why)
{
    errno = 0;
    if (fwrite(bytes.bytes, 1, bytes.size, stdout) != bytes.size || fflush(stdout) != 0) {
        *why = errno == 0 ? "nothing more can be written" : strerror(errno);
        return QLL_IO;
    }
    return QLL_OK;
}

void qll_host_complain(const char *closed)
{
    (void)fputs(closed, stderr);
}

bool qll_host_is_watched(void)
{
    return isatty(STDERR_FILENO) == 1;
}

double qll_host_now_s(void)
{
    struct timespec now = {0};
    (void)clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}
