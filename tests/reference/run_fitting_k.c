#include "physics/fitting.h"
#include "truth.h"

static bool check_row(const qll_table *rows, size_t row)
{
    double want = truth_number(rows, row, "expected");
    double tolerance = truth_number(rows, row, "tolerance");
    if (truth_is(rows, row, "quantity", "ft")) {
        double bore_m = truth_number(rows, row, "bore_mm") * 0.001;
        const qll_fitting once = {.word = "once", .n_ft = 1, .fixed_k = NAN};
        return CHECK_NEAR(qll_fitting_k(&once, bore_m), want, tolerance);
    }
    const qll_fitting *fitting =
        qll_fitting_find(qll_table_cell(rows, row, qll_table_column(rows, "word")));
    return CHECK(fitting != NULL)
           && CHECK_NEAR(fitting->n_ft * truth_number(rows, row, "ft"), want, tolerance);
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/fitting_k.csv", arena);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!check_row(&rows, row)) {
            printf("    in fitting_k.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
