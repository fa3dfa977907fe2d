#include "dynamics/friction.h"

#include <assert.h>
#include <math.h>

enum {
    QLL_SAMPLES = 100 /* of the flows at which it is compared */
};

static const double pi = 3.14159265358979323846;

/* Poiseuille: 128 mu L/(pi D^4). */
static double least_linear_pa_s_m3(const qll_pipe_run *run, const qll_water *water)
{
    const double square_m2 = run->bore_m * run->bore_m;
    return 128 * water->viscosity_pa_s * run->length_m / (pi * square_m2 * square_m2);
}

qll_friction qll_friction_of(const qll_pipe_run *run, double usual_m3s, const qll_water *water,
                             double *off)
{
    assert(run != NULL && water != NULL);
    const double quarter_m3s = usual_m3s / 4;
    const double whole = qll_pipe_drop_pa(run, usual_m3s, water) / usual_m3s;
    const double quarter = qll_pipe_drop_pa(run, quarter_m3s, water) / quarter_m3s;
    /* Straight lines of loss per flow over flow. */
    const double least = fmin(least_linear_pa_s_m3(run, water), whole);
    const double linear = fmax((4 * quarter - whole) / 3, least);
    const qll_friction friction = {.linear_pa_s_m3 = linear,
                                   .square_pa_s2_m6 = fmax(whole - linear, 0) / usual_m3s};
    if (off != NULL) {
        *off = 0;
        for (int i = 0; i < QLL_SAMPLES; i++) {
            const double flow_m3s = usual_m3s * (0.25 + 0.75 * i / QLL_SAMPLES);
            const double darcy_pa = qll_pipe_drop_pa(run, flow_m3s, water);
            *off = fmax(*off, fabs(qll_friction_pa(&friction, flow_m3s) / darcy_pa - 1));
        }
    }
    return friction;
}

double qll_friction_flow_m3s(const qll_friction *friction, double impedance_pa_s_m3, double push_pa)
{
    const double linear = impedance_pa_s_m3 + friction->linear_pa_s_m3;
    const double inside = linear * linear + 4 * friction->square_pa_s2_m6 * fabs(push_pa);
    return 2 * push_pa / (linear + sqrt(inside));
}
