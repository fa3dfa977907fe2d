/* Valves of a catalog whose sheets say how they move. */
#ifndef QUELL_ENGINE_BUILDS_H
#define QUELL_ENGINE_BUILDS_H

#include "search/design.h"

/** Gives each such valve what follows from its build for its chatter. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_builds_find(qll_catalogue *catalogue, qll_arena *arena);

#endif
