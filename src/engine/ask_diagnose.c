#include "documents/write_diagnosis.h"
#include "engine/diagnose.h"
#include "report/diagnosis_sheet.h"
#include "wording/says_trouble.h"

/* A text in the language of the question; NULL where there is none. */
static const char *say(const qll_asked *asked, const qll_diagnosed *findings, qll_said said)
{
    const qll_wording wording = {.units = findings->survey->units, .language = asked->language};
    return said.id == QLL_TEXT_NONE ? NULL : qll_said_text(asked->arena, &wording, &said);
}

static const char *say_dangers(const qll_asked *asked, const qll_diagnosed *findings)
{
    const unsigned dangers = findings->gathered->dangers;
    qll_writer text = qll_writer_new(asked->arena);
    for (unsigned danger = 0; danger < QLL_DANGER_COUNT; danger++) {
        if ((dangers & (1U << danger)) != 0) {
            const qll_said said = qll_danger_said(findings->gathered, (qll_danger)danger);
            qll_write_format(&text, "%s\n", say(asked, findings, said));
        }
    }
    return dangers == 0 ? NULL : qll_writer_text(&text).bytes;
}

static const char *say_where_it_stands(const qll_asked *asked, const qll_diagnosed *findings)
{
    const qll_ranked_cause *first = &findings->diagnosis->causes[0];
    const qll_said says = {
        findings->diagnosis->action == QLL_NOT_KNOWN ? QLL_TEXT_VISIT_NOT_SURE
                                                     : QLL_TEXT_VISIT_LIKELIEST,
        {qll_as_said(asked->arena, qll_cause_said(findings->knowledge, first->cause)),
         qll_as_said(asked->arena, qll_odds_said(first->probability))}};
    return say(asked, findings, says);
}

/* What would be asked next, in place of an answer. */
static void fill_asking(const qll_asked *asked, const qll_diagnosed *findings)
{
    qll_asking *asking = asked->asking;
    const qll_next_tests *next = &findings->diagnosis->next;
    *asking = (qll_asking){.dangers = say_dangers(asked, findings),
                           .stands = say_where_it_stands(asked, findings)};
    if (next->is_done) {
        return;
    }
    const qll_evidence *evidence = &findings->knowledge->evidence[next->tests[0].evidence];
    const char **words = qll_arena_take(asked->arena, evidence->outcome_count, sizeof *words);
    const char **says = qll_arena_take(asked->arena, evidence->outcome_count, sizeof *says);
    for (size_t o = 0; words != NULL && says != NULL && o < evidence->outcome_count; o++) {
        words[o] = evidence->outcomes[o].word;
        says[o] = say(asked, findings, qll_answer_said(evidence, o));
    }
    asking->question = evidence->word;
    asking->asks = say(asked, findings,
                       (qll_said){QLL_TEXT_VISIT_NEXT_ONE,
                                  {qll_as_said(asked->arena, qll_question_said(evidence)),
                                   qll_question_takes(asked->arena, evidence)}});
    asking->how = say(asked, findings, qll_question_how_said(evidence));
    asking->caution = qll_question_caution(asked->language, evidence);
    asking->minutes = evidence->minutes;
    asking->answers = words;
    asking->says = says;
    asking->answer_count = evidence->outcome_count;
    asking->prompt = say(asked, findings, qll_question_prompt_said(evidence));
}

qll_status qll_ask_diagnose(qll_asked *asked)
{
    qll_diagnosed_case *made = qll_arena_take(asked->arena, 1, sizeof *made);
    if (made == NULL) {
        return QLL_NO_MEMORY;
    }
    const qll_status status = qll_find_diagnosis(asked, made);
    if (status != QLL_OK) {
        return status;
    }
    if (asked->asking != NULL) {
        fill_asking(asked, &made->findings);
    } else if (asked->question->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&asked->writer);
        qll_diagnosis_write(&json, &made->findings);
        qll_write(&asked->writer, "\n");
    } else {
        qll_diagnosis_print(&asked->writer, &made->findings);
    }
    return qll_asked_finish(asked);
}
