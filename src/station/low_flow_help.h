/* What would help a valve that is too often below its least stable flow: docs/theory/stability.md. */
#ifndef QUELL_STATION_LOW_FLOW_HELP_H
#define QUELL_STATION_LOW_FLOW_HELP_H

#include "station/rules.h"

/**
 * Fills @p help (room for QLL_HELP_COUNT per branch) for every branch whose low-flow verdict in
 * @p list is not good; returns how many. Flows and outlet pressures are left as they are: only the
 * least stable flow moves.
 */
size_t qll_low_flow_help_of(const qll_operation *operation, const qll_verdict_list *list,
                            qll_low_flow_help *help);

#endif
