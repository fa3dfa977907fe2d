#include "station/branch_curve.h"

#include <math.h>

/* Step of Kv, as a share of Ks (1 + (Kv/Ks)^2), at which a chord of Kv/sqrt(1 + (Kv/Ks)^2) is off
 * by less than 1e-4 of the value: h^2/2 in the chord that starts at 0, 3 h^2/8 in all others
 * (docs/theory/balance.md, eq. 4). */
#define QLL_SERIES_STEP 0.014

double qll_flow_per_kv(const qll_water *water)
{
    return sqrt(QLL_REFERENCE_DENSITY_KG_M3 / (water->density_kg_m3 * 1e5)) / 3600.0;
}

/* Writes knots to the arrays, or only counts them where the arrays are NULL. */
typedef struct knot_sink {
    size_t count;
    double *falloff_pa, *c;
} knot_sink;

static void put_knot(knot_sink *sink, double falloff_pa, double c)
{
    if (sink->falloff_pa != NULL) {
        sink->falloff_pa[sink->count] = falloff_pa;
        sink->c[sink->count] = c;
    }
    sink->count += 1;
}

static double combined_kv(double kv, double series_kv)
{
    double share = kv / series_kv;
    return kv / sqrt(1.0 + share * share);
}

static void put_law(knot_sink *sink, qll_curve law, double series_kv, double flow_per_kv)
{
    bool series = series_kv > 0.0;
    put_knot(sink, 0.0, 0.0);
    qll_point from = {0.0, 0.0};
    for (size_t i = 0; i < law.count; i++) {
        qll_point to = law.points[i];
        if (to.x <= from.x) {
            continue; /* the law's own (0, 0) */
        }
        double kv = from.y;
        while (series) {
            double share = kv / series_kv;
            kv += QLL_SERIES_STEP * series_kv * (1.0 + share * share);
            if (kv >= to.y) {
                break;
            }
            double x = from.x + (to.x - from.x) * (kv - from.y) / (to.y - from.y);
            if (x > from.x && x < to.x) {
                put_knot(sink, x, flow_per_kv * combined_kv(kv, series_kv));
            }
        }
        put_knot(sink, to.x, flow_per_kv * (series ? combined_kv(to.y, series_kv) : to.y));
        from = to;
    }
}

qll_status qll_branch_curve_make(const qll_branch *branch, const qll_water *water, qll_arena *arena,
                                 qll_branch_curve *curve)
{
    double flow_per_kv = qll_flow_per_kv(water);
    qll_curve law = branch->law->kv_of_falloff;
    knot_sink counted = {0, NULL, NULL};
    put_law(&counted, law, branch->series_kv_m3h, flow_per_kv);
    knot_sink sink = {0, qll_arena_take(arena, counted.count + 1, sizeof(double)),
                      qll_arena_take(arena, counted.count, sizeof(double))};
    double *slope = qll_arena_take(arena, counted.count, sizeof(double));
    if (sink.falloff_pa == NULL || sink.c == NULL || slope == NULL) {
        return QLL_NO_MEMORY;
    }
    put_law(&sink, law, branch->series_kv_m3h, flow_per_kv);
    for (size_t i = 0; i + 1 < sink.count; i++) {
        slope[i] = (sink.c[i + 1] - sink.c[i]) / (sink.falloff_pa[i + 1] - sink.falloff_pa[i]);
    }
    sink.falloff_pa[sink.count] = INFINITY;
    *curve = (qll_branch_curve){sink.count, sink.falloff_pa, sink.c, slope};
    return QLL_OK;
}

qll_branch_c qll_branch_curve_at(const qll_branch_curve *curve, double falloff_pa)
{
    if (!(falloff_pa > 0.0)) {
        return (qll_branch_c){0.0, 0.0};
    }
    size_t at = qll_branch_curve_segment(curve, falloff_pa);
    double slope = curve->slope[at];
    return (qll_branch_c){curve->c[at] + slope * (falloff_pa - curve->falloff_pa[at]), slope};
}
