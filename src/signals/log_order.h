/* Logs that run newest first, or are files joined in any order: read again, by time. */
#ifndef QUELL_SIGNALS_LOG_ORDER_H
#define QUELL_SIGNALS_LOG_ORDER_H

#include "signals/log_row.h"

/* Stretches of rows in order, of which a log may consist. */
#define QLL_ORDER_RUNS   ((size_t)32768)
/* Stretches that may cover one moment. */
#define QLL_ORDER_ACTIVE ((size_t)16)

/** What is found of the order of a log's rows. */
typedef enum qll_log_found_order {
    QLL_LOG_AS_IT_STANDS,
    QLL_LOG_NEWEST_FIRST,
    QLL_LOG_JOINED,   /* stretches in any order */
    QLL_LOG_SHUFFLED, /* too many stretches, or too many at once */
} qll_log_found_order;

/**
 * Hands the lines of @p source in the order of time to @p log: first what stands above the rows, then
 * stretch by stretch, each forwards or backwards.
 *
 * @param lane as the log was read before; its stamps are read by it
 * @return QLL_OK, also when @p order says that the log is shuffled (then nothing was handed on); what
 *         reading gave; QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_log_order_feed(const qll_log_lane *lane, const qll_log_source *source,
                                           qll_flow_log *log, qll_arena *arena,
                                           qll_log_found_order *order);

#endif
