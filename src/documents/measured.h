/* What was measured, as it is written in a case or said beside it. */
#ifndef QUELL_DOCUMENTS_MEASURED_H
#define QUELL_DOCUMENTS_MEASURED_H

#include "base/units.h"
#include "diagnosis/knowledge.h"

/**
 * Reads "7 psi" or "2.4", of a share also "20 %".
 *
 * @param evidence that is measured
 * @param si       in evidence->measure
 * @return false with @p refusal filled, of a text that is no such quantity
 */
bool qll_measured_read(qll_text text, const qll_evidence *evidence, qll_arena *arena, double *si,
                       qll_units_refusal *refusal);

#endif
