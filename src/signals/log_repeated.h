/* Several flows in one log that no option parts. */
#ifndef QUELL_SIGNALS_LOG_REPEATED_H
#define QUELL_SIGNALS_LOG_REPEATED_H

#include "signals/log_row.h"

/**
 * Refuses a log whose first rows hold several values at one time, and names the column that tells them
 * apart. A clock of twelve hours does the same; it is left to the end, where it can be told.
 */
QLL_MUST_USE bool qll_log_repeated_check(qll_log_look *look, qll_log_lane *lane);

#endif
