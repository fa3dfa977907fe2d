/* Exact distribution of 10,000 fixtures in 12 kinds: qll_simultaneous_use against the same sum of
 * binomials by Fourier transforms (FFTW), in one run. The transform is given the shortest length
 * that holds all but 1e-15 of the sum, and its binomials ready made; what it may not do is promise a
 * relative accuracy: its error is about 1e-17 of the whole at every flow. */
#include "base/customary.h"
#include "demand/demand.h"

#include <fftw3.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define BENCH_KINDS    12
#define BENCH_TRIES    9
#define BENCH_SHARE    0.999
#define BENCH_STEP_GPM 0.1

/* The Peak Water Demand Study's eleven kinds, and a flushometer of an invented probability. */
static const struct {
    size_t count;
    double flow_gpm, probability;
} kinds[BENCH_KINDS] = {
    {834, 1.5, 0.02},  {834, 5.5, 0.01},  {834, 2.0, 0.01}, {834, 3.5, 0.055},
    {833, 5.5, 0.055}, {833, 1.3, 0.005}, {833, 2.2, 0.02}, {833, 2.0, 0.02},
    {833, 1.5, 0.02},  {833, 2.0, 0.045}, {833, 3.0, 0.01}, {833, 25.0, 0.01},
};

static double seconds(void)
{
    struct timespec now;
    timespec_get(&now, TIME_UTC);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static double direct(double *taken_s, size_t *arena_size, double *above)
{
    qll_use_group groups[BENCH_KINDS];
    for (size_t k = 0; k < BENCH_KINDS; k++) {
        groups[k] = (qll_use_group){.count = kinds[k].count,
                                    .flow_m3s = kinds[k].flow_gpm * QLL_GPM_M3S,
                                    .probability = kinds[k].probability};
    }
    *taken_s = HUGE_VAL;
    double flow_gpm = 0.0;
    for (int i = 0; i < BENCH_TRIES; i++) {
        const double start = seconds();
        qll_arena *arena = qll_arena_open((size_t)256 << 20);
        qll_simultaneous use;
        if (qll_simultaneous_use(groups, BENCH_KINDS, BENCH_SHARE, arena, &use) != QLL_OK) {
            return (double)NAN;
        }
        *taken_s = fmin(*taken_s, seconds() - start);
        flow_gpm = use.flow_m3s / QLL_GPM_M3S;
        *above = 0.0;
        const size_t at = (size_t)(use.flow_m3s / use.step_m3s + 0.5);
        for (size_t s = use.distribution.count; s-- > at + 1;) {
            *above += use.distribution.p[s];
        }
        *arena_size = qll_arena_size(arena);
        qll_arena_close(arena);
    }
    return flow_gpm;
}

typedef struct fourier {
    size_t length;
    double *values;
    fftw_complex *one, *product;
    fftw_plan forward, backward;
    double *binomials[BENCH_KINDS];
} fourier;

static void fourier_make(fourier *all)
{
    double top = 0.0;
    double variance = 0.0;
    for (size_t k = 0; k < BENCH_KINDS; k++) {
        const double n = (double)kinds[k].count;
        const double size = kinds[k].flow_gpm / BENCH_STEP_GPM;
        top += n * kinds[k].probability * size;
        variance += n * kinds[k].probability * (1.0 - kinds[k].probability) * size * size;
        all->binomials[k] = calloc(kinds[k].count + 1, sizeof *all->binomials[k]);
        for (size_t i = 0; i <= kinds[k].count; i++) {
            all->binomials[k][i] = exp(qll_binomial_log((double)i, n, kinds[k].probability));
        }
    }
    all->length = 1;
    while ((double)all->length < top + 9.0 * sqrt(variance)) {
        all->length *= 2;
    }
    all->values = fftw_alloc_real(all->length);
    all->one = fftw_alloc_complex(all->length / 2 + 1);
    all->product = fftw_alloc_complex(all->length / 2 + 1);
    all->forward = fftw_plan_dft_r2c_1d((int)all->length, all->values, all->one, FFTW_MEASURE);
    all->backward = fftw_plan_dft_c2r_1d((int)all->length, all->product, all->values, FFTW_MEASURE);
}

static double fourier_run(fourier *all, double *above)
{
    const size_t half = all->length / 2 + 1;
    for (size_t k = 0; k < BENCH_KINDS; k++) {
        const size_t size = (size_t)(kinds[k].flow_gpm / BENCH_STEP_GPM + 0.5);
        memset(all->values, 0, all->length * sizeof *all->values);
        for (size_t i = 0; i <= kinds[k].count; i++) {
            all->values[(i * size) % all->length] += all->binomials[k][i];
        }
        fftw_execute(all->forward);
        for (size_t j = 0; j < half; j++) {
            const double re = all->one[j][0];
            const double im = all->one[j][1];
            const double was_re = k == 0 ? 1.0 : all->product[j][0];
            const double was_im = k == 0 ? 0.0 : all->product[j][1];
            all->product[j][0] = re * was_re - im * was_im;
            all->product[j][1] = re * was_im + im * was_re;
        }
    }
    fftw_execute(all->backward);
    double reached = 0.0;
    size_t at = 0;
    while (reached < BENCH_SHARE && at < all->length) {
        reached += all->values[at] / (double)all->length;
        at += 1;
    }
    *above = 1.0 - reached;
    return BENCH_STEP_GPM * (double)(at - 1);
}

int main(void)
{
    double direct_s = 0.0;
    double direct_above = 0.0;
    size_t arena_size = 0;
    const double direct_gpm = direct(&direct_s, &arena_size, &direct_above);
    fourier all = {0};
    fourier_make(&all);
    double fourier_s = HUGE_VAL;
    double fourier_gpm = 0.0;
    double fourier_above = 0.0;
    for (int i = 0; i < BENCH_TRIES; i++) {
        const double start = seconds();
        fourier_gpm = fourier_run(&all, &fourier_above);
        fourier_s = fmin(fourier_s, seconds() - start);
    }
    printf("10,000 fixtures in 12 kinds, 99.9 %%: %.4f gpm, above it %.15e, in %.3f ms (arena %.1f "
           "MB)\n",
           direct_gpm, direct_above, 1e3 * direct_s, (double)arena_size / 1e6);
    printf("the same by transforms of %zu (FFTW):  %.4f gpm, above it %.15e, in %.3f ms; ratio "
           "%.2f\n",
           all.length, fourier_gpm, fourier_above, 1e3 * fourier_s, fourier_s / direct_s);
    fftw_destroy_plan(all.forward);
    fftw_destroy_plan(all.backward);
    fftw_free(all.values);
    fftw_free(all.one);
    fftw_free(all.product);
    for (size_t k = 0; k < BENCH_KINDS; k++) {
        free(all.binomials[k]);
    }
    return 0;
}
