/* A figure that is followed over the days of a log: did it move, and at once or by and by? */
#ifndef QUELL_SIGNALS_PRESSURE_COURSE_H
#define QUELL_SIGNALS_PRESSURE_COURSE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Days that are looked at: more are thinned evenly, or put together, by whoever follows. */
#define QLL_COURSE_MOST  ((size_t)400)
/* Fewer do not tell a trend from chance (docs/theory/pressure_log.md). */
#define QLL_COURSE_LEAST ((size_t)14)

/** In order of time. */
typedef struct qll_course {
    double day[QLL_COURSE_MOST], value[QLL_COURSE_MOST];
    int64_t at_ms[QLL_COURSE_MOST];
    size_t count;
} qll_course;

/** How it moved. */
typedef struct qll_course_move {
    double by;       /* the step of its best cut, or its trend from the first day to the last */
    bool is_step;    /* at once, on the day that begins at from_ms; else by and by */
    bool is_certain; /* a step, or a trend that chance makes once in a hundred times at most */
    int64_t from_ms;
} qll_course_move;

/**
 * Theil-Sen's slope with Mann-Kendall's Z, and the one cut that leaves least: docs/theory/pressure_log.md, "Over days and weeks".
 *
 * @param course  of QLL_COURSE_LEAST days or more
 * @param scratch room for qll_pair_count(course->count) and for 3 course->count
 */
qll_course_move qll_course_moved(const qll_course *course, double *scratch);

#endif
