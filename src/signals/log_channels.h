/* Logs of several quantities side by side: pressures, flow and temperature at each stamp. */
#ifndef QUELL_SIGNALS_LOG_CHANNELS_H
#define QUELL_SIGNALS_LOG_CHANNELS_H

#include "quell/arena.h"

#include "base/kind.h"

#include <stdbool.h>
#include <stdint.h>

/** X(NAME, word): what is read side by side, in SI: Pa gauge, Pa gauge, m3/s, K. */
#define QLL_CHANNEL_LIST(X) \
    X(INLET, "inlet")       \
    X(OUTLET, "outlet")     \
    X(FLOW, "flow")         \
    X(TEMPERATURE, "temperature")

typedef enum qll_channel {
#define QLL_CHANNEL_NAME(name, word) QLL_CHANNEL_##name,
    QLL_CHANNEL_LIST(QLL_CHANNEL_NAME)
#undef QLL_CHANNEL_NAME
    QLL_CHANNEL_COUNT
} qll_channel;

extern const char *const qll_channel_words[QLL_CHANNEL_COUNT];

/* A pressure beyond is none of a water pipe: below vacuum, or over what a surge in copper makes (our assumption). */
#define QLL_CHANNEL_LEAST_PA (-101325.0)
#define QLL_CHANNEL_MOST_PA  10e6

/** What a channel measures. */
qll_kind qll_channel_kind(qll_channel channel);

/** What whoever takes the rows should know first. */
typedef struct qll_channel_facts {
    bool has[QLL_CHANNEL_COUNT];
    double step[QLL_CHANNEL_COUNT]; /* last digit of the first rows, in SI; 0 = not known */
    int64_t interval_ms;            /* usual */
    const struct qll_zone *zone;    /* of the stamps; NULL: they have no clock */
} qll_channel_facts;

/** Who takes the rows of such a log. */
typedef struct qll_channel_taker {
    void *context;
    /** Begins one reading; each order that the dates may have is a reading of its own. NULL without memory. */
    void *(*begin)(void *context, const qll_channel_facts *facts, qll_arena *arena);
    /** Takes rows in order of time. @p values per channel in SI, NaN = unknown; NULL where the log has none. */
    void (*take)(void *state, const int64_t *at_ms, const double *const *values, size_t count);
} qll_channel_taker;

#endif
