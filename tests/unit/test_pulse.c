#include "check.h"
#include "demand/demand.h"

#define TEST_CEILING ((size_t)256 << 20)

static qll_scenario scenario_of(qll_use use, double people, double homes)
{
    return (qll_scenario){.name = "test",
                          .use = use,
                          .people = people,
                          .homes = homes,
                          .peak_method = QLL_PEAK_METHOD_COUNT,
                          .peak_given_m3s = NAN,
                          .quantile = 0.99};
}

static qll_pulse_day day_of(const qll_scenario *scenario, qll_arena *arena)
{
    qll_pulse_day day = {0};
    CHECK(qll_pulse_day_exact(scenario, arena, &day) == QLL_OK);
    return day;
}

static double mean_of_hours(const qll_pulse_day *day)
{
    double sum = 0.0;
    for (size_t h = 0; h < 24; h++) {
        sum += day->hours[h].mean_m3s / 24.0;
    }
    return sum;
}

/* The grid keeps the mean: what the distribution holds is the sum of rate, duration and flow. */
TEST(duration_has_the_mean_of_the_uses)
{
    static const double people[] = {0.5, 3, 92, 5000, 1e6};
    for (size_t i = 0; i < 5; i++) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        const qll_scenario scenario = scenario_of(QLL_USE_APARTMENT, people[i], NAN);
        const qll_pulse_day day = day_of(&scenario, arena);
        CHECK_NEAR(day.duration.mean_m3s, mean_of_hours(&day) + day.leak_m3s, 1e-8);
        CHECK_NEAR(day.volume_m3, 86400.0 * day.duration.mean_m3s, 1e-12);
        CHECK_NEAR(day.leak_m3s, people[i] / 2.3 * 0.05 * 2.778e-6, 1e-9);
        qll_arena_close(arena);
    }
}

/* 108.39 L per person and day, the sum of the dwelling set by hand. */
TEST(a_person_uses_what_the_set_says)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    const qll_scenario scenario = scenario_of(QLL_USE_APARTMENT, 92, 0);
    const qll_pulse_day day = day_of(&scenario, arena);
    CHECK_WITHIN(day.volume_m3 / 92 * 1e3, 108.39, 0.01);
    CHECK(day.leak_m3s == 0.0);
    CHECK_NEAR(day.duration.idle_share, day.none_share, 1e-9);
    qll_arena_close(arena);
}

/* 2 closets of 6.057 L, a urinal of 1.893 L, 3 lavatories of 0.4725 L and half a pantry sink of
 * 3.408 L; the weekday shape as printed has a mean of 1. */
TEST(an_office_uses_what_its_set_says)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    const qll_scenario scenario = scenario_of(QLL_USE_OFFICE, 200, NAN);
    const qll_pulse_day day = day_of(&scenario, arena);
    CHECK_NEAR(day.volume_m3 / 200 * 1e3,
               2 * 6.0568 + 1.89275 + 3 * 0.4725 + 0.5 * 3.408 + 0.02 * 24, 1e-4);
    CHECK(day.leak_m3s == 0.0);
    CHECK_NEAR(day.duration.idle_share, day.none_share, 1e-9);
    /* The flushometers are there in the curve: flows over 1.5 L/s, but seldom. */
    CHECK(qll_duration_time_share(&day.duration, 1.5e-3) < 1.0 - 1e-4);
    CHECK(qll_duration_quantile(&day.duration, 0.9) < 1.5e-3);
    qll_arena_close(arena);
}

TEST(continuous_flows_shift_their_hours_only)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = scenario_of(QLL_USE_OFFICE, 100, NAN);
    const qll_pulse_day plain = day_of(&scenario, arena);
    const qll_continuous tower = {"tower", 0.4e-3, 9.0 * 3600, 17.5 * 3600};
    scenario.continuous = &tower;
    scenario.continuous_count = 1;
    const qll_pulse_day day = day_of(&scenario, arena);
    CHECK_NEAR(day.duration.mean_m3s, plain.duration.mean_m3s + 0.4e-3 * 8.5 / 24.0, 1e-9);
    CHECK_NEAR(day.hours[10].quantile_m3s, plain.hours[10].quantile_m3s + 0.4e-3, 1e-9);
    CHECK(day.hours[8].quantile_m3s == plain.hours[8].quantile_m3s);
    CHECK(day.hours[18].quantile_m3s == plain.hours[18].quantile_m3s);
    /* Half of the hour from 17:00 has it. */
    CHECK(day.hours[17].quantile_m3s >= plain.hours[17].quantile_m3s);
    CHECK(day.hours[17].quantile_m3s < plain.hours[17].quantile_m3s + 0.4e-3);
    double idle = 0.0;
    for (size_t h = 0; h < 24; h++) {
        const double off = h >= 9 && h < 17 ? 0.0 : (h == 17 ? 0.5 : 1.0);
        idle += day.hours[h].none_share * off / 24.0;
    }
    CHECK_NEAR(day.duration.idle_share, idle, 1e-9);
    CHECK_NEAR(day.none_share, plain.none_share, 1e-12);
    /* The hours of the day hold what the day holds, the tower's water in its own hours. */
    double mean_m3s = 0.0;
    for (size_t h = 0; h < 24; h++) {
        mean_m3s += day.hours[h].flow_mean_m3s / 24.0;
    }
    CHECK_NEAR(mean_m3s, day.duration.mean_m3s, 1e-9);
    CHECK_NEAR(day.hours[10].flow_mean_m3s, plain.hours[10].flow_mean_m3s + 0.4e-3, 1e-9);
    CHECK_NEAR(day.hours[17].flow_mean_m3s, plain.hours[17].flow_mean_m3s + 0.2e-3, 1e-9);
    CHECK_NEAR(day.hours[8].flow_mean_m3s, plain.hours[8].flow_mean_m3s, 1e-12);
    qll_arena_close(arena);
}

TEST(nobody_at_all)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    const qll_scenario scenario = scenario_of(QLL_USE_HOUSE, 0, 0);
    const qll_pulse_day day = day_of(&scenario, arena);
    CHECK(day.duration.count == 1 && day.duration.idle_share == 1.0 && day.volume_m3 == 0.0);
    qll_arena_close(arena);
}

/* Time and memory stay bounded: a million people on a coarser grid, near to normal in an hour. */
TEST(a_million_people)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    const qll_scenario scenario = scenario_of(QLL_USE_APARTMENT, 1e6, 4e5);
    const qll_pulse_day day = day_of(&scenario, arena);
    const qll_pulse_hour busiest = day.hours[20];
    CHECK(day.step_m3s > 2e-6 && day.step_m3s < 1e-4);
    CHECK_NEAR(busiest.quantile_m3s - day.leak_m3s,
               busiest.mean_m3s + 2.3263 * busiest.deviation_m3s, 1e-3);
    qll_arena_close(arena);
}

TEST(every_failed_allocation_is_reported)
{
    const qll_continuous tower = {"tower", 0.4e-3, 9.0 * 3600, 17.5 * 3600};
    qll_scenario scenario = scenario_of(QLL_USE_OFFICE, 20, NAN);
    scenario.continuous = &tower;
    scenario.continuous_count = 1;
    for (size_t nth = 1;; nth++) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        qll_pulse_day day;
        qll_arena_fail(arena, nth, true);
        const qll_status status = qll_pulse_day_exact(&scenario, arena, &day);
        qll_arena_close(arena);
        if (status == QLL_OK) {
            CHECK(nth > 100);
            break;
        }
        CHECK(status == QLL_NO_MEMORY);
    }
}

int main(void)
{
    TEST_RUN(duration_has_the_mean_of_the_uses);
    TEST_RUN(a_person_uses_what_the_set_says);
    TEST_RUN(an_office_uses_what_its_set_says);
    TEST_RUN(continuous_flows_shift_their_hours_only);
    TEST_RUN(nobody_at_all);
    TEST_RUN(a_million_people);
    TEST_RUN(every_failed_allocation_is_reported);
    return TEST_END();
}
