/* The list of defaults taken, which every answer shows. */
#ifndef QUELL_BASE_ASSUMED_H
#define QUELL_BASE_ASSUMED_H

#include "base/text.h"

typedef struct qll_assumption {
    const char *what;  /* the key that was not given: "water.temperature" */
    const char *value; /* what was taken instead; quantities are kept by qll_units_keep() */
    const char *why;   /* where that comes from; quantities likewise */
    struct qll_assumption *next;
} qll_assumption;

typedef struct qll_assumed {
    qll_arena *arena;
    qll_assumption *first, *last;
    bool no_memory;
} qll_assumed;

qll_assumed qll_assumed_none(qll_arena *arena);

/** Adds one (strings are copied) unless the same what and value stand there already. */
void qll_assumed_add(qll_assumed *assumed, const char *what, const char *value, const char *why);

#endif
