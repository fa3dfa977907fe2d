/* quell site learn: the visits whose cause is known, to a table of likelihoods that `quell diagnose --likelihood` takes. */
#include "base/document.h"
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/stored.h"

static const qll_node *member(const qll_node *node, const char *key)
{
    return node == NULL || node->kind != QLL_NODE_OBJECT ? NULL : qll_node_find(node, key);
}

/* Adds the case of a visit, where it has one and its cause. */
static qll_status add_case(const qll_record *record, qll_arena *arena, qll_json *closed,
                           size_t *count)
{
    qll_problems problems = qll_problems_none(arena);
    qll_document document = {0};
    if (record->kind != QLL_RECORD_VISIT) {
        return QLL_OK;
    }
    const qll_status status = qll_document_read(record->body, "", arena, &document, &problems);
    const qll_node *of_case = status == QLL_OK ? member(document.root, "case") : NULL;
    if (member(of_case, "cause") != NULL) {
        qll_json_node(closed, of_case);
        *count += 1;
    }
    return status == QLL_NO_MEMORY ? status : QLL_OK;
}

static qll_status gather(qll_cli_site *site, qll_json *closed, size_t *count)
{
    qll_store_sites rows = {0};
    qll_status status = qll_cli_site_rows(site, NULL, &rows);
    for (size_t i = 0; status == QLL_OK && i < rows.count; i++) {
        qll_records records = {0};
        const qll_arena_mark mark = qll_arena_now(site->arena);
        status = qll_cli_site_records(site, rows.list[i].site, &records);
        for (size_t k = 0; status == QLL_OK && k < records.count; k++) {
            status = add_case(&records.list[k], site->arena, closed, count);
        }
        qll_arena_reset(site->arena, mark);
    }
    return status;
}

qll_status qll_cli_site_learn(const qll_cli_command *command, const qll_cli_line *line,
                              qll_arena *arena)
{
    (void)command;
    qll_cli_site site;
    qll_answer answer = {0};
    size_t count = 0;
    /* What is gathered grows beside what is read, which is given back site by site. */
    qll_arena *gathered = qll_arena_open((size_t)256 * 1024 * 1024);
    if (gathered == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_writer cases = qll_writer_new(gathered);
    qll_json json = qll_json_new(&cases);
    qll_status status = qll_cli_site_open(line, QLL_STORE_READ, arena, &site);
    qll_json_open_object(&json);
    qll_json_put_whole(&json, "cases", 1);
    qll_json_put_list(&json, "closed");
    status = status == QLL_OK ? gather(&site, &json, &count) : status;
    qll_json_close_list(&json);
    qll_json_close_object(&json);
    const qll_text text = qll_writer_text(&cases);
    if (status == QLL_OK && count == 0) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_NO_CLOSED_CASE});
        status = QLL_REFUSED;
    }
    if (status == QLL_OK) {
        const qll_question question = {
            .verb = QLL_VERB_LEARN,
            .form = QLL_FORM_JSON,
            .language = line->values[QLL_CLI_LANGUAGE],
            .document = {"", text.bytes, text.size},
        };
        status = cases.no_memory ? QLL_NO_MEMORY : qll_ask(&question, arena, &answer);
        status = status == QLL_OK ? qll_cli_site_hand_out(&site, &answer) : status;
        answer.bytes = NULL;
        const qll_status printed = qll_cli_site_answer(&site, QLL_OK, &answer);
        status = status == QLL_OK ? printed : status;
    }
    qll_store_close(site.store);
    qll_arena_close(gathered);
    return status;
}
