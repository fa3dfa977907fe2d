/* Requests to a server in the same program, without a network. */
#ifndef QUELL_TESTS_EXCHANGING_H
#define QUELL_TESTS_EXCHANGING_H

#include "server/limits.h"
#include "server/server.h"

#include <stdio.h>
#include <string.h>

/* The headers of a request that is sent. */
#define TEST_HEADERS(...) \
    (const char *const[]) \
    {                     \
        __VA_ARGS__, NULL \
    }

/* What a request is made of; headers by name and value, one after the other, closed by NULL. */
typedef struct sent {
    qll_method method;
    const char *path;
    const char *const *headers; /* NULL = those of home_headers */
    const qll_http_field *arguments;
    size_t argument_count;
    qll_text body;
    bool has_body; /* else none is announced */
} sent;

typedef struct exchanging {
    qll_exchange exchange;
    pthread_mutex_t lock;
    pthread_cond_t woken;
    bool is_woken;
    bool began; /* it was let in, and its body taken */
    bool goes;  /* the client goes while it waits: nobody resumes it */
} exchanging;

#define TEST_FIELDS 32

static const char *const home_headers[] = {"Host", "localhost:8080", "Content-Type",
                                           "application/json", NULL};

static inline void exchanging_wake(void *waker)
{
    exchanging *of = waker;
    (void)pthread_mutex_lock(&of->lock);
    of->is_woken = true;
    (void)pthread_cond_signal(&of->woken);
    (void)pthread_mutex_unlock(&of->lock);
}

static inline void exchanging_wait(exchanging *of)
{
    qll_exchange_park(&of->exchange, exchanging_wake, of);
    (void)pthread_mutex_lock(&of->lock);
    while (!of->is_woken) {
        (void)pthread_cond_wait(&of->woken, &of->lock);
    }
    (void)pthread_mutex_unlock(&of->lock);
    if (!of->goes) {
        qll_exchange_resume(&of->exchange);
    }
}

/* The exchange's reply stands until exchanging_end(). */
static inline void exchanging_begin(exchanging *of, qll_server *server, const sent *request)
{
    static _Thread_local qll_http_field fields[TEST_FIELDS];
    static _Thread_local char length[24];
    size_t count = 0;
    const bool goes = of->goes;
    const char *const *headers = request->headers == NULL ? home_headers : request->headers;
    for (; headers[2 * count] != NULL && count + 1 < TEST_FIELDS; count++) {
        fields[count] = (qll_http_field){headers[2 * count], headers[2 * count + 1]};
    }
    if (request->has_body) {
        (void)snprintf(length, sizeof length, "%zu", request->body.size);
        fields[count] = (qll_http_field){"Content-Length", length};
        count += 1;
    }
    *of = (exchanging){.goes = goes,
                       .exchange = {.server = server,
                                    .arena = qll_arena_open(QLL_EXCHANGE_SIZE),
                                    .request = {.method = request->method,
                                                .path = request->path,
                                                .fields = fields,
                                                .field_count = count,
                                                .arguments = request->arguments,
                                                .argument_count = request->argument_count,
                                                .peer = "127.0.0.1"}}};
    (void)pthread_mutex_init(&of->lock, NULL);
    (void)pthread_cond_init(&of->woken, NULL);
    if (qll_exchange_begin(&of->exchange)) {
        return;
    }
    of->began = true;
    char *room = qll_exchange_body(&of->exchange);
    if (room != NULL && request->body.size > 0) {
        memcpy(room, request->body.bytes, request->body.size);
    }
    if (!qll_exchange_answer(&of->exchange)) {
        exchanging_wait(of);
    }
}

static inline void exchanging_end(exchanging *of)
{
    qll_exchange_end(&of->exchange);
    qll_arena_close(of->exchange.arena);
    (void)pthread_cond_destroy(&of->woken);
    (void)pthread_mutex_destroy(&of->lock);
}

#endif
