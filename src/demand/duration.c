#include "demand/duration.h"

#include <assert.h>
#include <stdlib.h>

/* Flows this near to one another are one. */
#define QLL_SAME_FLOW_M3S 1e-12
/* As for qll_distribution_quantile(). */
#define QLL_TIE_GUARD     1e-12

static int by_flow(const void *left, const void *right)
{
    const qll_flow_time *a = left;
    const qll_flow_time *b = right;
    if (a->flow_m3s != b->flow_m3s) {
        return a->flow_m3s < b->flow_m3s ? -1 : 1;
    }
    return (a->time > b->time) - (a->time < b->time);
}

/* Sorted cells of some time, flows that are the same put together. */
static size_t merge_cells(qll_flow_time *cells, size_t count)
{
    qsort(cells, count, sizeof *cells, by_flow);
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        if (cells[i].time <= 0.0) {
            continue;
        }
        if (kept > 0 && cells[i].flow_m3s - cells[kept - 1].flow_m3s <= QLL_SAME_FLOW_M3S) {
            cells[kept - 1].time += cells[i].time;
            continue;
        }
        cells[kept] = cells[i];
        kept += 1;
    }
    return kept;
}

qll_status qll_duration_make(qll_flow_time *cells, size_t count, qll_arena *arena,
                             qll_duration *duration)
{
    const size_t kept = merge_cells(cells, count);
    assert(kept > 0);
    qll_duration_point *points = qll_arena_take(arena, kept, sizeof *points);
    if (points == NULL) {
        return QLL_NO_MEMORY;
    }
    double time = 0.0;
    double volume = 0.0;
    size_t made = 0;
    for (size_t i = 0; i < kept; i++) {
        const double before = time;
        time += cells[i].time;
        volume += cells[i].time * cells[i].flow_m3s;
        /* In the last bits of a tail time no longer adds up to anything. */
        if (made == 0 || time > before) {
            points[made] = (qll_duration_point){
                .flow_m3s = cells[i].flow_m3s, .time_share = time, .volume_share = volume};
            made += 1;
        }
    }
    points[made - 1].volume_share = volume;
    for (size_t i = 0; i < made; i++) {
        points[i].time_share /= time;
        points[i].volume_share = volume > 0.0 ? points[i].volume_share / volume : 1.0;
    }
    *duration = (qll_duration){.points = points,
                               .count = made,
                               .idle_share = points[0].flow_m3s <= 0.0 ? points[0].time_share : 0.0,
                               .mean_m3s = volume / time};
    return QLL_OK;
}

/* How many points have a time share under @p share. */
static size_t count_under(const qll_duration *duration, double share)
{
    size_t low = 0;
    size_t high = duration->count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (duration->points[middle].time_share < share) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}

double qll_duration_quantile(const qll_duration *duration, double share)
{
    const size_t index = count_under(duration, share - QLL_TIE_GUARD);
    const size_t last = duration->count - 1;
    return duration->points[index < last ? index : last].flow_m3s;
}

double qll_duration_time_share(const qll_duration *duration, double flow_m3s)
{
    size_t low = 0;
    size_t high = duration->count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (duration->points[middle].flow_m3s <= flow_m3s) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low == 0 ? 0.0 : duration->points[low - 1].time_share;
}
