/* From a case to what is wrong. */
#include "base/quote.h"
#include "base/words.h"
#include "documents/likelihood_document.h"
#include "documents/measured.h"
#include "documents/read_case.h"
#include "engine/diagnose.h"

#include <math.h>
#include <string.h>

/* ---- answers on the question itself ---- */

typedef struct arguing {
    qll_asked *asked;
    const qll_knowledge *knowledge;
    qll_made_test *tests; /* what the case holds, then what is said beside it: the last counts */
    size_t test_count;
    bool *skipped;
} arguing;

static void refuse(const arguing *of, qll_code code, const char *argument, const qll_said *says)
{
    qll_asked_refuse(of->asked, code, argument, says, NULL);
}

static void refuse_answer(const arguing *of, const char *argument, const qll_evidence *evidence,
                          qll_text answer)
{
    const char **words = qll_arena_take(of->asked->arena, evidence->outcome_count, sizeof *words);
    for (size_t o = 0; words != NULL && o < evidence->outcome_count; o++) {
        words[o] = evidence->outcomes[o].word;
    }
    refuse(of, QLL_CODE_UNKNOWN_WORD, argument,
           QLL_SAYS_WITH(
               NO_ANSWER, qll_as_quoted(answer),
               qll_as_words(of->asked->arena, words, words == NULL ? 0 : evidence->outcome_count)));
}

/* "7 psi" begins as no word of an answer does, but for one that is said whole: "1_to_5psi". */
static bool is_figure(const qll_evidence *evidence, qll_text answer)
{
    for (size_t o = 0; o < evidence->outcome_count; o++) {
        if (qll_text_is(answer, evidence->outcomes[o].word)) {
            return false;
        }
    }
    return evidence->is_measured && answer.size > 0
           && memchr("0123456789.-+", answer.bytes[0], 13) != NULL;
}

/* What @p answer says of @p evidence; an outcome that is not known is refused. */
static qll_made_test read_answer(const arguing *of, const char *argument, size_t evidence,
                                 qll_text answer)
{
    const qll_evidence *asked = &of->knowledge->evidence[evidence];
    qll_made_test said = {.evidence = evidence, .outcome = QLL_NOT_KNOWN, .measured = (double)NAN};
    qll_units_refusal refusal = {0};
    if (!is_figure(asked, answer)) {
        said.outcome = qll_outcome_called(asked, answer);
    } else if (qll_measured_read(answer, asked, of->asked->arena, &said.measured, &refusal)) {
        said.outcome = qll_outcome_of(asked, said.measured);
    } else {
        refuse(of, refusal.code, argument, &refusal.says);
        return said;
    }
    if (said.outcome == QLL_NOT_KNOWN) {
        refuse_answer(of, argument, asked, answer);
    }
    return said;
}

/* "sound_kind=squeal" or "creep_10min=7psi", said beside what the case holds; "sound_kind=?" is a question nobody can
 * answer. */
static void take_argument(arguing *of, const char *argument)
{
    const char *equals = strchr(argument, '=');
    const qll_text name = {argument,
                           equals == NULL ? strlen(argument) : (size_t)(equals - argument)};
    const size_t evidence = qll_evidence_called(of->knowledge, name);
    if (evidence == QLL_NOT_KNOWN || equals == NULL) {
        refuse(of, QLL_CODE_UNKNOWN_WORD, argument,
               QLL_SAYS_WITH(NO_QUESTION, qll_as_quoted(name)));
    } else if (strcmp(equals + 1, "?") == 0) {
        of->skipped[evidence] = true;
    } else {
        of->tests[of->test_count] =
            read_answer(of, argument, evidence, qll_text_trimmed(qll_text_of(equals + 1)));
        of->test_count += 1;
    }
}

static qll_status take_arguments(qll_asked *asked, const qll_knowledge *knowledge, qll_case *of,
                                 bool *skipped)
{
    const qll_question *question = asked->question;
    if (question->argument_count == 0) {
        return QLL_OK;
    }
    arguing all = {.asked = asked,
                   .knowledge = knowledge,
                   .tests = qll_arena_take(asked->arena, of->test_count + question->argument_count,
                                           sizeof *all.tests),
                   .test_count = of->test_count,
                   .skipped = skipped};
    if (all.tests == NULL) {
        return QLL_NO_MEMORY;
    }
    if (of->test_count > 0) {
        memcpy(all.tests, of->tests, of->test_count * sizeof *all.tests);
    }
    for (size_t i = 0; i < question->argument_count; i++) {
        take_argument(&all, question->arguments[i]);
    }
    of->tests = all.tests;
    of->test_count = all.test_count;
    return qll_problems_status(&asked->problems);
}

/* ---- what the survey tells ---- */

static void know(qll_case *of, qll_site_has has, bool is_so)
{
    if ((of->site_told & QLL_SITE_HAS_BIT(has)) == 0) {
        of->site |= is_so ? QLL_SITE_HAS_BIT(has) : 0U;
    }
}

static void learn_site(const qll_survey *survey, qll_case *of)
{
    bool has_backflow = false;
    for (size_t i = 0; i < survey->site.upstream_count; i++) {
        has_backflow = has_backflow || survey->site.upstream[i].kind == QLL_ELEMENT_BACKFLOW;
    }
    know(of, QLL_SITE_HAS_WATER_HEATER, isfinite(survey->site.heater.volume_m3));
    know(of, QLL_SITE_HAS_BACKFLOW_PREVENTER, has_backflow);
}

static void learn_station(const qll_station *station, qll_case *of)
{
    bool has_pilot = false;
    bool has_pair = false;
    for (size_t s = 0; s < station->stage_count; s++) {
        const qll_stage *stage = &station->stages[s];
        has_pair = has_pair || stage->branch_count > 1;
        for (size_t b = 0; b < stage->branch_count; b++) {
            has_pilot = has_pilot || stage->branches[b].valve->acting == QLL_ACTING_PILOT;
        }
    }
    know(of, QLL_SITE_HAS_STAGES, station->stage_count > 1);
    know(of, QLL_SITE_HAS_BRANCHES, has_pair);
    know(of, QLL_SITE_HAS_PILOT_OPERATED, has_pilot);
    if (isnan(of->set_pa_gauge) && station->stage_count > 0) {
        const qll_stage *last = &station->stages[station->stage_count - 1];
        of->set_pa_gauge = last->branches[last->branch_count - 1].set_pa_gauge;
    }
}

/* Without a survey: nearly every building heats water; the rest is told or is not there. */
static void assume_site(qll_asked *asked, qll_case *of)
{
    for (unsigned has = 0; has < QLL_SITE_HAS_COUNT; has++) {
        if ((of->site_told & QLL_SITE_HAS_BIT(has)) != 0) {
            continue;
        }
        const bool is_so = has == QLL_SITE_HAS_WATER_HEATER;
        know(of, (qll_site_has)has, is_so);
        static const char *const keys[QLL_SITE_HAS_COUNT] = {
            [QLL_SITE_HAS_WATER_HEATER] = "site.water_heater",
            [QLL_SITE_HAS_BACKFLOW_PREVENTER] = "site.backflow_preventer",
            [QLL_SITE_HAS_PILOT_OPERATED] = "site.pilot_operated",
            [QLL_SITE_HAS_BRANCHES] = "site.branches",
            [QLL_SITE_HAS_STAGES] = "site.stages",
        };
        const bool is_count = has == QLL_SITE_HAS_BRANCHES || has == QLL_SITE_HAS_STAGES;
        qll_assumed_add(&asked->assumed, qll_as_is(keys[has]),
                        is_count ? qll_as_whole(1)
                                 : qll_as_text(is_so ? QLL_TEXT_ANSWER_YES : QLL_TEXT_ANSWER_NO),
                        (qll_said){.id = QLL_TEXT_WHY_NOT_TOLD});
    }
}

/* The survey in the case: checked where it has a station, else only read. */
static qll_status read_survey(qll_asked *asked, const qll_node *survey, qll_diagnosed_case *made,
                              qll_case_facts *facts)
{
    made->survey_document = made->document;
    made->survey_document.root = survey;
    asked->survey = &made->survey_document;
    const bool has_station =
        survey->kind == QLL_NODE_OBJECT && qll_node_find(survey, "existing") != NULL;
    if (!has_station) {
        const qll_status status = qll_prepare_survey(asked, &made->from.prepared);
        if (status == QLL_OK) {
            made->findings.survey = &made->from.prepared.survey;
            learn_site(made->findings.survey, &made->of);
        }
        return status;
    }
    asked->skipped = QLL_PART_BIT(QLL_PART_POINTS) | QLL_PART_BIT(QLL_PART_LADDER)
                     | QLL_PART_BIT(QLL_PART_MAPS) | QLL_PART_BIT(QLL_PART_NOISE)
                     | QLL_PART_BIT(QLL_PART_MOTION);
    qll_status status = qll_find_check(asked, &made->from.checked);
    if (status == QLL_OK) {
        made->findings.survey = &made->from.checked.prepared.survey;
        made->findings.check = &made->from.checked.findings;
        learn_site(made->findings.survey, &made->of);
        learn_station(&made->from.checked.station, &made->of);
        status = qll_find_facts(asked, &made->from.checked, &made->of, facts);
    }
    return status;
}

/* ---- the whole ---- */

/* The check's cure of least cost that mends the likeliest cause. */
static const qll_cure *cure_of(const qll_diagnosed *findings)
{
    const size_t action = findings->diagnosis->action;
    if (findings->check == NULL || action == QLL_NOT_KNOWN) {
        return NULL;
    }
    const char *kinds = findings->knowledge->causes[action].cures;
    const qll_cures *cures = findings->check->cures;
    for (size_t i = 0; i < cures->count; i++) {
        if (qll_words_hold(kinds, ' ', qll_text_of(qll_cure_words[cures->cures[i].kind]))) {
            return &cures->cures[i];
        }
    }
    return NULL;
}

static void set_units(qll_asked *asked, const qll_read_case *read)
{
    if (asked->question->units == NULL && read->has_units) {
        asked->units = read->units;
    }
}

/* What a survey answers is not asked for; nor is what nobody can tell. */
static void skip_answered(const qll_knowledge *knowledge, bool has_station, bool *skipped)
{
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        skipped[e] =
            skipped[e] || (has_station && knowledge->evidence[e].kind == QLL_EVIDENCE_KIND_CALC);
    }
}

qll_status qll_prepare_knowledge(qll_asked *asked, qll_knowledge *knowledge)
{
    const qll_input *input = &asked->question->likelihood;
    qll_status status = qll_knowledge_read(asked->arena, knowledge);
    if (status != QLL_OK || input->bytes == NULL) {
        return status;
    }
    qll_document document;
    status = qll_document_read((qll_text){.bytes = input->bytes, .size = input->size},
                               input->name == NULL ? "" : input->name, asked->arena, &document,
                               &asked->problems);
    return status == QLL_OK ? qll_likelihood_read(&document, asked->arena, knowledge,
                                                  &asked->assumed, &asked->problems)
                            : status;
}

/* What a case without a survey leaves open. */
static void settle_survey(qll_asked *asked, const qll_read_case *read, qll_diagnosed_case *made)
{
    set_units(asked, read);
    made->blank = (qll_survey){.name = read->of.name, .units = asked->units};
    if (made->findings.survey == NULL) {
        made->findings.survey = &made->blank;
        assume_site(asked, &made->of);
    }
}

qll_status qll_find_case(qll_asked *asked, const qll_knowledge *knowledge, qll_diagnosed_case *made)
{
    qll_read_case read;
    made->knowledge = *knowledge;
    qll_status status = qll_case_read(&made->document, knowledge, asked->arena, &read,
                                      &asked->assumed, &asked->problems);
    made->of = read.of;
    bool *skipped = qll_arena_take(asked->arena, knowledge->evidence_count, sizeof *skipped);
    if (status != QLL_OK || skipped == NULL) {
        return status != QLL_OK ? status : QLL_NO_MEMORY;
    }
    set_units(asked, &read);
    qll_case_facts facts = {(double)NAN, (double)NAN, (double)NAN, (double)NAN};
    status = take_arguments(asked, knowledge, &made->of, skipped);
    if (status == QLL_OK && read.survey != NULL) {
        status = read_survey(asked, read.survey, made, &facts);
    }
    if (status != QLL_OK) {
        return status;
    }
    settle_survey(asked, &read, made);
    skip_answered(knowledge, made->findings.check != NULL, skipped);
    made->skipped = skipped;
    status = qll_gather(knowledge, &made->of, &facts, asked->arena, &made->gathered);
    made->known = (qll_known){.site = made->of.site, .answers = made->gathered.answers};
    return status;
}

qll_status qll_find_diagnosis(qll_asked *asked, qll_diagnosed_case *made)
{
    const qll_input *input = &asked->question->document;
    const qll_text source = {.bytes = input->bytes, .size = input->size};
    *made = (qll_diagnosed_case){0};
    qll_knowledge knowledge;
    qll_status status = qll_document_read(source, input->name == NULL ? "" : input->name,
                                          asked->arena, &made->document, &asked->problems);
    status = status == QLL_OK ? qll_prepare_knowledge(asked, &knowledge) : status;
    status = status == QLL_OK ? qll_find_case(asked, &knowledge, made) : status;
    status = status == QLL_OK ? qll_diagnose(&made->knowledge, &made->known, made->skipped,
                                             asked->arena, &made->diagnosis)
                              : status;
    if (status != QLL_OK) {
        return status;
    }
    qll_diagnosed *findings = &made->findings;
    findings->knowledge = &made->knowledge;
    findings->of = &made->of;
    findings->gathered = &made->gathered;
    findings->diagnosis = &made->diagnosis;
    findings->provenance = qll_provenance_of(asked);
    findings->language = asked->language;
    findings->assumed = &asked->assumed;
    findings->problems = &asked->problems;
    findings->cure = cure_of(findings);
    return QLL_OK;
}
