#include "base/random.h"
#include "check.h"
#include "diagnosis/diagnosis.h"
#include "toy_diagnosis.h"

#include <string.h>

static qll_arena *arena;
static qll_knowledge shipped;

static const unsigned every_site = (1U << QLL_SITE_HAS_COUNT) - 1U;

static size_t *no_answers(const qll_knowledge *knowledge)
{
    size_t *answers = qll_arena_take(arena, knowledge->evidence_count, sizeof *answers);
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        answers[e] = QLL_NOT_KNOWN;
    }
    return answers;
}

static void answer(const qll_knowledge *knowledge, size_t *answers, const char *evidence,
                   const char *outcome)
{
    const size_t e = qll_evidence_called(knowledge, qll_text_of(evidence));
    if (CHECK(e != QLL_NOT_KNOWN)) {
        answers[e] = qll_outcome_called(&knowledge->evidence[e], qll_text_of(outcome));
        CHECK(answers[e] != QLL_NOT_KNOWN);
    }
}

static qll_belief believe(const qll_knowledge *knowledge, unsigned site, const size_t *answers)
{
    const qll_known known = {.site = site, .answers = answers};
    qll_belief belief;
    CHECK(qll_belief_make(knowledge, &known, arena, &belief) == QLL_OK);
    return belief;
}

/* ---- three causes, two tests, by hand: docs/theory/diagnosis.md 3, figures from the same formulas on paper ---- */

TEST(the_next_test_is_not_the_one_that_tells_most)
{
    qll_evidence evidence[2];
    const qll_knowledge knowledge = toy_knowledge(evidence, false);
    const size_t answers[] = {QLL_NOT_KNOWN, QLL_NOT_KNOWN};
    const qll_belief belief = believe(&knowledge, 0, answers);
    size_t action = QLL_NOT_KNOWN;
    CHECK_WITHIN(qll_least_loss(&toy_losses, belief.probability, &action), 2.95, 1e-12);
    CHECK(action == 0);
    CHECK_WITHIN(qll_value_of_certainty(&toy_losses, belief.probability), 1.75, 1e-12);
    double room[3];
    const qll_next_test a = qll_test_worth(&belief, &toy_losses, 0, room);
    const qll_next_test b = qll_test_worth(&belief, &toy_losses, 1, room);
    CHECK_WITHIN(a.worth_hours, 0.65, 1e-9);
    CHECK_WITHIN(a.net_hours, 0.40, 1e-9);
    CHECK_WITHIN(a.gain_bits, 0.4525262, 1e-7);
    CHECK_WITHIN(b.worth_hours, 0.57, 1e-9);
    CHECK_WITHIN(b.net_hours, 0.47, 1e-9);
    CHECK_WITHIN(b.gain_bits, 0.2916384, 1e-7);
    CHECK_WITHIN(qll_belief_if(&belief, 0, 0, room), 0.53, 1e-12);
    CHECK_WITHIN(room[0], 0.8490566, 1e-7);
    CHECK_WITHIN(qll_least_loss(&toy_losses, room, &action), 1.6226415, 1e-7);
    CHECK_WITHIN(qll_belief_if(&belief, 0, 1, room), 0.47, 1e-12);
    CHECK_WITHIN(qll_least_loss(&toy_losses, room, &action), 3.0638298, 1e-7);
    CHECK(action == 2);
}

TEST(each_answer_moves_each_cause)
{
    static const double after[5][3] = {{0.8490566, 0.1132075, 0.0377358},
                                       {0.1063830, 0.5106383, 0.3829787},
                                       {0.8139535, 0.1395349, 0.0465116},
                                       {0.2941176, 0.5294118, 0.1764706},
                                       {0.2173913, 0.2608696, 0.5217391}};
    qll_evidence evidence[2];
    const qll_knowledge knowledge = toy_knowledge(evidence, false);
    const size_t nothing[] = {QLL_NOT_KNOWN, QLL_NOT_KNOWN};
    const qll_belief belief = believe(&knowledge, 0, nothing);
    double room[3];
    for (size_t o = 0; o < 5; o++) {
        (void)qll_belief_if(&belief, o < 2 ? 0 : 1, o < 2 ? o : o - 2, room);
        for (size_t c = 0; c < 3; c++) {
            CHECK_WITHIN(room[c], after[o][c], 1e-7);
        }
    }
}

TEST(what_is_said_twice_counts_less_than_twice)
{
    qll_evidence evidence[2];
    const size_t answers[] = {0, 0};
    const qll_knowledge apart = toy_knowledge(evidence, false);
    const qll_belief two = believe(&apart, 0, answers);
    CHECK_WITHIN(two.probability[0], 0.9574468, 1e-7);
    CHECK_WITHIN(two.probability[1], 0.0364742, 1e-7);
    CHECK_WITHIN(two.probability[2], 0.0060790, 1e-7);
    CHECK_WITHIN(toy_brier(&two), 0.0031781, 1e-7);
    const qll_knowledge together = toy_knowledge(evidence, true);
    const qll_belief one = believe(&together, 0, answers);
    CHECK_WITHIN(one.probability[0], 0.9187037, 1e-7);
    CHECK_WITHIN(one.probability[1], 0.0661213, 1e-7);
    CHECK_WITHIN(one.probability[2], 0.0151750, 1e-7);
    CHECK_WITHIN(toy_brier(&one), 0.0112114, 1e-7);
}

/* With a lost symptom a group cannot say more than (1 - m)/m against the rest. */
TEST(a_lost_symptom_bounds_what_a_group_says)
{
    qll_evidence evidence[2];
    qll_knowledge knowledge = toy_knowledge(evidence, true);
    knowledge.copied_share = 0.0;
    knowledge.lost_share = 0.2;
    const size_t answers[] = {0, 2};
    const qll_belief belief = believe(&knowledge, 0, answers);
    const double usual = 0.5 * 0.3;
    const double weight[] = {0.5 * (0.8 * 0.9 * 0.1 + 0.2 * usual),
                             0.3 * (0.8 * 0.2 * 0.2 + 0.2 * usual),
                             0.2 * (0.8 * 0.1 * 0.6 + 0.2 * usual)};
    for (size_t c = 0; c < 3; c++) {
        CHECK_WITHIN(belief.probability[c], weight[c] / (weight[0] + weight[1] + weight[2]), 1e-12);
    }
}

/* ---- the tables as shipped ---- */

TEST(every_row_is_a_distribution_and_nothing_is_impossible)
{
    CHECK(shipped.cause_count >= 24 && shipped.evidence_count >= 41);
    for (size_t e = 0; e < shipped.evidence_count; e++) {
        double usual = 0.0;
        for (size_t o = 0; o < shipped.evidence[e].outcome_count; o++) {
            usual += shipped.evidence[e].outcomes[o].usual;
            CHECK(shipped.evidence[e].outcomes[o].says != QLL_TEXT_NONE);
        }
        CHECK_WITHIN(usual, 1.0, 1e-6);
        CHECK(shipped.evidence[e].asks != QLL_TEXT_NONE);
        for (size_t c = 0; c < shipped.cause_count; c++) {
            double sum = 0.0;
            for (size_t o = 0; o < shipped.evidence[e].outcome_count; o++) {
                const double p = qll_likelihood(&shipped, e, o, c);
                sum += p;
                CHECK(p >= 0.005);
            }
            CHECK_WITHIN(sum, 1.0, 1e-6);
        }
    }
    for (size_t c = 0; c < shipped.cause_count; c++) {
        CHECK(shipped.causes[c].says != QLL_TEXT_NONE && shipped.causes[c].cure != QLL_TEXT_NONE);
        CHECK(c == shipped.other || shipped.causes[c].confirm_outcome != QLL_NOT_KNOWN);
    }
}

/* The test that is said to settle a cause speaks for it more than for what else there is. */
TEST(what_settles_a_cause_raises_it)
{
    for (size_t c = 0; c < shipped.cause_count; c++) {
        if (c == shipped.other) {
            continue;
        }
        size_t *answers = no_answers(&shipped);
        const double before = believe(&shipped, every_site, answers).probability[c];
        answers[shipped.causes[c].confirm] = shipped.causes[c].confirm_outcome;
        const double after = believe(&shipped, every_site, answers).probability[c];
        if (!CHECK(after > before)) {
            printf("    %s: %g to %g\n", shipped.causes[c].word, before, after);
        }
    }
}

TEST(what_is_not_known_changes_nothing)
{
    const qll_belief belief = believe(&shipped, every_site, no_answers(&shipped));
    double weight = 0.0;
    for (size_t c = 0; c < shipped.cause_count; c++) {
        weight += shipped.causes[c].weight;
    }
    for (size_t c = 0; c < shipped.cause_count; c++) {
        CHECK_WITHIN(belief.probability[c], shipped.causes[c].weight / weight, 1e-12);
    }
}

/* eq. 1 and 4 hold together: what will be believed, weighed by how likely it is, is what is believed, where nothing
 * is tempered. */
TEST(beliefs_average_to_the_belief)
{
    qll_knowledge knowledge = shipped;
    knowledge.copied_share = 0.0;
    size_t *answers = no_answers(&knowledge);
    answer(&knowledge, answers, "sound_kind", "chatter");
    answer(&knowledge, answers, "pressure_complaint", "swings");
    const qll_belief belief = believe(&knowledge, every_site, answers);
    double *then = qll_arena_take(arena, knowledge.cause_count, sizeof *then);
    for (size_t e = 0; e < knowledge.evidence_count; e++) {
        if (answers[e] != QLL_NOT_KNOWN) {
            continue;
        }
        double all = 0.0;
        double first = 0.0;
        for (size_t o = 0; o < knowledge.evidence[e].outcome_count; o++) {
            const double share = qll_belief_if(&belief, e, o, then);
            all += share;
            first += share * then[0];
        }
        CHECK_WITHIN(all, 1.0, 1e-9);
        CHECK_WITHIN(first, belief.probability[0], 1e-9);
    }
}

/* What is foreseen is what is then believed. */
TEST(a_foreseen_belief_comes_true)
{
    qll_random random = qll_random_seeded(7);
    double *foreseen = qll_arena_take(arena, shipped.cause_count, sizeof *foreseen);
    for (size_t round = 0; round < 60; round++) {
        size_t *answers = no_answers(&shipped);
        for (size_t n = 0; n < round % 12; n++) {
            const size_t e = qll_random_bits(&random) % shipped.evidence_count;
            answers[e] = qll_random_bits(&random) % shipped.evidence[e].outcome_count;
        }
        const qll_belief belief = believe(&shipped, every_site, answers);
        const size_t e = qll_random_bits(&random) % shipped.evidence_count;
        if (answers[e] != QLL_NOT_KNOWN) {
            continue;
        }
        const size_t o = qll_random_bits(&random) % shipped.evidence[e].outcome_count;
        (void)qll_belief_if(&belief, e, o, foreseen);
        answers[e] = o;
        const qll_belief then = believe(&shipped, every_site, answers);
        for (size_t c = 0; c < shipped.cause_count; c++) {
            CHECK_WITHIN(then.probability[c], foreseen[c], 1e-12);
        }
    }
}

/* A test that tells the cause for certain is worth as much as certainty. */
TEST(a_perfect_test_is_worth_certainty)
{
    qll_evidence evidence[2];
    qll_knowledge knowledge = toy_knowledge(evidence, false);
    static const double perfect[] = {1,      0,      0, 0,      1,      1,      1, 1e-300,
                                     1e-300, 1e-300, 1, 1e-300, 1e-300, 1e-300, 1};
    knowledge.likelihood = perfect;
    const size_t answers[] = {QLL_NOT_KNOWN, QLL_NOT_KNOWN};
    const qll_belief belief = believe(&knowledge, 0, answers);
    double room[3];
    CHECK_WITHIN(qll_test_worth(&belief, &toy_losses, 1, room).worth_hours, 1.75, 1e-9);
}

TEST(a_cause_that_cannot_be_has_no_share)
{
    const qll_belief belief = believe(&shipped, 0, no_answers(&shipped));
    for (size_t c = 0; c < shipped.cause_count; c++) {
        CHECK((belief.probability[c] > 0.0) == (shipped.causes[c].needs == 0));
    }
}

TEST(silly_questions_are_not_asked)
{
    size_t *answers = no_answers(&shipped);
    const size_t flush = qll_evidence_called(&shipped, qll_text_of("flush_test"));
    const size_t fixture = qll_evidence_called(&shipped, qll_text_of("fixture_isolate"));
    const size_t spread = qll_evidence_called(&shipped, qll_text_of("spread_setpoints"));
    qll_belief belief = believe(&shipped, 0, answers);
    CHECK(!qll_belief_may_ask(&belief, flush) && !qll_belief_may_ask(&belief, fixture)
          && !qll_belief_may_ask(&belief, spread));
    answer(&shipped, answers, "creep_10min", "gt_5psi");
    answer(&shipped, answers, "sound_kind", "hiss");
    belief = believe(&shipped, every_site, answers);
    CHECK(qll_belief_may_ask(&belief, flush) && qll_belief_may_ask(&belief, fixture)
          && qll_belief_may_ask(&belief, spread));
    answer(&shipped, answers, "creep_10min", "le_1psi");
    answer(&shipped, answers, "sound_kind", "none");
    belief = believe(&shipped, every_site, answers);
    CHECK(!qll_belief_may_ask(&belief, flush) && !qll_belief_may_ask(&belief, fixture));
}

TEST(figures_become_answers)
{
    const qll_evidence *creep =
        &shipped.evidence[qll_evidence_called(&shipped, qll_text_of("creep_10min"))];
    const double psi = 6894.757293168361;
    CHECK_TEXT(creep->outcomes[qll_outcome_of(creep, 0.4 * psi)].word, "le_1psi");
    CHECK_TEXT(creep->outcomes[qll_outcome_of(creep, 1.5 * psi)].word, "1_to_5psi");
    CHECK_TEXT(creep->outcomes[qll_outcome_of(creep, 6.0 * psi)].word, "gt_5psi");
    CHECK_TEXT(creep->outcomes[qll_outcome_of(creep, -1.0)].word, "le_1psi"); /* it fell */
    CHECK(qll_outcome_of(creep, NAN) == QLL_NOT_KNOWN);
    const qll_evidence *lockup =
        &shipped.evidence[qll_evidence_called(&shipped, qll_text_of("lockup_vs_set"))];
    CHECK_TEXT(lockup->outcomes[qll_outcome_of(lockup, -9.0 * psi)].word, "low");
    CHECK_TEXT(lockup->outcomes[qll_outcome_of(lockup, 2.0 * psi)].word, "within_5psi");
    CHECK_TEXT(lockup->outcomes[qll_outcome_of(lockup, 12.0 * psi)].word, "high");
    CHECK(qll_outcome_of(&shipped.evidence[0], 1.0) == QLL_NOT_KNOWN);
}

/* Gauges show whole psi, so that limits are met: a rise of 1 psi passes, 5 psi is suspect, more fails. */
TEST(a_limit_is_of_the_answer_that_names_it)
{
    static const struct {
        const char *evidence;
        double figure;
        const char *word;
    } rows[] = {
        {"creep_10min", 6894.757293168361, "le_1psi"},
        {"creep_10min", 5.0 * 6894.757293168361, "1_to_5psi"},
        /* 65 psi on one gauge, 60 on the other */
        {"lockup_vs_set", 65.0 * 6894.757293168361 - 60.0 * 6894.757293168361, "within_5psi"},
        {"inlet_drop", 118.3 * 6894.757293168361 - 108.3 * 6894.757293168361, "ge_10psi"},
        {"falloff", 1.3, "le_1_3x"},
        {"falloff", 2.0, "1_3_to_2x"},
        {"pressure_ratio", 2.0, "le_2"},
        {"pressure_ratio", 3.0, "2_to_3"},
        {"inlet_sweep", 0.05, "0_05_to_0_15"},
        {"inlet_sweep", 0.15, "0_05_to_0_15"},
        {"low_flow_share", 0.4, "10_to_40pc"},
        {"gauge_swap", 2.0 * 6894.757293168361, "same"},
        {"velocity", 6.0 * 0.3048, "6_to_8fps"},
        {"velocity", 8.0 * 0.3048, "6_to_8fps"},
        {"log_spikes", 3.0, "frequent"},
    };

    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const qll_evidence *of =
            &shipped.evidence[qll_evidence_called(&shipped, qll_text_of(rows[i].evidence))];
        const size_t found = qll_outcome_of(of, rows[i].figure);
        CHECK_TEXT(found == QLL_NOT_KNOWN ? "" : of->outcomes[found].word, rows[i].word);
    }
    /* A share over 1 was meant in percent, or is none. */
    const qll_evidence *sweep =
        &shipped.evidence[qll_evidence_called(&shipped, qll_text_of("inlet_sweep"))];
    CHECK(sweep->is_share && qll_outcome_of(sweep, 20.0) == QLL_NOT_KNOWN);
}

/* Two that have nothing in common: neither explains both alone. */
TEST(two_faults_at_once_are_seen)
{
    size_t *answers = no_answers(&shipped);
    answer(&shipped, answers, "hammer_trigger", "yes");
    answer(&shipped, answers, "sound_kind", "bang");
    answer(&shipped, answers, "peak_gauge_24h", "spikes");
    qll_known known = {.site = every_site, .answers = answers};
    qll_diagnosis diagnosis;
    CHECK(qll_diagnose(&shipped, &known, NULL, arena, &diagnosis) == QLL_OK);
    CHECK(diagnosis.two.share < 0.5);
    CHECK_TEXT(shipped.causes[diagnosis.causes[0].cause].word, "quick_closing_hammer");
    CHECK(diagnosis.action == diagnosis.causes[0].cause && diagnosis.doubt_count == 0);
    answer(&shipped, answers, "strainer_dp", "blocked");
    answer(&shipped, answers, "falloff", "gt_2x");
    answer(&shipped, answers, "pressure_complaint", "low_when_running");
    answer(&shipped, answers, "time_pattern", "peak_hours");
    CHECK(qll_diagnose(&shipped, &known, NULL, arena, &diagnosis) == QLL_OK);
    CHECK(diagnosis.two.share > 0.5);
    const char *first = shipped.causes[diagnosis.two.first].word;
    const char *second = shipped.causes[diagnosis.two.second].word;
    CHECK(
        (strcmp(first, "quick_closing_hammer") == 0 && strcmp(second, "strainer_clogged") == 0)
        || (strcmp(second, "quick_closing_hammer") == 0 && strcmp(first, "strainer_clogged") == 0));
}

/* In which order the table names causes says nothing. */
TEST(two_faults_do_not_hang_on_the_order_of_causes)
{
    static const size_t orders[][3] = {{0, 1, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}};
    const size_t answers[2] = {0, 1};
    double first_share = (double)NAN;
    for (size_t o = 0; o < sizeof orders / sizeof orders[0]; o++) {
        qll_evidence evidence[2];
        qll_knowledge turned = toy_knowledge(evidence, false);
        qll_cause causes[3];
        double likelihood[15];
        for (size_t c = 0; c < 3; c++) {
            causes[c] = toy_causes[orders[o][c]];
            for (size_t k = 0; k < 5; k++) {
                likelihood[k * 3 + c] = toy_likelihood[k * 3 + orders[o][c]];
            }
        }
        turned.causes = causes;
        turned.likelihood = likelihood;
        const qll_belief belief = believe(&turned, every_site, answers);
        qll_two_faults two;
        CHECK(qll_two_faults_find(&belief, arena, &two) == QLL_OK);
        first_share = o == 0 ? two.share : first_share;
        CHECK(two.share > 0.0 && two.share < 1.0);
        CHECK_NEAR(two.share, first_share, 1e-12);
    }
}

TEST(no_cure_is_advised_on_nothing)
{
    const qll_known known = {.site = every_site, .answers = no_answers(&shipped)};
    qll_diagnosis diagnosis;
    CHECK(qll_diagnose(&shipped, &known, NULL, arena, &diagnosis) == QLL_OK);
    CHECK(diagnosis.action == QLL_NOT_KNOWN && !diagnosis.next.is_done && diagnosis.next.count > 0);
    CHECK(diagnosis.next.log_count > 0 && diagnosis.next.log_count < diagnosis.next.count);
    bool *skipped = qll_arena_take(arena, shipped.evidence_count, sizeof *skipped);
    skipped[diagnosis.next.tests[0].evidence] = true;
    qll_diagnosis other;
    CHECK(qll_diagnose(&shipped, &known, skipped, arena, &other) == QLL_OK);
    CHECK(other.next.count == diagnosis.next.count - 1
          && other.next.tests[0].evidence == diagnosis.next.tests[1].evidence);
}

int main(void)
{
    arena = qll_arena_open((size_t)64 << 20);
    CHECK(qll_knowledge_read(arena, &shipped) == QLL_OK);
    TEST_RUN(the_next_test_is_not_the_one_that_tells_most);
    TEST_RUN(each_answer_moves_each_cause);
    TEST_RUN(what_is_said_twice_counts_less_than_twice);
    TEST_RUN(a_lost_symptom_bounds_what_a_group_says);
    TEST_RUN(every_row_is_a_distribution_and_nothing_is_impossible);
    TEST_RUN(what_settles_a_cause_raises_it);
    TEST_RUN(what_is_not_known_changes_nothing);
    TEST_RUN(beliefs_average_to_the_belief);
    TEST_RUN(a_foreseen_belief_comes_true);
    TEST_RUN(a_perfect_test_is_worth_certainty);
    TEST_RUN(a_cause_that_cannot_be_has_no_share);
    TEST_RUN(silly_questions_are_not_asked);
    TEST_RUN(figures_become_answers);
    TEST_RUN(a_limit_is_of_the_answer_that_names_it);
    TEST_RUN(two_faults_at_once_are_seen);
    TEST_RUN(two_faults_do_not_hang_on_the_order_of_causes);
    TEST_RUN(no_cure_is_advised_on_nothing);
    qll_arena_close(arena);
    return TEST_END();
}
