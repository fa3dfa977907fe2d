/* Scenarios that come from a meter's log, through the whole engine. */
#include "attached.h"
#include "base/document.h"
#include "check.h"
#include "host/stream.h"
#include "reference/truth.h"
#include "signals/flow_log.h"

#include <stdlib.h>

static const double gpm = 3.785411784e-3 / 60.0;

/* A survey round the scenarios of a test. */
static qll_question survey_of(const char *scenarios, qll_verb verb, qll_arena *arena)
{
    qll_writer text = qll_writer_new(arena);
    qll_write(&text, "{\"survey\": 1, \"supply\": {\"static_high\": \"110 psi\", \"flow_test\": ["
                     "{\"flow\": \"0 gpm\", \"pressure\": \"105 psi\"},"
                     "{\"flow\": \"150 gpm\", \"pressure\": \"92 psi\"}]}, \"scenarios\": [");
    qll_write(&text, scenarios);
    qll_write(&text, "]}");
    qll_text bytes = qll_writer_text(&text);
    return (qll_question){
        .verb = verb, .form = QLL_FORM_JSON, .document = {"survey.json", bytes.bytes, bytes.size}};
}

static const qll_node *root_of(const qll_answer *answer, qll_arena *arena)
{
    qll_document *document = qll_arena_take(arena, 1, sizeof *document);
    qll_problems problems = qll_problems_none(arena);
    if (!CHECK(answer->bytes != NULL)) {
        exit(1);
    }
    qll_text text = {answer->bytes, answer->size};
    CHECK(qll_document_read(text, "answer", arena, document, &problems) == QLL_OK);
    return document->root;
}

static const qll_node *answer_of(const qll_question *question, qll_status wanted, qll_arena *arena)
{
    qll_answer answer;
    qll_status status = qll_ask(question, arena, &answer);
    if (!CHECK(status == wanted)) {
        for (size_t i = 0; i < answer.problem_count; i++) {
            printf("    %s: %s\n", answer.problems[i].place.path, answer.problems[i].text);
        }
    }
    return root_of(&answer, arena);
}

static double number_at(const qll_node *node, const char *key)
{
    const qll_node *child = qll_node_find(node, key);
    return child != NULL && child->kind == QLL_NODE_NUMBER ? child->number : (double)NAN;
}

static const qll_node *scenario_at(const qll_node *root, size_t index)
{
    const qll_node *node = qll_node_find(root, "scenarios")->first_child;
    for (size_t i = 0; i < index; i++) {
        node = node->next;
    }
    return node;
}

static const qll_node *estimate_by(const qll_node *scenario, const char *method)
{
    const qll_node *node = qll_node_find(scenario, "estimates")->first_child;
    while (node != NULL && !qll_text_is(qll_node_find(node, "method")->text, method)) {
        node = node->next;
    }
    return node;
}

static double quantile_of(const qll_node *scenario, double share)
{
    const qll_node *point = qll_node_find(scenario, "flow_duration")->first_child;
    while (point->next != NULL && number_at(point, "time_share") < share - 1e-12) {
        point = point->next;
    }
    return number_at(point, "flow_m3s");
}

/* ---- the real log ---- */

#define REAL QUELL_ROOT "/tests/data/real/campus-residential-1s.csv.gz"

static const char real_scenario[] =
    "{\"name\": \"as metered\", \"log\": \"night.csv.gz\", \"log_format\": {\"unit\": \"gpm\"}}";

static void attach_real(qll_question *question, qll_arena *arena)
{
    static qll_host_file file;
    static qll_attachment attachment;
    file = (qll_host_file){.path = REAL, .arena = arena};
    attachment = (qll_attachment){
        .name = "night.csv.gz", .path = REAL, .stream = qll_host_stream, .context = &file};
    question->attachments = &attachment;
    question->attachment_count = 1;
}

TEST(a_real_night_keeps_its_percentiles)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = survey_of(real_scenario, QLL_VERB_DEMAND, arena);
    attach_real(&question, arena);
    const qll_node *root = answer_of(&question, QLL_OK, arena);
    const qll_node *scenario = scenario_at(root, 0);
    qll_table rows = truth_read("tests/reference/real_log.csv", arena);
    size_t seen = 0;
    for (size_t row = 0; row < rows.row_count; row++) {
        double want = truth_number(&rows, row, "expected") * gpm;
        double argument = qll_table_number(&rows, row, qll_table_column(&rows, "argument"));
        if (truth_is(&rows, row, "quantity", "percentile") && argument > 0.0) {
            double slack = 1e-4 * gpm + want * QLL_LOG_CLASS_WIDTH;
            CHECK_WITHIN(quantile_of(scenario, argument / 100.0), want, slack);
            seen += 1;
        } else if (truth_is(&rows, row, "quantity", "rolling") && argument == 1.0) {
            const qll_node *metered = estimate_by(scenario, "metered");
            CHECK_WITHIN(number_at(metered, "peak_flow_m3s"), want, 1e-4 * gpm);
            CHECK_WITHIN(number_at(scenario, "peak_flow_m3s"), want, 1e-4 * gpm);
            seen += 1;
        } else if (truth_is(&rows, row, "quantity", "idle_share")) {
            CHECK_WITHIN(number_at(scenario, "idle_share"), want / gpm, 1e-9);
            seen += 1;
        } else if (truth_is(&rows, row, "quantity", "mean")) {
            CHECK_WITHIN(number_at(scenario, "mean_flow_m3s"), want, 1e-6 * gpm);
            seen += 1;
        }
    }
    CHECK(seen == 11);
    qll_arena_close(arena);
}

TEST(a_station_is_designed_by_a_log_alone)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = survey_of(real_scenario, QLL_VERB_DESIGN, arena);
    attach_real(&question, arena);
    const qll_node *root = answer_of(&question, QLL_OK, arena);
    const qll_node *station = qll_node_find(root, "stations")->first_child;
    const qll_node *shares = qll_node_find(station, "time_shares");
    CHECK_WITHIN(number_at(shares, "idle"), 0.5198, 1e-3);
    qll_arena_close(arena);
}

/* ---- which files, and when they are not there ---- */

TEST(every_file_is_asked_for_once)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 24);
    qll_question question =
        survey_of("{\"log\": \"a.csv\"}, {\"log\": \" b.csv \"}, {\"use\": \"office\"}, 7,"
                  "{\"log\": \"a.csv\", \"log_format\": {\"meter\": \"2\"}}, {\"log\": 5}",
                  QLL_VERB_DEMAND, arena);
    const char *const *names = NULL;
    size_t count = 0;
    CHECK(qll_attachments_of(&question.document, arena, &names, &count) == QLL_OK);
    if (CHECK(count == 2)) {
        CHECK_TEXT(names[0], "a.csv");
        CHECK_TEXT(names[1], "b.csv");
    }
    static const char *const others[] = {"", "[1]", "{\"scenarios\": 3}", "{\"scenarios\": [",
                                         "{\"scenarios\": []}"};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        const qll_input input = {"x", others[i], strlen(others[i])};
        CHECK(qll_attachments_of(&input, arena, &names, &count) == QLL_OK && count == 0);
    }
    CHECK(qll_attachments_of(&(qll_input){0}, arena, &names, &count) == QLL_OK && count == 0);
    qll_arena_close(arena);
}

static const char *code_of(const qll_node *root)
{
    static char word[32];
    qll_text text = qll_node_find(qll_node_find(root, "problems")->first_child, "code")->text;
    (void)snprintf(word, sizeof word, "%.*s", (int)text.size, text.bytes);
    return word;
}

TEST(a_file_that_was_not_handed_in_is_refused)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 24);
    qll_question question = survey_of(real_scenario, QLL_VERB_DEMAND, arena);
    CHECK_TEXT(code_of(answer_of(&question, QLL_REFUSED, arena)), "no-file");
    question.form = QLL_FORM_TEXT;
    qll_answer answer;
    CHECK(qll_ask(&question, arena, &answer) == QLL_REFUSED && answer.bytes == NULL);
    qll_arena_close(arena);
}

TEST(a_file_that_cannot_be_read_is_no_refusal)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 24);
    qll_question question = survey_of(real_scenario, QLL_VERB_DEMAND, arena);
    attach_from(&question, "nowhere/", arena);
    CHECK_TEXT(code_of(answer_of(&question, QLL_IO, arena)), "no-file");
    question.form = QLL_FORM_TEXT;
    qll_answer answer;
    CHECK(qll_ask(&question, arena, &answer) == QLL_IO && answer.bytes == NULL);
    CHECK(answer.problem_count == 1);
    CHECK_TEXT(answer.problems[0].place.path, "scenarios[0].log");
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(a_real_night_keeps_its_percentiles);
    TEST_RUN(a_station_is_designed_by_a_log_alone);
    TEST_RUN(every_file_is_asked_for_once);
    TEST_RUN(a_file_that_was_not_handed_in_is_refused);
    TEST_RUN(a_file_that_cannot_be_read_is_no_refusal);
    return TEST_END();
}
