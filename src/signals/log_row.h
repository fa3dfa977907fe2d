/* Lines of a log to rows: the general way for every shape, and a fast one for the common one. */
#ifndef QUELL_SIGNALS_LOG_ROW_H
#define QUELL_SIGNALS_LOG_ROW_H

#include "signals/log_records.h"
#include "signals/log_shape.h"

/* "2017-06-28T18:30" and what may stand behind the seconds: "+01:00". */
#define QLL_PREFIX_SIZE 16
#define QLL_STAMP_SIZE  19
#define QLL_SUFFIX_SIZE 6

/** One way to read the log: two are tried as long as the order of dates is open. */
typedef struct qll_log_lane {
    const qll_log_shape *shape;
    const qll_flow_log_options *options;
    qll_log_order order;
    qll_zone zone;
    int64_t last_local_ms;
    bool second; /* within an hour that came twice: the second time */
    qll_records records;
    /* the minute of the row before, for the fast way */
    bool has_prefix;
    char prefix[QLL_PREFIX_SIZE];
    char suffix[QLL_SUFFIX_SIZE];
    size_t suffix_size;
    int64_t prefix_ms;
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

/** True if rows may be read by qll_log_row_fast(). */
bool qll_log_row_is_fast(const qll_log_shape *shape, qll_log_order order);

/**
 * Takes the line at @p at if it is complete and plain: "2017-06-28T18:30:58Z,1.2734375", perhaps with
 * other columns between and behind.
 *
 * @return behind the line; NULL if it must be read the general way
 */
const char *qll_log_row_fast(qll_log_lane *lane, const char *at, const char *end);

#endif
