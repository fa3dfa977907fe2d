/* The front against the plain way: everything compared with everything. */
#include "base/random.h"
#include "check.h"
#include "search/front.h"

#include <math.h>

#define TEST_MEMBERS 400
#define TEST_ROUNDS  40

/* Over many powers of two, near ties, repeats and zeros among them. */
static double draw_value(qll_random *random, const double *earlier, size_t count)
{
    double how = qll_random_unit(random);
    if (how < 0.05) {
        return 0.0;
    }
    if (how < 0.3 && count > 0) {
        double near = 1.0 + 4e-9 * (qll_random_unit(random) - 0.5);
        size_t at = (size_t)(qll_random_unit(random) * (double)count);
        return earlier[at] * (qll_random_unit(random) < 0.3 ? 1.0 : near);
    }
    return how < 0.5 ? exp2(70.0 * qll_random_unit(random) - 35.0) : qll_random_unit(random);
}

static qll_objectives draw_objectives(qll_random *random, double earlier[4][TEST_MEMBERS],
                                      size_t count)
{
    double values[4];
    for (size_t k = 0; k < 4; k++) {
        values[k] = draw_value(random, earlier[k], count);
        earlier[k][count] = values[k];
    }
    return (qll_objectives){values[0], values[1], values[2], values[3]};
}

/* A quarter of the members goes in, the rest only asks. */
static void check_front(qll_random *random)
{
    static double earlier[4][TEST_MEMBERS];
    qll_arena *arena = qll_arena_open(1 << 24);
    qll_front front = {0};
    for (size_t i = 0; i < TEST_MEMBERS; i++) {
        const qll_front_member member = {.objectives = draw_objectives(random, earlier, i),
                                         .part_count = i};
        bool wanted = false;
        for (size_t m = 0; m < front.count; m++) {
            wanted =
                wanted || qll_objectives_beat(&front.members[m]->objectives, &member.objectives);
        }
        CHECK(qll_front_beats(&front, &member.objectives) == wanted);
        CHECK(!qll_front_beats_soon(&front, &member.objectives) || wanted);
        if (i % 4 == 0 && CHECK(qll_front_reserve(&front, 1, arena) == QLL_OK)) {
            size_t before = front.count;
            qll_front_add(&front, &member);
            CHECK(!wanted || front.count == before);
        }
    }
    for (size_t a = 0; a < front.count; a++) {
        for (size_t b = 0; b < front.count; b++) {
            CHECK(
                !qll_objectives_beat(&front.members[a]->objectives, &front.members[b]->objectives));
        }
        const qll_objectives *own = &front.members[a]->objectives;
        const qll_objectives *beside = &front.objectives[a];
        CHECK(own->noise == beside->noise && own->unsteady == beside->unsteady);
        CHECK(own->wear == beside->wear && own->price == beside->price);
    }
    qll_arena_close(arena);
}

TEST(a_front_beats_what_one_of_it_beats)
{
    qll_random random = qll_random_seeded(12);
    for (int i = 0; i < TEST_ROUNDS; i++) {
        check_front(&random);
    }
}

TEST(sorted_by_valves_then_price_with_what_goes_along)
{
    qll_random random = qll_random_seeded(13);
    qll_arena *arena = qll_arena_open(1 << 24);
    qll_front front = {0};
    for (size_t i = 0; i < 60; i++) {
        /* Dearer is quieter: all of them stay. */
        double price = 100.0 * (double)((7 * i) % 60 + 1);
        const qll_front_member member = {.objectives = {.noise = 1.0 / price, .price = price},
                                         .part_count =
                                             1 + (size_t)(qll_random_unit(&random) * 3.0)};
        if (CHECK(qll_front_reserve(&front, 1, arena) == QLL_OK)) {
            qll_front_add(&front, &member);
        }
    }
    qll_front_sort(&front);
    CHECK(front.count == 60);
    for (size_t i = 0; i < front.count; i++) {
        const qll_front_member *here = front.members[i];
        CHECK(front.objectives[i].price == here->objectives.price);
        CHECK(i == 0 || front.members[i - 1]->part_count < here->part_count
              || (front.members[i - 1]->part_count == here->part_count
                  && front.members[i - 1]->objectives.price < here->objectives.price));
        qll_objectives worse = here->objectives;
        worse.price *= 1.001;
        worse.noise *= 1.001;
        CHECK(qll_front_beats(&front, &worse));
        CHECK(front.count == 60);
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(a_front_beats_what_one_of_it_beats);
    TEST_RUN(sorted_by_valves_then_price_with_what_goes_along);
    return TEST_END();
}
