/* Lines of a log to rows: the general way for every shape, and a fast one for the common one. */
#ifndef QUELL_SIGNALS_LOG_ROW_H
#define QUELL_SIGNALS_LOG_ROW_H

#include "signals/log_records.h"
#include "signals/log_shape.h"

/* "2017-06-28T18:", "2017-06-28T18:30" and what may stand behind the seconds: "+01:00". */
#define QLL_HOUR_SIZE   14
#define QLL_PREFIX_SIZE 16
#define QLL_STAMP_SIZE  19
#define QLL_SUFFIX_SIZE 6

/** What a cell's own unit makes of its number. */
typedef struct qll_log_cell_unit {
    char unit[24];
    size_t size;
    double times, plus;
} qll_log_cell_unit;

/** A cell that a log of pressures takes: whose it is, and how it was written in the row before, as eight bytes from its first
 * on. */
typedef struct qll_plain_cell {
    qll_channel channel;
    size_t skipped;          /* cells in front of it that nobody takes */
    double times, plus;      /* to SI */
    double least, most;      /* that can be, in SI */
    double *to;              /* where its channel's values stand */
    uint64_t is_digit;       /* the highest bits of the bytes that are digits */
    uint64_t marks, is_mark; /* its point and the byte behind it, and where they stand */
    uint64_t before,
        behind;     /* the bytes in front of its point; those behind, once it is taken out */
    unsigned shift; /* moves its digits to the highest bytes */
    unsigned size;  /* with the byte behind it */
    double power;   /* of ten, that its digits are parts of */
    uint64_t end; /* digits that make less can be, and stand for nothing else; 0: not written yet */
} qll_plain_cell;

/** One way to read the log: two are tried as long as the order of dates is open. */
typedef struct qll_log_lane {
    const qll_log_shape *shape;
    const qll_flow_log_options *options;
    qll_log_order order;
    qll_zone zone;
    int64_t last_local_ms;
    bool second; /* within an hour that came twice: the second time */
    qll_records records;
    unsigned hours; /* bits 1 << hour that stamps have shown */
    int64_t clock_ms;
    long long half_turns; /* from 12:59 to 1:00 */
    /* values that look like "1.234", "1.5" and "1,5" where the first rows were whole numbers */
    long long three_count, decimal_count, comma_count;
    /* the unit of a row that is not the first one's, and how many of that it is */
    char unit[24];
    size_t unit_size;
    double unit_times;
    /* of a log of pressures: the unit of a channel's last cell that had one */
    qll_log_cell_unit cell_units[QLL_CHANNEL_COUNT];
    /* the minute of the row before, for the fast way */
    bool has_prefix;
    bool has_offset; /* it says its own */
    char prefix[QLL_PREFIX_SIZE];
    uint64_t suffix, suffix_mask; /* the bytes behind the seconds, and which of them count */
    size_t suffix_size;
    int64_t prefix_ms;
    /* the same with the delimiter, in eight bytes; size 0: there is more, or a quote */
    uint64_t tail, tail_mask;
    size_t tail_size;
    bool has_thousandths;                    /* three decimals of seconds stand in it */
    qll_plain_cell cells[QLL_CHANNEL_COUNT]; /* in order of columns */
    size_t cell_count;
} qll_log_lane;

typedef enum qll_row_state {
    QLL_ROW_TAKEN,     /* or left out, and counted */
    QLL_ROW_BAD_STAMP, /* not counted yet: another order may read it */
    QLL_ROW_METER,     /* of another meter, though none was chosen */
} qll_row_state;

/** Takes the cells of line @p line. */
qll_row_state qll_log_row_take(qll_log_lane *lane, const qll_text *cells, size_t count,
                               long long line);

/** Universal time of a row's stamp. @p mends: oddities are counted. */
bool qll_log_row_time(qll_log_lane *lane, const qll_text *cells, long long line, bool mends,
                      int64_t *utc_ms);

/** The value of a row in the unit of the first; NaN where it is unknown, and why is counted (log_value.c). */
double qll_log_row_value(qll_log_lane *lane, const qll_text *cells, size_t count, long long line);

/** The channels of a row of a log of pressures, into the lane's records; the first one is the result. */
double qll_log_row_channels(qll_log_lane *lane, const qll_text *cells, size_t count,
                            long long line);

/** True if rows of a log of pressures may be read by qll_log_channels_fast(), and that: as qll_log_rows_fast(), with decimals
 * of seconds and several values (log_channels_fast.c). */
bool qll_log_channels_are_fast(const qll_log_shape *shape, qll_log_order order);
const char *qll_log_channels_fast(qll_log_lane *lane, const char *at, const char *end,
                                  long long *line_count);

/** True for a number that stands for "no reading". */
bool qll_log_is_sentinel(const qll_log_shape *shape, double value);

/** True if rows may be read by qll_log_rows_fast(). */
bool qll_log_row_is_fast(const qll_log_shape *shape, qll_log_order order);

/* A line is looked at only if so many bytes follow its start. */
#define QLL_FAST_LEAST 80

/**
 * Takes lines from @p at on as long as they are complete and plain: "2017-06-28T18:30:58Z,1.2734375",
 * perhaps with other columns between and behind. Gives what the general way gives.
 *
 * @return where the first line starts that must be read the general way
 */
const char *qll_log_rows_fast(qll_log_lane *lane, const char *at, const char *end,
                              long long *line_count);

#endif
