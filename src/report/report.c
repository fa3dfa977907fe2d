#include "report/report.h"

#include "base/count.h"
#include "report/report_parts.h"
#include "report/sheet_text.h"

#include <string.h>

const char *const qll_report_of_words[QLL_REPORT_OF_COUNT] = {
#define QLL_REPORT_OF_WORD(name, word) [QLL_REPORT_OF_##name] = (word),
    QLL_REPORT_OF_LIST(QLL_REPORT_OF_WORD)
#undef QLL_REPORT_OF_WORD
};

/* ---- the sections ---- */

static void write_cautions(qll_report *report)
{
    for (size_t i = 0; i < QLL_CAUTION_COUNT; i++) {
        qll_sheet_item(report->sheet, qll_caution(report->wording.language, i));
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_CAUTIONS);
}

static void write_sources(qll_report *report)
{
    const qll_demand_findings *demand = &report->found->demand;
    for (size_t i = 0; i < demand->source_count; i++) {
        qll_sheet_item(report->sheet,
                       qll_said_text(report->arena, &report->wording, &demand->sources[i]));
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
    if (report->wording.language != QLL_LANGUAGE_EN && demand->source_count > 0) {
        qll_report_paragraph(report, QLL_SAYS_SOURCES_ARE, NULL, 0);
    }
}

typedef struct section_of {
    qll_section_kind kind;
    qll_message heading; /* QLL_MESSAGE_COUNT: none */
    void (*write)(qll_report *report);
} section_of;

/* ---- the sections of each answer, in their order: to hand over, and for a terminal ---- */

static const section_of design_whole[] = {
    {QLL_SECTION_COVER, QLL_SAYS_SECTION_COVER, qll_report_cover},
    {QLL_SECTION_SURVEY, QLL_SAYS_SECTION_SURVEY, qll_report_survey},
    {QLL_SECTION_DEMAND, QLL_SAYS_SECTION_DEMAND, qll_report_demand},
    {QLL_SECTION_STATION, QLL_SAYS_SECTION_STATION, qll_report_station},
    {QLL_SECTION_VERDICTS, QLL_SAYS_SECTION_VERDICTS, qll_report_verdicts},
    {QLL_SECTION_EXPECT, QLL_SAYS_SECTION_EXPECT, qll_report_expect},
    {QLL_SECTION_COMMISSIONING, QLL_SAYS_SECTION_COMMISSIONING, qll_report_commissioning},
    {QLL_SECTION_SERVICE, QLL_SAYS_SECTION_SERVICE, qll_report_service},
    {QLL_SECTION_ALTERNATIVES, QLL_SAYS_SECTION_ALTERNATIVES, qll_report_alternatives},
    {QLL_SECTION_CAUTIONS, QLL_SAYS_SECTION_CAUTIONS, write_cautions},
    {QLL_SECTION_SOURCES, QLL_SAYS_SECTION_SOURCES, write_sources},
};

static const section_of check_whole[] = {
    {QLL_SECTION_COVER, QLL_SAYS_SECTION_COVER, qll_report_there},
    {QLL_SECTION_SURVEY, QLL_SAYS_SECTION_SURVEY, qll_report_survey},
    {QLL_SECTION_DEMAND, QLL_SAYS_SECTION_DEMAND, qll_report_demand},
    {QLL_SECTION_VERDICTS, QLL_SAYS_SECTION_VERDICTS, qll_report_verdicts},
    {QLL_SECTION_EXPECT, QLL_SAYS_SECTION_EXPECT, qll_report_expect},
    {QLL_SECTION_CAUTIONS, QLL_SAYS_SECTION_CAUTIONS, write_cautions},
    {QLL_SECTION_SOURCES, QLL_SAYS_SECTION_SOURCES, write_sources},
};

static const section_of demand_whole[] = {
    {QLL_SECTION_DEMAND, QLL_SAYS_SECTION_DEMAND, qll_report_demand},
    {QLL_SECTION_SURVEY, QLL_SAYS_SECTION_SURVEY, qll_report_survey},
    {QLL_SECTION_CAUTIONS, QLL_SAYS_SECTION_CAUTIONS, write_cautions},
    {QLL_SECTION_SOURCES, QLL_SAYS_SECTION_SOURCES, write_sources},
};

/* What a plumber needs first stands first. */
static const section_of design_short[] = {
    {QLL_SECTION_COVER, QLL_MESSAGE_COUNT, qll_report_cover},
    {QLL_SECTION_ALTERNATIVES, QLL_SAYS_SECTION_ALTERNATIVES, qll_report_others},
    {QLL_SECTION_ALTERNATIVES, QLL_SAYS_HANGS_ON, qll_report_hangs},
    {QLL_SECTION_VERDICTS, QLL_SAYS_SECTION_VERDICTS, qll_report_verdicts},
    {QLL_SECTION_EXPECT, QLL_SAYS_SECTION_EXPECT, qll_report_expect},
    {QLL_SECTION_STATION, QLL_SAYS_SECTION_STATION, qll_report_station},
    {QLL_SECTION_DEMAND, QLL_SAYS_SECTION_DEMAND, qll_report_water},
    {QLL_SECTION_SURVEY, QLL_SAYS_ASSUMED_SHORT, qll_report_assumed},
    {QLL_SECTION_SOURCES, QLL_SAYS_SECTION_SOURCES, write_sources},
    {QLL_SECTION_CAUTIONS, QLL_SAYS_SECTION_CAUTIONS, write_cautions},
};

static const section_of check_short[] = {
    {QLL_SECTION_COVER, QLL_MESSAGE_COUNT, qll_report_there},
    {QLL_SECTION_COVER, QLL_SAYS_WHY_NOISY, qll_report_causes},
    {QLL_SECTION_COVER, QLL_SAYS_CURES, qll_report_cures},
    {QLL_SECTION_VERDICTS, QLL_SAYS_SECTION_VERDICTS, qll_report_verdicts},
    {QLL_SECTION_EXPECT, QLL_SAYS_SECTION_EXPECT, qll_report_expect},
    {QLL_SECTION_DEMAND, QLL_SAYS_SECTION_DEMAND, qll_report_water},
    {QLL_SECTION_SURVEY, QLL_SAYS_ASSUMED_SHORT, qll_report_assumed},
    {QLL_SECTION_SOURCES, QLL_SAYS_SECTION_SOURCES, write_sources},
    {QLL_SECTION_CAUTIONS, QLL_SAYS_SECTION_CAUTIONS, write_cautions},
};

static const section_of demand_short[] = {
    {QLL_SECTION_DEMAND, QLL_MESSAGE_COUNT, qll_report_demand},
    {QLL_SECTION_DEMAND, QLL_SAYS_CHANGES, qll_report_changes},
    {QLL_SECTION_SURVEY, QLL_SAYS_ASSUMED_SHORT, qll_report_assumed},
    {QLL_SECTION_SOURCES, QLL_SAYS_SECTION_SOURCES, write_sources},
    {QLL_SECTION_CAUTIONS, QLL_SAYS_SECTION_CAUTIONS, write_cautions},
};

/* One of these lists. */
typedef struct section_list {
    const section_of *sections;
    size_t count;
} section_list;

#define QLL_LIST_OF(sections)           \
    {                                   \
        (sections), QLL_COUNT(sections) \
    }

/* [of][is it for a terminal] */
static const section_list lists[QLL_REPORT_OF_COUNT][2] = {
    [QLL_REPORT_OF_DEMAND] = {QLL_LIST_OF(demand_whole), QLL_LIST_OF(demand_short)},
    [QLL_REPORT_OF_DESIGN] = {QLL_LIST_OF(design_whole), QLL_LIST_OF(design_short)},
    [QLL_REPORT_OF_CHECK] = {QLL_LIST_OF(check_whole), QLL_LIST_OF(check_short)},
};

/* What there is nothing to say of without a station. */
static bool is_of_station(qll_section_kind kind)
{
    return kind == QLL_SECTION_STATION || kind == QLL_SECTION_VERDICTS || kind == QLL_SECTION_EXPECT
           || kind == QLL_SECTION_COMMISSIONING || kind == QLL_SECTION_SERVICE;
}

/* A report of @p subject that writes into @p sheet, which is begun anew; its title is still to be set. */
static qll_report begin(const qll_subject *subject, bool is_plain, qll_arena *arena,
                        qll_sheet *sheet)
{
    const qll_design_findings *found = &subject->found;
    const qll_survey *survey = found->demand.survey;
    *sheet = qll_sheet_new(arena, found->demand.language, survey->units);
    sheet->subject = survey->name;
    return (qll_report){
        .sheet = sheet,
        .is_plain = is_plain,
        .of = subject->of,
        .arena = arena,
        .found = found,
        .check = subject->check,
        .chosen = found->design->count > 0 ? &found->design->shown[0] : NULL,
        .assumed = found->demand.assumed,
        .figures = found->figures, /* of the first */
        .wording = {.units = survey->units,
                    .language = found->demand.language,
                    .site = &survey->site,
                    .duty = found->duty,
                    .currency = found->catalogue == NULL ? NULL : found->catalogue->currency},
    };
}

qll_report qll_report_begin_bare(const qll_wording *wording, const qll_assumed *assumed,
                                 qll_arena *arena, qll_sheet *sheet)
{
    *sheet = qll_sheet_new(arena, wording->language, wording->units);
    return (qll_report){
        .sheet = sheet, .is_plain = true, .arena = arena, .assumed = assumed, .wording = *wording};
}

static void write_sections(qll_report *report, unsigned set)
{
    const section_list *list = &lists[report->of][report->is_plain ? 1 : 0];
    for (size_t i = 0; i < list->count; i++) {
        const section_of *section = &list->sections[i];
        bool is_made = report->chosen != NULL || !is_of_station(section->kind);
        if (is_made && (set & QLL_SECTION_BIT(section->kind)) != 0) {
            bool has_heading = section->heading != QLL_MESSAGE_COUNT;
            qll_sheet_section(report->sheet, section->kind,
                              has_heading ? qll_report_says(report, section->heading) : "");
            section->write(report);
        }
    }
}

void qll_report_make(const qll_subject *subject, unsigned set, qll_arena *arena, qll_sheet *sheet)
{
    qll_report report = begin(subject, false, arena, sheet);
    sheet->title =
        qll_report_says(&report, (qll_message)((size_t)QLL_SAYS_TITLE_DEMAND + subject->of));
    write_sections(&report, set | QLL_SECTION_BIT(QLL_SECTION_CAUTIONS));
    qll_sheet_end(sheet);
}

void qll_answer_print(qll_writer *writer, const qll_subject *subject)
{
    qll_sheet sheet;
    qll_report report = begin(subject, true, writer->arena, &sheet);
    sheet.title =
        qll_report_says(&report, (qll_message)((size_t)QLL_SAYS_NAME_DEMAND + subject->of));
    write_sections(&report, QLL_SECTIONS_ALL);
    qll_report_print(&report, writer);
}

void qll_report_print(qll_report *report, qll_writer *writer)
{
    qll_sheet_end(report->sheet);
    qll_sheet_print(writer, report->sheet);
}

/* ---- what an answer is of ---- */

/* No station was asked for. */
static const qll_design no_design = {0};

qll_subject qll_subject_of_demand(const qll_demand_findings *findings)
{
    return (qll_subject){.of = QLL_REPORT_OF_DEMAND,
                         .found = {.demand = *findings, .design = &no_design}};
}

qll_subject qll_subject_of_design(const qll_design_findings *findings)
{
    return (qll_subject){.of = QLL_REPORT_OF_DESIGN, .found = *findings};
}

qll_status qll_subject_of_check(const qll_check_findings *findings, qll_arena *arena,
                                qll_subject *subject)
{
    qll_design *design = qll_arena_take(arena, 1, sizeof *design);
    qll_shown *shown = qll_arena_take(arena, 1, sizeof *shown);
    qll_operating_point *points = qll_arena_take(arena, findings->point_count, sizeof *points);
    if (design == NULL || shown == NULL || points == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t count = 0;
    for (size_t i = 0; i < findings->point_count; i++) {
        bool is_other = strcmp(findings->point_supplies[i], "low") == 0
                        || strcmp(findings->point_supplies[i], "high") == 0;
        if (!is_other) {
            points[count] = findings->points[i];
            count += 1;
        }
    }
    *shown = (qll_shown){.station = *findings->station,
                         .cost = findings->cures->now,
                         .fitness = findings->cures->fitness,
                         .assessment = *findings->assessment};
    *design = (qll_design){.need = {.is_needed = true}, .shown = shown, .count = 1, .is_fit = true};
    *subject = (qll_subject){.of = QLL_REPORT_OF_CHECK,
                             .found = {.demand = findings->demand,
                                       .catalogue = findings->catalogue,
                                       .duty = findings->duty,
                                       .design = design,
                                       .points = points,
                                       .point_count = count,
                                       .way = findings->way,
                                       .figures = &findings->figures,
                                       .curves = findings->curves},
                             .check = findings};
    return QLL_OK;
}
