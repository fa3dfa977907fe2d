/* What stands at the ends of pipes, each by itself or at one joint. */
#include "check.h"
#include "dynamics/air_chamber.h"
#include "dynamics/meeting.h"
#include "dynamics/opening.h"
#include "dynamics/short_pipe.h"
#include "dynamics/supply_end.h"
#include "dynamics/warming.h"
#include "said.h"

static const double psi = 6894.757293168361;
static const double gpm = 6.30901964e-5;
static qll_arena *arena;

static double through_of(const qll_boundary_kind *kind, const void *state, double step_s,
                         double pressure_pa, double *slope)
{
    qll_through answer = {0};
    kind->through(state, &(qll_instant){.time_s = 0, .step_s = step_s}, &pressure_pa, &answer);
    *slope = answer.slope[0][0];
    return answer.flow_m3s[0];
}

/* Slopes are those of the flow, for any kind with one port. */
static void check_slope(const qll_boundary_kind *kind, const void *state, double step_s,
                        double pressure_pa)
{
    double slope = 0, none = 0;
    through_of(kind, state, step_s, pressure_pa, &slope);
    const double above = through_of(kind, state, step_s, pressure_pa + 1, &none);
    const double below = through_of(kind, state, step_s, pressure_pa - 1, &none);
    CHECK_NEAR(slope, (above - below) / 2, 1e-4);
}

/* The curve of a flow test, read the other way round. */
TEST(main_gives_its_curve_back)
{
    const qll_point test[] = {{0, 60 * psi}, {50 * gpm, 52 * psi}, {120 * gpm, 30 * psi}};
    const qll_supply supply = {test, 3, 60 * psi, 60 * psi};
    qll_supply_end end;
    CHECK(qll_supply_end_make(&supply, 60 * psi, arena, &end));
    double slope = 0;
    double flow = 1 * gpm;
    while (flow < 200 * gpm) {
        const double pressure_pa = qll_supply_pressure_pa_gauge(&supply, 60 * psi, flow);
        /* 1 kPa at 1 m3/s stands on top of it. */
        CHECK_NEAR(-through_of(&qll_supply_end_kind, &end, 1e-3, pressure_pa - 1e3 * flow, &slope),
                   flow, 1e-12);
        check_slope(&qll_supply_end_kind, &end, 1e-3, pressure_pa);
        flow += 7 * gpm;
    }
    CHECK_WITHIN(through_of(&qll_supply_end_kind, &end, 1e-3, 60 * psi, &slope), 0, 1e-15);
    /* Pushed back, it answers alike. */
    CHECK_NEAR(through_of(&qll_supply_end_kind, &end, 1e-3, 68 * psi, &slope),
               -through_of(&qll_supply_end_kind, &end, 1e-3, 52 * psi, &slope), 1e-12);
    const qll_supply flat = {test, 1, 60 * psi, 60 * psi};
    qll_supply_end steady;
    CHECK(qll_supply_end_make(&flat, 60 * psi, arena, &steady));
    CHECK_NEAR(through_of(&qll_supply_end_kind, &steady, 1e-3, 60 * psi - 1, &slope), -1e-3, 1e-12);
}

TEST(outlet_opens_and_closes_by_its_moves)
{
    const qll_opening_move moves[] = {
        {.begins_s = 1, .takes_s = 0.5, .from = 1, .to = 0.2, .power = 2},
        {.begins_s = 4, .takes_s = 1, .from = 0.2, .to = 0.6, .power = 1}};
    qll_opening tap = {.coefficient = qll_opening_coefficient(2e-4, 3e5),
                       .at_first = 1,
                       .moves = moves,
                       .move_count = 2};
    CHECK_NEAR(qll_opening_share(&tap, 0.9), 1, 1e-15);
    CHECK_NEAR(qll_opening_share(&tap, 1.25), 0.2 + 0.8 * 0.25, 1e-12);
    CHECK_NEAR(qll_opening_share(&tap, 2), 0.2, 1e-15);
    double slope = 0;
    CHECK_NEAR(through_of(&qll_opening_kind, &tap, 1e-3, 3e5, &slope), 2e-4, 1e-12);
    CHECK_NEAR(through_of(&qll_opening_kind, &tap, 1e-3, 0.75e5, &slope), 1e-4, 1e-6);
    CHECK(through_of(&qll_opening_kind, &tap, 1e-3, -5e4, &slope) == 0 && slope == 0);
    check_slope(&qll_opening_kind, &tap, 1e-3, 2e5);
    const double pressure_pa = 3e5;
    qll_opening_kind.accept(&tap, &(qll_instant){.time_s = 3, .step_s = 1}, &pressure_pa);
    CHECK_NEAR(qll_opening_share(&tap, 4.25), 0.3, 1e-12);
    CHECK_NEAR(qll_opening_share(&tap, 9), 0.6, 1e-15);
    /* One that opens from shut. */
    const qll_opening_move opens = {.begins_s = 0, .takes_s = 1, .from = 0, .to = 1, .power = 2};
    const qll_opening bath = {.moves = &opens, .move_count = 1};
    CHECK_NEAR(qll_opening_share(&bath, 0.5), 0.75, 1e-12);
}

static void check_refused(qll_opening_move move, const char *says)
{
    const qll_opening_move moves[] = {{.begins_s = 1, .takes_s = 2, .from = 0, .to = 1, .power = 1},
                                      move};
    const qll_opening tap = {.coefficient = 1e-6, .moves = moves, .move_count = 2};
    qll_problems problems = qll_problems_none(arena);
    CHECK(!qll_opening_check(&tap, "outlets[0]", &problems) && problems.count == 1);
    CHECK_TEXT(said_problem(&problems, 0).place.path, "outlets[0].moves[1]");
    CHECK_TEXT(said_problem(&problems, 0).text, says);
}

TEST(moves_that_cannot_be_are_refused)
{
    check_refused((qll_opening_move){.begins_s = 3, .takes_s = 0, .from = 1, .power = 1},
                  "the outlet moves within 0 s; opening or closing takes more than 0");
    check_refused((qll_opening_move){.begins_s = 2.5, .takes_s = 1, .from = 1, .power = 1},
                  "the outlet starts to move at 2.5 s, before its last move is over at 3 s");
    check_refused((qll_opening_move){.begins_s = 3, .takes_s = 1, .from = 1, .to = 1.5, .power = 1},
                  "an outlet is open by a share from 0 to 1, not 1.5");
}

/* Air on a pipe's water swings like a mass on a spring: w^2 = n p/(V I), with the pressure at rest absolute. */
TEST(air_swings_at_its_frequency)
{
    const double at_rest_pa = 4e5, air_pa = 1e5, volume_m3 = 2e-4;
    qll_air_chamber chamber = qll_air_chamber_of(volume_m3, at_rest_pa + air_pa, air_pa);
    qll_short_pipe pipe = {.inertia_pa_s2_m3 = 2e7, .room_m3_pa = 1e-15};
    const qll_boundary list[] = {
        {.kind = &qll_air_chamber_kind, .state = &chamber, .node = {1}},
        {.kind = &qll_short_pipe_kind, .state = &pipe, .node = {0, 1}},
    };
    qll_meeting *meeting = NULL;
    CHECK(qll_meeting_make(list, 2, 2, arena, &meeting) == QLL_OK);
    qll_meeting_node nodes[2] = {
        {.arrival = {at_rest_pa, INFINITY}, .vapour_pa_gauge = -air_pa},
        {.vapour_pa_gauge = -air_pa, .pressure_pa_gauge = at_rest_pa + 1},
    };
    const double bumped_pa = at_rest_pa + 50; /* so that it has water to give */
    nodes[0].arrival.pressure_pa_gauge = bumped_pa;
    qll_instant now = {.time_s = 0, .step_s = INFINITY};
    qll_meeting_end_step(meeting, nodes, &now);
    CHECK_NEAR(nodes[1].pressure_pa_gauge, bumped_pa, 1e-9);
    nodes[0].arrival.pressure_pa_gauge = bumped_pa + 40;
    now.step_s = 2e-5;
    const double w = sqrt(1.2 * (bumped_pa + air_pa) / (volume_m3 * 2e7));
    const double pi = 3.14159265358979323846;
    double last_pa = bumped_pa, crossed_s = 0, peak_pa = 0;
    for (int i = 1; now.time_s < 2 * pi / w; i++) {
        now.time_s = i * now.step_s;
        qll_meeting_end_step(meeting, nodes, &now);
        const double p = nodes[1].pressure_pa_gauge;
        if (last_pa >= bumped_pa + 40 && p < bumped_pa + 40) {
            crossed_s = now.time_s; /* half a period after it first passed */
        }
        peak_pa = fmax(peak_pa, p);
        last_pa = p;
    }
    CHECK_NEAR(crossed_s, 1.5 * pi / w, 0.002);
    CHECK_NEAR(peak_pa - bumped_pa, 80, 0.01);
}

/* Boyle behind a membrane: docs/theory/expansion.md, eq. 3a, from rest and in slow steps. */
TEST(tank_takes_what_boyle_says)
{
    qll_air_chamber tank = qll_air_chamber_of(8e-3, 3.5e5, 1e5);
    double pressure_pa = 3e5; /* 4e5 absolute */
    qll_air_chamber_kind.accept(&tank, &(qll_instant){.time_s = 0, .step_s = INFINITY},
                                &pressure_pa);
    CHECK_NEAR(tank.air_m3, 8e-3 * 3.5 / 4, 1e-12);
    double taken_m3 = 0;
    for (int i = 1; i <= 10; i++) {
        pressure_pa = 3e5 + 2e4 * i;
        double slope = 0;
        taken_m3 += 5 * through_of(&qll_air_chamber_kind, &tank, 5, pressure_pa, &slope);
        check_slope(&qll_air_chamber_kind, &tank, 5, pressure_pa);
        qll_air_chamber_kind.accept(&tank, &(qll_instant){.time_s = 5.0 * i, .step_s = 5},
                                    &pressure_pa);
    }
    CHECK_NEAR(taken_m3, 8e-3 * qll_expansion_tank_share(3.5e5, 4e5, 6e5), 1e-9);
    /* Below its precharge it holds no water. */
    double slope = 1;
    const double given = 5 * through_of(&qll_air_chamber_kind, &tank, 5, 1e5, &slope);
    CHECK_NEAR(-given, 8e-3 * (1 - 3.5 / 6), 1e-9);
    CHECK(slope == 0);
    /* A quick push: p V^1.2. */
    const double push = through_of(&qll_air_chamber_kind, &tank, 1e-3, 7e5, &slope) * 1e-3 * 0.55
                        + 0.45 * 1e-3 * tank.flow_m3s;
    CHECK_NEAR(push, tank.air_m3 * (1 - pow(6.0 / 8.0, 1 / 1.2)), 1e-9);
}

/* A heater alone, shut: the pressure of expansion.md, eq. 4, summed in small steps. */
TEST(shut_heater_follows_the_closed_form)
{
    qll_warming heater = {.vessel = {.volume_m3 = 0.3,
                                     .temperature_degc = 20,
                                     .is_heated = true,
                                     .bore_m = 0.4,
                                     .wall_m = 2.5e-3,
                                     .modulus_pa = 207e9,
                                     .poisson = 0.3,
                                     .wall_expansion_per_k = 11.7e-6},
                          .power_w = 4500,
                          .begins_s = 100,
                          .hot_degc = 30,
                          .barometric_pa = 101325};
    qll_closed_part part = heater.vessel;
    const qll_boundary list[] = {{.kind = &qll_warming_kind, .state = &heater, .node = {0}}};
    qll_meeting *meeting = NULL;
    CHECK(qll_meeting_make(list, 1, 1, arena, &meeting) == QLL_OK);
    qll_meeting_node node = {.vapour_pa_gauge = -1e5, .pressure_pa_gauge = 4e5};
    qll_instant now = {.time_s = 0, .step_s = INFINITY};
    qll_meeting_end_step(meeting, &node, &now);
    now.step_s = 1;
    for (int i = 1; i <= 4000; i++) {
        now.time_s = i;
        qll_meeting_end_step(meeting, &node, &now);
        if (i == 100) {
            CHECK_NEAR(node.pressure_pa_gauge, 4e5, 1e-12);
        }
    }
    CHECK_NEAR(heater.vessel.temperature_degc, 30, 1e-12);
    double want_pa = 4e5;
    for (int i = 0; i < 1000; i++) {
        part.temperature_degc = 20 + 10 * (i + 0.5) / 1000;
        want_pa += 0.01 * qll_closed_rise_pa_per_k(&part, 1, want_pa + 101325);
    }
    CHECK(want_pa > 15e5);
    CHECK_NEAR(node.pressure_pa_gauge - 4e5, want_pa - 4e5, 1e-3);
}

int main(void)
{
    arena = qll_arena_open((size_t)16 << 20);
    TEST_RUN(main_gives_its_curve_back);
    TEST_RUN(outlet_opens_and_closes_by_its_moves);
    TEST_RUN(moves_that_cannot_be_are_refused);
    TEST_RUN(air_swings_at_its_frequency);
    TEST_RUN(tank_takes_what_boyle_says);
    TEST_RUN(shut_heater_follows_the_closed_form);
    qll_arena_close(arena);
    return TEST_END();
}
