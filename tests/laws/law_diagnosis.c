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

/* Answers that go together are each as likely as the table says, and repeat each other: of two answers of a group, both
 * the likeliest come together more often than their shares alone would have it. */
TEST(answers_alike_keep_their_shares)
{
    enum {
        QLL_CASES = 20000 / TEST_ONE_IN
    };

    world of = masked(45);
    of.is_masked = false;
    of.alike = 0.6;
    const size_t kind = qll_evidence_called(&knowledge, qll_text_of("sound_kind"));
    const size_t when = qll_evidence_called(&knowledge, qll_text_of("noise_when"));
    const size_t cause = qll_cause_called(&knowledge, qll_text_of("oversized_chatter"));
    world_case one = {.answers = qll_arena_take(arena, knowledge.evidence_count, sizeof(size_t))};
    double count = 0.0, chatter = 0.0, low = 0.0, both = 0.0;
    const size_t is_chatter =
        qll_outcome_called(&knowledge.evidence[kind], qll_text_of("chatter_buzz"));
    const size_t is_low = qll_outcome_called(&knowledge.evidence[when], qll_text_of("low_flow"));
    for (size_t n = 0; n < QLL_CASES; n++) {
        world_draw(&of, &one);
        if (one.cause == cause) {
            count += 1.0;
            chatter += one.answers[kind] == is_chatter ? 1.0 : 0.0;
            low += one.answers[when] == is_low ? 1.0 : 0.0;
            both += one.answers[kind] == is_chatter && one.answers[when] == is_low ? 1.0 : 0.0;
        }
    }
    const double p = qll_likelihood(&knowledge, kind, is_chatter, cause);
    const double q = qll_likelihood(&knowledge, when, is_low, cause);
    CHECK_WITHIN(chatter / count, p, 4.0 * sqrt(p * (1.0 - p) / count));
    CHECK_WITHIN(low / count, q, 4.0 * sqrt(q * (1.0 - q) / count));
    CHECK(both / count > p * q + 3.0 * sqrt(p * q / count) * (1.0 - sqrt(p * q)));
}

int main(void)
{
    arena = qll_arena_open((size_t)64 << 20);
    CHECK(qll_knowledge_read(arena, &knowledge) == QLL_OK);
    TEST_RUN(answers_alike_keep_their_shares);
    TEST_RUN(a_visit_finds_what_is_wrong);
    TEST_RUN(asking_what_is_worth_most_takes_half_the_answers);
    qll_arena_close(arena);
    return TEST_END();
}
