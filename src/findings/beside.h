/* A log put beside a recording. */
#ifndef QUELL_FINDINGS_BESIDE_H
#define QUELL_FINDINGS_BESIDE_H

#include "signals/sound_beside.h"

/** Where it is known from when the recording began: X(NAME, word). */
#define QLL_BEGAN_LIST(X) \
    X(SAID, "said")       \
    X(FILE, "file")       \
    X(NAME, "name")       \
    X(TOGETHER, "together")

typedef enum qll_began {
#define QLL_BEGAN_NAME(name, word) QLL_BEGAN_##name,
    QLL_BEGAN_LIST(QLL_BEGAN_NAME)
#undef QLL_BEGAN_NAME
    QLL_BEGAN_COUNT
} qll_began;

typedef struct qll_beside_findings {
    const char *name; /* of the log */
    qll_began began;
    const qll_beside_result *result;
} qll_beside_findings;

#endif
