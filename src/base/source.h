/* What every reader of text does first, and the place of a byte in it. */
#ifndef QUELL_BASE_SOURCE_H
#define QUELL_BASE_SOURCE_H

#include "base/problems.h"

/**
 * Checks that @p source is UTF-8 of at most @p most_size bytes, and takes its byte order mark off.
 *
 * @param name as the user named it, for the problem
 * @return false after adding TOO_LARGE or ENCODING to @p problems
 */
bool qll_source_open(qll_text *source, const char *name, size_t most_size, qll_problems *problems);

/** The place of byte @p offset, without a path. */
qll_place qll_source_place(qll_text source, const char *name, size_t offset);

/** A walk over a text that may end with a refusal. */
typedef struct qll_scan {
    qll_text source;
    const char *name;
    qll_problems *problems;
    size_t at; /* the byte to be looked at next */
} qll_scan;

/** The byte at @p at, or 0 behind the end. */
char qll_scan_byte(const qll_scan *scan, size_t at);

/** Adds a refusal at @p offset; @p hint NULL where there is none. Always false. */
bool qll_scan_refuse(const qll_scan *scan, size_t offset, qll_code code, const qll_said *says,
                     const qll_said *hint);

#endif
