/* What the files of the store share. */
#ifndef QUELL_STORE_INSIDE_H
#define QUELL_STORE_INSIDE_H

#include "store/database.h"
#include "store/store.h"

struct qll_store {
    qll_database *database;
    qll_arena *arena; /* its own, for what a call works with: emptied by each */
};

/** Runs a statement with the values that follow. */
#define QLL_RUN(store, name, take, context, why, ...)                                 \
    (store)->database->kind->run(                                                     \
        (store)->database, QLL_STATEMENT_##name, (const qll_value_of[]){__VA_ARGS__}, \
        sizeof((const qll_value_of[]){__VA_ARGS__}) / sizeof(qll_value_of), take, context, why)

/** The same without values. */
#define QLL_RUN_BARE(store, name, take, context, why)                                             \
    (store)->database->kind->run((store)->database, QLL_STATEMENT_##name, NULL, 0, take, context, \
                                 why)

/** Takes the whole number of the first column into a long long. */
qll_status qll_take_whole(void *context, const qll_value_of *row);

/** A column as closed text in @p arena; NULL of none. QLL_NO_MEMORY is the arena's to tell. */
const char *qll_column_text(const qll_value_of *column, qll_arena *arena);

/** Rows into a growing list. */
typedef struct qll_growing {
    qll_arena *arena;
    void *items;
    size_t size, count, room; /* of an item in bytes; items */
} qll_growing;

/** A zeroed item more; NULL without memory. */
void *qll_growing_add(qll_growing *growing);

/** Begins a transaction in which nobody else writes; @p receipt gets the last one given. */
QLL_MUST_USE qll_status qll_store_begin(qll_store *store, long long *receipt, qll_said *why);

/** Ends it: commits if @p status is QLL_OK, else undoes. */
QLL_MUST_USE qll_status qll_store_end(qll_store *store, qll_status status, qll_said *why);

/** What a site is shown as, worked out of its records. */
typedef struct qll_site_told {
    const char *name, *words, *plan_day, *service_day;
    long long every_months, conflicts;
} qll_site_told;

QLL_MUST_USE qll_status qll_site_tell(qll_store *store, const char *site, qll_arena *arena,
                                      qll_site_told *told, qll_said *why);

/** Works the row of @p site out anew; @p number for one that has none yet. */
QLL_MUST_USE qll_status qll_site_refresh(qll_store *store, const char *site, long long number,
                                         qll_said *why);

/** The mark of what came last. */
QLL_MUST_USE qll_status qll_last_mark(qll_store *store, char mark[QLL_STORE_MARK_SIZE],
                                      qll_said *why);

/** Marks the record @p id. @p mark: that of what came last; becomes the record's. */
QLL_MUST_USE qll_status qll_mark_record(qll_store *store, const char *id, long long receipt,
                                        char mark[QLL_STORE_MARK_SIZE], qll_said *why);

/** Marks a photo, sound or log that has become whole. */
QLL_MUST_USE qll_status qll_mark_attachment(qll_store *store, const char *sha256, qll_said *why);

/** Names a store that has no marks yet, and marks all that is in it. */
QLL_MUST_USE qll_status qll_marks_begin(qll_store *store, qll_said *why);

/** Whether all marks are those of what came. */
QLL_MUST_USE qll_status qll_marks_check(qll_store *store, qll_said *why);

/** Whether the @p size bytes that are held of an attachment are those of its name. */
QLL_MUST_USE qll_status qll_attachment_hash(qll_store *store, const char *sha256, uint64_t size,
                                            bool *is_right, qll_said *why);

/** Writes what lists are ordered by: @p name with small letters for capitals. */
void qll_name_key(qll_writer *writer, const char *name);

#endif
