/* What heating does behind a valve that lets no water back. */
#include "base/count.h"
#include "handbook/work.h"
#include "physics/expansion.h"
#include "physics/material.h"
#include "physics/seat_leak.h"

#include <math.h>

/* ---- expansion-tank ---- */

static const qll_calc_input tank_inputs[] = {
    {.key = "volume", .kind = QLL_KIND_VOLUME, .required = true, .help = QLL_TEXT_HELP_HEATED},
    {.key = "cold",
     .kind = QLL_KIND_TEMPERATURE,
     .fallback = "50 degF",
     .help = QLL_TEXT_HELP_AS_IT_COMES},
    {.key = "hot",
     .kind = QLL_KIND_TEMPERATURE,
     .fallback = "140 degF",
     .help = QLL_TEXT_HELP_AS_KEPT},
    {.key = "line", .kind = QLL_KIND_PRESSURE, .required = true, .help = QLL_TEXT_HELP_LINE},
    {.key = "limit", .kind = QLL_KIND_PRESSURE, .required = true, .help = QLL_TEXT_HELP_HIGHEST},
    QLL_INPUT_BAROMETRIC,
};

static void run_tank(qll_calc_work *work)
{
    qll_heated heated = {.volume_m3 = qll_work_number(work, "volume"),
                         .cold_degc = qll_work_number(work, "cold"),
                         .hot_degc = qll_work_number(work, "hot")};
    qll_work_within(work, "volume", heated.volume_m3, 1e-6, 1e4);
    qll_work_within(work, "cold", heated.cold_degc, 0, 100);
    qll_work_within(work, "hot", heated.hot_degc, 0, 100);
    if (heated.hot_degc <= heated.cold_degc) {
        qll_work_refuse(work, "hot", 0, QLL_CODE_CONTRADICTION,
                        QLL_SAYS_WITH(INPUT_NOT_ABOVE, qll_as_is("cold")), NULL);
    }
    double line_pa = qll_work_absolute_pa(work, "line");
    double limit_pa = qll_work_absolute_pa(work, "limit");
    qll_work_within(work, "line", line_pa, 1e3, 10e6);
    if (limit_pa <= line_pa) {
        qll_work_refuse(work, "limit", 0, QLL_CODE_CONTRADICTION,
                        QLL_SAYS_WITH(INPUT_NOT_ABOVE, qll_as_is("line")), NULL);
    }
    heated.pressure_pa = line_pa;
    double expanded_m3 = qll_expanded_m3(&heated);
    double tank_m3 = qll_expansion_tank_m3(expanded_m3, line_pa, limit_pa);
    double ratio = qll_expansion_ratio(heated.cold_degc, heated.hot_degc, line_pa);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_EXPANDED), "%.6g m3 x (%.8g - 1) = %.6g m3",
                     heated.volume_m3, ratio, expanded_m3);
    qll_work_with(work, "V", heated.volume_m3, QLL_KIND_VOLUME);
    qll_work_with(work, "v2/v1", ratio, QLL_KIND_NUMBER);
    qll_work_finds(work, "expanded_m3", expanded_m3, QLL_KIND_VOLUME);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_TANK),
                     "%.6g/(1 - %.6g/%.6g) = %.6g m3, pressures absolute", expanded_m3, line_pa,
                     limit_pa, tank_m3);
    qll_work_with(work, "Ve", expanded_m3, QLL_KIND_VOLUME);
    qll_work_with_absolute(work, "P1", line_pa);
    qll_work_with_absolute(work, "P2", limit_pa);
    qll_work_finds(work, "tank_m3", tank_m3, QLL_KIND_VOLUME);
    qll_work_result(work, "expanded_m3", expanded_m3, QLL_KIND_VOLUME);
    qll_work_result(work, "tank_m3", tank_m3, QLL_KIND_VOLUME);
}

const qll_calc qll_calc_expansion_tank = {
    .id = QLL_CALC_EXPANSION_TANK,
    .name = "expansion-tank",
    .inputs = tank_inputs,
    .input_count = QLL_COUNT(tank_inputs),
    .formula = "Ve = V (v2/v1 - 1), Vt = Ve/(1 - P1/P2), pressures absolute",
    .run = run_tank,
};

/* ---- closed-rise ---- */

static const qll_calc_input rise_inputs[] = {
    QLL_INPUT_PIPE_SIZE,
    QLL_INPUT_TEMPERATURE,
    {.key = "rise",
     .kind = QLL_KIND_TEMPERATURE_DIFFERENCE,
     .fallback = "1 K",
     .help = QLL_TEXT_HELP_WARMS},
};

static double rise_at(qll_closed_part part, double temperature_degc, double pressure_pa)
{
    part.temperature_degc = temperature_degc;
    return qll_closed_rise_pa_per_k(&part, 1, pressure_pa);
}

static void run_rise(qll_calc_work *work)
{
    const qll_pipe_size *size = qll_work_pipe_size(work);
    qll_water water = qll_work_water(work, 0);
    double rise_k = qll_work_number(work, "rise");
    double start = water.temperature_degc;
    qll_work_within(work, "rise", rise_k, 0, 100 - start);
    if (size == NULL || work->problems->refusal_count > 0) {
        return;
    }
    const qll_material *wall = qll_material_find(qll_text_of(size->material));
    if (wall == NULL) {
        qll_work_refuse(work, "pipe", 0, QLL_CODE_OUT_OF_RANGE, QLL_SAYS(INPUT_LAYERS), NULL);
        return;
    }
    qll_closed_part part = {.volume_m3 = 1,
                            .is_heated = true,
                            .bore_m = size->bore_m,
                            .wall_m = size->wall_m,
                            .modulus_pa = wall->modulus_pa,
                            .poisson = wall->poisson,
                            .wall_expansion_per_k = wall->expansion_per_k};
    double per_k = rise_at(part, start, work->barometric_pa);
    /* Simpson over the rise: the expansion of water grows almost evenly. */
    double whole_pa = rise_k / 6
                      * (per_k + 4 * rise_at(part, start + rise_k / 2, work->barometric_pa)
                         + rise_at(part, start + rise_k, work->barometric_pa));
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_CLOSED_RISE),
                     "av = %.6g, a = %.6g per K, D/t = %.6g, E = %.6g Pa: %.6g Pa/K",
                     water.expansion_per_k, wall->expansion_per_k, size->bore_m / size->wall_m,
                     wall->modulus_pa, per_k);
    qll_work_with(work, "D", size->bore_m, QLL_KIND_LENGTH);
    qll_work_with(work, "t", size->wall_m, QLL_KIND_LENGTH);
    qll_work_with(work, "E", wall->modulus_pa, QLL_KIND_MODULUS);
    qll_work_with(work, "nu", wall->poisson, QLL_KIND_NUMBER);
    qll_work_finds(work, "rise_pa_per_k", per_k, QLL_KIND_NUMBER);
    qll_work_result(work, "rise_pa_per_k", per_k, QLL_KIND_NUMBER);
    qll_work_result(work, "rise_pa", whole_pa, QLL_KIND_PRESSURE_DIFFERENCE);
}

const qll_calc qll_calc_closed_rise = {
    .id = QLL_CALC_CLOSED_RISE,
    .name = "closed-rise",
    .inputs = rise_inputs,
    .input_count = QLL_COUNT(rise_inputs),
    .formula = "dp/dT = (av - 3 a)/(kT + D/(E t) (1.25 - nu))",
    .run = run_rise,
};

/* ---- seat-leak ---- */

static const qll_calc_input leak_inputs[] = {
    {.key = "drawn", .kind = QLL_KIND_VOLUME, .required = true, .help = QLL_TEXT_HELP_DRAWN},
    {.key = "fall",
     .kind = QLL_KIND_PRESSURE_DIFFERENCE,
     .required = true,
     .help = QLL_TEXT_HELP_FALL},
    {.key = "rise",
     .kind = QLL_KIND_PRESSURE_DIFFERENCE,
     .required = true,
     .help = QLL_TEXT_HELP_RISE},
    {.key = "time", .kind = QLL_KIND_TIME, .fallback = "10 min", .help = QLL_TEXT_HELP_TIME},
    {.key = "nominal", .kind = QLL_KIND_LENGTH, .required = true, .help = QLL_TEXT_HELP_VALVE_SIZE},
};

static void run_leak(qll_calc_work *work)
{
    const qll_creep_test test = {.drawn_m3 = qll_work_number(work, "drawn"),
                                 .fall_pa = qll_work_number(work, "fall"),
                                 .rise_pa = qll_work_number(work, "rise"),
                                 .time_s = qll_work_number(work, "time")};
    const double nominal_m = qll_work_number(work, "nominal");
    qll_work_within(work, "drawn", test.drawn_m3, 1e-8, 10);
    qll_work_within(work, "fall", test.fall_pa, 100, 5e6);
    qll_work_within(work, "rise", test.rise_pa, 0, 5e6);
    qll_work_within(work, "time", test.time_s, 1, 1e6);
    qll_work_within(work, "nominal", nominal_m, 5e-3, 0.7);
    const double leak_m3s = qll_seat_leak_m3s(&test);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_SEAT_LEAK),
                     "%.6g m3/%.6g Pa x %.6g Pa/%.6g s = %.6g m3/s, 20 drops to the mL",
                     test.drawn_m3, test.fall_pa, test.rise_pa, test.time_s, leak_m3s);
    /* In mL: no gallon and no gpm shows so little. */
    qll_work_with(work, "V", 1e6 * test.drawn_m3, QLL_KIND_NUMBER);
    qll_work_with(work, "dp0", test.fall_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_work_with(work, "dp", test.rise_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_work_with(work, "t", test.time_s, QLL_KIND_TIME);
    qll_work_finds(work, "drops_per_second", leak_m3s / qll_drop_m3(), QLL_KIND_NUMBER);
    qll_work_result(work, "drops_per_second", leak_m3s / qll_drop_m3(), QLL_KIND_NUMBER);
    qll_work_result(work, "good_drops_per_second",
                    qll_seat_leak_good_m3s(nominal_m) / qll_drop_m3(), QLL_KIND_NUMBER);
    qll_work_result(work, "bad_drops_per_second", qll_seat_leak_bad_m3s() / qll_drop_m3(),
                    QLL_KIND_NUMBER);
}

const qll_calc qll_calc_seat_leak = {
    .id = QLL_CALC_SEAT_LEAK,
    .name = "seat-leak",
    .inputs = leak_inputs,
    .input_count = QLL_COUNT(leak_inputs),
    .formula = "q = V/dp0 dp/t",
    .run = run_leak,
};
