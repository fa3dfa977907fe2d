#include "check.h"
#include "demand/day_model.h"
#include "demand/demand.h"
#include "demand/flow_law.h"
#include "demand/simulate.h"

#define TEST_CEILING ((size_t)256 << 20)

static qll_scenario flats(void)
{
    return (qll_scenario){.name = "flats",
                          .use = QLL_USE_APARTMENT,
                          .people = 92,
                          .homes = 40,
                          .peak_method = QLL_PEAK_METHOD_COUNT,
                          .peak_given_m3s = NAN,
                          .quantile = 0.99,
                          .has_visits = true};
}

/* ---- the law of a visit against a published-figures check computed with other tools ---- */

typedef struct check_row {
    bool has_visits;
    double cv;   /* of the factor of a home and hour */
    double idle; /* its last digit is known */
    double quantiles_lps[6];
} check_row;

static const double shares[] = {0.5, 0.75, 0.9, 0.95, 0.99, 0.999};

/* 40 flats, 92 people, 1.9 times the day's mean, faucets of ln sigma 0.4: computed with a
 * general-purpose array library on ages of 5 s, and simulated for 400 days by it (0.1472 idle). */
static const check_row rows[] = {
    {true, 0.0, 0.1478, {0.188, 0.324, 0.468, 0.564, 0.764, 1.016}},
    {true, 1.1, 0.1559, {0.186, 0.326, 0.474, 0.574, 0.782, 1.044}},
    /* there 10.044 lavatory uses of 25 s a person, here 10 */
    {false, 0.0, 0.1292 * 1.00223, {0.190, 0.322, 0.458, 0.548, 0.734, 0.966}},
};

TEST(an_hour_of_visits_is_the_one_computed_elsewhere)
{
    for (size_t r = 0; r < sizeof rows / sizeof rows[0]; r++) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        qll_scenario scenario = flats();
        scenario.has_visits = rows[r].has_visits;
        scenario.hour_cv = rows[r].cv;
        qll_day_model model;
        CHECK(qll_day_model_make(&scenario, arena, &model) == QLL_OK);
        qll_end_use uses[16];
        CHECK(model.use_count <= 16);
        for (size_t i = 0; i < model.use_count; i++) {
            uses[i] = model.uses[i];
            uses[i].flow_m3s.ln_sigma =
                uses[i].flow_m3s.ln_sigma == 0.5 ? 0.4 : uses[i].flow_m3s.ln_sigma;
        }
        model.uses = uses;
        qll_flow_law laws[QLL_SHAPES_MOST];
        CHECK(qll_flow_laws_make(&model, arena, laws) == QLL_OK);
        const double flowing = 1.9 * laws[0].flowing;
        const double spread = model.rate_cv * model.rate_cv * flowing;
        const double idle = spread > 0.0 ? pow(1.0 + spread, -flowing / spread) : exp(-flowing);
        CHECK_WITHIN(idle, rows[r].idle, 0.0002);
        qll_distribution hour;
        CHECK(qll_compound((qll_random_count){flowing * laws[0].kept, model.rate_cv}, laws[0].flow,
                           1e-12, arena, &hour)
              == QLL_OK);
        CHECK_WITHIN(qll_distribution_mean(hour) * 1e3, 0.2194, 0.0002);
        for (size_t i = 0; i < 6; i++) {
            CHECK_WITHIN(qll_distribution_quantile(hour, shares[i]) * 1e3, rows[r].quantiles_lps[i],
                         0.0021);
        }
        if (r == 0) { /* the deviation in closed form: 0.1821 */
            CHECK_WITHIN(sqrt(1.9 * laws[0].square_m6s2) * 1e3, 0.1821, 0.0002);
        }
        qll_arena_close(arena);
    }
}

/* ---- second by second ---- */

#define TEST_DAYS   400
#define TEST_LEVELS 4

/* Seconds of a day at or below some levels of the uses. */
typedef struct tape {
    int32_t levels[TEST_LEVELS];
    size_t seconds[TEST_LEVELS];
} tape;

static void count(void *context, const qll_second_block *block)
{
    tape *to = context;
    for (size_t s = 0; s < block->count; s++) {
        for (size_t i = 0; i < TEST_LEVELS; i++) {
            to->seconds[i] += block->levels[s] <= to->levels[i];
        }
    }
}

/* Shares of time of 400 days against the exact hour, within 3 standard errors of the days' own mean;
 * every hour alike, so that what outlasts its hour does not matter. The factor of whole days stands for
 * that of hours: one whose hours differ is not the hour's own for what began in the hour before. */
static void check_simulated(double day_cv)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = flats();
    scenario.people = 92 * 1.9;
    scenario.rate_cv = day_cv;
    scenario.has_hourly = true;
    for (size_t h = 0; h < 24; h++) {
        scenario.hourly[h] = 1.0;
    }
    qll_pulse_day exact;
    CHECK(qll_pulse_day_exact(&scenario, arena, &exact) == QLL_OK);
    qll_day_model model;
    qll_flow_law laws[QLL_SHAPES_MOST];
    qll_distribution hour;
    CHECK(qll_day_model_make(&scenario, arena, &model) == QLL_OK);
    CHECK(qll_flow_laws_make(&model, arena, laws) == QLL_OK);
    CHECK(qll_compound((qll_random_count){laws[0].flowing * laws[0].kept, model.rate_cv},
                       laws[0].flow, 1e-12, arena, &hour)
          == QLL_OK);
    qll_simulator *simulator = NULL;
    CHECK(qll_simulator_make(&scenario, 5, arena, &simulator) == QLL_OK);
    const int32_t levels[TEST_LEVELS] = {0, 100, 234, 400}; /* of 0.002 L/s */
    double sums[TEST_LEVELS] = {0};
    double squares[TEST_LEVELS] = {0};
    for (size_t day = 0; day < TEST_DAYS; day++) {
        tape to = {.seconds = {0}};
        memcpy(to.levels, levels, sizeof levels);
        qll_simulator_day(simulator, count, &to);
        for (size_t i = 0; i < TEST_LEVELS; i++) {
            const double share = (double)to.seconds[i] / QLL_DAY_SECONDS;
            sums[i] += share / TEST_DAYS;
            squares[i] += share * share / TEST_DAYS;
        }
    }
    for (size_t i = 0; i < TEST_LEVELS; i++) {
        double want = 0.0;
        for (int32_t j = 0; j <= levels[i]; j++) {
            want += hour.p[j];
        }
        const double error = sqrt((squares[i] - sums[i] * sums[i]) / TEST_DAYS);
        CHECK_WITHIN(sums[i], want, 3.0 * error);
        CHECK(error < 0.01);
    }
    CHECK_WITHIN(exact.hours[7].none_share, hour.p[0], 1e-6);
    qll_arena_close(arena);
}

TEST(seconds_follow_the_law_of_visits)
{
    check_simulated(0.0);
    check_simulated(1.1);
}

/* ---- Panjer's recursion against the transform ---- */

#define TEST_POINTS 4096

/* The compound negative binomial on 4096 points by the discrete Fourier transform, written out. */
TEST(the_recursion_is_the_transform)
{
    static double cosine[TEST_POINTS];
    static double sine[TEST_POINTS];
    static double real[TEST_POINTS];
    static double imaginary[TEST_POINTS];
    const double turn = 2.0 * acos(-1.0) / TEST_POINTS;
    for (size_t k = 0; k < TEST_POINTS; k++) {
        cosine[k] = cos(turn * (double)k);
        sine[k] = sin(turn * (double)k);
    }
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = flats();
    scenario.hour_cv = 1.1;
    qll_day_model model;
    qll_flow_law laws[QLL_SHAPES_MOST];
    qll_distribution hour;
    CHECK(qll_day_model_make(&scenario, arena, &model) == QLL_OK);
    CHECK(qll_flow_laws_make(&model, arena, laws) == QLL_OK);
    const double mean = 1.9 * laws[0].flowing * laws[0].kept;
    const double square = model.rate_cv * model.rate_cv;
    CHECK(qll_compound((qll_random_count){mean, model.rate_cv}, laws[0].flow, 1e-12, arena, &hour)
          == QLL_OK);
    CHECK(hour.count < TEST_POINTS);
    for (size_t k = 0; k < TEST_POINTS; k++) {
        double a = 0.0;
        double b = 0.0;
        for (size_t j = 0; j < laws[0].flow.count; j++) {
            a += laws[0].flow.p[j] * cosine[j * k % TEST_POINTS];
            b -= laws[0].flow.p[j] * sine[j * k % TEST_POINTS];
        }
        /* (1 - cv^2 mean (f - 1))^(-1/cv^2) */
        const double x = 1.0 - square * mean * (a - 1.0);
        const double y = -square * mean * b;
        const double size = pow(hypot(x, y), -1.0 / square);
        const double angle = -atan2(y, x) / square;
        real[k] = size * cos(angle);
        imaginary[k] = size * sin(angle);
    }
    double worst = 0.0;
    for (size_t s = 0; s < hour.count; s++) {
        double p = 0.0;
        for (size_t k = 0; k < TEST_POINTS; k++) {
            p += real[k] * cosine[s * k % TEST_POINTS] - imaginary[k] * sine[s * k % TEST_POINTS];
        }
        worst = fmax(worst, fabs(p / TEST_POINTS - hour.p[s]));
    }
    CHECK(worst < 1e-7);
    qll_arena_close(arena);
}

/* ---- leaks ---- */

/* 40 homes of which each leaks 10 L/h with a chance of 0.05: 0.95^40 none, 2 leaks of 1.389 steps in the
 * mean; two and a half homes leak nowhere with 0.95^2 times 0.975. */
TEST(leaks_are_a_binomial_number_of_homes)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = flats();
    qll_day_model model;
    qll_distribution leaks;
    CHECK(qll_day_model_make(&scenario, arena, &model) == QLL_OK);
    CHECK(qll_leak_law_make(&model, arena, &leaks) == QLL_OK);
    CHECK_NEAR(leaks.p[0], pow(0.95, 40), 1e-12);
    CHECK_NEAR(qll_no_leak_share(&model.leaks), pow(0.95, 40), 1e-12);
    CHECK_NEAR(qll_distribution_mean(leaks), 2.0 * 2.778e-6, 1e-12);
    /* one leak: 1.389 steps are 1 with 0.611 */
    CHECK_NEAR(leaks.p[1], 40 * 0.05 * pow(0.95, 39) * (2.0 - 1.389), 1e-9);
    scenario.homes = 2.5;
    scenario.habits = QLL_HABITS_US;
    CHECK(qll_day_model_make(&scenario, arena, &model) == QLL_OK);
    CHECK(qll_leak_law_make(&model, arena, &leaks) == QLL_OK);
    CHECK_NEAR(leaks.p[0], 0.9 * 0.9 * 0.95, 1e-12);
    CHECK_NEAR(qll_distribution_mean(leaks), 0.25 * 6.944e-6, 1e-6);
    scenario.homes = 20000; /* their mean stands for them */
    CHECK(qll_day_model_make(&scenario, arena, &model) == QLL_OK);
    CHECK(qll_leak_law_make(&model, arena, &leaks) == QLL_OK);
    CHECK_NEAR(qll_distribution_mean(leaks), 2000 * 6.944e-6, 1e-12);
    qll_arena_close(arena);
}

/* The curve has the idle share of the closed form: nobody draws, and no home leaks. */
TEST(idle_needs_no_leak)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_scenario scenario = flats();
    scenario.hour_cv = 1.1;
    qll_pulse_day day;
    CHECK(qll_pulse_day_exact(&scenario, arena, &day) == QLL_OK);
    CHECK_NEAR(day.duration.idle_share, day.none_share * pow(0.95, 40), 1e-6);
    CHECK_NEAR(day.weep_share, day.none_share, 1e-12);
    qll_arena_close(arena);
}

/* With leaks, visits, own hours of some uses, and both factors. */
TEST(every_failed_allocation_is_reported)
{
    qll_scenario scenario = flats();
    scenario.use = QLL_USE_HOUSE;
    scenario.people = 4;
    scenario.homes = 1.5;
    scenario.outdoor = QLL_OUTDOOR_IRRIGATION;
    scenario.hour_cv = 1.1;
    scenario.rate_cv = 0.4;
    size_t nth = 1;
    bool is_done = false;
    while (!is_done && nth < 2000) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        qll_arena_fail(arena, nth, true);
        qll_simulator *simulator = NULL;
        qll_pulse_day day;
        qll_status status = qll_pulse_day_exact(&scenario, arena, &day);
        if (status == QLL_OK) {
            status = qll_simulator_make(&scenario, 3, arena, &simulator);
        }
        CHECK(status == QLL_OK || status == QLL_NO_MEMORY);
        is_done = status == QLL_OK;
        nth += 1;
        qll_arena_close(arena);
    }
    CHECK(is_done && nth > 60);
}

int main(void)
{
    TEST_RUN(an_hour_of_visits_is_the_one_computed_elsewhere);
    TEST_RUN(seconds_follow_the_law_of_visits);
    TEST_RUN(the_recursion_is_the_transform);
    TEST_RUN(leaks_are_a_binomial_number_of_homes);
    TEST_RUN(idle_needs_no_leak);
    TEST_RUN(every_failed_allocation_is_reported);
    return TEST_END();
}
