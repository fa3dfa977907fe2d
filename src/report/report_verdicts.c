/* Is it right, and what to expect from a trickle to the peak. */
#include "base/count.h"
#include "base/customary.h"
#include "report/points.h"
#include "report/report_parts.h"

#include <math.h>
#include <string.h>

static void verdict_row(qll_report *report, const qll_verdict *verdict)
{
    qll_language language = report->wording.language;
    const qll_message grade = (qll_message)((size_t)QLL_SAYS_GRADE_GOOD + (size_t)verdict->grade);
    qll_writer value = qll_writer_new(report->arena);
    qll_writer limit = qll_writer_new(report->arena);
    qll_writer says = qll_writer_new(report->arena);
    qll_wording_value(&value, &report->wording, verdict);
    qll_wording_limit(&limit, &report->wording, verdict);
    qll_wording_verdict(&says, &report->wording, &report->chosen->station, verdict);
    qll_sheet_cell(report->sheet, qll_say_rule(language, verdict->rule));
    qll_sheet_cell_tone(report->sheet, qll_say(language, grade), qll_report_tone(verdict->grade));
    qll_sheet_cell(report->sheet, qll_writer_text(&value).bytes);
    qll_sheet_cell(report->sheet, qll_writer_text(&limit).bytes);
    qll_sheet_cell(report->sheet, qll_report_share(report, verdict->holds_share));
    qll_sheet_cell(report->sheet, qll_writer_text(&says).bytes);
}

/* What nobody looked at because it takes a run, and is the same on every sheet. */
static bool takes_a_run(const qll_verdict *verdict)
{
    return verdict->rule == QLL_RULE_HAMMER && verdict->grade == QLL_GRADE_UNKNOWN;
}

/* Rules that are met need no row where rows are few. */
static void write_met(qll_report *report)
{
    const qll_assessment *found = &report->chosen->assessment;
    const char *unseen = NULL;
    bool has_met = false;
    for (size_t i = 0; i < found->verdict_count; i++) {
        const qll_verdict *verdict = &found->verdicts[i];
        has_met = has_met || verdict->grade == QLL_GRADE_GOOD;
        if (takes_a_run(verdict)) {
            unseen = qll_say_rule(report->wording.language, verdict->rule);
        }
    }
    const qll_filling filling = {"what", unseen};
    if (has_met) {
        qll_report_paragraph(report, QLL_SAYS_RULES_MET, &filling, 1);
    }
}

/* The short form: how it stands, which rule, what was found. */
static void verdict_line(qll_report *report, const qll_verdict *verdict)
{
    const qll_message mark = (qll_message)((size_t)QLL_SAYS_MARK_GOOD + (size_t)verdict->grade);
    qll_writer says = qll_writer_new(report->arena);
    qll_wording_verdict(&says, &report->wording, &report->chosen->station, verdict);
    qll_sheet_cell_tone(report->sheet, qll_report_says(report, mark),
                        qll_report_tone(verdict->grade));
    qll_sheet_cell(report->sheet, qll_say_rule(report->wording.language, verdict->rule));
    qll_sheet_cell(report->sheet, qll_writer_text(&says).bytes);
}

void qll_report_verdicts(qll_report *report)
{
    if (!qll_report_has(report, QLL_PART_VERDICTS)) {
        return;
    }
    static const qll_message heads[] = {QLL_SAYS_HEAD_RULE,  QLL_SAYS_HEAD_VERDICT,
                                        QLL_SAYS_HEAD_VALUE, QLL_SAYS_HEAD_LIMIT,
                                        QLL_SAYS_HEAD_HOLDS, QLL_SAYS_HEAD_SAYS};
    static const qll_message short_heads[] = {QLL_SAYS_HEAD_VERDICT, QLL_SAYS_HEAD_RULE,
                                              QLL_SAYS_HEAD_SAYS};
    const qll_assessment *found = &report->chosen->assessment;
    bool is_brief = report->is_plain || report->is_short;
    qll_report_heads(report, is_brief ? short_heads : heads, is_brief ? 3 : 6);
    for (int grade = QLL_GRADE_COUNT - 1; grade >= 0; grade--) {
        for (size_t i = 0; i < found->verdict_count; i++) {
            bool is_told =
                !report->is_short || (grade != QLL_GRADE_GOOD && !takes_a_run(&found->verdicts[i]));
            if (is_told && (int)found->verdicts[i].grade == grade) {
                (is_brief ? verdict_line : verdict_row)(report, &found->verdicts[i]);
            }
        }
    }
    if (is_brief) {
        qll_report_table(report, report->is_plain ? QLL_MESSAGE_COUNT : QLL_SAYS_VERDICTS, "lll",
                         false);
        if (report->is_short) {
            write_met(report);
        }
        if (report->check != NULL && report->check->is_nominal) {
            qll_report_paragraph(report, QLL_SAYS_VERDICTS_NOMINAL, NULL, 0);
        }
        return;
    }
    qll_report_table(report, QLL_SAYS_VERDICTS, "llrrrl", true);
    qll_report_paragraph(report, QLL_SAYS_HOLDS_MEANS, NULL, 0);
}

void qll_report_limits_from(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_RULE, QLL_SAYS_HEAD_LIMIT_FROM};
    const qll_assessment *found = &report->chosen->assessment;
    const qll_filling fillings[] = {
        {"loss", qll_report_quantity(report, QLL_FALLOFF_USUAL_PA, QLL_KIND_PRESSURE_DIFFERENCE)},
        {"valve", qll_report_quantity(report, QLL_SPEED_MOST_M_S, QLL_KIND_VELOCITY)},
        {"low", qll_report_quantity(report, QLL_COPPER_COLD_M_S, QLL_KIND_VELOCITY)},
        {"high", qll_report_quantity(report, QLL_COPPER_HOT_M_S, QLL_KIND_VELOCITY)}};
    qll_report_heads(report, heads, 2);
    for (size_t i = 0; i < found->verdict_count; i++) {
        const qll_rule rule = found->verdicts[i].rule;
        if (found->verdicts[i].grade == QLL_GRADE_UNKNOWN) {
            continue; /* what was not looked at was held against nothing */
        }
        qll_sheet_cell(report->sheet, qll_say_rule(report->wording.language, rule));
        qll_sheet_cell(report->sheet,
                       qll_report_fill(report,
                                       (qll_message)((size_t)QLL_SAYS_LIMIT_FROM_DELIVERY + rule),
                                       fillings, QLL_COUNT(fillings)));
    }
    qll_report_table(report, QLL_SAYS_LIMITS_FROM, "ll", true);
}

/* ---- what to expect ---- */

static const char *level_head(const qll_report *report)
{
    const qll_filling fillings[] = {{"what", qll_report_says(report, QLL_SAYS_HEAD_LEVEL)},
                                    {"unit", "dB(A)"}};
    return qll_report_fill(report, QLL_SAYS_WITH_UNIT, fillings, 2);
}

static void point_heads(qll_report *report, bool staged)
{
    qll_sheet *sheet = report->sheet;
    qll_sheet_cell(sheet, qll_report_head(report, QLL_SAYS_HEAD_FLOW, QLL_KIND_FLOW));
    qll_sheet_cell(sheet, qll_report_head(report, QLL_SAYS_HEAD_INLET, QLL_KIND_PRESSURE));
    if (staged) {
        qll_sheet_cell(sheet, qll_report_head(report, QLL_SAYS_HEAD_BETWEEN, QLL_KIND_PRESSURE));
    }
    qll_sheet_cell(sheet, qll_report_head(report, QLL_SAYS_HEAD_OUTLET, QLL_KIND_PRESSURE));
    qll_report_cell(report, QLL_SAYS_HEAD_WORKS);
    qll_sheet_cell(sheet, qll_report_head(report, QLL_SAYS_HEAD_VELOCITY, QLL_KIND_VELOCITY));
    qll_sheet_cell(sheet, level_head(report));
    qll_report_cell(report, QLL_SAYS_HEAD_RATIO);
    qll_report_cell(report, QLL_SAYS_HEAD_NOTE);
}

static void pressure_cell(qll_report *report, double pa_gauge)
{
    qll_sheet_cell(report->sheet, qll_report_bare(report, pa_gauge, QLL_KIND_PRESSURE));
}

static const char *level_text(const qll_report *report, double level_dba)
{
    if (!isfinite(level_dba)) {
        return "-";
    }
    bool is_low = level_dba < QLL_LEVEL_SHOWN_DBA;
    qll_writer writer = qll_writer_new(report->arena);
    qll_write_format(&writer, "%s%.0f", is_low ? "<" : "",
                     is_low ? QLL_LEVEL_SHOWN_DBA : level_dba);
    return qll_writer_text(&writer).bytes;
}

static void point_row(qll_report *report, const qll_operating_point *point)
{
    const qll_station *station = &report->chosen->station;
    qll_sheet *sheet = report->sheet;
    double atmosphere = report->wording.site->barometric_pa;
    bool flows = point->flow_m3s > 0;
    qll_sheet_cell(sheet, flows ? qll_report_bare(report, point->flow_m3s, QLL_KIND_FLOW)
                                : qll_report_says(report, QLL_SAYS_NONE));
    /* Below no pressure at all: the main cannot give the flow. */
    pressure_cell(report, point->inlet_pa > 0 ? point->inlet_pa - atmosphere : (double)NAN);
    if (station->stage_count > 1) {
        pressure_cell(report, point->stage_outlet_pa[0] - atmosphere);
    }
    pressure_cell(report, point->outlet_pa - atmosphere);
    qll_writer works = qll_writer_new(report->arena);
    qll_point_write_working(&works, station, point);
    qll_sheet_cell(sheet, qll_writer_text(&works).bytes);
    bool runs = flows && point->passes;
    double velocity = runs ? point->fastest_m_s : (double)NAN;
    qll_sheet_cell(sheet, qll_report_bare(report, velocity, QLL_KIND_VELOCITY));
    qll_sheet_cell(sheet, level_text(report, point->level.level_dba));
    double ratio = flows ? point->ratio_gauge : (double)NAN;
    qll_writer shown = qll_writer_new(report->arena);
    if (isfinite(ratio)) {
        qll_write_format(&shown, "%.1f", ratio);
    } else {
        qll_write(&shown, "-");
    }
    qll_sheet_cell(sheet, qll_writer_text(&shown).bytes);
    const qll_note note = qll_note_of(point);
    qll_writer says = qll_writer_new(report->arena);
    qll_note_write(&says, report->wording.language, note);
    qll_tone tone = note.grade == QLL_GRADE_GOOD ? QLL_TONE_PLAIN : qll_report_tone(note.grade);
    qll_sheet_cell_tone(sheet, qll_writer_text(&says).bytes, tone);
}

static void write_shares(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_FIGURE, QLL_SAYS_HEAD_OF_TIME,
                                        QLL_MESSAGE_COUNT};
    qll_share_row rows[QLL_SHARE_ROWS];
    qll_share_rows(&report->chosen->assessment.shares, rows);
    qll_report_heads(report, heads, report->is_plain ? 3 : 2);
    for (size_t i = 0; i < QLL_SHARE_ROWS; i++) {
        qll_report_fact(report, rows[i].says, qll_report_share(report, rows[i].share));
        qll_report_bar(report, rows[i].share);
    }
    qll_report_table(report, QLL_SAYS_TIME, report->is_plain ? "lrl" : "lr", true);
    if (report->chosen->station.stage_count > 1) {
        qll_report_paragraph(report, QLL_SAYS_SHARES_OF_WORST, NULL, 0);
    }
}

/* ---- the way from the main to the outlets ---- */

/* The way to one outlet, or to the station's, at night and at the peak. */
typedef struct way_part {
    const qll_ladder *night, *peak;
    bool has_notes; /* of the whole table */
} way_part;

/* What stands behind step @p at: pressures at night and at the peak, and the velocity. */
static void way_row(qll_report *report, const way_part *part, size_t at,
                    const qll_ladder_step *fastest)
{
    qll_sheet *sheet = report->sheet;
    qll_writer name = qll_writer_new(report->arena);
    qll_wording_step(&name, &report->wording, part->peak, &part->peak->steps[at]);
    double velocity = fastest == NULL ? (double)NAN : fastest->velocity_m_s;
    double most = fastest == NULL ? (double)NAN : fastest->velocity_max_m_s;
    double night_pa = part->night->steps[at].pressure_pa_gauge;
    double peak_pa = part->peak->steps[at].pressure_pa_gauge;
    qll_sheet_cell(sheet, qll_writer_text(&name).bytes);
    qll_sheet_cell(sheet, qll_report_bare(report, night_pa, QLL_KIND_PRESSURE));
    qll_sheet_cell(sheet, qll_report_bare(report, peak_pa, QLL_KIND_PRESSURE));
    qll_sheet_cell(sheet, qll_report_bare_beside(report, velocity, most, QLL_KIND_VELOCITY));
    if (fastest != NULL && fastest->too_fast) {
        const qll_filling limit = {"limit",
                                   qll_report_beside(report, most, velocity, QLL_KIND_VELOCITY)};
        qll_sheet_cell_tone(sheet, qll_report_fill(report, QLL_SAYS_NOTE_AT_MOST, &limit, 1),
                            QLL_TONE_CAUTION);
    } else if (part->has_notes) {
        qll_sheet_cell(sheet, "");
    }
}

static bool any_too_fast(const qll_ladder *ladders, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; k < ladders[i].count; k++) {
            if (ladders[i].steps[k].too_fast) {
                return true;
            }
        }
    }
    return false;
}

/* Outlets that fit under one glance of a terminal. */
#define QLL_OUTLETS_SHOWN 8

static void write_way(qll_report *report)
{
    const qll_way *way = &report->found->way;
    size_t each = way->ladder_count / QLL_LADDER_TIME_COUNT;
    bool is_cut = report->is_plain && each > QLL_OUTLETS_SHOWN + 1;
    size_t end = is_cut ? QLL_OUTLETS_SHOWN + 1 : each;
    if (each == 0) {
        return;
    }
    const qll_ladder *nights = way->ladders;
    const qll_ladder *peaks = way->ladders + each;
    bool has_notes = any_too_fast(peaks, each);
    qll_report_cell(report, QLL_SAYS_HEAD_BEHIND);
    qll_sheet_cell(report->sheet, qll_report_head(report, QLL_SAYS_HEAD_NIGHT, QLL_KIND_PRESSURE));
    qll_sheet_cell(report->sheet, qll_report_head(report, QLL_SAYS_HEAD_PEAK, QLL_KIND_PRESSURE));
    qll_sheet_cell(report->sheet,
                   qll_report_head(report, QLL_SAYS_HEAD_VELOCITY, QLL_KIND_VELOCITY));
    if (has_notes) {
        qll_report_cell(report, QLL_SAYS_HEAD_NOTE);
    }
    way_part part = {&nights[0], &peaks[0], has_notes};
    for (size_t k = 0; k < peaks[0].count; k++) {
        const qll_ladder_step *step = &peaks[0].steps[k];
        way_row(report, &part, k, isfinite(step->velocity_m_s) ? step : NULL);
    }
    for (size_t i = 1; i < end; i++) {
        part = (way_part){&nights[i], &peaks[i], has_notes};
        way_row(report, &part, peaks[i].count - 1, qll_ladder_fastest(&peaks[i]));
    }
    qll_report_table(report, QLL_SAYS_WAY, has_notes ? "lrrrl" : "lrrr", true);
    if (is_cut) {
        const qll_filling count = {"count", qll_report_count(report, each - end)};
        qll_report_paragraph(report, QLL_SAYS_MORE_OUTLETS, &count, 1);
    }
}

/* What the notes of the rows above mean. */
static void write_notes(qll_report *report, const bool seen[QLL_TROUBLE_COUNT])
{
    qll_writer says = qll_writer_new(report->arena);
    qll_notes_mean(&says, &report->wording, seen);
    if (says.size > 0) {
        qll_sheet_text(report->sheet, QLL_BLOCK_PARAGRAPH, qll_writer_text(&says).bytes);
    }
}

/* At the middle supply; of a check its corners too. */
static void write_points(qll_report *report)
{
    const qll_station *station = &report->chosen->station;
    const qll_check_findings *check = report->check;
    const qll_operating_point *points = check == NULL ? report->found->points : check->points;
    size_t count = check == NULL ? report->found->point_count : check->point_count;
    bool staged = station->stage_count > 1;
    bool seen[QLL_TROUBLE_COUNT] = {false};
    point_heads(report, staged);
    for (size_t i = 0; i < count; i++) {
        /* On short sheets every third: the first, the last, and how it goes between. */
        bool is_told = !report->is_short || i % 3 == 0 || i + 1 == count;
        if (is_told && qll_point_is_shown(station, points, count, i)) {
            point_row(report, &points[i]);
            seen[points[i].trouble] = seen[points[i].trouble] || points[i].passes;
        }
    }
    const qll_message caption = check == NULL ? QLL_SAYS_POINTS
                                : count > 1   ? QLL_SAYS_POINTS_THERE
                                              : QLL_SAYS_POINT_ASKED;
    qll_report_table(report, caption, staged ? "rrrrlrrrl" : "rrrlrrrl", false);
    if (check != NULL && strcmp(check->point_supplies[0], "given") != 0) {
        const qll_message inlets = report->is_short ? QLL_SAYS_INLETS_SHORT : QLL_SAYS_INLETS;
        qll_report_paragraph(report, count > 1 ? inlets : QLL_SAYS_INLET_MIDDLE, NULL, 0);
    }
    write_notes(report, seen);
}

void qll_report_expect(qll_report *report)
{
    if (qll_report_has(report, QLL_PART_POINTS)) {
        write_points(report);
    }
    if (report->is_short) {
        return;
    }
    if (qll_report_has(report, QLL_PART_POINTS)) {
        qll_report_picture(report, QLL_PICTURE_FALLOFF, 0);
    }
    const bool has_way = !report->is_plain || report->of == QLL_REPORT_OF_CHECK;
    if (has_way && qll_report_has(report, QLL_PART_LADDER)) {
        write_way(report);
    }
    if (qll_report_has(report, QLL_PART_VERDICTS)) {
        write_shares(report);
    }
}

void qll_report_figures(qll_report *report)
{
    for (size_t i = 0; i < report->found->demand.survey->scenario_count; i++) {
        if (qll_report_has(report, QLL_PART_DURATION)) {
            qll_report_picture(report, QLL_PICTURE_DURATION, i);
        }
        if (qll_report_has(report, QLL_PART_HOURS)) {
            qll_report_picture(report, QLL_PICTURE_DAY, i);
        }
    }
    qll_report_picture(report, QLL_PICTURE_LADDER, 0);
    for (size_t i = 0; i < report->found->way.map_count; i++) {
        qll_report_picture(report, QLL_PICTURE_MAP, i);
    }
    qll_report_picture(report, QLL_PICTURE_NOISE, 0);
    qll_report_picture(report, QLL_PICTURE_SPECTRUM, 0);
    if (qll_report_has(report, QLL_PART_ALTERNATIVES)) {
        qll_report_picture(report, QLL_PICTURE_CANDIDATES, 0);
    }
}
