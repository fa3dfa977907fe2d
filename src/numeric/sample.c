#include "numeric/sample.h"

#include "numeric/probability.h"

#include <assert.h>
#include <math.h>

#define QLL_TWO_PI      6.283185307179586
/* Below this mean the search starts at 0, where e^-mean is far from underflow. */
#define QLL_SMALL_MEAN  16.0
/* Terms of a Poisson search below this are beyond what a uniform number of 53 bits can reach. */
#define QLL_LEAST_TERM  1e-25
#define QLL_TWO_POWER32 4294967296.0
/* A gamma number of less spread is 1: its acceptance test would be lost in rounding. */
#define QLL_LEAST_CV    1e-7

double qll_sample_normal(qll_random *random)
{
    const double u = 1.0 - qll_random_unit(random); /* over 0 */
    const double v = qll_random_unit(random);
    return sqrt(-2.0 * log(u)) * cos(QLL_TWO_PI * v);
}

double qll_sample_gamma(qll_random *random, double cv)
{
    if (cv < QLL_LEAST_CV) {
        return 1.0;
    }
    const double shape = 1.0 / (cv * cv);
    /* A shape under 1 is that of shape + 1 times u^(1 / shape). */
    const bool is_small = shape < 1.0;
    const double d = (is_small ? shape + 1.0 : shape) - 1.0 / 3.0;
    const double c = 1.0 / sqrt(9.0 * d);
    double value = d;
    for (int i = 0; i < 1000; i++) { /* nine in ten tries hit */
        const double x = qll_sample_normal(random);
        const double root = 1.0 + c * x;
        const double v = root * root * root;
        const double u = 1.0 - qll_random_unit(random);
        if (v > 0.0 && log(u) < 0.5 * x * x + d - d * v + d * log(v)) {
            value = d * v;
            break;
        }
    }
    if (is_small) {
        value *= pow(1.0 - qll_random_unit(random), 1.0 / shape);
    }
    return value / shape;
}

double qll_sample_poisson(qll_random *random, double mean)
{
    assert(mean >= 0.0 && isfinite(mean));
    const double start = mean < QLL_SMALL_MEAN ? 0.0 : floor(mean);
    double left = qll_random_unit(random);
    double up = exp(qll_poisson_log(start, mean));
    double down = start > 0.0 ? up : 0.0;
    left -= up;
    double step = 0.0;
    while (left >= 0.0 && (up > QLL_LEAST_TERM || down > QLL_LEAST_TERM || start + step < mean)) {
        step += 1.0;
        up *= mean / (start + step);
        left -= up;
        if (left < 0.0) {
            return start + step;
        }
        down *= (start - step + 1.0) / mean;
        if (down > 0.0) {
            left -= down;
            if (left < 0.0) {
                return start - step;
            }
        }
    }
    return start;
}

/* Cells that hold less than their share are filled up by those that hold more, in one pass each. */
static void fill_cells(double *share, size_t count, qll_alias_cell *cells)
{
    size_t poor = 0;
    size_t rich = 0;
    while (poor < count && share[poor] >= 1.0) {
        poor += 1;
    }
    size_t next_poor = poor + 1;
    while (poor < count) {
        while (rich < count && share[rich] <= 1.0) {
            rich += 1;
        }
        if (rich == count) {
            break; /* what is left differs from full cells by rounding */
        }
        cells[poor].threshold = (uint32_t)fmin(share[poor] * QLL_TWO_POWER32, 4294967295.0);
        cells[poor].other = (uint32_t)rich;
        share[rich] -= 1.0 - share[poor];
        share[poor] = 1.0;
        /* A giver that became poor before the place of the scan is filled at once. */
        if (share[rich] < 1.0 && rich < next_poor) {
            poor = rich;
            continue;
        }
        poor = next_poor;
        while (poor < count && share[poor] >= 1.0) {
            poor += 1;
        }
        next_poor = poor + 1;
    }
}

qll_status qll_alias_make(const double *p, size_t count, qll_arena *arena, qll_alias *alias)
{
    assert(count >= 1 && count <= (size_t)1 << 24);
    unsigned bits = 1;
    while ((size_t)1 << bits < count) {
        bits += 1;
    }
    const size_t size = (size_t)1 << bits;
    qll_alias_cell *cells = qll_arena_take(arena, size, sizeof *cells);
    const qll_arena_mark mark = qll_arena_now(arena);
    double *share = qll_arena_take(arena, size, sizeof *share);
    if (cells == NULL || share == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < size; i++) {
        share[i] = i < count ? p[i] * (double)size : 0.0;
        cells[i] = (qll_alias_cell){.threshold = UINT32_MAX, .other = (uint32_t)i};
    }
    fill_cells(share, size, cells);
    qll_arena_reset(arena, mark);
    *alias = (qll_alias){.cells = cells, .shift = 64 - bits};
    return QLL_OK;
}
