/* Slopes of readings and their intervals, and when a line reaches a limit, against SciPy: drift.csv. */
#include "records/drift.h"
#include "truth.h"

#define QLL_MOST ((size_t)64)

TEST(slopes_and_their_intervals_are_those_of_scipy)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 26);
    const qll_table rows = truth_read("tests/reference/drift.csv", arena);
    CHECK(rows.row_count >= 6);
    for (size_t r = 0; r < rows.row_count; r++) {
        double days[QLL_MOST];
        double values[QLL_MOST];
        qll_drift_point points[QLL_MOST];
        qll_drift drift;
        const size_t count = truth_numbers(&rows, r, "days", days, QLL_MOST);
        CHECK(truth_numbers(&rows, r, "values", values, QLL_MOST) == count);
        for (size_t i = 0; i < count; i++) {
            points[i] = (qll_drift_point){.day = days[i], .value = values[i]};
        }
        CHECK(qll_drift_of(points, count, arena, &drift) == QLL_OK);
        CHECK_WITHIN(drift.slope_per_year, truth_number(&rows, r, "slope_per_year"), 1e-9);
        CHECK_WITHIN(drift.low_per_year, truth_number(&rows, r, "low_per_year"), 1e-9);
        CHECK_WITHIN(drift.high_per_year, truth_number(&rows, r, "high_per_year"), 1e-9);
    }
    qll_arena_close(arena);
}

static qll_drift drift_of(const qll_drift_point *points, size_t count)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    qll_drift drift;
    CHECK(qll_drift_of(points, count, arena, &drift) == QLL_OK);
    qll_arena_close(arena);
    return drift;
}

/* A strainer that loses 2 a year from 1 on, and is cleaned after each third reading: a saw whose teeth all rise alike. */
TEST(what_was_cleaned_is_compared_with_nothing_before)
{
    qll_drift_point points[12];
    for (size_t i = 0; i < 12; i++) {
        points[i] = (qll_drift_point){.day = (double)i * 100.0,
                                      .value = 1.0 + (double)(i % 3) * 2.0 * 100.0 / QLL_YEAR_DAYS,
                                      .begins = i > 0 && i % 3 == 0};
    }
    const qll_drift drift = drift_of(points, 12);
    CHECK(drift.pairs == 12);
    CHECK_NEAR(drift.slope_per_year, 2.0, 1e-12);
    CHECK_NEAR(drift.level, points[11].value, 1e-12);
}

TEST(a_line_reaches_a_limit_where_a_ruler_says)
{
    qll_drift_point points[8];
    for (size_t i = 0; i < 8; i++) {
        points[i] = (qll_drift_point){.day = (double)i * QLL_YEAR_DAYS, .value = 60.0 + (double)i};
    }
    qll_drift drift = drift_of(points, 8);
    CHECK(qll_drift_is_sure(&drift));
    qll_reached reached = qll_drift_reaches(&drift, 50.0, 70.0);
    CHECK_NEAR(reached.day, 10.0 * QLL_YEAR_DAYS, 1e-12);
    CHECK_NEAR(reached.earliest, 10.0 * QLL_YEAR_DAYS, 1e-12);
    /* Beyond it already: the last day. */
    reached = qll_drift_reaches(&drift, 50.0, 65.0);
    CHECK_NEAR(reached.day, 7.0 * QLL_YEAR_DAYS, 1e-12);
    CHECK(isnan(qll_drift_reaches(&drift, 50.0, (double)NAN).day));
    CHECK(isnan(qll_drift_reaches(&drift, 50.0, 1000.0).day)); /* in 933 years */
    for (size_t i = 0; i < 8; i++) {
        points[i].value = 60.0 - (double)i;
    }
    drift = drift_of(points, 8);
    CHECK_NEAR(qll_drift_reaches(&drift, 50.0, 70.0).day, 10.0 * QLL_YEAR_DAYS, 1e-12);
}

TEST(a_slope_that_is_not_sure_reaches_nothing)
{
    const qll_drift_point points[] = {{0, 60, false},    {400, 62, false},  {800, 59, false},
                                      {1200, 61, false}, {1600, 60, false}, {2000, 60, false}};
    const qll_drift drift = drift_of(points, 6);
    CHECK(!qll_drift_is_sure(&drift));
    CHECK(isnan(qll_drift_reaches(&drift, 50.0, 70.0).day));
}

TEST(few_readings_have_no_interval)
{
    const qll_drift_point points[] = {{0, 60, false}, {400, 62, false}, {800, 64, false}};
    CHECK(drift_of(points, 0).count == 0);
    CHECK(isnan(drift_of(points, 1).slope_per_year));
    CHECK_NEAR(drift_of(points, 1).level, 60.0, 1e-12);
    CHECK(isnan(drift_of(points, 2).low_per_year));
    const qll_drift three = drift_of(points, 3);
    CHECK_NEAR(three.slope_per_year, 2.0 * QLL_YEAR_DAYS / 400.0, 1e-12);
    CHECK(isnan(three.low_per_year) && !qll_drift_is_sure(&three));
}

int main(void)
{
    TEST_RUN(slopes_and_their_intervals_are_those_of_scipy);
    TEST_RUN(what_was_cleaned_is_compared_with_nothing_before);
    TEST_RUN(a_line_reaches_a_limit_where_a_ruler_says);
    TEST_RUN(a_slope_that_is_not_sure_reaches_nothing);
    TEST_RUN(few_readings_have_no_interval);
    return TEST_END();
}
