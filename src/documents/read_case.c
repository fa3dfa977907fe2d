#include "documents/read_case.h"

#include "base/count.h"
#include "base/words.h"
#include "diagnosis/finding.h"
#include "documents/case_fields.h"
#include "documents/measured.h"

#include <math.h>
#include <string.h>

typedef struct case_pass {
    qll_reader reader;
    const qll_knowledge *knowledge;
    qll_read_case *read;
    qll_object root;
} case_pass;

/* ---- words of the tables ---- */

static bool refuse_word(case_pass *pass, qll_where where, const qll_said *what,
                        const char *const *words, size_t count)
{
    if (words == NULL) {
        return false;
    }
    return qll_reader_unknown_word(&pass->reader, where, what, words, count);
}

static size_t read_evidence(case_pass *pass, qll_where where, qll_text word)
{
    const qll_knowledge *knowledge = pass->knowledge;
    const size_t found = qll_evidence_called(knowledge, word);
    if (found == QLL_NOT_KNOWN) {
        const char **words =
            qll_reader_take(&pass->reader, knowledge->evidence_count, sizeof *words);
        for (size_t e = 0; words != NULL && e < knowledge->evidence_count; e++) {
            words[e] = knowledge->evidence[e].word;
        }
        (void)refuse_word(pass, where, QLL_SAYS(A_QUESTION), words, knowledge->evidence_count);
    }
    return found;
}

static size_t read_outcome(case_pass *pass, const qll_node *node, size_t evidence)
{
    const qll_evidence *of = &pass->knowledge->evidence[evidence];
    if (node->kind != QLL_NODE_TEXT) {
        (void)qll_reader_wrong_kind(&pass->reader, node, QLL_SAYS(EXPECT_WORD));
        return QLL_NOT_KNOWN;
    }
    const size_t found = qll_outcome_called(of, node->text);
    if (found == QLL_NOT_KNOWN) {
        const char **words = qll_reader_take(&pass->reader, of->outcome_count, sizeof *words);
        for (size_t o = 0; words != NULL && o < of->outcome_count; o++) {
            words[o] = of->outcomes[o].word;
        }
        (void)refuse_word(pass, qll_at(node), QLL_SAYS_WITH(AN_ANSWER_TO, qll_as_is(of->word)),
                          words, of->outcome_count);
    }
    return found;
}

static void read_symptoms(case_pass *pass)
{
    const qll_knowledge *knowledge = pass->knowledge;
    size_t *symptoms = qll_reader_take(&pass->reader, knowledge->evidence_count, sizeof *symptoms);
    if (symptoms == NULL) {
        return;
    }
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        symptoms[e] = QLL_NOT_KNOWN;
    }
    pass->read->of.symptoms = symptoms;
    const qll_node *node = qll_object_find(&pass->root, "symptoms");
    if (node == NULL) {
        return;
    }
    if (node->kind != QLL_NODE_OBJECT) {
        (void)qll_reader_wrong_kind(&pass->reader, node, QLL_SAYS(EXPECT_OBJECT));
        return;
    }
    for (const qll_node *one = node->first_child; one != NULL; one = one->next) {
        const size_t evidence = read_evidence(pass, qll_at_key(one), one->key);
        if (evidence != QLL_NOT_KNOWN) {
            symptoms[evidence] = read_outcome(pass, one, evidence);
        }
    }
}

/* ---- tests ---- */

/* What was measured, in the measure of the evidence; NaN after a problem. */
static double read_measured(case_pass *pass, const qll_node *node, const qll_evidence *evidence)
{
    if (!evidence->is_measured) {
        (void)qll_reader_refuse(&pass->reader, qll_at(node), QLL_CODE_CONTRADICTION,
                                QLL_SAYS_WITH(NOT_MEASURED, qll_as_is(evidence->word)),
                                QLL_SAYS(HINT_SAY_OUTCOME));
        return (double)NAN;
    }
    double percent = (double)NAN;
    qll_units_refusal refusal = {0};
    if (evidence->is_share && node->kind == QLL_NODE_TEXT
        && qll_measured_read(node->text, evidence, pass->reader.arena, &percent, &refusal)) {
        return percent;
    }
    const qll_field field = {
        .key = "measured", .value = QLL_VALUE_QUANTITY, .kind = evidence->measure};
    return qll_reader_quantity(&pass->reader, node, &field);
}

static void read_test_of(case_pass *pass, const qll_object *object, qll_made_test *test)
{
    const qll_evidence *evidence = &pass->knowledge->evidence[test->evidence];
    const qll_node *outcome = qll_object_find(object, "outcome");
    const qll_node *measured = qll_object_find(object, "measured");
    if (measured != NULL) {
        test->measured = read_measured(pass, measured, evidence);
        test->outcome = qll_outcome_of(evidence, test->measured);
        if (test->outcome == QLL_NOT_KNOWN && isfinite(test->measured)) {
            (void)qll_reader_refuse(&pass->reader, qll_at(measured), QLL_CODE_OUT_OF_RANGE,
                                    QLL_SAYS_WITH(MEASURED_NO_ANSWER, qll_as_found(measured),
                                                  qll_as_is(evidence->word)),
                                    NULL);
        }
    }
    if (outcome != NULL) {
        const size_t said = read_outcome(pass, outcome, test->evidence);
        if (measured != NULL && said != QLL_NOT_KNOWN && test->outcome != QLL_NOT_KNOWN
            && said != test->outcome) {
            (void)qll_reader_refuse(
                &pass->reader, qll_at(outcome), QLL_CODE_CONTRADICTION,
                QLL_SAYS_WITH(OUTCOME_NOT_MEASURED, qll_as_found(outcome), qll_as_found(measured),
                              qll_as_is(evidence->outcomes[test->outcome].word)),
                NULL);
        }
        test->outcome = said;
    }
    if (outcome == NULL && measured == NULL) {
        (void)qll_reader_refuse(&pass->reader, qll_at_missing(object->node, "outcome"),
                                QLL_CODE_MISSING_KEY,
                                QLL_SAYS_WITH(TEST_NO_OUTCOME, qll_as_is(evidence->word)), NULL);
    }
}

static void read_tests(case_pass *pass)
{
    const qll_node *list = qll_object_list(&pass->root, "tests");
    qll_made_test *tests =
        list == NULL ? NULL : qll_reader_take(&pass->reader, list->child_count, sizeof *tests);
    if (tests == NULL) {
        return;
    }
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        const qll_object object = qll_object_open(&pass->reader, node, &qll_group_test);
        qll_made_test *test = &tests[node->index];
        *test = (qll_made_test){
            .evidence = QLL_NOT_KNOWN, .outcome = QLL_NOT_KNOWN, .measured = (double)NAN};
        const char *word = object.node == NULL ? NULL : qll_object_text(&object, "test");
        if (word == NULL) {
            continue;
        }
        test->at = qll_object_text(&object, "at");
        test->evidence = read_evidence(pass, qll_object_where(&object, "test"), qll_text_of(word));
        if (test->evidence != QLL_NOT_KNOWN) {
            read_test_of(pass, &object, test);
        }
    }
    pass->read->of.tests = tests;
    pass->read->of.test_count = list->child_count;
}

/* ---- readings ---- */

static void read_readings(case_pass *pass)
{
    const qll_node *list = qll_object_list(&pass->root, "readings");
    qll_gauge_reading *readings =
        list == NULL ? NULL : qll_reader_take(&pass->reader, list->child_count, sizeof *readings);
    if (readings == NULL) {
        return;
    }
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        const qll_object object = qll_object_open(&pass->reader, node, &qll_group_reading);
        const size_t gauge = object.node == NULL ? SIZE_MAX : qll_object_word(&object, "gauge");
        readings[node->index] = (qll_gauge_reading){
            .gauge = gauge == SIZE_MAX ? QLL_GAUGE_INLET : (qll_gauge)gauge,
            .pressure_pa_gauge = qll_object_quantity(&object, "pressure"),
            .flow_m3s = qll_object_quantity(&object, "flow"),
            .at = qll_object_text(&object, "at"),
            .is_left = qll_object_word(&object, "as") == 1,
        };
    }
    pass->read->of.readings = readings;
    pass->read->of.reading_count = list->child_count;
}

/* ---- findings ---- */

/* The member that says how much, NULL for none, as the evidence is measured: of swings and of hammer, heard or not, it is how often, of fall-off how many
 * times what the survey's station should have. */
static const char *value_key(const char *word)
{
    static const struct {
        const char *word, *key;
    } others[] = {{"bangs-surges", "per_hour"}, {"swing-hunting", "logged_hz"},
                  {"hiss-ratio", NULL},         {"hunting", "frequency_hz"},
                  {"chatter", "frequency_hz"},  {"hammer", "per_hour"},
                  {"fall-off", "ratio"}};

    for (size_t i = 0; i < QLL_COUNT(others); i++) {
        if (strcmp(word, others[i].word) == 0) {
            return others[i].key;
        }
    }
    return "value";
}

/* A value in its unit, as the evidence is measured. */
static double read_value(case_pass *pass, const qll_object *object, const char *word)
{
    const char *key = value_key(word);
    const qll_node *node = key == NULL ? NULL : qll_object_find(object, key);
    if (node == NULL || node->kind == QLL_NODE_NULL) {
        return (double)NAN;
    }
    if (node->kind != QLL_NODE_NUMBER) {
        (void)qll_reader_wrong_kind(&pass->reader, node, QLL_SAYS(EXPECT_BARE_NUMBER));
        return (double)NAN;
    }
    const qll_kind kind = qll_finding_kind(pass->knowledge, word);
    if (kind == QLL_KIND_NUMBER) {
        return node->number;
    }
    const char *unit = qll_object_text(object, "unit");
    qll_writer text = qll_writer_new(pass->reader.arena);
    qll_write_text(&text, node->text);
    qll_write(&text, " ");
    qll_write(&text, unit == NULL ? "psi" : unit);
    qll_quantity quantity = {0};
    qll_units_refusal refusal = {0};
    if (!qll_units_read(qll_writer_text(&text), kind, pass->reader.arena, &quantity, &refusal)) {
        (void)qll_reader_refuse(&pass->reader, qll_object_where(object, "unit"), refusal.code,
                                &refusal.says, NULL);
        return (double)NAN;
    }
    return quantity.si;
}

static const qll_field_group *const finding_groups[QLL_FINDING_OF_COUNT] = {
    [QLL_FINDING_OF_LOG] = &qll_group_log_finding,
    [QLL_FINDING_OF_SOUND] = &qll_group_sound_finding,
    [QLL_FINDING_OF_BOTH] = &qll_group_together,
};

/* How sure it is: of both side by side, whether they go together at all. */
static double read_strength(const qll_object *object, qll_finding_of of)
{
    if (of == QLL_FINDING_OF_BOTH) {
        return qll_object_flag(object, "coincides", true) ? 1.0 : 0.0;
    }
    const double strength =
        qll_object_quantity(object, of == QLL_FINDING_OF_SOUND ? "confidence" : "strength");
    return isnan(strength) ? 1.0 : strength;
}

static qll_case_finding read_finding(case_pass *pass, const qll_object *object, qll_finding_of of)
{
    const char *key = qll_finding_keys[of];
    const char *word = qll_object_text(object, key);
    const double strength = read_strength(object, of);
    const char *const *words = NULL;
    size_t count = 0;
    if (word == NULL || qll_finding_words(of, pass->reader.arena, &words, &count) != QLL_OK) {
        return (qll_case_finding){.word = "", .value = (double)NAN};
    }
    if (qll_words_place(qll_text_of(word), words, count) == count) {
        (void)refuse_word(pass, qll_object_where(object, key), QLL_SAYS(A_FINDING), words, count);
        return (qll_case_finding){.word = "", .of = of, .value = (double)NAN};
    }
    return (qll_case_finding){
        .word = word,
        .of = of,
        .strength = strength,
        .value = of == QLL_FINDING_OF_SOUND ? (double)NAN : read_value(pass, object, word),
    };
}

/* By which key it goes; a log's where it has none. */
static qll_finding_of finding_of(const qll_node *node)
{
    qll_finding_of of = QLL_FINDING_OF_COUNT - 1;
    while (of > QLL_FINDING_OF_LOG && qll_node_find(node, qll_finding_keys[of]) == NULL) {
        of--;
    }
    return of;
}

static void read_findings(case_pass *pass)
{
    const qll_node *list = qll_object_list(&pass->root, "findings");
    qll_case_finding *findings =
        list == NULL ? NULL : qll_reader_take(&pass->reader, list->child_count, sizeof *findings);
    if (findings == NULL) {
        return;
    }
    size_t count = 0;
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        if (node->kind != QLL_NODE_OBJECT) {
            (void)qll_reader_wrong_kind(&pass->reader, node, QLL_SAYS(EXPECT_OBJECT));
            continue;
        }
        const qll_finding_of of = finding_of(node);
        /* An answer of ours, which may hold more than is read here. */
        const qll_object object = {
            .reader = &pass->reader, .node = node, .group = finding_groups[of]};
        if (qll_node_find(node, qll_finding_keys[of]) == NULL) {
            (void)qll_object_needs(&object, qll_finding_keys[of]);
            continue;
        }
        const qll_case_finding found = read_finding(pass, &object, of);
        /* A sound that is hardly heard, or what does not go together, does not say that there is nothing. */
        if (of == QLL_FINDING_OF_LOG || found.strength >= 0.5) {
            findings[count] = found;
            count += 1;
        }
    }
    pass->read->of.findings = findings;
    pass->read->of.finding_count = count;
}

/* ---- the rest ---- */

static void tell_site(qll_case *of, qll_site_has has, bool is_so)
{
    of->site_told |= QLL_SITE_HAS_BIT(has);
    of->site |= is_so ? QLL_SITE_HAS_BIT(has) : 0U;
}

static void read_flag(const qll_object *object, const char *key, qll_case *of, qll_site_has has)
{
    if (qll_object_find(object, key) != NULL) {
        tell_site(of, has, qll_object_flag(object, key, false));
    }
}

static void read_several(const qll_object *object, const char *key, qll_case *of, qll_site_has has)
{
    const double count = qll_object_whole(object, key);
    if (isfinite(count)) {
        tell_site(of, has, count > 1.0);
    }
}

static void read_site(case_pass *pass)
{
    qll_case *of = &pass->read->of;
    const qll_object object = qll_object_inner(&pass->root, "site", &qll_group_case_site);
    read_flag(&object, "water_heater", of, QLL_SITE_HAS_WATER_HEATER);
    read_flag(&object, "backflow_preventer", of, QLL_SITE_HAS_BACKFLOW_PREVENTER);
    read_flag(&object, "pilot_operated", of, QLL_SITE_HAS_PILOT_OPERATED);
    read_several(&object, "branches", of, QLL_SITE_HAS_BRANCHES);
    read_several(&object, "stages", of, QLL_SITE_HAS_STAGES);
    of->set_pa_gauge = qll_object_quantity(&object, "set_pressure");
}

static void read_done(case_pass *pass)
{
    const qll_node *list = qll_object_list(&pass->root, "done");
    const char **done =
        list == NULL ? NULL : qll_reader_take(&pass->reader, list->child_count, sizeof *done);
    if (done == NULL) {
        return;
    }
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        if (node->kind != QLL_NODE_TEXT) {
            (void)qll_reader_wrong_kind(&pass->reader, node, QLL_SAYS(EXPECT_TEXT));
            continue;
        }
        const char *text = qll_text_closed(qll_text_trimmed(node->text), pass->reader.arena);
        done[node->index] = text == NULL ? "" : text;
    }
    pass->read->of.done = done;
    pass->read->of.done_count = list->child_count;
}

static void read_cause(case_pass *pass)
{
    const qll_knowledge *knowledge = pass->knowledge;
    const char *word = qll_object_text(&pass->root, "cause");
    if (word == NULL) {
        return;
    }
    pass->read->of.cause = qll_cause_called(knowledge, qll_text_of(word));
    if (pass->read->of.cause == QLL_NOT_KNOWN) {
        const char **words = qll_reader_take(&pass->reader, knowledge->cause_count, sizeof *words);
        for (size_t c = 0; words != NULL && c < knowledge->cause_count; c++) {
            words[c] = knowledge->causes[c].word;
        }
        (void)refuse_word(pass, qll_object_where(&pass->root, "cause"), QLL_SAYS(A_CAUSE), words,
                          knowledge->cause_count);
    }
}

static void read_parts(case_pass *pass)
{
    qll_read_case *read = pass->read;
    read->has_units = qll_object_find(&pass->root, "units") != NULL;
    read->units = qll_object_word(&pass->root, "units") == 1 ? QLL_UNITS_SI : QLL_UNITS_US;
    read->of.name = qll_object_text(&pass->root, "name");
    read->survey = qll_object_find(&pass->root, "survey");
    read_site(pass);
    read_symptoms(pass);
    read_readings(pass);
    read_tests(pass);
    read_findings(pass);
    read_done(pass);
    read_cause(pass);
}

qll_status qll_case_read(const qll_document *document, const qll_knowledge *knowledge,
                         qll_arena *arena, qll_read_case *read, qll_assumed *assumed,
                         qll_problems *problems)
{
    *read = (qll_read_case){.of = {.set_pa_gauge = (double)NAN, .cause = QLL_NOT_KNOWN}};
    case_pass pass = {
        .reader = qll_reader_new(document, arena, assumed), .knowledge = knowledge, .read = read};
    pass.reader.manual = "case.md";
    if (qll_reader_begins(&pass.reader, document->root, &qll_group_case)) {
        pass.root = qll_object_open(&pass.reader, document->root, &qll_group_case);
        (void)qll_object_whole(&pass.root, "case");
        read_parts(&pass);
    }
    return qll_reader_end(&pass.reader, problems);
}
