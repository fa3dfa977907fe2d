/* Equation numbers are those of docs/theory/stability.md. */
#include "dynamics/motion_build.h"

#include "base/customary.h"
#include "base/random.h"
#include "dynamics/held.h"

#include <assert.h>
#include <math.h>

/* Where builds are held beside each other: the prior's own reference. */
static const double drop_pa = 60 * QLL_PSI_PA, outlet_pa_gauge = 55 * QLL_PSI_PA;
static const double atmosphere_pa = 101325;
static const double pa_per_bar = 1e5, seconds_per_hour = 3600;
static const size_t builds = 24;

/* Of flows over that at full opening, from the greatest down. */
static const double flow_most = 0.7, flow_step = 2.2;
static const int flow_count = 6;

/* The prior's spread (stability.md, 1). */
static const double prior_ln_sigma = 0.99;
/* Fewer builds that keep a swing up tell nothing of where (our assumption). */
static const size_t told_from = 4;

static double between(qll_random *random, double low, double high)
{
    return low * pow(high / low, qll_random_unit(random));
}

/* Pipes as stability.md draws them. */
static qll_around around_of(double bore_m, double density, qll_random *random)
{
    double speed = qll_random_unit(random) < 0.5 ? 1250 : 400;
    qll_lumped_pipe inlet = {between(random, 1, 30), bore_m, speed, between(random, 0.03, 0.4)};
    qll_lumped_pipe outlet = {between(random, 1, 15), bore_m, speed, between(random, 0.03, 0.4)};
    double here = between(random, 1e-13, 1e-11), far = between(random, 1e-12, 1e-9);
    qll_around around = {.barometric_pa = atmosphere_pa};
    double before, behind;
    around.before = qll_lumped_pipe_plug(&inlet, density, &before);
    around.behind = qll_lumped_pipe_plug(&outlet, density, &behind);
    around.before_m3_pa = before / 2 + here;
    around.behind_m3_pa = behind / 2 + here;
    around.far_m3_pa = behind / 2 + far;
    around.supply_pa = atmosphere_pa + outlet_pa_gauge + drop_pa;
    return around;
}

/* ln of the greatest flow share at which a felt swing keeps up; NaN where it never does. */
static qll_status greatest_share(qll_lumped *lumped, double full_m3s, double *values,
                                 qll_arena *arena, double *ln_share)
{
    *ln_share = NAN;
    for (int k = 0; k < flow_count; k++) {
        double share = flow_most * pow(flow_step, -k);
        if (!qll_lumped_rest(lumped, share * full_m3s, values)) {
            continue; /* its pipes do not pass so much */
        }
        qll_held held;
        qll_status status =
            qll_lumped_held(lumped, values, QLL_FELT_SWING * outlet_pa_gauge, arena, &held);
        if (status == QLL_NO_MEMORY) {
            return status;
        }
        if (status == QLL_OK && held.keeps_up) {
            *ln_share = log(share);
            return QLL_OK;
        }
    }
    return QLL_OK;
}

static qll_status look_at_build(const qll_regulator_of *of, qll_random *random, qll_arena *arena,
                                double *ln_share, bool *is_one)
{
    qll_regulator regulator;
    qll_lumped lumped;
    qll_around around = around_of(of->valve->nominal_m, of->water->density_kg_m3, random);
    qll_status status = qll_regulator_make(of, arena, &regulator);
    status = status == QLL_OK ? qll_lumped_make(&regulator, 1, &around, arena, &lumped) : status;
    *is_one = status == QLL_OK;
    if (status != QLL_OK) {
        return status == QLL_REFUSED ? QLL_OK : status;
    }
    double *values = qll_arena_take(arena, lumped.at.count, sizeof *values);
    if (values == NULL) {
        return QLL_NO_MEMORY;
    }
    double full_m3s = of->valve->kv_m3h / seconds_per_hour * sqrt(drop_pa / pa_per_bar);
    return greatest_share(&lumped, full_m3s, values, arena, ln_share);
}

qll_status qll_build_tally_of(const qll_valve *valve, const qll_opening_law *law, size_t count,
                              qll_arena *arena, qll_build_tally *tally)
{
    assert(valve != NULL && law != NULL && arena != NULL && tally != NULL);
    *tally = (qll_build_tally){.ln_share = NAN, .ln_sigma = NAN};
    if (valve->acting != QLL_ACTING_DIRECT) {
        return QLL_REFUSED;
    }
    const qll_water water = qll_water_at(15, atmosphere_pa + outlet_pa_gauge);
    qll_motion motion;
    const double set_pa = atmosphere_pa + outlet_pa_gauge;
    const qll_regulator_of of = {valve, law, &motion, set_pa, set_pa + drop_pa, &water};
    qll_random random = qll_random_seeded(1);
    double sum = 0, squares = 0;
    for (size_t i = 0; i < count; i++) {
        for (int j = 0; j < QLL_MOTION_COUNT; j++) {
            motion.of[j] = qll_motion_within((qll_motion_value)j, qll_random_unit(&random));
        }
        double ln_share = NAN;
        bool is_one = false;
        qll_arena_mark mark = qll_arena_now(arena);
        qll_status status = look_at_build(&of, &random, arena, &ln_share, &is_one);
        qll_arena_reset(arena, mark);
        if (status != QLL_OK) {
            return status;
        }
        tally->count += is_one ? 1 : 0;
        if (!isnan(ln_share)) {
            tally->keeps_up += 1;
            sum += ln_share;
            squares += ln_share * ln_share;
        }
    }
    const double n = (double)tally->keeps_up;
    tally->ln_share = n > 0 ? sum / n : (double)NAN;
    tally->ln_sigma = n > 1 ? sqrt(fmax(squares - sum * sum / n, 0) / (n - 1)) : (double)NAN;
    return tally->count > 0 ? QLL_OK : QLL_REFUSED;
}

static double odds_of(const qll_build_tally *tally)
{
    return ((double)tally->keeps_up + 0.5) / ((double)(tally->count - tally->keeps_up) + 0.5);
}

/* (7) to (9) */
static qll_chatter_build build_beside(const qll_build_tally *own, const qll_build_tally *all)
{
    qll_chatter_build build = {.is_known = true,
                               .odds_ratio = odds_of(own) / odds_of(all),
                               .share_ratio = 1,
                               .ln_sigma = prior_ln_sigma};
    if (own->keeps_up >= told_from && all->keeps_up >= told_from) {
        build.share_ratio = exp(own->ln_share - all->ln_share);
        build.ln_sigma *= fmin(fmax(own->ln_sigma / all->ln_sigma, 0.5), 1);
    }
    return build;
}

qll_status qll_chatter_build_of(const qll_valve *valve, const qll_opening_law *law,
                                qll_arena *arena, qll_chatter_build *build)
{
    *build = (qll_chatter_build){.odds_ratio = 1, .share_ratio = 1, .ln_sigma = prior_ln_sigma};
    if (!qll_valve_says_motion(valve)) {
        return QLL_OK;
    }
    qll_valve silent = *valve;
    silent.moving_mass_kg = silent.spring_n_m = silent.damping_n_s_m = silent.diaphragm_m = NAN;
    qll_build_tally own, all;
    qll_status status = qll_build_tally_of(valve, law, builds, arena, &own);
    status = status == QLL_OK ? qll_build_tally_of(&silent, law, builds, arena, &all) : status;
    if (status == QLL_OK) {
        *build = build_beside(&own, &all);
    }
    return status == QLL_NO_MEMORY ? status : QLL_OK;
}
