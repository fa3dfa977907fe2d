/* What stations of a scene are measured by, made in one step. */
#ifndef QUELL_TESTS_YARDSTICK_SCENE_H
#define QUELL_TESTS_YARDSTICK_SCENE_H

#include "station/verdict.h"

/** The yardstick of a site and its duty at the demand as given; false without memory. Lives in @p arena. */
static inline bool scene_yardstick(const qll_site *site, const qll_duty *duty, qll_arena *arena,
                                   qll_yardstick *made)
{
    qll_unknowns *unknowns = qll_arena_take(arena, 1, sizeof *unknowns);
    return unknowns != NULL && qll_unknowns_make(duty, 1.0, arena, unknowns) == QLL_OK
           && qll_yardstick_make(site, duty, unknowns, arena, made) == QLL_OK;
}

static inline qll_status scene_assess(const qll_station *station, const qll_site *site,
                                      const qll_duty *duty, qll_arena *arena,
                                      qll_assessment *assessment)
{
    qll_yardstick *yardstick = qll_arena_take(arena, 1, sizeof *yardstick);
    if (yardstick == NULL || !scene_yardstick(site, duty, arena, yardstick)) {
        return QLL_NO_MEMORY;
    }
    return qll_station_assess(station, yardstick, arena, assessment);
}

#endif
