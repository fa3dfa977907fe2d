/* Surveys against figures converted by hand, and what is assumed when little is given. */
#include "check.h"
#include "survey_scene.h"

#include <stdlib.h>

/* 1 psi = 0.45359237 kg * 9.80665 m/s2 / (0.0254 m)^2; 1 US gal = 231 in3 (NIST SP 811). */
static const double psi = 0.45359237 * 9.80665 / (0.0254 * 0.0254);
static const double gpm = 231.0 * 0.0254 * 0.0254 * 0.0254 / 60.0;
static const double ft = 0.3048;

static scene read_file(const char *path)
{
    static char bytes[64 * 1024];
    FILE *file = fopen(path, "rb");
    if (!CHECK(file != NULL)) {
        exit(1);
    }
    size_t size = fread(bytes, 1, sizeof bytes - 1, file);
    bytes[size] = '\0';
    fclose(file);
    return read_survey(bytes);
}

/* The least a survey may hold: a static, and flats with fixtures. */
static const char least[] =
    "{\"survey\": 1, \"supply\": {\"static_high\": \"110 psi\"}, \"scenarios\": [{\"use\": "
    "\"apartment\", \"homes\": 10, \"fixtures\": [{\"fixture\": \"shower\", \"count\": 10}]}]}";

TEST(the_least_survey_is_filled_by_defaults_that_are_listed)
{
    scene at = read_survey(least);
    CHECK(at.status == QLL_OK);
    CHECK(at.problems.count == 1 && at.problems.kept[0].level == QLL_WARNING);
    CHECK_TEXT(at.problems.kept[0].place.path, "supply.flow_test");
    const qll_site *site = &at.survey.site;
    CHECK_NEAR(site->water.temperature_degc, (60.0 - 32.0) / 1.8, 1e-12);
    CHECK_NEAR(site->barometric_pa, 101325.0, 1e-9);
    CHECK(site->supply.count == 1 && site->supply.test[0].x == 0.0);
    CHECK_NEAR(site->supply.static_low_pa_gauge, 110.0 * psi, 1e-12);
    CHECK_NEAR(site->set_pa_gauge, 60.0 * psi, 1e-12);
    CHECK_NEAR(site->static_max_pa_gauge, 80.0 * psi, 1e-12);
    CHECK_NEAR(site->limits.velocity_low_m_s, 3.0 * ft, 1e-12);
    CHECK_NEAR(site->limits.velocity_max_m_s, 8.0 * ft, 1e-12);
    CHECK(isnan(site->limits.falloff_share));
    CHECK_NEAR(at.survey.scenarios[0].people, 23.0, 1e-12);
    CHECK_TEXT(at.survey.scenarios[0].name, "scenario 1");
    CHECK(at.survey.scenarios[0].peak_method == QLL_PEAK_METHOD_COUNT);
    CHECK(at.survey.service_size == NULL && isnan(at.survey.site.heater.volume_m3));
    CHECK_TEXT(at.survey.station_family->word, "copper L");
    check_assumed(&at, "water.temperature", "60 \u00B0F");
    check_assumed(&at, "downstream.set_pressure", "60 psi");
    check_assumed(&at, "downstream.static_max", "80 psi");
    check_assumed(&at, "station_pipe.pipe", "copper L");
    check_assumed(&at, "scenarios[0].people", "23");
    check_assumed(&at, "limits.velocity_band", "3 ft/s to 6 ft/s");
    check_assumed(&at, "supply.static_low", "110 psi");
    check_assumed(&at, "upstream", "nothing");
    qll_arena_close(at.arena);
}

TEST(nothing_that_was_given_is_listed_as_assumed)
{
    scene at = read_file(QUELL_ROOT "/tests/refused/every-key.json");
    CHECK(at.status == QLL_OK && at.problems.count == 0);
    for (const qll_assumption *i = at.assumed.first; i != NULL; i = i->next) {
        const char *what = said_argument(at.arena, &i->what);
        bool is_entry = strstr(what, "scenarios[1]") != NULL || strstr(what, "path[1]") != NULL;
        if (!CHECK(is_entry)) { /* the second entries are short on purpose */
            printf("    %s = %s\n", what, said_argument(at.arena, &i->value));
        }
    }
    qll_arena_close(at.arena);
}

TEST(what_stands_before_the_station_is_read_in_si)
{
    scene at = read_file(QUELL_ROOT "/tests/refused/every-key.json");
    const qll_site *site = &at.survey.site;
    CHECK(site->upstream_count == 7);
    const qll_element *pipe = &site->upstream[0];
    CHECK(pipe->kind == QLL_ELEMENT_PIPE);
    CHECK_NEAR(pipe->pipe.bore_m, 0.050419, 1e-12); /* ASTM B88 type L, 2 in */
    CHECK_NEAR(pipe->pipe.length_m, 60.0 * ft, 1e-12);
    CHECK_NEAR(pipe->pipe.rise_m, -3.0 * ft, 1e-12);
    double elbow = qll_fitting_k(qll_fitting_find(qll_text_of("elbow 90")), 0.050419);
    double gate = qll_fitting_k(qll_fitting_find(qll_text_of("gate valve")), 0.050419);
    CHECK_NEAR(pipe->pipe.minor_loss, 4.0 * elbow + 2.0 * gate, 1e-12);
    CHECK(site->upstream[1].kind == QLL_ELEMENT_METER && site->upstream[1].meter != NULL);
    const qll_element *turbine = &site->upstream[2];
    CHECK(turbine->kind == QLL_ELEMENT_METER && turbine->loss.count == 2);
    CHECK(turbine->loss.points[0].x == 0.0 && turbine->loss.points[0].y == 0.0);
    CHECK_NEAR(turbine->loss.points[1].x, 80.0 * gpm, 1e-12);
    CHECK(site->upstream[3].kind == QLL_ELEMENT_BACKFLOW);
    CHECK(site->upstream[4].kind == QLL_ELEMENT_BACKFLOW);
    CHECK(site->upstream[4].loss.count == 2); /* a double check may lose less at more flow */
    CHECK(site->upstream[5].kind == QLL_ELEMENT_STRAINER);
    CHECK_NEAR(site->upstream[5].screen.area_ratio, 3.0, 0.0);
    CHECK_NEAR(site->upstream[5].blocked, 0.2, 1e-12);
    CHECK(site->upstream[6].kind == QLL_ELEMENT_LOSS && site->upstream[6].loss.count == 3);
    CHECK_NEAR(at.survey.service_size->nominal_m, 2.0 * 0.0254, 1e-12);
    qll_arena_close(at.arena);
}

TEST(what_stands_behind_the_station_is_read_in_si)
{
    scene at = read_file(QUELL_ROOT "/tests/refused/every-key.json");
    const qll_site *site = &at.survey.site;
    CHECK_NEAR(site->supply.test[1].y, 96.0 * psi, 1e-12);
    CHECK_NEAR(site->supply.static_low_pa_gauge, 104.0 * psi, 1e-12);
    CHECK_NEAR(site->outlets[0].elevation_m, 52.0 * ft, 1e-12);
    CHECK(site->outlets[0].path_count == 2 && isnan(site->outlets[0].path[0].carries_m3s));
    CHECK_NEAR(site->outlets[0].path[1].carries_m3s, 8.0 * gpm, 1e-12);
    CHECK_NEAR(at.survey.site.heater.volume_m3, 119.0 * 60.0 * gpm, 1e-12);
    CHECK_NEAR(at.survey.site.heater.hot_degc, 60.0, 1e-12);
    CHECK_NEAR(site->limits.falloff_share, 12.0 / 58.0, 1e-12);
    for (size_t i = 1; i < site->station_size_count; i++) {
        CHECK(site->station_sizes[i]->bore_m > site->station_sizes[i - 1]->bore_m);
    }
    CHECK(at.survey.existing_count == 1 && at.survey.existing[0].branch_count == 2);
    CHECK_TEXT(at.survey.existing[0].branches[0].valve_id, "G-D50");
    CHECK(at.survey.existing[0].branches[0].place.line > 0);
    const qll_scenario *flats = &at.survey.scenarios[0];
    CHECK(flats->load_count == 2 && flats->loads[0].count == 48);
    CHECK_NEAR(flats->loads[0].flow_m3s, 2.0 * gpm, 1e-12);
    CHECK(isnan(flats->loads[1].use_probability));
    CHECK(flats->peak_method == QLL_PEAK_SIMULTANEOUS_USE);
    CHECK_NEAR(flats->continuous[0].from_s, 79200.0, 0.0);
    CHECK_NEAR(flats->continuous[0].to_s, 21600.0, 0.0);
    CHECK(at.survey.scenarios[1].peak_method == QLL_PEAK_GIVEN);
    CHECK_NEAR(at.survey.scenarios[1].peak_given_m3s, 87.0 * gpm, 1e-12);
    qll_arena_close(at.arena);
}

TEST(the_day_and_its_pressure_are_read_in_si)
{
    scene at = read_file(QUELL_ROOT "/tests/refused/every-key.json");
    CHECK(at.status == QLL_OK);
    const qll_scenario *flats = &at.survey.scenarios[0];
    CHECK(flats->day == QLL_DAY_SATURDAY && at.survey.scenarios[1].day == QLL_DAY_WEEKDAY);
    CHECK_NEAR(flats->day_volume_m3, 50.0 * gpm * 60.0, 1e-12);
    CHECK(flats->hour_cv == 0.9 && flats->habits == QLL_HABITS_METRIC && flats->has_visits);
    CHECK(flats->outdoor == QLL_OUTDOOR_IRRIGATION && flats->season == QLL_SEASON_AUTUMN);
    CHECK(flats->has_hourly);
    CHECK_NEAR(flats->hourly[7], 8.0 * 24.0 / 100.0, 1e-12); /* they add up to 100 */
    CHECK(flats->rate_cv == 0.4 && flats->break_share == 0.6 && flats->break_s == 720.0);
    CHECK_NEAR(flats->outlet_pa_gauge, 55.0 * psi, 1e-12);
    CHECK_NEAR(flats->reference_pa_gauge, 80.0 * psi, 1e-12);
    const qll_loading_graph *en = &flats->graphs[QLL_LOADING_EN];
    if (CHECK(en->count == 2 && flats->graphs[QLL_LOADING_BS].count == 2)) {
        CHECK(en->points[0].x == 0.0 && en->points[1].x == 300.0);
        CHECK_NEAR(en->points[1].y, 1.7e-3, 1e-12);
        CHECK_NEAR(flats->graphs[QLL_LOADING_BS].points[1].y, 3e-3, 1e-12);
    }
    qll_arena_close(at.arena);
}

TEST(a_log_is_described_as_the_survey_says)
{
    scene at = read_file(QUELL_ROOT "/tests/refused/every-key.json");
    CHECK(at.survey.logs[0].name == NULL && at.survey.logs[1].name == NULL);
    const qll_survey_log *log = &at.survey.logs[2];
    const qll_flow_log_options *options = &log->options;
    CHECK_TEXT(log->name, "meter.csv");
    CHECK_TEXT(log->place.path, "scenarios[2].log");
    CHECK(options->kind == QLL_LOG_KIND_PULSES && options->order == QLL_LOG_ORDER_YEAR_FIRST);
    CHECK(options->stamp == QLL_LOG_STAMP_END && options->decimal == '.');
    CHECK_NEAR(options->pulse_m3, 0.0416 * gpm * 60.0, 1e-12);
    CHECK_NEAR(options->most_flow_m3s, 160.0 * gpm, 1e-12);
    CHECK_NEAR(options->dead_band_m3s, 0.1 * gpm, 1e-12);
    CHECK(options->least_quality == 60.0 && options->heartbeat_s == 300.0);
    CHECK_TEXT(options->zone, "America/Denver");
    CHECK_TEXT(options->unit, "pulses");
    CHECK_TEXT(options->value_column, "Pulses");
    CHECK_TEXT(options->time_column, "Time");
    CHECK_TEXT(options->meter, "main");
    CHECK_TEXT(options->key, "reading");
    qll_arena_close(at.arena);
}

/* Who draws the water need not be said: the log knows how much. */
TEST(a_log_stands_in_for_people_and_fixtures)
{
    scene at = read_survey("{\"survey\": 1, \"supply\": {\"static_high\": \"110 psi\"},"
                           "\"scenarios\": [{\"log\": \"meter.csv\"}]}");
    CHECK(at.status == QLL_OK);
    CHECK(at.survey.scenarios[0].people == 0.0 && isnan(at.survey.scenarios[0].homes));
    check_assumed(&at, "scenarios[0].use", "apartment");
    const qll_flow_log_options *options = &at.survey.logs[0].options;
    CHECK(options->kind == QLL_LOG_KIND_UNKNOWN && options->decimal == '\0');
    CHECK(options->unit == NULL && options->zone == NULL && isnan(options->pulse_m3));
    qll_arena_close(at.arena);
}

TEST(absolute_pressures_become_gauge_at_the_site)
{
    /* 83.4 kPa is the atmosphere that is given; 12 bar absolute is 1116.6 kPa gauge. */
    scene at = read_survey("{\"survey\": 1, \"site\": {\"barometric\": \"83.4 kPa abs\"}, "
                           "\"supply\": {\"static_high\": \"12 bara\"}, \"scenarios\": [{\"use\": "
                           "\"house\", \"people\": 4, \"peak\": \"1 L/s\"}]}");
    CHECK(at.status == QLL_OK);
    CHECK_NEAR(at.survey.site.barometric_pa, 83400.0, 1e-12);
    CHECK_NEAR(at.survey.site.supply.static_high_pa_gauge, 1116600.0, 1e-12);
    qll_arena_close(at.arena);
}

TEST(a_test_that_begins_at_a_flow_takes_the_static)
{
    scene at = read_survey(
        "{\"survey\": 1, \"supply\": {\"static_high\": \"110 psi\", \"flow_test\": [{\"flow\": "
        "\"100 gpm\", \"pressure\": \"92 psi\"}]}, \"scenarios\": [{\"use\": \"house\", "
        "\"people\": 4, \"peak\": \"20 gpm\"}]}");
    CHECK(at.status == QLL_OK && at.problems.count == 0);
    CHECK(at.survey.site.supply.count == 2 && at.survey.site.supply.test[0].x == 0.0);
    CHECK_NEAR(at.survey.site.supply.test[0].y, 110.0 * psi, 1e-12);
    qll_arena_close(at.arena);
}

TEST(all_day_may_be_said_or_left_out)
{
    static const char format[] =
        "{\"survey\": 1, \"supply\": {\"static_high\": \"110 psi\"}, \"scenarios\": [{\"use\": "
        "\"house\", \"people\": 4, \"peak\": \"20 gpm\", \"continuous\": [{\"name\": \"drip\", "
        "\"flow\": \"1 gpm\"%s}]}]}";
    static const char *const hours[] = {"", ", \"hours\": \"00:00-24:00\"",
                                        ", \"hours\": \"24:00-00:00\"",
                                        ", \"hours\": \"07:30-07:30\""};
    for (size_t i = 0; i < sizeof hours / sizeof hours[0]; i++) {
        char text[512];
        (void)snprintf(text, sizeof text, format, hours[i]);
        scene at = read_survey(text);
        CHECK(at.status == QLL_OK);
        const qll_continuous *drip = &at.survey.scenarios[0].continuous[0];
        CHECK(drip->from_s == drip->to_s);
        qll_arena_close(at.arena);
    }
}

/* A supply that may stand lower than the outlet is possible; the answer says so. */
TEST(a_low_supply_is_a_warning)
{
    scene at = read_survey(
        "{\"survey\": 1, \"supply\": {\"static_high\": \"110 psi\", \"static_low\": \"55 psi\"}, "
        "\"scenarios\": [{\"use\": \"house\", \"people\": 4, \"peak\": \"20 gpm\"}]}");
    CHECK(at.status == QLL_OK && at.problems.refusal_count == 0);
    CHECK(at.problems.kept_count == 2);
    CHECK_TEXT(at.problems.kept[0].place.path, "downstream.set_pressure");
    qll_arena_close(at.arena);
}

/* A riser's station in the cellar: 85 psi there are 78.5 psi at the lowest outlet, 15 ft up (2.31 ft of water
 * are 1 psi). One outlet at the station's own height, and it may not. */
TEST(a_set_pressure_is_held_against_the_lowest_outlet)
{
    static const char *const outlets[] = {
        "{\"name\": \"first floor\", \"elevation\": \"15 ft\", \"needs\": \"20 psi\"}",
        "{\"name\": \"first floor\", \"elevation\": \"15 ft\", \"needs\": \"20 psi\"},"
        "{\"name\": \"laundry\", \"elevation\": \"0 ft\", \"needs\": \"20 psi\"}",
    };
    for (size_t i = 0; i < 2; i++) {
        char survey[600];
        (void)snprintf(survey, sizeof survey,
                       "{\"survey\": 1, \"supply\": {\"static_high\": \"130 psi\"}, "
                       "\"downstream\": {\"set_pressure\": \"85 psi\", \"outlets\": [%s]}, "
                       "\"scenarios\": [{\"use\": \"house\", \"people\": 4, "
                       "\"peak\": \"20 gpm\"}]}",
                       outlets[i]);
        scene at = read_survey(survey);
        CHECK(at.status == (i == 0 ? QLL_OK : QLL_REFUSED));
        CHECK(at.problems.refusal_count == i);
        qll_arena_close(at.arena);
    }
}

TEST(the_existing_station_is_made_from_the_catalogue)
{
    scene at = read_file(QUELL_ROOT "/tests/refused/every-key.json");
    qll_catalogue catalogue = generic_catalogue(&at);
    qll_station station;
    CHECK(qll_survey_existing(&at.survey, &catalogue, at.arena, &station, &at.assumed, &at.problems)
          == QLL_OK);
    CHECK(station.stage_count == 1 && station.stages[0].branch_count == 2);
    const qll_branch *first = &station.stages[0].branches[0];
    const qll_branch *second = &station.stages[0].branches[1];
    CHECK_TEXT(first->valve->id, "G-D25"); /* the higher set pressure goes first */
    CHECK_NEAR(first->set_pa_gauge, 64.0 * psi, 1e-12);
    CHECK_NEAR(first->pipe_bore_m, 0.026035, 1e-12); /* ASTM B88 type L, 1 in */
    CHECK_NEAR(second->pipe_bore_m, 0.050419, 1e-12);
    CHECK(first->law->full_falloff_pa > 0.0 && isnan(first->series_kv_m3h));
    /* Set at the middle of 104 and 132 psi; the pipe falls 3 ft, 0.434 psi of cold water each. */
    CHECK(station.stages[0].set_inlet_pa_gauge > 100.0 * psi);
    CHECK(station.stages[0].set_inlet_pa_gauge <= (118.0 + 3.0 * 0.434) * psi);
    qll_arena_close(at.arena);
}

TEST(an_unknown_valve_is_refused_where_it_is_named)
{
    scene at = read_survey(
        "{\"survey\": 1, \"supply\": {\"static_high\": \"110 psi\"}, \"scenarios\": [{\"use\": "
        "\"house\", \"people\": 4, \"peak\": \"20 gpm\"}], \"existing\": {\"stages\": "
        "[{\"branches\": [{\"valve\": \"g-d 25\", \"set_pressure\": \"60 psi\"}]}]}}");
    CHECK(at.status == QLL_OK);
    qll_catalogue catalogue = generic_catalogue(&at);
    qll_station station;
    qll_problems problems = qll_problems_none(at.arena);
    CHECK(qll_survey_existing(&at.survey, &catalogue, at.arena, &station, &at.assumed, &problems)
          == QLL_REFUSED);
    if (CHECK(problems.kept_count == 1)) {
        CHECK(problems.kept[0].code == QLL_CODE_UNKNOWN_WORD);
        CHECK_TEXT(problems.kept[0].place.path, "existing.stages[0].branches[0].valve");
        CHECK_TEXT(said_problem(&problems, 0).hint, "did you mean \"G-D25\"?");
    }
    qll_arena_close(at.arena);
}

static scene read_strainer(const char *mesh)
{
    char text[1024];
    (void)snprintf(
        text, sizeof text,
        "{\"survey\": 1, \"supply\": {\"static_high\": \"110 psi\"}, \"upstream\": [{\"strainer\": %s, "
        "\"nominal\": \"1 in\"}], \"scenarios\": [{\"use\": \"apartment\", \"homes\": 10, \"fixtures\": "
        "[{\"fixture\": \"shower\", \"count\": 10}]}]}",
        mesh);
    return read_survey(text);
}

/* What is not there takes nothing. */
TEST(a_pipe_without_fittings_has_no_minor_loss)
{
    scene at = read_survey(
        "{\"survey\": 1, \"supply\": {\"static_high\": \"110 psi\"}, \"upstream\": [{\"pipe\": \"copper L\", "
        "\"nominal\": \"1 in\", \"length\": \"20 ft\"}], \"scenarios\": [{\"use\": \"apartment\", \"homes\": 10, "
        "\"fixtures\": [{\"fixture\": \"shower\", \"count\": 10}]}]}");
    if (CHECK(at.status == QLL_OK && at.survey.site.upstream_count == 1)) {
        CHECK(at.survey.site.upstream[0].pipe.minor_loss == 0.0);
    }
    qll_arena_close(at.arena);
}

/* ASTM E11: a No. 40 sieve has openings of 0.425 mm, a No. 60 of 0.25 mm. */
TEST(a_mesh_is_a_number_with_or_without_its_word)
{
    static const struct {
        const char *mesh;
        double opening_m;
    } read[] = {{"40", 0.425e-3}, {"\"40\"", 0.425e-3}, {"\"40 mesh\"", 0.425e-3}, {"60", 0.25e-3}};

    for (size_t i = 0; i < sizeof read / sizeof read[0]; i++) {
        scene at = read_strainer(read[i].mesh);
        if (CHECK(at.status == QLL_OK && at.survey.site.upstream_count == 1)) {
            CHECK_NEAR(at.survey.site.upstream[0].screen.opening_m, read[i].opening_m, 1e-9);
        }
        qll_arena_close(at.arena);
    }
    static const char *const refused[] = {"\"fine\"", "\"40 in\"", "41", "40.5", "true"};
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        scene at = read_strainer(refused[i]);
        CHECK(at.status == QLL_REFUSED && at.problems.refusal_count == 1);
        /* The first is the warning that there is no flow test. */
        CHECK_TEXT(at.problems.kept[1].place.path, "upstream[0].strainer");
        qll_arena_close(at.arena);
    }
}

/* Twenty are kept, the first in reading order, and all are counted. */
TEST(the_first_twenty_problems_are_kept)
{
    char text[8192] = "{\"survey\": 1, \"supply\": {";
    for (int i = 0; i < 60; i++) {
        size_t size = strlen(text);
        (void)snprintf(text + size, sizeof text - size, "\"key %02d\": 0, ", i);
    }
    size_t size = strlen(text);
    (void)snprintf(text + size, sizeof text - size, "\"static_high\": \"110 psi\"}, %s",
                   "\"scenarios\": [], \"name\": 7}");
    scene at = read_survey(text);
    CHECK(at.status == QLL_REFUSED);
    CHECK(at.problems.kept_count == 20 && at.problems.refusal_count == 62);
    CHECK_TEXT(at.problems.kept[0].place.path, "supply[\"key 00\"]");
    CHECK_TEXT(at.problems.kept[19].place.path, "supply[\"key 19\"]");
    qll_arena_close(at.arena);
}

int main(void)
{
    TEST_RUN(the_least_survey_is_filled_by_defaults_that_are_listed);
    TEST_RUN(nothing_that_was_given_is_listed_as_assumed);
    TEST_RUN(what_stands_before_the_station_is_read_in_si);
    TEST_RUN(what_stands_behind_the_station_is_read_in_si);
    TEST_RUN(the_day_and_its_pressure_are_read_in_si);
    TEST_RUN(a_log_is_described_as_the_survey_says);
    TEST_RUN(a_log_stands_in_for_people_and_fixtures);
    TEST_RUN(absolute_pressures_become_gauge_at_the_site);
    TEST_RUN(a_test_that_begins_at_a_flow_takes_the_static);
    TEST_RUN(all_day_may_be_said_or_left_out);
    TEST_RUN(a_low_supply_is_a_warning);
    TEST_RUN(a_set_pressure_is_held_against_the_lowest_outlet);
    TEST_RUN(the_existing_station_is_made_from_the_catalogue);
    TEST_RUN(an_unknown_valve_is_refused_where_it_is_named);
    TEST_RUN(a_pipe_without_fittings_has_no_minor_loss);
    TEST_RUN(a_mesh_is_a_number_with_or_without_its_word);
    TEST_RUN(the_first_twenty_problems_are_kept);
    return TEST_END();
}
