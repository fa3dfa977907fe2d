#include "engine/builds.h"

#include "dynamics/motion_build.h"
#include "engine/progress.h"

#include <math.h>
#include <string.h>

static bool any_says_motion(const qll_catalogue *catalogue)
{
    for (size_t i = 0; i < catalogue->count; i++) {
        if (qll_valve_says_motion(&catalogue->valves[i])) {
            return true;
        }
    }
    return false;
}

qll_status qll_builds_find(qll_asked *asked, qll_catalogue *catalogue, qll_arena *arena)
{
    if (!any_says_motion(catalogue)) {
        return QLL_OK;
    }
    qll_valve *valves = qll_arena_take(arena, catalogue->count, sizeof *valves);
    if (valves == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_progress_phase(asked, asked->told, fmax(asked->told, QLL_SHARE_PREPARED));
    memcpy(valves, catalogue->valves, catalogue->count * sizeof *valves);
    for (size_t i = 0; i < catalogue->count; i++) {
        qll_chatter_build build;
        if (qll_valve_says_motion(&valves[i])) {
            if (qll_chatter_build_of(&valves[i], &catalogue->laws[i], arena, &build) != QLL_OK) {
                return QLL_NO_MEMORY;
            }
            qll_valve_take_build(&valves[i], &build);
            if (qll_progress_step(asked, i, catalogue->count) != QLL_OK) {
                return QLL_STOPPED;
            }
        }
    }
    catalogue->valves = valves;
    return QLL_OK;
}
