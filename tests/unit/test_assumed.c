#include "base/assumed.h"
#include "check.h"

TEST(each_default_is_listed_once_in_order)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    qll_assumed assumed = qll_assumed_none(arena);
    CHECK(assumed.first == NULL);
    char what[] = "water.temperature";
    qll_assumed_add(&assumed, what, "60 degF", "cold mains");
    what[0] = 'x';
    qll_assumed_add(&assumed, "water.temperature", "60 degF", "said again");
    qll_assumed_add(&assumed, "water.temperature", "50 degF", "another branch");
    qll_assumed_add(&assumed, "site.barometric", "101325 Pa", "");
    const qll_assumption *one = assumed.first;
    CHECK(one != NULL && one->next != NULL && one->next->next == assumed.last);
    CHECK_TEXT(one->what, "water.temperature");
    CHECK_TEXT(one->why, "cold mains");
    CHECK_TEXT(one->next->value, "50 degF");
    CHECK_TEXT(assumed.last->what, "site.barometric");
    CHECK(assumed.last->next == NULL && !assumed.no_memory);
    qll_arena_close(arena);
}

TEST(a_full_arena_is_remembered)
{
    for (size_t nth = 1; nth <= 4; nth++) {
        qll_arena *arena = qll_arena_open(1 << 16);
        qll_assumed assumed = qll_assumed_none(arena);
        qll_arena_fail(arena, nth, false);
        qll_assumed_add(&assumed, "a", "b", "c");
        CHECK(assumed.no_memory && assumed.first == NULL);
        qll_arena_close(arena);
    }
}

int main(void)
{
    TEST_RUN(each_default_is_listed_once_in_order);
    TEST_RUN(a_full_arena_is_remembered);
    return TEST_END();
}
