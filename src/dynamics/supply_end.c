#include "dynamics/supply_end.h"

#include <float.h>
#include <math.h>

/* On top of the curve, which may be flat: 1 kPa at 1 m3/s, so that the flow is a function of pressure. */
static const double steepness_pa_s_m3 = 1e3;

/* A flow, and how steeply the pressure falls there. */
typedef struct drawn {
    double flow_m3s, steep_pa_s_m3;
} drawn;

bool qll_supply_end_make(const qll_supply *supply, double static_pa_gauge, qll_arena *arena,
                         qll_supply_end *end)
{
    qll_supply_stretch *stretches = qll_arena_take(arena, supply->count + 1, sizeof *stretches);
    if (stretches == NULL) {
        return false;
    }
    qll_supply_stretches(supply, stretches);
    *end = (qll_supply_end){stretches, supply->count + 1, static_pa_gauge};
    return true;
}

/* The last stretch that begins before the curve has fallen by @p drop_pa. */
static const qll_supply_stretch *stretch_at(const qll_supply_end *end, double drop_pa)
{
    size_t i = end->stretch_count - 1;
    while (i > 0
           && end->stretches[i].drop_pa + steepness_pa_s_m3 * end->stretches[i].from_m3s
                  >= drop_pa) {
        i--;
    }
    return &end->stretches[i];
}

/* The flow at which the curve has fallen by @p drop_pa, over 0. On a stretch the fall grows ever steeper, so Newton's steps
 * from the flow without what is put on top come down to it from above, in two or three. */
static drawn drawn_by(const qll_supply_end *end, double drop_pa)
{
    const qll_supply_stretch *on = stretch_at(end, drop_pa);
    const double left_pa = drop_pa - on->base_pa;
    if (!(on->factor > 0)) {
        return (drawn){left_pa / steepness_pa_s_m3, steepness_pa_s_m3};
    }
    double flow_m3s =
        fmin(pow(left_pa / on->factor, 1 / QLL_SUPPLY_EXPONENT), left_pa / steepness_pa_s_m3);
    double steep = steepness_pa_s_m3;
    for (int i = 0; i < 20 && flow_m3s > 0; i++) {
        const double lost_pa = on->factor * pow(flow_m3s, QLL_SUPPLY_EXPONENT);
        steep = QLL_SUPPLY_EXPONENT * lost_pa / flow_m3s + steepness_pa_s_m3;
        const double step_m3s = (lost_pa + steepness_pa_s_m3 * flow_m3s - left_pa) / steep;
        flow_m3s = fmax(flow_m3s - step_m3s, 0);
        if (!(fabs(step_m3s) > 4 * DBL_EPSILON * flow_m3s)) {
            break;
        }
    }
    return (drawn){flow_m3s, steep};
}

static void through(const void *state, const qll_instant *now, const double *pressure_pa,
                    qll_through *answer)
{
    (void)now; /* the main knows no time */
    const qll_supply_end *end = state;
    const double drop_pa = end->static_pa_gauge - pressure_pa[0];
    const drawn found =
        fabs(drop_pa) > 0 ? drawn_by(end, fabs(drop_pa)) : (drawn){0, steepness_pa_s_m3};
    answer->flow_m3s[0] = drop_pa > 0 ? -found.flow_m3s : found.flow_m3s;
    answer->slope[0][0] = 1 / found.steep_pa_s_m3;
}

const qll_boundary_kind qll_supply_end_kind = {
    .port_count = 1,
    .through = through,
};
