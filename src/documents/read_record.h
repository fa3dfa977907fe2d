/* A record's JSON (docs/formats/record.md) to what a store keeps of it, and a visit's body to its readings. */
#ifndef QUELL_DOCUMENTS_READ_RECORD_H
#define QUELL_DOCUMENTS_READ_RECORD_H

#include "quell/records.h"

#include "documents/purpose.h"
#include "documents/read_case.h"

/** The body of a visit. */
typedef struct qll_visit {
    qll_purpose purpose;
    const char *day; /* as it is written; NULL = that of the record */
    bool has_case;
    qll_read_case read;       /* where it has one */
    double strainer_loss_pa;  /* as found; NaN */
    double strainer_flow_m3s; /* NaN */
    bool is_strainer_cleaned;
} qll_visit;

/**
 * Reads a record and checks its body. All lives in @p arena.
 *
 * @return QLL_OK, QLL_REFUSED with problems, or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_record_of(const qll_document *document, const qll_knowledge *knowledge,
                                      qll_arena *arena, qll_record *record, qll_problems *problems);

/** Reads the body of a visit that stands in @p document as a whole. As qll_record_of(). */
QLL_MUST_USE qll_status qll_visit_of(const qll_document *document, const qll_knowledge *knowledge,
                                     qll_arena *arena, qll_visit *visit, qll_problems *problems);

#endif
