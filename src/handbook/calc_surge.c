/* Water hammer in closed form. */
#include "base/count.h"
#include "handbook/work.h"
#include "physics/material.h"
#include "physics/surge.h"

#include <math.h>

/* ---- wave-speed ---- */

static const qll_calc_input wave_inputs[] = {
    QLL_INPUT_PIPE,
    {.key = "wall", .kind = QLL_KIND_LENGTH, .help = QLL_TEXT_HELP_WALL},
    {.key = "modulus", .kind = QLL_KIND_MODULUS, .help = QLL_TEXT_HELP_MODULUS},
    {.key = "poisson", .kind = QLL_KIND_NUMBER, .help = QLL_TEXT_HELP_POISSON},
    {.key = "anchoring", .is_word = true, .fallback = "joints", .help = QLL_TEXT_HELP_ANCHORING},
    QLL_INPUT_TEMPERATURE,
};

static void read_wall(qll_calc_work *work, const qll_pipe_size *size, qll_surge_pipe *pipe)
{
    if (size != NULL) {
        const qll_material *material = qll_material_find(qll_text_of(size->material));
        if (material == NULL) {
            qll_work_refuse(work, "pipe", 0, QLL_CODE_OUT_OF_RANGE, QLL_SAYS(INPUT_LAYERS), NULL);
            return;
        }
        pipe->wall_m = size->wall_m;
        pipe->modulus_pa = material->modulus_pa;
        pipe->poisson = material->poisson;
    }
    if (qll_work_given(work, "wall")) {
        pipe->wall_m = qll_work_number(work, "wall");
        qll_work_within(work, "wall", pipe->wall_m, 1e-4, 0.1);
    }
    if (qll_work_given(work, "modulus")) {
        pipe->modulus_pa = qll_work_number(work, "modulus");
        qll_work_within(work, "modulus", pipe->modulus_pa, 1e6, 1e12);
    }
    if (size == NULL && (!qll_work_given(work, "wall") || !qll_work_given(work, "modulus"))) {
        qll_work_refuse(work, "wall", 0, QLL_CODE_MISSING_KEY,
                        QLL_SAYS_WITH(INPUT_WITH, qll_as_is("wall + modulus"), qll_as_is("bore")),
                        NULL);
    }
    if (qll_work_given(work, "poisson")) {
        pipe->poisson = qll_work_number(work, "poisson");
        qll_work_within(work, "poisson", pipe->poisson, 0, 0.5);
    } else if (size == NULL && pipe->anchoring != QLL_ANCHORED_JOINTS) {
        qll_assumed_add(work->assumed, qll_as_is("poisson"), qll_as_number(0.3),
                        (qll_said){.id = QLL_TEXT_WHY_METALS});
    }
}

static qll_anchoring read_anchoring(qll_calc_work *work)
{
    size_t found = qll_work_choice(work, "anchoring", qll_anchoring_words, QLL_ANCHORING_COUNT);
    return found < QLL_ANCHORING_COUNT ? (qll_anchoring)found : QLL_ANCHORED_JOINTS;
}

static void run_wave(qll_calc_work *work)
{
    const qll_pipe_size *size = NULL;
    qll_surge_pipe pipe = {.bore_m = qll_work_bore_m(work, &size),
                           .wall_m = (double)NAN, /* until they are known */
                           .modulus_pa = (double)NAN,
                           .poisson = 0.3};
    pipe.anchoring = read_anchoring(work);
    read_wall(work, size, &pipe);
    qll_water water = qll_work_water(work, 0);
    double speed_m_s = qll_wave_speed_m_s(&pipe, water.bulk_modulus_pa, water.density_kg_m3);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_WAVE_SPEED),
                     "K = %.6g Pa, rho = %.6g kg/m3, E = %.6g Pa, D/e = %.6g, c1 = %.6g: %.6g m/s",
                     water.bulk_modulus_pa, water.density_kg_m3, pipe.modulus_pa,
                     pipe.bore_m / pipe.wall_m, qll_anchoring_factor(pipe.anchoring, pipe.poisson),
                     speed_m_s);
    qll_work_with(work, "K", water.bulk_modulus_pa, QLL_KIND_MODULUS);
    qll_work_with(work, "rho", water.density_kg_m3, QLL_KIND_DENSITY);
    qll_work_with(work, "E", pipe.modulus_pa, QLL_KIND_MODULUS);
    qll_work_with(work, "D/e", pipe.bore_m / pipe.wall_m, QLL_KIND_NUMBER);
    qll_work_with(work, "c1", qll_anchoring_factor(pipe.anchoring, pipe.poisson), QLL_KIND_NUMBER);
    qll_work_finds(work, "wave_speed_m_s", speed_m_s, QLL_KIND_SPEED_OF_SOUND);
    qll_work_result(work, "wave_speed_m_s", speed_m_s, QLL_KIND_SPEED_OF_SOUND);
}

const qll_calc qll_calc_wave_speed = {
    .id = QLL_CALC_WAVE_SPEED,
    .name = "wave-speed",
    .inputs = wave_inputs,
    .input_count = QLL_COUNT(wave_inputs),
    .formula = "a = sqrt(K/rho)/sqrt(1 + K/E D/e c1), c1 = 1, 1 - nu^2 or 1.25 - nu by anchoring",
    .run = run_wave,
};

/* ---- surge ---- */

static const qll_calc_input surge_inputs[] = {
    {.key = "wave_speed",
     .kind = QLL_KIND_SPEED_OF_SOUND,
     .required = true,
     .help = QLL_TEXT_HELP_WAVE_SPEED},
    {.key = "velocity_change",
     .kind = QLL_KIND_VELOCITY,
     .required = true,
     .help = QLL_TEXT_HELP_LOST_AT_ONCE},
    QLL_INPUT_TEMPERATURE,
};

static void run_surge(qll_calc_work *work)
{
    double wave_speed_m_s = qll_work_number(work, "wave_speed");
    qll_work_within(work, "wave_speed", wave_speed_m_s, 1, 2000);
    double change_m_s = qll_work_number(work, "velocity_change");
    qll_work_within(work, "velocity_change", change_m_s, 0, 100);
    qll_water water = qll_work_water(work, 0);
    double surge_pa = qll_surge_pa(water.density_kg_m3, wave_speed_m_s, change_m_s);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_SURGE), "%.6g x %.6g x %.6g = %.6g Pa",
                     water.density_kg_m3, wave_speed_m_s, change_m_s, surge_pa);
    qll_work_with(work, "rho", water.density_kg_m3, QLL_KIND_DENSITY);
    qll_work_with(work, "a", wave_speed_m_s, QLL_KIND_SPEED_OF_SOUND);
    qll_work_with(work, "dv", change_m_s, QLL_KIND_VELOCITY);
    qll_work_finds(work, "surge_pa", surge_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_work_result(work, "surge_pa", surge_pa, QLL_KIND_PRESSURE_DIFFERENCE);
}

const qll_calc qll_calc_surge = {
    .id = QLL_CALC_SURGE,
    .name = "surge",
    .inputs = surge_inputs,
    .input_count = QLL_COUNT(surge_inputs),
    .formula = "dp = rho a dv",
    .run = run_surge,
};
