/* What is stored as a value, as a US reader reads it. */
#ifndef QUELL_TESTS_SAID_H
#define QUELL_TESTS_SAID_H

#include "wording/wording.h"

static inline const char *said_text(qll_arena *arena, const qll_said *said)
{
    const qll_wording wording = {.units = QLL_UNITS_US};
    return qll_said_text(arena, &wording, said);
}

static inline const char *said_argument(qll_arena *arena, const qll_argument *argument)
{
    const qll_wording wording = {.units = QLL_UNITS_US};
    return qll_argument_text(arena, &wording, argument);
}

#endif
