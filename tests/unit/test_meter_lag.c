#include "check.h"
#include "demand/meter_lag.h"

/* A step of 1: after one time constant 1 - 1/e is shown, whatever the interval, in one piece or two. */
TEST(a_step_comes_by_one_time_constant)
{
    static const double intervals_s[] = {1.0, 4.0, 20.0};
    for (size_t i = 0; i < 3; i++) {
        double flow[40] = {0};
        const size_t count = (size_t)(40.0 / intervals_s[i]);
        for (size_t j = 0; j < count; j++) {
            flow[j] = 1.0;
        }
        qll_meter_lag meter = {.lag_s = 20.0};
        const size_t half = count / 2;
        qll_meter_lag_show(&meter, intervals_s[i], flow, half);
        qll_meter_lag_show(&meter, intervals_s[i], flow + half, count - half);
        CHECK_NEAR(flow[half - 1], 1.0 - exp(-1.0), 1e-12);
        CHECK_NEAR(flow[count - 1], 1.0 - exp(-2.0), 1e-12);
    }
}

/* What ran is shown in full in the end: the sum is kept but for what is too small to show. */
TEST(water_is_kept_and_trickles_are_not_shown)
{
    double flow[600] = {0};
    for (size_t s = 0; s < 30; s++) {
        flow[s] = 2.0;
    }
    qll_meter_lag meter = {.lag_s = 18.7};
    qll_meter_lag_show(&meter, 1.0, flow, 600);
    double sum = 0.0;
    for (size_t s = 0; s < 600; s++) {
        sum += flow[s];
    }
    CHECK_NEAR(sum, 60.0, 1e-9);
    double decay[200] = {1.0};
    qll_meter_lag coarse = {.lag_s = 20.0, .least_m3s = 0.01, .level_m3s = 1.0};
    decay[0] = 0.0;
    qll_meter_lag_show(&coarse, 1.0, decay, 200);
    /* e^(-t/20) passes 0.01 at 92.1 s */
    CHECK(decay[91] > 0.01 && decay[92] == 0.0);
}

TEST(without_a_lag_nothing_changes)
{
    double flow[] = {0.0, 3.0, 0.5};
    qll_meter_lag meter = {0};
    qll_meter_lag_show(&meter, 1.0, flow, 3);
    CHECK(flow[0] == 0.0 && flow[1] == 3.0 && flow[2] == 0.5);
}

int main(void)
{
    TEST_RUN(a_step_comes_by_one_time_constant);
    TEST_RUN(water_is_kept_and_trickles_are_not_shown);
    TEST_RUN(without_a_lag_nothing_changes);
    return TEST_END();
}
