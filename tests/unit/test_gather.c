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
        {.word = "lock-up", .strength = 0.2, .value = 6 * psi},
        {.word = "fall-off", .strength = 0.8, .value = 2.5},
        {.word = "squeal", .of = QLL_FINDING_OF_SOUND, .strength = 0.9, .value = NAN}};
    qll_case of = empty_case();
    of.findings = findings;
    of.finding_count = 9;
    const qll_gathered gathered = gather(&of, &nothing);
    CHECK_TEXT(answer(&gathered, "log_noflow_slope"), "rising_always");
    CHECK_TEXT(answer(&gathered, "log_oscillation"), "slow_0_02_1Hz");
    CHECK_TEXT(answer(&gathered, "log_spikes"), "rare");
    CHECK_TEXT(answer(&gathered, "log_p1"), "gt_25psi");
    CHECK_TEXT(answer(&gathered, "log_setpoint_drift"), "down");
    CHECK_TEXT(answer(&gathered, "sound_class"), "squeal");
    CHECK_TEXT(answer(&gathered, "log_falloff_trend"), "");
    CHECK_TEXT(answer(&gathered, "lockup_vs_set"), "high"); /* a reading, however little is wrong */
    CHECK_TEXT(answer(&gathered, "falloff"), "gt_2x");
    CHECK(gathered.unused_count == 0);
}

/* A fall-off that grows week by week, and a screen that shows by its shape, tell the same once. */
TEST(a_fall_off_that_grows_answers)
{
    const qll_case_finding findings[] = {{.word = "fall-off-drift", .strength = 0.8, .value = 3e4},
                                         {.word = "strainer", .strength = 0.6, .value = 4e4}};
    qll_case of = empty_case();
    of.findings = findings;
    of.finding_count = 1;
    qll_gathered gathered = gather(&of, &nothing);
    CHECK_TEXT(answer(&gathered, "log_falloff_trend"), "worsening");
    of.finding_count = 2;
    gathered = gather(&of, &nothing);
    CHECK_TEXT(answer(&gathered, "log_falloff_trend"), "worsening");
    CHECK(gathered.unused_count == 1 && gathered.unused[0].why == QLL_UNUSED_ANSWERED);
    const qll_case_finding weak = {.word = "fall-off-drift", .strength = 0.2, .value = 9e3};
    of.findings = &weak;
    of.finding_count = 1;
    gathered = gather(&of, &nothing);
    CHECK_TEXT(answer(&gathered, "log_falloff_trend"), "steady");
}

/* What a recording and a log show together: the hiss that follows the ratio is the test of the inlet stop; a bang is counted by its
 * surge, and none that is as hard as hammer says nothing. */
TEST(what_goes_together_answers)
{
    const qll_case_finding findings[] = {
        {.word = "bangs-surges", .of = QLL_FINDING_OF_BOTH, .strength = 1, .value = 12},
        {.word = "hiss-ratio", .of = QLL_FINDING_OF_BOTH, .strength = 1, .value = NAN},
        {.word = "swing-hunting", .of = QLL_FINDING_OF_BOTH, .strength = 1, .value = 0.4},
        {.word = "bangs-surges", .of = QLL_FINDING_OF_BOTH, .strength = 1, .value = NAN}};
    qll_case of = empty_case();
    of.findings = findings;
    of.finding_count = 3;
    qll_gathered gathered = gather(&of, &nothing);
    CHECK_TEXT(answer(&gathered, "log_spikes"), "frequent");
    CHECK_TEXT(answer(&gathered, "split_drop_test"), "falls");
    CHECK_TEXT(answer(&gathered, "log_oscillation"), "slow_0_02_1Hz");
    CHECK(gathered.unused_count == 0);
    of.findings = &findings[3];
    of.finding_count = 1;
    gathered = gather(&of, &nothing);
    CHECK_TEXT(answer(&gathered, "log_spikes"), "");
    CHECK(gathered.unused_count == 1 && gathered.unused[0].why == QLL_UNUSED_NO_FIGURE);
}

static const qll_unused *unused(const qll_gathered *gathered, const char *word)
{
    for (size_t i = 0; i < gathered->unused_count; i++) {
        if (strcmp(gathered->unused[i].finding->word, word) == 0) {
            return &gathered->unused[i];
        }
    }
    return NULL;
}

TEST(what_is_no_evidence_says_why)
{
    const qll_case_finding findings[] = {
        {.word = "logger-fault", .strength = 1, .value = 0.3},
        {.word = "fall-off", .strength = 0.9, .value = NAN},
        {.word = "lock-up", .strength = 0.9, .value = 20 * psi},
        {.word = "creep", .strength = 0.7, .value = NAN},
        {.word = "thermal-expansion", .strength = 0.6, .value = NAN},
        {.word = "air", .strength = 0.1, .value = NAN}};
    const qll_gauge_reading reading = {.gauge = QLL_GAUGE_OUTLET, .pressure_pa_gauge = 61 * psi};
    qll_case of = empty_case();
    of.findings = findings;
    of.finding_count = 6;
    of.readings = &reading;
    of.reading_count = 1;
    const qll_gathered gathered = gather(&of, &nothing);
    CHECK(gathered.unused_count == 4);
    CHECK(unused(&gathered, "logger-fault")->why == QLL_UNUSED_NO_QUESTION);
    CHECK(unused(&gathered, "fall-off")->why == QLL_UNUSED_NO_FIGURE);
    CHECK(unused(&gathered, "lock-up")->why == QLL_UNUSED_ANSWERED); /* the gauge goes before */
    CHECK(unused(&gathered, "lock-up")->evidence == evidence("lockup_vs_set"));
    CHECK(unused(&gathered, "thermal-expansion")->why == QLL_UNUSED_ANSWERED);
    CHECK_TEXT(answer(&gathered, "lockup_vs_set"), "within_5psi");
}

/* Four steps at one flow, the inlet from 120 down to 75 psi: the outlet follows by 0.1, 0.2 and 0.02 of it. */
TEST(an_inlet_sweep_is_read_from_its_gauges)
{
    static const double follows[] = {0.1, 0.2, 0.02};
    static const char *const answers[] = {"0_05_to_0_15", "gt_0_15", "lt_0_05"};
    static const char *const at[] = {"10:00", "10:01", "10:02", "10:03"};
    const qll_case_finding log = {.word = "inlet-effect", .strength = 0.9, .value = 0.3};
    for (size_t i = 0; i < 3; i++) {
        qll_gauge_reading readings[9];
        for (size_t step = 0; step < 4; step++) {
            const double inlet_pa = (120.0 - 15.0 * (double)step) * psi;
            readings[2 * step] = (qll_gauge_reading){.gauge = QLL_GAUGE_INLET,
                                                     .pressure_pa_gauge = inlet_pa,
                                                     .flow_m3s = 2e-4,
                                                     .at = at[step]};
            readings[2 * step + 1] =
                (qll_gauge_reading){.gauge = QLL_GAUGE_OUTLET,
                                    .pressure_pa_gauge = 58 * psi + follows[i] * inlet_pa,
                                    .flow_m3s = 1.95e-4,
                                    .at = at[step]};
        }
        readings[8] = (qll_gauge_reading){.gauge = QLL_GAUGE_INLET, .pressure_pa_gauge = 124 * psi};
        qll_case of = empty_case();
        of.readings = readings;
        of.reading_count = 9;
        of.findings = &log;
        of.finding_count = 1;
        const qll_gathered gathered = gather(&of, &nothing);
        CHECK_TEXT(answer(&gathered, "inlet_sweep"), answers[i]);
        CHECK(fabs(gathered.figures[evidence("inlet_sweep")] - follows[i]) < 1e-9);
        /* The same fact by the log is not counted again, and the stop that was throttled is no drop of the supply. */
        CHECK_TEXT(answer(&gathered, "log_inlet_effect"), "");
        CHECK(gathered.unused_count == 1 && gathered.unused[0].evidence == evidence("inlet_sweep"));
        CHECK_TEXT(answer(&gathered, "inlet_drop"), "lt_10psi");
        of.reading_count = 4; /* two steps are none */
        const qll_gathered two = gather(&of, &nothing);
        CHECK_TEXT(answer(&two, "inlet_sweep"), "");
        CHECK_TEXT(answer(&two, "log_inlet_effect"), "gt_0_15");
    }
}

/* Every finding word that answers something answers it with an answer there is. */
TEST(every_finding_has_an_answer)
{
    for (qll_finding_of of_what = 0; of_what < QLL_FINDING_OF_COUNT; of_what++) {
        const char *const *words = NULL;
        size_t count = 0;
        CHECK(qll_finding_words(of_what, arena, &words, &count) == QLL_OK && count >= 3);
        for (size_t i = 0; i < count; i++) {
            const qll_case_finding one = {
                .word = words[i], .of = of_what, .strength = 1, .value = 0.5};
            qll_case of = empty_case();
            of.findings = &one;
            of.finding_count = 1;
            const qll_gathered gathered = gather(&of, &nothing);
            size_t answered = 0;
            for (size_t e = 0; e < knowledge.evidence_count; e++) {
                answered += gathered.answers[e] != QLL_NOT_KNOWN ? 1 : 0;
            }
            const bool says_nothing = strcmp(words[i], "logger-fault") == 0;
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
    TEST_RUN(a_fall_off_that_grows_answers);
    TEST_RUN(what_goes_together_answers);
    TEST_RUN(what_is_no_evidence_says_why);
    TEST_RUN(an_inlet_sweep_is_read_from_its_gauges);
    TEST_RUN(every_finding_has_an_answer);
    qll_arena_close(arena);
    return TEST_END();
}
