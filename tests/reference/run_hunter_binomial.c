#include "base/customary.h"
#include "demand/demand.h"
#include "truth.h"

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    const qll_table rows = truth_read("tests/reference/hunter_binomial.csv", arena);
    size_t read = 0;
    for (size_t row = 0; row < rows.row_count; row++) {
        const qll_use_group group = {
            .count = (size_t)truth_number(&rows, row, "count"),
            .flow_m3s = truth_number(&rows, row, "fixture_gpm") * QLL_GPM_M3S,
            .probability = truth_number(&rows, row, "p"),
        };
        qll_simultaneous use;
        CHECK(qll_simultaneous_use(&group, 1, 0.99, arena, &use) == QLL_OK);
        CHECK_WITHIN(use.flow_m3s / QLL_GPM_M3S, truth_number(&rows, row, "flow_gpm"),
                     truth_number(&rows, row, "tolerance_gpm"));
        read += truth_is(&rows, row, "known", "READ") ? 1 : 0;
    }
    CHECK(read >= 2);
    qll_arena_close(arena);
    return TEST_END();
}
