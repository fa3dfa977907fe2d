/* What must hold for any building. */
#include "base/customary.h"
#include "base/random.h"
#include "check.h"
#include "demand/demand.h"

#define TEST_CEILING ((size_t)64 << 20)
#define TEST_GROUPS  5

static double between(qll_random *random, double least, double most)
{
    return least + (most - least) * qll_random_unit(random);
}

/* Groups of up to 30 fixtures, flows in tenths of a gpm. */
static void draw_groups(qll_random *random, qll_use_group *groups)
{
    for (size_t g = 0; g < TEST_GROUPS; g++) {
        groups[g] = (qll_use_group){
            .count = (size_t)between(random, 0.0, 31.0),
            .flow_m3s = floor(between(random, 1.0, 80.0)) * 0.1 * QLL_GPM_M3S,
            .probability = between(random, 0.0, 0.3),
        };
    }
}

static double sum_of(qll_distribution distribution)
{
    double sum = 0.0;
    for (size_t i = 0; i < distribution.count; i++) {
        sum += distribution.p[i];
    }
    return sum;
}

TEST(a_distribution_is_one)
{
    qll_random random = qll_random_seeded(1);
    for (size_t i = 0; i < 60; i++) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        qll_use_group groups[TEST_GROUPS];
        draw_groups(&random, groups);
        qll_simultaneous use;
        CHECK(qll_simultaneous_use(groups, TEST_GROUPS, 0.99, arena, &use) == QLL_OK);
        CHECK_NEAR(sum_of(use.distribution), 1.0, 1e-12);
        double idle = 1.0;
        double all_m3s = 0.0;
        for (size_t g = 0; g < TEST_GROUPS; g++) {
            idle *= pow(1.0 - groups[g].probability, (double)groups[g].count);
            all_m3s += (double)groups[g].count * groups[g].flow_m3s;
        }
        CHECK_NEAR(use.idle_share, idle, 1e-12);
        CHECK_WITHIN(use.distribution.p[0], idle, 1e-12);
        CHECK_NEAR(qll_distribution_mean(use.distribution), use.mean_m3s, 1e-11);
        CHECK(use.flow_m3s <= use.flow_busy_m3s);
        CHECK(use.flow_busy_m3s <= all_m3s * (1.0 + 1e-12));
        qll_arena_close(arena);
    }
}

TEST(one_more_fixture_never_lowers_the_quantile)
{
    static const double quantiles[] = {0.5, 0.9, 0.95, 0.99, 0.999};
    qll_random random = qll_random_seeded(2);
    for (size_t i = 0; i < 40; i++) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        qll_use_group groups[TEST_GROUPS];
        draw_groups(&random, groups);
        const double quantile = quantiles[i % 5];
        double before = 0.0;
        for (size_t g = 0; g < TEST_GROUPS; g++) {
            qll_simultaneous use;
            CHECK(qll_simultaneous_use(groups, TEST_GROUPS, quantile, arena, &use) == QLL_OK);
            CHECK(use.flow_m3s >= before * (1.0 - 1e-12));
            before = use.flow_m3s;
            groups[g].count += 1;
        }
        qll_arena_close(arena);
    }
}

TEST(the_order_of_groups_does_not_matter)
{
    qll_random random = qll_random_seeded(3);
    for (size_t i = 0; i < 20; i++) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        qll_use_group groups[TEST_GROUPS];
        qll_use_group turned[TEST_GROUPS];
        draw_groups(&random, groups);
        for (size_t g = 0; g < TEST_GROUPS; g++) {
            turned[g] = groups[TEST_GROUPS - 1 - g];
        }
        qll_simultaneous a;
        qll_simultaneous b;
        CHECK(qll_simultaneous_use(groups, TEST_GROUPS, 0.99, arena, &a) == QLL_OK);
        CHECK(qll_simultaneous_use(turned, TEST_GROUPS, 0.99, arena, &b) == QLL_OK);
        CHECK_NEAR(a.flow_m3s, b.flow_m3s, 1e-12);
        CHECK_NEAR(a.flow_busy_m3s, b.flow_busy_m3s, 1e-12);
        qll_arena_close(arena);
    }
}

/* Shares rise to 1, 1; the points hold the mean; the quantile is the inverse of the share. */
static void check_duration(const qll_duration *duration)
{
    double mean = 0.0;
    double before = 0.0;
    for (size_t i = 0; i < duration->count; i++) {
        const qll_duration_point *point = &duration->points[i];
        CHECK(point->time_share > before);
        CHECK(i == 0 || point->flow_m3s > duration->points[i - 1].flow_m3s);
        CHECK(i == 0 || point->volume_share >= duration->points[i - 1].volume_share);
        CHECK(point->volume_share <= point->time_share + 1e-12);
        mean += (point->time_share - before) * point->flow_m3s;
        before = point->time_share;
    }
    const qll_duration_point last = duration->points[duration->count - 1];
    CHECK(last.time_share == 1.0 && last.volume_share == 1.0);
    CHECK_NEAR(mean, duration->mean_m3s, 1e-9);
    for (int percent = 5; percent < 100; percent += 5) {
        const double share = percent / 100.0;
        const double flow_m3s = qll_duration_quantile(duration, share);
        CHECK(qll_duration_time_share(duration, flow_m3s) >= share - 1e-11);
    }
}

TEST(a_day_is_a_day)
{
    static const double people[] = {2, 17, 92, 640};
    const qll_continuous flows[] = {{"a", 1e-4, 30000.0, 60000.0}, {"b", 7e-5, 70000.0, 5000.0}};
    for (size_t i = 0; i < 8; i++) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        const qll_scenario scenario = {.use = i % 2 == 0 ? QLL_USE_OFFICE : QLL_USE_HOUSE,
                                       .people = people[i / 2],
                                       .homes = NAN,
                                       .continuous = flows,
                                       .continuous_count = i % 3,
                                       .quantile = 0.99};
        qll_pulse_day day;
        CHECK(qll_pulse_day_exact(&scenario, arena, &day) == QLL_OK);
        check_duration(&day.duration);
        double mean = day.leak_m3s;
        mean += i % 3 > 0 ? 1e-4 * 30000.0 / 86400.0 : 0.0;
        mean += i % 3 > 1 ? 7e-5 * 21400.0 / 86400.0 : 0.0;
        for (size_t h = 0; h < 24; h++) {
            mean += day.hours[h].mean_m3s / 24.0;
        }
        CHECK_NEAR(day.duration.mean_m3s, mean, 1e-8);
        qll_arena_close(arena);
    }
}

/* A person more, or a home more with its people, never lowers a figure of the day: with uses alone, and by
 * the defaults of flats and houses, whose hours differ less from home to home the more homes there are. */
static void check_more(qll_scenario scenario, double homes)
{
    static const double shares[] = {0.5, 0.9, 0.99, 0.999, 0.9999};
    double before[5] = {0};
    double mean_before = 0.0;
    static const double people[] = {1, 2, 3, 4, 5, 6, 8, 15, 30, 60, 92, 93, 150, 400};
    for (size_t n = 0; n < sizeof people / sizeof people[0]; n++) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        scenario.people = people[n];
        scenario.homes = homes < 0.0 ? people[n] / 2.0 : homes;
        qll_pulse_day day;
        CHECK(qll_pulse_day_exact(&scenario, arena, &day) == QLL_OK);
        for (size_t i = 0; i < 5; i++) {
            const double flow_m3s = qll_duration_quantile(&day.duration, shares[i]);
            CHECK(flow_m3s >= before[i]);
            before[i] = flow_m3s;
        }
        CHECK(day.duration.mean_m3s > mean_before);
        mean_before = day.duration.mean_m3s;
        qll_arena_close(arena);
    }
}

TEST(more_people_never_draw_less)
{
    const qll_scenario plain = {.use = QLL_USE_APARTMENT, .quantile = 0.99};
    check_more(plain, NAN);
    qll_scenario flats = {.use = QLL_USE_APARTMENT,
                          .quantile = 0.99,
                          .has_visits = true,
                          .habits = QLL_HABITS_US,
                          .hour_cv = 1.1,
                          .building_hour_cv = 0.13};
    check_more(flats, NAN);
    check_more(flats, 12.0);
    check_more(flats, -1.0);
    flats.habits = QLL_HABITS_METRIC;
    flats.rate_cv = 0.4;
    check_more(flats, NAN);
    qll_scenario house = flats;
    house.use = QLL_USE_HOUSE;
    house.outdoor = QLL_OUTDOOR_IRRIGATION;
    check_more(house, NAN);
    house.habits = QLL_HABITS_US;
    check_more(house, 1.0);
    const qll_scenario hotel = {.use = QLL_USE_HOTEL, .quantile = 0.99, .has_visits = true};
    check_more(hotel, NAN);
}

int main(void)
{
    TEST_RUN(a_distribution_is_one);
    TEST_RUN(one_more_fixture_never_lowers_the_quantile);
    TEST_RUN(the_order_of_groups_does_not_matter);
    TEST_RUN(a_day_is_a_day);
    TEST_RUN(more_people_never_draw_less);
    return TEST_END();
}
