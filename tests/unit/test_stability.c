#include "check.h"
#include "physics/stability.h"

#include <math.h>

static const double psi = 6894.757293168361;

/* By hand from docs/theory/stability.md, 1 and 2: 90 psi is 1.5 times the reference. */
TEST(prior_is_what_the_page_says)
{
    qll_chatter_prior direct = qll_stability_prior(false, 60 * psi);
    CHECK_NEAR(direct.chatters, 0.5, 1e-12);
    CHECK_NEAR(direct.median_share, 0.080, 1e-12);
    CHECK_NEAR(direct.ln_sigma, 0.99, 1e-12);
    direct = qll_stability_prior(false, 90 * psi);
    CHECK_WITHIN(direct.chatters, 0.622, 5e-4); /* odds 1.6466 */
    CHECK_WITHIN(direct.median_share, 0.1235, 5e-5);
    qll_chatter_prior pilot = qll_stability_prior(true, 60 * psi);
    CHECK_NEAR(pilot.chatters, 0.9, 1e-12);
    CHECK_NEAR(pilot.median_share, 0.05, 1e-12);
    CHECK_NEAR(pilot.ln_sigma, 0.8, 1e-12);
    pilot = qll_stability_prior(true, 120 * psi);
    CHECK_NEAR(pilot.chatters, 0.9, 1e-12);
    CHECK_WITHIN(pilot.median_share, 0.1149, 5e-5); /* 0.05 times 2.2974 */
}

TEST(prior_grows_with_the_drop_and_ends_at_all)
{
    for (int pilot = 0; pilot < 2; pilot++) {
        qll_chatter_prior before = qll_stability_prior(pilot, 0);
        CHECK(before.median_share == 0 && before.chatters == 0);
        for (int i = 1; i < 100; i++) {
            qll_chatter_prior now = qll_stability_prior(pilot, 3 * psi * i);
            CHECK(now.median_share > before.median_share && now.median_share < 1);
            CHECK(pilot ? now.chatters > 0 : now.chatters > before.chatters);
            CHECK(now.chatters < 1);
            before = now;
        }
        CHECK(qll_stability_prior(pilot, 1000 * psi).median_share == 1);
        CHECK(isnan(qll_stability_prior(pilot, NAN).chatters));
        CHECK(isnan(qll_stability_prior(pilot, NAN).median_share));
    }
}

/* The rounded shares that the fit to the simulated valves was written down with. */
TEST(heard_is_what_the_page_says)
{
    CHECK_WITHIN(qll_stability_heard(0.3, 10, false), 0.17, 0.01);
    CHECK_WITHIN(qll_stability_heard(0.3, 100, false), 0.57, 0.01);
    CHECK_WITHIN(qll_stability_heard(0.3, 1000, false), 0.90, 0.01);
    CHECK_NEAR(qll_stability_heard(0.3, 10, true), qll_stability_heard(0.3, 10, false) / 2, 1e-12);
    /* At the least stable flow and 1 W the logistic of -1.04; half way to 1.6 half of it. */
    CHECK_NEAR(qll_stability_heard(1, 10, false), 1 / (1 + exp(1.04)), 1e-12);
    CHECK_NEAR(qll_stability_heard(1.3, 10, false), 0.5 / (1 + exp(1.04)), 1e-12);
}

TEST(heard_lies_between_never_and_always)
{
    for (int pilot = 0; pilot < 2; pilot++) {
        for (int i = 0; i < 40; i++) {
            double power_w = 1e-3 * pow(1.5, i);
            for (int k = 1; k < 17; k++) {
                double ratio = 0.1 * k;
                double here = qll_stability_heard(ratio, power_w, pilot);
                CHECK(here >= 0 && here <= (pilot ? 0.5 : 1));
                CHECK(here <= qll_stability_heard(ratio, 1.1 * power_w, pilot));
                double next = qll_stability_heard(ratio + 0.01, power_w, pilot);
                CHECK(k < 10 ? next >= here : next <= here); /* louder to 1, then dying away */
            }
        }
        CHECK(qll_stability_heard(0, 1, pilot) == 0);
        CHECK(qll_stability_heard(0.5, 0, pilot) == 0);
        CHECK(qll_stability_heard(1.6, 1e6, pilot) == 0);
        CHECK(qll_stability_heard(INFINITY, 1, pilot) == 0);
        CHECK(isnan(qll_stability_heard(NAN, 1, pilot)));
        CHECK(isnan(qll_stability_heard(0.5, NAN, pilot)));
    }
}

int main(void)
{
    TEST_RUN(prior_is_what_the_page_says);
    TEST_RUN(prior_grows_with_the_drop_and_ends_at_all);
    TEST_RUN(heard_is_what_the_page_says);
    TEST_RUN(heard_lies_between_never_and_always);
    return TEST_END();
}
