#include "report/columns.h"
#include "report/plain.h"
#include "report/sections.h"

#include <math.h>

static void write_heads(qll_columns *table, const qll_list_findings *findings)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_VALVE,      QLL_SAYS_HEAD_SIZE,
                                        QLL_SAYS_HEAD_ACTING,     QLL_SAYS_HEAD_FULL_OPEN,
                                        QLL_SAYS_HEAD_LEAST_SET,  QLL_SAYS_HEAD_MOST_SET,
                                        QLL_SAYS_HEAD_MOST_INLET, QLL_SAYS_HEAD_PRICE};
    const char *pressure = qll_units_name(QLL_KIND_PRESSURE, findings->units);
    const char *currency = findings->catalogue->currency;
    const char *const units[] = {
        "",       "",       "",       qll_units_name(QLL_KIND_FLOW_COEFFICIENT, findings->units),
        pressure, pressure, pressure, currency == NULL ? "" : currency};
    qll_columns_heads(table, findings->language, heads, sizeof heads / sizeof heads[0]);
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        qll_columns_put(table, units[i]);
    }
}

static void write_valve(qll_columns *table, const qll_list_findings *findings,
                        const qll_valve *valve)
{
    qll_unit_system units = findings->units;
    qll_columns_put(table, valve->id);
    qll_units_write_pipe_size(&table->cell, valve->nominal_m, units);
    qll_columns_next(table);
    qll_columns_put(table, qll_say(findings->language, valve->acting == QLL_ACTING_PILOT
                                                           ? QLL_SAYS_ACTING_PILOT
                                                           : QLL_SAYS_ACTING_DIRECT));
    qll_cell_quantity(table, valve->kv_m3h, QLL_KIND_FLOW_COEFFICIENT, units);
    qll_cell_quantity(table, valve->set_min_pa_gauge, QLL_KIND_PRESSURE, units);
    qll_cell_quantity(table, valve->set_max_pa_gauge, QLL_KIND_PRESSURE, units);
    qll_cell_quantity(table, valve->inlet_max_pa_gauge, QLL_KIND_PRESSURE, units);
    if (isfinite(valve->price)) {
        qll_write_format(&table->cell, "%.0f", valve->price);
    } else {
        qll_write(&table->cell, "-");
    }
    qll_columns_next(table);
}

void qll_list_print(qll_writer *writer, const qll_list_findings *findings)
{
    const qll_language language = findings->language;
    const qll_catalogue *catalogue = findings->catalogue;
    qll_write(writer, qll_say(language, QLL_SAYS_PLAIN_LIST));
    qll_write(writer, ": ");
    qll_write(writer, catalogue->name);
    qll_write(writer, "\n\n");
    qll_columns table = qll_columns_new(writer, "lllrrrrr");
    write_heads(&table, findings);
    for (size_t i = 0; i < catalogue->count; i++) {
        write_valve(&table, findings, &catalogue->valves[i]);
    }
    qll_columns_flush(&table);
    qll_write(writer, "\n");
    if (catalogue->invented) {
        qll_line_says_with(writer, language, QLL_SAYS_LIST_INVENTED, NULL, 0);
    }
    qll_line_says_with(writer, language, QLL_SAYS_LIST_NAMES, NULL, 0);
}
