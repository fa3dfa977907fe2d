/* What a design has found, as the sheets that are handed over. */
#ifndef QUELL_REPORT_REPORT_H
#define QUELL_REPORT_REPORT_H

#include "findings/findings.h"
#include "report/sheet.h"

/** A set of sections: one bit each. */
#define QLL_SECTION_BIT(kind) (1U << (unsigned)(kind))
#define QLL_SECTIONS_ALL      ((1U << (unsigned)QLL_SECTION_COUNT) - 1U)

/**
 * Makes the report of @p findings with the sections of @p set; the cautions are in it whatever the set
 * says, and a section that would be empty is not.
 *
 * @param sheet its arrays and texts live in @p arena and in the findings
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_report_make(const qll_design_findings *findings, unsigned set,
                                        qll_arena *arena, qll_sheet *sheet);

#endif
