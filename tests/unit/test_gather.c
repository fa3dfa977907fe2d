/* One answer for each piece of evidence, from whatever there is. */
#include "check.h"
#include "diagnosis/case.h"

#include <string.h>

static const double psi = 6894.757293168361;
static qll_arena *arena;
static qll_knowledge knowledge;
static const qll_case_facts nothing = {NAN, NAN, NAN, NAN};

static size_t evidence(const char *word)
{
    const size_t found = qll_evidence_called(&knowledge, qll_text_of(word));
    CHECK(found != QLL_NOT_KNOWN);
    return found;
}

static qll_case empty_case(void)
{
    size_t *symptoms = qll_arena_take(arena, knowledge.evidence_count, sizeof *symptoms);
    for (size_t e = 0; e < knowledge.evidence_count; e++) {
        symptoms[e] = QLL_NOT_KNOWN;
    }
    return (qll_case){.symptoms = symptoms, .set_pa_gauge = 60 * psi, .cause = QLL_NOT_KNOWN};
}

static qll_gathered gather(const qll_case *of, const qll_case_facts *facts)
{
    qll_gathered gathered;
    CHECK(qll_gather(&knowledge, of, facts, arena, &gathered) == QLL_OK);
    return gathered;
}

/* The word of what is known of it; "" where it is not. */
static const char *answer(const qll_gathered *gathered, const char *word)
{
    const size_t e = evidence(word);
    const size_t o = gathered->answers[e];
    return o == QLL_NOT_KNOWN ? "" : knowledge.evidence[e].outcomes[o].word;
}

TEST(nothing_known_is_nothing_answered)
{
    const qll_case of = empty_case();
    const qll_gathered gathered = gather(&of, &nothing);
    for (size_t e = 0; e < knowledge.evidence_count; e++) {
        CHECK(gathered.answers[e] == QLL_NOT_KNOWN);
    }
    CHECK(gathered.dangers == 0);
}

TEST(gauges_answer)
{
    const qll_gauge_reading readings[] = {
        {.gauge = QLL_GAUGE_INLET, .pressure_pa_gauge = 150 * psi, .flow_m3s = 0},
        {.gauge = QLL_GAUGE_OUTLET, .pressure_pa_gauge = 62 * psi, .flow_m3s = 0},
        {.gauge = QLL_GAUGE_INLET, .pressure_pa_gauge = 131 * psi, .flow_m3s = 1e-3},
        {.gauge = QLL_GAUGE_INLET, .pressure_pa_gauge = 145 * psi, .flow_m3s = 5e-4},
        {.gauge = QLL_GAUGE_OUTLET, .pressure_pa_gauge = 30 * psi, .flow_m3s = 0, .is_left = true},
        {.gauge = QLL_GAUGE_OUTLET, .pressure_pa_gauge = 20 * psi, .flow_m3s = NAN}};
    qll_case of = empty_case();
    of.readings = readings;
    of.reading_count = 6;
    const qll_gathered gathered = gather(&of, &nothing);
    CHECK_TEXT(answer(&gathered, "lockup_vs_set"), "within_5psi");
    CHECK_TEXT(answer(&gathered, "pressure_ratio"), "2_to_3");
    CHECK_TEXT(answer(&gathered, "inlet_drop"), "ge_10psi");
    CHECK_WITHIN(gathered.figures[evidence("inlet_drop")], 19 * psi, 1e-6);
    CHECK_TEXT(answer(&gathered, "falloff"), "");
    CHECK(gathered.from[evidence("pressure_ratio")] == QLL_ANSWER_FROM_READING);
    CHECK(gathered.dangers == 0);
}

TEST(what_the_valve_does_not_hold_back_is_near_the_inlet)
{
    qll_gauge_reading readings[] = {
        {.gauge = QLL_GAUGE_INLET, .pressure_pa_gauge = 100 * psi, .flow_m3s = 0},
        {.gauge = QLL_GAUGE_OUTLET, .pressure_pa_gauge = 97 * psi, .flow_m3s = 0}};
    qll_case of = empty_case();
    of.readings = readings;
    of.reading_count = 2;
    qll_gathered gathered = gather(&of, &nothing);
    CHECK_TEXT(answer(&gathered, "lockup_vs_set"), "near_inlet");
    /* An inlet that is no higher than the set-point says nothing of the seat. */
    readings[0].pressure_pa_gauge = 62 * psi;
    readings[1].pressure_pa_gauge = 61 * psi;
    gathered = gather(&of, &nothing);
    CHECK_TEXT(answer(&gathered, "lockup_vs_set"), "within_5psi");
    /* Without a set-point nothing is said of it. */
    of.set_pa_gauge = NAN;
    gathered = gather(&of, &nothing);
    CHECK(gathered.answers[evidence("lockup_vs_set")] == QLL_NOT_KNOWN
          || gathered.from[evidence("lockup_vs_set")] == QLL_ANSWER_FROM_READING);
}

TEST(dangers_come_from_gauges_and_symptoms)
{
    qll_gauge_reading readings[] = {
        {.gauge = QLL_GAUGE_INLET, .pressure_pa_gauge = 100 * psi, .flow_m3s = 0},
        {.gauge = QLL_GAUGE_OUTLET, .pressure_pa_gauge = 102 * psi, .flow_m3s = 0}};
    qll_case of = empty_case();
    of.readings = readings;
    of.reading_count = 2;
    CHECK(gather(&of, &nothing).dangers == 0); /* gauges differ by as much */
    readings[1].pressure_pa_gauge = 104 * psi;
    CHECK(gather(&of, &nothing).dangers == 1U << QLL_DANGER_ABOVE_INLET);
    readings[1].pressure_pa_gauge = 151 * psi;
    CHECK(gather(&of, &nothing).dangers
          == ((1U << QLL_DANGER_ABOVE_INLET) | (1U << QLL_DANGER_OUTLET_HIGH)));
    size_t *symptoms = qll_arena_take(arena, knowledge.evidence_count, sizeof *symptoms);
    memcpy(symptoms, of.symptoms, knowledge.evidence_count * sizeof *symptoms);
    symptoms[evidence("relief_drips")] = 1;
    of = (qll_case){.symptoms = symptoms, .set_pa_gauge = NAN};
    CHECK(gather(&of, &nothing).dangers == 1U << QLL_DANGER_RELIEF_RUNS);
}

TEST(a_test_outweighs_what_is_told_and_computed)
{
    const qll_evidence *ratio = &knowledge.evidence[evidence("pressure_ratio")];
    const qll_made_test tests[] = {{.evidence = evidence("pressure_ratio"),
                                    .outcome = qll_outcome_of(ratio, 1.5),
                                    .measured = 1.5},
                                   {.evidence = evidence("pressure_ratio"),
                                    .outcome = qll_outcome_of(ratio, 3.5),
                                    .measured = 3.5}};
    qll_case of = empty_case();
    const qll_case_facts facts = {
        .velocity_m_s = 2.6, .low_flow_share = 0.5, .ratio = 2.5, .falloff_ratio = 2.2};
    qll_gathered gathered = gather(&of, &facts);
    CHECK_TEXT(answer(&gathered, "pressure_ratio"), "2_to_3");
    CHECK_TEXT(answer(&gathered, "velocity"), "gt_8fps");
    CHECK_TEXT(answer(&gathered, "low_flow_share"), "gt_40pc");
    CHECK_TEXT(answer(&gathered, "falloff"), "gt_2x");
    CHECK(gathered.from[evidence("velocity")] == QLL_ANSWER_FROM_SURVEY);
    of.tests = tests;
    of.test_count = 2;
    gathered = gather(&of, &facts);
    CHECK_TEXT(answer(&gathered, "pressure_ratio"), "gt_3"); /* the last of two */
    CHECK(gathered.from[evidence("pressure_ratio")] == QLL_ANSWER_FROM_TEST);
}

TEST(findings_answer)
{
    const qll_case_finding findings[] = {
        {.word = "thermal-expansion", .strength = 0.1, .value = NAN},
        {.word = "creep", .strength = 0.8, .value = NAN},
        {.word = "hunting", .strength = 0.9, .value = 0.2},
        {.word = "hammer", .strength = 0.2, .value = 1},
        {.word = "supply-swing", .strength = 0.7, .value = 30 * psi},
        {.word = "set-point-drift", .strength = 0.7, .value = -3 * psi},
        {.word = "lock-up", .strength = 1, .value = NAN},
        {.word = "squeal", .is_of_sound = true, .strength = 0.9, .value = NAN}};
    qll_case of = empty_case();
    of.findings = findings;
    of.finding_count = 8;
    const qll_gathered gathered = gather(&of, &nothing);
    CHECK_TEXT(answer(&gathered, "log_noflow_slope"), "rising_always");
    CHECK_TEXT(answer(&gathered, "log_oscillation"), "slow_0_02_1Hz");
    CHECK_TEXT(answer(&gathered, "log_spikes"), "rare");
    CHECK_TEXT(answer(&gathered, "log_p1"), "gt_25psi");
    CHECK_TEXT(answer(&gathered, "log_setpoint_drift"), "down");
    CHECK_TEXT(answer(&gathered, "sound_class"), "squeal");
    CHECK_TEXT(answer(&gathered, "log_falloff_trend"), "");
}

/* Every finding word that answers something answers it with an answer there is. */
TEST(every_finding_has_an_answer)
{
    for (int is_of_sound = 0; is_of_sound < 2; is_of_sound++) {
        const char *const *words = NULL;
        size_t count = 0;
        CHECK(qll_finding_words(is_of_sound == 1, arena, &words, &count) == QLL_OK && count >= 6);
        for (size_t i = 0; i < count; i++) {
            const qll_case_finding one = {
                .word = words[i], .is_of_sound = is_of_sound == 1, .strength = 1, .value = 1e9};
            qll_case of = empty_case();
            of.findings = &one;
            of.finding_count = 1;
            const qll_gathered gathered = gather(&of, &nothing);
            size_t answered = 0;
            for (size_t e = 0; e < knowledge.evidence_count; e++) {
                answered += gathered.answers[e] != QLL_NOT_KNOWN ? 1 : 0;
            }
            const bool says_nothing = strcmp(words[i], "lock-up") == 0
                                      || strcmp(words[i], "fall-off") == 0
                                      || strcmp(words[i], "logger-fault") == 0;
            CHECK(answered == (says_nothing ? 0 : 1));
        }
    }
}

int main(void)
{
    arena = qll_arena_open((size_t)64 << 20);
    CHECK(qll_knowledge_read(arena, &knowledge) == QLL_OK);
    TEST_RUN(nothing_known_is_nothing_answered);
    TEST_RUN(gauges_answer);
    TEST_RUN(what_the_valve_does_not_hold_back_is_near_the_inlet);
    TEST_RUN(dangers_come_from_gauges_and_symptoms);
    TEST_RUN(a_test_outweighs_what_is_told_and_computed);
    TEST_RUN(findings_answer);
    TEST_RUN(every_finding_has_an_answer);
    qll_arena_close(arena);
    return TEST_END();
}
