/* The network: the one room of the HTTP library. */
#ifndef QUELL_SERVER_LISTEN_H
#define QUELL_SERVER_LISTEN_H

#include "server/server.h"

typedef struct qll_listener qll_listener;

typedef struct qll_listen_plan {
    const char *address;           /* "127.0.0.1", "0.0.0.0", "::1" */
    unsigned port;                 /* 0 = a free one */
    const char *certificate, *key; /* PEM; NULL = no TLS */
} qll_listen_plan;

/** Whether @p address is one that only this machine can reach. */
bool qll_address_is_loopback(const char *address);

/** Whether @p address stands for all addresses of this machine. */
bool qll_address_is_any(const char *address);

/**
 * Takes hold of the address, without taking anything from it yet.
 *
 * @param listener to be closed by qll_listen_close(); NULL unless QLL_OK
 * @param port     the one that was taken
 * @param why      on QLL_IO what the system says of it, in @p arena
 * @return QLL_OK, QLL_IO, QLL_WRONG_USE (this is no address) or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_listen_open(const qll_listen_plan *plan, qll_arena *arena,
                                        qll_listener **listener, unsigned *port, const char **why);

/** Serves @p server on it from now on, on a thread of its own. QLL_OK, or QLL_IO: certificate and key are none. */
QLL_MUST_USE qll_status qll_listen_begin(qll_listener *listener, qll_server *server);

/** Stops the server, lets replies that are under way go out, and gives the address back. NULL is harmless. */
void qll_listen_close(qll_listener *listener);

#endif
