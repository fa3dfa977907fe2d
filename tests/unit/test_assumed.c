#include "base/assumed.h"
#include "check.h"
#include "said.h"

static qll_said ours(void)
{
    return (qll_said){.id = QLL_TEXT_WHY_OURS};
}

TEST(each_default_is_listed_once_in_order)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    qll_assumed assumed = qll_assumed_none(arena);
    CHECK(assumed.first == NULL);
    const qll_argument what = qll_as_is("water.temperature");
    const qll_argument warm = qll_as_quantity(15.0, QLL_KIND_TEMPERATURE);
    const qll_argument cold = qll_as_quantity(10.0, QLL_KIND_TEMPERATURE);
    qll_assumed_add(&assumed, what, warm, ours());
    qll_assumed_add(&assumed, what, warm, (qll_said){.id = QLL_TEXT_WHY_COMMON});
    qll_assumed_add(&assumed, what, cold, ours());
    qll_assumed_add(&assumed, qll_as_is("site.people"), qll_as_word("next room"), ours());
    const qll_assumption *one = assumed.first;
    CHECK(one != NULL && one->next != NULL && one->next->next == assumed.last);
    CHECK_TEXT(said_argument(arena, &one->what), "water.temperature");
    CHECK_TEXT(said_text(arena, &one->why), "our assumption");
    CHECK_TEXT(said_argument(arena, &one->next->value), "50 °F");
    CHECK_TEXT(said_argument(arena, &assumed.last->what), "site.people");
    CHECK(assumed.last->next == NULL);
    qll_arena_close(arena);
}

TEST(texts_inside_texts_are_told_apart)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    qll_assumed assumed = qll_assumed_none(arena);
    for (size_t i = 0; i < 4; i++) {
        const qll_said value = {QLL_TEXT_VALUE_FIXTURES,
                                {qll_as_whole(i / 2), qll_as_is("shower")}};
        qll_assumed_add(&assumed, qll_as_is("fixtures"), qll_as_said(arena, value), ours());
    }
    CHECK(assumed.first != NULL && assumed.first->next == assumed.last);
    CHECK_TEXT(said_argument(arena, &assumed.last->value), "1 x shower");
    qll_arena_close(arena);
}

TEST(a_full_arena_leaves_it_out)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    qll_assumed assumed = qll_assumed_none(arena);
    qll_arena_fail(arena, 1, false);
    qll_assumed_add(&assumed, qll_as_is("a"), qll_as_is("b"), ours());
    CHECK(assumed.first == NULL && qll_arena_refused(arena) == 1);
    qll_assumed_add(&assumed, qll_as_is("a"), qll_as_is("b"), ours());
    CHECK(assumed.first != NULL && assumed.first == assumed.last);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(each_default_is_listed_once_in_order);
    TEST_RUN(texts_inside_texts_are_told_apart);
    TEST_RUN(a_full_arena_leaves_it_out);
    return TEST_END();
}
