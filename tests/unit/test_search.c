/* The search where memory is short. */
#include "few_valves.h"

static void fail_each(const scene *given, double keep)
{
    few_case at;
    few_open(&at, given);
    at.options.keep = keep;
    CHECK(scene_catalogue(11, 5, given, at.arena, &at.catalogue));
    (void)few_search(&at); /* the yardstick remembers what it was asked */
    const size_t before = qll_arena_count(at.arena);
    (void)few_search(&at);
    const size_t count = qll_arena_count(at.arena) - before;
    const double expected = at.found.kinds[0].cost.expected;
    size_t wrong = 0;
    size_t refused = 0;
    for (size_t n = 1; n <= count; n++) {
        for (int forever = 0; forever < 2; forever++) {
            const qll_arena_mark mark = qll_arena_now(at.arena);
            qll_arena_fail(at.arena, n, forever == 1);
            qll_status status =
                qll_search(&at.made.yardstick, &at.catalogue, &at.options, at.arena, &at.found);
            qll_arena_fail(at.arena, 0, false);
            bool is_whole = status == QLL_OK && at.found.kind_count > 0
                            && at.found.kinds[0].cost.expected == expected;
            refused += status == QLL_NO_MEMORY ? 1 : 0;
            wrong += status == QLL_NO_MEMORY || is_whole ? 0 : 1;
            qll_arena_reset(at.arena, mark);
        }
    }
    printf("    %zu allocations\n", count);
    CHECK(wrong == 0);
    CHECK(count > 20 && refused == 2 * count);
    qll_arena_close(at.arena);
}

TEST(every_allocation_may_fail)
{
    scene given = few_house();
    fail_each(&given, 1.5);
    given.static_high_psi = 210.0; /* stages */
    given.static_low_psi = 200.0;
    fail_each(&given, 1.0);
    given.peak_gpm = 120.0; /* nothing carries that */
    fail_each(&given, 1.0);
}

int main(void)
{
    TEST_RUN(every_allocation_may_fail);
    return TEST_END();
}
