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

const char *const qll_report_length_words[QLL_REPORT_LENGTH_COUNT] = {
#define QLL_REPORT_LENGTH_WORD(name, word) [QLL_REPORT_LENGTH_##name] = (word),
    QLL_REPORT_LENGTH_LIST(QLL_REPORT_LENGTH_WORD)
#undef QLL_REPORT_LENGTH_WORD
};

/* ---- the sections ---- */

static void write_sources(qll_report *report)
{
    const qll_demand_findings *demand = &report->found->demand;
    if (!report->is_plain && report->chosen != NULL && qll_report_has(report, QLL_PART_VERDICTS)) {
        qll_report_limits_from(report);
    }
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
    qll_chapter chapter;
    qll_message heading; /* QLL_MESSAGE_COUNT: none */
    void (*write)(qll_report *report);
} section_of;

#define QLL_SECTION(kind_name, chapter_name, heading_name, function)            \
    {                                                                           \
        .kind = QLL_SECTION_##kind_name, .chapter = QLL_CHAPTER_##chapter_name, \
        .heading = QLL_SAYS_SECTION_##heading_name, .write = (function)         \
    }

/* ---- the sections of each answer, in their order: to hand over, and for a terminal ---- */

/* The cautions stand before the drawing: what must be read first is on the first page. */
static const section_of design_whole[] = {
    QLL_SECTION(COVER, INSTALL, COVER, qll_report_cover),
    QLL_SECTION(CAUTIONS, INSTALL, CAUTIONS, qll_report_cautions),
    QLL_SECTION(STATION, INSTALL, DRAWING, qll_report_station),
    QLL_SECTION(COMMISSIONING, COMMISSIONING, COMMISSIONING, qll_report_commissioning),
    QLL_SECTION(SERVICE, SERVICE, SERVICE, qll_report_service),
    QLL_SECTION(VERDICTS, WHY, VERDICTS, qll_report_verdicts),
    QLL_SECTION(ALTERNATIVES, WHY, ALTERNATIVES, qll_report_alternatives),
    QLL_SECTION(EXPECT, EXPECT, EXPECT, qll_report_expect),
    QLL_SECTION(DEMAND, DEMAND, DEMAND, qll_report_demand),
    QLL_SECTION(SURVEY, SURVEY, SURVEY, qll_report_survey),
    QLL_SECTION(FIGURES, FIGURES, FIGURES, qll_report_figures),
    QLL_SECTION(SOURCES, SOURCES, SOURCES, write_sources),
};

static const section_of check_whole[] = {
    QLL_SECTION(COVER, INSTALL, COVER, qll_report_there),
    QLL_SECTION(CAUTIONS, INSTALL, CAUTIONS, qll_report_cautions),
    QLL_SECTION(STATION, INSTALL, CURES, qll_report_causes_and_cures),
    QLL_SECTION(VERDICTS, WHY, VERDICTS, qll_report_verdicts),
    QLL_SECTION(EXPECT, EXPECT, EXPECT, qll_report_expect),
    QLL_SECTION(DEMAND, DEMAND, DEMAND, qll_report_demand),
    QLL_SECTION(SURVEY, SURVEY, SURVEY, qll_report_survey),
    QLL_SECTION(FIGURES, FIGURES, FIGURES, qll_report_figures),
    QLL_SECTION(SOURCES, SOURCES, SOURCES, write_sources),
};

static const section_of demand_whole[] = {
    QLL_SECTION(DEMAND, DEMAND, DEMAND, qll_report_demand),
    QLL_SECTION(CAUTIONS, DEMAND, CAUTIONS, qll_report_cautions),
    QLL_SECTION(SURVEY, SURVEY, SURVEY, qll_report_survey),
    QLL_SECTION(SOURCES, SOURCES, SOURCES, write_sources),
};

#define QLL_PLAIN(kind_name, heading_says, function)                                    \
    {                                                                                   \
        .kind = QLL_SECTION_##kind_name, .heading = (heading_says), .write = (function) \
    }

/* What a plumber needs first stands first. */
static const section_of design_plain[] = {
    QLL_PLAIN(COVER, QLL_MESSAGE_COUNT, qll_report_cover),
    QLL_PLAIN(ALTERNATIVES, QLL_SAYS_SECTION_ALTERNATIVES, qll_report_others),
    QLL_PLAIN(ALTERNATIVES, QLL_SAYS_HANGS_ON, qll_report_hangs),
    QLL_PLAIN(VERDICTS, QLL_SAYS_SECTION_VERDICTS, qll_report_verdicts),
    QLL_PLAIN(EXPECT, QLL_SAYS_SECTION_EXPECT, qll_report_expect),
    QLL_PLAIN(STATION, QLL_SAYS_SECTION_STATION, qll_report_station),
    QLL_PLAIN(DEMAND, QLL_SAYS_SECTION_DEMAND, qll_report_water),
    QLL_PLAIN(SURVEY, QLL_SAYS_ASSUMED_SHORT, qll_report_assumed),
    QLL_PLAIN(SOURCES, QLL_SAYS_SECTION_SOURCES, write_sources),
    QLL_PLAIN(CAUTIONS, QLL_SAYS_SECTION_CAUTIONS, qll_report_cautions),
};

static const section_of check_plain[] = {
    QLL_PLAIN(COVER, QLL_MESSAGE_COUNT, qll_report_there),
    QLL_PLAIN(COVER, QLL_SAYS_WHY_NOISY, qll_report_causes),
    QLL_PLAIN(COVER, QLL_SAYS_CURES, qll_report_cures),
    QLL_PLAIN(VERDICTS, QLL_SAYS_SECTION_VERDICTS, qll_report_verdicts),
    QLL_PLAIN(EXPECT, QLL_SAYS_SECTION_EXPECT, qll_report_expect),
    QLL_PLAIN(DEMAND, QLL_SAYS_SECTION_DEMAND, qll_report_water),
    QLL_PLAIN(SURVEY, QLL_SAYS_ASSUMED_SHORT, qll_report_assumed),
    QLL_PLAIN(SOURCES, QLL_SAYS_SECTION_SOURCES, write_sources),
    QLL_PLAIN(CAUTIONS, QLL_SAYS_SECTION_CAUTIONS, qll_report_cautions),
};

static const section_of demand_plain[] = {
    QLL_PLAIN(DEMAND, QLL_MESSAGE_COUNT, qll_report_demand),
    QLL_PLAIN(DEMAND, QLL_SAYS_CHANGES, qll_report_changes),
    QLL_PLAIN(SURVEY, QLL_SAYS_ASSUMED_SHORT, qll_report_assumed),
    QLL_PLAIN(SOURCES, QLL_SAYS_SECTION_SOURCES, write_sources),
    QLL_PLAIN(CAUTIONS, QLL_SAYS_SECTION_CAUTIONS, qll_report_cautions),
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
    [QLL_REPORT_OF_DEMAND] = {QLL_LIST_OF(demand_whole), QLL_LIST_OF(demand_plain)},
    [QLL_REPORT_OF_DESIGN] = {QLL_LIST_OF(design_whole), QLL_LIST_OF(design_plain)},
    [QLL_REPORT_OF_CHECK] = {QLL_LIST_OF(check_whole), QLL_LIST_OF(check_plain)},
};

/* What there is nothing to say of without a station. */
static bool is_of_station(qll_section_kind kind)
{
    return kind == QLL_SECTION_STATION || kind == QLL_SECTION_VERDICTS || kind == QLL_SECTION_EXPECT
           || kind == QLL_SECTION_COMMISSIONING || kind == QLL_SECTION_SERVICE
           || kind == QLL_SECTION_FIGURES;
}

/* One valve a stage for one house: nobody reads more of it than a few pages. */
static bool is_plain_house(const qll_subject *subject)
{
    const qll_survey *survey = subject->found.demand.survey;
    const qll_design *design = subject->found.design;
    const qll_station *station = design->count > 0 ? &design->shown[0].station : NULL;
    return survey->scenario_count == 1 && survey->scenarios[0].use == QLL_USE_HOUSE
           && (station == NULL || qll_station_valve_count(station) == station->stage_count);
}

/* Nothing is to be installed where nothing is fit, or where no valve is needed. */
static qll_message cover_heading(const qll_report *report)
{
    const qll_design *design = report->found->design;
    if (report->of == QLL_REPORT_OF_CHECK) {
        return QLL_SAYS_SECTION_THERE;
    }
    if (!design->need.is_needed) {
        return QLL_SAYS_SECTION_NO_VALVE;
    }
    return design->is_fit && report->chosen != NULL ? QLL_SAYS_SECTION_COVER
                                                    : QLL_SAYS_SECTION_NOT_FIT;
}

static const char *heading_of(const qll_report *report, const section_of *section)
{
    if (section->heading == QLL_MESSAGE_COUNT) {
        return "";
    }
    const bool is_cover = section->heading == QLL_SAYS_SECTION_COVER;
    return qll_report_says(report, is_cover ? cover_heading(report) : section->heading);
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

/* What nobody acts on who has a plain house to do. */
static bool is_for_the_full(qll_section_kind kind)
{
    return kind == QLL_SECTION_ALTERNATIVES || kind == QLL_SECTION_FIGURES
           || kind == QLL_SECTION_SOURCES;
}

/* A sheet that is read alone says it by itself. */
static void write_fitness(qll_report *report)
{
    if (!report->found->design->is_fit) {
        qll_sheet_text(report->sheet, QLL_BLOCK_LEAD, qll_report_says(report, QLL_SAYS_NOT_FIT));
    }
}

static void write_sections(qll_report *report, unsigned set)
{
    const section_list *list = &lists[report->of][report->is_plain ? 1 : 0];
    const bool is_whole = set == QLL_SECTIONS_ALL; /* what is asked for by name is never left out */
    for (size_t i = 0; i < list->count; i++) {
        const section_of *section = &list->sections[i];
        bool is_made = (report->chosen != NULL || !is_of_station(section->kind))
                       && !(is_whole && report->is_short && is_for_the_full(section->kind));
        if (is_made && (set & QLL_SECTION_BIT(section->kind)) != 0) {
            qll_sheet_numbered(report->sheet, section->kind, section->chapter,
                               heading_of(report, section));
            if (qll_is_carried(section->kind)) {
                qll_report_cautions(report);
                write_fitness(report);
            }
            section->write(report);
        }
    }
}

void qll_report_make(const qll_subject *subject, unsigned set, qll_report_length length,
                     qll_arena *arena, qll_sheet *sheet)
{
    qll_report report = begin(subject, false, arena, sheet);
    report.is_short = length == QLL_REPORT_LENGTH_COUNT ? is_plain_house(subject)
                                                        : length == QLL_REPORT_LENGTH_SHORT;
    sheet->runs_on = report.is_short;
    qll_report_title(&report);
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
