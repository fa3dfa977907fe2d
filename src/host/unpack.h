/* Undoes gzip (RFC 1952), block by block. */
#ifndef QUELL_HOST_UNPACK_H
#define QUELL_HOST_UNPACK_H

#include "quell/problems.h"

/** Takes the next unpacked bytes; anything but QLL_OK ends the unpacking. */
typedef qll_status qll_unpack_sink(void *context, const char *bytes, size_t size);

typedef struct qll_unpack qll_unpack;

/** True if @p bytes start like a gzip file. */
bool qll_unpack_is_packed(const char *bytes, size_t size);

/** Starts; NULL without memory. The caller ends it with qll_unpack_close(). */
qll_unpack *qll_unpack_open(qll_unpack_sink *sink, void *context);

/** Unpacks a block; files of several members are read on. QLL_IO: the file is damaged. */
QLL_MUST_USE qll_status qll_unpack_feed(qll_unpack *unpack, const char *bytes, size_t size);

/** QLL_IO if the file ended too early. */
QLL_MUST_USE qll_status qll_unpack_finish(qll_unpack *unpack);

/** NULL is harmless. */
void qll_unpack_close(qll_unpack *unpack);

#endif
