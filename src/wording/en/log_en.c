#include "wording/language.h"

#define SAYS(name) [QLL_TEXT_##name - QLL_TEXT_FIRST_LOG]

const char *const qll_log_en[QLL_TEXT_SIZE(LOG)] = {
    /* what only the survey can say */
    SAYS(ASK_VALUE_COLUMN) = "name the value's column",
    SAYS(ASK_KEY) = "name the key to take",
    SAYS(ASK_METER) =
        "name the meter to take, of column {1}, or say \"repeated\": \"sum\" to add them up",
    SAYS(ASK_METER_OR_SUM) = "name the meter to take, or say \"repeated\": \"sum\" to add them up",
    SAYS(ASK_METER_COLUMN) =
        "say \"meter_column\": {1}, \"meter\": {2} to take one, or \"repeated\": \"sum\" to add them up",
    SAYS(ASK_REPEATED) = "say \"repeated\": \"sum\" to add them up, or \"last\" to take the last",
    SAYS(ASK_PULSE) = "give the volume of one pulse",
    SAYS(ASK_UNIT) = "give the unit, for example \"gpm\" or \"m3\"",
    SAYS(ASK_KIND) = "say which kind of log it is",
    SAYS(ASK_DECIMAL) = "say which decimal mark the log has",
    SAYS(ASK_ORDER) = "say whether the day or the month stands first",
    SAYS(ASK_ORDER_OR_CUT) = "say whether the day or the month stands first, or cut the log in two",
    /* what else to do */
    SAYS(HINT_SORT) = "sort the log by time",
    SAYS(HINT_SORT_OR_FILE) = "save the log as a file that can be read again, or sort it by time",
    SAYS(HINT_ROW_PER_LINE) = "write one row per line",
    SAYS(HINT_UNPACK) = "unpack it first",
    SAYS(HINT_SAVE_UTF8) = "save it as UTF-8 text",
    SAYS(HINT_WHOLE_CLOCK) = "write the log with a clock of 24 hours, or with AM and PM",
    SAYS(HINT_CHECK_VALUE) = "check the value's column and unit",
    SAYS(HINT_STAMPED_ROWS) =
        "write one row per line, each with a stamp like \"2017-06-28 18:30:58\" and a value",
    /* the file */
    SAYS(LOG_COMPRESSED) = "the log is compressed",
    SAYS(LOG_ZERO_BYTES) = "the log holds zero bytes: it is no text",
    SAYS(LOG_EMPTY) = "the log is empty",
    SAYS(LOG_LINE_LONG) = "the line is longer than {1} bytes",
    /* columns and meters */
    SAYS(LOG_NO_STAMPS) = "no column of dates and times is found in the log's first lines",
    SAYS(LOG_NO_COLUMN) = "the log has no column {1}",
    SAYS(LOG_NO_VALUE) = "no column is known to hold a flow, volume, register or pulses",
    SAYS(LOG_TWO_COLUMNS) = "two columns could be meant: {1} and {2}",
    SAYS(LOG_NO_END) = "events need a column of their end or duration",
    SAYS(LOG_KEYS_UNKNOWN) = "none of the log's keys is known to be a flow or a volume",
    SAYS(LOG_KEYS_SEVERAL) = "several quantities could be meant: {1}",
    SAYS(LOG_NO_METER) = "the log has no column that names the meter",
    SAYS(LOG_OTHER_METER) = "{1} is another meter than that of the rows before",
    /* values and units */
    SAYS(LOG_NO_PULSE) = "the log counts pulses but does not say what one pulse is",
    SAYS(LOG_TWO_PULSES) = "the log's first lines give two different weights of a pulse",
    SAYS(LOG_NO_UNIT) = "the log does not say the value's unit",
    SAYS(LOG_NO_DURATION_UNIT) = "the log does not say the duration's unit",
    SAYS(LOG_UNIT_NEITHER) = "{1} is no unit of a flow or a volume",
    SAYS(LOG_UNIT_EITHER) = "{1} may be a register's reading or the volume of an interval",
    SAYS(LOG_UNIT_OF_FLOW) = "{1} is a flow's unit, but the column holds volumes",
    SAYS(LOG_POINTS_OPEN) = "the points may part thousands or decimals",
    SAYS(LOG_COMMAS_OPEN) = "the commas may part thousands or decimals",
    SAYS(LOG_MARKS_MIXED) = "the values' marks part thousands here and decimals there",
    SAYS(LOG_MARKS_BOTH) = "the values hold both points and commas",
    SAYS(LOG_POINTS_LATER) =
        "whole numbers first, points in front of three digits further down: these may part thousands or decimals",
    SAYS(LOG_COMMAS_LATER) =
        "whole numbers first, commas further down: these may part thousands or decimals",
    /* times */
    SAYS(LOG_DATES_OPEN) = "the dates can be read in more than one order: no day is over 12",
    SAYS(LOG_HALF_CLOCK) = "the clock goes from 1 to 12 twice a day, and no row says AM or PM",
    SAYS(LOG_ONE_ROW) = "the log needs at least two rows of different stamps",
    SAYS(LOG_DAYS_APART) = "the log's rows are more than a day apart",
    SAYS(LOG_TOO_FAR) = "the row stands more than {1} rows from its place in time",
    SAYS(LOG_SHUFFLED) = "the log's rows stand in no order of time",
    SAYS(LOG_SAME_TIME) = "rows of the same date and time hold different values",
    SAYS(LOG_SAME_TIME_COLUMN) =
        "rows of the same date and time hold different values; the column {1} tells them apart",
    /* the whole log */
    SAYS(LOG_ROWS_LATE) =
        "{1} of {2} rows stand too far from their place in time to be read in one pass",
    SAYS(LOG_ROWS_REPEATED) =
        "{1} of {2} rows have the date and time of another row and another value",
    SAYS(LOG_ROWS_BAD) =
        "{1} of {2} rows cannot be: {3} negative, {4} over what the meter can pass, {5}{6} not readable{7}",
    SAYS(LOG_ROWS_BACKWARDS) = "{1} of a register that goes backwards, ",
    SAYS(LOG_ROWS_DATE) = "; the first date that does not fit stands in line {1}",
    SAYS(LOG_GAP) = "{1} days without a row, more than the {2} days that are known",
    SAYS(LOG_NO_FLOW) = "the log holds no stretch of known flow",
    SAYS(LOG_UNPLACED) =
        "{1} % of the water was counted over gaps or past wrong readings: when it flowed is unknown",
    /* scenarios */
    SAYS(FAULT_FIXTURES) = "a building has at most 1,000,000 fixtures",
    SAYS(FAULT_OCCUPANCY) = "a fixture is private or public",
    SAYS(FAULT_FIXTURE_FLOW) = "a fixture's flow is over 0",
    SAYS(FAULT_PROBABILITY) = "a use_probability is a number from 0 to 1",
    SAYS(FAULT_CONTINUOUS) =
        "a continuous flow is not negative and its hours lie between 00:00 and 24:00",
    SAYS(FAULT_HOURS) = "the hours of a day are 24 numbers of mean 1",
    SAYS(FAULT_DAY) = "the day is a weekday, a saturday or a sunday",
    SAYS(FAULT_DAY_VOLUME) = "a person's water is at most {1} a day",
    SAYS(FAULT_RATES) = "the variation of rates from day to day is a number from 0 to 2",
    SAYS(FAULT_HOUR_RATES) = "the variation of rates from hour to hour is a number from 0 to 3",
    SAYS(FAULT_WORDS) = "habits, outdoor and season are among their words",
    SAYS(FAULT_BREAK) =
        "a break holds a share from 0 to 1 of an hour's uses and lasts 1 to 60 minutes",
    SAYS(FAULT_OUTLETS) = "pressures at outlets lie between {1} and {2}",
    SAYS(FAULT_DURATION) = "the flow duration of a meter's log rises from 0 to 1",
    SAYS(FAULT_READINGS) = "a meter's log needs readings, their interval and a peak",
    SAYS(FAULT_LOG_PEAKS) =
        "the peaks of a meter's log are not negative and their averaging times rise",
    SAYS(FAULT_PEOPLE) = "people and homes are numbers from 0 to 1,000,000",
    SAYS(FAULT_QUANTILE) = "the quantile is a number over 0 and under 1, for example 0.99",
};
