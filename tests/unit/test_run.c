/* Events in a survey's pipes against what is known without a run. */
#include "survey_scene.h"
#include "transient/event_cures.h"

#define TEST_GPM (3.785411784e-3 / 60)
#define TEST_PSI 6894.757293168361

static const double quarter_turn = 0.78539816339744831;

/* 100 ft of 3/4 in copper behind a 1 in valve; the main stands at 100 psi whatever flows. %s: more of the downstream. */
static const char survey[] =
    "{\"survey\": 1, \"units\": \"us\", \"water\": {\"temperature\": \"60 degF\"},"
    "\"supply\": {\"static_high\": \"100 psi\", \"static_low\": \"100 psi\"},"
    "\"upstream\": [{\"pipe\": \"copper L\", \"nominal\": \"1 in\", \"length\": \"40 ft\"}],"
    "\"station_pipe\": {\"pipe\": \"copper L\", \"nominal\": \"1 in\"},"
    "\"downstream\": {\"set_pressure\": \"60 psi\", %s \"outlets\": [{\"name\": \"washer\","
    " \"elevation\": \"0 ft\", \"needs\": \"20 psi\", \"path\": [{\"pipe\": \"copper L\","
    " \"nominal\": \"3/4 in\", \"length\": \"100 ft\"}]}]},"
    "\"scenarios\": [{\"name\": \"house\", \"use\": \"house\", \"people\": 4, \"fixtures\": ["
    "{\"fixture\": \"shower\", \"count\": 2}]}],"
    "\"existing\": {\"stages\": [{\"branches\": [{\"valve\": \"1 in direct\", \"set_pressure\": \"60 "
    "psi\"}]}]}}";

typedef struct event {
    scene at;
    qll_catalogue catalogue;
    qll_station station;
    qll_motion motion;
    qll_opening_move move;
    qll_draw_plan draws[2];
    qll_run_plan plan;
    qll_run_found found;
    const qll_tree *tree;
    const qll_line *pipe; /* to the washer */
} event;

static void prepare(event *made, const char *more, double flow_m3s, double takes_s)
{
    char text[4096];
    (void)snprintf(text, sizeof text, survey, more);
    *made = (event){.at = read_survey(text), .motion = qll_motion_usual()};
    CHECK(made->at.status == QLL_OK);
    made->catalogue = generic_catalogue(&made->at);
    CHECK(qll_survey_existing(&made->at.survey, &made->catalogue, made->at.arena, &made->station,
                              &made->at.assumed, &made->at.problems)
          == QLL_OK);
    made->move =
        (qll_opening_move){.begins_s = 0.05, .takes_s = takes_s, .from = 1, .to = 0, .power = 1};
    made->draws[0] = (qll_draw_plan){flow_m3s, 1, &made->move, 1};
    made->plan = (qll_run_plan){.tree = {.site = &made->at.survey.site,
                                         .station = &made->station,
                                         .motion = &made->motion,
                                         .static_pa_gauge = 100 * TEST_PSI,
                                         .peak_m3s = 10 * TEST_GPM},
                                .draws = made->draws,
                                .heats_from_s = INFINITY,
                                .leaks_from_s = INFINITY,
                                .until_s = 0.095,
                                .watched_s = 0.02,
                                .stops_pa_gauge = INFINITY};
}

static qll_status run(event *made)
{
    const qll_status status =
        qll_run_make(&made->plan, &made->at.problems, NULL, NULL, made->at.arena, &made->found);
    made->tree = &made->found.tree;
    made->pipe = &made->tree->network.lines[made->tree->network.line_count - 1];
    return status;
}

static double velocity_m_s(const event *made, double flow_m3s)
{
    return flow_m3s / (quarter_turn * made->pipe->bore_m * made->pipe->bore_m);
}

/* Joukowsky: rho a v. */
static double surge_pa(const event *made, double flow_m3s)
{
    return made->at.survey.site.water.density_kg_m3 * made->pipe->wave_speed_m_s
           * velocity_m_s(made, flow_m3s);
}

/* Shut within 2 L/a, looked at for as long: rho a v on top of what stood there, and no water is made or lost. */
TEST(a_fast_closing_is_joukowskys)
{
    event made;
    prepare(&made, "", 1.2 * TEST_GPM, 0.01);
    CHECK(run(&made) == QLL_OK);
    const qll_joint_seen *washer = &made.found.joints[made.tree->draws[0].joint];
    const double rise_pa = washer->high_pa_gauge - washer->before_pa_gauge;
    printf("    rise %.1f psi, rho a v %.1f psi; water off %.1e of %.1e m3\n", rise_pa / TEST_PSI,
           surge_pa(&made, 1.2 * TEST_GPM) / TEST_PSI, made.found.water_off_m3,
           made.found.drawn_m3);
    CHECK_NEAR(rise_pa, surge_pa(&made, 1.2 * TEST_GPM), 0.01);
    CHECK(fabs(made.found.water_off_m3) < 2e-9 * made.found.drawn_m3);
    CHECK(washer->high_s > 0.05 && washer->high_s <= made.found.ended_s);
    /* The draw was what it was said to be, until half of the closing was over. */
    CHECK_NEAR(made.found.drawn_m3, 1.2 * TEST_GPM * 0.055, 0.05);
    qll_arena_close(made.at.arena);
}

/* Five times as slow as a wave there and back: at most 2 rho L v/T, the rule for slow closing (Michaud), and half of it at
 * least. */
TEST(a_slow_closing_is_michauds)
{
    event made;
    prepare(&made, "", 3 * TEST_GPM, 0.25);
    made.plan.until_s = 0.4;
    CHECK(run(&made) == QLL_OK);
    const qll_joint_seen *washer = &made.found.joints[made.tree->draws[0].joint];
    const double michaud_pa = 2 * made.at.survey.site.water.density_kg_m3 * made.pipe->length_m
                              * velocity_m_s(&made, 3 * TEST_GPM) / 0.25;
    const double rise_pa =
        washer->high_pa_gauge - fmax(washer->before_pa_gauge, washer->after_pa_gauge);
    printf("    rise %.2f psi, Michaud %.2f psi\n", rise_pa / TEST_PSI, michaud_pa / TEST_PSI);
    CHECK(rise_pa > michaud_pa / 2 && rise_pa < 1.3 * michaud_pa);
    CHECK(rise_pa < 0.5 * surge_pa(&made, 3 * TEST_GPM));
    qll_arena_close(made.at.arena);
}

/* Finer steps change the first peak by under 1 %. */
TEST(cells_halved_twice_keep_the_peak)
{
    double peaks_pa[2];
    for (int i = 0; i < 2; i++) {
        event made;
        prepare(&made, "", 1.2 * TEST_GPM, 0.02);
        CHECK(run(&made) == QLL_OK);
        const double step_s = made.found.grid.step_s;
        if (i == 1) {
            made.plan.grid.step_most_s = step_s / 4;
            CHECK(run(&made) == QLL_OK);
            CHECK(made.found.grid.step_s <= step_s / 4);
        }
        peaks_pa[i] = made.found.joints[made.tree->draws[0].joint].high_pa_gauge;
        qll_arena_close(made.at.arena);
    }
    CHECK_NEAR(peaks_pa[1], peaks_pa[0], 0.01);
}

/* ---- verdicts ---- */

TEST(verdicts_go_by_their_limits)
{
    event made;
    prepare(&made, "", 1.2 * TEST_GPM, 0.01);
    CHECK(run(&made) == QLL_OK);
    /* 45 psi over what stood there is over 2 bar, and under what anything is made for. */
    qll_hammer hammer = qll_hammer_of(&made.found);
    CHECK(hammer.kind == QLL_HAMMER_RISE && hammer.joint == made.tree->draws[0].joint);
    /* The push is that on the pipe that gets most: more than the rise at its end, which had flowed before, makes. */
    CHECK(hammer.force_n >= quarter_turn * made.pipe->bore_m * made.pipe->bore_m * hammer.rise_pa);
    CHECK_NEAR(hammer.force_n,
               quarter_turn * made.pipe->bore_m * made.pipe->bore_m
                   * surge_pa(&made, 1.2 * TEST_GPM),
               0.1);
    CHECK(hammer.cavity_share == 0);
    /* What the same joint would be at other pressures. */
    qll_joint_seen *joints =
        qll_arena_take(made.at.arena, made.tree->network.joint_count, sizeof *joints);
    memcpy(joints, made.found.joints, made.tree->network.joint_count * sizeof *joints);
    made.found.joints = joints;
    qll_joint_seen *washer = &joints[made.tree->draws[0].joint];
    washer->high_pa_gauge = 149 * TEST_PSI;
    CHECK(qll_hammer_of(&made.found).kind == QLL_HAMMER_RISE);
    washer->high_pa_gauge = 151 * TEST_PSI;
    CHECK(qll_hammer_of(&made.found).kind == QLL_HAMMER_OVER);
    CHECK_NEAR(qll_hammer_of(&made.found).limit_pa_gauge, 150 * TEST_PSI, 1e-12);
    washer->high_pa_gauge = washer->before_pa_gauge;
    washer->after_pa_gauge = washer->before_pa_gauge;
    for (size_t j = 0; j < made.tree->network.joint_count; j++) {
        joints[j].high_pa_gauge = joints[j].low_pa_gauge = joints[j].before_pa_gauge;
        joints[j].after_pa_gauge = joints[j].before_pa_gauge;
    }
    CHECK(qll_hammer_of(&made.found).kind == QLL_HAMMER_NONE);
    washer->low_pa_gauge = 0.49 * washer->before_pa_gauge;
    CHECK(qll_hammer_of(&made.found).kind == QLL_HAMMER_DIP);
    washer->low_pa_gauge = 0.51 * washer->before_pa_gauge;
    CHECK(qll_hammer_of(&made.found).kind == QLL_HAMMER_NONE);
    washer->cavity_m3 = 1e-9;
    CHECK(qll_hammer_of(&made.found).kind == QLL_HAMMER_PARTS);
    qll_arena_close(made.at.arena);
}

TEST(pipes_are_rated_by_their_material)
{
    const qll_pipe_size copper = {.material = "copper"}, pex = {.material = "PEX"},
                        layered = {.material = "multilayer"};
    CHECK_NEAR(qll_pipe_rating_pa_gauge(&copper), 250 * TEST_PSI, 1e-12);
    CHECK_NEAR(qll_pipe_rating_pa_gauge(&pex), 240 * TEST_PSI, 1e-12);
    CHECK_NEAR(qll_pipe_rating_pa_gauge(&layered), 15e5, 1e-12);
    CHECK_NEAR(qll_pipe_rating_pa_gauge(NULL), 15e5, 1e-12);
}

/* ---- cures ---- */

/* The least arrester that works is one size over the greatest that does not, and its own run says so. */
TEST(cures_carry_the_figure_of_their_own_run)
{
    event made;
    prepare(&made, "", 3 * TEST_GPM, 0.02);
    made.plan.until_s = 0.6;
    made.plan.watched_s = 0.3;
    CHECK(run(&made) == QLL_OK);
    CHECK(qll_hammer_of(&made.found).kind != QLL_HAMMER_NONE);
    qll_event_cures tried;
    CHECK(qll_event_cures_find(&made.plan, &made.found, true, NULL, NULL, made.at.arena, &tried)
          == QLL_OK);
    const qll_event_cure *cures = tried.cures;
    CHECK(tried.count == 2);
    for (size_t i = 0; i < tried.count; i++) {
        printf("    %s: %s, %g, %.1f psi\n", qll_event_cure_words[cures[i].kind],
               cures[i].works ? "works" : "does not", cures[i].size, cures[i].figure_pa / TEST_PSI);
        CHECK(cures[i].works);
    }
    const qll_tree_arrester least = {0, cures[0].size, cures[0].precharge_pa_gauge};
    made.plan.arresters = &least;
    made.plan.arrester_count = 1;
    CHECK(run(&made) == QLL_OK);
    CHECK(qll_hammer_of(&made.found).kind == QLL_HAMMER_NONE);
    CHECK_NEAR(qll_hammer_of(&made.found).high_pa_gauge, cures[0].figure_pa, 1e-12);
    made.plan.arrester_count = 0;
    made.move.takes_s = cures[1].size;
    made.plan.until_s += cures[1].size - 0.02;
    CHECK(run(&made) == QLL_OK);
    CHECK_NEAR(qll_hammer_of(&made.found).high_pa_gauge, cures[1].figure_pa, 1e-12);
    qll_arena_close(made.at.arena);
}

/* ---- a heater ---- */

/* What the shut system rises by in a run, against the sum of its parts (expansion.md, 4): within 1 %. */
TEST(a_heater_is_the_closed_sum)
{
    event made;
    prepare(&made, "\"heater\": {\"volume\": \"50 gal\", \"relief\": \"150 psi\"},", 1.2 * TEST_GPM,
            1);
    made.draws[0] = (qll_draw_plan){0};
    made.plan.heats_from_s = 1;
    made.plan.quiet_step_s = 1;
    made.plan.wakes_pa = INFINITY;
    made.plan.until_s = 40;
    CHECK(run(&made) == QLL_OK);
    const qll_tree *tree = made.tree;
    const double degc = tree->heater->vessel.temperature_degc;
    const double rise_pa = made.found.joints[tree->outlet_joint].high_pa_gauge
                           - made.found.joints[tree->outlet_joint].before_pa_gauge;
    const double start_pa =
        made.found.joints[tree->outlet_joint].before_pa_gauge + made.at.survey.site.barometric_pa;
    qll_closed_part parts[2] = {
        tree->heater->vessel,
        {.volume_m3 = quarter_turn * made.pipe->bore_m * made.pipe->bore_m * made.pipe->length_m,
         .temperature_degc = made.at.survey.site.water.temperature_degc,
         .bore_m = made.pipe->bore_m,
         .wall_m = 1.143e-3,
         .modulus_pa = 117e9,
         .poisson = 0.34,
         .wall_expansion_per_k = 16.5e-6}};
    parts[0].temperature_degc = (10 + degc) / 2;
    const double sum_pa = (degc - 10) * qll_closed_rise_pa_per_k(parts, 2, start_pa);
    printf("    %.2f K: %.1f kPa, closed sum %.1f kPa\n", degc - 10, rise_pa / 1e3, sum_pa / 1e3);
    CHECK(degc > 10.3);
    /* Below the lock-up the seat gives way as well, so that the run's rise is the lower one. */
    CHECK(rise_pa < 1.01 * sum_pa && rise_pa > 0.9 * sum_pa);
    qll_arena_close(made.at.arena);
}

/* ---- a seat that leaks ---- */

/* What gives way behind the station, m3/Pa: the pipes, A L / (rho a^2) at the speed that the grid took. */
static double pipe_room_m3_pa(const event *made)
{
    double room = 0;
    for (size_t i = 0; i < made->tree->network.line_count; i++) {
        const qll_line *line = &made->tree->network.lines[i];
        if (made->tree->pipes[i].part != QLL_TREE_SERVICE) {
            const double speed_m_s =
                line->wave_speed_m_s * (1 + made->found.grid.pipes[i].speed_off);
            room += quarter_turn * line->bore_m * line->bore_m * line->length_m
                    / (made->at.survey.site.water.density_kg_m3 * speed_m_s * speed_m_s);
        }
    }
    return room;
}

/* The plug in its seat. */
static double seat_room_m3_pa(const event *made)
{
    const qll_regulator *valve = &made->tree->regulators[0];
    return valve->outlet_m2 * valve->outlet_m2 / (valve->seat_n_m + valve->spring_n_m);
}

/* room dp/dt = q0 (D/D0)^1/2 with D what is left to the main, so its root falls evenly:
 * D^1/2 = Ds^1/2 - q0 t / (2 room D0^1/2). */
static double left_pa(double stood_pa, double drop_pa, double volume_m3, double room)
{
    return pow(sqrt(stood_pa) - volume_m3 / (2 * room * sqrt(drop_pa)), 2);
}

TEST(a_leaking_seat_fills_what_gives_way)
{
    event made;
    const double leak_m3s = 5e-8;
    prepare(&made, "", 1.2 * TEST_GPM, 1);
    qll_stage stage = made.station.stages[0];
    qll_branch branch = stage.branches[0];
    qll_valve valve = *branch.valve;
    valve.hysteresis_pa = 0; /* no friction: the plug gives way as its seat does */
    branch.valve = &valve;
    stage.branches = &branch;
    made.station.stages = &stage;
    made.draws[0] = (qll_draw_plan){0};
    made.plan.tree.leak_m3s = leak_m3s;
    made.plan.leaks_from_s = 1;
    made.plan.quiet_step_s = 0.02;
    made.plan.wakes_pa = INFINITY;
    made.plan.until_s = 8;
    CHECK(run(&made) == QLL_OK);
    const qll_joint_seen *outlet = &made.found.joints[made.tree->outlet_joint];
    const double drop_pa = 40 * TEST_PSI, stood_pa = 100 * TEST_PSI - outlet->before_pa_gauge;
    const double volume_m3 = leak_m3s * (made.found.ended_s - 1);
    const double room = pipe_room_m3_pa(&made) + seat_room_m3_pa(&made);
    const double wanted_pa = stood_pa - left_pa(stood_pa, drop_pa, volume_m3, room);
    const double rise_pa = outlet->high_pa_gauge - outlet->before_pa_gauge;
    printf("    %.2f kPa, by hand %.2f\n", rise_pa / 1e3, wanted_pa / 1e3);
    CHECK_NEAR(rise_pa, wanted_pa, 0.01);
    qll_arena_close(made.at.arena);
}

/* However long, no further than the main. */
TEST(a_leaking_seat_ends_at_the_main)
{
    event made;
    prepare(&made, "", 1.2 * TEST_GPM, 1);
    made.draws[0] = (qll_draw_plan){0};
    made.plan.tree.leak_m3s = 5e-8;
    made.plan.leaks_from_s = 1;
    made.plan.quiet_step_s = 5;
    made.plan.wakes_pa = INFINITY;
    made.plan.until_s = 3600;
    CHECK(run(&made) == QLL_OK);
    CHECK_NEAR(made.found.joints[made.tree->outlet_joint].high_pa_gauge, 100 * TEST_PSI, 1e-3);
    qll_arena_close(made.at.arena);
}

TEST(a_closing_without_time_is_refused)
{
    event made;
    prepare(&made, "", 1.2 * TEST_GPM, 0);
    CHECK(run(&made) == QLL_REFUSED);
    CHECK(made.at.problems.refusal_count == 1);
    qll_arena_close(made.at.arena);
}

int main(void)
{
    TEST_RUN(a_fast_closing_is_joukowskys);
    TEST_RUN(a_slow_closing_is_michauds);
    TEST_RUN(cells_halved_twice_keep_the_peak);
    TEST_RUN(verdicts_go_by_their_limits);
    TEST_RUN(pipes_are_rated_by_their_material);
    TEST_RUN(cures_carry_the_figure_of_their_own_run);
    TEST_RUN(a_heater_is_the_closed_sum);
    TEST_RUN(a_leaking_seat_fills_what_gives_way);
    TEST_RUN(a_leaking_seat_ends_at_the_main);
    TEST_RUN(a_closing_without_time_is_refused);
    return TEST_END();
}
