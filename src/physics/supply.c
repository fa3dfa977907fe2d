#include "physics/supply.h"

#include <assert.h>
#include <math.h>

/* A main's loss grows with flow to this power (Hazen-Williams; common practice in flow tests). */
static const double loss_exponent = QLL_SUPPLY_EXPONENT;

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

void qll_supply_stretches(const qll_supply *supply, qll_supply_stretch *stretches)
{
    const qll_point *test = supply->test;
    const qll_point *last = &test[supply->count - 1];
    const double whole_pa = test[0].y - last->y;
    stretches[0] = (qll_supply_stretch){0};
    for (size_t i = 0; i + 1 < supply->count; i++) {
        const double from = pow(test[i].x, loss_exponent);
        const double drop_pa = test[0].y - test[i].y;
        const double factor =
            (test[i].y - test[i + 1].y) / (pow(test[i + 1].x, loss_exponent) - from);
        stretches[i + 1] = (qll_supply_stretch){.from_m3s = test[i].x,
                                                .drop_pa = drop_pa,
                                                .base_pa = drop_pa - factor * from,
                                                .factor = factor};
    }
    stretches[supply->count] =
        (qll_supply_stretch){.from_m3s = last->x,
                             .drop_pa = whole_pa,
                             .factor = whole_pa > 0 ? whole_pa / pow(last->x, loss_exponent) : 0};
}
