/* The groups of fields of a catalogue, and the reading that JSON and CSV share. */
#ifndef QUELL_DOCUMENTS_CATALOGUE_FIELDS_H
#define QUELL_DOCUMENTS_CATALOGUE_FIELDS_H

#include "documents/field.h"
#include "search/design.h"

extern const qll_field_group qll_group_catalogue, qll_group_valve, qll_group_falloff,
    qll_group_falloff_point;

/** All of them in the order of the manual. */
const qll_field_group *const *qll_catalogue_groups(size_t *count);

/** Most valves of a catalogue. */
#define QLL_VALVES_MAX         5000
/** Most fall-off points in the columns of a CSV catalogue. */
#define QLL_FALLOFF_COLUMN_MAX 20

/** Reads the catalogue at @p root; problems go to the reader. */
void qll_catalogue_read_root(qll_reader *reader, const qll_node *root, qll_catalogue *catalogue);

#endif
