/* A valve of the station that is there, named by its size and kind. */
#ifndef QUELL_DOCUMENTS_VALVE_BY_SIZE_H
#define QUELL_DOCUMENTS_VALVE_BY_SIZE_H

#include "documents/read_survey.h"

/**
 * The place in @p catalogue of the valve that "3 in direct" or "3 in" means: of that size and kind,
 * its range holding the set pressure, of several the middle one by Kv. What was taken goes to
 * @p assumed; where there is none, or @p branch names no size, a problem to @p problems.
 *
 * @return the catalogue's count after a problem
 */
size_t qll_valve_by_size(const qll_catalogue *catalogue, const qll_existing_branch *branch,
                         qll_assumed *assumed, qll_problems *problems);

#endif
