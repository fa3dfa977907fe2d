#include "check.h"
#include "physics/supply.h"

static const double psi = 6894.757293168361;
static const double gpm = 6.30901964e-5;

TEST(static_shifts_the_whole_curve)
{
    const qll_point test[] = {{0, 8e5}, {0.01, 6e5}};
    const qll_supply supply = {
        .test = test, .count = 2, .static_high_pa_gauge = 9e5, .static_low_pa_gauge = 7e5};
    CHECK_NEAR(qll_supply_pressure_pa_gauge(&supply, 8e5, 0), 8e5, 1e-15);
    CHECK_NEAR(qll_supply_pressure_pa_gauge(&supply, 8e5, 0.01), 6e5, 1e-15);
    CHECK_NEAR(qll_supply_pressure_pa_gauge(&supply, 9e5, 0.01), 7e5, 1e-15);
    CHECK_NEAR(qll_supply_pressure_pa_gauge(&supply, 8e5, 0.005), 8e5 - 2e5 * pow(0.5, 1.85),
               1e-12);
    CHECK_NEAR(qll_supply_pressure_pa_gauge(&supply, 8e5, 0.02), 8e5 - 2e5 * pow(2, 1.85), 1e-12);
}

/* The flow available at 20 psi from a hydrant test, Q = QF (hr/hf)^0.54 (common practice, no
 * source): static 74, residual 61 at 1550 gpm gives 1550 (54/13)^0.54 = 3346 gpm. The exponents
 * 0.54 and 1.85 are each other's inverse to 0.1 %. */
TEST(agrees_with_the_hydrant_test_rule)
{
    const qll_point test[] = {{0, 74 * psi}, {1550 * gpm, 61 * psi}};
    const qll_supply supply = {.test = test, .count = 2};
    double flow = 1550 * pow(54.0 / 13, 0.54) * gpm;
    CHECK_WITHIN(qll_supply_pressure_pa_gauge(&supply, 74 * psi, flow), 20 * psi, 0.15 * psi);
}

TEST(passes_every_point_of_the_test)
{
    const qll_point test[] = {{0, 118 * psi}, {60 * gpm, 112 * psi}, {150 * gpm, 96 * psi}};
    const qll_supply supply = {.test = test, .count = 3};
    for (size_t i = 0; i < 3; i++) {
        CHECK_NEAR(qll_supply_pressure_pa_gauge(&supply, 118 * psi, test[i].x), test[i].y, 1e-14);
    }
    double before = INFINITY;
    for (int i = 0; i <= 300; i++) {
        double now = qll_supply_pressure_pa_gauge(&supply, 118 * psi, i * gpm);
        CHECK(now < before);
        before = now;
    }
}

TEST(flat_and_odd_input)
{
    const qll_point one[] = {{0, 5e5}};
    const qll_supply supply = {.test = one, .count = 1};
    CHECK(qll_supply_pressure_pa_gauge(&supply, 4e5, 0.1) == 4e5);
    CHECK(isnan(qll_supply_pressure_pa_gauge(&supply, 4e5, -0.1)));
    CHECK(isnan(qll_supply_pressure_pa_gauge(&supply, 4e5, NAN)));
    CHECK(isnan(qll_supply_pressure_pa_gauge(&supply, NAN, 0.1)));
}

int main(void)
{
    TEST_RUN(static_shifts_the_whole_curve);
    TEST_RUN(agrees_with_the_hydrant_test_rule);
    TEST_RUN(passes_every_point_of_the_test);
    TEST_RUN(flat_and_odd_input);
    return TEST_END();
}
