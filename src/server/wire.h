/* Connections, and how long each has been at what it does. The HTTP library closes those that say nothing; these close those
 * that say it too slowly. */
#ifndef QUELL_SERVER_WIRE_H
#define QUELL_SERVER_WIRE_H

#include "quell/arena.h"

#include <pthread.h>

typedef enum qll_wire_state {
    QLL_WIRE_FREE,
    QLL_WIRE_TAKES, /* a request comes, or none yet */
    QLL_WIRE_WORKS, /* it is here and worked on */
    QLL_WIRE_SENDS, /* its reply goes out */
} qll_wire_state;

typedef struct qll_wire {
    int descriptor;
    qll_wire_state state;
    double since_s;
    struct qll_wire *next; /* free */
} qll_wire;

typedef struct qll_wires {
    pthread_mutex_t lock; /* of all below */
    pthread_cond_t change;
    pthread_t warden;
    qll_wire *all; /* [QLL_CONNECTIONS_MOST] */
    qll_wire *free;
    size_t count; /* that are not */
    bool has_warden, is_closing;
} qll_wires;

/** False without memory. */
bool qll_wires_open(qll_wires *wires, qll_arena *arena);

/** Starts the thread that watches them; false where the system gives none. */
bool qll_wires_begin(qll_wires *wires);

/** A connection was made; NULL where there is no room to watch it. */
qll_wire *qll_wire_opened(qll_wires *wires, int descriptor);

/** What it does from now on; @p wire NULL is harmless, as below. */
void qll_wire_now(qll_wires *wires, qll_wire *wire, qll_wire_state state);

/** To be called before its descriptor is closed. */
void qll_wire_closed(qll_wires *wires, qll_wire *wire);

/** Waits until no connection works or sends, but no longer than @p most_s. */
void qll_wires_settle(qll_wires *wires, double most_s);

/** Ends the thread. */
void qll_wires_close(qll_wires *wires);

#endif
