/* What is asked of the records, on the one thread that has them. */
#ifndef QUELL_SERVER_DESK_H
#define QUELL_SERVER_DESK_H

#include "server/server.h"

/** Makes the reply what @p status and @p why of the store say, where that is no QLL_OK; whether it is. */
bool qll_desk_is_well(qll_exchange *exchange, qll_status status, const qll_said *why);

/** What is asked for in the exchange's form and language, of today. */
qll_telling qll_desk_telling(const qll_exchange *exchange);

/** Makes the reply the JSON of @p answer. */
void qll_desk_reply(qll_exchange *exchange, qll_status status, const qll_answer *answer);

/** Reads the whole number of argument @p name, @p otherwise where it is not given; false after a reply that it is none. */
bool qll_desk_number(qll_exchange *exchange, const char *name, long long otherwise,
                     long long *number);

/** The mark of @p receipt, or of the attachment that the request names; "" where there is none; NULL after a reply that says why. */
const char *qll_desk_mark(qll_exchange *exchange, long long receipt);
const char *qll_desk_mark_of_attachment(qll_exchange *exchange);

/** Whether the mark that the request names, if it names one, is one of this store; false after a reply that says no. */
bool qll_desk_knows_mark(qll_exchange *exchange);

#endif
