/* A case in, through the whole engine: causes sum to 1, no figure is not a number, what is refused is refused with a
 * sentence, and what is printed is clean text. */
#include "quell/quell.h"

#include "base/document.h"
#include "require.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void require_causes(const qll_node *root)
{
    const qll_node *causes = qll_node_find(root, "causes");
    QLL_REQUIRE(causes != NULL && causes->child_count > 0);
    double sum = 0.0;
    for (const qll_node *node = causes->first_child; node != NULL; node = node->next) {
        const qll_node *share = qll_node_find(node, "probability");
        QLL_REQUIRE(share != NULL && share->kind == QLL_NODE_NUMBER && share->number >= 0.0);
        sum += share->number;
    }
    QLL_REQUIRE(fabs(sum - 1.0) < 1e-9);
}

static void ask(qll_verb verb, qll_form form, qll_text text)
{
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    const qll_question question = {
        .verb = verb,
        .form = form,
        .document = {.name = "case.json", .bytes = text.bytes, .size = text.size},
    };
    qll_answer answer;
    const qll_status status = qll_ask(&question, arena, &answer);
    QLL_REQUIRE(status == QLL_OK || status == QLL_REFUSED || status == QLL_NO_MEMORY
                || status == QLL_IO);
    QLL_REQUIRE(status != QLL_REFUSED || answer.problem_count > 0);
    if (answer.bytes != NULL && form == QLL_FORM_JSON) {
        qll_document document;
        qll_problems problems = qll_problems_none(arena);
        const qll_text said = {answer.bytes, answer.size};
        QLL_REQUIRE(qll_document_read(said, "answer", arena, &document, &problems) == QLL_OK);
        if (status == QLL_OK && verb == QLL_VERB_DIAGNOSE) {
            require_causes(document.root);
        }
    } else if (answer.bytes != NULL) {
        require_clean_text((qll_text){answer.bytes, answer.size});
    }
    qll_arena_close(arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    const qll_text text = {(const char *)data, size};
    ask(QLL_VERB_DIAGNOSE, QLL_FORM_JSON, text);
    ask(QLL_VERB_DIAGNOSE, QLL_FORM_TEXT, text);
    ask(QLL_VERB_LEARN, QLL_FORM_JSON, text);
    return 0;
}
