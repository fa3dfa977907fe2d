/* A survey in, through the whole engine: what demand and check answer reads back as JSON, what they
 * print is clean text, and what they refuse they refuse with a sentence. */
#include "quell/quell.h"

#include "base/document.h"
#include "require.h"

#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void require_json(const qll_answer *answer, qll_arena *arena)
{
    qll_document document;
    qll_problems problems = qll_problems_none(arena);
    qll_text text = {answer->bytes, answer->size};
    QLL_REQUIRE(qll_document_read(text, "answer", arena, &document, &problems) == QLL_OK);
}

static void require_text(const qll_answer *answer)
{
    qll_text text = {answer->bytes, answer->size};
    QLL_REQUIRE(qll_text_utf8_end(text) == text.size);
    for (size_t i = 0; i < text.size; i++) {
        unsigned char byte = (unsigned char)text.bytes[i];
        QLL_REQUIRE(byte == '\n' || (byte >= 0x20 && byte != 0x7F));
    }
}

static void ask(qll_verb verb, qll_form form, qll_text survey)
{
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    qll_question question = {
        .verb = verb,
        .form = form,
        .document = {.name = "survey.json", .bytes = survey.bytes, .size = survey.size},
    };
    qll_answer answer;
    qll_status status = qll_ask(&question, arena, &answer);
    QLL_REQUIRE(status == QLL_OK || status == QLL_REFUSED || status == QLL_NO_MEMORY);
    QLL_REQUIRE(status != QLL_REFUSED || answer.problem_count > 0);
    if (answer.bytes != NULL && form == QLL_FORM_JSON) {
        require_json(&answer, arena);
    } else if (answer.bytes != NULL) {
        require_text(&answer);
    }
    qll_problems problems = qll_problems_none(arena);
    for (size_t i = 0; i < answer.problem_count; i++) {
        qll_problems_add(&problems, answer.problems[i]);
    }
    require_clean_problems(&problems);
    qll_arena_close(arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    qll_text survey = {size == 0 ? "" : (const char *)data, size};
    ask(QLL_VERB_DEMAND, QLL_FORM_JSON, survey);
    ask(QLL_VERB_CHECK, QLL_FORM_JSON, survey);
    ask(QLL_VERB_CHECK, QLL_FORM_TEXT, survey);
    return 0;
}
