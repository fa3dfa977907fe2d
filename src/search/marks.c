#include "search/marks.h"

#include "search/seconds.h"

#include <string.h>

static bool *mark_of(const qll_marks *marks, size_t part, size_t placing, size_t size)
{
    return &marks->at[(part * QLL_SET_COUNT + placing) * marks->size_count + size];
}

qll_status qll_marks_make(const qll_searching *searching, qll_marks *marks)
{
    const size_t count = searching->pool.count * QLL_SET_COUNT;
    marks->size_count = searching->pool.size_count;
    marks->at = qll_arena_take(searching->arena, count, marks->size_count * sizeof *marks->at);
    if (marks->at == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_marks_clear(searching, marks);
    return QLL_OK;
}

void qll_marks_clear(const qll_searching *searching, const qll_marks *marks)
{
    memset(marks->at, 0,
           searching->pool.count * QLL_SET_COUNT * marks->size_count * sizeof *marks->at);
}

size_t qll_placing_of(size_t lead_set, size_t second_set)
{
    return lead_set == QLL_SET_WANTED ? second_set : lead_set;
}

void qll_marks_put(const qll_marks *marks, const qll_pool *pool, const qll_half *half)
{
    const bool is_pair = half->pick.count > 1;
    const size_t size = is_pair ? pool->parts[half->pick.part[1]].size : 0;
    *mark_of(marks, half->pick.part[0], half->placing, size) = true;
}

bool qll_marks_has(const qll_marks *marks, size_t part, size_t placing, size_t size)
{
    return marks == NULL || *mark_of(marks, part, placing, size);
}

bool qll_marks_has_any(const qll_marks *marks, size_t part, size_t placing)
{
    bool any = marks == NULL;
    for (size_t size = 0; !any && size < marks->size_count; size++) {
        any = *mark_of(marks, part, placing, size);
    }
    return any;
}

bool qll_marks_has_lead(const qll_marks *marks, size_t part, size_t lead_set)
{
    bool any = qll_marks_has_any(marks, part, lead_set);
    for (size_t i = 0; i < QLL_OFFSET_COUNT && lead_set == QLL_SET_WANTED && !any; i++) {
        any = qll_marks_has_any(marks, part, QLL_SET_BELOW + i);
    }
    return any;
}
