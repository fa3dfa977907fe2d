/* A case's JSON to the struct that a diagnosis is made of. */
#ifndef QUELL_DOCUMENTS_READ_CASE_H
#define QUELL_DOCUMENTS_READ_CASE_H

#include "base/assumed.h"
#include "base/document.h"
#include "base/units.h"
#include "diagnosis/case.h"

typedef struct qll_read_case {
    qll_case of;
    const qll_node *survey; /* the survey in it; NULL */
    bool has_units;
    qll_unit_system units; /* of what people read, where it says so */
} qll_read_case;

/**
 * Reads a case (docs/formats/case.md), but not the survey in it. All strings and arrays live in @p arena.
 *
 * @return QLL_OK, QLL_REFUSED with problems, or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_case_read(const qll_document *document, const qll_knowledge *knowledge,
                                      qll_arena *arena, qll_read_case *read, qll_assumed *assumed,
                                      qll_problems *problems);

#endif
