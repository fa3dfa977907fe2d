#include "physics/fitting.h"
#include "physics/nominal.h"
#include "truth.h"

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_meter_table meters;
    qll_table rows = truth_read("tests/reference/meter_loss.csv", arena);
    if (CHECK(qll_meter_table_read(arena, &meters) == QLL_OK)) {
        CHECK(rows.row_count > 0);
        for (size_t row = 0; row < rows.row_count; row++) {
            qll_text printed = qll_table_cell(&rows, row, qll_table_column(&rows, "nominal_in"));
            const qll_meter *meter = qll_meter_find(&meters, qll_nominal_read_m(printed));
            if (CHECK(meter != NULL)) {
                double flow_m3s = truth_number(&rows, row, "flow_gpm") * 6.30901964e-5;
                CHECK_NEAR(qll_meter_drop_pa(meter, flow_m3s) / 6894.757293168361,
                           truth_number(&rows, row, "loss_psi"),
                           truth_number(&rows, row, "tolerance"));
            }
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
