/* What is wrong, how sure, what to test next, what cures it; and what was found and left on a visit. */
#include "report/diagnosis_sheet.h"

#include "base/count.h"
#include "report/report_parts.h"
#include "wording/says_trouble.h"

#include <math.h>

/* So many causes and tests are worth a plumber's eye. */
#define QLL_CAUSES_SHOWN  6
#define QLL_CAUSE_LEAST   0.02
#define QLL_NEXT_SHOWN    3
#define QLL_REASONS_SHOWN 5

typedef struct writing {
    qll_report report;
    const qll_diagnosed *findings;
    bool is_official; /* sheets to hand over: sections have numbers */
} writing;

static const char *say(const writing *of, qll_said said)
{
    return qll_said_text(of->report.arena, &of->report.wording, &said);
}

static const char *says(const writing *of, qll_text_id id)
{
    return say(of, (qll_said){.id = id});
}

static qll_argument as_said(const writing *of, qll_said said)
{
    return qll_as_said(of->report.arena, said);
}

static const qll_evidence *evidence_of(const writing *of, size_t evidence)
{
    return &of->findings->knowledge->evidence[evidence];
}

static qll_argument asks(const writing *of, size_t evidence)
{
    return as_said(of, qll_question_said(evidence_of(of, evidence)));
}

static qll_argument answered(const writing *of, size_t evidence)
{
    return as_said(
        of, qll_answer_said(evidence_of(of, evidence), of->findings->gathered->answers[evidence]));
}

static void paragraph(const writing *of, qll_said said)
{
    qll_sheet_text(of->report.sheet, QLL_BLOCK_PARAGRAPH, say(of, said));
}

static void item(const writing *of, qll_said said)
{
    qll_sheet_item(of->report.sheet, say(of, said));
}

/* The chapter that a section stands in on official sheets. */
static qll_chapter chapter_of(qll_section_kind kind)
{
    switch (kind) {
    case QLL_SECTION_COMMISSIONING: return QLL_CHAPTER_COMMISSIONING;
    case QLL_SECTION_SERVICE:
    case QLL_SECTION_ALTERNATIVES: return QLL_CHAPTER_SERVICE;
    case QLL_SECTION_EXPECT:
    case QLL_SECTION_VERDICTS:
    case QLL_SECTION_SURVEY: return QLL_CHAPTER_WHY;
    case QLL_SECTION_DEMAND: return QLL_CHAPTER_DEMAND;
    case QLL_SECTION_SOURCES: return QLL_CHAPTER_SOURCES;
    case QLL_SECTION_COVER:
    case QLL_SECTION_CAUTIONS:
    case QLL_SECTION_STATION:
    case QLL_SECTION_FIGURES:
    case QLL_SECTION_COUNT: break;
    }
    return QLL_CHAPTER_INSTALL;
}

static void section_called(const writing *of, qll_section_kind kind, const char *heading)
{
    if (of->is_official) {
        qll_sheet_numbered(of->report.sheet, kind, chapter_of(kind), heading);
    } else {
        qll_sheet_section(of->report.sheet, kind, heading);
    }
}

static void section(const writing *of, qll_section_kind kind, qll_text_id heading)
{
    section_called(of, kind, says(of, heading));
}

/* ---- the first lines ---- */

static void write_dangers(const writing *of)
{
    for (unsigned danger = 0; danger < QLL_DANGER_COUNT; danger++) {
        if ((of->findings->gathered->dangers & (1U << danger)) != 0) {
            item(of, qll_danger_said(of->findings->gathered, (qll_danger)danger));
        }
    }
    qll_sheet_list(of->report.sheet, QLL_BLOCK_CAUTIONS);
}

static void write_lead(const writing *of)
{
    const qll_diagnosis *diagnosis = of->findings->diagnosis;
    const qll_knowledge *knowledge = of->findings->knowledge;
    const qll_ranked_cause *first = &diagnosis->causes[0];
    const qll_said lead = {diagnosis->action == QLL_NOT_KNOWN ? QLL_TEXT_VISIT_NOT_SURE
                                                              : QLL_TEXT_VISIT_LIKELIEST,
                           {as_said(of, qll_cause_said(knowledge, first->cause)),
                            as_said(of, qll_odds_said(first->probability))}};
    qll_sheet_text(of->report.sheet, QLL_BLOCK_LEAD, say(of, lead));
    const qll_two_faults *two = &diagnosis->two;
    if (two->share >= 0.5) {
        paragraph(of, (qll_said){QLL_TEXT_VISIT_TWO,
                                 {as_said(of, qll_cause_said(knowledge, two->first)),
                                  as_said(of, qll_cause_said(knowledge, two->second)),
                                  as_said(of, qll_odds_said(two->share))}});
    }
}

/* ---- what it may be, and why ---- */

static void write_causes(const writing *of)
{
    const qll_diagnosis *diagnosis = of->findings->diagnosis;
    qll_sheet *sheet = of->report.sheet;
    section(of, QLL_SECTION_EXPECT, QLL_TEXT_VISIT_CAUSES);
    qll_sheet_cell(sheet, says(of, QLL_TEXT_VISIT_HEAD_CAUSE));
    qll_sheet_cell(sheet, says(of, QLL_TEXT_VISIT_HEAD_CHANCE));
    for (size_t i = 0; i < diagnosis->cause_count && i < QLL_CAUSES_SHOWN; i++) {
        const qll_ranked_cause *cause = &diagnosis->causes[i];
        if (i > 0 && cause->probability < QLL_CAUSE_LEAST) {
            break;
        }
        qll_sheet_cell(sheet, say(of, qll_cause_said(of->findings->knowledge, cause->cause)));
        qll_sheet_cell(sheet, say(of, qll_odds_said(cause->probability)));
    }
    qll_sheet_table(sheet, "", "ll", true);
    paragraph(of, (qll_said){.id = QLL_TEXT_VISIT_JUDGED});
}

static qll_argument times(double value)
{
    const double shown = value >= 1.0 ? value : 1.0 / value;
    return qll_as_number(shown < 9.95 ? round(10.0 * shown) / 10.0 : round(shown));
}

static void write_reasons(const writing *of)
{
    const qll_ranked_cause *first = &of->findings->diagnosis->causes[0];
    section(of, QLL_SECTION_VERDICTS, QLL_TEXT_VISIT_WHY);
    for (size_t i = 0; i < first->reason_count; i++) {
        const qll_speaks_for *reason = &first->reasons[i];
        if (i >= QLL_REASONS_SHOWN && reason->times > 1.0) {
            continue; /* what speaks against it is never left out */
        }
        item(of, (qll_said){reason->times > 1.0 ? QLL_TEXT_VISIT_SPEAKS_FOR
                                                : QLL_TEXT_VISIT_SPEAKS_AGAINST,
                            {asks(of, reason->evidence), answered(of, reason->evidence),
                             times(reason->times)}});
    }
    qll_sheet_list(of->report.sheet, QLL_BLOCK_LIST);
}

static void write_doubts(const writing *of)
{
    const qll_diagnosis *diagnosis = of->findings->diagnosis;
    section(of, QLL_SECTION_SURVEY, QLL_TEXT_VISIT_DOUBTS);
    for (size_t i = 0; i < diagnosis->doubt_count; i++) {
        item(of, (qll_said){QLL_TEXT_VISIT_DOUBT,
                            {asks(of, diagnosis->doubts[i]), answered(of, diagnosis->doubts[i])}});
    }
    qll_sheet_list(of->report.sheet, QLL_BLOCK_LIST);
}

/* ---- what to do ---- */

static void write_test(const writing *of, size_t evidence, qll_text_id how)
{
    const qll_evidence *asked = evidence_of(of, evidence);
    item(of, (qll_said){how, {asks(of, evidence), qll_question_takes(of->report.arena, asked)}});
}

/* Whether the test that makes sure of a cure is not made yet. */
static bool is_unsure(const writing *of, size_t cause)
{
    const size_t confirm = of->findings->knowledge->causes[cause].confirm;
    return confirm != QLL_NOT_KNOWN && of->findings->gathered->answers[confirm] == QLL_NOT_KNOWN;
}

static qll_text_id why_done(const writing *of)
{
    const size_t action = of->findings->diagnosis->action;
    if (action == QLL_NOT_KNOWN) {
        return QLL_TEXT_VISIT_DONE_LOG;
    }
    return is_unsure(of, action) ? QLL_TEXT_VISIT_DONE_CONFIRM : QLL_TEXT_VISIT_DONE_SURE;
}

/* How a test is made, and what hurts who makes it. */
static void write_how(const writing *of, const qll_evidence *evidence)
{
    const qll_said how = qll_question_how_said(evidence);
    if (how.id != QLL_TEXT_NONE) {
        paragraph(of, how);
    }
    const char *caution = qll_question_caution(of->report.wording.language, evidence);
    if (caution != NULL) {
        qll_sheet_item(of->report.sheet, caution);
        qll_sheet_list(of->report.sheet, QLL_BLOCK_CAUTIONS);
    }
}

/* The first with how it is done; then the next two, and one that takes days. */
static void write_next(const writing *of)
{
    const qll_next_tests *next = &of->findings->diagnosis->next;
    const size_t here = next->count - next->log_count;
    section(of, QLL_SECTION_COMMISSIONING, QLL_TEXT_VISIT_NEXT);
    if (next->is_done) {
        paragraph(of, (qll_said){.id = why_done(of)});
    } else {
        const qll_evidence *first = evidence_of(of, next->tests[0].evidence);
        const qll_said test = {
            QLL_TEXT_VISIT_NEXT_ONE,
            {asks(of, next->tests[0].evidence), qll_question_takes(of->report.arena, first)}};
        qll_sheet_text(of->report.sheet, QLL_BLOCK_LEAD, say(of, test));
        write_how(of, first);
        for (size_t i = 1; i < here && i < QLL_NEXT_SHOWN; i++) {
            write_test(of, next->tests[i].evidence, QLL_TEXT_VISIT_NEXT_OR);
        }
    }
    if (next->log_count > 0
        && (!next->is_done || of->findings->diagnosis->action == QLL_NOT_KNOWN)) {
        write_test(of, next->tests[here].evidence, QLL_TEXT_VISIT_NEXT_LOG);
    }
    qll_sheet_list(of->report.sheet, QLL_BLOCK_LIST);
}

static void write_station_cure(const writing *of)
{
    const qll_check_findings *check = of->findings->check;
    if (of->findings->cure == NULL) {
        return;
    }
    qll_wording wording = of->report.wording;
    wording.site = &of->findings->survey->site;
    wording.duty = check->duty;
    wording.currency = check->catalogue->currency;
    qll_writer cure = qll_writer_new(of->report.arena);
    qll_wording_cure(&cure, &wording, check->cures, check->station, of->findings->cure);
    paragraph(of,
              (qll_said){QLL_TEXT_VISIT_WITH_STATION, {qll_as_is_text(qll_writer_text(&cure))}});
}

/* Of two faults the other has a cure of its own. */
static void write_other_cure(const writing *of, size_t action)
{
    const qll_two_faults *two = &of->findings->diagnosis->two;
    const size_t other = two->first == action ? two->second : two->first;
    if (two->share < 0.5 || (two->first != action && two->second != action)) {
        return;
    }
    const qll_knowledge *knowledge = of->findings->knowledge;
    paragraph(of, (qll_said){QLL_TEXT_VISIT_CURE_OTHER,
                             {as_said(of, qll_cause_said(knowledge, other)),
                              as_said(of, qll_cause_cure_said(knowledge, other))}});
}

static void write_cure(const writing *of)
{
    const qll_knowledge *knowledge = of->findings->knowledge;
    const size_t action = of->findings->diagnosis->action;
    section(of, QLL_SECTION_STATION, QLL_TEXT_VISIT_CURE);
    if (action == QLL_NOT_KNOWN) {
        paragraph(of, (qll_said){.id = QLL_TEXT_VISIT_NO_CURE});
        return;
    }
    paragraph(of, qll_cause_cure_said(knowledge, action));
    write_other_cure(of, action);
    const qll_cause *cause = &knowledge->causes[action];
    if (is_unsure(of, action)) {
        const qll_evidence *confirm = evidence_of(of, cause->confirm);
        paragraph(of, (qll_said){QLL_TEXT_VISIT_CONFIRM,
                                 {asks(of, cause->confirm),
                                  as_said(of, qll_answer_said(confirm, cause->confirm_outcome))}});
        write_how(of, confirm);
    }
    write_station_cure(of);
}

static void write_cautions(writing *of)
{
    section_called(of, QLL_SECTION_CAUTIONS,
                   qll_report_says(&of->report, QLL_SAYS_SECTION_CAUTIONS));
    qll_report_cautions(&of->report);
}

/* ---- what is known ---- */

/* "a test, 2026-11-20 22:05" */
static const char *say_from(const writing *of, size_t evidence)
{
    const qll_case *told = of->findings->of;
    const qll_answer_from from = of->findings->gathered->from[evidence];
    for (size_t i = told->test_count; i > 0 && from == QLL_ANSWER_FROM_TEST; i--) {
        const qll_made_test *test = &told->tests[i - 1];
        if (test->evidence == evidence) { /* the last counts */
            return test->at == NULL
                       ? says(of, QLL_TEXT_VISIT_FROM_TEST)
                       : say(of, (qll_said){QLL_TEXT_VISIT_FROM_TEST_AT, {qll_as_is(test->at)}});
        }
    }
    return says(of, qll_answer_from_text(from));
}

static void write_known(const writing *of)
{
    const qll_gathered *gathered = of->findings->gathered;
    qll_sheet *sheet = of->report.sheet;
    section(of, QLL_SECTION_DEMAND, QLL_TEXT_VISIT_KNOWN);
    qll_sheet_cell(sheet, says(of, QLL_TEXT_VISIT_HEAD_QUESTION));
    qll_sheet_cell(sheet, says(of, QLL_TEXT_VISIT_HEAD_ANSWER));
    qll_sheet_cell(sheet, says(of, QLL_TEXT_VISIT_HEAD_FROM));
    for (size_t e = 0; e < of->findings->knowledge->evidence_count; e++) {
        if (gathered->answers[e] == QLL_NOT_KNOWN) {
            continue;
        }
        qll_sheet_cell(sheet, say(of, qll_question_said(evidence_of(of, e))));
        qll_sheet_cell(sheet, say(of, qll_answer_said(evidence_of(of, e), gathered->answers[e])));
        qll_sheet_cell(sheet, say_from(of, e));
    }
    qll_sheet_table(sheet, "", "lll", true);
    for (size_t i = 0; i < gathered->unused_count; i++) {
        item(of, qll_unused_said(of->findings->language, of->findings->knowledge, gathered,
                                 &gathered->unused[i], of->report.arena));
    }
    qll_sheet_list(sheet, QLL_BLOCK_LIST);
}

static void write_assumed(writing *of)
{
    section(of, QLL_SECTION_SOURCES, QLL_TEXT_VISIT_ASSUMED);
    qll_report_assumed(&of->report);
}

/* ---- the visit: gauges as found and as left, work done, sources ---- */

static const char *quantity_or_dash(const writing *of, double si, qll_kind kind)
{
    return isnan(si) ? says(of, QLL_TEXT_VISIT_NOT_TOLD)
                     : qll_report_quantity(&of->report, si, kind);
}

static void write_gauges(const writing *of)
{
    static const qll_text_id heads[] = {QLL_TEXT_VISIT_HEAD_GAUGE, QLL_TEXT_VISIT_HEAD_READS,
                                        QLL_TEXT_VISIT_HEAD_FLOW, QLL_TEXT_VISIT_HEAD_WHEN};
    qll_sheet *sheet = of->report.sheet;
    section(of, QLL_SECTION_SERVICE, QLL_TEXT_VISIT_GAUGES);
    qll_sheet_cell(sheet, "");
    for (size_t i = 0; i < QLL_COUNT(heads); i++) {
        qll_sheet_cell(sheet, says(of, heads[i]));
    }
    for (int is_left = 0; is_left < 2; is_left++) {
        for (size_t i = 0; i < of->findings->of->reading_count; i++) {
            const qll_gauge_reading *one = &of->findings->of->readings[i];
            if (one->is_left != (is_left == 1)) {
                continue;
            }
            qll_sheet_cell(
                sheet, says(of, one->is_left ? QLL_TEXT_VISIT_AS_LEFT : QLL_TEXT_VISIT_AS_FOUND));
            qll_sheet_cell(sheet,
                           says(of, one->gauge == QLL_GAUGE_INLET ? QLL_TEXT_VISIT_GAUGE_INLET
                                                                  : QLL_TEXT_VISIT_GAUGE_OUTLET));
            qll_sheet_cell(sheet, quantity_or_dash(of, one->pressure_pa_gauge, QLL_KIND_PRESSURE));
            qll_sheet_cell(sheet, quantity_or_dash(of, one->flow_m3s, QLL_KIND_FLOW));
            qll_sheet_cell(sheet, one->at == NULL ? says(of, QLL_TEXT_VISIT_NOT_TOLD) : one->at);
        }
    }
    qll_sheet_table(sheet, "", "llrrl", true);
}

static void write_work(const writing *of)
{
    const size_t cause = of->findings->of->cause;
    section(of, QLL_SECTION_ALTERNATIVES, QLL_TEXT_VISIT_WORK);
    if (cause != QLL_NOT_KNOWN) {
        paragraph(of, (qll_said){QLL_TEXT_VISIT_FOUND,
                                 {as_said(of, qll_cause_said(of->findings->knowledge, cause))}});
    }
    for (size_t i = 0; i < of->findings->of->done_count; i++) {
        qll_sheet_item(of->report.sheet, of->findings->of->done[i]);
    }
    qll_sheet_list(of->report.sheet, QLL_BLOCK_STEPS);
}

/* What both sheets have after their first section. */
static void write_whole(writing *of)
{
    write_next(of);
    write_cure(of);
    write_causes(of);
    write_reasons(of);
    write_doubts(of);
    write_known(of);
    write_gauges(of);
    write_work(of);
    write_assumed(of);
}

void qll_diagnosis_print(qll_writer *writer, const qll_diagnosed *findings)
{
    const qll_wording wording = {.units = findings->survey->units, .language = findings->language};
    qll_sheet sheet;
    writing of = {
        .report = qll_report_begin_bare(&wording, findings->assumed, writer->arena, &sheet),
        .findings = findings,
    };
    sheet.title = says(&of, QLL_TEXT_VISIT_TITLE);
    sheet.subject = findings->of->name;
    qll_sheet_section(&sheet, QLL_SECTION_COVER, "");
    write_dangers(&of);
    write_lead(&of);
    write_whole(&of);
    write_cautions(&of);
    qll_report_print(&of.report, writer);
}

void qll_visit_make(const qll_diagnosed *findings, qll_arena *arena, qll_sheet *sheet)
{
    const qll_wording wording = {.units = findings->survey->units, .language = findings->language};
    const qll_design_findings found = {
        .demand = {.provenance = findings->provenance,
                   .survey = findings->survey,
                   .language = findings->language},
        .catalogue = findings->check == NULL ? NULL : findings->check->catalogue};
    writing of = {
        .report = qll_report_begin_bare(&wording, findings->assumed, arena, sheet),
        .findings = findings,
        .is_official = true,
    };
    of.report.is_plain = false;
    of.report.found = &found;
    of.report.of = QLL_REPORT_OF_DIAGNOSE;
    sheet->runs_on = true;
    sheet->title = says(&of, QLL_TEXT_VISIT_SHEETS);
    sheet->subject = findings->of->name;
    qll_report_title(&of.report);
    section(&of, QLL_SECTION_COVER, QLL_TEXT_VISIT_TITLE);
    write_dangers(&of);
    write_lead(&of);
    write_cautions(&of);
    write_whole(&of);
    qll_sheet_end(sheet);
}
