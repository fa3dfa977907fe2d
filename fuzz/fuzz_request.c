/* A request: "METHOD PATH", headers a line each, an empty line, a body. Answered or refused with a status, headers on one line and,
 * where it says that it is JSON, JSON; the server is as before: no room, run or exchange stays behind. */
#include "base/document.h"
#include "base/problems.h"
#include "exchanging.h"
#include "require.h"

#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char *const called[] = {"localhost", "[::1]"};

static const qll_page_file pages[] = {
    {"index.html", "text/html; charset=utf-8", "\"a\"", {"<p>", 3}}};

/* One for all inputs. */
static qll_server *server_of(void)
{
    static qll_server *server;
    static qll_arena *arena;
    if (server == NULL) {
        const qll_server_plan plan = {.names = {called, 2, 8080, false},
                                      .page = {pages, 1},
                                      .runs_at_once = 1,
                                      .patience_s = 60.0};
        qll_said why;
        arena = qll_arena_open((size_t)16 << 20);
        QLL_REQUIRE(qll_server_open(&plan, arena, &server, &why) == QLL_OK);
    }
    return server;
}

/* The next line of @p rest, closed, without its end. */
static const char *line_of(qll_text *rest, qll_arena *arena)
{
    size_t size = 0;
    while (size < rest->size && rest->bytes[size] != '\n') {
        size += 1;
    }
    const char *line = qll_text_closed((qll_text){rest->bytes, size}, arena);
    const size_t taken = size < rest->size ? size + 1 : size;
    *rest = (qll_text){rest->bytes + taken, rest->size - taken};
    QLL_REQUIRE(line != NULL);
    return line;
}

static qll_method method_of(qll_text word)
{
    int method = 0;
    while (method < QLL_METHOD_COUNT && !qll_text_is(word, qll_method_words[method])) {
        method += 1;
    }
    return (qll_method)method;
}

static void require_reply(const qll_http_reply *reply, qll_arena *arena)
{
    QLL_REQUIRE(reply->status >= 200 && reply->status < 600);
    for (size_t i = 0; i < reply->field_count; i++) {
        QLL_REQUIRE(strpbrk(reply->fields[i].name, "\r\n") == NULL);
        QLL_REQUIRE(strpbrk(reply->fields[i].value, "\r\n") == NULL);
    }
    if (reply->type == NULL || strstr(reply->type, "json") == NULL) {
        return;
    }
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    QLL_REQUIRE(qll_document_read(reply->body, "", arena, &document, &problems) == QLL_OK);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    qll_server *server = server_of();
    qll_arena *arena = qll_arena_open((size_t)512 << 20);
    qll_text rest = {(const char *)data, size};
    const char *headers[2 * TEST_FIELDS + 1] = {NULL};
    QLL_REQUIRE(arena != NULL);
    const char *line = line_of(&rest, arena);
    const size_t method_size = strcspn(line, " ");
    sent request = {.method = method_of((qll_text){line, method_size}),
                    .path = line + method_size + (line[method_size] == ' '),
                    .headers = headers};
    size_t count = 0;
    for (line = line_of(&rest, arena); line[0] != '\0'; line = line_of(&rest, arena)) {
        const char *colon = strstr(line, ": ");
        if (colon != NULL && count < TEST_FIELDS - 2) {
            headers[2 * count] = qll_text_closed((qll_text){line, (size_t)(colon - line)}, arena);
            headers[2 * count + 1] = colon + 2;
            count += 1;
        }
    }
    request.body = rest;
    request.has_body = rest.size > 0;
    exchanging of = {0};
    exchanging_begin(&of, server, &request);
    require_reply(&of.exchange.reply, arena);
    exchanging_end(&of);
    QLL_REQUIRE(server->bodies_size == 0 && server->runs.first == NULL && server->parked == NULL);
    qll_arena_close(arena);
    return 0;
}
