#include "physics/cavitation.h"
#include "physics/noise.h"
#include "truth.h"

static double stage_inlet(const qll_table *rows, size_t row, size_t stage)
{
    double one = truth_number(rows, row, "coefficient") * sqrt(3);
    const double coefficients[3] = {one, one, one};
    double inlets_pa[3];
    CHECK(qll_noise_stage_inlets(truth_number(rows, row, "inlet_pa"),
                                 truth_number(rows, row, "outlet_pa"), coefficients, 3, inlets_pa));
    return inlets_pa[stage];
}

static double holes(const qll_table *rows, size_t row)
{
    return qll_xfz_holes(truth_number(rows, row, "hole_count"),
                         truth_number(rows, row, "hole_mm") / 1000, truth_number(rows, row, "fl"));
}

static double quantity(const qll_table *rows, size_t row)
{
    if (truth_is(rows, row, "quantity", "xfz_holes")) {
        return holes(rows, row);
    }
    if (truth_is(rows, row, "quantity", "xfz_holes_scaled")) {
        return qll_xfz_scaled(holes(rows, row), truth_number(rows, row, "inlet_pa"));
    }
    static const char *const inlets[] = {"inlet_0", "inlet_1", "inlet_2"};
    for (size_t i = 0; i < 3; i++) {
        if (truth_is(rows, row, "quantity", inlets[i])) {
            return stage_inlet(rows, row, i);
        }
    }
    if (truth_is(rows, row, "quantity", "level_pair")) {
        double level = truth_number(rows, row, "level_db");
        const double pair[2] = {level, level};
        return qll_level_sum_db(pair, 2);
    }
    if (truth_is(rows, row, "quantity", "last_drop")) {
        return qll_noise_last_stage_drop_pa(
            truth_number(rows, row, "inlet_pa"), truth_number(rows, row, "outlet_pa"),
            truth_number(rows, row, "vapour_pressure_pa"), truth_number(rows, row, "xfzp1"));
    }
    if (truth_is(rows, row, "quantity", "last_seat_mm")) {
        return 1000
               * qll_noise_last_stage_seat_m(truth_number(rows, row, "coefficient"), QLL_FORM_CV);
    }
    return NAN;
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/noise_trim.csv", arena);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!CHECK_WITHIN(quantity(&rows, row), truth_number(&rows, row, "expected"),
                          truth_number(&rows, row, "tolerance"))) {
            printf("    in noise_trim.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
