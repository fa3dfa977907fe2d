/* What is told of documents is whole: every key has its words in every language and an example that is read. */
#include "check.h"
#include "documents/describe.h"
#include "documents/read_catalogue.h"
#include "wording/language.h"

#include <string.h>

/* Calls @p see with every key of every document. */
typedef void see_key(qll_arena *arena, const qll_field_group *group, const qll_field *field);

static void each_key(see_key *see)
{
    qll_arena *arena = qll_arena_open((size_t)64 * 1024 * 1024);
    for (unsigned what = 0; what < QLL_DESCRIBED_WORDS; what++) {
        size_t count = 0;
        const qll_field_group **groups = qll_described_groups((qll_described)what, arena, &count);
        CHECK(count > 4);
        for (size_t g = 0; g < count; g++) {
            for (size_t f = 0; f < groups[g]->count; f++) {
                see(arena, groups[g], &groups[g]->fields[f]);
            }
        }
    }
    qll_arena_close(arena);
}

static void see_words(qll_arena *arena, const qll_field_group *group, const qll_field *field)
{
    const char *path = qll_field_path(arena, group, field);
    for (unsigned l = 0; l < QLL_LANGUAGE_COUNT; l++) {
        const qll_wording wording = {.units = QLL_UNITS_SI, .language = (qll_language)l};
        const char *label = qll_field_label(arena, &wording, group, field);
        const bool is_foreign = (qll_language)l != QLL_LANGUAGE_EN;
        const bool is_whole = (!is_foreign || strcmp(label, path) != 0) && label[0] != '\0'
                              && strchr(label, '.') == NULL
                              && qll_said_entry((qll_language)l, field->means) != NULL
                              && qll_field_takes(arena, &wording, field)[0] != '\0';
        if (!CHECK(is_whole)) {
            printf("    %s: %s\n", path, label);
        }
    }
}

TEST(every_key_has_its_words)
{
    each_key(see_words);
}

/* A list that the table limits is one that is read as a list, and the other way round. */
static void see_list(qll_arena *arena, const qll_field_group *group, const qll_field *field)
{
    const bool is_list = field->value == QLL_VALUE_LIST || field->value == QLL_VALUE_TEXTS
                         || field->value == QLL_VALUE_IDS;
    CHECK(is_list == (field->entries_most > 0));
    CHECK((field->least == NULL) == (field->most == NULL));
    CHECK((field->least == NULL) == (field->because == QLL_TEXT_NONE));
    if (field->least != NULL) {
        const qll_pair range = qll_field_range(field, arena);
        CHECK(range.low < range.high);
    }
    CHECK(group->count > 0);
}

TEST(limits_are_whole)
{
    each_key(see_list);
}

static void see_example(qll_arena *arena, const qll_field_group *group, const qll_field *field)
{
    const char *example = qll_field_example(arena, field);
    qll_document document;
    qll_problems problems = qll_problems_none(arena);
    if (example[0] == '\0') {
        return;
    }
    if (!CHECK(qll_document_read(qll_text_of(example), "example", arena, &document, &problems)
               == QLL_OK)) {
        printf("    %s: %s\n", qll_field_path(arena, group, field), example);
        return;
    }
    if (field->value != QLL_VALUE_QUANTITY) {
        return;
    }
    qll_assumed assumed = qll_assumed_none(arena);
    qll_reader reader = qll_reader_new(&document, arena, &assumed);
    const bool is_absolute = strcmp(field->key, "barometric") == 0;
    reader.barometric_pa = is_absolute ? 0.0 : 101325.0;
    if (!CHECK(isfinite(qll_reader_quantity(&reader, document.root, field)))) {
        printf("    %s: %s\n", qll_field_path(arena, group, field), example);
    }
}

TEST(examples_are_read)
{
    each_key(see_example);
}

TEST(brackets_of_lists_may_be_left_out)
{
    CHECK(qll_is_asked_key(NULL, "supply.flow_test[].flow"));
    CHECK(qll_is_asked_key("supply.flow_test[].flow", "supply.flow_test[].flow"));
    CHECK(qll_is_asked_key("supply.flow_test.flow", "supply.flow_test[].flow"));
    CHECK(!qll_is_asked_key("supply.flow_test", "supply.flow_test[].flow"));
    CHECK(!qll_is_asked_key("supply.flow_test[].flow2", "supply.flow_test[].flow"));
    CHECK(!qll_is_asked_key("", "supply"));
}

TEST(groups_are_those_that_the_whole_leads_to)
{
    qll_arena *arena = qll_arena_open((size_t)1024 * 1024);
    size_t count = 0;
    const qll_field_group **groups = qll_described_groups(QLL_DESCRIBED_CASE, arena, &count);
    /* The whole, site, readings, tests, findings of logs, of sounds and of both; not closed cases and likelihoods. */
    CHECK(count == 7);
    CHECK_TEXT(qll_group_id(arena, QLL_DESCRIBED_CASE, groups, count, groups[0]), "case");
    CHECK_TEXT(qll_group_id(arena, QLL_DESCRIBED_CASE, groups, count, groups[1]), "case.site");
    CHECK_TEXT(qll_group_id(arena, QLL_DESCRIBED_CASE, groups, count, groups[5]),
               "case.findings.kind");
    CHECK_TEXT(qll_group_id(arena, QLL_DESCRIBED_CASE, groups, count, groups[6]),
               "case.findings.what");
    qll_arena_close(arena);
}

TEST(bodies_of_records_are_told_where_they_are_read)
{
    static const char *const ids[QLL_RECORD_KIND_COUNT] = {
        [QLL_RECORD_VISIT] = "record.body.purpose", [QLL_RECORD_READING] = "case.readings",
        [QLL_RECORD_TEST] = "case.tests",           [QLL_RECORD_PHOTO] = "record.body.sha256",
        [QLL_RECORD_SOUND] = "record.body.sha256",  [QLL_RECORD_LOG] = "record.body.survey",
        [QLL_RECORD_SITE] = "record.body.name",     [QLL_RECORD_SURVEY] = "survey",
        [QLL_RECORD_STATION] = "survey.existing",   [QLL_RECORD_PLAN] = "record.body.every_months",
    };
    qll_arena *arena = qll_arena_open((size_t)1024 * 1024);
    for (unsigned kind = 0; kind < QLL_RECORD_KIND_COUNT; kind++) {
        const char *id = qll_record_body_id(arena, (qll_record_kind)kind);
        CHECK((id == NULL) == (ids[kind] == NULL));
        if (id != NULL && ids[kind] != NULL) {
            CHECK_TEXT(id, ids[kind]);
        }
    }
    qll_arena_close(arena);
}

TEST(limits_are_shown_in_other_units_without_becoming_nothing)
{
    qll_arena *arena = qll_arena_open((size_t)1024 * 1024);
    const qll_wording si = {.units = QLL_UNITS_SI};
    const qll_wording us = {.units = QLL_UNITS_US};
    CHECK_TEXT(qll_limit_text(arena, &si, "0.1 ft/s", QLL_KIND_VELOCITY), "0.03 m/s");
    CHECK_TEXT(qll_limit_text(arena, &us, "0.1 ft/s", QLL_KIND_VELOCITY), "0.1 ft/s");
    CHECK_TEXT(qll_limit_text(arena, &si, "2 psi", QLL_KIND_PRESSURE), "0.14 bar");
    CHECK_TEXT(qll_limit_text(arena, &us, "0.5", QLL_KIND_NUMBER), "0.5");
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(every_key_has_its_words);
    TEST_RUN(limits_are_whole);
    TEST_RUN(examples_are_read);
    TEST_RUN(brackets_of_lists_may_be_left_out);
    TEST_RUN(groups_are_those_that_the_whole_leads_to);
    TEST_RUN(bodies_of_records_are_told_where_they_are_read);
    TEST_RUN(limits_are_shown_in_other_units_without_becoming_nothing);
    return TEST_END();
}
