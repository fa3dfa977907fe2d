/* A log "B" of 2 days at 1 min, 2880 rows, made up, and what `quell demand` says of it in any form. */
#ifndef QUELL_TESTS_LOG_ASK_H
#define QUELL_TESTS_LOG_ASK_H

#include "quell/quell.h"

#include "base/document.h"
#include "base/text.h"
#include "check.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define TEST_ROWS 2880

static const double gpm = 3.785411784e-3 / 60.0;

/* A log that grows, and the answer to a question about it. */
typedef struct scene {
    qll_arena *arena;
    qll_writer log;
    qll_text bytes;
    qll_status status;
    qll_answer answer;
    const qll_node *root, *scenario, *of_log;
} scene;

static inline scene begin(const char *header)
{
    scene at = {.arena = qll_arena_open((size_t)512 << 20)};
    at.log = qll_writer_new(at.arena);
    qll_write(&at.log, header);
    return at;
}

static inline qll_status stream(void *text, qll_bytes_sink *sink, void *context, const char **why)
{
    const qll_text *bytes = text;
    *why = "";
    return sink(context, bytes->bytes, bytes->size);
}

/* Asks; @p format is the inside of "log_format". */
static inline void ask_verb(scene *at, const char *format, qll_verb verb)
{
    qll_writer survey = qll_writer_new(at->arena);
    qll_write(&survey, "{\"survey\": 1, \"supply\": {\"static_high\": \"100 psi\", \"flow_test\": ["
                       "{\"flow\": \"0 gpm\", \"pressure\": \"95 psi\"},"
                       "{\"flow\": \"500 gpm\", \"pressure\": \"90 psi\"}]},"
                       "\"scenarios\": [{\"log\": \"b.csv\", \"log_format\": {");
    qll_write(&survey, format);
    qll_write(&survey, "}}]}");
    const qll_text document = qll_writer_text(&survey);
    at->bytes = qll_writer_text(&at->log);
    const qll_attachment attachment = {.name = "b.csv", .stream = stream, .context = &at->bytes};
    const qll_question question = {.verb = verb,
                                   .form = QLL_FORM_JSON,
                                   .document = {"survey.json", document.bytes, document.size},
                                   .attachments = &attachment,
                                   .attachment_count = 1};
    at->status = qll_ask(&question, at->arena, &at->answer);
    qll_document *read = qll_arena_take(at->arena, 1, sizeof *read);
    qll_problems problems = qll_problems_none(at->arena);
    if (!CHECK(at->answer.bytes != NULL)) {
        exit(1);
    }
    const qll_text answer = {at->answer.bytes, at->answer.size};
    CHECK(qll_document_read(answer, "answer", at->arena, read, &problems) == QLL_OK);
    at->root = read->root;
    if (at->status == QLL_OK) {
        at->scenario = qll_node_find(read->root, "scenarios")->first_child;
        at->of_log = qll_node_find(at->scenario, "log");
    }
}

static inline void ask(scene *at, const char *format)
{
    ask_verb(at, format, QLL_VERB_DEMAND);
}

static inline void end(scene *at)
{
    qll_arena_close(at->arena);
}

static inline double number(const qll_node *node, const char *key)
{
    const qll_node *child = qll_node_find(node, key);
    return child != NULL && child->kind == QLL_NODE_NUMBER ? child->number : (double)NAN;
}

static inline bool is_said(const scene *at, const char *part)
{
    for (size_t i = 0; i < at->answer.problem_count; i++) {
        if (strstr(at->answer.problems[i].text, part) != NULL
            || strstr(at->answer.problems[i].hint, part) != NULL) {
            return true;
        }
    }
    return false;
}

static inline bool is_refused(const scene *at, qll_code code, const char *part)
{
    const bool good = CHECK(at->status == QLL_REFUSED && at->answer.problem_count > 0)
                      && CHECK(at->answer.problems[0].code == code) && CHECK(is_said(at, part));
    for (size_t i = 0; !good && i < at->answer.problem_count; i++) {
        printf("    %s; %s\n", at->answer.problems[i].text, at->answer.problems[i].hint);
    }
    return good;
}

static inline double mended(const scene *at, const char *word)
{
    return number(qll_node_find(at->of_log, "mended"), word);
}

/* ---- the log ---- */

/* Uses of some minutes: 16 % of the time, from 1 to 17 gpm; five more at noon. */
static inline double flow_gpm(size_t minute)
{
    const size_t use = minute / 6;
    const size_t kind = use * 7919 % 43;
    const double flow = kind < 7 && minute % 6 < 5 ? 1.0 + (double)(use * 31 % 97) / 10.0 : 0.0;
    return flow + (minute % 1440 >= 720 && minute % 1440 < 725 ? 6.0 : 0.0);
}

static inline double mean_gpm(void)
{
    double sum = 0.0;
    for (size_t i = 0; i < TEST_ROWS; i++) {
        sum += flow_gpm(i);
    }
    return sum / TEST_ROWS;
}

static inline void stamp(scene *at, size_t minute, const char *form)
{
    qll_write_format(&at->log, "2024-07-%02zu ", 18 + minute / 1440);
    const size_t hour = minute / 60 % 24;
    qll_write_format(&at->log, "%02zu:%02zu:00",
                     strcmp(form, "12") == 0 ? (hour + 11) % 12 + 1 : hour, minute % 60);
}

static inline void row(scene *at, size_t minute, double value)
{
    stamp(at, minute, "24");
    qll_write_format(&at->log, ",%.3f\n", value);
}

static inline void check_mean(const scene *at, double want_gpm)
{
    if (CHECK(at->status == QLL_OK)) {
        CHECK_NEAR(number(at->scenario, "mean_flow_m3s"), want_gpm * gpm, 1e-6);
        return;
    }
    printf("    %s; %s\n", at->answer.problems[0].text, at->answer.problems[0].hint);
}

#endif
