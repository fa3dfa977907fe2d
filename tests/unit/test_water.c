#include "check.h"
#include "physics/water.h"

TEST(density_rises_with_pressure)
{
    /* IAPWS IF97 verification value (from memory): 300 K, 3 MPa, v = 0.00100215168 m3/kg. */
    CHECK_NEAR(1 / qll_water_at(26.85, 3e6).density_kg_m3, 0.00100215168, 1e-5);
    /* IAPWS-95 verification state (from memory): 300 K, 0.0992418352 MPa, 996.5560 kg/m3. */
    CHECK_NEAR(qll_water_at(26.85, 99241.8352).density_kg_m3, 996.5560, 1e-5);
}

TEST(sound_speed_of_the_verification_state)
{
    /* IAPWS-95, same state: 1501.51914 m/s. IF97 at 3 MPa: 1507.73921 m/s, stated there to 0.1 %. */
    CHECK_NEAR(qll_water_at(26.85, 99241.8352).sound_speed_m_s, 1501.51914, 1e-4);
    CHECK_NEAR(qll_water_at(26.85, 3e6).sound_speed_m_s, 1507.73921, 1e-3);
}

TEST(reference_density_is_that_of_15_degrees)
{
    CHECK_NEAR(qll_water_at(15, 101325).density_kg_m3, QLL_REFERENCE_DENSITY_KG_M3, 1e-5);
}

TEST(modulus_is_density_times_speed_squared)
{
    qll_water water = qll_water_at(37, 7e5);
    CHECK_NEAR(water.bulk_modulus_pa,
               water.density_kg_m3 * water.sound_speed_m_s * water.sound_speed_m_s, 1e-15);
}

TEST(outside_the_range_all_is_nan)
{
    const double bad[][2] = {{-0.1, 1e5}, {100.1, 1e5}, {20, -1},       {20, 1.1e7},
                             {NAN, 1e5},  {20, NAN},    {INFINITY, 1e5}};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        qll_water water = qll_water_at(bad[i][0], bad[i][1]);
        CHECK(isnan(water.temperature_degc) && isnan(water.density_kg_m3)
              && isnan(water.viscosity_pa_s) && isnan(water.vapour_pressure_pa)
              && isnan(water.sound_speed_m_s) && isnan(water.bulk_modulus_pa)
              && isnan(water.expansion_per_k));
    }
    CHECK(qll_water_at(0, 0).density_kg_m3 > 999);
    CHECK(qll_water_at(100, 1e7).density_kg_m3 > 958);
}

/* ISO 2533 tables, geopotential altitude (from memory). */
TEST(standard_atmosphere)
{
    CHECK_NEAR(qll_barometric_pa(0), 101325, 1e-15);
    CHECK_NEAR(qll_barometric_pa(1000), 89874.6, 1e-5);
    CHECK_NEAR(qll_barometric_pa(5000), 54019.9, 1e-5);
    CHECK_NEAR(qll_barometric_pa(11000), 22632.1, 1e-5);
    /* What the survey's default says: 1000 ft take 0.523 psi, 0.0361 bar. By hand with the formula of
     * docs/theory/water.md, 8: 101325 (1 - 0.9931245^5.25588) Pa. */
    CHECK_NEAR(101325 - qll_barometric_pa(304.8), 3608.3, 1e-4);
    CHECK_NEAR(101325 - qll_barometric_pa(304.8), 0.523 * 6894.757, 1e-3);
    CHECK(isnan(qll_barometric_pa(11001)));
    CHECK(isnan(qll_barometric_pa(-2001)));
    CHECK(isnan(qll_barometric_pa(NAN)));
}

int main(void)
{
    TEST_RUN(density_rises_with_pressure);
    TEST_RUN(sound_speed_of_the_verification_state);
    TEST_RUN(reference_density_is_that_of_15_degrees);
    TEST_RUN(modulus_is_density_times_speed_squared);
    TEST_RUN(outside_the_range_all_is_nan);
    TEST_RUN(standard_atmosphere);
    return TEST_END();
}
