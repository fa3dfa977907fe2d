/* Outlet pressure of parallel valves: qll_stage_solve_many (and one call of qll_stage_solve a point)
 * against GSL's Brent, in one run over the same (inlet, flow) points. The function given to Brent is
 * the same sum of the same opening laws, with everything that does not depend on the outlet taken
 * out of it. Also the time to make a solver. */
#include "station/balance.h"
#include "station/branch_curve.h"
#include "station/hazard.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>
#include <math.h>
#include <stdio.h>
#include <time.h>

#define BENCH_BRANCHES 3 /* at most */
#define BENCH_INLETS   48
#define BENCH_FLOWS    256
#define BENCH_ROUNDS   40
#define BENCH_TRIES    5
#define BENCH_MAKES    2000
#define BENCH_ATM      101325.0
#define BENCH_VAPOUR   1705.8

typedef struct brent_case {
    const qll_branch_curve *curves;
    size_t count;
    double set_pa[BENCH_BRANCHES], choked_pa[BENCH_BRANCHES];
    double inlet_pa, flow_m3s;
} brent_case;

static double excess(double outlet_pa, void *context)
{
    const brent_case *equation = context;
    double drop_pa = equation->inlet_pa - outlet_pa;
    double sum = -equation->flow_m3s;
    for (size_t j = 0; j < equation->count; j++) {
        double c = qll_branch_curve_at(&equation->curves[j], equation->set_pa[j] - outlet_pa).c;
        sum += c * sqrt(drop_pa < equation->choked_pa[j] ? drop_pa : equation->choked_pa[j]);
    }
    return sum;
}

/* Brent to a bracket of 1e-12 of the outlet pressure, which gives the same accuracy. */
static double brent(gsl_root_fsolver *solver, brent_case *equation, double high_pa, long *calls)
{
    gsl_function function = {excess, equation};
    if (gsl_root_fsolver_set(solver, &function, BENCH_VAPOUR, high_pa) != GSL_SUCCESS) {
        return (double)NAN;
    }
    for (int i = 0; i < 200; i++) {
        *calls += 1;
        if (gsl_root_fsolver_iterate(solver) != GSL_SUCCESS) {
            break;
        }
        if (gsl_root_test_interval(gsl_root_fsolver_x_lower(solver),
                                   gsl_root_fsolver_x_upper(solver), 0.0, 1e-12)
            == GSL_SUCCESS) {
            break;
        }
    }
    return gsl_root_fsolver_root(solver);
}

static double seconds(void)
{
    struct timespec now;
    timespec_get(&now, TIME_UTC);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

typedef struct pair_scene {
    qll_valve valves[BENCH_BRANCHES];
    qll_point points[BENCH_BRANCHES][6];
    qll_opening_law laws[BENCH_BRANCHES];
    qll_branch branches[BENCH_BRANCHES];
    qll_water water;
    qll_stage stage;
} pair_scene;

typedef struct named_case {
    const char *name;
    size_t branch_count;
    double inlet_effect[BENCH_BRANCHES];
    double series_kv; /* as a share of the valve's own; NaN without strainers */
} named_case;

/* Invented valves; five fall-off points each. */
static void scene_make(pair_scene *scene, const named_case *given)
{
    static const double kv_m3h[BENCH_BRANCHES] = {1.6, 6.3, 10.0};
    static const double set_pa[BENCH_BRANCHES] = {3.8e5, 3.5e5, 3.2e5};
    static const double shares[6][2] = {{0.0, 0.0},  {0.1, 0.08}, {0.25, 0.22},
                                        {0.5, 0.51}, {0.8, 0.85}, {1.0, 1.0}};
    scene->water = (qll_water){.density_kg_m3 = QLL_REFERENCE_DENSITY_KG_M3,
                               .vapour_pressure_pa = BENCH_VAPOUR};
    for (size_t j = 0; j < given->branch_count; j++) {
        for (size_t i = 0; i < 6; i++) {
            scene->points[j][i] = (qll_point){1.2e5 * shares[i][0], kv_m3h[j] * shares[i][1]};
        }
        scene->laws[j] = (qll_opening_law){{scene->points[j], 6}, 1.2e5};
        scene->valves[j] = (qll_valve){.kv_m3h = kv_m3h[j],
                                       .fl = 0.9,
                                       .fd = 0.46,
                                       .xfz = NAN,
                                       .flow_min_m3s = 1e-5,
                                       .inlet_effect = given->inlet_effect[j],
                                       .sheet_inlet_pa_gauge = 8e5,
                                       .sheet_set_pa_gauge = 3e5};
        scene->branches[j] = (qll_branch){.valve = &scene->valves[j],
                                          .law = &scene->laws[j],
                                          .set_pa_gauge = set_pa[j],
                                          .pipe_bore_m = 0.025,
                                          .series_kv_m3h = given->series_kv * kv_m3h[j]};
    }
    scene->stage = (qll_stage){scene->branches, given->branch_count, 8e5};
}

typedef struct timing {
    double quell_ns, single_ns, hazard_ns, make_ns, worst_pa;
    double brent_ns[2], steps[2]; /* from the natural bracket, and from one narrowed by hand */
} timing;

static double inlet_of(size_t i)
{
    return BENCH_ATM + 6e5 + 4e5 * (double)i / BENCH_INLETS;
}

static double flow_of(size_t f)
{
    return 8.0 / 3600.0 * pow(1e-4, 1.0 - (double)(f + 1) / BENCH_FLOWS);
}

static qll_stage_point points[BENCH_INLETS][BENCH_FLOWS];
static double rows[BENCH_FLOWS][QLL_ROWS_MOST];
static double inlets[BENCH_INLETS][BENCH_FLOWS], flows[BENCH_FLOWS];
static double brent_least_s[2][BENCH_INLETS]; /* of a row, over all tries of a case */

/* The least of several short stretches, so that what else the machine does falls out. */
static double run_quell(const qll_stage_solver *solver)
{
    double least = INFINITY;
    for (int round = 0; round < BENCH_ROUNDS; round++) {
        double start = seconds();
        for (size_t i = 0; i < BENCH_INLETS; i++) {
            qll_stage_solve_many(solver, inlets[i], flows, BENCH_FLOWS, points[i]);
        }
        least = fmin(least, seconds() - start);
    }
    return least * 1e9 / ((double)BENCH_INLETS * BENCH_FLOWS);
}

static double run_single(const qll_stage_solver *solver)
{
    double start = seconds();
    for (size_t i = 0; i < BENCH_INLETS; i++) {
        for (size_t f = 0; f < BENCH_FLOWS; f++) {
            points[i][f] = qll_stage_solve(solver, inlets[i][f], flows[f]);
        }
    }
    return (seconds() - start) * 1e9 / ((double)BENCH_INLETS * BENCH_FLOWS);
}

/* The severities of each point, solved before; no pipe is known, so nothing is heard. */
static double run_hazard(const pair_scene *scene, const qll_stage_solver *solver, qll_arena *arena)
{
    const qll_site site = {.water = scene->water, .barometric_pa = BENCH_ATM};
    qll_yardstick yardstick = {.site = &site, .energy_from = 1e4};
    qll_branch_ruler branches[BENCH_BRANCHES];
    for (size_t j = 0; j < scene->stage.branch_count; j++) {
        if (qll_branch_ruler_make(&yardstick, &scene->branches[j], arena, &branches[j]) != QLL_OK) {
            return INFINITY;
        }
    }
    const qll_stage_ruler ruler = {.yardstick = &yardstick,
                                   .solver = solver,
                                   .branches = branches,
                                   .branch_count = scene->stage.branch_count,
                                   .is_last = true,
                                   .hunting = 0.1};
    double least = INFINITY;
    for (int round = 0; round < BENCH_ROUNDS; round++) {
        double start = seconds();
        for (size_t i = 0; i < BENCH_INLETS; i++) {
            for (size_t f = 0; f < BENCH_FLOWS; f++) {
                double outlet_pa = points[i][f].passes ? points[i][f].outlet_pa : (double)NAN;
                qll_hazard_point(&ruler, inlets[i][f], flows[f], outlet_pa, 4e5, rows[f]);
            }
        }
        least = fmin(least, seconds() - start);
    }
    return least * 1e9 / ((double)BENCH_INLETS * BENCH_FLOWS);
}

static double run_make(const pair_scene *scene, qll_arena *arena)
{
    double start = seconds();
    for (size_t i = 0; i < BENCH_MAKES; i++) {
        qll_arena_mark mark = qll_arena_now(arena);
        qll_stage_solver *solver = NULL;
        if (qll_stage_solver_make(&scene->stage, &scene->water, BENCH_ATM, arena, &solver)
            != QLL_OK) {
            return INFINITY;
        }
        qll_arena_reset(arena, mark);
    }
    return (seconds() - start) * 1e9 / BENCH_MAKES;
}

/* The outlet lies between vapour pressure and the inlet; narrowed, below the highest set-point. */
static void run_brent(const pair_scene *scene, const qll_branch_curve *curves, bool narrowed,
                      timing *outcome)
{
    gsl_root_fsolver *solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    double ff = 0.96 - 0.28 * sqrt(BENCH_VAPOUR / QLL_WATER_CRITICAL_PA);
    long calls = 0;
    double sum_s = 0.0;
    for (size_t i = 0; i < BENCH_INLETS; i++) {
        double start = seconds();
        brent_case equation = {.curves = curves, .inlet_pa = inlet_of(i)};
        double highest_pa = 0.0;
        equation.count = scene->stage.branch_count;
        for (size_t j = 0; j < equation.count; j++) {
            double effect = scene->valves[j].inlet_effect;
            equation.set_pa[j] = scene->branches[j].set_pa_gauge + BENCH_ATM
                                 + effect * (inlet_of(i) - 8e5 - BENCH_ATM);
            equation.choked_pa[j] = 0.81 * (inlet_of(i) - ff * BENCH_VAPOUR);
            highest_pa = fmax(highest_pa, equation.set_pa[j]);
        }
        for (size_t f = 0; f < BENCH_FLOWS; f++) {
            equation.flow_m3s = flows[f];
            double root = brent(solver, &equation, narrowed ? highest_pa : inlet_of(i), &calls);
            outcome->worst_pa = fmax(outcome->worst_pa, fabs(root - points[i][f].outlet_pa));
        }
        double *least_s = &brent_least_s[narrowed][i];
        *least_s = fmin(*least_s, seconds() - start);
        sum_s += *least_s;
    }
    outcome->brent_ns[narrowed] = sum_s * 1e9 / ((double)BENCH_INLETS * BENCH_FLOWS);
    outcome->steps[narrowed] = (double)calls / ((double)BENCH_INLETS * BENCH_FLOWS);
    gsl_root_fsolver_free(solver);
}

/* All figures once. Brent goes after each of the two ways of quell and is compared with it. */
static timing run_once(const pair_scene *scene, const qll_stage_solver *solver,
                       const qll_branch_curve *curves, qll_arena *arena)
{
    timing once = {.make_ns = run_make(scene, arena)};
    once.single_ns = run_single(solver);
    run_brent(scene, curves, true, &once);
    once.quell_ns = run_quell(solver);
    once.hazard_ns = run_hazard(scene, solver, arena);
    run_brent(scene, curves, false, &once);
    return once;
}

static timing run(const pair_scene *scene, qll_arena *arena)
{
    timing least = {.worst_pa = INFINITY};
    qll_stage_solver *solver = NULL;
    qll_branch_curve curves[BENCH_BRANCHES];
    bool made =
        qll_stage_solver_make(&scene->stage, &scene->water, BENCH_ATM, arena, &solver) == QLL_OK;
    for (size_t j = 0; j < scene->stage.branch_count; j++) {
        made = made
               && qll_branch_curve_make(&scene->branches[j], &scene->water, arena, &curves[j])
                      == QLL_OK;
    }
    if (!made) {
        return least;
    }
    for (size_t i = 0; i < BENCH_INLETS; i++) {
        brent_least_s[0][i] = INFINITY;
        brent_least_s[1][i] = INFINITY;
        for (size_t f = 0; f < BENCH_FLOWS; f++) {
            flows[f] = flow_of(f);
            inlets[i][f] = inlet_of(i);
        }
    }
    least = run_once(scene, solver, curves, arena);
    /* The least of several, so that what else the machine does falls out of the ratio. */
    for (int again = 1; again < BENCH_TRIES; again++) {
        timing more = run_once(scene, solver, curves, arena);
        least.worst_pa = fmax(least.worst_pa, more.worst_pa);
        least.quell_ns = fmin(least.quell_ns, more.quell_ns);
        least.single_ns = fmin(least.single_ns, more.single_ns);
        least.hazard_ns = fmin(least.hazard_ns, more.hazard_ns);
        least.make_ns = fmin(least.make_ns, more.make_ns);
        least.brent_ns[0] = fmin(least.brent_ns[0], more.brent_ns[0]);
        least.brent_ns[1] = fmin(least.brent_ns[1], more.brent_ns[1]);
    }
    return least;
}

int main(void)
{
    static const named_case cases[] = {
        {"one and a strainer", 1, {0.05}, 3.0},
        {"equal inlet effects", 2, {0.05, 0.05}, (double)NAN},
        {"equal effects and strainers", 2, {0.05, 0.05}, 3.0},
        {"different inlet effects", 2, {0.05, 0.02}, (double)NAN},
        {"different and strainers", 2, {0.05, 0.02}, 3.0},
        {"three different", 3, {0.055, 0.035, 0.0}, (double)NAN},
        {"three different and strainers", 3, {0.055, 0.035, 0.0}, 3.0},
    };

    gsl_set_error_handler_off();
    int status = 0;
    printf("case,quell_ns,brent_ns,ratio,steps,narrowed_brent_ns,narrowed_ratio,narrowed_steps,"
           "worst_difference_pa,single_ns,single_ratio,hazard_ns,make_ns\n");
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 24);
        pair_scene scene;
        scene_make(&scene, &cases[i]);
        timing outcome = run(&scene, arena);
        printf("%s,%.1f,%.1f,%.1f,%.1f,%.1f,%.1f,%.1f,%.2g,%.1f,%.1f,%.1f,%.0f\n", cases[i].name,
               outcome.quell_ns, outcome.brent_ns[0], outcome.brent_ns[0] / outcome.quell_ns,
               outcome.steps[0], outcome.brent_ns[1], outcome.brent_ns[1] / outcome.quell_ns,
               outcome.steps[1], outcome.worst_pa, outcome.single_ns,
               outcome.brent_ns[0] / outcome.single_ns, outcome.hazard_ns, outcome.make_ns);
        status = outcome.worst_pa < 1e-5 ? status : 1; /* different answers */
        qll_arena_close(arena);
    }
    return status;
}
