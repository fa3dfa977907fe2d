/* Rows of diagnosis_checks.csv and what the program believes in those that are cases; run_diagnosis_checks.c has the rest. */
#ifndef QUELL_TESTS_DIAGNOSIS_ROWS_H
#define QUELL_TESTS_DIAGNOSIS_ROWS_H

#include "diagnosis/diagnosis.h"
#include "toy_diagnosis.h"
#include "truth.h"

#include <string.h>

#define QLL_MOST 4096

static qll_arena *work;
static qll_table rows;
static qll_knowledge shipped;

static bool is_named(size_t row, const char *name)
{
    return truth_is(&rows, row, "case", name);
}

/* What follows @p start in the row's name; NULL where it does not begin so. */
static const char *name_after(size_t row, const char *start)
{
    static char name[128];
    const qll_text cell = qll_table_cell_in(&rows, row, "case");
    const size_t size = cell.size < sizeof name - 1 ? cell.size : sizeof name - 1;
    memcpy(name, cell.bytes, size);
    name[size] = '\0';
    return strncmp(name, start, strlen(start)) == 0 ? name + strlen(start) : NULL;
}

/* The numbers with blanks between that follow @p mark in the row's inputs. */
static size_t numbers_after(size_t row, const char *mark, double *values)
{
    const qll_text cell = qll_table_cell_in(&rows, row, "inputs");
    const size_t length = strlen(mark);
    size_t at = 0, count = 0;
    while (at + length <= cell.size && memcmp(cell.bytes + at, mark, length) != 0) {
        at += 1;
    }
    CHECK(at + length <= cell.size);
    for (at += length; at < cell.size && count < QLL_MOST;) {
        const size_t taken =
            qll_text_number((qll_text){cell.bytes + at, cell.size - at}, &values[count]);
        if (taken == 0) {
            break;
        }
        count += 1;
        at += taken + 1;
    }
    return count;
}

/* ---- three causes, two tests ---- */

static double toy_value(const char *name)
{
    qll_evidence evidence[2];
    const qll_knowledge apart = toy_knowledge(evidence, false);
    const size_t nothing[] = {QLL_NOT_KNOWN, QLL_NOT_KNOWN}, both[] = {0, 0};
    const qll_known known = {.answers = nothing}, answered = {.answers = both};
    qll_belief prior, after, tempered;
    CHECK(qll_belief_make(&apart, &known, work, &prior) == QLL_OK);
    CHECK(qll_belief_make(&apart, &answered, work, &after) == QLL_OK);
    qll_evidence grouped[2];
    const qll_knowledge together = toy_knowledge(grouped, true);
    CHECK(qll_belief_make(&together, &answered, work, &tempered) == QLL_OK);
    double room[6], yes[3], no[3], b[3][3];
    const double yes_chance = qll_belief_if(&prior, 0, 0, yes);
    (void)qll_belief_if(&prior, 0, 1, no);
    for (size_t o = 0; o < 3; o++) {
        (void)qll_belief_if(&prior, 1, o, b[o]);
    }
    const qll_next_test of_a = qll_test_worth(&prior, &toy_losses, 0, room);
    const qll_next_test of_b = qll_test_worth(&prior, &toy_losses, 1, room);
    size_t action = 0;
    /* the loss of one action alone: that of a table with no other */
    double alone[3];
    for (size_t a = 0; a < 3; a++) {
        alone[a] = 0.0;
        for (size_t c = 0; c < 3; c++) {
            alone[a] += toy_hours[3 * a + c] * prior.probability[c];
        }
    }
    CHECK_WITHIN(qll_least_loss(&toy_losses, prior.probability, &action),
                 fmin(alone[0], fmin(alone[1], alone[2])), 1e-12);

    const struct {
        const char *name;
        double value;
    } all[] = {{"prior_risk_a1", alone[0]},
               {"prior_risk_a2", alone[1]},
               {"prior_risk_a3", alone[2]},
               {"P_A+", yes_chance},
               {"post_A+_c1", yes[0]},
               {"post_A+_c2", yes[1]},
               {"post_A+_c3", yes[2]},
               {"post_A-_c1", no[0]},
               {"post_A-_c2", no[1]},
               {"post_A-_c3", no[2]},
               {"risk_A+_best(a1)", qll_least_loss(&toy_losses, yes, &action)},
               {"risk_A-_best(a3)", qll_least_loss(&toy_losses, no, &action)},
               {"EVSI_A", of_a.worth_hours},
               {"net_A_cost_0.25", of_a.net_hours},
               {"MI_A_bits", of_a.gain_bits},
               {"post_B0_c1", b[0][0]},
               {"post_B1_c2", b[1][1]},
               {"post_B2_c3", b[2][2]},
               {"EVSI_B", of_b.worth_hours},
               {"net_B_cost_0.10", of_b.net_hours},
               {"MI_B_bits", of_b.gain_bits},
               {"EVPI", qll_value_of_certainty(&toy_losses, prior.probability)},
               {"post_A+B0_c1", after.probability[0]},
               {"post_A+B0_c2", after.probability[1]},
               {"post_A+B0_c3", after.probability[2]},
               {"tempered_rho0.3_A+B0_c1", tempered.probability[0]},
               {"tempered_c2", tempered.probability[1]},
               {"tempered_c3", tempered.probability[2]},
               {"Brier_untempered_truth_c1", toy_brier(&after)},
               {"Brier_tempered_truth_c1", toy_brier(&tempered)}};

    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        if (strcmp(name, all[i].name) == 0) {
            return all[i].value;
        }
    }
    return NAN;
}

/* ---- the tables as shipped, with the plain model ---- */

static unsigned site_of(qll_text words)
{
    unsigned site = 0;
    for (unsigned has = 0; has < QLL_SITE_HAS_COUNT; has++) {
        const qll_text word = qll_text_of(qll_site_has_words[has]);
        for (size_t at = 0; at + word.size <= words.size; at++) {
            site |=
                memcmp(words.bytes + at, word.bytes, word.size) == 0 ? QLL_SITE_HAS_BIT(has) : 0U;
        }
    }
    return site;
}

/* The evidence a case has: that of its first row, "EVIDENCE=ANSWER ... | applicable: SITE". */
static qll_known case_of(char letter, size_t *answers)
{
    size_t row = 0;
    const char *name = name_after(row, "kb");
    while (row < rows.row_count && (name == NULL || name[0] != letter)) {
        row += 1;
        name = row < rows.row_count ? name_after(row, "kb") : NULL;
    }
    CHECK(row < rows.row_count);
    qll_text rest = qll_table_cell_in(&rows, row, "inputs");
    const qll_known known = {.site = site_of(rest), .answers = answers};
    for (size_t e = 0; e < shipped.evidence_count; e++) {
        answers[e] = QLL_NOT_KNOWN;
    }
    while (rest.size > 0 && rest.bytes[0] != '|') {
        const char *blank = memchr(rest.bytes, ' ', rest.size);
        const size_t size = blank == NULL ? rest.size : (size_t)(blank - rest.bytes);
        const char *equals = memchr(rest.bytes, '=', size);
        if (equals != NULL) {
            const size_t taken = (size_t)(equals - rest.bytes);
            const size_t e = qll_evidence_called(&shipped, (qll_text){rest.bytes, taken});
            if (CHECK(e != QLL_NOT_KNOWN)) {
                answers[e] = qll_outcome_called(&shipped.evidence[e],
                                                (qll_text){equals + 1, size - taken - 1});
            }
        }
        const size_t step = size < rest.size ? size + 1 : size;
        rest = (qll_text){rest.bytes + step, rest.size - step};
    }
    return known;
}

static double tables_value(size_t row, const char *name)
{
    size_t *answers = qll_arena_take(work, shipped.evidence_count, sizeof *answers);
    char kept[128];
    snprintf(kept, sizeof kept, "%s", name);
    const qll_known known = case_of(kept[0], answers);
    (void)name_after(row, "kb");
    qll_diagnosis diagnosis;
    CHECK(qll_diagnose(&shipped, &known, NULL, work, &diagnosis) == QLL_OK);
    const qll_belief *belief = &diagnosis.belief;
    if (strncmp(kept + 1, "_post_", 6) == 0) {
        const size_t cause = qll_cause_called(&shipped, qll_text_of(kept + 7));
        return cause == QLL_NOT_KNOWN ? (double)NAN : belief->probability[cause];
    }
    if (strcmp(kept + 1, "_min_risk_hours") == 0) {
        size_t action = QLL_NOT_KNOWN;
        const double hours = qll_least_loss(&diagnosis.losses, belief->probability, &action);
        const qll_text says = qll_table_cell_in(&rows, row, "inputs");
        const char *word = shipped.causes[action].word;
        const size_t size = strlen(word);
        CHECK(says.size > size && memcmp(says.bytes + says.size - size, word, size) == 0);
        return hours;
    }
    const bool is_worth = strncmp(kept + 1, "_EVSI_", 6) == 0;
    const size_t evidence = qll_evidence_called(&shipped, qll_text_of(kept + (is_worth ? 7 : 5)));
    if (evidence == QLL_NOT_KNOWN) {
        return NAN;
    }
    double *room = qll_arena_take(work, 2 * shipped.cause_count, sizeof *room);
    const qll_next_test test = qll_test_worth(belief, &diagnosis.losses, evidence, room);
    return is_worth ? test.worth_hours : test.gain_bits;
}

#endif
