#include "building_scene.h"
#include "check.h"
#include "station/map.h"
#include "station/trouble.h"

/* A small and a large valve, supply 90 to 130 psi, idle for 0.4 of the time. */
typedef struct map_scene {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still;
    qll_site site;
    scene_demand demand;
    qll_duty duty;
    scene_valve valves[2];
    qll_branch branches[2];
    qll_stage stage;
    qll_station station;
    const qll_map *maps;
    size_t count;
} map_scene;

static bool scene_make(map_scene *made, double low_psi, double high_psi, double least_gpm,
                       qll_arena *arena)
{
    made->still = (qll_point){0.0, high_psi * TEST_SCENE_PSI};
    made->site = scene_site(made->sizes, &made->still);
    made->site.supply.static_low_pa_gauge = low_psi * TEST_SCENE_PSI;
    double flows[3] = {least_gpm * TEST_SCENE_GPM, 10.0 * TEST_SCENE_GPM, 40.0 * TEST_SCENE_GPM};
    double shares[3] = {0.3, 0.2, 0.1};
    size_t skipped = least_gpm < 40.0 ? 0 : 2;
    scene_demand_make(&made->demand, 40.0 * TEST_SCENE_GPM, flows + skipped, shares + skipped,
                      3 - skipped);
    scene_valve_make(&made->valves[0], 3.0, 8.0 * TEST_SCENE_PSI, 0.3 * TEST_SCENE_GPM, 0.01905);
    scene_valve_make(&made->valves[1], 20.0, 8.0 * TEST_SCENE_PSI, 3.0 * TEST_SCENE_GPM, 0.0508);
    made->branches[0] =
        scene_branch(&made->valves[0], 62.0 * TEST_SCENE_PSI, scene_sizes[0].bore_m);
    made->branches[1] =
        scene_branch(&made->valves[1], 57.0 * TEST_SCENE_PSI, scene_sizes[4].bore_m);
    made->stage = (qll_stage){made->branches, 2, 110.0 * TEST_SCENE_PSI};
    made->station = (qll_station){&made->stage, 1};
    qll_duty duty = {0};
    const qll_map *maps = NULL;
    size_t count = 0;
    bool is_made =
        CHECK(qll_duty_make(&made->site, &made->demand.scenario, 1, 24, arena, &duty) == QLL_OK)
        && CHECK(qll_maps_make(&made->station, &made->site, &duty, arena, &maps, &count) == QLL_OK);
    made->duty = duty;
    made->maps = maps;
    made->count = count;
    return is_made;
}

static qll_grade grade_of(const qll_limits *limits, const qll_branch_state *state, bool in_charge)
{
    return qll_trouble_grade(qll_branch_trouble(limits, state, in_charge));
}

TEST(a_map_spans_what_the_valve_sees_and_holds_all_its_time)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    map_scene made;
    if (!scene_make(&made, 90.0, 130.0, 1.0, arena)) {
        return;
    }
    CHECK(made.count == 2);
    for (size_t j = 0; j < 2; j++) {
        const qll_map *map = &made.maps[j];
        CHECK(map->stage == 0 && map->branch == j);
        CHECK(map->inlet_count == QLL_MAP_INLETS && map->flow_count == QLL_MAP_FLOWS);
        CHECK_NEAR(map->inlet_pa_gauge[0], 90.0 * TEST_SCENE_PSI, 1e-9);
        CHECK_NEAR(map->inlet_pa_gauge[QLL_MAP_INLETS - 1], 130.0 * TEST_SCENE_PSI, 1e-9);
        CHECK_NEAR(map->flow_m3s[QLL_MAP_FLOWS - 1], 40.0 * TEST_SCENE_GPM, 1e-9);
        double sum = 0.0;
        for (size_t i = 0; i < (size_t)QLL_MAP_INLETS * QLL_MAP_FLOWS; i++) {
            sum += map->cells[i].time_share;
        }
        CHECK_NEAR(sum, 0.6, 1e-9);
    }
    /* Half of the time at the middle supply, a quarter at each end (duty.md). */
    double top = 0.0;
    for (size_t f = 0; f < QLL_MAP_FLOWS; f++) {
        top += made.maps[0].cells[(size_t)(QLL_MAP_INLETS - 1) * QLL_MAP_FLOWS + f].time_share;
    }
    CHECK_NEAR(top, 0.25 * 0.6, 1e-9);
    qll_arena_close(arena);
}

TEST(cells_say_what_the_points_there_say)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    map_scene made;
    if (!scene_make(&made, 90.0, 130.0, 0.1, arena)) {
        return;
    }
    const qll_map_cell *small = made.maps[0].cells;
    const qll_map_cell *large = made.maps[1].cells;
    CHECK(small[0].working && small[0].grade == QLL_GRADE_CAUTION); /* below its 0.3 gpm */
    CHECK(!large[0].working && large[0].grade == QLL_GRADE_GOOD);
    CHECK(large[QLL_MAP_FLOWS - 1].working);
    for (size_t i = 0; i < (size_t)QLL_MAP_INLETS * QLL_MAP_FLOWS; i += 7) {
        size_t inlet = i / QLL_MAP_FLOWS;
        qll_operating_point point;
        CHECK(qll_station_operate(&made.station, &made.site,
                                  made.maps[0].inlet_pa_gauge[inlet] + TEST_SCENE_ATM,
                                  made.maps[0].flow_m3s[i % QLL_MAP_FLOWS], arena, &point)
              == QLL_OK);
        const qll_branch_state *states = point.branches[0];
        CHECK(small[i].working == states[0].working && large[i].working == states[1].working);
        CHECK(small[i].regime == states[0].cavitation.regime);
        size_t charge = qll_in_charge(states, 2);
        CHECK(large[i].grade == grade_of(&made.site.limits, &states[1], charge == 1));
    }
    qll_arena_close(arena);
}

/* The gravest is the first of the list that any valve has, whichever of them has it: at every flow from a trickle to full
 * bore, with the valves in either order. */
TEST(a_point_tells_the_gravest_trouble_of_its_valves)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    map_scene made;
    if (!scene_make(&made, 90.0, 130.0, 0.1, arena)) {
        return;
    }
    size_t later = 0;
    for (int turned = 0; turned < 2; turned++) {
        for (int step = 0; step < 64; step++) {
            const double gpm = 0.2 * pow(1.1, step); /* to 81 gpm */
            qll_operating_point point;
            CHECK(qll_station_operate(&made.station, &made.site,
                                      130.0 * TEST_SCENE_PSI + TEST_SCENE_ATM, gpm * TEST_SCENE_GPM,
                                      arena, &point)
                  == QLL_OK);
            const qll_branch_state *states = point.branches[0];
            size_t charge = qll_in_charge(states, 2);
            qll_trouble of[2];
            for (size_t j = 0; j < 2; j++) {
                of[j] = qll_branch_trouble(&made.site.limits, &states[j], j == charge);
            }
            qll_trouble gravest = QLL_TROUBLE_NONE;
            for (int t = QLL_TROUBLE_COUNT - 1; t > QLL_TROUBLE_NONE; t--) {
                gravest =
                    of[0] == (qll_trouble)t || of[1] == (qll_trouble)t ? (qll_trouble)t : gravest;
            }
            CHECK(point.trouble == gravest);
            later += of[0] != QLL_TROUBLE_NONE && of[1] != QLL_TROUBLE_NONE && of[1] < of[0];
        }
        const qll_branch first = made.branches[0];
        made.branches[0] = made.branches[1];
        made.branches[1] = first;
    }
    CHECK(later > 0);
    qll_arena_close(arena);
}

TEST(grades_follow_the_facts_of_the_trade)
{
    const qll_limits limits = scene_limits();
    qll_branch_state state = {.working = true, .stable = true, .velocity_m_s = 1.2};
    CHECK(grade_of(&limits, &state, true) == QLL_GRADE_GOOD);
    state.velocity_m_s = 2.0; /* 6.6 ft/s */
    CHECK(grade_of(&limits, &state, true) == QLL_GRADE_CAUTION);
    CHECK(grade_of(&limits, &state, false) == QLL_GRADE_CAUTION);
    state.velocity_m_s = 4.5; /* 14.8 ft/s */
    CHECK(grade_of(&limits, &state, true) == QLL_GRADE_CAUTION);
    state.velocity_m_s = 4.6; /* 15.1 ft/s */
    CHECK(grade_of(&limits, &state, false) == QLL_GRADE_FAIL);
    state.velocity_m_s = 1.2;
    state.cavitation.regime = QLL_REGIME_AUDIBLE;
    CHECK(grade_of(&limits, &state, false) == QLL_GRADE_CAUTION);
    state.cavitation.regime = QLL_REGIME_DAMAGING; /* one point does not decide */
    CHECK(grade_of(&limits, &state, false) == QLL_GRADE_CAUTION);
    state.working = false;
    CHECK(grade_of(&limits, &state, false) == QLL_GRADE_GOOD);
}

TEST(one_supply_and_one_flow_make_one_cell)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    map_scene made;
    if (!scene_make(&made, 110.0, 110.0, 40.0, arena)) {
        return;
    }
    CHECK(made.maps[0].inlet_count == 1);
    CHECK_NEAR(made.maps[0].inlet_pa_gauge[0], 110.0 * TEST_SCENE_PSI, 1e-9);
    double sum = 0.0;
    for (size_t i = 0; i < made.maps[0].flow_count; i++) {
        sum += made.maps[0].cells[i].time_share;
    }
    CHECK_NEAR(sum, 0.1, 1e-9);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(a_map_spans_what_the_valve_sees_and_holds_all_its_time);
    TEST_RUN(cells_say_what_the_points_there_say);
    TEST_RUN(a_point_tells_the_gravest_trouble_of_its_valves);
    TEST_RUN(grades_follow_the_facts_of_the_trade);
    TEST_RUN(one_supply_and_one_flow_make_one_cell);
    return TEST_END();
}
