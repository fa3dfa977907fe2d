#include "base/customary.h"
#include "check.h"
#include "demand/demand.h"

static double gpm(const qll_unit_curve *curve, double units, qll_unit_column column)
{
    return qll_unit_curve_flow_m3s(curve, units, column) / QLL_GPM_M3S;
}

TEST(curve_ends_where_the_table_ends)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_unit_curve curve;
    CHECK(qll_unit_curve_read(arena, &curve) == QLL_OK);
    CHECK_NEAR(gpm(&curve, 5000, QLL_COLUMN_TANK), 593.0, 1e-12);
    CHECK_NEAR(gpm(&curve, 5000, QLL_COLUMN_FLUSHOMETER), 593.0, 1e-12);
    CHECK(isnan(gpm(&curve, 5000.001, QLL_COLUMN_TANK)));
    CHECK(isnan(gpm(&curve, -0.001, QLL_COLUMN_TANK)));
    CHECK(isnan(gpm(&curve, NAN, QLL_COLUMN_FLUSHOMETER)));
    qll_arena_close(arena);
}

/* The conventions of docs/theory/fixture_units.md where the table says nothing. */
TEST(small_sums_follow_the_stated_conventions)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_unit_curve curve;
    CHECK(qll_unit_curve_read(arena, &curve) == QLL_OK);
    CHECK_NEAR(gpm(&curve, 0.25, QLL_COLUMN_TANK), 0.75, 1e-12);
    CHECK_NEAR(gpm(&curve, 1.5, QLL_COLUMN_TANK), 4.0, 1e-12);
    CHECK(gpm(&curve, 0.0, QLL_COLUMN_FLUSHOMETER) == 0.0);
    CHECK_NEAR(gpm(&curve, 0.5, QLL_COLUMN_FLUSHOMETER), 25.0, 1e-12);
    CHECK_NEAR(gpm(&curve, 4.99, QLL_COLUMN_FLUSHOMETER), 25.0, 1e-12);
    CHECK_NEAR(gpm(&curve, 5.0, QLL_COLUMN_FLUSHOMETER), 15.0, 1e-12);
    qll_arena_close(arena);
}

TEST(flow_rises_with_units_in_both_columns)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_unit_curve curve;
    CHECK(qll_unit_curve_read(arena, &curve) == QLL_OK);
    for (int i = 0; i < 7130; i++) {
        const double units = 5.0 + 0.7 * i;
        CHECK(gpm(&curve, units + 0.7, QLL_COLUMN_TANK) > gpm(&curve, units, QLL_COLUMN_TANK));
        CHECK(gpm(&curve, units + 0.7, QLL_COLUMN_FLUSHOMETER)
              > gpm(&curve, units, QLL_COLUMN_FLUSHOMETER));
        CHECK(gpm(&curve, units, QLL_COLUMN_FLUSHOMETER) >= gpm(&curve, units, QLL_COLUMN_TANK));
    }
    qll_arena_close(arena);
}

TEST(private_and_public_units_and_what_is_missing)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_fixture_table kinds;
    CHECK(qll_fixture_table_read(arena, &kinds) == QLL_OK);
    const qll_fixture_kind unlisted = {.word = "unlisted", .ipc_private = NAN, .ipc_public = NAN};
    qll_fixture_load loads[] = {
        {.kind = qll_fixture_find(&kinds, qll_text_of("lavatory")), .count = 10},
        {.kind = qll_fixture_find(&kinds, qll_text_of("dishwasher")), .count = 2},
        {.kind = qll_fixture_find(&kinds, qll_text_of("flushometer")), .count = 0},
        {.kind = &unlisted, .count = 0},
    };
    qll_scenario scenario = {.use = QLL_USE_HOUSE, .loads = loads, .load_count = 4};
    qll_unit_sum sum = qll_unit_sum_of(&scenario);
    CHECK_NEAR(sum.units, 10 * 0.7 + 2 * 1.4, 1e-12);
    CHECK(sum.other == NULL && sum.missing == NULL && sum.column == QLL_COLUMN_TANK);
    scenario.use = QLL_USE_OFFICE;
    sum = qll_unit_sum_of(&scenario);
    CHECK_NEAR(sum.units, 10 * 2.0 + 2 * 1.4, 1e-12);
    CHECK(sum.other == loads[1].kind && sum.missing == NULL);
    loads[2].count = 1;
    loads[3].count = 1;
    sum = qll_unit_sum_of(&scenario);
    CHECK_NEAR(sum.units, 10 * 2.0 + 2 * 1.4 + 10.0, 1e-12);
    CHECK(sum.column == QLL_COLUMN_FLUSHOMETER && sum.missing == &unlisted);
    qll_arena_close(arena);
}

/* IPC Table E103.3(2), private: closet with a tank 2.2, lavatory 0.7, bathtub 1.4, the group of them 3.6. A room needs
 * one of each, whichever is the fewest. */
TEST(fixtures_make_as_many_bathrooms_as_have_all_three)
{
    static const struct {
        size_t closets, basins, baths;
        double rooms;
    } sets[] = {{3, 2, 1, 1}, {3, 1, 2, 1}, {1, 3, 2, 1}, {2, 2, 2, 2}, {4, 0, 2, 0}};

    qll_arena *arena = qll_arena_open(1 << 20);
    qll_fixture_table kinds;
    CHECK(qll_fixture_table_read(arena, &kinds) == QLL_OK);
    for (size_t i = 0; i < sizeof sets / sizeof sets[0]; i++) {
        const qll_fixture_load loads[] = {
            {.kind = qll_fixture_find(&kinds, qll_text_of("water closet, tank")),
             .count = sets[i].closets},
            {.kind = qll_fixture_find(&kinds, qll_text_of("lavatory")), .count = sets[i].basins},
            {.kind = qll_fixture_find(&kinds, qll_text_of("bathtub")), .count = sets[i].baths},
        };
        const qll_scenario scenario = {.use = QLL_USE_APARTMENT, .loads = loads, .load_count = 3};
        const double apart = 2.2 * (double)sets[i].closets + 0.7 * (double)sets[i].basins
                             + 1.4 * (double)sets[i].baths;
        const qll_other_count grouped = qll_units_grouped(&scenario, apart);
        CHECK_NEAR(grouped.rooms, sets[i].rooms, 1e-12);
        CHECK_NEAR(grouped.units, apart - sets[i].rooms * (2.2 + 0.7 + 1.4 - 3.6), 1e-12);
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(curve_ends_where_the_table_ends);
    TEST_RUN(small_sums_follow_the_stated_conventions);
    TEST_RUN(flow_rises_with_units_in_both_columns);
    TEST_RUN(private_and_public_units_and_what_is_missing);
    TEST_RUN(fixtures_make_as_many_bathrooms_as_have_all_three);
    return TEST_END();
}
