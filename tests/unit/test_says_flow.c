/* How a flow is made to run, and how a valve is set with it. */
#include "base/customary.h"
#include "building_scene.h"
#include "check.h"
#include "wording/wording.h"

/* A building with what is named here, each giving the flow of data/fixtures.csv. */
static const qll_fixture_kind kinds[] = {
    {.word = "lavatory faucet", .flow_m3s = 1.5 * QLL_GPM_M3S},
    {.word = "shower", .flow_m3s = 2.0 * QLL_GPM_M3S},
    {.word = "hose bibb", .flow_m3s = 5.0 * QLL_GPM_M3S},
};
static const qll_fixture_load loads[] = {
    {.kind = &kinds[0], .count = 4, .flow_m3s = NAN},
    {.kind = &kinds[1], .count = 3, .flow_m3s = NAN},
    {.kind = &kinds[2], .count = 2, .flow_m3s = NAN},
};

static const char *made(qll_arena *arena, qll_language language, qll_unit_system units, double flow,
                        double meter_in)
{
    const qll_meter meter = {.nominal_m = meter_in * QLL_INCH_M};
    const qll_element element = {.kind = QLL_ELEMENT_METER, .meter = &meter};
    const qll_site site = {.upstream = &element, .upstream_count = isfinite(meter_in) ? 1 : 0};
    const qll_wording wording = {.units = units, .language = language, .site = &site};
    const qll_scenario scenario = {.loads = loads, .load_count = sizeof loads / sizeof *loads};
    qll_writer writer = qll_writer_new(arena);
    double flow_m3s = flow * (units == QLL_UNITS_SI ? 1e-3 : QLL_GPM_M3S);
    qll_flow_run run;
    CHECK(qll_flow_run_of(&scenario, flow_m3s, arena, &run) == QLL_OK);
    qll_wording_make_flow(&writer, &wording, &run);
    return qll_writer_text(&writer).bytes;
}

/* By hand: 60 s over gpm for a gallon, 300 for five; a turn of the hand is 7.48 gal up to 1 in, a tenth
 * of one the same above; 60 L/min are 1 L/s. Beyond the hose valve's 10 gpm two bibbs give 10, three showers 6,
 * four lavatories 6: 32 in all. */
TEST(a_flow_is_made_with_the_hose_valve_and_a_watch)
{
    static const struct {
        double flow, meter_in;
        qll_unit_system units;
        const char *says;
    } cases[] = {
        {0.25, NAN, QLL_UNITS_US,
         "Run 0.25 gpm: open hose valve D until a 1-gallon jug fills in 240 seconds. About the same: a "
         "lavatory faucet a little."},
        {0.75, 0.75, QLL_UNITS_US,
         "Run 0.75 gpm: open hose valve D until a 1-gallon jug fills in 80 seconds (3 quarts a minute). "
         "About the same: a lavatory faucet about half."},
        {1.5, 1, QLL_UNITS_US,
         "Run 1.5 gpm: open hose valve D until a 1-gallon jug fills in 40 seconds. About the same: a "
         "lavatory faucet all the way."},
        {2, 1, QLL_UNITS_US,
         "Run 2 gpm: open hose valve D until a 1-gallon jug fills in 30 seconds. About the same: a "
         "shower all the way."},
        {4, 1, QLL_UNITS_US,
         "Run 4 gpm: open hose valve D until a 5-gallon bucket fills in 75 seconds."},
        {4.75, 1, QLL_UNITS_US, /* 300 s over 4.75 */
         "Run 4.75 gpm: open hose valve D until a 5-gallon bucket fills in 63 seconds."},
        {10, 1, QLL_UNITS_US,
         "Run 10 gpm: open hose valve D until a 5-gallon bucket fills in 30 seconds."},
        {17.5, 1, QLL_UNITS_US,
         "Run 17.5 gpm: open hose valve D and 2 hose bibbs all the way, then throttle D until the "
         "meter's sweep hand takes 26 seconds a turn (1 cubic foot)."},
        {24, 2, QLL_UNITS_US,
         "Run 24 gpm: open hose valve D, 2 hose bibbs and 2 showers all the way, then throttle D "
         "until the meter's sweep hand takes 19 seconds for a tenth of a turn (1 cubic foot)."},
        {31, 2, QLL_UNITS_US, /* 10 cubic feet are 74.8 gal; a tenth would take 14.5 s */
         "Run 31 gpm in the busiest hour, heater on and people drawing: open hose valve D until the "
         "meter's sweep hand takes 145 seconds a turn (10 cubic feet); if all of D is too little, write "
         "the flow under remarks."},
        {88, NAN, QLL_UNITS_US,
         "Run 88 gpm in the busiest hour, heater on and people drawing: open hose valve D until the "
         "utility's meter moves 88 gal in a minute; if all of D is too little, write the flow under "
         "remarks."},
        {0.05, 3, QLL_UNITS_SI,
         "Run 0.05 L/s: open hose valve D until a 1 L jug fills in 20 seconds. About the same: a "
         "lavatory faucet about half."},
        {1, 2, QLL_UNITS_SI,
         "Run 1.00 L/s: open hose valve D and 2 hose bibbs all the way, then throttle D until the "
         "utility's meter moves 60 L in a minute."},
    };

    qll_arena *arena = qll_arena_open(1 << 20);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        CHECK_TEXT(made(arena, QLL_LANGUAGE_EN, cases[i].units, cases[i].flow, cases[i].meter_in),
                   cases[i].says);
    }
    qll_arena_close(arena);
}

TEST(spanish_says_the_same)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    CHECK_TEXT(made(arena, QLL_LANGUAGE_ES, QLL_UNITS_SI, 0.05, 3),
               "Haga correr 0.05 L/s: abra la llave D hasta que una jarra de 1 L se llene "
               "en 20 segundos. Más o menos lo mismo: un lavabo a la mitad.");
    CHECK_TEXT(made(arena, QLL_LANGUAGE_ES, QLL_UNITS_US, 17.5, 2),
               "Haga correr 17.5 gpm: abra del todo la llave D y 2 llaves de manguera; "
               "luego regule con D hasta que la aguja del medidor tarde 26 segundos por décimo de "
               "vuelta (1 pie cúbico).");
    qll_arena_close(arena);
}

/* What the building does not have is not named; a group counts as what is in it. */
TEST(only_what_the_building_has_is_opened)
{
    static const qll_fixture_kind tub = {.word = "combination bath/shower",
                                         .flow_m3s = 5.5 * QLL_GPM_M3S};
    static const qll_fixture_kind group = {
        .word = "bathroom group, tank", .parts = {&tub, &kinds[0]}, .part_count = 2};
    static const qll_fixture_load grouped[] = {
        {.kind = &group, .count = 3, .flow_m3s = NAN, .use_probability = NAN}};
    const qll_scenario bare = {.load_count = 0};
    const qll_scenario of_groups = {.loads = grouped, .load_count = 1};
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_flow_run run;
    CHECK(qll_flow_run_of(&bare, 1.0 * QLL_GPM_M3S, arena, &run) == QLL_OK);
    CHECK(!run.has_lavatory && !run.has_shower && !run.is_short);
    CHECK(qll_flow_run_of(&bare, 11.0 * QLL_GPM_M3S, arena, &run) == QLL_OK && run.is_short);
    CHECK(qll_flow_run_of(&of_groups, 21.0 * QLL_GPM_M3S, arena, &run) == QLL_OK);
    CHECK(run.opened[QLL_TAP_TUB] == 2 && run.opened[QLL_TAP_LAVATORY] == 0 && !run.is_short);
    CHECK(run.has_lavatory && run.has_shower);
    CHECK(qll_flow_run_of(&of_groups, 27.5 * QLL_GPM_M3S, arena, &run) == QLL_OK);
    CHECK(run.opened[QLL_TAP_TUB] == 3 && run.opened[QLL_TAP_LAVATORY] == 1 && !run.is_short);
    CHECK(!run.is_for_busiest_hour);
    CHECK(qll_flow_run_of(&of_groups, 31.0 * QLL_GPM_M3S, arena, &run) == QLL_OK);
    CHECK(run.opened[QLL_TAP_TUB] == 3 && run.opened[QLL_TAP_LAVATORY] == 3);
    CHECK(run.is_for_busiest_hour);
    qll_arena_close(arena);
}

/* Five fixtures are opened by hand; six and more the building opens itself, at its busiest hour. */
TEST(more_than_a_hand_can_open_runs_in_the_busiest_hour)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_wording wording = {.units = QLL_UNITS_US};
    for (size_t tubs = 3; tubs <= 4; tubs++) {
        const qll_flow_run run = {.flow_m3s = 41.0 * QLL_GPM_M3S,
                                  .opened = {[QLL_TAP_TUB] = tubs, [QLL_TAP_KITCHEN] = 2},
                                  .is_for_busiest_hour = tubs == 4};
        const qll_site site = {.upstream_count = 0};
        qll_wording here = wording;
        here.site = &site;
        qll_writer writer = qll_writer_new(arena);
        qll_wording_make_flow(&writer, &here, &run);
        CHECK_TEXT(
            qll_writer_text(&writer).bytes,
            tubs == 3
                ? "Run 41 gpm: open hose valve D, 3 tub spouts and 2 kitchen faucets all the way, then "
                  "throttle D until the utility's meter moves 41 gal in a minute."
                : "Run 41 gpm in the busiest hour, heater on and people drawing: open hose valve D until "
                  "the utility's meter moves 41 gal in a minute; if all of D is too little, write the flow under "
                  "remarks.");
    }
    qll_arena_close(arena);
}

/* Every flow has a tap and a measure, whatever the meter. */
TEST(any_flow_is_told_in_full)
{
    for (int step = -20; step <= 60; step++) {
        double flow = pow(10.0, step / 10.0);
        for (int meter = 0; meter < 4; meter++) {
            static const double meters_in[] = {NAN, 0.625, 2, 6};
            for (int kind = 0; kind < 2 * QLL_LANGUAGE_COUNT; kind++) {
                qll_arena *arena = qll_arena_open(1 << 20);
                const char *says = made(arena, (qll_language)(kind / 2),
                                        (qll_unit_system)(kind % 2), flow, meters_in[meter]);
                CHECK(says != NULL && strpbrk(says, "{}[]") == NULL);
                CHECK(says != NULL && strstr(says, " 0 ") == NULL && says[strlen(says) - 1] == '.');
                qll_arena_close(arena);
            }
        }
    }
}

/* A valve with a set-point that follows a tenth of the inlet, 60 psi at 110 before it. */
typedef struct set_scene {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still;
    qll_site site;
    scene_valve valve;
    qll_branch branch;
    qll_stage stage;
    qll_station station;
    qll_duty duty;
} set_scene;

static void set_scene_make(set_scene *scene, double inlet_effect)
{
    scene->still = (qll_point){0.0, 110.0 * TEST_SCENE_PSI};
    scene->site = scene_site(scene->sizes, &scene->still);
    scene_valve_make(&scene->valve, 10.0, 8.0 * TEST_SCENE_PSI, 5.6e-5, 0.0254);
    scene->valve.valve.inlet_effect = inlet_effect;
    scene->branch = scene_branch(&scene->valve, 60.0 * TEST_SCENE_PSI, scene_sizes[1].bore_m);
    scene->stage = (qll_stage){&scene->branch, 1, 110.0 * TEST_SCENE_PSI};
    scene->station = (qll_station){&scene->stage, 1};
    scene->duty = (qll_duty){.peak_m3s = 1.0};
}

static const char *set(qll_arena *arena, const set_scene *scene, qll_language language,
                       qll_unit_system units)
{
    const qll_wording wording = {
        .units = units, .language = language, .site = &scene->site, .duty = &scene->duty};
    qll_writer writer = qll_writer_new(arena);
    const qll_setting setting =
        qll_setting_of(&scene->station, &scene->site, scene->duty.peak_m3s, 0, 0);
    qll_flow_run run = {.flow_m3s = setting.flow_m3s};
    qll_wording_set_valve(&writer, &wording, "A", 0, &setting, &run);
    return qll_writer_text(&writer).bytes;
}

TEST(a_valve_is_set_with_what_its_gauges_show)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    set_scene scene;
    set_scene_make(&scene, 0.1);
    CHECK_TEXT(
        set(arena, &scene, QLL_LANGUAGE_EN, QLL_UNITS_US),
        "A: Run 1.5 gpm: open hose valve D until a 1-gallon jug fills in 40 seconds. Gauge P0 then "
        "shows about 110 psi; turn the adjusting screw until gauge P1 shows 60 psi. +1 psi per +10 psi "
        "on P0.");
    set_scene_make(&scene, -0.1);
    const char *says = set(arena, &scene, QLL_LANGUAGE_EN, QLL_UNITS_SI);
    CHECK(strstr(says, "-0.1 bar per +1 bar on P0.") != NULL);
    set_scene_make(&scene, 0.01);
    CHECK(strstr(set(arena, &scene, QLL_LANGUAGE_EN, QLL_UNITS_US), "per +") == NULL);
    set_scene_make(&scene, 0.1);
    CHECK(
        strstr(set(arena, &scene, QLL_LANGUAGE_ES, QLL_UNITS_US), "+1 psi por cada +10 psi en P0.")
        != NULL);
    scene.branch.set_pa_gauge = 130.0 * TEST_SCENE_PSI; /* above the main: nothing to turn to */
    CHECK_TEXT(set(arena, &scene, QLL_LANGUAGE_EN, QLL_UNITS_US), "");
    qll_arena_close(arena);
}

/* About 1 gpm for each inch. */
TEST(a_large_meter_does_not_show_a_small_flow)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    static const qll_meter meter = {.nominal_m = 4.0 * QLL_INCH_M};
    static const qll_element element = {.kind = QLL_ELEMENT_METER, .meter = &meter};
    set_scene scene;
    set_scene_make(&scene, 0.0);
    scene.site.upstream = &element;
    scene.site.upstream_count = 1;
    const qll_wording wording = {
        .units = QLL_UNITS_US, .language = QLL_LANGUAGE_EN, .site = &scene.site};
    qll_writer writer = qll_writer_new(arena);
    CHECK_TEXT(qll_wording_meter_note(&writer, &wording, 3.9 * QLL_GPM_M3S),
               "The 4 in meter hardly moves below 4 gpm: measure less with the jug or the bucket.");
    CHECK(qll_wording_meter_note(&writer, &wording, 4.1 * QLL_GPM_M3S) == NULL);
    scene.site.upstream_count = 0;
    CHECK(qll_wording_meter_note(&writer, &wording, 0.1 * QLL_GPM_M3S) == NULL);
    qll_arena_close(arena);
}

TEST(without_memory_the_arena_says_so)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    set_scene scene;
    set_scene_make(&scene, 0.1);
    const qll_wording wording = {.units = QLL_UNITS_US, .site = &scene.site, .duty = &scene.duty};
    const qll_setting setting =
        qll_setting_of(&scene.station, &scene.site, scene.duty.peak_m3s, 0, 0);
    qll_writer whole = qll_writer_new(arena);
    const qll_flow_run run = {.flow_m3s = setting.flow_m3s};
    qll_wording_set_valve(&whole, &wording, "A", 0, &setting, &run);
    qll_arena_mark mark = qll_arena_now(arena);
    size_t nth = 1;
    for (bool done = false; !done && nth < 10000; nth++) {
        qll_arena_fail(arena, nth, false);
        size_t refused = qll_arena_refused(arena);
        qll_writer writer = qll_writer_new(arena);
        qll_wording_set_valve(&writer, &wording, "A", 0, &setting, &run);
        done = qll_arena_refused(arena) == refused;
        CHECK(!done || qll_text_equal(qll_writer_text(&writer), qll_writer_text(&whole)));
        qll_arena_fail(arena, 0, false);
        qll_arena_reset(arena, mark);
    }
    CHECK(nth > 10 && nth < 10000);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(a_flow_is_made_with_the_hose_valve_and_a_watch);
    TEST_RUN(spanish_says_the_same);
    TEST_RUN(only_what_the_building_has_is_opened);
    TEST_RUN(more_than_a_hand_can_open_runs_in_the_busiest_hour);
    TEST_RUN(a_large_meter_does_not_show_a_small_flow);
    TEST_RUN(any_flow_is_told_in_full);
    TEST_RUN(a_valve_is_set_with_what_its_gauges_show);
    TEST_RUN(without_memory_the_arena_says_so);
    return TEST_END();
}
