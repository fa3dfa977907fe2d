#include "server/tries.h"

#include <math.h>
#include <string.h>

bool qll_tries_open(qll_tries *tries, qll_arena *arena)
{
    tries->all = qll_arena_take(arena, QLL_TRIES_MOST, sizeof *tries->all);
    return tries->all != NULL;
}

/* Of an address and a name, or of an address alone (no name is empty). */
static void digest_of(const char *peer, qll_text name, unsigned char digest[QLL_SECRET_DIGEST_SIZE])
{
    unsigned char both[2 * QLL_SECRET_DIGEST_SIZE];
    qll_secret_digest(qll_text_of(peer), both);
    qll_secret_digest(name, both + QLL_SECRET_DIGEST_SIZE);
    qll_secret_digest((qll_text){(const char *)both, sizeof both}, digest);
}

static qll_try *find(const qll_tries *tries, const char *peer, qll_text name)
{
    unsigned char digest[QLL_SECRET_DIGEST_SIZE];
    digest_of(peer, name, digest);
    for (size_t i = 0; i < QLL_TRIES_MOST; i++) {
        if (tries->all[i].count > 0 && memcmp(tries->all[i].digest, digest, sizeof digest) == 0) {
            return &tries->all[i];
        }
    }
    return NULL;
}

static double left_s(const qll_try *one, unsigned most, double now_s)
{
    const double left =
        one == NULL || one->count < most ? 0.0 : one->began_s + QLL_TRIES_WITHIN_S - now_s;
    return left > 0.0 ? left : 0.0;
}

unsigned qll_tries_wait_s(const qll_tries *tries, const char *peer, qll_text name, double now_s)
{
    const double of_name = left_s(find(tries, peer, name), QLL_TRIES_OF_NAME, now_s);
    const double of_peer =
        left_s(find(tries, peer, (qll_text){"", 0}), QLL_TRIES_OF_ADDRESS, now_s);
    return (unsigned)ceil(of_name > of_peer ? of_name : of_peer);
}

static void count(qll_tries *tries, const char *peer, qll_text name, double now_s)
{
    qll_try *one = find(tries, peer, name);
    if (one == NULL) {
        one = &tries->all[0];
        for (size_t i = 0; i < QLL_TRIES_MOST && one->count > 0; i++) {
            qll_try *other = &tries->all[i];
            one = other->count == 0 || other->began_s < one->began_s ? other : one;
        }
        one->count = 0;
        digest_of(peer, name, one->digest);
    }
    if (one->count == 0 || now_s - one->began_s > QLL_TRIES_WITHIN_S) {
        one->count = 0;
        one->began_s = now_s;
    }
    one->count += 1;
}

void qll_tries_count(qll_tries *tries, const char *peer, qll_text name, double now_s)
{
    count(tries, peer, name, now_s);
    count(tries, peer, (qll_text){"", 0}, now_s);
}

void qll_tries_forgive(qll_tries *tries, const char *peer, qll_text name)
{
    qll_try *of_name = find(tries, peer, name);
    qll_try *of_peer = find(tries, peer, (qll_text){"", 0});
    if (of_name != NULL) {
        of_name->count = 0;
    }
    if (of_peer != NULL && of_peer->count > 0) {
        of_peer->count -= 1;
    }
}
