/* The report as pages of a canvas, for rooms that put it on paper themselves. */
#ifndef QUELL_ENGINE_PAGES_H
#define QUELL_ENGINE_PAGES_H

#include "quell/quell.h"

#include "report/canvas.h"

typedef struct qll_pages {
    const qll_canvas *canvas;
    const char *title, *subject;
    const char *language; /* BCP 47 */
} qll_pages;

/**
 * Asks for a report (verb REPORT; the form is not looked at) and lays it out on pages.
 *
 * @param pages  filled only on QLL_OK; in @p arena
 * @param answer the problems that came with it; no bytes
 * @return as qll_ask()
 */
QLL_MUST_USE qll_status qll_ask_pages(const qll_question *question, qll_arena *arena,
                                      qll_pages *pages, qll_answer *answer);

#endif
