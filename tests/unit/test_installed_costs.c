/* Money: docs/theory/recommendation.md, 2. */
#include "check.h"
#include "station/costs.h"

#define TEST_INCH 0.0254

static const qll_size_cost sizes[] = {
    {1.0 * TEST_INCH, 200.0, 140.0, 230.0, 1500.0},
    {2.0 * TEST_INCH, 380.0, 300.0, 900.0, 2400.0},
    {3.0 * TEST_INCH, 850.0, 600.0, 2450.0, 3500.0},
};
static const qll_costs costs = {.visit = 400.0, .stage = 120.0, .sizes = sizes, .size_count = 3};

static qll_valve valve_of(double inches, double price)
{
    return (qll_valve){.nominal_m = inches * TEST_INCH, .price = price};
}

TEST(between_sizes_costs_lie_on_straight_lines)
{
    CHECK_NEAR(qll_costs_branch(&costs, 1.0 * TEST_INCH), 200.0, 1e-12);
    CHECK_NEAR(qll_costs_branch(&costs, 1.25 * TEST_INCH), 245.0, 1e-12);
    CHECK_NEAR(qll_costs_branch(&costs, 2.5 * TEST_INCH), 615.0, 1e-12);
    CHECK_NEAR(qll_costs_branch(&costs, 0.5 * TEST_INCH), 200.0, 1e-12);
    CHECK_NEAR(qll_costs_branch(&costs, 6.0 * TEST_INCH), 850.0, 1e-12);
    CHECK_NEAR(qll_costs_beside(&costs, 1.5 * TEST_INCH), 220.0, 1e-12);
    CHECK_NEAR(qll_costs_beside(&costs, NAN), 140.0, 1e-12);
}

TEST(a_missing_price_is_that_of_size_and_kind)
{
    qll_valve valve = valve_of(1.5, 512.0);
    CHECK_NEAR(qll_costs_valve(&costs, &valve), 512.0, 1e-12);
    CHECK_NEAR(qll_costs_part(&costs, &valve), 512.0 + 290.0, 1e-12);
    valve.price = NAN;
    CHECK_NEAR(qll_costs_valve(&costs, &valve), 565.0, 1e-12);
    valve.acting = QLL_ACTING_PILOT;
    CHECK_NEAR(qll_costs_valve(&costs, &valve), 1950.0, 1e-12);
    valve.price = 0.0; /* a gift is a price */
    CHECK_NEAR(qll_costs_valve(&costs, &valve), 0.0, 1e-12);
}

/* Two stages, 1 in and 2 in side by side before a 2 in, in a 2 in pipe. */
TEST(a_station_is_its_parts_what_is_beside_and_its_stages)
{
    const qll_valve valves[] = {valve_of(1.0, 250.0), valve_of(2.0, NAN), valve_of(2.0, 1000.0)};
    const qll_branch branches[] = {
        {.valve = &valves[0]}, {.valve = &valves[1]}, {.valve = &valves[2]}};
    const qll_stage stages[] = {{.branches = branches, .branch_count = 2},
                                {.branches = branches + 2, .branch_count = 1}};
    const qll_station one = {stages + 1, 1};
    const qll_station both = {stages, 2};
    CHECK_NEAR(qll_costs_installed(&costs, &one, 2.0 * TEST_INCH), 1380.0, 1e-12);
    CHECK_NEAR(qll_costs_installed(&costs, &both, 2.0 * TEST_INCH),
               (250.0 + 200.0) + (900.0 + 380.0) + 300.0 + 120.0 + (1000.0 + 380.0), 1e-12);
    CHECK_NEAR(qll_costs_once(&costs, &both), 400.0 + 1380.0, 1e-12); /* the dearest */
    CHECK_NEAR(qll_costs_list_price(&one), 1000.0, 1e-12);
    CHECK(isnan(qll_costs_list_price(&both)));
}

/* What is put in again comes back with the same chance: 1 + p + p^2 + ... */
TEST(callbacks_bring_callbacks)
{
    static const double shares[] = {0.0, 0.05, 0.4, 0.9};
    for (size_t i = 0; i < sizeof shares / sizeof *shares; i++) {
        double sum = 0.0;
        double chance = 1.0;
        for (int n = 0; n < 1000; n++) {
            sum += chance * 700.0;
            chance *= shares[i];
        }
        CHECK_NEAR(qll_costs_callback(700.0, shares[i]), sum, 1e-9);
    }
    CHECK_NEAR(qll_costs_callback(700.0, 1.0), 70000.0, 1e-9); /* a hundred times at most */
    CHECK_NEAR(qll_costs_callback(700.0, 0.99), 70000.0, 1e-9);
}

int main(void)
{
    TEST_RUN(between_sizes_costs_lie_on_straight_lines);
    TEST_RUN(a_missing_price_is_that_of_size_and_kind);
    TEST_RUN(a_station_is_its_parts_what_is_beside_and_its_stages);
    TEST_RUN(callbacks_bring_callbacks);
    return TEST_END();
}
