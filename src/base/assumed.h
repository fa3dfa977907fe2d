/* The list of defaults taken, which every answer shows. */
#ifndef QUELL_BASE_ASSUMED_H
#define QUELL_BASE_ASSUMED_H

#include "base/said.h"

typedef struct qll_assumption {
    qll_argument
        what; /* the key that was not given, "water.temperature", or what it is a default of */
    qll_argument value; /* what was taken instead */
    qll_said why;       /* where that comes from */
    struct qll_assumption *next;
} qll_assumption;

typedef struct qll_assumed {
    qll_arena *arena;
    qll_assumption *first, *last;
} qll_assumed;

qll_assumed qll_assumed_none(qll_arena *arena);

/** Adds one unless the same what and value stand there already. Texts in it must live as long as the
 * list: they are not copied. */
void qll_assumed_add(qll_assumed *assumed, qll_argument what, qll_argument value, qll_said why);

#endif
