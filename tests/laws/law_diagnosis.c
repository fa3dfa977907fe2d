/* How well made-up cases are diagnosed (docs/theory/diagnosis.md 6): no worse than is written there. */
#include "check.h"
#include "diagnosis_world.h"

static qll_arena *arena;
static qll_knowledge knowledge;

static world masked(uint64_t seed)
{
    return (world){.knowledge = &knowledge,
                   .site = QLL_SITE_HAS_BIT(QLL_SITE_HAS_WATER_HEATER)
                           | QLL_SITE_HAS_BIT(QLL_SITE_HAS_BACKFLOW_PREVENTER),
                   .is_masked = true,
                   .random = qll_random_seeded(seed)};
}

/* Plain tempered Bayes has 0.57 of such cases; the prior alone 0.935. Of 3,000 cases the score is known to 0.0086 only (forty draws:
 * 0.525 to 0.566), of 15,000 to 0.004. */
TEST(a_visit_finds_what_is_wrong)
{
    world of = masked(43);
    const world_score score = world_visit(&of, 15000 / TEST_ONE_IN, 1, arena);
    const double brier = score.brier / (double)score.cases;
    CHECK_WITHIN(brier, 0.548, TEST_ONE_IN == 1 ? 0.01 : 0.02);
    CHECK(TEST_ONE_IN > 1 || brier <= 0.55);
    CHECK(world_calibration(&score) <= 0.05);
    printf("    Brier %.3f, calibration error %.3f\n", brier, world_calibration(&score));
}

TEST(asking_what_is_worth_most_takes_half_the_answers)
{
    world of = masked(44);
    const world_score score = world_policy(&of, 1000 / TEST_ONE_IN, arena);
    const double answers = score.answers / (double)score.cases;
    CHECK(answers <= 7.4);
    CHECK(TEST_ONE_IN > 1 || world_calibration(&score) <= 0.05);
    CHECK(TEST_ONE_IN > 1 || (double)score.hits / (double)score.cases >= 0.556);
    printf("    %.2f answers, calibration error %.3f\n", answers, world_calibration(&score));
}

int main(void)
{
    arena = qll_arena_open((size_t)64 << 20);
    CHECK(qll_knowledge_read(arena, &knowledge) == QLL_OK);
    TEST_RUN(a_visit_finds_what_is_wrong);
    TEST_RUN(asking_what_is_worth_most_takes_half_the_answers);
    qll_arena_close(arena);
    return TEST_END();
}
