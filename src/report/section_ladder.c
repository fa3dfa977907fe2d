#include "report/columns.h"
#include "report/sections.h"

#include <math.h>

/* Outlets that fit under one glance. */
#define QLL_OUTLETS_SHOWN 8

typedef struct ladder_row {
    const qll_ladder *night, *peak;
    const qll_ladder_step *fastest; /* at the peak, by its share of what is allowed; or NULL */
} ladder_row;

static void row(qll_columns *table, const qll_wording *wording, const ladder_row *of, size_t step)
{
    const qll_ladder_step *night = &of->night->steps[step];
    const qll_ladder_step *peak = &of->peak->steps[step];
    const qll_ladder_step *fastest = of->fastest;
    qll_wording_step(&table->cell, wording, of->peak, peak);
    qll_columns_next(table);
    qll_cell_quantity(table, night->pressure_pa_gauge, QLL_KIND_PRESSURE, wording->units);
    qll_cell_quantity(table, peak->pressure_pa_gauge, QLL_KIND_PRESSURE, wording->units);
    qll_cell_quantity(table, fastest == NULL ? (double)NAN : fastest->velocity_m_s,
                      QLL_KIND_VELOCITY, wording->units);
    if (fastest != NULL && fastest->too_fast) {
        const qll_filling limit = {"limit", qll_quantity_text(table->writer->arena,
                                                              fastest->velocity_max_m_s,
                                                              QLL_KIND_VELOCITY, wording->units)};
        qll_say_with(&table->cell, wording->language, QLL_SAYS_NOTE_AT_MOST, &limit, 1);
    }
    qll_columns_next(table);
}

void qll_section_ladder(qll_writer *writer, const qll_wording *wording, const qll_way *way)
{
    size_t each = way->ladder_count / QLL_LADDER_TIME_COUNT;
    qll_columns table = qll_columns_new(writer, "lrrrl");
    static const qll_message heads[] = {QLL_SAYS_HEAD_BEHIND, QLL_SAYS_HEAD_NIGHT,
                                        QLL_SAYS_HEAD_PEAK, QLL_SAYS_HEAD_VELOCITY};
    qll_columns_heads(&table, wording->language, heads, sizeof heads / sizeof heads[0]);
    qll_columns_put(&table, "");
    const char *pressure = qll_units_name(QLL_KIND_PRESSURE, wording->units);
    qll_columns_put(&table, "");
    qll_columns_put(&table, pressure);
    qll_columns_put(&table, pressure);
    qll_columns_put(&table, qll_units_name(QLL_KIND_VELOCITY, wording->units));
    qll_columns_put(&table, "");
    ladder_row of = {&way->ladders[0], &way->ladders[each], NULL};
    for (size_t k = 0; k < of.peak->count; k++) {
        const qll_ladder_step *step = &of.peak->steps[k];
        of.fastest = isfinite(step->velocity_m_s) ? step : NULL;
        row(&table, wording, &of, k);
    }
    for (size_t i = 1; i < each && i <= QLL_OUTLETS_SHOWN; i++) {
        of = (ladder_row){&way->ladders[i], &way->ladders[each + i],
                          qll_ladder_fastest(&way->ladders[each + i])};
        row(&table, wording, &of, of.peak->count - 1);
    }
    qll_columns_flush(&table);
    if (each > QLL_OUTLETS_SHOWN + 1) {
        qll_writer more = qll_writer_new(writer->arena);
        qll_write_format(&more, "%zu", each - 1 - QLL_OUTLETS_SHOWN);
        writer->no_memory = writer->no_memory || more.no_memory;
        const qll_filling count = {"count", qll_writer_text(&more).bytes};
        qll_section_says_with(writer, wording->language, QLL_SAYS_MORE_OUTLETS, &count, 1);
    }
}
