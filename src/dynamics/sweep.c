#include "dynamics/sweep.h"

#include <math.h>

/* Sections are taken so many at a time, so that the compiler makes vectors of them; the bits are
 * those of one at a time. */
#define QLL_ABREAST 8

/* Greatest y for which four terms of the series do: they are off by 14 y^3 = 4e-7 of the friction. */
static const double series_most = 0.003;

/* Constants of eq. 4: w = d (one - |d| (two - |d| (three - |d| four))). */
typedef struct series {
    double one, two, three, four;
    double push_most_pa; /* of |d| */
} series;

static series series_of(const qll_cells *cells)
{
    const double twice_z = 2 * cells->impedance_pa_s_m3;
    const double b = 1 / (1 + cells->friction.linear_pa_s_m3 / twice_z);
    const double per_pa = cells->friction.square_pa_s2_m6 * b * b / (twice_z * twice_z);
    return (series){.one = b,
                    .two = b * per_pa,
                    .three = 2 * b * per_pa * per_pa,
                    .four = 5 * b * per_pa * per_pa * per_pa,
                    .push_most_pa = per_pa > 0 ? series_most / per_pa : (double)INFINITY};
}

/* What a block has met, by place in it. */
typedef struct met {
    double least[QLL_ABREAST]; /* twice P */
    double most[QLL_ABREAST];  /* |d| */
} met;

static inline void pass(const series *s, double from_left, double from_right,
                        double *restrict forward, double *restrict backward, double *least,
                        double *most)
{
    const double d = from_left - from_right;
    const double size = fabs(d);
    const double twice_pa = from_left + from_right;
    const double w = d * (s->one - size * (s->two - size * (s->three - size * s->four)));
    *forward = from_right + w;
    *backward = from_left - w;
    *least = twice_pa < *least ? twice_pa : *least;
    *most = size > *most ? size : *most;
}

static void sweep(size_t count, const series *of, const double *restrict from_left,
                  const double *restrict from_right, double *restrict forward,
                  double *restrict backward, met *seen)
{
    const series s = *of;
    met m = *seen;
    size_t i = 0;
    for (; i + QLL_ABREAST <= count; i += QLL_ABREAST) {
        for (size_t k = 0; k < QLL_ABREAST; k++) {
            pass(&s, from_left[i + k], from_right[i + k], &forward[i + k], &backward[i + k],
                 &m.least[k], &m.most[k]);
        }
    }
    for (; i < count; i++) {
        pass(&s, from_left[i], from_right[i], &forward[i], &backward[i], &m.least[0], &m.most[0]);
    }
    *seen = m;
}

qll_swept qll_sweep_plain(const qll_cells *cells, qll_waves before, qll_waves after)
{
    const series s = series_of(cells);
    met seen = {{0}, {0}};
    for (size_t k = 0; k < QLL_ABREAST; k++) {
        seen.least[k] = (double)INFINITY;
    }
    sweep(cells->count - 1, &s, before.forward, before.backward + 2, after.forward + 1,
          after.backward + 1, &seen);
    qll_swept swept = {.least_pa = (double)INFINITY};
    double most_pa = 0;
    for (size_t k = 0; k < QLL_ABREAST; k++) {
        swept.least_pa = fmin(swept.least_pa, seen.least[k] / 2);
        most_pa = fmax(most_pa, seen.most[k]);
    }
    swept.is_exact = most_pa <= s.push_most_pa;
    return swept;
}

/* ---- the careful sweep ---- */

/* w of eq. 3 by its root. */
static double twice_zq(const qll_cells *cells, double push_pa)
{
    const double twice_z = 2 * cells->impedance_pa_s_m3;
    return twice_z * qll_friction_flow_m3s(&cells->friction, twice_z, push_pa);
}

/* Flows at either side of a section whose middle is held at one pressure, times 2 Z: half of the friction on
 * each side. */
typedef struct sides {
    double left_pa, right_pa;
    double middle_pa;
} sides;

static sides sides_at(const qll_cells *cells, double from_left, double from_right, double middle_pa)
{
    return (sides){.left_pa = twice_zq(cells, 2 * (from_left - middle_pa)),
                   .right_pa = twice_zq(cells, 2 * (middle_pa - from_right)),
                   .middle_pa = middle_pa};
}

/* The middle's pressure at which @p gap_pa more leaves than comes in (below 0: a cavity is filled). What
 * leaves more grows with the pressure by 4 at most, and by 4 without friction: by the secant from
 * below, which friction makes fall short, so it only rises. */
static sides sides_with_gap(const qll_cells *cells, double from_left, double from_right,
                            double gap_pa)
{
    double middle_pa = (from_left + from_right) / 2 + gap_pa / 4;
    sides found = sides_at(cells, from_left, from_right, middle_pa);
    for (int i = 0; i < 60; i++) {
        const double off_pa = gap_pa - (found.right_pa - found.left_pa);
        middle_pa += off_pa / 4;
        found = sides_at(cells, from_left, from_right, middle_pa);
        if (fabs(off_pa) <= 1e-15 * (fabs(from_left) + fabs(from_right) + fabs(gap_pa))) {
            break;
        }
    }
    return found;
}

/* Eq. 11 at one section. */
static sides sides_of(const qll_cells *cells, double from_left, double from_right, double vapour_pa,
                      double *cavity_m3)
{
    const double twice_z = 2 * cells->impedance_pa_s_m3;
    if (*cavity_m3 == 0 && (from_left + from_right) / 2 >= vapour_pa) {
        const double w = twice_zq(cells, from_left - from_right);
        return (sides){w, w, (from_left + from_right) / 2};
    }
    const sides open = sides_at(cells, from_left, from_right, vapour_pa);
    const double after_m3 = *cavity_m3 + cells->step_s * (open.right_pa - open.left_pa) / twice_z;
    if (after_m3 > 0) {
        *cavity_m3 = after_m3;
        return open;
    }
    const double fills_pa = twice_z * *cavity_m3 / cells->step_s;
    *cavity_m3 = 0;
    return sides_with_gap(cells, from_left, from_right, -fills_pa);
}

double qll_sweep_careful(const qll_cells *cells, qll_waves before, qll_waves after,
                         qll_vapour_line vapour, double *cavity_m3, qll_envelope *envelope)
{
    double all_m3 = 0;
    for (size_t i = 1; i < cells->count; i++) {
        const double from_left = before.forward[i - 1];
        const double from_right = before.backward[i + 1];
        const double share = (double)i / (double)cells->count;
        const double vapour_pa = vapour.first_pa * (1 - share) + vapour.last_pa * share;
        const sides w = sides_of(cells, from_left, from_right, vapour_pa, &cavity_m3[i]);
        after.forward[i] = from_right + w.right_pa;
        after.backward[i] = from_left - w.left_pa;
        all_m3 += cavity_m3[i];
        if (envelope != NULL) {
            envelope->twice_high[i] = fmax(envelope->twice_high[i], 2 * w.middle_pa);
            envelope->twice_low[i] = fmin(envelope->twice_low[i], 2 * w.middle_pa);
        }
    }
    return all_m3;
}

static void widen(size_t count, const double *restrict forward, const double *restrict backward,
                  double *restrict high, double *restrict low)
{
    for (size_t i = 0; i < count; i++) {
        const double twice_pa = forward[i] + backward[i];
        high[i] = twice_pa > high[i] ? twice_pa : high[i];
        low[i] = twice_pa < low[i] ? twice_pa : low[i];
    }
}

void qll_sweep_envelope(const qll_cells *cells, qll_waves waves, qll_envelope *envelope)
{
    widen(cells->count - 1, waves.forward + 1, waves.backward + 1, envelope->twice_high + 1,
          envelope->twice_low + 1);
}
