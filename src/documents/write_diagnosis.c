#include "documents/write_diagnosis.h"

#include "base/count.h"
#include "documents/write_common.h"
#include "wording/says_trouble.h"

#include <math.h>

typedef struct writing {
    qll_json *json;
    const qll_diagnosed *findings;
    qll_wording wording;
} writing;

static const qll_evidence *evidence_of(const writing *of, size_t evidence)
{
    return &of->findings->knowledge->evidence[evidence];
}

static const char *cause_word(const writing *of, size_t cause)
{
    return of->findings->knowledge->causes[cause].word;
}

static void put_said(const writing *of, const char *key, qll_said said)
{
    if (said.id == QLL_TEXT_NONE) {
        qll_json_put_null(of->json, key);
    } else {
        qll_json_put_said(of->json, key, &of->wording, &said);
    }
}

/* A question and what was answered, as words and as they are said. */
static void put_answered(const writing *of, size_t evidence)
{
    const qll_evidence *asked = evidence_of(of, evidence);
    const size_t outcome = of->findings->gathered->answers[evidence];
    qll_json_put_text(of->json, "evidence", asked->word);
    qll_json_put_text(of->json, "answer", asked->outcomes[outcome].word);
}

static void put_reasons(const writing *of, const qll_ranked_cause *cause)
{
    qll_json_put_list(of->json, "because");
    for (size_t i = 0; i < cause->reason_count; i++) {
        qll_json_open_object(of->json);
        put_answered(of, cause->reasons[i].evidence);
        qll_json_put_number(of->json, "times", cause->reasons[i].times);
        qll_json_close_object(of->json);
    }
    qll_json_close_list(of->json);
}

static void put_causes(const writing *of)
{
    const qll_diagnosis *diagnosis = of->findings->diagnosis;
    qll_json_put_list(of->json, "causes");
    for (size_t i = 0; i < diagnosis->cause_count; i++) {
        const qll_ranked_cause *cause = &diagnosis->causes[i];
        qll_json_open_object(of->json);
        qll_json_put_text(of->json, "cause", cause_word(of, cause->cause));
        qll_json_put_number(of->json, "probability", cause->probability);
        put_said(of, "says", qll_cause_said(of->findings->knowledge, cause->cause));
        put_reasons(of, cause);
        qll_json_close_object(of->json);
    }
    qll_json_close_list(of->json);
}

static void put_two(const writing *of)
{
    const qll_two_faults *two = &of->findings->diagnosis->two;
    qll_json_put_object(of->json, "two_faults");
    qll_json_put_number(of->json, "probability", two->share);
    qll_json_put_list(of->json, "causes");
    if (two->first != QLL_NOT_KNOWN) {
        qll_json_text(of->json, cause_word(of, two->first));
        qll_json_text(of->json, cause_word(of, two->second));
    }
    qll_json_close_list(of->json);
    qll_json_put_number(of->json, "pair_probability", two->pair_share);
    qll_json_close_object(of->json);
}

static void put_dangers(const writing *of)
{
    static const char *const words[QLL_DANGER_COUNT] = {
        [QLL_DANGER_RELIEF_RUNS] = "relief-runs",
        [QLL_DANGER_OUTLET_HIGH] = "outlet-high",
        [QLL_DANGER_ABOVE_INLET] = "above-inlet",
    };
    qll_json_put_list(of->json, "dangers");
    for (unsigned danger = 0; danger < QLL_DANGER_COUNT; danger++) {
        if ((of->findings->gathered->dangers & (1U << danger)) != 0) {
            qll_json_open_object(of->json);
            qll_json_put_text(of->json, "danger", words[danger]);
            put_said(of, "says", qll_danger_said(of->findings->gathered, (qll_danger)danger));
            qll_json_close_object(of->json);
        }
    }
    qll_json_close_list(of->json);
}

static void put_known(const writing *of)
{
    const qll_gathered *gathered = of->findings->gathered;
    qll_json_put_list(of->json, "known");
    for (size_t e = 0; e < of->findings->knowledge->evidence_count; e++) {
        if (gathered->answers[e] == QLL_NOT_KNOWN) {
            continue;
        }
        qll_json_open_object(of->json);
        put_answered(of, e);
        qll_json_put_text(of->json, "from", qll_answer_from_words[gathered->from[e]]);
        qll_json_put_figure(of->json, "figure", gathered->figures[e]);
        put_said(of, "asks", qll_question_said(evidence_of(of, e)));
        put_said(of, "says", qll_answer_said(evidence_of(of, e), gathered->answers[e]));
        qll_json_close_object(of->json);
    }
    qll_json_close_list(of->json);
}

static void put_unused(const writing *of)
{
    const qll_gathered *gathered = of->findings->gathered;
    qll_json_put_list(of->json, "unused");
    for (size_t i = 0; i < gathered->unused_count; i++) {
        const qll_unused *unused = &gathered->unused[i];
        qll_json_open_object(of->json);
        qll_json_put_text(of->json, qll_finding_keys[unused->finding->of], unused->finding->word);
        qll_json_put_text(of->json, "why", qll_unused_words[unused->why]);
        put_said(of, "says",
                 qll_unused_said(of->wording.language, of->findings->knowledge, gathered, unused,
                                 of->json->writer->arena));
        qll_json_close_object(of->json);
    }
    qll_json_close_list(of->json);
}

static void put_doubts(const writing *of)
{
    const qll_diagnosis *diagnosis = of->findings->diagnosis;
    qll_json_put_list(of->json, "doubts");
    for (size_t i = 0; i < diagnosis->doubt_count; i++) {
        qll_json_open_object(of->json);
        put_answered(of, diagnosis->doubts[i]);
        qll_json_close_object(of->json);
    }
    qll_json_close_list(of->json);
}

static void put_answers(const writing *of, const qll_evidence *evidence)
{
    qll_json_put_list(of->json, "answers");
    for (size_t o = 0; o < evidence->outcome_count; o++) {
        qll_json_open_object(of->json);
        qll_json_put_text(of->json, "answer", evidence->outcomes[o].word);
        put_said(of, "says", qll_answer_said(evidence, o));
        qll_json_close_object(of->json);
    }
    qll_json_close_list(of->json);
}

static void put_next(const writing *of)
{
    const qll_next_tests *next = &of->findings->diagnosis->next;
    qll_json_put_bool(of->json, "done", next->is_done);
    qll_json_put_list(of->json, "next");
    for (size_t i = 0; i < next->count; i++) {
        const qll_next_test *test = &next->tests[i];
        const qll_evidence *evidence = evidence_of(of, test->evidence);
        qll_json_open_object(of->json);
        qll_json_put_text(of->json, "test", evidence->word);
        qll_json_put_text(of->json, "kind", qll_evidence_kind_words[evidence->kind]);
        qll_json_put_number(of->json, "gain_bits", test->gain_bits);
        qll_json_put_number(of->json, "worth_hours", test->worth_hours);
        qll_json_put_number(of->json, "net_hours", test->net_hours);
        qll_json_put_number(of->json, "minutes", evidence->minutes);
        put_said(of, "asks", qll_question_said(evidence));
        put_said(of, "how", qll_question_how_said(evidence));
        qll_json_put_text_or_null(of->json, "caution",
                                  qll_question_caution(of->wording.language, evidence));
        put_answers(of, evidence);
        qll_json_close_object(of->json);
    }
    qll_json_close_list(of->json);
}

static void put_cure(const writing *of)
{
    const qll_cure *cure = of->findings->cure;
    const qll_check_findings *check = of->findings->check;
    if (cure == NULL) {
        qll_json_put_null(of->json, "station");
        return;
    }
    qll_wording wording = of->wording;
    wording.site = &of->findings->survey->site;
    wording.duty = check->duty;
    wording.currency = check->catalogue->currency;
    qll_json_put_object(of->json, "station");
    qll_json_put_text(of->json, "kind", qll_cure_words[cure->kind]);
    qll_json_put_station_name(of->json, "name", &wording, &cure->station);
    qll_json_put_layout(of->json, &cure->station);
    qll_json_put_figure(of->json, "installed", cure->cost.installed);
    qll_json_put_figure(of->json, "callback_share", cure->cost.callback_share);
    qll_json_put_figure(of->json, "callback_share_now", check->cures->now.callback_share);
    qll_json_put_figure(of->json, "expected", cure->cost.expected);
    qll_writer says = qll_writer_new(of->json->writer->arena);
    qll_wording_cure(&says, &wording, check->cures, check->station, cure);
    qll_json_put_written(of->json, "says", &says);
    qll_json_close_object(of->json);
}

/* None while nothing is likely enough. */
static void put_remedies(const writing *of)
{
    const qll_knowledge *knowledge = of->findings->knowledge;
    const size_t action = of->findings->diagnosis->action;
    qll_json_put_list(of->json, "remedies");
    if (action != QLL_NOT_KNOWN) {
        const qll_cause *cause = &knowledge->causes[action];
        qll_json_open_object(of->json);
        qll_json_put_text(of->json, "cause", cause->word);
        qll_json_put_number(of->json, "hours", cause->hours);
        put_said(of, "says", qll_cause_cure_said(knowledge, action));
        qll_json_put_text_or_null(
            of->json, "confirm",
            cause->confirm == QLL_NOT_KNOWN ? NULL : knowledge->evidence[cause->confirm].word);
        put_cure(of);
        qll_json_close_object(of->json);
    }
    qll_json_close_list(of->json);
}

static void put_head(const writing *of, const char *verb)
{
    static const qll_said sources[] = {{.id = QLL_TEXT_SOURCE_JUDGED},
                                       {.id = QLL_TEXT_SOURCE_WORTH}};
    qll_json_put_head(of->json, verb, &of->wording, of->findings->problems);
    qll_json_put_parents(of->json, &of->wording, of->findings->assumed, sources,
                         QLL_COUNT(sources));
}

static void put_all(const writing *of)
{
    qll_json_put_text(of->json, "name", of->findings->of->name);
    put_dangers(of);
    put_causes(of);
    put_two(of);
    put_doubts(of);
    put_known(of);
    put_unused(of);
    put_next(of);
    put_remedies(of);
}

static writing writing_of(qll_json *json, const qll_diagnosed *findings)
{
    return (writing){
        .json = json,
        .findings = findings,
        .wording = {.units = findings->survey->units, .language = findings->language},
    };
}

void qll_diagnosis_write(qll_json *json, const qll_diagnosed *findings)
{
    const writing of = writing_of(json, findings);
    qll_json_open_object(json);
    put_head(&of, "diagnose");
    put_all(&of);
    qll_json_close_object(json);
}

void qll_visit_write(qll_json *json, const qll_diagnosed *findings, const qll_report_facts *facts)
{
    const writing of = writing_of(json, findings);
    qll_json_open_object(json);
    put_head(&of, "report");
    const qll_demand_findings demand = {.provenance = findings->provenance,
                                        .survey = findings->survey,
                                        .language = findings->language};
    qll_json_put_made(json, facts, &demand);
    put_all(&of);
    qll_json_close_object(json);
}
