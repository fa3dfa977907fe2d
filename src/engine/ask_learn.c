/* Closed cases to a table of likelihoods. */
#include "diagnosis/learn.h"
#include "documents/case_fields.h"
#include "documents/likelihood_document.h"
#include "engine/diagnose.h"
#include "engine/progress.h"

static void refuse_open(qll_asked *asked, const qll_document *document, const qll_node *node)
{
    qll_problems_add(&asked->problems,
                     (qll_fault){
                         .code = QLL_CODE_MISSING_KEY,
                         .level = QLL_REFUSAL,
                         .place = qll_node_place(document, node, false, asked->arena),
                         .says = QLL_SAYS(CASE_IS_OPEN),
                     });
}

static qll_status learn_from(qll_asked *asked, const qll_document *document, const qll_node *node,
                             qll_learning *learning)
{
    qll_diagnosed_case *made = qll_arena_take(asked->arena, 1, sizeof *made);
    if (made == NULL) {
        return QLL_NO_MEMORY;
    }
    made->document = *document;
    made->document.root = node;
    const qll_status status = qll_find_case(asked, learning->knowledge, made);
    if (status != QLL_OK) {
        return status;
    }
    if (made->of.cause == QLL_NOT_KNOWN) {
        refuse_open(asked, document, node);
        return QLL_REFUSED;
    }
    return qll_learning_add(learning, &made->known, made->of.cause, asked->arena);
}

/* All of them are read, so that all that is wrong is told at once. */
static qll_status learn_all(qll_asked *asked, const qll_document *document, const qll_node *list,
                            qll_learning *learning)
{
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        const qll_status status = learn_from(asked, document, node, learning);
        if (status != QLL_OK && status != QLL_REFUSED) {
            return status;
        }
        if (qll_progress_step(asked, node->index, list->child_count) != QLL_OK) {
            return QLL_STOPPED;
        }
    }
    return qll_problems_status(&asked->problems);
}

static const qll_node *open_cases(qll_asked *asked, const qll_document *document,
                                  qll_status *status)
{
    qll_reader reader = qll_reader_new(document, asked->arena, &asked->assumed);
    reader.manual = "case.md";
    const qll_node *list = NULL;
    if (qll_reader_begins(&reader, document->root, &qll_group_cases)) {
        const qll_object root = qll_object_open(&reader, document->root, &qll_group_cases);
        (void)qll_object_whole(&root, "cases");
        list = qll_object_list(&root, "closed");
    }
    *status = qll_reader_end(&reader, &asked->problems);
    return list;
}

/* A case by itself is a list of one. */
static bool is_one_case(const qll_node *root)
{
    return root->kind == QLL_NODE_OBJECT && qll_node_find(root, "case") != NULL
           && qll_node_find(root, "cases") == NULL;
}

static qll_status learn_document(qll_asked *asked, const qll_document *document,
                                 qll_learning *learning)
{
    if (is_one_case(document->root)) {
        return learn_from(asked, document, document->root, learning);
    }
    qll_status status = QLL_OK;
    const qll_node *list = open_cases(asked, document, &status);
    return status == QLL_OK && list != NULL ? learn_all(asked, document, list, learning) : status;
}

/* What is said beside a case would be said of each, and a second file would be passed over. */
static qll_status refuse_arguments(qll_asked *asked)
{
    if (asked->question->argument_count == 0) {
        return QLL_OK;
    }
    const char *first = asked->question->arguments[0];
    qll_asked_refuse(asked, QLL_CODE_UNKNOWN_WORD, "",
                     QLL_SAYS_WITH(LEARN_TAKES_ONE, qll_as_quoted(qll_text_of(first))),
                     QLL_SAYS(HINT_LEARN_LIST));
    return QLL_REFUSED;
}

qll_status qll_ask_learn(qll_asked *asked)
{
    const qll_input *input = &asked->question->document;
    qll_document document;
    qll_knowledge knowledge;
    qll_learning learning;
    qll_status status = refuse_arguments(asked);
    status = status == QLL_OK
                 ? qll_document_read((qll_text){.bytes = input->bytes, .size = input->size},
                                     input->name == NULL ? "" : input->name, asked->arena,
                                     &document, &asked->problems)
                 : status;
    status = status == QLL_OK ? qll_prepare_knowledge(asked, &knowledge) : status;
    status = status == QLL_OK ? qll_learning_begin(&knowledge, asked->arena, &learning) : status;
    status = status == QLL_OK ? learn_document(asked, &document, &learning) : status;
    if (status != QLL_OK) {
        return status;
    }
    qll_json json = qll_json_new(&asked->writer);
    qll_likelihood_write(&json, &learning);
    qll_write(&asked->writer, "\n");
    return qll_asked_finish(asked);
}
