#include "documents/likelihood_document.h"

#include "documents/case_fields.h"

#include <math.h>
#include <string.h>

/* No answer is impossible: a share under this would make one fact outweigh all others. */
#define QLL_SHARE_LEAST 0.001

static void write_row(qll_json *json, const qll_learning *learning, size_t evidence, size_t cause)
{
    const qll_evidence *of = &learning->knowledge->evidence[evidence];
    qll_json_open_object(json);
    qll_json_put_text(json, "cause", learning->knowledge->causes[cause].word);
    qll_json_put_text(json, "evidence", of->word);
    qll_json_put_object(json, "shares");
    for (size_t o = 0; o < of->outcome_count; o++) {
        qll_json_put_number(json, of->outcomes[o].word,
                            qll_learning_share(learning, evidence, o, cause));
    }
    qll_json_close_object(json);
    qll_json_put_number(json, "told", qll_learning_told(learning, evidence, cause));
    qll_json_close_object(json);
}

void qll_likelihood_write(qll_json *json, const qll_learning *learning)
{
    const qll_knowledge *knowledge = learning->knowledge;
    const double cases = (double)learning->case_count;
    qll_json_open_object(json);
    qll_json_put_whole(json, "likelihood", 1);
    qll_json_put_whole(json, "cases", (long long)learning->case_count);
    qll_json_put_number(json, "table_is_worth", QLL_TABLE_IS_WORTH);
    if (learning->case_count > 0) {
        qll_json_put_number(json, "brier", learning->brier_sum / cases);
        qll_json_put_number(json, "brier_with_nothing_known", learning->brier_prior_sum / cases);
    }
    qll_json_put_list(json, "rows");
    for (size_t c = 0; c < knowledge->cause_count; c++) {
        for (size_t e = 0; e < knowledge->evidence_count; e++) {
            if (qll_learning_told(learning, e, c) > 0.0) {
                write_row(json, learning, e, c);
            }
        }
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

/* ---- reading ---- */

typedef struct likelihood_pass {
    qll_reader reader;
    qll_knowledge *knowledge;
    double *likelihood; /* [outcome of all][cause], the copy that is changed */
} likelihood_pass;

static double read_share(likelihood_pass *pass, const qll_node *node)
{
    if (node->kind != QLL_NODE_NUMBER) {
        (void)qll_reader_wrong_kind(&pass->reader, node, QLL_SAYS(EXPECT_BARE_NUMBER));
        return (double)NAN;
    }
    if (!(node->number >= QLL_SHARE_LEAST && node->number <= 1.0)) {
        (void)qll_reader_refuse(
            &pass->reader, qll_at(node), QLL_CODE_OUT_OF_RANGE,
            QLL_SAYS_WITH(SHARE_OUT, qll_as_found(node), qll_as_number(QLL_SHARE_LEAST)), NULL);
        return (double)NAN;
    }
    return node->number;
}

/* Every answer has its share, and they make one. */
static void read_shares(likelihood_pass *pass, const qll_node *shares, size_t evidence,
                        size_t cause)
{
    const qll_evidence *of = &pass->knowledge->evidence[evidence];
    double sum = 0.0;
    for (size_t o = 0; o < of->outcome_count; o++) {
        const qll_node *node = qll_node_find(shares, of->outcomes[o].word);
        const double share = node == NULL ? 0.0 : read_share(pass, node);
        sum += share;
        pass->likelihood[(of->first + o) * pass->knowledge->cause_count + cause] = share;
    }
    const bool is_whole = shares->child_count == of->outcome_count && fabs(sum - 1.0) <= 1e-6;
    if (!is_whole && !isnan(sum)) {
        (void)qll_reader_refuse(&pass->reader, qll_at(shares), QLL_CODE_OUT_OF_RANGE,
                                QLL_SAYS_WITH(SHARES_NOT_ONE, qll_as_is(of->word)), NULL);
    }
}

static void refuse_word(likelihood_pass *pass, const qll_object *object, const char *key,
                        const qll_said *what)
{
    const qll_node *node = qll_object_find(object, key);
    (void)qll_reader_refuse(&pass->reader, qll_object_where(object, key), QLL_CODE_UNKNOWN_WORD,
                            QLL_SAYS_WITH(WORD_UNKNOWN_LISTED, qll_as_found(node),
                                          qll_as_said(pass->reader.arena, *what),
                                          qll_as_is("case.md")),
                            NULL);
}

static void read_row(likelihood_pass *pass, const qll_object *object)
{
    const char *cause_word = qll_object_text(object, "cause");
    const char *evidence_word = qll_object_text(object, "evidence");
    const qll_node *shares = qll_object_find(object, "shares");
    if (cause_word == NULL || evidence_word == NULL || shares == NULL) {
        return;
    }
    const size_t cause = qll_cause_called(pass->knowledge, qll_text_of(cause_word));
    const size_t evidence = qll_evidence_called(pass->knowledge, qll_text_of(evidence_word));
    if (cause == QLL_NOT_KNOWN) {
        refuse_word(pass, object, "cause", QLL_SAYS(A_CAUSE));
    } else if (evidence == QLL_NOT_KNOWN) {
        refuse_word(pass, object, "evidence", QLL_SAYS(A_QUESTION));
    } else if (shares->kind != QLL_NODE_OBJECT) {
        (void)qll_reader_wrong_kind(&pass->reader, shares, QLL_SAYS(EXPECT_OBJECT));
    } else {
        read_shares(pass, shares, evidence, cause);
    }
}

qll_status qll_likelihood_read(const qll_document *document, qll_arena *arena,
                               qll_knowledge *knowledge, qll_assumed *assumed,
                               qll_problems *problems)
{
    const size_t count = knowledge->outcome_count * knowledge->cause_count;
    likelihood_pass pass = {
        .reader = qll_reader_new(document, arena, assumed),
        .knowledge = knowledge,
        .likelihood = qll_arena_take(arena, count, sizeof(double)),
    };
    if (pass.likelihood == NULL) {
        return QLL_NO_MEMORY;
    }
    pass.reader.manual = "case.md";
    memcpy(pass.likelihood, knowledge->likelihood, count * sizeof(double));
    if (qll_reader_begins(&pass.reader, document->root, &qll_group_likelihood)) {
        const qll_object root =
            qll_object_open(&pass.reader, document->root, &qll_group_likelihood);
        (void)qll_object_whole(&root, "likelihood");
        const qll_node *list = qll_object_find(&root, "rows");
        const bool has_rows = list != NULL && list->kind == QLL_NODE_LIST && list->child_count > 0;
        list = has_rows ? qll_object_list(&root, "rows") : NULL;
        for (const qll_node *node = list == NULL ? NULL : list->first_child; node != NULL;
             node = node->next) {
            const qll_object row = qll_object_open(&pass.reader, node, &qll_group_likelihood_row);
            if (row.node != NULL) {
                read_row(&pass, &row);
            }
        }
    }
    knowledge->likelihood = pass.likelihood;
    return qll_reader_end(&pass.reader, problems);
}
