/* What a plumber would fit on a site, and where an answer is none of it. */
#ifndef QUELL_TESTS_PANEL_JUDGE_H
#define QUELL_TESTS_PANEL_JUDGE_H

#include "answer.h"
#include "base/table.h"

/** One row of a panel. Sets of numbers as bits: bit 2 = two will do. */
typedef struct panel_want {
    unsigned stages;   /* bit 0: no valve is needed */
    unsigned branches; /* side by side, in each stage */
    /* Of a stage's smallest valve, where it has several, and of its largest. */
    double smallest_from_in, smallest_to_in;
    double largest_from_in, largest_to_in;
    bool direct; /* no pilot-operated valve */
} panel_want;

/** What is wrong with one answer, in words. */
typedef struct panel_faults {
    char text[1500];
    size_t used;
    size_t count;
} panel_faults;

/** @p row of a table with the columns of panel.csv; a column `acting` is taken if there is one. */
panel_want panel_want_of(const qll_table *table, size_t row);

/** The largest pipe before the station, in inches; 99 where none is named. */
double panel_service_in(const json_t *survey);

/**
 * Holds @p answer against @p want, and against what is always wanted: no valve larger than the service,
 * no verdict "fail", at most 15 ft/s through any valve at the last of the points, which is the design
 * peak, every set-point of a stage at least 10 psi above the highest of the next, and the smaller valve
 * of a stage set above the larger. All of it is common practice, no source.
 */
panel_faults panel_judge(const panel_want *want, const json_t *survey, const panel_answer *answer);

__attribute__((format(printf, 2, 3))) void panel_say(panel_faults *faults, const char *format, ...);

#endif
