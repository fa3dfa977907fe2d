/* Equation numbers are those of docs/theory/valve_motion.md. */
#include "dynamics/linear.h"

#include "numeric/eigenvalues.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>

static const double two_pi = 6.28318530717958647692;

/* Slower than this, of the fastest there is, a root cannot be told from 0 by arithmetic. */
static const double rounding = 1e-13;

static qll_linear linear_of(const qll_eigenvalue *values, size_t count)
{
    double greatest = 0;
    for (size_t i = 0; i < count; i++) {
        greatest = fmax(greatest, hypot(values[i].re, values[i].im));
    }
    qll_linear linear = {
        .margin = 1, .growth_per_s = (double)-INFINITY, .grows_within_s = INFINITY};
    for (size_t i = 0; i < count; i++) {
        double size = hypot(values[i].re, values[i].im);
        double margin = size > rounding * greatest ? -values[i].re / size : 0;
        linear.margin = fmin(linear.margin, margin);
        if (margin < 0) {
            linear.grows_within_s = fmin(linear.grows_within_s, 1 / size);
        }
        if (values[i].re > linear.growth_per_s) {
            linear.growth_per_s = values[i].re;
            linear.frequency_hz = fabs(values[i].im) / two_pi;
        }
    }
    return linear;
}

qll_status qll_lumped_linear(const qll_lumped *lumped, const double *values, qll_arena *arena,
                             qll_linear *linear)
{
    assert(lumped != NULL && values != NULL && arena != NULL && linear != NULL);
    size_t n = lumped->at.count;
    if (n > SIZE_MAX / n) {
        return QLL_NO_MEMORY;
    }
    size_t free_count = n - 1; /* the taps' opening, last, is given */
    qll_arena_mark mark = qll_arena_now(arena);
    qll_regulator *free_valves = qll_arena_take(arena, lumped->valve_count, sizeof *free_valves);
    double *slopes = qll_arena_take(arena, n * n, sizeof *slopes);
    double *matrix = qll_arena_take(arena, free_count * free_count, sizeof *matrix);
    qll_eigenvalue *found = qll_arena_take(arena, free_count, sizeof *found);
    qll_status status = QLL_NO_MEMORY;
    if (free_valves != NULL && slopes != NULL && matrix != NULL && found != NULL) {
        qll_lumped without = *lumped;
        without.valves = free_valves;
        for (size_t j = 0; j < lumped->valve_count; j++) {
            free_valves[j] = lumped->valves[j];
            free_valves[j].dead_pa = 0; /* in which a pilot at rest would have no slope */
        }
        qll_lumped_slopes(&without, values, slopes);
        for (size_t i = 0; i < free_count * free_count; i++) {
            matrix[i] = slopes[i / free_count * n + i % free_count];
        }
        status = qll_eigenvalues(matrix, free_count, arena, found);
    }
    if (status == QLL_OK) {
        *linear = linear_of(found, free_count);
    }
    qll_arena_reset(arena, mark);
    return status;
}
