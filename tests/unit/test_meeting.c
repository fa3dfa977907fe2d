#include "base/random.h"
#include "check.h"
#include "dynamics/check_valve.h"
#include "dynamics/meeting.h"
#include "dynamics/opening.h"

static qll_arena *arena;

static qll_boundary between(qll_check_valve *valve, size_t from, size_t to)
{
    return (qll_boundary){.kind = &qll_check_valve_kind, .state = valve, .node = {from, to}};
}

static qll_meeting_node free_node(double start_pa)
{
    return (qll_meeting_node){.vapour_pa_gauge = -INFINITY, .pressure_pa_gauge = start_pa};
}

static qll_meeting_node held_node(double held_pa)
{
    return (qll_meeting_node){
        .arrival = {.pressure_pa_gauge = held_pa, .admittance_m3s_pa = INFINITY},
        .vapour_pa_gauge = -INFINITY};
}

static const qll_instant a_step = {.time_s = 1, .step_s = 1e-3};

/* A pipe alone gives its arriving pressure; two give the mean by admittance (nothing to solve). */
TEST(node_without_boundaries_takes_what_arrives)
{
    qll_meeting *meeting = NULL;
    CHECK(qll_meeting_make(NULL, 0, 1, arena, &meeting) == QLL_OK);
    qll_meeting_node node = free_node(0);
    node.arrival = (qll_arrival){3e5, 1e-9};
    qll_meeting_end_step(meeting, &node, &a_step);
    CHECK_NEAR(node.pressure_pa_gauge, 3e5, 1e-15);
    CHECK(node.outflow_m3s == 0);
}

/* Valves side by side count as one with the sum of their coefficients; in series with 1/sqrt(sum 1/k2). */
TEST(side_by_side_and_in_series)
{
    qll_check_valve small = {.coefficient = 1e-6}, large = {.coefficient = 3e-6};
    qll_opening tap = {.coefficient = 2e-6, .at_first = 1};
    qll_boundary list[] = {between(&small, 0, 1),
                           between(&large, 0, 1),
                           {.kind = &qll_opening_kind, .state = &tap, .node = {1}}};
    qll_meeting *meeting = NULL;
    CHECK(qll_meeting_make(list, 3, 2, arena, &meeting) == QLL_OK);
    qll_meeting_node nodes[] = {held_node(8e5), free_node(1e5)};
    qll_meeting_end_step(meeting, nodes, &a_step);
    /* 16 (8e5 - p) = 4 p */
    CHECK_NEAR(nodes[1].pressure_pa_gauge, 6.4e5, 1e-7);
    CHECK_WITHIN(nodes[1].outflow_m3s, 0, 1e-15);
    CHECK_NEAR(nodes[0].outflow_m3s, 2e-6 * sqrt(6.4e5), 1e-7);

    qll_boundary chain[] = {between(&large, 0, 2),
                            between(&large, 2, 1),
                            {.kind = &qll_opening_kind, .state = &tap, .node = {1}}};
    CHECK(qll_meeting_make(chain, 3, 3, arena, &meeting) == QLL_OK);
    qll_meeting_node row[] = {held_node(8e5), free_node(0), free_node(0)};
    qll_meeting_end_step(meeting, row, &a_step);
    const double flow = sqrt(8e5 / (2 / 9.0 + 1 / 4.0)) * 1e-6;
    CHECK_NEAR(row[0].outflow_m3s, flow, 1e-7);
    CHECK_NEAR(row[2].pressure_pa_gauge - row[1].pressure_pa_gauge, flow * flow / 9e-12, 1e-6);
}

TEST(nothing_goes_back_through_a_check_valve)
{
    qll_check_valve valve = {.coefficient = 1e-6, .opens_pa = 3e3};
    qll_boundary list[] = {between(&valve, 0, 1)};
    qll_meeting *meeting = NULL;
    CHECK(qll_meeting_make(list, 1, 2, arena, &meeting) == QLL_OK);
    qll_meeting_node nodes[] = {free_node(0), free_node(0)};
    nodes[0].arrival = (qll_arrival){3e5, 1e-9};
    nodes[1].arrival = (qll_arrival){4e5, 1e-9};
    qll_meeting_end_step(meeting, nodes, &a_step);
    CHECK_NEAR(nodes[0].pressure_pa_gauge, 3e5, 1e-12);
    CHECK_NEAR(nodes[1].pressure_pa_gauge, 4e5, 1e-12);
    nodes[0].arrival.pressure_pa_gauge = 4.02e5; /* not yet what opens it */
    qll_meeting_end_step(meeting, nodes, &a_step);
    CHECK_NEAR(nodes[1].pressure_pa_gauge, 4e5, 1e-12);
    nodes[0].arrival.pressure_pa_gauge = 5e5;
    qll_meeting_end_step(meeting, nodes, &a_step);
    /* Both sides see the same flow: k sqrt(p0 - p1 - opens) = y (5e5 - p0) = y (p1 - 4e5). */
    const double flow = 1e-9 * (5e5 - nodes[0].pressure_pa_gauge);
    CHECK(flow > 1e-5);
    CHECK_NEAR(1e-9 * (nodes[1].pressure_pa_gauge - 4e5), flow, 1e-9);
    CHECK_NEAR(1e-6 * sqrt(nodes[0].pressure_pa_gauge - nodes[1].pressure_pa_gauge - 3e3), flow,
               1e-5);
}

/* A vacuum asked for: vapor holds the pressure and takes the room, and gives it back. */
TEST(vapour_takes_room_and_gives_it_back)
{
    qll_meeting *meeting = NULL;
    CHECK(qll_meeting_make(NULL, 0, 1, arena, &meeting) == QLL_OK);
    qll_meeting_node node = free_node(0);
    node.vapour_pa_gauge = -1e5;
    node.arrival = (qll_arrival){-3e5, 1e-9};
    qll_meeting_end_step(meeting, &node, &a_step);
    CHECK_NEAR(node.pressure_pa_gauge, -1e5, 1e-15);
    CHECK_NEAR(node.cavity_m3, 1e-3 * 1e-9 * 2e5, 1e-12);
    node.arrival.pressure_pa_gauge = 0; /* half of it comes back */
    qll_meeting_end_step(meeting, &node, &a_step);
    CHECK_NEAR(node.pressure_pa_gauge, -1e5, 1e-15);
    CHECK_NEAR(node.cavity_m3, 1e-7, 1e-9);
    node.arrival.pressure_pa_gauge = 2e5; /* would bring 3e-7 at the vapor's pressure */
    qll_meeting_end_step(meeting, &node, &a_step);
    CHECK(node.cavity_m3 == 0);
    CHECK_NEAR(node.pressure_pa_gauge, 1e5, 1e-9);
}

TEST(ring_is_refused)
{
    qll_check_valve valve = {.coefficient = 1e-6};
    qll_boundary ring[] = {between(&valve, 0, 1), between(&valve, 1, 2), between(&valve, 2, 0)};
    qll_meeting *meeting = NULL;
    CHECK(qll_meeting_make(ring, 3, 3, arena, &meeting) == QLL_REFUSED);
    CHECK(qll_meeting_make(ring, 2, 3, arena, &meeting) == QLL_OK);
    qll_boundary twice[] = {between(&valve, 0, 1), between(&valve, 1, 0), between(&valve, 1, 2)};
    CHECK(qll_meeting_make(twice, 3, 3, arena, &meeting) == QLL_OK);
}

enum {
    QLL_MANY = 40
};

/* Trees drawn at random, valves either way, with pipes and taps: nothing is left over anywhere. */
TEST(nothing_is_left_over)
{
    qll_random random = qll_random_seeded(7);
    double worst = 0;
    for (int run = 0; run < 300; run++) {
        const qll_arena_mark mark = qll_arena_now(arena);
        qll_check_valve valves[QLL_MANY];
        qll_opening taps[QLL_MANY];
        qll_boundary list[2 * QLL_MANY];
        qll_meeting_node nodes[QLL_MANY];
        size_t count = 0;
        for (size_t n = 0; n < QLL_MANY; n++) {
            nodes[n] = free_node(3e5);
            nodes[n].vapour_pa_gauge = -1e5;
            nodes[n].arrival =
                (qll_arrival){-2e5 + 1.2e6 * qll_random_unit(&random),
                              qll_random_unit(&random) < 0.3 ? 0 : 1e-9 * qll_random_unit(&random)};
            taps[n] = (qll_opening){.coefficient = 1e-6 * qll_random_unit(&random), .at_first = 1};
            list[count++] =
                (qll_boundary){.kind = &qll_opening_kind, .state = &taps[n], .node = {n}};
            if (n > 0) {
                const size_t other = (size_t)((double)n * qll_random_unit(&random));
                const bool forth = qll_random_unit(&random) < 0.5;
                valves[n] =
                    (qll_check_valve){.coefficient = pow(10, -8 + 4 * qll_random_unit(&random)),
                                      .opens_pa = qll_random_unit(&random) < 0.5 ? 0 : 5e3};
                list[count++] = between(&valves[n], forth ? other : n, forth ? n : other);
            }
        }
        qll_meeting *meeting = NULL;
        CHECK(qll_meeting_make(list, count, QLL_MANY, arena, &meeting) == QLL_OK);
        qll_meeting_end_step(meeting, nodes, &a_step);
        for (size_t n = 0; n < QLL_MANY; n++) {
            const double in_m3s =
                nodes[n].arrival.admittance_m3s_pa
                * (nodes[n].arrival.pressure_pa_gauge - nodes[n].pressure_pa_gauge);
            const double off = nodes[n].outflow_m3s - in_m3s - nodes[n].cavity_m3 / a_step.step_s;
            worst = fmax(worst, fabs(off));
            CHECK(nodes[n].pressure_pa_gauge >= -1e5);
            CHECK(nodes[n].cavity_m3 == 0 || nodes[n].pressure_pa_gauge == -1e5);
        }
        qll_arena_reset(arena, mark);
    }
    printf("    off by %.2g m3/s at most\n", worst);
    CHECK(worst < 1e-12);
}

int main(void)
{
    arena = qll_arena_open((size_t)16 << 20);
    TEST_RUN(node_without_boundaries_takes_what_arrives);
    TEST_RUN(side_by_side_and_in_series);
    TEST_RUN(nothing_goes_back_through_a_check_valve);
    TEST_RUN(vapour_takes_room_and_gives_it_back);
    TEST_RUN(ring_is_refused);
    TEST_RUN(nothing_is_left_over);
    qll_arena_close(arena);
    return TEST_END();
}
