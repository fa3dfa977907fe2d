/* Records: what is kept of sites and visits (docs/theory/records.md, docs/formats/record.md). */
#ifndef QUELL_RECORDS_H
#define QUELL_RECORDS_H

#include "quell/quell.h"
#include "quell/text.h"

QLL_C_BEGIN

/**
 * X(NAME, word, is a fact). A fact is written once and never changed: a correction is a new fact that names the old one. A document
 * has versions, and each names those it came from.
 */
#define QLL_RECORD_KIND_LIST(X)      \
    X(VISIT, "visit", true)          \
    X(READING, "reading", true)      \
    X(TEST, "test", true)            \
    X(PHOTO, "photo", true)          \
    X(SOUND, "sound", true)          \
    X(SITE, "site", false)           \
    X(SURVEY, "survey", false)       \
    X(STATION, "station", false)     \
    X(PLAN, "plan", false)           \
    X(LIKELIHOOD, "likelihood", false)

typedef enum qll_record_kind {
#define QLL_RECORD_KIND_NAME(name, word, is_fact) QLL_RECORD_##name,
    QLL_RECORD_KIND_LIST(QLL_RECORD_KIND_NAME)
#undef QLL_RECORD_KIND_NAME
    QLL_RECORD_KIND_COUNT
} qll_record_kind;

QLL_API extern const char *const qll_record_kind_words[QLL_RECORD_KIND_COUNT];

/** Whether records of @p kind are facts. */
QLL_API bool qll_record_is_fact(qll_record_kind kind);

/** How many versions one may come from: one that it changes, or those that it settles. */
#define QLL_RECORD_PARENTS 8

/** A UUID as text (RFC 9562), small letters. */
#define QLL_RECORD_ID_SIZE 36

/** One record. Its texts are closed; those that may be missing are NULL. */
typedef struct qll_record {
    const char *id; /* UUID, made where the record was made */
    qll_record_kind kind;
    const char *site;     /* UUID of the site's document; NULL of a likelihood table */
    const char *document; /* UUID that all versions of it share; NULL of a fact */
    const char *parents[QLL_RECORD_PARENTS]; /* of a version: those it came from */
    size_t parent_count;
    const char *corrects;   /* of a fact: the one it takes the place of */
    const char *who;        /* who wrote it */
    const char *written_at; /* by the clock of that device: "2026-11-20T21:40:00-07:00" */
    long long written_ms;   /* the same, since 1970 */
    qll_text body;          /* JSON without blanks; what it holds depends on the kind */
    /* What is searched, taken from the body. */
    const char *title;   /* of a site: its name */
    const char *words;   /* of a site: all that a search looks through */
    const char *day;     /* of a visit that counts as service: "2026-11-20"; of a plan: the first day */
    int every_months;    /* of a plan; 0 = none */
    long long receipt;   /* the store's number for it, from 1 on; 0 where no store has it yet */
} qll_record;

QLL_C_END

#endif
