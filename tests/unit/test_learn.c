/* What closed cases make of a table. */
#include "check.h"
#include "diagnosis/learn.h"

static qll_arena *arena;
static qll_knowledge knowledge;

static size_t *told(const char *evidence, size_t outcome)
{
    size_t *answers = qll_arena_take(arena, knowledge.evidence_count, sizeof *answers);
    for (size_t e = 0; e < knowledge.evidence_count; e++) {
        answers[e] = QLL_NOT_KNOWN;
    }
    answers[qll_evidence_called(&knowledge, qll_text_of(evidence))] = outcome;
    return answers;
}

/* (20 p + count) / (20 + n): docs/theory/diagnosis.md 5. */
TEST(cases_move_a_row_by_their_number)
{
    qll_learning learning;
    CHECK(qll_learning_begin(&knowledge, arena, &learning) == QLL_OK);
    const size_t cause = qll_cause_called(&knowledge, qll_text_of("fixture_noise"));
    const size_t where = qll_evidence_called(&knowledge, qll_text_of("where_heard"));
    const double table = qll_likelihood(&knowledge, where, 1, cause);
    for (size_t i = 0; i < 5; i++) {
        const qll_known known = {.answers = told("where_heard", i < 4 ? 1 : 0)};
        CHECK(qll_learning_add(&learning, &known, cause, arena) == QLL_OK);
    }
    CHECK(learning.case_count == 5 && qll_learning_told(&learning, where, cause) == 5);
    CHECK_WITHIN(qll_learning_share(&learning, where, 1, cause), (20 * table + 4) / 25, 1e-12);
    CHECK_WITHIN(qll_learning_share(&learning, where, 0, cause)
                     + qll_learning_share(&learning, where, 1, cause),
                 1.0, 1e-12);
    /* What nobody told stays as it was. */
    CHECK_WITHIN(qll_learning_share(&learning, where, 1, 0),
                 qll_likelihood(&knowledge, where, 1, 0), 1e-12);
    CHECK(learning.brier_sum < learning.brier_prior_sum);
}

int main(void)
{
    arena = qll_arena_open((size_t)64 << 20);
    CHECK(qll_knowledge_read(arena, &knowledge) == QLL_OK);
    TEST_RUN(cases_move_a_row_by_their_number);
    qll_arena_close(arena);
    return TEST_END();
}
