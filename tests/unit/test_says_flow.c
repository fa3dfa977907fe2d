/* How a flow is made to run, and how a valve is set with it. */
#include "base/customary.h"
#include "building_scene.h"
#include "check.h"
#include "wording/wording.h"

static const char *made(qll_arena *arena, qll_language language, qll_unit_system units, double flow,
                        double meter_in)
{
    const qll_wording wording = {.units = units, .language = language};
    qll_writer writer = qll_writer_new(arena);
    double flow_m3s = flow * (units == QLL_UNITS_SI ? 1e-3 : QLL_GPM_M3S);
    qll_wording_make_flow(&writer, &wording, flow_m3s, meter_in * QLL_INCH_M);
    return qll_writer_text(&writer).bytes;
}

/* By hand: 60 s over gpm for a gallon, 300 for five; a turn of the hand is 7.48 gal up to 1 in, a tenth
 * of one the same above; 60 L/min are 1 L/s. */
TEST(a_flow_is_made_with_a_tap_and_a_watch)
{
    static const struct {
        double flow, meter_in;
        qll_unit_system units;
        const char *says;
    } cases[] = {
        {0.25, NAN, QLL_UNITS_US,
         "To run 0.25 gpm, open a lavatory faucet a little; a 1-gallon jug then fills in 240 seconds."},
        {0.75, 0.75, QLL_UNITS_US,
         "To run 0.75 gpm, open a lavatory faucet about half; a 1-gallon jug then fills in 80 seconds "
         "(3 quarts a minute)."},
        {0.75, 3, QLL_UNITS_US,
         "To run 0.75 gpm, open a lavatory faucet about half; a 1-gallon jug then fills in 80 seconds "
         "(3 quarts a minute). The 3 in meter hardly moves at this flow: do not go by it."},
        {1.5, 1, QLL_UNITS_US,
         "To run 1.5 gpm, open a lavatory faucet all the way; a 1-gallon jug then fills in 40 seconds."},
        {2, 1, QLL_UNITS_US,
         "To run 2 gpm, open a shower all the way; a 1-gallon jug then fills in 30 seconds."},
        {4, 1, QLL_UNITS_US,
         "To run 4 gpm, open a hose bibb most of the way; a 5-gallon bucket then fills in 75 seconds."},
        {5, 1, QLL_UNITS_US,
         "To run 5 gpm, open a hose bibb all the way; a 5-gallon bucket then fills in 60 seconds."},
        {17.5, 1, QLL_UNITS_US,
         "To run 17.5 gpm, open 4 hose bibbs all the way; the meter's sweep hand then takes 26 seconds "
         "a turn (1 cubic foot)."},
        {17.5, 2, QLL_UNITS_US,
         "To run 17.5 gpm, open 4 hose bibbs all the way; the meter's sweep hand then takes 26 seconds "
         "for a tenth of a turn (1 cubic foot)."},
        {88, NAN, QLL_UNITS_US,
         "To run 88 gpm, open a drain or hose valve downstream of the station as far as needed; the "
         "meter then moves 88 gal in a minute."},
        {0.05, NAN, QLL_UNITS_SI,
         "To run 0.05 L/s, open a lavatory faucet about half; a 1 L jug then fills in 20 seconds."},
        {0.3, NAN, QLL_UNITS_SI,
         "To run 0.30 L/s, open a hose bibb all the way; a 10 L bucket then fills in 33 seconds."},
        {1, 2, QLL_UNITS_SI,
         "To run 1.00 L/s, open 3 hose bibbs all the way; the meter then moves 60 L in a minute."},
        {0.05, 3, QLL_UNITS_SI,
         "To run 0.05 L/s, open a lavatory faucet about half; a 1 L jug then fills in 20 seconds. The "
         "DN 80 meter hardly moves at this flow: do not go by it."},
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
    CHECK_TEXT(
        made(arena, QLL_LANGUAGE_ES, QLL_UNITS_SI, 0.05, 3),
        "Para que corran 0.05 L/s, abra a la mitad la llave de un lavabo; una jarra de 1 L se "
        "llena entonces en 20 segundos. El medidor de DN 80 apenas se mueve con tan poco: no se "
        "guíe por él.");
    CHECK_TEXT(made(arena, QLL_LANGUAGE_ES, QLL_UNITS_US, 17.5, 2),
               "Para que corran 17.5 gpm, abra del todo 4 llaves de manguera; la aguja del medidor "
               "tarda entonces 26 segundos por décimo de vuelta (1 pie cúbico).");
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
    qll_wording_set_valve(&writer, &wording, "A", &setting);
    return qll_writer_text(&writer).bytes;
}

TEST(a_valve_is_set_with_what_its_gauges_show)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    set_scene scene;
    set_scene_make(&scene, 0.1);
    CHECK_TEXT(
        set(arena, &scene, QLL_LANGUAGE_EN, QLL_UNITS_US),
        "A: To run 1.5 gpm, open a lavatory faucet all the way; a 1-gallon jug then fills in 40 "
        "seconds. Its inlet gauge then shows about 110 psi; turn the adjusting screw until its "
        "outlet gauge shows 60 psi. Inlet gauge higher: add 1.0 psi for every 10 psi; lower: "
        "subtract it.");
    set_scene_make(&scene, -0.1);
    const char *says = set(arena, &scene, QLL_LANGUAGE_EN, QLL_UNITS_SI);
    CHECK(strstr(says, "Inlet gauge higher: subtract 0.10 bar for every 1 bar; lower: add it.")
          != NULL);
    set_scene_make(&scene, 0.01);
    CHECK(strstr(set(arena, &scene, QLL_LANGUAGE_EN, QLL_UNITS_US), "higher") == NULL);
    set_scene_make(&scene, 0.1);
    CHECK(strstr(set(arena, &scene, QLL_LANGUAGE_ES, QLL_UNITS_US),
                 "Si la entrada marca más, sume 1.0 psi por cada 10 psi; si marca menos, réstelo.")
          != NULL);
    scene.branch.set_pa_gauge = 130.0 * TEST_SCENE_PSI; /* above the main: nothing to turn to */
    CHECK_TEXT(set(arena, &scene, QLL_LANGUAGE_EN, QLL_UNITS_US), "");
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
    qll_wording_set_valve(&whole, &wording, "A", &setting);
    qll_arena_mark mark = qll_arena_now(arena);
    size_t nth = 1;
    for (bool done = false; !done && nth < 10000; nth++) {
        qll_arena_fail(arena, nth, false);
        size_t refused = qll_arena_refused(arena);
        qll_writer writer = qll_writer_new(arena);
        qll_wording_set_valve(&writer, &wording, "A", &setting);
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
    TEST_RUN(a_flow_is_made_with_a_tap_and_a_watch);
    TEST_RUN(spanish_says_the_same);
    TEST_RUN(any_flow_is_told_in_full);
    TEST_RUN(a_valve_is_set_with_what_its_gauges_show);
    TEST_RUN(without_memory_the_arena_says_so);
    return TEST_END();
}
