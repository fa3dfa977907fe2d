/* Sheets laid out on pages, and what stands where on them. */
#ifndef QUELL_TESTS_PAGED_H
#define QUELL_TESTS_PAGED_H

#include "check.h"
#include "report/layout.h"

#include <math.h>

static inline qll_sheet empty_sheet(qll_arena *arena)
{
    qll_sheet sheet = qll_sheet_new(arena, QLL_LANGUAGE_EN, QLL_UNITS_US);
    sheet.title = "Title";
    sheet.subject = "A house";
    return sheet;
}

/* Nothing is drawn off the page, and no mark is open where a page ends. */
static inline void check_pages(const qll_canvas *pages)
{
    int open = 0;
    for (size_t i = 0; i < pages->count; i++) {
        const qll_item *item = &pages->items[i];
        open += (item->kind == QLL_ITEM_BEGIN) - (item->kind == QLL_ITEM_END);
        if (item->kind == QLL_ITEM_PAGE) {
            CHECK(open == 0);
        }
        for (size_t p = 0; p < item->point_count; p++) {
            CHECK(item->points[p].x_mm >= 0 && item->points[p].x_mm <= pages->width_mm);
            CHECK(item->points[p].y_mm >= 0 && item->points[p].y_mm <= pages->height_mm);
        }
        if (item->kind == QLL_ITEM_TEXT) {
            double from = item->points[0].x_mm
                          - (item->letters.anchor == QLL_ANCHOR_END ? item->width_mm : 0);
            if (!CHECK(from >= 17.9 && from + item->width_mm <= pages->width_mm - 13.9)) {
                printf("    %.40s\n", item->text.bytes);
            }
        }
    }
    CHECK(open == 0);
}

/* The text of the pages, one line an item. */
static inline const char *text_of(const qll_canvas *pages, size_t page, qll_arena *arena)
{
    qll_writer writer = qll_writer_new(arena);
    size_t first = 0;
    size_t end = 0;
    qll_canvas_page_items(pages, page, &first, &end);
    for (size_t i = first; i < end; i++) {
        if (pages->items[i].kind == QLL_ITEM_TEXT) {
            qll_write_text(&writer, pages->items[i].text);
            qll_write(&writer, "\n");
        }
    }
    return qll_writer_text(&writer).bytes;
}

/* Where the text @p text begins; NaN if it is nowhere. */
static inline qll_xy place_of(const qll_canvas *pages, const char *text)
{
    for (size_t i = 0; i < pages->count; i++) {
        if (pages->items[i].kind == QLL_ITEM_TEXT
            && strcmp(pages->items[i].text.bytes, text) == 0) {
            return pages->items[i].points[0];
        }
    }
    return (qll_xy){NAN, NAN};
}

/* A table that takes little of the width. */
static inline void add_narrow(qll_sheet *sheet, const char *caption, const char *cell)
{
    for (int row = 0; row < 4; row++) {
        qll_sheet_cell(sheet, row == 0 ? "what" : cell);
        qll_sheet_cell(sheet, row == 0 ? "value" : "12.5 psi");
    }
    qll_sheet_table(sheet, caption, "lr", true);
}

#endif
