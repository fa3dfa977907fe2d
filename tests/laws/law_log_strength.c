/* From where on a finding of a log of pressures is one to act on, and sure: logs on either side of each limit that
 * docs/theory/pressure_log.md states, laid down by hand so that nothing else is in them. */
#include "drawn_rows.h"

#define TEST_INLET_HIGH_PA 1000e3

/* A strength of a half is to act, of one is sure. */
static void check_strength(const qll_pressure_result *result, qll_pressure_word word, double value,
                           double act, double sure)
{
    const qll_pressure_finding *found = pressure_found(result, word);
    const double strength = found == NULL ? 0.0 : found->strength;
    const bool good =
        CHECK((strength >= 0.5) == (value >= act)) && CHECK((strength >= 1.0) == (value >= sure));
    if (!good) {
        printf("    %s: %g has a strength of %g, act at %g, sure at %g\n", qll_pressure_words[word],
               value, strength, act, sure);
    }
    /* Straight between the two. */
    if (value >= act && value < sure) {
        CHECK_WITHIN(strength, 0.5 + 0.5 * (value - act) / (sure - act), 0.01);
    }
}

/* P95 less P5: act at 110 kPa, sure at 170. */
TEST(a_supply_swings_by_its_fifth_and_95th_percentiles)
{
    static const double swings_pa[] = {60e3, 108e3, 112e3, 140e3, 168e3, 172e3, 300e3};
    for (size_t i = 0; i < sizeof swings_pa / sizeof *swings_pa; i++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        dice = qll_random_seeded(i);
        begin(5000, true, true);
        for (size_t row = 0; row < 4000; row++) {
            /* A tenth of the time at either end, and 2 % far beyond, which counts for nothing. */
            const size_t turn = row % 100;
            const double inlet = turn < 10   ? -0.5
                                 : turn < 20 ? 0.5
                                 : turn < 21 ? -2.0
                                 : turn < 22 ? 2.0
                                             : 0.0;
            add(0, TEST_INLET_HIGH_PA + inlet * swings_pa[i], TEST_SET_PA, 1e-5);
        }
        const qll_pressure_result *result = judged(arena);
        check_strength(result, QLL_PRESSURE_WORD_SUPPLY_SWING, swings_pa[i], 110e3, 170e3);
        const qll_pressure_finding *swing = pressure_found(result, QLL_PRESSURE_WORD_SUPPLY_SWING);
        if (CHECK(swing != NULL)) {
            CHECK_WITHIN(swing->value, swings_pa[i], 500.0);
            CHECK_WITHIN(swing->level_pa_gauge, TEST_INLET_HIGH_PA - 0.5 * swings_pa[i], 250.0);
        }
        qll_arena_close(arena);
    }
}

/* Thirty windows without flow, between uses that fall off by @p droop from @p set_pa; what the outlet is at rest by inlet. */
static void lay_windows(double set_pa, double lock_pa, double effect, double droop)
{
    for (int w = 0; w < 30; w++) {
        const double inlet = TEST_INLET_HIGH_PA + 4e3 * (double)(w * 7 % 30);
        const double rest = lock_pa + effect * (inlet - TEST_INLET_HIGH_PA);
        const double flow = 6e-5 + 2e-5 * (double)(w * 11 % 30);
        for (int i = 0; i < 150; i++) {
            add(0, inlet, rest, 0.0);
        }
        add(0, inlet, set_pa, 1e-5);
        for (int i = 0; i < 10; i++) {
            add(0, inlet, set_pa + effect * (inlet - TEST_INLET_HIGH_PA) - droop * flow, flow);
        }
        add(0, inlet, set_pa, 1e-5);
    }
}

/* Over the set-point: act at 69 kPa or 15 %, sure at twice as much and some. */
TEST(lock_up_counts_from_69_kpa_or_15_percent_on)
{
    static const double sets_pa[] = {300e3, 400e3, 600e3};
    static const double shares[] = {0.9, 0.99, 1.01, 1.5};
    for (size_t s = 0; s < 3; s++) {
        for (size_t i = 0; i < sizeof shares / sizeof *shares; i++) {
            qll_arena *arena = qll_arena_open((size_t)64 << 20);
            dice = qll_random_seeded(i);
            begin(5000, true, true);
            const double act_pa = fmax(69e3, 0.15 * sets_pa[s]);
            lay_windows(sets_pa[s], sets_pa[s] + shares[i] * act_pa, 0.0, 1e6);
            const qll_pressure_result *result = judged(arena);
            CHECK_WITHIN(result->features.set_point_pa_gauge, sets_pa[s], 1.0);
            const double sure_pa = fmax(140e3, 0.3 * sets_pa[s]);
            check_strength(result, QLL_PRESSURE_WORD_LOCK_UP, shares[i] * act_pa, act_pa, sure_pa);
            qll_arena_close(arena);
        }
    }
}

/* Outlet per inlet: act at 0.15. */
TEST(an_inlet_effect_counts_from_0_15_on)
{
    static const double effects[] = {0.05, 0.149, 0.151, 0.2, 0.299, 0.301};
    for (size_t i = 0; i < sizeof effects / sizeof *effects; i++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        dice = qll_random_seeded(i);
        begin(5000, true, true);
        lay_windows(TEST_SET_PA, TEST_LOCK_PA, effects[i], 1e6);
        const qll_pressure_result *result = judged(arena);
        CHECK_WITHIN(result->features.inlet_effect, effects[i], 1e-9);
        check_strength(result, QLL_PRESSURE_WORD_INLET_EFFECT, effects[i], 0.15, 0.3);
        const qll_pressure_finding *found = pressure_found(result, QLL_PRESSURE_WORD_INLET_EFFECT);
        CHECK(found == NULL || fabs(found->value - effects[i]) < 1e-9);
        /* The fall-off is the same once the inlet is taken off: a straight line at the median inlet. */
        CHECK_NEAR(result->features.fall_off_slope, 1e6, 1e-6);
        qll_arena_close(arena);
    }
}

/* What the outlet lacks of the set-point at the 95 % flow: without a survey act at 30 % of it, sure at half. */
TEST(a_fall_off_counts_by_its_share_of_the_set_point)
{
    static const double shares[] = {0.1, 0.29, 0.31, 0.4, 0.49, 0.51};
    for (size_t i = 0; i < sizeof shares / sizeof *shares; i++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        dice = qll_random_seeded(i);
        begin(5000, true, true);
        const double high_m3s = 6e-5 + 2e-5 * 27.0; /* 27 of 29 lie below it */
        lay_windows(TEST_SET_PA, TEST_LOCK_PA, 0.0, shares[i] * TEST_SET_PA / high_m3s);
        const qll_pressure_result *result = judged(arena);
        CHECK_NEAR(result->features.high_flow_m3s, high_m3s, 1e-9);
        check_strength(result, QLL_PRESSURE_WORD_FALL_OFF, shares[i], 0.3, 0.5);
        const qll_pressure_finding *found = pressure_found(result, QLL_PRESSURE_WORD_FALL_OFF);
        CHECK(found == NULL || fabs(found->value - shares[i] * TEST_SET_PA) < 1.0);
        CHECK(pressure_found(result, QLL_PRESSURE_WORD_STRAINER) == NULL);
        qll_arena_close(arena);
    }
}

/* An hour of running water in runs of two minutes, with so many jumps of 12 kPa, each a second long, up and down; and as many
 * seconds at rest with jumps of their own. */
static const qll_pressure_result *jumping(int jumps, int down_every, int at_rest, qll_arena *arena)
{
    begin(1000, true, true);
    dice = qll_random_seeded(5);
    int made = 0;
    int rested = 0;
    for (int run = 0; run < 30; run++) {
        for (int i = 0; i < 720; i++) {
            const bool jumps_here = i % 24 == 12 && i > 60 && rested < at_rest;
            rested += jumps_here ? 1 : 0;
            add(0, TEST_INLET_HIGH_PA, TEST_LOCK_PA + (jumps_here ? 12e3 : 0.0), 0.0);
        }
        for (int i = 0; i < 126; i++) {
            const bool jumps_here =
                i % 12 == 6 && i > 3 && i < 120 && made < jumps * (run + 1) / 30;
            made += jumps_here ? 1 : 0;
            const double size_pa = down_every > 0 && made % down_every == 0 ? -12e3 : 12e3;
            add(0, TEST_INLET_HIGH_PA, TEST_SET_PA + (jumps_here ? size_pa : 0.0), 30e-5);
        }
    }
    CHECK(made == jumps && rested == at_rest);
    return judged(arena);
}

/* Act at one a minute of running water, sure at five; a fifth of them either way, and five times as often as at rest. */
TEST(air_counts_by_jumps_a_minute_of_running_water)
{
    static const int counts[] = {4, 30, 59, 61, 120, 250};
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        const qll_pressure_result *result = jumping(counts[i], 2, 0, arena);
        check_strength(result, QLL_PRESSURE_WORD_AIR, counts[i] / 60.0, 1.0, 5.0);
        const qll_pressure_finding *air = pressure_found(result, QLL_PRESSURE_WORD_AIR);
        if (air != NULL) {
            CHECK_NEAR(air->per_hour, (double)counts[i], 1e-9);
            CHECK_NEAR(air->value, counts[i] / 3600.0, 1e-9);
            CHECK_NEAR(air->level_pa_gauge, 12e3, 1e-9);
        }
        qll_arena_close(arena);
    }

    static const struct {
        int down_every, at_rest;
        bool is_air;
    } others[] = {{6, 0, false}, {4, 0, true}, {2, 10, true}, {2, 300, false}};

    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        const qll_pressure_result *result =
            jumping(120, others[i].down_every, others[i].at_rest, arena);
        if (!CHECK((pressure_found(result, QLL_PRESSURE_WORD_AIR) != NULL) == others[i].is_air)) {
            printf("    case %zu\n", i);
        }
        qll_arena_close(arena);
    }
}

/* Ten windows without flow, in some of which the outlet swells by so much at so many Pa a second, and stays there. */
static void lay_swells(double inlet_pa, double swell_pa, double rate_pa_s, int swelling)
{
    for (int w = 0; w < 10; w++) {
        for (int i = 0; i < 400; i++) {
            const double since_s = 5.0 * (double)i - 300.0;
            const double swollen = fmin(fmax(since_s, 0.0) * rate_pa_s, swell_pa);
            add(0, inlet_pa, TEST_LOCK_PA + (w < swelling ? swollen : 0.0), 0.0);
        }
        use(20e-5, 6, false);
    }
}

static double expansion_strength(const qll_pressure_result *result)
{
    const qll_pressure_finding *found = pressure_found(result, QLL_PRESSURE_WORD_THERMAL_EXPANSION);
    return found == NULL ? 0.0 : found->strength;
}

/* A heater tells itself by its rate: 80 kPa and more, in two windows or more by over 200 Pa/s from one minute to the next. */
TEST(expansion_counts_by_how_fast_and_how_far_the_outlet_swells)
{
    static const struct {
        double swell_pa, rate_pa_s;
        int swelling;
        bool is_to_act;
    } cases[] = {{210e3, 250.0, 1, false}, {210e3, 250.0, 2, true},  {210e3, 205.0, 4, true},
                 {210e3, 195.0, 4, false}, {210e3, 250.0, 8, false}, {78e3, 250.0, 4, false},
                 {82e3, 250.0, 4, true}};

    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        dice = qll_random_seeded(i);
        begin(5000, true, true);
        lay_swells(TEST_INLET_HIGH_PA, cases[i].swell_pa, cases[i].rate_pa_s, cases[i].swelling);
        const qll_pressure_result *result = judged(arena);
        if (!CHECK((expansion_strength(result) >= 0.5) == cases[i].is_to_act)) {
            printf("    case %zu: %g\n", i, expansion_strength(result));
        }
        const qll_pressure_finding *found =
            pressure_found(result, QLL_PRESSURE_WORD_THERMAL_EXPANSION);
        if (found != NULL) {
            CHECK_WITHIN(found->value, cases[i].swell_pa, 1e-6);
            CHECK_WITHIN(found->level_pa_gauge, TEST_LOCK_PA + cases[i].swell_pa, 1e-6);
            CHECK_WITHIN(found->share, cases[i].swelling / 10.0, 1e-12);
            CHECK(!found->is_over_inlet);
        }
        qll_arena_close(arena);
    }
}

/* A seat cannot leak uphill: over the inlet by 20 kPa, and 60 kPa over lock-up, is expansion at any rate. */
TEST(expansion_counts_where_the_outlet_passes_the_inlet)
{
    static const struct {
        double under_pa, over_pa; /* lock-up under the inlet; the top over it */
        bool is_to_act;
    } cases[] = {{50e3, 18e3, false}, {50e3, 22e3, true}, {30e3, 28e3, false}, {30e3, 32e3, true}};

    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        dice = qll_random_seeded(i);
        begin(5000, true, true);
        lay_swells(TEST_LOCK_PA + cases[i].under_pa, cases[i].under_pa + cases[i].over_pa, 100.0,
                   2);
        const qll_pressure_result *result = judged(arena);
        const qll_pressure_finding *found =
            pressure_found(result, QLL_PRESSURE_WORD_THERMAL_EXPANSION);
        CHECK((expansion_strength(result) >= 0.5) == cases[i].is_to_act);
        CHECK(found == NULL || found->is_over_inlet == cases[i].is_to_act);
        qll_arena_close(arena);
    }
}

/* Twenty days of ten runs each. At the tenth flow, which is the 95 % one, the outlet lacks @p grown_pa more in the end than on
 * the first day, by and by or all at once on @p step_day; of it, the inlet lacks @p inlet_share. */
static const qll_pressure_result *growing(double grown_pa, int step_day, double inlet_share,
                                          qll_arena *arena)
{
    begin(10000, true, true);
    dice = qll_random_seeded(7);
    for (int day = 0; day < 20; day++) {
        const double share = step_day > 0 ? (day >= step_day ? 1.0 : 0.0) : (double)day / 19.0;
        for (int run = 1; run <= 10; run++) {
            const double tenths = (double)run / 10.0;
            const double more_pa = share * grown_pa * tenths * tenths;
            for (int i = 0; i < 100; i++) {
                add(0, TEST_INLET_PA, TEST_LOCK_PA, 0.0);
            }
            for (int i = 0; i < 12; i++) {
                add(0, TEST_INLET_PA - inlet_share * more_pa, TEST_SET_PA - 40e3 * tenths - more_pa,
                    50e-5 * tenths);
            }
        }
        while (log_of.count < (size_t)(day + 1) * 8640) {
            add(0, TEST_INLET_PA, TEST_LOCK_PA, 0.0);
        }
    }
    return judged(arena);
}

/* At the 95 % flow over the whole log: act at 15 kPa, sure at 45; less of it is no fault. */
TEST(a_fall_off_drifts_by_what_it_grows)
{
    static const double grown_pa[] = {-30e3, 4e3, 14.9e3, 15.1e3, 30e3, 44.9e3, 45.1e3};
    for (size_t i = 0; i < sizeof grown_pa / sizeof *grown_pa; i++) {
        for (int step_day = 0; step_day <= 12; step_day += 12) {
            qll_arena *arena = qll_arena_open((size_t)256 << 20);
            const qll_pressure_result *result = growing(grown_pa[i], step_day, 0.0, arena);
            const qll_pressure_features *f = &result->features;
            CHECK_NEAR(f->high_flow_m3s, 50e-5, 1e-9);
            CHECK_WITHIN(f->inlet_median_pa_gauge, TEST_INLET_PA, 250.0);
            /* Told at the log's median inlet, which is known by classes only. */
            const double want_pa = grown_pa[i]
                                   * sqrt((TEST_INLET_PA - f->set_point_pa_gauge)
                                          / (f->inlet_median_pa_gauge - f->set_point_pa_gauge));
            CHECK_WITHIN(f->fall_off_moved_pa, want_pa, 0.01);
            check_strength(result, QLL_PRESSURE_WORD_FALL_OFF_DRIFT, grown_pa[i], 15e3, 45e3);
            const qll_pressure_finding *found =
                pressure_found(result, QLL_PRESSURE_WORD_FALL_OFF_DRIFT);
            if (found != NULL) {
                CHECK(found->is_step == (step_day > 0) && !found->is_of_inlet);
                CHECK(!found->is_step
                      || found->from_unix_s
                             == (double)log_of.at_ms[(size_t)step_day * 8640] / 1000.0);
                CHECK_WITHIN(found->value, want_pa, 0.01);
            }
            qll_arena_close(arena);
        }
    }
}

/* What the inlet lacks grew by half as much or more: it is none to act on, however much it is. */
TEST(a_fall_off_that_the_inlet_lacks_is_none_to_act_on)
{
    static const double shares[] = {0.0, 0.45, 0.55, 1.0};
    for (size_t i = 0; i < sizeof shares / sizeof *shares; i++) {
        qll_arena *arena = qll_arena_open((size_t)256 << 20);
        const qll_pressure_result *result = growing(60e3, 0, shares[i], arena);
        const qll_pressure_finding *found =
            pressure_found(result, QLL_PRESSURE_WORD_FALL_OFF_DRIFT);
        if (CHECK(found != NULL)) {
            CHECK(found->is_of_inlet == (shares[i] > 0.5));
            CHECK(found->strength == (shares[i] > 0.5 ? 0.45 : 1.0));
        }
        qll_arena_close(arena);
    }
}

int main(void)
{
    TEST_RUN(a_supply_swings_by_its_fifth_and_95th_percentiles);
    TEST_RUN(lock_up_counts_from_69_kpa_or_15_percent_on);
    TEST_RUN(an_inlet_effect_counts_from_0_15_on);
    TEST_RUN(a_fall_off_counts_by_its_share_of_the_set_point);
    TEST_RUN(air_counts_by_jumps_a_minute_of_running_water);
    TEST_RUN(expansion_counts_by_how_fast_and_how_far_the_outlet_swells);
    TEST_RUN(expansion_counts_where_the_outlet_passes_the_inlet);
    TEST_RUN(a_fall_off_drifts_by_what_it_grows);
    TEST_RUN(a_fall_off_that_the_inlet_lacks_is_none_to_act_on);
    return TEST_END();
}
