/* Names, passwords, sessions, tries, and who may ask the server what. */
#include "check.h"
#include "exchanging.h"
#include "server/person.h"
#include "server/server.h"

#include <stdlib.h>
#include <unistd.h>

static qll_arena *arena;

static const char *const called[] = {"localhost"};

TEST(a_name_is_one_line)
{
    static const struct {
        const char *name;
        bool is_fit;
    } named[] = {{"Ana Ruiz", true}, {"José", true},   {"", false},     {" Ana", false},
                 {"Ana ", false},    {"A\nB", false},  {"\xff", false}, {"a\x7f", false},
                 {"x", true},        {"Ana\tB", false}};

    for (size_t i = 0; i < sizeof named / sizeof named[0]; i++) {
        CHECK(qll_name_is_fit(qll_text_of(named[i].name)) == named[i].is_fit);
    }
    char long_name[82];
    memset(long_name, 'a', sizeof long_name);
    CHECK(qll_name_is_fit((qll_text){long_name, 80}));
    CHECK(!qll_name_is_fit((qll_text){long_name, 81}));
}

/* The form of RFC 9106's reference encoding: variant, version, memory in KiB, passes, lanes. */
TEST(a_password_is_keyed_by_argon2id)
{
    char keyed[QLL_PASSWORD_SIZE];
    char other[QLL_PASSWORD_SIZE];
    CHECK(qll_password_key(qll_text_of("correct horse"), keyed));
    CHECK(qll_password_key(qll_text_of("correct horse"), other));
    CHECK(strncmp(keyed, "$argon2id$v=19$m=65536,t=2,p=1$", 31) == 0);
    CHECK(strcmp(keyed, other) != 0);
    CHECK(qll_password_is(keyed, qll_text_of("correct horse")));
    CHECK(!qll_password_is(keyed, qll_text_of("correct horsf")));
    CHECK(!qll_password_is("nonsense", qll_text_of("correct horse")));
}

/* RFC 4648, section 10. */
TEST(base64_is_undone)
{
    static const char *const pairs[][2] = {{"", ""},
                                           {"f", "Zg=="},
                                           {"fo", "Zm8="},
                                           {"foo", "Zm9v"},
                                           {"foob", "Zm9vYg=="},
                                           {"fooba", "Zm9vYmE="},
                                           {"foobar", "Zm9v\nYmFy"}};
    qll_text bytes = {0};
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        CHECK(qll_base64_undo(qll_text_of(pairs[i][1]), arena, &bytes));
        CHECK(qll_text_is(bytes, pairs[i][0]));
    }
    static const char *const wrong[] = {"Zg", "Zg=", "Z", "Zm9v=", "Zm9v!", "Zg==Zg==", "Zm9_"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        CHECK(!qll_base64_undo(qll_text_of(wrong[i]), arena, &bytes));
    }
}

TEST(sessions_end)
{
    qll_sessions sessions;
    char token[QLL_TOKEN_SIZE];
    char other[QLL_TOKEN_SIZE];
    CHECK(qll_sessions_open(&sessions, arena));
    qll_sessions_begin(&sessions, "Ana", 1000.0, token);
    qll_sessions_begin(&sessions, "Ben", 1000.0, other);
    CHECK(strcmp(token, other) != 0);
    CHECK_TEXT(qll_sessions_who(&sessions, qll_text_of(token), 1001.0), "Ana");
    CHECK_TEXT(qll_sessions_who(&sessions, qll_text_of(other), 1001.0), "Ben");
    CHECK(qll_sessions_who(&sessions, qll_text_of(""), 1001.0) == NULL);
    CHECK(qll_sessions_who(&sessions, (qll_text){token, 63}, 1001.0) == NULL);
    /* Used, it goes on; not used, it ends; after a week it ends anyway. */
    const double idle_s = QLL_SESSION_IDLE_S;
    CHECK(qll_sessions_who(&sessions, qll_text_of(token), 1001.0 + 0.9 * idle_s) != NULL);
    CHECK(qll_sessions_who(&sessions, qll_text_of(token), 1001.0 + 1.8 * idle_s) != NULL);
    CHECK(qll_sessions_who(&sessions, qll_text_of(other), 1001.0 + 1.8 * idle_s) == NULL);
    double now_s = 1001.0 + 1.8 * idle_s;
    while (now_s < 1000.0 + QLL_SESSION_S) {
        CHECK(qll_sessions_who(&sessions, qll_text_of(token), now_s) != NULL);
        now_s += 0.9 * idle_s;
    }
    CHECK(qll_sessions_who(&sessions, qll_text_of(token), now_s) == NULL);
    qll_sessions_begin(&sessions, "Ana", now_s, token);
    qll_sessions_end(&sessions, qll_text_of(token));
    CHECK(qll_sessions_who(&sessions, qll_text_of(token), now_s) == NULL);
    /* One more than there is room for takes the place of the one used least lately. */
    char kept[QLL_TOKEN_SIZE];
    qll_sessions_begin(&sessions, "Kim", now_s, kept);
    for (int i = 0; i < QLL_SESSIONS_MOST; i++) {
        qll_sessions_begin(&sessions, "crowd", now_s + 1.0, other);
    }
    CHECK(qll_sessions_who(&sessions, qll_text_of(kept), now_s + 2.0) == NULL);
    CHECK_TEXT(qll_sessions_who(&sessions, qll_text_of(other), now_s + 2.0), "crowd");
}

TEST(wrong_tries_run_out)
{
    qll_tries tries;
    const qll_text ana = qll_text_of("Ana");
    CHECK(qll_tries_open(&tries, arena));
    for (int i = 0; i < QLL_TRIES_OF_NAME; i++) {
        CHECK(qll_tries_wait_s(&tries, "10.0.0.1", ana, 100.0) == 0);
        qll_tries_count(&tries, "10.0.0.1", ana, 100.0);
    }
    CHECK(qll_tries_wait_s(&tries, "10.0.0.1", ana, 100.0) == (unsigned)QLL_TRIES_WITHIN_S);
    CHECK(qll_tries_wait_s(&tries, "10.0.0.1", ana, 100.0 + QLL_TRIES_WITHIN_S - 0.5) == 1);
    CHECK(qll_tries_wait_s(&tries, "10.0.0.1", ana, 101.0 + QLL_TRIES_WITHIN_S) == 0);
    /* Others are not held up. */
    CHECK(qll_tries_wait_s(&tries, "10.0.0.2", ana, 100.0) == 0);
    CHECK(qll_tries_wait_s(&tries, "10.0.0.1", qll_text_of("Ben"), 100.0) == 0);
    /* But who tries one name after the other is. */
    char name[8];
    for (int i = 0; i < QLL_TRIES_OF_ADDRESS; i++) {
        (void)snprintf(name, sizeof name, "n%d", i);
        qll_tries_count(&tries, "10.0.0.3", qll_text_of(name), 100.0);
    }
    CHECK(qll_tries_wait_s(&tries, "10.0.0.3", qll_text_of("new"), 100.0) > 0);
    /* A right one is taken back. */
    for (int i = 0; i < 3 * QLL_TRIES_OF_ADDRESS; i++) {
        qll_tries_count(&tries, "10.0.0.4", ana, 100.0);
        qll_tries_forgive(&tries, "10.0.0.4", ana);
    }
    CHECK(qll_tries_wait_s(&tries, "10.0.0.4", ana, 100.0) == 0);
}

/* ---- at the server ---- */

static qll_server *opened(const char *store)
{
    const qll_server_plan plan = {.names = {called, 1, 8080, false},
                                  .store = store,
                                  .must_login = true,
                                  .runs_at_once = 1,
                                  .patience_s = 2.0};
    qll_server *server = NULL;
    qll_said why = {.id = QLL_TEXT_NONE};
    CHECK(qll_server_open(&plan, arena, &server, &why) == QLL_OK);
    return server;
}

static void add_person(const char *place, const char *name, const char *password)
{
    char keyed[QLL_PASSWORD_SIZE];
    qll_store *store = NULL;
    qll_said why;
    CHECK(qll_secret_begin() && qll_password_key(qll_text_of(password), keyed));
    CHECK(qll_store_open(place, QLL_STORE_MAKE, arena, &store, &why) == QLL_OK);
    CHECK(qll_store_put_person(store, name, keyed, &why) == QLL_OK);
    qll_store_close(store);
}

static int log_in(qll_server *server, const char *name, const char *password,
                  char token[QLL_TOKEN_SIZE])
{
    qll_writer body = qll_writer_new(arena);
    qll_write_format(&body, "{\"name\": \"%s\", \"password\": \"%s\"}", name, password);
    exchanging of = {0};
    exchanging_begin(&of, server,
                     &(sent){.method = QLL_METHOD_POST,
                             .path = "/api/session",
                             .body = qll_writer_text(&body),
                             .has_body = true});
    const qll_http_reply *reply = &of.exchange.reply;
    const int status = reply->status;
    token[0] = '\0';
    for (size_t i = 0; i < reply->field_count; i++) {
        if (strcmp(reply->fields[i].name, "Set-Cookie") == 0) {
            const char *value = reply->fields[i].value;
            CHECK(strncmp(value, "quell=", 6) == 0 && strstr(value, "; HttpOnly") != NULL
                  && strstr(value, "; SameSite=Strict") != NULL);
            memcpy(token, value + 6, QLL_TOKEN_SIZE - 1);
            token[QLL_TOKEN_SIZE - 1] = '\0';
        }
    }
    exchanging_end(&of);
    return status;
}

static int ask_with(qll_server *server, qll_method method, const char *path, const char *token)
{
    qll_writer cookie = qll_writer_new(arena);
    qll_write_format(&cookie, "theme=dark; quell=%s; other=1", token);
    const char *const headers[] = {"Host",
                                   "localhost:8080",
                                   "Content-Type",
                                   "application/json",
                                   "Cookie",
                                   qll_writer_text(&cookie).bytes,
                                   NULL};
    exchanging of = {0};
    exchanging_begin(&of, server,
                     &(sent){.method = method,
                             .path = path,
                             .headers = headers,
                             .body = {"{}", 2},
                             .has_body = method == QLL_METHOD_POST});
    const int status = of.exchange.reply.status;
    exchanging_end(&of);
    return status;
}

TEST(only_who_is_logged_in_gets_answers)
{
    char place[] = "/tmp/quell-test-......";
    memset(place + sizeof place - 7, 'X', 6); /* as mkdtemp() wants them */
    CHECK(mkdtemp(place) != NULL);
    qll_writer file = qll_writer_new(arena);
    qll_write_format(&file, "%s/r.db", place);
    const char *path = qll_writer_text(&file).bytes;
    qll_server *nobody = NULL;
    qll_said why;
    const qll_server_plan plan = {
        .names = {called, 1, 8080, false}, .store = path, .must_login = true, .runs_at_once = 1};
    CHECK(qll_server_open(&plan, arena, &nobody, &why) == QLL_WRONG_USE && nobody == NULL);
    add_person(path, "Ana", "correct horse");
    add_person(path, "Ben", "battery staple");
    qll_server *server = opened(path);
    char ana[QLL_TOKEN_SIZE];
    char none[QLL_TOKEN_SIZE];
    CHECK(ask_with(server, QLL_METHOD_POST, "/api/list", "") == 401);
    CHECK(ask_with(server, QLL_METHOD_GET, "/api/health", "") == 200);
    CHECK(log_in(server, "Ana", "correct horse", ana) == 204);
    CHECK(ask_with(server, QLL_METHOD_POST, "/api/list", ana) == 200);
    CHECK(ask_with(server, QLL_METHOD_DELETE, "/api/session", ana) == 204);
    CHECK(ask_with(server, QLL_METHOD_POST, "/api/list", ana) == 401);
    CHECK(log_in(server, "Cid", "correct horse", none) == 401 && none[0] == '\0');
    /* Ten wrong ones: five are looked at; then not even the right one is. */
    for (int i = 0; i < 10; i++) {
        CHECK(log_in(server, "Ana", "wrong horse", none) == (i < QLL_TRIES_OF_NAME ? 401 : 429));
    }
    CHECK(log_in(server, "Ana", "correct horse", none) == 429);
    CHECK(log_in(server, "Ben", "battery staple", none) == 204);
    qll_server_close(server);
    qll_writer remove = qll_writer_new(arena);
    qll_write_format(&remove, "rm -r %s", place);
    CHECK(system(qll_writer_text(&remove).bytes) == 0);
}

int main(void)
{
    arena = qll_arena_open((size_t)64 << 20);
    CHECK(qll_secret_begin());
    TEST_RUN(a_name_is_one_line);
    TEST_RUN(a_password_is_keyed_by_argon2id);
    TEST_RUN(base64_is_undone);
    TEST_RUN(sessions_end);
    TEST_RUN(wrong_tries_run_out);
    TEST_RUN(only_who_is_logged_in_gets_answers);
    qll_arena_close(arena);
    return TEST_END();
}
