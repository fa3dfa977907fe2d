/* What the server answers, and whom it refuses, without a network. */
#include "check.h"
#include "exchanging.h"
#include "host/host.h"
#include "server/server.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char *const called[] = {"localhost", "127.0.0.1", "[::1]", "office.local"};

static const qll_server_names names = {called, 4, 8080, false};

static const qll_page_file pages[] = {
    {.name = "index.html",
     .type = "text/html; charset=utf-8",
     .tag = "\"abc\"",
     .bytes = {"<p>", 3}},
    {.name = "page.js",
     .type = "text/javascript; charset=utf-8",
     .tag = "\"def\"",
     .bytes = {"12345", 5},
     .packed_tag = "\"fed\"",
     .packed = {"1", 1}},
};

static qll_arena *arena;

/* Readings of a gauge through a night, and so enough for sheets. */
#define NIGHT                                                                                     \
    "\"log\": {\"text\": \"time,outlet [psi]\\n2026-11-01T00:00:00Z,60\\n2026-11-01T00:01:00Z,61" \
    "\\n2026-11-01T00:02:00Z,60\\n2026-11-01T00:03:00Z,62\\n\"}"

/* What the printer says. */
static qll_status printed;

static qll_status print(const qll_made_report *made, qll_arena *room, qll_text *bytes,
                        const char **why)
{
    (void)room;
    CHECK(made->form == QLL_SHEETS_PDF && made->pages->page_count > 0);
    *bytes = qll_text_of("%PDF-1.4");
    *why = "the ink is out";
    return printed;
}

static qll_server *opened(const char *store, double patience_s)
{
    const qll_server_plan plan = {.names = names,
                                  .page = {pages, 2},
                                  .store = store,
                                  .runs_at_once = 2,
                                  .patience_s = patience_s,
                                  .print = print};
    qll_server *server = NULL;
    qll_said why;
    CHECK(qll_server_open(&plan, arena, &server, &why) == QLL_OK);
    return server;
}

/* The status of a reply; the word of its problem into @p code. */
static int status_of(qll_server *server, const sent *request, char code[32])
{
    exchanging of = {0};
    exchanging_begin(&of, server, request);
    const qll_http_reply *reply = &of.exchange.reply;
    const char *found = reply->type == NULL || strcmp(reply->type, "application/problem+json") != 0
                            ? NULL
                            : strstr(reply->body.bytes, "\"code\": \"");
    code[0] = '\0';
    for (size_t i = 0; found != NULL && i < 31 && found[9 + i] != '"'; i++) {
        code[i] = found[9 + i];
        code[i + 1] = '\0';
    }
    const int status = reply->status;
    exchanging_end(&of);
    return status;
}

static void check_refused(qll_server *server, const char *const *headers, qll_method method,
                          const char *path, int status, const char *code)
{
    char got[32];
    const sent request = {.method = method,
                          .path = path,
                          .headers = headers,
                          .body = {"{}", 2},
                          .has_body = method == QLL_METHOD_POST};
    CHECK(status_of(server, &request, got) == status);
    CHECK_TEXT(got, code);
}

TEST(contradicting_headers_are_refused)
{
    qll_server *server = opened(NULL, 2.0);
    const char *const home = "localhost:8080";
    check_refused(server, TEST_HEADERS("Host", home, "Content-Length", "2", "content-LENGTH", "3"),
                  QLL_METHOD_GET, "/api/health", 400, "header");
    check_refused(server, TEST_HEADERS("Host", home, "Transfer-Encoding", "chunked"),
                  QLL_METHOD_POST, "/api/list", 400, "header");
    check_refused(server, TEST_HEADERS("Host", home, "Host", home), QLL_METHOD_GET, "/api/health",
                  400, "header");
    check_refused(server, TEST_HEADERS("Cookie", "a=1", "Host", home, "Cookie", "b=2"),
                  QLL_METHOD_GET, "/api/health", 400, "header");
    check_refused(server, TEST_HEADERS("Accept", "x"), QLL_METHOD_GET, "/api/health", 400,
                  "host-missing");
    check_refused(server, TEST_HEADERS("Host", "evil.example:8080"), QLL_METHOD_GET, "/", 421,
                  "host");
    check_refused(server, TEST_HEADERS("Host", "localhost:8081"), QLL_METHOD_GET, "/", 421, "host");
    check_refused(server, TEST_HEADERS("Host", "localhost"), QLL_METHOD_GET, "/", 421, "host");
    check_refused(server, TEST_HEADERS("Host", home, "Content-Length", "5"), QLL_METHOD_GET,
                  "/api/health", 400, "body");
    check_refused(server, TEST_HEADERS("Host", home), QLL_METHOD_POST, "/api/list", 415, "type");
    check_refused(server, TEST_HEADERS("Host", home, "Content-Type", "text/plain"), QLL_METHOD_POST,
                  "/api/list", 415, "type");
    qll_server_close(server);
}

TEST(pages_of_elsewhere_are_refused)
{
    qll_server *server = opened(NULL, 2.0);
    const char *const json = "application/json";

    static const struct {
        const char *origin;
        int status;
    } origins[] = {
        {"http://localhost:8080", 200},         {"http://LOCALHOST:8080", 200},
        {"http://office.local:8080", 200},      {"http://[::1]:8080", 200},
        {"https://localhost:8080", 403},        {"http://localhost:8081", 403},
        {"http://localhost.evil.example", 403}, {"null", 403},
        {"http://localhost:8080.evil", 403},    {"", 403},
    };

    for (size_t i = 0; i < sizeof origins / sizeof origins[0]; i++) {
        char code[32];
        const sent request = {.method = QLL_METHOD_POST,
                              .path = "/api/list",
                              .headers = TEST_HEADERS("Host", "localhost:8080", "Content-Type",
                                                      json, "Origin", origins[i].origin),
                              .body = {"{}", 2},
                              .has_body = true};
        if (!CHECK(status_of(server, &request, code) == origins[i].status)) {
            printf("    %s\n", origins[i].origin);
        }
    }
    check_refused(server, TEST_HEADERS("Host", "localhost:8080", "Sec-Fetch-Site", "cross-site"),
                  QLL_METHOD_GET, "/api/health", 403, "origin");
    qll_server_close(server);
}

TEST(routes_lead_where_they_say)
{
    qll_server *server = opened(NULL, 2.0);
    static const char *const astray[] = {
        "/api/nothing",
        "/api/",
        "/../etc/passwd",
        "/page/../../etc/passwd",
        "//etc/passwd",
        "/index.html/",
        "/%2e%2e/etc/passwd",
        "/.",
        "/..",
        "",
        "/api/runs/",
        "/api/runs/a/b",
    };
    for (size_t i = 0; i < sizeof astray / sizeof astray[0]; i++) {
        if (!CHECK(astray[i] != NULL)) {
            continue;
        }
        check_refused(server, NULL, QLL_METHOD_GET, astray[i], 404, "not-found");
    }
    check_refused(server, NULL, QLL_METHOD_GET, "/api/design", 405, "method");
    check_refused(server, NULL, QLL_METHOD_PUT, "/", 405, "method");
    check_refused(server, NULL, QLL_METHOD_COUNT, "/api/health", 405, "method");
    check_refused(server, NULL, QLL_METHOD_GET, "/api/runs/0123456789abcdef0123456789abcdef", 404,
                  "run");
    check_refused(server, NULL, QLL_METHOD_POST, "/api/session", 404, "no-people");
    qll_server_close(server);
}

TEST(a_question_that_makes_no_sense_is_refused)
{
    qll_server *server = opened(NULL, 2.0);

    static const struct {
        const char *path, *body, *says;
        int status;
    } asked[] = {
        {"/api/list", "", "", 400},
        {"/api/list", "{", "", 400},
        {"/api/list", "[]", "", 400},
        {"/api/list", "{\"catalog\": {}}", "catalogue", 400},
        {"/api/list", "{\"flow\": \"1 gpm\"}", "takes no", 400},
        {"/api/list", "{\"units\": 3}", "text in quotes", 400},
        {"/api/list", "{\"form\": \"txt\"}", "text", 400},
        {"/api/list", "{\"units\": \"imperial\"}", "units", 400},
        {"/api/list", "{\"catalogue\": {\"name\": \"a\"}}", "base64", 400},
        {"/api/list", "{\"catalogue\": {\"text\": \"a\", \"base64\": \"YQ==\"}}", "not both", 400},
        {"/api/list", "{\"catalogue\": {\"base64\": \"?\"}}", "RFC 4648", 400},
        {"/api/list", "{\"catalogue\": {\"text\": \"{\"}}", "catalogue.json:1:2", 422},
        {"/api/design", "{}", "document", 400},
        {"/api/demand", "{\"document\": {\"text\": \"{}\"}, \"attachments\": 1}", "list", 400},
        {"/api/calc", "{\"calc\": \"velocety\"}", "velocity", 400},
        {"/api/calc", "{\"calc\": \"velocity\", \"arguments\": [1]}", "text in quotes", 400},
        {"/api/listen", "{\"recording\": {\"text\": \"abc\"}}", "WAV", 400},
        {"/api/log", "{\"log\": {\"base64\": \"H4sIAAAA\"}}", "gzip", 400},
    };

    for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++) {
        exchanging of = {0};
        exchanging_begin(&of, server,
                         &(sent){.method = QLL_METHOD_POST,
                                 .path = asked[i].path,
                                 .body = qll_text_of(asked[i].body),
                                 .has_body = true});
        const qll_http_reply *reply = &of.exchange.reply;
        if (!CHECK(reply->status == asked[i].status)
            || !CHECK(reply->body.bytes != NULL
                      && strstr(reply->body.bytes, asked[i].says) != NULL)) {
            printf("    %s %s: %d %.*s\n", asked[i].path, asked[i].body, reply->status,
                   (int)reply->body.size, reply->body.bytes == NULL ? "" : reply->body.bytes);
        }
        exchanging_end(&of);
    }
    qll_server_close(server);
}

TEST(a_pdf_comes_from_whoever_prints)
{
    static const struct {
        const char *path, *body;
        qll_status printed;
        int status;
        const char *type, *holds;
    } rows[] = {
        {"/api/log", "{\"form\": \"pdf\", " NIGHT "}", QLL_OK, 200, "application/pdf", "%PDF-1.4"},
        {"/api/log", "{\"form\": \"pdf\", " NIGHT "}", QLL_IO, 500, "application/problem+json",
         "the ink is out"},
        {"/api/log", "{\"form\": \"pdf\", " NIGHT "}", QLL_NO_MEMORY, 503,
         "application/problem+json", "\"no-memory\""},
        {"/api/log", "{\"form\": \"pdf\", \"log\": {\"text\": \"1\"}}", QLL_OK, 422,
         "application/json", "\"problems\""},
        {"/api/list", "{\"form\": \"pdf\"}", QLL_OK, 400, "application/problem+json",
         "unknown-word"},
    };

    qll_server *server = opened(NULL, 60.0);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        printed = rows[i].printed;
        exchanging of = {0};
        exchanging_begin(&of, server,
                         &(sent){.method = QLL_METHOD_POST,
                                 .path = rows[i].path,
                                 .body = qll_text_of(rows[i].body),
                                 .has_body = true});
        const qll_http_reply *reply = &of.exchange.reply;
        if (!CHECK(reply->status == rows[i].status && strstr(reply->body.bytes, rows[i].holds))) {
            printf("    %zu: %d %s\n", i, reply->status, reply->body.bytes);
        }
        CHECK_TEXT(reply->type, rows[i].type);
        exchanging_end(&of);
    }
    qll_server_close(server);
}

TEST(refusals_come_in_the_language_asked_for)
{
    qll_server *server = opened(NULL, 2.0);
    exchanging of = {0};
    exchanging_begin(&of, server,
                     &(sent){.method = QLL_METHOD_GET,
                             .path = "/api/nothing",
                             .headers = TEST_HEADERS("Host", "localhost:8080", "Accept-Language",
                                                     "es-MX,es;q=0.9,en;q=0.8")});
    CHECK(strstr(of.exchange.reply.body.bytes, "no hay nada") != NULL);
    exchanging_end(&of);
    qll_server_close(server);
}

/* ---- runs ---- */

static qll_text survey_of(const char *example)
{
    qll_writer path = qll_writer_new(arena);
    qll_text bytes = {0};
    const char *why = "";
    qll_write_format(&path, "%s/examples/%s/survey.json", QUELL_ROOT, example);
    CHECK(qll_host_read(qll_writer_text(&path).bytes, arena, &bytes, &why) == QLL_OK);
    return bytes;
}

/* The Location of a late reply, in the arena. */
static const char *location_of(const qll_http_reply *reply)
{
    for (size_t i = 0; i < reply->field_count; i++) {
        if (strcmp(reply->fields[i].name, "Location") == 0) {
            return qll_arena_copy(arena, reply->fields[i].value, strlen(reply->fields[i].value));
        }
    }
    return "";
}

static const char *begun(qll_server *server, const char *path, qll_text body)
{
    exchanging of = {0};
    exchanging_begin(
        &of, server,
        &(sent){.method = QLL_METHOD_POST, .path = path, .body = body, .has_body = true});
    CHECK(of.exchange.reply.status == 202);
    const char *location = location_of(&of.exchange.reply);
    exchanging_end(&of);
    return location;
}

static int asked_for(qll_server *server, qll_method method, const char *path)
{
    char code[32];
    return status_of(server, &(sent){.method = method, .path = path}, code);
}

TEST(a_late_answer_is_fetched_and_is_the_same)
{
    qll_server *server = opened(NULL, 0.0);
    const qll_text survey = survey_of("morning-rush");
    const char *location = begun(server, "/api/demand", survey);
    int status = 202;
    while (status == 202) {
        (void)usleep(10000);
        status = asked_for(server, QLL_METHOD_GET, location);
    }
    CHECK(status == 200);
    exchanging of = {0};
    exchanging_begin(&of, server, &(sent){.method = QLL_METHOD_GET, .path = location});
    const qll_question question = {.verb = QLL_VERB_DEMAND,
                                   .form = QLL_FORM_JSON,
                                   .document = {"survey.json", survey.bytes, survey.size}};
    qll_answer answer;
    CHECK(qll_ask(&question, arena, &answer) == QLL_OK);
    CHECK(qll_text_equal(of.exchange.reply.body, (qll_text){answer.bytes, answer.size}));
    exchanging_end(&of);
    CHECK(asked_for(server, QLL_METHOD_DELETE, location) == 204);
    CHECK(asked_for(server, QLL_METHOD_GET, location) == 404);
    qll_server_close(server);
}

TEST(a_run_is_stopped)
{
    qll_server *server = opened(NULL, 0.0);
    const char *location = begun(server, "/api/design", survey_of("hillside"));
    CHECK(asked_for(server, QLL_METHOD_DELETE, location) == 204);
    CHECK(asked_for(server, QLL_METHOD_GET, location) == 404);
    CHECK(asked_for(server, QLL_METHOD_DELETE, location) == 404);
    qll_server_close(server);
}

TEST(more_than_waits_is_refused_and_all_room_comes_back)
{
    qll_server *server = opened(NULL, 0.0);
    const qll_text survey = survey_of("hillside");
    const char *locations[200];
    size_t count = 0;
    int refused = 0;
    for (size_t i = 0; i < 200 && refused == 0; i++) {
        exchanging of = {0};
        exchanging_begin(&of, server,
                         &(sent){.method = QLL_METHOD_POST,
                                 .path = "/api/design",
                                 .body = survey,
                                 .has_body = true});
        refused += of.exchange.reply.status == 503;
        if (of.exchange.reply.status == 202) {
            locations[count++] = location_of(&of.exchange.reply);
        }
        exchanging_end(&of);
    }
    CHECK(refused == 1 && count >= QLL_RUNS_WAITING);
    for (size_t i = 0; i < count; i++) {
        (void)asked_for(server, QLL_METHOD_DELETE, locations[i]);
    }
    size_t working = 1;
    size_t waiting = 1;
    while (working + waiting > 0) {
        (void)usleep(10000);
        qll_crew_count(server->engine, &working, &waiting);
    }
    CHECK(server->bodies_size == 0);
    CHECK(server->runs.first == NULL);
    qll_server_close(server);
}

/* A client that has gone is not resumed: what it waited for is given back all the same, be it done or late. */
TEST(who_goes_while_he_waits_leaves_nothing_behind)
{
    for (int late = 0; late < 2; late++) {
        qll_server *server = opened(NULL, late == 1 ? 0.0 : 60.0);
        exchanging of = {.goes = true};
        exchanging_begin(&of, server,
                         &(sent){.method = QLL_METHOD_POST,
                                 .path = "/api/demand",
                                 .body = survey_of("morning-rush"),
                                 .has_body = true});
        exchanging_end(&of);
        CHECK(server->parked == NULL);
        CHECK(late == 1 || server->runs.first == NULL);
        /* The clock goes through all that is parked. */
        CHECK(asked_for(server, QLL_METHOD_GET, "/api/health") == 200);
        qll_server_close(server);
    }
}

TEST(who_waits_is_told_when_the_server_stops)
{
    qll_server *server = opened(NULL, 60.0);
    qll_server_stop(server);
    char code[32];
    CHECK(status_of(server,
                    &(sent){.method = QLL_METHOD_POST,
                            .path = "/api/design",
                            .body = survey_of("hillside"),
                            .has_body = true},
                    code)
          == 503);
    CHECK_TEXT(code, "stopped");
    qll_server_close(server);
}

int main(void)
{
    arena = qll_arena_open((size_t)256 << 20);
    TEST_RUN(contradicting_headers_are_refused);
    TEST_RUN(pages_of_elsewhere_are_refused);
    TEST_RUN(routes_lead_where_they_say);
    TEST_RUN(a_question_that_makes_no_sense_is_refused);
    TEST_RUN(a_pdf_comes_from_whoever_prints);
    TEST_RUN(refusals_come_in_the_language_asked_for);
    TEST_RUN(a_late_answer_is_fetched_and_is_the_same);
    TEST_RUN(a_run_is_stopped);
    TEST_RUN(more_than_waits_is_refused_and_all_room_comes_back);
    TEST_RUN(who_goes_while_he_waits_leaves_nothing_behind);
    TEST_RUN(who_waits_is_told_when_the_server_stops);
    qll_arena_close(arena);
    return TEST_END();
}
