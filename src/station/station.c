#include "station/station.h"

#include <string.h>

qll_status qll_station_copy(const qll_station *from, qll_arena *arena, qll_station *copy)
{
    qll_stage *stages = qll_arena_take(arena, from->stage_count, sizeof *stages);
    if (stages == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t k = 0; k < from->stage_count; k++) {
        const qll_stage *stage = &from->stages[k];
        qll_branch *branches = qll_arena_take(arena, stage->branch_count, sizeof *branches);
        if (branches == NULL) {
            return QLL_NO_MEMORY;
        }
        memcpy(branches, stage->branches, stage->branch_count * sizeof *branches);
        stages[k] = *stage;
        stages[k].branches = branches;
    }
    *copy = (qll_station){.stages = stages, .stage_count = from->stage_count};
    return QLL_OK;
}

bool qll_station_is_like(const qll_station *a, const qll_station *b,
                         bool (*same)(const qll_valve *, const qll_valve *))
{
    if (a->stage_count != b->stage_count) {
        return false;
    }
    for (size_t k = 0; k < a->stage_count; k++) {
        if (a->stages[k].branch_count != b->stages[k].branch_count) {
            return false;
        }
        for (size_t j = 0; j < a->stages[k].branch_count; j++) {
            if (!same(a->stages[k].branches[j].valve, b->stages[k].branches[j].valve)) {
                return false;
            }
        }
    }
    return true;
}
