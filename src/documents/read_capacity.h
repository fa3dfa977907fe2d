/* Published capacity points of one valve from a table. */
#ifndef QUELL_DOCUMENTS_READ_CAPACITY_H
#define QUELL_DOCUMENTS_READ_CAPACITY_H

#include "base/assumed.h"
#include "base/table.h"
#include "base/units.h"
#include "findings/capacity_sheet.h"

/**
 * Reads a table of capacity points: docs/formats/catalogue.md. What a catalogue needs and the table
 * does not give is taken from the points and listed in @p assumed.
 *
 * @return QLL_OK, QLL_REFUSED with problems, or QLL_NO_MEMORY; all lives in @p arena
 */
QLL_MUST_USE qll_status qll_capacity_read(const qll_table *table, qll_arena *arena,
                                          qll_capacity_sheet *sheet, qll_assumed *assumed,
                                          qll_problems *problems);

/** Adds why a fit is none, at its rows. Always false. */
QLL_MUST_USE bool qll_capacity_refuse(const qll_table *table, const qll_valve_fit *fit,
                                      qll_arena *arena, qll_problems *problems);

#endif
