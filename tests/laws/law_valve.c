#include "check.h"
#include "physics/cavitation.h"
#include "physics/valve.h"

static const double inlets[] = {2e5, 4e5, 7e5, 1.2e6, 2.5e6};
static const double shares[] = {0.05, 0.3, 0.5, 0.7, 0.9, 0.99};

enum {
    QLL_INLET_COUNT = 5,
    QLL_SHARE_COUNT = 6
};

TEST(flow_never_falls_with_the_inlet_nor_rises_with_the_outlet)
{
    const qll_water water = qll_water_at(15, 101325);
    for (int f = 0; f < 3; f++) {
        double fl = 0.6 + 0.15 * f;
        for (int i = 0; i < 200; i++) {
            double outlet = 1e5 + 5e3 * i;
            double before = 0;
            for (int k = 0; k < 100; k++) {
                double now = qll_valve_flow_m3s(5, 1e5 + 2e4 * k, outlet, fl, &water);
                CHECK(now >= before);
                CHECK(now >= qll_valve_flow_m3s(5, 1e5 + 2e4 * k, outlet + 5e3, fl, &water));
                before = now;
            }
        }
    }
}

TEST(kv_to_flow_to_kv_is_identity)
{
    for (int t = 0; t <= 100; t += 20) {
        const qll_water water = qll_water_at(t, 5e5);
        for (int i = 0; i < QLL_INLET_COUNT; i++) {
            for (int s = 0; s < QLL_SHARE_COUNT; s++) {
                double outlet = inlets[i] * shares[s];
                double flow = qll_valve_flow_m3s(3.7, inlets[i], outlet, 0.9, &water);
                CHECK_NEAR(qll_valve_kv_m3h(flow, inlets[i], outlet, 0.9, &water), 3.7, 1e-14);
            }
        }
    }
}

TEST(flow_does_not_grow_beyond_the_choke)
{
    const qll_water water = qll_water_at(60, 101325);
    for (int i = 0; i < QLL_INLET_COUNT; i++) {
        double choked = qll_valve_choked_drop_pa(inlets[i], 0.8, &water);
        double at = qll_valve_flow_m3s(1, inlets[i], inlets[i] - choked, 0.8, &water);
        CHECK_NEAR(qll_valve_flow_m3s(1, inlets[i], inlets[i] - 1.1 * choked, 0.8, &water), at,
                   1e-12);
        CHECK(qll_valve_flow_m3s(1, inlets[i], inlets[i] - 0.99 * choked, 0.8, &water) < at);
    }
}

static double margin(double inlet, double outlet, double vapour, double xfz, bool scaled)
{
    double xf = (inlet - outlet) / (inlet - vapour);
    return xf / (scaled ? qll_xfz_scaled(xfz, inlet) : xfz);
}

static void split_has_equal_margins(size_t stages, const double *trims, bool scaled)
{
    const double vapour = 1767.7;
    double p[5] = {1.8e6};
    p[stages] = 3e5;
    CHECK(qll_stage_split(p[0], p[stages], vapour, stages, trims, scaled, &p[1]));
    double first = margin(p[0], p[1], vapour, trims == NULL ? 1 : trims[0], scaled);
    for (size_t i = 1; i < stages; i++) {
        CHECK(p[i] < p[i - 1] && p[i] > p[stages]);
        CHECK_NEAR(margin(p[i], p[i + 1], vapour, trims == NULL ? 1 : trims[i], scaled), first,
                   1e-10);
    }
}

TEST(split_margins_are_equal)
{
    const double trims[] = {0.6, 0.35, 0.5, 0.44};
    for (size_t stages = 2; stages <= 4; stages++) {
        split_has_equal_margins(stages, NULL, false);
        split_has_equal_margins(stages, NULL, true);
        split_has_equal_margins(stages, trims, false);
        split_has_equal_margins(stages, trims, true);
    }
}

TEST(estimated_onset_falls_as_the_valve_opens)
{
    double before = 1;
    for (int i = 0; i < 60; i++) {
        double now = qll_xfz_estimate(0.01 * pow(1.2, i), 0.9, 0.46);
        CHECK(now < before && now > 0);
        before = now;
    }
}

TEST(least_stable_flow_rises_with_drop_and_with_outlet)
{
    for (int i = 0; i < 14; i++) {
        for (int j = 0; j < 12; j++) {
            double drop_pa = 1e4 * pow(1.5, i);
            double outlet_pa = 1e4 * pow(1.5, j);
            double here = qll_stability_measure(drop_pa, outlet_pa);
            CHECK(here > 0 && here < qll_stability_measure(1.01 * drop_pa, outlet_pa));
            CHECK(here < qll_stability_measure(drop_pa, 1.01 * outlet_pa));
        }
    }
    CHECK(qll_stability_measure(0, 1e5) == 0 && qll_stability_measure(1e5, -1) == 0);
    CHECK(isnan(qll_stability_measure(NAN, 1e5)) && isnan(qll_stability_measure(1e5, NAN)));
}

int main(void)
{
    TEST_RUN(flow_never_falls_with_the_inlet_nor_rises_with_the_outlet);
    TEST_RUN(kv_to_flow_to_kv_is_identity);
    TEST_RUN(flow_does_not_grow_beyond_the_choke);
    TEST_RUN(split_margins_are_equal);
    TEST_RUN(estimated_onset_falls_as_the_valve_opens);
    TEST_RUN(least_stable_flow_rises_with_drop_and_with_outlet);
    return TEST_END();
}
