/* Logging in and out. A password is checked on the doorkeeper's one thread, as each check takes 64 MiB and some 70 ms. */
#include "base/count.h"
#include "documents/field.h"
#include "host/host.h"
#include "server/guard.h"
#include "server/handlers.h"
#include "server/journal.h"
#include "server/reply.h"
#include "server/routes.h"
#include "server/server.h"

#include <math.h>
#include <string.h>

typedef struct login {
    qll_errand errand;
    const char *name;
    qll_arena *arena; /* of the exchange, which waits meanwhile */
    char *password;   /* overwritten once it was checked */
    size_t password_size;
    bool is_right;
} login;

static const qll_field login_fields[] = {
    {.key = "name", .value = QLL_VALUE_TEXT, .obligatory = true, .means = QLL_TEXT_LOGIN_NAME},
    {.key = "password",
     .value = QLL_VALUE_TEXT,
     .obligatory = true,
     .means = QLL_TEXT_LOGIN_PASSWORD},
};

static const qll_field_group login_group = {
    .name = QLL_TEXT_LOGIN_A, .path = "", .fields = login_fields, .count = QLL_COUNT(login_fields)};

static login *login_of(void *errand)
{
    return errand;
}

static void work(qll_task *task)
{
    login *one = login_of(task);
    const qll_text password = {one->password, one->password_size};
    qll_server *server = one->errand.server;
    const char *keyed = NULL;
    qll_said why;
    const qll_status status =
        qll_store_person(server->at_door, one->name, one->arena, &keyed, &why);
    keyed = status == QLL_OK ? keyed : NULL;
    /* Nobody takes as long to refuse as somebody, so that names cannot be tried out. */
    one->is_right =
        qll_password_is(keyed == NULL ? server->nobody : keyed, password) && keyed != NULL;
    qll_secret_wipe(one->password, one->password_size);
    qll_errand_done(&one->errand);
}

static void drop(qll_errand *errand)
{
    (void)errand; /* it lies in the exchange's arena */
}

static const char *cookie(const qll_exchange *exchange, const char *token, const char *age)
{
    qll_writer writer = qll_writer_new(exchange->arena);
    qll_write_format(&writer, "%s=%s; Path=/; HttpOnly; SameSite=Strict; Max-Age=%s%s",
                     qll_guard_cookie(exchange->server), token, age,
                     exchange->server->plan.names.is_secure ? "; Secure" : "");
    return qll_writer_text(&writer).bytes;
}

static void reply_login(qll_errand *errand, qll_exchange *exchange)
{
    const login *one = login_of(errand);
    qll_server *server = exchange->server;
    if (!one->is_right) {
        if (server->plan.tells) {
            qll_journal_write(
                &(qll_journal_entry){.event = "login-refused", .peer = exchange->request.peer});
        }
        (void)qll_exchange_refuse(exchange, QLL_REFUSAL_WRONG_PASSWORD);
        return;
    }
    char token[QLL_TOKEN_SIZE];
    (void)pthread_mutex_lock(&server->lock);
    qll_sessions_begin(&server->sessions, one->name, qll_host_now_s(), token);
    qll_tries_forgive(&server->tries, exchange->request.peer, qll_text_of(one->name));
    (void)pthread_mutex_unlock(&server->lock);
    exchange->reply.status = 204;
    qll_http_reply_field(&exchange->reply, "Set-Cookie", cookie(exchange, token, "604800"));
    qll_secret_wipe(token, sizeof token);
}

/* The login in the body; NULL after a reply that says why not. */
static login *read_login(qll_exchange *exchange)
{
    qll_arena *arena = exchange->arena;
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    login *one = qll_arena_take(arena, 1, sizeof *one);
    if (one == NULL) {
        (void)qll_exchange_refuse(exchange, QLL_REFUSAL_NO_MEMORY);
        return NULL;
    }
    qll_status status =
        qll_document_read(exchange->request.body, "login", arena, &document, &problems);
    if (status == QLL_OK) {
        qll_assumed assumed = qll_assumed_none(arena);
        qll_reader reader = qll_reader_new(&document, arena, &assumed);
        const qll_object object = qll_object_open(&reader, document.root, &login_group);
        const char *name = qll_object_text(&object, "name");
        const qll_node *password =
            object.node == NULL ? NULL : qll_node_find(object.node, "password");
        if (password != NULL && password->kind != QLL_NODE_TEXT) {
            (void)qll_reader_wrong_kind(&reader, password, QLL_SAYS(EXPECT_TEXT));
        }
        status = qll_reader_end(&reader, &problems);
        if (status == QLL_OK && password != NULL) {
            one->name = name;
            one->arena = arena;
            one->password = qll_arena_copy(arena, password->text.bytes, password->text.size);
            one->password_size = password->text.size;
        }
    }
    if (status != QLL_OK || one->password == NULL) {
        qll_reply_refuse_found(&exchange->reply, QLL_REFUSAL_QUESTION, &problems,
                               exchange->language, arena);
        return NULL;
    }
    return one;
}

/* Counts this try; false after a reply that there were too many. */
static bool may_try(qll_exchange *exchange, const login *one)
{
    qll_server *server = exchange->server;
    const double now_s = qll_host_now_s();
    const char *peer = exchange->request.peer;
    (void)pthread_mutex_lock(&server->lock);
    const unsigned wait_s = qll_tries_wait_s(&server->tries, peer, qll_text_of(one->name), now_s);
    if (wait_s == 0) {
        qll_tries_count(&server->tries, peer, qll_text_of(one->name), now_s);
    }
    (void)pthread_mutex_unlock(&server->lock);
    if (wait_s > 0) {
        const qll_refusing refusing = {.refusal = QLL_REFUSAL_TRIES,
                                       .arguments = {qll_as_whole(wait_s)}};
        qll_writer after = qll_writer_new(exchange->arena);
        qll_write_format(&after, "%zu", (size_t)wait_s);
        (void)qll_exchange_refuse_with(exchange, &refusing);
        qll_http_reply_field(&exchange->reply, "Retry-After", qll_writer_text(&after).bytes);
    }
    return wait_s == 0;
}

bool qll_handle_login(qll_exchange *exchange)
{
    qll_server *server = exchange->server;
    if (!server->needs_login) {
        return qll_exchange_refuse(exchange, QLL_REFUSAL_NO_PEOPLE);
    }
    login *one = read_login(exchange);
    qll_secret_wipe(exchange->body_room, exchange->body_size);
    if (one == NULL || !may_try(exchange, one)) {
        return true;
    }
    one->errand = (qll_errand){.task = {.work = work},
                               .server = server,
                               .waiter = exchange,
                               .reply = reply_login,
                               .drop = drop};
    qll_exchange_await(exchange, &one->errand, INFINITY);
    if (!qll_crew_take(server->doorkeeper, &one->errand.task)) {
        exchange->errand = NULL;
        return qll_exchange_refuse(exchange, QLL_REFUSAL_BUSY);
    }
    return false;
}

bool qll_handle_logout(qll_exchange *exchange)
{
    qll_server *server = exchange->server;
    (void)pthread_mutex_lock(&server->lock);
    qll_sessions_end(&server->sessions, qll_guard_token(exchange));
    (void)pthread_mutex_unlock(&server->lock);
    exchange->reply.status = 204;
    qll_http_reply_field(&exchange->reply, "Set-Cookie", cookie(exchange, "", "0"));
    return true;
}

bool qll_handle_session(qll_exchange *exchange)
{
    qll_writer writer = qll_writer_new(exchange->arena);
    qll_json json = qll_json_new(&writer);
    qll_json_open_object(&json);
    qll_json_put_text(&json, "quell", "session/1");
    qll_json_put_text_or_null(&json, "who", exchange->who);
    qll_json_put_bool(&json, "needs_login", exchange->server->needs_login);
    qll_json_close_object(&json);
    return qll_exchange_reply_json(exchange, 200, &writer);
}
