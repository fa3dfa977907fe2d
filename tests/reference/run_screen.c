#include "physics/fitting.h"
#include "physics/pipe.h"
#include "truth.h"

/* A screen of the wanted open share with openings of 1 mm, and the flow that gives the wanted
 * Reynolds number in them. */
static bool check_row(const qll_table *rows, size_t row)
{
    const qll_water water = {.density_kg_m3 = 1000, .viscosity_pa_s = 1e-3};
    const double opening_m = 1e-3;
    const double bore_m = 0.05;
    double share = truth_number(rows, row, "open_share");
    const qll_screen screen = {
        .opening_m = opening_m, .wire_m = opening_m / sqrt(share) - opening_m, .area_ratio = 3};
    double through = truth_number(rows, row, "reynolds") * 1e-3 / (1000 * opening_m);
    double approach = through * share;
    /* velocity of 1 m3/s is one over the pipe's area */
    double flow_m3s = approach * screen.area_ratio / qll_pipe_velocity_m_s(1, bore_m);
    double drop_pa = qll_screen_drop_pa(&screen, bore_m, 0, flow_m3s, &water);
    return CHECK_NEAR(drop_pa / (1000 * approach * approach / 2), truth_number(rows, row, "k"),
                      truth_number(rows, row, "tolerance"));
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/screen.csv", arena);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!check_row(&rows, row)) {
            printf("    in screen.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
