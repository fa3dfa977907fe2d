/* How readings of years move: a slope that single wrong readings do not turn, with its uncertainty (docs/theory/records.md 6). */
#ifndef QUELL_RECORDS_DRIFT_H
#define QUELL_RECORDS_DRIFT_H

#include "quell/arena.h"
#include "quell/problems.h"

/** A reading. */
typedef struct qll_drift_point {
    double day; /* since 1970 */
    double value;
    bool
        begins; /* what it measures was cleaned or put in anew before: it is compared with none before it */
} qll_drift_point;

/** Of a year. */
#define QLL_YEAR_DAYS 365.25

typedef struct qll_drift {
    size_t count;          /* readings */
    size_t pairs;          /* that were compared */
    double slope_per_year; /* Theil-Sen; NaN without a pair */
    double low_per_year;   /* 95 % interval; NaN where the readings are too few for one */
    double high_per_year;  /* the same */
    double level;          /* of the line on the last day; NaN of no reading */
    double first_day, last_day;
} qll_drift;

/**
 * The median of the slopes of all pairs of readings of one stretch, and the interval that Kendall's variance gives (Sen 1968; of
 * several stretches the sum of theirs, as Hirsch, Slack and Smith 1982 do with months). Readings of one day are not compared.
 *
 * @param points in the order of their days
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_drift_of(const qll_drift_point *points, size_t count, qll_arena *arena,
                                     qll_drift *drift);

/** When a line reaches a limit. NaN: it does not, or not within 100 years. */
typedef struct qll_reached {
    double day, earliest, latest; /* by the slope and by the ends of its interval; since 1970 */
} qll_reached;

/** Whether the slope leads away from 0 for sure: its interval lies on one side. */
bool qll_drift_is_sure(const qll_drift *drift);

/** When the line of @p drift comes down to @p low or up to @p high, by which way it goes (NaN = no limit there); all NaN where it is not
 * sure that it moves. The latest is NaN where it may take over 100 years. */
qll_reached qll_drift_reaches(const qll_drift *drift, double low, double high);

#endif
