/* A report laid out on pages of paper: Letter for US units, A4 for SI. */
#ifndef QUELL_REPORT_LAYOUT_H
#define QUELL_REPORT_LAYOUT_H

#include "report/sheet.h"

/**
 * Lays @p sheet on as many pages as it takes. Nothing is cut: long names wrap, within a word if they
 * must; long tables run on with their heads repeated. A heading stands by what it heads, and no page
 * begins or ends with a single line of a paragraph of several. Every page has the subject and its number
 * at the foot. Where it saves a page, or leaves a log more than a few rows, blocks stand a little closer and figures take no more than they must: no page
 * for three lines.
 *
 * No mark is open where a page ends, so that what stands at its foot belongs to none.
 *
 * @param pages in @p arena; what found no room there is left out, and the arena counts it
 */
void qll_layout_pages(const qll_sheet *sheet, qll_arena *arena, qll_canvas *pages);

#endif
