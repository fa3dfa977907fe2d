/* What the choice of a station hangs on: the question asked again with one datum moved. */
#ifndef QUELL_ENGINE_HANGS_ON_H
#define QUELL_ENGINE_HANGS_ON_H

#include "engine/engine.h"

/**
 * Fills the hangs of a finished design: docs/theory/hangs_on.md. None where no valve is needed, there is no
 * station, or the search was stopped. QLL_OK or QLL_NO_MEMORY.
 */
QLL_MUST_USE qll_status qll_find_hangs(qll_asked *asked, qll_designed *designed);

#endif
