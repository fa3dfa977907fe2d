#include "check.h"
#include "demand/day_model.h"
#include "demand/demand.h"

#define TEST_CEILING ((size_t)64 << 20)

static qll_scenario scenario_of(qll_use use, double people)
{
    return (qll_scenario){.name = "test",
                          .use = use,
                          .people = people,
                          .homes = NAN,
                          .peak_method = QLL_PEAK_METHOD_COUNT,
                          .peak_given_m3s = NAN,
                          .quantile = 0.99};
}

static qll_day_model model_of(const qll_scenario *scenario, qll_arena *arena)
{
    qll_day_model model = {0};
    CHECK(qll_day_model_make(scenario, arena, &model) == QLL_OK);
    return model;
}

/* Litres in a day, leaks left aside. */
static double litres(const qll_day_model *model)
{
    double sum = 0.0;
    for (size_t i = 0; i < model->use_count; i++) {
        sum += model->uses[i].busy * model->uses[i].flow_m3s.mean * QLL_DAY_S * 1e3;
    }
    return sum;
}

/* Sums of events times volume as written in data/enduse.csv, column volume_mean_L. */
TEST(each_use_draws_what_its_table_says)
{
    static const struct {
        qll_use use;
        double litres;
    } cases[] = {
        {QLL_USE_APARTMENT, 108.39}, /* sum of the set, docs/theory/pulse.md */
        {QLL_USE_OFFICE, 2 * 6.057 + 1.893 + 3 * 0.473 + 0.5 * 3.408 + 0.02 * 24},
        {QLL_USE_HOTEL, 5 * 4.8384 + 1.1 * 52.92 + 8 * 1.5 + 0.1 * 103.918 + 30},
        {QLL_USE_SCHOOL, 1.5 * 6.0568 + 0.5 * 1.89275 + 2 * 0.4725},
        {QLL_USE_HOSPITAL, 20 * 6.0 + 60 * 0.9 + 0.7 * 52.92 + 0.65 * 60},
        {QLL_USE_RESTAURANT, 1.2 * 6 + 0.35 * 4.5 + 1.1 * 3.75 + 0.12 * 60 + 0.35 * 4.8384},
    };

    qll_arena *arena = qll_arena_open(TEST_CEILING);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const qll_scenario scenario = scenario_of(cases[i].use, 200);
        const qll_day_model model = model_of(&scenario, arena);
        CHECK_NEAR(litres(&model) / 200.0, cases[i].litres, 3e-4);
        CHECK((model.leak_m3s > 0.0) == qll_use_is_dwelling(cases[i].use));
        double shape = 0.0;
        for (size_t h = 0; h < 24; h++) {
            shape += model.shapes[0][h] / 24.0;
        }
        CHECK_NEAR(shape, 1.0, 1e-4);
        CHECK(model.shape_source.id != QLL_TEXT_NONE);
    }
    qll_arena_close(arena);
}

/* Office sums of ASHRAE 90.1-1989: 5.37 on a weekday, 2.57 on a saturday, 1.13 on a sunday. */
TEST(days_of_the_week)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = scenario_of(QLL_USE_OFFICE, 100);
    const qll_day_model week = model_of(&scenario, arena);
    scenario.day = QLL_DAY_SATURDAY;
    const qll_day_model saturday = model_of(&scenario, arena);
    scenario.day = QLL_DAY_SUNDAY;
    const qll_day_model sunday = model_of(&scenario, arena);
    CHECK_NEAR(litres(&saturday) / litres(&week), 2.57 / 5.37, 1e-5);
    CHECK_NEAR(litres(&sunday) / litres(&week), 1.13 / 5.37, 1e-5);
    CHECK(!saturday.is_other_day && saturday.shapes[0][11] != week.shapes[0][11]);
    scenario = scenario_of(QLL_USE_SCHOOL, 100);
    scenario.day = QLL_DAY_SUNDAY;
    CHECK(model_of(&scenario, arena).is_other_day);
    scenario = scenario_of(QLL_USE_HOSPITAL, 100);
    scenario.day = QLL_DAY_SUNDAY;
    CHECK(!model_of(&scenario, arena).is_other_day);
    qll_arena_close(arena);
}

TEST(a_volume_per_person_scales_the_rates_only)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = scenario_of(QLL_USE_APARTMENT, 92);
    const qll_day_model plain = model_of(&scenario, arena);
    scenario.day_volume_m3 = 0.19;
    const qll_day_model scaled = model_of(&scenario, arena);
    CHECK_NEAR(litres(&scaled), 92 * 190.0, 1e-12);
    CHECK(scaled.leak_m3s == plain.leak_m3s);
    CHECK_NEAR(scaled.busy / plain.busy, litres(&scaled) / litres(&plain), 1e-12);
    CHECK(scaled.uses[0].flow_m3s.mean == plain.uses[0].flow_m3s.mean);
    qll_arena_close(arena);
}

/* Timed uses draw more at more pressure, volumetric ones the same in less time; regulated ones
 * hold above the knee. Four fifths of 75 psi is 60 psi, sqrt(75/60) = 1.118034. */
TEST(pressure_changes_peaks_more_than_volumes)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = scenario_of(QLL_USE_APARTMENT, 92);
    const qll_day_model plain = model_of(&scenario, arena);
    scenario.reference_pa_gauge = 413685.4;
    scenario.outlet_pa_gauge = 413685.4 * 75 / 60;
    const qll_day_model high = model_of(&scenario, arena);
    CHECK_NEAR(litres(&high), litres(&plain), 1e-12); /* timed ones are regulated */
    CHECK_NEAR(high.leak_m3s / plain.leak_m3s, 1.25, 1e-12);
    CHECK_NEAR(high.uses[0].flow_m3s.mean / plain.uses[0].flow_m3s.mean, 1.118034, 1e-6);
    CHECK_NEAR(high.uses[0].duration_s.mean * high.uses[0].flow_m3s.mean,
               plain.uses[0].duration_s.mean * plain.uses[0].flow_m3s.mean, 1e-12);
    CHECK(high.uses[1].flow_m3s.mean == plain.uses[1].flow_m3s.mean);
    scenario.outlet_pa_gauge = 68947.6; /* 10 psi: below the knee of 20 */
    const qll_day_model low = model_of(&scenario, arena);
    CHECK_NEAR(low.uses[1].flow_m3s.mean / plain.uses[1].flow_m3s.mean, sqrt(0.5), 1e-6);
    CHECK(litres(&low) < litres(&plain));
    qll_arena_close(arena);
}

static qll_pulse_day day_of(const qll_scenario *scenario, qll_arena *arena)
{
    qll_pulse_day day = {0};
    CHECK(qll_pulse_day_exact(scenario, arena, &day) == QLL_OK);
    return day;
}

/* In a break of 10 min with 60 % of the hour's uses: 0.4 + 0.6 x 6 = 4 times the hour's rate. */
TEST(breaks_keep_the_water_and_raise_the_peak)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = scenario_of(QLL_USE_SCHOOL, 420);
    const qll_pulse_day plain = day_of(&scenario, arena);
    scenario.break_share = 0.6;
    scenario.break_s = 600;
    const qll_day_model model = model_of(&scenario, arena);
    CHECK_NEAR(qll_day_model_break_factor(&model, true), 4.0, 1e-12);
    CHECK_NEAR(qll_day_model_break_factor(&model, false), 0.4, 1e-12);
    const qll_pulse_day bursts = day_of(&scenario, arena);
    CHECK_NEAR(bursts.volume_m3, plain.volume_m3, 1e-9);
    CHECK_NEAR(bursts.hours[9].mean_m3s, plain.hours[9].mean_m3s, 1e-12);
    CHECK(bursts.hours[9].quantile_m3s > 1.3 * plain.hours[9].quantile_m3s);
    CHECK(bursts.none_share > plain.none_share);
    const double rho = plain.hours[9].busy_count;
    CHECK_NEAR(bursts.hours[9].none_share, exp(-4.0 * rho) / 6.0 + exp(-0.4 * rho) * 5.0 / 6.0,
               1e-12);
    qll_arena_close(arena);
}

/* Forty homes of CV 0.4 make a common factor of CV 0.4 / sqrt(40); one office keeps 0.4. */
/* The mean of the squared flow over the day's distribution is that of the hours' closed forms, with and
 * without breaks and days that differ; the grid adds a quarter of a squared step for each use at most. */
TEST(closed_forms_of_the_hours_are_those_of_the_day)
{
    static const struct {
        double break_share, break_s, rate_cv;
    } cases[] = {{0.0, 0.0, 0.0}, {0.6, 600.0, 0.0}, {0.6, 900.0, 0.4}, {1.0, 1800.0, 0.0}};

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        qll_scenario scenario = scenario_of(QLL_USE_SCHOOL, 400);
        scenario.break_share = cases[i].break_share;
        scenario.break_s = cases[i].break_s;
        scenario.rate_cv = cases[i].rate_cv;
        qll_pulse_day day;
        CHECK(qll_pulse_day_exact(&scenario, arena, &day) == QLL_OK);
        double hours = 0.0;
        double busy = 0.0;
        for (size_t h = 0; h < 24; h++) {
            const qll_pulse_hour *hour = &day.hours[h];
            hours += (hour->mean_m3s * hour->mean_m3s + hour->deviation_m3s * hour->deviation_m3s)
                     / 24.0;
            busy += hour->busy_count / 24.0;
        }
        double square = 0.0;
        double before = 0.0;
        for (size_t p = 0; p < day.duration.count; p++) {
            const qll_duration_point *point = &day.duration.points[p];
            square += (point->time_share - before) * point->flow_m3s * point->flow_m3s;
            before = point->time_share;
        }
        const double most = 0.25 * day.step_m3s * day.step_m3s * busy;
        CHECK(square >= hours * (1.0 - 1e-9) && square <= hours * (1.0 + 1e-9) + most);
        CHECK(most < 1e-4 * hours);
        qll_arena_close(arena);
    }
}

TEST(days_that_differ_keep_the_mean_and_widen_the_tail)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = scenario_of(QLL_USE_APARTMENT, 92);
    const qll_pulse_day plain = day_of(&scenario, arena);
    scenario.rate_cv = 0.4;
    CHECK_NEAR(model_of(&scenario, arena).rate_cv, 0.4 / sqrt(40.0), 1e-12);
    const qll_pulse_day wide = day_of(&scenario, arena);
    CHECK_NEAR(wide.duration.mean_m3s, plain.duration.mean_m3s, 1e-9);
    for (size_t h = 0; h < 24; h++) {
        const double more = 0.16 / 40.0 * plain.hours[h].mean_m3s * plain.hours[h].mean_m3s;
        const double variance = plain.hours[h].deviation_m3s * plain.hours[h].deviation_m3s;
        CHECK_NEAR(wide.hours[h].deviation_m3s, sqrt(variance + more), 1e-9);
    }
    CHECK(qll_duration_quantile(&wide.duration, 0.999)
          >= qll_duration_quantile(&plain.duration, 0.999));
    scenario = scenario_of(QLL_USE_OFFICE, 100);
    scenario.rate_cv = 0.4;
    CHECK(model_of(&scenario, arena).rate_cv == 0.4);
    qll_arena_close(arena);
}

/* docs/theory/simultaneous_use.md: a grid that would cost more than about 0.1 s is doubled until it does not, and no more often.
 * The cost of an hour is the flow that hardly ever is exceeded (mean, eight deviations, two of the greatest uses) times
 * the greatest use, in steps. */
TEST(the_grid_is_as_fine_as_an_hour_may_cost)
{
    static const double people[] = {3, 40, 400, 4e3, 4e4, 4e5};
    const double finest_m3s = 2e-6;
    const double most = 4e6;
    size_t coarser = 0;
    for (size_t p = 0; p < sizeof people / sizeof *people; p++) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        const qll_scenario scenario = scenario_of(QLL_USE_APARTMENT, people[p]);
        const qll_day_model model = model_of(&scenario, arena);
        double mean_m3s = 0.0;
        double variance = 0.0;
        double greatest_m3s = 0.0;
        for (size_t i = 0; i < model.use_count; i++) {
            const qll_end_use *use = &model.uses[i];
            double rate = 0.0;
            for (size_t h = 0; h < 24; h++) {
                rate = fmax(rate, model.shapes[use->shape][h]);
            }
            rate *= qll_day_model_break_factor(&model, true) * (1.0 + 3.0 * model.rate_cv);
            mean_m3s += use->busy * rate * use->flow_m3s.mean;
            variance += use->busy * rate * qll_lognormal_square(use->flow_m3s);
            greatest_m3s = fmax(greatest_m3s, qll_lognormal_top(use->flow_m3s));
        }
        const double top_m3s = mean_m3s + 8.0 * sqrt(variance) + 2.0 * greatest_m3s;
        const double cost = top_m3s * greatest_m3s / (model.step_m3s * model.step_m3s);
        const double doublings = log2(model.step_m3s / finest_m3s);
        CHECK(cost <= most);
        CHECK(doublings == floor(doublings) && doublings >= 0.0);
        CHECK(doublings == 0.0 || 4.0 * cost > most);
        coarser += doublings > 0.0 ? 1 : 0;
        qll_arena_close(arena);
    }
    CHECK(coarser >= 3);
}

int main(void)
{
    TEST_RUN(each_use_draws_what_its_table_says);
    TEST_RUN(days_of_the_week);
    TEST_RUN(a_volume_per_person_scales_the_rates_only);
    TEST_RUN(pressure_changes_peaks_more_than_volumes);
    TEST_RUN(breaks_keep_the_water_and_raise_the_peak);
    TEST_RUN(closed_forms_of_the_hours_are_those_of_the_day);
    TEST_RUN(days_that_differ_keep_the_mean_and_widen_the_tail);
    TEST_RUN(the_grid_is_as_fine_as_an_hour_may_cost);
    return TEST_END();
}
