/* A log of the same minutes, put beside a recording. */
#ifndef QUELL_ENGINE_FIND_BESIDE_H
#define QUELL_ENGINE_FIND_BESIDE_H

#include "engine/engine.h"
#include "findings/beside.h"

/**
 * Reads the question's log beside what was heard.
 *
 * @return QLL_OK; QLL_REFUSED (when it began is not known, both have too little in common, or the log is none), QLL_IO, QLL_STOPPED,
 *         QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_find_beside(qll_asked *asked, const qll_sound_result *heard,
                                        const qll_beside_findings **beside);

#endif
