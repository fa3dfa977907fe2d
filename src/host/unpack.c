#include "host/unpack.h"

#include <limits.h>
#include <stdlib.h>
#include <zlib.h>

#define QLL_UNPACK_BLOCK  ((size_t)64 * 1024)
/* Window of 32 KiB, and a gzip header to be there. */
#define QLL_UNPACK_WINDOW (15 + 16)

struct qll_unpack {
    z_stream stream;
    qll_unpack_sink *sink;
    void *context;
    bool within; /* a member has begun and has not ended */
    qll_status status;
    unsigned char block[QLL_UNPACK_BLOCK];
};

bool qll_unpack_is_packed(const char *bytes, size_t size)
{
    return size >= 2 && (unsigned char)bytes[0] == 0x1F && (unsigned char)bytes[1] == 0x8B;
}

qll_unpack *qll_unpack_open(qll_unpack_sink *sink, void *context)
{
    qll_unpack *unpack = calloc(1, sizeof *unpack);
    if (unpack == NULL) {
        return NULL;
    }
    unpack->sink = sink;
    unpack->context = context;
    if (inflateInit2(&unpack->stream, QLL_UNPACK_WINDOW) != Z_OK) {
        free(unpack);
        return NULL;
    }
    return unpack;
}

/* One step of the stream, and its bytes to the sink. */
static qll_status step(qll_unpack *unpack)
{
    z_stream *stream = &unpack->stream;
    if (!unpack->within && inflateReset(stream) != Z_OK) {
        return QLL_IO;
    }
    unpack->within = true;
    stream->next_out = unpack->block;
    stream->avail_out = (uInt)QLL_UNPACK_BLOCK;
    int outcome = inflate(stream, Z_NO_FLUSH);
    size_t size = QLL_UNPACK_BLOCK - stream->avail_out;
    if (outcome == Z_MEM_ERROR) {
        return QLL_NO_MEMORY;
    }
    if (outcome != Z_OK && outcome != Z_STREAM_END && outcome != Z_BUF_ERROR) {
        return QLL_IO;
    }
    unpack->within = outcome != Z_STREAM_END;
    return size == 0 ? QLL_OK : unpack->sink(unpack->context, (const char *)unpack->block, size);
}

qll_status qll_unpack_feed(qll_unpack *unpack, const char *bytes, size_t size)
{
    z_stream *stream = &unpack->stream;
    while (size > 0 && unpack->status == QLL_OK) {
        size_t part = size < UINT_MAX ? size : UINT_MAX;

        /* zlib only reads what its old interface does not call const. */
        union {
            const char *given;
            Bytef *taken;
        } as = {.given = bytes};

        stream->next_in = as.taken;
        stream->avail_in = (uInt)part;
        do {
            unpack->status = step(unpack);
        } while (unpack->status == QLL_OK
                 && (stream->avail_in > 0 || (unpack->within && stream->avail_out == 0)));
        bytes += part;
        size -= part;
    }
    return unpack->status;
}

qll_status qll_unpack_finish(qll_unpack *unpack)
{
    if (unpack->status == QLL_OK && unpack->within) {
        unpack->status = QLL_IO;
    }
    return unpack->status;
}

void qll_unpack_close(qll_unpack *unpack)
{
    if (unpack != NULL) {
        (void)inflateEnd(&unpack->stream);
        free(unpack);
    }
}
