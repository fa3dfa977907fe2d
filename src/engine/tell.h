/* What answers about records share: how they are told, and handing them over. */
#ifndef QUELL_ENGINE_TELL_H
#define QUELL_ENGINE_TELL_H

#include "base/problems.h"
#include "findings/recorded.h"

typedef struct qll_tell {
    qll_arena *arena;
    size_t refused_count; /* of the arena, when it was begun */
    qll_wording wording;
    qll_writer writer; /* the answer grows here */
    int today;         /* day since 1970 */
} qll_tell;

/** QLL_OK, or QLL_WRONG_USE: no such day, form, language or units. */
QLL_MUST_USE qll_status qll_tell_begin(const qll_telling *telling, qll_arena *arena, qll_tell *tell,
                                       qll_answer *answer);

/** Moves the text into the answer. */
QLL_MUST_USE qll_status qll_tell_end(qll_tell *tell, qll_answer *answer);

/** When service of the site of @p row is due, seen on day @p today. */
qll_due_site qll_due_of(const qll_site_row *row, int today);

#endif
