/* Words that a document takes and a table holds: pipes, fittings, fixtures and the like. */
#ifndef QUELL_DOCUMENTS_VOCABULARY_H
#define QUELL_DOCUMENTS_VOCABULARY_H

#include "quell/arena.h"
#include "quell/problems.h"

#include "base/said.h"

#include <stdbool.h>
#include <stddef.h>

/** X(NAME, word). */
#define QLL_VOCABULARY_LIST(X)          \
    X(PIPES, "pipes")                   \
    X(FITTINGS, "fittings")             \
    X(FIXTURES, "fixtures")             \
    X(MESHES, "meshes")                 \
    X(QUESTIONS, "questions")           \
    X(CAUSES, "causes")                 \
    X(LOG_FINDINGS, "log_findings")     \
    X(SOUND_FINDINGS, "sound_findings") \
    X(TOGETHER, "together")

typedef enum qll_vocabulary {
    QLL_VOCABULARY_NONE,
#define QLL_VOCABULARY_NAME(name, word) QLL_VOCABULARY_##name,
    QLL_VOCABULARY_LIST(QLL_VOCABULARY_NAME)
#undef QLL_VOCABULARY_NAME
    QLL_VOCABULARY_COUNT
} qll_vocabulary;

/** What each is called; NULL for none. */
extern const char *const qll_vocabulary_words[QLL_VOCABULARY_COUNT];

typedef struct qll_name {
    const char *word;
    const char *const *also; /* other words for it */
    size_t also_count;
    qll_text_id says; /* what it is; QLL_TEXT_NONE: as the word is said */
} qll_name;

typedef struct qll_names {
    const qll_name *names;
    size_t count;
    bool any_case; /* capitals are forgiven */
} qll_names;

struct qll_tables;
struct qll_knowledge;

/** The words of @p which, from the tables that are read by it. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_names_of(qll_vocabulary which, const struct qll_tables *tables,
                                     const struct qll_knowledge *knowledge, qll_arena *arena,
                                     qll_names *names);

#endif
