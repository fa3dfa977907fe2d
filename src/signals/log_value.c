/* The value of a row: a number in the unit of the first row, or why it is none. */
#include "base/units_table.h"
#include "signals/log_row.h"

#include <math.h>
#include <string.h>

static bool is_one_of(qll_text cell, const char *const *words, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (qll_log_name_equal(cell, qll_text_of(words[i]))) {
            return true;
        }
    }
    return false;
}

static bool is_poor(const qll_log_lane *lane, qll_text quality)
{
    static const char *const good[] = {"A", "OK", "good", "valid"};
    double value = 0.0;
    if (quality.size == 0) {
        return false;
    }
    if (qll_log_number(quality, lane->shape->decimal, &value)) {
        double least = lane->options->least_quality;
        return isnan(least) ? value <= 0.0 : value < least;
    }
    return !is_one_of(quality, good, sizeof good / sizeof *good);
}

/* What loggers write for "no reading": a row of nines, mostly negative (common practice, no source). */
bool qll_log_is_sentinel(const qll_log_shape *shape, double value)
{
    double size = fabs(value);
    bool nines = size == 999.0 || size == 9999.0 || size == 99999.0 || size == 999999.0
                 || size == 9999.9 || size == 99999.9 || size == 999.9 || size == 999.99;
    if (shape->has_channels) {
        return nines && (value < 0.0 || size >= 9999.0);
    }
    return nines && (value < 0.0 || shape->kind == QLL_LOG_KIND_FLOW);
}

/* The first rows were whole numbers: what marks come later? */
static void look_at_marks(qll_log_lane *lane, qll_text cell)
{
    if (cell.size == 0) {
        return;
    }
    if (memchr(cell.bytes, '.', cell.size) != NULL) {
        lane->three_count += qll_log_is_three(cell) ? 1 : 0;
        lane->decimal_count += qll_log_is_three(cell) ? 0 : 1;
    } else if (memchr(cell.bytes, ',', cell.size) != NULL) {
        lane->comma_count += 1;
    }
}

/* A value in the unit of its own row, in that of the first. */
static double in_first_unit(qll_log_lane *lane, const qll_text *cells, size_t count, long long line,
                            double value)
{
    const qll_log_shape *shape = lane->shape;
    const size_t column = shape->role[QLL_ROLE_UNIT];
    if (column >= count || cells[column].size == 0
        || qll_text_is(cells[column], shape->unit_name)) {
        return value;
    }
    const qll_text unit = cells[column];
    if (unit.size >= sizeof lane->unit
        || !qll_text_equal(unit, (qll_text){lane->unit, lane->unit_size})) {
        const qll_unit *row =
            qll_units_match(unit, shape->value_is_flow ? QLL_KIND_FLOW : QLL_KIND_VOLUME);
        lane->unit_times = row == NULL ? (double)NAN : row->factor / row->per / shape->factor;
        lane->unit_size = unit.size < sizeof lane->unit ? unit.size : 0;
        memcpy(lane->unit, unit.bytes, lane->unit_size);
    }
    if (lane->unit_times != 1.0) {
        qll_records_mend(&lane->records,
                         isnan(lane->unit_times) ? QLL_LOG_MEND_UNREADABLE : QLL_LOG_MEND_UNIT,
                         line, INT64_MIN);
    }
    return value * lane->unit_times;
}

static bool is_nothing(qll_text cell)
{
    static const char *const nothing[] = {"nan", "null", "na", "none", "nodata"};
    /* Marks alone ("", "--") have no letters either. */
    return qll_log_name_equal(cell, (qll_text){"", 0})
           || is_one_of(cell, nothing, sizeof nothing / sizeof *nothing);
}

/* ---- the channels of a log of pressures ---- */

/* Takes the unit off a cell that has one; false if it is no unit of the channel. */
static bool take_cell_unit(qll_log_lane *lane, qll_channel channel, qll_text *cell, long long line,
                           double *times, double *plus)
{
    qll_log_cell_unit *of = &lane->cell_units[channel];
    size_t size = cell->size;
    while (size > 0 && !qll_is_digit(cell->bytes[size - 1])) {
        size -= 1;
    }
    const qll_text unit = qll_text_trimmed((qll_text){cell->bytes + size, cell->size - size});
    if (size == 0 || unit.size == 0) {
        return true;
    }
    if (unit.size != of->size || memcmp(unit.bytes, of->unit, unit.size) != 0) {
        if (unit.size >= sizeof of->unit
            || !qll_log_channel_unit(lane->shape, channel, unit, &of->times, &of->plus)) {
            return false;
        }
        of->size = unit.size;
        memcpy(of->unit, unit.bytes, unit.size);
    }
    const qll_log_channel_column *first = &lane->shape->channels[channel];
    if (of->times != first->times || of->plus != first->plus) {
        qll_records_mend(&lane->records, QLL_LOG_MEND_UNIT, line, INT64_MIN);
    }
    *times = of->times;
    *plus = of->plus;
    *cell = (qll_text){cell->bytes, size};
    return true;
}

/* One of them in SI; NaN where it is unknown, and why in @p mend. */
static double channel_value(qll_log_lane *lane, qll_channel channel, qll_text cell, long long line,
                            qll_log_mend_kind *mend)
{
    const qll_log_shape *shape = lane->shape;
    double times = shape->channels[channel].times;
    double plus = shape->channels[channel].plus;
    double value = 0.0;
    if (is_nothing(cell)) {
        *mend = QLL_LOG_MEND_EMPTY;
        return (double)NAN;
    }
    if (!take_cell_unit(lane, channel, &cell, line, &times, &plus)
        || !qll_log_value(shape, cell, &value)) {
        *mend = QLL_LOG_MEND_UNREADABLE;
        return (double)NAN;
    }
    if (qll_log_is_sentinel(shape, value)) {
        *mend = QLL_LOG_MEND_SENTINEL;
        return (double)NAN;
    }
    value = value * times + plus;
    if (channel == QLL_CHANNEL_FLOW) {
        *mend = value < 0.0 ? QLL_LOG_MEND_NEGATIVE : *mend;
        *mend = value > QLL_LOG_MOST_FLOW_M3S ? QLL_LOG_MEND_ABSURD : *mend;
        return value > QLL_LOG_MOST_FLOW_M3S ? (double)NAN : fmax(value, 0.0);
    }
    if (qll_channel_kind(channel) == QLL_KIND_PRESSURE
        && !(value >= QLL_CHANNEL_LEAST_PA && value <= QLL_CHANNEL_MOST_PA)) {
        *mend = QLL_LOG_MEND_IMPOSSIBLE;
        return (double)NAN;
    }
    return value;
}

double qll_log_row_channels(qll_log_lane *lane, const qll_text *cells, size_t count, long long line)
{
    const qll_log_shape *shape = lane->shape;
    const size_t quality = shape->role[QLL_ROLE_QUALITY];
    const bool poor = quality < count && is_poor(lane, cells[quality]);
    qll_log_mend_kind worst = poor ? QLL_LOG_MEND_POOR_SIGNAL : QLL_LOG_MEND_COUNT;
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        lane->records.row_channel[c] = (double)NAN;
        if (shape->channels[c].column == SIZE_MAX || poor) {
            continue;
        }
        qll_log_mend_kind mend = QLL_LOG_MEND_COUNT;
        lane->records.row_channel[c] =
            channel_value(lane, (qll_channel)c, cells[shape->channels[c].column], line, &mend);
        worst = worst == QLL_LOG_MEND_COUNT ? mend : worst;
    }
    if (shape->decimal_open) {
        look_at_marks(lane, cells[shape->value]);
    }
    if (worst != QLL_LOG_MEND_COUNT) {
        qll_records_mend(&lane->records, worst, line, INT64_MIN);
    }
    return lane->records.row_channel[shape->first_channel];
}

double qll_log_row_value(qll_log_lane *lane, const qll_text *cells, size_t count, long long line)
{
    const qll_log_shape *shape = lane->shape;
    qll_text cell = cells[shape->value];
    size_t quality = shape->role[QLL_ROLE_QUALITY];
    double value = (double)NAN;
    qll_log_mend_kind mend = QLL_LOG_MEND_COUNT;
    if (!qll_log_value(shape, cell, &value)) {
        mend = is_nothing(cell) ? QLL_LOG_MEND_EMPTY : QLL_LOG_MEND_UNREADABLE;
    } else if (qll_log_is_sentinel(shape, value)) {
        mend = QLL_LOG_MEND_SENTINEL;
    } else if (quality < count && is_poor(lane, cells[quality])) {
        mend = QLL_LOG_MEND_POOR_SIGNAL;
    }
    if (shape->decimal_open) {
        look_at_marks(lane, cell);
    }
    if (mend == QLL_LOG_MEND_COUNT && shape->unit_by_row) {
        return in_first_unit(lane, cells, count, line, value);
    }
    if (mend == QLL_LOG_MEND_COUNT) {
        return value;
    }
    qll_records_mend(&lane->records, mend, line, INT64_MIN);
    return (double)NAN;
}
