/* What is said of a demand: what an estimate holds for, why a method does not apply, warnings and
 * refusals. Here they are values; src/wording has their sentences. */
#ifndef QUELL_DEMAND_REMARK_H
#define QUELL_DEMAND_REMARK_H

#include "quell/problems.h"

#include "demand/fixture.h"
#include "demand/scenario.h"

/* clang-format off */

/** X(NAME): whole sentences about one estimate. Behind each: what it carries, figures in order. */
#define QLL_REMARK_NOTE_LIST(X)                                                                   \
    X(PULSE)           /* use, day; quantile, people */                                           \
    X(PULSE_READ_AS)                                                                              \
    X(NO_HOURS)        /* day */                                                                  \
    X(LOG)             /* averaging time, time of the log, interval, s */                         \
    X(LOG_EVENTS)      /* averaging time, time of the log */                                      \
    X(LOG_HIDES)                                                                                  \
    X(LOG_FACTOR)      /* use; factor, people */                                                  \
    X(GIVEN)                                                                                      \
    X(CONTINUOUS)                                                                                 \
    X(DIN)             /* table = the use as the standard calls it; sum m3/s, its a, b and c */   \
    X(DIN_UNIT)                                                                                   \
    X(LOADING)         /* units, points of the graph */                                           \
    X(BAND)            /* fixtures; each, least, most m3/s, NaN = no most */                      \
    X(UNITS_TANK)      /* use; units */                                                           \
    X(UNITS_FLUSH)     /* use; units */                                                           \
    X(UNITS_OTHER)     /* use, name of a fixture */                                               \
    X(QUANTILE)        /* quantile */                                                             \
    X(STEPS)           /* step, rounding m3/s */                                                  \
    X(HOMES)                                                                                      \
    X(NORMAL_WITHIN)   /* fixtures busy on average */                                             \
    X(NORMAL_OUTSIDE)  /* the same */                                                             \
    X(NORMAL_LOW)

/** X(NAME): half sentences, why a method does not apply. */
#define QLL_REMARK_REASON_LIST(X)                                                                 \
    X(NO_FIXTURES) X(NO_PEOPLE) X(NO_LOG) X(NO_PEAK)                                              \
    X(PEAK_TOO_LOW)                                                                               \
    X(NO_PROBABILITY)  /* name of a fixture */                                                    \
    X(NO_FLOW)         /* name of a fixture */                                                    \
    X(HOMES_ONLY)      /* name of a fixture */                                                    \
    X(DIN_NO_USE)      /* use */                                                                  \
    X(DIN_NO_FLOW)     /* name of a fixture */                                                    \
    X(DIN_RANGE)       /* sum, least, most m3/s */                                                \
    X(NO_LOADING)      /* table, name of a fixture */                                             \
    X(NO_GRAPH)        /* table; units */                                                         \
    X(GRAPH_FALLS)                                                                                \
    X(OUTSIDE_GRAPH)   /* table; units, first and last of the points */                           \
    X(NO_UNITS)        /* name of a fixture */                                                    \
    X(UNITS_END)       /* units */                                                                \
    X(UPC_CHART) X(NO_BAND)

/** X(NAME): half sentences about a whole scenario, warnings and refusals. */
#define QLL_REMARK_SCENARIO_LIST(X)                                                               \
    X(NO_CODE)         /* method, because */                                                      \
    X(NO_CODE_LOG)     /* because */                                                              \
    X(LOG_COARSE)      /* interval s */                                                           \
    X(LOG_SHORT)       /* time s */                                                               \
    X(METHOD_FAILS)    /* method, because */                                                      \
    X(NOTHING_DRAWS) X(NOTHING_FLOWS)                                                             \
    X(FAULT)           /* name: qll_scenario_fault() */

#define QLL_REMARK_LIST(X)    \
    QLL_REMARK_NOTE_LIST(X)   \
    QLL_REMARK_REASON_LIST(X) \
    QLL_REMARK_SCENARIO_LIST(X)

/* clang-format on */

typedef enum qll_remark_id {
#define QLL_REMARK_NAME(name) QLL_REMARK_##name,
    QLL_REMARK_LIST(QLL_REMARK_NAME)
#undef QLL_REMARK_NAME
    QLL_REMARK_COUNT
} qll_remark_id;

#define QLL_REMARK_FIGURES 4

typedef struct qll_remark {
    qll_remark_id id;
    qll_code code; /* of warnings and refusals */
    qll_use use;
    qll_day_kind day;
    qll_peak_method method;
    const char *name;  /* a fixture as surveys write it */
    const char *table; /* what a table is called, or a row of it */
    double figures[QLL_REMARK_FIGURES];
    const struct qll_remark *because;
    const struct qll_remark *next; /* in a list of them; NULL = the last */
} qll_remark;

#endif
