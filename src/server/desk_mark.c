/* Which store it is: what is acknowledged goes out with a mark, and whoever sends that back is told whether this still is the store that gave
 * it. */
#include "server/desk.h"
#include "server/reply.h"

#include <string.h>

/* In the exchange's arena; NULL after a reply that says why there is none. */
static const char *keep(qll_exchange *exchange, qll_status status, const char *mark,
                        const qll_said *why)
{
    if (!qll_desk_is_well(exchange, status, why)) {
        return NULL;
    }
    const char *kept = qll_arena_copy(exchange->arena, mark, strlen(mark));
    if (kept == NULL) {
        (void)qll_exchange_refuse(exchange, QLL_REFUSAL_NO_MEMORY);
    }
    return kept;
}

const char *qll_desk_mark(qll_exchange *exchange, long long receipt)
{
    char mark[QLL_STORE_MARK_SIZE];
    qll_said why;
    const qll_status status = qll_store_mark(exchange->server->at_desk, receipt, mark, &why);
    return keep(exchange, status, mark, &why);
}

const char *qll_desk_mark_of_attachment(qll_exchange *exchange)
{
    char mark[QLL_STORE_MARK_SIZE];
    qll_said why;
    const qll_status status =
        qll_store_mark_of_attachment(exchange->server->at_desk, exchange->rest, mark, &why);
    return keep(exchange, status, mark, &why);
}

bool qll_desk_knows_mark(qll_exchange *exchange)
{
    const char *named = qll_http_argument_of(&exchange->request, "mark");
    if (named == NULL) {
        return true;
    }
    bool is_known = false;
    qll_said why;
    const qll_status status =
        qll_store_knows_mark(exchange->server->at_desk, named, &is_known, &why);
    if (qll_desk_is_well(exchange, status, &why) && !is_known) {
        (void)qll_exchange_refuse(exchange, QLL_REFUSAL_OTHER_STORE);
    }
    return status == QLL_OK && is_known;
}
