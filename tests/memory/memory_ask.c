/* Every question with the nth allocation failing: it says so, or its answer is the whole answer. */
#include "quell/quell.h"
#include "quell/report.h"

#include "ask_files.h"
#include "attached.h"
#include "check.h"
#include "hum.h"

#include <math.h>
#include <stdint.h>

static const size_t plenty = (size_t)1 << 30;

/* More failing allocations than this per question are sampled, the early ones more densely: documents
 * are read there, while most of the later ones are draws of one kind. The last ones, where the answer
 * is handed over, are all tried. The argument "every" fails each one, which takes long; names of tests
 * behind it run these alone. */
static size_t most_runs = 25 / TEST_ONE_IN + 3;
static const size_t last_runs = 5;
static size_t failed_allocations;

static bool is_same(const qll_answer *a, const qll_answer *b)
{
    return a->size == b->size && a->problem_total == b->problem_total
           && (a->size == 0 || memcmp(a->bytes, b->bytes, a->size) == 0);
}

/* The allocation to fail next: their places grow with the square of the runs. */
static size_t after(size_t n, size_t run, size_t count)
{
    if (count <= most_runs || n + last_runs > count) {
        return n + 1;
    }
    double share = (double)run / (double)most_runs;
    size_t next = (size_t)(share * share * (double)count);
    next = next > n ? next : n + 1;
    return next + last_runs > count ? count - last_runs + 1 : next;
}

/* How it is asked: for an answer in the question's form, or for pages, which have a way of their own out of the
 * engine. */
typedef enum asked_for {
    QLL_AN_ANSWER,
    QLL_PAGES
} asked_for;

/* What came of it. */
typedef struct outcome {
    qll_status status;
    qll_answer answer;
    size_t pages, marks;
} outcome;

static outcome ask(const qll_question *question, asked_for what, qll_arena *arena)
{
    outcome got = {0};
    if (what == QLL_AN_ANSWER) {
        got.status = qll_ask(question, arena, &got.answer);
        return got;
    }
    qll_made_report made;
    got.status = qll_make_report(question, QLL_SHEETS_PDF, arena, &made, &got.answer);
    if (got.status == QLL_OK) {
        got.pages = made.pages->page_count;
        got.marks = made.pages->count;
    }
    return got;
}

static bool is_same_outcome(const outcome *a, const outcome *b)
{
    return a->status == b->status && is_same(&a->answer, &b->answer) && a->pages == b->pages
           && a->marks == b->marks;
}

static void fail_each(const qll_question *question, asked_for what, bool forever)
{
    qll_arena *arena = qll_arena_open(plenty);
    const outcome whole = ask(question, what, arena);
    size_t count = qll_arena_count(arena);
    CHECK(whole.status == QLL_OK || whole.status == QLL_REFUSED || whole.status == QLL_WRONG_USE);
    size_t refused = 0;
    size_t wrong = 0;
    for (size_t run = 1, n = 1; n <= count; run++, n = after(n, run, count)) {
        qll_arena *scarce = qll_arena_open(plenty);
        qll_arena_fail(scarce, n, forever);
        const outcome got = ask(question, what, scarce);
        failed_allocations += 1;
        bool said_so = got.status == QLL_NO_MEMORY && got.answer.bytes == NULL;
        refused += said_so ? 1 : 0;
        if (!said_so && !is_same_outcome(&got, &whole)) {
            printf("allocation %zu of %zu: status %d\n", n, count, (int)got.status);
            wrong += 1;
        }
        qll_arena_close(scarce);
    }
    CHECK(wrong == 0);
    CHECK(refused > 0);
    qll_arena_close(arena);
}

static void fail_both(const qll_question *question)
{
    fail_each(question, QLL_AN_ANSWER, false);
    fail_each(question, QLL_AN_ANSWER, true);
}

TEST(questions_about_a_survey_survive)
{
    static const qll_verb verbs[] = {QLL_VERB_DEMAND, QLL_VERB_DESIGN, QLL_VERB_CHECK};
    for (size_t i = 0; i < 6; i++) {
        qll_arena *arena = qll_arena_open(plenty);
        const char *catalogue = verbs[i % 3] == QLL_VERB_DEMAND ? NULL : "valves.json";
        qll_question question = survey_question(verbs[i % 3], "flats.json", catalogue, arena);
        question.form = i < 3 ? QLL_FORM_JSON : QLL_FORM_TEXT;
        fail_both(&question);
        qll_arena_close(arena);
    }
}

TEST(questions_about_a_log_survive)
{
    static const qll_verb verbs[] = {QLL_VERB_DEMAND, QLL_VERB_CHECK};
    for (size_t i = 0; i < 4; i++) {
        qll_arena *arena = qll_arena_open(plenty);
        const char *catalogue = verbs[i % 2] == QLL_VERB_DEMAND ? NULL : "valves.json";
        qll_question question = survey_question(verbs[i % 2], "metered.json", catalogue, arena);
        attach_from(&question, QUELL_ROOT "/tests/cli/", arena);
        CHECK(question.attachment_count == 1);
        question.form = i < 2 ? QLL_FORM_JSON : QLL_FORM_TEXT;
        fail_both(&question);
        qll_arena_close(arena);
    }
}

TEST(questions_about_a_case_survive)
{
    static const char visit[] =
        "{\"case\": 1, \"symptoms\": {\"sound_kind\": \"hiss\"},"
        "\"readings\": [{\"gauge\": \"inlet\", \"pressure\": \"90 psi\", \"flow\": \"0 gpm\"}],"
        "\"tests\": [{\"test\": \"creep_10min\", \"measured\": \"2 psi\"}],"
        "\"findings\": [{\"finding\": \"creep\", \"strength\": 0.7}]}";
    static const char closed[] = "{\"cases\": 1, \"closed\": [{\"case\": 1, \"symptoms\":"
                                 "{\"sound_kind\": \"hiss\"}, \"cause\": \"other\"}]}";
    for (int i = 0; i < 3; i++) {
        const bool is_learning = i == 2;
        const qll_question question = {
            .verb = is_learning ? QLL_VERB_LEARN : QLL_VERB_DIAGNOSE,
            .form = i == 1 ? QLL_FORM_TEXT : QLL_FORM_JSON,
            .document = {"case.json", is_learning ? closed : visit,
                         is_learning ? sizeof closed - 1 : sizeof visit - 1}};
        fail_both(&question);
    }
    qll_question sheets = {.verb = QLL_VERB_REPORT,
                           .form = QLL_FORM_HTML,
                           .of = "diagnose",
                           .document = {"case.json", visit, sizeof visit - 1}};
    fail_both(&sheets);
    sheets.form = QLL_FORM_TEXT;
    fail_each(&sheets, QLL_PAGES, false);
}

/* Listing the files of a survey. */
TEST(attachments_survive)
{
    qll_arena *arena = qll_arena_open(plenty);
    const qll_input survey = test_input("metered.json", arena);
    const char *const *names = NULL;
    size_t listed = 0;
    size_t before = qll_arena_count(arena);
    CHECK(qll_attachments_of(&survey, arena, &names, &listed) == QLL_OK && listed == 1);
    size_t count = qll_arena_count(arena) - before;
    for (size_t n = 1; n <= count; n++) {
        qll_arena_fail(arena, n, false);
        qll_status status = qll_attachments_of(&survey, arena, &names, &listed);
        failed_allocations += 1;
        CHECK(status == QLL_NO_MEMORY || (status == QLL_OK && listed == 1));
    }
    qll_arena_close(arena);
}

TEST(reports_survive)
{
    qll_arena *arena = qll_arena_open(plenty);
    qll_question question = survey_question(QLL_VERB_REPORT, "flats.json", "valves.json", arena);
    question.form = QLL_FORM_HTML;
    question.language = "es";
    fail_both(&question);
    question.of = "check";
    fail_both(&question);
    question.of = "demand";
    fail_both(&question);
    qll_arena_close(arena);
}

/* The pages of a report: each kind of sheet, of a small building. */
TEST(pages_survive)
{
    static const struct {
        const char *of, *survey;
    } kinds[] = {{"design", "house.json"}, {"check", "warehouse.json"}, {"demand", "house.json"}};

    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        qll_arena *arena = qll_arena_open(plenty);
        qll_question question =
            survey_question(QLL_VERB_REPORT, kinds[i].survey, i == 1 ? NULL : "valves.json", arena);
        question.of = kinds[i].of;
        fail_each(&question, QLL_PAGES, i == 1);
        qll_arena_close(arena);
    }
}

TEST(recordings_survive)
{
    static const qll_form forms[] = {QLL_FORM_JSON, QLL_FORM_TEXT};
    const qll_recording recording = {
        .name = "hum.wav", .rate_hz = 8000, .channels = 1, .stream = hum};
    for (size_t i = 0; i < 2; i++) {
        qll_arena *arena = qll_arena_open(plenty);
        qll_question question = {.verb = QLL_VERB_LISTEN};
        if (i == 0) {
            question = survey_question(QLL_VERB_LISTEN, "flats.json", "valves.json", arena);
        }
        question.form = forms[i];
        question.recording = &recording;
        question.quiet = i == 1 ? &recording : NULL;
        fail_both(&question);
        question.form = QLL_FORM_TEXT;
        fail_each(&question, QLL_PAGES, i == 1);
        qll_arena_close(arena);
    }
}

/* Of events the quickest. */
TEST(events_survive)
{
    qll_arena *arena = qll_arena_open(plenty);
    qll_question question =
        survey_question(QLL_VERB_SIMULATE, "../../examples/slam/survey.json", NULL, arena);
    question.event = "heater";
    fail_each(&question, QLL_AN_ANSWER, false);
    fail_each(&question, QLL_PAGES, true);
    qll_arena_close(arena);
}

TEST(refusals_survive)
{
    qll_arena *arena = qll_arena_open(plenty);
    qll_question question = survey_question(QLL_VERB_DEMAND, "refused.json", NULL, arena);
    fail_both(&question);
    question.form = QLL_FORM_TEXT;
    fail_both(&question);
    qll_arena_close(arena);
}

TEST(calculations_survive)
{
    static const char *const arguments[] = {"flow=12 gpm", "pipe=copper L", "nominal=3/4 in"};
    qll_question question = {
        .verb = QLL_VERB_CALC,
        .form = QLL_FORM_JSON,
        .calc = "velocity",
        .arguments = arguments,
        .argument_count = 3,
    };
    fail_both(&question);
    question.form = QLL_FORM_TEXT;
    fail_both(&question);
    static const char *const wrong[] = {"flw=12 gpm", "flow=-1 gpm", "pipe=coper L",
                                        "nominal=1 in"};
    question.arguments = wrong;
    question.argument_count = 4;
    fail_both(&question);
    qll_question list = {.verb = QLL_VERB_CALC, .form = QLL_FORM_JSON};
    fail_both(&list);
}

TEST(parts_and_figures_survive)
{
    qll_arena *arena = qll_arena_open(plenty);
    qll_question question = survey_question(QLL_VERB_DEMAND, "house.json", NULL, arena);
    question.parts = "hours, duration";
    question.figures = "all";
    fail_both(&question);
    question = survey_question(QLL_VERB_CHECK, "warehouse.json", NULL, arena);
    question.parts = "points";
    question.figures = "falloff,map,schematic";
    fail_both(&question);
    question.parts = "pionts";
    fail_each(&question, QLL_AN_ANSWER, false);
    qll_arena_close(arena);
}

TEST(import_survives)
{
    qll_arena *arena = qll_arena_open(plenty);
    qll_question question = survey_question(QLL_VERB_IMPORT, "valves.csv", NULL, arena);
    fail_both(&question);
    qll_arena_close(arena);
}

TEST(fit_survives)
{
    qll_arena *arena = qll_arena_open(plenty);
    qll_question question = survey_question(QLL_VERB_FIT, "capacity.csv", NULL, arena);
    fail_both(&question);
    question.form = QLL_FORM_TEXT;
    fail_both(&question);
    qll_arena_close(arena);
}

TEST(list_survives)
{
    qll_question question = {.verb = QLL_VERB_LIST, .form = QLL_FORM_JSON};
    fail_both(&question);
    question.form = QLL_FORM_TEXT;
    fail_both(&question);
}

TEST(describe_survives)
{
    qll_question question = {.verb = QLL_VERB_DESCRIBE, .form = QLL_FORM_JSON};
    fail_both(&question);
    question.form = QLL_FORM_TEXT;
    question.about = "survey";
    fail_both(&question);
    question.form = QLL_FORM_SCHEMA;
    question.about = "case";
    fail_both(&question);
}

TEST(questions_about_pressures_survive)
{
    static char path[] = QUELL_ROOT "/examples/pressure-log/night-rise.csv";
    const qll_attachment log = {.name = "log", .stream = attached_stream, .context = path};
    qll_arena *arena = qll_arena_open(plenty);
    qll_question question = {.verb = QLL_VERB_LOG, .form = QLL_FORM_JSON, .log = &log};
    fail_both(&question);
    const qll_question survey = survey_question(QLL_VERB_CHECK, "flats.json", "valves.json", arena);
    question.document = survey.document;
    question.catalogue = survey.catalogue;
    question.form = QLL_FORM_TEXT;
    fail_both(&question);
    fail_each(&question, QLL_PAGES, false);
    qll_arena_close(arena);
}

typedef struct named_test {
    const char *name;
    void (*run)(void);
} named_test;

#define TEST_NAMED(test) \
    {                    \
#        test, test      \
    }
static const named_test tests[] = {
    TEST_NAMED(questions_about_a_survey_survive),
    TEST_NAMED(questions_about_a_log_survive),
    TEST_NAMED(questions_about_a_case_survive),
    TEST_NAMED(attachments_survive),
    TEST_NAMED(reports_survive),
    TEST_NAMED(pages_survive),
    TEST_NAMED(recordings_survive),
    TEST_NAMED(events_survive),
    TEST_NAMED(refusals_survive),
    TEST_NAMED(calculations_survive),
    TEST_NAMED(parts_and_figures_survive),
    TEST_NAMED(import_survives),
    TEST_NAMED(fit_survives),
    TEST_NAMED(list_survives),
    TEST_NAMED(describe_survives),
    TEST_NAMED(questions_about_pressures_survive),
};

static bool is_asked_for(const char *name, int argc, char **argv)
{
    bool is_named = argc < 3;
    for (int i = 2; i < argc; i++) {
        is_named = is_named || strcmp(argv[i], name) == 0;
    }
    return is_named;
}

int main(int argc, char **argv)
{
    if (argc > 1 && strcmp(argv[1], "every") == 0) {
        most_runs = SIZE_MAX;
    }
    for (size_t i = 0; i < sizeof tests / sizeof *tests; i++) {
        if (is_asked_for(tests[i].name, argc, argv)) {
            const size_t so_far = failed_allocations;
            TEST_RUN(tests[i].run);
            printf("     %s: %zu allocations failed\n", tests[i].name, failed_allocations - so_far);
            (void)fflush(stdout);
        }
    }
    return TEST_END();
}
