#include "physics/pipe.h"
#include "truth.h"

static bool check_row(const qll_table *rows, size_t row)
{
    return CHECK_NEAR(qll_pipe_friction_factor(truth_number(rows, row, "reynolds"),
                                               truth_number(rows, row, "relative_roughness")),
                      truth_number(rows, row, "friction_factor"),
                      truth_number(rows, row, "tolerance"));
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/colebrook.csv", arena);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!check_row(&rows, row)) {
            printf("    in colebrook.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
