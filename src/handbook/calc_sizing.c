/* Which coefficient passes a flow, and which flow a coefficient passes: sizing in full. */
#include "base/count.h"
#include "handbook/work_valve.h"
#include "physics/sizing.h"
#include "physics/valve.h"

#include <math.h>

#define QLL_INPUT_SIZING                                                                      \
    QLL_INPUT_INLET_OUTLET, QLL_INPUT_FL, QLL_INPUT_FD,                                       \
        {.key = "valve_bore", .kind = QLL_KIND_LENGTH, .help = QLL_TEXT_HELP_VALVE_BORE},     \
        {.key = "pipe_in_bore", .kind = QLL_KIND_LENGTH, .help = QLL_TEXT_HELP_PIPE_BEFORE},  \
        {.key = "pipe_out_bore", .kind = QLL_KIND_LENGTH, .help = QLL_TEXT_HELP_PIPE_BEHIND}, \
        QLL_INPUT_FLUID,                                                                      \
        {.key = "critical_pressure",                                                          \
         .kind = QLL_KIND_PRESSURE,                                                           \
         .fallback = "22064 kPa abs",                                                         \
         .help = QLL_TEXT_HELP_CRITICAL},                                                     \
    {                                                                                         \
        .key = "viscosity", .kind = QLL_KIND_VISCOSITY, .help = QLL_TEXT_HELP_INSTEAD         \
    }

static qll_sizing_case read_case(qll_calc_work *work)
{
    qll_work_pressures at = qll_work_pressures_read(work);
    qll_work_fluid_read(work, &at.water);
    if (qll_work_given(work, "viscosity")) {
        at.water.viscosity_pa_s = qll_work_number(work, "viscosity");
        qll_work_within(work, "viscosity", at.water.viscosity_pa_s, 1e-6, 100);
    }
    double critical_pa = qll_work_liquid_pa(work, "critical_pressure");
    qll_work_within(work, "critical_pressure", critical_pa, 1e5, 1e9);
    if (at.water.vapour_pressure_pa >= critical_pa) {
        qll_work_refuse(work, "vapour_pressure", 0, QLL_CODE_CONTRADICTION,
                        QLL_SAYS_WITH(INPUT_NOT_BELOW, qll_as_is("critical_pressure")), NULL);
    }
    if (!qll_work_given(work, "valve_bore")
        && (qll_work_given(work, "pipe_in_bore") || qll_work_given(work, "pipe_out_bore"))) {
        qll_work_refuse(work, "valve_bore", 0, QLL_CODE_MISSING_KEY,
                        QLL_SAYS_WITH(INPUT_WITH, qll_as_is("valve_bore"),
                                      qll_as_is("pipe_in_bore, pipe_out_bore")),
                        NULL);
    }
    return (qll_sizing_case){.inlet_pa = at.inlet_pa,
                             .outlet_pa = at.outlet_pa,
                             .density_kg_m3 = at.water.density_kg_m3,
                             .vapour_pressure_pa = at.water.vapour_pressure_pa,
                             .critical_pressure_pa = critical_pa,
                             .viscosity_pa_s = at.water.viscosity_pa_s,
                             .fl = qll_work_fl(work),
                             .fd = qll_work_fd(work),
                             .valve_bore_m = qll_work_length_or_none(work, "valve_bore"),
                             .pipe_in_bore_m = qll_work_length_or_none(work, "pipe_in_bore"),
                             .pipe_out_bore_m = qll_work_length_or_none(work, "pipe_out_bore")};
}

static void show_steps(qll_calc_work *work, const qll_sizing_case *given, const qll_sizing *sizing)
{
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_CRITICAL_RATIO),
                     "pv = %.6g Pa, pc = %.6g Pa: FF = %.6g", given->vapour_pressure_pa,
                     given->critical_pressure_pa, sizing->ff);
    qll_work_with_absolute(work, "pv", given->vapour_pressure_pa);
    qll_work_with_absolute(work, "pc", given->critical_pressure_pa);
    qll_work_finds(work, "ff", sizing->ff, QLL_KIND_NUMBER);
    if (sizing->loss.sum != 0) {
        qll_write_format(qll_work_step(work, QLL_CALC_STEP_REDUCERS),
                         "%.6g + %.6g + %.6g - %.6g = %.6g: FP = %.6g, FLP = %.6g",
                         sizing->loss.inlet, sizing->loss.outlet, sizing->loss.inlet_velocity,
                         sizing->loss.outlet_velocity, sizing->loss.sum, sizing->fp, sizing->flp);
        qll_work_finds(work, "reducer_loss", sizing->loss.sum, QLL_KIND_NUMBER);
        qll_work_finds(work, "fp", sizing->fp, QLL_KIND_NUMBER);
        qll_work_finds(work, "flp", sizing->flp, QLL_KIND_NUMBER);
    }
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_CHOKED_DROP),
                     "%.4g^2 x (%.8g - %.6g x %.6g) = %.8g Pa", sizing->flp / sizing->fp,
                     given->inlet_pa, sizing->ff, given->vapour_pressure_pa,
                     sizing->choked_drop_pa);
    qll_work_with(work, "FLP", sizing->flp, QLL_KIND_NUMBER);
    qll_work_with(work, "FP", sizing->fp, QLL_KIND_NUMBER);
    qll_work_with_absolute(work, "p1", given->inlet_pa);
    qll_work_finds(work, "choked_drop_pa", sizing->choked_drop_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_VALVE_REYNOLDS),
                     "nu = %.6g m2/s: Rev = %.6g, %s, FR = %.6g",
                     given->viscosity_pa_s / given->density_kg_m3, sizing->reynolds,
                     qll_sizing_regime_words[sizing->regime], sizing->fr);
    qll_work_with(work, "Fd", given->fd, QLL_KIND_NUMBER);
    qll_work_with(work, "FL", given->fl, QLL_KIND_NUMBER);
    qll_work_finds(work, "reynolds_valve", sizing->reynolds, QLL_KIND_NUMBER);
    qll_work_finds(work, "fr", sizing->fr, QLL_KIND_NUMBER);
}

static void put_results(qll_calc_work *work, const qll_sizing *sizing)
{
    qll_work_flag(work, "choked", sizing->choked);
    qll_work_result(work, "ff", sizing->ff, QLL_KIND_NUMBER);
    qll_work_result(work, "choked_drop_pa", sizing->choked_drop_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_work_result(work, "fp", sizing->fp, QLL_KIND_NUMBER);
    qll_work_result(work, "flp", sizing->flp, QLL_KIND_NUMBER);
    qll_work_result(work, "reducer_loss", sizing->loss.sum, QLL_KIND_NUMBER);
    qll_work_result(work, "reynolds_valve", sizing->reynolds, QLL_KIND_NUMBER);
    qll_work_result(work, "fr", sizing->fr, QLL_KIND_NUMBER);
    qll_work_word_result(work, "flow_regime", qll_sizing_regime_words[sizing->regime]);
}

/* ---- valve-coefficient ---- */

static const qll_calc_input coefficient_inputs[] = {
    {.key = "flow", .kind = QLL_KIND_FLOW, .required = true, .help = QLL_TEXT_HELP_THROUGH_VALVE},
    QLL_INPUT_SIZING,
};

static void run_coefficient(qll_calc_work *work)
{
    double flow_m3s = qll_work_number(work, "flow");
    qll_work_within(work, "flow", flow_m3s, 0, 100);
    const qll_sizing_case given = read_case(work);
    if (work->problems->refusal_count > 0) {
        return;
    }
    qll_sizing sizing = qll_sizing_kv(&given, flow_m3s);
    qll_work_result(work, "kv_m3h", sizing.kv_m3h, QLL_KIND_FLOW_COEFFICIENT);
    qll_work_result(work, "cv", sizing.kv_m3h * QLL_CV_PER_KV, QLL_KIND_NUMBER);
    put_results(work, &sizing);
    show_steps(work, &given, &sizing);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_COEFFICIENT),
                     "%.6g m3/h, rho = %.6g kg/m3: Kv = %.8g m3/h = Cv %.8g", flow_m3s * 3600,
                     given.density_kg_m3, sizing.kv_m3h, sizing.kv_m3h * QLL_CV_PER_KV);
    qll_work_with(work, "Q", flow_m3s, QLL_KIND_FLOW);
    qll_work_with(work, "rho", given.density_kg_m3, QLL_KIND_DENSITY);
    qll_work_with(work, "p1 - p2", given.inlet_pa - given.outlet_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_work_finds(work, "kv_m3h", sizing.kv_m3h, QLL_KIND_FLOW_COEFFICIENT);
}

const qll_calc qll_calc_valve_coefficient = {
    .id = QLL_CALC_VALVE_COEFFICIENT,
    .name = "valve-coefficient",
    .inputs = coefficient_inputs,
    .input_count = QLL_COUNT(coefficient_inputs),
    .formula = "Kv = Q/FP sqrt((rho/rho0)/dp), choked at dp = (FLP/FP)^2 (p1 - FF pv)",
    .run = run_coefficient,
};

/* ---- valve-flow ---- */

static const qll_calc_input flow_inputs[] = {
    QLL_INPUT_COEFFICIENT,
    QLL_INPUT_SIZING,
};

static void run_flow(qll_calc_work *work)
{
    bool is_cv = false;
    double coefficient = qll_work_coefficient(work, &is_cv);
    double kv_m3h = is_cv ? coefficient / QLL_CV_PER_KV : coefficient;
    const qll_sizing_case given = read_case(work);
    if (work->problems->refusal_count > 0) {
        return;
    }
    qll_sizing sizing = qll_sizing_flow(&given, kv_m3h);
    qll_work_result(work, "flow_m3s", sizing.flow_m3s, QLL_KIND_FLOW);
    put_results(work, &sizing);
    show_steps(work, &given, &sizing);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_VALVE_FLOW),
                     "Kv = %.6g m3/h, rho = %.6g kg/m3: Q = %.8g m3/h", kv_m3h, given.density_kg_m3,
                     sizing.flow_m3s * 3600);
    qll_work_with(work, "Kv", kv_m3h, QLL_KIND_FLOW_COEFFICIENT);
    qll_work_with(work, "rho", given.density_kg_m3, QLL_KIND_DENSITY);
    qll_work_with(work, "p1 - p2", given.inlet_pa - given.outlet_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_work_finds(work, "flow_m3s", sizing.flow_m3s, QLL_KIND_FLOW);
}

const qll_calc qll_calc_valve_flow = {
    .id = QLL_CALC_VALVE_FLOW,
    .name = "valve-flow",
    .inputs = flow_inputs,
    .input_count = QLL_COUNT(flow_inputs),
    .formula = "Q = Kv FP sqrt(dp/(rho/rho0)), choked at dp = (FLP/FP)^2 (p1 - FF pv)",
    .run = run_flow,
};
