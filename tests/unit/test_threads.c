/* Threads that ask at once, each with an arena of its own, get what one alone gets. */
#include "ask_files.h"
#include "check.h"

#include <pthread.h>
#define TEST_THREADS 8

typedef struct asking {
    qll_question question;
    qll_arena *arena;
    qll_answer answer;
    qll_status status;
} asking;

static void *ask(void *context)
{
    asking *one = context;
    one->status = qll_ask(&one->question, one->arena, &one->answer);
    return NULL;
}

static void prepare(asking *all, qll_arena *arena)
{
    static const char *const flow[] = {"flow=12gpm", "bore=1in"};
    static const qll_verb verbs[TEST_THREADS] = {QLL_VERB_DEMAND, QLL_VERB_CHECK,  QLL_VERB_DEMAND,
                                                 QLL_VERB_CALC,   QLL_VERB_REPORT, QLL_VERB_CHECK,
                                                 QLL_VERB_LIST,   QLL_VERB_DEMAND};
    for (size_t i = 0; i < TEST_THREADS; i++) {
        const char *catalogue = verbs[i] == QLL_VERB_DEMAND ? NULL : "valves.json";
        qll_question *question = &all[i].question;
        all[i].arena = qll_arena_open((size_t)256 << 20);
        *question = survey_question(verbs[i], "flats.json", catalogue, arena);
        question->form = i % 2 == 0 ? QLL_FORM_JSON : QLL_FORM_TEXT;
        question->language = i % 3 == 0 ? "es" : "en";
        question->units = i % 2 == 0 ? "si" : "us";
        if (verbs[i] == QLL_VERB_REPORT) {
            question->of = "demand";
        }
        if (verbs[i] == QLL_VERB_CALC) {
            question->calc = "velocity";
            question->arguments = flow;
            question->argument_count = 2;
        }
    }
}

TEST(eight_threads_are_answered_as_one_is)
{
    asking alone[TEST_THREADS];
    asking together[TEST_THREADS];
    pthread_t threads[TEST_THREADS];
    bool started[TEST_THREADS];
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    prepare(alone, arena);
    prepare(together, arena);
    for (size_t i = 0; i < TEST_THREADS; i++) {
        started[i] = CHECK(pthread_create(&threads[i], NULL, ask, &together[i]) == 0);
    }
    for (size_t i = 0; i < TEST_THREADS; i++) {
        (void)ask(&alone[i]);
        if (started[i]) {
            pthread_join(threads[i], NULL);
        }
        CHECK(alone[i].status == QLL_OK && together[i].status == QLL_OK);
        CHECK(alone[i].answer.size == together[i].answer.size);
        CHECK((alone[i].answer.bytes == NULL) == (together[i].answer.bytes == NULL));
        CHECK(alone[i].answer.bytes == NULL
              || memcmp(alone[i].answer.bytes, together[i].answer.bytes, alone[i].answer.size)
                     == 0);
        qll_arena_close(alone[i].arena);
        qll_arena_close(together[i].arena);
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(eight_threads_are_answered_as_one_is);
    return TEST_END();
}
