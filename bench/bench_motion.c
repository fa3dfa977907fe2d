/* What runs of plausible valves say of the prior of least stable flow (docs/theory/stability.md): per size and
 * drop the share that ever chatters so that it is felt, and where, as quantiles of its greatest flow over
 * that at full opening; then over all sizes what each drop says of that share's odds and of the flow's median and
 * spread. Lumps around the valve; 12 flows a set, as many sets as the first argument says.
 * Before it the processor time of 10 s of a valve that chatters. */
#include "random_motion.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define BENCH_FLOWS     12
#define BENCH_SETS_MOST 1000

static double seconds(void)
{
    return (double)clock() / CLOCKS_PER_SEC;
}

static int rising(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return x < y ? -1 : x > y;
}

/* The greatest share of full flow at which it is felt; 0 where it never is. */
static double greatest_felt(random_motion *drawn, qll_arena *arena)
{
    for (int k = 0; k < BENCH_FLOWS; k++) {
        double share = pow(1.45, -k) * 0.7;
        qll_lumped lumped;
        qll_motion_found found;
        qll_motion_event event = random_event(share * drawn->full_m3s);
        if (qll_lumped_make(&drawn->scene.regulator, 1, &drawn->around, arena, &lumped) == QLL_OK
            && qll_motion_run(&lumped, &event, arena, &found) == QLL_OK && found.is_felt) {
            return share;
        }
    }
    return 0;
}

/* Over all sizes at one drop. */
typedef struct over_sizes {
    int sets, felt;
    double within; /* squares of ln phi about the mean of its size */
    double ln_sum;
    int sizes;
} over_sizes;

static void add(over_sizes *to, const double *shares, int felt, int sets)
{
    double sum = 0, squares = 0;
    for (int i = 0; i < felt; i++) {
        sum += log(shares[i]);
        squares += log(shares[i]) * log(shares[i]);
    }
    to->sets += sets;
    to->felt += felt;
    to->ln_sum += sum;
    to->within += felt > 0 ? squares - sum * sum / felt : 0;
    to->sizes += felt > 0;
}

static void one_case(double nominal_m, double drop_psi, int sets, qll_arena *arena, over_sizes *all)
{
    static double shares[BENCH_SETS_MOST];
    qll_random random = qll_random_seeded(1);
    int felt = 0;
    for (int i = 0; i < sets; i++) {
        qll_arena_mark mark = qll_arena_now(arena);
        random_motion drawn;
        if (random_motion_make(&drawn, nominal_m, drop_psi * 6894.757, &random, arena) == QLL_OK) {
            shares[felt] = greatest_felt(&drawn, arena);
            felt += shares[felt] > 0;
        }
        qll_arena_reset(arena, mark);
    }
    qsort(shares, (size_t)felt, sizeof *shares, rising);
    add(all, shares, felt, sets);
    qll_chatter_prior prior = qll_stability_prior(false, drop_psi * 6894.757);
    printf("%5.2f in %4.0f psi: pi %.2f, phi 10/50/90 %% %.3f %.3f %.3f; prior pi %.2f, phi %.3f\n",
           nominal_m / 0.0254, drop_psi, (double)felt / sets, felt > 0 ? shares[felt / 10] : 0.0,
           felt > 0 ? shares[felt / 2] : 0.0, felt > 0 ? shares[felt * 9 / 10] : 0.0,
           prior.chatters, prior.median_share);
}

static void time_ten_seconds(qll_arena *arena)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    scene.regulator.friction_n = 0;
    const qll_around around = moving_around(&scene, 1e-11);
    qll_lumped lumped;
    qll_motion_found found;
    const qll_motion_event event = {4e-4, 3e-4, 0.04, 10, 0.5, 1e-4};
    double before = seconds();
    if (qll_lumped_make(&scene.regulator, 1, &around, arena, &lumped) == QLL_OK
        && qll_motion_run(&lumped, &event, arena, &found) == QLL_OK) {
        printf("10 s of chatter at %.0f Hz: %.1f ms, %zu steps\n", found.frequency_hz,
               1e3 * (seconds() - before), found.count.steps);
    }
}

int main(int argc, char **argv)
{
    int sets = argc > 1 ? (int)strtol(argv[1], NULL, 10) : 100;
    sets = sets < 1 ? 1 : sets > BENCH_SETS_MOST ? BENCH_SETS_MOST : sets;
    qll_arena *arena = qll_arena_open((size_t)1 << 28);
    const double sizes_m[] = {0.0127, 0.01905, 0.0254, 0.0381, 0.0508}, drops_psi[] = {50, 90, 130};
    time_ten_seconds(arena);
    over_sizes all[3] = {{0}};
    for (int i = 0; i < 5; i++) {
        for (int j = 0; j < 3; j++) {
            one_case(sizes_m[i], drops_psi[j], sets, arena, &all[j]);
        }
    }
    for (int j = 0; j < 3; j++) {
        double pi = (double)all[j].felt / all[j].sets;
        double mean = all[j].ln_sum / all[j].felt;
        printf(
            "all sizes %4.0f psi: pi %.3f, odds %.3f; ln phi %.2f (%.3f), spread within a size %.2f\n",
            drops_psi[j], pi, pi / (1 - pi), mean, exp(mean),
            sqrt(all[j].within / (all[j].felt - all[j].sizes)));
    }
    qll_arena_close(arena);
    return 0;
}
