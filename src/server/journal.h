/* What the server tells whoever runs it: one JSON object a line on standard error, never what a request or an answer holds. */
#ifndef QUELL_SERVER_JOURNAL_H
#define QUELL_SERVER_JOURNAL_H

#include "server/http.h"

typedef struct qll_journal_entry {
    const char *event;  /* "request", "login-refused" */
    const char *method; /* NULL = none of those below */
    const char *route;  /* the pattern, "/api/runs/{id}": an address may hold what is private */
    int status;
    size_t taken_size, given_size; /* of the bodies, bytes */
    double took_s;
    const char *peer; /* NULL = it does not matter */
} qll_journal_entry;

/** Writes the line at once. */
void qll_journal_write(const qll_journal_entry *entry);

#endif
