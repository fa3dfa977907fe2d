/* The greatest and least pressure along the way to a draw; for src/transient/run.c alone. */
#ifndef QUELL_TRANSIENT_ENVELOPE_H
#define QUELL_TRANSIENT_ENVELOPE_H

#include "dynamics/pipeline.h"
#include "transient/run.h"

/** Fills the envelope of @p found, whose tree, grid and joints are there. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_envelope_make(const qll_pipeline *pipeline, size_t draw,
                                          qll_arena *arena, qll_run_found *found);

#endif
