/* The store: records kept whole, in the order in which they came (docs/theory/records.md).
 *
 * SQLite in a file, or PostgreSQL where the place begins with "postgresql://"; the same statements run on both. What a function
 * says is done is on the disk: it outlives a crash of the program and of the machine. What it refuses has changed nothing.
 *
 * One handle serves one thread at a time; any number of handles, also of other programs, may be open on one store. Writers take
 * turns, readers never wait.
 *
 * Every function that can fail gives a status and says in one sentence why: QLL_REFUSED (what was handed in), QLL_IO (file, disk or
 * database), QLL_BUSY (another program writes, for longer than 10 s) or QLL_NO_MEMORY (then it says nothing). Results live in the arena handed in.
 */
#ifndef QUELL_STORE_STORE_H
#define QUELL_STORE_STORE_H

#include "quell/records.h"

#include "base/said.h"

#include <stdint.h>

typedef struct qll_store qll_store;

/** Of the newest store that this program reads, and makes. */
#define QLL_STORE_VERSION 3

typedef enum qll_store_use {
    QLL_STORE_READ,  /* nothing in it is changed */
    QLL_STORE_WRITE, /* it must be there */
    QLL_STORE_MAKE,  /* an empty one is made where there is none */
} qll_store_use;

/**
 * Opens the store at @p place. One of an older version is brought up to QLL_STORE_VERSION, after a copy of it was put beside it
 * ("records.db.version-1"; PostgreSQL: by its own tools, nothing is copied), unless it is opened to be read: then it is refused.
 *
 * @param store ended with qll_store_close()
 * @return QLL_OK; QLL_REFUSED: no store, a foreign file, one of a newer version, a damaged one; untouched then
 */
QLL_MUST_USE qll_status qll_store_open(const char *place, qll_store_use use, qll_arena *arena,
                                       qll_store **store, qll_said *why);

/** NULL is harmless. */
void qll_store_close(qll_store *store);

/** What became of a record that was put. */
typedef enum qll_put_outcome {
    QLL_PUT_NEW,  /* it is kept, under the receipt that it got */
    QLL_PUT_SAME, /* it was there already, word for word; the receipt is that of the first time */
    QLL_PUT_REFUSED, /* see why: another record has that id; it would come from itself; it is not made from what stands */
} qll_put_outcome;

typedef struct qll_put {
    qll_put_outcome outcome;
    long long receipt; /* 0 where it was refused */
    size_t head_count; /* of a document: versions that stand; more than one is a conflict */
    qll_said why;      /* of QLL_PUT_REFUSED */
} qll_put;

/** Whether a version is kept that does not come from all versions that stand. */
typedef enum qll_put_rule {
    QLL_PUT_BESIDE, /* it is, beside them: a conflict, for a person to settle */
    QLL_PUT_ONTO,   /* it is refused */
} qll_put_rule;

/**
 * Keeps @p count records, in one transaction: all that are not refused, or none where the store fails. Records may come in any
 * order, a correction before what it corrects and a version before its parent.
 *
 * @param puts [count] what became of each
 */
QLL_MUST_USE qll_status qll_store_put(qll_store *store, const qll_record *records, size_t count,
                                      qll_put_rule rule, qll_arena *arena, qll_put *puts,
                                      qll_said *why);

/** Some records, by value. */
typedef struct qll_records {
    qll_record *list;
    size_t count;
} qll_records;

/** Records that came after receipt @p after (0 = from the first), at most @p most, in the order of their receipts. Fewer than @p most are all. */
QLL_MUST_USE qll_status qll_store_changes(qll_store *store, long long after, size_t most,
                                          qll_arena *arena, qll_records *records, qll_said *why);

/** The last receipt that was given; 0 of an empty store. */
QLL_MUST_USE qll_status qll_store_receipt(qll_store *store, long long *receipt, qll_said *why);

/** Room for a mark: a number, a dot and 32 hexadecimal digits, or the name of a store. */
#define QLL_STORE_MARK_SIZE 60

/**
 * The mark of @p receipt; of 0 that of the store itself. Records, and photos, sounds and logs as they become whole, are marked one after the
 * other, and a mark hangs on all before it. Two stores have the same one only where they were one store once, and since then took the same
 * in the same order up to there: so one that was restored from a backup, or another one at the same place, is told by it.
 *
 * @param mark "" where no such receipt was given
 */
QLL_MUST_USE qll_status qll_store_mark(qll_store *store, long long receipt,
                                       char mark[QLL_STORE_MARK_SIZE], qll_said *why);

/** The same of a photo, sound or log; "" of one that is not whole. */
QLL_MUST_USE qll_status qll_store_mark_of_attachment(qll_store *store, const char *sha256,
                                                     char mark[QLL_STORE_MARK_SIZE], qll_said *why);

/** Whether this store gave @p mark, any text. */
QLL_MUST_USE qll_status qll_store_knows_mark(qll_store *store, const char *mark, bool *is_known,
                                             qll_said *why);

/** The record with @p id; none where there is none. */
QLL_MUST_USE qll_status qll_store_get(qll_store *store, const char *id, qll_arena *arena,
                                      qll_records *records, qll_said *why);

/** The versions of @p document that stand, the one that is shown first: more than one is a conflict. */
QLL_MUST_USE qll_status qll_store_heads(qll_store *store, const char *document, qll_arena *arena,
                                        qll_records *records, qll_said *why);

/** All versions of @p document, in the order of their receipts. */
QLL_MUST_USE qll_status qll_store_versions(qll_store *store, const char *document, qll_arena *arena,
                                           qll_records *records, qll_said *why);

/**
 * What stands of @p site: facts that no later one corrects, and the versions of documents that stand; by the time they were written.
 *
 * @param after the last record of the page before; NULL = from the first
 */
QLL_MUST_USE qll_status qll_store_of_site(qll_store *store, const char *site,
                                          const qll_record *after, size_t most, qll_arena *arena,
                                          qll_records *records, qll_said *why);

/** Surveys that stand, received after @p after, at most @p most, in the order of their receipts. */
QLL_MUST_USE qll_status qll_store_surveys(qll_store *store, long long after, size_t most,
                                          qll_arena *arena, qll_records *records, qll_said *why);

typedef struct qll_store_sites {
    qll_site_row *list;
    size_t count;
} qll_store_sites;

/** Sites by name, at most @p most. @param after the last of the page before; NULL = from the first */
QLL_MUST_USE qll_status qll_store_list(qll_store *store, const qll_site_row *after, size_t most,
                                       qll_arena *arena, qll_store_sites *sites, qll_said *why);

/** Sites in which every word of @p words begins a word, the best first, at most @p most. */
QLL_MUST_USE qll_status qll_store_search(qll_store *store, const char *words, size_t most,
                                         qll_arena *arena, qll_store_sites *sites, qll_said *why);

/** Sites that somebody may mean by @p text, at most 20: those with that name, capitals or not, or an id that begins so (4 characters or more); where
 * there is none, those that a search finds. */
QLL_MUST_USE qll_status qll_store_called(qll_store *store, const char *text, qll_arena *arena,
                                         qll_store_sites *sites, qll_said *why);

/** Sites that have a plan of service, in no order that means anything. */
QLL_MUST_USE qll_status qll_store_planned(qll_store *store, qll_arena *arena,
                                          qll_store_sites *sites, qll_said *why);

/** Sites with a document in conflict. */
QLL_MUST_USE qll_status qll_store_conflicts(qll_store *store, qll_arena *arena,
                                            qll_store_sites *sites, qll_said *why);

/** Keeps the person @p name with the text @p password, which takes the place of the one before. */
QLL_MUST_USE qll_status qll_store_put_person(qll_store *store, const char *name,
                                             const char *password, qll_said *why);

/** @param password NULL where there is no such person */
QLL_MUST_USE qll_status qll_store_person(qll_store *store, const char *name, qll_arena *arena,
                                         const char **password, qll_said *why);

/** The names of all people, in order. */
QLL_MUST_USE qll_status qll_store_people(qll_store *store, qll_arena *arena,
                                         const char *const **names, size_t *count, qll_said *why);

/** What was worked out of a site, kept so that it need not be again. */
typedef struct qll_kept_answer {
    const char *site;
    const char *digest; /* of all that it comes from */
    const char *day;    /* when it was worked out first */
    const char *answer; /* a text of the caller's own */
} qll_kept_answer;

typedef struct qll_kept_answers {
    qll_kept_answer *list;
    size_t count;
} qll_kept_answers;

/** Keeps @p count answers, in one transaction; those that are there stay as they are. */
QLL_MUST_USE qll_status qll_store_keep(qll_store *store, const qll_kept_answer *answers,
                                       size_t count, qll_said *why);

/** All that are kept, by site, the oldest first. */
QLL_MUST_USE qll_status qll_store_kept(qll_store *store, qll_arena *arena,
                                       qll_kept_answers *answers, qll_said *why);

/** A visit to which somebody was called back. */
typedef struct qll_store_callback {
    const char *site, *day;
} qll_store_callback;

typedef struct qll_store_callbacks {
    qll_store_callback *list;
    size_t count;
} qll_store_callbacks;

/** All of them that stand, by site and day. */
QLL_MUST_USE qll_status qll_store_called_back(qll_store *store, qll_arena *arena,
                                              qll_store_callbacks *callbacks, qll_said *why);

/** What is there of a photo, sound or log. */
typedef struct qll_store_held {
    uint64_t size,
        held; /* bytes: all, and those that are there, from the first on; size 0 = nothing is known of it */
    bool is_whole; /* all are there, and their hash is right */
} qll_store_held;

QLL_MUST_USE qll_status qll_store_attachment(qll_store *store, const char *sha256,
                                             qll_store_held *held, qll_said *why);

/** A part of a photo, sound or log. */
typedef struct qll_store_part {
    const char *sha256; /* of all bytes, 64 hexadecimal digits */
    uint64_t size;      /* of all */
    uint64_t begins;    /* where this part goes: no further than what is held */
    qll_text bytes;
} qll_store_part;

/** The most bytes of a photo, sound or log, and of a part of it. */
#define QLL_STORE_ATTACHMENT_SIZE ((uint64_t)64 * 1024 * 1024)
#define QLL_STORE_PART_SIZE       ((size_t)1024 * 1024)

/**
 * Takes a part. What is held already is not taken twice, so that a part may be sent again. Where the last byte comes and the hash is
 * wrong all parts are thrown away, and it is refused.
 */
QLL_MUST_USE qll_status qll_store_put_part(qll_store *store, const qll_store_part *part,
                                           qll_store_held *held, qll_said *why);

/** Bytes of a whole photo, sound or log from @p begins on, at most QLL_STORE_PART_SIZE; none at its end and where it is not whole. */
QLL_MUST_USE qll_status qll_store_read_attachment(qll_store *store, const char *sha256,
                                                  uint64_t begins, qll_arena *arena,
                                                  qll_text *bytes, qll_said *why);

/** A whole photo, sound or log. */
typedef struct qll_store_whole {
    const char *sha256;
    uint64_t size;
} qll_store_whole;

typedef struct qll_store_wholes {
    qll_store_whole *list;
    size_t count;
} qll_store_wholes;

/** All that are whole, by name. */
QLL_MUST_USE qll_status qll_store_attachments(qll_store *store, qll_arena *arena,
                                              qll_store_wholes *wholes, qll_said *why);

/** Makes a copy of the store at @p path, where nothing may be yet, while others read and write. PostgreSQL: refused, its own tools do that. */
QLL_MUST_USE qll_status qll_store_backup(qll_store *store, const char *path, qll_arena *arena,
                                         qll_said *why);

/** Goes through all of it: pages, references, hashes, and whether lists agree with the records. QLL_REFUSED: what is wrong, the first. */
QLL_MUST_USE qll_status qll_store_check(qll_store *store, qll_arena *arena, qll_said *why);

#endif
