/* Where to go first, worked out beside the event loop. */
#ifndef QUELL_SERVER_RUN_RANK_H
#define QUELL_SERVER_RUN_RANK_H

#include "ranking/ranking.h"

/**
 * Ranks the records at @p place by a handle of its own, as @p plan says but for that; without a day, on today's.
 *
 * @param why what the store says against it; else of no text
 */
QLL_MUST_USE qll_status qll_run_rank(const char *place, qll_ranking_plan plan, qll_arena *arena,
                                     qll_answer *answer, qll_said *why);

#endif
