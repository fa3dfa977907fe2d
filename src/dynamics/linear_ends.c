/* Equation numbers are those of docs/theory/valve_motion.md. */
#include "dynamics/linear.h"
#include "numeric/complex.h"

#include <assert.h>

typedef double complex number;

static const double two_pi = 6.28318530717958647692;
/* Far above what a valve can follow, over its own frequency; and the finest step of the turn. */
static const double highest_over_own = 50;
static const double own_share = 0.02, wave_share = 0.02, least_wave_share = 0.01;
static const double small_turn = 0.5; /* rad */
static const int halvings_most = 16;
static const int newton_most = 25;
/* Powers of ten, over the valve's own frequency, between which roots are looked for beside the least |D|. */
static const int seeds = 24;
static const double seed_from = -2, seed_to = 0.7, seed_aside = 0.15;

/* The valve at rest, linear. */
typedef struct small_valve {
    double mass, damping, stiffness;
    double outlet, inlet; /* areas that displace */
    double jet;           /* taken from either where the pressure pushes */
    double conductance, gain;
} small_valve;

static number beside(number impedance, number s, double held)
{
    return qll_complex_over(impedance, 1 + s * held * impedance);
}

static number wave(const qll_pipe_end *end, number s)
{
    return (1 - end->loss) * cexp(-s * end->travel_s);
}

/* (17) */
static number inlet_impedance(const qll_pipe_end *end, number s)
{
    number e = wave(end, s);
    return beside(end->impedance_pa_s_m3 * qll_complex_over(1 - e, 1 + e), s, end->here_m3_pa);
}

static number outlet_impedance(const qll_pipe_end *end, number s)
{
    number e = wave(end, s);
    number y = end->impedance_pa_s_m3 * (end->taps_m3s_pa + s * end->far_m3_pa);
    number r = qll_complex_over(1 - y, 1 + y);
    return beside(end->impedance_pa_s_m3 * qll_complex_over(1 + r * e, 1 - r * e), s,
                  end->here_m3_pa);
}

static number own_motion(const small_valve *v, number s)
{
    return v->mass * s * s + v->damping * s + v->stiffness;
}

/* (16) over the valve's own motion (18). */
static number characteristic(const qll_end_case *given, const small_valve *v, number s)
{
    number zu = inlet_impedance(&given->inlet, s);
    number zd = outlet_impedance(&given->outlet, s);
    double push_out = v->outlet - v->jet;
    double push_in = v->inlet - v->jet;
    number motion = own_motion(v, s) + push_out * v->outlet * s * zd + push_in * v->inlet * s * zu;
    number through = 1 + v->conductance * (zu + zd);
    number across = push_out * zd + push_in * zu;
    number back = v->conductance * s * (v->inlet * zu + v->outlet * zd) - v->gain;
    return qll_complex_over(motion * through - across * back, own_motion(v, s));
}

static bool is_end(const qll_pipe_end *end)
{
    return end->impedance_pa_s_m3 >= 0 && isfinite(end->impedance_pa_s_m3) && end->travel_s >= 0
           && isfinite(end->travel_s) && end->loss >= 0 && end->loss < 1
           && (end->loss > 0 || end->travel_s == 0) && end->here_m3_pa >= 0
           && isfinite(end->here_m3_pa) && end->far_m3_pa >= 0 && isfinite(end->far_m3_pa)
           && end->taps_m3s_pa >= 0 && isfinite(end->taps_m3s_pa);
}

/* False where the valve is shut or has no motion of its own. */
static bool linearize(const qll_end_case *given, small_valve *v)
{
    const qll_regulator *r = given->valve;
    if (r->acting != QLL_ACTING_DIRECT || !is_end(&given->inlet) || !is_end(&given->outlet)
        || !(given->inlet_pa > given->outlet_pa)) {
        return false;
    }
    double lift_m = qll_regulator_rest_m(r, given->inlet_pa, given->outlet_pa);
    qll_regulator_place place = {
        .lift_m = lift_m, .inlet_pa = given->inlet_pa, .outlet_pa = given->outlet_pa};
    qll_regulator_mode mode = {qll_regulator_region(r, lift_m), QLL_DRIVE_FREE};
    if (mode.region == 0) {
        return false;
    }
    qll_regulator_slopes s = qll_regulator_slopes_at(r, mode, &place);
    *v = (small_valve){.mass = r->mass_kg,
                       .damping = -s.rate[1][QLL_BY_SECOND] * r->mass_kg,
                       .stiffness = -s.rate[1][QLL_BY_LIFT] * r->mass_kg,
                       .outlet = r->outlet_m2,
                       .inlet = r->inlet_m2,
                       .jet = r->outlet_m2 + s.rate[1][QLL_BY_OUTLET] * r->mass_kg,
                       .conductance = s.from_inlet[QLL_BY_INLET],
                       .gain = s.from_inlet[QLL_BY_LIFT]};
    return v->stiffness > 0 && v->damping > 0;
}

/* Newton's method with slopes by differences; NaN where it does not arrive. */
static number root_near(const qll_end_case *given, const small_valve *v, number s)
{
    for (int i = 0; i < newton_most; i++) {
        double small = 1e-6 * (cabs(s) + 1e-3);
        number here = characteristic(given, v, s);
        number slope = (characteristic(given, v, s + small) - characteristic(given, v, s - small))
                       / (2 * small);
        number move = qll_complex_over(here, slope);
        double most = 0.1 * cabs(s) + 1;
        move = cabs(move) > most ? move * (most / cabs(move)) : move;
        s -= move;
        if (!isfinite(creal(s)) || !isfinite(cimag(s))) {
            break;
        }
        if (cabs(move) <= 1e-10 * cabs(s)) {
            return s;
        }
    }
    return (double)NAN;
}

static void look_at(const qll_end_case *given, const small_valve *v, number from,
                    qll_linear *linear)
{
    number root = root_near(given, v, from);
    double size = cabs(root);
    if (!(size > 0)) {
        return;
    }
    linear->margin = fmin(linear->margin, -creal(root) / size);
    if (creal(root) > 0) {
        linear->grows_within_s = fmin(linear->grows_within_s, 1 / size);
    }
    if (creal(root) > linear->growth_per_s) {
        linear->growth_per_s = creal(root);
        linear->frequency_hz = fabs(cimag(root)) / two_pi;
    }
}

/* How far the next place on the axis may be: a pole and a root beside each other are not stepped over,
 * so no further than either is wide, around the valve's own frequency and where waves ring. */
static double step_at(const small_valve *v, double own, double omega, double travel_s, double loss)
{
    double step = own_share * fmax(own, omega);
    if (omega > 0.8 * own && omega < 1.25 * own) {
        step = fmin(step, 0.2 * v->damping / v->mass);
    }
    double ringing = fmin(fmax(0.5 * loss, least_wave_share), wave_share * two_pi);
    return travel_s > 0 ? fmin(step, ringing / travel_s) : step;
}

/* From places spread over the axis and to both sides of it. */
static void look_around(const qll_end_case *given, const small_valve *v, double own,
                        qll_linear *linear)
{
    for (int i = 0; i < seeds; i++) {
        double omega = own * pow(10, seed_from + (seed_to - seed_from) * i / (seeds - 1));
        for (int side = -1; side <= 1; side++) {
            look_at(given, v, qll_complex_of(side * seed_aside * omega, omega), linear);
        }
    }
}

/* Turn of the argument from one place on the axis to the next, halved until no part of it is large. */
static double turn_between(const qll_end_case *given, const small_valve *v, double from,
                           number at_from, double to, number at_to, int halvings)
{
    double turn = carg(qll_complex_over(at_to, at_from));
    if (halvings == 0 || fabs(turn) < small_turn) {
        return turn;
    }
    double middle = from + (to - from) / 2;
    number at_middle = characteristic(given, v, qll_complex_of(0, middle));
    return turn_between(given, v, from, at_from, middle, at_middle, halvings - 1)
           + turn_between(given, v, middle, at_middle, to, at_to, halvings - 1);
}

qll_status qll_end_linear(const qll_end_case *given, qll_linear *linear, unsigned *growing)
{
    assert(given != NULL && given->valve != NULL && linear != NULL);
    small_valve v;
    if (!linearize(given, &v)) {
        return QLL_REFUSED;
    }
    double own = sqrt(v.stiffness / v.mass);
    double travel = fmax(given->inlet.travel_s, given->outlet.travel_s);
    double loss = fmin(given->inlet.loss, given->outlet.loss);
    double step = step_at(&v, own, 0, travel, loss);
    double highest = highest_over_own * own;
    *linear =
        (qll_linear){.margin = 1, .growth_per_s = (double)-INFINITY, .grows_within_s = INFINITY};
    double turn = 0;
    double size_before = INFINITY, size_here = INFINITY;
    number before = characteristic(given, &v, 0);
    double from = 0;
    while (from < highest) {
        double omega = from + step;
        number here = characteristic(given, &v, qll_complex_of(0, omega));
        turn += turn_between(given, &v, from, before, omega, here, halvings_most);
        double size = cabs(here);
        if (size_here <= size_before && size_here < size && from < 5 * own) {
            look_at(given, &v, qll_complex_of(0, from), linear);
        }
        size_before = size_here;
        size_here = size;
        before = here;
        from = omega;
        step = step_at(&v, own, omega, travel, loss);
    }
    look_around(given, &v, own, linear);
    if (growing != NULL) {
        /* They come in pairs, since nothing runs off without swinging while the spring holds. */
        double pairs = -turn / two_pi;
        *growing = pairs > 0.5 ? 2 * (unsigned)lrint(pairs) : 0;
    }
    return QLL_OK;
}
