#include "check.h"
#include "numeric/root.h"

#include <float.h>

static double square_less_two(double x, void *context)
{
    int *calls = context;
    if (calls != NULL) {
        *calls += 1;
    }
    return x * x - 2;
}

static double cosine_less_x(double x, void *context)
{
    (void)context;
    return cos(x) - x;
}

static double omega(double x, void *context)
{
    (void)context;
    return x * exp(x) - 1;
}

static double steep(double x, void *context)
{
    (void)context;
    return pow(x, 21) - 1e-9;
}

static double jump(double x, void *context)
{
    (void)context;
    return x < 0.3 ? -1 : 1000;
}

static double falling(double x, void *context)
{
    (void)context;
    return 3 - x;
}

static double wall(double x, void *context)
{
    (void)context;
    return x <= 0 ? (double)-INFINITY : log(x);
}

static double hole(double x, void *context)
{
    (void)context;
    return x > 0.25 && x < 1.75 ? (double)NAN : x - 1;
}

static double nothing_beyond_1(double x, void *context)
{
    (void)context;
    return x > 1 ? (double)NAN : x;
}

/* Digits: OEIS A002193 (square root of 2), A003957 (cos x = x), A030178 (x e^x = 1). */
TEST(known_numbers)
{
    CHECK_WITHIN(qll_root_find(0, 2, 1e-14, square_less_two, NULL).value, 1.41421356237309504880,
                 1e-14);
    CHECK_WITHIN(qll_root_find(0, 1, 1e-14, cosine_less_x, NULL).value, 0.73908513321516064165,
                 1e-14);
    CHECK_WITHIN(qll_root_find(0, 1, 1e-14, omega, NULL).value, 0.56714329040978387299, 1e-14);
}

TEST(smooth_functions_take_few_evaluations)
{
    qll_root root = qll_root_find(0, 2, 1e-12, square_less_two, NULL);
    CHECK(root.converged);
    CHECK(root.iterations <= 14); /* bisection: 43 */
}

TEST(iterations_count_evaluations)
{
    int calls = 0;
    qll_root root = qll_root_find(0, 2, 1e-9, square_less_two, &calls);
    CHECK(root.iterations == calls);
}

TEST(hard_functions_stay_within_bisection_and_one)
{
    qll_root flat = qll_root_find(0, 4, 1e-10, steep, NULL);
    CHECK(flat.converged);
    CHECK_WITHIN(flat.value, pow(1e-9, 1.0 / 21), 1e-10);
    CHECK(flat.iterations <= 2 + 36 + 1);
    qll_root step = qll_root_find(0, 1, 1e-10, jump, NULL);
    CHECK(step.converged);
    CHECK_WITHIN(step.value, 0.3, 1e-10);
    CHECK(step.iterations <= 2 + 34 + 1);
}

TEST(falling_functions_and_exact_ends)
{
    CHECK_WITHIN(qll_root_find(0, 10, 1e-12, falling, NULL).value, 3, 1e-12);
    qll_root end = qll_root_find(3, 10, 1e-12, falling, NULL);
    CHECK(end.converged && end.value == 3 && end.residual == 0);
    CHECK(qll_root_find(3, 3, 1e-12, falling, NULL).value == 3);
}

TEST(infinite_ends_are_bisected_away)
{
    qll_root root = qll_root_find(0, 7, 1e-12, wall, NULL);
    CHECK(root.converged);
    CHECK_WITHIN(root.value, 1, 1e-12);
}

TEST(tolerance_below_the_doubles_still_ends)
{
    qll_root root = qll_root_find(0, 2, DBL_TRUE_MIN, square_less_two, NULL);
    CHECK(root.converged);
    CHECK_WITHIN(root.value, 1.41421356237309504880, 1e-15);
}

TEST(no_sign_change_is_no_root)
{
    CHECK(!qll_root_find(2, 4, 1e-9, square_less_two, NULL).converged);
    CHECK(isnan(qll_root_find(2, 4, 1e-9, square_less_two, NULL).value));
    CHECK(!qll_root_find(NAN, 4, 1e-9, square_less_two, NULL).converged);
    CHECK(!qll_root_find(4, 2, 1e-9, square_less_two, NULL).converged);
    qll_root holed = qll_root_find(0, 3, 1e-9, hole, NULL);
    CHECK(!holed.converged && isnan(holed.value));
    /* An end that is 0 does not answer for one that is not a number. */
    qll_root half = qll_root_find(0, 2, 1e-9, nothing_beyond_1, NULL);
    CHECK(!half.converged && isnan(half.value));
}

int main(void)
{
    TEST_RUN(known_numbers);
    TEST_RUN(smooth_functions_take_few_evaluations);
    TEST_RUN(iterations_count_evaluations);
    TEST_RUN(hard_functions_stay_within_bisection_and_one);
    TEST_RUN(falling_functions_and_exact_ends);
    TEST_RUN(infinite_ends_are_bisected_away);
    TEST_RUN(tolerance_below_the_doubles_still_ends);
    TEST_RUN(no_sign_change_is_no_root);
    return TEST_END();
}
