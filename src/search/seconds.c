#include "search/seconds.h"

#include "base/customary.h"

#include <math.h>
#include <string.h>

const double qll_offsets_pa[QLL_OFFSET_COUNT] = {
    3.0 * QLL_PSI_PA, 4.0 * QLL_PSI_PA, 6.0 * QLL_PSI_PA, 8.0 * QLL_PSI_PA, 10.0 * QLL_PSI_PA};

double qll_set_pa_gauge(const qll_stage_place *place, size_t set)
{
    if (set >= QLL_SET_ABOVE) {
        return place->wanted_pa_gauge + qll_offsets_pa[set - QLL_SET_ABOVE];
    }
    return set == QLL_SET_WANTED ? place->wanted_pa_gauge
                                 : place->wanted_pa_gauge - qll_offsets_pa[set - QLL_SET_BELOW];
}

static size_t peaks_of(const qll_searching *searching)
{
    return searching->yardstick->duty->scenario_count * QLL_SUPPLY_LEVELS;
}

qll_status qll_seconds_room_make(const qll_searching *searching, qll_seconds_room *room)
{
    const size_t scenarios = searching->yardstick->duty->scenario_count;
    const size_t sizes = searching->pool.size_count;
    const size_t count = searching->pool.count;
    const size_t sets = QLL_SET_SECOND_COUNT;
    qll_arena *arena = searching->arena;
    *room = (qll_seconds_room){
        .figures = qll_arena_take(arena, count, sizeof *room->figures),
        .hard_m3s = qll_arena_take(arena, count, sets * scenarios * sizeof *room->hard_m3s),
        .fast_pa = qll_arena_take(arena, count, sets * peaks_of(searching) * sizeof *room->fast_pa),
        .size_from = qll_arena_take(arena, sizes + 1, sizeof *room->size_from),
        .reach_pa = qll_arena_take(arena, count,
                                   sets * sizes * peaks_of(searching) * sizeof *room->reach_pa),
        .lead_reach_pa =
            qll_arena_take(arena, sizes, peaks_of(searching) * sizeof *room->lead_reach_pa),
        .level_m3s = qll_arena_take(arena, count, sets * QLL_LEVEL_COUNT * sizeof *room->level_m3s),
        .lead_fast_pa = qll_arena_take(arena, peaks_of(searching), sizeof *room->lead_fast_pa),
        .areas_m2 = qll_arena_take(arena, sizes, sizeof *room->areas_m2),
        .floors = qll_arena_take(arena, sizes, sizeof *room->floors),
    };
    bool has_all = room->figures != NULL && room->hard_m3s != NULL && room->fast_pa != NULL
                   && room->size_from != NULL && room->reach_pa != NULL
                   && room->lead_reach_pa != NULL && room->level_m3s != NULL
                   && room->lead_fast_pa != NULL && room->areas_m2 != NULL && room->floors != NULL;
    return has_all ? QLL_OK : QLL_NO_MEMORY;
}

static double *hard_of(const qll_seconds *of, size_t set, size_t scenario)
{
    const size_t scenarios = of->searching->yardstick->duty->scenario_count;
    return &of->room->hard_m3s[(set * scenarios + scenario) * of->searching->pool.count];
}

static void fill_figure(const qll_seconds *of, size_t index, double rest_pa_gauge,
                        qll_second_figures *made)
{
    const qll_part *part = &of->searching->pool.parts[index];
    *made = (qll_second_figures){.part = index,
                                 .cost = part->cost,
                                 .kv_m3h = part->branch.valve->kv_m3h,
                                 .hysteresis_pa = part->hysteresis_pa,
                                 .inlet_effect = part->branch.valve->inlet_effect,
                                 .rank = part->rank};
    for (size_t set = 0; set < QLL_SET_SECOND_COUNT; set++) {
        made->is_rated[set] =
            qll_part_is_rated(part, qll_set_pa_gauge(of->place, set), rest_pa_gauge);
    }
}

/* Parts stand by cost in the pool, and so they do here within their size. */
static void fill_figures(const qll_seconds *of)
{
    const qll_searching *searching = of->searching;
    const qll_pool *pool = &searching->pool;
    const double rest_pa_gauge =
        of->place->inlets.rest_pa - searching->yardstick->site->barometric_pa;
    size_t count = 0;
    for (size_t size = 0; size < pool->size_count; size++) {
        of->room->size_from[size] = count;
        for (size_t i = 0; i < pool->count; i++) {
            if (pool->parts[i].size == size) {
                fill_figure(of, i, rest_pa_gauge, &of->room->figures[count]);
                count += 1;
            }
        }
    }
    of->room->size_from[pool->size_count] = count;
}

/* Inlets at the first design peak of the lowest supply at which it is asked who delivers. */
static double level_pa(const qll_stage_place *place, size_t level)
{
    const double low_pa = place->inlets.peak_pa[0];
    const double high_pa = place->highest->peak_pa[0];
    return low_pa + (high_pa - low_pa) * (double)level / (QLL_LEVEL_COUNT - 1);
}

/* Whether what a stage needs is known at all: only where all set-points rise with the inlet. */
static bool has_levels(const qll_seconds *of)
{
    const qll_effects effects = of->searching->pool.effects;
    return of->place->is_last && of->place->highest != NULL && effects.least >= 0.0
           && effects.most <= 1.0
           && level_pa(of->place, 0) <= level_pa(of->place, QLL_LEVEL_COUNT - 1);
}

static void fill_levels(const qll_seconds *of, const qll_part *part, double set_pa_gauge,
                        double *levels)
{
    const qll_placed placed = {of->place, part, set_pa_gauge};
    const double outlet_pa = of->searching->yardstick->peak_hard_pa[0] - QLL_PRESSURE_SLACK_PA;
    for (size_t k = 0; k < QLL_LEVEL_COUNT; k++) {
        levels[k] = qll_placed_m3s(of->searching, &placed, level_pa(of->place, k), outlet_pa);
    }
}

static double *levels_of(const qll_seconds *of, size_t index, size_t set)
{
    return &of->room->level_m3s[(set * of->searching->pool.count + index) * QLL_LEVEL_COUNT];
}

static void fill_areas(const qll_seconds *of)
{
    const qll_pool *pool = &of->searching->pool;
    memset(of->room->areas_m2, 0, pool->size_count * sizeof *of->room->areas_m2);
    for (size_t i = 0; i < pool->count; i++) {
        double *area_m2 = &of->room->areas_m2[pool->parts[i].size];
        *area_m2 = fmax(*area_m2, pool->parts[i].area_m2);
    }
}

void qll_seconds_begin(const qll_seconds *of)
{
    const qll_pool *pool = &of->searching->pool;
    const bool levels = has_levels(of);
    fill_figures(of);
    fill_areas(of);
    for (size_t set = 0; set < QLL_SET_SECOND_COUNT; set++) {
        const double set_pa_gauge = qll_set_pa_gauge(of->place, set);
        for (size_t c = 0; c < of->searching->yardstick->duty->scenario_count; c++) {
            double *row = hard_of(of, set, c);
            for (size_t i = 0; i < pool->count; i++) {
                row[i] =
                    qll_part_hard_m3s(of->searching, of->place, &pool->parts[i], set_pa_gauge, c);
            }
        }
        for (size_t i = 0; levels && i < pool->count; i++) {
            fill_levels(of, &pool->parts[i], set_pa_gauge, levels_of(of, i, set));
        }
    }
    for (size_t i = 0; i < QLL_SET_SECOND_COUNT * peaks_of(of->searching) * pool->count; i++) {
        of->room->fast_pa[i] = NAN;
    }
    const size_t reaches =
        QLL_SET_SECOND_COUNT * pool->size_count * peaks_of(of->searching) * pool->count;
    for (size_t i = 0; i < reaches; i++) {
        of->room->reach_pa[i] = NAN;
    }
}

static void fill_floors(const qll_seconds *of)
{
    for (size_t z = 0; z < of->searching->pool.size_count; z++) {
        of->room->floors[z] =
            qll_peaks_floor(of->searching, of->lead->part->area_m2 + of->room->areas_m2[z]);
    }
}

void qll_seconds_of_lead(const qll_seconds *of)
{
    const qll_searching *searching = of->searching;
    const qll_placed lead = {of->place, of->lead->part, of->lead->set_pa_gauge};
    for (size_t i = 0; i < peaks_of(searching) && of->place->highest == NULL; i++) {
        of->room->lead_fast_pa[i] =
            qll_placed_fast_pa(searching, &lead, of->place->inlets.peak_pa[i],
                               searching->yardstick->peak_m3s[i / QLL_SUPPLY_LEVELS]);
    }
    for (size_t i = 0; i < searching->pool.size_count * peaks_of(searching); i++) {
        of->room->lead_reach_pa[i] = NAN;
    }
    fill_floors(of);
    if (has_levels(of)) {
        fill_levels(of, of->lead->part, of->lead->set_pa_gauge, of->room->lead_level_m3s);
    }
}

bool qll_second_may_stand(const qll_seconds *of, const qll_second_figures *second)
{
    const qll_part *first = of->lead->part;
    return second->kv_m3h >= of->searching->larger_least * first->branch.valve->kv_m3h
           && second->rank >= first->rank;
}

bool qll_second_hands_over(const qll_seconds *of, const qll_second_figures *second, size_t set,
                           double *narrowest_pa)
{
    const qll_stage_place *place = of->place;
    const qll_part *first = of->lead->part;
    const double slack_pa = 1e-6 * QLL_PSI_PA;
    const double least_pa = first->hysteresis_pa + second->hysteresis_pa;
    const double most_pa = QLL_HANDOVER_TRAVEL * first->branch.law->full_falloff_pa;
    const double effect = first->branch.valve->inlet_effect - second->inlet_effect;
    const double apart_pa = of->lead->set_pa_gauge - qll_set_pa_gauge(place, set);
    const double low_pa = apart_pa + effect * (place->low_pa_gauge - place->set_inlet_pa_gauge);
    const double high_pa = apart_pa + effect * (place->high_pa_gauge - place->set_inlet_pa_gauge);
    *narrowest_pa = low_pa < high_pa ? low_pa : high_pa;
    const double widest_pa = low_pa < high_pa ? high_pa : low_pa;
    return *narrowest_pa > 0.0 && *narrowest_pa >= least_pa - slack_pa
           && widest_pa <= most_pa + slack_pa;
}

bool qll_second_carries(const qll_seconds *of, size_t index, size_t set)
{
    const qll_yardstick *yardstick = of->searching->yardstick;
    const double slack = 1.0 + 1e-9;
    const double area_m2 = of->lead->part->area_m2 + of->searching->pool.parts[index].area_m2;
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        const double peak_m3s = yardstick->peak_m3s[c];
        if (peak_m3s > slack * QLL_SPEED_MOST_M_S * area_m2) {
            of->searching->counts.by_practice[QLL_PRACTICE_SPEED] += 1;
            return false;
        }
        const double together_m3s = of->lead->room->hard_m3s[c] + hard_of(of, set, c)[index];
        if (peak_m3s > slack * together_m3s) {
            of->searching->counts
                .by_practice[of->place->is_last ? QLL_PRACTICE_DELIVERY : QLL_PRACTICE_ORDER] += 1;
            return false;
        }
    }
    return true;
}

static double fast_pa_of(const qll_seconds *of, const qll_placed *second, double *fast_pa,
                         size_t peak)
{
    if (isnan(*fast_pa)) {
        *fast_pa = qll_placed_fast_pa(of->searching, second, of->place->inlets.peak_pa[peak],
                                      of->searching->yardstick->peak_m3s[peak / QLL_SUPPLY_LEVELS]);
    }
    return *fast_pa;
}

/* Outlet at a peak above which one passes less than the other leaves, a valve of @p other_size at 15 ft/s. */
static double reach_pa_of(const qll_seconds *of, const qll_placed *one, size_t other_size,
                          float *reach_pa, size_t peak)
{
    if (isnan(*reach_pa)) {
        const double rest_m3s = of->searching->yardstick->peak_m3s[peak / QLL_SUPPLY_LEVELS]
                                - QLL_FASTEST_M_S * of->room->areas_m2[other_size];
        const double inlet_pa = of->place->inlets.peak_pa[peak];
        const double rounded_pa = 1.0; /* up, whatever a float makes of it */
        *reach_pa =
            rest_m3s > 0.0
                ? (float)(rounded_pa + qll_placed_reach_pa(of->searching, one, inlet_pa, rest_m3s))
                : INFINITY;
    }
    return (double)*reach_pa;
}

static float *second_reach_of(const qll_seconds *of, size_t index, size_t set, size_t peak)
{
    const qll_pool *pool = &of->searching->pool;
    const size_t row = (set * pool->size_count + of->lead->part->size) * peaks_of(of->searching);
    return &of->room->reach_pa[(row + peak) * pool->count + index];
}

static bool is_fast_at(const qll_seconds *of, const qll_placed *second, size_t index, size_t set,
                       size_t peak)
{
    const qll_searching *searching = of->searching;
    const size_t peaks = peaks_of(searching);
    double *known_pa = &of->room->fast_pa[(set * peaks + peak) * searching->pool.count + index];
    const double second_pa = fast_pa_of(of, second, known_pa, peak);
    const double fast_pa = fmax(of->room->lead_fast_pa[peak], second_pa);
    if (isnan(of->place->inlets.peak_pa[peak]) || fast_pa == -(double)INFINITY) {
        return false;
    }
    const qll_placed first = {of->place, of->lead->part, of->lead->set_pa_gauge};
    return reach_pa_of(of, second, of->lead->part->size, second_reach_of(of, index, set, peak),
                       peak)
               < fast_pa
           || reach_pa_of(of, &first, second->part->size,
                          &of->room->lead_reach_pa[second->part->size * peaks + peak], peak)
                  < fast_pa;
}

bool qll_second_is_fast(const qll_seconds *of, size_t index, size_t set)
{
    const qll_searching *searching = of->searching;
    const qll_placed second = {of->place, &searching->pool.parts[index],
                               qll_set_pa_gauge(of->place, set)};
    bool is_fast = false;
    for (size_t i = 0; i < peaks_of(searching) && of->place->highest == NULL && !is_fast; i++) {
        is_fast = is_fast_at(of, &second, index, set, i);
    }
    return is_fast;
}

double qll_second_gives_pa(const qll_seconds *of, size_t index, size_t set)
{
    if (of->place->is_last || isnan(of->place->inlets.peak_pa[0])) {
        return INFINITY;
    }
    const qll_placed second = {of->place, &of->searching->pool.parts[index],
                               qll_set_pa_gauge(of->place, set)};
    return reach_pa_of(of, &second, of->lead->part->size, second_reach_of(of, index, set, 0), 0);
}

/* @p levels is NULL without a second. */
static double needs_pa_with(const qll_seconds *of, const double *levels)
{
    const double peak_m3s = of->searching->yardstick->peak_m3s[0] * (1.0 - 1e-9);
    double needs_pa = -INFINITY;
    if (!has_levels(of)) {
        return needs_pa;
    }
    for (size_t k = 0; k < QLL_LEVEL_COUNT; k++) {
        if (of->room->lead_level_m3s[k] + (levels == NULL ? 0.0 : levels[k]) >= peak_m3s) {
            break;
        }
        needs_pa = level_pa(of->place, k);
    }
    return needs_pa;
}

double qll_second_needs_pa(const qll_seconds *of, size_t index, size_t set)
{
    return needs_pa_with(of, levels_of(of, index, set));
}

double qll_lead_needs_pa(const qll_seconds *of)
{
    return needs_pa_with(of, NULL);
}
