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

/* What stands before the valve: inverse Kv and the least step of Kv; 0 and infinity without. */
typedef struct in_series {
    double per_kv, step;
} in_series;

static in_series in_series_of(const qll_branch *branch)
{
    double kv_m3h = branch->series_kv_m3h;
    return kv_m3h > 0.0 ? (in_series){1.0 / kv_m3h, QLL_SERIES_STEP * kv_m3h}
                        : (in_series){0.0, INFINITY};
}

static inline double next_kv(const in_series *series, double kv)
{
    double share = kv * series->per_kv;
    return kv + series->step * (1.0 + share * share);
}

static inline double combined_kv(const in_series *series, double kv)
{
    double share = kv * series->per_kv;
    return kv / sqrt(1.0 + share * share);
}

/* Knots of the curve, at most: put_law() leaves out what would not rise. */
static size_t most_knots(qll_curve law, const in_series *series)
{
    size_t count = 1;
    double from = 0.0;
    for (size_t i = 0; i < law.count; i++) {
        double kv = from;
        do {
            kv = next_kv(series, kv);
            count += 1;
        } while (kv < law.points[i].y);
        from = law.points[i].y;
    }
    return count;
}

typedef struct knot_sink {
    size_t count;
    double flow_per_kv;
    in_series series;
    double *falloff_pa, *c, *slope, *kv_m3h, *kv_slope;
} knot_sink;

static inline void put_knot(knot_sink *sink, double falloff_pa, double kv_m3h, double kv_slope)
{
    double c = sink->flow_per_kv * combined_kv(&sink->series, kv_m3h);
    size_t at = sink->count;
    if (at > 0) {
        sink->slope[at - 1] = (c - sink->c[at - 1]) / (falloff_pa - sink->falloff_pa[at - 1]);
    }
    sink->falloff_pa[at] = falloff_pa;
    sink->c[at] = c;
    sink->kv_m3h[at] = kv_m3h;
    sink->kv_slope[at] = kv_slope;
    sink->count += 1;
}

static void put_law(knot_sink *sink, qll_curve law)
{
    qll_point from = {0.0, 0.0};
    put_knot(sink, 0.0, 0.0, 0.0);
    for (size_t i = 0; i < law.count; i++) {
        qll_point to = law.points[i];
        if (to.x <= from.x) {
            continue; /* the law's own (0, 0) */
        }
        double kv_slope = (to.y - from.y) / (to.x - from.x);
        double pa_per_kv = (to.x - from.x) / (to.y - from.y);
        sink->kv_slope[sink->count - 1] = kv_slope;
        double kv = next_kv(&sink->series, from.y);
        while (kv < to.y) {
            double x = from.x + pa_per_kv * (kv - from.y);
            if (x > sink->falloff_pa[sink->count - 1] && x < to.x) {
                put_knot(sink, x, kv, kv_slope);
            }
            kv = next_kv(&sink->series, kv);
        }
        put_knot(sink, to.x, to.y, 0.0);
        from = to;
    }
    sink->slope[sink->count - 1] = 0.0;
    sink->falloff_pa[sink->count] = INFINITY;
}

qll_status qll_branch_curve_make(const qll_branch *branch, const qll_water *water, qll_arena *arena,
                                 qll_branch_curve *curve)
{
    const qll_curve law = branch->law->kv_of_falloff;
    const in_series series = in_series_of(branch);
    size_t most = most_knots(law, &series);
    double *rows = qll_arena_take(arena, most + 1, 5 * sizeof *rows);
    if (rows == NULL) {
        return QLL_NO_MEMORY;
    }
    knot_sink sink = {.flow_per_kv = qll_flow_per_kv(water),
                      .series = series,
                      .falloff_pa = rows,
                      .c = rows + (most + 1),
                      .slope = rows + 2 * (most + 1),
                      .kv_m3h = rows + 3 * (most + 1),
                      .kv_slope = rows + 4 * (most + 1)};
    put_law(&sink, law);
    *curve = (qll_branch_curve){.count = sink.count,
                                .falloff_pa = sink.falloff_pa,
                                .c = sink.c,
                                .slope = sink.slope,
                                .kv_m3h = sink.kv_m3h,
                                .kv_slope = sink.kv_slope};
    return QLL_OK;
}
