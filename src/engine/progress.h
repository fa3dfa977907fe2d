/* Progress of a question over all its phases: a share that never falls, and whether to stop. */
#ifndef QUELL_ENGINE_PROGRESS_H
#define QUELL_ENGINE_PROGRESS_H

#include "engine/engine.h"

/** The share at which survey, logs and demands have been made ready for a station. */
#define QLL_SHARE_PREPARED 0.15

/** A design is searched, then asked what it hangs on, looked at closely, and drawn or laid out. */
#define QLL_SHARE_SEARCHED 0.4
#define QLL_SHARE_CHOSEN   0.85
#define QLL_SHARE_CLOSE    0.9

/** A check works the points out, judges, looks for cures, and then looks closely and draws. */
#define QLL_SHARE_OPERATED 0.25
#define QLL_SHARE_JUDGED   0.35
#define QLL_SHARE_CURED    0.85

/** What follows is this part of the whole. */
void qll_progress_phase(qll_asked *asked, double from, double to);

/**
 * Tells the share of the phase under way that is done, 0 to 1; false if it is to stop, from then on without
 * asking. Fits the progress of a search: @p asked is a qll_asked.
 */
bool qll_progress_tell(double share, void *asked);

/** Step @p index of @p count equal ones of a phase has been done: QLL_OK, or QLL_STOPPED where progress says so now.
 * Whoever goes on after it said so gets QLL_OK. */
QLL_MUST_USE qll_status qll_progress_step(qll_asked *asked, size_t index, size_t count);

#endif
