#include "numeric/lomb_scargle.h"
#include "numeric/rainflow.h"
#include "numeric/robust.h"
#include "truth.h"

#define QLL_MOST ((size_t)512)

typedef struct wanted {
    double range, cycles;
} wanted;

static void count_cycles(void *context, double range, double cycles)
{
    wanted *of = context;
    of->cycles += range == of->range ? cycles : 0.0;
}

static double cycles_of(const double *y, size_t count, double range)
{
    qll_rainflow r;
    wanted of = {.range = range};
    qll_rainflow_begin(&r, count_cycles, &of);
    for (size_t i = 0; i < count; i++) {
        qll_rainflow_add(&r, y[i]);
    }
    qll_rainflow_end(&r);
    return of.cycles;
}

static double quantity(const qll_table *rows, size_t row, double *scratch)
{
    double x[QLL_MOST];
    double y[QLL_MOST];
    double cleaned[QLL_MOST];
    size_t cuts[8] = {0};
    const size_t x_count = truth_numbers(rows, row, "x", x, QLL_MOST);
    const size_t count = truth_numbers(rows, row, "y", y, QLL_MOST);
    const double parameter = truth_number(rows, row, "parameter");
    CHECK(x_count == 0 || x_count == count);
    if (truth_is(rows, row, "quantity", "theil_sen")) {
        return qll_theil_sen(x, y, count, 0.0, scratch);
    }
    if (truth_is(rows, row, "quantity", "kendall_s")) {
        return qll_mann_kendall(y, count, scratch).s;
    }
    if (truth_is(rows, row, "quantity", "kendall_z")) {
        return qll_mann_kendall(y, count, scratch).z;
    }
    if (truth_is(rows, row, "quantity", "mad_sigma")) {
        return qll_mad_sigma(y, count, scratch);
    }
    if (truth_is(rows, row, "quantity", "quantile")) {
        return qll_quantile(y, count, parameter);
    }
    if (truth_is(rows, row, "quantity", "hampel")) {
        CHECK(qll_hampel(y, count, 5, 3.0, 0.0, cleaned, scratch) > 0);
        return cleaned[(size_t)parameter];
    }
    if (truth_is(rows, row, "quantity", "lomb_scargle")) {
        return qll_lomb_scargle(x, y, count, parameter);
    }
    if (truth_is(rows, row, "quantity", "rainflow")) {
        return cycles_of(y, count, parameter);
    }
    const double penalty = qll_segment_penalty(y, count, scratch);
    const size_t cut_count = qll_segments(y, count, penalty, scratch, cuts, 8);
    if (truth_is(rows, row, "quantity", "penalty")) {
        return penalty;
    }
    if (truth_is(rows, row, "quantity", "first cut")) {
        return (double)cuts[0];
    }
    return (double)(truth_is(rows, row, "quantity", "last cut") ? cuts[cut_count - 1] : cut_count);
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_table rows = truth_read("tests/reference/robust.csv", arena);
    double *scratch = qll_arena_take(arena, qll_pair_count(QLL_MOST), sizeof *scratch);
    CHECK(rows.row_count > 40 && scratch != NULL);
    for (size_t row = 0; row < rows.row_count && scratch != NULL; row++) {
        if (!CHECK_WITHIN(quantity(&rows, row, scratch), truth_number(&rows, row, "expected"),
                          truth_number(&rows, row, "tolerance"))) {
            printf("    in robust.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
