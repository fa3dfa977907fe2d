#include "physics/valve.h"
#include "truth.h"

static bool check_row(const qll_table *rows, size_t row)
{
    const qll_water water = {.density_kg_m3 = truth_number(rows, row, "density_kg_m3"),
                             .vapour_pressure_pa = truth_number(rows, row, "vapour_pressure_pa")};
    double flow_m3s = truth_number(rows, row, "flow_m3h") / 3600;
    double inlet_pa = truth_number(rows, row, "inlet_pa");
    double outlet_pa = truth_number(rows, row, "outlet_pa");
    double fl = truth_number(rows, row, "fl");
    double kv = truth_number(rows, row, "kv_m3h");
    double tolerance = truth_number(rows, row, "tolerance");
    bool holds =
        CHECK_NEAR(qll_valve_kv_m3h(flow_m3s, inlet_pa, outlet_pa, fl, &water), kv, tolerance);
    return CHECK_NEAR(qll_valve_flow_m3s(kv, inlet_pa, outlet_pa, fl, &water), flow_m3s, tolerance)
           && holds;
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/valve_sizing.csv", arena);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!check_row(&rows, row)) {
            printf("    in valve_sizing.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
