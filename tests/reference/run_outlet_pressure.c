#include "demand/outlet.h"
#include "truth.h"

#define TEST_PSI_PA 6894.757293168

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    const qll_table rows = truth_read("tests/reference/outlet_pressure.csv", arena);
    CHECK(rows.row_count >= 8);
    for (size_t row = 0; row < rows.row_count; row++) {
        const qll_outlet_response outlet = {.is_regulated =
                                                truth_is(&rows, row, "regulated", "yes")};
        const double ratio =
            qll_outlet_flow_ratio(outlet, truth_number(&rows, row, "to_psi") * TEST_PSI_PA,
                                  truth_number(&rows, row, "at_psi") * TEST_PSI_PA);
        CHECK_WITHIN(truth_number(&rows, row, "flow_gpm") * ratio,
                     truth_number(&rows, row, "expected_gpm"),
                     truth_number(&rows, row, "tolerance"));
    }
    qll_arena_close(arena);
    return TEST_END();
}
