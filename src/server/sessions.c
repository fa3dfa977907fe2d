#include "server/sessions.h"

#include <string.h>

bool qll_sessions_open(qll_sessions *sessions, qll_arena *arena)
{
    sessions->all = qll_arena_take(arena, QLL_SESSIONS_MOST, sizeof *sessions->all);
    return sessions->all != NULL;
}

static bool is_over(const qll_session *session, double now_s)
{
    return session->who[0] == '\0' || now_s - session->used_s > QLL_SESSION_IDLE_S
           || now_s - session->began_s > QLL_SESSION_S;
}

static qll_session *find(const qll_sessions *sessions, qll_text token)
{
    if (token.size != QLL_TOKEN_SIZE - 1) {
        return NULL;
    }
    unsigned char digest[QLL_SECRET_DIGEST_SIZE];
    qll_secret_digest(token, digest);
    for (size_t i = 0; i < QLL_SESSIONS_MOST; i++) {
        qll_session *session = &sessions->all[i];
        if (session->who[0] != '\0' && qll_secret_same(session->digest, digest)) {
            return session;
        }
    }
    return NULL;
}

void qll_sessions_begin(qll_sessions *sessions, const char *who, double now_s,
                        char token[QLL_TOKEN_SIZE])
{
    qll_session *taken = &sessions->all[0];
    for (size_t i = 0; i < QLL_SESSIONS_MOST && !is_over(taken, now_s); i++) {
        qll_session *other = &sessions->all[i];
        if (is_over(other, now_s) || other->used_s < taken->used_s) {
            taken = other;
        }
    }
    qll_secret_token(token, QLL_TOKEN_SIZE);
    *taken = (qll_session){.began_s = now_s, .used_s = now_s};
    memcpy(taken->who, who, strnlen(who, sizeof taken->who - 1));
    qll_secret_digest(qll_text_of(token), taken->digest);
}

const char *qll_sessions_who(qll_sessions *sessions, qll_text token, double now_s)
{
    qll_session *session = find(sessions, token);
    if (session == NULL || is_over(session, now_s)) {
        return NULL;
    }
    session->used_s = now_s;
    return session->who;
}

void qll_sessions_end(qll_sessions *sessions, qll_text token)
{
    qll_session *session = find(sessions, token);
    if (session != NULL) {
        *session = (qll_session){0};
    }
}
