/* A request and what is replied to it, whoever carries them: nothing here knows the HTTP library. */
#ifndef QUELL_SERVER_HTTP_H
#define QUELL_SERVER_HTTP_H

#include "base/text.h"

/** X(NAME). */
#define QLL_METHOD_LIST(X) X(GET) X(HEAD) X(POST) X(PUT) X(DELETE)

typedef enum qll_method {
#define QLL_METHOD_NAME(name) QLL_METHOD_##name,
    QLL_METHOD_LIST(QLL_METHOD_NAME)
#undef QLL_METHOD_NAME
    QLL_METHOD_COUNT, /* any other */
} qll_method;

extern const char *const qll_method_words[QLL_METHOD_COUNT];

/** A header, or an argument behind the question mark. */
typedef struct qll_http_field {
    const char *name, *value;
} qll_http_field;

typedef struct qll_http_request {
    qll_method method;
    const char *path; /* escapes resolved, without what is behind the question mark */
    const qll_http_field *fields;
    size_t field_count;
    const qll_http_field *arguments; /* behind the question mark */
    size_t argument_count;
    const char *peer; /* the address that it came from, as text */
    qll_text body;
} qll_http_request;

/* No reply has more headers of its own. */
#define QLL_REPLY_FIELDS 6

typedef struct qll_http_reply {
    int status;       /* 0 = none yet */
    const char *type; /* of the body; NULL where there is none */
    qll_text body;
    bool is_lasting; /* the body lives as long as the server, else as the exchange */
    bool closes;     /* nothing more is taken from this connection */
    qll_http_field fields[QLL_REPLY_FIELDS];
    size_t field_count;
} qll_http_reply;

/** The value of the first header @p name, in small letters, whatever letters it was sent in; NULL where there is none. */
const char *qll_http_field_of(const qll_http_request *request, const char *name);

/** The value of the argument @p name; NULL where there is none. */
const char *qll_http_argument_of(const qll_http_request *request, const char *name);

/** How many headers of that name there are. */
size_t qll_http_field_count(const qll_http_request *request, const char *name);

/** "Not Found"; "" of a status that the server never replies with. */
const char *qll_http_reason(int status);

/** Adds a header; both texts live as long as the reply. */
void qll_http_reply_field(qll_http_reply *reply, const char *name, const char *value);

/** Whether two texts are the same but for the case of ASCII letters. */
bool qll_http_same(qll_text a, const char *closed);

#endif
