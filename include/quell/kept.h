/* Answers about surveys that are asked again and again with little changed: what did not change is kept. */
#ifndef QUELL_KEPT_H
#define QUELL_KEPT_H

#include "quell/quell.h"

QLL_C_BEGIN

/** What is kept between questions: tables, the catalogue, the demand of every scenario that was not changed, and the last
 * station that was chosen. */
typedef struct qll_kept qll_kept;

/**
 * Opens a keeper that holds nothing.
 *
 * @param ceiling_size most bytes it may ever hold; what does not fit is worked out anew each time
 * @return the keeper, owned by the caller, who ends it with qll_kept_close(); NULL if the machine has no memory
 */
QLL_API qll_kept *qll_kept_open(size_t ceiling_size);

/** Gives back all it holds. NULL is harmless. */
QLL_API void qll_kept_close(qll_kept *kept);

/** Forgets everything. To be called when a file behind an attachment has changed: one of the same name and path is taken to
 * hold the same bytes. */
QLL_API void qll_kept_forget(qll_kept *kept);

/** Bytes it holds now. */
QLL_API size_t qll_kept_size(const qll_kept *kept);

/**
 * Answers as qll_ask() does, with the same bytes, and faster where the last questions had scenarios or a catalogue in common
 * with this one. Not from two threads at once. Everything in @p answer lives in @p arena.
 *
 *     qll_kept *kept = qll_kept_open((size_t)64 * 1024 * 1024);
 *     qll_ask_kept(kept, &question, arena, &answer);
 */
QLL_API QLL_MUST_USE qll_status qll_ask_kept(qll_kept *kept, const qll_question *question,
                                             qll_arena *arena, qll_answer *answer);

QLL_C_END

#endif
