/* Calculations about how much water a building draws. */
#include "demand/demand.h"
#include "handbook/work.h"

#include <math.h>

#define QLL_COUNT(array) (sizeof(array) / sizeof((array)[0]))

/* ---- fixture-units ---- */

static const qll_calc_input units_inputs[] = {
    {.key = "units", .kind = QLL_KIND_NUMBER, .required = true, .help = "sum of fixture units"},
    {.key = "system",
     .is_word = true,
     .fallback = "tank",
     .help = "tank or flushometer: what most closets have"},
};

static void run_units(qll_calc_work *work)
{
    double units = qll_work_number(work, "units");
    qll_work_within(work, "units", units, 0, 5000, "the published curve ends at 5000 units");
    static const char *const systems[] = {"tank", "flushometer"};
    size_t system = qll_work_choice(work, "system", systems, QLL_COUNT(systems),
                                    " is no column of the table; it is tank or flushometer");
    if (system == QLL_COUNT(systems)) {
        return;
    }
    bool tank = system == 0;
    qll_unit_curve curve;
    if (qll_unit_curve_read(work->arena, &curve) != QLL_OK) {
        work->no_memory = true;
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
    .question = "which flow does a sum of fixture units stand for?",
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
     .help = "count:flow:probability, for example \"40:2 gpm:0.045\""},
    {.key = "quantile",
     .kind = QLL_KIND_NUMBER,
     .fallback = "0.99",
     .help = "share of the busy hour that is at or below the answer"},
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
    if (isnan(count) || isnan(group->flow_m3s) || isnan(group->probability)) {
        return false;
    }
    if (!(count >= 0 && count <= 1e6 && count == floor(count))) {
        qll_work_refuse(work, "fixtures", i, QLL_CODE_OUT_OF_RANGE,
                        "the count must be a whole number up to 1000000", "");
        return false;
    }
    if (!(group->flow_m3s > 0 && group->flow_m3s <= 1)) {
        qll_work_refuse(work, "fixtures", i, QLL_CODE_OUT_OF_RANGE,
                        "the flow of a fixture lies above 0 and below 1 m3/s", "");
        return false;
    }
    if (!(group->probability >= 0 && group->probability <= 1)) {
        qll_work_refuse(work, "fixtures", i, QLL_CODE_OUT_OF_RANGE,
                        "a probability lies between 0 and 1", "");
        return false;
    }
    group->count = (size_t)count;
    return true;
}

static void run_use(qll_calc_work *work)
{
    double quantile = qll_work_number(work, "quantile");
    qll_work_within(work, "quantile", quantile, 0.5, 0.999999,
                    "the quantile lies between 0.5 and 0.999999");
    size_t count = qll_work_count(work, "fixtures");
    qll_use_group *groups = qll_arena_take(work->arena, count, sizeof *groups);
    if (groups == NULL) {
        work->no_memory = true;
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
        work->no_memory = true;
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
    .question = "how much do independent fixtures draw at once?",
    .inputs = use_inputs,
    .input_count = QLL_COUNT(use_inputs),
    .formula = "Q = sum over kinds of q Bin(n, p); least q with F(q) at or above the quantile",
    .run = run_use,
};
