#include "demand/din1988.h"

#include "base/files.h"
#include "base/table.h"

#include <math.h>

qll_status qll_din1988_read(const char *use, qll_arena *arena, qll_din1988 *result)
{
    *result = (qll_din1988){.a = (double)NAN, .b = (double)NAN, .c = (double)NAN};
    qll_table table;
    const qll_status status =
        qll_table_read_own(qll_file_din1988, qll_file_din1988_size, arena, &table);
    if (status != QLL_OK) {
        return status;
    }
    for (size_t row = 0; row < table.row_count; row++) {
        if (!qll_table_says(&table, row, "use", use)) {
            continue;
        }
        *result = (qll_din1988){
            .says = qll_text_named(qll_table_cell_in(&table, row, "says")),
            .a = qll_table_number_in(&table, row, "a"),
            .b = qll_table_number_in(&table, row, "b"),
            .c = qll_table_number_in(&table, row, "c"),
        };
        return QLL_OK;
    }
    return QLL_OK;
}

double qll_din1988_flow_m3s(const qll_din1988 *din, double sum_m3s)
{
    /* A hair of room, so that a sum of table values is not over an end by its last bit. */
    if (!(sum_m3s >= QLL_DIN_LEAST_M3S * (1.0 - 1e-12)
          && sum_m3s <= QLL_DIN_MOST_M3S * (1.0 + 1e-12))) {
        return (double)NAN;
    }
    return (din->a * pow(sum_m3s * 1e3, din->b) - din->c) * 1e-3;
}

static double calculation_flow_m3s(const qll_fixture_load *load)
{
    return isnan(load->flow_m3s) ? load->kind->din_flow_m3s : load->flow_m3s;
}

qll_din1988_sum qll_din1988_sum_of(const qll_scenario *scenario)
{
    const double homes = fmax(qll_scenario_homes(scenario), 1.0);
    qll_din1988_sum sum = {0};
    double largest = 0.0;
    double second = 0.0;
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        if (load->count == 0) {
            continue;
        }
        const double flow = calculation_flow_m3s(load);
        if (isnan(flow)) {
            sum.missing = sum.missing == NULL ? load->kind : sum.missing;
            continue;
        }
        sum.sum_m3s += flow * (double)load->count;
        /* Spread over the homes, some home has more than one of them if there are more than homes. */
        const bool has_two = (double)load->count > homes;
        if (flow > largest) {
            second = has_two ? flow : largest;
            largest = flow;
        } else if (flow > second) {
            second = flow;
        }
    }
    sum.unit_m3s = largest + second;
    return sum;
}
