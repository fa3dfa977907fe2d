/* Equation numbers are those of docs/theory/valve_motion.md. */
#include "dynamics/regulator.h"

#include <assert.h>
#include <math.h>

/* Below it a drop no longer counts by its root. */
static const double smooth_pa = 10;

double qll_smooth_root(double drop_pa)
{
    return drop_pa / sqrt(sqrt(drop_pa * drop_pa + smooth_pa * smooth_pa));
}

double qll_smooth_root_slope(double drop_pa)
{
    double square = drop_pa * drop_pa + smooth_pa * smooth_pa;
    return (1 - drop_pa * drop_pa / (2 * square)) / sqrt(sqrt(square));
}

/* The drop that counts, and its slopes with inlet and outlet. */
typedef struct drop {
    double pa, by_inlet, by_outlet;
} drop;

static drop drop_at(const qll_regulator *regulator, const qll_regulator_place *place)
{
    double plain = place->inlet_pa - place->outlet_pa;
    double most = regulator->choke_share * (place->inlet_pa - regulator->choke_below_pa);
    if (plain > 0 && plain > most) {
        return (drop){fmax(most, 0), most > 0 ? regulator->choke_share : 0, 0};
    }
    return (drop){plain, 1, -1};
}

/* Flow per root of the drop in a region, and its slope with the lift. */
typedef struct opening {
    double at, slope;
} opening;

static opening opening_at(const qll_curve *curve, size_t region, double lift_m)
{
    if (region == 0) {
        return (opening){0, 0};
    }
    if (region >= curve->count) {
        return (opening){curve->points[curve->count - 1].y, 0};
    }
    const qll_point *from = &curve->points[region - 1];
    double slope = (from[1].y - from[0].y) / (from[1].x - from[0].x);
    return (opening){from->y + slope * (lift_m - from->x), slope};
}

/* How deep the plug is in its seat or stop, m, over 0; -1 or 1 for the way that opens or closes. */
typedef struct contact {
    double depth_m;
    double sign; /* +1: pushes open */
} contact;

static contact contact_at(const qll_regulator *regulator, size_t region, double lift_m)
{
    if (region == 0) {
        return (contact){-lift_m, 1};
    }
    if (region >= regulator->opening.count) {
        return (contact){lift_m - regulator->full_m, -1};
    }
    return (contact){0, 0};
}

/* (7): what the seat pushes back with over depth; 0 where it would pull. Depth is not held at 0, so
 * that a region is smooth beyond its ends too. */
static double contact_factor(const qll_regulator *regulator, contact c, double speed_m_s)
{
    double factor = 1 - regulator->seat_loss_s_m * c.sign * speed_m_s;
    return c.sign != 0 && factor > 0 ? factor : 0;
}

static double pilot_lack_pa(const qll_regulator *regulator, size_t region,
                            const qll_regulator_place *place)
{
    double set_pa =
        regulator->set_pa
        + regulator->inlet_m2 / regulator->outlet_m2 * (place->inlet_pa - regulator->set_inlet_pa);
    return set_pa - place->second - opening_at(&regulator->falloff, region, place->lift_m).at;
}

/* Force on the plug at a speed, but for damping, passage and friction. */
static double force_n(const qll_regulator *regulator, size_t region,
                      const qll_regulator_place *place, double speed_m_s)
{
    contact c = contact_at(regulator, region, place->lift_m);
    double closing = regulator->spring_n_m * place->lift_m
                     + regulator->jet_root_kg_m3
                           * opening_at(&regulator->opening, region, place->lift_m).at
                           * drop_at(regulator, place).pa;
    return regulator->outlet_m2 * (regulator->set_pa - place->outlet_pa)
           + regulator->inlet_m2 * (place->inlet_pa - regulator->set_inlet_pa) - closing
           + c.sign * regulator->seat_n_m * c.depth_m * contact_factor(regulator, c, speed_m_s);
}

double qll_regulator_push(const qll_regulator *regulator, size_t region,
                          const qll_regulator_place *place)
{
    return regulator->acting == QLL_ACTING_PILOT ? pilot_lack_pa(regulator, region, place)
                                                 : force_n(regulator, region, place, 0);
}

/* (9): what the pilot makes of its lack, from -1 to 1, and the slope. */
static double pilot_drive(const qll_regulator *regulator, double lack_pa, double *slope)
{
    double beyond = fabs(lack_pa) - regulator->dead_pa;
    *slope = 0;
    if (beyond < 0) {
        return 0;
    }
    if (beyond >= regulator->pilot_pa) {
        return lack_pa > 0 ? 1 : -1;
    }
    *slope = 1 / regulator->pilot_pa;
    return (lack_pa > 0 ? beyond : -beyond) / regulator->pilot_pa;
}

double qll_regulator_flow_m3s(const qll_regulator *regulator, size_t region,
                              const qll_regulator_place *place)
{
    return opening_at(&regulator->opening, region, place->lift_m).at
           * qll_smooth_root(drop_at(regulator, place).pa);
}

qll_regulator_moves qll_regulator_at(const qll_regulator *regulator, qll_regulator_mode mode,
                                     const qll_regulator_place *place)
{
    double flow = qll_regulator_flow_m3s(regulator, mode.region, place);
    if (regulator->acting == QLL_ACTING_PILOT) {
        double unused;
        double drive =
            mode.drive == QLL_DRIVE_HELD
                ? 0
                : pilot_drive(regulator, pilot_lack_pa(regulator, mode.region, place), &unused);
        return (qll_regulator_moves){
            .rate = {regulator->full_m / regulator->stroke_s * drive,
                     (place->outlet_pa - place->second) / regulator->lag_s},
            .from_inlet_m3s = flow,
            .to_outlet_m3s = flow};
    }
    if (mode.drive == QLL_DRIVE_HELD) {
        return (qll_regulator_moves){.from_inlet_m3s = flow, .to_outlet_m3s = flow};
    }
    double v = place->second;
    double friction = mode.drive == QLL_DRIVE_UP     ? regulator->friction_n
                      : mode.drive == QLL_DRIVE_DOWN ? -regulator->friction_n
                                                     : 0;
    double force = force_n(regulator, mode.region, place, v) - regulator->damping_n_s_m * v
                   - regulator->passage_n_s2_m2 * v * fabs(v) - friction;
    return (qll_regulator_moves){.rate = {v, force / regulator->mass_kg},
                                 .from_inlet_m3s = flow + regulator->inlet_m2 * v,
                                 .to_outlet_m3s = flow + regulator->outlet_m2 * v};
}

static void flow_slopes(const qll_regulator *regulator, size_t region,
                        const qll_regulator_place *place, double *by)
{
    opening o = opening_at(&regulator->opening, region, place->lift_m);
    drop d = drop_at(regulator, place);
    double conductance = o.at * qll_smooth_root_slope(d.pa);
    by[QLL_BY_LIFT] = o.slope * qll_smooth_root(d.pa);
    by[QLL_BY_SECOND] = 0;
    by[QLL_BY_INLET] = conductance * d.by_inlet;
    by[QLL_BY_OUTLET] = conductance * d.by_outlet;
}

static void pilot_slopes(const qll_regulator *regulator, qll_regulator_mode mode,
                         const qll_regulator_place *place, qll_regulator_slopes *s)
{
    double slope = 0;
    if (mode.drive != QLL_DRIVE_HELD) {
        (void)pilot_drive(regulator, pilot_lack_pa(regulator, mode.region, place), &slope);
    }
    double speed = regulator->full_m / regulator->stroke_s * slope;
    s->rate[0][QLL_BY_LIFT] =
        -speed * opening_at(&regulator->falloff, mode.region, place->lift_m).slope;
    s->rate[0][QLL_BY_SECOND] = -speed;
    s->rate[0][QLL_BY_INLET] = speed * regulator->inlet_m2 / regulator->outlet_m2;
    s->rate[1][QLL_BY_SECOND] = -1 / regulator->lag_s;
    s->rate[1][QLL_BY_OUTLET] = 1 / regulator->lag_s;
}

static void force_slopes(const qll_regulator *regulator, size_t region,
                         const qll_regulator_place *place, double *by)
{
    contact c = contact_at(regulator, region, place->lift_m);
    double factor = contact_factor(regulator, c, place->second);
    opening o = opening_at(&regulator->opening, region, place->lift_m);
    drop d = drop_at(regulator, place);
    double jet = regulator->jet_root_kg_m3 * o.at;
    by[QLL_BY_LIFT] = -regulator->spring_n_m - regulator->jet_root_kg_m3 * o.slope * d.pa
                      - regulator->seat_n_m * factor * fabs(c.sign);
    by[QLL_BY_SECOND] =
        -regulator->damping_n_s_m - 2 * regulator->passage_n_s2_m2 * fabs(place->second)
        - (factor > 0 ? regulator->seat_n_m * c.depth_m * regulator->seat_loss_s_m : 0);
    by[QLL_BY_INLET] = regulator->inlet_m2 - jet * d.by_inlet;
    by[QLL_BY_OUTLET] = -regulator->outlet_m2 - jet * d.by_outlet;
}

qll_regulator_slopes qll_regulator_slopes_at(const qll_regulator *regulator,
                                             qll_regulator_mode mode,
                                             const qll_regulator_place *place)
{
    qll_regulator_slopes s = {0};
    flow_slopes(regulator, mode.region, place, s.from_inlet);
    flow_slopes(regulator, mode.region, place, s.to_outlet);
    if (regulator->acting == QLL_ACTING_PILOT) {
        pilot_slopes(regulator, mode, place, &s);
        return s;
    }
    if (mode.drive == QLL_DRIVE_HELD) {
        return s;
    }
    s.rate[0][QLL_BY_SECOND] = 1;
    force_slopes(regulator, mode.region, place, s.rate[1]);
    for (int i = 0; i < QLL_BY_COUNT; i++) {
        s.rate[1][i] /= regulator->mass_kg;
    }
    s.from_inlet[QLL_BY_SECOND] += regulator->inlet_m2;
    s.to_outlet[QLL_BY_SECOND] += regulator->outlet_m2;
    return s;
}

size_t qll_regulator_region(const qll_regulator *regulator, double lift_m)
{
    if (lift_m < 0) {
        return 0;
    }
    return lift_m >= regulator->full_m ? regulator->opening.count
                                       : qll_curve_segment(regulator->opening, lift_m) + 1;
}

double qll_regulator_region_from(const qll_regulator *regulator, size_t region)
{
    return region == 0 ? (double)-INFINITY : regulator->opening.points[region - 1].x;
}

double qll_regulator_region_to(const qll_regulator *regulator, size_t region)
{
    return region >= regulator->opening.count ? (double)INFINITY
                                              : regulator->opening.points[region].x;
}

static double pilot_rest_m(const qll_regulator *regulator, const qll_regulator_place *place)
{
    double lack_pa = pilot_lack_pa(regulator, 0, place); /* in the seat no fall-off is taken off */
    if (lack_pa <= 0) {
        return 0;
    }
    double lift_m = qll_curve_inverse(regulator->falloff, lack_pa);
    return isnan(lift_m) ? regulator->full_m : lift_m;
}

double qll_regulator_rest_m(const qll_regulator *regulator, double inlet_pa, double outlet_pa)
{
    qll_regulator_place place = {.second = outlet_pa, .inlet_pa = inlet_pa, .outlet_pa = outlet_pa};
    if (regulator->acting == QLL_ACTING_PILOT) {
        return pilot_rest_m(regulator, &place);
    }
    /* The push falls with the lift and is straight from knot to knot. */
    double before = force_n(regulator, 1, &place, 0);
    if (before <= 0) {
        return before / (regulator->spring_n_m + regulator->seat_n_m);
    }
    for (size_t i = 1; i < regulator->opening.count; i++) {
        place.lift_m = regulator->opening.points[i].x;
        double push = force_n(regulator, i, &place, 0);
        if (push <= 0) {
            double from = regulator->opening.points[i - 1].x;
            return from + (place.lift_m - from) * before / (before - push);
        }
        before = push;
    }
    return regulator->full_m + before / (regulator->spring_n_m + regulator->seat_n_m);
}
