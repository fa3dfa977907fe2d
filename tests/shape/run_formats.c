/* The tables of docs/formats against the lists that the readers use.
 *
 *     run_formats [--update] PAGE...
 *
 * Between `<!-- fields of PATH -->` (or `<!-- fields of PATH, KEY -->` where groups share a path) or
 * `<!-- words for WHAT -->` and `<!-- end -->` a page holds what is printed here; --update writes
 * it. Every group of a page's document must be in it. */
#include "check.h"
#include "diagnosis/knowledge.h"
#include "documents/case_fields.h"
#include "documents/catalogue_fields.h"
#include "documents/describe.h"
#include "documents/read_survey.h"
#include "documents/record_fields.h"
#include "documents/survey_fields.h"
#include "folder.h"
#include "wording/language.h"
#include "wording/wording.h"

#include <stdlib.h>

typedef struct page {
    qll_arena *arena;
    const qll_tables *tables;
    const qll_knowledge *knowledge;
    const qll_field_group *const *groups;
    size_t group_count;
    size_t shown_count;
} page;

/* ---- one field as a row ---- */

/* The manual is in English. */
static const char *said_entry(qll_text_id id)
{
    return qll_said_entry(QLL_LANGUAGE_EN, id);
}

static void write_default(qll_writer *writer, const qll_field *field)
{
    if (field->obligatory) {
        qll_write(writer, "**needed**");
    } else if (field->fallback != NULL) {
        qll_write_format(writer, "%s: ", field->fallback);
        const qll_wording wording = {.units = QLL_UNITS_US};
        CHECK(field->why.id != QLL_TEXT_NONE);
        qll_wording_said(writer, &wording, &field->why);
    } else if (field->computed != QLL_TEXT_NONE) {
        qll_write(writer, said_entry(field->computed));
    }
}

static void write_row(qll_writer *writer, const qll_field *field)
{
    qll_write_format(writer, "| `%s` | ", field->key);
    const qll_wording wording = {.units = QLL_UNITS_US};
    qll_write(writer, qll_field_takes(writer->arena, &wording, field));
    qll_write(writer, " | ");
    if (field->least != NULL) {
        CHECK(field->most != NULL && field->because != QLL_TEXT_NONE);
        qll_write_format(writer, "%s to %s: %s", field->least, field->most,
                         said_entry(field->because));
    }
    qll_write(writer, " | ");
    write_default(writer, field);
    CHECK(field->means != QLL_TEXT_NONE);
    qll_write_format(writer, " | %s |\n", said_entry(field->means));
}

static void write_fields(page *of, qll_writer *writer, qll_text path, qll_text first_key)
{
    for (size_t i = 0; i < of->group_count; i++) {
        const qll_field_group *group = of->groups[i];
        bool is_key = first_key.size == 0 || qll_text_is(first_key, group->fields[0].key);
        if (!is_key
            || !(qll_text_is(path, group->path)
                 || (group->path[0] == '\0' && qll_text_is(path, "the whole")))) {
            continue;
        }
        qll_write(writer, "| key | value | range | default | meaning |\n|---|---|---|---|---|\n");
        for (size_t f = 0; f < group->count; f++) {
            write_row(writer, &group->fields[f]);
        }
        of->shown_count += 1;
        return;
    }
    bool is_group = false; /* the page asks for what no list has */
    CHECK(is_group);
    printf("    %.*s\n", (int)path.size, path.bytes);
}

/* ---- lists of words ---- */

static void write_causes(const page *of, qll_writer *writer)
{
    qll_write(writer, "| cause | what it is |\n|---|---|\n");
    for (size_t c = 0; c < of->knowledge->cause_count; c++) {
        const qll_cause *cause = &of->knowledge->causes[c];
        qll_write_format(writer, "| `%s` | %s |\n", cause->word, said_entry(cause->says));
    }
}

static void write_questions(const page *of, qll_writer *writer)
{
    qll_write(writer, "| question or test | answers | minutes |\n|---|---|---|\n");
    for (size_t e = 0; e < of->knowledge->evidence_count; e++) {
        const qll_evidence *evidence = &of->knowledge->evidence[e];
        qll_write_format(writer, "| `%s` | ", evidence->word);
        for (size_t o = 0; o < evidence->outcome_count; o++) {
            qll_write_format(writer, "%s`%s`", o == 0 ? "" : ", ", evidence->outcomes[o].word);
        }
        qll_write_format(writer, " | %.1f |\n", evidence->minutes);
    }
}

static void write_words(const page *of, qll_writer *writer, qll_text what)
{
    size_t count = 0;
    if (qll_text_is(what, "pipe families")) {
        const qll_pipe_family *families = qll_pipe_families(&count);
        qll_write(writer, "| family | standard | material |\n|---|---|---|\n");
        for (size_t i = 0; i < count; i++) {
            qll_write_format(writer, "| `%s` | %s | %s |\n", families[i].word, families[i].standard,
                             families[i].material);
        }
    } else if (qll_text_is(what, "fittings")) {
        const qll_fitting *fittings = qll_fittings(&count);
        for (size_t i = 0; i < count; i++) {
            qll_write_format(writer, "%s`%s`", i == 0 ? "" : ", ", fittings[i].word);
        }
        qll_write(writer, "\n");
    } else if (qll_text_is(what, "causes")) {
        write_causes(of, writer);
    } else if (qll_text_is(what, "questions")) {
        write_questions(of, writer);
    } else if (CHECK(qll_text_is(what, "fixtures"))) {
        qll_write(writer, "| fixture | also |\n|---|---|\n");
        for (size_t i = 0; i < of->tables->fixtures.count; i++) {
            const qll_fixture_kind *kind = &of->tables->fixtures.kinds[i];
            qll_write_format(writer, "| `%s` | ", kind->word);
            for (const char *at = kind->synonyms; *at != '\0'; at++) {
                qll_write(writer, *at == '|' ? ", " : "");
                qll_write_byte(writer, *at, *at == '|' ? 0 : 1);
            }
            qll_write(writer, " |\n");
        }
    }
}

/* ---- a page ---- */

static const char end_mark[] = "<!-- end -->";

/* The text behind @p prefix up to " -->" at the start of @p line, or nothing. */
static qll_text marked(const char *line, const char *prefix)
{
    if (strncmp(line, prefix, strlen(prefix)) != 0) {
        return (qll_text){"", 0};
    }
    const char *from = line + strlen(prefix);
    const char *to = strstr(from, " -->");
    return to == NULL ? (qll_text){"", 0} : (qll_text){from, (size_t)(to - from)};
}

static void write_block(page *of, qll_writer *writer, const char *line)
{
    qll_text words = marked(line, "<!-- words for ");
    qll_text fields = marked(line, "<!-- fields of ");
    if (words.size > 0) {
        write_words(of, writer, words);
        return;
    }
    const char *comma = memchr(fields.bytes, ',', fields.size);
    qll_text key = {"", 0};
    if (comma != NULL) {
        key = (qll_text){comma + 2, (size_t)(fields.bytes + fields.size - comma) - 2};
        fields.size = (size_t)(comma - fields.bytes);
    }
    write_fields(of, writer, fields, key);
}

static qll_text wanted(page *of, const char *text)
{
    qll_writer writer = qll_writer_new(of->arena);
    while (*text != '\0') {
        size_t size = strcspn(text, "\n");
        size += text[size] == '\n' ? 1 : 0;
        qll_write_text(&writer, (qll_text){text, size});
        bool is_mark =
            marked(text, "<!-- words for ").size > 0 || marked(text, "<!-- fields of ").size > 0;
        if (is_mark) {
            write_block(of, &writer, text);
            const char *end = strstr(text, end_mark);
            if (!CHECK(end != NULL)) {
                break;
            }
            text = end;
            continue;
        }
        text += size;
    }
    return qll_writer_text(&writer);
}

static void check_page(page *of, const char *path, bool must_update)
{
    size_t size = 0;
    char *text = folder_read(path, &size);
    if (strstr(path, "catalogue") != NULL) {
        of->groups = qll_catalogue_groups(&of->group_count);
    } else if (strstr(path, "record.md") != NULL) {
        of->groups = qll_record_groups(&of->group_count);
    } else {
        of->groups = strstr(path, "case.md") != NULL ? qll_case_groups(&of->group_count)
                                                     : qll_survey_groups(&of->group_count);
    }
    of->shown_count = 0;
    char *closed = qll_arena_copy(of->arena, text, size);
    qll_text want = wanted(of, closed);
    CHECK(of->shown_count == of->group_count);
    if (must_update) {
        FILE *file = fopen(path, "wb");
        CHECK(file != NULL && fwrite(want.bytes, 1, want.size, file) == want.size);
        if (file != NULL) {
            fclose(file);
        }
    } else if (!CHECK(qll_text_equal(want, (qll_text){text, size}))) {
        printf("    %s differs from the lists; run with --update\n", path);
    }
    free(text);
}

int main(int argc, char **argv)
{
    bool must_update = argc > 1 && strcmp(argv[1], "--update") == 0;
    qll_tables tables;
    page of = {.arena = qll_arena_open((size_t)64 * 1024 * 1024), .tables = &tables};
    CHECK(qll_tables_read(of.arena, &tables) == QLL_OK);
    qll_knowledge knowledge;
    CHECK(qll_knowledge_read(of.arena, &knowledge) == QLL_OK);
    of.knowledge = &knowledge;
    for (int i = must_update ? 2 : 1; i < argc; i++) {
        check_page(&of, argv[i], must_update);
    }
    qll_arena_close(of.arena);
    return TEST_END();
}
