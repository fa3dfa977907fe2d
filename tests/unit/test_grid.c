#include "check.h"
#include "dynamics/grid.h"

#include <math.h>

static qll_arena *arena;

static qll_grid choose(const double *travel_s, size_t count, double longest_s,
                       qll_grid_limits limits)
{
    qll_grid grid = {0};
    CHECK(qll_grid_choose(travel_s, count, longest_s, &limits, arena, &grid) == QLL_OK);
    return grid;
}

/* Times in whole numbers of one step: no speed is moved. */
TEST(whole_numbers_stay_exact)
{
    const double travel_s[] = {6e-3, 15e-3, 21e-3};
    const qll_grid grid = choose(travel_s, 3, 42e-3, (qll_grid_limits){0});
    CHECK_NEAR(grid.step_s, 3e-3, 1e-12);
    CHECK(grid.pipes[0].cells == 2 && grid.pipes[1].cells == 5 && grid.pipes[2].cells == 7);
    CHECK(grid.speed_off_most < 1e-12 && grid.is_within && grid.cells == 14);
}

/* Every speed it moves is listed, with N dt = L/a'. */
TEST(speeds_are_moved_within_the_limit)
{
    const double travel_s[] = {1.713e-3, 7.0311e-3, 22.771e-3, 3.1415e-3, 40.33e-3};
    const qll_grid grid = choose(travel_s, 5, 60e-3, (qll_grid_limits){0});
    CHECK(grid.is_within && grid.speed_off_most <= 0.01);
    double worst = 0;
    size_t cells = 0;
    for (int i = 0; i < 5; i++) {
        const qll_grid_pipe *pipe = &grid.pipes[i];
        CHECK_NEAR((double)pipe->cells * grid.step_s, travel_s[i] / (1 + pipe->speed_off), 1e-12);
        CHECK(pipe->lumped_5_percent_s == 0);
        worst = fmax(worst, fabs(pipe->speed_off));
        cells += pipe->cells;
    }
    CHECK_NEAR(grid.speed_off_most, worst, 1e-12);
    CHECK(grid.cells == cells);
    const qll_grid fine = choose(travel_s, 5, 60e-3, (qll_grid_limits){.speed_off_most = 0.001});
    CHECK(fine.is_within && fine.speed_off_most <= 0.001 && fine.step_s < grid.step_s);
    const qll_grid few = choose(travel_s, 5, 60e-3, (qll_grid_limits){.cells_most = 60});
    CHECK(!few.is_within && few.cells <= 60);
    const qll_grid given = choose(travel_s, 5, 60e-3, (qll_grid_limits){.step_most_s = 1e-4});
    CHECK(given.step_s <= 1e-4 && given.step_s > 0.9e-4);
}

/* A stub does not force its step upon all: it is one piece, right from some time on. */
TEST(stub_is_lumped)
{
    const double travel_s[] = {20e-3, 0.05e-3, 30e-3};
    const qll_grid grid = choose(travel_s, 3, 50e-3, (qll_grid_limits){0});
    CHECK(grid.pipes[1].cells == 0 && grid.pipes[1].speed_off == 0);
    CHECK(grid.step_s > 1e-3);
    const double w = 3.14159265358979323846 / grid.pipes[1].lumped_5_percent_s;
    CHECK_NEAR(w * w * 0.05e-3 * 0.05e-3 / 6 + w * grid.step_s / 2, 0.05, 1e-9);
    const qll_grid all = choose(travel_s, 3, 50e-3, (qll_grid_limits){.lumped_s = 0.01e-3});
    CHECK(all.pipes[1].cells > 0 && all.step_s <= 0.05e-3);
    const qll_grid none = choose(travel_s, 3, 50e-3, (qll_grid_limits){.lumped_s = 1});
    CHECK(none.cells == 0 && none.step_s > 0);
}

int main(void)
{
    arena = qll_arena_open((size_t)1 << 20);
    TEST_RUN(whole_numbers_stay_exact);
    TEST_RUN(speeds_are_moved_within_the_limit);
    TEST_RUN(stub_is_lumped);
    qll_arena_close(arena);
    return TEST_END();
}
