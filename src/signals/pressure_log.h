/* A log of pressures beside a station: what it says of the valve, the supply, the building and the logger.
 *
 * One pass over rows of any number in constant memory; docs/theory/pressure_log.md says how each finding is defined. */
#ifndef QUELL_SIGNALS_PRESSURE_LOG_H
#define QUELL_SIGNALS_PRESSURE_LOG_H

#include "signals/flow_log.h"

/** What is found: X(NAME, word, kind of its value). A value is in SI; a rate in its kind a second. */
#define QLL_PRESSURE_WORD_LIST(X)                                  \
    X(CREEP, "creep", PRESSURE_DIFFERENCE)                         \
    X(THERMAL_EXPANSION, "thermal-expansion", PRESSURE_DIFFERENCE) \
    X(LOCK_UP, "lock-up", PRESSURE_DIFFERENCE)                     \
    X(FALL_OFF, "fall-off", PRESSURE_DIFFERENCE)                   \
    X(FALL_OFF_DRIFT, "fall-off-drift", PRESSURE_DIFFERENCE)       \
    X(INLET_EFFECT, "inlet-effect", NUMBER)                        \
    X(SUPPLY_SWING, "supply-swing", PRESSURE_DIFFERENCE)           \
    X(SET_POINT_DRIFT, "set-point-drift", PRESSURE_DIFFERENCE)     \
    X(HUNTING, "hunting", PRESSURE_DIFFERENCE)                     \
    X(CHATTER, "chatter", PRESSURE_DIFFERENCE)                     \
    X(HAMMER, "hammer", PRESSURE_DIFFERENCE)                       \
    X(STRAINER, "strainer", PRESSURE_DIFFERENCE)                   \
    X(AIR, "air", NUMBER)                                          \
    X(LOGGER_FAULT, "logger-fault", NUMBER)

typedef enum qll_pressure_word {
#define QLL_PRESSURE_WORD_NAME(name, word, kind) QLL_PRESSURE_WORD_##name,
    QLL_PRESSURE_WORD_LIST(QLL_PRESSURE_WORD_NAME)
#undef QLL_PRESSURE_WORD_NAME
    QLL_PRESSURE_WORD_COUNT
} qll_pressure_word;

extern const char *const qll_pressure_words[QLL_PRESSURE_WORD_COUNT];

/** What is wrong with a logger: X(NAME, word). */
#define QLL_LOGGER_FAULT_LIST(X) \
    X(STUCK, "stuck")            \
    X(CLIPPED, "clipped")        \
    X(CLOCK, "clock")            \
    X(GAPS, "gaps")              \
    X(VALUES, "values")          \
    X(SWAPPED, "swapped")        \
    X(GLITCHES, "glitches")      \
    X(HUM, "hum")

typedef enum qll_logger_fault {
#define QLL_LOGGER_FAULT_NAME(name, word) QLL_LOGGER_FAULT_##name,
    QLL_LOGGER_FAULT_LIST(QLL_LOGGER_FAULT_NAME)
#undef QLL_LOGGER_FAULT_NAME
    QLL_LOGGER_FAULT_COUNT
} qll_logger_fault;

extern const char *const qll_logger_fault_words[QLL_LOGGER_FAULT_COUNT];

/** Why something was not judged: X(NAME, word). */
#define QLL_UNJUDGED_LIST(X) \
    X(RATE, "rate")          \
    X(CHANNEL, "channel")    \
    X(TIME, "time")          \
    X(STEP, "step")

typedef enum qll_unjudged_why {
#define QLL_UNJUDGED_NAME(name, word) QLL_UNJUDGED_##name,
    QLL_UNJUDGED_LIST(QLL_UNJUDGED_NAME)
#undef QLL_UNJUDGED_NAME
    QLL_UNJUDGED_COUNT
} qll_unjudged_why;

extern const char *const qll_unjudged_words[QLL_UNJUDGED_COUNT];

typedef struct qll_unjudged {
    bool holds;
    qll_unjudged_why why;
    double
        needs; /* RATE: rows a second that would do; TIME: seconds of it; STEP: Pa at most; else NaN */
    qll_channel channel; /* CHANNEL: the one that is missing */
} qll_unjudged;

/* Points of a stretch that is kept as evidence. */
#define QLL_STRETCH_POINTS 96

/** The readings a finding rests on, thinned to averages; NaN where there is none. */
typedef struct qll_pressure_stretch {
    double from_unix_s, to_unix_s;
    size_t count;
    double inlet_pa[QLL_STRETCH_POINTS], outlet_pa[QLL_STRETCH_POINTS],
        flow_m3s[QLL_STRETCH_POINTS];
} qll_pressure_stretch;

/** One finding. What it has no use for is NaN. */
typedef struct qll_pressure_finding {
    qll_pressure_word word;
    qll_logger_fault fault; /* of LOGGER_FAULT */
    qll_channel channel;    /* of LOGGER_FAULT */
    double from_unix_s, to_unix_s;
    double strength; /* 0 to 1; 0.5 and above: act on it */
    double value;    /* by its word; a creep's per second */
    double flow_m3s;
    double frequency_hz;
    double per_hour;
    double rise_s;
    double share;                        /* of windows, runs or time */
    double count;                        /* of waves */
    double expected;                     /* the same value of the survey's station */
    double ratio;                        /* to the station's */
    double level_pa_gauge;               /* where it ends, or what it starts from */
    bool is_from_survey;                 /* of a drift: from what the survey says */
    bool is_step;                        /* of a drift: at once, at from */
    bool is_of_inlet;                    /* of a fall-off drift: the inlet falls away as well */
    bool is_over_inlet;                  /* of an expansion */
    bool ends_at_inlet;                  /* of a creep */
    const qll_pressure_stretch *stretch; /* NULL = none */
} qll_pressure_finding;

/** Swings from here on are counted: 50 psi. */
#define QLL_CYCLE_PA 344737.86

/** What the log is like, whatever it means. NaN where it cannot be told. */
typedef struct qll_pressure_features {
    double inlet_p05_pa_gauge, inlet_median_pa_gauge, inlet_p95_pa_gauge;
    double outlet_p05_pa_gauge, outlet_median_pa_gauge, outlet_p95_pa_gauge;
    double outlet_noise_pa, outlet_step_pa; /* sigma; least step between readings */
    double window_count, window_s, late_count, early_share, late_share;
    double lock_up_pa_gauge, set_point_pa_gauge;
    double inlet_effect;
    double should_set_pa_gauge,
        should_lock_up_pa_gauge;       /* of the survey's station, at the median inlet */
    double fall_off_slope;             /* Pa per m3/s */
    double fall_off_pa, high_flow_m3s; /* at the 95 % flow of the runs */
    double fall_off_moved_pa;          /* over the log, at that flow; below 0: it shrank */
    double fall_off_span_count;        /* days or so of which it is known */
    double run_count;
    double cycles_per_day; /* of QLL_CYCLE_PA or more */
    double night_count;    /* of which lock-up is known */
} qll_pressure_features;

typedef struct qll_log_gap {
    double from_unix_s, to_unix_s;
} qll_log_gap;

/* The longest gaps that are listed. */
#define QLL_GAPS_LISTED 20

typedef struct qll_pressure_result {
    qll_flow_log_result log; /* rows, columns, mends; nothing of water */
    bool has[QLL_CHANNEL_COUNT];
    const qll_pressure_finding *findings; /* the strongest first */
    size_t finding_count;
    qll_unjudged unjudged[QLL_PRESSURE_WORD_COUNT];
    qll_pressure_features features;
    qll_log_gap gaps[QLL_GAPS_LISTED]; /* in order of time */
    size_t gap_count;                  /* listed */
    long long gap_total;
    double gap_s;
    qll_pressure_stretch overview; /* the whole log */
} qll_pressure_result;

/** What a station should do, to compare with. */
typedef struct qll_pressure_expect {
    void *context;
    /** Outlet at an inlet (both Pa gauge) and a flow; NaN where it cannot pass it. NULL = no survey. */
    double (*outlet_pa_gauge)(void *context, double inlet_pa_gauge, double flow_m3s);
} qll_pressure_expect;

/**
 * Opens a reader of a log of pressures; fed, finished and read again as a meter's log (flow_log.h). Its result is put into
 * qll_pressure_result's `log`, and qll_pressure_judge() asked with what was `taken`.
 *
 * @param options copied; its taker is set here
 * @return NULL without memory
 */
qll_flow_log *qll_pressure_log_open(const qll_flow_log_options *options, qll_arena *arena);

typedef struct qll_pressure_state qll_pressure_state;

/** Begins a log whose rows come as numbers; NULL without memory. */
qll_pressure_state *qll_pressure_begin(const qll_channel_facts *facts, qll_arena *arena);

/** Takes rows in order: as qll_channel_taker's take(). */
void qll_pressure_take(qll_pressure_state *state, const int64_t *at_ms, const double *const *values,
                       size_t count);

/** Judges what was taken: fills in all of @p result but `log`, which is read. Once only. False without memory. */
bool qll_pressure_judge(qll_pressure_state *state, const qll_pressure_expect *expect,
                        qll_arena *arena, qll_pressure_result *result);

#endif
