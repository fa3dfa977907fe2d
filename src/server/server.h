/* The server without the network: pages, questions, runs and logins. */
#ifndef QUELL_SERVER_SERVER_H
#define QUELL_SERVER_SERVER_H

#include "quell/report.h"

#include "server/exchange.h"
#include "server/page_files.h"
#include "server/runs.h"
#include "server/server_names.h"
#include "server/sessions.h"
#include "server/tries.h"
#include "store/store.h"

#include <pthread.h>

/**
 * Puts the pages of @p made on paper: the bytes of a PDF, in @p arena, with which the command line has to agree. What it leans on is
 * asked by one thread at a time.
 *
 * @param why of QLL_IO, in English; as long as @p arena
 * @return QLL_OK, QLL_IO or QLL_NO_MEMORY
 */
typedef qll_status qll_printer(const qll_made_report *made, qll_arena *arena, qll_text *bytes,
                               const char **why);

typedef struct qll_server_plan {
    qll_server_names names;
    qll_page_files page;
    const char *store; /* the place of the records and of the people; NULL = there are none */
    bool must_login;   /* others can reach it: it does not open where nobody can log in */
    size_t runs_at_once;
    double patience_s; /* QLL_PATIENCE_S */
    bool tells;        /* of every exchange, on standard error */
    qll_printer *print;
} qll_server_plan;

struct qll_server {
    qll_arena *arena;
    qll_server_plan plan;
    qll_text description;           /* of the API */
    char nobody[QLL_PASSWORD_SIZE]; /* a keyed password that nobody has */
    qll_crew *engine;               /* what is asked of the engine */
    qll_crew *doorkeeper;           /* one thread: passwords are checked one at a time */
    qll_crew *clerk; /* one thread: what is asked of the records, and the one that writes */
    qll_store *at_door, *at_desk; /* the store as each of these two sees it; NULL = there is none */
    const qll_record_tables *tables; /* that records are checked by */
    bool needs_login;
    pthread_t clock;
    bool has_clock;
    pthread_mutex_t paper; /* one thread prints: see qll_printer */
    pthread_mutex_t lock;  /* of all below */
    pthread_cond_t change;
    bool is_stopping;
    size_t bodies_size;
    qll_exchange *parked;
    qll_runs runs;
    qll_sessions sessions;
    qll_tries tries;
};

/**
 * Opens the server; everything in @p plan lives as long as it.
 *
 * @param server to be closed by qll_server_close(); NULL unless QLL_OK
 * @param why    of QLL_REFUSED, QLL_IO and QLL_BUSY; in @p arena
 * @return QLL_OK; QLL_WRONG_USE: nobody could log in, who has to; what qll_store_open() says of the store; QLL_NO_MEMORY: the
 *         system gives no memory, no thread or no random numbers
 */
QLL_MUST_USE qll_status qll_server_open(const qll_server_plan *plan, qll_arena *arena,
                                        qll_server **server, qll_said *why);

/** Ends all runs and wakes all who wait, with a reply that says so; from now on every exchange gets that one. */
void qll_server_stop(qll_server *server);

/** Stops it if need be and gives it back; no exchange may be under way. NULL is harmless. */
void qll_server_close(qll_server *server);

#endif
