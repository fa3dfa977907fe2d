#include "physics/supply.h"

#include <assert.h>
#include <math.h>

/* A main's loss grows with flow to this power (Hazen-Williams; common practice in flow tests). */
static const double loss_exponent = 1.85;

double qll_supply_pressure_pa_gauge(const qll_supply *supply, double static_pa_gauge,
                                    double flow_m3s)
{
    assert(supply != NULL && supply->count >= 1);
    if (!(flow_m3s >= 0) || isnan(static_pa_gauge)) {
        return NAN;
    }
    const qll_point *test = supply->test;
    const qll_point *last = &test[supply->count - 1];
    double drop;
    if (flow_m3s <= test[0].x) {
        drop = 0;
    } else if (flow_m3s >= last->x) {
        double whole = test[0].y - last->y;
        drop = whole == 0 ? 0 : whole * pow(flow_m3s / last->x, loss_exponent);
    } else {
        qll_curve curve = {.points = test, .count = supply->count};
        const qll_point *a = &test[qll_curve_segment(curve, flow_m3s)];
        const qll_point *b = a + 1;
        double from = pow(a->x, loss_exponent);
        double share = (pow(flow_m3s, loss_exponent) - from) / (pow(b->x, loss_exponent) - from);
        drop = test[0].y - (a->y * (1 - share) + b->y * share);
    }
    return static_pa_gauge - drop;
}
