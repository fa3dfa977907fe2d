/* The part "motion": what stands in a check or a design is what simulate finds of the same events. */
#include "ask_files.h"
#include "base/document.h"
#include "check.h"

#include <math.h>
#include <string.h>

typedef struct asked {
    qll_status status;
    qll_document document;
} asked;

static asked ask(qll_question question, qll_input survey, qll_arena *arena)
{
    asked of = {.status = QLL_OK};
    question.form = QLL_FORM_JSON;
    question.document = survey;
    qll_answer answer = {0};
    of.status = qll_ask(&question, arena, &answer);
    qll_problems problems = qll_problems_none(arena);
    if (answer.bytes != NULL) {
        const qll_text text = {answer.bytes, answer.size};
        CHECK(qll_document_read(text, "answer", arena, &of.document, &problems) == QLL_OK);
    }
    return of;
}

static qll_input example(const char *name, qll_arena *arena)
{
    char folder[128];
    snprintf(folder, sizeof folder, "../examples/%s", name);
    return test_input_in(folder, "survey.json", arena);
}

static double number(const qll_node *node, const char *key)
{
    const qll_node *value = node == NULL ? NULL : qll_node_find(node, key);
    return value != NULL && value->kind == QLL_NODE_NUMBER ? value->number : (double)NAN;
}

static const char *word(const qll_node *node, const char *key, qll_arena *arena)
{
    const qll_node *value = node == NULL ? NULL : qll_node_find(node, key);
    return value != NULL && value->kind == QLL_NODE_TEXT ? qll_text_closed(value->text, arena)
                                                         : NULL;
}

static bool is_word(const qll_node *node, const char *key, const char *wanted, qll_arena *arena)
{
    const char *found = word(node, key, arena);
    return found != NULL && strcmp(found, wanted) == 0;
}

static const qll_node *verdict_of(const qll_node *of, const char *rule, qll_arena *arena)
{
    const qll_node *list = qll_node_find(of, "verdicts");
    const qll_node *at = list == NULL ? NULL : list->first_child;
    while (at != NULL && !is_word(at, "rule", rule, arena)) {
        at = at->next;
    }
    return at;
}

static const qll_node *events_of(const asked *of)
{
    const qll_node *motion = qll_node_find(of->document.root, "motion");
    return motion == NULL ? NULL : qll_node_find(motion, "events");
}

static bool has_source(const asked *of, const char *part, qll_arena *arena)
{
    const qll_node *list = qll_node_find(of->document.root, "sources");
    for (const qll_node *at = list == NULL ? NULL : list->first_child; at != NULL; at = at->next) {
        if (strstr(qll_text_closed(at->text, arena), part) != NULL) {
            return true;
        }
    }
    return false;
}

static const char *const rules[] = {"hammer", "hunting"};

/* An event of a check against the same one, asked for by itself. */
static void check_event(const qll_node *event, qll_input survey, qll_arena *arena)
{
    const qll_question question = {.verb = QLL_VERB_SIMULATE,
                                   .event = word(event, "event", arena),
                                   .outlet = word(event, "outlet", arena)};
    const asked simulated = ask(question, survey, arena);
    CHECK(simulated.status == QLL_OK);
    for (size_t i = 0; i < 2; i++) {
        const qll_node *own = verdict_of(event, rules[i], arena);
        const qll_node *other = verdict_of(simulated.document.root, rules[i], arena);
        CHECK(own != NULL && other != NULL);
        CHECK(is_word(own, "verdict", word(other, "verdict", arena), arena));
        CHECK(number(own, "value") == number(other, "value"));
    }
}

static int grave(const char *grade)
{
    static const char *const grades[] = {"good", "unknown", "caution", "fail"};
    int place = 0;
    while (place < 4 && strcmp(grade, grades[place]) != 0) {
        place += 1;
    }
    return place;
}

TEST(each_event_is_what_simulate_finds)
{
    const char *const names[] = {"slam", "hillside", "repurposed-building"};
    for (size_t i = 0; i < 3; i++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        const qll_input survey = example(names[i], arena);
        const qll_question question = {.verb = QLL_VERB_CHECK, .parts = "verdicts,motion"};
        const asked of = ask(question, survey, arena);
        CHECK(of.status == QLL_OK);
        const qll_node *events = events_of(&of);
        CHECK(events != NULL && events->child_count >= 2);
        int worst = 0;
        for (const qll_node *at = events == NULL ? NULL : events->first_child; at != NULL;
             at = at->next) {
            check_event(at, survey, arena);
            const bool closes = is_word(at, "event", "closure", arena);
            const int own = grave(word(verdict_of(at, "hammer", arena), "verdict", arena));
            const int told = closes && own > 2 ? 2 : own;
            worst = told > worst ? told : worst;
        }
        const qll_node *hammer = verdict_of(of.document.root, "hammer", arena);
        CHECK(grave(word(hammer, "verdict", arena)) == worst);
        qll_arena_close(arena);
    }
}

/* A closing that parts the water column is a caution here, for nobody said that anything there closes so fast; a draw that
 * falls comes every day, and what hunts then fails. */
TEST(what_is_assumed_is_a_caution_and_what_comes_daily_is_not)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    const qll_question question = {.verb = QLL_VERB_CHECK, .parts = "all,motion"};
    const asked slam = ask(question, example("slam", arena), arena);
    const qll_node *hammer = verdict_of(slam.document.root, "hammer", arena);
    CHECK(is_word(hammer, "verdict", "caution", arena));
    CHECK(is_word(verdict_of(events_of(&slam)->first_child, "hammer", arena), "verdict", "fail",
                  arena));
    CHECK(strstr(word(hammer, "says", arena), "quick-closing") != NULL);
    CHECK(qll_node_find(slam.document.root, "cures") != NULL);
    const asked pair = ask(question, example("repurposed-building", arena), arena);
    const qll_node *hunting = verdict_of(pair.document.root, "hunting", arena);
    CHECK(is_word(hunting, "verdict", "fail", arena));
    qll_arena_close(arena);
}

TEST(it_is_there_only_where_it_is_named_but_on_a_report)
{
    static const struct {
        const char *parts;
        qll_verb verb;
        bool is_there;
    } cases[] = {
        {NULL, QLL_VERB_CHECK, false},        {"all", QLL_VERB_CHECK, false},
        {"motion", QLL_VERB_CHECK, true},     {NULL, QLL_VERB_DESIGN, false},
        {"motion", QLL_VERB_DESIGN, true},    {NULL, QLL_VERB_REPORT, true},
        {"verdicts", QLL_VERB_REPORT, false},
    };

    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        const qll_question question = {.verb = cases[i].verb, .parts = cases[i].parts};
        const asked of = ask(question, example("slam", arena), arena);
        CHECK(of.status == QLL_OK);
        CHECK((events_of(&of) != NULL) == cases[i].is_there);
        CHECK(has_source(&of, "method of characteristics", arena) == cases[i].is_there);
        qll_arena_close(arena);
    }
}

TEST(without_pipes_the_reason_is_said)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    const qll_question question = {.verb = QLL_VERB_DESIGN, .parts = "verdicts,motion"};
    const asked of = ask(question, example("first-answer", arena), arena);
    const qll_node *stations = qll_node_find(of.document.root, "stations");
    const qll_node *hammer = verdict_of(stations->first_child, "hammer", arena);
    CHECK(is_word(hammer, "verdict", "unknown", arena));
    CHECK(strstr(word(hammer, "says", arena), "names no outlet with the pipes") != NULL);
    CHECK(events_of(&of) != NULL && events_of(&of)->child_count == 0);
    CHECK(has_source(&of, "catalog", arena) && !has_source(&of, "water hammer", arena));
    qll_arena_close(arena);
}

/* Asked so often, it says stop. */
typedef struct patience {
    int left;
} patience;

static bool has_patience(double share, void *context)
{
    (void)share;
    patience *of = context;
    of->left -= of->left > 0 ? 1 : 0;
    return of->left > 0;
}

/* Whoever stops anywhere gets an answer or none, never a wrong one: a verdict of a run or the one without. */
TEST(stopped_anywhere_it_tells_nothing_wrong)
{
    int answers = 0;
    for (int left = 1; left < 4000; left += left) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        patience until = {left};
        const qll_question question = {.verb = QLL_VERB_CHECK,
                                       .parts = "verdicts,motion",
                                       .progress = has_patience,
                                       .progress_context = &until};
        const asked of = ask(question, example("slam", arena), arena);
        CHECK(of.status == QLL_OK || of.status == QLL_STOPPED);
        if (of.status == QLL_OK) {
            const qll_node *hammer = verdict_of(of.document.root, "hammer", arena);
            const bool ran = events_of(&of) != NULL && events_of(&of)->child_count > 0;
            CHECK(is_word(hammer, "verdict", ran ? "caution" : "unknown", arena));
            answers += ran ? 1 : 0;
        }
        qll_arena_close(arena);
    }
    CHECK(answers > 0);
}

int main(void)
{
    TEST_RUN(each_event_is_what_simulate_finds);
    TEST_RUN(what_is_assumed_is_a_caution_and_what_comes_daily_is_not);
    TEST_RUN(it_is_there_only_where_it_is_named_but_on_a_report);
    TEST_RUN(without_pipes_the_reason_is_said);
    TEST_RUN(stopped_anywhere_it_tells_nothing_wrong);
    return TEST_END();
}
