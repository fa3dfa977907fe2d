#include "check.h"
#include "demand/change.h"

/* Two invented days: figures by hand. */
TEST(a_change_is_after_over_before)
{
    static const qll_duration_point many[] = {{0, 0.2, 0}, {1e-3, 0.9, 0.5}, {4e-3, 1, 1}};
    static const qll_duration_point few[] = {{0, 0.6, 0}, {2e-4, 0.995, 0.8}, {1e-3, 1, 1}};
    const qll_demand before = {
        .peak_m3s = 8e-3, .day = {.duration = {many, 3, .idle_share = 0.2, .mean_m3s = 1.1e-3}}};
    const qll_demand after = {.peak_m3s = 2e-3,
                              .day = {.duration = {few, 3, .idle_share = 0.6, .mean_m3s = 1.1e-4}}};
    const qll_demand_change change = qll_demand_change_of(&before, &after, 5e-4);
    CHECK_NEAR(change.peak_ratio, 0.25, 1e-12);
    CHECK_NEAR(change.mean_ratio, 0.1, 1e-12);
    CHECK(change.before.quantile_m3s == 4e-3 && change.after.quantile_m3s == 2e-4);
    CHECK_NEAR(change.quantile_ratio, 0.05, 1e-12);
    CHECK(change.before.below_share == 0.2 && change.after.below_share == 0.995);
    CHECK_NEAR(change.below_rise, 0.795, 1e-12);
    CHECK(change.before.idle_share == 0.2 && change.after.idle_share == 0.6);
    static const qll_duration_point idle[] = {{0, 1, 1}};
    const qll_demand none = {.day = {.duration = {idle, 1, .idle_share = 1}}};
    CHECK(isnan(qll_demand_change_of(&none, &after, 1e-3).peak_ratio));
}

int main(void)
{
    TEST_RUN(a_change_is_after_over_before);
    return TEST_END();
}
