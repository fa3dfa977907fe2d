#include "building_scene.h"
#include "check.h"
#include "station/ladder.h"

#include <stdint.h>

/* A main of 110 psi, 60 ft of 1-1/2 in copper, a valve set to 60 psi, and two outlets. */
typedef struct ladder_scene {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_pipe_size copper;
    qll_point still;
    qll_site site;
    scene_demand demand;
    qll_duty duty;
    scene_valve valve;
    qll_branch branch;
    qll_stage stage;
    qll_station station;
    qll_element upstream;
    qll_path_run path[2];
    qll_outlet outlets[2];
    const qll_ladder *ladders;
    size_t count;
} ladder_scene;

static bool scene_make(ladder_scene *made, double flow_gpm, qll_arena *arena)
{
    made->still = (qll_point){0.0, 110.0 * TEST_SCENE_PSI};
    made->site = scene_site(made->sizes, &made->still);
    made->copper = scene_sizes[3];
    made->copper.material = "copper";
    made->copper.velocity_max_m_s = 8.0 * TEST_SCENE_FPS;
    made->upstream = (qll_element){
        .kind = QLL_ELEMENT_PIPE,
        .size = &made->copper,
        .pipe = {.bore_m = made->copper.bore_m, .length_m = 18.3, .roughness_m = 1.5e-6}};
    made->path[0] = (qll_path_run){.pipe = made->upstream.pipe, .carries_m3s = NAN};
    made->path[1] = (qll_path_run){.pipe = {.bore_m = 0.02, .length_m = 6.0, .roughness_m = 1.5e-6},
                                   .size = &made->copper,
                                   .carries_m3s = 4.0 * TEST_SCENE_GPM};
    made->outlets[0] =
        (qll_outlet){.name = "near", .needs_pa_gauge = 1e5, .path = made->path, .path_count = 2};
    made->outlets[1] = (qll_outlet){.name = "cellar", .elevation_m = -10.0};
    made->site.upstream = &made->upstream;
    made->site.upstream_count = 1;
    made->site.outlets = made->outlets;
    made->site.outlet_count = 2;
    double flow_m3s = flow_gpm * TEST_SCENE_GPM;
    double always = 1.0;
    scene_demand_make(&made->demand, flow_m3s, &flow_m3s, &always, 1);
    scene_valve_make(&made->valve, 20.0, 8.0 * TEST_SCENE_PSI, 0.0, 0.0381);
    made->branch = scene_branch(&made->valve, 60.0 * TEST_SCENE_PSI, scene_sizes[3].bore_m);
    made->stage = (qll_stage){&made->branch, 1, 110.0 * TEST_SCENE_PSI};
    made->station = (qll_station){&made->stage, 1};
    qll_duty duty = {0};
    const qll_ladder *ladders = NULL;
    size_t count = 0;
    bool is_made =
        CHECK(qll_duty_make(&made->site, &made->demand.scenario, 1, 8, arena, &duty) == QLL_OK)
        && CHECK(qll_ladders_make(&made->station, &made->site, &duty, arena, &ladders, &count)
                 == QLL_OK);
    made->duty = duty;
    made->ladders = ladders;
    made->count = count;
    return is_made;
}

TEST(at_night_only_heights_and_the_valve_take_pressure)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    ladder_scene made;
    if (!scene_make(&made, 30.0, arena)) {
        return;
    }
    CHECK(made.count == 6 && made.ladders[0].time == QLL_LADDER_NIGHT);
    const qll_ladder *way = &made.ladders[0];
    CHECK(way->outlet == SIZE_MAX && way->count == 3);
    CHECK_NEAR(way->steps[0].pressure_pa_gauge, 110.0 * TEST_SCENE_PSI, 1e-12);
    CHECK_NEAR(way->steps[1].pressure_pa_gauge, 110.0 * TEST_SCENE_PSI, 1e-12);
    /* Set-point and the 0.2 bar of lock-up rise. */
    double lockup_pa = 60.0 * TEST_SCENE_PSI + 0.2e5;
    CHECK_NEAR(way->steps[2].pressure_pa_gauge, lockup_pa, 1e-9);
    CHECK(way->steps[2].kind == QLL_STEP_STAGE && way->steps[2].stage == 0);
    CHECK_NEAR(made.ladders[1].steps[2].pressure_pa_gauge, lockup_pa, 1e-9);
    CHECK(made.ladders[2].count == 1);
    CHECK_NEAR(made.ladders[2].steps[0].pressure_pa_gauge,
               lockup_pa + QLL_REFERENCE_DENSITY_KG_M3 * 9.80665 * 10.0, 1e-9);
    qll_arena_close(arena);
}

/* 30 gpm in 1-1/2 in type L: v = 0.4085 * 30/1.505^2 = 5.41 ft/s (handbook form). */
TEST(at_the_peak_every_step_takes_its_share)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    ladder_scene made;
    if (!scene_make(&made, 30.0, arena)) {
        return;
    }
    const qll_ladder *way = &made.ladders[3];
    CHECK(way->time == QLL_LADDER_PEAK);
    CHECK_NEAR(way->steps[1].velocity_m_s / TEST_SCENE_FPS, 0.4085 * 30.0 / (1.505 * 1.505), 2e-4);
    CHECK(!way->steps[1].too_fast);
    double lost_pa = way->steps[0].pressure_pa_gauge - way->steps[1].pressure_pa_gauge;
    CHECK_NEAR(lost_pa, qll_pipe_drop_pa(&made.upstream.pipe, made.duty.peak_m3s, &made.site.water),
               1e-9);
    /* The last step of an outlet is what the delivery counts on. */
    const qll_ladder *out = &made.ladders[4];
    double wants_pa = qll_outlet_wants_pa_gauge(&made.site, &made.outlets[0], made.duty.peak_m3s);
    CHECK_NEAR(out->steps[2].pressure_pa_gauge - made.outlets[0].needs_pa_gauge,
               way->steps[2].pressure_pa_gauge - wants_pa, 1e-9);
    CHECK_NEAR(out->in_hand_pa, way->steps[2].pressure_pa_gauge - wants_pa, 1e-9);
    CHECK(isnan(way->in_hand_pa));
    CHECK_NEAR(out->steps[1].flow_m3s, 4.0 * TEST_SCENE_GPM, 1e-12);
    CHECK(out->steps[0].size == NULL && out->steps[0].velocity_max_m_s > 0.0);
    qll_arena_close(arena);
}

/* At zero rise the pressure never rises along the flow, whatever the flow; and what is too fast is
 * said so. */
TEST(a_ladder_falls_along_the_flow)
{
    for (int n = 1; n <= 12; n++) {
        const double gpm = 5.0 * n;
        qll_arena *arena = qll_arena_open(1 << 22);
        ladder_scene made;
        if (!scene_make(&made, gpm, arena)) {
            return;
        }
        double before_pa = INFINITY;
        for (size_t i = 3; i < 5; i++) {
            for (size_t k = 0; k < made.ladders[i].count; k++) {
                const qll_ladder_step *step = &made.ladders[i].steps[k];
                CHECK(step->pressure_pa_gauge <= before_pa);
                before_pa = step->pressure_pa_gauge;
                CHECK(step->too_fast == (step->velocity_m_s > step->velocity_max_m_s));
            }
        }
        CHECK(made.ladders[3].steps[1].too_fast == (gpm > 44.0)); /* 8 ft/s: 44.4 gpm */
        qll_arena_close(arena);
    }
}

/* Two stages, 85 and 60 psi: each stands in its place, with its own lock-up at night. */
TEST(stages_follow_one_another)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    ladder_scene made;
    if (!scene_make(&made, 30.0, arena)) {
        return;
    }
    scene_valve first;
    scene_valve_make(&first, 20.0, 8.0 * TEST_SCENE_PSI, 0.0, 0.0381);
    const qll_branch before = scene_branch(&first, 85.0 * TEST_SCENE_PSI, scene_sizes[3].bore_m);
    const qll_stage stages[2] = {{&before, 1, 110.0 * TEST_SCENE_PSI},
                                 {&made.branch, 1, 85.0 * TEST_SCENE_PSI}};
    const qll_station station = {stages, 2};
    const qll_ladder *ladders = NULL;
    size_t count = 0;
    if (!CHECK(qll_ladders_make(&station, &made.site, &made.duty, arena, &ladders, &count)
               == QLL_OK)
        || !CHECK(count > 4 && ladders != NULL)) {
        return;
    }
    const qll_ladder *night = &ladders[0];
    CHECK(night->count == 4);
    for (size_t k = 0; k < 2; k++) {
        CHECK(night->steps[2 + k].kind == QLL_STEP_STAGE && night->steps[2 + k].stage == k);
        double set_pa = (k == 0 ? 85.0 : 60.0) * TEST_SCENE_PSI;
        CHECK_NEAR(night->steps[2 + k].pressure_pa_gauge, set_pa + 0.2e5, 1e-9);
    }
    const qll_ladder *peak = &ladders[3];
    CHECK(peak->steps[2].pressure_pa_gauge > peak->steps[3].pressure_pa_gauge);
    CHECK(ladders[4].steps[0].pressure_pa_gauge < peak->steps[3].pressure_pa_gauge);
    qll_arena_close(arena);
}

TEST(what_cannot_pass_has_no_pressure_behind_it)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    ladder_scene made;
    if (!scene_make(&made, 400.0, arena)) {
        return;
    }
    CHECK(isnan(made.ladders[3].steps[2].pressure_pa_gauge));
    CHECK(isnan(made.ladders[3].steps[2].velocity_m_s));
    CHECK(isnan(made.ladders[4].steps[2].pressure_pa_gauge));
    qll_arena_close(arena);
}

/* UPC 610.12, as an adoption quotes it: copper 8 ft/s cold, 5 ft/s hot; 2 to 3 ft/s above 140 degF (copper handbook
 * practice, by way of a reference site). */
TEST(hot_copper_is_to_run_slower)
{
    qll_pipe_size copper = {.material = "copper", .velocity_max_m_s = 8.0 * TEST_SCENE_FPS};
    CHECK_NEAR(qll_pipe_velocity_max_m_s(&copper, 10.0) / TEST_SCENE_FPS, 8.0, 1e-12);
    CHECK_NEAR(qll_pipe_velocity_max_m_s(&copper, 60.0) / TEST_SCENE_FPS, 5.0, 1e-12);
    CHECK_NEAR(qll_pipe_velocity_max_m_s(&copper, 61.0) / TEST_SCENE_FPS, 3.0, 1e-12);
    copper.material = "steel";
    CHECK_NEAR(qll_pipe_velocity_max_m_s(&copper, 60.0) / TEST_SCENE_FPS, 8.0, 1e-12);
}

/* 60 ft of 1-1/2 in copper would take some hundred bar at 2000 gpm. */
TEST(no_step_stands_below_no_pressure)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    ladder_scene made = {0};
    scene_make(&made, 2000.0, arena);
    size_t impossible = 0;
    for (size_t i = 0; i < made.count; i++) {
        for (size_t k = 0; k < made.ladders[i].count; k++) {
            double pressure_pa_gauge = made.ladders[i].steps[k].pressure_pa_gauge;
            impossible += isnan(pressure_pa_gauge) ? 1 : 0;
            CHECK(!(pressure_pa_gauge + made.site.barometric_pa <= 0.0));
        }
    }
    CHECK(impossible > 0);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(at_night_only_heights_and_the_valve_take_pressure);
    TEST_RUN(at_the_peak_every_step_takes_its_share);
    TEST_RUN(a_ladder_falls_along_the_flow);
    TEST_RUN(stages_follow_one_another);
    TEST_RUN(what_cannot_pass_has_no_pressure_behind_it);
    TEST_RUN(hot_copper_is_to_run_slower);
    TEST_RUN(no_step_stands_below_no_pressure);
    return TEST_END();
}
