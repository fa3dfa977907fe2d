/* The table of what can be asked of the server: what a request may do, and the description of it, come from here. */
#ifndef QUELL_SERVER_ROUTES_H
#define QUELL_SERVER_ROUTES_H

#include "quell/quell.h"

#include "base/said.h"
#include "server/exchange.h"

typedef struct qll_route qll_route;

struct qll_route {
    const char *path;      /* a last part "{id}" stands for any one part */
    const char *body_type; /* that a body has to have */
    size_t body_most;      /* bytes; 0 = it takes no body */
    const char *arguments; /* behind the question mark: "since,most"; NULL = none */
    bool (*answer)(qll_exchange *exchange);  /* false where the reply takes time */
    void (*at_desk)(qll_exchange *exchange); /* of qll_handle_records(): what its thread does */
    qll_method method;
    unsigned asked;   /* by its body; QLL_ASKED_NOTHING */
    qll_text_id says; /* what it is for, in the description */
    bool is_open;     /* to those who are not logged in */
};

const qll_route *qll_routes(size_t *count);

/**
 * The route of a request; the page's own files, which are none of the table, have one of theirs.
 *
 * @param rest    what stands at "{id}"; NULL
 * @param allowed where there is none for this method, those that the path takes: "GET, DELETE"; "" for a path that leads
 *                nowhere; in @p arena
 * @return NULL where there is none
 */
const qll_route *qll_route_find(qll_method method, const char *path, qll_arena *arena,
                                const char **rest, const char **allowed);

#endif
