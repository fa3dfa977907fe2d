/* The groups of fields of a case, one per object type. */
#ifndef QUELL_DOCUMENTS_CASE_FIELDS_H
#define QUELL_DOCUMENTS_CASE_FIELDS_H

#include "documents/field.h"

extern const qll_field_group qll_group_case, qll_group_case_site, qll_group_reading, qll_group_test,
    qll_group_log_finding, qll_group_sound_finding, qll_group_together, qll_group_cases,
    qll_group_likelihood, qll_group_likelihood_row;

/** All of them in the order of the manual. Groups that share a path differ in their first field. */
const qll_field_group *const *qll_case_groups(size_t *count);

#endif
