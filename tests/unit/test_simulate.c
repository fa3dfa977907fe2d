#include "check.h"
#include "demand/day_model.h"
#include "demand/demand.h"
#include "simulated_days.h"

#define TEST_CEILING  ((size_t)256 << 20)
#define TEST_TWO_DAYS ((size_t)2 * QLL_DAY_SECONDS)
#define TEST_DAYS     60

static qll_scenario flats(void)
{
    return (qll_scenario){.name = "flats",
                          .use = QLL_USE_APARTMENT,
                          .people = 92,
                          .homes = 40,
                          .peak_method = QLL_PEAK_METHOD_COUNT,
                          .peak_given_m3s = NAN,
                          .quantile = 0.99};
}

static qll_simulated simulate(const qll_scenario *scenario, size_t days, qll_arena *arena)
{
    static const double shares[] = {0.5, 0.99};
    static const double times_s[] = {1, 600};
    const qll_simulation wanted = {.seed = 1,
                                   .days = days,
                                   .shares = shares,
                                   .share_count = 2,
                                   .averaging_s = times_s,
                                   .averaging_count = 2};
    qll_simulated result = {0};
    CHECK(qll_simulate(scenario, &wanted, arena, &result) == QLL_OK);
    return result;
}

typedef struct tape {
    double *flow_m3s;
    size_t count;
} tape;

static void record(void *context, const qll_second_block *block)
{
    tape *to = context;
    CHECK(to->count % QLL_DAY_SECONDS == block->first_s);
    memcpy(to->flow_m3s + to->count, block->flow_m3s, block->count * sizeof *to->flow_m3s);
    to->count += block->count;
}

TEST(same_seed_same_bytes)
{
    static double first[TEST_TWO_DAYS];
    static double second[TEST_TWO_DAYS];
    double *const tapes[] = {first, second, second};
    const qll_scenario scenario = flats();
    for (uint64_t i = 0; i < 3; i++) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        qll_simulator *simulator = NULL;
        CHECK(qll_simulator_make(&scenario, i < 2 ? 7 : 8, arena, &simulator) == QLL_OK);
        tape to = {.flow_m3s = tapes[i]};
        const size_t taken = qll_arena_count(arena);
        qll_simulator_day(simulator, record, &to);
        qll_simulator_day(simulator, record, &to);
        CHECK(qll_arena_count(arena) == taken);
        CHECK(to.count == TEST_TWO_DAYS);
        bool is_same = true;
        for (size_t s = 0; s < TEST_TWO_DAYS; s++) {
            is_same = is_same && first[s] == second[s];
        }
        CHECK(i == 0 || is_same == (i == 1));
        qll_arena_close(arena);
    }
}

/* Mean of hour h: of the uses that start in it what does not outlast it, and what outlasts the hour
 * before; a use that starts at any moment of an hour of 3600 s draws E[D^2] / 7200 of its time
 * beyond it (D at most an hour, which all but a millionth of uses keep). */
static double hour_mean_m3s(const qll_day_model *model, size_t hour)
{
    const double here = model->shapes[0][hour];
    const double before = model->shapes[0][(hour + 23) % 24];
    double sum = model->leak_m3s;
    for (size_t i = 0; i < model->use_count; i++) {
        const qll_end_use *use = &model->uses[i];
        const double over = qll_lognormal_square(use->duration_s) / use->duration_s.mean / 7200.0;
        sum += use->busy * use->flow_m3s.mean * (here * (1.0 - over) + before * over);
    }
    return sum;
}

/* Variance of the water of a day in uses: those that start are Poisson, each of volume D q. */
static double day_variance(const qll_day_model *model)
{
    double sum = 0.0;
    for (size_t i = 0; i < model->use_count; i++) {
        const qll_end_use *use = &model->uses[i];
        const double count = use->busy * QLL_DAY_S / use->duration_s.mean;
        sum += count * qll_lognormal_square(use->duration_s) * qll_lognormal_square(use->flow_m3s);
    }
    return sum;
}

/* 60 days: the day's water within 4 standard errors (2 %), every hour within 4.5 of its own. */
TEST(water_is_that_of_the_end_use_table)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    const qll_scenario scenario = flats();
    qll_day_model model;
    CHECK(qll_day_model_make(&scenario, arena, &model) == QLL_OK);
    const qll_simulated got = simulate(&scenario, TEST_DAYS, arena);
    double want_m3 = model.leak_m3s * QLL_DAY_S;
    for (size_t i = 0; i < model.use_count; i++) {
        want_m3 += model.uses[i].busy * model.uses[i].flow_m3s.mean * QLL_DAY_S;
    }
    const double deviation = sqrt(day_variance(&model));
    CHECK_WITHIN(got.volume_m3.mean, want_m3, 4.0 * deviation / sqrt(TEST_DAYS));
    CHECK(4.0 * deviation / sqrt(TEST_DAYS) < 0.025 * want_m3);
    CHECK_NEAR(got.volume_m3.deviation, deviation, 0.4); /* 4 / sqrt(2 x 60) */
    CHECK_NEAR(got.duration.mean_m3s * QLL_DAY_S, got.volume_m3.mean, 1e-9);
    for (size_t h = 0; h < 24; h++) {
        const double want = hour_mean_m3s(&model, h);
        /* Water of uses from this hour and the one before: the larger rate of the two. */
        const double rate = fmax(model.shapes[0][h], model.shapes[0][(h + 23) % 24]);
        const double error = deviation * sqrt(rate / 24.0 / TEST_DAYS) / 3600.0;
        CHECK_WITHIN(got.hour_mean_m3s[h], want, 4.5 * error);
    }
    qll_arena_close(arena);
}

/* Within an hour of steady use the seconds are the compound Poisson of the pulse model: time with
 * none and percentiles of 200 days against the exact day, 3 sd / sqrt(days). */
TEST(seconds_follow_the_exact_distribution)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    const qll_scenario scenario = flats();
    qll_pulse_day day;
    CHECK(qll_pulse_day_exact(&scenario, arena, &day) == QLL_OK);
    const qll_simulated got = simulate(&scenario, 200, arena);
    CHECK_WITHIN(got.none_share, day.none_share, 0.004);
    static const double shares[] = {0.5, 0.99};
    for (size_t i = 0; i < 2; i++) {
        CHECK_WITHIN(got.quantiles[i].mean, qll_duration_quantile(&day.duration, shares[i]),
                     3.0 * got.quantiles[i].deviation / sqrt(200.0) + day.step_m3s);
    }
    CHECK_WITHIN(qll_duration_time_share(&got.duration, 3e-4),
                 qll_duration_time_share(&day.duration, 3e-4), 0.004);
    CHECK(got.peaks[0].greatest >= got.peaks[0].mean && got.peaks[0].mean > got.peaks[1].mean);
    CHECK_NEAR(got.peaks[0].greatest, got.duration.points[got.duration.count - 1].flow_m3s, 1e-9);
    qll_arena_close(arena);
}

/* The day-to-day deviation of the water grows by cv x mean, cv = 0.6 / sqrt(40 homes). */
TEST(days_vary_as_asked)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = flats();
    scenario.rate_cv = 0.6;
    qll_day_model model;
    CHECK(qll_day_model_make(&scenario, arena, &model) == QLL_OK);
    const qll_simulated got = simulate(&scenario, 300, arena);
    const double factor = 0.6 / sqrt(40.0) * 92 * 0.10839;
    const double want = sqrt(day_variance(&model) + factor * factor);
    CHECK_NEAR(got.volume_m3.deviation, want, 4.0 / sqrt(600.0));
    CHECK(got.volume_m3.deviation > 1.3 * sqrt(day_variance(&model)));
    qll_arena_close(arena);
}

/* A school's break of 10 min holds 60 % of an hour's uses: the exact day's time with none. */
TEST(breaks_bunch_uses)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = flats();
    scenario.use = QLL_USE_SCHOOL;
    scenario.people = 600;
    scenario.break_share = 0.6;
    scenario.break_s = 600;
    qll_pulse_day day;
    CHECK(qll_pulse_day_exact(&scenario, arena, &day) == QLL_OK);
    const qll_simulated got = simulate(&scenario, 60, arena);
    CHECK_NEAR(got.volume_m3.mean, day.volume_m3, 0.03);
    CHECK_WITHIN(got.none_share, day.none_share, 0.01);
    scenario.break_share = 0.0;
    scenario.break_s = 0.0;
    const qll_simulated plain = simulate(&scenario, 60, arena);
    CHECK(got.peaks[1].mean > 1.5 * plain.peaks[1].mean);
    qll_arena_close(arena);
}

TEST(continuous_flows_run_by_the_clock)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = flats();
    scenario.people = 0;
    scenario.homes = 0;
    const qll_continuous flows[] = {{"tower", 4e-4, 9.5 * 3600, 17 * 3600}, {"purge", 1e-4, 0, 0}};
    scenario.continuous = flows;
    scenario.continuous_count = 2;
    const qll_simulated got = simulate(&scenario, 2, arena);
    CHECK(got.none_share == 1.0 && got.duration.count == 2);
    CHECK_NEAR(got.duration.points[0].time_share, 16.5 / 24.0, 1e-12);
    CHECK_NEAR(got.hour_mean_m3s[9], 3e-4, 1e-12);
    CHECK_NEAR(got.hour_mean_m3s[10], 5e-4, 1e-12);
    CHECK_NEAR(got.peaks[1].mean, 5e-4, 1e-9);
    CHECK(got.volume_m3.deviation < 1e-12);
    qll_arena_close(arena);
}

/* Flows beyond the room first taken, under two sums of clock flows: no second and no litre is lost. */
TEST(counts_keep_what_they_held_as_they_grow)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = flats();
    scenario.people = 600;
    scenario.homes = 0;
    const qll_continuous tower = {"tower", 5e-3, 9.0 * 3600, 17 * 3600};
    scenario.continuous = &tower;
    scenario.continuous_count = 1;
    const qll_simulated got = simulate(&scenario, 3, arena);
    const qll_duration *day = &got.duration;
    /* Levels of 0.002 L/s; the first room is 512 of them. */
    CHECK(day->points[day->count - 1].flow_m3s > 5e-3 + 600 * 2e-6);
    CHECK_NEAR(day->mean_m3s * QLL_DAY_S, got.volume_m3.mean, 1e-9);
    double hours = 0.0;
    for (size_t h = 0; h < 24; h++) {
        hours += got.hour_mean_m3s[h] * 3600.0;
    }
    CHECK_NEAR(hours, got.volume_m3.mean, 1e-9);
    /* No use draws 5 L/s more than another, so that the tower's eight hours stand apart. */
    CHECK_NEAR(1.0 - qll_duration_time_share(day, 5e-3 - 1e-9), 8.0 / 24.0, 1e-9);
    qll_arena_close(arena);
}

TEST(what_is_out_of_range_is_refused)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = flats();
    qll_simulated result;
    const double share = 1.5;
    const double time_s = 0.5;
    CHECK(qll_simulate(&scenario, &(qll_simulation){.days = 0}, arena, &result) == QLL_REFUSED);
    const qll_simulation no_share = {.days = 1, .shares = &share, .share_count = 1};
    CHECK(qll_simulate(&scenario, &no_share, arena, &result) == QLL_REFUSED);
    const qll_simulation no_time = {.days = 1, .averaging_s = &time_s, .averaging_count = 1};
    CHECK(qll_simulate(&scenario, &no_time, arena, &result) == QLL_REFUSED);
    scenario.people = 1e6;
    scenario.homes = 4e5;
    scenario.day_volume_m3 = 10;
    CHECK(qll_simulate(&scenario, &(qll_simulation){.days = 1}, arena, &result) == QLL_REFUSED);
    scenario.people = -1;
    CHECK(qll_simulate(&scenario, &(qll_simulation){.days = 1}, arena, &result) == QLL_REFUSED);
    qll_arena_close(arena);
}

TEST(every_failed_allocation_is_reported)
{
    const qll_scenario scenario = flats();
    size_t nth = 1;
    bool is_done = false;
    while (!is_done && nth < 200) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        qll_arena_fail(arena, nth, true);
        qll_simulated result;
        const qll_status status =
            qll_simulate(&scenario, &(qll_simulation){.seed = 3, .days = 1}, arena, &result);
        CHECK(status == QLL_OK || status == QLL_NO_MEMORY);
        is_done = status == QLL_OK;
        nth += 1;
        qll_arena_close(arena);
    }
    CHECK(is_done && nth > 20);
}

int main(void)
{
    TEST_RUN(same_seed_same_bytes);
    TEST_RUN(water_is_that_of_the_end_use_table);
    TEST_RUN(seconds_follow_the_exact_distribution);
    TEST_RUN(days_vary_as_asked);
    TEST_RUN(breaks_bunch_uses);
    TEST_RUN(continuous_flows_run_by_the_clock);
    TEST_RUN(counts_keep_what_they_held_as_they_grow);
    TEST_RUN(what_is_out_of_range_is_refused);
    TEST_RUN(every_failed_allocation_is_reported);
    return TEST_END();
}
