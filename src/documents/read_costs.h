/* Costs: the table of defaults, and the "costs" of a survey or a catalogue. */
#ifndef QUELL_DOCUMENTS_READ_COSTS_H
#define QUELL_DOCUMENTS_READ_COSTS_H

#include "documents/field.h"
#include "station/costs.h"

extern const qll_field_group qll_group_costs, qll_group_size_cost;

/** Reads data/installed_costs.csv. */
QLL_MUST_USE qll_status qll_costs_read(qll_arena *arena, qll_costs *costs);

/**
 * Reads the "costs" of @p root, a survey or a catalogue: NaN and no sizes where it gives none; NULL
 * if there are none at all or a problem was added.
 */
const qll_costs *qll_read_costs(const qll_object *root);

/** A row of @p costs that stands for @p nominal_m, or size_count. */
size_t qll_costs_row(const qll_costs *costs, double nominal_m);

#endif
