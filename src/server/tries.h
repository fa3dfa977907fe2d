/* How often somebody may give a wrong password. */
#ifndef QUELL_SERVER_TRIES_H
#define QUELL_SERVER_TRIES_H

#include "server/secret.h"

/* So many wrong ones for one name from one address, and from one address for whatever name, within the time: then it is over
 * until the first of them is so long ago (our assumption). */
#define QLL_TRIES_OF_NAME    5
#define QLL_TRIES_OF_ADDRESS 20
#define QLL_TRIES_WITHIN_S   900.0
/* So many names and addresses are remembered; one more takes the place of the oldest. */
#define QLL_TRIES_MOST       4096

typedef struct qll_try {
    unsigned char digest[QLL_SECRET_DIGEST_SIZE]; /* of address and name */
    unsigned count;                               /* 0 = free */
    double began_s;
} qll_try;

typedef struct qll_tries {
    qll_try *all; /* [QLL_TRIES_MOST] */
} qll_tries;

/** False without memory. */
bool qll_tries_open(qll_tries *tries, qll_arena *arena);

/** Whole seconds until @p name may be tried again from @p peer; 0 = at once. */
unsigned qll_tries_wait_s(const qll_tries *tries, const char *peer, qll_text name, double now_s);

/** Counts a try before its outcome is known, so that many at once are no way round. */
void qll_tries_count(qll_tries *tries, const char *peer, qll_text name, double now_s);

/** Takes back what qll_tries_count() counted, for the password was right, and forgets the name's wrong ones. */
void qll_tries_forgive(qll_tries *tries, const char *peer, qll_text name);

#endif
