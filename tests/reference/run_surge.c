#include "physics/surge.h"
#include "truth.h"

static double quantity(const qll_table *rows, size_t row)
{
    double density = truth_number(rows, row, "density_kg_m3");
    if (truth_is(rows, row, "quantity", "speed")) {
        const qll_surge_pipe pipe = {.bore_m = truth_number(rows, row, "bore_mm") / 1000,
                                     .wall_m = truth_number(rows, row, "wall_mm") / 1000,
                                     .modulus_pa = truth_number(rows, row, "modulus_pa"),
                                     .poisson = 0.3,
                                     .anchoring = QLL_ANCHORED_JOINTS};
        return qll_wave_speed_m_s(&pipe, truth_number(rows, row, "bulk_modulus_pa"), density);
    }
    double rise_pa = qll_surge_pa(density, truth_number(rows, row, "wave_speed_m_s"),
                                  truth_number(rows, row, "change_m_s"));
    if (truth_is(rows, row, "quantity", "rise_kpa")) {
        return rise_pa / 1000;
    }
    return truth_is(rows, row, "quantity", "rise_m") ? rise_pa / density / 9.80665 : (double)NAN;
}

/* c1 by its definition, where the tables hold only the first case. */
static void check_anchoring(void)
{
    CHECK_NEAR(qll_anchoring_factor(QLL_ANCHORED_JOINTS, 0.3), 1, 1e-15);
    CHECK_NEAR(qll_anchoring_factor(QLL_ANCHORED_THROUGHOUT, 0.3), 0.91, 1e-15);
    CHECK_NEAR(qll_anchoring_factor(QLL_ANCHORED_UPSTREAM, 0.3), 0.95, 1e-15);
    CHECK(isnan(qll_anchoring_factor(QLL_ANCHORED_UPSTREAM, 0.6)));
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/surge.csv", arena);
    CHECK(rows.row_count > 0);
    check_anchoring();
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!CHECK_WITHIN(quantity(&rows, row), truth_number(&rows, row, "expected"),
                          truth_number(&rows, row, "tolerance"))) {
            printf("    in surge.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
