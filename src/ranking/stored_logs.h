/* The files that a survey names, out of the store. */
#ifndef QUELL_RANKING_STORED_LOGS_H
#define QUELL_RANKING_STORED_LOGS_H

#include "store/store.h"

#include <pthread.h>

typedef struct qll_stored_log {
    qll_store *store;
    pthread_mutex_t *lock; /* held while the store is asked: it serves one thread at a time */
    const char *name, *sha256;
} qll_stored_log;

typedef struct qll_stored_logs {
    qll_stored_log *list;
    size_t count;
} qll_stored_logs;

/** Those of @p survey that are whole in @p store; all in @p arena. */
QLL_MUST_USE qll_status qll_stored_logs_find(qll_store *store, pthread_mutex_t *lock,
                                             const qll_record *survey, qll_arena *arena,
                                             qll_stored_logs *logs, qll_said *why);

/** For a question; the logs have to outlive it. NULL without memory. */
qll_attachment *qll_stored_logs_attach(const qll_stored_logs *logs, qll_arena *arena);

#endif
