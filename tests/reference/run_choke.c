#include "physics/valve.h"
#include "truth.h"

static bool check_row(const qll_table *rows, size_t row)
{
    const qll_water water = {.vapour_pressure_pa = truth_number(rows, row, "vapour_pressure_pa")};
    double inlet_pa = truth_number(rows, row, "inlet_pa");
    double drop_pa = qll_valve_choked_drop_pa(inlet_pa, truth_number(rows, row, "fl"), &water);
    double got = NAN;
    if (truth_is(rows, row, "quantity", "ff")) {
        got = qll_valve_ff(&water);
    } else if (truth_is(rows, row, "quantity", "drop")) {
        got = drop_pa;
    } else if (truth_is(rows, row, "quantity", "outlet")) {
        got = inlet_pa - drop_pa;
    }
    return CHECK_NEAR(got, truth_number(rows, row, "expected"),
                      truth_number(rows, row, "tolerance"));
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/choke.csv", arena);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!check_row(&rows, row)) {
            printf("    in choke.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
