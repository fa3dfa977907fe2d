/* Calculations about water and pipes. */
#include "base/count.h"
#include "handbook/work.h"
#include "physics/fitting.h"

#include <math.h>

/* ---- velocity ---- */

static const qll_calc_input velocity_inputs[] = {
    {.key = "flow", .kind = QLL_KIND_FLOW, .required = true, .help = QLL_TEXT_HELP_THROUGH_PIPE},
    QLL_INPUT_PIPE,
};

static void velocity_step(qll_calc_work *work, double flow_m3s, double bore_m, double velocity_m_s)
{
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_VELOCITY),
                     "%.6g m3/s / (pi x (%.6g m)^2 / 4) = %.6g m/s", flow_m3s, bore_m,
                     velocity_m_s);
    qll_work_with(work, "Q", flow_m3s, QLL_KIND_FLOW);
    qll_work_with(work, "d", bore_m, QLL_KIND_LENGTH);
    qll_work_finds(work, "velocity_m_s", velocity_m_s, QLL_KIND_VELOCITY);
}

static void run_velocity(qll_calc_work *work)
{
    double flow_m3s = qll_work_number(work, "flow");
    qll_work_within(work, "flow", flow_m3s, 0, 100);
    const qll_pipe_size *size = NULL;
    double bore_m = qll_work_bore_m(work, &size);
    double velocity_m_s = qll_pipe_velocity_m_s(flow_m3s, bore_m);
    velocity_step(work, flow_m3s, bore_m, velocity_m_s);
    qll_work_result(work, "velocity_m_s", velocity_m_s, QLL_KIND_VELOCITY);
    qll_work_result(work, "bore_m", bore_m, QLL_KIND_LENGTH);
}

const qll_calc qll_calc_velocity = {
    .id = QLL_CALC_VELOCITY,
    .name = "velocity",
    .inputs = velocity_inputs,
    .input_count = QLL_COUNT(velocity_inputs),
    .formula = "v = Q / (pi d^2 / 4)",
    .run = run_velocity,
};

/* ---- friction ---- */

static const qll_calc_input friction_inputs[] = {
    {.key = "flow", .kind = QLL_KIND_FLOW, .required = true, .help = QLL_TEXT_HELP_THROUGH_PIPE},
    QLL_INPUT_PIPE,
    {.key = "length", .kind = QLL_KIND_LENGTH, .required = true, .help = QLL_TEXT_HELP_OF_PIPE},
    {.key = "roughness", .kind = QLL_KIND_LENGTH, .help = QLL_TEXT_HELP_ROUGHNESS},
    QLL_INPUT_TEMPERATURE,
};

/* Drawn tubing: copper, brass, glass, plastics as new (Crane TP-410). */
#define QLL_DRAWN_TUBE_ROUGHNESS_M 1.52e-6

static double roughness_m(qll_calc_work *work, const qll_pipe_size *size)
{
    if (qll_work_given(work, "roughness")) {
        double given_m = qll_work_number(work, "roughness");
        qll_work_within(work, "roughness", given_m, 0, 5e-3);
        return given_m;
    }
    if (size != NULL) {
        return size->roughness_m;
    }
    qll_assumed_add(work->assumed, qll_as_is("roughness"),
                    qll_as_written(qll_text_of("0.00152 mm"), QLL_KIND_LENGTH),
                    (qll_said){.id = QLL_TEXT_WHY_DRAWN_TUBE});
    return QLL_DRAWN_TUBE_ROUGHNESS_M;
}

/* The law that qll_pipe_friction_factor() takes at a Reynolds number. */
static qll_calc_step_id factor_step(double reynolds)
{
    if (reynolds <= 2000) {
        return QLL_CALC_STEP_FACTOR_LAMINAR;
    }
    return reynolds < 4000 ? QLL_CALC_STEP_FACTOR_BETWEEN : QLL_CALC_STEP_FACTOR_TURBULENT;
}

static void run_friction(qll_calc_work *work)
{
    double flow_m3s = qll_work_number(work, "flow");
    qll_work_within(work, "flow", flow_m3s, 1e-9, 100);
    const qll_pipe_size *size = NULL;
    double bore_m = qll_work_bore_m(work, &size);
    double length_m = qll_work_number(work, "length");
    qll_work_within(work, "length", length_m, 0, 1e5);
    const qll_pipe_run run = {
        .bore_m = bore_m, .length_m = length_m, .roughness_m = roughness_m(work, size)};
    qll_water water = qll_work_water(work, 0);
    double velocity_m_s = qll_pipe_velocity_m_s(flow_m3s, bore_m);
    double reynolds = qll_pipe_reynolds(velocity_m_s, bore_m, &water);
    double factor = qll_pipe_friction_factor(reynolds, run.roughness_m / bore_m);
    double drop_pa = qll_pipe_drop_pa(&run, flow_m3s, &water);
    velocity_step(work, flow_m3s, bore_m, velocity_m_s);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_REYNOLDS),
                     "%.6g x %.6g x %.6g / %.6g = %.6g", water.density_kg_m3, velocity_m_s, bore_m,
                     water.viscosity_pa_s, reynolds);
    qll_work_with(work, "rho", water.density_kg_m3, QLL_KIND_DENSITY);
    qll_work_with(work, "v", velocity_m_s, QLL_KIND_VELOCITY);
    qll_work_with(work, "d", bore_m, QLL_KIND_LENGTH);
    qll_work_with(work, "mu", water.viscosity_pa_s, QLL_KIND_VISCOSITY);
    qll_work_finds(work, "reynolds", reynolds, QLL_KIND_NUMBER);
    qll_write_format(qll_work_step(work, factor_step(reynolds)), "e/d = %.6g: f = %.8g",
                     run.roughness_m / bore_m, factor);
    qll_work_with(work, "e/d", run.roughness_m / bore_m, QLL_KIND_NUMBER);
    qll_work_with(work, "Re", reynolds, QLL_KIND_NUMBER);
    qll_work_finds(work, "friction_factor", factor, QLL_KIND_NUMBER);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_PIPE_DROP),
                     "%.6g x %.6g / %.6g x %.6g x %.6g^2 / 2 = %.6g Pa", factor, length_m, bore_m,
                     water.density_kg_m3, velocity_m_s, drop_pa);
    qll_work_with(work, "f", factor, QLL_KIND_NUMBER);
    qll_work_with(work, "L", length_m, QLL_KIND_LENGTH);
    qll_work_with(work, "d", bore_m, QLL_KIND_LENGTH);
    qll_work_with(work, "rho", water.density_kg_m3, QLL_KIND_DENSITY);
    qll_work_with(work, "v", velocity_m_s, QLL_KIND_VELOCITY);
    qll_work_finds(work, "drop_pa", drop_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_work_result(work, "drop_pa", drop_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_work_result(work, "reynolds", reynolds, QLL_KIND_NUMBER);
    qll_work_result(work, "friction_factor", factor, QLL_KIND_NUMBER);
    qll_work_result(work, "velocity_m_s", velocity_m_s, QLL_KIND_VELOCITY);
}

const qll_calc qll_calc_friction = {
    .id = QLL_CALC_FRICTION,
    .name = "friction",
    .inputs = friction_inputs,
    .input_count = QLL_COUNT(friction_inputs),
    .formula = "dp = f L/d rho v^2/2",
    .run = run_friction,
};

/* ---- friction-factor ---- */

static const qll_calc_input factor_inputs[] = {
    {.key = "reynolds", .kind = QLL_KIND_NUMBER, .required = true, .help = QLL_TEXT_HELP_REYNOLDS},
    {.key = "relative_roughness",
     .kind = QLL_KIND_NUMBER,
     .required = true,
     .help = QLL_TEXT_HELP_RELATIVE},
};

static void run_friction_factor(qll_calc_work *work)
{
    double reynolds = qll_work_number(work, "reynolds");
    qll_work_within(work, "reynolds", reynolds, 1e-3, 1e15);
    double relative = qll_work_number(work, "relative_roughness");
    qll_work_within(work, "relative_roughness", relative, 0, 0.1);
    double factor = qll_pipe_friction_factor(reynolds, relative);
    qll_write_format(qll_work_step(work, factor_step(reynolds)), "Re = %.6g, e/d = %.6g: f = %.10g",
                     reynolds, relative, factor);
    qll_work_with(work, "Re", reynolds, QLL_KIND_NUMBER);
    qll_work_with(work, "e/d", relative, QLL_KIND_NUMBER);
    qll_work_finds(work, "friction_factor", factor, QLL_KIND_NUMBER);
    qll_work_result(work, "friction_factor", factor, QLL_KIND_NUMBER);
}

const qll_calc qll_calc_friction_factor = {
    .id = QLL_CALC_FRICTION_FACTOR,
    .name = "friction-factor",
    .inputs = factor_inputs,
    .input_count = QLL_COUNT(factor_inputs),
    .formula = "1/sqrt f = -2 lg(e/(3.7 d) + 2.51/(Re sqrt f))",
    .run = run_friction_factor,
};

/* ---- strainer ---- */

static const qll_calc_input strainer_inputs[] = {
    {.key = "mesh", .kind = QLL_KIND_NUMBER, .help = QLL_TEXT_HELP_MESH},
    {.key = "opening", .kind = QLL_KIND_LENGTH, .help = QLL_TEXT_HELP_OPENING},
    {.key = "wire", .kind = QLL_KIND_LENGTH, .help = QLL_TEXT_HELP_WIRE},
    {.key = "area_ratio",
     .kind = QLL_KIND_NUMBER,
     .fallback = "2",
     .help = QLL_TEXT_HELP_AREA_RATIO},
    {.key = "blocked", .kind = QLL_KIND_NUMBER, .fallback = "0", .help = QLL_TEXT_HELP_BLOCKED},
    {.key = "flow",
     .kind = QLL_KIND_FLOW,
     .required = true,
     .help = QLL_TEXT_HELP_THROUGH_STRAINER},
    QLL_INPUT_PIPE,
    QLL_INPUT_TEMPERATURE,
};

static qll_screen read_screen(qll_calc_work *work)
{
    qll_screen screen;
    bool by_wire = qll_work_given(work, "opening") || qll_work_given(work, "wire");
    if (qll_work_given(work, "mesh") && by_wire) {
        qll_work_refuse(work, "mesh", 0, QLL_CODE_CONTRADICTION,
                        QLL_SAYS_WITH(INPUT_EITHER, qll_as_is("mesh"), qll_as_is("opening + wire")),
                        NULL);
    }
    if (qll_work_given(work, "mesh")) {
        double mesh = qll_work_number(work, "mesh");
        bool is_whole = mesh >= 1 && mesh <= 1000 && mesh == floor(mesh);
        screen = qll_screen_mesh(is_whole ? (int)mesh : 0);
        if (isnan(screen.opening_m) && !isnan(mesh)) {
            qll_work_refuse(work, "mesh", 0, QLL_CODE_UNKNOWN_WORD,
                            QLL_SAYS_WITH(MESH_UNKNOWN, qll_as_number(mesh)), NULL);
        }
    } else if (qll_work_given(work, "opening") && qll_work_given(work, "wire")) {
        screen = (qll_screen){.opening_m = qll_work_number(work, "opening"),
                              .wire_m = qll_work_number(work, "wire")};
        qll_work_within(work, "opening", screen.opening_m, 1e-5, 0.02);
        qll_work_within(work, "wire", screen.wire_m, 1e-5, 0.01);
    } else {
        screen = (qll_screen){.opening_m = NAN, .wire_m = NAN};
        qll_work_refuse(work, "mesh", 0, QLL_CODE_MISSING_KEY,
                        QLL_SAYS_WITH(INPUT_EITHER, qll_as_is("mesh"), qll_as_is("opening + wire")),
                        QLL_SAYS_WITH(VALUE, qll_as_is("mesh=40")));
    }
    screen.area_ratio = qll_work_number(work, "area_ratio");
    qll_work_within(work, "area_ratio", screen.area_ratio, 0.5, 20);
    return screen;
}

static void run_strainer(qll_calc_work *work)
{
    qll_screen screen = read_screen(work);
    double flow_m3s = qll_work_number(work, "flow");
    qll_work_within(work, "flow", flow_m3s, 1e-9, 100);
    const qll_pipe_size *size = NULL;
    double bore_m = qll_work_bore_m(work, &size);
    double blocked = qll_work_number(work, "blocked");
    qll_work_within(work, "blocked", blocked, 0, 0.99);
    qll_water water = qll_work_water(work, 0);
    double clean_pa = qll_screen_drop_pa(&screen, bore_m, 0, flow_m3s, &water);
    double drop_pa = qll_screen_drop_pa(&screen, bore_m, blocked, flow_m3s, &water);
    double pitch_m = screen.opening_m + screen.wire_m;
    double open_share = screen.opening_m / pitch_m * (screen.opening_m / pitch_m);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_SCREEN_OPEN), "%.6g, a = %.6g", open_share,
                     open_share * (1 - blocked));
    qll_work_with(work, "w", screen.opening_m, QLL_KIND_LENGTH);
    qll_work_with(work, "d", screen.wire_m, QLL_KIND_LENGTH);
    qll_work_finds(work, "open_share", open_share, QLL_KIND_NUMBER);
    qll_work_finds(work, "free_share", open_share * (1 - blocked), QLL_KIND_NUMBER);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_SCREEN_DROP), "clean %.6g Pa, now %.6g Pa",
                     clean_pa, drop_pa);
    qll_work_with(work, "rho", water.density_kg_m3, QLL_KIND_DENSITY);
    qll_work_finds(work, "clean_drop_pa", clean_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_work_finds(work, "drop_pa", drop_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_work_result(work, "drop_pa", drop_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_work_result(work, "ratio_to_clean", drop_pa / clean_pa, QLL_KIND_NUMBER);
    qll_work_result(work, "clean_drop_pa", clean_pa, QLL_KIND_PRESSURE_DIFFERENCE);
}

const qll_calc qll_calc_strainer = {
    .id = QLL_CALC_STRAINER,
    .name = "strainer",
    .inputs = strainer_inputs,
    .input_count = QLL_COUNT(strainer_inputs),
    .formula = "dp = beta (1 - a^2)/a^2 rho v^2/2, v the velocity before the screen",
    .run = run_strainer,
};

/* ---- water ---- */

static const qll_calc_input water_inputs[] = {
    {.key = "temperature",
     .kind = QLL_KIND_TEMPERATURE,
     .required = true,
     .help = QLL_TEXT_HELP_LIQUID},
    {.key = "pressure",
     .kind = QLL_KIND_PRESSURE,
     .fallback = "0 psi",
     .help = QLL_TEXT_HELP_OF_WATER},
    QLL_INPUT_BAROMETRIC,
};

static void run_water(qll_calc_work *work)
{
    double gauge_pa = qll_work_number(work, "pressure");
    qll_work_within(work, "pressure", work->barometric_pa + gauge_pa, 0, 10e6);
    qll_water water = qll_work_water(work, gauge_pa);
    /* Water boils at 100 degC under 101.42 kPa and not 101.325: that much is rounding. */
    if (work->barometric_pa + gauge_pa < 0.99 * water.vapour_pressure_pa) {
        qll_work_refuse(work, "pressure", 0, QLL_CODE_OUT_OF_RANGE, QLL_SAYS(INPUT_BOILS), NULL);
    }
    qll_work_result(work, "density_kg_m3", water.density_kg_m3, QLL_KIND_DENSITY);
    qll_work_result(work, "viscosity_pa_s", water.viscosity_pa_s, QLL_KIND_VISCOSITY);
    qll_work_result(work, "vapour_pressure_pa", water.vapour_pressure_pa,
                    QLL_KIND_PRESSURE_DIFFERENCE);
    qll_work_result(work, "sound_speed_m_s", water.sound_speed_m_s, QLL_KIND_SPEED_OF_SOUND);
    qll_work_result(work, "bulk_modulus_pa", water.bulk_modulus_pa, QLL_KIND_MODULUS);
}

const qll_calc qll_calc_water = {
    .id = QLL_CALC_WATER,
    .name = "water",
    .inputs = water_inputs,
    .input_count = QLL_COUNT(water_inputs),
    .formula = "closed forms, docs/theory/water.md",
    .run = run_water,
};
