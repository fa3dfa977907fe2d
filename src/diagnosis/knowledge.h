/* What may be wrong, what may be asked about it, and how likely each answer is: data/causes.csv, evidence.csv,
 * likelihood.csv. */
#ifndef QUELL_DIAGNOSIS_KNOWLEDGE_H
#define QUELL_DIAGNOSIS_KNOWLEDGE_H

#include "quell/arena.h"
#include "quell/problems.h"

#include "base/kind.h"
#include "base/said.h"

#include <stdint.h>

/** X(NAME, word): what a site has, that a cause needs or a test is worth asking for. */
#define QLL_SITE_HAS_LIST(X)                    \
    X(WATER_HEATER, "water_heater")             \
    X(BACKFLOW_PREVENTER, "backflow_preventer") \
    X(PILOT_OPERATED, "pilot_operated")         \
    X(BRANCHES, "branches_ge_2")                \
    X(STAGES, "stages_ge_2")

typedef enum qll_site_has {
#define QLL_SITE_HAS_NAME(name, word) QLL_SITE_HAS_##name,
    QLL_SITE_HAS_LIST(QLL_SITE_HAS_NAME)
#undef QLL_SITE_HAS_NAME
    QLL_SITE_HAS_COUNT
} qll_site_has;

extern const char *const qll_site_has_words[QLL_SITE_HAS_COUNT];

/** A set of them: one bit each. */
#define QLL_SITE_HAS_BIT(has) (1U << (unsigned)(has))

/** X(NAME, word): how an answer is come by. */
#define QLL_EVIDENCE_KIND_LIST(X) \
    X(ASK, "ask")                 \
    X(LOOK, "look")               \
    X(GAUGE, "gauge")             \
    X(CALC, "calc")               \
    X(TEST, "test")               \
    X(LOG, "log")                 \
    X(RECORD, "record")

typedef enum qll_evidence_kind {
#define QLL_EVIDENCE_KIND_NAME(name, word) QLL_EVIDENCE_KIND_##name,
    QLL_EVIDENCE_KIND_LIST(QLL_EVIDENCE_KIND_NAME)
#undef QLL_EVIDENCE_KIND_NAME
    QLL_EVIDENCE_KIND_COUNT
} qll_evidence_kind;

extern const char *const qll_evidence_kind_words[QLL_EVIDENCE_KIND_COUNT];

/** No evidence, no answer, no cause. */
#define QLL_NOT_KNOWN SIZE_MAX

/** One answer that a piece of evidence may have. */
typedef struct qll_outcome {
    const char *word;
    qll_text_id says;
    double usual; /* its share where nothing of the kind is wrong */
    /* Least figure that is this answer; -INFINITY = from below; NaN = never by a figure. */
    double from;
    bool is_over; /* that figure itself is not */
} qll_outcome;

/** When something is worth asking. */
typedef struct qll_condition {
    size_t evidence;      /* that must have been answered so; QLL_NOT_KNOWN = none */
    const bool *outcomes; /* [its outcome] which will do */
    unsigned site;        /* what the site must have, a set */
} qll_condition;

typedef struct qll_evidence {
    const char *word;
    size_t group; /* from 0 */
    qll_evidence_kind kind;
    double minutes;
    qll_condition only_if;
    qll_text_id asks, how; /* how: QLL_TEXT_NONE where the question says it */
    const char *caution;   /* what hurts: "scalds", "relieve"; "" */
    double amount;         /* that the question speaks of, Pa; NaN */
    bool is_measured;
    qll_kind measure; /* of figures that answer it */
    bool is_share;    /* they are of 0 to 1, and may be said in percent */
    const qll_outcome *outcomes;
    size_t outcome_count;
    size_t first; /* its first outcome among all: row of the likelihood */
} qll_evidence;

typedef struct qll_cause {
    const char *word;
    double weight;
    unsigned needs;                  /* what the site must have, a set */
    double hours;                    /* of work to cure it */
    size_t confirm, confirm_outcome; /* the evidence that settles it; QLL_NOT_KNOWN */
    const char *cures;               /* kinds of a check's cures, parted by blanks; "" */
    qll_text_id says, cure;
} qll_cause;

/** The tables, with what the model takes from nowhere else (docs/theory/diagnosis.md 1, 3). */
typedef struct qll_knowledge {
    const qll_cause *causes;
    size_t cause_count;
    size_t other; /* the cause that stands for none of them */
    const qll_evidence *evidence;
    size_t evidence_count;
    size_t group_count;
    size_t outcome_count;     /* of all evidence */
    const double *likelihood; /* [outcome of all][cause] */
    double lost_share;        /* m: a symptom does not show */
    double copied_share;      /* rho: answers of a group repeat each other */
    double callback_hours;    /* what a wrong cure costs */
} qll_knowledge;

/** Reads the embedded tables, with the shipped model. All lives in @p arena. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_knowledge_read(qll_arena *arena, qll_knowledge *knowledge);

/** Index of the evidence, cause or outcome with that word; QLL_NOT_KNOWN if there is none. An outcome may be
 * called by one of its parts, which no other has: "squeal" of "squeal_whistle". */
size_t qll_evidence_called(const qll_knowledge *knowledge, qll_text word);
size_t qll_cause_called(const qll_knowledge *knowledge, qll_text word);
size_t qll_outcome_called(const qll_evidence *evidence, qll_text word);

/** The outcome that a figure (SI, of evidence->measure) is; QLL_NOT_KNOWN where it is none. A figure that is off a
 * limit by rounding alone stands on it. */
size_t qll_outcome_of(const qll_evidence *evidence, double figure);

/** P(outcome | cause). */
static inline double qll_likelihood(const qll_knowledge *knowledge, size_t evidence, size_t outcome,
                                    size_t cause)
{
    return knowledge
        ->likelihood[(knowledge->evidence[evidence].first + outcome) * knowledge->cause_count
                     + cause];
}

#endif
