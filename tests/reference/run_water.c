#include "physics/water.h"
#include "truth.h"

/* The greatest distance from the table, of one property. */
typedef struct property {
    const char *column, *tolerance;
    bool is_absolute;
    double greatest, at_degc;
} property;

static void compare(property *p, const qll_table *rows, size_t row, double got)
{
    const double want = truth_number(rows, row, p->column);
    const double distance = p->is_absolute ? fabs(got - want) : fabs(got / want - 1);
    if (!(distance <= p->greatest)) {
        p->greatest = distance;
        p->at_degc = truth_number(rows, row, "T_C");
    }
    CHECK(distance <= truth_number(rows, row, p->tolerance));
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/water_iapws.csv", arena);
    CHECK(rows.row_count == 101);
    property all[] = {{.column = "rho", .tolerance = "tolerance_rho"},
                      {.column = "mu", .tolerance = "tolerance_mu"},
                      {.column = "pv", .tolerance = "tolerance_pv"},
                      {.column = "c", .tolerance = "tolerance_c"},
                      {.column = "K_s", .tolerance = "tolerance_K_s"},
                      {.column = "alpha_v", .tolerance = "tolerance_alpha_v", .is_absolute = true}};
    for (size_t row = 0; row < rows.row_count; row++) {
        const qll_water water = qll_water_at(truth_number(&rows, row, "T_C"), 101325);
        const double got[] = {water.density_kg_m3,      water.viscosity_pa_s,
                              water.vapour_pressure_pa, water.sound_speed_m_s,
                              water.bulk_modulus_pa,    water.expansion_per_k};
        for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
            compare(&all[i], &rows, row, got[i]);
        }
    }
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        printf("%-7s greatest %.2e at %g degC\n", all[i].column, all[i].greatest, all[i].at_degc);
        CHECK(all[i].greatest > 0);
    }
    qll_arena_close(arena);
    return TEST_END();
}
