/* Cavitation in a valve, and stages that share it. */
#include "base/count.h"
#include "handbook/work_valve.h"
#include "physics/cavitation.h"

#include <math.h>

/* ---- cavitation ---- */

static const qll_calc_input cavitation_inputs[] = {
    QLL_INPUT_INLET_OUTLET,
    {.key = "xfz", .kind = QLL_KIND_NUMBER, .fallback = "0.45", .help = QLL_TEXT_HELP_XFZ},
    QLL_INPUT_FL,
    QLL_INPUT_FLUID,
};

static void run_cavitation(qll_calc_work *work)
{
    qll_work_pressures at = qll_work_pressures_read(work);
    qll_work_fluid_read(work, &at.water);
    double xfz = qll_work_number(work, "xfz");
    qll_work_within(work, "xfz", xfz, 0.05, 0.99);
    const qll_cavitation_case given = {.inlet_pa = at.inlet_pa,
                                       .outlet_pa = at.outlet_pa,
                                       .vapour_pressure_pa = at.water.vapour_pressure_pa,
                                       .barometric_pa = work->barometric_pa,
                                       .xfz = xfz,
                                       .fl = qll_work_fl(work)};
    qll_cavitation found = qll_cavitation_of(&given);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_CAVITATION),
                     "(%.8g - %.8g)/(%.8g - %.6g) = %.6g, sigma = %.6g", at.inlet_pa, at.outlet_pa,
                     at.inlet_pa, at.water.vapour_pressure_pa, found.xf, found.sigma);
    qll_work_with_absolute(work, "p1", at.inlet_pa);
    qll_work_with_absolute(work, "p2", at.outlet_pa);
    qll_work_with_absolute(work, "pv", at.water.vapour_pressure_pa);
    qll_work_finds(work, "xf", found.xf, QLL_KIND_NUMBER);
    qll_work_finds(work, "sigma", found.sigma, QLL_KIND_NUMBER);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_CAVITATION_SCALED), "%.6g: margin %.6g",
                     found.xfzp1, found.margin);
    qll_work_with(work, "xFz", xfz, QLL_KIND_NUMBER);
    qll_work_with_absolute(work, "p1", at.inlet_pa);
    qll_work_finds(work, "xfzp1", found.xfzp1, QLL_KIND_NUMBER);
    qll_work_finds(work, "margin", found.margin, QLL_KIND_NUMBER);
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
    .id = QLL_CALC_CAVITATION,
    .name = "cavitation",
    .inputs = cavitation_inputs,
    .input_count = QLL_COUNT(cavitation_inputs),
    .formula = "xF = (p1 - p2)/(p1 - pv) against xFzp1 = xFz (6 bar/p1)^0.125",
    .run = run_cavitation,
};

/* ---- stage-split ---- */

#define QLL_STAGES_MOST 8

static const qll_calc_input split_inputs[] = {
    {.key = "inlet",
     .kind = QLL_KIND_PRESSURE,
     .required = true,
     .help = QLL_TEXT_HELP_BEFORE_FIRST},
    {.key = "outlet",
     .kind = QLL_KIND_PRESSURE,
     .required = true,
     .help = QLL_TEXT_HELP_BEHIND_LAST},
    {.key = "stages", .kind = QLL_KIND_NUMBER, .fallback = "2", .help = QLL_TEXT_HELP_STAGES},
    {.key = "xfz", .kind = QLL_KIND_NUMBER, .repeated = true, .help = QLL_TEXT_HELP_XFZ_STAGES},
    QLL_INPUT_TEMPERATURE,
    QLL_INPUT_BAROMETRIC,
};

static size_t read_stages(qll_calc_work *work, double *xfz)
{
    double stages = qll_work_number(work, "stages");
    if (!qll_work_within(work, "stages", stages, 2, QLL_STAGES_MOST)) {
        return 0;
    }
    if (stages != floor(stages)) {
        qll_work_refuse(work, "stages", 0, QLL_CODE_OUT_OF_RANGE,
                        QLL_SAYS_WITH(NOT_WHOLE, qll_as_number(stages)), NULL);
        return 0;
    }
    size_t count = (size_t)stages;
    size_t given = qll_work_count(work, "xfz");
    if (given != 0 && given != count) {
        qll_work_refuse(work, "xfz", 0, QLL_CODE_BAD_ROW, QLL_SAYS(INPUT_ONCE_PER_STAGE), NULL);
        return 0;
    }
    for (size_t i = 0; i < given; i++) {
        xfz[i] = qll_work_part(work, "xfz", i, qll_work_word(work, "xfz", i), QLL_KIND_NUMBER);
        const qll_work_input input = {.key = "xfz", .nth = i, .kind = QLL_KIND_NUMBER};
        if (!qll_work_part_within(work, &input, xfz[i], 0.05, 0.99)) {
            return 0; /* said already */
        }
    }
    return count;
}

static void run_split(qll_calc_work *work)
{
    qll_work_pressures at = qll_work_pressures_read(work);
    double xfz[QLL_STAGES_MOST];
    size_t stages = read_stages(work, xfz);
    if (stages == 0 || work->problems->refusal_count > 0) {
        return;
    }
    double between_pa[QLL_STAGES_MOST];
    bool trims = qll_work_given(work, "xfz");
    if (!qll_stage_split(at.inlet_pa, at.outlet_pa, at.water.vapour_pressure_pa, stages,
                         trims ? xfz : NULL, false, between_pa)) {
        qll_work_refuse(work, "outlet", 0, QLL_CODE_OUT_OF_RANGE, QLL_SAYS(LEVEL_FLASHING), NULL);
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
    qll_write_format(
        qll_work_step(work, trims ? QLL_CALC_STEP_STAGES_TRIMS : QLL_CALC_STEP_STAGES_EQUAL),
        "p1 = %.8g, p2 = %.8g, pv = %.6g Pa absolute: first between %.8g Pa absolute", at.inlet_pa,
        at.outlet_pa, at.water.vapour_pressure_pa, between_pa[0]);
    qll_work_with_absolute(work, "p1", at.inlet_pa);
    qll_work_with_absolute(work, "p2", at.outlet_pa);
    qll_work_with_absolute(work, "pv", at.water.vapour_pressure_pa);
    qll_work_finds(work, "first_between_pa_gauge", gauge_pa[0], QLL_KIND_PRESSURE);
    qll_work_list(work, "intermediate_pa_gauge", gauge_pa, stages - 1, QLL_KIND_PRESSURE);
    qll_work_list(work, "xf", xf, stages, QLL_KIND_NUMBER);
}

const qll_calc qll_calc_stage_split = {
    .id = QLL_CALC_STAGE_SPLIT,
    .name = "stage-split",
    .inputs = split_inputs,
    .input_count = QLL_COUNT(split_inputs),
    .formula = "equal xF/xFz in every stage; two equal trims: pi = pv + sqrt((p1-pv)(p2-pv))",
    .run = run_split,
};
