/* The files that a survey names. */
#include "quell/quell.h"

#include "base/document.h"

static const char *log_of(const qll_node *scenario, qll_arena *arena)
{
    const qll_node *log = scenario->kind == QLL_NODE_OBJECT ? qll_node_find(scenario, "log") : NULL;
    if (log == NULL || log->kind != QLL_NODE_TEXT) {
        return NULL;
    }
    return qll_text_closed(qll_text_trimmed(log->text), arena);
}

static bool is_listed(const char *const *names, size_t count, const char *name)
{
    for (size_t i = 0; i < count; i++) {
        if (qll_text_equal(qll_text_of(names[i]), qll_text_of(name))) {
            return true;
        }
    }
    return false;
}

qll_status qll_attachments_of(const qll_input *survey, qll_arena *arena, const char *const **names,
                              size_t *count)
{
    *names = NULL;
    *count = 0;
    if (survey->bytes == NULL) {
        return QLL_OK;
    }
    size_t refused = qll_arena_refused(arena);
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    qll_text source = {survey->bytes, survey->size};
    qll_status status = qll_document_read(source, "", arena, &document, &problems);
    if (status != QLL_OK) {
        return status == QLL_NO_MEMORY ? status : QLL_OK;
    }
    const qll_node *list =
        document.root->kind == QLL_NODE_OBJECT ? qll_node_find(document.root, "scenarios") : NULL;
    if (list == NULL || list->kind != QLL_NODE_LIST) {
        return QLL_OK;
    }
    const char **found = qll_arena_take(arena, list->child_count, sizeof *found);
    for (const qll_node *node = list->first_child; found != NULL && node != NULL;
         node = node->next) {
        const char *name = log_of(node, arena);
        if (name != NULL && !is_listed(found, *count, name)) {
            found[*count] = name;
            *count += 1;
        }
    }
    *names = found;
    return qll_arena_refused(arena) == refused ? QLL_OK : QLL_NO_MEMORY;
}
