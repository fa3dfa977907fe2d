/* The page as it is sent: once, packed where the browser unpacks it, and from what lies in its folder. */
#include "check.h"
#include "exchanging.h"
#include "host/host.h"
#include "server/page_files.h"
#include "server/server.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char *const called[] = {"localhost"};

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

static qll_server *opened(void)
{
    const qll_server_plan plan = {.names = {called, 1, 8080, false},
                                  .page = {pages, 2},
                                  .runs_at_once = 1,
                                  .patience_s = 2.0};
    qll_server *server = NULL;
    qll_said why;
    CHECK(qll_server_open(&plan, arena, &server, &why) == QLL_OK);
    return server;
}

TEST(the_page_is_sent_once)
{
    qll_server *server = opened();
    exchanging of = {0};
    exchanging_begin(&of, server, &(sent){.method = QLL_METHOD_GET, .path = "/"});
    CHECK(of.exchange.reply.status == 200);
    CHECK_TEXT(of.exchange.reply.type, "text/html; charset=utf-8");
    CHECK(of.exchange.reply.body.size == 3);
    exchanging_end(&of);
    exchanging_begin(
        &of, server,
        &(sent){.method = QLL_METHOD_GET,
                .path = "/page.js",
                .headers = TEST_HEADERS("Host", "localhost:8080", "If-None-Match", "\"def\"")});
    CHECK(of.exchange.reply.status == 304 && of.exchange.reply.body.size == 0);
    exchanging_end(&of);
    qll_server_close(server);
}

static const char *reply_field(const qll_http_reply *reply, const char *name)
{
    for (size_t i = 0; i < reply->field_count; i++) {
        if (strcmp(reply->fields[i].name, name) == 0) {
            return reply->fields[i].value;
        }
    }
    return "";
}

/* Whose header says "br" by RFC 9110 12.5.3 gets it packed; each form has a tag of its own. */
TEST(the_page_is_sent_packed_to_who_unpacks_it)
{
    qll_server *server = opened();

    static const struct {
        const char *accepts;
        bool is_packed;
    } asked[] = {
        {"gzip, deflate, br, zstd", true}, {"BR", true},      {"gzip,br", true},      {"", false},
        {"gzip, deflate", false},          {"br;q=0", false}, {"brotli, abr", false}, {",,", false},
    };

    for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++) {
        exchanging of = {0};
        exchanging_begin(&of, server,
                         &(sent){.method = QLL_METHOD_GET,
                                 .path = "/page.js",
                                 .headers = TEST_HEADERS("Host", "localhost:8080",
                                                         "Accept-Encoding", asked[i].accepts)});
        const qll_http_reply *reply = &of.exchange.reply;
        CHECK(reply->status == 200 && reply->body.size == (asked[i].is_packed ? 1 : 5));
        CHECK_TEXT(reply_field(reply, "Content-Encoding"), asked[i].is_packed ? "br" : "");
        CHECK_TEXT(reply_field(reply, "ETag"), asked[i].is_packed ? "\"fed\"" : "\"def\"");
        CHECK_TEXT(reply_field(reply, "Vary"), "Accept-Encoding");
        exchanging_end(&of);
    }
    qll_server_close(server);
}

static void put_file(const char *folder, const char *name, const char *text)
{
    char path[512];
    (void)snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "wb");
    if (CHECK(file != NULL)) {
        CHECK(fputs(text, file) >= 0 && fclose(file) == 0);
    }
}

TEST(what_lies_packed_beside_a_file_goes_with_it)
{
    static const char *const laid[] = {"a.js", "a.js.br", "alone.br", "b.css"};
    char folder[] = "/tmp/quell-page-??????";
    memset(folder + sizeof folder - 7, 'X', 6); /* as mkdtemp() wants them */
    CHECK(mkdtemp(folder) != NULL);
    for (size_t i = 0; i < sizeof laid / sizeof laid[0]; i++) {
        put_file(folder, laid[i], laid[i]);
    }
    qll_page_files files;
    const char *why = NULL;
    CHECK(qll_page_files_read(folder, arena, &files, &why) == QLL_OK && files.count == 3);
    const qll_page_file *script = qll_page_files_find(&files, "/a.js");
    if (CHECK(script != NULL)) {
        CHECK(qll_text_equal(script->bytes, qll_text_of("a.js")));
        CHECK(qll_text_equal(script->packed, qll_text_of("a.js.br")));
        CHECK(script->packed_tag != NULL && strcmp(script->packed_tag, script->tag) != 0);
    }
    CHECK(qll_page_files_find(&files, "/a.js.br") == NULL);
    const qll_page_file *style = qll_page_files_find(&files, "/b.css");
    CHECK(style != NULL && style->packed.size == 0);
    CHECK(qll_page_files_find(&files, "/alone.br") != NULL);
    for (size_t i = 0; i < sizeof laid / sizeof laid[0]; i++) {
        char path[512];
        (void)snprintf(path, sizeof path, "%s/%s", folder, laid[i]);
        (void)unlink(path);
    }
    CHECK(rmdir(folder) == 0);
}

int main(void)
{
    arena = qll_arena_open((size_t)16 * 1024 * 1024);
    TEST_RUN(the_page_is_sent_once);
    TEST_RUN(the_page_is_sent_packed_to_who_unpacks_it);
    TEST_RUN(what_lies_packed_beside_a_file_goes_with_it);
    qll_arena_close(arena);
    return TEST_END();
}
