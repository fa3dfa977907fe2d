#include "check.h"
#include "numeric/curve.h"

static const qll_point points[] = {{1, 10}, {2, 20}, {4, 20}, {8, 60}};
static const qll_curve curve = {points, 4};

TEST(straight_between_points_and_flat_beyond)
{
    CHECK_NEAR(qll_curve_at(curve, 1.5), 15, 1e-15);
    CHECK_NEAR(qll_curve_at(curve, 3), 20, 1e-15);
    CHECK_NEAR(qll_curve_at(curve, 5), 30, 1e-15);
    CHECK(qll_curve_at(curve, -1) == 10);
    CHECK(qll_curve_at(curve, 9) == 60);
    CHECK(isnan(qll_curve_at(curve, NAN)));
}

TEST(points_are_met_to_the_last_bit)
{
    const qll_point odd[] = {{0.1, 0.3}, {0.7, 1.1}, {1.3, 1.7}};
    for (size_t i = 0; i < 3; i++) {
        CHECK(qll_curve_at((qll_curve){odd, 3}, odd[i].x) == odd[i].y);
    }
}

TEST(one_point_is_a_flat_curve)
{
    const qll_curve one = {points, 1};
    CHECK(qll_curve_at(one, 0) == 10);
    CHECK(qll_curve_at(one, 5) == 10);
    CHECK(qll_curve_segment(one, 5) == 0);
    CHECK(qll_curve_inverse(one, 10) == 1);
    CHECK(isnan(qll_curve_inverse(one, 10.5)));
}

TEST(inverse_gives_the_least_x)
{
    CHECK_NEAR(qll_curve_inverse(curve, 15), 1.5, 1e-15);
    CHECK(qll_curve_inverse(curve, 20) == 2);
    CHECK_NEAR(qll_curve_inverse(curve, 30), 5, 1e-15);
    CHECK(qll_curve_inverse(curve, 60) == 8);
    CHECK(qll_curve_inverse(curve, 3) == 1);
    CHECK(isnan(qll_curve_inverse(curve, 61)));
    CHECK(isnan(qll_curve_inverse(curve, NAN)));
}

TEST(segment_holds_x)
{
    CHECK(qll_curve_segment(curve, -1) == 0);
    CHECK(qll_curve_segment(curve, 1) == 0);
    CHECK(qll_curve_segment(curve, 2) == 1);
    CHECK(qll_curve_segment(curve, 3.9) == 1);
    CHECK(qll_curve_segment(curve, 4) == 2);
    CHECK(qll_curve_segment(curve, 8) == 2);
    CHECK(qll_curve_segment(curve, 100) == 2);
}

int main(void)
{
    TEST_RUN(straight_between_points_and_flat_beyond);
    TEST_RUN(points_are_met_to_the_last_bit);
    TEST_RUN(one_point_is_a_flat_curve);
    TEST_RUN(inverse_gives_the_least_x);
    TEST_RUN(segment_holds_x);
    return TEST_END();
}
