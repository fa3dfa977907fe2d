/* The page that is being filled, and what the files that fill it offer each other. */
#ifndef QUELL_REPORT_LAYOUT_PAGE_H
#define QUELL_REPORT_LAYOUT_PAGE_H

#include "report/sheet.h"

/* Sizes of letters, mm. */
#define QLL_BODY_MM  (9.2 * QLL_POINT_MM)
#define QLL_SMALL_MM (9.0 * QLL_POINT_MM)

/** On which page each section begins. */
typedef struct qll_starts {
    size_t page[QLL_SECTION_COUNT];
} qll_starts;

typedef struct qll_page {
    qll_canvas *canvas;
    const qll_sheet *sheet;
    double left_mm, width_mm; /* of what is written */
    double top_mm, bottom_mm;
    double y_mm;      /* where the next block begins */
    size_t total;     /* pages in all; 0 while they are being counted */
    size_t fill_rows; /* a table that fills its page repeats its last row no more often */
    bool is_fresh;    /* nothing stands on the page yet */
    bool is_tight;    /* so that the sheets take a page less: qll_layout_pages() */
    double gap_mm;    /* between blocks */
    const qll_starts *known_starts; /* for the contents; NULL = there are none */
    qll_starts *starts;             /* where sections turn out to begin */
} qll_page;

/** Writes the foot of the page: what it is of, and which of how many. */
void qll_page_foot(qll_page *page);

/** Ends the page with its foot and begins another. No mark may be open. */
void qll_page_turn(qll_page *page);

/** Turns the page unless @p height_mm are left on it, or nothing stands on it yet. */
void qll_page_need(qll_page *page, double height_mm);

/** Whether turning the page now would leave less than half of it filled. */
bool qll_page_is_half_empty(const qll_page *page);

/** Begins and ends a mark with a text of its own. */
void qll_page_begin(qll_page *page, qll_mark_kind kind, int level, const char *text);
void qll_page_end(qll_page *page);

/** Letters of the body in black from the left. */
qll_letters qll_page_letters(double size_mm, qll_weight weight);

/** From one base line to the next. */
double qll_page_line_mm(double size_mm);

/** How a paragraph is set. */
typedef struct qll_page_text {
    qll_mark_kind mark;
    int level;
    double size_mm;
    qll_weight weight;
    double indent_mm;
    qll_text bullet; /* before the first line, in the indent */
} qll_page_text;

/** Writes a paragraph; pages turn where it needs them, and no line of it is left alone. */
void qll_page_paragraph(qll_page *page, const char *text, const qll_page_text *how);

/** Writes a list or steps; and their height. */
void qll_page_items(qll_page *page, const qll_block *block);
double qll_page_items_mm(const qll_page *page, const qll_block *block);

/** Writes cautions in their frame; and their height. */
void qll_page_cautions(qll_page *page, const qll_block *block);
double qll_page_cautions_mm(const qll_page *page, const qll_block *block);

/** Writes lines as they stand. */
void qll_page_verbatim(qll_page *page, const char *lines, const qll_page_text *how);

/** Writes a paragraph of bold small letters that stays with what follows; and its height. */
void qll_page_caption(qll_page *page, const char *text);
double qll_page_caption_mm(const qll_page *page, const char *text);

/** Draws a figure, in less height where only that still fits on the page; and the height that it takes. */
void qll_page_figure(qll_page *page, const qll_figure_block *figure);
double qll_page_figure_mm(const qll_page *page, const qll_figure_block *figure);

/** Draws two figures that stand side by side (qll_are_beside()); and the height that they take. */
void qll_page_two_figures(qll_page *page, const qll_figure_block *left,
                          const qll_figure_block *right);
double qll_page_two_figures_mm(const qll_page *page, const qll_figure_block *left,
                               const qll_figure_block *right);

/** Writes the title block of the sheet, if it has one; and on which page its chapters begin. */
void qll_page_title_block(qll_page *page);
void qll_page_contents(qll_page *page);

/** Writes a table at the place of the page. */
void qll_page_table(qll_page *page, const qll_table_block *table);

/** Writes two narrow tables beside each other; false if they are not narrow, or no page holds them so. */
bool qll_page_two_tables(qll_page *page, const qll_table_block *left, const qll_table_block *right);

/** How much of a table must stand together from where the page is: all of a short one or a form, else
 * caption, heads and the first rows. */
double qll_page_table_start_mm(const qll_page *page, const qll_table_block *table);

/** The height of a table that is written in by hand; 0 for any other. */
double qll_page_form_mm(const qll_page *page, const qll_table_block *table);

#endif
