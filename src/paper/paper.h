/* Pages of a canvas as PDF or PNG. Draws with cairo and pango; reads the font, writes no file. */
#ifndef QUELL_PAPER_PAPER_H
#define QUELL_PAPER_PAPER_H

#include "quell/problems.h"

#include "report/canvas.h"

typedef struct qll_paper_about {
    const char *title;    /* of the document; "" if none */
    const char *subject;  /* "" if none */
    const char *language; /* BCP 47: "en", "es" */
    const char *created;  /* ISO 8601 with zone, "2026-01-31T12:00:00Z": the only clock there is */
} qll_paper_about;

/** What was drawn, in the arena. */
typedef struct qll_paper {
    qll_text bytes;
    const char *why;     /* after QLL_IO: a sentence that says what to do; else "" */
    const char *warning; /* of a PDF that lacks something; "" if none */
} qll_paper;

/** Folder of the font as built in: where Debian's package fonts-inter puts it. */
extern const char qll_paper_font_folder[];

/**
 * All pages as one tagged PDF with title, language, outline and the alternative texts of figures; fonts
 * are embedded. Same input, same font and same libraries give the same bytes. No text leaves the width that
 * the canvas worked out for it: where the font's own width is larger, the line is drawn narrower.
 *
 * @param font_folder where Inter-Regular.otf and Inter-Bold.otf are; NULL = qll_paper_font_folder
 * @return QLL_OK; QLL_NO_MEMORY; QLL_IO: the font is not there or the drawing library refuses, see why
 */
QLL_MUST_USE qll_status qll_pdf_write(const qll_canvas *canvas, const qll_paper_about *about,
                                      const char *font_folder, qll_arena *arena, qll_paper *paper);

/** One page (from 0) as PNG with @p dots_per_mm, over 0 and at most 40; as above. */
QLL_MUST_USE qll_status qll_png_write(const qll_canvas *canvas, size_t page, double dots_per_mm,
                                      const char *font_folder, qll_arena *arena, qll_paper *paper);

#endif
