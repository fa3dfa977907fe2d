/* Equation numbers are those of docs/theory/pipe.md. */
#include "physics/pipe.h"

#include "base/customary.h"

#include <assert.h>
#include <math.h>

static const double pi = 3.14159265358979323846;
/* Laminar below, fully turbulent formula above, a straight line between (our choice). */
static const double laminar_to = 2000;
static const double turbulent_from = 4000;
static const double laminar_constant = 64;

enum {
    QLL_STEPS_MOST = 30
};

double qll_pipe_velocity_m_s(double flow_m3s, double bore_m)
{
    return bore_m > 0 ? flow_m3s / (pi / 4 * bore_m * bore_m) : (double)NAN;
}

double qll_pipe_velocity_max_m_s(const qll_pipe_size *size, double degc)
{
    /* UPC 610.12, as an adoption quotes it: copper 8 ft/s cold, 5 ft/s hot; above 140 degF 2 to 3 ft/s (copper
     * handbook practice, by way of a reference site). Where warm begins is our assumption: no cold main of a building is above 30 degC. */
    const double warm_degc = 30;
    const double hot_degc = 60;
    if (!qll_text_is(qll_text_of(size->material), "copper") || degc <= warm_degc) {
        return size->velocity_max_m_s;
    }
    return fmin(size->velocity_max_m_s, degc <= hot_degc ? QLL_COPPER_HOT_M_S : 3 * QLL_FOOT_M);
}

double qll_pipe_reynolds(double velocity_m_s, double bore_m, const qll_water *water)
{
    assert(water != NULL);
    return velocity_m_s * bore_m * water->density_kg_m3 / water->viscosity_pa_s;
}

/* Eq. 3, Colebrook: X = 1/sqrt(f) is the root of X + 2 lg(e/3.7 + 2.51 X/Re), by Newton's method
 * from the Swamee-Jain value. The function rises and bends down, so the steps cannot wander off. */
static double colebrook(double reynolds, double relative_roughness)
{
    double rough = relative_roughness / 3.7;
    double smooth = 2.51 / reynolds;
    double x = -2 * log10(rough + 5.74 / pow(reynolds, 0.9));
    for (int i = 0; i < QLL_STEPS_MOST; i++) {
        double inside = rough + smooth * x;
        double value = x + 2 * log10(inside);
        double slope = 1 + 2 / log(10) * smooth / inside;
        double step = value / slope;
        x -= step;
        if (fabs(step) <= 1e-14 * x) {
            break;
        }
    }
    return 1 / (x * x);
}

double qll_pipe_friction_factor(double reynolds, double relative_roughness)
{
    if (!(reynolds > 0) || !isfinite(reynolds)
        || !(relative_roughness >= 0 && relative_roughness <= 0.1)) {
        return NAN;
    }
    if (reynolds <= laminar_to) {
        return laminar_constant / reynolds;
    }
    if (reynolds >= turbulent_from) {
        return colebrook(reynolds, relative_roughness);
    }
    double share = (reynolds - laminar_to) / (turbulent_from - laminar_to);
    return (1 - share) * laminar_constant / laminar_to
           + share * colebrook(turbulent_from, relative_roughness);
}

double qll_pipe_drop_pa(const qll_pipe_run *run, double flow_m3s, const qll_water *water)
{
    assert(run != NULL && water != NULL);
    if (!(flow_m3s >= 0) || !(run->bore_m > 0) || !(run->length_m >= 0)
        || !(run->minor_loss >= 0)) {
        return NAN;
    }
    if (flow_m3s == 0) {
        return 0;
    }
    double velocity = qll_pipe_velocity_m_s(flow_m3s, run->bore_m);
    double reynolds = qll_pipe_reynolds(velocity, run->bore_m, water);
    /* Below this 64/Re leaves the range of a double, and what is lost leaves it at the other end. */
    const double least_reynolds = 1e-290;
    double factor = qll_pipe_friction_factor(reynolds < least_reynolds ? least_reynolds : reynolds,
                                             run->roughness_m / run->bore_m);
    double heads = factor * run->length_m / run->bore_m + run->minor_loss;
    return heads * water->density_kg_m3 * velocity * velocity / 2;
}
