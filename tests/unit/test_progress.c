/* Progress of every kind of question: it is asked throughout, never falls, ends at 1, and a stop is honoured at once.
 * Time is not measured here (bench/bench_progress.c): what is counted is the memory taken between two asks. */
#include "quell/report.h"

#include "ask_files.h"
#include "attached.h"
#include "check.h"

#include <string.h>

typedef struct watch {
    double told;
    size_t asks, asks_after_stop;
    size_t stop_at; /* 0 = never */
    bool fell, is_stopped;
} watch;

static bool look(double share, void *context)
{
    watch *of = context;
    of->asks_after_stop += of->is_stopped ? 1U : 0U;
    of->fell = of->fell || share < of->told || share > 1.0;
    of->told = share;
    of->asks += 1;
    of->is_stopped = of->is_stopped || of->asks == of->stop_at;
    return !of->is_stopped;
}

typedef struct asked_of {
    qll_verb verb;
    const char *folder, *file;
    size_t asks_least;
} asked_of;

static const asked_of questions[] = {
    {QLL_VERB_DEMAND, "../examples/metered", "survey.json", 40},
    {QLL_VERB_DESIGN, "../examples/repurposed-building", "survey.json", 100},
    {QLL_VERB_CHECK, "../examples/hillside", "survey.json", 100},
    {QLL_VERB_CHECK, "../examples/metered", "survey.json", 100},
    {QLL_VERB_REPORT, "../examples/house", "survey.json", 20},
};

static qll_status ask(const asked_of *of, watch *watched, qll_arena *arena, qll_answer *answer)
{
    char folder[512];
    qll_question question = {
        .verb = of->verb, .form = QLL_FORM_JSON, .progress = look, .progress_context = watched};
    question.document = test_input_in(of->folder, of->file, arena);
    (void)snprintf(folder, sizeof folder, "%s/tests/%s/", QUELL_ROOT, of->folder);
    attach_from(&question, folder, arena);
    return qll_ask(&question, arena, answer);
}

TEST(the_share_never_falls_and_ends_at_one)
{
    for (size_t i = 0; i < sizeof questions / sizeof questions[0]; i++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        watch watched = {0};
        qll_answer answer;
        CHECK(ask(&questions[i], &watched, arena, &answer) == QLL_OK);
        CHECK(!watched.fell);
        CHECK(watched.told == 1.0);
        CHECK(watched.asks >= questions[i].asks_least);
        qll_arena_close(arena);
    }
}

static bool says_stopped(const qll_answer *answer)
{
    return answer->bytes != NULL && strstr(answer->bytes, "\"stopped\": true") != NULL;
}

/* Stops at asks spread over the whole run; the last ask comes with the answer in hand. */
TEST(a_stop_is_honoured_and_not_asked_again)
{
    for (size_t i = 0; i < sizeof questions / sizeof questions[0]; i++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        watch whole = {0};
        qll_answer answer;
        CHECK(ask(&questions[i], &whole, arena, &answer) == QLL_OK);
        qll_arena_close(arena);
        const size_t parts = 10 / TEST_ONE_IN + 2;
        for (size_t part = 0; part < parts; part++) {
            arena = qll_arena_open((size_t)1 << 30);
            watch stopped = {.stop_at = 1 + (whole.asks - 2) * part / (parts - 1)};
            qll_status status = ask(&questions[i], &stopped, arena, &answer);
            CHECK(stopped.asks == stopped.stop_at);
            CHECK(stopped.asks_after_stop == 0);
            CHECK(status == QLL_STOPPED || (status == QLL_OK && says_stopped(&answer)));
            CHECK(status == QLL_OK || answer.bytes == NULL);
            qll_arena_close(arena);
        }
    }
}

/* A design that is stopped while it looks for what it hangs on does not say that nothing matters. */
TEST(what_a_stopped_design_hangs_on_is_left_out)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    watch whole = {0};
    qll_answer answer;
    CHECK(ask(&questions[1], &whole, arena, &answer) == QLL_OK);
    CHECK(strstr(answer.bytes, "\"hangs_on\"") != NULL);
    watch stopped = {.stop_at = whole.asks / 2};
    CHECK(ask(&questions[1], &stopped, arena, &answer) == QLL_OK);
    CHECK(says_stopped(&answer));
    CHECK(strstr(answer.bytes, "\"hangs_on\"") == NULL);
    CHECK(strstr(answer.bytes, "\"recommended\": 0") != NULL);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(the_share_never_falls_and_ends_at_one);
    TEST_RUN(a_stop_is_honoured_and_not_asked_again);
    TEST_RUN(what_a_stopped_design_hangs_on_is_left_out);
    return TEST_END();
}
