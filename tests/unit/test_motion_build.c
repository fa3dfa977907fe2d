/* How a sheet that says how its valve moves shifts the prior of its chatter. */
#include "check.h"
#include "dynamics/motion_build.h"
#include "moving_scene.h"

static qll_arena *arena;
static const double psi = 6894.757293168361;

typedef struct sheet {
    qll_valve valve;
    qll_opening_law law;
} sheet;

static sheet sheet_of(double nominal_m)
{
    sheet made = {.valve = moving_valve(nominal_m, 5 * pow(nominal_m / 0.0254, 2), 1e5)};
    CHECK(qll_opening_law_make(&made.valve, arena, &made.law) == QLL_OK);
    return made;
}

/* The middle of every range, as a sheet would say it; damping as many times that. */
static sheet said_of(double nominal_m, double damped)
{
    sheet made = sheet_of(nominal_m);
    const qll_motion usual = qll_motion_usual();
    const qll_water water = qll_water_at(15, 5e5);
    qll_regulator r;
    const qll_regulator_of of = {&made.valve, &made.law, &usual, 4.8e5, 9e5, &water};
    CHECK(qll_regulator_make(&of, arena, &r) == QLL_OK);
    double area = r.outlet_m2;
    made.valve.moving_mass_kg = usual.of[QLL_MOTION_MASS] * 999 * pow(area, 1.5);
    made.valve.spring_n_m = r.spring_n_m;
    made.valve.damping_n_s_m = damped * r.damping_n_s_m;
    return made;
}

static qll_chatter_build build_of(const sheet *of)
{
    qll_chatter_build build;
    CHECK(qll_chatter_build_of(&of->valve, &of->law, arena, &build) == QLL_OK);
    return build;
}

TEST(a_silent_sheet_moves_nothing)
{
    sheet silent = sheet_of(0.0254);
    qll_chatter_build build = build_of(&silent);
    CHECK(!build.is_known && build.odds_ratio == 1 && build.share_ratio == 1);
    const qll_chatter_prior before = qll_valve_chatter(&silent.valve, 60 * psi, 55 * psi);
    const double least_m3s = silent.valve.flow_min_m3s;
    qll_valve_take_build(&silent.valve, &build);
    const qll_chatter_prior after = qll_valve_chatter(&silent.valve, 60 * psi, 55 * psi);
    CHECK(after.chatters == before.chatters && after.median_share == before.median_share
          && after.ln_sigma == before.ln_sigma && silent.valve.flow_min_m3s == least_m3s);
    sheet pilot = said_of(0.0508, 1);
    pilot.valve.acting = QLL_ACTING_PILOT;
    CHECK(!build_of(&pilot).is_known);
}

TEST(more_damping_never_makes_chatter_likelier)
{
    double before = INFINITY;
    double damped = 0.3;
    while (damped < 500) {
        sheet said = said_of(0.01905, damped);
        qll_chatter_build build = build_of(&said);
        CHECK(build.is_known && build.odds_ratio > 0 && build.odds_ratio <= before);
        CHECK(build.ln_sigma >= 0.495 - 1e-12 && build.ln_sigma <= 0.99 + 1e-12);
        CHECK(build.share_ratio > 0.05 && build.share_ratio < 20);
        before = build.odds_ratio;
        damped *= 3;
    }
    CHECK(before < 0.1); /* as good as never */
}

TEST(the_level_stays_that_of_the_prior)
{
    const double sizes_m[] = {0.0127, 0.01905, 0.0254, 0.0381, 0.0508};
    for (int i = 0; i < 5; i++) {
        sheet said = said_of(sizes_m[i], 1);
        qll_chatter_build build = build_of(&said);
        /* The middle of all is about what all are together. */
        CHECK(build.odds_ratio > 0.1 && build.odds_ratio < 10);
        const double drop_pa = 90 * psi, x = 1.5;
        const double prior_odds = pow(x, 1.23);
        qll_valve_take_build(&said.valve, &build);
        const qll_chatter_prior prior = qll_valve_chatter(&said.valve, drop_pa, 55 * psi);
        CHECK_NEAR(prior.chatters / (1 - prior.chatters), prior_odds * build.odds_ratio, 1e-9);
        CHECK_NEAR(prior.median_share, 0.080 * pow(x, 1.07) * build.share_ratio, 1e-9);
        CHECK(prior.ln_sigma == build.ln_sigma);
    }
}

TEST(a_stated_least_flow_goes_before)
{
    sheet said = said_of(0.0254, 1);
    said.valve.flow_min_m3s = 1e-4;
    said.valve.defaulted &= ~(1u << QLL_VALVE_FLOW_MIN);
    const qll_chatter_prior before = qll_valve_chatter(&said.valve, 60 * psi, 55 * psi);
    const qll_chatter_build build = build_of(&said);
    qll_valve_take_build(&said.valve, &build);
    const qll_chatter_prior after = qll_valve_chatter(&said.valve, 60 * psi, 55 * psi);
    CHECK(said.valve.flow_min_m3s == 1e-4 && after.chatters == before.chatters
          && after.median_share == before.median_share && after.ln_sigma == before.ln_sigma);
}

TEST(the_same_every_time)
{
    sheet said = said_of(0.0127, 1);
    qll_build_tally one, two;
    CHECK(qll_build_tally_of(&said.valve, &said.law, 24, arena, &one) == QLL_OK);
    CHECK(qll_build_tally_of(&said.valve, &said.law, 24, arena, &two) == QLL_OK);
    CHECK(one.count == 24 && one.keeps_up == two.keeps_up && one.ln_share == two.ln_share);
    qll_build_tally none;
    CHECK(qll_build_tally_of(&said.valve, &said.law, 0, arena, &none) == QLL_REFUSED);
}

int main(void)
{
    arena = qll_arena_open(1 << 24);
    TEST_RUN(a_silent_sheet_moves_nothing);
    TEST_RUN(more_damping_never_makes_chatter_likelier);
    TEST_RUN(the_level_stays_that_of_the_prior);
    TEST_RUN(a_stated_least_flow_goes_before);
    TEST_RUN(the_same_every_time);
    qll_arena_close(arena);
    return TEST_END();
}
