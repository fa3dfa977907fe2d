/* Equation numbers are those of docs/theory/valve_motion.md. */
#include "dynamics/regulator.h"
#include "physics/sizing.h"

#include <assert.h>
#include <math.h>

static const double pi = 3.14159265358979323846;
static const double passage_loss = 1.5;
/* Drop at which a sheet stands that has no pressures, as for the least stable flow. */
static const double assumed_drop_pa = 3e5;

/* Of the sheet, or what is assumed. */
static double known_or(double known, double assumed)
{
    return known > 0 ? known : assumed;
}

static double sheet_drop_pa(const qll_valve *valve, double falloff_pa)
{
    double drop = valve->sheet_inlet_pa_gauge - valve->sheet_set_pa_gauge;
    return (drop > 0 ? drop : assumed_drop_pa) + falloff_pa;
}

/* What closes at a knot of the law when it rests there: (2) without the spring, at the sheet's drop. */
static double jet_n(const qll_regulator *regulator, const qll_valve *valve, qll_point knot,
                    double unit)
{
    return regulator->jet_root_kg_m3 * unit * knot.y * sheet_drop_pa(valve, knot.x);
}

/* (6); false where the lift does not rise. */
static bool lay_knots(const qll_regulator_of *of, double unit, qll_point *openings,
                      qll_point *falloffs, qll_regulator *regulator)
{
    const qll_curve law = of->law->kv_of_falloff;
    for (size_t i = 0; i < law.count; i++) {
        const qll_point knot = law.points[i];
        double lift = (regulator->outlet_m2 * knot.x - jet_n(regulator, of->valve, knot, unit))
                      / regulator->spring_n_m;
        if (!isfinite(lift) || (i == 0 ? lift != 0 : !(lift > openings[i - 1].x))) {
            return false;
        }
        openings[i] = (qll_point){lift, unit * knot.y};
        falloffs[i] = (qll_point){lift, knot.x};
    }
    regulator->opening = (qll_curve){openings, law.count};
    regulator->falloff = (qll_curve){falloffs, law.count};
    regulator->full_m = openings[law.count - 1].x;
    return true;
}

static void lay_areas(const qll_regulator_of *of, qll_regulator *regulator)
{
    double seat_m = qll_valve_seat_m(of->valve);
    double diaphragm_m =
        known_or(of->valve->diaphragm_m, sqrt(of->motion->of[QLL_MOTION_DIAPHRAGM]) * seat_m);
    double diaphragm = pi * diaphragm_m * diaphragm_m / 4;
    double effect = isnan(of->valve->inlet_effect) ? 0 : of->valve->inlet_effect;
    regulator->outlet_m2 = diaphragm / (1 - effect);
    regulator->inlet_m2 = effect * regulator->outlet_m2;
}

static void lay_mass(const qll_regulator_of *of, qll_regulator *regulator)
{
    const double *motion = of->motion->of;
    double density = of->water->density_kg_m3;
    double diaphragm = regulator->outlet_m2 - regulator->inlet_m2;
    double passage = motion[QLL_MOTION_PASSAGE] * diaphragm;
    double parts = known_or(of->valve->moving_mass_kg,
                            motion[QLL_MOTION_MASS] * density * pow(regulator->outlet_m2, 1.5));
    regulator->mass_kg =
        parts + density * motion[QLL_MOTION_PASSAGE_M] * diaphragm * diaphragm / passage;
    regulator->damping_n_s_m =
        known_or(of->valve->damping_n_s_m,
                 2 * motion[QLL_MOTION_DAMPING] * sqrt(regulator->spring_n_m * regulator->mass_kg));
    regulator->passage_n_s2_m2 =
        passage_loss * density / 2 * diaphragm * diaphragm * diaphragm / (passage * passage);
}

static void lay_friction(const qll_regulator_of *of, qll_regulator *regulator)
{
    const double *motion = of->motion->of;
    bool is_said = (of->valve->defaulted & (1u << QLL_VALVE_HYSTERESIS)) == 0
                   && !isnan(of->valve->hysteresis_pa);
    double half_pa = is_said ? of->valve->hysteresis_pa / 2 : motion[QLL_MOTION_FRICTION_PA];
    regulator->friction_n = half_pa * regulator->outlet_m2;
    regulator->dead_pa = half_pa;
    regulator->breakaway = motion[QLL_MOTION_BREAKAWAY];
    regulator->seat_n_m =
        regulator->outlet_m2 * of->valve->lockup_rise_pa / motion[QLL_MOTION_SEAT_M];
    regulator->seat_loss_s_m = motion[QLL_MOTION_SEAT_LOSS_S_M];
}

static bool is_over_0(double value)
{
    return value > 0 && isfinite(value);
}

static bool is_motion(const qll_motion *motion)
{
    for (int i = 0; i < QLL_MOTION_COUNT; i++) {
        bool has_sign = i == QLL_MOTION_JET || i == QLL_MOTION_FRICTION_PA;
        if (!isfinite(motion->of[i]) || (!has_sign && !(motion->of[i] > 0))) {
            return false;
        }
    }
    return true;
}

static bool is_sound(const qll_regulator *regulator)
{
    return is_over_0(regulator->outlet_m2) && isfinite(regulator->inlet_m2)
           && regulator->inlet_m2 < regulator->outlet_m2 && is_over_0(regulator->mass_kg)
           && is_over_0(regulator->spring_n_m) && is_over_0(regulator->damping_n_s_m)
           && regulator->friction_n >= 0 && isfinite(regulator->friction_n)
           && regulator->breakaway >= 1 && isfinite(regulator->breakaway)
           && is_over_0(regulator->seat_n_m) && regulator->seat_loss_s_m >= 0
           && isfinite(regulator->passage_n_s2_m2) && isfinite(regulator->set_pa)
           && isfinite(regulator->set_inlet_pa) && is_over_0(regulator->choke_share)
           && is_over_0(regulator->stroke_s) && is_over_0(regulator->pilot_pa)
           && is_over_0(regulator->lag_s);
}

qll_status qll_regulator_make(const qll_regulator_of *of, qll_arena *arena,
                              qll_regulator *regulator)
{
    assert(of != NULL && of->valve != NULL && of->law != NULL && of->motion != NULL
           && of->water != NULL && arena != NULL && regulator != NULL);
    /* A valve whose outlet followed its inlet whole would have no area to weigh it with. */
    if (!is_motion(of->motion) || of->valve->inlet_effect >= 1) {
        return QLL_REFUSED;
    }
    const qll_valve *valve = of->valve;
    const double *motion = of->motion->of;
    const qll_curve law = of->law->kv_of_falloff;
    const qll_point full = law.points[law.count - 1];
    double unit = qll_sizing_unit_flow_m3s(1, of->water->density_kg_m3);
    *regulator = (qll_regulator){
        .acting = valve->acting,
        .set_pa = of->set_pa,
        .set_inlet_pa = of->set_inlet_pa,
        .choke_share = valve->fl * valve->fl,
        .choke_below_pa = qll_valve_ff(of->water) * of->water->vapour_pressure_pa,
        .jet_root_kg_m3 = motion[QLL_MOTION_JET] * sqrt(2 * of->water->density_kg_m3),
        .stroke_s = known_or(valve->stroke_s, motion[QLL_MOTION_STROKE_S]),
        .pilot_pa = motion[QLL_MOTION_PILOT_PA],
        .lag_s = motion[QLL_MOTION_LAG_S],
    };
    lay_areas(of, regulator);
    double travel_m = motion[QLL_MOTION_TRAVEL] * qll_valve_seat_m(valve);
    regulator->spring_n_m =
        known_or(valve->spring_n_m,
                 (regulator->outlet_m2 * full.x - jet_n(regulator, valve, full, unit)) / travel_m);
    lay_mass(of, regulator);
    lay_friction(of, regulator);
    if (!is_sound(regulator)) {
        return QLL_REFUSED;
    }
    qll_point *openings = qll_arena_take(arena, law.count, sizeof *openings);
    qll_point *falloffs = qll_arena_take(arena, law.count, sizeof *falloffs);
    if (openings == NULL || falloffs == NULL) {
        return QLL_NO_MEMORY;
    }
    return lay_knots(of, unit, openings, falloffs, regulator) ? QLL_OK : QLL_REFUSED;
}
