#include "base/customary.h"
#include "demand/demand.h"
#include "truth.h"

#define TEST_LOADS_MOST 16

/* Reads "4 x lavatory|2 x shower"; how many loads. */
static size_t read_loads(qll_text rest, const qll_fixture_table *table, qll_fixture_load *loads)
{
    size_t count = 0;
    while (rest.size > 0 && count < TEST_LOADS_MOST) {
        size_t size = 0;
        while (size < rest.size && rest.bytes[size] != '|') {
            size += 1;
        }
        double number = NAN;
        const size_t digits = qll_text_number((qll_text){rest.bytes, size}, &number);
        CHECK(digits > 0 && size > digits + 3);
        const qll_text word = {rest.bytes + digits + 3, size - digits - 3};
        loads[count] = (qll_fixture_load){.kind = qll_fixture_find(table, word),
                                          .count = (size_t)number,
                                          .flow_m3s = NAN,
                                          .use_probability = NAN};
        CHECK(loads[count].kind != NULL);
        count += 1;
        size += size < rest.size ? 1 : 0;
        rest = (qll_text){rest.bytes + size, rest.size - size};
    }
    return count;
}

static void check_sum(const qll_table *rows, size_t row, const qll_fixture_table *kinds,
                      qll_unit_column column)
{
    qll_fixture_load loads[TEST_LOADS_MOST];
    const qll_scenario scenario = {
        .use = truth_is(rows, row, "use", "apartment") ? QLL_USE_APARTMENT : QLL_USE_OFFICE,
        .loads = loads,
        .load_count =
            read_loads(qll_table_cell(rows, row, qll_table_column(rows, "fixtures")), kinds, loads),
    };
    const qll_unit_sum sum = qll_unit_sum_of(&scenario);
    CHECK(sum.missing == NULL);
    CHECK_NEAR(sum.units, truth_number(rows, row, "wsfu"), 1e-12);
    CHECK(sum.column == column);
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    const qll_table rows = truth_read("tests/reference/fixture_units.csv", arena);
    qll_unit_curve curve;
    qll_fixture_table kinds;
    CHECK(qll_unit_curve_read(arena, &curve) == QLL_OK);
    CHECK(qll_fixture_table_read(arena, &kinds) == QLL_OK);
    CHECK(curve.tank_count + curve.flushometer_count == 100);
    for (size_t row = 0; row < rows.row_count; row++) {
        const qll_unit_column column = truth_is(&rows, row, "column", "flushometer")
                                           ? QLL_COLUMN_FLUSHOMETER
                                           : QLL_COLUMN_TANK;
        if (!truth_is(&rows, row, "fixtures", "")) {
            check_sum(&rows, row, &kinds, column);
        }
        const double flow_m3s =
            qll_unit_curve_flow_m3s(&curve, truth_number(&rows, row, "wsfu"), column);
        CHECK_WITHIN(flow_m3s / QLL_GPM_M3S, truth_number(&rows, row, "flow_gpm"),
                     truth_number(&rows, row, "tolerance_gpm"));
    }
    qll_arena_close(arena);
    return TEST_END();
}
