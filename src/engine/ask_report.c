#include "engine/engine.h"
#include "engine/pages.h"
#include "report/html.h"
#include "report/layout.h"
#include "report/report.h"

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

qll_status qll_ask_report(qll_asked *asked)
{
    qll_designed designed;
    qll_status status = qll_find_design(asked, &designed);
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
