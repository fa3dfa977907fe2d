/* A request on its way to a reply.
 *
 * Whoever carries it (the HTTP library, a test) fills in the request without its body and calls, in this order:
 * qll_exchange_begin(); where there is a reply then, nothing more; else the body, and qll_exchange_answer(). Where that
 * returns false the reply takes time: qll_exchange_park() says by whom it is to be woken, and after that has happened
 * qll_exchange_resume() has the reply. qll_exchange_end() in any case.
 *
 * All but what is done in a crew runs on one thread. */
#ifndef QUELL_SERVER_EXCHANGE_H
#define QUELL_SERVER_EXCHANGE_H

#include "server/crew.h"
#include "server/http.h"
#include "wording/messages.h"

typedef struct qll_server qll_server;
typedef struct qll_exchange qll_exchange;
struct qll_route;

/** What an exchange waits for, at the front of whatever a crew works on for it. */
typedef struct qll_errand {
    qll_task task;
    qll_server *server;
    qll_exchange *waiter; /* NULL = nobody, or no longer; under the server's lock, as is the next */
    bool is_done;
    bool is_dropped; /* nobody will ask for it any more */
    void (*reply)(struct qll_errand *errand, qll_exchange *exchange); /* when it is done */
    void (*drop)(
        struct qll_errand *errand); /* gives it back; called once it is done and nobody waits */
} qll_errand;

struct qll_exchange {
    qll_server *server;
    qll_arena *arena; /* of all but the body */
    qll_http_request request;
    qll_http_reply reply;
    const struct qll_route *route; /* NULL = none that is known */
    const char *rest;              /* what stands for the last part of the route's path */
    qll_language language;
    const char *who; /* is logged in; NULL */
    size_t body_size;
    qll_arena *body_arena; /* of the body; NULL once somebody else has it */
    char *body_room;       /* [body_size + 1] */
    size_t reserved_size;  /* of QLL_BODIES_SIZE, while the body is here */
    double began_s;
    qll_errand *errand; /* that it waits for */
    const char *later;  /* where the reply will be, if it is late */
    /* Under the server's lock: */
    void (*wake)(void *waker); /* NULL = not parked yet */
    void *waker;
    bool is_linked;    /* in the list of those that are parked */
    bool is_due;       /* there is something to resume for */
    bool is_late;      /* but not what it waited for */
    double deadline_s; /* INFINITY = it waits for as long as it takes */
    qll_exchange *next, *before;
};

/**
 * Begins with a request whose body has not come: looks at its headers, at who asks and what for.
 *
 * @return true where there is a reply already, which is then the last of its connection if a body was to come
 */
bool qll_exchange_begin(qll_exchange *exchange);

/** Room for the body that it announced; NULL where none is to come. */
char *qll_exchange_body(qll_exchange *exchange);

/** Answers; false where the reply takes time. */
bool qll_exchange_answer(qll_exchange *exchange);

/** From now on @p wake is called once, on any thread, as soon as there is something to resume for; maybe at once. */
void qll_exchange_park(qll_exchange *exchange, void (*wake)(void *waker), void *waker);

/** The reply that it was woken for. */
void qll_exchange_resume(qll_exchange *exchange);

/** Gives back what it holds, but for its arena; also where it was woken and nobody resumes it, as the client has gone. */
void qll_exchange_end(qll_exchange *exchange);

/** Waits for @p errand, which a crew has taken: its `waiter` was set before; until @p deadline_s. */
void qll_exchange_await(qll_exchange *exchange, qll_errand *errand, double deadline_s);

/** Wakes those whose deadline is over; when the next one is, INFINITY for none. Under the server's lock. */
double qll_exchange_wake_late(qll_server *server, double now_s);

/** To be called at the end of the errand's work, on the crew's thread. */
void qll_errand_done(qll_errand *errand);

#endif
