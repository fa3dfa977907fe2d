/* Records: what is kept of sites and visits (docs/theory/records.md, docs/formats/record.md). */
#ifndef QUELL_RECORDS_H
#define QUELL_RECORDS_H

#include "quell/quell.h"
#include "quell/report.h"
#include "quell/text.h"

QLL_C_BEGIN

/**
 * X(NAME, word, is a fact). A fact is written once and never changed: a correction is a new fact that names the old one. A document
 * has versions, and each names those it came from.
 */
#define QLL_RECORD_KIND_LIST(X)  \
    X(VISIT, "visit", true)      \
    X(READING, "reading", true)  \
    X(TEST, "test", true)        \
    X(PHOTO, "photo", true)      \
    X(SOUND, "sound", true)      \
    X(LOG, "log", true)          \
    X(SITE, "site", false)       \
    X(SURVEY, "survey", false)   \
    X(STATION, "station", false) \
    X(PLAN, "plan", false)       \
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
    const char *title; /* of a site or a log its name; of a visit its purpose, "service" */
    const char *words; /* of a site: all that a search looks through */
    const char *day;   /* of a visit: its day, "2026-11-20"; of a plan: the first day */
    int every_months;  /* of a plan; 0 = none */
    long long receipt; /* the store's number for it, from 1 on; 0 where no store has it yet */
} qll_record;

/** Whether @p one was written after @p other; of two that were written at once the greater id counts as the later. */
QLL_API bool qll_record_is_later(const qll_record *one, const qll_record *other);

/** A file that a survey names, and the log that stands for it. */
typedef struct qll_named_log {
    const char *name;         /* as the survey writes it */
    const qll_record *record; /* NULL = there is none */
    const char *sha256;       /* of its bytes; NULL likewise */
} qll_named_log;

/**
 * Finds the files that @p survey names among @p standing, what stands of its site. Of several logs of one file the one that was
 * written last counts.
 *
 * @param logs in @p arena, one for each name
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_API QLL_MUST_USE qll_status qll_named_logs_of(const qll_record *survey,
                                                  const qll_record *standing, size_t count,
                                                  qll_arena *arena, qll_named_log **logs,
                                                  size_t *log_count);

/** Tables that records are checked by: for whoever reads many of them. */
typedef struct qll_record_tables qll_record_tables;

/** Reads them into @p arena, with which they end; any number of threads may use them. NULL without memory. */
QLL_API const qll_record_tables *qll_record_tables_open(qll_arena *arena);

/**
 * Reads the JSON of one record (docs/formats/record.md) and checks all of it.
 *
 * @param tables   NULL = they are read for this one
 * @param language of what people read, as in qll_question
 * @param record   all of it in @p arena
 * @param answer   its problems; no bytes
 * @return QLL_OK, QLL_REFUSED or QLL_NO_MEMORY
 */
QLL_API QLL_MUST_USE qll_status qll_record_read(const qll_record_tables *tables,
                                                const qll_input *input, const char *language,
                                                qll_arena *arena, qll_record *record,
                                                qll_answer *answer);

/** What a new record is made of, as people give it. */
typedef struct qll_record_draft {
    qll_record_kind kind;
    const char *id, *site, *document, *corrects; /* as in qll_record; NULL = none */
    const char *const *parents;                  /* of a version, those it comes from */
    size_t parent_count;
    const char *who, *written_at;
    /* Members of the body, "key=value"; of an object in it "key.key=value". */
    const char *const *arguments;
    size_t argument_count;
    /* Of a survey, station or likelihood table the body; of a visit its case; of a site or a plan the body that the arguments
     * change, one with nothing behind its equals sign takes a member away. bytes NULL = none. */
    qll_input whole;
} qll_record_draft;

/** Makes a record of @p draft, and checks it as qll_record_read() does. */
QLL_API QLL_MUST_USE qll_status qll_record_make(const qll_record_draft *draft, const char *language,
                                                qll_arena *arena, qll_record *record,
                                                qll_answer *answer);

/** The JSON of @p record on one line, closed by a zero byte that does not count; without its receipt. QLL_OK or QLL_NO_MEMORY. */
QLL_API QLL_MUST_USE qll_status qll_record_write(const qll_record *record, qll_arena *arena,
                                                 qll_text *json);

/** What an export holds: docs/formats/record.md. */
typedef enum qll_split_of {
    QLL_SPLIT_RECORD,
    QLL_SPLIT_ATTACHMENT,
} qll_split_of;

/** Takes the JSON of one record or attachment; anything but QLL_OK ends the reading. */
typedef qll_status qll_record_taker(void *context, qll_text json, qll_split_of of);

/** An export that is being read: of any length, one record at a time in memory. */
typedef struct qll_record_split qll_record_split;

/** NULL without memory. It lives in @p arena, which nobody else may use until the end. */
QLL_API qll_record_split *qll_record_split_begin(qll_record_taker *take, void *context,
                                                 qll_arena *arena);

/** The next bytes. QLL_OK, QLL_REFUSED (no export), QLL_NO_MEMORY, or what the taker said. */
QLL_API QLL_MUST_USE qll_status qll_record_split_take(qll_record_split *split, const char *bytes,
                                                      size_t size);

/** Whether all that was begun was ended. */
QLL_API bool qll_record_split_is_whole(const qll_record_split *split);

/** A site as lists show it. */
typedef struct qll_site_row {
    const char *site;        /* UUID */
    const char *name;        /* "" where its own record has not come yet */
    const char *name_key;    /* what lists are ordered by, before the id */
    const char *plan_day;    /* first day of the plan of service; NULL = there is no plan */
    int every_months;        /* of the plan of service; 0 = there is none */
    const char *service_day; /* of the last visit that counts as service; NULL = none */
    size_t conflicts;        /* documents with more than one version that stands */
} qll_site_row;

/** How an answer about records is told. */
typedef struct qll_telling {
    qll_form form;        /* TEXT or JSON; of a trend HTML too, a page with its drawings */
    const char *units;    /* "us", "si"; NULL = "us" */
    const char *language; /* "en", "es"; NULL = "en" */
    const char *today;    /* "2026-11-20": nothing here knows the day */
    size_t most;          /* of sites that are listed; 0 = all. Counts are of all */
    bool
        has_sheets; /* a trend as JSON has that page in it, and what it takes to read its drawings */
} qll_telling;

/* Answers about records. All live in the arena handed in; QLL_OK, QLL_WRONG_USE (of no such day, form or language) or QLL_NO_MEMORY. */

/** Sites, in the order handed in: sites/1. */
QLL_API QLL_MUST_USE qll_status qll_tell_sites(const qll_telling *telling, const qll_site_row *rows,
                                               size_t count, qll_arena *arena, qll_answer *answer);

/** Those that have a plan of service, the one that was due first before all others: due/1. */
QLL_API QLL_MUST_USE qll_status qll_tell_due(const qll_telling *telling, const qll_site_row *rows,
                                             size_t count, qll_arena *arena, qll_answer *answer);

/** The same as a calendar of one day each (RFC 5545). @p created: now, "20261130T120000Z". Form and units count for nothing. */
QLL_API QLL_MUST_USE qll_status qll_tell_calendar(const qll_telling *telling,
                                                  const qll_site_row *rows, size_t count,
                                                  const char *created, qll_arena *arena,
                                                  qll_answer *answer);

/** A site and what stands of its records: site/1. */
QLL_API QLL_MUST_USE qll_status qll_tell_site(const qll_telling *telling, const qll_site_row *row,
                                              const qll_record *records, size_t count,
                                              qll_arena *arena, qll_answer *answer);

/** How set-point, lock-up and strainer loss of a site move, by what stands of its records: trend/1. */
QLL_API QLL_MUST_USE qll_status qll_tell_trend(const qll_telling *telling, const qll_site_row *row,
                                               const qll_record *records, size_t count,
                                               qll_arena *arena, qll_answer *answer);

/** The same as sheets with their drawings, PDF or HTML. @return as above; QLL_WRONG_USE of another @p form too */
QLL_API QLL_MUST_USE qll_status qll_make_trend(const qll_telling *telling, const qll_site_row *row,
                                               const qll_record *records, size_t count,
                                               qll_sheets_form form, qll_arena *arena,
                                               qll_made_report *made);

/** A station that was checked: quell check's cost of what is there. */
typedef struct qll_ranked_site {
    const qll_site_row *row;
    double callback_share; /* the chance of a callback */
    double callback;       /* what one costs in the mean */
    double expected;       /* share times that */
    const char *currency;  /* NULL = the catalogue does not say */
    const char
        *mechanism; /* what it would come from above all, as check calls it; NULL = nobody knows */
} qll_ranked_site;

/** A chance that was worked out a year ago or more, and whether somebody was called back within a year of it. */
typedef struct qll_kept_promise {
    double callback_share;
    bool called_back;
} qll_kept_promise;

typedef struct qll_ranking {
    const qll_ranked_site *sites;
    size_t site_count;
    size_t without_station; /* sites with no survey, or with one that has no station */
    const qll_kept_promise *promises;
    size_t promise_count;
} qll_ranking;

/** Stations by what a callback is to be expected to cost, the dearest first, and how earlier chances did: rank/1. */
QLL_API QLL_MUST_USE qll_status qll_tell_ranking(const qll_telling *telling,
                                                 const qll_ranking *ranking, qll_arena *arena,
                                                 qll_answer *answer);

/** The gauge readings in @p records as rows of CSV (RFC 4180), SI; @p with_heads: the row of heads first. @p row NULL: nothing but the heads. */
QLL_API QLL_MUST_USE qll_status qll_tell_readings(const qll_site_row *row,
                                                  const qll_record *records, size_t count,
                                                  bool with_heads, qll_arena *arena,
                                                  qll_answer *answer);

QLL_C_END

#endif
