/* Local time to universal time by a fixed offset or a POSIX rule; no database of zones. */
#ifndef QUELL_SIGNALS_LOG_ZONE_H
#define QUELL_SIGNALS_LOG_ZONE_H

#include "base/text.h"

#include <stdint.h>

/** When a change stands in the year: POSIX.1-2017, section 8.3, TZ. */
typedef struct qll_zone_change {
    char form;            /* 'M', 'J', or 'n' for a day from 0 */
    int month, week, day; /* of 'M'; day alone of 'J' and 'n' */
    int32_t time_s;       /* of the local day, as the clock shows before the change */
} qll_zone_change;

typedef struct qll_zone {
    int32_t standard_s, summer_s; /* local minus universal */
    bool has_summer;
    qll_zone_change start, end; /* of summer time */
} qll_zone;

/** What is odd about a local time. */
typedef enum qll_zone_oddity {
    QLL_ZONE_PLAIN,
    QLL_ZONE_TWICE, /* it came twice */
    QLL_ZONE_NEVER, /* it never was */
} qll_zone_oddity;

/**
 * Reads "UTC", "Z", "-07:00", a POSIX rule ("MST7MDT,M3.2.0,M11.1.0") or one of the common names
 * ("America/Denver").
 */
bool qll_zone_read(qll_text text, qll_zone *zone);

/** The known name nearest to @p given, or NULL. */
const char *qll_zone_nearest(qll_text given);

/** Local minus universal time at @p utc_ms, in s. */
int32_t qll_zone_offset_s(const qll_zone *zone, int64_t utc_ms);

/**
 * Universal time of a local one, in ms.
 *
 * @param summer which one of two is meant, when the hour came twice
 */
int64_t qll_zone_utc_ms(const qll_zone *zone, int64_t local_ms, bool summer,
                        qll_zone_oddity *oddity);

/** Days from 1970-01-01 to a date of the Gregorian calendar, and its parts back. */
int64_t qll_calendar_days(int year, int month, int day);
void qll_calendar_date(int64_t days, int *year, int *month, int *day);

#endif
