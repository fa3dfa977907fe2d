#include "noise_annex.h"

static bool check_row(const qll_table *rows, size_t row, const qll_noise_path *path)
{
    bool is_2015 = truth_number(rows, row, "edition") == 2015;
    const qll_noise_case given =
        annex_case(truth_number(rows, row, "mass_flow_kg_s"), truth_number(rows, row, "outlet_pa"));
    qll_noise noise;
    qll_noise_of(&given, path, is_2015 ? QLL_NOISE_2015 : QLL_NOISE_2005, &noise);
    const qll_noise_band *band = noise_band(&noise, truth_number(rows, row, "centre_hz"));
    if (!CHECK(band != NULL)) {
        return false;
    }
    double tolerance = truth_number(rows, row, "tolerance");
    /* An empty cell reads as NaN, which is what a turbulent case must give. */
    double cavitating = qll_table_number(rows, row, qll_table_column(rows, "cavitating_db"));
    bool holds =
        CHECK_WITHIN(band->turbulent_db, truth_number(rows, row, "turbulent_db"), tolerance);
    holds &= CHECK_WITHIN(band->cavitating_db, cavitating, tolerance);
    holds &= CHECK_WITHIN(band->inside_db, truth_number(rows, row, "inside_db"), tolerance);
    holds &= CHECK_WITHIN(band->loss_db, truth_number(rows, row, "loss_db"), tolerance);
    holds &= CHECK_WITHIN(band->outside_db, truth_number(rows, row, "outside_db"), tolerance);
    return CHECK_WITHIN(band->weight_db, truth_number(rows, row, "weight_db"), tolerance) && holds;
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/noise_bands.csv", arena);
    const qll_noise_path path = annex_path();
    CHECK(rows.row_count == 120);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!check_row(&rows, row, &path)) {
            printf("    in noise_bands.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
