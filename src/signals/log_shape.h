/* What a log looks like: its delimiter, columns, units and stamps, found in its first lines. */
#ifndef QUELL_SIGNALS_LOG_SHAPE_H
#define QUELL_SIGNALS_LOG_SHAPE_H

#include "base/units.h"
#include "signals/flow_log.h"
#include "signals/log_time.h"
#include "signals/log_zone.h"

/* A line of more cells is refused. */
#define QLL_LOG_COLUMNS 256

/** What a column is for. */
typedef enum qll_log_role {
    QLL_ROLE_NONE,
    QLL_ROLE_TIME,
    QLL_ROLE_DATE,
    QLL_ROLE_CLOCK,
    QLL_ROLE_START,
    QLL_ROLE_END,
    QLL_ROLE_DURATION,
    QLL_ROLE_FLOW,
    QLL_ROLE_VOLUME,
    QLL_ROLE_REGISTER,
    QLL_ROLE_PULSES,
    QLL_ROLE_VALUE,
    QLL_ROLE_UNIT,
    QLL_ROLE_KEY,
    QLL_ROLE_METER,
    QLL_ROLE_QUALITY,
    QLL_ROLE_INLET,
    QLL_ROLE_OUTLET,
    QLL_ROLE_PRESSURE, /* which of the two is not said */
    QLL_ROLE_TEMPERATURE,
    QLL_ROLE_COUNT
} qll_log_role;

typedef struct qll_log_column {
    qll_text name; /* as the log writes it, trimmed; empty without a header */
    qll_text unit; /* that stands in the name; empty if none */
    qll_log_role role;
} qll_log_column;

/** The column of a channel: SI = value times + plus. */
typedef struct qll_log_channel_column {
    size_t column; /* SIZE_MAX = the log has none */
    double times, plus;
    const char *unit;
    bool unit_in_cells; /* the title has none: each cell has its own */
} qll_log_channel_column;

typedef struct qll_log_shape {
    char delimiter; /* '{' for JSON lines */
    char decimal;
    qll_log_column columns[QLL_LOG_COLUMNS];
    size_t column_count;
    qll_text header;             /* the line; empty if there is none */
    long long first_line;        /* of data, from 1 */
    size_t role[QLL_ROLE_COUNT]; /* the column of each role; SIZE_MAX if there is none */
    size_t value;                /* the column of what is measured */
    size_t needed_count;         /* cells a row must have */
    bool unix_time;
    bool elapsed; /* stamps are times since the log began, of elapsed_s each */
    double elapsed_s;
    bool serial;         /* stamps are days since 1899-12-30, as spreadsheets count them */
    bool clock_is_hour;  /* the clock is the number of the hour */
    bool date_and_clock; /* role DATE and role CLOCK together are the stamp */
    unsigned orders;     /* bits 1 << order that fit all first lines */
    qll_log_kind kind;
    qll_log_stamp stamp;
    bool value_is_flow; /* of an event or row: else a volume */
    double factor;      /* value to m3/s, m3 */
    bool unit_by_row;   /* the unit comes from a column: each row has its own */
    char thousands;     /* the mark that parts thousands; 0 = none is known */
    bool decimal_doubt; /* the points may part thousands: refused unless the rows' times tell */
    bool decimal_open;  /* the first rows hold whole numbers only */
    double duration_s;  /* of one unit in the duration's column */
    const char *unit_name;
    qll_text meter, key; /* taken alone; empty: all rows */
    bool keyed;          /* rows may be far from their place */
    bool local_known;
    bool has_channels; /* values side by side; `value` is the first of them */
    qll_channel first_channel;
    qll_log_channel_column channels[QLL_CHANNEL_COUNT];
    unsigned char channel_of[QLL_LOG_COLUMNS]; /* of a column; QLL_CHANNEL_COUNT = none */
    qll_zone zone;
} qll_log_shape;

/** What shape detection needs, and where it puts refusals. */
typedef struct qll_log_look {
    const qll_flow_log_options *options;
    qll_arena *arena;
    qll_problems *problems;
    qll_text *lines; /* the first lines of the log, without their ends */
    size_t line_count;
    size_t title_count; /* lines in front of the data, the header among them */
} qll_log_look;

/* Column reading (log_names.c). */
qll_log_column qll_log_column_read(qll_text name);
/** A cell that is a unit and nothing else, its brackets taken off; empty if it is none. */
qll_text qll_log_unit_alone(qll_text cell);
/** True if two names are the same but for capitals and marks. */
bool qll_log_name_equal(qll_text a, qll_text b);

/* Cells of a line (log_cells.c). */

/**
 * Splits a line at @p delimiter; quotes around a cell are taken off.
 *
 * @return how many cells there are; those beyond QLL_LOG_COLUMNS are counted only
 */
size_t qll_log_split(qll_text line, char delimiter, qll_text cells[QLL_LOG_COLUMNS]);

/** Cells of a JSON line in the order of the shape's columns; 0 if it is no object. */
size_t qll_log_json_cells(const qll_log_shape *shape, qll_text line, qll_arena *scratch,
                          qll_text cells[QLL_LOG_COLUMNS]);

/** Names of the members of a JSON line as columns; false if it is no object. */
QLL_MUST_USE bool qll_log_json_columns(qll_log_shape *shape, qll_text line, qll_arena *arena);

/** The number of a cell, all of it; false if it is none. */
bool qll_log_number(qll_text cell, char decimal, double *value);

/** The value's number: as qll_log_number(), with marks between thousands where the log has them. */
bool qll_log_value(const qll_log_shape *shape, qll_text cell, double *value);

/** True for "1.234": it may be a whole number with its thousands parted. */
bool qll_log_is_three(qll_text cell);

/* Detection. */

/** Factor to SI of "gpm" as @p kind; NaN if it is no such unit. */
double qll_log_unit_factor(const qll_log_look *look, qll_text unit, qll_kind kind);

/** The volume of a pulse of the lines above the rows; NaN if none tells it, refused if two do. */
QLL_MUST_USE bool qll_log_pulse_find(const qll_log_look *look, double *pulse_m3);

/** Finds the marks of decimals and thousands (log_decimal.c). */
QLL_MUST_USE bool qll_log_decimal_find(const qll_log_look *look, qll_log_shape *shape);
/** Refuses points that may be either; always false. */
bool qll_log_decimal_refuse(const qll_log_look *look, const qll_log_shape *shape);

/** Finds delimiter, header and columns (log_shape.c). */
QLL_MUST_USE bool qll_log_shape_find(qll_log_look *look, qll_log_shape *shape);

/** Finds the columns and units of a log of pressures, their decimal mark and zone (log_channels.c). */
QLL_MUST_USE bool qll_log_channels_find(qll_log_look *look, qll_log_shape *shape);

/** SI = value times + plus for a reading of @p channel in @p unit; false if it is no unit of it. */
bool qll_log_channel_unit(const qll_log_shape *shape, qll_channel channel, qll_text unit,
                          double *times, double *plus);

/** Reads the zone that the options give (log_measure.c). */
QLL_MUST_USE bool qll_log_zone_find(const qll_log_look *look, qll_log_shape *shape);

/** The column with that name; refuses what is not there (log_shape.c). */
QLL_MUST_USE bool qll_log_column_named(const qll_log_look *look, const qll_log_shape *shape,
                                       const char *wanted, size_t *column);

/** How many cells a row must have for its time and its value. */
size_t qll_log_needed_count(const qll_log_shape *shape);

/** Finds what is measured, in which unit, and the meter taken (log_measure.c). */
QLL_MUST_USE bool qll_log_measure_find(qll_log_look *look, qll_log_shape *shape);

/** Cells of line @p index of the look, by the shape. */
size_t qll_log_look_cells(const qll_log_look *look, const qll_log_shape *shape, size_t index,
                          qll_text cells[QLL_LOG_COLUMNS]);

/** Refuses the log at @p line (from 1, 0 = unknown); always false. Texts that @p says and @p hint quote live as
 * long as the log's arena; @p hint NULL = none. */
bool qll_log_refuse(const qll_log_look *look, qll_code code, long long line, const qll_said *says,
                    const qll_said *hint);
/** The same of a part of the line: "header", "row 7". */
bool qll_log_refuse_at(const qll_log_look *look, qll_code code, long long line, const char *path,
                       const qll_said *says, const qll_said *hint);

/** Refuses a clock of 12 hours without AM and PM. Always false. */
bool qll_log_refuse_half_clock(const qll_log_look *look, long long line);

#endif
