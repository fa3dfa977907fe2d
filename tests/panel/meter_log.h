/* A meter's log for a building that is known by nothing else. */
#ifndef QUELL_TESTS_PANEL_METER_LOG_H
#define QUELL_TESTS_PANEL_METER_LOG_H

#include "quell/quell.h"

#include "base/text.h"

enum {
    QLL_PANEL_LOG_MINUTES = 8 * 24 * 60
};

typedef struct panel_log {
    double flow_gpm[QLL_PANEL_LOG_MINUTES];
    qll_text csv; /* as the logger writes it */
} panel_log;

/** Eight days at one minute: 0.3 gpm that never stop, 1.4 gpm on average, 10.4 gpm in the greatest
 * minute. Made up; the same on every machine. In @p arena; NULL without memory. */
panel_log *panel_log_make(qll_arena *arena);

/** The log as an attachment called @p name. */
qll_attachment panel_log_attached(panel_log *log, const char *name);

#endif
