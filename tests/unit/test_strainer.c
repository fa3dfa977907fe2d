#include "building_scene.h"
#include "check.h"
#include "station/strainer.h"

typedef struct strainer_scene {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still;
    qll_site site;
    scene_valve valve;
    qll_branch branch;
} strainer_scene;

static void scene_make(strainer_scene *made, const qll_pipe_size *pipe)
{
    made->still = (qll_point){0.0, 110.0 * TEST_SCENE_PSI};
    made->site = scene_site(made->sizes, &made->still);
    scene_valve_make(&made->valve, 10.0, 8.0 * TEST_SCENE_PSI, 0.0, pipe->nominal_m);
    made->branch = scene_branch(&made->valve, 60.0 * TEST_SCENE_PSI, pipe->bore_m);
}

/* (1 - a^2)/a^2 of Blevins' screen formula at a = 0.40: own independent computation. */
TEST(dirt_multiplies_the_loss)
{
    static const struct {
        double blocked, ratio;
    } facts[] = {{0.0, 1.0}, {0.25, 1.926}, {0.5, 4.571}, {0.75, 18.857}, {0.9, 118.857}};

    for (size_t i = 0; i < sizeof facts / sizeof *facts; i++) {
        CHECK_NEAR(qll_screen_blocked_ratio(0.40, facts[i].blocked), facts[i].ratio, 1e-3);
    }
    CHECK(isnan(qll_screen_blocked_ratio(0.40, 1.0)) && isnan(qll_screen_blocked_ratio(1.0, 0.5)));
}

/* 15 gpm in 1 in type L: 1.778 m/s, 0.889 m/s on a screen of twice the area. 60 mesh: open share
 * (250/410)^2 = 0.3718, Re = 0.889/0.3718 * 250e-6 * 999.1/1.1375e-3 = 525, so Blevins' beta is 0.52;
 * K = 0.52 (1 - 0.1382)/0.1382 = 3.242, loss 3.242 * 999.1 * 0.889^2/2 = 1280 Pa. By hand. */
TEST(the_finest_screen_of_the_valve_s_own_size)
{
    strainer_scene made;
    scene_make(&made, &scene_sizes[1]);
    qll_strainer found = qll_strainer_choose(&made.branch, &made.site, 15.0 * TEST_SCENE_GPM);
    CHECK(!found.in_body && found.mesh == 60 && found.nominal_m == scene_sizes[1].nominal_m);
    CHECK_NEAR(found.clean_pa, 1280.0, 0.01);
    /* a 0.1859 half blocked: (1 - 0.03456)/0.03456 over (1 - 0.1382)/0.1382. */
    CHECK_NEAR(found.half_blocked_pa / found.clean_pa, 27.94 / 6.235, 0.01);
    CHECK_NEAR(found.clean_me_pa, 2.0 * TEST_SCENE_PSI, 1e-12); /* gauges show no less */
    made.valve.valve.acting = QLL_ACTING_PILOT;
    CHECK(qll_strainer_choose(&made.branch, &made.site, 15.0 * TEST_SCENE_GPM).mesh == 40);
}

TEST(a_fast_pipe_wants_a_larger_strainer)
{
    strainer_scene made;
    scene_make(&made, &scene_sizes[1]);
    double before_m = scene_sizes[1].nominal_m;
    double before_pa = 0.0;
    for (int i = 0; i < 10; i++) {
        const double gpm = 10.0 + 5.0 * i;
        qll_strainer found = qll_strainer_choose(&made.branch, &made.site, gpm * TEST_SCENE_GPM);
        CHECK(found.nominal_m >= before_m);
        CHECK(found.half_blocked_pa <= 2.0 * TEST_SCENE_PSI || found.mesh == 20);
        CHECK(found.nominal_m > before_m || found.half_blocked_pa > before_pa || found.mesh < 60);
        before_m = found.nominal_m;
        before_pa = found.half_blocked_pa;
    }
    CHECK(before_m == scene_sizes[3].nominal_m); /* two sizes up, no further */
}

/* Kv 9 at 4.5 m3/h takes 0.25 bar of water of 999.1 kg/m3. */
TEST(a_screen_in_the_body_stays)
{
    strainer_scene made;
    scene_make(&made, &scene_sizes[1]);
    made.valve.valve.strainer_kv_m3h = 9.0;
    qll_strainer found = qll_strainer_choose(&made.branch, &made.site, 4.5 * TEST_SCENE_M3H);
    CHECK(found.in_body && found.mesh == 0);
    CHECK_NEAR(found.clean_pa, 0.25e5, 1e-9);
    CHECK_NEAR(found.half_blocked_pa, 0.25e5 * 4.5714, 1e-4);
    CHECK_NEAR(found.clean_me_pa, found.half_blocked_pa, 1e-12);
    CHECK_NEAR(found.half_blocked_kv_m3h, 9.0 / sqrt(4.5714), 1e-4);
    found = qll_strainer_choose(&made.branch, &made.site, 0.0);
    CHECK(found.in_body && isnan(found.clean_pa) && isnan(found.clean_me_pa));
}

/* 1/Kv^2 adds up: 3 and 4 in series are 2.4. A body's own screen gives way to the dirty one, a strainer
 * ahead of the valve comes on top, and a branch without flow stays as it was. */
TEST(dirt_is_added_to_what_is_in_series)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    strainer_scene made;
    scene_make(&made, &scene_sizes[1]);
    qll_branch branches[4] = {made.branch, made.branch, made.branch, made.branch};
    branches[1].series_kv_m3h = 3.0;
    branches[1].reducer_kv_m3h = 3.0;
    branches[2].series_kv_m3h = 2.0; /* the clean screen and the reducer */
    branches[2].reducer_kv_m3h = 3.0;
    branches[3].series_kv_m3h = 2.0;
    branches[3].reducer_kv_m3h = 3.0;
    const qll_stage stage = {branches, 4, 8e5};
    const qll_station station = {&stage, 1};
    qll_strainer screens[4] = {{.half_blocked_kv_m3h = 4.0},
                               {.half_blocked_kv_m3h = 4.0},
                               {.in_body = true, .half_blocked_kv_m3h = 4.0},
                               {.in_body = true, .half_blocked_kv_m3h = NAN}};
    qll_strainer *rows[1] = {screens};
    qll_station blocked;
    CHECK(qll_strainers_block(&station, rows, arena, &blocked) == QLL_OK);
    static const double want[4] = {4.0, 2.4, 2.4, 2.0};
    for (size_t j = 0; j < 4; j++) {
        CHECK_NEAR(blocked.stages[0].branches[j].series_kv_m3h, want[j], 1e-12);
        CHECK(blocked.stages[0].branches[j].valve == &made.valve.valve);
    }
    CHECK(isnan(branches[0].series_kv_m3h) && blocked.stages[0].set_inlet_pa_gauge == 8e5);
    qll_arena_close(arena);
}

/* 2 psi as long as the outlets can spare them; less where they cannot; no reading where no gauge shows it, or where
 * the clean screen takes as much. */
TEST(a_screen_is_cleaned_before_the_outlets_are_short)
{
    const double psi = TEST_SCENE_PSI;

    const struct {
        double clean, wait, spare, until;
    } facts[] = {{0.2, 2.0, 5.0, 2.0},     {0.2, 2.0, 1.4, 1.4}, {0.2, 2.0, 0.9, NAN},
                 {0.2, 2.0, 0.0, NAN},     {1.5, 6.0, 1.4, NAN}, {1.5, 6.0, 3.0, 3.0},
                 {0.2, 2.0, INFINITY, 2.0}};

    strainer_scene made;
    scene_make(&made, &scene_sizes[1]);
    const qll_stage stage = {&made.branch, 1, 8e5};
    const qll_station station = {&stage, 1};
    for (size_t i = 0; i < sizeof facts / sizeof *facts; i++) {
        qll_strainer strainer = {.clean_pa = facts[i].clean * psi,
                                 .clean_me_pa = facts[i].wait * psi};
        qll_strainer *rows[1] = {&strainer};
        qll_strainers_spare(&station, facts[i].spare * psi, rows);
        CHECK(isnan(facts[i].until) ? isnan(strainer.clean_me_pa)
                                    : fabs(strainer.clean_me_pa / psi - facts[i].until) < 1e-12);
    }
}

int main(void)
{
    TEST_RUN(dirt_multiplies_the_loss);
    TEST_RUN(the_finest_screen_of_the_valve_s_own_size);
    TEST_RUN(a_fast_pipe_wants_a_larger_strainer);
    TEST_RUN(a_screen_in_the_body_stays);
    TEST_RUN(a_screen_is_cleaned_before_the_outlets_are_short);
    TEST_RUN(dirt_is_added_to_what_is_in_series);
    return TEST_END();
}
