/* Collects refusals and warnings, each with its place, sentence and hint. */
#ifndef QUELL_BASE_PROBLEMS_H
#define QUELL_BASE_PROBLEMS_H

#include "quell/arena.h"
#include "quell/problems.h"

#include "base/said.h"
#include "base/text.h"

/* The list keeps this many and counts the rest; more would not be read. */
#define QLL_PROBLEMS_KEPT 20

/** A problem as it is found: what is said of it is a value, which wording says. */
typedef struct qll_fault {
    qll_code code;
    qll_level level;
    qll_place place;
    const qll_said *says; /* one sentence: what was found, what is expected */
    const qll_said *hint; /* a clause; NULL if there is none */
    qll_fix fix;
} qll_fault;

typedef struct qll_problems {
    qll_arena *arena; /* where the strings live; set by the caller, never NULL */
    qll_fault kept[QLL_PROBLEMS_KEPT];
    size_t kept_count;
    size_t count;         /* all, kept or not */
    size_t refusal_count; /* those of level QLL_REFUSAL, kept or not */
    size_t refused_count; /* of the arena, when the list was begun */
} qll_problems;

/** An empty list whose strings live in @p arena. */
qll_problems qll_problems_none(qll_arena *arena);

/**
 * Adds a fault. What it says, its place and its fix are copied; texts that figures of it quote must live
 * as long as the list. The place is made safe to show (base/quote.h), as the sentence is when it is said.
 *
 * @return always false, so that a reader can write `return qll_problems_add(...)`
 */
bool qll_problems_add(qll_problems *problems, qll_fault fault);

/** QLL_NO_MEMORY if the arena has refused since the list was begun; else QLL_REFUSED or QLL_OK, by what the
 * list holds. */
qll_status qll_problems_status(const qll_problems *problems);

/** Keeps @p said in @p arena; NULL of NULL and without memory. */
const qll_said *qll_said_kept(qll_arena *arena, const qll_said *said);

/** The hint that offers @p word: `did you mean "psi"?`; NULL if there is no word or memory is short. */
const qll_said *qll_hint_word(const char *word, qll_arena *arena);

/** The fix by which something becomes the text @p word, as JSON; none where it is NULL or "". */
qll_fix qll_fix_text(qll_fix_op op, const char *word, qll_arena *arena);

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
