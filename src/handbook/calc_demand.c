/* Calculations about how much water a building draws. */
#include "base/count.h"
#include "demand/demand.h"
#include "handbook/work.h"

#include <math.h>

/* ---- fixture-units ---- */

static const qll_calc_input units_inputs[] = {
    {.key = "units", .kind = QLL_KIND_NUMBER, .required = true, .help = QLL_TEXT_HELP_UNITS},
    {.key = "system", .is_word = true, .fallback = "tank", .help = QLL_TEXT_HELP_CLOSETS},
};

static void run_units(qll_calc_work *work)
{
    double units = qll_work_number(work, "units");
    qll_work_within(work, "units", units, 0, 5000);
    static const char *const systems[] = {"tank", "flushometer"};
    size_t system = qll_work_choice(work, "system", systems, QLL_COUNT(systems));
    if (system == QLL_COUNT(systems)) {
        return;
    }
    bool tank = system == 0;
    qll_unit_curve curve;
    if (qll_unit_curve_read(work->arena, &curve) != QLL_OK) {
        return;
    }
    double flow_m3s =
        qll_unit_curve_flow_m3s(&curve, units, tank ? QLL_COLUMN_TANK : QLL_COLUMN_FLUSHOMETER);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_UNITS_CURVE),
                     "%.6g units, %s column: %.8g m3/s", units, tank ? "tank" : "flushometer",
                     flow_m3s);
    qll_work_with(work, "units", units, QLL_KIND_NUMBER);
    qll_work_finds(work, "flow_m3s", flow_m3s, QLL_KIND_FLOW);
    qll_work_result(work, "flow_m3s", flow_m3s, QLL_KIND_FLOW);
}

const qll_calc qll_calc_fixture_units = {
    .id = QLL_CALC_FIXTURE_UNITS,
    .name = "fixture-units",
    .inputs = units_inputs,
    .input_count = QLL_COUNT(units_inputs),
    .formula = "table, straight line between its points",
    .run = run_units,
};

/* ---- simultaneous-use ---- */

static const qll_calc_input use_inputs[] = {
    {.key = "fixtures",
     .is_word = true,
     .required = true,
     .repeated = true,
     .help = QLL_TEXT_HELP_GROUP},
    {.key = "quantile",
     .kind = QLL_KIND_NUMBER,
     .fallback = "0.99",
     .help = QLL_TEXT_HELP_QUANTILE},
};

static bool read_group(qll_calc_work *work, size_t i, qll_use_group *group)
{
    qll_text parts[3];
    if (!qll_work_split(work, "fixtures", i, parts, 3)) {
        return false;
    }
    double count = qll_work_part(work, "fixtures", i, parts[0], QLL_KIND_NUMBER);
    group->flow_m3s = qll_work_part(work, "fixtures", i, parts[1], QLL_KIND_FLOW);
    group->probability = qll_work_part(work, "fixtures", i, parts[2], QLL_KIND_NUMBER);
    qll_work_input input = {.key = "fixtures", .nth = i, .kind = QLL_KIND_NUMBER};
    if (!qll_work_part_within(work, &input, count, 0, 1e6)
        || !qll_work_part_within(work, &input, group->probability, 0, 1)) {
        return false;
    }
    input.kind = QLL_KIND_FLOW;
    if (!qll_work_part_within(work, &input, group->flow_m3s, 1e-9, 1)) {
        return false;
    }
    if (count != floor(count)) {
        qll_work_refuse(work, "fixtures", i, QLL_CODE_OUT_OF_RANGE,
                        QLL_SAYS_WITH(NOT_WHOLE, qll_as_number(count)), NULL);
        return false;
    }
    group->count = (size_t)count;
    return true;
}

static void run_use(qll_calc_work *work)
{
    double quantile = qll_work_number(work, "quantile");
    qll_work_within(work, "quantile", quantile, 0.5, 0.999999);
    size_t count = qll_work_count(work, "fixtures");
    qll_use_group *groups = qll_arena_take(work->arena, count, sizeof *groups);
    if (groups == NULL) {
        return;
    }
    for (size_t i = 0; i < count; i++) {
        if (!read_group(work, i, &groups[i])) {
            return;
        }
    }
    if (work->problems->refusal_count > 0) {
        return;
    }
    qll_simultaneous found;
    if (qll_simultaneous_use(groups, count, quantile, work->arena, &found) != QLL_OK) {
        return;
    }
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_CONVOLVED),
                     "%zu kinds, %.6g fixtures busy on average, grid %.6g m3/s, mean %.6g m3/s, "
                     "deviation %.6g m3/s",
                     count, found.busy_count, found.step_m3s, found.mean_m3s, found.deviation_m3s);
    qll_work_finds(work, "flow_m3s", found.flow_m3s, QLL_KIND_FLOW);
    qll_work_finds(work, "running", found.busy_count, QLL_KIND_NUMBER);
    qll_work_finds(work, "mean_m3s", found.mean_m3s, QLL_KIND_FLOW);
    qll_work_finds(work, "deviation_m3s", found.deviation_m3s, QLL_KIND_FLOW);
    qll_work_result(work, "flow_m3s", found.flow_m3s, QLL_KIND_FLOW);
    qll_work_result(work, "flow_busy_m3s", found.flow_busy_m3s, QLL_KIND_FLOW);
    qll_work_result(work, "idle_share", found.idle_share, QLL_KIND_NUMBER);
    qll_work_result(work, "mean_m3s", found.mean_m3s, QLL_KIND_FLOW);
    qll_work_result(work, "deviation_m3s", found.deviation_m3s, QLL_KIND_FLOW);
    qll_work_result(work, "normal_m3s", found.normal_m3s, QLL_KIND_FLOW);
    qll_work_result(work, "rounding_m3s", found.rounding_m3s, QLL_KIND_FLOW);
}

const qll_calc qll_calc_simultaneous_use = {
    .id = QLL_CALC_SIMULTANEOUS_USE,
    .name = "simultaneous-use",
    .inputs = use_inputs,
    .input_count = QLL_COUNT(use_inputs),
    .formula = "Q = sum over kinds of q Bin(n, p); least q with F(q) at or above the quantile",
    .run = run_use,
};
