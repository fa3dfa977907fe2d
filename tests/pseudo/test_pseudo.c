/* Answers in a language that brackets every text: what stands outside brackets was written by hand
 * somewhere else than in src/wording, unless it is a number, a unit, a word for machines or the
 * document's own. */
#include "quell/quell.h"

#include "attached.h"
#include "base/document.h"
#include "base/files.h"
#include "brackets.h"
#include "check.h"
#include "folder.h"
#include "html_check.h"

#include <ctype.h>
#include <stdlib.h>

/* What surveys call fixtures: the first cells of the rows, before any figure. */
static void write_fixtures(qll_writer *words)
{
    const char *at = (const char *)qll_file_fixtures;
    const char *end = at + qll_file_fixtures_size;
    while (at < end) {
        const char *line_end = memchr(at, '\n', (size_t)(end - at));
        line_end = line_end == NULL ? end : line_end;
        size_t size = 0;
        while (at + size < line_end && !isdigit((unsigned char)at[size])) {
            size += 1;
        }
        qll_write_text(words, (qll_text){at, *at == '#' ? 0 : size});
        qll_write(words, "\n");
        at = line_end + 1;
    }
}

/* The sentences of a machine document; its keys and words never change. */
static void check_sentences(const char *path, const qll_node *node, bool is_sentence,
                            const char *known, qll_arena *arena)
{
    static const char *const keys[] = {"says",     "why",     "hint",   "note",    "reason",
                                       "cautions", "sources", "source", "remarks", "level_note"};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        is_sentence = is_sentence || qll_text_is(node->key, keys[i]);
    }
    if (is_sentence && node->kind == QLL_NODE_TEXT) {
        check_outside(path, qll_text_closed(node->text, arena), known);
    }
    for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
        check_sentences(path, child, is_sentence, known, arena);
    }
}

/* Words of the files that a survey names: names of columns and meters. */
static void write_attached(qll_writer *words, const qll_question *question, const char *beside)
{
    for (size_t i = 0; i < question->attachment_count; i++) {
        char path[300];
        char head[2000];
        (void)snprintf(path, sizeof path, "%s%s", beside, question->attachments[i].name);
        FILE *file = fopen(path, "rb");
        size_t size = file == NULL ? 0 : fread(head, 1, sizeof head, file);
        for (size_t b = 0; b < size; b++) {
            qll_write_byte(words, head[b] == '\0' ? ' ' : head[b], 1);
        }
        qll_write(words, "\n");
        if (file != NULL) {
            fclose(file);
        }
    }
    /* what tests/attached.h says in the system's place */
    qll_write(words, "there is no such file\n");
}

/* Blanks what a browser reads and nobody else. */
static void drop_styles(char *html)
{
    for (char *start = strstr(html, "<style"); start != NULL; start = strstr(start, "<style")) {
        char *end = strstr(start, "</style>");
        for (; end != NULL && start < end; start++) {
            *start = ' ';
        }
        start += end == NULL ? strlen(start) : 0;
    }
}

static void check_answer(const char *path, const char *beside, qll_verb verb, qll_form form)
{
    size_t size = 0;
    char *source = folder_read(path, &size);
    qll_arena *arena = qll_arena_open((size_t)512 * 1024 * 1024);
    qll_question question = {.verb = verb,
                             .form = form,
                             .language = "pseudo",
                             .document = {.name = "survey.json", .bytes = source, .size = size}};
    /* Its own words, and those that stand for fixtures in any survey. */
    qll_writer words = qll_writer_new(arena);
    qll_write(&words, source);
    qll_write(&words, "\n");
    write_fixtures(&words);
    attach_from(&question, beside, arena);
    write_attached(&words, &question, beside);
    const char *known = qll_writer_text(&words).bytes;
    qll_answer answer;
    const qll_status status = qll_ask(&question, arena, &answer);
    CHECK(status == QLL_OK || answer.problem_count > 0);
    for (size_t i = 0; i < answer.problem_count; i++) {
        check_outside(path, answer.problems[i].text, known);
        check_outside(path, answer.problems[i].hint, known);
    }
    if (status == QLL_OK) {
        char *text = qll_arena_copy(arena, answer.bytes, answer.size);
        if (form == QLL_FORM_JSON) {
            qll_problems none = qll_problems_none(arena);
            qll_document document;
            if (CHECK(qll_document_read(qll_text_of(text), "answer", arena, &document, &none)
                      == QLL_OK)) {
                check_sentences(path, document.root, false, known, arena);
            }
            text[0] = '\0';
        }
        if (form == QLL_FORM_HTML) {
            drop_styles(text);
            html_strip(text);
        }
        check_outside(path, text, known);
    }
    qll_arena_close(arena);
    free(source);
}

TEST(examples_are_said_in_brackets_only)
{
    static const char *const names[] = {"first-answer",       "hillside", "house",
                                        "low-street",         "metered",  "morning-rush",
                                        "repurposed-building"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i += TEST_ONE_IN) {
        char beside[200];
        char path[220];
        (void)snprintf(beside, sizeof beside, QUELL_ROOT "/examples/%s/", names[i]);
        (void)snprintf(path, sizeof path, "%ssurvey.json", beside);
        check_answer(path, beside, QLL_VERB_DEMAND, QLL_FORM_TEXT);
        check_answer(path, beside, QLL_VERB_DESIGN, QLL_FORM_TEXT);
        check_answer(path, beside, QLL_VERB_DEMAND, QLL_FORM_JSON);
        check_answer(path, beside, QLL_VERB_DESIGN, QLL_FORM_JSON);
        check_answer(path, beside, QLL_VERB_CHECK, QLL_FORM_JSON);
        check_answer(path, beside, QLL_VERB_CHECK, QLL_FORM_TEXT);
        check_answer(path, beside, QLL_VERB_REPORT, QLL_FORM_HTML);
    }
}

/* Catalogues are asked about as they are read for a design; the survey is a good one. */
static void check_catalogue(const char *path)
{
    static const char survey[] =
        "{\"survey\": 1, \"supply\": {\"static_high\": \"100 psi\"}, \"scenarios\": "
        "[{\"use\": \"house\", \"people\": 4, \"baths\": 2}]}";
    size_t size = 0;
    char *source = folder_read(path, &size);
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    const qll_question question = {
        .verb = QLL_VERB_DESIGN,
        .language = "pseudo",
        .document = {.name = "survey.json", .bytes = survey, .size = sizeof survey - 1},
        .catalogue = {.name = "catalogue.json", .bytes = source, .size = size}};
    qll_answer answer;
    CHECK(qll_ask(&question, arena, &answer) != QLL_NO_MEMORY);
    for (size_t i = 0; i < answer.problem_count; i++) {
        check_outside(path, answer.problems[i].text, source);
        check_outside(path, answer.problems[i].hint, source);
    }
    qll_arena_close(arena);
    free(source);
}

TEST(refusals_of_documents_are_said_in_brackets_only)
{
    static const struct {
        const char *folder, *ending;
        qll_verb verb;
    } all[] = {
        {QUELL_ROOT "/tests/refused/document", ".json", QLL_VERB_DEMAND},
        {QUELL_ROOT "/tests/refused/survey", ".json", QLL_VERB_DEMAND},
        {QUELL_ROOT "/tests/refused/table", ".csv", QLL_VERB_IMPORT},
        {QUELL_ROOT "/tests/refused/import", ".csv", QLL_VERB_IMPORT},
        {QUELL_ROOT "/tests/refused/catalogue", ".json", QLL_VERB_DESIGN},
    };

    for (size_t f = 0; f < sizeof all / sizeof all[0]; f++) {
        folder cases = folder_open(all[f].folder, all[f].ending);
        CHECK(cases.count > 3);
        for (size_t i = 0; i < cases.count; i++) {
            if (all[f].verb == QLL_VERB_DESIGN) {
                check_catalogue(cases.paths[i]);
            } else {
                check_answer(cases.paths[i], "", all[f].verb, QLL_FORM_TEXT);
            }
        }
        folder_close(&cases);
    }
}

/* The case's verb: the first line of the .expect file beside it. */
static qll_verb verb_of(const char *path)
{
    char expect[300];
    size_t size = 0;
    const char *end = strrchr(path, '.');
    (void)snprintf(expect, sizeof expect, "%.*s.expect", (int)(end - path), path);
    char *lines = folder_read(expect, &size);
    qll_verb verb = QLL_VERB_DEMAND;
    if (CHECK(lines != NULL)) {
        verb = strncmp(lines, "check", 5) == 0 ? QLL_VERB_CHECK : verb;
        verb = strncmp(lines, "design", 6) == 0 ? QLL_VERB_DESIGN : verb;
    }
    free(lines);
    return verb;
}

TEST(refusals_of_answers_are_said_in_brackets_only)
{
    static const char beside[] = QUELL_ROOT "/tests/refused/engine/";
    static const char cli[] = QUELL_ROOT "/tests/cli/";
    folder cases = folder_open(QUELL_ROOT "/tests/refused/engine", ".json");
    CHECK(cases.count > 10);
    for (size_t i = 0; i < cases.count; i++) {
        check_answer(cases.paths[i], beside, verb_of(cases.paths[i]), QLL_FORM_TEXT);
    }
    folder_close(&cases);
    check_answer(QUELL_ROOT "/tests/cli/metered.json", cli, QLL_VERB_DEMAND, QLL_FORM_TEXT);
    check_answer(QUELL_ROOT "/tests/cli/log_missing.json", cli, QLL_VERB_DEMAND, QLL_FORM_TEXT);
}

/* What is said of the log at @p path, read as @p format says; true if it is refused. */
static bool check_log(const char *path, const char *format)
{
    const char *name = strrchr(path, '/') + 1;
    char beside[300];
    char survey[600];
    (void)snprintf(beside, sizeof beside, "%.*s", (int)(name - path), path);
    (void)snprintf(survey, sizeof survey,
                   "{\"survey\": 1, \"supply\": {\"static_high\": \"100 psi\"}, "
                   "\"scenarios\": [{\"log\": \"%s\", \"log_format\": {%s}}]}",
                   name, format);
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    qll_question question = {.verb = QLL_VERB_DEMAND,
                             .language = "pseudo",
                             .document = {"survey.json", survey, strlen(survey)}};
    qll_writer words = qll_writer_new(arena);
    qll_write(&words, survey);
    attach_from(&question, beside, arena);
    write_attached(&words, &question, beside);
    const char *known = qll_writer_text(&words).bytes;
    qll_answer answer;
    const qll_status status = qll_ask(&question, arena, &answer);
    CHECK(status == QLL_OK || status == QLL_REFUSED);
    for (size_t i = 0; i < answer.problem_count; i++) {
        check_outside(path, answer.problems[i].text, known);
        check_outside(path, answer.problems[i].hint, known);
    }
    qll_arena_close(arena);
    return status == QLL_REFUSED;
}

TEST(refusals_of_logs_are_said_in_brackets_only)
{
    static const char *const formats[] = {"",
                                          "\"meter\": \"B\"",
                                          "\"kind\": \"events\"",
                                          "\"kind\": \"pulses\"",
                                          "\"value_column\": \"flwo\"",
                                          "\"kind\": \"volume\", \"unit\": \"gpm\""};
    static const char *const folders[] = {QUELL_ROOT "/tests/data/logs/dirty",
                                          QUELL_ROOT "/tests/data/logs/portal"};
    size_t refused = 0;
    for (size_t f = 0; f < sizeof folders / sizeof folders[0]; f++) {
        folder logs = folder_open(folders[f], ".csv");
        CHECK(logs.count > 10);
        for (size_t i = 0; i < logs.count; i++) {
            /* most of the portals' logs are good as they stand, and a day's flows take their time */
            for (size_t w = f; w < sizeof formats / sizeof formats[0]; w++) {
                refused += check_log(logs.paths[i], formats[w]) ? 1U : 0U;
            }
        }
        folder_close(&logs);
    }
    CHECK(refused > 100);
}

int main(void)
{
    TEST_RUN(examples_are_said_in_brackets_only);
    TEST_RUN(refusals_of_documents_are_said_in_brackets_only);
    TEST_RUN(refusals_of_answers_are_said_in_brackets_only);
    TEST_RUN(refusals_of_logs_are_said_in_brackets_only);
    return TEST_END();
}
