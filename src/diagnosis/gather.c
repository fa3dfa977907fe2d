/* One answer for each piece of evidence, from whatever there is: docs/theory/diagnosis.md 2. */
#include "base/customary.h"
#include "diagnosis/finding.h"
#include "diagnosis/inlet_sweep.h"

#include <math.h>

const char *const qll_gauge_words[QLL_GAUGE_COUNT] = {
#define QLL_GAUGE_WORD(name, word) [QLL_GAUGE_##name] = (word),
    QLL_GAUGE_LIST(QLL_GAUGE_WORD)
#undef QLL_GAUGE_WORD
};

const char *const qll_answer_from_words[QLL_ANSWER_FROM_COUNT] = {
#define QLL_ANSWER_FROM_WORD(name, word) [QLL_ANSWER_FROM_##name] = (word),
    QLL_ANSWER_FROM_LIST(QLL_ANSWER_FROM_WORD)
#undef QLL_ANSWER_FROM_WORD
};

const char *const qll_unused_words[QLL_UNUSED_COUNT] = {
#define QLL_UNUSED_WORD(name, word) [QLL_UNUSED_##name] = (word),
    QLL_UNUSED_LIST(QLL_UNUSED_WORD)
#undef QLL_UNUSED_WORD
};

/* No building's fixtures are made for more (design.md 8: safety first). */
#define QLL_DANGEROUS_OUTLET_PA (150.0 * QLL_PSI_PA)
/* Gauges of two makes differ by so much (our assumption); more above the inlet cannot come through the seat. */
#define QLL_GAUGES_DIFFER_PA    (3.0 * QLL_PSI_PA)
/* As near to the inlet as this the valve holds nothing back. */
#define QLL_NEAR_INLET_PA       (5.0 * QLL_PSI_PA)

typedef struct gathering {
    const qll_knowledge *knowledge;
    const qll_case *of;
    qll_gathered *into;
} gathering;

/* Whoever comes first holds. */
static void take(const gathering *to, size_t evidence, size_t outcome, double figure,
                 qll_answer_from from)
{
    if (evidence == QLL_NOT_KNOWN || outcome == QLL_NOT_KNOWN
        || to->into->answers[evidence] != QLL_NOT_KNOWN) {
        return;
    }
    to->into->answers[evidence] = outcome;
    to->into->figures[evidence] = figure;
    to->into->from[evidence] = from;
}

static void take_figure(const gathering *to, const char *word, double figure, qll_answer_from from)
{
    const size_t evidence = qll_evidence_called(to->knowledge, qll_text_of(word));
    if (evidence != QLL_NOT_KNOWN) {
        take(to, evidence, qll_outcome_of(&to->knowledge->evidence[evidence], figure), figure,
             from);
    }
}

/* People tell what is asked of them; all else somebody looked at or tried, wherever it is written down. */
static qll_answer_from said_from(const gathering *to, size_t evidence)
{
    const bool is_asked = evidence != QLL_NOT_KNOWN
                          && to->knowledge->evidence[evidence].kind == QLL_EVIDENCE_KIND_ASK;
    return is_asked ? QLL_ANSWER_FROM_SYMPTOM : QLL_ANSWER_FROM_TEST;
}

static void take_tests(const gathering *to)
{
    for (size_t i = to->of->test_count; i-- > 0;) {
        const qll_made_test *test = &to->of->tests[i];
        take(to, test->evidence, test->outcome, test->measured, said_from(to, test->evidence));
    }
}

static void take_symptoms(const gathering *to)
{
    for (size_t e = 0; e < to->knowledge->evidence_count; e++) {
        take(to, e, to->of->symptoms[e], (double)NAN, said_from(to, e));
    }
}

const qll_gauge_reading *qll_case_reading(const qll_case *of, qll_gauge gauge, bool flows)
{
    const qll_gauge_reading *found = NULL;
    for (size_t i = 0; i < of->reading_count; i++) {
        const qll_gauge_reading *one = &of->readings[i];
        const bool fits = flows ? one->flow_m3s > 0.0 : one->flow_m3s == 0.0;
        if (one->is_left || one->gauge != gauge || !fits) {
            continue;
        }
        /* Of one flow the highest counts: in an inlet sweep that is the step with the stop open. */
        const bool is_more = found == NULL || one->flow_m3s > found->flow_m3s;
        if (!flows || is_more
            || (one->flow_m3s == found->flow_m3s
                && one->pressure_pa_gauge >= found->pressure_pa_gauge)) {
            found = one;
        }
    }
    return found;
}

static double pressure_of(const qll_gauge_reading *reading)
{
    return reading == NULL ? (double)NAN : reading->pressure_pa_gauge;
}

static void take_lockup(const gathering *to, double inlet, double outlet)
{
    const double over = outlet - to->of->set_pa_gauge;
    const size_t evidence = qll_evidence_called(to->knowledge, qll_text_of("lockup_vs_set"));
    if (outlet >= inlet - QLL_NEAR_INLET_PA && !(over <= QLL_NEAR_INLET_PA)) {
        take(to, evidence,
             qll_outcome_called(&to->knowledge->evidence[evidence], qll_text_of("near_inlet")),
             over, QLL_ANSWER_FROM_READING);
    }
    take_figure(to, "lockup_vs_set", over, QLL_ANSWER_FROM_READING);
}

static void take_readings(const gathering *to, const qll_case_facts *facts, double sweep)
{
    const double inlet = pressure_of(qll_case_reading(to->of, QLL_GAUGE_INLET, false));
    const double outlet = pressure_of(qll_case_reading(to->of, QLL_GAUGE_OUTLET, false));
    const double inlet_flowing = pressure_of(qll_case_reading(to->of, QLL_GAUGE_INLET, true));
    take_lockup(to, inlet, outlet);
    take_figure(to, "pressure_ratio", outlet > 0.0 ? inlet / outlet : (double)NAN,
                QLL_ANSWER_FROM_READING);
    const double inlet_drop = inlet - inlet_flowing; /* a gauge may read a little more with flow */
    take_figure(to, "inlet_drop", inlet_drop < 0.0 ? 0.0 : inlet_drop, QLL_ANSWER_FROM_READING);
    take_figure(to, "falloff", facts->falloff_ratio, QLL_ANSWER_FROM_READING);
    take_figure(to, "inlet_sweep", sweep, QLL_ANSWER_FROM_READING);
}

static bool is_known(const gathering *to, size_t evidence)
{
    return evidence != QLL_NOT_KNOWN && to->into->answers[evidence] != QLL_NOT_KNOWN;
}

/* What is there and answers nothing, or what is answered already. */
static void note_unused(const gathering *to, const qll_case_finding *finding,
                        const qll_found_answer *answer)
{
    const bool has_question = answer->evidence != QLL_NOT_KNOWN;
    const qll_unused unused = {.finding = finding,
                               .why = !has_question                      ? QLL_UNUSED_NO_QUESTION
                                      : answer->outcome == QLL_NOT_KNOWN ? QLL_UNUSED_NO_FIGURE
                                                                         : QLL_UNUSED_ANSWERED,
                               .evidence = is_known(to, answer->same_fact) ? answer->same_fact
                                                                           : answer->evidence};
    to->into->unused[to->into->unused_count] = unused;
    to->into->unused_count += 1;
}

/* What is there outweighs what is not: creep that is found speaks, though expansion is not. */
static void take_findings(const gathering *to)
{
    for (int there = 1; there >= 0; there--) {
        for (size_t i = 0; i < to->of->finding_count; i++) {
            const qll_case_finding *finding = &to->of->findings[i];
            const qll_found_answer answer = qll_finding_answer(to->knowledge, finding);
            if (answer.is_there != (there == 1)) {
                continue;
            }
            if (answer.is_there
                && (answer.outcome == QLL_NOT_KNOWN || is_known(to, answer.evidence)
                    || is_known(to, answer.same_fact))) {
                note_unused(to, finding, &answer);
            } else if (!is_known(to, answer.same_fact)) {
                take(to, answer.evidence, answer.outcome, answer.figure, QLL_ANSWER_FROM_FINDING);
            }
        }
    }
}

static void take_facts(const gathering *to, const qll_case_facts *facts)
{
    take_figure(to, "velocity", facts->velocity_m_s, QLL_ANSWER_FROM_SURVEY);
    take_figure(to, "low_flow_share", facts->low_flow_share, QLL_ANSWER_FROM_SURVEY);
    take_figure(to, "pressure_ratio", facts->ratio, QLL_ANSWER_FROM_SURVEY);
}

static void note(qll_gathered *into, bool is_so, qll_danger danger)
{
    into->dangers |= is_so ? 1U << (unsigned)danger : 0U;
}

static void find_dangers(const gathering *to)
{
    double highest = (double)NAN;
    for (size_t i = 0; i < to->of->reading_count; i++) {
        const qll_gauge_reading *one = &to->of->readings[i];
        if (one->gauge == QLL_GAUGE_OUTLET && !one->is_left) {
            highest = fmax(highest, one->pressure_pa_gauge); /* passes over NaN */
        }
    }
    const qll_knowledge *knowledge = to->knowledge;
    const size_t relief = qll_evidence_called(knowledge, qll_text_of("relief_drips"));
    const size_t peak = qll_evidence_called(knowledge, qll_text_of("peak_gauge_24h"));
    const size_t *answers = to->into->answers;
    const qll_text above = qll_text_of("above_inlet");
    note(to->into,
         answers[relief] != QLL_NOT_KNOWN
             && answers[relief]
                    == qll_outcome_called(&knowledge->evidence[relief], qll_text_of("yes")),
         QLL_DANGER_RELIEF_RUNS);
    note(to->into, highest > QLL_DANGEROUS_OUTLET_PA, QLL_DANGER_OUTLET_HIGH);
    const double inlet = pressure_of(qll_case_reading(to->of, QLL_GAUGE_INLET, false));
    const double outlet = pressure_of(qll_case_reading(to->of, QLL_GAUGE_OUTLET, false));
    note(to->into,
         outlet > inlet + QLL_GAUGES_DIFFER_PA
             || (answers[peak] != QLL_NOT_KNOWN
                 && answers[peak] == qll_outcome_called(&knowledge->evidence[peak], above)),
         QLL_DANGER_ABOVE_INLET);
    to->into->highest_outlet_pa_gauge = highest;
}

qll_status qll_gather(const qll_knowledge *knowledge, const qll_case *of,
                      const qll_case_facts *facts, qll_arena *arena, qll_gathered *gathered)
{
    const size_t count = knowledge->evidence_count;
    *gathered = (qll_gathered){
        .answers = qll_arena_take(arena, count, sizeof(size_t)),
        .from = qll_arena_take(arena, count, sizeof(qll_answer_from)),
        .figures = qll_arena_take(arena, count, sizeof(double)),
        .unused = qll_arena_take(arena, of->finding_count + 1, sizeof(qll_unused)),
    };
    double sweep = (double)NAN;
    if (qll_inlet_sweep(of, arena, &sweep) != QLL_OK || gathered->unused == NULL
        || gathered->answers == NULL || gathered->from == NULL || gathered->figures == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t e = 0; e < count; e++) {
        gathered->answers[e] = QLL_NOT_KNOWN;
        gathered->figures[e] = (double)NAN;
    }
    const gathering to = {.knowledge = knowledge, .of = of, .into = gathered};
    take_tests(&to);
    take_symptoms(&to);
    take_readings(&to, facts, sweep);
    take_findings(&to);
    take_facts(&to, facts);
    find_dangers(&to);
    return QLL_OK;
}
