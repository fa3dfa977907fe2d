#include "check.h"
#include "physics/fitting.h"

static const double psi = 6894.757293168361;
static const double gpm = 6.30901964e-5;

static const qll_meter *meter_of(qll_arena *arena, double nominal_m)
{
    qll_meter_table table = {0};
    CHECK(qll_meter_table_read(arena, &table) == QLL_OK);
    return qll_meter_find(&table, nominal_m);
}

TEST(sizes_rise_and_losses_rise)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_meter_table table = {0};
    CHECK(qll_meter_table_read(arena, &table) == QLL_OK);
    CHECK(table.count == 7);
    size_t points = 0;
    for (size_t i = 0; i < table.count; i++) {
        CHECK(i == 0 || table.meters[i].nominal_m > table.meters[i - 1].nominal_m);
        double before = 0;
        for (int k = 1; k < 200; k++) {
            double now = qll_meter_drop_pa(&table.meters[i], k * 3 * gpm);
            CHECK(now > before);
            before = now;
        }
        points += table.meters[i].loss.count;
    }
    CHECK(points == 58);
    qll_arena_close(arena);
}

TEST(beyond_the_points_as_flow_squared)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_meter *meter = meter_of(arena, 0.0508);
    if (CHECK(meter != NULL)) {
        CHECK_NEAR(qll_meter_drop_pa(meter, 320 * gpm), 80 * psi, 1e-8);
        CHECK_NEAR(qll_meter_drop_pa(meter, 15 * gpm), 0.7 / 4 * psi, 1e-8);
        CHECK(qll_meter_drop_pa(meter, 0) == 0);
        /* 20 psi at 160 and 15.1 at 140 gpm: on the line of the logarithms between */
        CHECK_NEAR(qll_meter_drop_pa(meter, sqrt(140.0 * 160) * gpm), sqrt(15.1 * 20) * psi, 1e-8);
        CHECK(isnan(qll_meter_drop_pa(meter, -1)));
        CHECK(isnan(qll_meter_drop_pa(meter, NAN)));
    }
    qll_arena_close(arena);
}

TEST(sizes_are_found_by_either_name)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    CHECK_NEAR(meter_of(arena, 0.050)->nominal_m, 0.0508, 1e-12);
    CHECK_NEAR(meter_of(arena, 0.020)->nominal_m, 0.01905, 1e-12);
    CHECK(meter_of(arena, 0.2) == NULL);
    qll_arena_close(arena);
}

TEST(no_memory_is_told)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_arena_mark start = qll_arena_now(arena);
    size_t before = qll_arena_count(arena);
    CHECK(meter_of(arena, 0.0508) != NULL);
    size_t takes = qll_arena_count(arena) - before;
    for (size_t nth = 1; nth <= takes; nth++) {
        qll_arena_reset(arena, start);
        qll_arena_fail(arena, nth, true);
        qll_meter_table table;
        CHECK(qll_meter_table_read(arena, &table) == QLL_NO_MEMORY);
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(sizes_rise_and_losses_rise);
    TEST_RUN(beyond_the_points_as_flow_squared);
    TEST_RUN(sizes_are_found_by_either_name);
    TEST_RUN(no_memory_is_told);
    return TEST_END();
}
