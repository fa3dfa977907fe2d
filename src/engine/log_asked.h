/* A log that a question brings: what its file does not say, and what is wrong with it (ask_log.c). */
#ifndef QUELL_ENGINE_LOG_ASKED_H
#define QUELL_ENGINE_LOG_ASKED_H

#include "engine/engine.h"
#include "signals/flow_log.h"

/** Takes the question's arguments, "dates=day-first"; false if one is refused. */
bool qll_asked_log_options(qll_asked *asked, qll_flow_log_options *options);

/** Makes the reader's problems the question's, hints as arguments. */
void qll_asked_log_problems(qll_asked *asked, const qll_problems *found);

/** Refuses the log as one that cannot be read: QLL_IO. */
QLL_MUST_USE qll_status qll_asked_log_failed(qll_asked *asked, const char *why);

#endif
