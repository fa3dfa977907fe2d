/* A diagnosis as a sheet. */
#ifndef QUELL_REPORT_DIAGNOSIS_SHEET_H
#define QUELL_REPORT_DIAGNOSIS_SHEET_H

#include "base/text.h"
#include "findings/diagnosed.h"
#include "report/sheet.h"

/** For a terminal: what is most likely first. */
void qll_diagnosis_print(qll_writer *writer, const qll_diagnosed *findings);

/** The sheet of a visit, to hand over: what was found, tested, done and left. Texts live in @p arena. */
void qll_visit_make(const qll_diagnosed *findings, qll_arena *arena, qll_sheet *sheet);

#endif
