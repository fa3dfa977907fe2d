/* A log that is handed in as a stream, read to its end. */
#ifndef QUELL_ENGINE_STREAM_LOG_H
#define QUELL_ENGINE_STREAM_LOG_H

#include "engine/engine.h"
#include "signals/flow_log.h"

/**
 * Feeds @p file to @p log, finishes it, and reads it again where it wants that.
 *
 * @param found what is wrong with it, beside the question's own problems
 * @param why   on QLL_IO what the system says
 * @return as qll_flow_log_finish(); QLL_IO; QLL_STOPPED
 */
QLL_MUST_USE qll_status qll_stream_log(qll_asked *asked, const qll_attachment *file,
                                       qll_flow_log *log, qll_flow_log_result *result,
                                       qll_problems *found, const char **why);

#endif
