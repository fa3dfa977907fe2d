/* Calculations about valves that work together. */
#include "base/count.h"
#include "handbook/work_valve.h"
#include "station/balance.h"

#include <math.h>

static const qll_calc_input parallel_inputs[] = {
    {.key = "inlet", .kind = QLL_KIND_PRESSURE, .required = true, .help = QLL_TEXT_HELP_BEFORE_ALL},
    {.key = "flow", .kind = QLL_KIND_FLOW, .required = true, .help = QLL_TEXT_HELP_THROUGH_ALL},
    {.key = "valves",
     .is_word = true,
     .required = true,
     .repeated = true,
     .help = QLL_TEXT_HELP_LEG},
    QLL_INPUT_FL,
    QLL_INPUT_TEMPERATURE,
    QLL_INPUT_BAROMETRIC,
};

typedef struct legs {
    qll_valve *valves;
    qll_opening_law *laws;
    qll_branch *branches;
    size_t count;
} legs;

static bool read_leg(qll_calc_work *work, legs *all, size_t i, double fl)
{
    qll_text parts[3];
    if (!qll_work_split(work, "valves", i, parts, 3)) {
        return false;
    }
    double kv_m3h = qll_work_part(work, "valves", i, parts[0], QLL_KIND_FLOW_COEFFICIENT);
    double set_pa = qll_work_part(work, "valves", i, parts[1], QLL_KIND_PRESSURE);
    double band_pa = qll_work_part(work, "valves", i, parts[2], QLL_KIND_PRESSURE_DIFFERENCE);
    if (!(kv_m3h > 0 && band_pa > 0 && set_pa > 0)) {
        if (!isnan(kv_m3h) && !isnan(band_pa) && !isnan(set_pa)) {
            qll_work_refuse(work, "valves", i, QLL_CODE_OUT_OF_RANGE, QLL_SAYS(INPUT_LEG_ABOVE),
                            NULL);
        }
        return false;
    }
    all->valves[i] = (qll_valve){.id = "",
                                 .kv_m3h = kv_m3h,
                                 .band_pa = band_pa,
                                 .fl = fl,
                                 .fd = NAN,
                                 .xfz = 1, /* only flows are asked for */
                                 .strainer_kv_m3h = NAN};
    qll_status status = qll_opening_law_make(&all->valves[i], work->arena, &all->laws[i]);
    all->branches[i] = (qll_branch){.valve = &all->valves[i],
                                    .law = &all->laws[i],
                                    .set_pa_gauge = set_pa,
                                    .pipe_bore_m = 1,
                                    .series_kv_m3h = NAN};
    return status == QLL_OK;
}

static bool read_legs(qll_calc_work *work, legs *all, double fl)
{
    all->count = qll_work_count(work, "valves");
    all->valves = qll_arena_take(work->arena, all->count, sizeof *all->valves);
    all->laws = qll_arena_take(work->arena, all->count, sizeof *all->laws);
    all->branches = qll_arena_take(work->arena, all->count, sizeof *all->branches);
    if (all->valves == NULL || all->laws == NULL || all->branches == NULL) {
        return false;
    }
    bool read = true;
    for (size_t i = 0; i < all->count; i++) {
        read = read_leg(work, all, i, fl) && read;
    }
    return read;
}

static void split_flow(qll_calc_work *work, const qll_stage_solver *solver, double inlet_pa,
                       double flow_m3s, size_t count)
{
    qll_stage_point point = qll_stage_solve(solver, inlet_pa, flow_m3s);
    qll_branch_state *states = qll_arena_take(work->arena, count, sizeof *states);
    double *flows_m3s = qll_arena_take(work->arena, count, sizeof *flows_m3s);
    if (states == NULL || flows_m3s == NULL) {
        return;
    }
    if (!point.passes) {
        qll_work_refuse(work, "flow", 0, QLL_CODE_OUT_OF_RANGE, QLL_SAYS(INPUT_TOO_MUCH), NULL);
        return;
    }
    qll_stage_states(solver, inlet_pa, flow_m3s, point.outlet_pa, states);
    qll_writer *step = qll_work_step(work, QLL_CALC_STEP_VALVES_SHARE);
    qll_write_format(step, "p2 = %.8g Pa gauge, after %d steps, residual %.3g m3/s",
                     point.outlet_pa - work->barometric_pa, point.iterations, point.residual);
    qll_work_with_absolute(work, "p1", inlet_pa);
    qll_work_with(work, "Q", flow_m3s, QLL_KIND_FLOW);
    qll_work_finds(work, "outlet_pa_gauge", point.outlet_pa - work->barometric_pa,
                   QLL_KIND_PRESSURE);
    for (size_t i = 0; i < count; i++) {
        flows_m3s[i] = states[i].flow_m3s;
    }
    qll_work_result(work, "outlet_pa_gauge", point.outlet_pa - work->barometric_pa,
                    QLL_KIND_PRESSURE);
    qll_work_list(work, "flow_m3s", flows_m3s, count, QLL_KIND_FLOW);
}

static void run_parallel(qll_calc_work *work)
{
    double inlet_pa = qll_work_absolute_pa(work, "inlet");
    qll_work_within(work, "inlet", inlet_pa, 1e3, 10e6);
    double flow_m3s = qll_work_number(work, "flow");
    qll_work_within(work, "flow", flow_m3s, 0, 100);
    qll_water water = qll_work_water(work, inlet_pa - work->barometric_pa);
    legs all;
    if (!read_legs(work, &all, qll_work_fl(work)) || work->problems->refusal_count > 0) {
        return;
    }
    const qll_stage stage = {.branches = all.branches,
                             .branch_count = all.count,
                             .set_inlet_pa_gauge = inlet_pa - work->barometric_pa};
    qll_stage_solver *solver = NULL;
    if (qll_stage_solver_make(&stage, &water, work->barometric_pa, work->arena, &solver)
        != QLL_OK) {
        return;
    }
    split_flow(work, solver, inlet_pa, flow_m3s, all.count);
}

const qll_calc qll_calc_parallel_split = {
    .id = QLL_CALC_PARALLEL_SPLIT,
    .name = "parallel-split",
    .inputs = parallel_inputs,
    .input_count = QLL_COUNT(parallel_inputs),
    .formula = "sum of Kv_i min(1, (set_i - p2)/band_i) sqrt(p1 - p2) = Q",
    .run = run_parallel,
};
