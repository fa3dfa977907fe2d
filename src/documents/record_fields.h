/* The groups of fields of a record, one per object type. What a body holds depends on the record's kind. */
#ifndef QUELL_DOCUMENTS_RECORD_FIELDS_H
#define QUELL_DOCUMENTS_RECORD_FIELDS_H

#include "quell/records.h"

#include "documents/field.h"

extern const qll_field_group qll_group_record, qll_group_record_site, qll_group_record_visit,
    qll_group_record_strainer, qll_group_record_plan, qll_group_record_attachment,
    qll_group_record_log;

/** All of them in the order of the manual. Bodies share a path and differ in their first field. */
const qll_field_group *const *qll_record_groups(size_t *count);

/** The fields of a body of @p kind; NULL of surveys, stations and likelihood tables: they are kept as they are, also half filled in,
 * and read by whoever asks of them. */
const qll_field_group *qll_record_body_group(qll_record_kind kind);

#endif
