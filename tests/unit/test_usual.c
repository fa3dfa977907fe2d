/* Surveys of three lines: what they are taken to mean, and what is refused. */
#include "demand/demand.h"
#include "survey_scene.h"

static scene read_scenario(const char *scenario)
{
    char text[2048];
    snprintf(
        text, sizeof text,
        "{\"survey\":1,\"supply\":{\"static_high\":\"110 psi\"},\"downstream\":{\"set_pressure\":"
        "\"60 psi\"},\"scenarios\":[%s]}",
        scenario);
    return read_survey(text);
}

static double count_of(const qll_scenario *scenario, const char *word, qll_occupancy occupancy)
{
    double count = 0.0;
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        if (strcmp(load->kind->word, word) == 0 && load->occupancy == occupancy) {
            count += (double)load->count;
        }
    }
    return count;
}

/* Is @p value listed as taken for the scenario's fixtures? */
static bool lists(const scene *at, const char *value)
{
    for (const qll_assumption *i = at->assumed.first; i != NULL; i = i->next) {
        if (strcmp(said_argument(at->arena, &i->what), "scenarios[0].fixtures") == 0
            && strcmp(said_argument(at->arena, &i->value), value) == 0) {
            return true;
        }
    }
    return false;
}

TEST(a_house_with_two_baths)
{
    scene at = read_scenario("{\"use\":\"house\",\"baths\":2}");
    CHECK(at.status == QLL_OK);
    const qll_scenario *scenario = &at.survey.scenarios[0];
    CHECK(scenario->people == 3.0 && scenario->homes == 1.0);
    CHECK(count_of(scenario, "bathroom group, tank", QLL_OCCUPANCY_USUAL) == 2.0);
    CHECK(count_of(scenario, "half bath, tank", QLL_OCCUPANCY_USUAL) == 0.0);
    CHECK(count_of(scenario, "hose bibb", QLL_OCCUPANCY_USUAL) == 2.0);
    check_assumed(&at, "scenarios[0].people", "3");
    check_assumed(&at, "scenarios[0].homes", "1");
    CHECK(lists(&at, "2 x bathroom with a tank toilet") && lists(&at, "1 x kitchen sink"));
    qll_arena_close(at.arena);
    at = read_scenario("{\"use\":\"house\",\"baths\":2.5,\"people\":5}");
    CHECK(at.status == QLL_OK && at.survey.scenarios[0].people == 5.0);
    CHECK(lists(&at, "1 x half bath with a tank toilet"));
    CHECK(assumption(&at, "scenarios[0].people") == NULL);
    qll_arena_close(at.arena);
}

TEST(other_buildings_by_what_they_count)
{
    static const struct {
        const char *scenario;
        double people;
        const char *fixture;
        qll_occupancy occupancy;
        double count;
    } cases[] = {
        {"{\"use\":\"apartment\",\"homes\":40}", 92, "bathroom group, tank", QLL_OCCUPANCY_USUAL,
         40},
        {"{\"use\":\"apartment\",\"homes\":40,\"baths\":1.5}", 92, "half bath, tank",
         QLL_OCCUPANCY_USUAL, 40},
        {"{\"use\":\"hotel\",\"rooms\":80}", 120, "bathroom group, tank", QLL_OCCUPANCY_PRIVATE,
         80},
        {"{\"use\":\"hospital\",\"beds\":60}", 60, "water closet, flushometer",
         QLL_OCCUPANCY_PRIVATE, 60},
        {"{\"use\":\"school\",\"pupils\":150}", 150, "water closet, tank", QLL_OCCUPANCY_PUBLIC,
         10},
        {"{\"use\":\"restaurant\",\"seats\":50}", 150, "kitchen sink, restaurant",
         QLL_OCCUPANCY_PUBLIC, 4},
        {"{\"use\":\"office\",\"employees\":40}", 40, "lavatory faucet", QLL_OCCUPANCY_PUBLIC, 4},
        {"{\"use\":\"office\",\"people\":40}", 40, "lavatory faucet", QLL_OCCUPANCY_PUBLIC, 4},
        {"{\"use\":\"office\",\"employees\":600}", 600, "water closet, flushometer",
         QLL_OCCUPANCY_PUBLIC, 40},
    };

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        scene at = read_scenario(cases[i].scenario);
        if (CHECK(at.status == QLL_OK)) {
            const qll_scenario *scenario = &at.survey.scenarios[0];
            CHECK_NEAR(scenario->people, cases[i].people, 1e-12);
            CHECK(count_of(scenario, cases[i].fixture, cases[i].occupancy) == cases[i].count);
            CHECK(assumption(&at, "scenarios[0].fixtures") != NULL);
        }
        qll_arena_close(at.arena);
    }
}

/* Fixtures that are listed stay as they are, and people that are counted go before rooms. */
TEST(what_the_survey_says_itself_goes_before)
{
    scene at = read_scenario("{\"use\":\"hotel\",\"rooms\":80,\"people\":100,\"fixtures\":[{"
                             "\"fixture\":\"shower\",\"count\":3}]}");
    CHECK(at.status == QLL_OK);
    const qll_scenario *scenario = &at.survey.scenarios[0];
    CHECK(scenario->load_count == 1 && scenario->people == 100.0);
    CHECK_TEXT(scenario->counted.key, "rooms");
    CHECK(scenario->counted.people == 120.0);
    qll_demand demand;
    CHECK(qll_demand_of(scenario, at.arena, &demand) == QLL_OK);
    CHECK(demand.remarks != NULL && demand.remarks->id == QLL_REMARK_PEOPLE_GIVEN);
    qll_arena_close(at.arena);
}

TEST(what_does_not_belong_there_is_refused_once)
{
    static const struct {
        const char *scenario, *says;
    } cases[] = {
        {"{\"use\":\"office\",\"people\":9,\"rooms\":6}",
         "\"rooms\" belongs to \"use\": \"hotel\""},
        {"{\"use\":\"office\",\"people\":9,\"baths\":6}",
         "\"baths\" belongs to \"use\": \"house\" or \"apartment\""},
        {"{\"use\":\"house\",\"baths\":2.3}",
         "baths are whole or half: 2, or 2.5 for two baths and a half bath"},
    };

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        scene at = read_scenario(cases[i].scenario);
        CHECK(at.status == QLL_REFUSED && at.problems.refusal_count == 1);
        size_t last = at.problems.kept_count - 1;
        CHECK_TEXT(said_problem(&at.problems, last).text, cases[i].says);
        qll_arena_close(at.arena);
    }
    scene at = read_scenario("{\"use\":\"hotel\"}");
    CHECK(at.status == QLL_REFUSED);
    qll_arena_close(at.arena);
}

int main(void)
{
    TEST_RUN(a_house_with_two_baths);
    TEST_RUN(other_buildings_by_what_they_count);
    TEST_RUN(what_the_survey_says_itself_goes_before);
    TEST_RUN(what_does_not_belong_there_is_refused_once);
    return TEST_END();
}
