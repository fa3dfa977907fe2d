/* Collects refusals and warnings, each with its place, sentence and hint. */
#ifndef QUELL_BASE_PROBLEMS_H
#define QUELL_BASE_PROBLEMS_H

#include "quell/arena.h"
#include "quell/problems.h"

#include "base/text.h"

/* The list keeps this many and counts the rest; more would not be read. */
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
 * Adds a problem. All strings of @p problem are copied, made safe to show (base/quote.h).
 *
 * A text of NULL, as qll_writer_text() gives it after a failure, is noted as no_memory, and so is
 * a path of NULL in a place with a line, as qll_node_place() and qll_table_place() give it.
 *
 * @return always false, so that a reader can write `return qll_problems_add(...)`
 */
bool qll_problems_add(qll_problems *problems, qll_problem problem);

/** QLL_NO_MEMORY, QLL_REFUSED or QLL_OK, by what the list holds. */
qll_status qll_problems_status(const qll_problems *problems);

/** The hint that offers @p word: `did you mean "psi"?`; "" if it is NULL or memory is short. */
const char *qll_hint_word(const char *word, qll_arena *arena);

/**
 * Writes one line in the form that editors jump to:
 *
 *     survey.json:41:22: stages[1].set_pressure: sentence; did you mean "psi"?
 *
 * Parts that are unknown or empty are left out; a warning has "warning: " after the place.
 *
 * @param warning that word in another language; NULL = "warning"
 */
void qll_problem_write(qll_writer *writer, const qll_problem *problem, const char *warning);

#endif
