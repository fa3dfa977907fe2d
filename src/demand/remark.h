/* What is said of a demand: what an estimate holds for, why a method does not apply, warnings and
 * refusals. Here they are values; src/wording has their sentences. */
#ifndef QUELL_DEMAND_REMARK_H
#define QUELL_DEMAND_REMARK_H

#include "quell/problems.h"

#include "base/said.h"
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
    X(UNITS_TANK)      /* units; of them private, public */                                       \
    X(UNITS_FLUSH)     /* the same */                                                             \
    X(UNITS_OTHER)     /* name of a fixture; 1 = it should be private */                          \
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
    X(UPC_CHART) X(NO_BAND)

/** X(NAME): half sentences about a whole scenario, warnings and refusals. */
#define QLL_REMARK_SCENARIO_LIST(X)                                                               \
    X(NO_CODE_LOG)     /* because */                                                              \
    X(LOG_COARSE)      /* interval s */                                                           \
    X(LOG_SHORT)       /* time s */                                                               \
    X(METHOD_FAILS)    /* method, because */                                                      \
    X(NOTHING_DRAWS) X(NOTHING_FLOWS)                                                             \
    X(FAULT)           /* table = qll_scenario_fault() */

/* X(NAME): sentences and half sentences of all three kinds about which peak is taken and how it was
 * counted; the words are in src/wording/remarks_*.c. */
#define QLL_REMARK_PEAK_LIST(X)                                                                   \
    X(UNITS_SPLIT)     /* private units, public units */                                          \
    X(ROOMS_HOTEL)                                                                                \
    X(ROOMS_HOSPITAL)                                                                             \
    X(COUNTED_APART)   /* bathrooms, units, flow m3/s */                                          \
    X(COUNTED_GROUPS)  /* bathrooms, units, flow m3/s */                                          \
    X(FLUSH_TURNS)     /* share of the units; flow by the other column, m3/s */                   \
    X(FLUSH_LEAST)     /* flow of one flushometer, flow by the table, m3/s */                     \
    X(UNITS_HELD)                                                                                 \
    X(NOT_UPC)                                                                                    \
    X(TAKEN_APART)     /* groups */                                                               \
    X(BS_TAPS)                                                                                    \
    X(CLOCK_APART)     /* name; flow, busiest hour s, peak, peak without it, m3/s */              \
    X(CLOCK_MEETS)     /* the same */                                                             \
    X(PEOPLE_GIVEN)    /* name: key; people, count, people by that count */                       \
    X(UNITS_END)       /* units, flow m3/s */                                                     \
    X(LOG_ABOVE)       /* log's peak, the code's, m3/s */                                         \
    X(PEAK_NEEDED)     /* because */                                                              \
    X(CROWDED_HOMES)   /* people, homes, most people a home */                                    \
    X(CROWDED)         /* use; people, fixtures, most people a fixture */                         \
    X(EMPTY)           /* use; people, fixtures, most fixtures a person */                        \
    X(EMPTY_HOMES)     /* people, homes, most homes a person */

#define QLL_REMARK_LIST(X)    \
    QLL_REMARK_NOTE_LIST(X)   \
    QLL_REMARK_REASON_LIST(X) \
    QLL_REMARK_SCENARIO_LIST(X) \
    QLL_REMARK_PEAK_LIST(X)

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
    const char *name; /* a fixture as surveys write it */
    qll_said table;   /* what a table is called, or a row of it */
    double figures[QLL_REMARK_FIGURES];
    const struct qll_remark *because;
    const struct qll_remark *next; /* in a list of them; NULL = the last */
} qll_remark;

#endif
