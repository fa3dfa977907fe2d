#include "server/guard.h"

#include "host/host.h"
#include "server/reply.h"
#include "server/routes.h"
#include "server/server.h"

#include <string.h>

/* Whoever reads lengths in another way than we do (a proxy between) would see another request than we do: more than one
 * length, or one in pieces, is refused (RFC 9112, 6.3). The library lets them pass. */
static bool check_lengths(qll_exchange *exchange)
{
    const qll_http_request *request = &exchange->request;
    if (qll_http_field_count(request, "content-length") > 1
        || qll_http_field_count(request, "transfer-encoding") > 0
        || qll_http_field_count(request, "host") > 1 || qll_http_field_count(request, "origin") > 1
        || qll_http_field_count(request, "cookie") > 1
        || qll_http_field_count(request, "content-type") > 1) {
        return !qll_exchange_refuse(exchange, QLL_REFUSAL_HEADER);
    }
    return true;
}

static bool check_host(qll_exchange *exchange)
{
    const char *host = qll_http_field_of(&exchange->request, "host");
    if (host == NULL) {
        return !qll_exchange_refuse(exchange, QLL_REFUSAL_HOST_MISSING);
    }
    if (!qll_names_have(&exchange->server->plan.names, qll_text_of(host))) {
        const qll_refusing refusing = {.refusal = QLL_REFUSAL_HOST,
                                       .arguments = {qll_as_quoted(qll_text_of(host))}};
        return !qll_exchange_refuse_with(exchange, &refusing);
    }
    return true;
}

/* Of what changes something or takes work, and of everything that a browser says comes from elsewhere. Links to the page
 * itself may stand anywhere. */
static bool check_origin(qll_exchange *exchange)
{
    const qll_http_request *request = &exchange->request;
    const bool is_api = strncmp(request->path, "/api/", 5) == 0;
    const bool only_reads = request->method == QLL_METHOD_GET || request->method == QLL_METHOD_HEAD;
    const char *origin = qll_http_field_of(request, "origin");
    const char *site = qll_http_field_of(request, "sec-fetch-site");
    const bool is_foreign =
        (!only_reads && origin != NULL
         && !qll_names_are_origin(&exchange->server->plan.names, qll_text_of(origin)))
        || (is_api && site != NULL && strcmp(site, "same-origin") != 0
            && strcmp(site, "none") != 0);
    return !is_foreign || !qll_exchange_refuse(exchange, QLL_REFUSAL_ORIGIN);
}

static bool check_route(qll_exchange *exchange)
{
    const qll_http_request *request = &exchange->request;
    const char *allowed = "";
    exchange->route =
        qll_route_find(request->method, request->path, exchange->arena, &exchange->rest, &allowed);
    if (exchange->route != NULL) {
        return true;
    }
    if (allowed[0] == '\0') {
        return !qll_exchange_refuse(exchange, QLL_REFUSAL_NOT_FOUND);
    }
    const qll_refusing refusing = {.refusal = QLL_REFUSAL_METHOD,
                                   .arguments = {qll_as_is(allowed)}};
    (void)qll_exchange_refuse_with(exchange, &refusing);
    qll_http_reply_field(&exchange->reply, "Allow", allowed);
    return false;
}

/* With TLS the prefix holds a browser to it that no other site and no plain request sets it (RFC 6265bis). */
const char *qll_guard_cookie(const qll_server *server)
{
    return server->plan.names.is_secure ? "__Host-quell" : "quell";
}

qll_text qll_guard_token(const qll_exchange *exchange)
{
    const char *at = qll_http_field_of(&exchange->request, "cookie");
    const char *name = qll_guard_cookie(exchange->server);
    const size_t size = strlen(name);
    while (at != NULL && at[0] != '\0') {
        at += strspn(at, " ;");
        const size_t whole = strcspn(at, ";");
        if (whole > size && strncmp(at, name, size) == 0 && at[size] == '=') {
            return (qll_text){at + size + 1, whole - size - 1};
        }
        at += whole;
    }
    return (qll_text){"", 0};
}

static bool check_person(qll_exchange *exchange)
{
    qll_server *server = exchange->server;
    if (!server->needs_login) {
        return true;
    }
    (void)pthread_mutex_lock(&server->lock);
    const char *who =
        qll_sessions_who(&server->sessions, qll_guard_token(exchange), qll_host_now_s());
    exchange->who = who == NULL ? NULL : qll_arena_copy(exchange->arena, who, strlen(who));
    (void)pthread_mutex_unlock(&server->lock);
    return exchange->who != NULL || exchange->route->is_open
           || !qll_exchange_refuse(exchange, QLL_REFUSAL_LOGIN);
}

/* The length of the body; SIZE_MAX where it is none that we would take. */
static size_t length_of(const char *value)
{
    size_t length = 0;
    const size_t digits = strlen(value);
    for (size_t i = 0; i < digits; i++) {
        if (!qll_is_digit(value[i]) || digits > 15) {
            return SIZE_MAX;
        }
        length = 10 * length + (size_t)(value[i] - '0');
    }
    return digits == 0 ? SIZE_MAX : length;
}

/* A form of a browser cannot send JSON, so that no page of elsewhere gets this far unseen. */
static bool is_type(const char *sent, const char *wanted)
{
    if (sent == NULL) {
        return false;
    }
    const size_t size = strcspn(sent, "; \t");
    return qll_http_same((qll_text){sent, size}, wanted);
}

static bool check_body(qll_exchange *exchange)
{
    const qll_http_request *request = &exchange->request;
    const qll_route *route = exchange->route;
    const char *length = qll_http_field_of(request, "content-length");
    if (route->body_most == 0) {
        return length == NULL || length_of(length) == 0
               || !qll_exchange_refuse(exchange, QLL_REFUSAL_BODY_NONE);
    }
    if (length == NULL) {
        return !qll_exchange_refuse(exchange, QLL_REFUSAL_LENGTH);
    }
    exchange->body_size = length_of(length);
    if (exchange->body_size > route->body_most) {
        const qll_refusing refusing = {
            .refusal = QLL_REFUSAL_BODY_LARGE,
            .arguments = {qll_as_is(length), qll_as_whole(route->body_most)}};
        return !qll_exchange_refuse_with(exchange, &refusing);
    }
    if (!is_type(qll_http_field_of(request, "content-type"), route->body_type)) {
        const qll_refusing refusing = {.refusal = QLL_REFUSAL_TYPE,
                                       .arguments = {qll_as_is(route->body_type)}};
        return !qll_exchange_refuse_with(exchange, &refusing);
    }
    return true;
}

bool qll_guard_admits(qll_exchange *exchange)
{
    return check_lengths(exchange) && check_host(exchange) && check_origin(exchange)
           && check_route(exchange) && check_person(exchange) && check_body(exchange);
}
