#include "base/customary.h"
#include "base/files.h"
#include "physics/fitting.h"
#include "physics/nominal.h"

#include <assert.h>
#include <math.h>

/* Rows of one size stand together in the file; each run of them is one meter. */
static size_t lay_meters(const qll_table *csv, qll_meter *meters, qll_point *points)
{
    const size_t size_at = qll_table_column(csv, "meter_size_in");
    const size_t flow_at = qll_table_column(csv, "flow_gpm");
    const size_t loss_at = qll_table_column(csv, "loss_psi");
    size_t count = 0;
    for (size_t row = 0; row < csv->row_count; row++) {
        points[row] = (qll_point){.x = qll_table_number(csv, row, flow_at) * QLL_GPM_M3S,
                                  .y = qll_table_number(csv, row, loss_at) * QLL_PSI_PA};
        double nominal_m = qll_nominal_read_m(qll_table_cell(csv, row, size_at));
        if (count == 0 || meters[count - 1].nominal_m != nominal_m) {
            meters[count] = (qll_meter){.nominal_m = nominal_m, .loss = {&points[row], 0}};
            count += 1;
        }
        meters[count - 1].loss.count += 1;
    }
    return count;
}

qll_status qll_meter_table_read(qll_arena *arena, qll_meter_table *table)
{
    assert(arena != NULL && table != NULL);
    qll_table csv;
    qll_status status =
        qll_table_read_own(qll_file_meter_loss, qll_file_meter_loss_size, arena, &csv);
    if (status != QLL_OK) {
        return status;
    }
    qll_meter *meters = qll_arena_take(arena, csv.row_count, sizeof *meters);
    qll_point *points = qll_arena_take(arena, csv.row_count, sizeof *points);
    if (meters == NULL || points == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t count = lay_meters(&csv, meters, points);
    *table = (qll_meter_table){.meters = meters, .count = count};
    return QLL_OK;
}

const qll_meter *qll_meter_find(const qll_meter_table *table, double nominal_m)
{
    assert(table != NULL);
    for (size_t i = 0; i < table->count; i++) {
        if (qll_nominal_same(table->meters[i].nominal_m, nominal_m)) {
            return &table->meters[i];
        }
    }
    return NULL;
}

double qll_meter_drop_pa(const qll_meter *meter, double flow_m3s)
{
    assert(meter != NULL && meter->loss.count >= 1);
    if (!(flow_m3s >= 0)) {
        return NAN;
    }
    const qll_point *first = &meter->loss.points[0];
    const qll_point *last = &meter->loss.points[meter->loss.count - 1];
    if (flow_m3s <= first->x || flow_m3s >= last->x) {
        const qll_point *end = flow_m3s <= first->x ? first : last;
        double share = flow_m3s / end->x;
        return end->y * share * share;
    }
    const qll_point *a = &meter->loss.points[qll_curve_segment(meter->loss, flow_m3s)];
    const qll_point *b = a + 1;
    double share = log(flow_m3s / a->x) / log(b->x / a->x);
    return a->y * pow(b->y / a->y, share);
}
