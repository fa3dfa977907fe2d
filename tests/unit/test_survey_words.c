/* What stands in a survey by the words of the trade: valves by size and kind, pipes, meters. */
#include "check.h"
#include "survey_scene.h"

/* A scene whose one branch is @p valve, set to @p set; the station, or the problem. */
static qll_status existing_of(scene *at, const char *valve, const char *set, qll_station *station,
                              qll_problems *problems)
{
    char text[600];
    (void)snprintf(text, sizeof text,
                   "{\"survey\": 1, \"supply\": {\"static_high\": \"150 psi\"}, \"scenarios\": "
                   "[{\"use\": \"house\", \"people\": 4, \"peak\": \"20 gpm\"}], \"existing\": "
                   "{\"stages\": [{\"branches\": [{\"valve\": \"%s\", \"set_pressure\": "
                   "\"%s\"}]}]}}",
                   valve, set);
    *at = read_survey(text);
    CHECK(at->status == QLL_OK);
    static qll_catalogue catalogue;
    catalogue = generic_catalogue(at);
    *problems = qll_problems_none(at->arena);
    return qll_survey_existing(&at->survey, &catalogue, at->arena, station, &at->assumed, problems);
}

static scene with_upstream(const char *entries)
{
    char text[900];
    (void)snprintf(text, sizeof text,
                   "{\"survey\": 1, \"supply\": {\"static_high\": \"110 psi\"}, \"upstream\": "
                   "[%s], \"scenarios\": [{\"use\": \"house\", \"people\": 4, \"fixtures\": "
                   "[{\"fixture\": \"half bath\", \"count\": 1}]}]}",
                   entries);
    scene at = read_survey(text);
    CHECK(at.status == QLL_OK);
    return at;
}

/* What the trade calls things is read as what the tables call them. */
TEST(words_of_the_trade_are_read)
{
    scene said = with_upstream(
        "{\"pipe\": \"galvanized\", \"nominal\": \"1 in\", \"length\": \"9 ft\", \"fittings\": "
        "{\"elbow\": 2, \"45 ell\": 1}}, {\"meter\": \"displacement\", \"nominal\": "
        "\"5/8 x 3/4 in\"}, {\"meter\": \"displacement\", \"nominal\": \"5/8\\\"x3/4\\\"\"}, "
        "{\"backflow\": \"RPZ\", \"nominal\": \"1 in\"}, {\"backflow\": \"RP\", \"nominal\": "
        "\"1 in\"}");
    scene meant = with_upstream(
        "{\"pipe\": \"steel 40\", \"nominal\": \"1 in\", \"length\": \"9 ft\", \"fittings\": "
        "{\"elbow 90\": 2, \"elbow 45\": 1}}, {\"meter\": \"displacement\", \"nominal\": "
        "\"5/8 in\"}, {\"meter\": \"displacement\", \"nominal\": \"5/8 in\"}, {\"backflow\": "
        "\"reduced pressure\", \"nominal\": \"1 in\"}, {\"backflow\": \"reduced pressure\", "
        "\"nominal\": \"1 in\"}");
    const qll_element *a = said.survey.site.upstream;
    const qll_element *b = meant.survey.site.upstream;
    CHECK_NEAR(a[0].pipe.bore_m, b[0].pipe.bore_m, 0);
    CHECK_NEAR(a[0].pipe.minor_loss, b[0].pipe.minor_loss, 0);
    CHECK_NEAR(a[1].meter->nominal_m, b[1].meter->nominal_m, 0);
    CHECK_NEAR(a[2].meter->nominal_m, b[2].meter->nominal_m, 0);
    for (size_t i = 3; i < 5; i++) {
        CHECK_NEAR(a[i].backflow.opening_pa, b[i].backflow.opening_pa, 0);
        CHECK_NEAR(a[i].backflow.rated_flow_m3s, b[i].backflow.rated_flow_m3s, 0);
    }
    check_assumed(&said, "upstream[0].pipe", "steel 40");
    CHECK(assumption(&meant, "upstream[0].pipe") == NULL);
    qll_arena_close(said.arena);
    qll_arena_close(meant.arena);
}

TEST(size_and_kind_are_enough_for_a_valve)
{
    static const struct {
        const char *valve, *set, *id, *why;
    } cases[] = {
        {"3 in direct", "60 psi", "G-D80",
         "the only one in the catalog of that size and kind for its set-point"},
        {"3 in direct", "90 psi", "G-H80",
         "the only one in the catalog of that size and kind for its set-point"},
        {"1-1/2 in pilot", "60 psi", "G-P40",
         "the only one in the catalog of that size and kind for its set-point"},
        {"DN 80 pilot-operated", "60 psi", "G-P80",
         "the only one in the catalog of that size and kind for its set-point"},
        /* 3 in: G-D80 with Kv 34 and G-P80 with more; the lower of the two in the middle. */
        {" 3 in ", "60 psi", "G-D80",
         "the middle one by Kv of 2 in the catalog of that size and kind"},
        /* 75 psi ends one range and begins the other: G-D80, G-H80, G-P80. */
        {"3 in", "75 psi", "G-H80",
         "the middle one by Kv of 3 in the catalog of that size and kind"},
    };

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        scene at;
        qll_station station;
        qll_problems problems;
        if (CHECK(existing_of(&at, cases[i].valve, cases[i].set, &station, &problems) == QLL_OK)) {
            CHECK_TEXT(station.stages[0].branches[0].valve->id, cases[i].id);
            const qll_assumption *found = assumption(&at, "existing.stages[0].branches[0].valve");
            CHECK_TEXT(found == NULL ? "" : said_argument(at.arena, &found->value), cases[i].id);
            CHECK_TEXT(found == NULL ? "" : said_text(at.arena, &found->why), cases[i].why);
        }
        qll_arena_close(at.arena);
    }
}

TEST(an_id_goes_before_size_and_kind)
{
    scene at;
    qll_station station;
    qll_problems problems;
    CHECK(existing_of(&at, "G-D50", "60 psi", &station, &problems) == QLL_OK);
    CHECK(assumption(&at, "existing.stages[0].branches[0].valve") == NULL);
    qll_arena_close(at.arena);
}

TEST(a_size_that_no_valve_has_names_those_there_are)
{
    scene at;
    qll_station station;
    qll_problems problems;
    CHECK(existing_of(&at, "6 in direct", "60 psi", &station, &problems) == QLL_REFUSED);
    CHECK(
        strstr(said_problem(&problems, 0).text, "there are G-D15 (1/2 in direct, 20 psi to 80 psi)")
        != NULL);
    CHECK(strstr(said_problem(&problems, 0).text, "and 10 more") != NULL);
    qll_arena_close(at.arena);
    /* Size and kind are there, the range is not. */
    CHECK(existing_of(&at, "4 in pilot", "20 psi", &station, &problems) == QLL_REFUSED);
    CHECK_TEXT(said_problem(&problems, 0).text,
               "the catalog \"generic catalog (invented valves)\" has no valve \"4 in pilot\" "
               "that can be set to 20 psi; there are G-P100 (4 in pilot, 30 psi to 150 psi)");
    qll_arena_close(at.arena);
}

int main(void)
{
    TEST_RUN(words_of_the_trade_are_read);
    TEST_RUN(size_and_kind_are_enough_for_a_valve);
    TEST_RUN(an_id_goes_before_size_and_kind);
    TEST_RUN(a_size_that_no_valve_has_names_those_there_are);
    return TEST_END();
}
