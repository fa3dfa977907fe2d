#include "engine/engine.h"
#include "engine/pages.h"
#include "report/html.h"
#include "report/layout.h"
#include "report/pictures.h"
#include "report/report.h"
#include "report/svg.h"

static qll_status lay_out(qll_asked *asked, const qll_sheet *sheet)
{
    qll_canvas *canvas = qll_arena_take(asked->arena, 1, sizeof *canvas);
    if (canvas == NULL) {
        return QLL_NO_MEMORY;
    }
    *asked->pages = (qll_pages){
        .canvas = canvas,
        .title = sheet->title,
        .subject = sheet->subject,
        .language = qll_language_words[sheet->language],
    };
    return qll_layout_pages(sheet, asked->arena, canvas);
}

static qll_status write_svg(qll_asked *asked, const qll_design_findings *findings)
{
    const qll_picture picture = {(qll_picture_kind)asked->plot, asked->plot_number};
    if (picture.number >= qll_picture_count(findings, picture.kind)) {
        qll_asked_refuse(asked, QLL_CODE_OUT_OF_RANGE, "--plot",
                         "there is no figure of that number; scenarios and valves count from 1",
                         "");
        return qll_problems_status(&asked->problems);
    }
    qll_figure_block figure;
    qll_status status = qll_picture_draw(findings, picture, asked->arena, &figure);
    if (status == QLL_OK) {
        const qll_svg_about about = {
            .id = figure.id, .title = figure.title, .description = figure.description};
        qll_svg_write(&asked->writer, figure.canvas, 0, &about);
        status = qll_asked_finish(asked);
    }
    return status;
}

qll_status qll_ask_report(qll_asked *asked)
{
    qll_designed designed;
    qll_status status = qll_find_design(asked, &designed);
    if (status == QLL_OK && asked->pages == NULL && asked->question->form == QLL_FORM_SVG) {
        return write_svg(asked, &designed.findings);
    }
    qll_sheet sheet;
    if (status == QLL_OK) {
        status = qll_report_make(&designed.findings, asked->sections, asked->arena, &sheet);
    }
    if (status == QLL_OK && asked->pages != NULL) {
        status = lay_out(asked, &sheet);
    } else if (status == QLL_OK) {
        qll_html_write(&asked->writer, &sheet);
    }
    return status == QLL_OK ? qll_asked_finish(asked) : status;
}
