#include "check.h"
#include "dynamics/check_valve.h"
#include "dynamics/network.h"
#include "said.h"

#include <math.h>

static qll_arena *arena;
static qll_check_valve valve;

static const qll_joint joints[5];

static qll_line line_of(size_t from, size_t to, double length_m)
{
    return (qll_line){
        .from = from, .to = to, .length_m = length_m, .bore_m = 0.02, .wave_speed_m_s = 1000};
}

static qll_network network_of(const qll_line *lines, size_t count)
{
    return (qll_network){.lines = lines,
                         .line_count = count,
                         .joints = joints,
                         .joint_count = 5,
                         .density_kg_m3 = 1000};
}

/* Refused with one line, which is that one. */
static void check_refused(const qll_network *network, const char *path, const char *says)
{
    qll_problems problems = qll_problems_none(arena);
    CHECK(!qll_network_check(network, &problems));
    if (CHECK(problems.count == 1)) {
        CHECK_TEXT(said_problem(&problems, 0).place.path, path);
        CHECK_TEXT(said_problem(&problems, 0).text, says);
    }
}

TEST(pipe_that_cannot_be_is_refused)
{
    qll_line lines[] = {line_of(0, 1, 12), line_of(1, 2, 0)};
    const qll_network network = network_of(lines, 2);
    check_refused(&network, "pipes[1]",
                  "the pipe is 0 ft long; a length is over 0 and at most 32808 ft");
    lines[1] = line_of(1, 2, NAN);
    qll_problems problems = qll_problems_none(arena);
    CHECK(!qll_network_check(&network, &problems) && problems.count == 1);
    lines[1] = line_of(1, 2, 3);
    lines[1].bore_m = -0.02;
    problems = qll_problems_none(arena);
    CHECK(!qll_network_check(&network, &problems) && problems.count == 1);
    lines[1] = line_of(1, 2, 3);
    lines[1].wave_speed_m_s = 3000;
    problems = qll_problems_none(arena);
    CHECK(!qll_network_check(&network, &problems) && problems.count == 1);
    lines[1] = line_of(1, 2, 3);
    problems = qll_problems_none(arena);
    CHECK(qll_network_check(&network, &problems) && problems.count == 0);
}

TEST(loop_is_refused)
{
    static const char loop[] =
        "this closes a loop; pipes may only branch, so that water has one way from the main to each outlet";
    const qll_line ring[] = {line_of(0, 1, 5), line_of(1, 2, 5), line_of(2, 3, 5),
                             line_of(3, 1, 5)};
    qll_network network = network_of(ring, 4);
    check_refused(&network, "pipes[3]", loop);
    const qll_line twins[] = {line_of(0, 1, 5), line_of(1, 0, 5)};
    network = network_of(twins, 2);
    check_refused(&network, "pipes[1]", loop);
    const qll_line self[] = {line_of(2, 2, 5)};
    network = network_of(self, 1);
    check_refused(&network, "pipes[0]", loop);
    /* A valve across a pipe is a loop; two valves side by side are none. */
    const qll_line tree[] = {line_of(0, 1, 5), line_of(2, 3, 5)};
    network = network_of(tree, 2);
    qll_boundary valves[] = {{.kind = &qll_check_valve_kind, .state = &valve, .node = {1, 2}},
                             {.kind = &qll_check_valve_kind, .state = &valve, .node = {2, 1}},
                             {.kind = &qll_check_valve_kind, .state = &valve, .node = {0, 1}}};
    network.boundaries = valves;
    network.boundary_count = 2;
    qll_problems problems = qll_problems_none(arena);
    CHECK(qll_network_check(&network, &problems));
    network.boundary_count = 3;
    check_refused(&network, "boundaries[2]", loop);
}

TEST(longest_way_is_found)
{
    const qll_line lines[] = {line_of(0, 1, 5), line_of(1, 2, 7), line_of(3, 1, 4)};
    qll_network network = network_of(lines, 3);
    CHECK_NEAR(qll_network_longest_s(&network, arena), 0.012, 1e-12);
    const qll_boundary across = {.kind = &qll_check_valve_kind, .state = &valve, .node = {3, 4}};
    const qll_line more[] = {line_of(0, 1, 5), line_of(1, 2, 7), line_of(3, 1, 4)};
    network = network_of(more, 2);
    network.boundaries = &across;
    network.boundary_count = 1;
    CHECK_NEAR(qll_network_longest_s(&network, arena), 0.012, 1e-12);
    /* Joined by a valve, two parts are one. */
    const qll_line parts[] = {line_of(0, 3, 5), line_of(4, 2, 8), line_of(1, 3, 1)};
    network.lines = parts;
    network.line_count = 3;
    CHECK_NEAR(qll_network_longest_s(&network, arena), 0.013, 1e-12);
}

int main(void)
{
    arena = qll_arena_open((size_t)1 << 20);
    TEST_RUN(pipe_that_cannot_be_is_refused);
    TEST_RUN(loop_is_refused);
    TEST_RUN(longest_way_is_found);
    qll_arena_close(arena);
    return TEST_END();
}
