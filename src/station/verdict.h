/* Is it right? Every rule judged over all flows and supply pressures: good, caution or fail. */
#ifndef QUELL_STATION_VERDICT_H
#define QUELL_STATION_VERDICT_H

#include "base/units.h"
#include "station/closed.h"
#include "station/duty.h"
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
    X(STRAINER, "strainer")

typedef enum qll_rule {
#define QLL_RULE_NAME(name, word) QLL_RULE_##name,
    QLL_RULE_LIST(QLL_RULE_NAME)
#undef QLL_RULE_NAME
    QLL_RULE_COUNT
} qll_rule;

extern const char *const qll_rule_words[QLL_RULE_COUNT];

typedef enum qll_grade {
    QLL_GRADE_GOOD,
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
 * | STATIC_*   | outlet at no flow, gauge       | static_max       |                             |
 * | RATIO_*    | worst gauge ratio              | the one to keep  |                             |
 * | VELOCITY_* | volume-weighted mean           | the bound broken | at the design peak          |
 * | CAPACITY_* | opening at the design peak     | share            |                             |
 * | LOW_FLOW_* | share of flowing time          | share            | share of the water          |
 * | CAVITATION_* | worst margin xF/xFzp1        | 1                | share of flowing time above |
 * | NOISE_*    | loudest level people live with | the one to keep  | level in the middle of water |
 * | RATING_*   | what it sees                   | what it is rated |                             |
 * | EXPANSION_NO_HEATER | 0                     | none             |                             |
 * | EXPANSION_BYPASS | highest static of the main  | most permitted   |                             |
 * | EXPANSION_TANK_* | tank that is needed      | tank there is    | precharge it needs, gauge   |
 * | EXPANSION_NO_ROOM, _RELIEF_* | outlet at no flow, gauge | most the tank, least the relief may have | |
 * | STRAINER_* | what they take off the outlet, half blocked | permitted |                     |
 *
 * FALLOFF stands in for DELIVERY where the survey names no outlets.
 */
/* clang-format off */
#define QLL_FINDING_LIST(X)                                                                        \
    X(DELIVERY_MET) X(DELIVERY_TIGHT) X(DELIVERY_SHORT)                                            \
    X(FALLOFF_MET) X(FALLOFF_TIGHT) X(FALLOFF_ABOVE)                                               \
    X(STATIC_MET) X(STATIC_NEAR) X(STATIC_ABOVE)                                                   \
    X(RATIO_PREFERRED) X(RATIO_HIGH) X(RATIO_ABOVE_MAX)                                            \
    X(VELOCITY_IN_BAND) X(VELOCITY_SLOW) X(VELOCITY_OVERSIZED) X(VELOCITY_FAST)                    \
    X(VELOCITY_PEAK_FAST) X(VELOCITY_ABOVE_MAX)                                                    \
    X(CAPACITY_IN_HAND) X(CAPACITY_NEAR_FULL) X(CAPACITY_FULL_TRAVEL) X(CAPACITY_CANNOT_PASS)      \
    X(LOW_FLOW_STABLE) X(LOW_FLOW_SOME) X(LOW_FLOW_MUCH)                                           \
    X(CAVITATION_QUIET) X(CAVITATION_SOMETIMES) X(CAVITATION_OFTEN) X(CAVITATION_DAMAGING)         \
    X(NOISE_QUIET) X(NOISE_HEARD) X(NOISE_LOUD)                                                    \
    X(NOISE_PLASTIC) X(NOISE_FLASHING) X(NOISE_CHOKED) X(NOISE_XF_HIGH)                            \
    X(RATING_WITHIN) X(RATING_INLET) X(RATING_SET_RANGE) X(RATING_TEMPERATURE)     \
    X(EXPANSION_NO_HEATER) X(EXPANSION_TANK_ENOUGH) X(EXPANSION_TANK_MISSING) X(EXPANSION_BYPASS)  \
    X(EXPANSION_TANK_SMALL) X(EXPANSION_NO_ROOM) X(EXPANSION_RELIEF_NEAR) X(EXPANSION_RELIEF_LOW) \
    X(STRAINER_EASY) X(STRAINER_EATS)

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
    double value_at_peak; /* a second figure: velocity at the design peak, share of volume */
    double right_size_m;  /* velocity: the pipe size that would not be oversized; else NaN */
    qll_spot spot;        /* where it is worst */
    qll_cavitation_corner corner; /* cavitation only */
} qll_verdict;

/** Shares of time; idle + the six flow classes = 1. full_travel and cavitating overlap them. */
typedef struct qll_time_shares {
    double idle, below_stable, below_band, in_band, above_band;
    double full_travel, cavitating;
} qll_time_shares;

/** Least is best. All are sums of non-negative terms over duty, see docs/theory/score.md. */
typedef struct qll_objectives {
    double noise;    /* quietness: time- and volume-weighted penalty */
    double unsteady; /* mean departure of the outlet from what is wanted, Pa */
    double wear;
    double price; /* NaN prices count by the estimate of docs/theory/score.md */
} qll_objectives;

/** X(NAME, word): what could make a valve steadier at low flow. */
#define QLL_HELP_LIST(X)                \
    X(MORE_FALLOFF, "more-falloff")     \
    X(STIFFER_SPRING, "stiffer-spring") \
    X(TWO_STAGES, "two-stages")         \
    X(AIR, "air")

typedef enum qll_help_kind {
#define QLL_HELP_NAME(name, word) QLL_HELP_##name,
    QLL_HELP_LIST(QLL_HELP_NAME)
#undef QLL_HELP_NAME
    QLL_HELP_COUNT
} qll_help_kind;

extern const char *const qll_help_words[QLL_HELP_COUNT];

/** What it would do for a valve whose low-flow verdict is not good; an estimate. */
typedef struct qll_low_flow_help {
    qll_help_kind kind;
    qll_spot spot;
    double time_now,
        time_then;           /* share of the flowing time below stable flow; NaN: in words only */
    double between_pa_gauge; /* two stages: the pressure between them; else NaN */
} qll_low_flow_help;

typedef struct qll_assessment {
    qll_verdict verdicts[QLL_RULE_COUNT]; /* the worst of each rule */
    size_t verdict_count;
    const qll_verdict *details; /* per branch, outlet and scenario, behind the worst */
    size_t detail_count;
    qll_time_shares shares;
    qll_objectives objectives;
    size_t fail_count, caution_count;   /* among verdicts */
    qll_operating_point worst, typical; /* most penalised; middle of the water */
    qll_operating_point loudest;        /* by level, among the classes people live with */
    double loudness;                    /* mean of qll_point_loudness(), weighted as objectives */
    const qll_handover *handovers;      /* [stage], at the middle supply */
    double lockup_pa_gauge;             /* outlet at no flow, highest supply */
    double lockup_low_pa_gauge;         /* the same at the lowest: the day's swing lies between */
    qll_closed_system closed;
    qll_strainer *const *strainers; /* [stage][branch] */
    const qll_low_flow_help *help;
    size_t help_count;
} qll_assessment;

/** True if water in a branch's pipe is faster than it may ever be; one that only helps while another
 * is in charge may be faster (docs/theory/verdicts.md). */
bool qll_is_too_fast(const qll_limits *limits, double velocity_m_s, bool in_charge);

/** Solves all stages of the station at one flow, states included; arrays live in @p arena. */
QLL_MUST_USE qll_status qll_station_operate(const qll_station *station, const qll_site *site,
                                            double inlet_pa, double flow_m3s, qll_arena *arena,
                                            qll_operating_point *point);

/** Judges @p station on @p site over @p duty. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_station_assess(const qll_station *station, const qll_site *site,
                                           const qll_duty *duty, qll_arena *arena,
                                           qll_assessment *assessment);

/**
 * The verdicts of qll_station_assess() alone, by the same rules, for who asks many times. Gives back all
 * it takes of @p arena.
 *
 * @param worst the worst verdict of each rule that was judged, in the order of the rules
 * @param count how many those are
 */
QLL_MUST_USE qll_status qll_station_grade(const qll_station *station, const qll_site *site,
                                          const qll_duty *duty, qll_arena *arena,
                                          qll_verdict worst[QLL_RULE_COUNT], size_t *count);

#endif
