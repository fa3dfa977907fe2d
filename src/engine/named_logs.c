/* Where the bytes are of the files that a survey of the records names. */
#include "quell/records.h"

#include "base/document.h"

#include <string.h>

/* What a log's body says; NULL of what it does not. */
typedef struct log_body {
    const char *survey, *name, *sha256;
} log_body;

static const char *text_of(const qll_node *body, const char *key, qll_arena *arena)
{
    const qll_node *node = body->kind == QLL_NODE_OBJECT ? qll_node_find(body, key) : NULL;
    return node == NULL || node->kind != QLL_NODE_TEXT ? NULL : qll_text_closed(node->text, arena);
}

static log_body read_body(const qll_record *record, qll_arena *arena)
{
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    if (qll_document_read(record->body, "", arena, &document, &problems) != QLL_OK) {
        return (log_body){0};
    }
    return (log_body){text_of(document.root, "survey", arena),
                      text_of(document.root, "name", arena),
                      text_of(document.root, "sha256", arena)};
}

static bool is_same(const char *one, const char *other)
{
    return one != NULL && other != NULL && strcmp(one, other) == 0;
}

/* Of several records of one file the one that was written last counts. */
static void take_record(const qll_record *survey, const qll_record *record, const log_body *body,
                        qll_named_log *logs, size_t count)
{
    for (size_t i = 0; is_same(body->survey, survey->document) && i < count; i++) {
        const qll_record *before = logs[i].record;
        if (is_same(body->name, logs[i].name)
            && (before == NULL || qll_record_is_later(record, before))) {
            logs[i].record = record;
            logs[i].sha256 = body->sha256;
        }
    }
}

qll_status qll_named_logs_of(const qll_record *survey, const qll_record *standing, size_t count,
                             qll_arena *arena, qll_named_log **logs, size_t *log_count)
{
    const size_t refused = qll_arena_refused(arena);
    const char *const *names = NULL;
    const qll_input document = {"", survey->body.bytes, survey->body.size};
    *logs = NULL;
    *log_count = 0;
    qll_status status = qll_attachments_of(&document, arena, &names, log_count);
    if (status != QLL_OK || *log_count == 0) {
        return status;
    }
    qll_named_log *list = qll_arena_take(arena, *log_count, sizeof *list);
    for (size_t i = 0; list != NULL && i < *log_count; i++) {
        list[i] = (qll_named_log){.name = names[i]};
    }
    for (size_t i = 0; list != NULL && i < count; i++) {
        if (standing[i].kind == QLL_RECORD_LOG) {
            const log_body body = read_body(&standing[i], arena);
            take_record(survey, &standing[i], &body, list, *log_count);
        }
    }
    *logs = list;
    return qll_arena_refused(arena) != refused ? QLL_NO_MEMORY : QLL_OK;
}
