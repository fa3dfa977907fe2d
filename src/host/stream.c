#include "host/stream.h"

#include "host/host.h"
#include "host/system_says.h"
#include "host/unpack.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* So long a pipe is waited for without a word. */
#define QLL_PATIENCE_MS 2000

/* Where the bytes of the file go: straight to the sink, or through the unpacking. */
typedef struct outlet {
    qll_bytes_sink *sink;
    void *context;
    qll_unpack *unpack;
} outlet;

static qll_status pass_on(outlet *to, const char *bytes, size_t size)
{
    return to->unpack == NULL ? to->sink(to->context, bytes, size)
                              : qll_unpack_feed(to->unpack, bytes, size);
}

static qll_status pass_all(const qll_host_file *file, FILE *stream, outlet *to, const char **why)
{
    char block[8192];
    qll_status status = QLL_OK;
    bool is_first = true;
    while (status == QLL_OK) {
        errno = 0;
        size_t size = fread(block, 1, sizeof block, stream);
        if (ferror(stream)) {
            return qll_system_failed(errno, file->arena, why);
        }
        if (is_first && qll_unpack_is_packed(block, size)) {
            to->unpack = qll_unpack_open(to->sink, to->context);
            if (to->unpack == NULL) {
                return QLL_NO_MEMORY;
            }
        }
        is_first = false;
        status = pass_on(to, block, size);
        if (size < sizeof block && feof(stream)) {
            break;
        }
    }
    if (status == QLL_OK && to->unpack != NULL) {
        status = qll_unpack_finish(to->unpack);
    }
    if (status == QLL_IO) {
        *why = "its gzip data is damaged or cut short";
    }
    return status;
}

/* Opens @p path for reading; where it is a pipe that nobody writes to, says after a while what is waited for. */
static FILE *open_patiently(const char *path)
{
    struct stat facts;
    if (stat(path, &facts) != 0 || !S_ISFIFO(facts.st_mode)) {
        return fopen(path, "rb");
    }
    const int file = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    if (file < 0) {
        return NULL;
    }
    struct pollfd waited = {.fd = file, .events = POLLIN};
    int found = poll(&waited, 1, QLL_PATIENCE_MS);
    if (found == 0) {
        qll_host_complain("quell: waiting for somebody to write to a pipe that the survey names\n");
        found = poll(&waited, 1, -1);
    }
    if (found < 0 || fcntl(file, F_SETFL, 0) != 0) {
        const int error = errno;
        (void)close(file);
        errno = error;
        return NULL;
    }
    return fdopen(file, "rb");
}

qll_status qll_host_stream(void *file, qll_bytes_sink *sink, void *sink_context, const char **why)
{
    const qll_host_file *from = file;
    errno = 0;
    FILE *stream = open_patiently(from->path);
    if (stream == NULL) {
        return qll_system_failed(errno, from->arena, why);
    }
    outlet to = {.sink = sink, .context = sink_context};
    qll_status status = pass_all(from, stream, &to, why);
    qll_unpack_close(to.unpack);
    (void)fclose(stream);
    return status;
}

/* ---- again, at any place ---- */

static qll_status read_at(void *stream, uint64_t at, char *bytes, size_t *size, const char **why)
{
    *why = "it cannot be read again";
    if (fseeko(stream, (off_t)at, SEEK_SET) != 0) {
        return QLL_IO;
    }
    *size = fread(bytes, 1, *size, stream);
    return ferror((FILE *)stream) ? QLL_IO : QLL_OK;
}

static void close_stream(void *stream)
{
    (void)fclose(stream);
}

static qll_status keep(void *stream, const char *bytes, size_t size)
{
    return fwrite(bytes, 1, size, stream) == size ? QLL_OK : QLL_IO;
}

/* Unpacked into a file without a name; NULL if there is no room for it. */
static FILE *unpacked(const qll_host_file *from, FILE *packed)
{
    FILE *plain = tmpfile();
    const char *why = "";
    if (plain == NULL) {
        return NULL;
    }
    rewind(packed);
    outlet to = {.sink = keep, .context = plain};
    const qll_status status = pass_all(from, packed, &to, &why);
    qll_unpack_close(to.unpack);
    if (status != QLL_OK) {
        (void)fclose(plain);
        return NULL;
    }
    return plain;
}

qll_status qll_host_again(void *file, qll_reread *reread, const char **why)
{
    const qll_host_file *from = file;
    struct stat facts;
    *why = "it cannot be read again";
    if (stat(from->path, &facts) != 0 || !S_ISREG(facts.st_mode)) {
        return QLL_IO;
    }
    FILE *stream = fopen(from->path, "rb");
    if (stream == NULL) {
        return QLL_IO;
    }
    char first[4];
    const size_t size = fread(first, 1, sizeof first, stream);
    if (qll_unpack_is_packed(first, size)) {
        FILE *plain = unpacked(from, stream);
        (void)fclose(stream);
        stream = plain;
    }
    if (stream == NULL || fseeko(stream, 0, SEEK_END) != 0) {
        return QLL_IO;
    }
    *reread = (qll_reread){.context = stream,
                           .size = (uint64_t)ftello(stream),
                           .read_at = read_at,
                           .close = close_stream};
    return QLL_OK;
}
