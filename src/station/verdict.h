/* Is it right? Every rule judged over all flows and supply pressures: good, caution or fail. */
#ifndef QUELL_STATION_VERDICT_H
#define QUELL_STATION_VERDICT_H

#include "base/said.h"
#include "base/units.h"
#include "station/closed.h"
#include "station/hazard.h"
#include "station/operate.h"
#include "station/strainer.h"

/** X(NAME, word). Rules are reported in this order. */
#define QLL_RULE_LIST(X)        \
    X(DELIVERY, "delivery")     \
    X(STATIC, "static")         \
    X(RATIO, "ratio")           \
    X(VELOCITY, "velocity")     \
    X(CAPACITY, "capacity")     \
    X(LOW_FLOW, "low-flow")     \
    X(CAVITATION, "cavitation") \
    X(NOISE, "noise")           \
    X(RATING, "rating")         \
    X(EXPANSION, "expansion")   \
    X(STRAINER, "strainer")     \
    X(HUNTING, "hunting")       \
    X(HAMMER, "hammer")

typedef enum qll_rule {
#define QLL_RULE_NAME(name, word) QLL_RULE_##name,
    QLL_RULE_LIST(QLL_RULE_NAME)
#undef QLL_RULE_NAME
    QLL_RULE_COUNT
} qll_rule;

extern const char *const qll_rule_words[QLL_RULE_COUNT];

typedef enum qll_grade {
    QLL_GRADE_GOOD,
    QLL_GRADE_UNKNOWN, /* not looked at; counts as neither caution nor fail */
    QLL_GRADE_CAUTION,
    QLL_GRADE_FAIL,
    QLL_GRADE_COUNT
} qll_grade;

extern const char *const qll_grade_words[QLL_GRADE_COUNT];

/**
 * X(NAME): what a verdict found, so that wording can say it. What its figures mean:
 *
 * | finding    | value                          | limit            | value_at_peak               |
 * |------------|--------------------------------|------------------|-----------------------------|
 * | DELIVERY_* | pressure in hand at the outlet | 0                |                             |
 * | FALLOFF_*  | fall-off at the peak           | permitted        |                             |
 * | STATIC_*   | lowest outlet at no flow, gauge | static_max      |                             |
 * | RATIO_*    | worst gauge ratio              | the one to keep  |                             |
 * | VELOCITY_* | volume-weighted mean           | the bound met or broken | at the design peak   |
 * | VELOCITY_PIPE | in the pipe at the design peak | most for it   |                             |
 * | CAPACITY_* | opening at the design peak     | share            |                             |
 * | LOW_FLOW_* | share of flowing time below the least stable flow | none | share of the water  |
 * | CAVITATION_* | worst margin xF/xFzp1        | 1                | share of flowing time above |
 * | NOISE_*    | loudest level of all points    | heard from here on | level in the middle of water |
 * | RATING_*   | what it sees                   | what it is rated |                             |
 * | EXPANSION_NO_HEATER | 0                     | none             |                             |
 * | EXPANSION_BYPASS | highest static of the main  | most permitted   |                             |
 * | EXPANSION_TANK_* | tank that is needed      | tank there is    | precharge it needs, gauge   |
 * | EXPANSION_LITTLE_ROOM | tank that is needed | tank there is    | precharge it needs, gauge   |
 * | EXPANSION_NO_ROOM, _RELIEF_* | outlet at no flow, gauge | most the tank, least the relief may have | |
 * | STRAINER_* | what they take off the outlet, half blocked | permitted |                     |
 * | HUNTING_*  | least damping ratio of a small swing | 0         | its swings a second, not STEADY |
 * | HAMMER_NOT_RUN, _NO_PIPES, _NO_TREE |       |                  |                             |
 * | HUNTING_RUN, _QUICK | half swing behind a valve     | none             |                             |
 * | HAMMER_RUN, _QUICK | pressure, or how much it jumps | what it is held against |                      |
 *
 * FALLOFF stands in for DELIVERY where the survey names no outlets.
 */
/* clang-format off */
#define QLL_FINDING_LIST(X)                                                                        \
    X(DELIVERY_MET) X(DELIVERY_TIGHT) X(DELIVERY_SHORT) X(DELIVERY_STREET) X(DELIVERY_UNKNOWN) X(DELIVERY_BARELY)     \
    X(FALLOFF_MET) X(FALLOFF_TIGHT) X(FALLOFF_ABOVE) X(FALLOFF_STREET)                             \
    X(STATIC_MET) X(STATIC_NEAR) X(STATIC_ABOVE)                                                   \
    X(RATIO_PREFERRED) X(RATIO_HIGH) X(RATIO_ABOVE_MAX)                                            \
    X(VELOCITY_IN_BAND) X(VELOCITY_SLOW) X(VELOCITY_QUICK) X(VELOCITY_FAST)                        \
    X(VELOCITY_ABOVE_MAX) X(VELOCITY_PIPE)                                                         \
    X(CAPACITY_IN_HAND) X(CAPACITY_NEAR_FULL) X(CAPACITY_FULL_TRAVEL) X(CAPACITY_CANNOT_PASS)      \
    X(LOW_FLOW_NEVER) X(LOW_FLOW_STABLE) X(LOW_FLOW_WEAK) X(LOW_FLOW_UNSURE) X(LOW_FLOW_SOME) X(LOW_FLOW_MUCH)                                           \
    X(CAVITATION_QUIET) X(CAVITATION_SLIGHT) X(CAVITATION_NEAR) X(CAVITATION_HEARD) X(CAVITATION_OFTEN) X(CAVITATION_DAMAGING) \
    X(NOISE_QUIET) X(NOISE_SELDOM) X(NOISE_HEARD) X(NOISE_LOUD) X(NOISE_NO_PIPE)                   \
    X(NOISE_PLASTIC) X(NOISE_FLASHING) X(NOISE_CHOKED) X(NOISE_XF_HIGH)                            \
    X(RATING_WITHIN) X(RATING_INLET) X(RATING_SET_RANGE) X(RATING_TEMPERATURE)     \
    X(EXPANSION_NO_HEATER) X(EXPANSION_TANK_ENOUGH) X(EXPANSION_TANK_MISSING) X(EXPANSION_BYPASS)  \
    X(EXPANSION_TANK_SMALL) X(EXPANSION_LITTLE_ROOM) X(EXPANSION_NO_ROOM) X(EXPANSION_RELIEF_NEAR) X(EXPANSION_RELIEF_LOW) \
    X(STRAINER_NOTHING) X(STRAINER_EASY) X(STRAINER_EATS)                                          \
    X(HUNTING_STEADY) X(HUNTING_HELD) X(HUNTING_SWINGS) X(HUNTING_UNKNOWN)                         \
    X(HUNTING_RUN) X(HUNTING_QUICK) X(HAMMER_NOT_RUN) X(HAMMER_NO_PIPES) X(HAMMER_NO_TREE) \
    X(HAMMER_RUN) X(HAMMER_QUICK)

/* clang-format on */

typedef enum qll_finding {
#define QLL_FINDING_NAME(name) QLL_FINDING_##name,
    QLL_FINDING_LIST(QLL_FINDING_NAME)
#undef QLL_FINDING_NAME
    QLL_FINDING_COUNT
} qll_finding;

/** A place in a station that a verdict speaks of; SIZE_MAX where it speaks of the whole. */
typedef struct qll_spot {
    size_t stage, branch;
    size_t scenario; /* of the duty */
    size_t outlet;   /* of the site */
} qll_spot;

/** Where a valve comes nearest to cavitation, or deepest into it, and why. */
typedef struct qll_cavitation_corner {
    double flow_m3s; /* of the station; 0 = no such corner */
    double inlet_pa; /* absolute, of the valve's stage */
    qll_cavitation indices;
    double split_pa_gauge; /* between two stages of equal xF instead; NaN where it is quiet, or in
                              stages already */
} qll_cavitation_corner;

typedef struct qll_verdict {
    qll_rule rule;
    qll_grade grade;
    qll_finding finding;
    qll_kind kind; /* what value and limit measure; QLL_KIND_NUMBER for ratios, shares */
    double value, limit;
    double value_at_peak;      /* a second figure: velocity at the design peak, share of volume */
    double right_size_m;       /* velocity: the size that would not be too fast; else NaN */
    const qll_pipe_size *pipe; /* velocity: the pipe it speaks of; NULL = a valve, or not known */
    qll_spot spot;             /* where it is worst */
    double holds_share; /* of fail and caution the chance that it fails, of good that it does not; 1
                        for a fact, NaN if unknown (docs/theory/verdicts.md) */
    qll_cavitation_corner corner; /* cavitation; noise: where it is loudest, indices 0 */
    double
        past_share; /* noise, cavitation, good though past the limit: the share of flowing time past it; else NaN */
    double room_pa;           /* expansion, its TANK_* and LITTLE_ROOM: left below the limit */
    qll_tank_cures tank;      /* the same and NO_ROOM: what else would do */
    const qll_said *run_says; /* _RUN, _QUICK: the event, and what it did; else NULL */
} qll_verdict;

/** Shares of time; idle + the six flow classes = 1. full_travel and cavitating overlap them. */
typedef struct qll_time_shares {
    double idle, below_stable, below_band, in_band, above_band;
    double full_travel, cavitating;
} qll_time_shares;

typedef struct qll_assessment {
    qll_verdict verdicts[QLL_RULE_COUNT]; /* the worst of each rule */
    size_t verdict_count;
    const qll_verdict *details; /* per branch, outlet and scenario, behind the worst */
    size_t detail_count;
    qll_time_shares shares;
    size_t fail_count, caution_count; /* among verdicts */
    qll_operating_point worst,
        typical;                   /* the design peak at the highest supply; middle of the water */
    qll_operating_point loudest;   /* of all points, by level */
    const qll_handover *handovers; /* [stage], at the middle supply */
    double lockup_pa_gauge;        /* outlet at no flow, highest supply */
    double lockup_low_pa_gauge;    /* the same at the lowest: the day's swing lies between */
    qll_closed_system closed;
    qll_strainer *const *strainers; /* [stage][branch] */
} qll_assessment;

/** Solves all stages of the station at one flow, states included; arrays live in @p arena. */
QLL_MUST_USE qll_status qll_station_operate(const qll_station *station, const qll_site *site,
                                            double inlet_pa, double flow_m3s, qll_arena *arena,
                                            qll_operating_point *point);

/** Judges @p station by the site, the duty and the nodes of @p yardstick. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_station_assess(const qll_station *station,
                                           const qll_yardstick *yardstick, qll_arena *arena,
                                           qll_assessment *assessment);

/** A verdict of @p rule that is good as a fact and names no place; what is not known of it is NaN. */
qll_verdict qll_verdict_new(qll_rule rule, qll_kind kind);

/** Takes what a run found of a rule in place of what stands for it, unless that is graver. */
void qll_assessment_take_run(qll_assessment *assessment, const qll_verdict *verdict);

#endif
