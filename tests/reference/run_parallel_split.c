#include "base/table.h"
#include "check.h"
#include "station_scene.h"

#include <stdint.h>

static char source[64 * 1024];

static qll_text file_text(void)
{
    FILE *file = fopen(QUELL_ROOT "/tests/reference/parallel_split.csv", "rb");
    size_t size = file == NULL ? 0 : fread(source, 1, sizeof source, file);
    if (file != NULL) {
        fclose(file);
    }
    return (qll_text){source, size};
}

static double cell(const qll_table *table, size_t row, const char *name)
{
    size_t column = qll_table_column(table, name);
    CHECK(column != SIZE_MAX);
    return qll_table_number(table, row, column);
}

static void check_row(const qll_table *table, size_t row, qll_arena *arena)
{
    qll_water water = scene_water();
    scene_valve valves[2];
    qll_branch branches[2];
    bool pair = !isnan(cell(table, row, "kv2_m3h"));
    scene_valve_make(&valves[0], cell(table, row, "kv1_m3h"),
                     cell(table, row, "band1_bar") * TEST_SCENE_BAR, 0.0, 0.025);
    branches[0] = scene_branch(&valves[0], cell(table, row, "set1_bar") * TEST_SCENE_BAR, 0.025);
    if (pair) {
        scene_valve_make(&valves[1], cell(table, row, "kv2_m3h"),
                         cell(table, row, "band2_bar") * TEST_SCENE_BAR, 0.0, 0.05);
        branches[1] = scene_branch(&valves[1], cell(table, row, "set2_bar") * TEST_SCENE_BAR, 0.05);
    }
    double inlet_pa = cell(table, row, "inlet_bar") * TEST_SCENE_BAR;
    double flow_m3s = cell(table, row, "flow_m3h") * TEST_SCENE_M3H;
    double tolerance = cell(table, row, "tolerance");
    qll_stage stage = {branches, pair ? 2 : 1, inlet_pa};
    qll_stage_solver *solver = NULL;
    if (!CHECK(qll_stage_solver_make(&stage, &water, TEST_SCENE_ATM, arena, &solver) == QLL_OK)) {
        return;
    }
    qll_stage_point point = qll_stage_solve(solver, inlet_pa + TEST_SCENE_ATM, flow_m3s);
    CHECK(point.converged && point.passes);
    CHECK_WITHIN((point.outlet_pa - TEST_SCENE_ATM) / TEST_SCENE_BAR,
                 cell(table, row, "outlet_bar"), tolerance);
    qll_branch_state states[2];
    qll_stage_states(solver, inlet_pa + TEST_SCENE_ATM, flow_m3s, point.outlet_pa, states);
    CHECK_WITHIN(states[0].flow_m3s / TEST_SCENE_M3H, cell(table, row, "flow1_m3h"), tolerance);
    if (pair) {
        CHECK_WITHIN(states[1].flow_m3s / TEST_SCENE_M3H, cell(table, row, "flow2_m3h"), tolerance);
    }
}

int main(void)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    qll_problems problems = qll_problems_none(arena);
    qll_table table = {0};
    if (CHECK(qll_table_read(file_text(), "parallel_split.csv", arena, &table, &problems)
              == QLL_OK)) {
        CHECK(table.row_count == 9);
        for (size_t row = 0; row < table.row_count; row++) {
            check_row(&table, row, arena);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
