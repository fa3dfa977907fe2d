/* The statements of the store, by name: store_statements.sql has those of all databases, store_search*.sql those of one. */
#ifndef QUELL_STORE_STATEMENT_H
#define QUELL_STORE_STATEMENT_H

#include "quell/text.h"

/** X(NAME, its name in the .sql file). */
#define QLL_STATEMENT_LIST(X)                   \
    X(LOCK, "lock")                             \
    X(RAISE, "raise")                           \
    X(RECEIPT, "receipt")                       \
    X(RECORD_COUNT, "record-count")             \
    X(MARK, "mark")                             \
    X(MARK_OF_RECEIPT, "mark-of-receipt")       \
    X(MARK_OF_ATTACHMENT, "mark-of-attachment") \
    X(LAST_MARK, "last-mark")                   \
    X(PUT_MARK, "put-mark")                     \
    X(RECORD_IDS, "record-ids")                 \
    X(MARKED, "marked")                         \
    X(UNMARKED, "unmarked")                     \
    X(INSERT_RECORD, "insert-record")           \
    X(INSERT_PARENT, "insert-parent")           \
    X(RECORD, "record")                         \
    X(PARENTS, "parents")                       \
    X(COMES_FROM, "comes-from")                 \
    X(CORRECTS, "corrects")                     \
    X(HEADS, "heads")                           \
    X(VERSIONS, "versions")                     \
    X(CHANGES, "changes")                       \
    X(OF_SITE, "of-site")                       \
    X(FACT_SITES, "fact-sites")                 \
    X(VERSION_SITES, "version-sites")           \
    X(SITE_SHOWN, "site-shown")                 \
    X(PLAN_SHOWN, "plan-shown")                 \
    X(LAST_SERVICE, "last-service")             \
    X(CONFLICT_COUNT, "conflict-count")         \
    X(PUT_SITE, "put-site")                     \
    X(SITES, "sites")                           \
    X(SITES_CALLED, "sites-called")             \
    X(PLANNED, "planned")                       \
    X(IN_CONFLICT, "in-conflict")               \
    X(PUT_PERSON, "put-person")                 \
    X(PERSON, "person")                         \
    X(PEOPLE, "people")                         \
    X(ATTACHMENT, "attachment")                 \
    X(ATTACHMENTS, "attachments")               \
    X(PUT_ATTACHMENT, "put-attachment")         \
    X(DROP_PARTS, "drop-parts")                 \
    X(PUT_PART, "put-part")                     \
    X(PART, "part")                             \
    X(SURVEYS, "surveys")                       \
    X(KEEP_ANSWER, "keep-answer")               \
    X(KEPT_ANSWERS, "kept-answers")             \
    X(CALLBACKS, "callbacks")                   \
    X(LOOSE_PARENTS, "loose-parents")           \
    X(DROP_WORDS, "drop-words")                 \
    X(PUT_WORDS, "put-words")                   \
    X(SEARCH, "search")

typedef enum qll_statement {
#define QLL_STATEMENT_NAME(name, word) QLL_STATEMENT_##name,
    QLL_STATEMENT_LIST(QLL_STATEMENT_NAME)
#undef QLL_STATEMENT_NAME
    QLL_STATEMENT_COUNT
} qll_statement;

extern const char *const qll_statement_words[QLL_STATEMENT_COUNT];

/** Which database the statements are for. */
typedef enum qll_dialect {
    QLL_DIALECT_SQLITE,
    QLL_DIALECT_POSTGRES,
} qll_dialect;

/** The text of @p statement, without its end. */
qll_text qll_statement_text(qll_statement statement, qll_dialect dialect);

#endif
