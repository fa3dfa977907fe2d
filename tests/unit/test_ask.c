#include "quell/quell.h"

#include "ask_files.h"
#include "base/document.h"
#include "check.h"

static const size_t plenty = (size_t)1 << 30;

/* A handover of one question to a fresh arena. */
typedef struct a_reply {
    qll_arena *arena;
    qll_status status;
    qll_answer answer;
} a_reply;

typedef struct a_change {
    qll_form form;
    const char *units, *flow, *inlet;
} a_change;

static a_reply ask_about(qll_verb verb, const char *survey, const a_change *change)
{
    a_reply reply = {.arena = qll_arena_open(plenty)};
    const char *catalogue = verb == QLL_VERB_DEMAND ? NULL : "valves.json";
    qll_question question = survey_question(verb, survey, catalogue, reply.arena);
    question.form = change->form;
    question.units = change->units;
    question.flow = change->flow;
    question.inlet = change->inlet;
    reply.status = qll_ask(&question, reply.arena, &reply.answer);
    return reply;
}

static const qll_node *root_of(const a_reply *reply)
{
    qll_document *document = qll_arena_take(reply->arena, 1, sizeof *document);
    qll_problems problems = qll_problems_none(reply->arena);
    if (reply->answer.bytes == NULL) {
        return NULL;
    }
    qll_text text = {reply->answer.bytes, reply->answer.size};
    qll_status status = qll_document_read(text, "answer", reply->arena, document, &problems);
    return status == QLL_OK ? document->root : NULL;
}

/* The next node of the tree in reading order. */
static const qll_node *next_node(const qll_node *node)
{
    if (node->first_child != NULL) {
        return node->first_child;
    }
    while (node != NULL && node->next == NULL) {
        node = node->parent;
    }
    return node == NULL ? NULL : node->next;
}

static const qll_verb survey_verbs[] = {QLL_VERB_DEMAND, QLL_VERB_DESIGN, QLL_VERB_CHECK};

TEST(same_question_gives_the_same_bytes)
{
    for (size_t i = 0; i < 6; i++) {
        a_change change = {.form = i < 3 ? QLL_FORM_JSON : QLL_FORM_TEXT};
        a_reply first = ask_about(survey_verbs[i % 3], "flats.json", &change);
        a_reply second = ask_about(survey_verbs[i % 3], "flats.json", &change);
        CHECK(first.status == QLL_OK && second.status == QLL_OK);
        CHECK(first.answer.size > 0 && first.answer.size == second.answer.size);
        CHECK(first.answer.size == second.answer.size
              && memcmp(first.answer.bytes, second.answer.bytes, first.answer.size) == 0);
        qll_arena_close(first.arena);
        qll_arena_close(second.arena);
    }
}

TEST(units_change_only_the_text)
{
    for (size_t i = 0; i < 3; i++) {
        a_change us = {.form = QLL_FORM_JSON, .units = "us"};
        a_change si = {.form = QLL_FORM_JSON, .units = "si"};
        a_reply first = ask_about(survey_verbs[i], "flats.json", &us);
        a_reply second = ask_about(survey_verbs[i], "flats.json", &si);
        const qll_node *a = root_of(&first);
        const qll_node *b = root_of(&second);
        size_t numbers = 0;
        bool same = a != NULL && b != NULL;
        while (same && a != NULL && b != NULL) {
            same = a->kind == b->kind && qll_text_equal(a->key, b->key)
                   && (a->kind != QLL_NODE_NUMBER || qll_text_equal(a->text, b->text));
            numbers += a->kind == QLL_NODE_NUMBER ? 1 : 0;
            a = next_node(a);
            b = next_node(b);
        }
        CHECK(same && a == NULL && b == NULL);
        CHECK(numbers > 10);
        qll_arena_close(first.arena);
        qll_arena_close(second.arena);
    }
}

TEST(text_is_in_the_units_asked_for)
{
    a_change us = {.units = "us"};
    a_change si = {.units = "si"};
    a_reply first = ask_about(QLL_VERB_DESIGN, "flats.json", &us);
    a_reply second = ask_about(QLL_VERB_DESIGN, "flats.json", &si);
    CHECK(first.status == QLL_OK && second.status == QLL_OK);
    if (first.status == QLL_OK && second.status == QLL_OK) {
        CHECK(strstr(first.answer.bytes, " gpm ") != NULL);
        CHECK(strstr(first.answer.bytes, " bar") == NULL);
        CHECK(strstr(second.answer.bytes, " bar") != NULL);
    }
    qll_arena_close(first.arena);
    qll_arena_close(second.arena);
}

TEST(one_flow_and_one_inlet_are_one_point)
{
    a_change change = {.form = QLL_FORM_JSON, .flow = "5 gpm", .inlet = "90 psi"};
    a_reply reply = ask_about(QLL_VERB_CHECK, "flats.json", &change);
    const qll_node *root = root_of(&reply);
    if (CHECK(root != NULL) && CHECK(reply.status == QLL_OK)) {
        const qll_node *points = qll_node_find(root, "points");
        CHECK(points->child_count == 1);
        /* 1 US gallon = 3.785411784 L, 1 psi = 6894.757293168 Pa (NIST SP 811). */
        const qll_node *point = points->first_child;
        CHECK_NEAR(qll_node_find(point, "flow_m3s")->number, 5.0 * 3.785411784e-3 / 60.0, 1e-12);
        CHECK_NEAR(qll_node_find(point, "inlet_pa_gauge")->number, 90.0 * 6894.757293168, 1e-9);
        CHECK(qll_text_is(qll_node_find(point, "supply")->text, "given"));
    }
    qll_arena_close(reply.arena);
}

TEST(corners_stand_among_the_points)
{
    a_change change = {.form = QLL_FORM_JSON};
    a_reply reply = ask_about(QLL_VERB_CHECK, "flats.json", &change);
    const qll_node *root = root_of(&reply);
    if (CHECK(root != NULL) && CHECK(reply.status == QLL_OK)) {
        size_t low = 0;
        size_t high = 0;
        const qll_node *point = qll_node_find(root, "points")->first_child;
        CHECK_WITHIN(qll_node_find(point, "flow_m3s")->number, 0.0, 0.0);
        for (; point != NULL; point = point->next) {
            low += qll_text_is(qll_node_find(point, "supply")->text, "low") ? 1 : 0;
            high += qll_text_is(qll_node_find(point, "supply")->text, "high") ? 1 : 0;
        }
        CHECK(low == 1 && high == 2);
    }
    qll_arena_close(reply.arena);
}

/* 240 psi to 40 psi is more than two valves of one catalogue take: that is said before anything else, and it
 * is an answer. */
TEST(what_is_not_fit_is_said_first)
{
    a_change json = {.form = QLL_FORM_JSON};
    a_reply told = ask_about(QLL_VERB_DESIGN, "not_fit.json", &json);
    const qll_node *root = root_of(&told);
    if (CHECK(root != NULL) && CHECK(told.status == QLL_OK)) {
        CHECK(qll_node_find(root, "fit_to_install")->kind == QLL_NODE_FALSE);
        CHECK(qll_node_find(root, "no_valve_needed")->kind == QLL_NODE_FALSE);
        CHECK(qll_node_find(root, "close_call")->kind == QLL_NODE_NULL);
    }
    a_change text = {.form = QLL_FORM_TEXT};
    a_reply read = ask_about(QLL_VERB_DESIGN, "not_fit.json", &text);
    if (CHECK(read.status == QLL_OK)) {
        const char *first = strstr(read.answer.bytes, "NOT FIT TO INSTALL");
        CHECK(first != NULL && first - read.answer.bytes < 120);
        CHECK(strstr(read.answer.bytes, "What would fix it") != NULL);
        CHECK(strstr(read.answer.bytes, "Install ") == NULL);
    }
    qll_arena_close(told.arena);
    qll_arena_close(read.arena);
}

/* The street never stands above what is permitted: no station, and what the outlets get without one. */
TEST(where_no_valve_is_needed_that_is_the_answer)
{
    a_change json = {.form = QLL_FORM_JSON};
    a_reply told = ask_about(QLL_VERB_DESIGN, "no_valve.json", &json);
    const qll_node *root = root_of(&told);
    if (CHECK(root != NULL) && CHECK(told.status == QLL_OK)) {
        CHECK(qll_node_find(root, "no_valve_needed")->kind == QLL_NODE_TRUE);
        CHECK(qll_node_find(root, "recommended")->kind == QLL_NODE_NULL);
        static const char *const empty[] = {"stations", "points", "ladder", "maps"};
        for (size_t i = 0; i < sizeof empty / sizeof empty[0]; i++) {
            const qll_node *list = qll_node_find(root, empty[i]);
            CHECK(list != NULL && list->kind == QLL_NODE_LIST && list->child_count == 0);
        }
        CHECK(qll_node_find(qll_node_find(root, "need"), "outlets")->child_count == 1);
    }
    a_change text = {.form = QLL_FORM_TEXT};
    a_reply read = ask_about(QLL_VERB_DESIGN, "no_valve.json", &text);
    if (CHECK(read.status == QLL_OK)) {
        const char *first = strstr(read.answer.bytes, "No valve is needed");
        CHECK(first != NULL && first - read.answer.bytes < 120);
        CHECK(strstr(read.answer.bytes, "67 psi") != NULL); /* 72 psi less 12 ft of water */
        CHECK(strstr(read.answer.bytes, "\"station\": \"always\"") != NULL);
    }
    qll_arena_close(told.arena);
    qll_arena_close(read.arena);
}

TEST(questions_without_sense_are_wrong_use)
{
    qll_arena *arena = qll_arena_open(plenty);
    qll_answer answer;
    qll_question no_document = {.verb = QLL_VERB_DEMAND};
    CHECK(qll_ask(&no_document, arena, &answer) == QLL_WRONG_USE);
    CHECK(answer.bytes == NULL && answer.problem_count == 1);
    qll_question unknown = {.verb = QLL_VERB_CALC, .calc = "velocty"};
    CHECK(qll_ask(&unknown, arena, &answer) == QLL_WRONG_USE);
    if (CHECK(answer.problem_count == 1)) {
        CHECK_TEXT(answer.problems[0].hint, "did you mean \"velocity\"?");
    }
    qll_question units = survey_question(QLL_VERB_DEMAND, "flats.json", NULL, arena);
    units.units = "metric";
    CHECK(qll_ask(&units, arena, &answer) == QLL_WRONG_USE);
    const int beyond = 99; /* from a program that was built for another version */
    qll_question verb = survey_question((qll_verb)beyond, "flats.json", NULL, arena);
    CHECK(qll_ask(&verb, arena, &answer) == QLL_WRONG_USE);
    CHECK(answer.bytes == NULL && answer.problem_count == 1);
    qll_question form = survey_question(QLL_VERB_DEMAND, "flats.json", NULL, arena);
    form.form = (qll_form)beyond;
    CHECK(qll_ask(&form, arena, &answer) == QLL_WRONG_USE);
    CHECK(answer.bytes == NULL && answer.problem_count == 1);
    qll_arena_close(arena);
}

TEST(answers_are_closed_by_a_zero_byte)
{
    qll_arena *arena = qll_arena_open(plenty);
    qll_answer answer;
    qll_question question = survey_question(QLL_VERB_DESIGN, "flats.json", "valves.json", arena);
    CHECK(qll_ask(&question, arena, &answer) == QLL_OK);
    CHECK(answer.bytes != NULL && answer.bytes[answer.size] == '\0');
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(same_question_gives_the_same_bytes);
    TEST_RUN(units_change_only_the_text);
    TEST_RUN(text_is_in_the_units_asked_for);
    TEST_RUN(one_flow_and_one_inlet_are_one_point);
    TEST_RUN(corners_stand_among_the_points);
    TEST_RUN(what_is_not_fit_is_said_first);
    TEST_RUN(where_no_valve_is_needed_that_is_the_answer);
    TEST_RUN(questions_without_sense_are_wrong_use);
    TEST_RUN(answers_are_closed_by_a_zero_byte);
    return TEST_END();
}
