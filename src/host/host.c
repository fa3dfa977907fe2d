#include "host/host.h"

#include "host/system_says.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <termios.h>
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

bool qll_host_is_asked(void)
{
    return isatty(STDIN_FILENO) == 1 && isatty(STDOUT_FILENO) == 1;
}

qll_status qll_host_read_line(qll_arena *arena, const char **line)
{
    qll_writer text = qll_writer_new(arena);
    char byte = 0;
    ssize_t got = read(STDIN_FILENO, &byte, 1);
    const bool is_end = got <= 0;
    while (got > 0 && byte != '\n') {
        qll_write_byte(&text, byte, 1);
        got = read(STDIN_FILENO, &byte, 1);
    }
    *line = is_end ? NULL : qll_writer_text(&text).bytes;
    return qll_arena_refused(arena) > 0 ? QLL_NO_MEMORY : QLL_OK;
}

bool qll_host_is_watched(void)
{
    return isatty(STDERR_FILENO) == 1;
}

qll_status qll_host_read_secret(const char *prompt, qll_arena *arena, const char **line)
{
    struct termios shown;
    const bool is_terminal = tcgetattr(STDIN_FILENO, &shown) == 0;
    if (is_terminal) {
        struct termios hidden = shown;
        hidden.c_lflag &= ~(tcflag_t)ECHO;
        qll_host_complain(prompt);
        (void)tcsetattr(STDIN_FILENO, TCSAFLUSH, &hidden);
    }
    const qll_status status = qll_host_read_line(arena, line);
    if (is_terminal) {
        (void)tcsetattr(STDIN_FILENO, TCSAFLUSH, &shown);
        qll_host_complain("\n");
    }
    return status;
}

double qll_host_now_s(void)
{
    struct timespec now = {0};
    (void)clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
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

void qll_host_stamp(char stamp[QLL_HOST_STAMP_SIZE])
{
    struct timespec now = {0};
    struct tm parts = {0};
    (void)clock_gettime(CLOCK_REALTIME, &now);
    (void)gmtime_r(&now.tv_sec, &parts);
    char seconds[QLL_HOST_STAMP_SIZE] = "";
    (void)strftime(seconds, sizeof seconds, "%Y-%m-%dT%H:%M:%S", &parts);
    (void)snprintf(stamp, QLL_HOST_STAMP_SIZE, "%.19s.%03dZ", seconds,
                   (int)(now.tv_nsec / 1000000));
}

size_t qll_host_processors(void)
{
    const long count = sysconf(_SC_NPROCESSORS_ONLN);
    return count > 0 ? (size_t)count : 1;
}

bool qll_host_has_memory(size_t size)
{
    void *room = mmap(NULL, size, PROT_NONE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    return room != MAP_FAILED && munmap(room, size) == 0;
}
