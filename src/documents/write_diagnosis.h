/* A diagnosis as JSON: diagnose/1 of docs/formats/answers.md. */
#ifndef QUELL_DOCUMENTS_WRITE_DIAGNOSIS_H
#define QUELL_DOCUMENTS_WRITE_DIAGNOSIS_H

#include "base/document.h"
#include "findings/diagnosed.h"

void qll_diagnosis_write(qll_json *json, const qll_diagnosed *findings);

/** The same as report/1, with what was made of it. */
void qll_visit_write(qll_json *json, const qll_diagnosed *findings, const qll_report_facts *facts);

#endif
