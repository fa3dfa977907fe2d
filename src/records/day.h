/* Days and moments as records have them: ISO 8601, the Gregorian calendar, 1970 to 2199. */
#ifndef QUELL_RECORDS_DAY_H
#define QUELL_RECORDS_DAY_H

#include <stdbool.h>

/** "2026-11-20" and a closing zero. */
#define QLL_DAY_SIZE 11

/** A day as a number: days since 1970-01-01. @return false where @p text is no day of the calendar, written YYYY-MM-DD */
bool qll_day_read(const char *text, int *day);

/** Writes it. */
void qll_day_write(int day, char text[QLL_DAY_SIZE]);

/** So many months later; on the last of the month where that has no such day. */
int qll_day_after_months(int day, int months);

/**
 * A moment as RFC 3339 has it: date, time to the second or finer, and the offset from UTC, which is needed.
 *
 * @param ms  since 1970, UTC
 * @param day the day that it was there
 */
bool qll_moment_read(const char *text, long long *ms, int *day);

#endif
