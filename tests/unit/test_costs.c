/* Costs: the table, what a survey and a catalogue lay over it, and what is listed as assumed. */
#include "base/files.h"
#include "check.h"
#include "documents/read_catalogue.h"
#include "documents/read_costs.h"
#include "documents/read_survey.h"
#include "said.h"

#include <math.h>

static const double inch = 0.0254;

typedef struct scene {
    qll_arena *arena;
    qll_assumed assumed;
    qll_problems problems;
    qll_tables tables;
    qll_survey survey;
    qll_catalogue catalogue;
} scene;

static qll_document *read_document(scene *at, const char *text)
{
    qll_document *document = qll_arena_take(at->arena, 1, sizeof *document);
    CHECK(qll_document_read(qll_text_of(text), "s.json", at->arena, document, &at->problems)
          == QLL_OK);
    return document;
}

/* A house whose survey has @p more keys, and two valves of which B has no price, with @p costs. */
static scene make(const char *more, const char *costs)
{
    scene at = {.arena = qll_arena_open((size_t)64 * 1024 * 1024)};
    at.assumed = qll_assumed_none(at.arena);
    at.problems = qll_problems_none(at.arena);
    CHECK(qll_tables_read(at.arena, &at.tables) == QLL_OK);
    char text[2000];
    (void)snprintf(text, sizeof text,
                   "{\"survey\": 1, %s \"supply\": {\"flow_test\": [{\"flow\": \"0 gpm\", "
                   "\"pressure\": \"110 psi\"}]}, \"scenarios\": [{\"use\": \"apartment\", "
                   "\"homes\": 1, \"fixtures\": [{\"fixture\": \"shower\", \"count\": 1}]}]}",
                   more);
    CHECK(qll_survey_read(read_document(&at, text), &at.tables, at.arena, &at.survey, &at.assumed,
                          &at.problems)
          == QLL_OK);
    (void)snprintf(
        text, sizeof text,
        "{\"catalogue\": 1, %s \"valves\": ["
        "{\"id\": \"A\", \"nominal\": \"1 in\", \"acting\": \"direct\", \"kv\": \"3.3 m3/h\", "
        "\"set_range\": [\"25 psi\", \"75 psi\"], \"inlet_max\": \"300 psi\", \"band\": \"14 psi\", "
        "\"price\": 99},"
        "{\"id\": \"B\", \"nominal\": \"3/4 in\", \"acting\": \"direct\", \"kv\": \"2 m3/h\", "
        "\"set_range\": [\"25 psi\", \"75 psi\"], \"inlet_max\": \"300 psi\", \"band\": \"14 psi\"},"
        "{\"id\": \"C\", \"nominal\": \"1 in\", \"acting\": \"direct\", \"kv\": \"3 m3/h\", "
        "\"set_range\": [\"25 psi\", \"75 psi\"], \"inlet_max\": \"300 psi\", \"band\": \"14 psi\"}]}",
        costs);
    CHECK(qll_catalogue_read(read_document(&at, text), at.arena, &at.catalogue, &at.assumed,
                             &at.problems)
          == QLL_OK);
    CHECK(qll_costs_merge(&at.tables.costs, &at.catalogue, at.arena, &at.survey, &at.assumed)
          == QLL_OK);
    return at;
}

static const char *assumed_value(const scene *at, const char *what)
{
    for (const qll_assumption *i = at->assumed.first; i != NULL; i = i->next) {
        if (strcmp(said_argument(at->arena, &i->what), what) == 0) {
            return said_argument(at->arena, &i->value);
        }
    }
    return "";
}

/* Every row has a cost and its source; the sizes rise and each has all four costs. */
TEST(the_table_is_whole)
{
    scene at = make("", "");
    const qll_costs *costs = &at.tables.costs;
    CHECK(costs->size_count == 10);
    for (size_t i = 0; i < costs->size_count; i++) {
        const qll_size_cost *row = &costs->sizes[i];
        CHECK(row->branch > 0 && row->beside > 0 && row->direct > 0 && row->pilot > 0);
        CHECK(i == 0 || row->nominal_m > row[-1].nominal_m);
        CHECK(i == 0 || (row->branch >= row[-1].branch && row->direct >= row[-1].direct));
    }
    qll_table csv;
    qll_text source = {(const char *)qll_file_installed_costs, qll_file_installed_costs_size};
    CHECK(qll_table_read(source, "costs", at.arena, &csv, &at.problems) == QLL_OK);
    CHECK(csv.row_count == 2 + 4 * costs->size_count);
    for (size_t row = 0; row < csv.row_count; row++) {
        qll_text says = qll_table_cell(&csv, row, qll_table_column(&csv, "source"));
        CHECK(says.size > 14 && memcmp(says.bytes, "our assumption", 14) == 0);
    }
    qll_arena_close(at.arena);
}

/* The estimate stands in for a missing price: it is what the generic catalogue asks for the size. */
TEST(estimates_look_like_the_generic_catalogue)
{
    scene at = make("", "");
    qll_text text = {(const char *)qll_file_generic_catalogue, qll_file_generic_catalogue_size};
    qll_document document;
    qll_catalogue generic;
    CHECK(qll_document_read(text, "g", at.arena, &document, &at.problems) == QLL_OK);
    CHECK(qll_catalogue_read(&document, at.arena, &generic, &at.assumed, &at.problems) == QLL_OK);
    for (size_t i = 0; i < generic.count; i++) {
        qll_valve valve = generic.valves[i];
        double price = valve.price;
        valve.price = NAN;
        CHECK_NEAR(qll_costs_valve(&at.tables.costs, &valve) / price, 1.0, 0.12);
    }
    qll_arena_close(at.arena);
}

TEST(the_survey_goes_before_the_catalogue_before_the_defaults)
{
    scene at = make("\"costs\": {\"visit\": 500, \"sizes\": [{\"nominal\": \"DN 20\", \"direct\": "
                    "140}, {\"nominal\": \"8 in\", \"branch\": 3000}]},",
                    "\"costs\": {\"visit\": 450, \"stage\": 100, \"sizes\": [{\"nominal\": \"3/4 "
                    "in\", \"branch\": 180, \"direct\": 120}]},");
    const qll_costs *costs = at.survey.site.costs;
    const qll_costs *defaults = &at.tables.costs;
    CHECK_NEAR(costs->visit, 500, 0);
    CHECK_NEAR(costs->stage, 100, 0);
    CHECK(costs->size_count == defaults->size_count + 1);
    CHECK_NEAR(costs->sizes[1].nominal_m, 0.75 * inch, 1e-12);
    CHECK_NEAR(costs->sizes[1].branch, 180, 0);
    CHECK_NEAR(costs->sizes[1].direct, 140, 0);
    CHECK_NEAR(costs->sizes[1].pilot, defaults->sizes[1].pilot, 0);
    CHECK_NEAR(costs->sizes[2].branch, defaults->sizes[2].branch, 0);
    /* A size that the defaults have not takes what they say beyond their end. */
    CHECK_NEAR(costs->sizes[10].nominal_m, 8 * inch, 1e-12);
    CHECK_NEAR(costs->sizes[10].branch, 3000, 0);
    CHECK_NEAR(costs->sizes[10].direct, defaults->sizes[9].direct, 0);
    CHECK_TEXT(assumed_value(&at, "costs.visit"), "");
    CHECK_TEXT(assumed_value(&at, "costs.stage"), "");
    CHECK_TEXT(assumed_value(&at, "costs.sizes[].branch"), "150 to 2000, by size");
    CHECK_TEXT(assumed_value(&at, "B, C: price"), "140 to 230, by size");
    qll_arena_close(at.arena);
}

TEST(defaults_and_estimates_are_listed)
{
    scene at = make("", "");
    CHECK(at.survey.costs == NULL && at.catalogue.costs == NULL);
    CHECK_NEAR(at.survey.site.costs->visit, 400, 0);
    CHECK_NEAR(at.survey.site.costs->stage, 120, 0);
    CHECK_TEXT(assumed_value(&at, "costs.visit"), "400");
    CHECK_TEXT(assumed_value(&at, "costs.stage"), "120");
    CHECK_TEXT(assumed_value(&at, "costs.sizes[].branch"), "150 to 2000, by size");
    CHECK_TEXT(assumed_value(&at, "B, C: price"), "160 to 230, by size");
    qll_arena_close(at.arena);
}

/* What a catalogue gives is written and read back; and nothing is made up. */
TEST(costs_of_a_catalogue_are_written_back)
{
    scene at = make("", "\"costs\": {\"stage\": 100, \"sizes\": [{\"nominal\": \"3/4 in\", "
                        "\"pilot\": 900.5}]},");
    qll_writer writer = qll_writer_new(at.arena);
    qll_json json = qll_json_new(&writer);
    qll_catalogue_write(&json, &at.catalogue);
    qll_catalogue again;
    CHECK(qll_catalogue_read(read_document(&at, qll_writer_text(&writer).bytes), at.arena, &again,
                             &at.assumed, &at.problems)
          == QLL_OK);
    CHECK(again.costs != NULL && again.costs->size_count == 1);
    CHECK(isnan(again.costs->visit) && isnan(again.costs->sizes[0].branch));
    CHECK_NEAR(again.costs->stage, 100, 0);
    CHECK_NEAR(again.costs->sizes[0].nominal_m, at.catalogue.costs->sizes[0].nominal_m, 0);
    CHECK_NEAR(again.costs->sizes[0].pilot, 900.5, 0);
    qll_arena_close(at.arena);
}

/* ---- what else the advice asks for ---- */

TEST(what_is_not_said_of_the_site)
{
    scene at = make("", "");
    const qll_site *site = &at.survey.site;
    CHECK(!site->has_static_high && !site->station_always);
    CHECK(site->people == QLL_PEOPLE_NEXT_ROOM);
    CHECK(isnan(site->service_m) && isnan(site->pipe_limit_m));
    CHECK(at.survey.station_size == NULL);
    CHECK_TEXT(assumed_value(&at, "site.people"), "next room");
    qll_arena_close(at.arena);
}

static const char service[] =
    "\"upstream\": [{\"pipe\": \"copper K\", \"nominal\": \"2 in\", \"length\": \"9 ft\"}, "
    "{\"pipe\": \"copper K\", \"nominal\": \"1-1/4 in\", \"length\": \"9 ft\"}, "
    "{\"meter\": \"displacement\", \"nominal\": \"5/8 in\"}],";

TEST(the_smaller_of_service_and_station_pipe_is_the_limit)
{
    scene at = make(service, "");
    CHECK_NEAR(at.survey.site.service_m, 1.25 * inch, 1e-9);
    CHECK_NEAR(at.survey.site.pipe_limit_m, 1.25 * inch, 1e-9);
    qll_arena_close(at.arena);

    static const struct {
        const char *nominal;
        double limit_in;
    } cases[] = {{"1 in", 1}, {"2 in", 1.25}};

    for (size_t i = 0; i < 2; i++) {
        char text[1000];
        (void)snprintf(text, sizeof text, "%s \"station_pipe\": {\"nominal\": \"%s\"},", service,
                       cases[i].nominal);
        at = make(text, "");
        CHECK_NEAR(at.survey.site.pipe_limit_m, cases[i].limit_in * inch, 1e-9);
        CHECK(at.survey.station_size != NULL);
        qll_arena_close(at.arena);
    }
    at = make("\"station_pipe\": {\"nominal\": \"1 in\"},", "");
    CHECK(isnan(at.survey.site.service_m));
    CHECK_NEAR(at.survey.site.pipe_limit_m, inch, 1e-9);
    qll_arena_close(at.arena);
}

TEST(people_and_the_wish_for_a_station_are_read)
{
    scene at = make("\"site\": {\"people\": \"plant room\"}, \"downstream\": {\"station\": "
                    "\"always\"},",
                    "");
    CHECK(at.survey.site.people == QLL_PEOPLE_PLANT_ROOM);
    CHECK(at.survey.site.station_always);
    CHECK_TEXT(assumed_value(&at, "site.people"), "");
    qll_arena_close(at.arena);
    at = make("\"site\": {\"people\": \"same room\"}, \"downstream\": {\"station\": \"where "
              "needed\"},",
              "");
    CHECK(at.survey.site.people == QLL_PEOPLE_SAME_ROOM);
    CHECK(!at.survey.site.station_always);
    qll_arena_close(at.arena);
}

int main(void)
{
    TEST_RUN(the_table_is_whole);
    TEST_RUN(estimates_look_like_the_generic_catalogue);
    TEST_RUN(the_survey_goes_before_the_catalogue_before_the_defaults);
    TEST_RUN(defaults_and_estimates_are_listed);
    TEST_RUN(costs_of_a_catalogue_are_written_back);
    TEST_RUN(what_is_not_said_of_the_site);
    TEST_RUN(the_smaller_of_service_and_station_pipe_is_the_limit);
    TEST_RUN(people_and_the_wish_for_a_station_are_read);
    return TEST_END();
}
