/* What is said of a demand, in English and US units, for tests. */
#ifndef QUELL_TESTS_DEMAND_SAYS_H
#define QUELL_TESTS_DEMAND_SAYS_H

#include "wording/wording.h"

#include <string.h>

static const qll_wording demand_wording = {.units = QLL_UNITS_US, .language = QLL_LANGUAGE_EN};

/* Is @p part in the refusal or the first warning? */
static inline bool demand_says(qll_arena *arena, const qll_demand *demand, const char *part)
{
    const qll_remark *remark = demand->refusal != NULL ? demand->refusal : demand->warnings;
    if (remark == NULL) {
        return false;
    }
    qll_writer writer = qll_writer_new(arena);
    qll_wording_remark(&writer, &demand_wording, remark);
    return strstr(qll_writer_text(&writer).bytes, part) != NULL;
}

/* Is @p part in the notes of @p estimate? */
static inline bool demand_notes(qll_arena *arena, const qll_peak_estimate *estimate,
                                const char *part)
{
    return strstr(qll_wording_notes(arena, &demand_wording, estimate->notes), part) != NULL;
}

#endif
