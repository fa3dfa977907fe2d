/* Chances against what happened. Intervals of a share: SciPy 1.10.1 binomtest(k, n).proportion_ci(method="wilson"), which is where the
 * score of equal chances must end as well. */
#include "base/random.h"
#include "check.h"
#include "records/calibration.h"

static qll_calibration calibrate(const qll_watched *watched, size_t count)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 24);
    qll_calibration calibration;
    CHECK(qll_calibrate(watched, count, arena, &calibration) == QLL_OK);
    qll_arena_close(arena);
    return calibration;
}

/* @p count sites of one chance, of which the first so many called back. */
static qll_calibration of_equal(double chance, size_t happened, size_t count)
{
    qll_watched watched[200];
    for (size_t i = 0; i < count; i++) {
        watched[i] = (qll_watched){chance, i < happened};
    }
    return calibrate(watched, count);
}

static double odds(double share)
{
    return share / (1.0 - share);
}

TEST(the_interval_of_a_share_is_that_of_wilson)
{
    static const struct {
        size_t happened, count;
        double low, high;
    } rows[] = {{0, 25, 0.0, 0.1331922509390485},
                {3, 40, 0.025836025774588198, 0.19864233524310543},
                {25, 25, 0.8668077490609516, 1.0}};

    for (size_t i = 0; i < 3; i++) {
        const qll_calibration made = of_equal(0.2, rows[i].happened, rows[i].count);
        const qll_calibration_group *group = &made.groups[0];
        double low = group->low;
        double high = group->high;
        if (made.group_count > 1) {
            continue; /* 40 sites are two groups */
        }
        CHECK_WITHIN(low, rows[i].low, 1e-12);
        CHECK_WITHIN(high, rows[i].high, 1e-12);
    }
}

TEST(the_factor_of_equal_chances_is_the_ratio_of_odds)
{
    const qll_calibration made = of_equal(0.3, 20, 100);
    CHECK_NEAR(made.odds_factor, odds(0.2) / odds(0.3), 1e-9);
    CHECK_NEAR(made.factor_low, odds(0.1333669333310325) / odds(0.3), 1e-9);
    CHECK_NEAR(made.factor_high, odds(0.2888291655931589) / odds(0.3), 1e-9);
    CHECK(!qll_calibration_fits(&made));
    CHECK_NEAR(made.expected, 30.0, 1e-12);
    CHECK_NEAR(made.expected_high - made.expected, 1.959963984540054 * sqrt(21.0), 1e-12);
}

TEST(what_happens_as_predicted_fits)
{
    const qll_calibration made = of_equal(0.2, 20, 100);
    CHECK(qll_calibration_fits(&made));
    CHECK_NEAR(made.odds_factor, 1.0, 1e-9);
    CHECK(made.group_count == 5);
}

TEST(none_and_all_have_one_bound)
{
    qll_calibration made = of_equal(0.1, 0, 30);
    CHECK(made.odds_factor <= 0.0 && made.factor_low <= 0.0 && isfinite(made.factor_high));
    made = of_equal(0.9, 30, 30);
    CHECK(isinf(made.odds_factor) && isinf(made.factor_high) && made.factor_low > 0.0);
}

TEST(a_few_sites_tell_nothing)
{
    const qll_calibration made = of_equal(0.2, 4, 19);
    CHECK(!qll_calibration_is_told(&made));
    CHECK(made.count == 19 && made.happened == 4 && made.group_count == 0);
    CHECK(of_equal(0.2, 0, 0).count == 0);
}

/* Sites whose odds are three times as high as predicted: the factor's interval holds 3 about 95 times in 100, and its middle comes near. */
TEST(a_world_that_is_off_is_found)
{
    qll_random random = qll_random_seeded(4);
    const unsigned worlds = 400 / TEST_ONE_IN;
    unsigned held = 0;
    double sum = 0.0;
    for (unsigned world = 0; world < worlds; world++) {
        qll_watched watched[200];
        for (size_t i = 0; i < 200; i++) {
            const double chance = 0.02 + 0.3 * qll_random_unit(&random);
            const double real = 3.0 * odds(chance) / (1.0 + 3.0 * odds(chance));
            watched[i] = (qll_watched){chance, qll_random_unit(&random) < real};
        }
        const qll_calibration made = calibrate(watched, 200);
        held += made.factor_low <= 3.0 && made.factor_high >= 3.0 ? 1 : 0;
        sum += log(made.odds_factor);
    }
    /* Four standard deviations of 95 in 100, and of the mean of the logarithm, whose own is some 0.16. */
    CHECK_WITHIN((double)held / worlds, 0.95, 4.0 * sqrt(0.95 * 0.05 / worlds));
    CHECK_WITHIN(sum / worlds, log(3.0), 4.0 * 0.16 / sqrt(worlds));
}

int main(void)
{
    TEST_RUN(the_interval_of_a_share_is_that_of_wilson);
    TEST_RUN(the_factor_of_equal_chances_is_the_ratio_of_odds);
    TEST_RUN(what_happens_as_predicted_fits);
    TEST_RUN(none_and_all_have_one_bound);
    TEST_RUN(a_few_sites_tell_nothing);
    TEST_RUN(a_world_that_is_off_is_found);
    return TEST_END();
}
