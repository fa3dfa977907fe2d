#include "check.h"
#include "physics/valve_fit.h"

#define TEST_BAR 1e5
#define TEST_M3H (1.0 / 3600.0)

/* Points of the straight law Q = Kvs min(1, phi/B) sqrt(dp) by hand: water of the reference density,
 * bar and m3/h. */
static qll_capacity_point point_of(double kv, double band_bar, double inlet, double set, double phi)
{
    double flow = kv * fmin(1.0, phi / band_bar) * sqrt(inlet - (set - phi));
    return (qll_capacity_point){inlet * TEST_BAR, set * TEST_BAR, flow * TEST_M3H, phi * TEST_BAR};
}

static qll_valve_fit fit_of(const qll_capacity_point *points, size_t count, double kv,
                            qll_arena *arena)
{
    qll_valve_fit fit;
    CHECK(qll_valve_fit_make(points, count, kv, 1.0, arena, &fit) == QLL_OK);
    return fit;
}

TEST(synthetic_points_come_back_exactly)
{
    static const struct {
        double kv, band;
    } valves[] = {{6.3, 1.2}, {1.6, 0.8}, {40.0, 0.5}, {0.9, 2.0}};

    qll_arena *arena = qll_arena_open(1 << 20);
    for (size_t v = 0; v < sizeof valves / sizeof *valves; v++) {
        double band = valves[v].band;
        /* Two sets of pressures, in no order; two points beyond full travel. */
        const qll_capacity_point points[] = {
            point_of(valves[v].kv, band, 8.0, 3.5, 1.2 * band),
            point_of(valves[v].kv, band, 8.0, 3.5, 0.3 * band),
            point_of(valves[v].kv, band, 6.0, 3.0, 0.9 * band),
            point_of(valves[v].kv, band, 6.0, 3.0, 1.1 * band),
            point_of(valves[v].kv, band, 6.0, 3.0, 0.6 * band),
        };
        qll_valve_fit fit = fit_of(points, 5, NAN, arena);
        CHECK(fit.fault == QLL_FIT_SOUND && fit.full_travel_seen);
        CHECK_NEAR(fit.kv_m3h, valves[v].kv, 1e-12);
        CHECK_NEAR(fit.band_pa, band * TEST_BAR, 1e-12);
        CHECK(fit.worst_share < 1e-12 && fit.rms_share <= fit.worst_share);
        for (size_t i = 0; i < 5; i++) {
            CHECK_NEAR(fit.rows[i].fitted_flow_m3s, points[i].flow_m3s, 1e-12);
        }
    }
    qll_arena_close(arena);
}

/* Q = Kvs min(1, phi/B) sqrt(p1 - p2), Kvs 6.3, set 3.5, B 1.2, p1 8 bar: own independent solution of
 * p2 for Q 1, 2, 4, 6.3 m3/h, printed to five decimals (as in tests/unit/test_valve.c). */
TEST(two_published_points_give_the_valve_with_its_kv)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_capacity_point points[] = {
        {8e5, 3.5e5, 1.0 * TEST_M3H, (3.5 - 3.41108) * TEST_BAR},
        {8e5, 3.5e5, 2.0 * TEST_M3H, (3.5 - 3.32383) * TEST_BAR},
        {8e5, 3.5e5, 4.0 * TEST_M3H, (3.5 - 3.15390) * TEST_BAR},
        {8e5, 3.5e5, 6.3 * TEST_M3H, (3.5 - 2.96520) * TEST_BAR},
    };
    qll_valve_fit fit = fit_of(points, 4, 6.3, arena);
    CHECK(fit.fault == QLL_FIT_SOUND);
    CHECK_NEAR(fit.band_pa, 1.2 * TEST_BAR, 1e-4);
    /* Without Kv only the slope is known: full travel is taken at the last point. */
    fit = fit_of(points, 4, NAN, arena);
    CHECK(!fit.full_travel_seen);
    CHECK_NEAR(fit.band_pa, points[3].falloff_pa, 1e-9);
    CHECK_NEAR(fit.kv_m3h / fit.band_pa, 6.3 / (1.2 * TEST_BAR), 1e-4);
    CHECK(fit.law_count == 4 && fit.law[0].x < fit.law[3].x && fit.law[0].y < fit.law[3].y);
    qll_arena_close(arena);
}

/* Nothing near the fit is better: the least of all, though the sum has kinks at every point. */
TEST(no_neighbour_fits_better)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    static const double noise[] = {0.02, -0.03, 0.01, 0.025, -0.015, -0.02, 0.03};
    qll_capacity_point points[7];
    for (size_t i = 0; i < 7; i++) {
        points[i] = point_of(5.0, 1.0, 7.0, 3.0, 0.2 + 0.2 * (double)i);
        points[i].flow_m3s *= 1.0 + noise[i];
    }
    qll_valve_fit fit = fit_of(points, 7, NAN, arena);
    CHECK(fit.fault == QLL_FIT_SOUND && fit.worst_share < 0.05);
    double least = 7.0 * fit.rms_share * fit.rms_share;
    for (int k = 0; k <= 50; k++) {
        for (int b = 0; b <= 50; b++) {
            const double kv = 0.9 + 0.004 * k;
            const double band = 0.8 + 0.008 * b;
            double sum = 0.0;
            for (size_t i = 0; i < 7; i++) {
                double opening = fmin(1.0, points[i].falloff_pa / (band * fit.band_pa));
                double share = kv * fit.kv_m3h * opening / fit.rows[i].kv_m3h - 1.0;
                sum += share * share;
            }
            CHECK(sum >= least * (1.0 - 1e-12));
        }
    }
    qll_arena_close(arena);
}

TEST(contradictions_are_named)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_capacity_point points[] = {
        point_of(6.3, 1.2, 8.0, 3.5, 0.9),
        point_of(6.3, 1.2, 8.0, 3.5, 0.3),
        point_of(6.3, 1.2, 8.0, 3.5, 0.6),
    };
    points[0].flow_m3s *= 0.5; /* less at 0.9 bar than at 0.6 */
    qll_valve_fit fit = fit_of(points, 3, NAN, arena);
    CHECK(fit.fault == QLL_FIT_CONTRADICTION && fit.first == 2 && fit.second == 0);
    points[0] = points[1];
    points[0].flow_m3s *= 1.2; /* two flows at one fall-off */
    CHECK(fit_of(points, 3, NAN, arena).fault == QLL_FIT_CONTRADICTION);
    points[0] = points[1];
    points[0].flow_m3s *= 1.03; /* within what is read from a curve */
    fit = fit_of(points, 3, NAN, arena);
    CHECK(fit.fault == QLL_FIT_SOUND && fit.law_count == 2);
    CHECK_NEAR(fit.law[0].y, 1.015 * fit.rows[1].kv_m3h, 1e-9);
    fit = fit_of(points, 3, 1.0, arena);
    CHECK(fit.fault == QLL_FIT_ABOVE_FULL);
    points[2].falloff_pa = 4e5; /* an outlet below the atmosphere */
    fit = fit_of(points, 3, NAN, arena);
    CHECK(fit.fault == QLL_FIT_IMPOSSIBLE && fit.first == 2);
    points[2].falloff_pa = NAN;
    CHECK(fit_of(points, 3, NAN, arena).fault == QLL_FIT_IMPOSSIBLE);
    CHECK(fit_of(points, 1, NAN, arena).fault == QLL_FIT_TOO_FEW);
    qll_arena_close(arena);
}

/* Neighbours that break the rise within what agrees become the mean of all that went into them, by hand:
 * (0.6, 4.00) and (0.7, 3.90) make (0.65, 3.95), and with (0.9, 3.92) (2.2/3, 11.82/3). */
TEST(readings_that_break_the_rise_become_their_mean)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    static const double read[][2] = {{0.3, 2.0}, {0.6, 4.0}, {0.7, 3.9}, {0.9, 3.92}, {1.2, 6.0}};
    qll_capacity_point points[5];
    for (size_t i = 0; i < 5; i++) {
        points[i] = point_of(read[i][1], 0.1, 8.0, 3.5, read[i][0]);
    }
    qll_valve_fit fit = fit_of(points, 5, NAN, arena);
    if (CHECK(fit.fault == QLL_FIT_SOUND && fit.law_count == 3)) {
        CHECK_NEAR(fit.law[0].x, 0.3 * TEST_BAR, 1e-9);
        CHECK_NEAR(fit.law[1].x, 2.2 / 3.0 * TEST_BAR, 1e-9);
        CHECK_NEAR(fit.law[1].y, 11.82 / 3.0, 1e-9);
        CHECK_NEAR(fit.law[2].y, 6.0, 1e-9);
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(synthetic_points_come_back_exactly);
    TEST_RUN(two_published_points_give_the_valve_with_its_kv);
    TEST_RUN(no_neighbour_fits_better);
    TEST_RUN(contradictions_are_named);
    TEST_RUN(readings_that_break_the_rise_become_their_mean);
    return TEST_END();
}
