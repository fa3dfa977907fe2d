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
 * is handed over, are all tried. The argument "every" fails each one, which takes long. */
static size_t most_runs = 25;
static const size_t last_runs = 5;

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

static void fail_each(const qll_question *question, bool forever)
{
    qll_arena *arena = qll_arena_open(plenty);
    qll_answer whole;
    qll_status status = qll_ask(question, arena, &whole);
    size_t count = qll_arena_count(arena);
    CHECK(status == QLL_OK || status == QLL_REFUSED || status == QLL_WRONG_USE);
    size_t refused = 0;
    size_t wrong = 0;
    for (size_t run = 1, n = 1; n <= count; run++, n = after(n, run, count)) {
        qll_arena *scarce = qll_arena_open(plenty);
        qll_answer answer;
        qll_arena_fail(scarce, n, forever);
        qll_status got = qll_ask(question, scarce, &answer);
        bool said_so = got == QLL_NO_MEMORY && answer.bytes == NULL;
        refused += said_so ? 1 : 0;
        if (!said_so && !(got == status && is_same(&answer, &whole))) {
            printf("allocation %zu of %zu: status %d\n", n, count, (int)got);
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
    fail_each(question, false);
    fail_each(question, true);
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

/* The pages of a report have a way of their own out of the engine. */
TEST(pages_survive)
{
    qll_arena *arena = qll_arena_open(plenty);
    qll_question question = survey_question(QLL_VERB_REPORT, "flats.json", "valves.json", arena);
    qll_answer answer;
    qll_made_report made;
    CHECK(qll_make_report(&question, QLL_SHEETS_PDF, arena, &made, &answer) == QLL_OK);
    size_t count = qll_arena_count(arena);
    size_t items = made.pages->count;
    for (size_t n = 1; n <= count; n += count / most_runs + 1) {
        qll_arena *scarce = qll_arena_open(plenty);
        qll_arena_fail(scarce, n, n % 2 == 0);
        qll_status status = qll_make_report(&question, QLL_SHEETS_PDF, scarce, &made, &answer);
        CHECK(status == QLL_NO_MEMORY || (status == QLL_OK && made.pages->count == items));
        qll_arena_close(scarce);
    }
    qll_arena_close(arena);
}

TEST(recordings_survive)
{
    static const qll_form forms[] = {QLL_FORM_JSON, QLL_FORM_TEXT, QLL_FORM_HTML};
    const qll_recording recording = {
        .name = "hum.wav", .rate_hz = 8000, .channels = 1, .stream = hum};
    for (size_t i = 0; i < 3; i++) {
        qll_arena *arena = qll_arena_open(plenty);
        qll_question question = {.verb = QLL_VERB_LISTEN};
        if (i == 0) {
            question = survey_question(QLL_VERB_LISTEN, "flats.json", "valves.json", arena);
        }
        question.form = forms[i];
        question.recording = &recording;
        question.quiet = i == 1 ? &recording : NULL;
        fail_both(&question);
        qll_arena_close(arena);
    }
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
    fail_each(&question, false);
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
    qll_arena_close(arena);
}

int main(int argc, char **argv)
{
    if (argc > 1 && strcmp(argv[1], "every") == 0) {
        most_runs = SIZE_MAX;
    }
    TEST_RUN(questions_about_a_survey_survive);
    TEST_RUN(questions_about_a_log_survive);
    TEST_RUN(questions_about_a_case_survive);
    TEST_RUN(attachments_survive);
    TEST_RUN(reports_survive);
    TEST_RUN(pages_survive);
    TEST_RUN(recordings_survive);
    TEST_RUN(refusals_survive);
    TEST_RUN(calculations_survive);
    TEST_RUN(parts_and_figures_survive);
    TEST_RUN(import_survives);
    TEST_RUN(fit_survives);
    TEST_RUN(list_survives);
    TEST_RUN(describe_survives);
    TEST_RUN(questions_about_pressures_survive);
    return TEST_END();
}
