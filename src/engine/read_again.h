/* A log that must be read a second time: where its bytes come from then. */
#ifndef QUELL_ENGINE_READ_AGAIN_H
#define QUELL_ENGINE_READ_AGAIN_H

#include "engine/engine.h"

/**
 * Reads @p log again, which qll_flow_log_wants_again(). Where the attachment's bytes are gone or too many
 * to keep, the first reading stands.
 *
 * @param first  what the first reading gave
 * @param result,found of the first reading; replaced
 * @param why    on QLL_IO
 * @return as the log's reader, or QLL_STOPPED
 */
QLL_MUST_USE qll_status qll_read_again(qll_asked *asked, const qll_attachment *file,
                                       qll_flow_log *log, qll_flow_log_result *result,
                                       qll_problems *found, qll_status first, const char **why);

#endif
