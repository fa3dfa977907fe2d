/* The delimiter is the first of tab, semicolon, comma and blank under which most lines have the same
 * number of cells and a column of stamps stands; the header is the line above the first stamp. */
#include "signals/log_shape.h"

#include "base/quote.h"
#include "base/units_table.h"
#include "base/words.h"
#include "signals/log_encoding.h"

#include <string.h>

/* Of the first lines, those that must agree: faults of single rows must not hide the shape. */
#define QLL_MOST_OF(count) (((count)*3 + 4) / 5)

/* How many cells of a column are what. */
typedef struct content {
    size_t full, date, clock, unix, filled, serial, named;
    size_t hours; /* whole numbers from 0 to 24 */
    size_t fits[QLL_LOG_ORDER_COUNT];
} content;

bool qll_log_refuse_at(const qll_log_look *look, qll_code code, long long line, const char *path,
                       const qll_said *says, const qll_said *hint)
{
    const char *source = look->options->name == NULL ? "" : look->options->name;
    return qll_problems_add(look->problems,
                            (qll_fault){.code = code,
                                        .place = {source, (int)line, line > 0 ? 1 : 0, path},
                                        .says = says,
                                        .hint = hint});
}

bool qll_log_refuse(const qll_log_look *look, qll_code code, long long line, const qll_said *says,
                    const qll_said *hint)
{
    return qll_log_refuse_at(look, code, line, "", says, hint);
}

bool qll_log_refuse_half_clock(const qll_log_look *look, long long line)
{
    return qll_log_refuse(look, QLL_CODE_CONTRADICTION, line, QLL_SAYS(LOG_HALF_CLOCK),
                          QLL_SAYS(HINT_WHOLE_CLOCK));
}

size_t qll_log_look_cells(const qll_log_look *look, const qll_log_shape *shape, size_t index,
                          qll_text cells[QLL_LOG_COLUMNS])
{
    if (shape->delimiter != '{') {
        return qll_log_split(look->lines[index], shape->delimiter, cells);
    }
    return qll_log_json_cells(shape, look->lines[index], look->arena, cells);
}

/* The number of cells that most lines have, 0 if fewer than two lines in five agree. */
static size_t usual_count(const qll_log_look *look, const qll_log_shape *shape)
{
    size_t with[QLL_LOG_COLUMNS + 1] = {0};
    qll_text cells[QLL_LOG_COLUMNS];
    size_t best = 0;
    size_t lines = 0;
    for (size_t i = 0; i < look->line_count; i++) {
        size_t count = qll_log_look_cells(look, shape, i, cells);
        lines += qll_text_trimmed(look->lines[i]).size > 0 ? 1U : 0U;
        if (count >= 2 && count <= QLL_LOG_COLUMNS) {
            with[count] += 1;
            best = with[count] > with[best] || best == 0 ? count : best;
        }
    }
    return best > 0 && with[best] * 5 >= lines * 2 ? best : 0;
}

static void look_at_cell(qll_text cell, content *found)
{
    qll_stamp stamp;
    int64_t ms = 0;
    unsigned orders = 0;
    found->filled += cell.size > 0 ? 1U : 0U;
    bool full = false;
    for (int order = QLL_LOG_ORDER_YEAR_FIRST; order < QLL_LOG_ORDER_COUNT; order++) {
        if (qll_stamp_read(cell, (qll_log_order)order, &stamp)) {
            orders |= 1U << order;
            found->fits[order] += 1;
            full = full || stamp.has_clock;
        }
    }
    found->named += orders != 0 && stamp.has_name ? 1U : 0U;
    found->serial += qll_stamp_serial(cell, &ms) ? 1U : 0U;
    found->full += full ? 1U : 0U;
    found->date += orders != 0 && !full ? 1U : 0U;
    double hour = 0.0;
    found->hours +=
        cell.size <= 2 && qll_log_number(cell, '.', &hour) && hour >= 0.0 && hour <= 24.0 ? 1U : 0U;
    found->clock += qll_stamp_clock(cell, &ms) ? 1U : 0U;
    found->unix += qll_stamp_unix(cell, &ms) ? 1U : 0U;
}

static void look_at_columns(const qll_log_look *look, const qll_log_shape *shape,
                            content found[QLL_LOG_COLUMNS], size_t *row_count)
{
    qll_text cells[QLL_LOG_COLUMNS];
    *row_count = 0;
    for (size_t i = 0; i < look->line_count; i++) {
        if (qll_log_look_cells(look, shape, i, cells) != shape->column_count) {
            continue;
        }
        *row_count += 1;
        for (size_t c = 0; c < shape->column_count; c++) {
            look_at_cell(cells[c], &found[c]);
        }
    }
    /* One of them may be the header. */
    *row_count -= *row_count > 1 ? 1U : 0U;
}

/* Sets the shape's stamp columns from what the columns hold; false if there are none. */
static bool find_stamps(qll_log_shape *shape, const content *found, size_t row_count)
{
    size_t least = QLL_MOST_OF(row_count);
    size_t date = SIZE_MAX;
    for (size_t c = 0; c < shape->column_count && shape->role[QLL_ROLE_TIME] == SIZE_MAX; c++) {
        if (found[c].full >= least || found[c].unix >= least) {
            shape->role[QLL_ROLE_TIME] = c;
        } else if (found[c].date >= least && date == SIZE_MAX) {
            date = c;
        } else if (date != SIZE_MAX && found[c].clock >= least
                   && shape->role[QLL_ROLE_CLOCK] == SIZE_MAX) {
            shape->role[QLL_ROLE_CLOCK] = c;
        }
    }
    if (shape->role[QLL_ROLE_TIME] != SIZE_MAX) {
        size_t time = shape->role[QLL_ROLE_TIME];
        shape->unix_time = found[time].full < least;
        return true;
    }
    shape->role[QLL_ROLE_DATE] = date;
    shape->date_and_clock = date != SIZE_MAX && shape->role[QLL_ROLE_CLOCK] != SIZE_MAX;
    if (shape->date_and_clock) {
        /* No bare number over 24: hours, and not minutes of the first half hour of a day. */
        const content *clock = &found[shape->role[QLL_ROLE_CLOCK]];
        shape->clock_is_hour = clock->hours >= clock->clock && clock->hours >= least;
    }
    return shape->date_and_clock;
}

static void find_orders(const qll_log_look *look, qll_log_shape *shape, const content *of)
{
    size_t best = 0;
    for (int order = QLL_LOG_ORDER_YEAR_FIRST; order < QLL_LOG_ORDER_COUNT; order++) {
        best = of->fits[order] > best ? of->fits[order] : best;
    }
    shape->orders = 0;
    for (int order = QLL_LOG_ORDER_YEAR_FIRST; order < QLL_LOG_ORDER_COUNT; order++) {
        shape->orders |= of->fits[order] == best ? 1U << order : 0U;
    }
    if (best > 0 && of->named == best) {
        shape->orders = 1U << QLL_LOG_ORDER_YEAR_FIRST; /* a month by its name stands anywhere */
    }
    if (look->options->order != QLL_LOG_ORDER_UNKNOWN) {
        shape->orders = 1U << look->options->order;
    }
}

static void forget_roles(qll_log_shape *shape)
{
    for (size_t role = 0; role < QLL_ROLE_COUNT; role++) {
        shape->role[role] = SIZE_MAX;
    }
}

/* True if the line at @p index can be a header: as many cells as the rows, each a name. */
static bool is_header(const qll_log_look *look, const qll_log_shape *shape, size_t index)
{
    qll_text cells[QLL_LOG_COLUMNS];
    /* A mark at the end of every row makes one more cell than there are names. */
    const size_t count = qll_log_look_cells(look, shape, index, cells);
    if (count != shape->column_count && (count < 2 || count + 1 != shape->column_count)) {
        return false;
    }
    double value = 0.0;
    for (size_t c = 0; c < count; c++) {
        if (cells[c].size > 0
            && (qll_log_number(cells[c], '.', &value) || qll_stamp_orders(cells[c]) != 0)) {
            return false;
        }
    }
    return true;
}

static bool is_row(const qll_log_look *look, const qll_log_shape *shape, size_t index)
{
    qll_text cells[QLL_LOG_COLUMNS];
    if (qll_log_look_cells(look, shape, index, cells) != shape->column_count) {
        return false;
    }
    size_t column = shape->role[shape->date_and_clock ? QLL_ROLE_DATE : QLL_ROLE_TIME];
    int64_t ms = 0;
    if (shape->serial) {
        return qll_stamp_serial(cells[column], &ms);
    }
    double elapsed = 0.0;
    if (shape->elapsed) {
        return qll_log_number(cells[column], '.', &elapsed)
               || qll_log_number(cells[column], ',', &elapsed);
    }
    return shape->unix_time ? qll_stamp_unix(cells[column], &ms)
                            : qll_stamp_orders(cells[column]) != 0;
}

/* The line above the rows may hold units alone, and the names stand above it. */
static void take_unit_line(const qll_log_look *look, qll_log_shape *shape, size_t names,
                           const qll_text *units)
{
    size_t unit_count = 0;
    for (size_t c = 0; c < shape->column_count; c++) {
        const qll_text unit = qll_log_unit_alone(qll_text_from_latin1(units[c], look->arena));
        unit_count += unit.size > 0 ? 1U : 0U;
        if (unit.size == 0 && shape->columns[c].role != QLL_ROLE_NONE) {
            return; /* it is a line of names */
        }
    }
    if (unit_count == 0) {
        return;
    }
    qll_text cells[QLL_LOG_COLUMNS];
    const size_t named = qll_log_split(look->lines[names], shape->delimiter, cells);
    shape->header = look->lines[names];
    for (size_t c = 0; c < named && c < shape->column_count; c++) {
        const qll_text unit = qll_log_unit_alone(qll_text_from_latin1(units[c], look->arena));
        shape->columns[c] = qll_log_column_read(qll_text_from_latin1(cells[c], look->arena));
        if (shape->columns[c].unit.size == 0) {
            shape->columns[c].unit = unit;
        }
    }
}

/* The names above the first row, and which line that is. */
static void find_header(qll_log_look *look, qll_log_shape *shape)
{
    size_t first = 0;
    while (first < look->line_count && !is_row(look, shape, first)) {
        first += 1;
    }
    /* Blank lines may part it from the rows. */
    size_t header = first;
    while (header > 0 && qll_text_trimmed(look->lines[header - 1]).size == 0) {
        header -= 1;
    }
    look->title_count = first;
    shape->first_line = (long long)first + 1;
    if (header > 0 && is_header(look, shape, header - 1)) {
        qll_text cells[QLL_LOG_COLUMNS] = {{"", 0}};
        shape->header = look->lines[header - 1];
        const size_t named = qll_log_split(shape->header, shape->delimiter, cells);
        for (size_t c = 0; c < named && c < shape->column_count; c++) {
            shape->columns[c] = qll_log_column_read(qll_text_from_latin1(cells[c], look->arena));
        }
        if (header > 1 && named == shape->column_count && is_header(look, shape, header - 2)) {
            take_unit_line(look, shape, header - 2, cells);
        }
    }
}

/* The column with the option's name; refuses what is not there. */
bool qll_log_column_named(const qll_log_look *look, const qll_log_shape *shape, const char *wanted,
                          size_t *column)
{
    const char *words[QLL_LOG_COLUMNS];
    for (size_t c = 0; c < shape->column_count; c++) {
        if (qll_log_name_equal(shape->columns[c].name, qll_text_of(wanted))) {
            *column = c;
            return true;
        }
        words[c] = qll_text_closed(shape->columns[c].name, look->arena);
        if (words[c] == NULL) {
            return false;
        }
    }
    const long long line = shape->first_line > 1 ? shape->first_line - 1 : 1;
    const char *near = qll_words_nearest(qll_text_of(wanted), words, shape->column_count);
    return qll_log_refuse_at(look, QLL_CODE_BAD_COLUMN, line, "header",
                             QLL_SAYS_WITH(LOG_NO_COLUMN, qll_as_quoted(qll_text_of(wanted))),
                             qll_hint_word(near, look->arena));
}

/* The names say which of several columns of stamps is meant, and what the others are for. */
static void name_roles(qll_log_shape *shape, const content *found, size_t row_count)
{
    static const qll_log_role stamps[] = {QLL_ROLE_TIME, QLL_ROLE_START, QLL_ROLE_DATE,
                                          QLL_ROLE_CLOCK};
    size_t least = QLL_MOST_OF(row_count);
    size_t by_content = shape->role[QLL_ROLE_TIME];
    size_t date = shape->role[QLL_ROLE_DATE];
    size_t clock = shape->role[QLL_ROLE_CLOCK];
    forget_roles(shape);
    for (size_t c = shape->column_count; c > 0; c--) {
        shape->role[shape->columns[c - 1].role] = c - 1;
    }
    shape->role[QLL_ROLE_DATE] = shape->date_and_clock ? date : SIZE_MAX;
    shape->role[QLL_ROLE_CLOCK] = shape->date_and_clock ? clock : SIZE_MAX;
    shape->role[QLL_ROLE_TIME] = by_content;
    if (shape->date_and_clock) {
        return;
    }
    for (size_t i = 0; i < sizeof stamps / sizeof *stamps; i++) {
        for (size_t c = 0; c < shape->column_count; c++) {
            if (shape->columns[c].role == stamps[i]
                && (found[c].full >= least || found[c].unix >= least
                    || (shape->serial && found[c].serial >= least)
                    || (shape->elapsed && c == by_content))) {
                shape->role[QLL_ROLE_TIME] = c;
                return;
            }
        }
    }
}

static bool use_options(const qll_log_look *look, qll_log_shape *shape, const content *found,
                        size_t row_count)
{
    size_t time = shape->role[QLL_ROLE_TIME];
    if (look->options->time_column != NULL) {
        if (!qll_log_column_named(look, shape, look->options->time_column, &time)) {
            return false;
        }
        shape->role[QLL_ROLE_TIME] = time;
        shape->date_and_clock = false;
    }
    if (look->options->value_column != NULL
        && !qll_log_column_named(look, shape, look->options->value_column, &shape->value)) {
        return false;
    }
    if (look->options->meter_column != NULL
        && !qll_log_column_named(look, shape, look->options->meter_column,
                                 &shape->role[QLL_ROLE_METER])) {
        return false;
    }
    size_t stamps = shape->date_and_clock ? shape->role[QLL_ROLE_DATE] : time;
    shape->unix_time = !shape->serial && !shape->elapsed && !shape->date_and_clock
                       && found[stamps].full < QLL_MOST_OF(row_count);
    find_orders(look, shape, &found[stamps]);
    return true;
}

/* Days as a spreadsheet counts them: a column of such numbers under the name of a time. */
static bool find_serial(const qll_log_look *look, qll_log_shape *shape, const content *found,
                        size_t row_count)
{
    qll_text cells[QLL_LOG_COLUMNS];
    for (size_t i = 0; i < look->line_count; i++) {
        if (qll_log_look_cells(look, shape, i, cells) != shape->column_count) {
            continue;
        }
        for (size_t c = 0; c < shape->column_count; c++) {
            const qll_log_role role = qll_log_column_read(cells[c]).role;
            const bool is_time =
                role == QLL_ROLE_TIME || role == QLL_ROLE_DATE || role == QLL_ROLE_CLOCK;
            if (is_time && found[c].serial >= QLL_MOST_OF(row_count)) {
                shape->role[QLL_ROLE_TIME] = c;
                shape->serial = true;
                return true;
            }
        }
    }
    return false;
}

/* How many lines hold a number in column @p column that is no less than the one before. */
static size_t rising_count(const qll_log_look *look, const qll_log_shape *shape, size_t column)
{
    qll_text cells[QLL_LOG_COLUMNS];
    double before = -1.0;
    size_t count = 0;
    for (size_t i = 0; i < look->line_count; i++) {
        double value = 0.0;
        if (qll_log_look_cells(look, shape, i, cells) == shape->column_count
            && (qll_log_number(cells[column], '.', &value)
                || qll_log_number(cells[column], ',', &value))
            && value >= before) {
            before = value;
            count += 1;
        }
    }
    return count;
}

/* Seconds, or another unit of time, since the log began: numbers that rise under a title with that unit. A meter's log
 * needs the hour of the day, so only a log of pressures may have it. */
static bool find_elapsed(const qll_log_look *look, qll_log_shape *shape, size_t row_count)
{
    qll_text cells[QLL_LOG_COLUMNS];
    for (size_t i = 0; i < look->line_count && look->options->taker != NULL; i++) {
        if (qll_log_look_cells(look, shape, i, cells) != shape->column_count) {
            continue;
        }
        for (size_t c = 0; c < shape->column_count; c++) {
            const qll_log_column column = qll_log_column_read(cells[c]);
            const qll_unit *unit = column.unit.size > 0 && column.role != QLL_ROLE_DURATION
                                       ? qll_units_match(column.unit, QLL_KIND_TIME)
                                       : NULL;
            if (unit != NULL && rising_count(look, shape, c) >= QLL_MOST_OF(row_count)) {
                shape->role[QLL_ROLE_TIME] = c;
                shape->elapsed = true;
                shape->elapsed_s = unit->factor / unit->per;
                return true;
            }
        }
    }
    return false;
}

static bool try_delimiter(qll_log_look *look, qll_log_shape *shape, content *found,
                          size_t *row_count)
{
    forget_roles(shape);
    if (shape->delimiter != '{') {
        shape->column_count = usual_count(look, shape);
    }
    if (shape->column_count == 0) {
        return false;
    }
    memset(found, 0, QLL_LOG_COLUMNS * sizeof *found);
    look_at_columns(look, shape, found, row_count);
    return find_stamps(shape, found, *row_count) || find_serial(look, shape, found, *row_count)
           || find_elapsed(look, shape, *row_count);
}

static bool is_json(const qll_log_look *look, qll_log_shape *shape)
{
    for (size_t i = 0; i < look->line_count; i++) {
        qll_text line = qll_text_trimmed(look->lines[i]);
        if (line.size > 0 && line.bytes[0] != '{' && line.bytes[0] != '[') {
            return false;
        }
        if (qll_log_json_columns(shape, line, look->arena)) {
            return true;
        }
    }
    return false;
}

bool qll_log_shape_find(qll_log_look *look, qll_log_shape *shape)
{
    static const char delimiters[] = {'\t', ';', ',', ' '};
    content *found = qll_arena_take(look->arena, QLL_LOG_COLUMNS, sizeof *found);
    if (found == NULL) {
        return false;
    }
    size_t row_count = 0;
    bool good = false;
    shape->value = SIZE_MAX;
    if (is_json(look, shape)) {
        shape->delimiter = '{';
        good = try_delimiter(look, shape, found, &row_count);
    }
    for (size_t i = 0; i < sizeof delimiters && !good && shape->delimiter != '{'; i++) {
        shape->delimiter = delimiters[i];
        good = try_delimiter(look, shape, found, &row_count);
    }
    if (!good) {
        return qll_log_refuse(look, QLL_CODE_BAD_COLUMN, 1, QLL_SAYS(LOG_NO_STAMPS),
                              QLL_SAYS(HINT_STAMPED_ROWS));
    }
    if (shape->delimiter == '{') {
        shape->first_line = 1;
    } else {
        find_header(look, shape);
    }
    name_roles(shape, found, row_count);
    return use_options(look, shape, found, row_count);
}
