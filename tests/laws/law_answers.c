/* What must hold between the figures and words of one answer, whatever the survey. */
#include "ask_files.h"
#include "base/document.h"
#include "check.h"

static const qll_node *ask(const qll_question *question, qll_arena *arena)
{
    qll_answer answer;
    if (!CHECK(qll_ask(question, arena, &answer) == QLL_OK)) {
        return NULL;
    }
    qll_document *document = qll_arena_take(arena, 1, sizeof *document);
    qll_problems problems = qll_problems_none(arena);
    qll_text text = {answer.bytes, answer.size};
    bool well = qll_document_read(text, "answer", arena, document, &problems) == QLL_OK;
    return CHECK(well) ? document->root : NULL;
}

static double number_at(const qll_node *node, const char *key)
{
    const qll_node *child = qll_node_find(node, key);
    return child != NULL && child->kind == QLL_NODE_NUMBER ? child->number : (double)NAN;
}

/* A flow of the scenario is in its hours, its mean and its day alike: cooling towers and leaks too. */
TEST(the_hours_of_a_day_hold_all_its_water)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = survey_question(QLL_VERB_DEMAND, "flats.json", NULL, arena);
    const qll_node *root = ask(&question, arena);
    const qll_node *one = root == NULL ? NULL : qll_node_find(root, "scenarios")->first_child;
    int continuous_count = 0;
    for (; one != NULL; one = one->next) {
        double sum_m3s = 0.0;
        const qll_node *hour = qll_node_find(one, "hours")->first_child;
        for (; hour != NULL; hour = hour->next) {
            sum_m3s += number_at(hour, "mean_flow_m3s");
        }
        continuous_count += number_at(one, "continuous_peak_flow_m3s") > 0.0 ? 1 : 0;
        CHECK_NEAR(sum_m3s / 24.0, number_at(one, "mean_flow_m3s"), 1e-9);
        CHECK_NEAR(number_at(one, "mean_flow_m3s") * 86400.0, number_at(one, "day_volume_m3"),
                   1e-9);
    }
    CHECK(continuous_count > 0);
    qll_arena_close(arena);
}

/* --units holds for every figure that people read, the defaults among them. */
TEST(what_is_assumed_stands_in_the_units_asked_for)
{
    static const char *const wanted[] = {"us", "si"};
    static const char *const foreign[][3] = {{" bar", " m/s", " m"}, {" psi", " ft/s", " ft"}};
    for (size_t u = 0; u < 2; u++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        qll_question question = survey_question(QLL_VERB_DEMAND, "flats.json", NULL, arena);
        question.units = wanted[u];
        const qll_node *root = ask(&question, arena);
        const qll_node *one = root == NULL ? NULL : qll_node_find(root, "assumed")->first_child;
        size_t quantities = 0;
        for (; one != NULL; one = one->next) {
            const char *value = qll_text_closed(qll_node_find(one, "value")->text, arena);
            size_t size = strlen(value);
            for (size_t f = 0; f < 3; f++) {
                size_t end = strlen(foreign[u][f]);
                CHECK(size < end || strcmp(value + size - end, foreign[u][f]) != 0);
                end = strlen(foreign[1 - u][f]);
                quantities += size >= end && strcmp(value + size - end, foreign[1 - u][f]) == 0;
            }
        }
        CHECK(quantities >= 3);
        qll_arena_close(arena);
    }
}

static bool is_text(const qll_node *one, const qll_node *other, const char *key)
{
    return qll_text_equal(qll_node_find(one, key)->text, qll_node_find(other, key)->text);
}

/* How many of @p part a list of parts has. */
static double bought(const qll_node *cure, const char *part)
{
    double count = 0.0;
    for (const qll_node *one = qll_node_find(cure, "parts")->first_child; one != NULL;
         one = one->next) {
        CHECK(number_at(one, "count") >= 1.0);
        count +=
            qll_text_is(qll_node_find(one, "part")->text, part) ? number_at(one, "count") : 0.0;
    }
    return count;
}

/* A cure buys as many valves as it puts in, each with two unions; beside another it takes a tee at either end. */
static void check_parts(const qll_node *cure)
{
    const qll_text kind = qll_node_find(cure, "kind")->text;
    double valves = 0.0;
    for (const qll_node *stage =
             qll_node_find(qll_node_find(cure, "station"), "stages")->first_child;
         stage != NULL; stage = stage->next) {
        valves += (double)qll_node_find(stage, "branches")->child_count;
    }
    const bool is_one = qll_text_is(kind, "small-beside") || qll_text_is(kind, "smaller-valve")
                        || qll_text_is(kind, "stage-before");
    const double wanted = is_one ? 1.0 : qll_text_is(kind, "whole") ? valves : 0.0;
    CHECK(bought(cure, "reducing-valve") == wanted && bought(cure, "union") == 2.0 * wanted);
    CHECK(!qll_text_is(kind, "small-beside") || bought(cure, "tee") == 2.0);
    CHECK(!qll_text_is(kind, "smaller-valve") || bought(cure, "stop-valve") == 0.0);
}

/* What a cure is expected to cost is less than what is there, left as it is, if it can be left. */
static size_t count_cures(const qll_node *root)
{
    const double left = number_at(qll_node_find(root, "cost"), "expected");
    const bool may_stay = qll_node_find(root, "fit")->kind == QLL_NODE_TRUE;
    size_t count = 0;
    double before = 0.0;
    for (const qll_node *one = qll_node_find(root, "cures")->first_child; one != NULL;
         one = one->next) {
        check_parts(one);
        if (qll_node_find(one, "expected")->kind == QLL_NODE_NULL) {
            continue; /* not computed */
        }
        const double expected = number_at(one, "expected");
        CHECK(!may_stay || expected < left);
        CHECK(expected >= before);
        before = expected;
        count += 1;
    }
    return count;
}

/* Two scenarios short of pressure are one cause, and a cure that pays for nothing is none. */
TEST(no_cause_is_told_twice_and_every_cure_pays)
{
    static const struct {
        const char *survey, *catalogue, *inlet;
    } asked[] = {{"flats.json", "valves.json", NULL},
                 {"flats.json", "valves.json", "20 psi"},
                 {"warehouse.json", NULL, NULL}};

    size_t cause_count = 0;
    size_t cure_count = 0;
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        qll_question question =
            survey_question(QLL_VERB_CHECK, asked[i].survey, asked[i].catalogue, arena);
        question.inlet = asked[i].inlet;
        const qll_node *root = ask(&question, arena);
        const qll_node *one = root == NULL ? NULL : qll_node_find(root, "causes")->first_child;
        for (; one != NULL; one = one->next) {
            cause_count += 1;
            for (const qll_node *other = one->next; other != NULL; other = other->next) {
                CHECK(!is_text(one, other, "says"));
            }
        }
        cure_count += root == NULL ? 0 : count_cures(root);
        qll_arena_close(arena);
    }
    CHECK(cause_count > 2 && cure_count > 1);
}

static bool is_null(const qll_node *node, const char *key)
{
    const qll_node *child = qll_node_find(node, key);
    return child != NULL && child->kind == QLL_NODE_NULL;
}

/* A stage that cannot pass the flow is not quiet, and its valve is not stable. */
TEST(what_cannot_be_passed_has_no_figures)
{
    static const char *const keys[] = {"flow_m3s",     "opening", "kv_m3h",
                                       "velocity_m_s", "stable",  "full_travel"};
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = survey_question(QLL_VERB_CHECK, "flats.json", "valves.json", arena);
    question.flow = "2000 gpm";
    const qll_node *root = ask(&question, arena);
    const qll_node *point = root == NULL ? NULL : qll_node_find(root, "points")->first_child;
    if (CHECK(point != NULL) && CHECK(qll_node_find(point, "passes")->kind == QLL_NODE_FALSE)) {
        const qll_node *stage = qll_node_find(point, "stages")->first_child;
        CHECK(is_null(stage, "regime") && is_null(stage, "outlet_pa_gauge"));
        /* No main gives a pressure below none. */
        CHECK(is_null(point, "inlet_pa_gauge") && is_null(stage, "inlet_pa_gauge"));
        const qll_node *branch = qll_node_find(stage, "branches")->first_child;
        for (size_t k = 0; k < sizeof keys / sizeof keys[0]; k++) {
            CHECK(is_null(branch, keys[k]));
        }
    }
    qll_arena_close(arena);
}

static size_t count_too_large(const qll_node *root, double most_mm, size_t *seen)
{
    size_t count = 0;
    for (const qll_node *one = qll_node_find(root, "stations")->first_child; one != NULL;
         one = one->next) {
        if (qll_node_find(one, "fit")->kind != QLL_NODE_TRUE) {
            continue;
        }
        const qll_node *stage = qll_node_find(one, "stages")->first_child;
        for (; stage != NULL; stage = stage->next) {
            const qll_node *branch = qll_node_find(stage, "branches")->first_child;
            for (; branch != NULL; branch = branch->next) {
                count += number_at(branch, "nominal_mm") > most_mm;
                *seen += 1;
            }
        }
    }
    return count;
}

/* A hard rule of practice: of the service and the pipe of the station the smaller one is the limit, whichever it is; either
 * holds alone. 30 gpm want a 1-1/2 in valve where the pipe has room for it. */
TEST(no_valve_is_larger_than_the_pipe_it_is_put_in)
{
    static const struct {
        const char *service, *station; /* "" = not said */
        double most_mm;
    } pipes[] = {
        {"\"upstream\": [{\"pipe\": \"copper L\", \"nominal\": \"2 in\", \"length\": \"20 ft\"}], ",
         "\"nominal\": \"1 in\"", 26.0},
        {"\"upstream\": [{\"pipe\": \"copper L\", \"nominal\": \"1 in\", \"length\": \"20 ft\"}], ",
         "\"nominal\": \"2 in\"", 26.0},
        {"\"upstream\": [{\"pipe\": \"copper L\", \"nominal\": \"1 in\", \"length\": \"20 ft\"}], ",
         "", 26.0},
        {"", "\"nominal\": \"1 in\"", 26.0},
    };

    for (size_t i = 0; i < sizeof pipes / sizeof pipes[0]; i++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        char survey[1024];
        int size = snprintf(
            survey, sizeof survey,
            "{\"survey\": 1, \"supply\": {\"static_high\": \"120 psi\", \"flow_test\": [{\"flow\": "
            "\"0 gpm\", \"pressure\": \"115 psi\"}, {\"flow\": \"200 gpm\", \"pressure\": \"100 psi\"}]}, "
            "%s\"station_pipe\": {%s}, \"scenarios\": [{\"use\": \"apartment\", "
            "\"people\": 40, \"peak\": \"30 gpm\"}]}",
            pipes[i].service, pipes[i].station);
        qll_question question = {
            .verb = QLL_VERB_DESIGN,
            .form = QLL_FORM_JSON,
            .parts = "alternatives",
            .document = {.name = "s.json", .bytes = survey, .size = (size_t)size}};
        const qll_node *root = ask(&question, arena);
        size_t seen = 0;
        CHECK(root != NULL && count_too_large(root, pipes[i].most_mm, &seen) == 0 && seen > 0);
        qll_arena_close(arena);
    }
}

int main(void)
{
    TEST_RUN(the_hours_of_a_day_hold_all_its_water);
    TEST_RUN(what_is_assumed_stands_in_the_units_asked_for);
    TEST_RUN(no_cause_is_told_twice_and_every_cure_pays);
    TEST_RUN(what_cannot_be_passed_has_no_figures);
    TEST_RUN(no_valve_is_larger_than_the_pipe_it_is_put_in);
    return TEST_END();
}
