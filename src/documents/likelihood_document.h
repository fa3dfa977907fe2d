/* A table of likelihoods as a document: what closed cases made of the built-in one. */
#ifndef QUELL_DOCUMENTS_LIKELIHOOD_DOCUMENT_H
#define QUELL_DOCUMENTS_LIKELIHOOD_DOCUMENT_H

#include "base/assumed.h"
#include "base/document.h"
#include "diagnosis/learn.h"

/** Writes every row that a case has moved. */
void qll_likelihood_write(qll_json *json, const qll_learning *learning);

/**
 * Puts the rows of @p document (docs/formats/case.md) in the place of those of @p knowledge.
 *
 * @return QLL_OK, QLL_REFUSED with problems, or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_likelihood_read(const qll_document *document, qll_arena *arena,
                                            qll_knowledge *knowledge, qll_assumed *assumed,
                                            qll_problems *problems);

#endif
