/* The usual interval of a log, and its heartbeat, from its first rows. */
#ifndef QUELL_SIGNALS_LOG_INTERVAL_H
#define QUELL_SIGNALS_LOG_INTERVAL_H

#include "signals/log_row.h"

/**
 * Reads the stamps of the first lines by @p lane and says how the log is to be read; a zone that
 * only the stamps tell is put into the lane.
 *
 * @return false after a refusal
 */
QLL_MUST_USE bool qll_log_interval_find(qll_log_look *look, qll_log_lane *lane,
                                        qll_records_rule *rule);

#endif
