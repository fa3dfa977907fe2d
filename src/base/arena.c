#include "quell/arena.h"

#include <assert.h>
#include <stdalign.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* Chunks grow with what is asked for, from 16 KiB up to 1 MiB, so that a small question costs one
 * call of malloc and a large one few. */
#define QLL_FIRST_CHUNK_SIZE ((size_t)16 * 1024)
#define QLL_LAST_CHUNK_SIZE  ((size_t)1024 * 1024)

typedef struct chunk {
    struct chunk *before;
    size_t size;
    size_t used;
    alignas(max_align_t) unsigned char bytes[];
} chunk;

struct qll_arena {
    chunk *last;
    size_t ceiling_size;
    size_t held_size;
    size_t next_chunk_size;
    size_t count;
    size_t refused_count;
    size_t fail_at;
    bool fail_forever;
};

qll_arena *qll_arena_open(size_t ceiling_size)
{
    qll_arena *arena = calloc(1, sizeof *arena);
    if (arena != NULL) {
        arena->ceiling_size = ceiling_size;
        arena->next_chunk_size = QLL_FIRST_CHUNK_SIZE;
    }
    return arena;
}

static void drop_last_chunk(qll_arena *arena)
{
    chunk *last = arena->last;
    arena->last = last->before;
    arena->held_size -= last->size;
    free(last);
}

void qll_arena_close(qll_arena *arena)
{
    if (arena == NULL) {
        return;
    }
    while (arena->last != NULL) {
        drop_last_chunk(arena);
    }
    free(arena);
}

static bool must_fail(qll_arena *arena)
{
    arena->count += 1;
    if (arena->fail_at == 0) {
        return false;
    }
    return arena->count == arena->fail_at || (arena->fail_forever && arena->count > arena->fail_at);
}

static bool add_chunk(qll_arena *arena, size_t least_size)
{
    size_t size = arena->next_chunk_size > least_size ? arena->next_chunk_size : least_size;
    size_t room = arena->ceiling_size - arena->held_size;
    if (size > room) {
        size = least_size;
    }
    if (size > room || size > SIZE_MAX - sizeof(chunk)) {
        return false;
    }
    chunk *added = malloc(sizeof(chunk) + size);
    if (added == NULL) {
        return false;
    }
    *added = (chunk){.before = arena->last, .size = size, .used = 0};
    arena->last = added;
    arena->held_size += size;
    if (arena->next_chunk_size < QLL_LAST_CHUNK_SIZE) {
        arena->next_chunk_size *= 2;
    }
    return true;
}

static void *take(qll_arena *arena, size_t count, size_t size)
{
    if (must_fail(arena)) {
        return NULL;
    }
    const size_t step = alignof(max_align_t);
    if (size != 0 && count > (SIZE_MAX - step) / size) {
        return NULL;
    }
    size_t wanted = (count * size + step - 1) / step * step;
    if (wanted == 0) {
        wanted = step;
    }
    if (arena->last == NULL || wanted > arena->last->size - arena->last->used) {
        if (!add_chunk(arena, wanted)) {
            return NULL;
        }
    }
    void *memory = arena->last->bytes + arena->last->used;
    arena->last->used += wanted;
    memset(memory, 0, wanted);
    return memory;
}

void *qll_arena_take(qll_arena *arena, size_t count, size_t size)
{
    assert(arena != NULL);
    void *memory = take(arena, count, size);
    arena->refused_count += memory == NULL ? 1 : 0;
    return memory;
}

char *qll_arena_copy(qll_arena *arena, const char *bytes, size_t size)
{
    if (size == SIZE_MAX) {
        arena->refused_count += 1;
        return NULL;
    }
    char *copy = qll_arena_take(arena, size + 1, 1);
    if (copy != NULL && size > 0) {
        memcpy(copy, bytes, size);
    }
    return copy;
}

qll_arena_mark qll_arena_now(const qll_arena *arena)
{
    return (qll_arena_mark){.chunk = arena->last,
                            .used = arena->last == NULL ? 0 : arena->last->used};
}

void qll_arena_reset(qll_arena *arena, qll_arena_mark mark)
{
    while (arena->last != NULL && arena->last != mark.chunk) {
        drop_last_chunk(arena);
    }
    assert(arena->last == mark.chunk);
    if (arena->last != NULL) {
        assert(mark.used <= arena->last->used);
        arena->last->used = mark.used;
    }
}

size_t qll_arena_size(const qll_arena *arena)
{
    return arena->held_size;
}

size_t qll_arena_count(const qll_arena *arena)
{
    return arena->count;
}

size_t qll_arena_refused(const qll_arena *arena)
{
    return arena->refused_count;
}

void qll_arena_fail(qll_arena *arena, size_t nth, bool forever)
{
    arena->fail_at = nth == 0 ? 0 : arena->count + nth;
    arena->fail_forever = forever;
}
