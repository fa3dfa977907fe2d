#include "server/exchange.h"

#include "host/host.h"
#include "server/guard.h"
#include "server/limits.h"
#include "server/reply.h"
#include "server/routes.h"
#include "server/server.h"

#include <math.h>
#include <string.h>

/* The first language that the header names, by its first two letters; English where we do not speak it. */
static qll_language language_of(const qll_http_request *request)
{
    const char *asked = qll_http_field_of(request, "accept-language");
    for (int i = 0; asked != NULL && i < QLL_LANGUAGE_COUNT; i++) {
        if (qll_http_same((qll_text){asked, strnlen(asked, 2)}, qll_language_words[i])) {
            return (qll_language)i;
        }
    }
    return QLL_LANGUAGE_EN;
}

/* Room for the body, of all that there is for bodies; false where there is none. */
static bool reserve(qll_exchange *exchange)
{
    qll_server *server = exchange->server;
    (void)pthread_mutex_lock(&server->lock);
    const bool has_room = exchange->body_size <= QLL_BODIES_SIZE - server->bodies_size;
    if (has_room) {
        server->bodies_size += exchange->body_size;
        exchange->reserved_size = exchange->body_size;
    }
    (void)pthread_mutex_unlock(&server->lock);
    return has_room;
}

static bool take_room(qll_exchange *exchange)
{
    if (exchange->route->body_most == 0) {
        return true;
    }
    if (!reserve(exchange)) {
        return false;
    }
    exchange->body_arena = qll_arena_open(QLL_RUN_SIZE);
    exchange->body_room = exchange->body_arena == NULL
                              ? NULL
                              : qll_arena_take(exchange->body_arena, exchange->body_size + 1, 1);
    return exchange->body_room != NULL;
}

bool qll_exchange_begin(qll_exchange *exchange)
{
    exchange->began_s = qll_host_now_s();
    exchange->language = language_of(&exchange->request);
    if (!qll_guard_admits(exchange)) {
        exchange->reply.closes = true;
        return true;
    }
    if (!take_room(exchange)) {
        exchange->reply.closes = true;
        return qll_exchange_refuse(exchange, QLL_REFUSAL_BUSY);
    }
    return false;
}

char *qll_exchange_body(qll_exchange *exchange)
{
    return exchange->body_room;
}

bool qll_exchange_answer(qll_exchange *exchange)
{
    if (exchange->body_room != NULL) {
        exchange->request.body = (qll_text){exchange->body_room, exchange->body_size};
    }
    return exchange->route->answer(exchange);
}

/* ---- waiting; the list and all in it under the server's lock ---- */

static void link_in(qll_exchange *exchange)
{
    qll_server *server = exchange->server;
    exchange->next = server->parked;
    exchange->before = NULL;
    if (server->parked != NULL) {
        server->parked->before = exchange;
    }
    server->parked = exchange;
    exchange->is_linked = true;
}

static void link_out(qll_exchange *exchange)
{
    if (!exchange->is_linked) {
        return;
    }
    exchange->is_linked = false;
    if (exchange->before != NULL) {
        exchange->before->next = exchange->next;
    } else {
        exchange->server->parked = exchange->next;
    }
    if (exchange->next != NULL) {
        exchange->next->before = exchange->before;
    }
}

void qll_exchange_await(qll_exchange *exchange, qll_errand *errand, double deadline_s)
{
    exchange->errand = errand;
    exchange->deadline_s = deadline_s;
}

void qll_exchange_park(qll_exchange *exchange, void (*wake)(void *waker), void *waker)
{
    qll_server *server = exchange->server;
    (void)pthread_mutex_lock(&server->lock);
    exchange->waker = waker;
    exchange->wake = wake;
    link_in(exchange);
    if (exchange->is_due) {
        wake(waker);
    }
    (void)pthread_cond_signal(&server->change);
    (void)pthread_mutex_unlock(&server->lock);
}

void qll_errand_done(qll_errand *errand)
{
    qll_server *server = errand->server;
    (void)pthread_mutex_lock(&server->lock);
    qll_exchange *waiter = errand->waiter;
    const bool is_free = waiter == NULL && errand->is_dropped;
    errand->is_done = true;
    if (waiter != NULL) {
        waiter->is_due = true;
        if (waiter->wake != NULL) {
            waiter->wake(waiter->waker);
        }
    }
    (void)pthread_mutex_unlock(&server->lock);
    if (is_free) {
        errand->drop(errand);
    }
}

double qll_exchange_wake_late(qll_server *server, double now_s)
{
    double next_s = INFINITY;
    for (qll_exchange *one = server->parked; one != NULL; one = one->next) {
        if (one->is_due) {
            continue;
        }
        if (one->deadline_s <= now_s) {
            one->errand->waiter = NULL;
            one->is_due = true;
            one->is_late = true;
            one->wake(one->waker);
        } else if (one->deadline_s < next_s) {
            next_s = one->deadline_s;
        }
    }
    return next_s;
}

void qll_exchange_resume(qll_exchange *exchange)
{
    (void)pthread_mutex_lock(&exchange->server->lock);
    link_out(exchange);
    const bool is_late = exchange->is_late;
    (void)pthread_mutex_unlock(&exchange->server->lock);
    if (is_late) {
        exchange->errand = NULL;
        qll_run_reply_later(exchange);
    } else {
        exchange->errand->reply(exchange->errand, exchange);
    }
}

void qll_exchange_end(qll_exchange *exchange)
{
    (void)pthread_mutex_lock(&exchange->server->lock);
    link_out(exchange);
    exchange->server->bodies_size -= exchange->reserved_size;
    /* What comes late is the server's to keep. */
    qll_errand *errand = exchange->is_late ? NULL : exchange->errand;
    (void)pthread_mutex_unlock(&exchange->server->lock);
    if (errand != NULL) {
        errand->drop(errand);
    }
    exchange->errand = NULL;
    exchange->reserved_size = 0;
    qll_arena_close(exchange->body_arena);
    exchange->body_arena = NULL;
}
