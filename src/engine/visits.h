/* The gauge readings of a site's records. */
#ifndef QUELL_ENGINE_VISITS_H
#define QUELL_ENGINE_VISITS_H

#include "documents/read_record.h"

/** A visit, or a reading by itself, with its day. */
typedef struct qll_dated_visit {
    const qll_record *record;
    const char *day;
    int day_number; /* since 1970 */
    qll_visit visit;
} qll_dated_visit;

typedef struct qll_dated_visits {
    qll_dated_visit *list;
    size_t count;
} qll_dated_visits;

/** The visits and readings among @p records, in the order of their days. What cannot be read is left out: a store takes it
 * only read. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_visits_among(const qll_record *records, size_t count, qll_arena *arena,
                                         qll_dated_visits *visits);

#endif
