/* What goes wrong at a point, one mechanism after the other, and what that comes to:
 * docs/theory/recommendation.md, 4 and eq. 2. */
#include "building_scene.h"
#include "check.h"
#include "station/hazard.h"

#include <math.h>

#define TEST_ROWS QLL_ROWS(2)

/* A stage of one or two valves behind 110 psi, in the same room. */
typedef struct hazard_scene {
    qll_arena *arena;
    qll_site site;
    qll_duty duty;
    qll_yardstick yardstick;
    qll_unknowns unknowns;
    qll_noise_path path;
    scene_valve valves[2];
    qll_branch branches[2];
    qll_branch_ruler rulers[2];
    qll_stage stage;
    qll_stage_solver *solver;
    qll_stage_ruler ruler;
    double inlet_pa;
} hazard_scene;

static void scene_make(hazard_scene *made)
{
    memset(made, 0, sizeof *made);
    made->arena = qll_arena_open(1 << 24);
    made->site = (qll_site){.water = scene_water(), .barometric_pa = TEST_SCENE_ATM};
    made->yardstick = (qll_yardstick){
        .site = &made->site, .duty = &made->duty, .unknowns = &made->unknowns, .energy_from = 1e4};
    /* means of the quarters of the normal distribution */
    made->unknowns = (qll_unknowns){.own_deviate = {-1.2711, -0.3247, 0.3247, 1.2711}};
    made->stage = (qll_stage){made->branches, 0, 110.0 * TEST_SCENE_PSI};
    made->inlet_pa = 110.0 * TEST_SCENE_PSI + TEST_SCENE_ATM;
}

static void add_valve(hazard_scene *made, double kv_m3h, double set_psi, double inches)
{
    size_t j = made->stage.branch_count;
    scene_valve_make(&made->valves[j], kv_m3h, 8.0 * TEST_SCENE_PSI, 1e-9,
                     inches * TEST_SCENE_INCH);
    made->branches[j] =
        scene_branch(&made->valves[j], set_psi * TEST_SCENE_PSI, 1.1 * inches * TEST_SCENE_INCH);
    made->stage.branch_count += 1;
}

static void make_ready(hazard_scene *made)
{
    CHECK(qll_stage_solver_make(&made->stage, &made->site.water, TEST_SCENE_ATM, made->arena,
                                &made->solver)
          == QLL_OK);
    for (size_t j = 0; j < made->stage.branch_count; j++) {
        CHECK(qll_branch_ruler_make(&made->yardstick, &made->branches[j], made->arena,
                                    &made->rulers[j])
              == QLL_OK);
    }
    made->ruler = (qll_stage_ruler){.yardstick = &made->yardstick,
                                    .solver = made->solver,
                                    .branches = made->rulers,
                                    .branch_count = made->stage.branch_count};
}

static double outlet_at(const hazard_scene *made, double flow_m3s)
{
    return qll_stage_solve(made->solver, made->inlet_pa, flow_m3s).outlet_pa;
}

static void look(const hazard_scene *made, double flow_m3s, double need_pa, double *row)
{
    qll_hazard_point(&made->ruler, made->inlet_pa, flow_m3s, outlet_at(made, flow_m3s), need_pa,
                     row);
}

static double flow_of_speed(double fps, double inches)
{
    double bore_m = inches * TEST_SCENE_INCH;
    return fps * TEST_SCENE_FPS * 0.25 * 3.141592653589793 * bore_m * bore_m;
}

/* From 8 to 15 ft/s in the valve's own size, not that of its pipe. */
TEST(wear_by_velocity)
{
    static const double facts[][2] = {{4.0, 0.0},  {8.0, 0.0},  {11.5, 0.5},
                                      {14.3, 0.9}, {15.0, 1.0}, {20.0, 1.0}};
    hazard_scene made;
    scene_make(&made);
    add_valve(&made, 30.0, 60.0, 1.0);
    make_ready(&made);
    for (size_t i = 0; i < sizeof facts / sizeof *facts; i++) {
        double row[TEST_ROWS];
        look(&made, flow_of_speed(facts[i][0], 1.0), 0.0, row);
        CHECK_WITHIN(row[QLL_ROW_WEAR], facts[i][1], 1e-9);
        CHECK(row[QLL_ROW_STARVED] == 0.0 && row[QLL_ROW_HUNTING] == 0.0);
        CHECK(row[QLL_ROW_NOISE] == 0.0); /* no pipe is known */
    }
    qll_arena_close(made.arena);
}

/* Two alike at one set-point share the water: each is weighed by its half. */
TEST(of_two_each_counts_by_its_share)
{
    hazard_scene made;
    scene_make(&made);
    add_valve(&made, 15.0, 60.0, 1.0);
    add_valve(&made, 15.0, 60.0, 0.75); /* 16/9 of the velocity */
    make_ready(&made);
    double row[TEST_ROWS];
    look(&made, 2.0 * flow_of_speed(8.0, 1.0), 0.0, row);
    CHECK_WITHIN(row[QLL_ROW_WEAR], 0.5 * (8.0 * 16.0 / 9.0 - 8.0) / 7.0, 1e-6);
    qll_arena_close(made.arena);
}

/* The distribution function of a gauge error of 3 psi, at the last stage alone. */
TEST(starved_by_the_outlet)
{
    hazard_scene made;
    scene_make(&made);
    add_valve(&made, 10.0, 60.0, 1.0);
    make_ready(&made);
    double flow_m3s = 10.0 * TEST_SCENE_GPM;
    double outlet_pa = outlet_at(&made, flow_m3s);
    double row[TEST_ROWS];
    look(&made, flow_m3s, outlet_pa + 10.0 * TEST_SCENE_PSI, row);
    CHECK(row[QLL_ROW_STARVED] == 0.0); /* not the last stage */
    made.ruler.is_last = true;
    look(&made, flow_m3s, outlet_pa + 10.0 * TEST_SCENE_PSI, row);
    CHECK(row[QLL_ROW_STARVED] == 1.0);
    look(&made, flow_m3s, outlet_pa - 7.0 * TEST_SCENE_PSI, row);
    CHECK(row[QLL_ROW_STARVED] == 0.0);
    look(&made, flow_m3s, outlet_pa, row);
    CHECK_NEAR(row[QLL_ROW_STARVED], 0.5, 1e-12);
    /* t = 1/2 + 3/(2 sqrt 5 3) = 0.72361; 3 t^2 - 2 t^3 = 0.81305. */
    look(&made, flow_m3s, outlet_pa + 3.0 * TEST_SCENE_PSI, row);
    CHECK_NEAR(row[QLL_ROW_STARVED], 0.81305, 1e-5);
    qll_arena_close(made.arena);
}

TEST(hunting_where_both_are_open)
{
    hazard_scene made;
    scene_make(&made);
    add_valve(&made, 2.0, 60.0, 1.0);
    add_valve(&made, 15.0, 56.0, 1.0);
    make_ready(&made);
    made.ruler.hunting = 0.3;
    double row[TEST_ROWS];
    look(&made, 0.5 * TEST_SCENE_GPM, 0.0, row);
    CHECK(row[QLL_ROW_HUNTING] == 0.0);
    look(&made, 25.0 * TEST_SCENE_GPM, 0.0, row);
    CHECK_NEAR(row[QLL_ROW_HUNTING], 0.3, 1e-12);
    /* Bands of 2 psi in all, 2 psi apart: one half; 2 sqrt 5 psi clear of them: never. */
    CHECK_NEAR(qll_hunting_severity(2.0 * TEST_SCENE_PSI, 2.0 * TEST_SCENE_PSI), 0.5, 1e-12);
    CHECK(qll_hunting_severity(2.0 * TEST_SCENE_PSI, 6.5 * TEST_SCENE_PSI) == 0.0);
    CHECK(qll_hunting_severity(2.0 * TEST_SCENE_PSI, -3.0 * TEST_SCENE_PSI) == 1.0);
    qll_arena_close(made.arena);
}

/* At each node of the least stable flow the chance that its chatter is heard (stability.md, 4), which has
 * tests of its own. */
static void check_chatter(qll_acting acting, double flow_gpm)
{
    hazard_scene made;
    scene_make(&made);
    add_valve(&made, 10.0, 60.0, 1.0);
    made.valves[0].valve.acting = acting;
    made.valves[0].valve.flow_min_m3s = 4.0 * TEST_SCENE_GPM;
    make_ready(&made);
    double row[TEST_ROWS];
    double flow_m3s = flow_gpm * TEST_SCENE_GPM;
    look(&made, flow_m3s, 0.0, row);
    qll_branch_state state;
    qll_stage_states(made.solver, made.inlet_pa, flow_m3s, outlet_at(&made, flow_m3s), &state);
    const qll_chatter_prior prior =
        qll_valve_chatter(&made.valves[0].valve, 50.0 * TEST_SCENE_PSI, 60.0 * TEST_SCENE_PSI);
    double power_w = flow_m3s * (made.inlet_pa - outlet_at(&made, flow_m3s));
    for (size_t m = 0; m < QLL_OWN_NODES; m++) {
        double stable_m3s =
            state.stable_flow_m3s * exp(prior.ln_sigma * made.unknowns.own_deviate[m]);
        double want =
            qll_stability_heard(flow_m3s / stable_m3s, power_w, acting == QLL_ACTING_PILOT);
        CHECK_WITHIN(row[qll_row_chatter(0) + m], want, 1e-9);
        CHECK(row[qll_row_chatter(0) + m] < 1.0);
    }
    CHECK(flow_gpm > 40.0 || row[qll_row_chatter(0) + QLL_OWN_NODES - 1] > 0.0);
    qll_arena_close(made.arena);
}

TEST(chatter_at_each_node_of_the_least_stable_flow)
{
    static const double flows_gpm[] = {0.2, 1.0, 3.0, 5.0, 6.5, 9.0};
    for (size_t i = 0; i < sizeof flows_gpm / sizeof *flows_gpm; i++) {
        check_chatter(QLL_ACTING_DIRECT, flows_gpm[i]);
        check_chatter(QLL_ACTING_PILOT, flows_gpm[i]);
    }
}

/* (xF/xFzp1 - 1)/0.25, weighed by P/(P + 60 W), with xFz off by 0.05 z or, estimated, 0.10 z. */
static void check_cavitation(double xfz, double sigma)
{
    hazard_scene made;
    scene_make(&made);
    add_valve(&made, 10.0, 60.0, 1.0);
    made.valves[0].valve.xfz = xfz;
    make_ready(&made);
    double some = 0.0;
    for (int i = 1; i < 20; i++) {
        double flow_m3s = i * TEST_SCENE_GPM;
        double row[TEST_ROWS];
        look(&made, flow_m3s, 0.0, row);
        double outlet_pa = outlet_at(&made, flow_m3s);
        qll_branch_state state;
        qll_stage_states(made.solver, made.inlet_pa, flow_m3s, outlet_pa, &state);
        double drop_pa = made.inlet_pa - outlet_pa;
        double xf = drop_pa / (made.inlet_pa - made.site.water.vapour_pressure_pa);
        double here = isnan(xfz) ? qll_xfz_estimate(state.kv_m3h, 0.9, 0.46) : xfz;
        double power_w = flow_m3s * drop_pa;
        for (size_t d = 0; d < QLL_OWN_NODES; d++) {
            double onset =
                (here + sigma * made.unknowns.own_deviate[d]) * pow(6e5 / made.inlet_pa, 0.125);
            double over = fmin(fmax((xf / onset - 1.0) / 0.25, 0.0), 1.0);
            double want = over * power_w / (power_w + 60.0);
            CHECK_WITHIN(row[qll_row_cavitation(0) + d], want, 1e-9);
            some += want;
        }
    }
    CHECK(some > 0.1);
    qll_arena_close(made.arena);
}

TEST(cavitation_at_each_node_of_its_onset)
{
    check_cavitation(0.35, 0.05);
    check_cavitation(0.42, 0.05);
    check_cavitation(NAN, 0.10);
}

/* 20 dB from where people are, of both valves together, by the flow's own noise. */
TEST(noise_of_all_valves_together)
{
    hazard_scene made;
    scene_make(&made);
    add_valve(&made, 5.0, 60.0, 1.0);
    add_valve(&made, 5.0, 60.0, 1.0);
    const qll_noise_pipe copper = {0.026, 1.27e-3, 8940, 3600, 1.2, 343, false};
    qll_noise_path_make(&copper, &made.path);
    for (size_t j = 0; j < 2; j++) {
        made.branches[j].path = &made.path;
        made.branches[j].pipe_bore_m = 0.026;
    }
    size_t between = 0;
    for (int from_dba = 40; from_dba < 80; from_dba += 15) {
        made.yardstick.energy_from = pow(10.0, from_dba / 10.0);
        make_ready(&made);
        for (int i = 1; i < 60; i++) {
            double flow_m3s = i * TEST_SCENE_GPM;
            double outlet_pa = outlet_at(&made, flow_m3s);
            qll_branch_state states[2];
            qll_stage_states(made.solver, made.inlet_pa, flow_m3s, outlet_pa, states);
            const qll_water *water = &made.site.water;
            double energy = 0.0;
            for (size_t j = 0; j < 2; j++) {
                const qll_noise_case one = {.mass_flow_kg_s =
                                                states[j].flow_m3s * water->density_kg_m3,
                                            .inlet_pa = made.inlet_pa,
                                            .outlet_pa = outlet_pa,
                                            .density_kg_m3 = water->density_kg_m3,
                                            .vapour_pressure_pa = water->vapour_pressure_pa,
                                            .sound_speed_m_s = water->sound_speed_m_s,
                                            .coefficient = states[j].kv_m3h,
                                            .form = QLL_FORM_KV,
                                            .fl = 0.9,
                                            .fd = 0.46,
                                            .xfz = NAN,
                                            .valve_bore_m = 0.026,
                                            .seat_bore_m = qll_valve_seat_m(&made.valves[j].valve)};
                energy += qll_noise_turbulent_energy(&one, &made.path);
            }
            double want = fmin(fmax((10.0 * log10(energy) - from_dba) / 20.0, 0.0), 1.0);
            double row[TEST_ROWS];
            look(&made, flow_m3s, 0.0, row);
            CHECK_WITHIN(row[QLL_ROW_NOISE], want, 1e-3); /* 0.02 dB */
            between += want > 0.0 && want < 1.0 ? 1 : 0;
        }
    }
    CHECK(between > 20);
    qll_arena_close(made.arena);
}

TEST(what_cannot_pass_serves_nobody)
{
    hazard_scene made;
    scene_make(&made);
    add_valve(&made, 1.0, 60.0, 1.0);
    make_ready(&made);
    double row[TEST_ROWS];
    qll_hazard_point(&made.ruler, made.inlet_pa, 1.0, NAN, 0.0, row);
    for (size_t r = 0; r < QLL_ROWS(1); r++) {
        CHECK(row[r] == (r == QLL_ROW_STARVED || r == QLL_ROW_WEAR ? 1.0 : 0.0));
    }
    qll_arena_close(made.arena);
}

TEST(more_flow_or_drop_is_never_better)
{
    hazard_scene made;
    scene_make(&made);
    add_valve(&made, 10.0, 60.0, 1.0);
    const qll_noise_pipe copper = {0.026, 1.27e-3, 8940, 3600, 1.2, 343, false};
    qll_noise_path_make(&copper, &made.path);
    made.branches[0].path = &made.path;
    make_ready(&made);
    made.ruler.is_last = true;
    double before[QLL_ROWS(1)] = {0};
    for (int i = 1; i < 200; i++) {
        double row[QLL_ROWS(1)];
        look(&made, 0.25 * i * TEST_SCENE_GPM, 55.0 * TEST_SCENE_PSI + TEST_SCENE_ATM, row);
        for (size_t r = 0; r < QLL_ROW_BRANCH; r++) {
            CHECK(row[r] >= before[r] - 1e-12 && row[r] <= 1.0 + 1e-9);
            before[r] = row[r];
        }
    }
    CHECK(before[QLL_ROW_NOISE] > 0.5 && before[QLL_ROW_WEAR] > 0.5
          && before[QLL_ROW_STARVED] > 0.4);
    memset(before, 0, sizeof before);
    for (int i = 0; i < 100; i++) {
        double row[QLL_ROWS(1)];
        made.inlet_pa = (70.0 + 2.0 * i) * TEST_SCENE_PSI + TEST_SCENE_ATM;
        look(&made, 8.0 * TEST_SCENE_GPM, 0.0, row);
        CHECK(row[QLL_ROW_NOISE] >= before[QLL_ROW_NOISE] - 1e-12);
        for (size_t r = QLL_ROW_BRANCH; r < qll_row_chatter(0); r++) {
            CHECK(row[r] >= before[r] - 1e-12 && row[r] <= 1.0 + 1e-9);
        }
        memcpy(before, row, sizeof before);
    }
    CHECK(before[qll_row_cavitation(0)] > 0.5);
    qll_arena_close(made.arena);
}

/* Equation 2 at nodes whose sums are known. */
TEST(survival_by_hand)
{
    static qll_hazard_sums sums;
    memset(&sums, 0, sizeof sums);
    qll_branch_ruler branches[2] = {{.chatters = 0.4}, {.chatters = 1.0}};
    sums.at[QLL_ROW_NOISE][3] = 0.05;
    sums.at[QLL_ROW_WEAR][3] = 0.1;
    sums.at[QLL_ROW_STARVED][3] = 0.15;
    sums.at[QLL_ROW_HUNTING][3] = 0.2;
    for (size_t d = 0; d < QLL_OWN_NODES; d++) {
        sums.at[qll_row_cavitation(1) + d][3] = 0.1 * (double)d;
        sums.at[qll_row_chatter(0) + d][3] = d == 3 ? 0.5 : 0.0;
    }
    double cavitation = 0.25 * (1.0 + exp(-0.2) + exp(-0.4) + exp(-0.6));
    double chatter = 0.6 + 0.4 * 0.25 * (3.0 + exp(-1.0));
    double survival[QLL_NODES];
    qll_survival(&sums, branches, 2, QLL_HEARS_ALL, 1.0, survival);
    CHECK_NEAR(survival[3], exp(-1.0) * cavitation * chatter, 1e-12);
    CHECK(survival[2] == 1.0 && survival[4] == 1.0);
    qll_survival(&sums, branches, 2, QLL_HEARS_CAVITATION, 1.0, survival);
    CHECK_NEAR(survival[3], cavitation, 1e-12);
    qll_survival(&sums, branches, 2, QLL_HEARS_CHATTER, 1.0, survival);
    CHECK_NEAR(survival[3], chatter, 1e-12);

    static const struct {
        unsigned which;
        double sum;
    } alone[] = {{QLL_HEARS_NOISE, 0.05},
                 {QLL_HEARS_WEAR, 0.1},
                 {QLL_HEARS_STARVED, 0.15},
                 {QLL_HEARS_HUNTING, 0.2},
                 {0, 0.0}};

    for (size_t i = 0; i < sizeof alone / sizeof *alone; i++) {
        qll_survival(&sums, branches, 2, alone[i].which, 1.0, survival);
        CHECK_NEAR(survival[3], exp(-2.0 * alone[i].sum), 1e-12);
        qll_survival(&sums, branches, 2, alone[i].which, 2.0, survival);
        CHECK_NEAR(survival[3], exp(-4.0 * alone[i].sum), 1e-12);
    }
}

/* Half of the time is complained of for certain enough, a twentieth by one in ten. */
TEST(shares_of_time_become_complaints)
{
    static qll_hazard_sums sums;
    memset(&sums, 0, sizeof sums);
    double survival[QLL_NODES];
    sums.at[QLL_ROW_NOISE][0] = 0.5;
    sums.at[QLL_ROW_NOISE][1] = 0.05;
    qll_survival(&sums, NULL, 0, QLL_HEARS_ALL, 1.0, survival);
    CHECK_WITHIN(1.0 - survival[0], 0.63, 0.01);
    CHECK_WITHIN(1.0 - survival[1], 0.10, 0.01);
}

/* A design peak is a fiftieth of the weight, shared by the scenarios. */
TEST(peaks_count_as_a_fiftieth)
{
    hazard_scene made;
    scene_make(&made);
    add_valve(&made, 10.0, 60.0, 1.0);
    make_ready(&made);
    made.ruler.is_last = true;
    const double peaks[] = {5.0 * TEST_SCENE_GPM, 10.0 * TEST_SCENE_GPM};
    const double inlets[] = {made.inlet_pa, made.inlet_pa};
    const double outlets[] = {outlet_at(&made, peaks[0]), outlet_at(&made, peaks[1])};
    const double needs[] = {outlets[0] + 20.0 * TEST_SCENE_PSI, outlets[1]};
    made.duty.scenario_count = 2;
    made.yardstick.peak_m3s = peaks;
    made.yardstick.peak_need_pa = needs;
    static qll_hazard_sums sums;
    memset(&sums, 0, sizeof sums);
    qll_hazard_add_peaks(&made.ruler, inlets, outlets, 1, &sums);
    for (size_t k = 0; k < QLL_NODES; k++) {
        CHECK_NEAR(sums.at[QLL_ROW_STARVED][k], 0.02 * 0.5 * (1.0 + 0.5), 1e-12);
    }
    qll_arena_close(made.arena);
}

TEST(sums_of_a_supply_go_to_its_nodes_by_how_they_lean)
{
    qll_unknowns unknowns = {
        .supply_weight = {{0.45, 0.5, 0.05}, {0.25, 0.5, 0.25}, {0.05, 0.5, 0.45}}};
    double weights[2][QLL_DEMAND_NODES] = {{0.1, 0.2, 0.3, 0.4, 0.5}, {0.5, 0.4, 0.3, 0.2, 0.1}};
    unknowns.flow_weight = weights;
    qll_hazard_row rows[1];
    memset(rows, 0, sizeof rows);
    const double severities[] = {0.5, 0.25};
    qll_hazard_add(&unknowns, 0, &severities[0], 1, rows);
    qll_hazard_add(&unknowns, 1, &severities[1], 1, rows);
    static qll_hazard_sums sums;
    memset(&sums, 0, sizeof sums);
    qll_hazard_merge(&unknowns, 2, rows, 1, &sums);
    for (size_t n = 0; n < QLL_SUPPLY_NODES; n++) {
        for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
            double want = (0.5 * weights[0][i] + 0.25 * weights[1][i]) * (0.05 + 0.2 * (double)n);
            CHECK_NEAR(sums.at[0][n * QLL_DEMAND_NODES + i], want, 1e-12);
        }
    }
}

int main(void)
{
    TEST_RUN(wear_by_velocity);
    TEST_RUN(of_two_each_counts_by_its_share);
    TEST_RUN(starved_by_the_outlet);
    TEST_RUN(hunting_where_both_are_open);
    TEST_RUN(chatter_at_each_node_of_the_least_stable_flow);
    TEST_RUN(cavitation_at_each_node_of_its_onset);
    TEST_RUN(noise_of_all_valves_together);
    TEST_RUN(what_cannot_pass_serves_nobody);
    TEST_RUN(more_flow_or_drop_is_never_better);
    TEST_RUN(survival_by_hand);
    TEST_RUN(shares_of_time_become_complaints);
    TEST_RUN(peaks_count_as_a_fiftieth);
    TEST_RUN(sums_of_a_supply_go_to_its_nodes_by_how_they_lean);
    return TEST_END();
}
