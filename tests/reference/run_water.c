#include "physics/water.h"
#include "truth.h"

/* Greatest relative distance from the table, and what is permitted: just above what was measured
 * over 0 to 100 degC (docs/theory/water.md). */
typedef struct property {
    const char *column;
    double permitted, greatest, at_degc;
} property;

static void compare(property *p, double got, double want, double t)
{
    double distance = fabs(got / want - 1);
    if (!(distance <= p->greatest)) {
        p->greatest = distance;
        p->at_degc = t;
    }
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/water_iapws.csv", arena);
    CHECK(rows.row_count == 101);
    property all[] = {{.column = "rho", .permitted = 1.6e-5},
                      {.column = "mu", .permitted = 3.1e-5},
                      {.column = "pv", .permitted = 8e-7},
                      {.column = "c", .permitted = 6.2e-5},
                      {.column = "K_s", .permitted = 1.3e-4}};
    double expansion = 0;
    for (size_t row = 0; row < rows.row_count; row++) {
        double t = truth_number(&rows, row, "T_C");
        const qll_water water = qll_water_at(t, 101325);
        const double got[] = {water.density_kg_m3, water.viscosity_pa_s, water.vapour_pressure_pa,
                              water.sound_speed_m_s, water.bulk_modulus_pa};
        for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
            compare(&all[i], got[i], truth_number(&rows, row, all[i].column), t);
        }
        double distance = fabs(water.expansion_per_k - truth_number(&rows, row, "alpha_v"));
        expansion = fmax(expansion, distance);
    }
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        printf("%-4s greatest %.2e at %g degC\n", all[i].column, all[i].greatest, all[i].at_degc);
        CHECK(all[i].greatest > 0 && all[i].greatest <= all[i].permitted);
    }
    printf("expansion greatest distance %.2e 1/K\n", expansion);
    CHECK(expansion <= 5e-7);
    qll_arena_close(arena);
    return TEST_END();
}
