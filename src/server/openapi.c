#include "server/openapi.h"

#include "base/count.h"
#include "base/document.h"
#include "documents/read_question.h"
#include "documents/write_common.h"
#include "server/handlers.h"
#include "server/routes.h"
#include "server/server.h"
#include "server/verbs.h"
#include "wording/wording.h"

#include <string.h>

/* Documents whose schemas `quell describe` makes. */
static const char *const described[] = {"survey", "case", "catalogue", "record"};

static void put_said(qll_json *json, const char *key, qll_text_id says)
{
    const qll_wording wording = {.language = QLL_LANGUAGE_EN};
    qll_json_put_said(json, key, &wording, &(qll_said){.id = says});
}

static void put_ref(qll_json *json, const char *to)
{
    qll_json_open_object(json);
    qll_json_put_text(json, "$ref", to);
    qll_json_close_object(json);
}

/* A reference to a schema of ours, or to one of `quell describe` by its own address. */
static void put_schema_ref(qll_json *json, const char *before, const char *name)
{
    qll_writer to = qll_writer_new(json->writer->arena);
    qll_write_format(&to, "%s%s", before, name);
    put_ref(json, qll_writer_text(&to).bytes);
}

static bool is_json(const char *type)
{
    return strcmp(type, "application/json") == 0;
}

/* ---- what is asked ---- */

static void put_words(qll_json *json, const char *const *words, size_t count)
{
    qll_json_put_list(json, "enum");
    for (size_t i = 0; i < count; i++) {
        qll_json_text(json, words[i]);
    }
    qll_json_close_list(json);
}

static void put_text_member(qll_json *json, const char *key, qll_text_id says)
{
    qll_json_put_object(json, key);
    qll_json_put_text(json, "type", "string");
    put_said(json, "description", says);
    qll_json_close_object(json);
}

static void put_members(qll_json *json, unsigned asked)
{
    size_t count = 0;
    const qll_question_member *members = qll_question_members(&count);
    qll_json_put_object(json, "form");
    put_words(json, qll_form_words,
              QLL_QUESTION_FORM_COUNT + (qll_verb_goes_on_paper(asked) ? 1 : 0));
    put_said(json, "description", QLL_TEXT_ROUTE_FORM);
    qll_json_close_object(json);
    for (size_t i = 0; i < count; i++) {
        if (qll_verb_takes_member(asked, members[i].key)) {
            put_text_member(json, members[i].key, members[i].means);
        }
    }
    if (qll_verb_takes_member(asked, "help")) {
        qll_json_put_object(json, "help");
        qll_json_put_text(json, "type", "boolean");
        put_said(json, "description", QLL_TEXT_ROUTE_HELP);
        qll_json_close_object(json);
    }
    if (qll_verb_takes_member(asked, "arguments")) {
        qll_json_put_object(json, "arguments");
        qll_json_put_text(json, "type", "array");
        put_said(json, "description", QLL_TEXT_ROUTE_ARGUMENTS);
        qll_json_put_object(json, "items");
        qll_json_put_text(json, "type", "string");
        qll_json_close_object(json);
        qll_json_close_object(json);
    }
}

static void put_documents(qll_json *json, const qll_verb_takes *takes)
{
    for (size_t i = 0; i < QLL_QUESTION_DOCUMENT_COUNT; i++) {
        if ((takes->documents & (1U << i)) == 0) {
            continue;
        }
        qll_json_key(json, qll_question_document_keys[i]);
        if (i != QLL_QUESTION_ATTACHMENTS) {
            put_schema_ref(json, "#/components/schemas/", "input");
            continue;
        }
        qll_json_open_object(json);
        qll_json_put_text(json, "type", "array");
        put_said(json, "description", QLL_TEXT_ROUTE_ATTACHMENTS);
        qll_json_key(json, "items");
        put_schema_ref(json, "#/components/schemas/", "input");
        qll_json_close_object(json);
    }
}

static void put_needs(qll_json *json, const qll_verb_takes *takes)
{
    qll_json_put_list(json, "required");
    for (size_t i = 0; i < QLL_QUESTION_DOCUMENT_COUNT; i++) {
        if ((takes->needs & (1U << i)) != 0) {
            qll_json_text(json, qll_question_document_keys[i]);
        }
    }
    qll_json_close_list(json);
}

static void put_question(qll_json *json, unsigned asked)
{
    const qll_verb_takes *takes = qll_verb_takes_of(asked);
    qll_json_open_object(json);
    qll_json_put_text(json, "type", "object");
    qll_json_put_object(json, "properties");
    put_documents(json, takes);
    put_members(json, asked);
    qll_json_close_object(json);
    put_needs(json, takes);
    qll_json_put_bool(json, "additionalProperties", false);
    qll_json_close_object(json);
}

static bool is_described(const char *document)
{
    size_t at = 0;
    while (document != NULL && at < QLL_COUNT(described) && strcmp(document, described[at]) != 0) {
        at += 1;
    }
    return document != NULL && at < QLL_COUNT(described);
}

static void put_body(qll_json *json, const qll_route *route)
{
    qll_json_put_object(json, "requestBody");
    qll_json_put_bool(json, "required", true);
    qll_json_put_object(json, "content");
    qll_json_put_object(json, route->body_type);
    qll_json_key(json, "schema");
    if (route->answer == qll_handle_login) {
        put_schema_ref(json, "#/components/schemas/", "login");
    } else if (route->at_desk == qll_desk_put_record) {
        put_schema_ref(json, "/api/schemas/", "record");
    } else if (route->asked == QLL_ASKED_NOTHING) {
        qll_json_open_object(json);
        qll_json_put_text(json, "type", is_json(route->body_type) ? "object" : "string");
        qll_json_close_object(json);
    } else if (is_described(qll_verb_takes_of(route->asked)->document)) {
        qll_json_open_object(json);
        qll_json_put_list(json, "anyOf");
        put_question(json, route->asked);
        put_schema_ref(json, "/api/schemas/", qll_verb_takes_of(route->asked)->document);
        qll_json_close_list(json);
        qll_json_close_object(json);
    } else {
        put_question(json, route->asked);
    }
    qll_json_close_object(json);
    qll_json_close_object(json);
    qll_json_close_object(json);
}

/* ---- what is answered ---- */

static void put_type(qll_json *json, const char *type, const char *schema)
{
    qll_json_put_object(json, type);
    qll_json_key(json, "schema");
    if (schema == NULL) {
        qll_json_open_object(json);
        qll_json_put_text(json, "type", is_json(type) ? "object" : "string");
        qll_json_close_object(json);
    } else {
        put_schema_ref(json, "#/components/schemas/", schema);
    }
    qll_json_close_object(json);
}

static void put_response(qll_json *json, const char *status, qll_text_id says, const char *type,
                         const char *schema)
{
    qll_json_put_object(json, status);
    put_said(json, "description", says);
    if (type != NULL) {
        qll_json_put_object(json, "content");
        put_type(json, type, schema);
        qll_json_close_object(json);
    }
    qll_json_close_object(json);
}

/* The answer of the engine, in the forms that are no text. */
static void put_answer(qll_json *json, const qll_route *route)
{
    qll_json_put_object(json, "200");
    put_said(json, "description", QLL_TEXT_ROUTE_DONE);
    qll_json_put_object(json, "content");
    put_type(json, "application/json", NULL);
    if (route->answer == qll_handle_run || qll_verb_goes_on_paper(route->asked)) {
        put_type(json, "application/pdf", NULL);
    }
    qll_json_close_object(json);
    qll_json_close_object(json);
}

static void put_responses(qll_json *json, const qll_route *route)
{
    const bool takes_time = route->asked != QLL_ASKED_NOTHING || route->answer == qll_handle_run;
    const bool is_empty = route->method == QLL_METHOD_DELETE || route->answer == qll_handle_login;
    qll_json_put_object(json, "responses");
    if (!takes_time) {
        put_response(json, is_empty ? "204" : "200", route->says,
                     is_empty ? NULL : "application/json", NULL);
    } else {
        put_answer(json, route);
        put_response(json, "202", QLL_TEXT_ROUTE_LATE, "application/json", "run");
        put_response(json, "422", QLL_TEXT_ROUTE_REFUSED, "application/json", NULL);
    }
    if (route->at_desk == qll_desk_put_record) {
        put_response(json, "201", route->says, "application/json", NULL);
        put_response(json, "412", QLL_TEXT_ROUTE_PROBLEM, "application/problem+json", "problem");
    }
    if (route->at_desk == qll_desk_get_part) {
        put_response(json, "206", route->says, "application/octet-stream", NULL);
    }
    put_response(json, "default", QLL_TEXT_ROUTE_PROBLEM, "application/problem+json", "problem");
    qll_json_close_object(json);
}

static void put_parameter(qll_json *json, qll_text name, const char *in)
{
    const char *closed = qll_text_closed(name, json->writer->arena);
    qll_json_open_object(json);
    qll_json_put_text(json, "name", closed == NULL ? "" : closed);
    qll_json_put_text(json, "in", in);
    qll_json_put_bool(json, "required", strcmp(in, "path") == 0);
    qll_json_put_object(json, "schema");
    qll_json_put_text(json, "type", "string");
    qll_json_close_object(json);
    qll_json_close_object(json);
}

static void put_parameters(qll_json *json, const qll_route *route)
{
    const char *rest = route->arguments == NULL ? "" : route->arguments;
    const char *header = route->at_desk == qll_desk_put_record ? "If-Match"
                         : route->at_desk == qll_desk_put_part ? "Content-Range"
                         : route->at_desk == qll_desk_get_part ? "Range"
                                                               : NULL;
    qll_json_put_list(json, "parameters");
    if (header != NULL) {
        put_parameter(json, qll_text_of(header), "header");
    }
    if (strchr(route->path, '{') != NULL) {
        put_parameter(json, qll_text_of("id"), "path");
    }
    while (rest[0] != '\0') {
        const size_t size = strcspn(rest, ",");
        put_parameter(json, (qll_text){rest, size}, "query");
        rest += size + (rest[size] == ',');
    }
    qll_json_close_list(json);
}

static void put_operation(qll_json *json, const qll_route *route)
{
    char method[8] = "";
    const char *word = qll_method_words[route->method];
    for (size_t i = 0; word[i] != '\0' && i + 1 < sizeof method; i++) {
        method[i] = (char)(word[i] - 'A' + 'a');
    }
    qll_json_put_object(json, method);
    put_said(json, "summary", route->says);
    put_parameters(json, route);
    if (route->body_most > 0) {
        put_body(json, route);
    }
    put_responses(json, route);
    qll_json_close_object(json);
}

/* Routes of one path stand together in the table. */
static void put_paths(qll_json *json)
{
    size_t count = 0;
    const qll_route *routes = qll_routes(&count);
    qll_json_put_object(json, "paths");
    for (size_t i = 0; i < count; i++) {
        if (i == 0 || strcmp(routes[i].path, routes[i - 1].path) != 0) {
            qll_json_put_object(json, routes[i].path);
        }
        put_operation(json, &routes[i]);
        if (i + 1 == count || strcmp(routes[i].path, routes[i + 1].path) != 0) {
            qll_json_close_object(json);
        }
    }
    qll_json_close_object(json);
}

/* ---- schemas ---- */

static void put_simple(qll_json *json, const char *name, const char *const *keys,
                       const char *const *types, size_t count)
{
    qll_json_put_object(json, name);
    qll_json_put_text(json, "type", "object");
    qll_json_put_object(json, "properties");
    for (size_t i = 0; i < count; i++) {
        qll_json_put_object(json, keys[i]);
        qll_json_put_text(json, "type", types[i]);
        qll_json_close_object(json);
    }
    qll_json_close_object(json);
    qll_json_close_object(json);
}

static void put_input(qll_json *json)
{
    qll_json_put_object(json, "input");
    qll_json_put_text(json, "type", "object");
    qll_json_put_object(json, "properties");
    put_text_member(json, "name", QLL_TEXT_QUESTION_INPUT_NAME);
    put_text_member(json, "text", QLL_TEXT_QUESTION_INPUT_TEXT);
    put_text_member(json, "base64", QLL_TEXT_QUESTION_INPUT_BASE64);
    qll_json_close_object(json);
    qll_json_put_bool(json, "additionalProperties", false);
    qll_json_close_object(json);
}

/* The schema of a document under an address of its own, to which its inner references belong. */
static qll_status put_described(qll_json *json, const char *about)
{
    qll_arena *arena = json->writer->arena;
    const qll_question question = {
        .verb = QLL_VERB_DESCRIBE, .form = QLL_FORM_SCHEMA, .about = about};
    qll_answer answer;
    qll_document document;
    qll_problems problems = qll_problems_none(arena);
    qll_status status = qll_ask(&question, arena, &answer);
    if (status == QLL_OK) {
        status = qll_document_read((qll_text){answer.bytes, answer.size}, about, arena, &document,
                                   &problems);
    }
    if (status != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_json_put_object(json, about);
    qll_writer id = qll_writer_new(arena);
    qll_write_format(&id, "/api/schemas/%s", about);
    qll_json_put_written(json, "$id", &id);
    for (const qll_node *child = document.root->first_child; child != NULL; child = child->next) {
        const char *key = qll_text_closed(child->key, arena);
        if (key == NULL) {
            return QLL_NO_MEMORY;
        }
        qll_json_key(json, key);
        qll_json_node(json, child);
    }
    qll_json_close_object(json);
    return QLL_OK;
}

static qll_status put_schemas(qll_json *json)
{
    static const char *const problem_keys[] = {"type", "title",  "status",
                                               "code", "detail", "problems"};
    static const char *const problem_types[] = {"string", "string", "integer",
                                                "string", "string", "array"};
    static const char *const run_keys[] = {"quell", "id", "share"};
    static const char *const run_types[] = {"string", "string", "number"};
    static const char *const login_keys[] = {"name", "password"};
    static const char *const login_types[] = {"string", "string"};
    qll_status status = QLL_OK;
    qll_json_put_object(json, "components");
    qll_json_put_object(json, "schemas");
    put_input(json);
    put_simple(json, "problem", problem_keys, problem_types, QLL_COUNT(problem_keys));
    put_simple(json, "run", run_keys, run_types, QLL_COUNT(run_keys));
    put_simple(json, "login", login_keys, login_types, QLL_COUNT(login_keys));
    for (size_t i = 0; i < QLL_COUNT(described) && status == QLL_OK; i++) {
        status = put_described(json, described[i]);
    }
    qll_json_close_object(json);
    qll_json_close_object(json);
    return status;
}

qll_status qll_openapi_make(qll_arena *arena, qll_text *description)
{
    qll_writer writer = qll_writer_new(arena);
    qll_json json = qll_json_new(&writer);
    qll_json_open_object(&json);
    qll_json_put_text(&json, "openapi", "3.1.0");
    qll_json_put_object(&json, "info");
    qll_json_put_text(&json, "title", "quell");
    qll_json_put_text(&json, "version", qll_version());
    qll_json_close_object(&json);
    put_paths(&json);
    const qll_status status = put_schemas(&json);
    qll_json_close_object(&json);
    qll_write(&writer, "\n");
    *description = qll_writer_text(&writer);
    return writer.no_memory ? QLL_NO_MEMORY : status;
}

bool qll_handle_openapi(qll_exchange *exchange)
{
    exchange->reply.status = 200;
    exchange->reply.type = "application/json";
    exchange->reply.body = exchange->server->description;
    exchange->reply.is_lasting = true;
    return true;
}
