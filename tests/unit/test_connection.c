#include "building_scene.h"
#include "check.h"
#include "physics/sizing.h"
#include "station/connection.h"
#include "station/operate.h"

static const double room = 1 << 22;

/* Annex example 1 of IEC 60534-2-1 with reducers (D1 100, D2 90, d 80): our converged values,
 * tests/reference/sizing.csv. */
TEST(series_kv_and_recovery_are_fp_and_flp)
{
    const qll_sizing_case given = {
        .fl = 0.9, .valve_bore_m = 0.08, .pipe_in_bore_m = 0.1, .pipe_out_bore_m = 0.09};
    double kv = 177.879807;
    double share = kv / qll_sizing_series_kv(&given);
    CHECK_NEAR(1.0 / sqrt(1.0 + share * share), 0.929997649431, 1e-9);
    CHECK_NEAR(qll_sizing_recovery(&given, kv), 0.802985484 / 0.929997649431, 1e-8);
    const qll_sizing_case plain = {.fl = 0.9,
                                   .valve_bore_m = 0.08,
                                   .pipe_in_bore_m = (double)NAN,
                                   .pipe_out_bore_m = (double)NAN};
    CHECK(isnan(qll_sizing_series_kv(&plain)));
    CHECK_NEAR(qll_sizing_recovery(&plain, kv), 0.9, 1e-12);
}

/* A 1 in valve in a 2 in station, wide open: the stage passes what the standard's formula with FP
 * says, as long as it does not choke. */
TEST(stage_with_reducers_passes_what_the_standard_says)
{
    qll_arena *arena = qll_arena_open((size_t)room);
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still = {0.0, 8e5};
    qll_site site = scene_site(sizes, &still);
    site.header = &scene_sizes[4];
    scene_valve valve;
    scene_valve_make(&valve, 12.0, 0.2e5, 0.1 * TEST_SCENE_M3H, 0.0254);
    qll_branch branch = scene_branch(&valve, 6e5, 0.0);
    CHECK(qll_branch_connect(&site, arena, &branch) == QLL_OK);
    CHECK_NEAR(branch.pipe_bore_m, scene_sizes[1].bore_m, 1e-12);
    qll_stage stage = {&branch, 1, 8e5};
    qll_stage_solver *solver = NULL;
    CHECK(qll_stage_solver_make(&stage, &site.water, site.barometric_pa, arena, &solver) == QLL_OK);
    for (int step = 0; step < 6; step++) {
        double outlet_pa = 5.7e5 - 0.5e5 * step;
        const qll_sizing_case given = {.inlet_pa = 8e5 + TEST_SCENE_ATM,
                                       .outlet_pa = outlet_pa + TEST_SCENE_ATM,
                                       .density_kg_m3 = site.water.density_kg_m3,
                                       .vapour_pressure_pa = site.water.vapour_pressure_pa,
                                       .critical_pressure_pa = QLL_WATER_CRITICAL_PA,
                                       .viscosity_pa_s = site.water.viscosity_pa_s,
                                       .fl = 0.9,
                                       .fd = 0.46,
                                       .valve_bore_m = scene_sizes[1].bore_m,
                                       .pipe_in_bore_m = scene_sizes[4].bore_m,
                                       .pipe_out_bore_m = scene_sizes[4].bore_m};
        qll_sizing sized = qll_sizing_flow(&given, 12.0);
        CHECK(!sized.choked && sized.fp < 0.95);
        qll_stage_point point = qll_stage_solve(solver, given.inlet_pa, sized.flow_m3s);
        CHECK_WITHIN(point.outlet_pa, given.outlet_pa, 1e-3);
    }
    qll_arena_close(arena);
}

TEST(no_reducers_where_the_header_is_not_larger)
{
    qll_arena *arena = qll_arena_open((size_t)room);
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still = {0.0, 8e5};
    qll_site site = scene_site(sizes, &still);
    scene_valve valve;
    scene_valve_make(&valve, 12.0, 0.2e5, 0.1 * TEST_SCENE_M3H, 0.0254);
    valve.valve.strainer_kv_m3h = 30.0;
    const qll_pipe_size *headers[] = {NULL, &scene_sizes[0], &scene_sizes[1]};
    for (size_t i = 0; i < 3; i++) {
        site.header = headers[i];
        qll_branch branch = scene_branch(&valve, 6e5, 0.0);
        CHECK(qll_branch_connect(&site, arena, &branch) == QLL_OK);
        CHECK(isnan(branch.reducer_kv_m3h) && isnan(branch.recovery));
        CHECK(branch.series_kv_m3h == 30.0);
    }
    site.header = &scene_sizes[2];
    qll_branch branch = scene_branch(&valve, 6e5, 0.0);
    CHECK(qll_branch_connect(&site, arena, &branch) == QLL_OK);
    double both = pow(branch.reducer_kv_m3h, -2.0) + pow(30.0, -2.0);
    CHECK_NEAR(branch.series_kv_m3h, 1.0 / sqrt(both), 1e-12);
    /* Kv 12 between 1-1/4 in: by hand from the formulas of IEC 60534-2-1. */
    CHECK_NEAR(branch.recovery, 0.8730066, 1e-6);
    qll_arena_close(arena);
}

TEST(header_is_the_service_or_carries_the_peak)
{
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still = {0.0, 8e5};
    qll_site site = scene_site(sizes, &still);
    /* 15 gpm in 1 in type L copper: 5.83 ft/s (handbook form), within 6 ft/s. */
    CHECK(qll_site_header(&site, NAN, 15.0 * TEST_SCENE_GPM) == &scene_sizes[1]);
    CHECK(qll_site_header(&site, NAN, 16.0 * TEST_SCENE_GPM) == &scene_sizes[2]);
    CHECK(qll_site_header(&site, 0.05, 15.0 * TEST_SCENE_GPM) == &scene_sizes[4]); /* DN 50 */
    CHECK(qll_site_header(&site, NAN, 1.0) == NULL);
    site.station_size_count = 0;
    CHECK(qll_site_header(&site, 0.05, 1e-3) == NULL);
}

int main(void)
{
    TEST_RUN(series_kv_and_recovery_are_fp_and_flp);
    TEST_RUN(stage_with_reducers_passes_what_the_standard_says);
    TEST_RUN(no_reducers_where_the_header_is_not_larger);
    TEST_RUN(header_is_the_service_or_carries_the_peak);
    return TEST_END();
}
