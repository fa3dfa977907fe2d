#include "physics/stability.h"
#include "truth.h"

static const double bar_pa = 1e5;

static bool check_row(const qll_table *rows, size_t row)
{
    qll_stability_point sheet = {truth_number(rows, row, "reference_drop_bar") * bar_pa,
                                 truth_number(rows, row, "reference_outlet_bar") * bar_pa};
    qll_stability_point here = {truth_number(rows, row, "drop_bar") * bar_pa,
                                truth_number(rows, row, "outlet_bar") * bar_pa};
    double ratio = qll_stability_measure(here.drop_pa, here.outlet_pa_gauge)
                   / qll_stability_measure(sheet.drop_pa, sheet.outlet_pa_gauge);
    return CHECK_WITHIN(ratio, truth_number(rows, row, "flow_ratio"),
                        truth_number(rows, row, "tolerance"));
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/stable_flow.csv", arena);
    CHECK(rows.row_count == 3);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!check_row(&rows, row)) {
            printf("    in stable_flow.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
