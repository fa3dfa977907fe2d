#include "physics/pipe.h"
#include "truth.h"

static bool check_row(const qll_table *rows, size_t row)
{
    const qll_water water = {.density_kg_m3 = 999.0, .viscosity_pa_s = 1.1212e-3};
    const qll_pipe_run run = {.bore_m = truth_number(rows, row, "bore_in") * 0.0254,
                              .length_m = 100 * 0.3048,
                              .roughness_m = 1.5e-6};
    double flow_m3s = truth_number(rows, row, "flow_gpm") * 6.30901964e-5;
    return CHECK_NEAR(qll_pipe_drop_pa(&run, flow_m3s, &water) / 6894.757293168361,
                      truth_number(rows, row, "loss_psi_per_100ft"),
                      truth_number(rows, row, "tolerance"));
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/copper_friction.csv", arena);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!check_row(&rows, row)) {
            printf("    in copper_friction.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
