/* How long each kind of question goes on between two asks of its progress, and how far a stop is from its
 * answer: processor time. Budget: 100 ms, after which a page seems stuck. */
#include "quell/report.h"

#include "ask_files.h"
#include "attached.h"

#include <math.h>
#include <stdio.h>
#include <time.h>

static double now_s(void)
{
    return (double)clock() / (double)CLOCKS_PER_SEC;
}

/* What a run showed; stop_at 0 = it is never stopped. */
typedef struct watch {
    double last_s, longest_s, longest_at, told;
    size_t asks, stop_at;
    bool fell;
} watch;

static bool look(double share, void *context)
{
    watch *of = context;
    double now = now_s();
    if (now - of->last_s > of->longest_s) {
        of->longest_s = now - of->last_s;
        of->longest_at = share;
    }
    of->last_s = now;
    of->fell = of->fell || share < of->told;
    of->told = share;
    of->asks += 1;
    return of->asks != of->stop_at;
}

static void ask(qll_question *question, watch *of, qll_arena *arena)
{
    qll_answer answer;
    question->progress = look;
    question->progress_context = of;
    of->last_s = now_s();
    qll_made_report made;
    qll_status status = question->verb == QLL_VERB_REPORT
                            ? qll_make_report(question, QLL_SHEETS_PDF, arena, &made, &answer)
                            : qll_ask(question, arena, &answer);
    if (status != QLL_OK && status != QLL_STOPPED) {
        printf("refused: %s\n", answer.problem_count > 0 ? answer.problems[0].text : "");
    }
    double rest = now_s() - of->last_s;
    of->longest_s = rest > of->longest_s ? rest : of->longest_s;
}

static void run(const char *name, qll_verb verb, const char *folder, const char *file)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = {.verb = verb, .form = QLL_FORM_JSON};
    question.form = verb == QLL_VERB_REPORT ? QLL_FORM_TEXT : QLL_FORM_JSON;
    question.document = test_input_in(folder, file, arena);
    char path[512];
    (void)snprintf(path, sizeof path, "%s/tests/%s/last-tenant.csv", QUELL_ROOT, folder);
    qll_attachment log = {.name = "last-tenant.csv", .stream = attached_stream, .context = path};
    question.attachments = &log;
    question.attachment_count = 1;
    watch whole = {0};
    double start = now_s();
    ask(&question, &whole, arena);
    double took = now_s() - start;
    qll_arena_close(arena);
    double stopped_s = 0;
    for (size_t part = 1; part < 8; part++) {
        arena = qll_arena_open((size_t)1 << 30);
        watch stopped = {.stop_at = 1 + whole.asks * part / 8};
        question.document = test_input_in(folder, file, arena);
        ask(&question, &stopped, arena);
        stopped_s = fmax(stopped_s, now_s() - stopped.last_s);
        qll_arena_close(arena);
    }
    printf("%s,%.0f,%zu,%.1f,%.2f,%.1f,%s,%.3f\n", name, 1e3 * took, whole.asks,
           1e3 * whole.longest_s, whole.longest_at, 1e3 * stopped_s, whole.fell ? "yes" : "no",
           whole.told);
}

int main(void)
{
    printf("case,took_ms,asks,longest_ms,longest_at,stop_ms,fell,ends_at\n");
    run("design hospital", QLL_VERB_DESIGN, "panel/surveys", "hospital-60-180.json");
    run("report hospital", QLL_VERB_REPORT, "panel/surveys", "hospital-60-180.json");
    run("design 180 flats", QLL_VERB_DESIGN, "panel/surveys", "flats-180-125.json");
    run("design hillside", QLL_VERB_DESIGN, "../examples/hillside", "survey.json");
    run("check hillside", QLL_VERB_CHECK, "../examples/hillside", "survey.json");
    run("check repurposed building", QLL_VERB_CHECK, "../examples/repurposed-building",
        "survey.json");
    run("check metered", QLL_VERB_CHECK, "../examples/metered", "survey.json");
    run("demand metered", QLL_VERB_DEMAND, "../examples/metered", "survey.json");
    run("catalogue fit", QLL_VERB_FIT, "../examples/own-catalogue", "capacity.csv");
    return 0;
}
