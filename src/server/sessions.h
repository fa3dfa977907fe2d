/* Who is logged in. Tokens are kept as digests only, so that what leaks of memory opens nothing. */
#ifndef QUELL_SERVER_SESSIONS_H
#define QUELL_SERVER_SESSIONS_H

#include "server/person.h"
#include "server/secret.h"

/* So many at once; one more ends the one that was used least lately. */
#define QLL_SESSIONS_MOST  1024
/* A session ends when it is not used for a day's work, and after a week (our assumption). */
#define QLL_SESSION_IDLE_S (12.0 * 3600.0)
#define QLL_SESSION_S      (7.0 * 24.0 * 3600.0)

typedef struct qll_session {
    unsigned char digest[QLL_SECRET_DIGEST_SIZE]; /* of the token */
    char who[QLL_NAME_SIZE];                      /* "" = free */
    double began_s, used_s;
} qll_session;

typedef struct qll_sessions {
    qll_session *all; /* [QLL_SESSIONS_MOST] */
} qll_sessions;

/** False without memory. */
bool qll_sessions_open(qll_sessions *sessions, qll_arena *arena);

/** Begins one of @p who and writes its token. */
void qll_sessions_begin(qll_sessions *sessions, const char *who, double now_s,
                        char token[QLL_TOKEN_SIZE]);

/** Who the token belongs to, and uses it; NULL where it is no token of a session. Good until the sessions are used again. */
const char *qll_sessions_who(qll_sessions *sessions, qll_text token, double now_s);

/** Ends the session of the token; anything else is harmless. */
void qll_sessions_end(qll_sessions *sessions, qll_text token);

#endif
