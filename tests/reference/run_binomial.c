#include "numeric/probability.h"
#include "truth.h"

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    const qll_table rows = truth_read("tests/reference/binomial.csv", arena);
    for (size_t row = 0; row < rows.row_count; row++) {
        const double got =
            qll_binomial_log(truth_number(&rows, row, "k"), truth_number(&rows, row, "n"),
                             truth_number(&rows, row, "p"));
        CHECK_WITHIN(got, truth_number(&rows, row, "log"), truth_number(&rows, row, "tolerance"));
    }
    qll_arena_close(arena);
    return TEST_END();
}
