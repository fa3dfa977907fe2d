/* The columns of a log of pressures. Which pressure a column holds must be said, by its title or by an option: the two
 * are never guessed from their values, as a station that is plugged or bypassed looks the other way round. */
#include "signals/log_channels.h"

#include "base/units_table.h"
#include "signals/log_encoding.h"
#include "signals/log_shape.h"

#include <math.h>
#include <string.h>

/* The atmosphere that absolute readings are taken above: at sea level (ISO 2533). */
#define QLL_SEA_LEVEL_PA 101325.0

const char *const qll_channel_words[QLL_CHANNEL_COUNT] = {
#define QLL_CHANNEL_WORD(name, word) [QLL_CHANNEL_##name] = (word),
    QLL_CHANNEL_LIST(QLL_CHANNEL_WORD)
#undef QLL_CHANNEL_WORD
};

static const qll_log_role roles[QLL_CHANNEL_COUNT] = {[QLL_CHANNEL_INLET] = QLL_ROLE_INLET,
                                                      [QLL_CHANNEL_OUTLET] = QLL_ROLE_OUTLET,
                                                      [QLL_CHANNEL_FLOW] = QLL_ROLE_FLOW,
                                                      [QLL_CHANNEL_TEMPERATURE] =
                                                          QLL_ROLE_TEMPERATURE};

static const qll_kind kinds[QLL_CHANNEL_COUNT] = {[QLL_CHANNEL_INLET] = QLL_KIND_PRESSURE,
                                                  [QLL_CHANNEL_OUTLET] = QLL_KIND_PRESSURE,
                                                  [QLL_CHANNEL_FLOW] = QLL_KIND_FLOW,
                                                  [QLL_CHANNEL_TEMPERATURE] = QLL_KIND_TEMPERATURE};

qll_kind qll_channel_kind(qll_channel channel)
{
    return kinds[channel];
}

static bool refuse_header(const qll_log_look *look, const qll_log_shape *shape,
                          const qll_said *says, const qll_said *hint)
{
    const long long line = shape->first_line > 1 ? shape->first_line - 1 : 1;
    return qll_log_refuse_at(look, QLL_CODE_BAD_COLUMN, line, "header", says, hint);
}

/* The one column whose title means @p channel; refuses two. */
static bool find_column(const qll_log_look *look, qll_log_shape *shape, qll_channel channel)
{
    size_t *column = &shape->channels[channel].column;
    *column = SIZE_MAX;
    if (look->options->channel_columns[channel] != NULL) {
        return qll_log_column_named(look, shape, look->options->channel_columns[channel], column);
    }
    for (size_t c = 0; c < shape->column_count; c++) {
        if (shape->columns[c].role != roles[channel] || c == shape->role[QLL_ROLE_TIME]) {
            continue;
        }
        if (*column != SIZE_MAX) {
            return refuse_header(look, shape,
                                 QLL_SAYS_WITH(LOG_TWO_COLUMNS,
                                               qll_as_quoted(shape->columns[*column].name),
                                               qll_as_quoted(shape->columns[c].name)),
                                 QLL_SAYS_WITH(ASK_CHANNEL, qll_as_is(qll_channel_words[channel])));
        }
        *column = c;
    }
    return true;
}

static bool is_pressure(const qll_log_shape *shape, size_t column)
{
    const qll_log_column *of = &shape->columns[column];
    return of->role == QLL_ROLE_PRESSURE
           || (of->unit.size > 0 && of->role == QLL_ROLE_NONE
               && qll_units_match(of->unit, QLL_KIND_PRESSURE) != NULL);
}

static bool is_taken(const qll_log_shape *shape, size_t column)
{
    bool found = column == shape->role[QLL_ROLE_TIME] || column == shape->role[QLL_ROLE_DATE]
                 || column == shape->role[QLL_ROLE_CLOCK];
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        found = found || shape->channels[c].column == column;
    }
    return found;
}

/* Pressures that are neither inlet nor outlet by their titles: the other of the two where one is known, else refused. A
 * single one without a name is the outlet's no more than the inlet's. */
static bool place_others(const qll_log_look *look, qll_log_shape *shape)
{
    size_t *inlet = &shape->channels[QLL_CHANNEL_INLET].column;
    size_t *outlet = &shape->channels[QLL_CHANNEL_OUTLET].column;
    for (size_t c = 0; c < shape->column_count; c++) {
        if (is_taken(shape, c) || !is_pressure(shape, c)) {
            continue;
        }
        if (*inlet == SIZE_MAX || *outlet == SIZE_MAX) {
            return refuse_header(
                look, shape,
                QLL_SAYS_WITH(LOG_WHICH_PRESSURE, qll_as_quoted(shape->columns[c].name)),
                QLL_SAYS(ASK_PRESSURES));
        }
    }
    if (*inlet == SIZE_MAX && *outlet == SIZE_MAX) {
        return refuse_header(look, shape, QLL_SAYS(LOG_NO_PRESSURE), QLL_SAYS(ASK_PRESSURES));
    }
    return true;
}

/* ---- units ---- */

/* The unit behind the number of a cell: "62.3 psi". */
static qll_text unit_of_cell(qll_text cell, char decimal)
{
    double value = 0.0;
    size_t size = 0;
    while (size < cell.size
           && (qll_is_digit(cell.bytes[size]) || cell.bytes[size] == '-' || cell.bytes[size] == '+'
               || cell.bytes[size] == '.' || cell.bytes[size] == ',')) {
        size += 1;
    }
    const qll_text number = {cell.bytes, size};
    const qll_text unit = qll_text_trimmed((qll_text){cell.bytes + size, cell.size - size});
    return size > 0 && qll_log_number(number, decimal, &value) ? unit : (qll_text){"", 0};
}

static void take_unit(qll_log_channel_column *of, const qll_unit *unit)
{
    of->times = unit->factor / unit->per;
    of->plus = unit->shift * of->times - (unit->absolute ? QLL_SEA_LEVEL_PA : 0.0);
}

static bool find_unit(const qll_log_look *look, qll_log_shape *shape, qll_channel channel)
{
    qll_log_channel_column *of = &shape->channels[channel];
    qll_text unit = shape->columns[of->column].unit;
    if (look->options->channel_units[channel] != NULL) {
        unit = qll_text_of(look->options->channel_units[channel]);
    }
    qll_text cells[QLL_LOG_COLUMNS];
    for (size_t i = look->title_count; i < look->line_count && unit.size == 0; i++) {
        if (qll_log_look_cells(look, shape, i, cells) == shape->column_count) {
            unit = unit_of_cell(cells[of->column], '.');
            unit = unit.size == 0 ? unit_of_cell(cells[of->column], ',') : unit;
            of->unit_in_cells = unit.size > 0;
        }
    }
    unit = qll_text_from_latin1(unit, look->arena);
    const qll_text name = shape->columns[of->column].name;
    if (unit.size == 0) {
        return refuse_header(look, shape, QLL_SAYS_WITH(LOG_CHANNEL_NO_UNIT, qll_as_quoted(name)),
                             QLL_SAYS_WITH(ASK_CHANNEL_UNIT, qll_as_is(qll_channel_words[channel]),
                                           qll_as_is(qll_units_example(kinds[channel]))));
    }
    const qll_unit *found = qll_units_match(unit, kinds[channel]);
    if (found == NULL) {
        return refuse_header(
            look, shape, QLL_SAYS_WITH(LOG_CHANNEL_UNIT, qll_as_quoted(unit), qll_as_quoted(name)),
            QLL_SAYS_WITH(ASK_CHANNEL_UNIT, qll_as_is(qll_channel_words[channel]),
                          qll_as_is(qll_units_example(kinds[channel]))));
    }
    take_unit(of, found);
    of->unit = qll_text_closed(unit, look->arena);
    return of->unit != NULL;
}

bool qll_log_channel_unit(const qll_log_shape *shape, qll_channel channel, qll_text unit,
                          double *times, double *plus)
{
    const qll_unit *found = qll_units_match(unit, kinds[channel]);
    qll_log_channel_column of = shape->channels[channel];
    if (found == NULL) {
        return false;
    }
    take_unit(&of, found);
    *times = of.times;
    *plus = of.plus;
    return true;
}

/* ---- marks ---- */

/* "62.125 bar": with its thousands parted no pressure of a building. */
static bool points_must_be_decimals(const qll_log_look *look, const qll_log_shape *shape)
{
    const qll_log_channel_column *of = &shape->channels[shape->first_channel];
    qll_text cells[QLL_LOG_COLUMNS];
    for (size_t i = look->title_count; i < look->line_count; i++) {
        double value = 0.0;
        if (qll_log_look_cells(look, shape, i, cells) == shape->column_count
            && qll_log_is_three(cells[of->column]) && qll_log_number(cells[of->column], '.', &value)
            && value * 1000.0 * of->times > QLL_CHANNEL_MOST_PA) {
            return true;
        }
    }
    return false;
}

/* The mark of the first channel that has one holds for all. */
static bool find_marks(const qll_log_look *look, qll_log_shape *shape)
{
    bool known = false;
    for (size_t c = 0; c < QLL_CHANNEL_COUNT && !known; c++) {
        if (shape->channels[c].column == SIZE_MAX) {
            continue;
        }
        shape->value = shape->channels[c].column;
        shape->decimal_open = shape->decimal_doubt = false;
        if (!qll_log_decimal_find(look, shape)) {
            return false;
        }
        known = !shape->decimal_open;
    }
    shape->value = shape->channels[shape->first_channel].column;
    if (shape->decimal_doubt && !points_must_be_decimals(look, shape)) {
        return qll_log_decimal_refuse(look, shape);
    }
    shape->decimal_doubt = false;
    return true;
}

bool qll_log_channels_find(qll_log_look *look, qll_log_shape *shape)
{
    shape->has_channels = true;
    memset(shape->channel_of, QLL_CHANNEL_COUNT, sizeof shape->channel_of);
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (!find_column(look, shape, (qll_channel)c)) {
            return false;
        }
    }
    if (!place_others(look, shape)) {
        return false;
    }
    size_t last = 0;
    shape->first_channel = QLL_CHANNEL_COUNT;
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        const size_t column = shape->channels[c].column;
        if (column == SIZE_MAX) {
            continue;
        }
        if (shape->channel_of[column] != QLL_CHANNEL_COUNT
            || !find_unit(look, shape, (qll_channel)c)) {
            return false;
        }
        shape->channel_of[column] = (unsigned char)c;
        shape->first_channel =
            shape->first_channel == QLL_CHANNEL_COUNT ? (qll_channel)c : shape->first_channel;
        last = column > last ? column : last;
    }
    if (!find_marks(look, shape) || !qll_log_zone_find(look, shape)) {
        return false;
    }
    shape->needed_count = qll_log_needed_count(shape);
    shape->needed_count = last + 1 > shape->needed_count ? last + 1 : shape->needed_count;
    return true;
}
