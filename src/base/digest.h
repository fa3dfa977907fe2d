/* A short name for some bytes, by which a file on paper and one on a disk are told to be the same. */
#ifndef QUELL_BASE_DIGEST_H
#define QUELL_BASE_DIGEST_H

#include "base/text.h"

#define QLL_DIGEST_SIZE 32

/** Writes the first @p size bytes of the SHA-256 of @p text (FIPS 180-4, 5 and 6.2) in hexadecimal, as sha256sum prints them. */
void qll_digest_write(qll_writer *writer, qll_text text, size_t size);

#endif
