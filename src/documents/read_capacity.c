#include "documents/read_capacity.h"

#include "base/quote.h"
#include "base/words.h"
#include "documents/table_columns.h"

#include <math.h>
#include <string.h>

/* More points than any sheet has. */
#define QLL_POINTS_MOST 1000

typedef enum column_name {
    QLL_COLUMN_INLET,
    QLL_COLUMN_SET,
    QLL_COLUMN_FLOW,
    QLL_COLUMN_FALLOFF,
    QLL_COLUMN_NOMINAL,
    QLL_COLUMN_ID,
    QLL_COLUMN_ACTING,
    QLL_COLUMN_KV,
    QLL_COLUMN_SET_MIN,
    QLL_COLUMN_SET_MAX,
    QLL_COLUMN_INLET_MAX,
    QLL_COLUMN_COUNT
} column_name;

/* Those before QLL_COLUMN_NOMINAL stand in every row; the others once, in the first that has them. */
static const qll_known_column columns[QLL_COLUMN_COUNT] = {
    {.base = "inlet", .kind = QLL_KIND_PRESSURE, .obligatory = true},
    {.base = "set", .kind = QLL_KIND_PRESSURE, .obligatory = true},
    {.base = "flow", .kind = QLL_KIND_FLOW, .obligatory = true},
    {.base = "falloff", .kind = QLL_KIND_PRESSURE_DIFFERENCE, .obligatory = true},
    {.base = "nominal", .kind = QLL_KIND_LENGTH, .obligatory = true},
    {.base = "id"},
    {.base = "acting"},
    {.base = "kv", .kind = QLL_KIND_FLOW_COEFFICIENT},
    {.base = "set_min", .kind = QLL_KIND_PRESSURE},
    {.base = "set_max", .kind = QLL_KIND_PRESSURE},
    {.base = "inlet_max", .kind = QLL_KIND_PRESSURE},
};

static bool refuse(const qll_table_columns *of, qll_code code, size_t row, size_t column,
                   const qll_said *says, const qll_said *hint)
{
    return qll_table_columns_refuse(of, code, qll_table_place(of->table, row, column, of->arena),
                                    says, hint);
}

/* SI, pressures as gauge; NaN after a problem. */
static double quantity(const qll_table_columns *of, size_t row, column_name name)
{
    const qll_text text = qll_table_columns_cell(of, row, name);
    qll_quantity read = {0};
    qll_units_refusal refusal = {0};
    if (!qll_units_read(text, columns[name].kind, of->arena, &read, &refusal)) {
        (void)refuse(of, refusal.code, row, of->at[name], &refusal.says,
                     qll_hint_word(refusal.hint, of->arena));
        return NAN;
    }
    return columns[name].kind == QLL_KIND_PRESSURE
               ? qll_units_gauge_pa(read, qll_barometric_pa(0.0))
               : read.si;
}

/* The row that gives a value which stands once, or SIZE_MAX. */
static size_t row_with(const qll_table_columns *of, column_name name)
{
    for (size_t row = 0; row < of->table->row_count; row++) {
        if (qll_table_columns_cell(of, row, name).size > 0) {
            return row;
        }
    }
    return SIZE_MAX;
}

static double once(const qll_table_columns *of, column_name name)
{
    size_t row = row_with(of, name);
    return row == SIZE_MAX ? (double)NAN : quantity(of, row, name);
}

static void assume(qll_assumed *assumed, const char *what, double pa, qll_text_id why)
{
    qll_assumed_add(assumed, qll_as_is(what), qll_as_quantity(pa, QLL_KIND_PRESSURE),
                    (qll_said){.id = why});
}

/* What the points say of the valve's range is the least that it must have. */
static void fill_range(qll_capacity_sheet *sheet, qll_assumed *assumed)
{
    const qll_text_id why = QLL_TEXT_WHY_POINTS_REACH;
    double low = INFINITY;
    double high = 0.0;
    double inlet = 0.0;
    for (size_t i = 0; i < sheet->count; i++) {
        low = fmin(low, sheet->points[i].set_pa_gauge);
        high = fmax(high, sheet->points[i].set_pa_gauge);
        inlet = fmax(inlet, sheet->points[i].inlet_pa_gauge);
    }
    if (isnan(sheet->set_min_pa_gauge)) {
        /* A range has two ends (our assumption where there is one set pressure only). */
        sheet->set_min_pa_gauge = low < high ? low : 0.9 * low;
        assume(assumed, "set_min", sheet->set_min_pa_gauge,
               low < high ? why : QLL_TEXT_WHY_TENTH_BELOW);
    }
    if (isnan(sheet->set_max_pa_gauge)) {
        sheet->set_max_pa_gauge = high;
        assume(assumed, "set_max", high, why);
    }
    if (isnan(sheet->inlet_max_pa_gauge)) {
        sheet->inlet_max_pa_gauge = inlet;
        assume(assumed, "inlet_max", inlet, why);
    }
}

static void read_words(const qll_table_columns *of, qll_capacity_sheet *sheet, qll_assumed *assumed)
{
    size_t row = row_with(of, QLL_COLUMN_ID);
    sheet->id = "fitted";
    if (row == SIZE_MAX) {
        qll_assumed_add(assumed, qll_as_is("id"), qll_as_is(sheet->id),
                        (qll_said){.id = QLL_TEXT_WHY_NO_ID});
    } else {
        qll_text id = qll_table_columns_cell(of, row, QLL_COLUMN_ID);
        const char *copy = qll_arena_copy(of->arena, id.bytes, id.size);
        sheet->id = copy == NULL ? "" : copy;
    }
    row = row_with(of, QLL_COLUMN_ACTING);
    sheet->acting = QLL_ACTING_DIRECT;
    if (row == SIZE_MAX) {
        qll_assumed_add(assumed, qll_as_is("acting"),
                        qll_as_word(qll_acting_words[QLL_ACTING_DIRECT]),
                        (qll_said){.id = QLL_TEXT_WHY_MOST_DIRECT});
        return;
    }
    qll_text word = qll_table_columns_cell(of, row, QLL_COLUMN_ACTING);
    if (qll_text_is(word, qll_acting_words[QLL_ACTING_PILOT])) {
        sheet->acting = QLL_ACTING_PILOT;
    } else if (!qll_text_is(word, qll_acting_words[QLL_ACTING_DIRECT])) {
        const char *nearest = qll_words_nearest(word, qll_acting_words, QLL_ACTING_COUNT);
        (void)refuse(of, QLL_CODE_UNKNOWN_WORD, row, of->at[QLL_COLUMN_ACTING],
                     QLL_SAYS_WITH(ACTING_UNKNOWN, qll_as_quoted(word)),
                     qll_hint_word(nearest, of->arena));
    }
}

qll_status qll_capacity_read(const qll_table *table, qll_arena *arena, qll_capacity_sheet *sheet,
                             qll_assumed *assumed, qll_problems *problems)
{
    *sheet = (qll_capacity_sheet){0};
    qll_table_columns of = {.table = table,
                            .arena = arena,
                            .problems = problems,
                            .known = columns,
                            .known_count = QLL_COLUMN_COUNT};
    (void)qll_table_columns_find(&of);
    size_t count = table->row_count;
    if (count < 2 || count > QLL_POINTS_MOST) {
        (void)refuse(
            &of, count < 2 ? QLL_CODE_EMPTY_LIST : QLL_CODE_TOO_LARGE, QLL_TABLE_HEADER, SIZE_MAX,
            QLL_SAYS_WITH(POINT_COUNT, qll_as_whole(QLL_POINTS_MOST), qll_as_whole(count)), NULL);
    }
    if (qll_problems_status(problems) != QLL_OK) {
        return qll_problems_status(problems);
    }
    qll_capacity_point *points = qll_arena_take(arena, count, sizeof *points);
    if (points == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        points[i] = (qll_capacity_point){.inlet_pa_gauge = quantity(&of, i, QLL_COLUMN_INLET),
                                         .set_pa_gauge = quantity(&of, i, QLL_COLUMN_SET),
                                         .flow_m3s = quantity(&of, i, QLL_COLUMN_FLOW),
                                         .falloff_pa = quantity(&of, i, QLL_COLUMN_FALLOFF)};
    }
    sheet->points = points;
    sheet->count = count;
    sheet->nominal_m = quantity(&of, 0, QLL_COLUMN_NOMINAL);
    sheet->kv_m3h = once(&of, QLL_COLUMN_KV);
    sheet->set_min_pa_gauge = once(&of, QLL_COLUMN_SET_MIN);
    sheet->set_max_pa_gauge = once(&of, QLL_COLUMN_SET_MAX);
    sheet->inlet_max_pa_gauge = once(&of, QLL_COLUMN_INLET_MAX);
    read_words(&of, sheet, assumed);
    if (problems->refusal_count == 0) {
        fill_range(sheet, assumed);
    }
    return qll_problems_status(problems);
}

bool qll_capacity_refuse(const qll_table *table, const qll_valve_fit *fit, qll_arena *arena,
                         qll_problems *problems)
{
    const qll_table_columns of = {.table = table, .arena = arena, .problems = problems};
    qll_said says = {.id = QLL_TEXT_NONE};
    size_t row = fit->first;
    switch (fit->fault) {
    case QLL_FIT_SOUND: return true;
    case QLL_FIT_TOO_FEW:
        says.id = QLL_TEXT_POINT_ALONE;
        row = QLL_TABLE_HEADER;
        break;
    case QLL_FIT_IMPOSSIBLE: says.id = QLL_TEXT_POINT_IMPOSSIBLE; break;
    case QLL_FIT_CONTRADICTION:
        row = fit->second;
        says = (qll_said){QLL_TEXT_POINTS_CONTRADICT, {qll_as_whole(fit->first + 1)}};
        break;
    case QLL_FIT_ABOVE_FULL: says.id = QLL_TEXT_POINT_ABOVE_KV; break;
    }
    return refuse(&of, QLL_CODE_CONTRADICTION, row, SIZE_MAX, &says, NULL);
}
