#include "physics/sizing.h"

#include "numeric/root.h"
#include "physics/water.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

/* Constants of IEC 60534-2-1 for Kv in m3/h and lengths in mm, as an open fluid-dynamics library
 * (fluids) prints them. */
static const double n2 = 1.6e-3;
static const double n4 = 7.07e-2;
static const double n18 = 0.865;
static const double n32 = 140;
static const double full_trim_from = 0.016; /* of Kv/(N18 d^2) */
static const double turbulent_from = 10000;
static const double laminar_below = 10;

static const double pa_per_bar = 1e5;
static const double seconds_per_hour = 3600;
static const double mm_per_m = 1000;

const char *const qll_sizing_regime_words[QLL_SIZING_REGIME_COUNT] = {
    [QLL_SIZING_TURBULENT] = "turbulent",
    [QLL_SIZING_TRANSITIONAL] = "transitional",
    [QLL_SIZING_LAMINAR] = "laminar",
};

double qll_sizing_unit_flow_m3s(double drop_pa, double density_kg_m3)
{
    double relative_density = density_kg_m3 / QLL_REFERENCE_DENSITY_KG_M3;
    return sqrt(drop_pa / pa_per_bar / relative_density) / seconds_per_hour;
}

/* (d/D)^2, 1 without a reducer. */
static double area_ratio(double valve_bore_m, double pipe_bore_m)
{
    if (isnan(pipe_bore_m)) {
        return 1;
    }
    double ratio = valve_bore_m / pipe_bore_m;
    return ratio * ratio;
}

/* The reducers' loss; NaN if a pipe bore is given without the valve's. */
static qll_sizing_loss loss_of(const qll_sizing_case *given)
{
    assert(given != NULL);
    double in = area_ratio(given->valve_bore_m, given->pipe_in_bore_m);
    double out = area_ratio(given->valve_bore_m, given->pipe_out_bore_m);
    qll_sizing_loss loss = {.inlet = 0.5 * (1 - in) * (1 - in),
                            .outlet = 1.0 * (1 - out) * (1 - out),
                            .inlet_velocity = 1 - in * in,
                            .outlet_velocity = 1 - out * out};
    loss.sum = loss.inlet + loss.outlet + loss.inlet_velocity - loss.outlet_velocity;
    return loss;
}

/* Kv/d^2 with d in mm; 0 if the bore is unknown. */
static double relative_capacity(const qll_sizing_case *given, double kv_m3h)
{
    double bore_mm = given->valve_bore_m * mm_per_m;
    return isnan(bore_mm) ? 0 : kv_m3h / (bore_mm * bore_mm);
}

double qll_sizing_reynolds(const qll_sizing_case *given, double kv_m3h, double flow_m3s)
{
    assert(given != NULL);
    if (flow_m3s == 0) {
        return 0; /* also through a shut valve */
    }
    double nu = given->viscosity_pa_s / given->density_kg_m3;
    double width = kv_m3h * given->fl;
    if (!(nu > 0 && width > 0)) {
        return NAN; /* a flow through nothing, or of no liquid */
    }
    double approach = 1;
    double bore_m = isnan(given->pipe_in_bore_m) ? given->valve_bore_m : given->pipe_in_bore_m;
    if (!isnan(bore_m)) {
        double bore_mm = bore_m * mm_per_m;
        double share = given->fl * kv_m3h / (bore_mm * bore_mm);
        approach = pow(share * share / n2 + 1, 0.25);
    }
    return n4 * given->fd * flow_m3s * seconds_per_hour / (nu * sqrt(width)) * approach;
}

static qll_sizing_regime regime_of(double reynolds)
{
    if (reynolds >= turbulent_from) {
        return QLL_SIZING_TURBULENT;
    }
    return reynolds >= laminar_below ? QLL_SIZING_TRANSITIONAL : QLL_SIZING_LAMINAR;
}

double qll_sizing_fr(const qll_sizing_case *given, double kv_m3h, double reynolds)
{
    assert(given != NULL);
    qll_sizing_regime regime = regime_of(reynolds);
    if (regime == QLL_SIZING_TURBULENT) {
        return 1;
    }
    double c = relative_capacity(given, kv_m3h);
    double n = c / n18 >= full_trim_from ? n2 / (c * c) : 1 + n32 * cbrt(c * c);
    double laminar = 0.026 / given->fl * sqrt(n * reynolds);
    if (regime == QLL_SIZING_LAMINAR) {
        return fmin(laminar, 1);
    }
    double transitional =
        1 + 0.33 * sqrt(given->fl) / sqrt(sqrt(n)) * log10(reynolds / turbulent_from);
    /* Near Rev 10 the formula dips below the laminar value at 10, and for a wide-open valve below 0. */
    double at_laminar = 0.026 / given->fl * sqrt(n * laminar_below);
    return fmin(fmin(fmax(transitional, at_laminar), laminar), 1);
}

/* sum/N2/d^4, so that FP = 1/sqrt(1 + this Kv^2); d in mm. */
static double per_kv_squared(const qll_sizing_case *given, double sum)
{
    if (sum == 0) {
        return 0; /* also where the bore is unknown */
    }
    double one = relative_capacity(given, 1);
    return sum / n2 * one * one;
}

double qll_sizing_series_kv(const qll_sizing_case *given)
{
    assert(given != NULL);
    double rate = per_kv_squared(given, loss_of(given).sum);
    return rate > 0 ? 1 / sqrt(rate) : (double)NAN;
}

static double flp_rate_of(const qll_sizing_case *given, const qll_sizing_loss *loss)
{
    return given->fl * given->fl * per_kv_squared(given, loss->inlet + loss->inlet_velocity);
}

double qll_sizing_recovery(const qll_sizing_case *given, double kv_m3h)
{
    assert(given != NULL);
    qll_sizing_loss loss = loss_of(given);
    double fp_rate = per_kv_squared(given, loss.sum);
    double kv2 = kv_m3h * kv_m3h;
    return given->fl * sqrt((1 + fp_rate * kv2) / (1 + flp_rate_of(given, &loss) * kv2));
}

/* Kv with Kv/sqrt(1 + a Kv^2) = apparent; NaN where the reducers alone take the whole drop. */
static double undo_factor(double apparent, double a)
{
    double left = 1 - a * apparent * apparent;
    return left > 0 ? apparent / sqrt(left) : (double)NAN;
}

/* What does not depend on Kv or flow. */
typedef struct sizing_frame {
    const qll_sizing_case *given;
    double drop_pa;
    double fp_rate, flp_rate; /* FP = 1/sqrt(1 + fp_rate Kv^2); FLP = FL/sqrt(1 + flp_rate Kv^2) */
    double turbulent;         /* for the search on FR: Kv or flow at FR = 1 */
    double flow_m3s, kv_m3h;  /* the one that is given */
    int calls;
} sizing_frame;

static bool frame_make(const qll_sizing_case *given, qll_sizing *sizing, sizing_frame *frame)
{
    double drop_pa = given->inlet_pa - given->outlet_pa;
    if (!(drop_pa > 0 && given->density_kg_m3 > 0 && given->viscosity_pa_s > 0 && given->fl > 0
          && given->fd > 0 && given->vapour_pressure_pa >= 0 && given->critical_pressure_pa > 0)) {
        return false;
    }
    *frame = (sizing_frame){.given = given, .drop_pa = drop_pa};
    sizing->ff = qll_sizing_ff(given->vapour_pressure_pa, given->critical_pressure_pa);
    sizing->loss = loss_of(given);
    frame->fp_rate = per_kv_squared(given, sizing->loss.sum);
    frame->flp_rate = flp_rate_of(given, &sizing->loss);
    return true;
}

/* Factors, choke and Reynolds number at the Kv and flow in @p sizing. */
static void settle(const sizing_frame *frame, qll_sizing *sizing)
{
    const qll_sizing_case *given = frame->given;
    double kv2 = sizing->kv_m3h * sizing->kv_m3h;
    sizing->fp = 1 / sqrt(1 + frame->fp_rate * kv2);
    sizing->flp = given->fl / sqrt(1 + frame->flp_rate * kv2);
    sizing->choked_drop_pa = qll_sizing_choked_drop_pa(given->inlet_pa, sizing->flp / sizing->fp,
                                                       sizing->ff, given->vapour_pressure_pa);
    sizing->choked = frame->drop_pa >= sizing->choked_drop_pa;
    sizing->drop_pa = sizing->choked ? sizing->choked_drop_pa : frame->drop_pa;
    sizing->reynolds = qll_sizing_reynolds(given, sizing->kv_m3h, sizing->flow_m3s);
    sizing->regime = regime_of(sizing->reynolds);
}

static qll_sizing nothing(void)
{
    return (qll_sizing){.kv_m3h = NAN,
                        .flow_m3s = NAN,
                        .ff = NAN,
                        .choked_drop_pa = NAN,
                        .drop_pa = NAN,
                        .fp = NAN,
                        .flp = NAN,
                        .reynolds = NAN,
                        .fr = NAN};
}

/* Below Rev 10 000 the drop counts in full and no reducers are in the formula. */
static double excess_of_kv(double ln_ratio, void *context)
{
    sizing_frame *frame = context;
    double kv = frame->turbulent * exp(ln_ratio);
    double reynolds = qll_sizing_reynolds(frame->given, kv, frame->flow_m3s);
    frame->calls += 1;
    return ln_ratio + log(qll_sizing_fr(frame->given, kv, reynolds));
}

static double excess_of_flow(double ln_ratio, void *context)
{
    sizing_frame *frame = context;
    double flow = frame->turbulent * exp(ln_ratio);
    double reynolds = qll_sizing_reynolds(frame->given, frame->kv_m3h, flow);
    frame->calls += 1;
    return ln_ratio - log(qll_sizing_fr(frame->given, frame->kv_m3h, reynolds));
}

/* Steps in which the logarithm of Kv or flow over its turbulent value is searched, and how many. Small,
 * because in transition two roots can lie close together and the one nearest to turbulent is meant. */
static const double ln_step = 0.02;
static const int step_count_most = 1500;

/* That logarithm, from 0 in the direction of @p step to the nearest root; the residual tells a root
 * from a jump, which n has between full and reduced trim. */
static double search(sizing_frame *frame, double step, qll_function *excess, qll_sizing *sizing)
{
    double near = 0;
    double at_near = excess(near, frame);
    double found = at_near == 0 ? near : (double)NAN;
    for (int i = 1; i <= step_count_most && isnan(found); i++) {
        double far = step * i;
        double at_far = excess(far, frame);
        if (isnan(at_far)) {
            break;
        }
        if ((at_near < 0) != (at_far < 0)) {
            qll_root root = qll_root_find(fmin(near, far), fmax(near, far), 1e-12, excess, frame);
            found = root.converged && fabs(root.residual) <= 1e-9 ? root.value : (double)NAN;
            break;
        }
        near = far;
    }
    sizing->iterations = frame->calls;
    sizing->converged = !isnan(found);
    return found;
}

qll_sizing qll_sizing_kv(const qll_sizing_case *given, double flow_m3s)
{
    assert(given != NULL);
    qll_sizing sizing = nothing();
    sizing_frame frame;
    if (!(flow_m3s >= 0) || !frame_make(given, &sizing, &frame)) {
        return sizing;
    }
    double head_pa =
        qll_sizing_choked_drop_pa(given->inlet_pa, given->fl, sizing.ff, given->vapour_pressure_pa);
    double density = given->density_kg_m3;
    double whole = flow_m3s / qll_sizing_unit_flow_m3s(frame.drop_pa, density);
    /* Not choked: Kv FP = whole. Choked: Kv FLP/FL = Kv at FL. The larger one is needed. */
    double free_kv = undo_factor(whole, frame.fp_rate);
    double choked_kv =
        undo_factor(flow_m3s / qll_sizing_unit_flow_m3s(head_pa, density), frame.flp_rate);
    sizing.flow_m3s = flow_m3s;
    sizing.fr = 1;
    sizing.kv_m3h = isnan(free_kv) || isnan(choked_kv) ? (double)NAN : fmax(free_kv, choked_kv);
    sizing.converged = isfinite(sizing.kv_m3h);
    if (!sizing.converged || flow_m3s == 0) {
        sizing.kv_m3h = sizing.converged ? 0 : (double)NAN;
        settle(&frame, &sizing);
        return sizing;
    }
    settle(&frame, &sizing);
    if (sizing.regime != QLL_SIZING_TURBULENT) {
        frame.turbulent = whole;
        frame.flow_m3s = flow_m3s;
        double ln_ratio = search(&frame, ln_step, excess_of_kv, &sizing);
        sizing.kv_m3h = whole * exp(ln_ratio);
        settle(&frame, &sizing);
        sizing.fr = qll_sizing_fr(given, sizing.kv_m3h, sizing.reynolds);
        sizing.choked = false;
        sizing.drop_pa = frame.drop_pa;
    }
    return sizing;
}

qll_sizing qll_sizing_flow(const qll_sizing_case *given, double kv_m3h)
{
    assert(given != NULL);
    qll_sizing sizing = nothing();
    sizing_frame frame;
    if (!(kv_m3h >= 0) || !isfinite(kv_m3h) || !frame_make(given, &sizing, &frame)) {
        return sizing;
    }
    sizing.kv_m3h = kv_m3h;
    sizing.flow_m3s = 0;
    sizing.fr = 1;
    settle(&frame, &sizing);
    double density = given->density_kg_m3;
    sizing.flow_m3s = kv_m3h * sizing.fp * qll_sizing_unit_flow_m3s(sizing.drop_pa, density);
    sizing.converged = isfinite(sizing.flow_m3s);
    if (kv_m3h == 0 || !sizing.converged) {
        return sizing;
    }
    settle(&frame, &sizing);
    if (sizing.regime != QLL_SIZING_TURBULENT) {
        frame.turbulent = kv_m3h * qll_sizing_unit_flow_m3s(frame.drop_pa, density);
        frame.kv_m3h = kv_m3h;
        double ln_ratio = search(&frame, -ln_step, excess_of_flow, &sizing);
        sizing.flow_m3s = frame.turbulent * exp(ln_ratio);
        settle(&frame, &sizing);
        sizing.fr = qll_sizing_fr(given, kv_m3h, sizing.reynolds);
        sizing.choked = false;
        sizing.drop_pa = frame.drop_pa;
    }
    return sizing;
}
