/* An inlet sweep among the gauge readings: at one flow the inlet was throttled in steps, and both gauges read at each. */
#include "diagnosis/inlet_sweep.h"

#include "numeric/robust.h"

#include <math.h>

/* Steps of a sweep, and how far the inlet must have come down: less than 10 psi moves an outlet by less than a gauge shows
 * (our assumption). Two flows within a tenth are one: a faucet gives less while the outlet falls. */
#define QLL_SWEEP_STEPS    3
#define QLL_SWEEP_MOVED_PA 69e3
#define QLL_SWEEP_APART_PA 5e3
#define QLL_SWEEP_FLOW     0.1
/* More readings of one visit are no sweep by hand. */
#define QLL_SWEEP_MOST     100

typedef struct sweep {
    size_t count;
    double inlet_pa[QLL_SWEEP_MOST], outlet_pa[QLL_SWEEP_MOST];
} sweep;

static bool is_one_flow(double flow_m3s, double other_m3s)
{
    return flow_m3s > 0.0 && fabs(flow_m3s - other_m3s) <= QLL_SWEEP_FLOW * flow_m3s;
}

/* The outlet that was read with @p inlet; NULL if none was. */
static const qll_gauge_reading *read_with(const qll_case *of, const qll_gauge_reading *inlet)
{
    for (size_t i = 0; i < of->reading_count; i++) {
        const qll_gauge_reading *one = &of->readings[i];
        if (one->gauge == QLL_GAUGE_OUTLET && !one->is_left && one->at != NULL
            && qll_text_is(qll_text_of(one->at), inlet->at)
            && is_one_flow(one->flow_m3s, inlet->flow_m3s)) {
            return one;
        }
    }
    return NULL;
}

static void take_steps(const qll_case *of, double flow_m3s, sweep *steps)
{
    steps->count = 0;
    for (size_t i = 0; i < of->reading_count && steps->count < QLL_SWEEP_MOST; i++) {
        const qll_gauge_reading *inlet = &of->readings[i];
        if (inlet->gauge != QLL_GAUGE_INLET || inlet->is_left || inlet->at == NULL
            || !is_one_flow(flow_m3s, inlet->flow_m3s)) {
            continue;
        }
        const qll_gauge_reading *outlet = read_with(of, inlet);
        if (outlet != NULL) {
            steps->inlet_pa[steps->count] = inlet->pressure_pa_gauge;
            steps->outlet_pa[steps->count] = outlet->pressure_pa_gauge;
            steps->count += 1;
        }
    }
}

static double moved_pa(const sweep *steps)
{
    double least = steps->inlet_pa[0];
    double most = least;
    for (size_t i = 1; i < steps->count; i++) {
        least = fmin(least, steps->inlet_pa[i]);
        most = fmax(most, steps->inlet_pa[i]);
    }
    return most - least;
}

qll_status qll_inlet_sweep(const qll_case *of, qll_arena *arena, double *share)
{
    *share = (double)NAN;
    sweep *steps = qll_arena_take(arena, 1, sizeof *steps);
    double *scratch = qll_arena_take(arena, qll_pair_count(QLL_SWEEP_MOST), sizeof *scratch);
    if (steps == NULL || scratch == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < of->reading_count && i < QLL_SWEEP_MOST && isnan(*share); i++) {
        take_steps(of, of->readings[i].flow_m3s, steps);
        if (steps->count >= QLL_SWEEP_STEPS && moved_pa(steps) >= QLL_SWEEP_MOVED_PA) {
            const double slope = qll_theil_sen(steps->inlet_pa, steps->outlet_pa, steps->count,
                                               QLL_SWEEP_APART_PA, scratch);
            *share =
                fmax(slope, 0.0); /* a gauge may read a little less where the inlet is higher */
        }
    }
    return QLL_OK;
}
