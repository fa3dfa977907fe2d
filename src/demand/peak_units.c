/* Fixture units: what the fixtures count, and the published curve from units to flow. */
#include "base/customary.h"
#include "base/files.h"
#include "base/table.h"
#include "demand/demand.h"

#include <assert.h>
#include <math.h>

/* The one flushometer water closet that is there: 25 gpm at the outlet, IPC Table 604.3. */
#define QLL_ONE_FLUSHOMETER_M3S (25.0 * QLL_GPM_M3S)

/* Rows of IPC Table E103.3(3) with a value in @p column, as points. */
static bool read_points(const qll_table *table, const char *column, qll_arena *arena,
                        const qll_point **points, size_t *count)
{
    const size_t name_at = qll_table_column(table, "table");
    const size_t units_at = qll_table_column(table, "wsfu");
    const size_t flow_at = qll_table_column(table, column);
    qll_point *list = qll_arena_take(arena, table->row_count, sizeof *list);
    if (list == NULL) {
        return false;
    }
    *count = 0;
    for (size_t row = 0; row < table->row_count; row++) {
        const double flow = qll_table_number(table, row, flow_at);
        if (isnan(flow) || !qll_text_is(qll_table_cell(table, row, name_at), "IPC E103.3(3)")) {
            continue;
        }
        list[*count] =
            (qll_point){.x = qll_table_number(table, row, units_at), .y = flow * QLL_GPM_M3S};
        *count += 1;
    }
    assert(*count >= 2);
    *points = list;
    return true;
}

qll_status qll_unit_curve_read(qll_arena *arena, qll_unit_curve *curve)
{
    const qll_text source = {.bytes = (const char *)qll_file_hunter_curve,
                             .size = qll_file_hunter_curve_size};
    qll_problems problems = qll_problems_none(arena);
    qll_table table;
    const qll_status status =
        qll_table_read(source, "data/hunter_curve.csv", arena, &table, &problems);
    assert(status != QLL_REFUSED);
    if (status != QLL_OK) {
        return status;
    }
    if (!read_points(&table, "gpm_flush_tank", arena, &curve->tank, &curve->tank_count)
        || !read_points(&table, "gpm_flushometer", arena, &curve->flushometer,
                        &curve->flushometer_count)) {
        return QLL_NO_MEMORY;
    }
    return QLL_OK;
}

double qll_unit_curve_flow_m3s(const qll_unit_curve *curve, double units, qll_unit_column column)
{
    const qll_curve tank = {.points = curve->tank, .count = curve->tank_count};
    const qll_curve flushometer = {.points = curve->flushometer, .count = curve->flushometer_count};
    if (!(units >= 0.0 && units <= tank.points[tank.count - 1].x)) {
        return NAN;
    }
    if (column == QLL_COLUMN_FLUSHOMETER && units >= flushometer.points[0].x) {
        return qll_curve_at(flushometer, units);
    }
    const qll_point first = tank.points[0];
    const double flow = units < first.x ? first.y * units / first.x : qll_curve_at(tank, units);
    if (column == QLL_COLUMN_FLUSHOMETER && units > 0.0) {
        return fmax(flow, QLL_ONE_FLUSHOMETER_M3S);
    }
    return flow;
}

qll_unit_sum qll_unit_sum_of(const qll_scenario *scenario)
{
    const bool is_private = qll_use_is_dwelling(scenario->use);
    qll_unit_sum sum = {.column = QLL_COLUMN_TANK};
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        if (load->count == 0) {
            continue;
        }
        double units = is_private ? load->kind->ipc_private : load->kind->ipc_public;
        if (isnan(units)) {
            units = is_private ? load->kind->ipc_public : load->kind->ipc_private;
            sum.other = sum.other == NULL ? load->kind : sum.other;
        }
        if (isnan(units)) {
            sum.missing = sum.missing == NULL ? load->kind : sum.missing;
            continue;
        }
        sum.units += units * (double)load->count;
        if (load->kind->flushometer) {
            sum.column = QLL_COLUMN_FLUSHOMETER;
        }
    }
    return sum;
}
