/* What is known of a callback: what people tell, what gauges read, what tests showed, what a log or a recording found. */
#ifndef QUELL_DIAGNOSIS_CASE_H
#define QUELL_DIAGNOSIS_CASE_H

#include "diagnosis/knowledge.h"

/** X(NAME, word): where a gauge sits. */
#define QLL_GAUGE_LIST(X) \
    X(INLET, "inlet")     \
    X(OUTLET, "outlet")

typedef enum qll_gauge {
#define QLL_GAUGE_NAME(name, word) QLL_GAUGE_##name,
    QLL_GAUGE_LIST(QLL_GAUGE_NAME)
#undef QLL_GAUGE_NAME
    QLL_GAUGE_COUNT
} qll_gauge;

extern const char *const qll_gauge_words[QLL_GAUGE_COUNT];

typedef struct qll_gauge_reading {
    qll_gauge gauge;
    double pressure_pa_gauge;
    double flow_m3s; /* 0 = no flow; NaN = not known */
    const char *at;  /* when, as it was written; NULL */
    bool is_left;    /* as left, after the work: no evidence of what was wrong */
} qll_gauge_reading;

/** A test that was made. */
typedef struct qll_made_test {
    size_t evidence, outcome;
    double measured; /* what the outcome was told from; NaN */
    const char *at;  /* NULL */
} qll_made_test;

/** X(NAME, key): what was looked at, and the key that a finding of it goes by: a log, a recording, both side by side. */
#define QLL_FINDING_OF_LIST(X) \
    X(LOG, "finding")          \
    X(SOUND, "kind")           \
    X(BOTH, "what")

typedef enum qll_finding_of {
#define QLL_FINDING_OF_NAME(name, key) QLL_FINDING_OF_##name,
    QLL_FINDING_OF_LIST(QLL_FINDING_OF_NAME)
#undef QLL_FINDING_OF_NAME
    QLL_FINDING_OF_COUNT
} qll_finding_of;

extern const char *const qll_finding_keys[QLL_FINDING_OF_COUNT];

/** What a log, a recording or both were found to show. */
typedef struct qll_case_finding {
    const char *word; /* "creep", "squeal", "hiss-ratio" */
    qll_finding_of of;
    double strength; /* 0 to 1; from 0.5 on it is there */
    double value;    /* in the unit that evidence of it is measured in; NaN */
} qll_case_finding;

typedef struct qll_case {
    const char *name;
    unsigned site;              /* what it has, as far as it is told */
    unsigned site_told;         /* of what that is told */
    double set_pa_gauge;        /* set-point of the last stage; NaN */
    const size_t *symptoms;     /* [evidence] outcome or QLL_NOT_KNOWN */
    const qll_made_test *tests; /* of several of one kind the last counts */
    size_t test_count;
    const qll_gauge_reading *readings;
    size_t reading_count;
    const qll_case_finding *findings;
    size_t finding_count;
    const char *const *done; /* what was done */
    size_t done_count;
    size_t cause; /* of a closed case; QLL_NOT_KNOWN */
} qll_case;

/** What a survey tells of it; NaN where it does not. */
typedef struct qll_case_facts {
    double velocity_m_s;   /* in the connecting pipe at the design peak */
    double low_flow_share; /* of the time with flow, below the least stable flow */
    double ratio;          /* inlet over outlet, gauge, at the highest street pressure */
    double falloff_ratio;  /* measured fall-off over what the station does at that flow and inlet */
} qll_case_facts;

/** X(NAME, word): where an answer comes from, the first that there is. */
#define QLL_ANSWER_FROM_LIST(X) \
    X(TEST, "test")             \
    X(SYMPTOM, "symptom")       \
    X(READING, "reading")       \
    X(FINDING, "finding")       \
    X(SURVEY, "survey")

typedef enum qll_answer_from {
#define QLL_ANSWER_FROM_NAME(name, word) QLL_ANSWER_FROM_##name,
    QLL_ANSWER_FROM_LIST(QLL_ANSWER_FROM_NAME)
#undef QLL_ANSWER_FROM_NAME
    QLL_ANSWER_FROM_COUNT
} qll_answer_from;

extern const char *const qll_answer_from_words[QLL_ANSWER_FROM_COUNT];

/** X(NAME): what must be seen to before anything else (docs/theory/diagnosis.md 4). */
#define QLL_DANGER_LIST(X) \
    X(RELIEF_RUNS)         \
    X(OUTLET_HIGH)         \
    X(ABOVE_INLET)

typedef enum qll_danger {
#define QLL_DANGER_NAME(name) QLL_DANGER_##name,
    QLL_DANGER_LIST(QLL_DANGER_NAME)
#undef QLL_DANGER_NAME
    QLL_DANGER_COUNT
} qll_danger;

/** X(NAME, word): why a finding that is there is no evidence. */
#define QLL_UNUSED_LIST(X)        \
    X(NO_QUESTION, "no-question") \
    X(NO_FIGURE, "no-figure")     \
    X(ANSWERED, "answered")

typedef enum qll_unused_why {
#define QLL_UNUSED_NAME(name, word) QLL_UNUSED_##name,
    QLL_UNUSED_LIST(QLL_UNUSED_NAME)
#undef QLL_UNUSED_NAME
    QLL_UNUSED_COUNT
} qll_unused_why;

extern const char *const qll_unused_words[QLL_UNUSED_COUNT];

/** A finding that is there and was not used. */
typedef struct qll_unused {
    const qll_case_finding *finding;
    qll_unused_why why;
    size_t evidence; /* that is answered otherwise; QLL_NOT_KNOWN where it answers nothing */
} qll_unused;

/** What is known, a line for each piece of evidence. */
typedef struct qll_gathered {
    size_t *answers;       /* [evidence] outcome or QLL_NOT_KNOWN */
    qll_answer_from *from; /* [evidence] of those that are known */
    double *figures;       /* [evidence] what the answer was told from, in its measure; NaN */
    qll_unused *unused;    /* findings that are no evidence */
    size_t unused_count;
    unsigned dangers;               /* one bit each */
    double highest_outlet_pa_gauge; /* of the readings as found; NaN */
} qll_gathered;

/** Takes the answers together: docs/theory/diagnosis.md 2. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_gather(const qll_knowledge *knowledge, const qll_case *of,
                                   const qll_case_facts *facts, qll_arena *arena,
                                   qll_gathered *gathered);

/** The reading as found with that gauge at the largest known flow (@p flows; the highest of several) or at none (the last of
 * several); NULL. */
const qll_gauge_reading *qll_case_reading(const qll_case *of, qll_gauge gauge, bool flows);

/** The words for what they may be found to show. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_finding_words(qll_finding_of of, qll_arena *arena,
                                          const char *const **words, size_t *count);

#endif
