/* Collects refusals and warnings, each with its place, sentence and hint. */
#ifndef QUELL_BASE_PROBLEMS_H
#define QUELL_BASE_PROBLEMS_H

#include "quell/arena.h"
#include "quell/problems.h"

/* The list keeps this many and counts the rest (design.md section 7). */
#define QLL_PROBLEMS_KEPT 20

typedef struct qll_problems {
    qll_arena *arena; /* where the strings live; set by the caller, never NULL */
    qll_problem kept[QLL_PROBLEMS_KEPT];
    size_t kept_count;
    size_t count;         /* all, kept or not */
    size_t refusal_count; /* those of level QLL_REFUSAL, kept or not */
    bool no_memory;       /* a sentence could not be stored */
} qll_problems;

/** An empty list whose strings live in @p arena. */
qll_problems qll_problems_none(qll_arena *arena);

/**
 * Adds a problem. All strings of @p problem are copied.
 *
 * @return always false, so that a reader can write `return qll_problems_add(...)`
 */
bool qll_problems_add(qll_problems *problems, qll_problem problem);

/** QLL_NO_MEMORY, QLL_REFUSED or QLL_OK, by what the list holds. */
qll_status qll_problems_status(const qll_problems *problems);

#endif
