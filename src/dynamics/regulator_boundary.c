/* Equation numbers are those of docs/theory/valve_motion.md. */
#include "dynamics/regulator_boundary.h"

#include <math.h>

/* Of the time of a radian of the valve's own swing: a step's error of phase is a thousandth of that. */
static const double step_share = 0.1;
/* Of the lag of the sensing line; the longest step of a pilot valve. */
static const double lag_share = 0.25, pilot_step_most_s = 0.02;
static const int newton_most = 100;
static const double newton_rounding = 1e-13;

qll_regulator_boundary qll_regulator_boundary_of(const qll_regulator *regulator,
                                                 double barometric_pa)
{
    return (qll_regulator_boundary){.regulator = regulator, .barometric_pa = barometric_pa};
}

/* Where the valve stands at the end of a step, and how that hangs on the pressures there. */
typedef struct standing {
    qll_regulator_place place;
    qll_regulator_mode mode;
    double lift_by[2], second_by[2]; /* inlet, outlet */
} standing;

static double own_step_s(const qll_regulator *r)
{
    return step_share * sqrt(r->mass_kg / r->spring_n_m);
}

static double longest_step_s(const void *state)
{
    const qll_regulator *r = ((const qll_regulator_boundary *)state)->regulator;
    return r->acting == QLL_ACTING_PILOT ? fmin(lag_share * r->lag_s, pilot_step_most_s)
                                         : own_step_s(r);
}

/* Everything that is being tried. */
typedef struct trial {
    const qll_regulator_boundary *state;
    double step_s, weight; /* of the end of the step */
    double inlet_pa, outlet_pa;
    double friction_n; /* against what the residual is solved */
} trial;

static qll_regulator_place place_at(const trial *t, double lift_m, double second)
{
    return (qll_regulator_place){lift_m, second, t->inlet_pa, t->outlet_pa};
}

/* (19): what is left of the balance of forces for a speed at the end; rises with it. */
static double direct_residual(const trial *t, double speed, double *slope)
{
    const qll_regulator *r = t->state->regulator;
    double before = t->state->second;
    double lift_m = t->state->lift_m + t->step_s * (t->weight * speed + (1 - t->weight) * before);
    const qll_regulator_place place = place_at(t, lift_m, speed);
    const qll_regulator_mode mode = {qll_regulator_region(r, lift_m), QLL_DRIVE_FREE};
    const qll_regulator_slopes by = qll_regulator_slopes_at(r, mode, &place);
    *slope =
        r->mass_kg
        * (1 / t->step_s
           - t->weight
                 * (by.rate[1][QLL_BY_SECOND] + t->step_s * t->weight * by.rate[1][QLL_BY_LIFT]));
    double force = r->mass_kg * qll_regulator_at(r, mode, &place).rate[1];
    return r->mass_kg * (speed - before) / t->step_s - t->weight * force
           - (1 - t->weight) * t->state->force_n + t->friction_n;
}

/* (21): likewise of a pilot valve, for a lift at the end. */
static double pilot_residual(const trial *t, double lift_m, double *slope)
{
    const qll_regulator *r = t->state->regulator;
    double share = t->step_s / r->lag_s;
    double felt_pa = (t->state->second + share * t->outlet_pa) / (1 + share);
    const qll_regulator_place place = place_at(t, lift_m, felt_pa);
    const qll_regulator_mode mode = {qll_regulator_region(r, lift_m), QLL_DRIVE_FREE};
    *slope = 1 - t->step_s * qll_regulator_slopes_at(r, mode, &place).rate[0][QLL_BY_LIFT];
    return lift_m - t->state->lift_m - t->step_s * qll_regulator_at(r, mode, &place).rate[0];
}

/* The zero of a rising residual: Newton's method, between the ends that it has shown. */
static double solve(const trial *t, double guess,
                    double (*residual)(const trial *, double, double *))
{
    double low = -INFINITY, high = INFINITY, at = guess;
    for (int i = 0; i < newton_most; i++) {
        double slope;
        double left = residual(t, at, &slope);
        if (left > 0) {
            high = at;
        } else {
            low = at;
        }
        double next = at - left / slope;
        if (!(next > low && next < high)) {
            next = isfinite(low) && isfinite(high) ? low + (high - low) / 2 : next;
        }
        double moved = fabs(next - at);
        at = next;
        if (moved <= newton_rounding * (fabs(at) + newton_rounding)) {
            break;
        }
    }
    return at;
}

/* (20) and its slopes with the pressures. */
static standing direct_end(trial *t)
{
    const qll_regulator *r = t->state->regulator;
    double slope;
    t->friction_n = 0;
    double pushed = -direct_residual(t, 0, &slope); /* that moves it off from rest */
    double holds = r->friction_n * (t->state->second == 0 ? r->breakaway : 1);
    bool is_held = r->friction_n > 0 && fabs(pushed) <= holds;
    double speed = 0;
    if (!is_held) {
        /* The whole of what held it: with less, the lift would jump where the pressures just free it, and no
         * pressure of the joints might be the step's end. */
        t->friction_n = pushed > 0 ? holds : -holds;
        speed = solve(t, t->state->second, direct_residual);
    }
    double lift_m =
        t->state->lift_m + t->step_s * (t->weight * speed + (1 - t->weight) * t->state->second);
    standing s = {.place = place_at(t, lift_m, speed),
                  .mode = {qll_regulator_region(r, lift_m), QLL_DRIVE_FREE}};
    if (!is_held) {
        (void)direct_residual(t, speed, &slope);
        const qll_regulator_slopes by = qll_regulator_slopes_at(r, s.mode, &s.place);
        for (int port = 0; port < 2; port++) {
            double force_by = r->mass_kg * by.rate[1][port == 0 ? QLL_BY_INLET : QLL_BY_OUTLET];
            s.second_by[port] = t->weight * force_by / slope;
            s.lift_by[port] = t->step_s * t->weight * s.second_by[port];
        }
    }
    return s;
}

static standing pilot_end(trial *t)
{
    const qll_regulator *r = t->state->regulator;
    double share = t->step_s / r->lag_s;
    double felt_pa = (t->state->second + share * t->outlet_pa) / (1 + share);
    double lift_m = solve(t, t->state->lift_m, pilot_residual);
    bool at_stop = lift_m <= 0 || lift_m >= r->full_m;
    lift_m = fmin(fmax(lift_m, 0), r->full_m);
    standing s = {.place = place_at(t, lift_m, felt_pa),
                  .mode = {qll_regulator_region(r, lift_m), QLL_DRIVE_FREE}};
    s.second_by[1] = share / (1 + share);
    if (!at_stop) {
        double slope;
        (void)pilot_residual(t, lift_m, &slope);
        const qll_regulator_slopes by = qll_regulator_slopes_at(r, s.mode, &s.place);
        s.lift_by[0] = t->step_s * by.rate[0][QLL_BY_INLET] / slope;
        s.lift_by[1] = t->step_s * by.rate[0][QLL_BY_SECOND] * s.second_by[1] / slope;
    }
    return s;
}

static standing rest_end(const trial *t)
{
    const qll_regulator *r = t->state->regulator;
    bool pilot = r->acting == QLL_ACTING_PILOT;
    double lift_m = qll_regulator_rest_m(r, t->inlet_pa, t->outlet_pa);
    standing s = {.place = place_at(t, lift_m, pilot ? t->outlet_pa : 0),
                  .mode = {qll_regulator_region(r, lift_m), QLL_DRIVE_FREE}};
    /* The plug's balance, over its stiffness; a pilot valve rests where the fall-off does. */
    double small_pa = 1;
    double more[2] = {qll_regulator_rest_m(r, t->inlet_pa + small_pa, t->outlet_pa),
                      qll_regulator_rest_m(r, t->inlet_pa, t->outlet_pa + small_pa)};
    s.lift_by[0] = (more[0] - lift_m) / small_pa;
    s.lift_by[1] = (more[1] - lift_m) / small_pa;
    return s;
}

static standing end_of(const qll_regulator_boundary *state, const qll_instant *now,
                       const double *pressure_pa_gauge, double *weight)
{
    const qll_regulator *r = state->regulator;
    bool pilot = r->acting == QLL_ACTING_PILOT;
    /* Middle of both ends while it is followed; the end alone where it is not. */
    *weight = now->step_s <= 2 * own_step_s(r) ? 0.5 : 1;
    trial t = {.state = state,
               .step_s = now->step_s,
               .weight = *weight,
               .inlet_pa = pressure_pa_gauge[0] + state->barometric_pa,
               .outlet_pa = pressure_pa_gauge[1] + state->barometric_pa};
    if (isinf(now->step_s)) {
        return rest_end(&t);
    }
    return pilot ? pilot_end(&t) : direct_end(&t);
}

static void through(const void *state, const qll_instant *now, const double *pressure_pa_gauge,
                    qll_through *answer)
{
    const qll_regulator_boundary *b = state;
    const qll_regulator *r = b->regulator;
    double weight;
    const standing s = end_of(b, now, pressure_pa_gauge, &weight);
    const qll_regulator_moves moves = qll_regulator_at(r, s.mode, &s.place);
    const qll_regulator_slopes by = qll_regulator_slopes_at(r, s.mode, &s.place);
    answer->flow_m3s[0] = moves.from_inlet_m3s;
    answer->flow_m3s[1] = -moves.to_outlet_m3s;
    for (int port = 0; port < 2; port++) {
        int pressure = port == 0 ? QLL_BY_INLET : QLL_BY_OUTLET;
        double in = by.from_inlet[pressure] + by.from_inlet[QLL_BY_LIFT] * s.lift_by[port]
                    + by.from_inlet[QLL_BY_SECOND] * s.second_by[port];
        double out = by.to_outlet[pressure] + by.to_outlet[QLL_BY_LIFT] * s.lift_by[port]
                     + by.to_outlet[QLL_BY_SECOND] * s.second_by[port];
        answer->slope[0][port] = port == 0 ? fmax(in, 0) : fmin(in, 0);
        answer->slope[1][port] = port == 0 ? fmin(-out, 0) : fmax(-out, 0);
    }
}

static void accept(void *state, const qll_instant *now, const double *pressure_pa_gauge)
{
    qll_regulator_boundary *b = state;
    const qll_regulator *r = b->regulator;
    double weight;
    const standing s = end_of(b, now, pressure_pa_gauge, &weight);
    if (b->lift_m >= 0 && s.place.lift_m < 0 && !isinf(now->step_s)) {
        b->blow_m_s = fmax(b->blow_m_s, -s.place.second);
    }
    b->lift_m = s.place.lift_m;
    b->second = s.place.second;
    b->through_m3s = qll_regulator_flow_m3s(r, s.mode.region, &s.place);
    b->force_n = r->acting == QLL_ACTING_PILOT
                     ? 0
                     : r->mass_kg * qll_regulator_at(r, s.mode, &s.place).rate[1];
}

const qll_boundary_kind qll_regulator_boundary_kind = {
    .port_count = 2,
    .through = through,
    .accept = accept,
    .longest_step_s = longest_step_s,
};
