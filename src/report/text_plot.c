#include "report/text_plot.h"

#include <math.h>
#include <string.h>

#define QLL_PLOT_ROWS    ((size_t)8)
#define QLL_PLOT_COLUMNS ((size_t)60)
#define QLL_PLOT_LABEL   ((size_t)7)

typedef struct frame {
    char cells[QLL_PLOT_ROWS][QLL_PLOT_COLUMNS];
    double low, high;
} frame;

/* The value of a column: that which stands furthest from the one before, so that no peak is lost. */
static double value_of(const double *values, size_t count, size_t column)
{
    const size_t from = column * count / QLL_PLOT_COLUMNS;
    size_t to = (column + 1) * count / QLL_PLOT_COLUMNS;
    to = to > from ? to : from + 1;
    double found = values[from];
    for (size_t i = from; i < to; i++) {
        if (isnan(found) || fabs(values[i] - values[from]) > fabs(found - values[from])) {
            found = values[i];
        }
    }
    return found;
}

static void find_range(frame *f, const double *values, size_t count)
{
    f->low = (double)INFINITY;
    f->high = -(double)INFINITY;
    for (size_t i = 0; i < count; i++) {
        f->low = values[i] < f->low ? values[i] : f->low;
        f->high = values[i] > f->high ? values[i] : f->high;
    }
}

static void put_marks(frame *f, const double *values, size_t count)
{
    for (size_t c = 0; c < QLL_PLOT_COLUMNS; c++) {
        const double value = value_of(values, count, c);
        if (isnan(value)) {
            continue;
        }
        const double share = f->high > f->low ? (value - f->low) / (f->high - f->low) : 0.5;
        const size_t row = (size_t)((1.0 - share) * (double)(QLL_PLOT_ROWS - 1) + 0.5);
        f->cells[row][c] = '*';
    }
}

static void write_label(qll_writer *writer, const frame *f, size_t row, qll_kind kind,
                        qll_unit_system system)
{
    qll_writer label = qll_writer_new(writer->arena);
    if (row == 0 || row + 1 == QLL_PLOT_ROWS) {
        qll_units_write_bare(&label, row == 0 ? f->high : f->low, kind, system);
    }
    const qll_text text = qll_writer_text(&label);
    qll_write_byte(writer, ' ', text.size < QLL_PLOT_LABEL ? QLL_PLOT_LABEL - text.size : 0);
    qll_write_text(writer, text);
}

static void write_foot(qll_writer *writer, const char *left, const char *right)
{
    qll_write_byte(writer, ' ', QLL_PLOT_LABEL);
    qll_write(writer, " +");
    qll_write_byte(writer, '-', QLL_PLOT_COLUMNS);
    qll_write(writer, "\n");
    const size_t taken = strlen(left) + strlen(right);
    qll_write_byte(writer, ' ', QLL_PLOT_LABEL + 2);
    qll_write(writer, left);
    qll_write_byte(writer, ' ', taken < QLL_PLOT_COLUMNS ? QLL_PLOT_COLUMNS - taken : 1);
    qll_write(writer, right);
    qll_write(writer, "\n");
}

void qll_text_plot(qll_writer *writer, const double *values, size_t count, qll_kind kind,
                   qll_unit_system system, const char *const ends[2])
{
    frame f;
    memset(f.cells, ' ', sizeof f.cells);
    find_range(&f, values, count);
    if (count == 0 || !(f.high >= f.low)) {
        return;
    }
    put_marks(&f, values, count);
    for (size_t row = 0; row < QLL_PLOT_ROWS; row++) {
        size_t used = QLL_PLOT_COLUMNS;
        while (used > 0 && f.cells[row][used - 1] == ' ') {
            used -= 1;
        }
        write_label(writer, &f, row, kind, system);
        qll_write(writer, " |");
        qll_write_text(writer, (qll_text){f.cells[row], used});
        qll_write(writer, "\n");
    }
    write_foot(writer, ends[0], ends[1]);
}
