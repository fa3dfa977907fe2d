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
    qll_table table;
    const qll_status status =
        qll_table_read_own(qll_file_hunter_curve, qll_file_hunter_curve_size, arena, &table);
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

double qll_unit_curve_end(const qll_unit_curve *curve)
{
    return fmin(curve->tank[curve->tank_count - 1].x,
                curve->flushometer[curve->flushometer_count - 1].x);
}

/* ---- what fixtures count ---- */

/* The flow of a flushometer, or of the one in a group; 0 if there is none. */
static double flushometer_m3s(const qll_fixture_load *load)
{
    if (!load->kind->flushometer) {
        return 0.0;
    }
    double flow_m3s = qll_load_flow_m3s(load);
    for (size_t p = 0; isnan(flow_m3s) && p < load->kind->part_count; p++) {
        flow_m3s = load->kind->parts[p]->flushometer ? load->kind->parts[p]->flow_m3s : flow_m3s;
    }
    return isnan(flow_m3s) ? 0.0 : flow_m3s;
}

static void add_load(const qll_scenario *scenario, const qll_fixture_load *load, qll_unit_sum *sum)
{
    const bool is_private = qll_load_is_private(scenario, load);
    double each = is_private ? load->kind->ipc_private : load->kind->ipc_public;
    if (isnan(each)) {
        each = is_private ? load->kind->ipc_public : load->kind->ipc_private;
        sum->other_is_private = sum->other == NULL ? is_private : sum->other_is_private;
        sum->other = sum->other == NULL ? load->kind : sum->other;
    }
    if (isnan(each)) {
        sum->missing = sum->missing == NULL ? load->kind : sum->missing;
        return;
    }
    const double units = each * (double)load->count;
    sum->units += units;
    *(is_private ? &sum->private_units : &sum->public_units) += units;
    sum->takes_rooms = sum->takes_rooms
                       || (is_private && load->occupancy == QLL_OCCUPANCY_USUAL
                           && !qll_use_is_dwelling(scenario->use));
    if (load->kind->flushometer) {
        sum->column = QLL_COLUMN_FLUSHOMETER;
        sum->flushometer_units += units;
        sum->least_m3s = fmax(sum->least_m3s, flushometer_m3s(load));
    }
}

qll_unit_sum qll_unit_sum_of(const qll_scenario *scenario)
{
    qll_unit_sum sum = {.column = QLL_COLUMN_TANK};
    for (size_t i = 0; i < scenario->load_count; i++) {
        if (scenario->loads[i].count > 0) {
            add_load(scenario, &scenario->loads[i], &sum);
        }
    }
    return sum;
}

/* ---- the other way to count a bathroom ---- */

qll_other_count qll_units_apart(const qll_scenario *scenario, double units)
{
    qll_other_count found = {.units = units};
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        if (load->kind->part_count < QLL_PARTS_MAX || load->count == 0) {
            continue;
        }
        double parts = 0.0;
        for (size_t p = 0; p < load->kind->part_count; p++) {
            parts += load->kind->parts[p]->ipc_private;
        }
        found.rooms += (double)load->count;
        found.units += (double)load->count * (parts - load->kind->ipc_private);
    }
    return found;
}

/* What private fixtures could make up bathrooms. */
typedef struct bathroom_parts {
    double closets, basins, baths;
    double basin_units, bath_units; /* of one */
} bathroom_parts;

static bathroom_parts private_parts(const qll_scenario *scenario)
{
    bathroom_parts parts = {.closets = 0.0};
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        if (!qll_load_is_private(scenario, load)) {
            continue;
        }
        const double count = (double)load->count;
        switch (load->kind->in_bathroom) {
        case QLL_IN_BATHROOM_NOTHING: break;
        case QLL_IN_BATHROOM_CLOSET: parts.closets += count; break;
        case QLL_IN_BATHROOM_BASIN:
            parts.basins += count;
            parts.basin_units = load->kind->ipc_private;
            break;
        case QLL_IN_BATHROOM_BATH:
            parts.baths += count;
            parts.bath_units = load->kind->ipc_private;
            break;
        }
    }
    return parts;
}

qll_other_count qll_units_grouped(const qll_scenario *scenario, double units)
{
    const bathroom_parts parts = private_parts(scenario);
    const double beside = parts.basin_units + parts.bath_units;
    qll_other_count found = {.rooms = fmin(parts.closets, fmin(parts.basins, parts.baths)),
                             .units = units};
    double left = found.rooms;
    for (size_t i = 0; i < scenario->load_count && left > 0.0; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        if (load->kind->group == NULL || !qll_load_is_private(scenario, load)) {
            continue;
        }
        const double rooms = fmin(left, (double)load->count);
        found.units -= rooms * (load->kind->ipc_private + beside - load->kind->group->ipc_private);
        left -= rooms;
    }
    return found;
}
