#include "physics/expansion.h"
#include "physics/material.h"
#include "physics/water.h"
#include "truth.h"

static const double psi = 6894.757293168361;
static const double air_pa = 101325;

static double degc(const qll_table *rows, size_t row, const char *column)
{
    double value = truth_number(rows, row, column);
    return truth_is(rows, row, "scale", "degF") ? (value - 32) / 1.8 : value;
}

static double tank(const qll_table *rows, size_t row, double expanded)
{
    double air_psi = truth_number(rows, row, "air_psi");
    return qll_expansion_tank_m3(expanded, (truth_number(rows, row, "line_psig") + air_psi) * psi,
                                 (truth_number(rows, row, "limit_psig") + air_psi) * psi);
}

static double expanded_gal(const qll_table *rows, size_t row)
{
    const qll_heated heated = {.volume_m3 = truth_number(rows, row, "volume_gal"),
                               .cold_degc = degc(rows, row, "cold"),
                               .hot_degc = degc(rows, row, "hot"),
                               .pressure_pa = air_pa};
    return qll_expanded_m3(&heated);
}

static double rise_kpa(const qll_table *rows, size_t row)
{
    const qll_material *wall =
        qll_material_find(qll_table_cell(rows, row, qll_table_column(rows, "material")));
    if (!CHECK(wall != NULL)) {
        return NAN;
    }
    const qll_closed_part part = {.volume_m3 = 1,
                                  .temperature_degc = degc(rows, row, "cold"),
                                  .is_heated = true,
                                  .bore_m = truth_number(rows, row, "bore_mm") / 1000,
                                  .wall_m = truth_number(rows, row, "wall_mm") / 1000,
                                  .modulus_pa = wall->modulus_pa,
                                  .poisson = wall->poisson,
                                  .wall_expansion_per_k = wall->expansion_per_k};
    return qll_closed_rise_pa_per_k(&part, 1, air_pa) / 1000;
}

static double quantity(const qll_table *rows, size_t row)
{
    if (truth_is(rows, row, "quantity", "tank_gal")) {
        return tank(rows, row, truth_number(rows, row, "expanded_gal"));
    }
    if (truth_is(rows, row, "quantity", "ratio")) {
        return qll_expansion_ratio(degc(rows, row, "cold"), degc(rows, row, "hot"), air_pa);
    }
    if (truth_is(rows, row, "quantity", "specific_volume")) {
        const double ft3_per_lb = 0.0283168465920 / 0.45359237;
        return 1 / qll_water_at(degc(rows, row, "cold"), air_pa).density_kg_m3 / ft3_per_lb;
    }
    if (truth_is(rows, row, "quantity", "expanded_gal")) {
        return expanded_gal(rows, row);
    }
    if (truth_is(rows, row, "quantity", "heater_tank_gal")) {
        return tank(rows, row, expanded_gal(rows, row));
    }
    return truth_is(rows, row, "quantity", "rise") ? rise_kpa(rows, row) : (double)NAN;
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/expansion.csv", arena);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!CHECK_NEAR(quantity(&rows, row), truth_number(&rows, row, "expected"),
                        truth_number(&rows, row, "tolerance"))) {
            printf("    in expansion.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
