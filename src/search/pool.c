#include "search/pool.h"

#include "station/connection.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static int compare_rank(const void *left, const void *right)
{
    const qll_valve *a = ((const qll_part *)left)->branch.valve;
    const qll_valve *b = ((const qll_part *)right)->branch.valve;
    if (a->nominal_m != b->nominal_m) {
        return a->nominal_m < b->nominal_m ? -1 : 1;
    }
    if (a->kv_m3h != b->kv_m3h) {
        return a->kv_m3h < b->kv_m3h ? -1 : 1;
    }
    return strcmp(a->id, b->id);
}

static int compare_cost(const void *left, const void *right)
{
    const qll_part *a = left;
    const qll_part *b = right;
    if (a->cost != b->cost) {
        return a->cost < b->cost ? -1 : 1;
    }
    return a->rank < b->rank ? -1 : a->rank > b->rank;
}

static qll_status make_part(qll_yardstick *yardstick, const qll_valve *valve,
                            const qll_opening_law *law, qll_arena *arena, qll_part *part)
{
    const qll_site *site = yardstick->site;
    *part = (qll_part){.branch = {.valve = valve, .law = law, .set_pa_gauge = NAN},
                       .cost = qll_costs_part(site->costs, valve),
                       .hysteresis_pa = qll_valve_hysteresis_pa(valve)};
    if (qll_branch_connect(site, arena, &part->branch) != QLL_OK
        || qll_branch_curve_make(&part->branch, &site->water, arena, &part->curve) != QLL_OK
        || qll_branch_ruler_make(yardstick, &part->branch, arena, &part->ruler) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    part->area_m2 = 1.0 / part->ruler.speed_per_flow;
    return QLL_OK;
}

static qll_status rank_parts(qll_part *parts, qll_arena *arena, qll_pool *pool)
{
    double *sizes = qll_arena_take(arena, pool->count, sizeof *sizes);
    if (sizes == NULL) {
        return QLL_NO_MEMORY;
    }
    qsort(parts, pool->count, sizeof *parts, compare_rank);
    pool->effects.least = 0.0;
    pool->effects.most = 0.0;
    for (size_t i = 0; i < pool->count; i++) {
        double nominal_m = parts[i].branch.valve->nominal_m;
        if (pool->size_count == 0 || sizes[pool->size_count - 1] != nominal_m) {
            sizes[pool->size_count] = nominal_m;
            pool->size_count += 1;
        }
        parts[i].rank = i;
        parts[i].size = pool->size_count - 1;
        pool->effects.least = fmin(pool->effects.least, parts[i].branch.valve->inlet_effect);
        pool->effects.most = fmax(pool->effects.most, parts[i].branch.valve->inlet_effect);
    }
    qsort(parts, pool->count, sizeof *parts, compare_cost);
    pool->sizes_m = sizes;
    return QLL_OK;
}

void qll_pool_pair(const qll_pool *pool, double larger_least)
{
    for (size_t i = 0; i < pool->count; i++) {
        qll_part *part = &pool->parts[i];
        part->least_larger = INFINITY;
        for (size_t j = 0; j < pool->count; j++) {
            const qll_part *other = &pool->parts[j];
            if (other->rank >= part->rank
                && other->branch.valve->kv_m3h >= larger_least * part->branch.valve->kv_m3h) {
                part->least_larger = other->cost;
                break;
            }
        }
    }
}

qll_status qll_pool_make(qll_yardstick *yardstick, const qll_catalogue *catalogue, bool all,
                         qll_arena *arena, qll_pool *pool)
{
    *pool = (qll_pool){0};
    qll_part *parts = qll_arena_take(arena, catalogue->count, sizeof *parts);
    if (parts == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < catalogue->count; i++) {
        const qll_valve *valve = &catalogue->valves[i];
        qll_fitness fitness;
        qll_fitness_of_valve(yardstick->site, valve, &fitness);
        double breach = 0.0;
        for (size_t r = 0; r < QLL_PRACTICE_COUNT; r++) {
            breach += fitness.breach[r];
        }
        if (breach > 0.0 && !all) {
            continue;
        }
        if (make_part(yardstick, valve, &catalogue->laws[i], arena, &parts[pool->count])
            != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        size_t knots = parts[pool->count].curve.count;
        pool->knots_most = knots > pool->knots_most ? knots : pool->knots_most;
        pool->count += 1;
    }
    pool->parts = parts;
    return rank_parts(parts, arena, pool);
}

bool qll_part_is_rated(const qll_part *part, double set_pa_gauge, double rest_pa_gauge)
{
    const qll_valve *valve = part->branch.valve;
    return qll_breach_of_range(valve, set_pa_gauge) <= QLL_PRACTICE_SLACK
           && qll_withstands(valve->inlet_max_pa_gauge, rest_pa_gauge);
}

static size_t kind_of(const qll_part *part)
{
    return part->size * QLL_ACTING_COUNT + (size_t)part->branch.valve->acting;
}

/* An empty pool with room for all of @p pool, and a count of nothing for each size and kind, twice. */
static qll_status open_thin(const qll_pool *pool, qll_arena *arena, qll_pool *thin, size_t **index,
                            size_t **counts)
{
    const size_t kinds = pool->size_count * QLL_ACTING_COUNT;
    *counts = qll_arena_take(arena, kinds, 2 * sizeof **counts);
    *index = qll_arena_take(arena, pool->count, sizeof **index);
    *thin = *pool;
    thin->count = 0;
    thin->parts = qll_arena_take(arena, pool->count, sizeof *thin->parts);
    if (*counts == NULL || *index == NULL || thin->parts == NULL) {
        return QLL_NO_MEMORY;
    }
    memset(*counts, 0, 2 * kinds * sizeof **counts);
    return QLL_OK;
}

static void take_part(const qll_pool *pool, size_t part, qll_pool *thin, size_t *index)
{
    thin->parts[thin->count] = pool->parts[part];
    index[thin->count] = part;
    thin->count += 1;
}

qll_status qll_pool_thin(const qll_pool *pool, size_t each, qll_arena *arena, qll_pool *thin,
                         size_t **index)
{
    size_t *sum = NULL;
    if (open_thin(pool, arena, thin, index, &sum) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    size_t *met = sum + pool->size_count * QLL_ACTING_COUNT;
    for (size_t i = 0; i < pool->count; i++) {
        sum[kind_of(&pool->parts[i])] += 1;
    }
    for (size_t i = 0; i < pool->count; i++) {
        const size_t kind = kind_of(&pool->parts[i]);
        size_t before = met[kind] * each / sum[kind];
        met[kind] += 1;
        if (met[kind] == 1 || met[kind] * each / sum[kind] > before) {
            take_part(pool, i, thin, *index);
        }
    }
    return QLL_OK;
}

qll_status qll_pool_like(const qll_pool *pool, const size_t *parts, size_t part_count, size_t each,
                         qll_arena *arena, qll_pool *thin, size_t **index)
{
    size_t *left = NULL;
    if (open_thin(pool, arena, thin, index, &left) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < part_count; i++) {
        left[kind_of(&pool->parts[parts[i]])] = each;
    }
    for (size_t i = 0; i < pool->count; i++) {
        const size_t kind = kind_of(&pool->parts[i]);
        if (left[kind] > 0) {
            left[kind] -= 1;
            take_part(pool, i, thin, *index);
        }
    }
    return QLL_OK;
}
