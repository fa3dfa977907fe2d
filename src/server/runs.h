/* Questions that are worked on, and answers that wait to be fetched. */
#ifndef QUELL_SERVER_RUNS_H
#define QUELL_SERVER_RUNS_H

#include "quell/quell.h"

#include "server/exchange.h"
#include "server/secret.h"

typedef struct qll_engine_run {
    qll_errand errand;
    qll_arena *home; /* of the run itself and of its reply */
    qll_arena *work; /* of the body and the answer; given back when it is done */
    size_t reserved_size;
    char id[QLL_SHORT_TOKEN_SIZE];
    const char *who; /* asked; NULL */
    unsigned asked;  /* as in its route */
    qll_text body;
    qll_language language; /* of what is said where there is no answer */
    qll_http_reply reply;
    /* Under the server's lock: */
    double share; /* that is done */
    bool is_stopped;
    double done_s;
    struct qll_engine_run *next;
} qll_engine_run;

typedef struct qll_runs {
    qll_engine_run *first;
} qll_runs;

/**
 * Lets the engine's crew answer the exchange's body as the question @p asked; the exchange waits for it, or has a reply that
 * says why not.
 *
 * @return false where it waits
 */
bool qll_run_begin(qll_exchange *exchange, unsigned asked);

/** The reply to who asked when it takes longer than he is to wait: where it will be. */
void qll_run_reply_later(qll_exchange *exchange);

/** The reply to who asks for the run called @p id: how far it is, or its answer. */
void qll_run_show(qll_exchange *exchange, const char *id);

/** Stops the run called @p id, or throws its answer away. */
void qll_run_stop(qll_exchange *exchange, const char *id);

/** Throws away what was kept long enough; when there is next something to throw away, INFINITY for never. Under the server's
 * lock; @p dropped gets the runs to be given back without it. */
double qll_runs_sweep(qll_runs *runs, double now_s, qll_engine_run **dropped);

/** Gives back @p run and those behind it, all of them done. */
void qll_runs_free(qll_engine_run *run);

#endif
