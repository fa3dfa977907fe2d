/* What every question may do with itself: name its verb, be refused, end. */
#include "quell/report.h"

#include "engine/engine.h"
#include "report/html.h"
#include "report/layout.h"

const char *const qll_verb_words[QLL_VERB_COUNT] = {
#define QLL_VERB_WORD(name, word) [QLL_VERB_##name] = (word),
    QLL_VERB_LIST(QLL_VERB_WORD)
#undef QLL_VERB_WORD
};

void qll_asked_refuse(qll_asked *asked, qll_code code, const char *source, const qll_said *says,
                      const qll_said *hint)
{
    qll_problems_add(&asked->problems, (qll_fault){
                                           .code = code,
                                           .level = QLL_REFUSAL,
                                           .place = {.source = source, .path = ""},
                                           .says = says,
                                           .hint = hint,
                                       });
}

qll_status qll_asked_finish(const qll_asked *asked)
{
    return qll_problems_status(&asked->problems);
}

qll_status qll_asked_hand_over(qll_asked *asked, const qll_sheet *sheet)
{
    qll_made_report *made = asked->made;
    made->title = sheet->title;
    made->subject = sheet->subject;
    made->language = qll_language_words[asked->language];
    if (made->form != QLL_SHEETS_PDF) {
        made->text = qll_writer_text(&asked->writer);
        return QLL_OK;
    }
    qll_canvas *pages = qll_arena_take(asked->arena, 1, sizeof *pages);
    if (pages == NULL) {
        return QLL_NO_MEMORY;
    }
    made->pages = pages;
    qll_layout_pages(sheet, asked->arena, pages);
    return QLL_OK;
}

qll_status qll_asked_write_sheet(qll_asked *asked, const qll_sheet *sheet)
{
    if (asked->made == NULL || asked->made->form != QLL_SHEETS_PDF) {
        qll_html_write(&asked->writer, sheet);
    }
    return asked->made == NULL ? QLL_OK : qll_asked_hand_over(asked, sheet);
}

bool qll_asked_tell_sheet(qll_asked *asked, const qll_sheet *sheet, qll_sheets_told *page)
{
    qll_writer html = qll_writer_new(asked->arena);
    qll_html_write(&html, sheet);
    *page = (qll_sheets_told){.html = qll_writer_text(&html).bytes};
    return page->html != NULL
           && qll_html_drawn(sheet, asked->arena, &page->drawn, &page->drawn_count);
}
