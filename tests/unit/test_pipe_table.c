#include "check.h"
#include "physics/pipe.h"

static qll_pipe_table read_table(qll_arena *arena)
{
    qll_pipe_table table = {0};
    CHECK(qll_pipe_table_read(arena, &table) == QLL_OK);
    return table;
}

static double bore_mm(const qll_pipe_table *table, const char *word, double nominal_m)
{
    const qll_pipe_family *family = qll_pipe_family_find(qll_text_of(word));
    if (!CHECK(family != NULL)) {
        return NAN;
    }
    const qll_pipe_size *size = qll_pipe_find(table, family, nominal_m);
    return size == NULL ? (double)NAN : size->bore_m * 1000;
}

TEST(every_row_is_whole)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_pipe_table table = read_table(arena);
    CHECK(table.count == 207 - 14); /* all but the fourteen minimum-wall rows */
    for (size_t i = 0; i < table.count; i++) {
        const qll_pipe_size *size = &table.sizes[i];
        CHECK(size->nominal_m > 0.003 && size->nominal_m < 0.4);
        /* the file rounds each to 0.001 mm or 0.01 mm, catalogues of copper to 0.001 in */
        CHECK_WITHIN(size->outside_m - 2 * size->wall_m, size->bore_m, 3e-5);
        CHECK(size->roughness_m > 0 && size->roughness_m < 2e-4);
        CHECK(size->velocity_max_m_s >= 2 && size->velocity_max_m_s <= 3);
        CHECK(size->source[0] != '\0' && size->material[0] != '\0');
    }
    qll_arena_close(arena);
}

TEST(every_family_has_sizes)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_pipe_table table = read_table(arena);
    size_t count = 0;
    const qll_pipe_family *families = qll_pipe_families(&count);
    CHECK(count == 18);
    for (size_t f = 0; f < count; f++) {
        size_t sizes = 0;
        for (size_t i = 0; i < table.count; i++) {
            if (strcmp(table.sizes[i].standard, families[f].standard) == 0) {
                sizes += 1;
                CHECK(qll_pipe_find(&table, &families[f], table.sizes[i].nominal_m) != NULL);
            }
        }
        CHECK(sizes >= 6);
        CHECK(qll_pipe_family_find(qll_text_of(families[f].word)) == &families[f]);
        CHECK(families[f].roughness_source[0] != '\0' && families[f].velocity_source[0] != '\0');
    }
    qll_arena_close(arena);
}

/* Drawn tube 1.52 um and galvanised iron 152 um (table of an open fluid-dynamics library); the others from
 * memory. Cold water: 8 ft/s (copper: UPC 610.12, as an adoption quotes it; others: Chicago plumbing code 604.10.1.2), 2 m/s in risers
 * (EN 806-3, from memory), 3 m/s (AS/NZS 3500.1, from memory). */
TEST(roughness_and_velocity_of_every_family)
{
    const double eight_feet = 8 * 0.3048;

    const struct {
        const char *word;
        double roughness_um, velocity_m_s;
    } rows[] = {
        {"copper K", 1.52, eight_feet},
        {"copper L", 1.52, eight_feet},
        {"copper M", 1.52, eight_feet},
        {"steel 40", 152, eight_feet},
        {"steel 80", 152, eight_feet},
        {"stainless 10S", 15, eight_feet},
        {"PEX", 7, eight_feet},
        {"CPVC", 7, eight_feet},
        {"EN 1057", 1.52, 2},
        {"EN 1057 X", 1.52, 2},
        {"EN 10255", 152, 2},
        {"EN 10312", 15, 2},
        {"PP", 7, 2},
        {"PVC-C", 7, 2},
        {"PB", 7, 2},
        {"multilayer", 7, 2},
        {"PE-X", 7, 2},
        {"AS 1432", 1.52, 3},
    };

    size_t count = 0;
    (void)qll_pipe_families(&count);
    CHECK(count == sizeof rows / sizeof rows[0]);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const qll_pipe_family *family = qll_pipe_family_find(qll_text_of(rows[i].word));
        if (CHECK(family != NULL)) {
            CHECK_NEAR(family->roughness_m, rows[i].roughness_um * 1e-6, 1e-12);
            CHECK_NEAR(family->velocity_max_m_s, rows[i].velocity_m_s, 1e-12);
        }
    }
}

/* ASTM B88 and ASME B36.10M, inches printed in size charts. */
TEST(known_bores)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_pipe_table table = read_table(arena);
    CHECK_NEAR(bore_mm(&table, "copper L", 0.0254), 1.025 * 25.4, 1e-4);
    CHECK_NEAR(bore_mm(&table, "copper L", 0.0508), 1.985 * 25.4, 1e-4);
    CHECK_NEAR(bore_mm(&table, "copper K", 0.03175), 1.245 * 25.4, 1e-4);
    CHECK_NEAR(bore_mm(&table, "copper M", 0.0127), 0.569 * 25.4, 1e-4);
    CHECK_NEAR(bore_mm(&table, "steel 40", 0.0508), 2.067 * 25.4, 1e-3);
    CHECK_NEAR(bore_mm(&table, "PEX", 0.0254), 21.895, 1e-6); /* mean wall */
    CHECK_NEAR(bore_mm(&table, "EN 1057", 0.022), 20, 1e-9);
    qll_arena_close(arena);
}

TEST(inches_and_dn_alike)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_pipe_table table = read_table(arena);
    CHECK(bore_mm(&table, "copper L", 0.050) == bore_mm(&table, "copper L", 0.0508));
    CHECK(bore_mm(&table, "steel 40", 0.015) == bore_mm(&table, "steel 40", 0.0127));
    CHECK(bore_mm(&table, "EN 10255", 0.0635) == bore_mm(&table, "EN 10255", 0.065));
    CHECK(isnan(bore_mm(&table, "copper L", 0.017)));
    CHECK(isnan(bore_mm(&table, "copper L", NAN)));
    qll_arena_close(arena);
}

TEST(of_two_walls_the_smaller_bore)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_pipe_table table = read_table(arena);
    CHECK_NEAR(bore_mm(&table, "EN 1057", 0.028), 25, 1e-9);
    CHECK_NEAR(bore_mm(&table, "multilayer", 0.016), 11.5, 1e-9);
    CHECK(qll_pipe_family_find(qll_text_of("copper")) == NULL);
    qll_arena_close(arena);
}

TEST(no_memory_is_told)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_arena_mark start = qll_arena_now(arena);
    size_t before = qll_arena_count(arena);
    qll_pipe_table table = read_table(arena);
    size_t takes = qll_arena_count(arena) - before;
    CHECK(takes > 3);
    for (size_t nth = 1; nth <= takes; nth++) {
        qll_arena_reset(arena, start);
        qll_arena_fail(arena, nth, true);
        CHECK(qll_pipe_table_read(arena, &table) == QLL_NO_MEMORY);
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(every_row_is_whole);
    TEST_RUN(every_family_has_sizes);
    TEST_RUN(roughness_and_velocity_of_every_family);
    TEST_RUN(known_bores);
    TEST_RUN(inches_and_dn_alike);
    TEST_RUN(of_two_walls_the_smaller_bore);
    TEST_RUN(no_memory_is_told);
    return TEST_END();
}
