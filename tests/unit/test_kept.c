/* A keeper answers with the bytes of a fresh answer, whatever was asked before, and never holds more than it may. */
#include "quell/kept.h"

#include "ask_files.h"
#include "attached.h"
#include "base/random.h"
#include "check.h"

#include <stdlib.h>
#include <string.h>

/* ---- one figure of a survey changed ---- */

/* A number inside quotes before a unit, or a bare one behind a key: where it stands in @p text; false behind the last. */
static bool next_number(const char *text, size_t *at, size_t *size)
{
    for (const char *c = text + *at; *c != '\0'; c++) {
        const bool is_inside = c > text && c[-1] == '"' && *c >= '1' && *c <= '9';
        const bool is_bare = c > text + 1 && c[-1] == ' ' && c[-2] == ':' && *c >= '1' && *c <= '9';
        const size_t digits = strspn(c, "0123456789.");
        if ((is_inside && c[digits] == ' ' && strchr(" /-:", c[digits + 1]) == NULL) || is_bare) {
            *at = (size_t)(c - text);
            *size = digits;
            return true;
        }
    }
    return false;
}

static size_t count_numbers(const char *text)
{
    size_t count = 0;
    size_t at = 0;
    for (size_t size = 0; next_number(text, &at, &size); at += size) {
        count += 1;
    }
    return count;
}

/* @p text with its number @p which multiplied by 0.8 to 1.2; whole numbers stay whole. */
static const char *edited(qll_arena *arena, const char *text, qll_random *random)
{
    size_t which = (size_t)(qll_random_unit(random) * (double)count_numbers(text));
    size_t at = 0;
    size_t size = 0;
    bool found = next_number(text, &at, &size);
    while (which > 0 && found) {
        at += size;
        found = next_number(text, &at, &size);
        which -= 1;
    }
    qll_writer writer = qll_writer_new(arena);
    qll_write_text(&writer, (qll_text){text, at});
    const double factor = 0.8 + 0.4 * qll_random_unit(random);
    double value = 0.0;
    (void)qll_text_number((qll_text){text + at, size}, &value);
    const bool is_whole = memchr(text + at, '.', size) == NULL;
    qll_write_format(&writer, is_whole ? "%.0f" : "%.3f", value * factor);
    qll_write(&writer, text + at + size);
    return qll_writer_text(&writer).bytes;
}

/* ---- fresh and kept ---- */

static bool is_same(const qll_answer *a, const qll_answer *b)
{
    const bool is_bytes =
        a->size == b->size && (a->size == 0 || memcmp(a->bytes, b->bytes, a->size) == 0);
    bool is_problems = a->problem_count == b->problem_count;
    for (size_t i = 0; is_problems && i < a->problem_count; i++) {
        is_problems = strcmp(a->problems[i].text, b->problems[i].text) == 0
                      && a->problems[i].place.line == b->problems[i].place.line
                      && a->problems[i].place.column == b->problems[i].place.column;
    }
    return is_bytes && is_problems;
}

static void compare(qll_kept *kept, qll_question *question, const char *folder, const char *what)
{
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    attach_from(question, folder, arena);
    qll_answer fresh;
    qll_answer again;
    const qll_status status = qll_ask(question, arena, &fresh);
    if (!CHECK(qll_ask_kept(kept, question, arena, &again) == status && is_same(&fresh, &again))) {
        printf("    %s\n", what);
    }
    qll_arena_close(arena);
}

static const struct {
    const char *name;
    int designs; /* so many of the edits are designed too, which takes its time */
} examples[] = {
    {"first-answer", 1}, {"house", 1},   {"low-street", 1},          {"hillside", 0},
    {"morning-rush", 0}, {"metered", 1}, {"repurposed-building", 0},
};

/* The same station asked for in one way after another, as a page does: most of them hang on one search. */
static void design_in_turns(qll_kept *kept, qll_question question, const char *folder,
                            const char *text)
{
    static const struct {
        qll_verb verb;
        qll_form form;
        const char *parts, *language, *units;
    } turns[] = {
        {QLL_VERB_DESIGN, QLL_FORM_JSON, "verdicts", NULL, NULL},
        {QLL_VERB_REPORT, QLL_FORM_JSON, "verdicts,alternatives", NULL, NULL},
        {QLL_VERB_REPORT, QLL_FORM_HTML, "verdicts,alternatives,ladder", NULL, NULL},
        {QLL_VERB_REPORT, QLL_FORM_JSON, "all", NULL, NULL},
        {QLL_VERB_DESIGN, QLL_FORM_JSON, "verdicts,alternatives", NULL, NULL},
        {QLL_VERB_DESIGN, QLL_FORM_TEXT, "alternatives,hangs_on", NULL, NULL},
        {QLL_VERB_DESIGN, QLL_FORM_TEXT, "verdicts,alternatives", "es", NULL},
        {QLL_VERB_DESIGN, QLL_FORM_JSON, "verdicts,alternatives", NULL, "si"},
    };

    for (size_t i = 0; i < sizeof turns / sizeof turns[0]; i++) {
        question.verb = turns[i].verb;
        question.form = turns[i].form;
        question.parts = turns[i].parts;
        question.language = turns[i].language;
        question.units = turns[i].units;
        compare(kept, &question, folder, text);
    }
}

static void edit_example(qll_kept *kept, size_t which, qll_random *random)
{
    qll_arena *arena = qll_arena_open((size_t)64 * 1024 * 1024);
    qll_writer folder = qll_writer_new(arena);
    qll_write_format(&folder, "%s/examples/%s/", QUELL_ROOT, examples[which].name);
    qll_writer path = qll_writer_new(arena);
    qll_write_format(&path, "../../examples/%s/survey.json", examples[which].name);
    const qll_input input = test_input(qll_writer_text(&path).bytes, arena);
    const char *text = qll_arena_copy(arena, input.bytes, input.size);
    for (int edit = 0; edit < 8; edit++) {
        qll_question question = {
            .verb = edit % 2 == 0 ? QLL_VERB_DEMAND : QLL_VERB_CHECK,
            .form = edit % 3 == 0 ? QLL_FORM_TEXT : QLL_FORM_JSON,
            .language = edit % 4 == 1 ? "es" : NULL,
            .units = edit % 5 == 4 ? "si" : NULL,
            .document = {"survey.json", text, strlen(text)},
        };
        compare(kept, &question, qll_writer_text(&folder).bytes, text);
        if (edit < examples[which].designs) {
            design_in_turns(kept, question, qll_writer_text(&folder).bytes, text);
        }
        text = edited(arena, text, random);
    }
    qll_arena_close(arena);
}

TEST(edits_of_every_example_are_answered_as_fresh_ones)
{
    qll_kept *kept = qll_kept_open((size_t)256 * 1024 * 1024);
    qll_random random = qll_random_seeded(1);
    for (size_t i = 0; i < sizeof examples / sizeof examples[0]; i += TEST_ONE_IN) {
        edit_example(kept, i, &random);
    }
    qll_kept_close(kept);
}

/* ---- one search ---- */

static bool stop_after(double share, void *context)
{
    (void)share;
    *(int *)context -= 1;
    return *(int *)context > 0;
}

static bool count_call(double share, void *context)
{
    (void)share;
    *(size_t *)context += 1;
    return true;
}

/* How often progress is told of a design's question: seldom where nothing is searched. */
static size_t calls(qll_kept *kept, const char *text, const char *parts)
{
    qll_arena *arena = qll_arena_open((size_t)64 * 1024 * 1024);
    size_t count = 0;
    const qll_question question = {.verb = QLL_VERB_DESIGN,
                                   .form = QLL_FORM_JSON,
                                   .parts = parts,
                                   .document = {"s", text, strlen(text)},
                                   .progress = count_call,
                                   .progress_context = &count};
    qll_answer answer;
    CHECK(qll_ask_kept(kept, &question, arena, &answer) == QLL_OK);
    qll_arena_close(arena);
    return count;
}

TEST(what_hangs_on_the_same_is_searched_once)
{
    static const char of[] =
        "{\"survey\": 1, \"project\": {\"customer\": \"%s\"}, \"supply\": {\"static_high\": \"%d psi\"},"
        " \"scenarios\": [{\"use\": \"house\", \"people\": 4, \"baths\": 2}]}";
    qll_kept *kept = qll_kept_open((size_t)64 * 1024 * 1024);
    char text[300];
    (void)snprintf(text, sizeof text, of, "A", 110);
    const size_t searched = calls(kept, text, "alternatives");
    CHECK(2 * calls(kept, text, "alternatives,ladder") < searched);
    (void)snprintf(text, sizeof text, of, "another customer", 110);
    CHECK(2 * calls(kept, text, "alternatives,points") < searched);
    (void)snprintf(text, sizeof text, of, "A", 112);
    CHECK(2 * calls(kept, text, "alternatives") > searched);
    qll_kept_forget(kept);
    CHECK(2 * calls(kept, text, "alternatives") > searched);
    qll_kept_close(kept);
}

TEST(one_that_stops_the_search_leaves_nothing_behind)
{
    qll_arena *arena = qll_arena_open((size_t)64 * 1024 * 1024);
    const qll_input input = test_input("../../examples/house/survey.json", arena);
    qll_kept *kept = qll_kept_open((size_t)64 * 1024 * 1024);
    for (int after = 1; after < 60; after += 11) {
        int fresh_left = after;
        int kept_left = after;
        qll_question question = {.verb = QLL_VERB_DESIGN,
                                 .form = QLL_FORM_JSON,
                                 .parts = "alternatives",
                                 .document = input,
                                 .progress = stop_after,
                                 .progress_context = &fresh_left};
        qll_answer fresh;
        qll_answer again;
        const qll_status status = qll_ask(&question, arena, &fresh);
        question.progress_context = &kept_left;
        qll_kept_forget(kept);
        const qll_status stopped = qll_ask_kept(kept, &question, arena, &again);
        CHECK(stopped == QLL_STOPPED || stopped == QLL_OK);
        CHECK(status == QLL_STOPPED || status == QLL_OK);
        question.progress = NULL;
        compare(kept, &question, "", "after one that was stopped");
    }
    qll_kept_close(kept);
    qll_arena_close(arena);
}

/* ---- bounds ---- */

static const char form[] =
    "{\"survey\": 1, \"supply\": {\"static_high\": \"%d psi\"}, \"scenarios\": [{\"use\": \"house\", \"people\": %d, \"baths\": 2}],"
    " \"existing\": {\"stages\": [{\"branches\": [{\"valve\": \"3/4 in direct\", \"set_pressure\": \"55 psi\"}]}]}}";

static void ask_house(qll_kept *kept, int street_psi, int people)
{
    qll_arena *arena = qll_arena_open((size_t)64 * 1024 * 1024);
    char text[500];
    (void)snprintf(text, sizeof text, form, street_psi, people);
    qll_question question = {.verb = QLL_VERB_CHECK,
                             .form = QLL_FORM_JSON,
                             .parts = "verdicts,points",
                             .document = {"s", text, strlen(text)}};
    compare(kept, &question, "", text);
    qll_arena_close(arena);
}

TEST(what_a_choice_hangs_on_is_added_to_it)
{
    static const char text[] =
        "{\"survey\": 1, \"supply\": {\"static_high\": \"110 psi\"},"
        " \"scenarios\": [{\"use\": \"house\", \"people\": 4, \"baths\": 2}]}";
    qll_kept *kept = qll_kept_open((size_t)64 * 1024 * 1024);
    const size_t whole = calls(kept, text, "hangs_on,alternatives");
    qll_kept_forget(kept);
    const size_t searched = calls(kept, text, "alternatives");
    const size_t added = calls(kept, text, "hangs_on,alternatives");
    CHECK(added < whole);
    CHECK(2 * calls(kept, text, "hangs_on,alternatives") < added);
    CHECK(2 * calls(kept, text, "alternatives") < searched);
    /* Whose demand is kept no more when the list is asked for: many others were meanwhile. */
    qll_kept_forget(kept);
    (void)calls(kept, text, "alternatives");
    for (int people = 1; people <= 20; people++) {
        ask_house(kept, 90, people);
    }
    qll_question question = {.verb = QLL_VERB_DESIGN,
                             .form = QLL_FORM_JSON,
                             .parts = "hangs_on,alternatives",
                             .document = {"s", text, strlen(text)}};
    compare(kept, &question, "", text);
    qll_kept_close(kept);
}

TEST(one_that_stops_it_leaves_the_list_out)
{
    qll_arena *arena = qll_arena_open((size_t)64 * 1024 * 1024);
    const qll_input input = test_input("../../examples/house/survey.json", arena);
    qll_kept *kept = qll_kept_open((size_t)64 * 1024 * 1024);
    int stopped_count = 0;
    for (int after = 1; after < 30; after += 4) {
        qll_question question = {.verb = QLL_VERB_DESIGN,
                                 .form = QLL_FORM_JSON,
                                 .parts = "alternatives",
                                 .document = input};
        qll_kept_forget(kept);
        compare(kept, &question, "", "before one that is stopped");
        int left = after;
        question.parts = "alternatives,hangs_on";
        question.progress = stop_after;
        question.progress_context = &left;
        qll_answer answer;
        if (qll_ask_kept(kept, &question, arena, &answer) == QLL_OK
            && strstr(answer.bytes, "\"stopped\": true") != NULL) {
            CHECK(strstr(answer.bytes, "\"hangs_on\"") == NULL);
            stopped_count += 1;
        }
        question.progress = NULL;
        compare(kept, &question, "", "after one that was stopped");
    }
    CHECK(stopped_count > 0);
    qll_kept_close(kept);
    qll_arena_close(arena);
}

TEST(it_holds_no_more_than_it_may)
{
    static const size_t ceilings[] = {1, (size_t)100 * 1024, (size_t)1024 * 1024,
                                      (size_t)8 * 1024 * 1024};
    for (size_t c = 0; c < sizeof ceilings / sizeof ceilings[0]; c++) {
        qll_kept *kept = qll_kept_open(ceilings[c]);
        for (int people = 1; people <= 30; people++) {
            ask_house(kept, 90 + people, people % 27 + 1);
            CHECK(qll_kept_size(kept) < ceilings[c] + (size_t)80 * 1024); /* the keeper itself */
        }
        qll_kept_close(kept);
    }
}

TEST(what_is_forgotten_is_worked_out_anew)
{
    qll_kept *kept = qll_kept_open((size_t)64 * 1024 * 1024);
    ask_house(kept, 90, 3);
    const size_t before = qll_kept_size(kept);
    qll_kept_forget(kept);
    CHECK(qll_kept_size(kept) < before);
    ask_house(kept, 90, 3);
    CHECK(qll_kept_size(kept) == before);
    qll_kept_close(kept);
    qll_kept_close(NULL);
}

TEST(running_out_of_memory_leaves_it_whole)
{
    qll_kept *kept = qll_kept_open((size_t)64 * 1024 * 1024);
    char text[500];
    (void)snprintf(text, sizeof text, form, 100, 4);
    const qll_question question = {.verb = QLL_VERB_CHECK,
                                   .form = QLL_FORM_JSON,
                                   .parts = "verdicts,points",
                                   .document = {"s", text, strlen(text)}};
    for (size_t nth = 1; nth < 4000; nth = nth * 3 / 2 + 1) {
        qll_arena *arena = qll_arena_open((size_t)64 * 1024 * 1024);
        qll_answer answer;
        qll_arena_fail(arena, nth, true);
        const qll_status status = qll_ask_kept(kept, &question, arena, &answer);
        CHECK(status == QLL_NO_MEMORY || status == QLL_OK);
        qll_arena_close(arena);
        ask_house(kept, 100, 4);
    }
    qll_kept_close(kept);
}

int main(void)
{
    TEST_RUN(edits_of_every_example_are_answered_as_fresh_ones);
    TEST_RUN(what_hangs_on_the_same_is_searched_once);
    TEST_RUN(one_that_stops_the_search_leaves_nothing_behind);
    TEST_RUN(what_a_choice_hangs_on_is_added_to_it);
    TEST_RUN(one_that_stops_it_leaves_the_list_out);
    TEST_RUN(it_holds_no_more_than_it_may);
    TEST_RUN(what_is_forgotten_is_worked_out_anew);
    TEST_RUN(running_out_of_memory_leaves_it_whole);
    return TEST_END();
}
