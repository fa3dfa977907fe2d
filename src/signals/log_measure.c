/* What is measured: the column of the value, its kind and unit, and which meter is taken. Nothing is
 * guessed: what the log does not say and no option says is refused. */
#include "base/quote.h"
#include "base/units.h"
#include "base/units_table.h"
#include "signals/log_encoding.h"
#include "signals/log_shape.h"

#include <math.h>
#include <string.h>

#define QLL_KEYS_TRIED  8
/* Values that rise and fall so often are no register's (our choice). */
#define QLL_TURNS_LEAST 5

static qll_log_kind kind_of_role(qll_log_role role)
{
    switch (role) {
    case QLL_ROLE_FLOW: return QLL_LOG_KIND_FLOW;
    case QLL_ROLE_VOLUME: return QLL_LOG_KIND_VOLUME;
    case QLL_ROLE_REGISTER: return QLL_LOG_KIND_REGISTER;
    case QLL_ROLE_PULSES: return QLL_LOG_KIND_PULSES;
    case QLL_ROLE_NONE:
    case QLL_ROLE_TIME:
    case QLL_ROLE_DATE:
    case QLL_ROLE_CLOCK:
    case QLL_ROLE_START:
    case QLL_ROLE_END:
    case QLL_ROLE_DURATION:
    case QLL_ROLE_VALUE:
    case QLL_ROLE_UNIT:
    case QLL_ROLE_KEY:
    case QLL_ROLE_METER:
    case QLL_ROLE_QUALITY:
    case QLL_ROLE_INLET:
    case QLL_ROLE_OUTLET:
    case QLL_ROLE_PRESSURE:
    case QLL_ROLE_TEMPERATURE:
    case QLL_ROLE_COUNT: break;
    }
    return QLL_LOG_KIND_UNKNOWN;
}

static qll_log_role role_of_kind(qll_log_kind kind)
{
    static const qll_log_role roles[QLL_LOG_KIND_COUNT] = {
        [QLL_LOG_KIND_FLOW] = QLL_ROLE_FLOW,     [QLL_LOG_KIND_VOLUME] = QLL_ROLE_VOLUME,
        [QLL_LOG_KIND_PULSES] = QLL_ROLE_PULSES, [QLL_LOG_KIND_REGISTER] = QLL_ROLE_REGISTER,
        [QLL_LOG_KIND_EVENTS] = QLL_ROLE_VOLUME,
    };
    return roles[kind];
}

/* The one column of @p role; refuses two. */
static bool find_only(const qll_log_look *look, const qll_log_shape *shape, qll_log_role role,
                      size_t *column)
{
    *column = shape->role[role];
    for (size_t c = *column == SIZE_MAX ? shape->column_count : *column + 1;
         c < shape->column_count; c++) {
        if (shape->columns[c].role == role) {
            return qll_log_refuse_at(look, QLL_CODE_BAD_COLUMN, shape->first_line - 1, "header",
                                     QLL_SAYS_WITH(LOG_TWO_COLUMNS,
                                                   qll_as_quoted(shape->columns[*column].name),
                                                   qll_as_quoted(shape->columns[c].name)),
                                     QLL_SAYS(ASK_VALUE_COLUMN));
        }
    }
    return true;
}

static bool is_used_for_time(const qll_log_shape *shape, size_t column)
{
    return column == shape->role[QLL_ROLE_TIME] || column == shape->role[QLL_ROLE_DATE]
           || column == shape->role[QLL_ROLE_CLOCK] || column == shape->role[QLL_ROLE_END];
}

/* Without names: the only column that holds no stamp. */
static size_t only_other(const qll_log_shape *shape)
{
    size_t other = SIZE_MAX;
    for (size_t c = 0; c < shape->column_count; c++) {
        if (!is_used_for_time(shape, c)) {
            if (other != SIZE_MAX) {
                return SIZE_MAX;
            }
            other = c;
        }
    }
    return other;
}

/* Where no name is known: the only column with a unit of @p kind. */
static size_t only_with_unit(const qll_log_shape *shape, qll_kind kind)
{
    size_t found = SIZE_MAX;
    for (size_t c = 0; c < shape->column_count; c++) {
        const qll_text unit = shape->columns[c].unit;
        if (unit.size > 0 && qll_units_match(unit, kind) != NULL) {
            if (found != SIZE_MAX) {
                return SIZE_MAX;
            }
            found = c;
        }
    }
    return found;
}

/* The value's column and, as far as names tell, its kind. */
static bool find_value(const qll_log_look *look, qll_log_shape *shape)
{
    static const qll_log_role wanted[] = {QLL_ROLE_FLOW, QLL_ROLE_PULSES, QLL_ROLE_REGISTER,
                                          QLL_ROLE_VOLUME, QLL_ROLE_VALUE};
    qll_log_kind kind = look->options->kind;
    bool has_end = shape->role[QLL_ROLE_END] != SIZE_MAX;
    bool good = true;
    if (kind == QLL_LOG_KIND_UNKNOWN && has_end) {
        kind = QLL_LOG_KIND_EVENTS;
    }
    if (shape->value == SIZE_MAX && kind != QLL_LOG_KIND_UNKNOWN) {
        good = find_only(look, shape, role_of_kind(kind), &shape->value);
        if (good && shape->value == SIZE_MAX && kind == QLL_LOG_KIND_EVENTS) {
            good = find_only(look, shape, QLL_ROLE_FLOW, &shape->value);
        }
        if (good && shape->value == SIZE_MAX) {
            good = find_only(look, shape, QLL_ROLE_VALUE, &shape->value);
        }
    }
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted && good && shape->value == SIZE_MAX;
         i++) {
        good = find_only(look, shape, wanted[i], &shape->value);
    }
    if (!good) {
        return false;
    }
    if (shape->value == SIZE_MAX && shape->header.size == 0) {
        shape->value = only_other(shape);
    }
    if (shape->value == SIZE_MAX) {
        shape->value = only_with_unit(shape, QLL_KIND_FLOW);
    }
    if (shape->value == SIZE_MAX) {
        shape->value = only_with_unit(shape, QLL_KIND_VOLUME);
    }
    if (shape->value == SIZE_MAX) {
        return qll_log_refuse(look, QLL_CODE_BAD_COLUMN, shape->first_line - 1,
                              QLL_SAYS(LOG_NO_VALUE), QLL_SAYS(ASK_VALUE_COLUMN));
    }
    if (kind == QLL_LOG_KIND_UNKNOWN) {
        kind = kind_of_role(shape->columns[shape->value].role);
    }
    shape->kind = kind;
    if (kind == QLL_LOG_KIND_EVENTS && !has_end && shape->role[QLL_ROLE_DURATION] == SIZE_MAX) {
        return qll_log_refuse(look, QLL_CODE_BAD_COLUMN, shape->first_line - 1,
                              QLL_SAYS(LOG_NO_END), NULL);
    }
    return true;
}

/* ---- the meter and the key taken ---- */

/* Distinct cells of @p column in the first lines, at most QLL_KEYS_TRIED. */
static size_t distinct_cells(const qll_log_look *look, const qll_log_shape *shape, size_t column,
                             qll_text found[QLL_KEYS_TRIED])
{
    size_t count = 0;
    qll_text cells[QLL_LOG_COLUMNS];
    for (size_t i = look->title_count; i < look->line_count && count < QLL_KEYS_TRIED; i++) {
        if (qll_log_look_cells(look, shape, i, cells) != shape->column_count) {
            continue;
        }
        size_t k = 0;
        while (k < count && !qll_text_equal(found[k], cells[column])) {
            k += 1;
        }
        if (k == count) {
            found[count] = cells[column];
            count += 1;
        }
    }
    return count;
}

static bool find_key(const qll_log_look *look, qll_log_shape *shape)
{
    size_t column = shape->role[QLL_ROLE_KEY];
    if (column == SIZE_MAX) {
        return true;
    }
    shape->keyed = true;
    if (look->options->key != NULL) {
        shape->key = qll_text_of(look->options->key);
    }
    qll_text found[QLL_KEYS_TRIED];
    size_t count = distinct_cells(look, shape, column, found);
    qll_writer several = qll_writer_new(look->arena);
    size_t fitting = 0;
    for (size_t k = 0; k < count; k++) {
        bool fits = shape->key.size > 0
                        ? qll_text_equal(found[k], shape->key)
                        : kind_of_role(qll_log_column_read(found[k]).role) != QLL_LOG_KIND_UNKNOWN;
        if (fits || count == 1) {
            fitting += 1;
            qll_write(&several, several.size == 0 ? "" : " ");
            qll_write_quoted(&several, found[k]);
            qll_log_column key = qll_log_column_read(found[k]);
            shape->key = found[k];
            shape->kind =
                shape->kind != QLL_LOG_KIND_UNKNOWN ? shape->kind : kind_of_role(key.role);
            if (shape->columns[shape->value].unit.size == 0) {
                shape->columns[shape->value].unit = key.unit;
            }
        }
    }
    if (fitting == 1 || look->options->key != NULL) {
        return true;
    }
    if (fitting == 0) {
        return qll_log_refuse(look, QLL_CODE_BAD_COLUMN, shape->first_line,
                              QLL_SAYS(LOG_KEYS_UNKNOWN), QLL_SAYS(ASK_KEY));
    }
    return qll_log_refuse(
        look, QLL_CODE_BAD_COLUMN, shape->first_line,
        QLL_SAYS_WITH(LOG_KEYS_SEVERAL, qll_as_is_text(qll_writer_text(&several))),
        QLL_SAYS(ASK_KEY));
}

static bool find_meter(const qll_log_look *look, qll_log_shape *shape)
{
    size_t column = shape->role[QLL_ROLE_METER];
    if (look->options->meter != NULL) {
        shape->meter = qll_text_of(look->options->meter);
        if (column == SIZE_MAX) {
            return qll_log_refuse(look, QLL_CODE_BAD_COLUMN, 1, QLL_SAYS(LOG_NO_METER), NULL);
        }
        return true;
    }
    if (column == SIZE_MAX || look->options->repeated == QLL_LOG_REPEATED_SUM) {
        return true;
    }
    qll_text found[QLL_KEYS_TRIED];
    if (distinct_cells(look, shape, column, found) > 0) {
        /* Another meter further down is refused when it is met. */
        shape->meter = found[0];
    }
    return true;
}

/* ---- units ---- */

static qll_text find_unit(const qll_log_look *look, const qll_log_shape *shape, bool *by_row)
{
    *by_row = false;
    if (look->options->unit != NULL) {
        return qll_text_of(look->options->unit);
    }
    if (shape->columns[shape->value].unit.size > 0) {
        return shape->columns[shape->value].unit;
    }
    qll_text cells[QLL_LOG_COLUMNS];
    size_t column = shape->role[QLL_ROLE_UNIT];
    for (size_t i = look->title_count; i < look->line_count && column != SIZE_MAX; i++) {
        if (qll_log_look_cells(look, shape, i, cells) == shape->column_count
            && cells[column].size > 0) {
            *by_row = true;
            return qll_text_from_latin1(cells[column], look->arena);
        }
    }
    return (qll_text){"", 0};
}

static bool use_pulses(const qll_log_look *look, qll_log_shape *shape)
{
    shape->kind = QLL_LOG_KIND_PULSES;
    shape->unit_by_row = false;
    shape->unit_name = "pulses";
    shape->factor = look->options->pulse_m3;
    if (isnan(shape->factor) && !qll_log_pulse_find(look, &shape->factor)) {
        return false;
    }
    if (isnan(shape->factor)) {
        return qll_log_refuse(look, QLL_CODE_NO_UNIT, shape->first_line, QLL_SAYS(LOG_NO_PULSE),
                              QLL_SAYS(ASK_PULSE));
    }
    return true;
}

/* Do the first values rise and fall, several times each? */
static bool goes_up_and_down(const qll_log_look *look, const qll_log_shape *shape)
{
    qll_text cells[QLL_LOG_COLUMNS];
    double before = (double)NAN;
    size_t up = 0;
    size_t down = 0;
    for (size_t i = look->title_count; i < look->line_count; i++) {
        double value = 0.0;
        if (qll_log_look_cells(look, shape, i, cells) == shape->column_count
            && qll_log_number(cells[shape->value], '.', &value)) {
            up += value > before ? 1U : 0U;
            down += value < before ? 1U : 0U;
            before = value;
        }
    }
    return up >= QLL_TURNS_LEAST && down >= QLL_TURNS_LEAST;
}

static bool use_unit(const qll_log_look *look, qll_log_shape *shape)
{
    qll_text unit = find_unit(look, shape, &shape->unit_by_row);
    if (shape->kind == QLL_LOG_KIND_PULSES || qll_log_name_equal(unit, qll_text_of("pulses"))) {
        return use_pulses(look, shape);
    }
    if (unit.size == 0) {
        return qll_log_refuse(look, QLL_CODE_NO_UNIT, shape->first_line, QLL_SAYS(LOG_NO_UNIT),
                              QLL_SAYS(ASK_UNIT));
    }
    shape->unit_name = qll_text_closed(unit, look->arena);
    if (shape->unit_name == NULL) {
        return false;
    }
    double flow = qll_log_unit_factor(look, unit, QLL_KIND_FLOW);
    double volume = qll_log_unit_factor(look, unit, QLL_KIND_VOLUME);
    if (isnan(flow) && isnan(volume)) {
        return qll_log_refuse(look, QLL_CODE_UNKNOWN_UNIT, shape->first_line,
                              QLL_SAYS_WITH(LOG_UNIT_NEITHER, qll_as_quoted(unit)), NULL);
    }
    shape->value_is_flow = !isnan(flow);
    shape->factor = shape->value_is_flow ? flow : volume;
    if (shape->kind == QLL_LOG_KIND_UNKNOWN && shape->value_is_flow) {
        shape->kind = QLL_LOG_KIND_FLOW;
    }
    if (shape->kind == QLL_LOG_KIND_FLOW && !shape->value_is_flow) {
        shape->kind = QLL_LOG_KIND_VOLUME; /* a flow given as the volume of its interval */
    }
    if (shape->kind == QLL_LOG_KIND_UNKNOWN && goes_up_and_down(look, shape)) {
        shape->kind = QLL_LOG_KIND_VOLUME; /* no register does */
    }
    if (shape->kind == QLL_LOG_KIND_UNKNOWN) {
        return qll_log_refuse(look, QLL_CODE_CONTRADICTION, shape->first_line,
                              QLL_SAYS_WITH(LOG_UNIT_EITHER, qll_as_quoted(unit)),
                              QLL_SAYS(ASK_KIND));
    }
    if (shape->value_is_flow
        && (shape->kind == QLL_LOG_KIND_VOLUME || shape->kind == QLL_LOG_KIND_REGISTER)) {
        return qll_log_refuse(look, QLL_CODE_WRONG_UNIT, shape->first_line,
                              QLL_SAYS_WITH(LOG_UNIT_OF_FLOW, qll_as_quoted(unit)), NULL);
    }
    return true;
}

/* ---- zone, and the rest ---- */

bool qll_log_zone_find(const qll_log_look *look, qll_log_shape *shape)
{
    const char *zone = look->options->zone;
    shape->local_known = zone != NULL || !shape->unix_time;
    if (zone != NULL && !qll_zone_read(qll_text_of(zone), &shape->zone)) {
        return qll_log_refuse(look, QLL_CODE_UNKNOWN_WORD, 0,
                              QLL_SAYS_WITH(ZONE_UNKNOWN, qll_as_quoted(qll_text_of(zone))),
                              qll_hint_word(qll_zone_nearest(qll_text_of(zone)), look->arena));
    }
    return true;
}

static bool find_duration(const qll_log_look *look, qll_log_shape *shape)
{
    size_t column = shape->role[QLL_ROLE_DURATION];
    shape->duration_s = (double)NAN;
    if (shape->kind != QLL_LOG_KIND_EVENTS || column == SIZE_MAX) {
        return true;
    }
    qll_text unit = shape->columns[column].unit;
    shape->duration_s =
        unit.size > 0 ? qll_log_unit_factor(look, unit, QLL_KIND_TIME) : (double)NAN;
    if (isnan(shape->duration_s) && shape->role[QLL_ROLE_END] == SIZE_MAX) {
        return qll_log_refuse(look, QLL_CODE_NO_UNIT, shape->first_line,
                              QLL_SAYS(LOG_NO_DURATION_UNIT), NULL);
    }
    return true;
}

size_t qll_log_needed_count(const qll_log_shape *shape)
{
    static const qll_log_role needed[] = {QLL_ROLE_TIME, QLL_ROLE_DATE, QLL_ROLE_CLOCK,
                                          QLL_ROLE_END};
    size_t count = shape->value + 1;
    for (size_t i = 0; i < sizeof needed / sizeof *needed; i++) {
        size_t column = shape->role[needed[i]];
        count = column != SIZE_MAX && column + 1 > count ? column + 1 : count;
    }
    return count;
}

bool qll_log_measure_find(qll_log_look *look, qll_log_shape *shape)
{
    if (!find_value(look, shape) || !find_key(look, shape) || !find_meter(look, shape)
        || !use_unit(look, shape) || !qll_log_decimal_find(look, shape)
        || !qll_log_zone_find(look, shape) || !find_duration(look, shape)) {
        return false;
    }
    shape->stamp = look->options->stamp;
    if (shape->stamp == QLL_LOG_STAMP_UNKNOWN) {
        shape->stamp = shape->kind == QLL_LOG_KIND_FLOW ? QLL_LOG_STAMP_START : QLL_LOG_STAMP_END;
    }
    shape->needed_count = qll_log_needed_count(shape);
    return true;
}
