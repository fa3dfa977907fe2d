/* Nodes of what is not known: docs/theory/recommendation.md, 3. */
#include "check.h"
#include "station/unknowns.h"

#include <math.h>

#define TEST_FLOWS 41

/* Classes a tenth apart in the logarithm, so that where a flow goes can be told by hand. */
typedef struct unknowns_scene {
    qll_arena *arena;
    double flow_m3s[TEST_FLOWS], time[TEST_FLOWS], volume[TEST_FLOWS];
    qll_duty duty;
    qll_unknowns unknowns;
} unknowns_scene;

static void scene_open(unknowns_scene *at)
{
    *at = (unknowns_scene){.arena = qll_arena_open(1 << 20)};
    for (size_t f = 0; f < TEST_FLOWS; f++) {
        at->flow_m3s[f] = 1e-4 * exp(0.1 * (double)f);
    }
    at->duty = (qll_duty){.flow_count = TEST_FLOWS,
                          .flow_m3s = at->flow_m3s,
                          .weight_time = at->time,
                          .weight_volume = at->volume,
                          .supply_count = QLL_SUPPLY_LEVELS};
}

static void scene_know(unknowns_scene *at, double factor)
{
    CHECK(qll_unknowns_make(&at->duty, factor, at->arena, &at->unknowns) == QLL_OK);
}

static double sum_of(const qll_unknowns *unknowns, size_t node)
{
    double sum = 0.0;
    for (size_t f = 0; f < unknowns->flow_count; f++) {
        sum += unknowns->flow_weight[f][node];
    }
    return sum;
}

static double mean_ln(const unknowns_scene *at, size_t node)
{
    double sum = 0.0;
    for (size_t f = 0; f < TEST_FLOWS; f++) {
        sum += at->unknowns.flow_weight[f][node] * log(at->flow_m3s[f]);
    }
    return sum;
}

TEST(a_weight_is_half_the_time_and_half_the_water)
{
    unknowns_scene at;
    scene_open(&at);
    /* Idle for 3/4: of the flowing time 0.6 at one flow and 0.4 at the other, of the water 0.1 and 0.9. */
    at.duty.idle_share = 0.75;
    at.time[15] = 0.15;
    at.time[20] = 0.10;
    at.volume[15] = 0.1;
    at.volume[20] = 0.9;
    scene_know(&at, 1.0);
    for (size_t f = 0; f < TEST_FLOWS; f++) {
        double want = f == 15 ? 0.35 : (f == 20 ? 0.65 : 0.0);
        CHECK_WITHIN(at.unknowns.flow_weight[f][2], want, 1e-12);
    }
    for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
        CHECK_NEAR(sum_of(&at.unknowns, i), 1.0, 1e-12);
    }
    qll_arena_close(at.arena);
}

/* Mean of the standard normal distribution over its fifths: (phi(a) - phi(b)) / 0.2, quantiles of tables. */
static double fifth_mean(size_t fifth)
{
    static const double bounds[] = {-INFINITY,          -0.8416212335729143, -0.2533471031357997,
                                    0.2533471031357997, 0.8416212335729143,  INFINITY};
    double low = exp(-0.5 * bounds[fifth] * bounds[fifth]);
    double high = exp(-0.5 * bounds[fifth + 1] * bounds[fifth + 1]);
    return (low - high) / sqrt(2.0 * 3.141592653589793) / 0.2;
}

/* A node moves the mean of the logarithm by 0.35 z: straight lines in the logarithm keep it. */
TEST(nodes_move_the_flows_by_the_means_of_the_fifths)
{
    unknowns_scene at;
    scene_open(&at);
    at.time[18] = 0.5;
    at.time[22] = 0.5;
    at.volume[18] = 0.25;
    at.volume[22] = 0.75;
    scene_know(&at, 1.0);
    double middle = mean_ln(&at, 2);
    for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
        CHECK_WITHIN(mean_ln(&at, i) - middle, 0.35 * fifth_mean(i), 2e-5);
    }
    qll_arena_close(at.arena);
}

TEST(beyond_the_ends_a_weight_stays_at_the_end)
{
    unknowns_scene at;
    scene_open(&at);
    at.time[1] = 0.5;
    at.time[TEST_FLOWS - 1] = 0.5;
    at.volume[1] = 0.5;
    at.volume[TEST_FLOWS - 1] = 0.5;
    scene_know(&at, 1.0);
    CHECK_NEAR(at.unknowns.flow_weight[0][0], 0.5, 1e-12); /* 0.1 above the end, moved by 0.49 */
    CHECK_NEAR(at.unknowns.flow_weight[TEST_FLOWS - 1][4], 0.5, 1e-12);
    CHECK_NEAR(sum_of(&at.unknowns, 0), 1.0, 1e-12);
    CHECK_NEAR(sum_of(&at.unknowns, 4), 1.0, 1e-12);
    qll_arena_close(at.arena);
}

TEST(a_demand_factor_moves_every_node_alike)
{
    unknowns_scene at;
    scene_open(&at);
    at.time[20] = 1.0;
    at.volume[20] = 1.0;
    double before[QLL_DEMAND_NODES];
    scene_know(&at, 1.0);
    for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
        before[i] = mean_ln(&at, i);
    }
    scene_know(&at, 2.0);
    for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
        CHECK_NEAR(mean_ln(&at, i) - before[i], log(2.0), 1e-9);
        CHECK_NEAR(sum_of(&at.unknowns, i), 1.0, 1e-12);
    }
    qll_arena_close(at.arena);
}

TEST(chances_end_at_one_and_supplies_lean_either_way)
{
    unknowns_scene at;
    scene_open(&at);
    at.time[20] = 1.0;
    at.volume[20] = 1.0;
    scene_know(&at, 1.0);
    const qll_unknowns *unknowns = &at.unknowns;
    double chance = 0.0;
    for (size_t k = 0; k < QLL_NODES; k++) {
        chance += unknowns->chance[k];
        double weight = 0.0;
        for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
            for (size_t f = 0; f < TEST_FLOWS; f++) {
                weight += qll_node_weight(unknowns, k, s, f);
            }
        }
        CHECK_NEAR(weight, 1.0, 1e-12);
    }
    CHECK_NEAR(chance, 1.0, 1e-12);
    static const double lean[QLL_SUPPLY_NODES][QLL_SUPPLY_LEVELS] = {
        {0.45, 0.5, 0.05}, {0.25, 0.5, 0.25}, {0.05, 0.5, 0.45}};
    for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
        double mean = 0.0;
        for (size_t n = 0; n < QLL_SUPPLY_NODES; n++) {
            CHECK_NEAR(unknowns->supply_weight[n][s], lean[n][s], 1e-12);
            mean += unknowns->chance[n * QLL_DEMAND_NODES] * QLL_DEMAND_NODES
                    * unknowns->supply_weight[n][s];
        }
        CHECK_NEAR(mean, s == 1 ? 0.5 : 0.25, 1e-12); /* the duty's own */
    }
    qll_arena_close(at.arena);
}

TEST(a_class_without_weight_is_told)
{
    unknowns_scene at;
    scene_open(&at);
    at.time[20] = 1.0;
    at.volume[20] = 1.0;
    scene_know(&at, 1.0);
    /* 0.35 z is 0.49 and 0.19: classes 15, 16; 18, 19; 20; 21, 22; 24, 25. */
    static const size_t some[] = {15, 16, 18, 19, 20, 21, 22, 24, 25};
    size_t next = 0;
    for (size_t f = 0; f < TEST_FLOWS; f++) {
        bool want = next < sizeof some / sizeof *some && some[next] == f;
        next += want ? 1 : 0;
        CHECK(at.unknowns.has_weight[f] == want);
    }
    qll_arena_close(at.arena);
}

/* Means of the quarters: quantile 0.6744897501960817. */
TEST(own_nodes_are_the_means_of_the_quarters)
{
    double inner = (1.0 - exp(-0.5 * 0.6744897501960817 * 0.6744897501960817))
                   / sqrt(2.0 * 3.141592653589793) / 0.25;
    double outer =
        exp(-0.5 * 0.6744897501960817 * 0.6744897501960817) / sqrt(2.0 * 3.141592653589793) / 0.25;
    const double want[QLL_OWN_NODES] = {-outer, -inner, inner, outer};
    unknowns_scene at;
    scene_open(&at);
    scene_know(&at, 1.0);
    for (size_t i = 0; i < QLL_OWN_NODES; i++) {
        CHECK_WITHIN(at.unknowns.own_deviate[i], want[i], 1e-4);
    }
    qll_arena_close(at.arena);
}

/* Half of the time and half of the water at each flow as they are, at whatever node. */
TEST(the_nominal_case_is_the_middle_of_everything)
{
    unknowns_scene at;
    scene_open(&at);
    at.time[10] = 0.75;
    at.time[30] = 0.25;
    at.volume[10] = 0.5;
    at.volume[30] = 0.5;
    CHECK(qll_unknowns_nominal(&at.duty, at.arena, &at.unknowns) == QLL_OK);
    for (size_t k = 0; k < QLL_NODES; k++) {
        CHECK_WITHIN(qll_node_weight(&at.unknowns, k, 1, 10), 0.5 * 0.625, 1e-12);
        CHECK_WITHIN(qll_node_weight(&at.unknowns, k, 0, 30), 0.25 * 0.375, 1e-12);
        CHECK_WITHIN(qll_node_weight(&at.unknowns, k, 2, 30), 0.25 * 0.375, 1e-12);
        CHECK(qll_node_weight(&at.unknowns, k, 1, 20) == 0.0);
    }
    for (size_t d = 0; d < QLL_OWN_NODES; d++) {
        CHECK(at.unknowns.own_deviate[d] == 0.0);
    }
    qll_arena_close(at.arena);
}

TEST(without_memory_it_says_so)
{
    unknowns_scene at;
    scene_open(&at);
    qll_arena *small = qll_arena_open(64);
    CHECK(qll_unknowns_make(&at.duty, 1.0, small, &at.unknowns) == QLL_NO_MEMORY);
    qll_arena_close(small);
    qll_arena_close(at.arena);
}

/* The volumes of hospitals lie between 188 and 816 gal: ln(816/188)/2.5631 = 0.5727, with 0.30 of people
 * 0.6465; beside it a scenario of the same weight whose volume is given, 0.35. A node moves by its deviate
 * times that. */
TEST(a_volume_that_nobody_knows_spreads_the_demand)
{
    unknowns_scene at;
    scene_open(&at);
    at.time[20] = 1.0;
    at.volume[20] = 1.0;
    const qll_duty_scenario scenarios[] = {{.weight = 1.0, .volume_ln_sigma = 0.5727},
                                           {.weight = 1.0}};
    at.duty.scenarios = scenarios;
    at.duty.scenario_count = 1;
    scene_know(&at, 1.0);
    CHECK_WITHIN(mean_ln(&at, 4) - mean_ln(&at, 2), 1.3998 * 0.6465, 1e-4);
    at.duty.scenario_count = 2;
    scene_know(&at, 1.0);
    CHECK_WITHIN(mean_ln(&at, 4) - mean_ln(&at, 2), 1.3998 * (0.6465 + 0.35) / 2.0, 1e-4);
    qll_arena_close(at.arena);
}

int main(void)
{
    TEST_RUN(a_weight_is_half_the_time_and_half_the_water);
    TEST_RUN(nodes_move_the_flows_by_the_means_of_the_fifths);
    TEST_RUN(beyond_the_ends_a_weight_stays_at_the_end);
    TEST_RUN(a_demand_factor_moves_every_node_alike);
    TEST_RUN(chances_end_at_one_and_supplies_lean_either_way);
    TEST_RUN(a_class_without_weight_is_told);
    TEST_RUN(own_nodes_are_the_means_of_the_quarters);
    TEST_RUN(the_nominal_case_is_the_middle_of_everything);
    TEST_RUN(without_memory_it_says_so);
    TEST_RUN(a_volume_that_nobody_knows_spreads_the_demand);
    return TEST_END();
}
