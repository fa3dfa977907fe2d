#include "check.h"
#include "physics/expansion.h"
#include "physics/material.h"
#include "physics/surge.h"
#include "physics/water.h"

TEST(tank_falls_with_a_higher_limit_and_grows_with_the_line)
{
    double before = INFINITY;
    for (int i = 0; i < 34; i++) {
        double limit = 5.2e5 + 2e4 * i;
        double tank = qll_expansion_tank_m3(0.005, 5e5, limit);
        CHECK(tank < before && tank > 0.005);
        CHECK(tank < qll_expansion_tank_m3(0.005, 5.1e5, limit));
        before = tank;
    }
    CHECK(isnan(qll_expansion_tank_m3(0.005, 5e5, 5e5)));
    CHECK(isnan(qll_expansion_tank_m3(0.005, 0, 5e5)));
    CHECK(isnan(qll_expansion_tank_m3(0.005, 5e5, NAN)));
}

TEST(tank_share_is_that_of_the_line_and_falls_with_rest_and_precharge)
{
    for (int i = 0; i < 34; i++) {
        double limit = 5.2e5 + 2e4 * i;
        double share = qll_expansion_tank_share(5e5, 5e5, limit);
        CHECK_NEAR(0.005 / share, qll_expansion_tank_m3(0.005, 5e5, limit), 1e-12);
        CHECK(qll_expansion_tank_share(5e5, 5.1e5, limit) < share);
        CHECK(qll_expansion_tank_share(5.1e5, 5e5, limit) < share);
    }
    CHECK(qll_expansion_tank_share(5e5, 6e5, 6e5) == 0);
    CHECK(qll_expansion_tank_share(6e5, 5e5, 6e5) == 0);
    CHECK(qll_expansion_tank_share(5e5, 5e5, NAN) == 0);
}

/* Boyle: the air of the tank, compressed from precharge to the limit, gives way by what is let in. */
TEST(tank_obeys_boyle)
{
    double tank = qll_expansion_tank_m3(0.005, 5e5, 9e5);
    CHECK_NEAR(5e5 * tank, 9e5 * (tank - 0.005), 1e-12);
}

TEST(heating_in_two_steps_is_heating_in_one)
{
    double steps = qll_expansion_ratio(10, 35, 5e5) * qll_expansion_ratio(35, 60, 5e5);
    CHECK_NEAR(qll_expansion_ratio(10, 60, 5e5), steps, 1e-14);
    CHECK_NEAR(qll_expansion_ratio(60, 10, 5e5) * qll_expansion_ratio(10, 60, 5e5), 1, 1e-14);
    CHECK(isnan(qll_expansion_ratio(10, 140, 5e5)));
}

static qll_closed_part part_of(const char *material, double bore_m, double wall_m)
{
    const qll_material *wall = qll_material_find(qll_text_of(material));
    if (!CHECK(wall != NULL)) {
        return (qll_closed_part){0};
    }
    return (qll_closed_part){.volume_m3 = 0.1,
                             .temperature_degc = 30,
                             .is_heated = true,
                             .bore_m = bore_m,
                             .wall_m = wall_m,
                             .modulus_pa = wall->modulus_pa,
                             .poisson = wall->poisson,
                             .wall_expansion_per_k = wall->expansion_per_k};
}

TEST(parts_alike_rise_as_one_and_cold_parts_relieve)
{
    const qll_closed_part copper = part_of("copper", 0.026, 0.00127);
    qll_closed_part parts[3] = {copper, copper, copper};
    double one = qll_closed_rise_pa_per_k(parts, 1, 5e5);
    CHECK_NEAR(qll_closed_rise_pa_per_k(parts, 3, 5e5), one, 1e-14);
    parts[2].is_heated = false;
    CHECK_NEAR(qll_closed_rise_pa_per_k(parts, 3, 5e5), one * 2 / 3, 1e-12);
    parts[2] = part_of("PEX", 0.0219, 0.0033);
    parts[2].is_heated = false;
    CHECK(qll_closed_rise_pa_per_k(parts, 3, 5e5) < one / 2);
    parts[2].is_heated = true;
    CHECK(qll_closed_rise_pa_per_k(&parts[2], 1, 5e5) < 0); /* the pipe grows more than the water */
}

/* A rigid box of no expansion: a/kappa_T of water, IAPWS-95 at 20 and 50 degC, 1 bar: isothermal
 * compressibilities 4.589e-10 and 4.417e-10 per Pa (handbook tables of water, from memory). */
TEST(rigid_box_gives_the_ratio_of_expansion_and_compressibility)
{
    qll_closed_part box = part_of("copper", 1e-9, 1);
    box.wall_expansion_per_k = 0;
    box.temperature_degc = 20;
    CHECK_NEAR(qll_closed_rise_pa_per_k(&box, 1, 101325), 2.068e-4 / 4.589e-10, 2e-3);
    box.temperature_degc = 50;
    CHECK_NEAR(qll_closed_rise_pa_per_k(&box, 1, 101325), 4.579e-4 / 4.417e-10, 2e-3);
}

TEST(no_parts_or_nonsense_has_no_rise)
{
    qll_closed_part part = part_of("steel", 0.4, 0.0025);
    CHECK(isnan(qll_closed_rise_pa_per_k(NULL, 0, 5e5)));
    part.wall_m = 0;
    CHECK(isnan(qll_closed_rise_pa_per_k(&part, 1, 5e5)));
    part.wall_m = 0.0025;
    part.temperature_degc = 120;
    CHECK(isnan(qll_closed_rise_pa_per_k(&part, 1, 5e5)));
}

TEST(materials_are_sound)
{
    size_t count = 0;
    const qll_material *materials = qll_materials(&count);
    CHECK(count >= 8);
    for (size_t i = 0; i < count; i++) {
        const qll_material *m = &materials[i];
        /* The speed in the wall is that of a bar, rounded. */
        CHECK_NEAR(m->sound_speed_m_s, sqrt(m->modulus_pa / m->density_kg_m3), 0.04);
        CHECK(m->poisson > 0.2 && m->poisson < 0.5 && m->source[0] != '\0');
        CHECK(qll_material_find(qll_text_of(m->word)) == m);
        CHECK(m->is_metal == (m->modulus_pa > 50e9));
    }
    CHECK(qll_material_find(qll_text_of("multilayer")) == NULL);
}

TEST(wave_slows_in_a_softer_pipe_and_never_outruns_water)
{
    const qll_water water = qll_water_at(15, 5e5);
    qll_surge_pipe pipe = {.bore_m = 0.026, .wall_m = 0.00127, .modulus_pa = 1e15, .poisson = 0.3};
    double before = qll_wave_speed_m_s(&pipe, water.bulk_modulus_pa, water.density_kg_m3);
    CHECK_NEAR(before, sqrt(water.bulk_modulus_pa / water.density_kg_m3), 1e-4);
    for (int halved = 0; halved < 12; halved++) {
        pipe.modulus_pa = 300e9 / pow(2, halved);
        double now = qll_wave_speed_m_s(&pipe, water.bulk_modulus_pa, water.density_kg_m3);
        CHECK(now < before);
        before = now;
    }
    pipe.wall_m = 0;
    CHECK(isnan(qll_wave_speed_m_s(&pipe, water.bulk_modulus_pa, water.density_kg_m3)));
}

int main(void)
{
    TEST_RUN(tank_falls_with_a_higher_limit_and_grows_with_the_line);
    TEST_RUN(tank_share_is_that_of_the_line_and_falls_with_rest_and_precharge);
    TEST_RUN(tank_obeys_boyle);
    TEST_RUN(heating_in_two_steps_is_heating_in_one);
    TEST_RUN(parts_alike_rise_as_one_and_cold_parts_relieve);
    TEST_RUN(rigid_box_gives_the_ratio_of_expansion_and_compressibility);
    TEST_RUN(no_parts_or_nonsense_has_no_rise);
    TEST_RUN(materials_are_sound);
    TEST_RUN(wave_slows_in_a_softer_pipe_and_never_outruns_water);
    return TEST_END();
}
