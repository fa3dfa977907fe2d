/* Rows with stamps, put in order, mended and turned into stretches of known flow. */
#ifndef QUELL_SIGNALS_LOG_RECORDS_H
#define QUELL_SIGNALS_LOG_RECORDS_H

#include "signals/log_damping.h"
#include "signals/log_shape.h"
#include "signals/log_statistics.h"

/* Rows held back, so that late ones find their place; and of a log of pressures, whose rows are looked at in many ways
 * once they are handed on: as many as stay near at hand meanwhile. */
#define QLL_RECORDS_ROOM       ((size_t)8192)
#define QLL_CHANNELS_ROOM      ((size_t)1024 + QLL_LOG_WINDOW)
/* Events that run at once; sums of flows stay under QLL_CLASS_END_M3S. */
#define QLL_RECORDS_EVENTS     255
/* Silence of an event list longer than this is unknown (our assumption). */
#define QLL_RECORDS_SILENCE_MS ((int64_t)31 * 86400 * 1000)

typedef struct qll_event {
    int64_t end_ms;
    double flow_m3s;
} qll_event;

/** How a log is to be read: the usual interval, and what is a gap or a fault. */
typedef struct qll_records_rule {
    qll_log_kind kind;
    qll_log_stamp stamp;
    double factor; /* value to m3/s or m3 */
    bool value_is_flow;
    bool has_channels; /* a log of pressures */
    bool keyed;
    int64_t interval_ms;
    bool is_provisional;  /* the interval is that of rows without flow: log_settle.c */
    bool adds_repeated;   /* rows of one stamp are parts of one flow */
    bool own_offsets;     /* stamps say what the clock of the place shows, each its own */
    bool finds_heartbeat; /* no option says which it is */
    int64_t heartbeat_ms; /* silence up to it is no flow; 0: none */
    double most_m3s, dead_band_m3s;
} qll_records_rule;

typedef struct qll_records {
    qll_records_rule rule;
    /* rows in order; the newest at the end */
    int64_t *at_ms;
    double *value;
    int64_t *end_ms;   /* of events */
    int32_t *offset_s; /* of stamps with an offset of their own; else NULL */
    size_t count, window, room;
    /* of a log of pressures: the other channels beside `value`, which is the first; NULL where there is none */
    const qll_channel_taker *taker;
    void *taken;
    qll_channel first_channel;
    int32_t row_offset_s; /* of the row that is being taken */
    double *channel[QLL_CHANNEL_COUNT];
    double row_channel[QLL_CHANNEL_COUNT]; /* of the row that is being taken */
    int64_t *lengths;                      /* scratch of log_settle.c */
    int64_t floor_ms;                      /* newest row that was handed on */
    long long taken_count;
    bool is_provisional;
    bool too_far; /* a row of a keyed log stands too far from its place */
    bool started;
    /* the row before */
    int64_t before_ms;
    double before;
    double rate;     /* value to m3/s over the usual interval */
    int64_t same_ms; /* since when the flow has not changed */
    /* what is longer than a meter is trusted: what follows tells whether it hangs */
    int64_t stuck_start_ms, stuck_ms;
    double stuck_m3s, stuck_value, steady_value;
    long long stuck_rows;
    /* register: the last rise, until the next reading agrees with it */
    bool has_held;
    int64_t held_start_ms;
    double held_from;
    /* register: the reading in front of a doubtful one */
    bool has_doubt;
    int64_t doubt_ms;
    double doubt;
    /* pulses: empty intervals since the last one */
    bool pulsed;
    int64_t empty_ms;
    /* events that run */
    qll_event *events;
    size_t event_count;
    int64_t event_ms;
    /* figures */
    int64_t first_ms, last_ms, unknown_ms, least_ms, longest_ms;
    int64_t hole_ms;      /* the longest stretch between two rows that is unknown */
    double register_step; /* what all readings are multiples of; 0 = not yet, NaN = nothing */
    qll_damping *damping; /* NULL where it is not looked for */
    long long intervals, irregular;
    double unplaced_m3;
    qll_log_mend mends[QLL_LOG_MEND_COUNT];
    qll_statistics statistics;
} qll_records;

/** The nearest of the usual lengths, which divide the averaging times, if it is near: a clock that
 * drifts a little keeps to one. */
int64_t qll_nice_interval_ms(int64_t interval_ms);

QLL_MUST_USE bool qll_records_begin(qll_records *r, const qll_records_rule *rule,
                                    const qll_zone *zone, bool blocks_from_first, qll_arena *arena);

/** Makes @p r take the channels that @p facts name, for @p taker; before its first row. False without memory. */
bool qll_records_begin_channels(qll_records *r, const qll_channel_taker *taker,
                                const qll_channel_facts *facts, qll_arena *arena);

/** Counts one mended row, by its line or by its time (the other 0 or INT64_MIN). */
void qll_records_mend(qll_records *r, qll_log_mend_kind kind, long long line, int64_t at_ms);

/** Takes a row that is not simply the next; see qll_records_take(). */
void qll_records_take_any(qll_records *r, int64_t at_ms, double value, int64_t end_ms,
                          long long line);

/** Hands on the oldest rows, at most @p count of them and at least one, and makes room. */
void qll_records_hand_on(qll_records *r, size_t count);

/* Silences of a logger that reports changes only are this many intervals at least. */
#define QLL_HEARTBEAT_INTERVALS 5
/* Rows that flow, from which the usual interval is taken. */
#define QLL_FLOWING_LEAST       3
/* Rows that are looked at for the usual interval. */
#define QLL_USUAL_ROWS          ((size_t)1000)

void qll_lengths_sort(int64_t *lengths, size_t count);

/**
 * The median interval behind rows that flow (in front of them, where the stamp is the end); of all
 * rows, if not @p flowing. @p lengths has room for QLL_USUAL_ROWS, as many as are looked at.
 *
 * @return 0 if fewer than @p least are there
 */
int64_t qll_usual_interval_ms(const int64_t *at_ms, const double *values, size_t count, bool at_end,
                              bool flowing, size_t least, int64_t *lengths);

/**
 * While the interval is provisional: how many of the oldest @p count rows may be handed on by it.
 * Once rows flow their interval takes its place, and it becomes the heartbeat.
 */
size_t qll_records_settle(qll_records *r, size_t count);

/** The other channels of a row that goes to @p place. */
static inline void qll_records_put_channels(qll_records *r, size_t place)
{
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (r->channel[c] != NULL) {
            r->channel[c][place] = r->row_channel[c];
        }
    }
}

/** Takes one row; a value of NaN is unknown. @p line is 0 where the caller does not count. */
static inline void qll_records_take(qll_records *r, int64_t at_ms, double value, int64_t end_ms,
                                    long long line)
{
    if (r->count == 0 || at_ms <= r->at_ms[r->count - 1]) {
        qll_records_take_any(r, at_ms, value, end_ms, line);
        return;
    }
    r->at_ms[r->count] = at_ms;
    r->value[r->count] = value;
    if (r->end_ms != NULL) {
        r->end_ms[r->count] = end_ms;
    }
    if (r->offset_s != NULL) {
        r->offset_s[r->count] = r->row_offset_s;
    }
    if (r->taker != NULL) {
        qll_records_put_channels(r, r->count);
    }
    r->count += 1;
    if (r->count == r->room) {
        qll_records_hand_on(r, r->room - r->window);
    }
}

/** Takes a row of a log of pressures whose values stand behind those of the rows before; false, and it is not taken, if it is
 * not simply the next. */
static inline bool qll_records_take_placed(qll_records *r, int64_t at_ms)
{
    if (r->count == 0 || at_ms <= r->at_ms[r->count - 1]) {
        return false;
    }
    r->at_ms[r->count] = at_ms;
    r->count += 1;
    if (r->count == r->room) {
        qll_records_hand_on(r, r->room - r->window);
    }
    return true;
}

/** Hands on all rows of a log of pressures and fills in what is known of @p result. */
void qll_records_end_channels(qll_records *r, qll_flow_log_result *result);

/** Hands on all rows and fills in what is known of @p result. */
QLL_MUST_USE bool qll_records_end(qll_records *r, qll_arena *arena, qll_flow_log_result *result);

/* The kinds (log_kinds.c): each takes the rows in order. */
void qll_records_samples(qll_records *r, const int64_t *at_ms, const double *values, size_t count);
void qll_records_pulses(qll_records *r, int64_t at_ms, double value);
void qll_records_register(qll_records *r, int64_t at_ms, double value);
void qll_records_event(qll_records *r, int64_t at_ms, int64_t end_ms, double value);
void qll_records_last(qll_records *r);

#endif
