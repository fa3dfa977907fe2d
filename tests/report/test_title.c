/* The title block of the sheets: what the survey's project and the question say, what the sheets were made
 * from, and room for the rest; in both languages and both systems of units. */
#include "ask_files.h"
#include "base/digest.h"
#include "check.h"
#include "wording/messages.h"

#include <string.h>

static const size_t plenty = (size_t)1 << 30;

static void want(const char *page, const char *shown)
{
    if (!CHECK(strstr(page, shown) != NULL)) {
        printf("    \"%s\" is not on the sheets\n", shown);
    }
}

/* The survey of tests/cli/flats.json with @p project as its object of that name. */
static qll_input with_project(const char *project, qll_arena *arena)
{
    const qll_input plain = test_input("flats.json", arena);
    const char *brace = plain.bytes == NULL ? NULL : strchr(plain.bytes, '{');
    if (!CHECK(brace != NULL)) {
        return plain;
    }
    qll_writer writer = qll_writer_new(arena);
    qll_write(&writer, "{\"project\": ");
    qll_write(&writer, project);
    qll_write(&writer, ",");
    qll_write(&writer, brace + 1);
    const qll_text text = qll_writer_text(&writer);
    return (qll_input){.name = "jobs/12/flats.json", .bytes = text.bytes, .size = text.size};
}

static const char *digest_of(const qll_input *input, qll_arena *arena)
{
    qll_writer writer = qll_writer_new(arena);
    qll_digest_write(&writer, (qll_text){input->bytes, input->size}, 6);
    return qll_writer_text(&writer).bytes;
}

static void want_field(const char *page, qll_language language, qll_message label,
                       const char *value)
{
    char wanted[256];
    snprintf(wanted, sizeof wanted, "<dt>%s</dt><dd>%s</dd>", qll_say(language, label), value);
    want(page, wanted);
}

TEST(the_title_block_says_what_is_given_and_leaves_room_for_the_rest)
{
    for (size_t i = 0; i < 4; i++) {
        qll_arena *arena = qll_arena_open(plenty);
        const qll_language language = i % 2 == 0 ? QLL_LANGUAGE_EN : QLL_LANGUAGE_ES;
        qll_question question = survey_question(QLL_VERB_REPORT, "flats.json", NULL, arena);
        question.document = with_project("{\"name\": \"Job 12\", \"customer\": \"A & B\", "
                                         "\"license\": \"PE 1234\", \"revision\": \"C\"}",
                                         arena);
        question.form = QLL_FORM_HTML;
        question.language = qll_language_words[language];
        question.units = i < 2 ? "us" : "si";
        question.date = "2028-02-29";
        qll_answer answer;
        CHECK(qll_ask(&question, arena, &answer) == QLL_OK);
        const char *digest = digest_of(&question.document, arena);
        want_field(answer.bytes, language, QLL_SAYS_TITLE_PROJECT, "Job 12");
        want_field(answer.bytes, language, QLL_SAYS_TITLE_CUSTOMER, "A &amp; B");
        want_field(answer.bytes, language, QLL_SAYS_TITLE_ADDRESS, "");
        want_field(answer.bytes, language, QLL_SAYS_TITLE_PREPARED_BY, "");
        want_field(answer.bytes, language, QLL_SAYS_TITLE_LICENSE, "PE 1234");
        want_field(answer.bytes, language, QLL_SAYS_TITLE_DATE, "2028-02-29");
        want_field(answer.bytes, language, QLL_SAYS_TITLE_REVISION, "C");
        want_field(answer.bytes, language, QLL_SAYS_TITLE_PROGRAM, "quell " QLL_VERSION);
        CHECK(strlen(digest) == 12);
        want(answer.bytes, digest);
        want(answer.bytes, ">flats.json, SHA-256");
        want(answer.bytes,
             language == QLL_LANGUAGE_EN ? "generic, INVENTED<" : "genérico, INVENTADO<");
        qll_arena_close(arena);
    }
}

TEST(no_other_date_and_length_is_taken)
{
    static const char *const dates[] = {"2026-02-29", "2026-13-01",       "11/30/2026",
                                        "2026-1-1",   "2026-11-30T10:00", ""};
    qll_arena *arena = qll_arena_open(plenty);
    qll_question question = survey_question(QLL_VERB_REPORT, "flats.json", NULL, arena);
    qll_answer answer;
    for (size_t i = 0; i < sizeof dates / sizeof dates[0]; i++) {
        question.date = dates[i];
        CHECK(qll_ask(&question, arena, &answer) == QLL_WRONG_USE && answer.problem_count == 1);
    }
    question.date = NULL;
    question.length = "shrot";
    CHECK(qll_ask(&question, arena, &answer) == QLL_WRONG_USE && answer.problem_count == 1);
    CHECK_TEXT(answer.problems[0].hint, "did you mean \"short\"?");
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(the_title_block_says_what_is_given_and_leaves_room_for_the_rest);
    TEST_RUN(no_other_date_and_length_is_taken);
    return TEST_END();
}
