#include "base/customary.h"
#include "use_groups.h"

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    const qll_table rows = truth_read("tests/reference/normal_approximation.csv", arena);
    size_t fitted = 0;
    size_t busy = 0;
    for (size_t row = 0; row < rows.row_count; row++) {
        const use_groups groups = use_groups_of(&rows, row);
        qll_simultaneous use;
        CHECK(qll_simultaneous_use(groups.list, groups.count, truth_number(&rows, row, "quantile"),
                                   arena, &use)
              == QLL_OK);
        CHECK_WITHIN(use.normal_m3s / QLL_GPM_M3S, truth_number(&rows, row, "flow_gpm"),
                     truth_number(&rows, row, "tolerance_gpm"));
        const double busy_gpm = qll_table_number(&rows, row, qll_table_column(&rows, "busy_gpm"));
        if (!isnan(busy_gpm)) {
            CHECK_WITHIN(use.normal_busy_m3s / QLL_GPM_M3S, busy_gpm, 1e-5);
            busy += 1;
        }
        fitted += truth_is(&rows, row, "known", "FITTED") ? 1 : 0;
    }
    CHECK(fitted >= 1 && busy >= 13);
    qll_arena_close(arena);
    return TEST_END();
}
