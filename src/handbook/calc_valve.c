/* Calculations about one valve. */
#include "handbook/work.h"
#include "physics/cavitation.h"
#include "physics/valve.h"

#include <math.h>

#define QLL_COUNT(array) (sizeof(array) / sizeof((array)[0]))

/* A globe-type trim of unknown make (IEC 60534-2-1, typical factors: globe, parabolic plug). */
#define QLL_INPUT_FL                                                            \
    {                                                                           \
        .key = "fl", .kind = QLL_KIND_NUMBER, .fallback = "0.9",                \
        .help = "pressure recovery factor; 0.9 is a globe valve, IEC 60534-2-1" \
    }

/* The fluid: water at a temperature, or given by its properties. */
#define QLL_INPUT_FLUID                                                                       \
    QLL_INPUT_TEMPERATURE,                                                                    \
        {.key = "density", .kind = QLL_KIND_DENSITY, .help = "instead of the temperature's"}, \
        {.key = "vapour_pressure",                                                            \
         .kind = QLL_KIND_PRESSURE,                                                           \
         .help = "absolute, instead of the temperature's"},                                   \
        QLL_INPUT_BAROMETRIC

typedef struct pressures {
    double inlet_pa, outlet_pa; /* absolute */
    qll_water water;
} pressures;

static double absolute_or(qll_calc_work *work, const char *key, double otherwise_pa)
{
    return qll_work_given(work, key) ? qll_work_absolute_pa(work, key) : otherwise_pa;
}

static pressures read_pressures(qll_calc_work *work)
{
    pressures read = {.inlet_pa = qll_work_absolute_pa(work, "inlet"),
                      .outlet_pa = qll_work_absolute_pa(work, "outlet")};
    read.water = qll_work_water(work, read.inlet_pa - work->barometric_pa);
    qll_work_within(work, "inlet", read.inlet_pa, 1e3, 10e6,
                    "an inlet pressure up to 10 MPa (1450 psi) is meant");
    if (read.outlet_pa >= read.inlet_pa) {
        qll_work_refuse(work, "outlet", 0, QLL_CODE_CONTRADICTION,
                        "must be below the inlet pressure", "");
    }
    return read;
}

static void read_fluid(qll_calc_work *work, qll_water *water)
{
    if (qll_work_given(work, "density")) {
        water->density_kg_m3 = qll_work_number(work, "density");
        qll_work_within(work, "density", water->density_kg_m3, 500, 2000,
                        "a liquid of 500 to 2000 kg/m3 is meant");
    }
    water->vapour_pressure_pa = absolute_or(work, "vapour_pressure", water->vapour_pressure_pa);
}

static double read_fl(qll_calc_work *work)
{
    double fl = qll_work_number(work, "fl");
    qll_work_within(work, "fl", fl, 0.2, 1, "FL lies between 0.2 and 1");
    return fl;
}

static void choke_steps(qll_calc_work *work, const pressures *at, double fl)
{
    double ff = qll_valve_ff(&at->water);
    double choked_pa = qll_valve_choked_drop_pa(at->inlet_pa, fl, &at->water);
    qll_write_format(qll_work_step(work, "FF = 0.96 - 0.28 sqrt(pv/pc)"),
                     "pv = %.6g Pa, pc = 22.064 MPa: FF = %.6g", at->water.vapour_pressure_pa, ff);
    qll_write_format(qll_work_step(work, "dp_choked = FL^2 (p1 - FF pv)"),
                     "%.4g^2 x (%.8g - %.6g x %.6g) = %.8g Pa", fl, at->inlet_pa, ff,
                     at->water.vapour_pressure_pa, choked_pa);
    qll_work_flag(work, "choked", at->inlet_pa - at->outlet_pa >= choked_pa);
    qll_work_result(work, "ff", ff, QLL_KIND_NUMBER);
    qll_work_result(work, "choked_drop_pa", choked_pa, QLL_KIND_PRESSURE_DIFFERENCE);
}

/* ---- valve-coefficient ---- */

static const qll_calc_input coefficient_inputs[] = {
    {.key = "flow", .kind = QLL_KIND_FLOW, .required = true, .help = "through the valve"},
    {.key = "inlet", .kind = QLL_KIND_PRESSURE, .required = true, .help = "before the valve"},
    {.key = "outlet", .kind = QLL_KIND_PRESSURE, .required = true, .help = "behind the valve"},
    QLL_INPUT_FL,
    QLL_INPUT_FLUID,
};

static void run_coefficient(qll_calc_work *work)
{
    double flow_m3s = qll_work_number(work, "flow");
    qll_work_within(work, "flow", flow_m3s, 0, 100, "a flow is not negative");
    pressures at = read_pressures(work);
    read_fluid(work, &at.water);
    double fl = read_fl(work);
    double kv_m3h = qll_valve_kv_m3h(flow_m3s, at.inlet_pa, at.outlet_pa, fl, &at.water);
    qll_work_result(work, "kv_m3h", kv_m3h, QLL_KIND_FLOW_COEFFICIENT);
    qll_work_result(work, "cv", kv_m3h * QLL_CV_PER_KV, QLL_KIND_NUMBER);
    choke_steps(work, &at, fl);
    qll_write_format(
        qll_work_step(work, "Kv = Q sqrt((rho/rho0) / min(p1 - p2, dp_choked)), m3/h and bar"),
        "%.6g m3/h, rho = %.6g kg/m3: Kv = %.8g m3/h = Cv %.8g", flow_m3s * 3600,
        at.water.density_kg_m3, kv_m3h, kv_m3h * QLL_CV_PER_KV);
}

const qll_calc qll_calc_valve_coefficient = {
    .name = "valve-coefficient",
    .question = "how large a flow coefficient passes this flow?",
    .inputs = coefficient_inputs,
    .input_count = QLL_COUNT(coefficient_inputs),
    .formula = "Kv = Q sqrt((rho/rho0)/dp), choked at dp = FL^2 (p1 - FF pv)",
    .validity = "liquid, turbulent, no reducers at the valve",
    .source = "IEC 60534-2-1 / ISA-75.01.01; rho0 = 999.1033 kg/m3 (water at 15 degC)",
    .run = run_coefficient,
};

/* ---- valve-flow ---- */

static const qll_calc_input flow_inputs[] = {
    {.key = "kv", .kind = QLL_KIND_FLOW_COEFFICIENT, .help = "of the opening, for example 18 m3/h"},
    {.key = "cv", .kind = QLL_KIND_NUMBER, .help = "the same in gpm at 1 psi, instead of kv"},
    {.key = "inlet", .kind = QLL_KIND_PRESSURE, .required = true, .help = "before the valve"},
    {.key = "outlet", .kind = QLL_KIND_PRESSURE, .required = true, .help = "behind the valve"},
    QLL_INPUT_FL,
    QLL_INPUT_FLUID,
};

static double read_kv_m3h(qll_calc_work *work)
{
    if (qll_work_given(work, "kv") == qll_work_given(work, "cv")) {
        qll_work_refuse(work, "kv", 0, QLL_CODE_MISSING_KEY, "give either kv or cv", "");
        return NAN;
    }
    const char *key = qll_work_given(work, "kv") ? "kv" : "cv";
    double value = qll_work_number(work, key);
    qll_work_within(work, key, value, 0, 1e5, "a flow coefficient is not negative");
    return key[0] == 'k' ? value : value / QLL_CV_PER_KV;
}

static void run_flow(qll_calc_work *work)
{
    double kv_m3h = read_kv_m3h(work);
    pressures at = read_pressures(work);
    read_fluid(work, &at.water);
    double fl = read_fl(work);
    double flow_m3s = qll_valve_flow_m3s(kv_m3h, at.inlet_pa, at.outlet_pa, fl, &at.water);
    qll_work_result(work, "flow_m3s", flow_m3s, QLL_KIND_FLOW);
    choke_steps(work, &at, fl);
    qll_write_format(
        qll_work_step(work, "Q = Kv sqrt(min(p1 - p2, dp_choked) / (rho/rho0)), m3/h and bar"),
        "Kv = %.6g m3/h, rho = %.6g kg/m3: Q = %.8g m3/h", kv_m3h, at.water.density_kg_m3,
        flow_m3s * 3600);
}

const qll_calc qll_calc_valve_flow = {
    .name = "valve-flow",
    .question = "how much does an opening pass?",
    .inputs = flow_inputs,
    .input_count = QLL_COUNT(flow_inputs),
    .formula = "Q = Kv sqrt(dp/(rho/rho0)), choked at dp = FL^2 (p1 - FF pv)",
    .validity = "liquid, turbulent, no reducers at the valve",
    .source = "IEC 60534-2-1 / ISA-75.01.01; rho0 = 999.1033 kg/m3 (water at 15 degC)",
    .run = run_flow,
};

/* ---- cavitation ---- */

static const qll_calc_input cavitation_inputs[] = {
    {.key = "inlet", .kind = QLL_KIND_PRESSURE, .required = true, .help = "before the valve"},
    {.key = "outlet", .kind = QLL_KIND_PRESSURE, .required = true, .help = "behind the valve"},
    {.key = "xfz",
     .kind = QLL_KIND_NUMBER,
     .fallback = "0.45",
     .help = "ratio at which cavitation begins, at 6 bar inlet; 0.45 is our assumption"},
    QLL_INPUT_FL,
    QLL_INPUT_FLUID,
};

static void run_cavitation(qll_calc_work *work)
{
    pressures at = read_pressures(work);
    read_fluid(work, &at.water);
    double xfz = qll_work_number(work, "xfz");
    qll_work_within(work, "xfz", xfz, 0.05, 0.99, "xFz lies between 0.05 and 0.99");
    const qll_cavitation_case given = {.inlet_pa = at.inlet_pa,
                                       .outlet_pa = at.outlet_pa,
                                       .vapour_pressure_pa = at.water.vapour_pressure_pa,
                                       .barometric_pa = work->barometric_pa,
                                       .xfz = xfz,
                                       .fl = read_fl(work)};
    qll_cavitation found = qll_cavitation_of(&given);
    qll_write_format(qll_work_step(work, "xF = (p1 - p2)/(p1 - pv), sigma = 1/xF"),
                     "(%.8g - %.8g)/(%.8g - %.6g) = %.6g, sigma = %.6g", at.inlet_pa, at.outlet_pa,
                     at.inlet_pa, at.water.vapour_pressure_pa, found.xf, found.sigma);
    qll_write_format(qll_work_step(work, "xFzp1 = xFz (6 bar/p1)^0.125"), "%.6g: margin %.6g",
                     found.xfzp1, found.margin);
    qll_work_result(work, "xf", found.xf, QLL_KIND_NUMBER);
    qll_work_result(work, "sigma", found.sigma, QLL_KIND_NUMBER);
    if (isfinite(found.ratio_gauge)) {
        qll_work_result(work, "ratio_gauge", found.ratio_gauge, QLL_KIND_NUMBER);
    }
    qll_work_result(work, "ratio_absolute", found.ratio_absolute, QLL_KIND_NUMBER);
    qll_work_result(work, "xfzp1", found.xfzp1, QLL_KIND_NUMBER);
    qll_work_result(work, "margin", found.margin, QLL_KIND_NUMBER);
    qll_work_word_result(work, "regime", qll_regime_words[found.regime]);
}

const qll_calc qll_calc_cavitation = {
    .name = "cavitation",
    .question = "does a valve cavitate at these pressures?",
    .inputs = cavitation_inputs,
    .input_count = QLL_COUNT(cavitation_inputs),
    .formula = "xF = (p1 - p2)/(p1 - pv) against xFzp1 = xFz (6 bar/p1)^0.125",
    .validity = "water; the bands of the margin are our proposal",
    .source = "IEC 60534-8-4 (xF, xFz and its pressure scaling); sigma as ISA-RP75.23",
    .run = run_cavitation,
};

/* ---- stage-split ---- */

#define QLL_STAGES_MOST 8

static const qll_calc_input split_inputs[] = {
    {.key = "inlet", .kind = QLL_KIND_PRESSURE, .required = true, .help = "before the first stage"},
    {.key = "outlet", .kind = QLL_KIND_PRESSURE, .required = true, .help = "behind the last stage"},
    {.key = "stages", .kind = QLL_KIND_NUMBER, .fallback = "2", .help = "2 to 8"},
    {.key = "xfz",
     .kind = QLL_KIND_NUMBER,
     .repeated = true,
     .help = "of each stage's trim; once per stage, or not at all for equal trims"},
    QLL_INPUT_TEMPERATURE,
    QLL_INPUT_BAROMETRIC,
};

static size_t read_stages(qll_calc_work *work, double *xfz)
{
    double stages = qll_work_number(work, "stages");
    if (!qll_work_within(work, "stages", stages, 2, QLL_STAGES_MOST, "2 to 8 stages are meant")
        || stages != floor(stages)) {
        qll_work_refuse(work, "stages", 0, QLL_CODE_OUT_OF_RANGE, "must be a whole number", "");
        return 0;
    }
    size_t count = (size_t)stages;
    size_t given = qll_work_count(work, "xfz");
    if (given != 0 && given != count) {
        qll_work_refuse(work, "xfz", 0, QLL_CODE_BAD_ROW,
                        "must be given once per stage, or not at all", "");
        return 0;
    }
    for (size_t i = 0; i < given; i++) {
        xfz[i] = qll_work_part(work, "xfz", i, qll_work_word(work, "xfz", i), QLL_KIND_NUMBER);
        if (!(xfz[i] > 0.05 && xfz[i] < 1)) {
            qll_work_refuse(work, "xfz", i, QLL_CODE_OUT_OF_RANGE, "xFz lies between 0.05 and 1",
                            "");
            return 0;
        }
    }
    return count;
}

static void run_split(qll_calc_work *work)
{
    pressures at = read_pressures(work);
    double xfz[QLL_STAGES_MOST];
    size_t stages = read_stages(work, xfz);
    if (stages == 0 || work->problems->refusal_count > 0) {
        return;
    }
    double between_pa[QLL_STAGES_MOST];
    bool trims = qll_work_given(work, "xfz");
    if (!qll_stage_split(at.inlet_pa, at.outlet_pa, at.water.vapour_pressure_pa, stages,
                         trims ? xfz : NULL, false, between_pa)) {
        qll_work_refuse(work, "outlet", 0, QLL_CODE_OUT_OF_RANGE,
                        "lies at or below the vapour pressure", "");
        return;
    }
    double gauge_pa[QLL_STAGES_MOST];
    double xf[QLL_STAGES_MOST];
    double before_pa = at.inlet_pa;
    for (size_t i = 0; i < stages; i++) {
        double after_pa = i + 1 < stages ? between_pa[i] : at.outlet_pa;
        xf[i] = (before_pa - after_pa) / (before_pa - at.water.vapour_pressure_pa);
        gauge_pa[i] = after_pa - work->barometric_pa;
        before_pa = after_pa;
    }
    qll_write_format(qll_work_step(work, trims ? "xF1/xFz1 = xF2/xFz2 = ..."
                                               : "pi = pv + sqrt((p1 - pv)(p2 - pv)) and so on"),
                     "p1 = %.8g, p2 = %.8g, pv = %.6g Pa absolute: first between %.8g Pa absolute",
                     at.inlet_pa, at.outlet_pa, at.water.vapour_pressure_pa, between_pa[0]);
    qll_work_list(work, "intermediate_pa_gauge", gauge_pa, stages - 1, QLL_KIND_PRESSURE);
    qll_work_list(work, "xf", xf, stages, QLL_KIND_NUMBER);
}

const qll_calc qll_calc_stage_split = {
    .name = "stage-split",
    .question = "which pressures between stages share the cavitation equally?",
    .inputs = split_inputs,
    .input_count = QLL_COUNT(split_inputs),
    .formula = "equal xF/xFz in every stage; two equal trims: pi = pv + sqrt((p1-pv)(p2-pv))",
    .validity = "the same flow through all stages; the small growth of xFz with falling inlet "
                "pressure is left out",
    .source = "from the definition of xF in IEC 60534-8-4; derived in docs/theory/cavitation.md",
    .run = run_split,
};
