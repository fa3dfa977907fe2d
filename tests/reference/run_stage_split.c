#include "physics/cavitation.h"
#include "truth.h"

static const double psi_pa = 6894.757293168361;
static const double atmosphere_pa = 101325;
static const double vapour_pa = 1767.744;

static bool check_row(const qll_table *rows, size_t row)
{
    const double xfz[] = {qll_table_number(rows, row, qll_table_column(rows, "xfz_1")),
                          qll_table_number(rows, row, qll_table_column(rows, "xfz_2"))};
    double between_pa = NAN;
    bool split =
        qll_stage_split(truth_number(rows, row, "inlet_psi") * psi_pa + atmosphere_pa,
                        truth_number(rows, row, "outlet_psi") * psi_pa + atmosphere_pa, vapour_pa,
                        (size_t)truth_number(rows, row, "stages"), isnan(xfz[0]) ? NULL : xfz,
                        truth_number(rows, row, "scaled") != 0, &between_pa);
    return CHECK(split)
           && CHECK_WITHIN((between_pa - atmosphere_pa) / psi_pa,
                           truth_number(rows, row, "between_psi"),
                           truth_number(rows, row, "tolerance_psi"));
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/stage_split.csv", arena);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!check_row(&rows, row)) {
            printf("    in stage_split.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
