/* How much of everything the server takes. None is an option: all are far above what an office needs, and low enough for a small
 * machine (our assumptions). docs/guide/serve.md lists them. */
#ifndef QUELL_SERVER_LIMITS_H
#define QUELL_SERVER_LIMITS_H

#include "base/document.h"

/* Connections at once, and the header of a request. */
#define QLL_CONNECTIONS_MOST 512
#define QLL_HEADER_SIZE      ((size_t)32 * 1024)

/* A connection that says nothing for so long is closed; a request that has not come after so long, or a reply that is not taken,
 * too, however busily its bytes trickle. */
#define QLL_IDLE_S    30U
#define QLL_RECEIVE_S 30.0
#define QLL_SEND_S    120.0

/* A question with all its documents; all of them that are here at once. */
#define QLL_QUESTION_SIZE ((size_t)QLL_DOCUMENT_SIZE)
#define QLL_BODIES_SIZE   ((size_t)128 * 1024 * 1024)
/* A record: a survey with all its text is the largest. */
#define QLL_RECORD_SIZE   ((size_t)4 * 1024 * 1024)
#define QLL_LOGIN_SIZE    ((size_t)8 * 1024)

/* Memory of one question; questions that wait for their turn; answers that nobody has fetched, and how long they are kept. */
#define QLL_RUN_SIZE     ((size_t)256 * 1024 * 1024)
#define QLL_RUNS_WAITING 32
#define QLL_RUNS_KEPT    64
#define QLL_KEPT_S       600.0

/* Of a request without its body, and of what is replied beside an answer. */
#define QLL_EXCHANGE_SIZE ((size_t)64 * 1024 * 1024)

/* Logins that wait to be checked: one is at a time. */
#define QLL_LOGINS_WAITING 16

/* Requests that wait for the records: one is at a time. */
#define QLL_DESK_WAITING 256

/* So long an answer is waited for before it becomes a run. */
#define QLL_PATIENCE_S 2.0

#endif
