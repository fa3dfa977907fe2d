/* A file as a stream of bytes, gzip undone on the way. */
#ifndef QUELL_HOST_STREAM_H
#define QUELL_HOST_STREAM_H

#include "quell/quell.h"

typedef struct qll_host_file {
    const char *path;
    qll_arena *arena; /* for what the system says */
} qll_host_file;

/** For qll_attachment: the same bytes at any place; packed ones are unpacked into a file without a name
 * that is gone when it is closed. QLL_IO for pipes. */
QLL_MUST_USE qll_status qll_host_again(void *file, qll_reread *reread, const char **why);

/** For qll_attachment: @p file is a qll_host_file. Opens it, reads it once, and closes it. */
QLL_MUST_USE qll_status qll_host_stream(void *file, qll_bytes_sink *sink, void *sink_context,
                                        const char **why);

#endif
