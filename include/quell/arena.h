/* Memory with one owner and one lifetime; the only allocator of the engine. */
#ifndef QUELL_ARENA_H
#define QUELL_ARENA_H

#include "quell/api.h"

#include <stdbool.h>
#include <stddef.h>

QLL_C_BEGIN

typedef struct qll_arena qll_arena;

/**
 * Opens an empty arena.
 *
 * @param ceiling_size most bytes the arena may ever hold at once; hostile input meets this limit,
 *                     not the machine's
 * @return the arena, owned by the caller, who ends it with qll_arena_close(); NULL if the machine
 *         has no memory
 */
QLL_API qll_arena *qll_arena_open(size_t ceiling_size);

/** Gives back everything taken from @p arena and the arena itself. NULL is harmless. */
QLL_API void qll_arena_close(qll_arena *arena);

/**
 * Takes room for @p count items of @p size bytes, set to zero and aligned for any type.
 *
 * The product is checked for overflow. A count or size of 0 gives a valid pointer to nothing.
 *
 * @return the memory, owned by the arena until it is closed or reset to an earlier mark; NULL when
 *         the ceiling or the machine's memory is reached (every caller checks)
 */
QLL_API void *qll_arena_take(qll_arena *arena, size_t count, size_t size);

/** Copies @p size bytes of @p bytes and a closing zero byte into the arena; NULL as above. */
QLL_API char *qll_arena_copy(qll_arena *arena, const char *bytes, size_t size);

/** How much is in use now; a mark to which qll_arena_reset() returns. */
typedef struct qll_arena_mark {
    void *chunk;
    size_t used;
} qll_arena_mark;

QLL_API qll_arena_mark qll_arena_now(const qll_arena *arena);

/** Gives back all that was taken after @p mark. */
QLL_API void qll_arena_reset(qll_arena *arena, qll_arena_mark mark);

/** Bytes held from the machine, and calls of qll_arena_take() so far: for tests and budgets. */
QLL_API size_t qll_arena_size(const qll_arena *arena);
QLL_API size_t qll_arena_count(const qll_arena *arena);

/** How often the arena has returned NULL so far: what was written meanwhile may lack something. */
QLL_API size_t qll_arena_refused(const qll_arena *arena);

/**
 * Makes the @p nth next call of qll_arena_take() fail (from 1; 0 = never), and all later ones too
 * if @p forever. For the tests of tests/memory.
 */
QLL_API void qll_arena_fail(qll_arena *arena, size_t nth, bool forever);

QLL_C_END

#endif
