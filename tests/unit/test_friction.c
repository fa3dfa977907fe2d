#include "check.h"
#include "dynamics/friction.h"

#include <math.h>
#include <stdbool.h>

/* Darcy's loss at the usual flow and a quarter of it, whatever the pipe; between them as far off as it says. */
TEST(loss_is_darcys_at_two_flows)
{
    const qll_water water = qll_water_at(15, 5e5);
    const double bores_m[] = {0.0138, 0.0260, 0.0504, 0.1};
    for (int i = 0; i < 4; i++) {
        for (int rough = 0; rough < 2; rough++) {
            const qll_pipe_run run = {.bore_m = bores_m[i],
                                      .length_m = 20,
                                      .roughness_m = rough ? 1.52e-4 : 1.5e-6,
                                      .minor_loss = 3};
            const double usual = 2 * 3.14159265358979 / 4 * bores_m[i] * bores_m[i];
            double off = 0;
            const qll_friction friction = qll_friction_of(&run, usual, &water, &off);
            CHECK_NEAR(qll_friction_pa(&friction, usual), qll_pipe_drop_pa(&run, usual, &water),
                       1e-12);
            /* In a narrow rough pipe Poiseuille's flow would lose more than the line through both. */
            const double least =
                128 * water.viscosity_pa_s * 20 / (3.14159265358979 * pow(bores_m[i], 4));
            const bool is_slow = friction.linear_pa_s_m3 < least * (1 + 1e-9);
            CHECK(is_slow == (rough && i == 0));
            CHECK_NEAR(qll_friction_pa(&friction, -usual / 4),
                       -qll_pipe_drop_pa(&run, usual / 4, &water), is_slow ? off * 1.001 : 1e-12);
            CHECK(off > 0 && off < 0.06);
            double q = usual / 4;
            while (q < usual) {
                CHECK_NEAR(qll_friction_pa(&friction, q), qll_pipe_drop_pa(&run, q, &water),
                           1.02 * off);
                q += usual / 50;
            }
        }
    }
}

/* In the range of Poiseuille's flow it is his. */
TEST(slow_flow_is_poiseuilles)
{
    const qll_water water = qll_water_at(15, 5e5);
    const qll_pipe_run run = {.bore_m = 0.02, .length_m = 10, .roughness_m = 1e-6};
    const qll_friction friction = qll_friction_of(&run, 1e-5, &water, NULL);
    CHECK(friction.square_pa_s2_m6 * 1e-5 < 1e-9 * friction.linear_pa_s_m3);
    CHECK_NEAR(qll_friction_pa(&friction, 3e-6), qll_pipe_drop_pa(&run, 3e-6, &water), 1e-9);
}

TEST(root_gives_the_push_back)
{
    const qll_friction friction = {3e6, 5e10};
    double push = -1e7;
    while (push < 1e7) {
        const double flow = qll_friction_flow_m3s(&friction, 2e9, push);
        CHECK_NEAR(2e9 * flow + qll_friction_pa(&friction, flow), push, 1e-13);
        push += 0.37e6;
    }
    const qll_friction none = {0};
    CHECK_NEAR(qll_friction_flow_m3s(&none, 2e9, 5e5), 2.5e-4, 1e-15);
}

int main(void)
{
    TEST_RUN(loss_is_darcys_at_two_flows);
    TEST_RUN(slow_flow_is_poiseuilles);
    TEST_RUN(root_gives_the_push_back);
    return TEST_END();
}
