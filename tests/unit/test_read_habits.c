/* Whose habits are taken where a survey gives none, and that it is told. */
#include "check.h"
#include "demand/demand.h"
#include "survey_scene.h"

static const double gal_m3 = 231.0 * 0.0254 * 0.0254 * 0.0254;

/* A survey of one scenario with a peak of 20 gpm, and more keys of the survey and of the scenario. */
static scene survey_with(const char *of_survey, const char *of_scenario)
{
    static char text[1024];
    const int size = snprintf(text, sizeof text,
                              "{\"survey\": 1, %s \"supply\": {\"static_high\": \"100 psi\"}, "
                              "\"scenarios\": [{\"peak\": \"20 gpm\", %s}]}",
                              of_survey, of_scenario);
    CHECK(size > 0 && (size_t)size < sizeof text);
    return read_survey(text);
}

/* Table 1 of docs/theory/habits.md, as published and as it names our choices. */
TEST(volumes_are_by_use_and_units_and_are_told)
{
    static const struct {
        const char *use, *us, *metric;
        double us_gal, metric_litres;
    } cases[] = {
        {"apartment", "45 gal", "120 L", 45, 120},  {"house", "53 gal", "125 L", 53, 125},
        {"hotel", "50 gal", "190 L", 50, 190},      {"office", "13 gal", "50 L", 13, 50},
        {"school", "8 gal", "20 L", 8, 20},         {"restaurant", "7 gal", "27 L", 7, 27},
        {"hospital", "315 gal", "550 L", 315, 550},
    };

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        for (size_t si = 0; si < 2; si++) {
            char keys[64];
            (void)snprintf(keys, sizeof keys, "\"use\": \"%s\", \"people\": 60", cases[i].use);
            scene at = survey_with(si == 1 ? "\"units\": \"si\"," : "", keys);
            CHECK(at.status == QLL_OK);
            const qll_scenario *scenario = &at.survey.scenarios[0];
            CHECK_NEAR(scenario->day_volume_m3,
                       si == 1 ? cases[i].metric_litres * 1e-3 : cases[i].us_gal * gal_m3, 1e-12);
            CHECK(scenario->habits == (si == 1 ? QLL_HABITS_METRIC : QLL_HABITS_US));
            CHECK(scenario->volume_ln_sigma > 0.1 && scenario->volume_ln_sigma < 1.0);
            const qll_assumption *volume = assumption(&at, "scenarios[0].volume_per_person");
            CHECK(volume != NULL
                  && qll_text_is(volume->value.text, si == 1 ? cases[i].metric : cases[i].us));
            CHECK(volume != NULL && volume->why.id == QLL_TEXT_WHY_BETWEEN);
            /* What the model makes of it: that volume for each, leaks and outdoors on top. */
            qll_pulse_day day;
            CHECK(qll_pulse_day_exact(scenario, at.arena, &day) == QLL_OK);
            const double least = 60 * scenario->day_volume_m3;
            CHECK(day.volume_m3 > least * 0.999 && day.volume_m3 < least * 1.25);
            qll_arena_close(at.arena);
        }
    }
}

/* Every default of a scenario that bears on its day. */
TEST(no_default_is_taken_in_silence)
{
    static const char *const keys[] = {"volume_per_person",
                                       "variation",
                                       "variation_hour",
                                       "breaks",
                                       "outlet_pressure",
                                       "habits",
                                       "homes",
                                       "outdoor",
                                       "season",
                                       "day"};
    scene at = survey_with("", "\"use\": \"house\", \"people\": 4");
    CHECK(at.status == QLL_OK);
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        char what[64];
        (void)snprintf(what, sizeof what, "scenarios[0].%s", keys[i]);
        const qll_assumption *found = assumption(&at, what);
        if (!CHECK(found != NULL && found->why.id != QLL_TEXT_NONE)) {
            printf("    %s\n", what);
        }
    }
    check_assumed(&at, "scenarios[0].volume_per_person", "53 gal");
    check_assumed(&at, "scenarios[0].variation_hour", "1.1");
    check_assumed(&at, "scenarios[0].outdoor", "hose");
    check_assumed(&at, "scenarios[0].homes", "1");
    check_assumed(&at, "scenarios[0].outlet_pressure", "60 psi");
    const qll_scenario *house = &at.survey.scenarios[0];
    CHECK(house->has_visits && house->outdoor == QLL_OUTDOOR_HOSE);
    CHECK(house->hour_cv == 1.1 && house->building_hour_cv == 0.13);
    qll_arena_close(at.arena);
}

/* 300 meals at the benchmark of 6 to 9 gal; kitchens of 190 to 800 meals peaked at 21 to 60 gpm
 * (Commercial and Institutional End Uses of Water 2000): the flow that a second of the day passes. */
TEST(a_restaurant_draws_what_restaurants_draw)
{
    scene at = survey_with("", "\"use\": \"restaurant\", \"people\": 300");
    qll_pulse_day day;
    CHECK(at.status == QLL_OK);
    CHECK(qll_pulse_day_exact(&at.survey.scenarios[0], at.arena, &day) == QLL_OK);
    const double meal_gal = day.volume_m3 / 300.0 / gal_m3;
    CHECK(meal_gal > 6.0 && meal_gal < 9.0);
    const double greatest_gpm =
        qll_duration_quantile(&day.duration, 1.0 - 1.0 / 86400.0) / gal_m3 * 60.0;
    CHECK(greatest_gpm > 21.0 && greatest_gpm < 60.0);
    qll_arena_close(at.arena);
}

/* What is given is taken, and then the volume is no guess. */
TEST(what_is_given_is_taken)
{
    scene at = survey_with("", "\"use\": \"house\", \"people\": 4, \"habits\": \"metric\", "
                               "\"volume_per_person\": \"40 gal\", \"variation_hour\": 0, "
                               "\"outdoor\": \"irrigation\", \"season\": \"winter\", \"hourly\": "
                               "[0,0,0,0,0,0,0,3,0,0,0,0,0,0,0,0,0,0,0,1,0,0,0,0]");
    CHECK(at.status == QLL_OK);
    const qll_scenario *house = &at.survey.scenarios[0];
    CHECK(house->volume_ln_sigma == 0.0 && house->habits == QLL_HABITS_METRIC);
    CHECK(house->hour_cv == 0.0 && house->building_hour_cv == 0.0);
    CHECK_NEAR(house->hourly[7], 18.0, 1e-12);
    qll_pulse_day day;
    CHECK(qll_pulse_day_exact(house, at.arena, &day) == QLL_OK);
    CHECK(day.hours[7].mean_m3s > 0.0 && day.hours[8].mean_m3s == 0.0);
    CHECK_NEAR(day.volume_m3, 4 * 40 * gal_m3 + day.leak_m3s * 86400.0, 1e-6);
    qll_arena_close(at.arena);
}

/* In summer a US house's hose draws 1.5 times 326 s of 0.213 L/s; in spring 0.35 of it, in winter none. */
TEST(a_hose_follows_the_season)
{
    static const struct {
        const char *season;
        double share;
    } cases[] = {{"summer", 1.0}, {"spring", 0.35}, {"autumn", 0.35}, {"winter", 0.0}};

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char keys[128];
        (void)snprintf(keys, sizeof keys, "\"use\": \"house\", \"people\": 3, \"season\": \"%s\"",
                       cases[i].season);
        scene at = survey_with("", keys);
        qll_pulse_day day;
        CHECK(at.status == QLL_OK);
        CHECK(qll_pulse_day_exact(&at.survey.scenarios[0], at.arena, &day) == QLL_OK);
        const double hose_m3 = cases[i].share * 1.5 * 326 * 0.213e-3;
        CHECK_NEAR(day.volume_m3, 3 * 53 * gal_m3 + day.leak_m3s * 86400.0 + hose_m3, 2e-5);
        qll_arena_close(at.arena);
    }
}

TEST(what_cannot_be_is_refused)
{
    static const char *const wrong[] = {
        "\"hourly\": [1, 2, 3]",
        "\"hourly\": [0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0]",
        "\"hourly\": [1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,-1]",
        "\"hourly\": \"even\"",
        "\"outdoor\": \"hose\"",
        "\"variation_hour\": 4",
        "\"season\": \"fall\"",
    };

    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        char keys[256];
        (void)snprintf(keys, sizeof keys, "\"use\": \"office\", \"people\": 9, %s", wrong[i]);
        scene at = survey_with("", keys);
        CHECK(at.status == QLL_REFUSED && at.problems.refusal_count == 1);
        qll_arena_close(at.arena);
    }
}

int main(void)
{
    TEST_RUN(volumes_are_by_use_and_units_and_are_told);
    TEST_RUN(no_default_is_taken_in_silence);
    TEST_RUN(a_restaurant_draws_what_restaurants_draw);
    TEST_RUN(what_is_given_is_taken);
    TEST_RUN(a_hose_follows_the_season);
    TEST_RUN(what_cannot_be_is_refused);
    return TEST_END();
}
