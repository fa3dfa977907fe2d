/* A case through the whole engine. */
#include "quell/quell.h"

#include "ask_files.h"
#include "base/document.h"
#include "check.h"

#include <stdio.h>

static const size_t plenty = (size_t)512 << 20;

/* A house of two baths on 3/4 in pipe, with the valve that is there. */
static const char house[] =
    "{\"case\": 1, \"survey\": {\"survey\": 1, \"supply\": {\"static_high\": \"110 psi\","
    "\"flow_test\": [{\"flow\": \"0 gpm\", \"pressure\": \"104 psi\"},"
    "{\"flow\": \"15 gpm\", \"pressure\": \"98 psi\"}]},"
    "\"downstream\": {\"set_pressure\": \"55 psi\", \"heater\": {\"volume\": \"50 gal\","
    "\"cold\": \"50 degF\", \"hot\": \"130 degF\", \"relief\": \"150 psi\"}},"
    "\"scenarios\": [{\"name\": \"family\", \"use\": \"house\", \"people\": 4, \"baths\": 2}],"
    "\"existing\": {\"stages\": [{\"branches\": [{\"valve\": \"%s\", \"set_pressure\": \"55 psi\"}]}]}}}";

static qll_answer ask(const char *document, qll_form form, qll_arena *arena)
{
    const qll_question question = {.verb = QLL_VERB_DIAGNOSE,
                                   .form = form,
                                   .document = {"case.json", document, strlen(document)}};
    qll_answer answer;
    CHECK(qll_ask(&question, arena, &answer) == QLL_OK);
    return answer;
}

static const qll_node *read(const qll_answer *answer, qll_arena *arena)
{
    qll_document document = {0};
    qll_problems problems = qll_problems_none(arena);
    CHECK(qll_document_read((qll_text){answer->bytes, answer->size}, "answer", arena, &document,
                            &problems)
          == QLL_OK);
    return document.root;
}

static double number(const qll_node *node, const char *key)
{
    const qll_node *found = qll_node_find(node, key);
    return found == NULL ? (double)NAN : found->number;
}

/* The entry of the list @p list whose @p key is @p word. */
static const qll_node *entry(const qll_node *root, const char *list, const char *key,
                             const char *word)
{
    const qll_node *node = qll_node_find(root, list)->first_child;
    while (node != NULL && !qll_text_is(qll_node_find(node, key)->text, word)) {
        node = node->next;
    }
    return node;
}

static double probability(const char *valve, const char *cause, qll_arena *arena)
{
    char document[sizeof house + 32];
    (void)snprintf(document, sizeof document, house, valve);
    const qll_answer answer = ask(document, QLL_FORM_JSON, arena);
    const qll_node *found = entry(read(&answer, arena), "causes", "cause", cause);
    return found == NULL ? 0.0 : number(found, "probability");
}

/* Nobody has said a word: the survey alone speaks. */
TEST(an_oversized_valve_is_computed_not_asked)
{
    qll_arena *arena = qll_arena_open(plenty);
    const double fitting = probability("3/4 in direct", "oversized_chatter", arena);
    const double oversized = probability("2 in direct", "oversized_chatter", arena);
    CHECK(oversized > 3.0 * fitting);
    CHECK(oversized > probability("2 in direct", "seat_debris", arena));
    qll_arena_close(arena);
}

/* What the survey answers is not asked for, and what cures it is solved with it. */
TEST(the_cure_is_solved_for_the_station)
{
    qll_arena *arena = qll_arena_open(plenty);
    char document[sizeof house + 32];
    (void)snprintf(document, sizeof document, house, "2 in direct");
    const qll_question question = {
        .verb = QLL_VERB_DIAGNOSE,
        .form = QLL_FORM_JSON,
        .document = {"case.json", document, strlen(document)},
        .arguments = (const char *[]){"sound_kind=chatter", "noise_when=low_flow"},
        .argument_count = 2};
    qll_answer answer;
    CHECK(qll_ask(&question, arena, &answer) == QLL_OK);
    const qll_node *root = read(&answer, arena);
    CHECK(entry(root, "next", "test", "low_flow_share") == NULL);
    CHECK(entry(root, "next", "test", "sound_kind") == NULL);
    const qll_node *cure = qll_node_find(root, "remedies")->first_child;
    CHECK(cure != NULL && qll_text_is(qll_node_find(cure, "cause")->text, "oversized_chatter"));
    const qll_node *station = qll_node_find(cure, "station");
    CHECK(station->kind == QLL_NODE_OBJECT && number(station, "installed") > 0.0);
    CHECK(number(station, "callback_share") < number(station, "callback_share_now"));
    qll_arena_close(arena);
}

TEST(the_causes_are_all_and_make_one)
{
    qll_arena *arena = qll_arena_open(plenty);
    const qll_answer answer =
        ask("{\"case\": 1, \"symptoms\": {\"sound_kind\": \"squeal\"}}", QLL_FORM_JSON, arena);
    const qll_node *root = read(&answer, arena);
    double sum = 0.0;
    double before = 1.0;
    for (const qll_node *node = qll_node_find(root, "causes")->first_child; node != NULL;
         node = node->next) {
        CHECK(number(node, "probability") <= before);
        before = number(node, "probability");
        sum += before;
    }
    CHECK_WITHIN(sum, 1.0, 1e-12);
    CHECK(qll_node_find(root, "remedies")->child_count == 0);
    CHECK(number(qll_node_find(root, "next")->first_child, "gain_bits") > 0.0);
    qll_arena_close(arena);
}

TEST(what_to_ask_next_is_asked_until_it_is_known)
{
    qll_arena *arena = qll_arena_open(plenty);
    static const char document[] = "{\"case\": 1}";
    const char *arguments[64];
    qll_question question = {.verb = QLL_VERB_DIAGNOSE,
                             .document = {"case.json", document, sizeof document - 1},
                             .arguments = arguments};
    qll_asking asking;
    qll_answer answer;
    char said[64][64];
    CHECK(qll_ask_next(&question, arena, &asking, &answer) == QLL_OK);
    while (asking.question != NULL && question.argument_count < 64) {
        CHECK(asking.answer_count >= 2 && asking.asks[0] != '\0' && asking.says[1][0] != '\0');
        char *one = said[question.argument_count];
        (void)snprintf(one, sizeof said[0], "%s=%s", asking.question,
                       question.argument_count == 0 ? "?" : asking.answers[0]);
        arguments[question.argument_count] = one;
        question.argument_count += 1;
        CHECK(qll_ask_next(&question, arena, &asking, &answer) == QLL_OK);
        CHECK(asking.question == NULL
              || strncmp(asking.question, one, strlen(asking.question)) != 0);
    }
    CHECK(question.argument_count > 2 && question.argument_count < 42);
    CHECK(asking.dangers == NULL);
    arguments[0] = "relief_drips=yes";
    question.argument_count = 1;
    CHECK(qll_ask_next(&question, arena, &asking, &answer) == QLL_OK);
    CHECK(asking.dangers != NULL && strstr(asking.dangers, "relief valve") != NULL);
    CHECK(strstr(asking.stands, "relief valve drips") == NULL);
    question.verb = QLL_VERB_DEMAND;
    CHECK(qll_ask_next(&question, arena, &asking, &answer) == QLL_WRONG_USE);
    qll_arena_close(arena);
}

/* What is said beside a case comes after what stands in it, as a word or as it was read. */
TEST(an_answer_said_last_counts)
{
    static const struct {
        const char *said, *answer;
    } rows[] = {{"creep_10min=le_1psi", "le_1psi"},
                {"creep_10min=7psi", "gt_5psi"},
                {"creep_10min= 0.2 bar", "1_to_5psi"},
                {"creep_10min=?", "gt_5psi"}};

    static const char document[] =
        "{\"case\": 1, \"tests\": [{\"test\": \"creep_10min\", \"measured\": \"9 psi\"}]}";
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        qll_arena *arena = qll_arena_open(plenty);
        const qll_question question = {.verb = QLL_VERB_DIAGNOSE,
                                       .form = QLL_FORM_JSON,
                                       .document = {"case.json", document, sizeof document - 1},
                                       .arguments = &rows[i].said,
                                       .argument_count = 1};
        qll_answer answer;
        CHECK(qll_ask(&question, arena, &answer) == QLL_OK);
        const qll_node *known = entry(read(&answer, arena), "known", "evidence", "creep_10min");
        CHECK(qll_text_is(qll_node_find(known, "answer")->text, rows[i].answer));
        CHECK(qll_text_is(qll_node_find(known, "from")->text, "test"));
        qll_arena_close(arena);
    }
}

/* A reading without its unit, of another kind, or of what nobody measures is refused, with its reason. */
TEST(a_reading_that_is_none_is_refused)
{
    static const struct {
        const char *said, *says;
    } rows[] = {{"creep_10min=7", "has no unit"},
                {"creep_10min=7 gpm", "pressure difference"},
                {"inlet_sweep=20", "no answer"},
                {"strainer_dp=3psi", "clean, dirty, blocked"}};

    static const char document[] = "{\"case\": 1}";
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        qll_arena *arena = qll_arena_open(plenty);
        const qll_question question = {.verb = QLL_VERB_DIAGNOSE,
                                       .document = {"case.json", document, sizeof document - 1},
                                       .arguments = &rows[i].said,
                                       .argument_count = 1};
        qll_answer answer;
        CHECK(qll_ask(&question, arena, &answer) == QLL_REFUSED && answer.problem_count == 1);
        CHECK(strstr(answer.problems[0].text, rows[i].says) != NULL);
        qll_arena_close(arena);
    }
}

/* One closed case teaches as a list of one does; what would be passed over is refused. */
TEST(one_case_is_learned_from)
{
    static const char *const documents[] = {
        "{\"case\": 1, \"symptoms\": {\"sound_kind\": \"hiss\"}, \"cause\": \"air_in_line\"}",
        "{\"cases\": 1, \"closed\": [{\"case\": 1, \"symptoms\": {\"sound_kind\": \"hiss\"},"
        "\"cause\": \"air_in_line\"}]}"};
    qll_arena *arena = qll_arena_open(plenty);
    qll_answer answers[2];
    for (size_t i = 0; i < 2; i++) {
        const qll_question learn = {.verb = QLL_VERB_LEARN,
                                    .form = QLL_FORM_JSON,
                                    .document = {"case.json", documents[i], strlen(documents[i])}};
        CHECK(qll_ask(&learn, arena, &answers[i]) == QLL_OK);
    }
    CHECK_TEXT(answers[0].bytes, answers[1].bytes);
    const char *more = "other.json";
    const qll_question learn = {.verb = QLL_VERB_LEARN,
                                .document = {"case.json", documents[0], strlen(documents[0])},
                                .arguments = &more,
                                .argument_count = 1};
    CHECK(qll_ask(&learn, arena, &answers[0]) == QLL_REFUSED);
    CHECK(strstr(answers[0].problems[0].text, "other.json") != NULL);
    qll_arena_close(arena);
}

/* A table learned from cases is taken, and moves what is believed. */
TEST(what_is_learned_is_believed)
{
    qll_arena *arena = qll_arena_open(plenty);
    qll_writer cases = qll_writer_new(arena);
    qll_write(&cases, "{\"cases\": 1, \"closed\": [");
    for (int i = 0; i < 40; i++) {
        qll_write(&cases, i == 0 ? "" : ",");
        qll_write(&cases, "{\"case\": 1, \"symptoms\": {\"sound_kind\": \"hiss\"},"
                          "\"cause\": \"supply_swings\"}");
    }
    qll_write(&cases, "]}");
    const qll_text text = qll_writer_text(&cases);
    const qll_question learn = {.verb = QLL_VERB_LEARN,
                                .form = QLL_FORM_JSON,
                                .document = {"closed.json", text.bytes, text.size}};
    qll_answer table;
    CHECK(qll_ask(&learn, arena, &table) == QLL_OK);
    static const char visit[] = "{\"case\": 1, \"symptoms\": {\"sound_kind\": \"hiss\"}}";
    qll_question question = {.verb = QLL_VERB_DIAGNOSE,
                             .form = QLL_FORM_JSON,
                             .document = {"case.json", visit, sizeof visit - 1}};
    qll_answer before;
    qll_answer after;
    CHECK(qll_ask(&question, arena, &before) == QLL_OK);
    question.likelihood = (qll_input){"table.json", table.bytes, table.size};
    CHECK(qll_ask(&question, arena, &after) == QLL_OK);
    const double was =
        number(entry(read(&before, arena), "causes", "cause", "supply_swings"), "probability");
    const double is =
        number(entry(read(&after, arena), "causes", "cause", "supply_swings"), "probability");
    CHECK(is > 2.0 * was);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(an_oversized_valve_is_computed_not_asked);
    TEST_RUN(the_cure_is_solved_for_the_station);
    TEST_RUN(the_causes_are_all_and_make_one);
    TEST_RUN(what_to_ask_next_is_asked_until_it_is_known);
    TEST_RUN(an_answer_said_last_counts);
    TEST_RUN(a_reading_that_is_none_is_refused);
    TEST_RUN(one_case_is_learned_from);
    TEST_RUN(what_is_learned_is_believed);
    return TEST_END();
}
