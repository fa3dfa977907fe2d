/* Phones and what they hold, and what stands in a set of records: by the sentences of docs/theory/records.md 2, pair by pair, apart from the
 * store. */
#ifndef QUELL_TESTS_MERGING_WORLD_H
#define QUELL_TESTS_MERGING_WORLD_H

#include "store_scene.h"

#define PHONES     3U
#define STEPS      60U
#define RECORDS    400U
#define DOCUMENTS  4U
#define FIRST_SITE 900U

typedef struct phone {
    bool has[RECORDS];       /* by number of the record */
    unsigned queue[RECORDS]; /* made here and not acknowledged */
    size_t queued;
    long long pulled; /* the receipt up to which it has all */
    long long known;  /* the last receipt that it ever got, and its mark; "" before the first */
    char mark[QLL_STORE_MARK_SIZE];
} phone;

typedef struct world {
    store_scene scene;
    qll_random random;
    qll_record made[RECORDS]; /* all that were ever made, by number */
    bool acknowledged[RECORDS];
    unsigned count;
    unsigned backups, restores;
    phone phones[PHONES];
    const char *wrong; /* what went wrong first */
} world;

static inline void fail(world *w, const char *what)
{
    w->wrong = w->wrong == NULL ? what : w->wrong;
}

/* The number of a record by its id. */
static inline unsigned number_of(const qll_record *record)
{
    return (unsigned)strtoul(record->id + 24, NULL, 10) - 1;
}

/* ---- what stands, by the page ---- */

static inline bool same_id(const char *one, const char *other)
{
    return one != NULL && other != NULL && strcmp(one, other) == 0;
}

static inline bool is_later(const qll_record *one, const qll_record *other)
{
    return one->written_ms > other->written_ms
           || (one->written_ms == other->written_ms && strcmp(one->id, other->id) > 0);
}

static inline bool names(const qll_record *version, const char *parent)
{
    for (size_t i = 0; i < version->parent_count; i++) {
        if (same_id(version->parents[i], parent)) {
            return true;
        }
    }
    return false;
}

static inline bool stands(const world *w, const bool *has, unsigned number)
{
    const qll_record *record = &w->made[number];
    for (unsigned i = 0; i < w->count; i++) {
        const qll_record *other = &w->made[i];
        if (!has[i] || i == number) {
            continue;
        }
        if (same_id(other->document, record->document) && names(other, record->id)) {
            return false;
        }
        if (record->document == NULL
            && (same_id(other->corrects, record->id)
                || (same_id(other->corrects, record->corrects) && is_later(other, record)))) {
            return false;
        }
    }
    return true;
}

#endif
