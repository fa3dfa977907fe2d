#include "demand/din1988.h"
#include "truth.h"

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    const qll_table rows = truth_read("tests/reference/din1988.csv", arena);
    CHECK(rows.row_count > 60);
    for (size_t row = 0; row < rows.row_count; row++) {
        const char *use =
            qll_text_closed(qll_table_cell(&rows, row, qll_table_column(&rows, "use")), arena);
        qll_din1988 din;
        CHECK(use != NULL && qll_din1988_read(use, arena, &din) == QLL_OK
              && din.says != QLL_TEXT_NONE);
        CHECK_WITHIN(qll_din1988_flow_m3s(&din, truth_number(&rows, row, "sum_lps") * 1e-3) * 1e3,
                     truth_number(&rows, row, "flow_lps"), truth_number(&rows, row, "tolerance"));
    }
    /* The standard's range is from 0.2 to 500 l/s; outside there is no answer. */
    qll_din1988 din;
    CHECK(qll_din1988_read("bed wing of hospital", arena, &din) == QLL_OK);
    CHECK(isnan(qll_din1988_flow_m3s(&din, 0.5001)) && isnan(qll_din1988_flow_m3s(&din, 1.999e-4)));
    qll_arena_close(arena);
    return TEST_END();
}
