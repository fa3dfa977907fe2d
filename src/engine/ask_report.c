#include "quell/report.h"

#include "documents/write_diagnosis.h"
#include "engine/diagnose.h"
#include "engine/progress.h"
#include "report/diagnosis_sheet.h"
#include "report/html.h"
#include "report/pictures.h"
#include "report/report.h"
#include "report/svg.h"

const char *const qll_sheets_words[QLL_SHEETS_COUNT] = {
#define QLL_SHEETS_WORD(name, word) [QLL_SHEETS_##name] = (word),
    QLL_SHEETS_LIST(QLL_SHEETS_WORD)
#undef QLL_SHEETS_WORD
};

/* What a report was made from: what its subject points at is one of the three. */
typedef struct qll_report_told {
    union {
        qll_prepared prepared;
        qll_designed designed;
        qll_checked checked;
        qll_diagnosed_case diagnosed;
    } from;

    qll_subject subject;
    qll_problems problems; /* the question's, which ends before this is reported */
    qll_assumed assumed;
    qll_sheet sheet;  /* its sections; none of a figure alone */
    const char *plot; /* of a figure alone; else NULL */
} qll_report_told;

/* A visit's sheet has sections and no figures; of a survey it tells what its title block needs. */
static qll_status find_visit(qll_asked *asked, qll_report_told *told)
{
    qll_diagnosed_case *made = &told->from.diagnosed;
    const qll_status status = qll_find_diagnosis(asked, made);
    if (status == QLL_OK) {
        told->subject = (qll_subject){.of = QLL_REPORT_OF_DIAGNOSE,
                                      .found = {.demand = {.survey = made->findings.survey,
                                                           .provenance = made->findings.provenance,
                                                           .language = asked->language}}};
    }
    return status;
}

static qll_status find(qll_asked *asked, qll_report_told *told)
{
    qll_status status = QLL_OK;
    switch ((qll_report_of)asked->of) {
    case QLL_REPORT_OF_DEMAND: {
        qll_demand_findings findings;
        status = qll_find_demand(asked, &told->from.prepared, &findings);
        if (status == QLL_OK) {
            told->subject = qll_subject_of_demand(&findings);
        }
        return status;
    }
    case QLL_REPORT_OF_CHECK:
        status = qll_find_check(asked, &told->from.checked);
        return status == QLL_OK ? qll_subject_of_check(&told->from.checked.findings, asked->arena,
                                                       &told->subject)
                                : status;
    case QLL_REPORT_OF_DIAGNOSE: return find_visit(asked, told);
    case QLL_REPORT_OF_DESIGN:
    case QLL_REPORT_OF_COUNT: break;
    }
    status = qll_find_design(asked, &told->from.designed);
    if (status == QLL_OK) {
        told->subject = qll_subject_of_design(&told->from.designed.findings);
    }
    return status;
}

static qll_status draw_plot(qll_asked *asked, qll_report_told *told)
{
    if (told->subject.of == QLL_REPORT_OF_DIAGNOSE) {
        qll_asked_refuse(asked, QLL_CODE_OUT_OF_RANGE, "--plot", QLL_SAYS(FIGURE_NUMBER), NULL);
        return qll_problems_status(&asked->problems);
    }
    const qll_design_findings *findings = &told->subject.found;
    const qll_picture picture = {(qll_picture_kind)asked->plot.kind, asked->plot.number};
    if (picture.number >= qll_picture_count(findings, picture.kind)) {
        qll_asked_refuse(asked, QLL_CODE_OUT_OF_RANGE, "--plot", QLL_SAYS(FIGURE_NUMBER), NULL);
        return qll_problems_status(&asked->problems);
    }
    qll_figure_block figure;
    qll_status status = qll_picture_draw(findings, picture, asked->arena, &figure);
    if (status == QLL_OK) {
        const qll_svg_about about = {
            .id = figure.id, .title = figure.title, .description = figure.description};
        qll_svg_write(&asked->writer, figure.canvas, 0, &about);
        told->plot = figure.id;
    }
    return status;
}

/* @p page NULL where a file was written. */
static void write_told(qll_writer *writer, const qll_report_told *told, const qll_report_file *file,
                       const qll_sheets_told *page)
{
    const qll_survey *survey = told->subject.found.demand.survey;
    const char *sections[QLL_SECTION_COUNT];
    for (size_t i = 0; i < told->sheet.section_count; i++) {
        sections[i] = qll_section_words[told->sheet.sections[i].kind];
    }
    const char *paper = survey->units == QLL_UNITS_SI ? "A4" : "Letter";
    const qll_report_facts facts = {
        .of = qll_report_of_words[told->subject.of],
        .check = told->subject.check,
        .paper = told->plot == NULL ? paper : NULL,
        .plot = told->plot,
        .sections = sections,
        .section_count = told->sheet.section_count,
        .file = file,
        .page = page == NULL ? (qll_sheets_told){.html = NULL} : *page,
    };
    qll_json json = qll_json_new(writer);
    if (told->subject.of == QLL_REPORT_OF_DIAGNOSE) {
        qll_visit_write(&json, &told->from.diagnosed.findings, &facts);
    } else {
        qll_report_write(&json, &told->subject.found, &facts);
    }
    qll_write(writer, "\n");
}

/* What the file is made of, and what can be reported of it. */
static qll_status hand_over(qll_asked *asked, qll_report_told *told)
{
    qll_demand_findings *demand = &told->subject.found.demand;
    told->problems = asked->problems;
    told->assumed = asked->assumed;
    demand->problems = &told->problems;
    demand->assumed = &told->assumed;
    if (told->subject.of == QLL_REPORT_OF_DIAGNOSE) {
        told->from.diagnosed.findings.problems = &told->problems;
        told->from.diagnosed.findings.assumed = &told->assumed;
    }
    asked->made->told = told;
    return qll_asked_hand_over(asked, &told->sheet);
}

/* What is asked for: by a front end that writes the file, or by the form of the question. */
static qll_form form_of(const qll_asked *asked)
{
    static const qll_form forms[QLL_SHEETS_COUNT] = {
        [QLL_SHEETS_PDF] = QLL_FORM_TEXT, /* pages: nothing is written here */
        [QLL_SHEETS_HTML] = QLL_FORM_HTML,
        [QLL_SHEETS_SVG] = QLL_FORM_SVG,
    };
    return asked->made == NULL ? asked->question->form : forms[asked->made->form];
}

qll_status qll_ask_report(qll_asked *asked)
{
    qll_report_told *told = qll_arena_take(asked->arena, 1, sizeof *told);
    if (told == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_form form = form_of(asked);
    told->plot = NULL;
    told->sheet = (qll_sheet){.title = "", .subject = ""};
    qll_status status = find(asked, told);
    qll_progress_phase(asked, QLL_SHARE_CLOSE, 1.0);
    if (status == QLL_OK) {
        status = qll_progress_step(asked, 0, 2);
    }
    if (status == QLL_OK && form == QLL_FORM_SVG) {
        status = draw_plot(asked, told);
    } else if (status == QLL_OK && told->subject.of == QLL_REPORT_OF_DIAGNOSE) {
        qll_visit_make(&told->from.diagnosed.findings, asked->arena, &told->sheet);
    } else if (status == QLL_OK) {
        qll_report_make(&told->subject, asked->sections, (qll_report_length)asked->length,
                        asked->arena, &told->sheet);
    }
    if (status == QLL_OK && form == QLL_FORM_HTML) {
        qll_html_write(&asked->writer, &told->sheet);
    } else if (status == QLL_OK && form == QLL_FORM_JSON) {
        qll_sheets_told page;
        if (!qll_asked_tell_sheet(asked, &told->sheet, &page)) {
            return QLL_NO_MEMORY;
        }
        write_told(&asked->writer, told, NULL, &page);
    }
    if (status == QLL_OK && asked->made != NULL) {
        status = hand_over(asked, told);
    }
    return status == QLL_OK ? qll_asked_finish(asked) : status;
}

qll_status qll_report_tell(const qll_made_report *made, const char *path, size_t size,
                           qll_arena *arena, qll_text *json)
{
    const qll_report_file file = {
        .path = path,
        .format = qll_sheets_words[made->form],
        .size = size,
        .page_count = made->pages == NULL ? 0 : made->pages->page_count,
    };
    size_t refused = qll_arena_refused(arena);
    qll_writer writer = qll_writer_new(arena);
    write_told(&writer, made->told, &file, NULL);
    *json = qll_writer_text(&writer);
    return qll_arena_refused(arena) == refused ? QLL_OK : QLL_NO_MEMORY;
}

qll_status qll_report_tell_failure(const char *path, const char *says, qll_arena *arena,
                                   qll_text *json)
{
    size_t refused = qll_arena_refused(arena);
    qll_problems problems = qll_problems_none(arena);
    qll_problems_add(&problems, (qll_fault){
                                    .code = QLL_CODE_NO_FILE,
                                    .level = QLL_REFUSAL,
                                    .place = {.source = path, .path = ""},
                                    .says = QLL_SAYS_WITH(VALUE, qll_as_is(says)),
                                });
    qll_writer writer = qll_writer_new(arena);
    qll_json document = qll_json_new(&writer);
    const qll_wording wording = {.units = QLL_UNITS_US};
    qll_refusal_write(&document, qll_verb_words[QLL_VERB_REPORT], &wording, &problems);
    qll_write(&writer, "\n");
    *json = qll_writer_text(&writer);
    return qll_arena_refused(arena) == refused ? QLL_OK : QLL_NO_MEMORY;
}
