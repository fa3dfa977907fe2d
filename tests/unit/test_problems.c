#include "base/problems.h"
#include "base/quote.h"
#include "check.h"
#include "said.h"

static const char *line_of(qll_arena *arena, const qll_problem *problem)
{
    qll_writer writer = qll_writer_new(arena);
    qll_problem_write(&writer, problem, NULL);
    return qll_writer_text(&writer).bytes;
}

TEST(a_problem_is_one_line_editors_jump_to)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    qll_problem problem = {.code = QLL_CODE_UNKNOWN_UNIT,
                           .place = {"survey.json", 41, 22, "stages[1].set_pressure"},
                           .text = "sentence",
                           .hint = "did you mean \"psi\"?"};
    CHECK_TEXT(line_of(arena, &problem), "survey.json:41:22: stages[1].set_pressure: sentence; "
                                         "did you mean \"psi\"?\n");
    problem.hint = "";
    problem.level = QLL_WARNING;
    CHECK_TEXT(line_of(arena, &problem),
               "survey.json:41:22: warning: stages[1].set_pressure: sentence\n");
    problem.level = QLL_REFUSAL;
    problem.place.path = "";
    problem.place.column = 0;
    CHECK_TEXT(line_of(arena, &problem), "survey.json:41: sentence\n");
    problem.place.line = 0;
    CHECK_TEXT(line_of(arena, &problem), "survey.json: sentence\n");
    problem.place = (qll_place){.source = "", .line = 2, .column = 3, .path = "flow"};
    CHECK_TEXT(line_of(arena, &problem), "2:3: flow: sentence\n");
    problem.place = (qll_place){.path = "flow"};
    problem.hint = NULL;
    CHECK_TEXT(line_of(arena, &problem), "flow: sentence\n");
    qll_arena_close(arena);
}

TEST(the_list_keeps_twenty_and_counts_all)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    qll_problems problems = qll_problems_none(arena);
    CHECK(qll_problems_status(&problems) == QLL_OK);
    CHECK(!qll_problems_add(&problems,
                            (qll_fault){.level = QLL_WARNING, .says = QLL_SAYS(WHY_OURS)}));
    CHECK(qll_problems_status(&problems) == QLL_OK);
    for (int i = 0; i < 30; i++) {
        qll_problems_add(&problems,
                         (qll_fault){.code = QLL_CODE_SYNTAX, .says = QLL_SAYS(WHY_OURS)});
    }
    CHECK(problems.kept_count == QLL_PROBLEMS_KEPT && problems.count == 31);
    CHECK(problems.refusal_count == 30);
    CHECK(qll_problems_status(&problems) == QLL_REFUSED);
    qll_problems_add(&problems, (qll_fault){.says = QLL_SAYS(WHY_OURS)});
    CHECK(qll_problems_status(&problems) == QLL_REFUSED);
    qll_arena_close(arena);
}

TEST(strings_are_made_safe_to_show)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    qll_problems problems = qll_problems_none(arena);
    char text[] =
        "red \x1B[31m \xE2\x80\xAE \xD8\x9C \xC2\xAD \xEF\xBB\xBF \xF3\xA0\x81\x81 and \xFF";
    qll_problems_add(&problems, (qll_fault){.place = {.source = "a\nb"},
                                            .says = QLL_SAYS_WITH(VALUE, qll_as_is(text))});
    CHECK_TEXT(said_problem(&problems, 0).text,
               "red \\u001b[31m \\u202e \\u061c \\u00ad \\ufeff \\udb40\\udc41 and \xEF\xBF\xBD");
    CHECK_TEXT(problems.kept[0].place.source, "a\\nb");
    CHECK_TEXT(said_problem(&problems, 0).hint, "");
    qll_arena_close(arena);
}

TEST(a_lost_sentence_is_no_clean_refusal)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    qll_problems problems = qll_problems_none(arena);
    qll_arena_fail(arena, 1, true);
    qll_problems_add(&problems, (qll_fault){.says = QLL_SAYS(WHY_OURS)});
    CHECK(qll_problems_status(&problems) == QLL_NO_MEMORY);
    /* Another list, begun later, has lost nothing. */
    problems = qll_problems_none(arena);
    CHECK(qll_problems_status(&problems) == QLL_OK);
    qll_arena_close(arena);
}

TEST(quotes_cut_long_text_between_characters)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    qll_writer writer = qll_writer_new(arena);
    char longest[2 * QLL_QUOTE_CHARACTERS + 3] = "";
    for (size_t i = 0; i <= QLL_QUOTE_CHARACTERS; i++) {
        longest[2 * i] = '\xC3';
        longest[2 * i + 1] = '\xA9';
    }
    qll_write_quoted(&writer, (qll_text){longest, sizeof longest - 1});
    qll_text cut = qll_writer_text(&writer);
    CHECK(cut.size == 2 * QLL_QUOTE_CHARACTERS + 5);
    CHECK(memcmp(cut.bytes + cut.size - 4, "...\"", 4) == 0);
    writer = qll_writer_new(arena);
    qll_write_quoted(&writer, (qll_text){longest, sizeof longest - 3});
    CHECK(qll_writer_text(&writer).size == 2 * QLL_QUOTE_CHARACTERS + 2);
    qll_arena_close(arena);
}

TEST(hints_offer_a_word)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    CHECK_TEXT(said_text(arena, qll_hint_word("psi", arena)), "did you mean \"psi\"?");
    CHECK(qll_hint_word(NULL, arena) == NULL && qll_hint_word("", arena) == NULL);
    qll_arena_close(arena);
}

TEST(every_code_has_its_own_word_and_a_sentence)
{
    for (int i = 0; i < QLL_CODE_COUNT; i++) {
        CHECK(strlen(qll_code_sentence((qll_code)i)) > 10);
        for (int j = 0; j < i; j++) {
            CHECK(strcmp(qll_code_word((qll_code)i), qll_code_word((qll_code)j)) != 0);
        }
    }
    CHECK_TEXT(qll_code_word(QLL_CODE_UNKNOWN_KEY), "unknown-key");
}

int main(void)
{
    TEST_RUN(a_problem_is_one_line_editors_jump_to);
    TEST_RUN(the_list_keeps_twenty_and_counts_all);
    TEST_RUN(strings_are_made_safe_to_show);
    TEST_RUN(a_lost_sentence_is_no_clean_refusal);
    TEST_RUN(quotes_cut_long_text_between_characters);
    TEST_RUN(hints_offer_a_word);
    TEST_RUN(every_code_has_its_own_word_and_a_sentence);
    return TEST_END();
}
