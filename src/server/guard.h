/* What a request must be like before anything of it is believed. */
#ifndef QUELL_SERVER_GUARD_H
#define QUELL_SERVER_GUARD_H

#include "server/exchange.h"

/**
 * Looks at the headers of a request: one Host, a name of this server; lengths that do not contradict each other; no page of
 * elsewhere behind it; a route, and somebody logged in where it needs one; a body of the kind and size that the route takes.
 *
 * @return false where it is refused: then it has its reply. Else its route, rest, who and body size are filled in
 */
bool qll_guard_admits(qll_exchange *exchange);

/** The token in the request's cookie; no bytes where there is none. */
qll_text qll_guard_token(const qll_exchange *exchange);

/** What the cookie of a session is called. */
const char *qll_guard_cookie(const qll_server *server);

#endif
