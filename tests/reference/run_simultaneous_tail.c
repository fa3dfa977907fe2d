#include "base/customary.h"
#include "use_groups.h"

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)512 << 20);
    const qll_table rows = truth_read("tests/reference/simultaneous_tail.csv", arena);
    CHECK(rows.row_count >= 8);
    for (size_t row = 0; row < rows.row_count; row++) {
        const use_groups groups = use_groups_of(&rows, row);
        const qll_arena_mark mark = qll_arena_now(arena);
        qll_simultaneous use;
        CHECK(qll_simultaneous_use(groups.list, groups.count, truth_number(&rows, row, "quantile"),
                                   arena, &use)
              == QLL_OK);
        CHECK(use.rounding_m3s == 0.0);
        CHECK_NEAR(use.flow_m3s / QLL_GPM_M3S, truth_number(&rows, row, "flow_gpm"), 1e-9);
        double above = 0.0;
        const size_t at = (size_t)(use.flow_m3s / use.step_m3s + 0.5);
        for (size_t s = use.distribution.count; s-- > at + 1;) {
            above += use.distribution.p[s];
        }
        const double want = qll_table_number(&rows, row, qll_table_column(&rows, "above"));
        CHECK_NEAR(above, want, truth_number(&rows, row, "tolerance"));
        qll_arena_reset(arena, mark);
    }
    qll_arena_close(arena);
    return TEST_END();
}
