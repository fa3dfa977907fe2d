#include "server/routes.h"

#include "base/count.h"
#include "server/handlers.h"
#include "server/limits.h"
#include "server/verbs.h"
#include "store/store.h"

#include <string.h>

#define QLL_JSON_TYPE "application/json"

#define QLL_VERB_ROUTE(name, word)        \
    {.method = QLL_METHOD_POST,           \
     .path = "/api/" word,                \
     .body_most = QLL_QUESTION_SIZE,      \
     .body_type = QLL_JSON_TYPE,          \
     .asked = QLL_VERB_##name,            \
     .says = QLL_TEXT_CLI_ANSWERS_##name, \
     .answer = qll_handle_question},

static const qll_route routes[] = {
    QLL_VERB_LIST(QLL_VERB_ROUTE){.method = QLL_METHOD_POST,
                                  .path = "/api/rank",
                                  .body_most = QLL_QUESTION_SIZE,
                                  .body_type = QLL_JSON_TYPE,
                                  .asked = QLL_ASKED_RANK,
                                  .says = QLL_TEXT_ROUTE_RANK,
                                  .answer = qll_handle_rank},
    /* What is no question. */
    {.method = QLL_METHOD_GET,
     .path = "/api/runs/{id}",
     .asked = QLL_ASKED_NOTHING,
     .says = QLL_TEXT_ROUTE_RUN,
     .answer = qll_handle_run},
    {.method = QLL_METHOD_DELETE,
     .path = "/api/runs/{id}",
     .asked = QLL_ASKED_NOTHING,
     .says = QLL_TEXT_ROUTE_RUN_STOP,
     .answer = qll_handle_run_stop},
    {.method = QLL_METHOD_GET,
     .path = "/api/records/{id}",
     .asked = QLL_ASKED_NOTHING,
     .says = QLL_TEXT_ROUTE_RECORD,
     .answer = qll_handle_records,
     .at_desk = qll_desk_get_record},
    {.method = QLL_METHOD_PUT,
     .path = "/api/records/{id}",
     .body_most = QLL_RECORD_SIZE,
     .body_type = QLL_JSON_TYPE,
     .asked = QLL_ASKED_NOTHING,
     .arguments = "mark",
     .says = QLL_TEXT_ROUTE_RECORD_PUT,
     .answer = qll_handle_records,
     .at_desk = qll_desk_put_record},
    {.method = QLL_METHOD_GET,
     .path = "/api/documents/{id}",
     .asked = QLL_ASKED_NOTHING,
     .says = QLL_TEXT_ROUTE_DOCUMENT,
     .answer = qll_handle_records,
     .at_desk = qll_desk_get_document},
    {.method = QLL_METHOD_GET,
     .path = "/api/changes",
     .asked = QLL_ASKED_NOTHING,
     .arguments = "since,most,mark",
     .says = QLL_TEXT_ROUTE_CHANGES,
     .answer = qll_handle_records,
     .at_desk = qll_desk_list_changes},
    {.method = QLL_METHOD_GET,
     .path = "/api/sites",
     .asked = QLL_ASKED_NOTHING,
     .arguments = "after,words,most",
     .says = QLL_TEXT_ROUTE_SITES,
     .answer = qll_handle_records,
     .at_desk = qll_desk_list_sites},
    {.method = QLL_METHOD_GET,
     .path = "/api/sites/{id}",
     .asked = QLL_ASKED_NOTHING,
     .arguments = "units",
     .says = QLL_TEXT_ROUTE_SITE,
     .answer = qll_handle_records,
     .at_desk = qll_desk_show_site},
    {.method = QLL_METHOD_GET,
     .path = "/api/trends/{id}",
     .asked = QLL_ASKED_NOTHING,
     .arguments = "units,form",
     .says = QLL_TEXT_ROUTE_TREND,
     .answer = qll_handle_records,
     .at_desk = qll_desk_show_trend},
    {.method = QLL_METHOD_GET,
     .path = "/api/due",
     .asked = QLL_ASKED_NOTHING,
     .arguments = "most",
     .says = QLL_TEXT_ROUTE_DUE,
     .answer = qll_handle_records,
     .at_desk = qll_desk_list_due},
    {.method = QLL_METHOD_GET,
     .path = "/api/conflicts",
     .asked = QLL_ASKED_NOTHING,
     .says = QLL_TEXT_ROUTE_CONFLICTS,
     .answer = qll_handle_records,
     .at_desk = qll_desk_list_conflicts},
    {.method = QLL_METHOD_GET,
     .path = "/api/files/{id}",
     .asked = QLL_ASKED_NOTHING,
     .says = QLL_TEXT_ROUTE_FILE,
     .answer = qll_handle_records,
     .at_desk = qll_desk_get_part},
    {.method = QLL_METHOD_PUT,
     .path = "/api/files/{id}",
     .body_most = QLL_STORE_PART_SIZE,
     .body_type = "application/octet-stream",
     .asked = QLL_ASKED_NOTHING,
     .arguments = "mark",
     .says = QLL_TEXT_ROUTE_FILE_PUT,
     .answer = qll_handle_records,
     .at_desk = qll_desk_put_part},
    {.method = QLL_METHOD_GET,
     .path = "/api/held/{id}",
     .asked = QLL_ASKED_NOTHING,
     .arguments = "mark",
     .says = QLL_TEXT_ROUTE_HELD,
     .answer = qll_handle_records,
     .at_desk = qll_desk_get_held},
    {.method = QLL_METHOD_GET,
     .path = "/api/session",
     .is_open = true,
     .asked = QLL_ASKED_NOTHING,
     .says = QLL_TEXT_ROUTE_SESSION,
     .answer = qll_handle_session},
    {.method = QLL_METHOD_POST,
     .path = "/api/session",
     .is_open = true,
     .body_most = QLL_LOGIN_SIZE,
     .body_type = QLL_JSON_TYPE,
     .asked = QLL_ASKED_NOTHING,
     .says = QLL_TEXT_ROUTE_LOGIN,
     .answer = qll_handle_login},
    {.method = QLL_METHOD_DELETE,
     .path = "/api/session",
     .is_open = true,
     .asked = QLL_ASKED_NOTHING,
     .says = QLL_TEXT_ROUTE_LOGOUT,
     .answer = qll_handle_logout},
    {.method = QLL_METHOD_GET,
     .path = "/api/health",
     .is_open = true,
     .asked = QLL_ASKED_NOTHING,
     .says = QLL_TEXT_ROUTE_HEALTH,
     .answer = qll_handle_health},
    {.method = QLL_METHOD_GET,
     .path = "/api/openapi.json",
     .is_open = true,
     .asked = QLL_ASKED_NOTHING,
     .says = QLL_TEXT_ROUTE_OPENAPI,
     .answer = qll_handle_openapi},
};

/* The page is open: it is what asks for a name and a password. */
static const qll_route page_route = {.method = QLL_METHOD_GET,
                                     .path = "/{file}",
                                     .is_open = true,
                                     .asked = QLL_ASKED_NOTHING,
                                     .says = QLL_TEXT_ROUTE_PAGE,
                                     .answer = qll_handle_page};

const qll_route *qll_routes(size_t *count)
{
    *count = QLL_COUNT(routes);
    return routes;
}

/* Whether @p path is one that @p pattern stands for; @p rest gets what stands at its "{id}". */
static bool fits(const char *pattern, const char *path, const char **rest)
{
    const char *open = strchr(pattern, '{');
    *rest = NULL;
    if (open == NULL) {
        return strcmp(pattern, path) == 0;
    }
    const size_t size = (size_t)(open - pattern);
    if (strncmp(pattern, path, size) != 0 || path[size] == '\0'
        || strchr(path + size, '/') != NULL) {
        return false;
    }
    *rest = path + size;
    return true;
}

static bool is_read(qll_method method)
{
    return method == QLL_METHOD_GET || method == QLL_METHOD_HEAD;
}

const qll_route *qll_route_find(qll_method method, const char *path, qll_arena *arena,
                                const char **rest, const char **allowed)
{
    *allowed = "";
    if (strncmp(path, "/api/", 5) != 0) {
        *rest = path;
        *allowed = is_read(method) ? "" : "GET, HEAD";
        return is_read(method) ? &page_route : NULL;
    }
    qll_writer methods = qll_writer_new(arena);
    for (size_t i = 0; i < QLL_COUNT(routes); i++) {
        if (!fits(routes[i].path, path, rest)) {
            continue;
        }
        if (routes[i].method == method || (is_read(method) && is_read(routes[i].method))) {
            return &routes[i];
        }
        qll_write(&methods, methods.size > 0 ? ", " : "");
        qll_write(&methods, qll_method_words[routes[i].method]);
    }
    *allowed = qll_writer_text(&methods).bytes;
    return NULL;
}
