#include "physics/cavitation.h"
#include "truth.h"

static bool check_row(const qll_table *rows, size_t row)
{
    double fl = truth_number(rows, row, "fl");
    const qll_cavitation_case given = {
        .inlet_pa = truth_number(rows, row, "inlet_pa"),
        .outlet_pa = truth_number(rows, row, "outlet_pa"),
        .vapour_pressure_pa = truth_number(rows, row, "vapour_pressure_pa"),
        .barometric_pa = 101325,
        .xfz =
            qll_xfz_estimate(truth_number(rows, row, "kv_m3h"), fl, truth_number(rows, row, "fd")),
        .fl = fl};
    const qll_cavitation result = qll_cavitation_of(&given);
    double got = NAN;
    if (truth_is(rows, row, "quantity", "xf")) {
        got = result.xf;
    } else if (truth_is(rows, row, "quantity", "sigma")) {
        got = result.sigma;
    } else if (truth_is(rows, row, "quantity", "xfz")) {
        got = given.xfz;
    } else if (truth_is(rows, row, "quantity", "xfzp1")) {
        got = result.xfzp1;
    }
    return CHECK_NEAR(got, truth_number(rows, row, "expected"),
                      truth_number(rows, row, "tolerance"));
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/cavitation.csv", arena);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!check_row(&rows, row)) {
            printf("    in cavitation.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
