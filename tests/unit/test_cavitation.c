#include "check.h"
#include "physics/cavitation.h"

static const double psi = 6894.757293168361;
static const double atmosphere = 101325;
static const double vapour = 1767.744; /* 60 degF, IAPWS */

static qll_cavitation_case gauge_case(double inlet_psi, double outlet_psi)
{
    return (qll_cavitation_case){.inlet_pa = inlet_psi * psi + atmosphere,
                                 .outlet_pa = outlet_psi * psi + atmosphere,
                                 .vapour_pressure_pa = vapour,
                                 .barometric_pa = atmosphere,
                                 .xfz = 0.5,
                                 .fl = 0.9};
}

TEST(ratios_are_gauge_and_absolute)
{
    qll_cavitation_case given = gauge_case(150, 50);
    qll_cavitation got = qll_cavitation_of(&given);
    CHECK_NEAR(got.ratio_gauge, 3, 1e-12);
    CHECK_NEAR(got.ratio_absolute, 164.6959 / 64.6959, 1e-6);
    CHECK_NEAR(got.sigma * got.xf, 1, 1e-15);
    CHECK_NEAR(got.margin, got.xf / got.xfzp1, 1e-15);
}

TEST(regimes_follow_the_margin)
{
    qll_cavitation_case given = gauge_case(150, 50);
    double xf = qll_cavitation_of(&given).xf;
    double scale = given.xfz / qll_cavitation_of(&given).xfzp1;

    const struct {
        double margin;
        qll_regime regime;
    } rows[] = {{0.79, QLL_REGIME_QUIET},      {0.81, QLL_REGIME_NEAR_ONSET},
                {0.99, QLL_REGIME_NEAR_ONSET}, {1.01, QLL_REGIME_AUDIBLE},
                {1.29, QLL_REGIME_AUDIBLE},    {1.31, QLL_REGIME_DAMAGING}};

    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        given.xfz = xf / rows[i].margin * scale;
        CHECK(qll_cavitation_of(&given).regime == rows[i].regime);
    }
}

TEST(choke_goes_before_margin)
{
    qll_cavitation_case given = gauge_case(150, 50);
    given.xfz = 10;
    given.fl = 0.77; /* 0.77^2 = 0.593 < xF = 0.608 */
    CHECK(qll_cavitation_of(&given).regime == QLL_REGIME_CHOKED);
    given.fl = 0.79; /* 0.624 */
    CHECK(qll_cavitation_of(&given).regime == QLL_REGIME_QUIET);
}

TEST(nothing_dropped_is_quiet)
{
    qll_cavitation_case given = gauge_case(50, 50);
    qll_cavitation got = qll_cavitation_of(&given);
    CHECK(got.xf == 0 && isnan(got.sigma) && got.margin == 0 && got.regime == QLL_REGIME_QUIET);
    given = gauge_case(50, 60);
    CHECK(qll_cavitation_of(&given).xf == 0);
}

TEST(nonsense_is_the_worst)
{
    qll_cavitation_case given = gauge_case(150, 50);
    given.vapour_pressure_pa = given.inlet_pa;
    CHECK(isnan(qll_cavitation_of(&given).xf));
    CHECK(qll_cavitation_of(&given).regime == QLL_REGIME_CHOKED);
    given = gauge_case(150, 50);
    given.xfz = NAN;
    CHECK(qll_cavitation_of(&given).regime == QLL_REGIME_CHOKED);
    given = gauge_case(150, -1);
    CHECK(isnan(qll_cavitation_of(&given).ratio_gauge));
    given.outlet_pa = NAN;
    CHECK(qll_cavitation_of(&given).regime == QLL_REGIME_CHOKED);
}

TEST(every_regime_has_a_word)
{
    for (int i = 0; i < QLL_REGIME_COUNT; i++) {
        CHECK(qll_regime_words[i] != NULL);
    }
}

TEST(estimate_refuses_nonsense)
{
    CHECK(isnan(qll_xfz_estimate(-1, 0.9, 0.46)));
    CHECK(isnan(qll_xfz_estimate(1, 0, 0.46)));
    CHECK(isnan(qll_xfz_estimate(1, 0.9, 0)));
    CHECK(isnan(qll_xfz_scaled(0.5, 0)));
    CHECK_NEAR(qll_xfz_estimate(0, 0.9, 0.46), 0.9, 1e-15);
}

/* The mathematics library's power against three square roots. */
TEST(scaling_by_the_inlet_is_an_eighth_root)
{
    for (int i = 0; i < 171; i++) {
        const double inlet_pa = 1e3 * pow(1.07, i);
        CHECK_NEAR(qll_xfz_scaled(0.4, inlet_pa), 0.4 * pow(6e5 / inlet_pa, 0.125), 1e-15);
    }
}

/* Two unequal trims have a closed form: X = A((b - a) + sqrt((a - b)^2 + 4 a b B/A))/(2 b). */
TEST(split_of_two_trims_agrees_with_the_closed_form)
{
    double inlet = 150 * psi + atmosphere;
    double outlet = 50 * psi + atmosphere;
    const double trims[] = {0.62, 0.33};
    double between = NAN;
    CHECK(qll_stage_split(inlet, outlet, vapour, 2, trims, false, &between));
    double a = trims[0];
    double b = trims[1];
    double A = inlet - vapour;
    double B = outlet - vapour;
    double X = A * ((b - a) + sqrt((a - b) * (a - b) + 4 * a * b * B / A)) / (2 * b);
    CHECK_NEAR(between, X + vapour, 1e-12);
}

TEST(split_refuses_what_cannot_be_split)
{
    double between[2] = {NAN, NAN};
    const double bad[] = {0.5, -1};
    CHECK(!qll_stage_split(1e6, 2e6, vapour, 2, NULL, false, between));
    CHECK(!qll_stage_split(1e6, 1e3, vapour, 2, NULL, false, between));
    CHECK(!qll_stage_split(1e6, 5e5, vapour, 0, NULL, false, between));
    CHECK(!qll_stage_split(1e6, 5e5, vapour, 2, bad, false, between));
    CHECK(!qll_stage_split(NAN, 5e5, vapour, 2, NULL, true, between));
    CHECK(isnan(between[0]));
    CHECK(qll_stage_split(1e6, 5e5, vapour, 1, NULL, false, NULL));
}

int main(void)
{
    TEST_RUN(ratios_are_gauge_and_absolute);
    TEST_RUN(regimes_follow_the_margin);
    TEST_RUN(choke_goes_before_margin);
    TEST_RUN(nothing_dropped_is_quiet);
    TEST_RUN(nonsense_is_the_worst);
    TEST_RUN(every_regime_has_a_word);
    TEST_RUN(estimate_refuses_nonsense);
    TEST_RUN(scaling_by_the_inlet_is_an_eighth_root);
    TEST_RUN(split_of_two_trims_agrees_with_the_closed_form);
    TEST_RUN(split_refuses_what_cannot_be_split);
    return TEST_END();
}
