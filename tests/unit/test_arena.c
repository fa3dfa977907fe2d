#include "quell/arena.h"

#include "check.h"

#include <stdint.h>

TEST(memory_is_zero_and_aligned)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    char *odd = qll_arena_take(arena, 3, 1);
    double *numbers = qll_arena_take(arena, 100, sizeof *numbers);
    CHECK(odd != NULL && numbers != NULL);
    CHECK((uintptr_t)numbers % sizeof(double) == 0);
    bool zero = numbers != NULL;
    for (int i = 0; zero && i < 100; i++) {
        zero = zero && numbers[i] == 0.0;
    }
    CHECK(zero);
    qll_arena_close(arena);
}

TEST(ceiling_is_kept)
{
    qll_arena *arena = qll_arena_open(100000);
    CHECK(qll_arena_take(arena, 1, 60000) != NULL);
    CHECK(qll_arena_take(arena, 1, 60000) == NULL);
    CHECK(qll_arena_take(arena, 1, 30000) != NULL);
    CHECK(qll_arena_size(arena) <= 100000);
    qll_arena_close(arena);
}

TEST(sizes_do_not_overflow)
{
    qll_arena *arena = qll_arena_open(SIZE_MAX);
    CHECK(qll_arena_take(arena, SIZE_MAX / 2, 3) == NULL);
    CHECK(qll_arena_take(arena, SIZE_MAX, 1) == NULL);
    CHECK(qll_arena_take(arena, 0, 8) != NULL);
    CHECK(qll_arena_refused(arena) == 2);
    CHECK(qll_arena_copy(arena, "", SIZE_MAX) == NULL);
    CHECK(qll_arena_refused(arena) == 3);
    qll_arena_close(arena);
}

TEST(reset_gives_back)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    CHECK(qll_arena_take(arena, 10, 1) != NULL);
    qll_arena_mark mark = qll_arena_now(arena);
    size_t size = qll_arena_size(arena);
    for (int i = 0; i < 20; i++) {
        CHECK(qll_arena_take(arena, 1, 20000) != NULL);
    }
    qll_arena_reset(arena, mark);
    CHECK(qll_arena_size(arena) == size);
    qll_arena_close(arena);
}

TEST(nth_take_fails_on_request)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_arena_fail(arena, 2, false);
    CHECK(qll_arena_take(arena, 1, 1) != NULL);
    CHECK(qll_arena_take(arena, 1, 1) == NULL);
    CHECK(qll_arena_take(arena, 1, 1) != NULL);
    qll_arena_fail(arena, 1, true);
    CHECK(qll_arena_take(arena, 1, 1) == NULL);
    CHECK(qll_arena_take(arena, 1, 1) == NULL);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(memory_is_zero_and_aligned);
    TEST_RUN(ceiling_is_kept);
    TEST_RUN(sizes_do_not_overflow);
    TEST_RUN(reset_gives_back);
    TEST_RUN(nth_take_fails_on_request);
    return TEST_END();
}
