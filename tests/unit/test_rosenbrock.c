#include "check.h"
#include "numeric/rosenbrock.h"

static qll_arena *arena;

static const double ones[] = {1, 1, 1};

/* ---- Steps of one length: order and damping. ---- */

/* y' = -y^2 and a clock: y = 1/(1 + t). */
static void decay_rates(const void *context, const double *y, double *rates)
{
    (void)context;
    rates[0] = -y[0] * y[0];
    rates[1] = 1;
}

static void decay_slopes(const void *context, const double *y, double *slopes)
{
    (void)context;
    slopes[0] = -2 * y[0];
}

/* Error at t = 1 after that many steps; of the inside of the last one where @p share is below 1. */
static double decay_error(int steps, double share)
{
    const qll_rates system = {2, decay_rates, decay_slopes, NULL};
    qll_rosenbrock s;
    CHECK(qll_rosenbrock_make(&system, ones, arena, &s) == QLL_OK);
    s.values[0] = 1;
    for (int i = 0; i < steps; i++) {
        qll_rosenbrock_begin(&s);
        CHECK(qll_rosenbrock_try(&s, 1.0 / steps, 1) < 1);
        if (i == steps - 1 && share < 1) {
            double t = 1 - (1 - share) / steps;
            CHECK_WITHIN(qll_rosenbrock_within(&s, 1, share), t, 1e-14);
            return fabs(qll_rosenbrock_within(&s, 0, share) - 1 / (1 + t));
        }
        qll_rosenbrock_take(&s);
    }
    CHECK_WITHIN(s.values[1], 1, 1e-14);
    return fabs(s.values[0] - 0.5);
}

TEST(order_four_at_the_end_and_three_inside)
{
    for (int steps = 8; steps <= 32; steps *= 2) {
        double ratio = decay_error(steps, 1) / decay_error(2 * steps, 1);
        CHECK(ratio > 14 && ratio < 19);
        double inside = decay_error(steps, 0.4) / decay_error(2 * steps, 0.4);
        CHECK(inside > 8);
    }
    CHECK(decay_error(32, 1) < 1e-8);
}

/* y' = -1e9 (y - cos t): what stiffness drives off is gone after one long step. */
static void driven_rates(const void *context, const double *y, double *rates)
{
    (void)context;
    rates[0] = -1e9 * (y[0] - cos(y[1]));
    rates[1] = 1;
}

static void driven_slopes(const void *context, const double *y, double *slopes)
{
    (void)context;
    slopes[0] = -1e9;
    slopes[1] = -1e9 * sin(y[1]);
}

TEST(stiff_parts_are_damped_at_once)
{
    const qll_rates system = {2, driven_rates, driven_slopes, NULL};
    qll_rosenbrock s;
    CHECK(qll_rosenbrock_make(&system, ones, arena, &s) == QLL_OK);
    s.values[0] = 2;
    qll_rosenbrock_begin(&s);
    (void)qll_rosenbrock_try(&s, 0.1, 1);
    CHECK_WITHIN(s.next[0], cos(0.1), 1e-3);
}

/* ---- Steps that choose their length. ---- */

static double run(const qll_rates *system, const double *scale, const double *start, double end,
                  double tolerance, double *values)
{
    qll_rosenbrock s;
    CHECK(qll_rosenbrock_make(system, scale, arena, &s) == QLL_OK);
    memcpy(s.values, start, system->count * sizeof *start);
    double t = 0, step = 1e-6, steps = 0;
    while (t < end && steps < 1e6) {
        step = fmin(step, end - t);
        qll_rosenbrock_begin(&s);
        double error = qll_rosenbrock_try(&s, step, tolerance);
        if (error <= 1) {
            qll_rosenbrock_take(&s);
            t = step == end - t ? end : t + step;
        }
        steps += 1;
        step = qll_rosenbrock_next_step(step, error);
    }
    memcpy(values, s.values, system->count * sizeof *values);
    return steps;
}

static void kinetics_rates(const void *context, const double *y, double *rates)
{
    (void)context;
    double slow = 0.04 * y[0], back = 1e4 * y[1] * y[2], fast = 3e7 * y[1] * y[1];
    rates[0] = back - slow;
    rates[1] = slow - back - fast;
    rates[2] = fast;
}

static void kinetics_slopes(const void *context, const double *y, double *slopes)
{
    (void)context;
    const double rows[9] = {-0.04,       1e4 * y[2], 1e4 * y[1], 0.04, -1e4 * y[2] - 6e7 * y[1],
                            -1e4 * y[1], 0,          6e7 * y[1], 0};
    memcpy(slopes, rows, sizeof rows);
}

static void relaxation_rates(const void *context, const double *y, double *rates)
{
    (void)context;
    rates[0] = y[1];
    rates[1] = 1000 * (1 - y[0] * y[0]) * y[1] - y[0];
}

static void relaxation_slopes(const void *context, const double *y, double *slopes)
{
    (void)context;
    slopes[1] = 1;
    slopes[2] = -2000 * y[0] * y[1] - 1;
    slopes[3] = 1000 * (1 - y[0] * y[0]);
}

/* tests/oracles/stiff_systems.py: scipy's Radau at 1e-12. */
TEST(two_stiff_systems_as_another_solver_has_them)
{
    const double scale[] = {1e-3, 1e-8, 1e-3};
    const qll_rates kinetics = {3, kinetics_rates, kinetics_slopes, NULL};
    double y[3];
    double steps = run(&kinetics, scale, (const double[]){1, 0, 0}, 40, 1e-8, y);
    CHECK_NEAR(y[0], 0.7158270687194077, 1e-8);
    CHECK_NEAR(y[1], 9.185534764557795e-06, 1e-7);
    CHECK_NEAR(y[2], 0.28416374574583053, 1e-8);
    CHECK(steps < 1000); /* an explicit method takes 100 times as many */
    const qll_rates relaxation = {2, relaxation_rates, relaxation_slopes, NULL};
    steps = run(&relaxation, ones, (const double[]){2, 0}, 500, 1e-9, y);
    CHECK_NEAR(y[0], 1.5967689510526655, 1e-8);
    CHECK_NEAR(y[1], -0.0010303911878393516, 1e-7);
    CHECK(steps < 1000);
}

TEST(a_step_that_is_no_number_is_no_step)
{
    const qll_rates system = {2, decay_rates, decay_slopes, NULL};
    qll_rosenbrock s;
    CHECK(qll_rosenbrock_make(&system, ones, arena, &s) == QLL_OK);
    s.values[0] = NAN;
    qll_rosenbrock_begin(&s);
    double error = qll_rosenbrock_try(&s, 0.1, 1);
    CHECK(!(error < (double)INFINITY));
    CHECK(qll_rosenbrock_next_step(0.1, error) < 0.1);
    CHECK(qll_rosenbrock_next_step(0.1, 0) > 0.1);
}

TEST(no_memory_is_said)
{
    const qll_rates system = {2, decay_rates, decay_slopes, NULL};
    qll_rosenbrock s;
    for (size_t nth = 1; nth <= 8; nth++) {
        qll_arena_fail(arena, nth, false);
        CHECK(qll_rosenbrock_make(&system, ones, arena, &s) == QLL_NO_MEMORY);
    }
    qll_arena_fail(arena, 0, false);
    const qll_rates vast = {(size_t)1 << 40, decay_rates, decay_slopes, NULL};
    CHECK(qll_rosenbrock_make(&vast, ones, arena, &s) == QLL_NO_MEMORY);
}

int main(void)
{
    arena = qll_arena_open(1 << 22);
    TEST_RUN(order_four_at_the_end_and_three_inside);
    TEST_RUN(stiff_parts_are_damped_at_once);
    TEST_RUN(two_stiff_systems_as_another_solver_has_them);
    TEST_RUN(a_step_that_is_no_number_is_no_step);
    TEST_RUN(no_memory_is_said);
    qll_arena_close(arena);
    return TEST_END();
}
