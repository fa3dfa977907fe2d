#include "host/stream.h"

#include "host/system_says.h"
#include "host/unpack.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

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

qll_status qll_host_stream(void *file, qll_bytes_sink *sink, void *sink_context, const char **why)
{
    const qll_host_file *from = file;
    errno = 0;
    FILE *stream = fopen(from->path, "rb");
    if (stream == NULL) {
        return qll_system_failed(errno, from->arena, why);
    }
    outlet to = {.sink = sink, .context = sink_context};
    qll_status status = pass_all(from, stream, &to, why);
    qll_unpack_close(to.unpack);
    (void)fclose(stream);
    return status;
}
