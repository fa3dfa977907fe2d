/* Replies that are no answer of the engine: problems (RFC 9457) and small documents. */
#ifndef QUELL_SERVER_REPLY_H
#define QUELL_SERVER_REPLY_H

#include "quell/quell.h"

#include "base/problems.h"
#include "base/said.h"
#include "server/exchange.h"

/** X(NAME, status, word for machines, and what is said: QLL_TEXT_REPLY_x). */
#define QLL_REFUSAL_LIST(X)                  \
    X(NOT_FOUND, 404, "not-found")           \
    X(METHOD, 405, "method")                 \
    X(HOST, 421, "host")                     \
    X(HOST_MISSING, 400, "host-missing")     \
    X(ORIGIN, 403, "origin")                 \
    X(HEADER, 400, "header")                 \
    X(LENGTH, 411, "length")                 \
    X(BODY_LARGE, 413, "body-too-large")     \
    X(BODY_NONE, 400, "body")                \
    X(TYPE, 415, "type")                     \
    X(LOGIN, 401, "login")                   \
    X(WRONG_PASSWORD, 401, "wrong-password") \
    X(TRIES, 429, "tries")                   \
    X(BUSY, 503, "busy")                     \
    X(NO_MEMORY, 503, "no-memory")           \
    X(STOPPED, 503, "stopped")               \
    X(PAPER, 500, "paper")                   \
    X(QUESTION, 400, "question")             \
    X(DOCUMENTS, 422, "documents")           \
    X(NO_RUN, 404, "run")                    \
    X(NO_PEOPLE, 404, "no-people")           \
    X(NO_STORE, 404, "no-store")             \
    X(NO_RECORD, 404, "record")              \
    X(RECORD, 422, "record-refused")         \
    X(RECORD_ID, 400, "record-id")           \
    X(RECORD_WHO, 403, "who")                \
    X(RECORD_OTHER, 409, "other-record")     \
    X(OTHER_STORE, 409, "other-store")       \
    X(RECORD_MATCH, 428, "if-match")         \
    X(RECORD_PARENTS, 400, "parents")        \
    X(ARGUMENT, 400, "argument")             \
    X(PART, 400, "part")                     \
    X(PART_REFUSED, 409, "part-refused")     \
    X(STORE, 507, "store")                   \
    X(STORE_BUSY, 503, "store-busy")         \
    X(STORE_AWAY, 503, "store-away")         \
    X(RANGE, 416, "range")

typedef enum qll_refusal {
#define QLL_REFUSAL_NAME(name, status, word) QLL_REFUSAL_##name,
    QLL_REFUSAL_LIST(QLL_REFUSAL_NAME)
#undef QLL_REFUSAL_NAME
    QLL_REFUSAL_COUNT
} qll_refusal;

/** What is said of a refusal, with two figures at most. */
typedef struct qll_refusing {
    qll_refusal refusal;
    qll_argument arguments[2];
    const qll_problem *problems; /* listed along; NULL */
    size_t problem_count;
} qll_refusing;

/** Makes @p reply an application/problem+json; in @p arena. */
void qll_reply_refuse(qll_http_reply *reply, const qll_refusing *refusing, qll_language language,
                      qll_arena *arena);

/** The same for the reply of an exchange, in its language; true, as it has a reply now. */
bool qll_exchange_refuse(qll_exchange *exchange, qll_refusal refusal);
bool qll_exchange_refuse_with(qll_exchange *exchange, const qll_refusing *refusing);

/** The refusal that the problems of @p found say more of; in @p arena. */
void qll_reply_refuse_found(qll_http_reply *reply, qll_refusal refusal, const qll_problems *found,
                            qll_language language, qll_arena *arena);

/** The refusal that says @p why the store did not do what was asked; @p status is no QLL_OK. */
void qll_reply_refuse_store(qll_http_reply *reply, qll_status status, const qll_said *why,
                            qll_language language, qll_arena *arena);

/** The content type of an answer in @p form. */
const char *qll_reply_type(qll_form form);

/** Makes the reply of @p exchange the JSON in @p writer; true. */
bool qll_exchange_reply_json(qll_exchange *exchange, int status, qll_writer *writer);

#endif
