/* Valves of a catalog whose sheets say how they move. */
#ifndef QUELL_ENGINE_BUILDS_H
#define QUELL_ENGINE_BUILDS_H

#include "engine/engine.h"

/** Gives each such valve what follows from its build for its chatter, some milliseconds for each. QLL_OK, QLL_STOPPED or
 * QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_builds_find(qll_asked *asked, qll_catalogue *catalogue,
                                        qll_arena *arena);

#endif
