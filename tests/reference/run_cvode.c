/* Valves with the water around them, in time, against SUNDIALS CVODE (BDF): the equations of
 * docs/theory/valve_motion.md written down once more, without regions, events or slopes, and handed to
 * another solver. Outlet pressure and lift at 100 instants of 10 s. */
#include "check.h"
#include "dynamics/lumped_run.h"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#define TEST_SAMPLES 100

enum {
    TEST_LIFT,
    TEST_SPEED,
    TEST_OUTLET,
    TEST_FLOW_OUT,
    TEST_FAR,
    TEST_INLET,
    TEST_FLOW_IN,
    TEST_VALUES
};

static const double supply_pa = 9e5, barometric_pa = 101325, duration_s = 10;
static const double density = 999.1033;

/* All that the equations hold, as numbers of the test's own. */
typedef struct scene {
    double area, inlet_area, mass, spring, damping, passage, jet, seat, seat_loss, full;
    double kv_si; /* at full travel */
    double set_pa;
    double inertance_in, resistance_in, holds_in;
    double inertance_out, resistance_out, holds_out, holds_far;
    double air_m3, air_at_pa;
    double taps;
} scene;

static double smooth_root(double drop)
{
    return drop / pow(drop * drop + 100, 0.25);
}

/* (2) to (7): one valve, full travel by a straight opening law. */
static double force(const scene *s, const double *y)
{
    double x = y[TEST_LIFT], v = y[TEST_SPEED];
    double opening = s->kv_si * fmin(fmax(x / s->full, 0), 1);
    double f = s->area * (s->set_pa - y[TEST_OUTLET]) + s->inlet_area * (y[TEST_INLET] - supply_pa)
               - s->spring * x - s->damping * v - s->passage * v * fabs(v)
               - s->jet * opening * (y[TEST_INLET] - y[TEST_OUTLET]);
    if (x < 0) {
        f += s->seat * -x * fmax(1 - s->seat_loss * v, 0);
    }
    if (x > s->full) {
        f -= s->seat * (x - s->full) * fmax(1 + s->seat_loss * v, 0);
    }
    return f;
}

static int right_side(realtype t, N_Vector at, N_Vector rate, void *context)
{
    const scene *s = context;
    const double *y = N_VGetArrayPointer(at);
    double *d = N_VGetArrayPointer(rate);
    (void)t;
    double q = s->kv_si * fmin(fmax(y[TEST_LIFT] / s->full, 0), 1)
               * smooth_root(y[TEST_INLET] - y[TEST_OUTLET]);
    double held = s->holds_out;
    if (s->air_m3 > 0) {
        held += s->air_m3 * pow(s->air_at_pa / y[TEST_OUTLET], 1 / 1.2) / (1.2 * y[TEST_OUTLET]);
    }
    d[TEST_LIFT] = y[TEST_SPEED];
    d[TEST_SPEED] = force(s, y) / s->mass;
    d[TEST_OUTLET] = (q + s->area * y[TEST_SPEED] - y[TEST_FLOW_OUT]) / held;
    d[TEST_FLOW_OUT] =
        (y[TEST_OUTLET] - y[TEST_FAR] - s->resistance_out * y[TEST_FLOW_OUT]) / s->inertance_out;
    d[TEST_FAR] =
        (y[TEST_FLOW_OUT] - s->taps * smooth_root(y[TEST_FAR] - barometric_pa)) / s->holds_far;
    d[TEST_INLET] = (y[TEST_FLOW_IN] - q - s->inlet_area * y[TEST_SPEED]) / s->holds_in;
    d[TEST_FLOW_IN] =
        (supply_pa - y[TEST_INLET] - s->resistance_in * y[TEST_FLOW_IN]) / s->inertance_in;
    return 0;
}

/* From y on to TEST_SAMPLES instants; tolerances far below what is compared. */
static bool cvode(scene *s, const double *y, double (*samples)[TEST_VALUES])
{
    SUNContext room = NULL;
    if (SUNContext_Create(NULL, &room) != 0) {
        return false;
    }
    N_Vector at = N_VNew_Serial(TEST_VALUES, room), least = N_VNew_Serial(TEST_VALUES, room);
    const double scale[TEST_VALUES] = {1e-4, 1e-2, 1e5, 1e-4, 1e5, 1e5, 1e-4};
    for (int i = 0; i < TEST_VALUES; i++) {
        N_VGetArrayPointer(at)[i] = y[i];
        N_VGetArrayPointer(least)[i] = 1e-11 * scale[i];
    }
    void *solver = CVodeCreate(CV_BDF, room);
    SUNMatrix matrix = SUNDenseMatrix(TEST_VALUES, TEST_VALUES, room);
    SUNLinearSolver linear = SUNLinSol_Dense(at, matrix, room);
    bool good = CVodeInit(solver, right_side, 0, at) == 0
                && CVodeSVtolerances(solver, 1e-11, least) == 0 && CVodeSetUserData(solver, s) == 0
                && CVodeSetLinearSolver(solver, linear, matrix) == 0
                && CVodeSetMaxNumSteps(solver, 100000000) == 0;
    for (int k = 0; good && k < TEST_SAMPLES; k++) {
        double t = 0;
        good = CVode(solver, duration_s * (k + 1) / TEST_SAMPLES, at, &t, CV_NORMAL) == 0;
        memcpy(samples[k], N_VGetArrayPointer(at), sizeof samples[k]);
    }
    CVodeFree(&solver);
    SUNLinSolFree(linear);
    SUNMatDestroy(matrix);
    N_VDestroy(at);
    N_VDestroy(least);
    SUNContext_Free(&room);
    return good;
}

typedef struct taken {
    double samples[TEST_SAMPLES][TEST_VALUES];
    int count;
    int blows;
} taken;

static void take(void *context, double time_s, const double *values)
{
    taken *t = context;
    int k = (int)lrint(time_s * TEST_SAMPLES / duration_s) - 1;
    if (k >= 0 && k < TEST_SAMPLES) {
        memcpy(t->samples[k], values, sizeof t->samples[k]);
        t->count += 1;
    }
}

static void take_blow(void *context, double time_s, size_t valve, bool seat, double speed_m_s)
{
    taken *t = context;
    t->blows += time_s > 0 && valve == 0 && seat && speed_m_s > 0;
}

/* The valve of the scene as the program knows it. */
static qll_regulator regulator_of(const scene *s, qll_point *opening, qll_point *falloff)
{
    opening[0] = falloff[0] = (qll_point){0, 0};
    opening[1] = (qll_point){s->full, s->kv_si};
    falloff[1] = (qll_point){s->full, s->spring * s->full / s->area};
    return (qll_regulator){.acting = QLL_ACTING_DIRECT,
                           .opening = {opening, 2},
                           .falloff = {falloff, 2},
                           .full_m = s->full,
                           .outlet_m2 = s->area,
                           .inlet_m2 = s->inlet_area,
                           .set_pa = s->set_pa,
                           .set_inlet_pa = supply_pa,
                           .choke_share = 10, /* never chokes */
                           .seat_n_m = s->seat,
                           .seat_loss_s_m = s->seat_loss,
                           .mass_kg = s->mass,
                           .spring_n_m = s->spring,
                           .damping_n_s_m = s->damping,
                           .passage_n_s2_m2 = s->passage,
                           .jet_root_kg_m3 = s->jet,
                           .breakaway = 1};
}

static qll_around around_of(const scene *s)
{
    return (qll_around){.supply_pa = supply_pa,
                        .before = {s->inertance_in, s->resistance_in},
                        .behind = {s->inertance_out, s->resistance_out},
                        .before_m3_pa = s->holds_in,
                        .behind_m3_pa = s->holds_out,
                        .far_m3_pa = s->holds_far,
                        .air_m3 = s->air_m3,
                        .air_at_pa = s->air_at_pa,
                        .barometric_pa = barometric_pa};
}

/* Starts at rest but for the pressure behind the valve, which is off by a share. */
static void compare(scene *s, double flow_m3s, double off, bool hits)
{
    static taken own;
    static double theirs[TEST_SAMPLES][TEST_VALUES];
    own = (taken){.count = 0};
    qll_point opening[2], falloff[2];
    const qll_regulator valve = regulator_of(s, opening, falloff);
    const qll_around around = around_of(s);
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_lumped lumped;
    double y[TEST_VALUES + 1];
    CHECK(qll_lumped_make(&valve, 1, &around, arena, &lumped) == QLL_OK);
    CHECK(lumped.at.count == TEST_VALUES + 1 && lumped.at.outlet == TEST_OUTLET
          && lumped.at.far == TEST_FAR);
    CHECK(qll_lumped_rest(&lumped, flow_m3s, y));
    y[TEST_OUTLET] *= 1 + off;
    s->taps = y[lumped.at.taps];
    CHECK(cvode(s, y, theirs));
    const qll_run_order order = {
        .move = {0, 0, s->taps},
        .duration_s = duration_s,
        .tolerance = 1e-9,
        .steps_most = 50000000,
        .watch = {duration_s / TEST_SAMPLES, take, take_blow, &own},
    };
    qll_run_count count;
    CHECK(qll_lumped_run(&lumped, &order, y, arena, &count) == QLL_OK && count.finished);
    CHECK(own.count == TEST_SAMPLES);
    CHECK(hits == (own.blows > 100));
    double low = INFINITY, high = -INFINITY, worst_pa = 0, worst_lift = 0;
    for (int k = 0; k < TEST_SAMPLES; k++) {
        low = fmin(low, theirs[k][TEST_OUTLET]);
        high = fmax(high, theirs[k][TEST_OUTLET]);
        worst_pa = fmax(worst_pa, fabs(own.samples[k][TEST_OUTLET] / theirs[k][TEST_OUTLET] - 1));
        worst_lift =
            fmax(worst_lift, fabs(own.samples[k][TEST_LIFT] - theirs[k][TEST_LIFT]) / s->full);
    }
    printf(
        "    swings %.4f of the set pressure at the end of 10 s; worst %.1e of the pressure, %.1e of "
        "full travel; %zu steps, %d blows\n",
        (high - low) / 2 / (s->set_pa - barometric_pa), worst_pa, worst_lift, count.steps,
        own.blows);
    CHECK(worst_pa < 1e-5 && worst_lift < 1e-5);
    qll_arena_close(arena);
}

/* A 1 in valve, 60 mm diaphragm, 8 to 3 bar. */
static scene plain_scene(void)
{
    return (scene){.area = 2.83e-3,
                   .mass = 0.9,
                   .spring = 60e3,
                   .damping = 14,
                   .passage = 3000,
                   .seat = 3e6,
                   .seat_loss = 3,
                   .full = 4e-3,
                   .kv_si = 5.0 / 3600 / sqrt(1e5),
                   .set_pa = 4.01325e5,
                   .inertance_in = density * 10 / 5.3e-4,
                   .resistance_in = 2e8,
                   .holds_in = 4e-12,
                   .inertance_out = density * 5 / 5.3e-4,
                   .resistance_out = 2e8,
                   .holds_out = 1e-10,
                   .holds_far = 1e-11};
}

TEST(a_swing_that_lasts)
{
    scene s = plain_scene();
    compare(&s, 3e-4, 0.01, false);
}

TEST(a_swing_that_dies)
{
    scene s = plain_scene();
    s.damping = 200;
    s.holds_out = 4e-9;
    s.inlet_area = 1.4e-4;
    s.jet = 0.2 * sqrt(2 * density);
    compare(&s, 3e-4, 0.01, false);
}

TEST(air_behind_it)
{
    scene s = plain_scene();
    s.holds_out = 1e-12;
    s.air_m3 = 1e-4;
    s.air_at_pa = 4e5;
    compare(&s, 3e-4, 0.02, false);
}

TEST(blows_on_the_seat)
{
    scene s = plain_scene();
    s.holds_out = 2e-11;
    compare(&s, 5e-5, 0.05, true);
}

int main(void)
{
    TEST_RUN(a_swing_that_lasts);
    TEST_RUN(a_swing_that_dies);
    TEST_RUN(air_behind_it);
    TEST_RUN(blows_on_the_seat);
    return TEST_END();
}
