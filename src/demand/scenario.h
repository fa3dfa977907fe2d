/* One way the building is used: what draws water there. */
#ifndef QUELL_DEMAND_SCENARIO_H
#define QUELL_DEMAND_SCENARIO_H

#include "demand/fixture.h"

/** X(NAME, word in a survey, end-use set of data/enduse.csv, profile of data/diurnal.csv). */
#define QLL_USE_LIST(X)                                                          \
    X(APARTMENT, "apartment", "quell default dwelling", "apartment_measured_ES") \
    X(HOUSE, "house", "quell default dwelling", "apartment_measured_ES")         \
    X(OFFICE, "office", "quell default office", "office")

typedef enum qll_use {
#define QLL_USE_NAME(name, word, set, profile) QLL_USE_##name,
    QLL_USE_LIST(QLL_USE_NAME)
#undef QLL_USE_NAME
    QLL_USE_COUNT
} qll_use;

extern const char *const qll_use_words[QLL_USE_COUNT];

/** True where people live: fixtures are private, use probabilities of homes hold. */
bool qll_use_is_dwelling(qll_use use);

/* Dwellings where a survey does not count them: people / 2.3, as in the reference building of
 * docs/theory/pulse.md (our assumption). */
#define QLL_PEOPLE_PER_HOME 2.3

/* No building is larger; they bound time and memory (our assumption). */
#define QLL_PEOPLE_MAX        1e6
#define QLL_FIXTURE_COUNT_MAX 1000000 /* of all loads together */

typedef struct qll_fixture_load {
    const qll_fixture_kind *kind;
    size_t count;
    double flow_m3s;        /* the survey's own; NaN = the kind's */
    double use_probability; /* the survey's own; NaN = the kind's */
} qll_fixture_load;

/** A flow that runs by the clock; from == to means all day; from > to runs over midnight. */
typedef struct qll_continuous {
    const char *name;
    double flow_m3s;
    double from_s, to_s; /* time of day, 0 to 86400 */
} qll_continuous;

/**
 * X(NAME, word): how the design peak may be found.
 *
 * FIXTURE_UNITS_UPC is a word a survey may ask for and is answered with the reason why it is not
 * computed: docs/theory/fixture_units.md, section 4.
 */
#define QLL_PEAK_METHOD_LIST(X)                     \
    X(FIXTURE_UNITS_IPC, "fixture-units IPC")       \
    X(FIXTURE_UNITS_UPC, "fixture-units UPC")       \
    X(SIMULTANEOUS_USE, "simultaneous-use")         \
    X(NORMAL_APPROXIMATION, "normal-approximation") \
    X(PULSE_MODEL, "pulse-model")                   \
    X(GIVEN, "given")

typedef enum qll_peak_method {
#define QLL_PEAK_METHOD_NAME(name, word) QLL_PEAK_##name,
    QLL_PEAK_METHOD_LIST(QLL_PEAK_METHOD_NAME)
#undef QLL_PEAK_METHOD_NAME
    QLL_PEAK_METHOD_COUNT
} qll_peak_method;

extern const char *const qll_peak_method_words[QLL_PEAK_METHOD_COUNT];

typedef struct qll_scenario {
    const char *name;
    qll_use use;
    double people; /* 0 to QLL_PEOPLE_MAX, always given */
    double homes;  /* NaN if not given: then people / QLL_PEOPLE_PER_HOME for dwellings */
    const qll_fixture_load *loads;
    size_t load_count;
    const qll_continuous *continuous;
    size_t continuous_count;
    double weight;               /* among the scenarios of a survey, default 1 */
    qll_peak_method peak_method; /* QLL_PEAK_METHOD_COUNT = choose: see demand.h */
    double peak_given_m3s;       /* for QLL_PEAK_GIVEN, continuous flows included; else NaN */
    double quantile;             /* of simultaneous use and the pulse model, default 0.99 */
} qll_scenario;

#endif
