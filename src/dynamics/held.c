/* Equation numbers are those of docs/theory/valve_motion.md. */
#include "dynamics/held.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;
static const int looks_most = 8;
static const double settled = 0.02; /* the frequency, from one look to the next */

/* (22): damping that takes out of a swing what friction and passage take. */
static double damping_at(const qll_regulator *valve, double damping, double lift_m, double omega,
                         double swing_pa)
{
    double force = valve->outlet_m2 * swing_pa;
    double still = valve->spring_n_m - valve->mass_kg * omega * omega;
    double way_m = force / hypot(still, damping * omega);
    way_m = fmin(way_m, lift_m); /* the seat ends it */
    return valve->damping_n_s_m + 4 * valve->friction_n / (pi * omega * way_m)
           + 8 / (3 * pi) * valve->passage_n_s2_m2 * omega * way_m;
}

/* The direct-acting valves as the swing meets them; those in @p as hold what the last look found. */
static void meet_swing(const qll_lumped *lumped, const double *values, double omega,
                       double swing_pa, qll_regulator *as)
{
    for (size_t j = 0; j < lumped->valve_count; j++) {
        const double lift_m = values[2 * j];
        if (lumped->valves[j].acting == QLL_ACTING_DIRECT && lift_m > 0) {
            as[j].damping_n_s_m =
                damping_at(&lumped->valves[j], as[j].damping_n_s_m, lift_m, omega, swing_pa);
        }
    }
}

/* On from the smallest swing, whose valves stand in @p as. */
static qll_status look(const qll_lumped *lumped, const qll_lumped *met, const double *values,
                       double swing_pa, qll_regulator *as, qll_arena *arena, qll_held *held)
{
    qll_linear now = held->smallest;
    for (int i = 0; i < looks_most && now.margin < 0 && now.frequency_hz > 0; i++) {
        const double before_hz = now.frequency_hz;
        meet_swing(lumped, values, 2 * pi * before_hz, swing_pa, as);
        qll_status status = qll_lumped_linear(met, values, arena, &now);
        if (status != QLL_OK) {
            return status;
        }
        if (fabs(now.frequency_hz - before_hz) < settled * before_hz) {
            break;
        }
    }
    held->keeps_up = now.margin < 0;
    return QLL_OK;
}

qll_status qll_lumped_held(const qll_lumped *lumped, const double *values, double swing_pa,
                           qll_arena *arena, qll_held *held)
{
    assert(lumped != NULL && values != NULL && arena != NULL && held != NULL);
    if (!(swing_pa > 0) || !isfinite(swing_pa)) {
        return QLL_REFUSED;
    }
    *held = (qll_held){.keeps_up = false};
    qll_arena_mark mark = qll_arena_now(arena);
    qll_regulator *as = qll_arena_take(arena, lumped->valve_count, sizeof *as);
    if (as == NULL) {
        return QLL_NO_MEMORY;
    }
    memcpy(as, lumped->valves, lumped->valve_count * sizeof *as);
    qll_lumped met = *lumped;
    met.valves = as;
    qll_status status = qll_lumped_linear(&met, values, arena, &held->smallest);
    held->frequency_hz = held->smallest.frequency_hz;
    if (status == QLL_OK) {
        status = look(lumped, &met, values, swing_pa, as, arena, held);
    }
    qll_arena_reset(arena, mark);
    return status;
}
