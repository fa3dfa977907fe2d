/* Time of one noise level: every intermediate and band, and the fast total a search asks for. */
#include "physics/noise.h"

#include <math.h>
#include <stdio.h>
#include <time.h>

#define QLL_POINTS 512
#define QLL_ROUNDS 200
#define QLL_TIMES  5

/* Of the processor, so that other work on the machine does not count. */
static double seconds(void)
{
    return (double)clock() / CLOCKS_PER_SEC;
}

static qll_noise_case cases[QLL_POINTS];

/* An invented valve over falling outlets, turbulent and cavitating half and half. */
static void make_cases(void)
{
    for (size_t i = 0; i < QLL_POINTS; i++) {
        cases[i] = (qll_noise_case){.mass_flow_kg_s = 0.3 + 0.002 * (double)i,
                                    .inlet_pa = 1.1e6,
                                    .outlet_pa = 1.1e6 * (1 - 0.7 * (double)(i + 1) / QLL_POINTS),
                                    .density_kg_m3 = 999,
                                    .vapour_pressure_pa = 1700,
                                    .sound_speed_m_s = 1466,
                                    .coefficient = 1 + 0.01 * (double)i,
                                    .form = QLL_FORM_KV,
                                    .fl = 0.9,
                                    .fd = 0.46,
                                    .xfz = 0.35,
                                    .valve_bore_m = 0.026,
                                    .seat_bore_m = 0.02};
    }
}

static double run_full(const qll_noise_path *path, double *sum)
{
    double start = seconds();
    for (size_t i = 0; i < QLL_POINTS * (size_t)QLL_ROUNDS; i++) {
        qll_noise noise;
        qll_noise_of(&cases[i % QLL_POINTS], path, QLL_NOISE_2015, &noise);
        *sum += noise.level_dba;
    }
    return (seconds() - start) * 1e9 / (QLL_POINTS * (double)QLL_ROUNDS);
}

static double run_fast(const qll_noise_path *path, double *sum)
{
    double start = seconds();
    for (size_t i = 0; i < QLL_POINTS * (size_t)QLL_ROUNDS; i++) {
        *sum += qll_noise_level_dba(&cases[i % QLL_POINTS], path, NULL);
    }
    return (seconds() - start) * 1e9 / (QLL_POINTS * (double)QLL_ROUNDS);
}

int main(void)
{
    const qll_noise_pipe pipe = {.bore_m = 0.026,
                                 .wall_m = 0.00127,
                                 .wall_density_kg_m3 = 8940,
                                 .wall_sound_speed_m_s = 3600,
                                 .air_density_kg_m3 = QLL_AIR_DENSITY_KG_M3,
                                 .air_sound_speed_m_s = QLL_AIR_SOUND_SPEED_M_S};
    qll_noise_path path;
    qll_noise_path_make(&pipe, &path);
    make_cases();
    double full_ns = INFINITY, fast_ns = INFINITY, full_sum = 0, fast_sum = 0;
    /* The least of several runs, so that a busy machine does not tell. */
    for (int i = 0; i < QLL_TIMES; i++) {
        full_ns = fmin(full_ns, run_full(&path, &full_sum));
        fast_ns = fmin(fast_ns, run_fast(&path, &fast_sum));
    }
    printf("what,ns\nfull evaluation,%.0f\nfast total,%.0f\nratio,%.1f\n", full_ns, fast_ns,
           full_ns / fast_ns);
    return fabs(full_sum - fast_sum) < 1e-6 * fabs(full_sum) ? 0 : 1; /* different answers */
}
