#include "wording/says_trouble.h"

#include "base/count.h"
#include "base/customary.h"
#include "base/words.h"
#include "station/commissioning.h"
#include "wording/says_pressure.h"

#include <math.h>

qll_said qll_cause_said(const qll_knowledge *knowledge, size_t cause)
{
    return (qll_said){.id = knowledge->causes[cause].says};
}

/* Set-points of a pair are 3 to 5 psi apart; water in pipe stays under 8 ft/s (common practice). */
qll_said qll_cause_cure_said(const qll_knowledge *knowledge, size_t cause)
{
    return (qll_said){knowledge->causes[cause].cure,
                      {qll_as_thumb(3.0 * QLL_PSI_PA, QLL_KIND_PRESSURE_DIFFERENCE),
                       qll_as_thumb(5.0 * QLL_PSI_PA, QLL_KIND_PRESSURE_DIFFERENCE),
                       qll_as_quantity(8.0 * QLL_FOOT_M, QLL_KIND_VELOCITY)}};
}

qll_said qll_question_said(const qll_evidence *evidence)
{
    return (qll_said){evidence->asks,
                      {qll_as_thumb(evidence->amount, QLL_KIND_PRESSURE_DIFFERENCE)}};
}

/* What a creep test is made with; other texts have no such figures. */
qll_said qll_question_how_said(const qll_evidence *evidence)
{
    return (qll_said){evidence->how,
                      {qll_as_whole(QLL_CREEP_DRAW_MIN), qll_as_whole(QLL_CREEP_FIRST_S),
                       qll_as_whole(QLL_CREEP_LAST_MIN), qll_as_whole(QLL_CREEP_TANK_MIN)}};
}

/* The least figure of another answer above @p from: where this one ends. */
static double end_of(const qll_evidence *evidence, double from)
{
    double end = HUGE_VAL;
    for (size_t o = 0; o < evidence->outcome_count; o++) {
        const double other = evidence->outcomes[o].from;
        end = other > from && other < end ? other : end;
    }
    return end;
}

qll_said qll_answer_said(const qll_evidence *evidence, size_t outcome)
{
    const qll_outcome *answer = &evidence->outcomes[outcome];
    if (!evidence->is_measured || isnan(answer->from)) {
        return (qll_said){.id = answer->says};
    }
    return (qll_said){answer->says,
                      {qll_as_thumb(answer->from, evidence->measure),
                       qll_as_thumb(end_of(evidence, answer->from), evidence->measure)}};
}

const char *qll_question_caution(qll_language language, const qll_evidence *evidence)
{
    if (evidence->caution[0] == '\0') {
        return NULL;
    }
    const bool scalds = evidence->caution[0] == 's';
    return qll_say(language, scalds ? QLL_SAYS_CAUTION_SCALDS : QLL_SAYS_CAUTION_RELIEVE);
}

qll_argument qll_question_takes(qll_arena *arena, const qll_evidence *evidence)
{
    qll_writer time = qll_writer_new(arena);
    if (evidence->minutes < 1.0) {
        qll_write_format(&time, "%.0f s", 60.0 * evidence->minutes);
    } else {
        qll_write_format(&time, "%g min", evidence->minutes);
    }
    return qll_as_is(qll_writer_text(&time).bytes);
}

qll_said qll_question_prompt_said(const qll_evidence *evidence)
{
    if (!evidence->is_measured) {
        return (qll_said){.id = QLL_TEXT_VISIT_PROMPT};
    }
    const qll_argument share = qll_as_is("20 %");
    const qll_argument number = qll_as_number(2.4);
    const qll_argument quantity =
        evidence->measure == QLL_KIND_VELOCITY
            ? qll_as_quantity(7.0 * QLL_FOOT_M, QLL_KIND_VELOCITY)
            : qll_as_quantity(7.0 * QLL_PSI_PA, QLL_KIND_PRESSURE_DIFFERENCE);
    return (qll_said){QLL_TEXT_VISIT_PROMPT_READING,
                      {evidence->is_share                     ? share
                       : evidence->measure == QLL_KIND_NUMBER ? number
                                                              : quantity}};
}

/* In steps that people use. */
static size_t one_in(double probability)
{
    static const size_t steps[] = {10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100};
    size_t best = 0;
    for (size_t i = 1; i < QLL_COUNT(steps); i++) {
        const double off = fabs(log(probability * (double)steps[i]));
        best = off < fabs(log(probability * (double)steps[best])) ? i : best;
    }
    return steps[best];
}

qll_said qll_odds_said(double probability)
{
    if (probability >= 0.95) {
        return (qll_said){.id = QLL_TEXT_VISIT_NEARLY};
    }
    if (probability < 0.01) {
        return (qll_said){.id = QLL_TEXT_VISIT_HARDLY};
    }
    if (probability < 0.15) {
        return (qll_said){QLL_TEXT_VISIT_ONE_IN, {qll_as_whole(one_in(probability))}};
    }
    return (qll_said){QLL_TEXT_VISIT_TENTHS, {qll_as_whole((size_t)round(10.0 * probability))}};
}

qll_text_id qll_answer_from_text(qll_answer_from from)
{
    static const qll_text_id texts[QLL_ANSWER_FROM_COUNT] = {
        [QLL_ANSWER_FROM_TEST] = QLL_TEXT_VISIT_FROM_TEST,
        [QLL_ANSWER_FROM_SYMPTOM] = QLL_TEXT_VISIT_FROM_SYMPTOM,
        [QLL_ANSWER_FROM_READING] = QLL_TEXT_VISIT_FROM_READING,
        [QLL_ANSWER_FROM_FINDING] = QLL_TEXT_VISIT_FROM_FINDING,
        [QLL_ANSWER_FROM_SURVEY] = QLL_TEXT_VISIT_FROM_SURVEY,
    };
    return texts[from];
}

/* A finding of a recording, or of both, is called by its question, which has its own answer. */
static qll_argument finding_name(qll_language language, const qll_knowledge *knowledge,
                                 const qll_unused *unused, qll_arena *arena)
{
    const size_t word = qll_words_place(qll_text_of(unused->finding->word), qll_pressure_words,
                                        QLL_PRESSURE_WORD_COUNT);
    if (unused->finding->of != QLL_FINDING_OF_LOG || word == QLL_PRESSURE_WORD_COUNT) {
        return qll_as_said(arena, qll_question_said(&knowledge->evidence[unused->evidence]));
    }
    return qll_as_is(qll_say_pressure_word(language, (qll_pressure_word)word));
}

qll_said qll_unused_said(qll_language language, const qll_knowledge *knowledge,
                         const qll_gathered *gathered, const qll_unused *unused, qll_arena *arena)
{
    qll_said why = {.id = QLL_TEXT_UNUSED_NO_QUESTION};
    if (unused->why == QLL_UNUSED_NO_FIGURE) {
        why.id = unused->finding->of == QLL_FINDING_OF_BOTH ? QLL_TEXT_UNUSED_NO_SURGE
                                                            : QLL_TEXT_UNUSED_NO_FIGURE;
    } else if (unused->why == QLL_UNUSED_ANSWERED) {
        const qll_said from = {.id = qll_answer_from_text(gathered->from[unused->evidence])};
        why = (qll_said){
            QLL_TEXT_UNUSED_ANSWERED,
            {qll_as_said(arena, qll_question_said(&knowledge->evidence[unused->evidence])),
             qll_as_said(arena, from)}};
    }
    return (qll_said){QLL_TEXT_VISIT_UNUSED,
                      {finding_name(language, knowledge, unused, arena), qll_as_said(arena, why)}};
}

qll_said qll_danger_said(const qll_gathered *gathered, qll_danger danger)
{
    static const qll_text_id texts[QLL_DANGER_COUNT] = {
        [QLL_DANGER_RELIEF_RUNS] = QLL_TEXT_VISIT_RELIEF_RUNS,
        [QLL_DANGER_OUTLET_HIGH] = QLL_TEXT_VISIT_OUTLET_HIGH,
        [QLL_DANGER_ABOVE_INLET] = QLL_TEXT_VISIT_ABOVE_INLET,
    };
    return (qll_said){texts[danger],
                      {qll_as_quantity(gathered->highest_outlet_pa_gauge, QLL_KIND_PRESSURE)}};
}
