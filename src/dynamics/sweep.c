#include "dynamics/sweep.h"

#include <float.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

/* Greatest y for which three terms of the series do: they are off by 5 y^2 = 2e-5 of the friction. */
static const double series_most = 0.002;

qll_cells qll_cells_of(size_t count, double impedance_pa_s_m3, double step_s, qll_friction friction)
{
    const double twice_z = 2 * impedance_pa_s_m3;
    const double b = 1 / (1 + friction.linear_pa_s_m3 / twice_z);
    const double per_pa = friction.square_pa_s2_m6 * b * b / (twice_z * twice_z);
    return (qll_cells){.count = count,
                       .impedance_pa_s_m3 = impedance_pa_s_m3,
                       .step_s = step_s,
                       .friction = friction,
                       .one = b,
                       .two = b * per_pa,
                       .three = 2 * b * per_pa * per_pa,
                       .push_most_pa = per_pa > 0 ? series_most / per_pa : DBL_MAX};
}

static inline uint64_t bits_of(double value)
{
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    return bits;
}

/* Where the machine has wider vectors they are taken, by a C library that can choose as it loads: the bits are the same, as
 * nothing is fused or reordered. */
#if defined(__x86_64__) && defined(__GLIBC__) && defined(__GNUC__) && !defined(__clang__) \
    && defined(__OPTIMIZE__) && !defined(__SANITIZE_ADDRESS__)
#    define QLL_WIDE __attribute__((target_clones("avx2", "default")))
#else
#    define QLL_WIDE
#endif

/* What is to be looked for is collected as the signs of differences, by "or": so the compiler may take sections
 * in any order and makes vectors of them. 1 where any was below 0. */
QLL_WIDE static uint64_t sweep(const qll_cells *cells, double twice_least_pa,
                               const double *restrict from_left, const double *restrict from_right,
                               double *restrict forward, double *restrict backward)
{
    const double one = cells->one, two = cells->two, three = cells->three;
    const double most_pa = cells->push_most_pa;
    const size_t count = cells->count - 1;
    uint64_t signs = 0;
    for (size_t i = 0; i < count; i++) {
        const double left = from_left[i], right = from_right[i];
        const double d = left - right;
        const double size = fabs(d);
        const double w = d * (one - size * (two - size * three));
        forward[i] = right + w;
        backward[i] = left - w;
        signs |= bits_of(left + right - twice_least_pa) | bits_of(most_pa - size);
    }
    return signs >> 63;
}

bool qll_sweep_plain(const qll_cells *cells, qll_waves before, qll_waves after, double least_pa)
{
    return sweep(cells, 2 * least_pa, before.forward, before.backward + 2, after.forward + 1,
                 after.backward + 1)
           == 0;
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

QLL_WIDE static void widen(size_t count, const double *restrict forward,
                           const double *restrict backward, double *restrict high,
                           double *restrict low)
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
