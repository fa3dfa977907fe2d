#include "search/outlet_table.h"

#include <math.h>

/* What a float may make of a figure, and a solver of an outlet. */
#define QLL_SUMMED_BITS 1e-6

void qll_outlets_of(const qll_searching *searching, const qll_outlet_frame *frame,
                    double outlet_pa[QLL_OUTLET_COUNT])
{
    const double barometric_pa = searching->yardstick->site->barometric_pa;
    const double still_pa = frame->place->set_inlet_pa_gauge + barometric_pa;
    const qll_effects effects = searching->pool.effects;
    const double moved_pa = fmax(qll_effects_most_pa(effects, frame->low_inlet_pa - still_pa),
                                 qll_effects_most_pa(effects, frame->high_inlet_pa - still_pa));
    const size_t upper = QLL_SPAN_COUNT / 2;
    double below = 0.0;
    for (size_t k = 0; k < QLL_OUTLET_COUNT; k++) {
        outlet_pa[k] = frame->set_pa_gauge + barometric_pa + moved_pa - below * QLL_PSI_PA;
        below += k < upper ? frame->upper_psi : frame->lower_psi;
    }
}

/* A valve in a place, behind the inlets of one supply. */
typedef struct standing {
    const qll_searching *searching;
    qll_placed placed;
    double low_inlet_pa, high_inlet_pa;
    double low_set_pa, high_set_pa; /* where it stands set at those, absolute */
    double series_per_flow;         /* root of the drop in series with it; 0 = nothing there */
    qll_least_flow stable;
} standing;

static standing standing_of(const qll_searching *searching, const qll_outlet_frame *frame,
                            const qll_part *part, double set_pa_gauge)
{
    const qll_site *site = searching->yardstick->site;
    const qll_valve *valve = part->branch.valve;
    const double series_kv_m3h = part->branch.series_kv_m3h;
    const double still_pa = frame->place->set_inlet_pa_gauge + site->barometric_pa;
    const double set_pa = set_pa_gauge + site->barometric_pa;
    return (standing){
        .searching = searching,
        .placed = {frame->place, part, set_pa_gauge},
        .low_inlet_pa = frame->low_inlet_pa,
        .high_inlet_pa = frame->high_inlet_pa,
        .low_set_pa = set_pa + valve->inlet_effect * (frame->low_inlet_pa - still_pa),
        .high_set_pa = set_pa + valve->inlet_effect * (frame->high_inlet_pa - still_pa),
        .series_per_flow =
            series_kv_m3h > 0.0 ? 1.0 / (series_kv_m3h * qll_flow_per_kv(&site->water)) : 0.0,
        .stable = qll_valve_least_flow(valve)};
}

/* Between two outlets: what it does at least. Returns the energy of its noise. */
static double put_span(const standing *of, double high_outlet_pa, double low_outlet_pa,
                       qll_branch_between *at, double row[QLL_ROWS_PER_BRANCH])
{
    const qll_site *site = of->searching->yardstick->site;
    const qll_part *part = of->placed.part;
    const double pv_pa = site->water.vapour_pressure_pa;
    const double least_drop_pa = of->low_inlet_pa - high_outlet_pa;
    const double most_drop_pa = of->high_inlet_pa - low_outlet_pa;
    const qll_stability_here least =
        qll_stability_at(least_drop_pa, low_outlet_pa - site->barometric_pa);
    const qll_stability_here most =
        qll_stability_at(most_drop_pa, high_outlet_pa - site->barometric_pa);
    const double loss_root = at->most_m3s * of->series_per_flow;
    const double recovery =
        part->branch.recovery > 0.0 ? part->branch.recovery : part->branch.valve->fl;
    at->least_kv_m3h = qll_branch_curve_at(&part->curve, of->low_set_pa - high_outlet_pa).kv_m3h;
    at->most_kv_m3h = qll_branch_curve_at(&part->curve, of->high_set_pa - low_outlet_pa).kv_m3h;
    at->least_stable_m3s = qll_least_flow_m3s(&of->stable, &least);
    at->most_stable_m3s = qll_least_flow_m3s(&of->stable, &most);
    at->inlet_pa = of->low_inlet_pa - loss_root * loss_root;
    at->drop_pa =
        fmin(least_drop_pa - loss_root * loss_root, recovery * recovery * (at->inlet_pa - pv_pa));
    at->head_pa = of->high_inlet_pa - pv_pa;
    return qll_branch_least(&part->branch, &part->ruler, at, at->least_m3s, row);
}

void qll_outlet_table_make(const qll_searching *searching, const qll_outlet_frame *frame,
                           const qll_part *part, double set_pa_gauge, qll_outlet_table *made)
{
    const standing of = standing_of(searching, frame, part, set_pa_gauge);
    double outlet_pa[QLL_OUTLET_COUNT];
    qll_outlets_of(searching, frame, outlet_pa);
    const double less = 1.0 - QLL_SUMMED_BITS;
    const double more = 1.0 + QLL_SUMMED_BITS;
    double least_m3s[QLL_OUTLET_COUNT], most_m3s[QLL_OUTLET_COUNT];
    for (size_t k = 0; k < QLL_OUTLET_COUNT; k++) {
        least_m3s[k] = less * qll_placed_m3s(searching, &of.placed, of.low_inlet_pa, outlet_pa[k]);
        most_m3s[k] = more * qll_placed_m3s(searching, &of.placed, of.high_inlet_pa, outlet_pa[k]);
        made->least_m3s[k] = (float)least_m3s[k];
        made->most_m3s[k] = (float)most_m3s[k];
    }
    for (size_t k = 0; k < QLL_SPAN_COUNT; k++) {
        double row[QLL_ROWS_PER_BRANCH] = {0.0};
        qll_branch_between at = {.least_m3s = least_m3s[k], .most_m3s = most_m3s[k + 1]};
        const double energy =
            at.least_m3s > 0.0 ? put_span(&of, outlet_pa[k], outlet_pa[k + 1], &at, row) : 0.0;
        made->energy[k] = (float)(less * energy);
        for (size_t r = 0; r < QLL_ROWS_PER_BRANCH; r++) {
            made->row_m3s[k][r] = (float)(less * row[r]);
        }
    }
}
