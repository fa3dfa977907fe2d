/* Stamps as logs write them: calendar dates in any order, clocks, Unix time. */
#ifndef QUELL_SIGNALS_LOG_TIME_H
#define QUELL_SIGNALS_LOG_TIME_H

#include "signals/flow_log.h"

/* No stamp of a log lies outside: 1990-01-01 to 2100-01-01, in ms from 1970. */
#define QLL_STAMP_LEAST_MS INT64_C(631152000000)
#define QLL_STAMP_END_MS   INT64_C(4102444800000)

/** What a text turned out to be. */
typedef struct qll_stamp {
    int64_t local_ms; /* as the clock showed; from 1970-01-01 */
    bool has_clock;   /* not a date alone */
    bool has_name;    /* the month stood by its name: no order is needed */
    bool has_offset;  /* "Z" or "+01:00" stood behind it */
    int32_t offset_s;
} qll_stamp;

/**
 * Reads a date with or without a clock: "2017-06-28T18:30:58.5Z", "01/03/2016 01:19:43",
 * "19-10-4 13:10:06", "20170628", "28.06.2017 24:00", "6/28/17 6:30 PM".
 *
 * @return false if it is no date in this order, or outside of what a log can hold
 */
bool qll_stamp_read(qll_text text, qll_log_order order, qll_stamp *stamp);

/** Bits 1 << order of every order in which the text is a date. */
unsigned qll_stamp_orders(qll_text text);

/** Reads a clock alone: "13:10:06", "1310", "5" (00:05), "24:00", "1:10 PM"; ms of the day. */
bool qll_stamp_clock(qll_text text, int64_t *ms);

/** Reads days since 1899-12-30, as spreadsheets write dates: "45481.4236"; ms from 1970 of the clock, to
 * the second. */
bool qll_stamp_serial(qll_text text, int64_t *local_ms);

/** Reads Unix time, in seconds with or without decimals, or in milliseconds. */
bool qll_stamp_unix(qll_text text, int64_t *utc_ms);

/**
 * A plain decimal number of at most 15 digits without exponent at the start of @p text, as
 * qll_text_number() reads it (both numerator and power of ten are exact, so the quotient is the
 * nearest double). Longer ones are left to that function.
 *
 * @return bytes taken, or 0
 */
size_t qll_plain_number(qll_text text, double *value);

#endif
