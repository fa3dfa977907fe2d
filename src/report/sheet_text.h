/* A sheet as plain text: the pen of the terminal. */
#ifndef QUELL_REPORT_SHEET_TEXT_H
#define QUELL_REPORT_SHEET_TEXT_H

#include "report/sheet.h"

/**
 * Writes the title and the subject of @p sheet on a line (none without a title) and its sections, a blank
 * line before each, headings in capitals, no line wider than the plain width (columns.h), but those that
 * are to be copied. Figures are left out. What a tone says stands in the words of its cell, so that nothing
 * is lost. Texts may come from anywhere; they are cleaned.
 */
void qll_sheet_print(qll_writer *writer, const qll_sheet *sheet);

#endif
