/* Every allocation failing, for every reader: the nth once, and the nth with all after it. The answer is
 * QLL_NO_MEMORY where the arena has refused, else the answer that was given with enough memory, never a
 * crash; leaks are seen by the preset asan. */
#include "base/document.h"
#include "base/table.h"
#include "check.h"
#include "documents/read_catalogue.h"
#include "documents/read_survey.h"
#include "documents/valve_table.h"
#include "folder.h"

#include <stdlib.h>

typedef qll_status question(qll_text source, qll_arena *arena, qll_text *answer);

static qll_status ask_document(qll_text source, qll_arena *arena, qll_text *answer)
{
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    qll_status status = qll_document_read(source, "input", arena, &document, &problems);
    if (status == QLL_OK) {
        qll_writer writer = qll_writer_new(arena);
        qll_json json = qll_json_new(&writer);
        qll_json_node(&json, document.root);
        *answer = qll_writer_text(&writer);
        status = qll_arena_refused(arena) > 0 ? QLL_NO_MEMORY : QLL_OK;
    }
    return status;
}

static qll_status ask_table(qll_text source, qll_arena *arena, qll_text *answer)
{
    (void)answer;
    qll_problems problems = qll_problems_none(arena);
    qll_table table;
    return qll_table_read(source, "input", arena, &table, &problems);
}

/* Read once, with memory: what fails is the reading of the survey. */
static qll_tables tables;

static qll_status ask_tables(qll_text source, qll_arena *arena, qll_text *answer)
{
    (void)answer;
    (void)source;
    qll_tables read;
    return qll_tables_read(arena, &read);
}

static qll_status ask_survey(qll_text source, qll_arena *arena, qll_text *answer)
{
    (void)answer;
    qll_problems problems = qll_problems_none(arena);
    qll_assumed assumed = qll_assumed_none(arena);
    qll_document document;
    qll_survey survey;
    qll_status status = qll_document_read(source, "input", arena, &document, &problems);
    if (status == QLL_OK) {
        status = qll_survey_read(&document, &tables, arena, &survey, &assumed, &problems);
    }
    return status;
}

static qll_status ask_catalogue(qll_text source, qll_arena *arena, qll_text *answer)
{
    (void)answer;
    qll_problems problems = qll_problems_none(arena);
    qll_assumed assumed = qll_assumed_none(arena);
    qll_document document;
    qll_catalogue catalogue;
    qll_status status = qll_document_read(source, "input", arena, &document, &problems);
    if (status == QLL_OK) {
        status = qll_catalogue_read(&document, arena, &catalogue, &assumed, &problems);
    }
    return status;
}

/* Reads CSV and, if it is well, writes the catalogue as JSON. */
static qll_status ask_import(qll_text source, qll_arena *arena, qll_text *answer)
{
    qll_problems problems = qll_problems_none(arena);
    qll_assumed assumed = qll_assumed_none(arena);
    qll_table table;
    qll_catalogue catalogue;
    qll_status status = qll_valve_table_read(source, "input", arena, &table, &problems);
    if (status == QLL_OK) {
        status = qll_catalogue_import(&table, arena, &catalogue, &assumed, &problems);
    }
    if (status == QLL_OK) {
        qll_writer writer = qll_writer_new(arena);
        qll_json json = qll_json_new(&writer);
        qll_catalogue_write(&json, &catalogue);
        *answer = qll_writer_text(&writer);
        status = qll_arena_refused(arena) > 0 ? QLL_NO_MEMORY : QLL_OK;
    }
    return status;
}

static qll_arena *open_arena(void)
{
    return qll_arena_open((size_t)256 * 1024 * 1024);
}

static void starve(question *ask, qll_text source, const char *what)
{
    qll_arena *plenty = open_arena();
    qll_text expected = {NULL, 0};
    qll_status with_memory = ask(source, plenty, &expected);
    size_t count = qll_arena_count(plenty);
    CHECK(with_memory == QLL_OK || with_memory == QLL_REFUSED);
    size_t failed = 0;
    for (size_t n = 1; n <= 2 * count; n++) {
        bool forever = n > count;
        qll_arena *arena = open_arena();
        qll_arena_fail(arena, forever ? n - count : n, forever);
        qll_text answer = {NULL, 0};
        qll_status status = ask(source, arena, &answer);
        failed += status == QLL_NO_MEMORY ? 1U : 0U;
        bool is_same = status == with_memory && qll_text_equal(answer, expected);
        bool is_refused = qll_arena_refused(arena) > 0;
        if (!CHECK(is_refused ? status == QLL_NO_MEMORY : is_same)) {
            printf("    %s: allocation %zu of %zu, %s\n", what, forever ? n - count : n, count,
                   forever ? "for ever" : "once");
        }
        qll_arena_close(arena);
    }
    CHECK(failed > 0 || count == 0);
    qll_arena_close(plenty);
}

static void starve_folder(question *ask, const char *path, const char *ending)
{
    folder files = folder_open(path, ending);
    CHECK(files.count > 0);
    for (size_t i = 0; i < files.count; i++) {
        qll_text source = {NULL, 0};
        char *bytes = folder_read(files.paths[i], &source.size);
        source.bytes = bytes;
        starve(ask, source, files.paths[i]);
        free(bytes);
    }
    folder_close(&files);
}

TEST(documents_are_read_without_memory)
{
    starve_folder(ask_document, QUELL_ROOT "/fuzz/seeds/document", "");
}

TEST(tables_are_read_without_memory)
{
    starve_folder(ask_table, QUELL_ROOT "/fuzz/seeds/table", "");
}

TEST(tables_of_the_program_are_read_without_memory)
{
    starve(ask_tables, (qll_text){"", 0}, "data");
}

TEST(surveys_are_read_without_memory)
{
    qll_arena *arena = open_arena();
    CHECK(qll_tables_read(arena, &tables) == QLL_OK);
    starve_folder(ask_survey, QUELL_ROOT "/examples/hillside", "survey.json");
    starve_folder(ask_survey, QUELL_ROOT "/examples/house", "survey.json");
    starve_folder(ask_survey, QUELL_ROOT "/examples/low-street", "survey.json");
    starve_folder(ask_survey, QUELL_ROOT "/examples/metered", "survey.json");
    starve_folder(ask_survey, QUELL_ROOT "/examples/morning-rush", "survey.json");
    starve_folder(ask_survey, QUELL_ROOT "/examples/repurposed-building", "survey.json");
    starve_folder(ask_survey, QUELL_ROOT "/tests/refused/survey", ".json");
    qll_arena_close(arena);
}

TEST(catalogues_are_read_without_memory)
{
    starve_folder(ask_catalogue, QUELL_ROOT "/data", "catalogue.json");
    starve_folder(ask_catalogue, QUELL_ROOT "/tests/refused/catalogue", ".json");
    starve_folder(ask_import, QUELL_ROOT "/tests/refused/import", ".csv");
}

int main(void)
{
    TEST_RUN(documents_are_read_without_memory);
    TEST_RUN(tables_are_read_without_memory);
    TEST_RUN(tables_of_the_program_are_read_without_memory);
    TEST_RUN(surveys_are_read_without_memory);
    TEST_RUN(catalogues_are_read_without_memory);
    return TEST_END();
}
