/* The meter's own log: any of nine common shapes, mended and counted, to flow duration and peaks.
 *
 * One pass over blocks of bytes, constant memory at any size; docs/formats/flow_log.md says what is
 * read, docs/theory/flow_log.md how exact the figures are. */
#ifndef QUELL_SIGNALS_FLOW_LOG_H
#define QUELL_SIGNALS_FLOW_LOG_H

#include "base/problems.h"
#include "signals/log_channels.h"

#include <stdint.h>

/** What the rows hold. */
typedef enum qll_log_kind {
    QLL_LOG_KIND_UNKNOWN,  /* as an option: by the columns' names and units */
    QLL_LOG_KIND_FLOW,     /* a flow per row */
    QLL_LOG_KIND_VOLUME,   /* the volume of the row's interval */
    QLL_LOG_KIND_PULSES,   /* the pulses of the row's interval */
    QLL_LOG_KIND_REGISTER, /* a register that counts up */
    QLL_LOG_KIND_EVENTS,   /* start, end and volume (or flow) of every use */
    QLL_LOG_KIND_COUNT
} qll_log_kind;

/** Order of the numbers of a date. */
typedef enum qll_log_order {
    QLL_LOG_ORDER_UNKNOWN, /* as an option: by the file, refused if it does not tell */
    QLL_LOG_ORDER_YEAR_FIRST,
    QLL_LOG_ORDER_DAY_FIRST,
    QLL_LOG_ORDER_MONTH_FIRST,
    QLL_LOG_ORDER_COUNT
} qll_log_order;

/** Which end of its interval a stamp marks. */
typedef enum qll_log_stamp {
    QLL_LOG_STAMP_UNKNOWN, /* as an option: start for a flow, end for volumes and pulses */
    QLL_LOG_STAMP_START,
    QLL_LOG_STAMP_END,
    QLL_LOG_STAMP_COUNT
} qll_log_stamp;

/** What is done with rows of one stamp and different values. */
typedef enum qll_log_repeated {
    QLL_LOG_REPEATED_UNKNOWN, /* as an option: the last counts, and many are refused */
    QLL_LOG_REPEATED_LAST,
    QLL_LOG_REPEATED_SUM,
    QLL_LOG_REPEATED_COUNT
} qll_log_repeated;

/** What the log does not say itself. NULL, NaN, 0 or UNKNOWN where nothing is to be said. */
typedef struct qll_flow_log_options {
    const char *name; /* of the log, as the user named it; for places */
    qll_log_kind kind;
    qll_log_order order;
    qll_log_stamp stamp;
    char decimal;             /* ',' or '.' */
    const char *zone;         /* of local stamps: "-07:00", "MST7MDT,M3.2.0,M11.1.0",
                                 "America/Denver"; NULL: the clock as it stands, without summer time */
    const char *unit;         /* of the value: "gpm", "m3"; goes before what the header says */
    const char *time_column;  /* by name */
    const char *value_column; /* by name */
    const char *meter;        /* which meter of several */
    const char *key;          /* which quantity of a key-value log */
    double pulse_m3;          /* volume of one pulse */
    double most_flow_m3s;     /* what the meter can pass; NaN: QLL_LOG_MOST_FLOW_M3S */
    double dead_band_m3s;     /* flows up to it are no flow; NaN: 0 */
    double least_quality;     /* rows of a lower signal quality are unknown; NaN: over 0 */
    double heartbeat_s;       /* silence up to it is no flow; NaN: seen in the log's first rows */
    const char *meter_column; /* the column that tells meters apart, by name */
    qll_log_repeated repeated;
    bool blocks_from_first; /* blocks start at the first stamp, not on the clock */
    /* A log of pressures: who takes its rows, NULL = it is a meter's; by channel the column's name and the unit. */
    const qll_channel_taker *taker;
    const char *channel_columns[QLL_CHANNEL_COUNT], *channel_units[QLL_CHANNEL_COUNT];
} qll_flow_log_options;

qll_flow_log_options qll_flow_log_options_default(void);

/* A flow over it is taken for a fault when the meter's own limit is not given: about 3 m/s in a pipe
 * of 200 mm (our assumption). */
#define QLL_LOG_MOST_FLOW_M3S 0.1
/* Longest line; a longer one is refused. */
#define QLL_LOG_LINE_SIZE     ((size_t)64 * 1024)
/* Where times that run from the log's start begin: 2000-01-01, in ms from 1970. */
#define QLL_LOG_ELAPSED_MS    INT64_C(946684800000)
/* Rows of a key-value log may stand this many rows from their place; of any other log this many. */
#define QLL_LOG_WINDOW_KEYED  4096
#define QLL_LOG_WINDOW        64
/* A flow that stays the same to the last digit for longer is a meter that hangs (our assumption). */
#define QLL_LOG_STUCK_S       21600
/* Pulses up to this far apart are spread over their spacing (our assumption). */
#define QLL_LOG_SPACING_S     60
/* Greatest relative width of a class of the flow duration. */
#define QLL_LOG_CLASS_WIDTH   (1.0 / 256.0)

/** What was mended: X(NAME, word, sentence). Counted in rows; gaps and segments by occurrence. */
#define QLL_LOG_MEND_LIST(X)                                                                      \
    X(DUPLICATE, "duplicate", "Rows with a stamp and value seen before; left out.")               \
    X(CONFLICT, "other-value",                                                                    \
      "Rows with a stamp seen before and another value; the last counts.")                        \
    X(ADDED, "added", "Rows of one stamp whose values are added, as the survey says.")            \
    X(UNIT, "changed-unit", "Rows in another unit than the first; converted.")                    \
    X(OUT_OF_ORDER, "out-of-order", "Rows out of their order; put in their place.")               \
    X(LATE, "late", "Rows too late to be put in order; left out.")                                \
    X(STAMP, "bad-stamp", "Rows whose stamp is not a time of a log; left out.")                   \
    X(REPEATED_HOUR, "repeated-hour", "Local hours the log holds twice, at the end of summer.")   \
    X(SKIPPED_HOUR, "skipped-hour", "Rows of a local hour that never was, at summer's start.")    \
    X(EMPTY, "empty-value", "Rows without a value; unknown.")                                     \
    X(UNREADABLE, "unreadable-value", "Rows whose value is not a number; unknown.")               \
    X(SENTINEL, "sentinel", "Rows with a number that stands for a fault; unknown.")               \
    X(POOR_SIGNAL, "poor-signal", "Rows the meter itself marks as bad; unknown.")                 \
    X(NEGATIVE, "negative", "Negative flows; taken as no flow.")                                  \
    X(DEAD_BAND, "dead-band", "Flows within the dead band; taken as no flow.")                    \
    X(ABSURD, "absurd", "Flows over what the meter can pass; unknown.")                           \
    X(IMPOSSIBLE, "impossible", "Rows with a pressure below vacuum or beyond any pipe; unknown.") \
    X(STUCK, "stuck", "Rows of a meter that hangs at one flow; unknown.")                         \
    X(STEADY, "steady", "Rows of one and the same flow for over 6 h; kept as they are.")          \
    X(WRONG_READING, "wrong-reading", "Readings of a register too high once; stepped over.")      \
    X(GAP, "gap", "Gaps between rows; unknown, never spread over the time.")                      \
    X(CATCH_UP, "catch-up", "Volumes counted over a gap; in the total only.")                     \
    X(BACKWARDS, "backwards", "Registers that went backwards; a new segment starts.")             \
    X(ROLL_OVER, "roll-over", "Registers that passed their last digit; counted on.")              \
    X(HEARTBEAT, "heartbeat", "Silences between two rows that mean no flow.")                     \
    X(SHORT_ROW, "short-row", "Rows with too few cells; left out.")                               \
    X(HEADER, "repeated-header", "Headers in the middle of the log; left out.")                   \
    X(OTHER, "other-meter", "Rows of another meter or quantity; left out.")                       \
    X(DURATION, "duration", "Events whose stamps do not fit their duration; the duration holds.") \
    X(OVERLAP, "overlap", "Events that run at the same time; their flows are added.")

typedef enum qll_log_mend_kind {
#define QLL_LOG_MEND_NAME(name, word, sentence) QLL_LOG_MEND_##name,
    QLL_LOG_MEND_LIST(QLL_LOG_MEND_NAME)
#undef QLL_LOG_MEND_NAME
    QLL_LOG_MEND_COUNT
} qll_log_mend_kind;

const char *qll_log_mend_word(qll_log_mend_kind kind);
const char *qll_log_mend_sentence(qll_log_mend_kind kind);
const char *qll_log_kind_word(qll_log_kind kind);

typedef struct qll_log_mend {
    long long count;
    long long first_line; /* of the log, from 1; 0 if it is known by its time only */
    double first_unix_s;  /* NaN if it is known by its line only */
} qll_log_mend;

/* Averaging times, s: 1, 4, 10, 30, 60, 300, 900, 1800, 3600. */
#define QLL_LOG_PEAKS 9
extern const int qll_log_peak_windows_s[QLL_LOG_PEAKS];

/** The greatest mean flow over one averaging time. NaN where the log's interval is longer. */
typedef struct qll_log_peak {
    int window_s;
    double block_m3s;      /* over whole blocks */
    double rolling_m3s;    /* over any stretch */
    double zero_share;     /* of blocks without any flow */
    long long block_count; /* whole blocks, all of them known */
} qll_log_peak;

typedef struct qll_log_hour {
    double time_s, volume_m3;
} qll_log_hour;

typedef struct qll_log_point {
    double flow_m3s; /* mean flow of its class: within QLL_LOG_CLASS_WIDTH of every flow in it */
    double time_share, volume_share; /* cumulative; the last is 1, 1 */
} qll_log_point;

/**
 * What a reader should know of a log: X(NAME, word, is a warning). Figures: a share of rows, water or
 * time, 0 to 1; then a flow, m3/s; a time, s; a volume, m3; how many, of how many.
 */
#define QLL_LOG_NOTE_LIST(X)                  \
    X(NEWEST_FIRST, "newest-first", false)    \
    X(JOINED, "joined", false)                \
    X(MENDED_ROWS, "mended-rows", true)       \
    X(UNPLACED_WATER, "unplaced-water", true) \
    X(UNKNOWN_TIME, "unknown-time", true)     \
    X(ODD_ROW, "odd-row", true)               \
    X(HEAVY_ROW, "heavy-row", true)           \
    X(COARSE_STEP, "coarse-step", true)       \
    X(STEP, "step", false)                    \
    X(DAMPED, "damped", true)

typedef enum qll_log_note_kind {
#define QLL_LOG_NOTE_NAME(name, word, warns) QLL_LOG_NOTE_##name,
    QLL_LOG_NOTE_LIST(QLL_LOG_NOTE_NAME)
#undef QLL_LOG_NOTE_NAME
    QLL_LOG_NOTE_COUNT
} qll_log_note_kind;

/** One of them; figures that it does not use are NaN. */
typedef struct qll_log_note {
    bool holds;
    double share, flow_m3s, time_s, volume_m3, count, of;
} qll_log_note;

const char *qll_log_note_word(qll_log_note_kind kind);
bool qll_log_note_warns(qll_log_note_kind kind);

typedef struct qll_flow_log_result {
    /* what was found */
    qll_log_kind kind;
    qll_log_order order; /* UNKNOWN for Unix time */
    qll_log_stamp stamp;
    char delimiter, decimal;                       /* delimiter '{' for JSON lines */
    const char *time_column, *value_column, *unit; /* "" where the log has no name for it */
    bool local_known;                /* hours are those of the place, or of the log's own clock */
    long long line_count, row_count; /* lines read; rows taken */
    /* time and water */
    double first_unix_s, last_unix_s;
    double covered_s, unknown_s;
    double volume_m3;   /* all, with what was caught up */
    double unplaced_m3; /* of it caught up: when it flowed is unknown */
    double mean_m3s;    /* over the time covered */
    double max_m3s;
    double idle_share;
    double quantum_m3s; /* flow of one pulse per interval; NaN if there are no pulses */
    double interval_s;  /* the usual one */
    bool hides_peaks;   /* interval over 1 min: peak and low flow are not resolved */
    bool never_zero;    /* no time without flow: a leak, or a meter's zero point */
    qll_log_peak peaks[QLL_LOG_PEAKS];
    double night_least_m3s; /* least mean of any hour within 02:00 to 05:00; NaN if none is whole */
    qll_log_hour profile[2][24]; /* weekdays, weekends; by the local hour */
    qll_log_mend mends[QLL_LOG_MEND_COUNT];
    qll_log_note notes[QLL_LOG_NOTE_COUNT];
    double step_m3s;      /* the meter's least step per interval; NaN if none is seen */
    bool has_coarse_step; /* it is too coarse: idle_share is NaN, and so is a peak of few steps */
    double damping_s;     /* time constant of a meter that settles slowly; NaN if it does not */
    const qll_log_point *points; /* flows rising, the first may be 0; in the arena */
    size_t point_count;
    /* of a log of pressures, which has rows and mends only: */
    void *taken;                 /* what its taker began */
    const struct qll_zone *zone; /* of its stamps */
    bool offset_known;           /* the zone is said; else it is the clock as it stands */
    bool is_elapsed;             /* times run from the log's start, QLL_LOG_ELAPSED_MS */
    const char *channel_columns[QLL_CHANNEL_COUNT],
        *channel_units[QLL_CHANNEL_COUNT]; /* NULL = none */
} qll_flow_log_result;

typedef struct qll_flow_log qll_flow_log;

/** A log that can be read at any place, as often as is needed. */
typedef struct qll_log_source {
    void *context;
    uint64_t size;
    /** Reads *size bytes from @p at on, fewer only at the end; says in *size how many. */
    qll_status (*read_at)(void *context, uint64_t at, char *bytes, size_t *size, const char **why);
} qll_log_source;

/**
 * Opens a reader of one log.
 *
 * @param options copied; what its pointers show must outlive the reader
 * @return the reader, in @p arena; NULL without memory
 */
qll_flow_log *qll_flow_log_open(const qll_flow_log_options *options, qll_arena *arena);

/**
 * Takes the next bytes of the log, in blocks of any size.
 *
 * @return QLL_OK; QLL_REFUSED or QLL_NO_MEMORY once that is certain, and for all further blocks:
 *         qll_flow_log_finish() says why
 */
QLL_MUST_USE qll_status qll_flow_log_feed(qll_flow_log *log, const char *bytes, size_t size);

/**
 * Ends the log and gives its figures.
 *
 * @return QLL_OK, QLL_REFUSED (problems with line, row and column) or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_flow_log_finish(qll_flow_log *log, qll_flow_log_result *result,
                                            qll_problems *problems);

/** True if a finished log should be read again by qll_flow_log_again(): its rows stand in no order, or
 * one row is far over all others. */
bool qll_flow_log_wants_again(const qll_flow_log *log);

/**
 * Reads a log again that qll_flow_log_wants_again(): its rows in the order of time, a row that cannot be
 * left out. Places of problems are then times, not lines.
 *
 * @param log    finished; what it found is replaced
 * @param source the log's bytes, unpacked. Where they cannot be had again the first reading stands.
 * @return as qll_flow_log_finish(), or what @p source gave
 */
QLL_MUST_USE qll_status qll_flow_log_again(qll_flow_log *log, const qll_log_source *source,
                                           qll_flow_log_result *result, qll_problems *problems);

/** Least flow with at least @p share of the time at or below it; @p share over 0, at most 1. */
double qll_flow_log_percentile_m3s(const qll_flow_log_result *result, double share);

/** Share of the time at or below @p flow_m3s, and of the water. */
qll_log_point qll_flow_log_at(const qll_flow_log_result *result, double flow_m3s);

#endif
