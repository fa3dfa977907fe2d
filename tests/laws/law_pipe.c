#include "check.h"
#include "physics/pipe.h"

static const double bores[] = {0.008, 0.0138, 0.026, 0.0504, 0.0992, 0.3};
static const double roughnesses[] = {0, 1.52e-6, 7e-6, 45.7e-6, 152e-6};

enum {
    QLL_BORE_COUNT = 6,
    QLL_ROUGHNESS_COUNT = 5
};

static void loss_rises(const qll_pipe_run *run, const qll_water *water)
{
    double before = 0;
    for (int i = 0; i < 150; i++) {
        double now = qll_pipe_drop_pa(run, 1e-6 * pow(1.1, i), water);
        CHECK(now > before);
        before = now;
    }
}

TEST(loss_rises_with_flow)
{
    const qll_water cold = qll_water_at(0, 5e5);
    const qll_water hot = qll_water_at(80, 5e5);
    for (int b = 0; b < QLL_BORE_COUNT; b++) {
        for (int r = 0; r < QLL_ROUGHNESS_COUNT; r++) {
            const qll_pipe_run run = {
                .bore_m = bores[b], .length_m = 12, .roughness_m = roughnesses[r]};
            loss_rises(&run, &cold);
            loss_rises(&run, &hot);
        }
    }
}

TEST(splitting_a_pipe_in_two_leaves_the_loss_unchanged)
{
    const qll_water water = qll_water_at(15, 5e5);
    for (int b = 0; b < QLL_BORE_COUNT; b++) {
        const qll_pipe_run whole = {
            .bore_m = bores[b], .length_m = 37, .roughness_m = 7e-6, .minor_loss = 6.5};
        qll_pipe_run first = whole;
        qll_pipe_run second = whole;
        first.length_m = 11;
        first.minor_loss = 2.25;
        second.length_m = 26;
        second.minor_loss = 4.25;
        for (int i = 0; i < 10; i++) {
            double flow = 1e-5 * pow(2.2, i);
            CHECK_NEAR(qll_pipe_drop_pa(&first, flow, &water)
                           + qll_pipe_drop_pa(&second, flow, &water),
                       qll_pipe_drop_pa(&whole, flow, &water), 1e-14);
        }
    }
}

TEST(friction_is_continuous)
{
    const double joints[] = {2000, 4000};
    for (int r = 0; r < QLL_ROUGHNESS_COUNT; r++) {
        double roughness = roughnesses[r] / 0.02;
        for (int j = 0; j < 2; j++) {
            double below = qll_pipe_friction_factor(joints[j] * (1 - 1e-9), roughness);
            double above = qll_pipe_friction_factor(joints[j] * (1 + 1e-9), roughness);
            CHECK_NEAR(below, above, 1e-8);
        }
    }
}

TEST(friction_satisfies_its_own_equation)
{
    for (int i = 0; i < 60; i++) {
        double reynolds = 4000 * pow(1.4, i);
        for (int k = -1; k < 20; k++) {
            double roughness = k < 0 ? 0 : 1e-7 * pow(2, k);
            double x = 1 / sqrt(qll_pipe_friction_factor(reynolds, roughness));
            CHECK_NEAR(-2 * log10(roughness / 3.7 + 2.51 * x / reynolds), x, 1e-12);
        }
    }
}

TEST(rougher_pipe_loses_more)
{
    for (int i = 0; i < 40; i++) {
        double reynolds = 4000 * pow(1.3, i);
        for (int k = 0; k < 18; k++) {
            CHECK(qll_pipe_friction_factor(reynolds, 1e-7 * pow(2, k + 1))
                  > qll_pipe_friction_factor(reynolds, 1e-7 * pow(2, k)));
        }
    }
}

int main(void)
{
    TEST_RUN(loss_rises_with_flow);
    TEST_RUN(splitting_a_pipe_in_two_leaves_the_loss_unchanged);
    TEST_RUN(friction_is_continuous);
    TEST_RUN(friction_satisfies_its_own_equation);
    TEST_RUN(rougher_pipe_loses_more);
    return TEST_END();
}
