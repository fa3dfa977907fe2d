#include "check.h"
#include "physics/pipe.h"

TEST(velocity_of_a_known_case)
{
    /* v[ft/s] = 0.4085 gpm/d^2[in] (trade formula): 15 gpm in a 1.025 in bore. */
    double velocity = qll_pipe_velocity_m_s(15 * 6.30901964e-5, 1.025 * 0.0254);
    CHECK_NEAR(velocity / 0.3048, 0.4085 * 15 / (1.025 * 1.025), 2e-4);
    CHECK(isnan(qll_pipe_velocity_m_s(1e-3, 0)));
    CHECK(isnan(qll_pipe_velocity_m_s(NAN, 0.02)));
}

TEST(reynolds_number)
{
    const qll_water water = {.density_kg_m3 = 1000, .viscosity_pa_s = 1e-3};
    CHECK_NEAR(qll_pipe_reynolds(2, 0.05, &water), 1e5, 1e-15);
}

/* The figures of the open fluid-dynamics library for smooth pipe: 10 kg/s, 1000 kg/m3, 1e-5 Pa s,
 * bore 0.1 m, 1 m long: 63.43447321097365 Pa. */
TEST(smooth_pipe_of_one_metre)
{
    const qll_water water = {.density_kg_m3 = 1000, .viscosity_pa_s = 1e-5};
    qll_pipe_run run = {.bore_m = 0.1, .length_m = 1};
    CHECK_NEAR(qll_pipe_drop_pa(&run, 0.01, &water), 63.43447321097365, 1e-10);
    run.length_m = 0;
    run.minor_loss = 2;
    double velocity = qll_pipe_velocity_m_s(0.01, 0.1);
    CHECK_NEAR(qll_pipe_drop_pa(&run, 0.01, &water), 1000 * velocity * velocity, 1e-14);
}

/* Hagen-Poiseuille, dp = 128 mu L Q/(pi d^4), from an ordinary laminar flow down to the last bit. */
TEST(laminar_flow_has_no_end_below)
{
    const qll_water water = {.density_kg_m3 = 1000, .viscosity_pa_s = 1e-3};
    const qll_pipe_run run = {.bore_m = 0.02, .length_m = 10, .roughness_m = 1.5e-6};
    for (int power = -5; power > -296; power -= 5) {
        const double flow = pow(10, power);
        double want = 128 * 1e-3 * 10 * flow / (3.14159265358979323846 * 1.6e-7);
        CHECK_NEAR(qll_pipe_drop_pa(&run, flow, &water), want, 1e-12);
    }
    double least = qll_pipe_drop_pa(&run, 0x1p-1074, &water);
    CHECK(least >= 0 && least < 1e-300);
    const qll_pipe_run rough = {.bore_m = 0.02, .length_m = 10, .roughness_m = 3e-3};
    CHECK(isnan(qll_pipe_drop_pa(&rough, 1e-5, &water)));
}

TEST(the_blend_meets_both_ends)
{
    CHECK_NEAR(qll_pipe_friction_factor(2000, 1e-3), 0.032, 1e-14);
    CHECK_NEAR(qll_pipe_friction_factor(3000, 0), (0.032 + 0.039907014056) / 2, 1e-10);
}

TEST(outside_the_domain_is_nan)
{
    CHECK(isnan(qll_pipe_friction_factor(0, 1e-3)));
    CHECK(isnan(qll_pipe_friction_factor(-1, 1e-3)));
    CHECK(isnan(qll_pipe_friction_factor(INFINITY, 1e-3)));
    CHECK(isnan(qll_pipe_friction_factor(1e5, -1e-6)));
    CHECK(isnan(qll_pipe_friction_factor(1e5, 0.11)));
    CHECK(isnan(qll_pipe_friction_factor(NAN, 1e-3)));
    CHECK(isnan(qll_pipe_friction_factor(1e5, NAN)));
    const qll_water water = qll_water_at(15, 5e5);
    const qll_pipe_run run = {.bore_m = 0.02, .length_m = 10, .roughness_m = 1.5e-6};
    CHECK(qll_pipe_drop_pa(&run, 0, &water) == 0);
    CHECK(isnan(qll_pipe_drop_pa(&run, -1e-3, &water)));
    CHECK(isnan(qll_pipe_drop_pa(&run, NAN, &water)));
    const qll_pipe_run none = {.bore_m = 0, .length_m = 10};
    CHECK(isnan(qll_pipe_drop_pa(&none, 1e-3, &water)));
}

int main(void)
{
    TEST_RUN(velocity_of_a_known_case);
    TEST_RUN(reynolds_number);
    TEST_RUN(smooth_pipe_of_one_metre);
    TEST_RUN(laminar_flow_has_no_end_below);
    TEST_RUN(the_blend_meets_both_ends);
    TEST_RUN(outside_the_domain_is_nan);
    return TEST_END();
}
