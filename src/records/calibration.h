/* Predicted chances against what happened (docs/theory/records.md 7). */
#ifndef QUELL_RECORDS_CALIBRATION_H
#define QUELL_RECORDS_CALIBRATION_H

#include "quell/arena.h"
#include "quell/problems.h"

/** A site that was watched for the time that its chance is about. */
typedef struct qll_watched {
    double chance; /* predicted, 0 to 1 */
    bool happened;
} qll_watched;

/** Sites of like chances. */
typedef struct qll_calibration_group {
    size_t count, happened;
    double chance;    /* the mean of those predicted */
    double low, high; /* 95 % of the share that happens: Wilson 1927 */
} qll_calibration_group;

/** At most so many groups, of at least so many sites each. */
#define QLL_CALIBRATION_GROUPS 5
#define QLL_CALIBRATION_LEAST  20

typedef struct qll_calibration {
    size_t count, happened;
    double expected;                    /* how many would, by their chances */
    double expected_low, expected_high; /* 95 % of how many do, if the chances are right */
    double odds_factor;                 /* the odds times this would give as many as happened */
    double factor_low, factor_high;     /* 95 %; 0 and infinity where there is no bound */
    qll_calibration_group groups[QLL_CALIBRATION_GROUPS];
    size_t group_count;
} qll_calibration;

/** QLL_OK or QLL_NO_MEMORY. Fewer than QLL_CALIBRATION_LEAST sites: count, happened and expected only. */
QLL_MUST_USE qll_status qll_calibrate(const qll_watched *watched, size_t count, qll_arena *arena,
                                      qll_calibration *calibration);

/** Whether there is enough to judge by, and the chances fit what happened. */
bool qll_calibration_is_told(const qll_calibration *calibration);
bool qll_calibration_fits(const qll_calibration *calibration);

#endif
