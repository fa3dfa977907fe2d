/* How a valve is built into the station's pipe. */
#ifndef QUELL_STATION_CONNECTION_H
#define QUELL_STATION_CONNECTION_H

#include "station/site.h"
#include "station/station.h"

/**
 * Fills what follows from the site for the branch's valve: the connecting pipe in the valve's own
 * size, the reducers from the header to it with the valve's strainer, and how sound passes the pipe
 * (in @p arena). Without a header larger than the valve there are no reducers.
 * docs/theory/balance.md, eq. 4.
 *
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_branch_connect(const qll_site *site, qll_arena *arena,
                                           qll_branch *branch);

#endif
