/* By which names a server may be asked: whoever asks by another one was led here by somebody else's page. */
#ifndef QUELL_SERVER_SERVER_NAMES_H
#define QUELL_SERVER_SERVER_NAMES_H

#include "base/text.h"

typedef struct qll_server_names {
    const char *const *names; /* "localhost", "192.168.1.20", "[::1]" */
    size_t count;
    unsigned port;
    bool is_secure; /* https */
} qll_server_names;

/** Whether @p host, as a Host header has it ("localhost:8080"), is one of them. The port may be left out where it is the usual
 * one of the scheme. */
bool qll_names_have(const qll_server_names *names, qll_text host);

/** Whether @p origin, as an Origin header has it ("http://localhost:8080"), is the server's own page. */
bool qll_names_are_origin(const qll_server_names *names, qll_text origin);

#endif
