/* A log of pressures on its way to findings, for the files that make it up. */
#ifndef QUELL_SIGNALS_PRESSURE_STATE_H
#define QUELL_SIGNALS_PRESSURE_STATE_H

#include "numeric/rainflow.h"
#include "numeric/spectrum.h"
#include "signals/log_zone.h"
#include "signals/pressure_log.h"

/* Values of the slow copy in a block, a day of seconds and some; those of the middle copy; records of windows and runs
 * that are kept: when they are full every other one goes, and then only every other new one comes in, and so on. */
#define QLL_SLOW_ROOM        ((size_t)90000)
#define QLL_MIDDLE_ROOM      ((size_t)4096)
#define QLL_KEPT_ROOM        ((size_t)4096)
#define QLL_NIGHT_ROOM       ((size_t)4096)
/* Classes of 0.5 kPa from vacuum to 10 MPa. */
#define QLL_CLASS_PA         500.0
#define QLL_CLASS_COUNT      ((size_t)20204)
/* Averages that the whole log is kept in: at most twice as many as are shown. */
#define QLL_WHOLE_POINTS     (2 * (size_t)QLL_STRETCH_POINTS)
/* Groups that a slope is taken over (pressure_log.md). */
#define QLL_SLOPE_GROUPS     ((size_t)60)
/* From here on a slope is a rise, Pa/s: 0.2 and 0.05 kPa/min. */
#define QLL_EARLY_LEAST_PA_S (200.0 / 60.0)
#define QLL_LATE_LEAST_PA_S  (50.0 / 60.0)
/* A value that stays the same for so long: the gauge is stuck. */
#define QLL_STUCK_MS         ((int64_t)1800 * 1000)
/* A gap is longer than so many usual intervals. */
#define QLL_GAP_TIMES        5

/* Values of the slow copy that are looked at once, as they come. */
#define QLL_TILE_VALUES ((size_t)64)

/** What was seen of them. */
typedef struct qll_tile {
    double flow_most_m3s; /* of the flows that are known */
    bool is_whole;   /* each outlet and flow is known, and there is no gap in them nor in front */
    bool is_as_read; /* cleaning moved nothing */
} qll_tile;

/** Values at even times, side by side; NULL where there is no such channel. */
typedef struct qll_series {
    const int64_t *at_ms;
    const double *value[QLL_CHANNEL_COUNT];   /* as they came */
    const double *cleaned[QLL_CHANNEL_COUNT]; /* Hampel's, of pressures */
    const qll_tile *tiles;                    /* of the slow copy; else NULL */
    size_t count;
    int64_t interval_ms;
} qll_series;

/** The tile that begins at value @p i; NULL where none does, or not all of it is there. */
static inline const qll_tile *qll_tile_at(const qll_series *series, size_t i)
{
    return series->tiles != NULL && i % QLL_TILE_VALUES == 0 && i + QLL_TILE_VALUES <= series->count
               ? &series->tiles[i / QLL_TILE_VALUES]
               : NULL;
}

/** Values that are averaged until their time is over. */
typedef struct qll_binning {
    int64_t length_ms, at_ms; /* at_ms: start of the bin that is open; INT64_MIN = none */
    double sum[QLL_CHANNEL_COUNT];
    int count[QLL_CHANNEL_COUNT];
} qll_binning;

typedef struct qll_copy {
    int64_t *at_ms;
    double *value[QLL_CHANNEL_COUNT];
    size_t count, room;
    int64_t interval_ms;
    qll_binning bin;
} qll_copy;

/** A window without flow. Slopes are Pa/s. */
typedef struct qll_rest_window {
    int64_t start_ms, end_ms;
    double inlet_pa, outlet_pa; /* when it has settled */
    double early, early_inlet, early_z;
    double late, late_inlet, late_z; /* NaN in a short one */
    double top_pa;                   /* greatest 30 s average */
    double end_inlet_pa, end_outlet_pa;
    double steepest; /* greatest rise from one minute to the next, Pa/s */
    double over_pa;  /* greatest 30 s average of outlet less inlet */
} qll_rest_window;

/** A run of steady flow: medians. */
typedef struct qll_steady_run {
    int64_t start_ms;
    double length_s, flow_m3s, inlet_pa, outlet_pa;
} qll_steady_run;

/** Which records are kept. */
typedef struct qll_thinning {
    size_t stride, skipped;
} qll_thinning;

typedef struct qll_hunt {
    qll_framing frames[3]; /* of 64, 128, 256 */
    qll_framing
        slow_frames[3]; /* of as many averages of so many rows: 1 = there is no second look */
    size_t averaged;
    double *residual, *density, *sum, *slow;
    double cycles, seen_s, looked_s, supply_s;
    size_t run_count;
    double best_rms_pa, frequency_hz; /* of the strongest run */
    int64_t first_ms, last_ms;
    double last_frequency_hz; /* of the piece before, where there is no flow channel */
} qll_hunt;

typedef struct qll_air {
    long long up, down; /* outliers in runs */
    double run_s;
    long long at_rest;
    double rest_s;
    double size_pa; /* sum of |outlier - median| */
    int64_t first_ms, last_ms;
} qll_air;

/** The fast copy: a ring of rows, their tenths of seconds, waves and chatter. */
typedef struct qll_fast {
    bool on, hears; /* 100 rows a second or more; 500 */
    double rate_hz;
    double *ring;
    int64_t *ring_ms;
    size_t room, tenth_rows;
    uint64_t taken; /* rows so far; row i is in ring[i % room] */
    double tenth_mean[11], tenth_least[11], tenth_most[11];
    double tenth_sum;
    size_t tenth_count; /* rows in the open tenth */
    uint64_t tenths;
    uint64_t quiet_until; /* row at which the next wave may begin */
    long long wave_count, glitch_count;
    double peak_pa, rise_s, steepest_pa_s, ring_hz;
    int64_t first_ms, last_ms, peak_ms;
    /* chatter */
    qll_framing framing;
    double *second, *density;
    size_t second_count;
    double chatter_pa, heard_s, hum_rest_s;
    int64_t heard_first_ms, heard_last_ms, minute_ms;
    double minute_s, best_minute_s;
    int64_t second_ms;
    double second_flow;
    size_t flow_count;
    double chatter_hz, hum_like_s, before_pa, open_most, open_least;
    uint64_t first_tenth; /* of the stretch without a gap */
    bool has_wave;        /* one has begun whose second has not passed */
    uint64_t wave_row;
    double wave_base;
} qll_fast;

typedef struct qll_constancy {
    double value, most, least;
    int64_t since_ms, longest_ms, longest_start_ms;
    long long equal, pairs, longest_pairs, pairs_now, at_most, at_least;
    double
        step_pa; /* least difference but none; where there is none, infinite while rows come, then 0 */
} qll_constancy;

typedef struct qll_stretch_kept {
    double score;
    qll_pressure_stretch stretch;
} qll_stretch_kept;

struct qll_pressure_state {
    qll_channel_facts facts;
    qll_copy slow, middle;
    qll_tile *tiles;
    size_t tiled; /* values of the slow block that were looked at */
    size_t known; /* values at the start of the slow block that were counted before */
    double *cleaned[2], *scratch;
    size_t scratch_room;
    double noise_pa; /* of the outlet, last block */
    double noise_sum;
    size_t noise_count;
    uint32_t *classes[2];
    long long class_total[2];
    qll_rest_window *windows;
    size_t window_count;
    qll_thinning window_thinning;
    double window_total, window_s;
    qll_steady_run *runs;
    size_t run_count;
    qll_thinning run_thinning;
    double run_total;
    double swapped_s, both_s;
    qll_hunt hunt;
    qll_air air;
    qll_fast fast;
    qll_constancy constancy[2];
    qll_rainflow rainflow;
    double cycles, turn_pa;
    double flowing_s;
    int64_t hunt_done_ms;
    qll_log_gap gaps[QLL_GAPS_LISTED];
    size_t gap_count;
    long long gap_total;
    double gap_s;
    bool started;
    int64_t first_ms, last_ms;
    qll_stretch_kept kept[QLL_PRESSURE_WORD_COUNT];
    /* the whole log, thinned as it grows */
    double whole_sum[3][QLL_WHOLE_POINTS];
    uint32_t whole_count[3][QLL_WHOLE_POINTS];
    int64_t whole_width_ms;
};

/** The zone's local time at @p at_ms, ms of its day. */
int64_t qll_pressure_clock_ms(const qll_pressure_state *state, int64_t at_ms);

/** Makes room for a record; false where it is thinned out. */
bool qll_thin(qll_thinning *thinning, void *records, size_t size, size_t *count);

/** What is counted of rows as they pass (pressure_count.c): begins; takes rows [from, to), between which there is no gap. */
void qll_pressure_count_begin(qll_pressure_state *state);
void qll_pressure_count(qll_pressure_state *state, const int64_t *at_ms,
                        const double *const *values, size_t from, size_t to);

/** A stretch of one value ends at @p end_ms: by another value, a gap, or the end of the log. */
void qll_constancy_end(qll_constancy *of, int64_t end_ms);

/** Looks at what came to the slow copy, tile by tile (pressure_tile.c). @p is_last: the block ends here. */
void qll_pressure_tiles(qll_pressure_state *state, bool is_last);

/** Looks at the block of the slow copy, or of the middle one; what is not finished stays at its beginning
 * (pressure_block.c). @p is_last: nothing follows. */
void qll_pressure_block(qll_pressure_state *state, bool is_last);
void qll_pressure_middle(qll_pressure_state *state, bool is_last);

/** The whole log in so many averages as are shown. */
qll_pressure_stretch qll_pressure_whole(const qll_pressure_state *state);

/** Keeps the readings of [from, to) as evidence of @p word if @p score is the greatest so far. */
void qll_pressure_keep(qll_pressure_state *state, const qll_series *series, qll_pressure_word word,
                       double score, size_t from, size_t to);

/**
 * Windows without flow in a block (pressure_rest.c).
 *
 * @param is_last nothing follows: a window at the end is whole
 * @return the first value that must be looked at again with the next block
 */
size_t qll_pressure_rest(qll_pressure_state *state, const qll_series *series, bool is_last);

/** Runs of steady flow in a block, and air in them (pressure_run.c); as the former. */
size_t qll_pressure_runs(qll_pressure_state *state, const qll_series *series, bool is_last);

/** Oscillation in the runs of a block (pressure_hunt.c); as the former. */
size_t qll_pressure_hunt(qll_pressure_state *state, const qll_series *series, bool is_last);
bool qll_hunt_begin(qll_hunt *hunt, int64_t interval_ms, qll_arena *arena);

/** Where the run ends that begins at @p from, its flow within the share @p slack of its average; @p from itself if none does. */
size_t qll_run_end(const qll_series *series, size_t from, double slack);

/** The fast copy (pressure_fast.c). */
bool qll_fast_begin(qll_fast *fast, int64_t interval_ms, qll_arena *arena);
void qll_fast_take(qll_pressure_state *state, const int64_t *at_ms, const double *outlet,
                   const double *flow, size_t count);
void qll_fast_gap(qll_fast *fast);

/** The findings (pressure_findings.c). */
bool qll_pressure_findings(qll_pressure_state *state, const qll_pressure_expect *expect,
                           qll_arena *arena, qll_pressure_result *result);

#endif
