#include "report/report.h"

#include "report/report_parts.h"

#include <math.h>
#include <string.h>

/* ---- texts ---- */

static const char *written(const qll_report *report, qll_writer *writer)
{
    qll_text text = qll_writer_text(writer);
    report->sheet->no_memory = report->sheet->no_memory || text.bytes == NULL;
    return text.bytes;
}

const char *qll_report_says(const qll_report *report, qll_message message)
{
    return qll_say(report->wording.language, message);
}

const char *qll_report_fill(const qll_report *report, qll_message message,
                            const qll_filling *fillings, size_t count)
{
    qll_writer writer = qll_writer_new(report->arena);
    qll_say_with(&writer, report->wording.language, message, fillings, count);
    return written(report, &writer);
}

const char *qll_report_quantity(const qll_report *report, double si, qll_kind kind)
{
    if (!isfinite(si)) {
        return "-";
    }
    qll_writer writer = qll_writer_new(report->arena);
    qll_units_write(&writer, si, kind, report->wording.units);
    return written(report, &writer);
}

const char *qll_report_bare(const qll_report *report, double si, qll_kind kind)
{
    if (!isfinite(si)) {
        return "-";
    }
    qll_writer writer = qll_writer_new(report->arena);
    qll_units_write_bare(&writer, si, kind, report->wording.units);
    return written(report, &writer);
}

const char *qll_report_reading(const qll_report *report, double si, qll_kind kind)
{
    if (!isfinite(si)) {
        return "-";
    }
    const char *text = qll_reading_text(report->arena, si, kind, report->wording.units);
    report->sheet->no_memory = report->sheet->no_memory || text == NULL;
    return text;
}

const char *qll_report_bare_reading(const qll_report *report, double si, qll_kind kind)
{
    const char *text = qll_report_reading(report, si, kind);
    const char *unit = text == NULL ? NULL : strrchr(text, ' ');
    if (unit == NULL) {
        return text;
    }
    qll_writer writer = qll_writer_new(report->arena);
    qll_write_text(&writer, (qll_text){text, (size_t)(unit - text)});
    return written(report, &writer);
}

const char *qll_report_reading_range(const qll_report *report, double low_pa, double high_pa)
{
    const qll_filling fillings[] = {
        {"low", qll_report_reading(report, low_pa, QLL_KIND_PRESSURE)},
        {"high", qll_report_reading(report, high_pa, QLL_KIND_PRESSURE)}};
    return qll_report_fill(report, QLL_SAYS_RANGE, fillings, 2);
}

const char *qll_report_range(const qll_report *report, double low, double high, qll_kind kind)
{
    const qll_filling fillings[] = {{"low", qll_report_quantity(report, low, kind)},
                                    {"high", qll_report_quantity(report, high, kind)}};
    if (fillings[0].text != NULL && fillings[1].text != NULL
        && strcmp(fillings[0].text, fillings[1].text) == 0) {
        return fillings[0].text;
    }
    return qll_report_fill(report, QLL_SAYS_RANGE, fillings, 2);
}

const char *qll_report_size(const qll_report *report, double nominal_m)
{
    if (!isfinite(nominal_m)) {
        return "-";
    }
    qll_writer writer = qll_writer_new(report->arena);
    qll_units_write_pipe_size(&writer, nominal_m, report->wording.units);
    return written(report, &writer);
}

const char *qll_report_share(const qll_report *report, double share)
{
    if (!isfinite(share)) {
        return "-";
    }
    qll_writer writer = qll_writer_new(report->arena);
    qll_write_format(&writer, "%.1f %%", 100.0 * share);
    return written(report, &writer);
}

const char *qll_report_count(const qll_report *report, size_t count)
{
    qll_writer writer = qll_writer_new(report->arena);
    qll_write_format(&writer, "%zu", count);
    return written(report, &writer);
}

const char *qll_report_branch(const qll_report *report, size_t stage, size_t branch)
{
    qll_writer writer = qll_writer_new(report->arena);
    qll_valve_name_write(&writer, &report->chosen->station, stage, branch);
    return written(report, &writer);
}

const char *qll_report_head(const qll_report *report, qll_message head, qll_kind kind)
{
    const qll_filling fillings[] = {{"what", qll_report_says(report, head)},
                                    {"unit", qll_units_name(kind, report->wording.units)}};
    return qll_report_fill(report, QLL_SAYS_WITH_UNIT, fillings, 2);
}

void qll_report_picture(qll_report *report, qll_picture_kind kind, size_t number)
{
    if (report->is_plain || number >= qll_picture_count(report->found, kind)) {
        return;
    }
    const qll_picture picture = {kind, number};
    qll_figure_block figure;
    if (qll_picture_draw(report->found, picture, report->arena, &figure) != QLL_OK) {
        report->sheet->no_memory = true;
        return;
    }
    qll_sheet_figure(report->sheet, &figure);
}

/* ---- cells ---- */

void qll_report_cell(qll_report *report, qll_message message)
{
    qll_sheet_cell(report->sheet, qll_report_says(report, message));
}

const char *qll_report_money(const qll_report *report, qll_message in, qll_message own)
{
    return qll_wording_money(report->arena, report->wording.language,
                             report->found->catalogue->currency, in, own);
}

void qll_report_heads(qll_report *report, const qll_message *heads, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        qll_sheet_cell(report->sheet,
                       heads[i] == QLL_MESSAGE_COUNT ? "" : qll_report_says(report, heads[i]));
    }
}

void qll_report_fact(qll_report *report, qll_message what, const char *value)
{
    qll_report_cell(report, what);
    qll_sheet_cell(report->sheet, value);
}

qll_tone qll_report_tone(qll_grade grade)
{
    static const qll_tone tones[QLL_GRADE_COUNT] = {
        [QLL_GRADE_GOOD] = QLL_TONE_GOOD,
        [QLL_GRADE_UNKNOWN] = QLL_TONE_PLAIN,
        [QLL_GRADE_CAUTION] = QLL_TONE_CAUTION,
        [QLL_GRADE_FAIL] = QLL_TONE_FAIL,
    };
    return tones[grade];
}

/* ---- the sections ---- */

void qll_report_cautions(qll_report *report)
{
    for (size_t i = 0; i < QLL_CAUTION_COUNT; i++) {
        qll_sheet_item(report->sheet, qll_caution(report->wording.language, i));
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_CAUTIONS);
}

void qll_report_sources(qll_report *report)
{
    const qll_demand_findings *demand = &report->found->demand;
    for (size_t i = 0; i < demand->source_count; i++) {
        qll_sheet_item(report->sheet,
                       qll_said_text(report->arena, &report->wording, &demand->sources[i]));
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
    if (report->wording.language != QLL_LANGUAGE_EN && demand->source_count > 0) {
        qll_sheet_text(report->sheet, QLL_BLOCK_PARAGRAPH,
                       qll_report_says(report, QLL_SAYS_SOURCES_ARE));
    }
}

typedef void section_function(qll_report *report);

static section_function *const sections[QLL_SECTION_COUNT] = {
    [QLL_SECTION_COVER] = qll_report_cover,
    [QLL_SECTION_SURVEY] = qll_report_survey,
    [QLL_SECTION_DEMAND] = qll_report_demand,
    [QLL_SECTION_STATION] = qll_report_station,
    [QLL_SECTION_VERDICTS] = qll_report_verdicts,
    [QLL_SECTION_EXPECT] = qll_report_expect,
    [QLL_SECTION_COMMISSIONING] = qll_report_commissioning,
    [QLL_SECTION_SERVICE] = qll_report_service,
    [QLL_SECTION_ALTERNATIVES] = qll_report_alternatives,
    [QLL_SECTION_CAUTIONS] = qll_report_cautions,
    [QLL_SECTION_SOURCES] = qll_report_sources,
};

/* What there is nothing to say of without a station. */
static bool is_of_station(int kind)
{
    return kind == QLL_SECTION_STATION || kind == QLL_SECTION_VERDICTS || kind == QLL_SECTION_EXPECT
           || kind == QLL_SECTION_COMMISSIONING || kind == QLL_SECTION_SERVICE;
}

qll_report qll_report_begin(const qll_design_findings *findings, bool is_plain, qll_arena *arena,
                            qll_sheet *sheet)
{
    const qll_survey *survey = findings->demand.survey;
    *sheet = qll_sheet_new(arena, findings->demand.language, survey->units);
    return (qll_report){
        .sheet = sheet,
        .is_plain = is_plain,
        .arena = arena,
        .found = findings,
        .chosen = findings->design->count > 0 ? &findings->design->shown[0] : NULL,
        .wording = {.units = survey->units,
                    .language = findings->demand.language,
                    .site = &survey->site,
                    .duty = findings->duty,
                    .currency = findings->catalogue->currency},
    };
}

qll_status qll_report_make(const qll_design_findings *findings, unsigned set, qll_arena *arena,
                           qll_sheet *sheet)
{
    qll_report report = qll_report_begin(findings, false, arena, sheet);
    sheet->title = qll_report_says(&report, QLL_SAYS_REPORT_TITLE);
    sheet->subject = findings->demand.survey->name;
    set |= QLL_SECTION_BIT(QLL_SECTION_CAUTIONS);
    for (int kind = 0; kind < QLL_SECTION_COUNT; kind++) {
        bool is_made = report.chosen != NULL || !is_of_station(kind);
        if (is_made && (set & QLL_SECTION_BIT(kind)) != 0) {
            const qll_message heading =
                (qll_message)((size_t)QLL_SAYS_SECTION_COVER + (size_t)kind);
            qll_sheet_section(sheet, (qll_section_kind)kind, qll_report_says(&report, heading));
            sections[kind](&report);
        }
    }
    qll_sheet_end(sheet);
    return sheet->no_memory ? QLL_NO_MEMORY : QLL_OK;
}
