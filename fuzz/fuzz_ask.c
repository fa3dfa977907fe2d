/* A survey in, through the whole engine: what demand and check answer reads back as JSON, what they
 * print is clean text, what they find can be (answer_holds.h), what they refuse they refuse with a sentence, and a report is a clean page whose
 * tags are ours alone, and lies within its paper. */
#include "quell/quell.h"
#include "quell/report.h"

#include "answer_holds.h"

#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* Every file that a survey names is this one: a minute of pulses and a column of flow. */
static qll_status stream(void *unused, qll_bytes_sink *sink, void *context, const char **why)
{
    static const char log[] = "Time,Pulses,Flow (gpm)\n"
                              "25-03-04 07:00:00,0,0\n25-03-04 07:00:04,2,1.5\n"
                              "25-03-04 07:00:08,1,0.8\n25-03-04 07:00:12,9,6.2\n"
                              "25-03-04 07:00:32,0,-1\n25-03-04 07:00:36,3,2.1\n";
    (void)unused;
    *why = "";
    return sink(context, log, sizeof log - 1);
}

static void attach(qll_question *question, qll_arena *arena)
{
    const char *const *names = NULL;
    size_t count = 0;
    qll_status status = qll_attachments_of(&question->document, arena, &names, &count);
    QLL_REQUIRE(status == QLL_OK || status == QLL_NO_MEMORY);
    qll_attachment *list = qll_arena_take(arena, count, sizeof *list);
    for (size_t i = 0; list != NULL && i < count; i++) {
        list[i] = (qll_attachment){.name = names[i], .stream = stream};
    }
    question->attachments = list;
    question->attachment_count = list == NULL ? 0 : count;
}

/* Every part by turns, all of them every other time. */
static const char *parts_of(qll_verb verb, qll_text survey)
{
    static const char *const demand[] = {"estimates", "duration,hours", "log", "comparison"};
    static const char *const check[] = {"points", "verdicts,causes", "noise,maps", "ladder,cures"};
    if (survey.size % 2 == 0) {
        return NULL;
    }
    return (verb == QLL_VERB_DEMAND ? demand : check)[survey.size / 2 % 4];
}

static void ask(qll_verb verb, qll_form form, qll_text survey)
{
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    qll_question question = {
        .verb = verb,
        .form = form,
        .document = {.name = "survey.json", .bytes = survey.bytes, .size = survey.size},
        .figures = form == QLL_FORM_JSON && survey.size % 4 == 0 ? "all" : NULL,
        .parts = parts_of(verb, survey),
    };
    attach(&question, arena);
    qll_answer answer;
    qll_status status = qll_ask(&question, arena, &answer);
    require_answered(status, form, &answer, arena);
    qll_arena_close(arena);
}

/* A short catalogue, so that the search takes no time. */
static const char valves[] =
    "{\"catalogue\": 1, \"valves\": [{\"id\": \"<v>\", \"nominal\": \"1 in\", \"acting\": "
    "\"direct\", \"kv\": \"6 m3/h\", \"set_range\": [\"20 psi\", \"90 psi\"], \"inlet_max\": "
    "\"300 psi\", \"band\": \"12 psi\"}]}";

static void require_page(const qll_answer *answer)
{
    require_clean_text((qll_text){answer->bytes, answer->size});
    static const char end[] = "</main>\n</body>\n</html>\n";
    QLL_REQUIRE(answer->size > sizeof end);
    QLL_REQUIRE(strcmp(answer->bytes + answer->size - (sizeof end - 1), end) == 0);
    QLL_REQUIRE(strstr(answer->bytes, "<script") == NULL);
}

static void require_point_within(const qll_canvas *pages, qll_xy at)
{
    QLL_REQUIRE(at.x_mm >= 0 && at.x_mm <= pages->width_mm);
    QLL_REQUIRE(at.y_mm >= 0 && at.y_mm <= pages->height_mm);
}

static void require_within(const qll_canvas *pages)
{
    for (size_t i = 0; i < pages->count; i++) {
        const qll_item *item = &pages->items[i];
        for (size_t p = 0; p < item->point_count; p++) {
            require_point_within(pages, item->points[p]);
        }
    }
}

static void ask_report(qll_text survey)
{
    static const char *const answers[] = {"design", "check", "demand"};
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    qll_question question = {
        .verb = QLL_VERB_REPORT,
        .of = answers[survey.size % 3],
        .form = QLL_FORM_HTML,
        .language = survey.size % 2 == 0 ? "en" : "es",
        .document = {.name = "survey.json", .bytes = survey.bytes, .size = survey.size},
        .catalogue = {.name = "valves.json", .bytes = valves, .size = sizeof valves - 1},
    };
    qll_answer answer;
    qll_made_report made;
    qll_status status = qll_ask(&question, arena, &answer);
    QLL_REQUIRE(status == QLL_OK || status == QLL_REFUSED || status == QLL_NO_MEMORY);
    if (status == QLL_OK) {
        require_page(&answer);
        question.form = QLL_FORM_JSON;
        status = qll_make_report(&question, QLL_SHEETS_PDF, arena, &made, &answer);
        QLL_REQUIRE(status == QLL_OK || status == QLL_NO_MEMORY);
    }
    if (status == QLL_OK) {
        qll_text json;
        require_within(made.pages);
        status = qll_report_tell(&made, "sheets.pdf", 1, arena, &json);
        QLL_REQUIRE(status == QLL_OK || status == QLL_NO_MEMORY);
    }
    qll_arena_close(arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    qll_text survey = {size == 0 ? "" : (const char *)data, size};
    ask(QLL_VERB_DEMAND, QLL_FORM_JSON, survey);
    ask(QLL_VERB_CHECK, QLL_FORM_JSON, survey);
    ask(QLL_VERB_CHECK, QLL_FORM_TEXT, survey);
    ask_report(survey);
    return 0;
}
