#include "diagnosis/diagnosis.h"
#include "truth.h"

#include <string.h>

/* The worked figures are those of plain tempered Bayes. */
static void take_plain_model(qll_knowledge *knowledge)
{
    knowledge->lost_share = 0.0;
    knowledge->copied_share = 0.3;
}

/* Splits "a b" or "a=x b=y" at @p mark. */
static qll_text next_word(qll_text *rest, char mark)
{
    const char *stop = memchr(rest->bytes, mark, rest->size);
    const size_t size = stop == NULL ? rest->size : (size_t)(stop - rest->bytes);
    const qll_text word = {rest->bytes, size};
    const size_t taken = stop == NULL ? size : size + 1;
    *rest = (qll_text){rest->bytes + taken, rest->size - taken};
    return word;
}

static unsigned read_site(qll_text words)
{
    unsigned site = 0;
    while (words.size > 0) {
        const qll_text word = next_word(&words, ' ');
        for (unsigned has = 0; has < QLL_SITE_HAS_COUNT; has++) {
            site |= qll_text_is(word, qll_site_has_words[has]) ? QLL_SITE_HAS_BIT(has) : 0U;
        }
    }
    return site;
}

static void read_answers(const qll_knowledge *knowledge, qll_text words, size_t *answers)
{
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        answers[e] = QLL_NOT_KNOWN;
    }
    while (words.size > 0) {
        qll_text outcome = next_word(&words, ' ');
        const size_t evidence = qll_evidence_called(knowledge, next_word(&outcome, '='));
        if (CHECK(evidence != QLL_NOT_KNOWN)) {
            answers[evidence] = qll_outcome_called(&knowledge->evidence[evidence], outcome);
            CHECK(answers[evidence] != QLL_NOT_KNOWN);
        }
    }
}

/* What the program has for the row. */
static double figure(const qll_diagnosis *diagnosis, const qll_table *rows, size_t row,
                     qll_arena *arena)
{
    const qll_belief *belief = &diagnosis->belief;
    const qll_text of = qll_table_cell_in(rows, row, "of");
    if (truth_is(rows, row, "what", "posterior")) {
        return belief->probability[qll_cause_called(belief->knowledge, of)];
    }
    if (truth_is(rows, row, "what", "risk")) {
        size_t action = QLL_NOT_KNOWN;
        const double hours = qll_least_loss(&diagnosis->losses, belief->probability, &action);
        CHECK(action == qll_cause_called(belief->knowledge, of));
        return hours;
    }
    double *room = qll_arena_take(arena, belief->knowledge->cause_count, sizeof *room);
    const qll_next_test test = qll_test_worth(belief, &diagnosis->losses,
                                              qll_evidence_called(belief->knowledge, of), room);
    return truth_is(rows, row, "what", "hours") ? test.worth_hours : test.gain_bits;
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_table rows = truth_read("tests/reference/diagnosis.csv", arena);
    CHECK(rows.row_count > 0);
    qll_knowledge knowledge;
    CHECK(qll_knowledge_read(arena, &knowledge) == QLL_OK);
    take_plain_model(&knowledge);
    size_t *answers = qll_arena_take(arena, knowledge.evidence_count, sizeof *answers);
    for (size_t row = 0; row < rows.row_count; row++) {
        read_answers(&knowledge, qll_table_cell_in(&rows, row, "answers"), answers);
        const qll_known known = {.site = read_site(qll_table_cell_in(&rows, row, "site")),
                                 .answers = answers};
        qll_diagnosis diagnosis;
        CHECK(qll_diagnose(&knowledge, &known, NULL, arena, &diagnosis) == QLL_OK);
        CHECK_WITHIN(figure(&diagnosis, &rows, row, arena), truth_number(&rows, row, "expected"),
                     2e-9);
    }
    qll_arena_close(arena);
    return TEST_END();
}
