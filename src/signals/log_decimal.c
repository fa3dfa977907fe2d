/* Which mark stands in front of decimals and which parts thousands. Either may be a point or a comma;
 * what can be read both ways, a thousand times apart, is refused. */
#include "signals/log_shape.h"

#include <math.h>
#include <string.h>

/* What the first values hold of one mark. */
typedef struct mark_count {
    size_t three;   /* once, with three digits behind and one to three in front: "1.234" */
    size_t decimal; /* once, and no other way to read it: "0.5", "1234.567" */
    size_t groups;  /* several times: "1.005.815" */
} mark_count;

typedef struct value_marks {
    mark_count of[2];    /* point, comma */
    size_t with_both[2]; /* cells that hold both: the last is ... */
    size_t long_whole;   /* over three digits and no mark */
    size_t whole;        /* no mark, and not 0 */
    bool any_whole;
} value_marks;

static bool is_digits(const char *at, size_t size)
{
    size_t i = 0;
    while (i < size && qll_is_digit(at[i])) {
        i += 1;
    }
    return i == size;
}

static qll_text without_sign(qll_text cell)
{
    if (cell.size > 0 && (cell.bytes[0] == '-' || cell.bytes[0] == '+')) {
        return (qll_text){cell.bytes + 1, cell.size - 1};
    }
    return cell;
}

/* "1.234": a whole number of thousands, or one with three decimals. */
static bool is_three(qll_text cell, size_t at)
{
    return cell.size == at + 4 && at >= 1 && at <= 3 && cell.bytes[0] != '0'
           && is_digits(cell.bytes, at) && is_digits(cell.bytes + at + 1, 3);
}

static void look_at(qll_text cell, value_marks *seen)
{
    size_t count[2] = {0, 0};
    size_t last = 0;
    size_t first = SIZE_MAX;
    cell = without_sign(cell);
    for (size_t i = 0; i < cell.size; i++) {
        if (cell.bytes[i] == '.' || cell.bytes[i] == ',') {
            last = i;
            first = first == SIZE_MAX ? i : first;
            count[cell.bytes[i] == ',' ? 1 : 0] += 1;
        } else if (!qll_is_digit(cell.bytes[i])) {
            return; /* no plain number: an exponent, a word */
        }
    }
    const size_t mark = cell.size > 0 && cell.bytes[last] == ',' ? 1 : 0;
    if (count[0] + count[1] == 0) {
        seen->any_whole = seen->any_whole || cell.size > 0;
        seen->whole += cell.size > 0 && !(cell.size == 1 && cell.bytes[0] == '0') ? 1U : 0U;
        seen->long_whole += cell.size > 3 ? 1U : 0U;
    } else if (count[0] > 0 && count[1] > 0) {
        seen->with_both[mark] += 1;
    } else if (count[mark] > 1) {
        seen->of[mark].groups += 1;
    } else if (is_three(cell, first)) {
        seen->of[mark].three += 1;
    } else {
        seen->of[mark].decimal += 1;
    }
}

static bool has_mark(const mark_count *of)
{
    return of->three + of->decimal + of->groups > 0;
}

static bool refuse(const qll_log_look *look, const qll_log_shape *shape, const qll_said *says)
{
    return qll_log_refuse(look, QLL_CODE_CONTRADICTION, shape->first_line, says,
                          QLL_SAYS(ASK_DECIMAL));
}

bool qll_log_decimal_refuse(const qll_log_look *look, const qll_log_shape *shape)
{
    return refuse(look, shape, QLL_SAYS(LOG_POINTS_OPEN));
}

static bool decide_one(const qll_log_look *look, qll_log_shape *shape, const value_marks *seen,
                       size_t mark)
{
    static const char marks[] = {'.', ','};
    const mark_count *of = &seen->of[mark];
    if (of->groups > 0 && of->decimal > 0) {
        return refuse(look, shape, QLL_SAYS(LOG_MARKS_MIXED));
    }
    if (of->groups > 0) {
        shape->thousands = marks[mark];
        shape->decimal = marks[1 - mark];
        return true;
    }
    shape->decimal = marks[mark];
    if (of->decimal > 0 || seen->long_whole > 0) {
        return true;
    }
    if (mark == 1) {
        return refuse(look, shape, QLL_SAYS(LOG_COMMAS_OPEN));
    }
    if (seen->whole > 0) {
        return qll_log_decimal_refuse(look, shape);
    }
    shape->decimal_doubt = true; /* once the rows' times are known it may be cleared */
    return true;
}

/* 1,234.5 or 1.234,5: one mark parts thousands and the other decimals. False if neither way fits. */
static bool part_both(qll_log_shape *shape, const value_marks *seen, bool has_both)
{
    for (size_t mark = 0; mark < 2; mark++) {
        const size_t other = 1 - mark;
        const bool fits = seen->with_both[other] == 0 && seen->of[mark].groups == 0
                          && seen->of[other].decimal == 0;
        if (fits && (seen->with_both[mark] > 0 || (has_both && seen->of[other].groups > 0))) {
            shape->decimal = mark == 0 ? '.' : ',';
            shape->thousands = mark == 0 ? ',' : '.';
            return true;
        }
    }
    return false;
}

bool qll_log_decimal_find(const qll_log_look *look, qll_log_shape *shape)
{
    value_marks seen = {0};
    qll_text cells[QLL_LOG_COLUMNS];
    if (look->options->decimal != '\0') {
        shape->decimal = look->options->decimal;
        shape->thousands = shape->decimal == '.' ? ',' : '.';
        return true;
    }
    shape->decimal = '.';
    for (size_t i = look->title_count; i < look->line_count; i++) {
        if (qll_log_look_cells(look, shape, i, cells) == shape->column_count) {
            look_at(cells[shape->value], &seen);
        }
    }
    const bool points = has_mark(&seen.of[0]);
    const bool commas = has_mark(&seen.of[1]);
    if (part_both(shape, &seen, points && commas)) {
        return true;
    }
    if ((points && commas) || seen.with_both[0] + seen.with_both[1] > 0) {
        return refuse(look, shape, QLL_SAYS(LOG_MARKS_BOTH));
    }
    if (points || commas) {
        return decide_one(look, shape, &seen, commas ? 1 : 0);
    }
    shape->decimal_open = shape->kind != QLL_LOG_KIND_PULSES && seen.any_whole;
    return true;
}

bool qll_log_is_three(qll_text cell)
{
    cell = without_sign(cell);
    const char *at = cell.size > 0 ? memchr(cell.bytes, '.', cell.size) : NULL;
    return at != NULL && is_three(cell, (size_t)(at - cell.bytes));
}

/* Takes the marks of thousands out: groups of three digits behind the first. */
static bool join_groups(qll_text *cell, char thousands, char decimal, char copy[64])
{
    size_t size = 0;
    size_t since = SIZE_MAX; /* digits since the last mark */
    bool behind = false;
    for (size_t i = 0; i < cell->size; i++) {
        const char byte = cell->bytes[i];
        if (byte == thousands && !behind) {
            if (i == 0 || (since != SIZE_MAX && since != 3)) {
                return false;
            }
            since = 0;
            continue;
        }
        behind = behind || byte == decimal;
        if (behind && since != SIZE_MAX && since != 3) {
            return false;
        }
        since = behind ? SIZE_MAX : since;
        since += since != SIZE_MAX ? 1U : 0U;
        copy[size] = byte;
        size += 1;
    }
    *cell = (qll_text){copy, size};
    return since == SIZE_MAX || since == 3;
}

bool qll_log_value(const qll_log_shape *shape, qll_text cell, double *value)
{
    char copy[64];
    if (shape->thousands != '\0' && cell.size > 0 && cell.size < sizeof copy
        && memchr(cell.bytes, shape->thousands, cell.size) != NULL
        && !join_groups(&cell, shape->thousands, shape->decimal, copy)) {
        return false;
    }
    return qll_log_number(cell, shape->decimal, value);
}
