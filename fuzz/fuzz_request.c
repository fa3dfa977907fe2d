/* A request: "METHOD PATH?ARGUMENTS", headers a line each, an empty line, a body. Answered or refused with a status, headers on one line
 * and, where it says that it is JSON, JSON; the server is as before: no room, run or exchange stays behind. It has records, which hold
 * together whatever came. */
#include "base/document.h"
#include "base/problems.h"
#include "exchanging.h"
#include "require.h"

#include <stdint.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char *const called[] = {"localhost", "[::1]"};

static const qll_page_file pages[] = {{.name = "index.html",
                                       .type = "text/html; charset=utf-8",
                                       .tag = "\"a\"",
                                       .bytes = {"<p>", 3}}};

/* ---- the server ---- */

/* Records are thrown away after so many requests: what lies there from those before must not grow without end. */
#define QLL_REQUESTS_MOST 1000

typedef struct served {
    qll_server *server;
    qll_arena *arena;
    char folder[64], place[96];
    unsigned requests;
} served;

static served home;

static void throw_away(void)
{
    static const char *const endings[] = {"", "-wal", "-shm"};
    qll_server_close(home.server);
    home.server = NULL;
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++) {
        char path[128];
        (void)snprintf(path, sizeof path, "%s%s", home.place, endings[i]);
        (void)unlink(path);
    }
    (void)rmdir(home.folder);
    qll_arena_close(home.arena);
    home.arena = NULL;
}

/* Instead of paper, which is made of pages alone. */
static qll_status print(const qll_made_report *made, qll_arena *arena, qll_text *bytes,
                        const char **why)
{
    (void)arena;
    QLL_REQUIRE(made->form == QLL_SHEETS_PDF && made->pages != NULL);
    *bytes = qll_text_of("%PDF-1.4");
    *why = "";
    return QLL_OK;
}

static void open_server(void)
{
    static bool is_registered;
    qll_said why;
    if (!is_registered) {
        is_registered = true;
        QLL_REQUIRE(atexit(throw_away) == 0);
    }
    (void)snprintf(home.folder, sizeof home.folder, "%s/quell-fuzz-%ld",
                   access("/dev/shm", W_OK) == 0 ? "/dev/shm" : "/tmp", (long)getpid());
    QLL_REQUIRE(mkdir(home.folder, 0700) == 0);
    (void)snprintf(home.place, sizeof home.place, "%s/records.db", home.folder);
    const qll_server_plan plan = {.names = {called, 2, 8080, false},
                                  .page = {pages, 1},
                                  .store = home.place,
                                  .runs_at_once = 1,
                                  .patience_s = 60.0,
                                  .print = print};
    home.arena = qll_arena_open((size_t)16 << 20);
    home.requests = 0;
    QLL_REQUIRE(qll_server_open(&plan, home.arena, &home.server, &why) == QLL_OK);
}

static qll_server *server_of(void)
{
    if (home.requests == QLL_REQUESTS_MOST) {
        qll_said why;
        QLL_REQUIRE(qll_store_check(home.server->at_desk, home.arena, &why) == QLL_OK);
        throw_away();
    }
    if (home.server == NULL) {
        open_server();
    }
    home.requests += 1;
    return home.server;
}

/* ---- the request ---- */

/* The next line of @p rest, closed, without its end. */
static char *line_of(qll_text *rest, qll_arena *arena)
{
    size_t size = 0;
    while (size < rest->size && rest->bytes[size] != '\n') {
        size += 1;
    }
    char *line = qll_arena_copy(arena, rest->bytes, size);
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

/* Takes what stands behind the question mark off @p path, name=value and name=value. */
static size_t take_arguments(char *path, qll_http_field *arguments, size_t most)
{
    size_t count = 0;
    char *at = strchr(path, '?');
    while (at != NULL && count < most) {
        *at = '\0';
        char *name = at + 1;
        char *equals = strchr(name, '=');
        at = strchr(name, '&');
        if (equals != NULL && (at == NULL || equals < at)) {
            *equals = '\0';
            arguments[count] = (qll_http_field){name, equals + 1};
            count += 1;
        }
    }
    if (at != NULL) {
        *at = '\0';
    }
    return count;
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
    char *first = line_of(&rest, arena);
    const size_t method_size = strcspn(first, " ");
    char *path = first + method_size + (first[method_size] == ' ');
    qll_http_field arguments[8];
    const size_t argument_count = take_arguments(path, arguments, 8);
    sent request = {.method = method_of((qll_text){first, method_size}),
                    .path = path,
                    .headers = headers,
                    .arguments = arguments,
                    .argument_count = argument_count};
    size_t count = 0;
    const char *line = NULL;
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
