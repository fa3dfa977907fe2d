/* What is heard in a recording at a time of its own: the sheet lists the first, and says how many more there are. */
#include "quell/quell.h"

#include "base/document.h"
#include "check.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define TEST_RATE   8000
#define TEST_BLOWS  24
#define TEST_APART  4
#define TEST_LISTED 20

/* Faint noise, and a blow every four seconds: a deep note that dies away. */
static qll_status blows(void *context, qll_samples_sink *sink, void *sink_context, const char **why)
{
    static float block[TEST_RATE];
    unsigned state = 1;
    (void)context;
    (void)why;
    for (size_t second = 0; second < (size_t)TEST_APART * TEST_BLOWS; second++) {
        for (size_t j = 0; j < TEST_RATE; j++) {
            const double since_s = ((double)j - 0.5 * TEST_RATE) / TEST_RATE;
            const bool is_on = since_s >= 0.0 && second % TEST_APART == 2;
            const double blow =
                is_on ? 0.4 * exp(-since_s / 0.03) * sin(6.283185307179586 * 150.0 * since_s) : 0.0;
            state = 1103515245U * state + 12345U;
            block[j] = (float)(blow + 0.01 * ((double)(state >> 16) / 65536.0 - 0.5));
        }
        const qll_status status = sink(sink_context, block, TEST_RATE);
        if (status != QLL_OK) {
            return status;
        }
    }
    return QLL_OK;
}

static qll_answer listened(qll_form form, qll_arena *arena)
{
    static const qll_recording recording = {
        .name = "blows.wav", .rate_hz = TEST_RATE, .channels = 1, .stream = blows};
    const qll_question question = {.verb = QLL_VERB_LISTEN, .form = form, .recording = &recording};
    qll_answer answer = {0};
    CHECK(qll_ask(&question, arena, &answer) == QLL_OK);
    return answer;
}

TEST(a_long_list_of_blows_says_how_long_it_is)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 28);
    const qll_answer json = listened(QLL_FORM_JSON, arena);
    size_t told = 0;
    for (const char *at = json.bytes; (at = strstr(at, "\"height_db\"")) != NULL; at++) {
        told += 1;
    }
    CHECK(told == TEST_BLOWS);
    const qll_answer text = listened(QLL_FORM_TEXT, arena);
    char wanted[64];
    snprintf(wanted, sizeof wanted, "And %d more", TEST_BLOWS - TEST_LISTED);
    if (!CHECK(strstr(text.bytes, wanted) != NULL)) {
        printf("%s\n", text.bytes);
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(a_long_list_of_blows_says_how_long_it_is);
    return TEST_END();
}
