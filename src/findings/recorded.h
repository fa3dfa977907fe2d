/* What was found in records, before it is written. */
#ifndef QUELL_FINDINGS_RECORDED_H
#define QUELL_FINDINGS_RECORDED_H

#include "quell/records.h"

#include "findings/drawn.h"
#include "records/calibration.h"
#include "records/drift.h"
#include "wording/wording.h"

/** X(NAME, word): how near the next service is. */
#define QLL_DUE_LIST(X)   \
    X(OVERDUE, "overdue") \
    X(SOON, "soon")       \
    X(LATER, "later")     \
    X(NO_PLAN, "no-plan")

typedef enum qll_due_state {
#define QLL_DUE_NAME(name, word) QLL_DUE_##name,
    QLL_DUE_LIST(QLL_DUE_NAME)
#undef QLL_DUE_NAME
    QLL_DUE_COUNT
} qll_due_state;

extern const char *const qll_due_words[QLL_DUE_COUNT];

/** From how many days before a service is soon (our assumption: a month to plan in). */
#define QLL_SOON_DAYS 30

typedef struct qll_due_site {
    const qll_site_row *row;
    qll_due_state state;
    int due; /* day since 1970; of QLL_DUE_NO_PLAN none */
} qll_due_site;

typedef struct qll_recorded {
    qll_wording wording;
    const char *today;
    const qll_due_site *sites;
    size_t site_count;
    size_t states[QLL_DUE_COUNT]; /* how many are so */
} qll_recorded;

/** A site with what stands of its records. */
typedef struct qll_recorded_site {
    qll_wording wording;
    qll_due_site due;
    const qll_record *records;
    size_t count;
} qll_recorded_site;

/** X(NAME, word): what is followed over the years. */
#define QLL_FOLLOWED_LIST(X) \
    X(SET, "set_point")      \
    X(LOCK_UP, "lock_up")    \
    X(STRAINER, "strainer_loss")

typedef enum qll_followed {
#define QLL_FOLLOWED_NAME(name, word) QLL_FOLLOWED_##name,
    QLL_FOLLOWED_LIST(QLL_FOLLOWED_NAME)
#undef QLL_FOLLOWED_NAME
    QLL_FOLLOWED_COUNT
} qll_followed;

extern const char *const qll_followed_words[QLL_FOLLOWED_COUNT];

/** One quantity over the years, Pa and Pa a year. */
typedef struct qll_course {
    qll_drift drift;
    double
        limit; /* which it moves towards; NaN = it does not move for sure, or there is none that way */
    qll_reached reached;
    const qll_drift_point *points; /* as they were compared */
    size_t count;
} qll_course;

typedef struct qll_recorded_trend {
    qll_wording wording;
    const qll_site_row *row;
    qll_course courses[QLL_FOLLOWED_COUNT];
    qll_sheets_told page; /* where it was asked for */
} qll_recorded_trend;

/** Stations in the order in which to see to them. */
typedef struct qll_recorded_ranking {
    qll_wording wording;
    const qll_ranked_site *sites; /* the dearest first */
    size_t site_count, without_station;
    qll_calibration calibration;
} qll_recorded_ranking;

#endif
