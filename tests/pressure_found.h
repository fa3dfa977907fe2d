/* One finding of a log of pressures. */
#ifndef QUELL_TESTS_PRESSURE_FOUND_H
#define QUELL_TESTS_PRESSURE_FOUND_H

#include "signals/pressure_log.h"

/** The first finding of @p word; NULL where there is none. */
static inline const qll_pressure_finding *pressure_found(const qll_pressure_result *result,
                                                         qll_pressure_word word)
{
    for (size_t i = 0; i < result->finding_count; i++) {
        if (result->findings[i].word == word) {
            return &result->findings[i];
        }
    }
    return NULL;
}

#endif
