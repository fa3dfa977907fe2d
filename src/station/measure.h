/* What a station is expected to cost: docs/theory/recommendation.md, eq. 1 to 3. */
#ifndef QUELL_STATION_MEASURE_H
#define QUELL_STATION_MEASURE_H

#include "station/hazard.h"

/** X(NAME, word): what may bring somebody back. */
#define QLL_MECHANISM_LIST(X)   \
    X(CHATTER, "chatter")       \
    X(NOISE, "noise")           \
    X(CAVITATION, "cavitation") \
    X(WEAR, "wear")             \
    X(STARVED, "starved")       \
    X(PRESSURE, "pressure")     \
    X(HUNTING, "hunting")

typedef enum qll_mechanism {
#define QLL_MECHANISM_NAME(name, word) QLL_MECHANISM_##name,
    QLL_MECHANISM_LIST(QLL_MECHANISM_NAME)
#undef QLL_MECHANISM_NAME
    QLL_MECHANISM_COUNT
} qll_mechanism;

extern const char *const qll_mechanism_words[QLL_MECHANISM_COUNT];

typedef struct qll_cost {
    double installed;
    double callback_share; /* chance of a callback */
    double callback;       /* what one costs in the mean, those that follow it included */
    double expected;       /* installed + callback_share * callback */
    double mechanism_share[QLL_MECHANISM_COUNT]; /* each alone */
    double survival[QLL_NODES]; /* at each shared node, too much pressure left out */
    double halved[QLL_NODES], doubled[QLL_NODES]; /* the same with all severities so */
    double rest_chance;                           /* of too much pressure */
} qll_cost;

/** Chance of a callback from what survives at the shared nodes: eq. 3. */
double qll_callback_share(const qll_unknowns *unknowns, const double survival[QLL_NODES],
                          double rest_chance);

/**
 * Severity of hunting in @p stage: of the neighbours that come closest, at the worse of two inlets
 * (gauge); 0 for one valve. Branches may stand in any order.
 */
double qll_stage_hunting(const qll_stage *stage, double low_pa_gauge, double high_pa_gauge);

/** The inlets between which the set-points of stage @p stage must stay apart, gauge; of the first one
 * whatever the station, which may be NULL then. */
void qll_stage_inlets(const qll_yardstick *yardstick, const qll_station *station, size_t stage,
                      double *low_pa_gauge, double *high_pa_gauge);

/** What the hazards of one stage sum to. */
typedef struct qll_stage_sums {
    const qll_branch_ruler *branches; /* [branch], their share that chatters known */
    size_t branch_count;
    const qll_hazard_sums *hazards;
} qll_stage_sums;

typedef struct qll_station_sums {
    const qll_stage_sums *stages; /* [stage] */
    double
        rest_pa; /* outlet at no flow and the highest supply, absolute; NaN = it cannot be held */
} qll_station_sums;

/** Solves @p station over its duty and sums its hazards, in one pass; lives in @p arena. QLL_OK or
 * QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_station_sum(const qll_station *station, qll_yardstick *yardstick,
                                        qll_arena *arena, qll_station_sums *made);

/** Measures @p station. Gives back all it takes of @p arena but the pipes' shapes. QLL_OK or
 * QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_station_measure(const qll_station *station, qll_yardstick *yardstick,
                                            qll_arena *arena, qll_cost *cost);

#endif
