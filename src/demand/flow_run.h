/* How a flow is made to run behind a station by somebody who stands at it: docs/theory/setting.md. */
#ifndef QUELL_DEMAND_FLOW_RUN_H
#define QUELL_DEMAND_FLOW_RUN_H

#include "demand/scenario.h"

/** X(NAME, fixture of data/fixtures.csv): what gives a steady flow when it is opened all the way, the most first. */
#define QLL_TAP_LIST(X)               \
    X(TUB, "combination bath/shower") \
    X(BATH, "bathtub")                \
    X(BIBB, "hose bibb")              \
    X(SERVICE_SINK, "service sink")   \
    X(KITCHEN, "kitchen faucet")      \
    X(SHOWER, "shower")               \
    X(LAVATORY, "lavatory faucet")

typedef enum qll_tap {
#define QLL_TAP_NAME(name, word) QLL_TAP_##name,
    QLL_TAP_LIST(QLL_TAP_NAME)
#undef QLL_TAP_NAME
    QLL_TAP_COUNT
} qll_tap;

typedef struct qll_flow_run {
    double flow_m3s;
    size_t opened[QLL_TAP_COUNT]; /* besides the station's hose valve, all the way */
    bool is_short;                /* what is known of the building does not give so much */
    bool is_for_busiest_hour;     /* more fixtures than QLL_TAPS_BY_HAND would be opened */
    bool has_lavatory;            /* the building has one, */
    bool has_shower;              /* and one of these */
} qll_flow_run;

/** So many fixtures one person still opens and comes back (our assumption); more the building opens by itself when it is
 * busiest, and the hose valve adds what is wanting. */
#define QLL_TAPS_BY_HAND 5

/** What a 3/4 in hose valve at a station gives all the way open (our assumption). */
#define QLL_HOSE_VALVE_M3S (10.0 * 0.003785411784 / 60.0)

/**
 * What is opened for @p flow_m3s: the station's hose valve alone as far as it gives so much, else it and the least
 * number of the fixtures of @p scenario, groups taken apart. Flows are those of the survey, else the table's.
 *
 * @return QLL_OK or QLL_NO_MEMORY; @p arena is for scratch
 */
QLL_MUST_USE qll_status qll_flow_run_of(const qll_scenario *scenario, double flow_m3s,
                                        qll_arena *arena, qll_flow_run *run);

#endif
