#include "search/split.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static size_t grid_of(const qll_split *split)
{
    const qll_duty *duty = split->searching->yardstick->duty;
    return duty->supply_count * duty->flow_count;
}

static size_t peaks_of(const qll_split *split)
{
    return split->searching->yardstick->duty->scenario_count * QLL_SUPPLY_LEVELS;
}

/* What is ordered by full Kv. */
typedef struct keyed {
    double kv_m3h;
    size_t part;
} keyed;

static int compare_keyed(const void *left, const void *right)
{
    const keyed *a = left;
    const keyed *b = right;
    if (a->kv_m3h != b->kv_m3h) {
        return a->kv_m3h < b->kv_m3h ? -1 : 1;
    }
    return a->part < b->part ? -1 : a->part > b->part;
}

static qll_status order_by_kv(const qll_searching *searching, size_t *by_kv)
{
    const qll_pool *pool = &searching->pool;
    qll_arena_mark mark = qll_arena_now(searching->arena);
    keyed *all = qll_arena_take(searching->arena, pool->count, sizeof *all);
    if (all == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < pool->count; i++) {
        all[i] = (keyed){pool->parts[i].branch.valve->kv_m3h, i};
    }
    qsort(all, pool->count, sizeof *all, compare_keyed);
    for (size_t i = 0; i < pool->count; i++) {
        by_kv[i] = all[i].part;
    }
    qll_arena_reset(searching->arena, mark);
    return QLL_OK;
}

qll_status qll_split_room_make(const qll_searching *searching, qll_split_room *room)
{
    const size_t scenarios = searching->yardstick->duty->scenario_count;
    const size_t count = searching->pool.count;
    qll_arena *arena = searching->arena;
    room->by_kv = qll_arena_take(arena, count, sizeof *room->by_kv);
    room->hard_m3s = qll_arena_take(arena, count, scenarios * sizeof *room->hard_m3s);
    if (room->by_kv == NULL || room->hard_m3s == NULL
        || order_by_kv(searching, room->by_kv) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_status status = qll_ends_make(searching->yardstick->duty, arena, &room->behind);
    status = status == QLL_OK ? qll_walk_room_make(searching, &room->walk) : status;
    status = status == QLL_OK ? qll_trial_room_make(searching, &room->first) : status;
    if (status == QLL_OK) {
        status = qll_least_room_make(searching, &room->least);
    }
    return status == QLL_OK ? qll_trial_room_make(searching, &room->second) : status;
}

qll_status qll_split_open(qll_searching *searching, double between_pa_gauge, size_t branches_most,
                          qll_split *split)
{
    const qll_site *site = searching->yardstick->site;
    *split = (qll_split){.searching = searching,
                         .between_pa_gauge = between_pa_gauge,
                         .branches_most = branches_most,
                         .least = INFINITY,
                         .first = qll_stage_place_first(searching, between_pa_gauge, false)};
    split->first.clear_pa_gauge = site->set_pa_gauge + QLL_CLEAR_PA;
    split->second = (qll_stage_place){.set_inlet_pa_gauge = between_pa_gauge,
                                      .low_pa_gauge = between_pa_gauge,
                                      .high_pa_gauge = between_pa_gauge,
                                      .wanted_pa_gauge = site->set_pa_gauge,
                                      .clear_pa_gauge = -INFINITY,
                                      .is_last = true};
    const size_t grid = grid_of(split);
    const size_t peaks = peaks_of(split);
    double *figures = qll_arena_take(searching->arena, grid + peaks, 2 * sizeof *figures);
    split->lead_pa = qll_arena_take(searching->arena, grid + peaks, sizeof *split->lead_pa);
    if (figures == NULL || split->lead_pa == NULL
        || qll_marks_make(searching, &split->firsts_left) != QLL_OK
        || qll_marks_make(searching, &split->seconds_left) != QLL_OK
        || qll_ends_make(searching->yardstick->duty, searching->arena, &split->second.ends)
               != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    split->range = (qll_between_range){.low_pa = figures,
                                       .high_pa = figures + grid,
                                       .low_peak_pa = figures + 2 * grid,
                                       .high_peak_pa = figures + 2 * grid + peaks};
    return QLL_OK;
}

/* ---- what is known before any first stage is solved ---- */

static double change_pa(const qll_split *split, double inlet_pa)
{
    const double barometric_pa = split->searching->yardstick->site->barometric_pa;
    return inlet_pa - (split->first.set_inlet_pa_gauge + barometric_pa);
}

/* The pressure between, absolute, moved by so much. */
static double between_pa(const qll_split *split, double moved_pa)
{
    return split->between_pa_gauge + split->searching->yardstick->site->barometric_pa + moved_pa;
}

bool qll_split_rises(const qll_split *split)
{
    return split->searching->pool.effects.least >= 0.0
           && split->searching->pool.effects.most <= 1.0;
}

/* Least that any first stage gives at a point, by what it must hold at the peaks of the middle supply: less flow and
 * more inlet give more, less inlet takes away no more than itself. -INFINITY = nothing is known. */
static double must_hold_pa(const qll_split *split, double inlet_pa, double flow_m3s)
{
    const qll_yardstick *yardstick = split->searching->yardstick;
    const double held_pa =
        split->first.clear_pa_gauge + yardstick->site->barometric_pa - QLL_PRESSURE_SLACK_PA;
    double least_pa = -INFINITY;
    for (size_t c = 0; c < yardstick->duty->scenario_count && qll_split_rises(split); c++) {
        if (flow_m3s <= yardstick->peak_m3s[c]) {
            double peak_inlet_pa =
                yardstick->peak_inlet_pa[c * QLL_SUPPLY_LEVELS + QLL_SUPPLY_LEVELS / 2];
            least_pa = fmax(least_pa, held_pa - fmax(peak_inlet_pa - inlet_pa, 0.0));
        }
    }
    return least_pa;
}

/* What the best of those that may be the smaller beside a part passes at most. */
static double beside_m3s(const qll_split *split, const qll_split_room *room, const qll_part *part,
                         size_t scenario)
{
    const qll_searching *searching = split->searching;
    const qll_part *parts = searching->pool.parts;
    size_t low = 0;
    size_t high = searching->pool.count;
    while (low < high) { /* how many are small enough */
        const size_t middle = low + (high - low) / 2;
        bool is_small = searching->larger_least * parts[room->by_kv[middle]].branch.valve->kv_m3h
                        <= part->branch.valve->kv_m3h;
        low = is_small ? middle + 1 : low;
        high = is_small ? high : middle;
    }
    return low > 0 ? room->hard_m3s[scenario * searching->pool.count + low - 1] : 0.0;
}

/* Whether the part at this set-point may be the larger of a pair, or alone, that holds what it must: if so, the pair
 * gives no less than it would by itself. */
static bool may_hold(const qll_split *split, const qll_split_room *room, size_t index,
                     double set_pa_gauge, bool is_single)
{
    const qll_searching *searching = split->searching;
    const qll_yardstick *yardstick = searching->yardstick;
    const qll_part *part = &searching->pool.parts[index];
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        double most_m3s = qll_part_hard_m3s(searching, &split->first, part, set_pa_gauge, c);
        most_m3s += is_single ? 0.0 : beside_m3s(split, room, part, c);
        if (yardstick->peak_m3s[c] > (1.0 + 1e-9) * most_m3s) {
            return false;
        }
    }
    return true;
}

static void lower(const qll_split *split, qll_split_room *room, size_t index, double set_pa_gauge)
{
    const qll_yardstick *yardstick = split->searching->yardstick;
    const qll_duty *duty = yardstick->duty;
    qll_lead lead;
    qll_lead_begin(split->searching, &split->first, index, set_pa_gauge, &room->walk.lead, &lead);
    for (size_t s = 0; s < duty->supply_count; s++) {
        const size_t from = s * duty->flow_count;
        qll_stage_solve_many(lead.picked.ruler.solver, duty->inlet_pa + from, duty->flow_m3s,
                             duty->flow_count, room->walk.lead.points);
        for (size_t f = 0; f < duty->flow_count; f++) {
            const qll_stage_point *point = &room->walk.lead.points[f];
            double outlet_pa = point->passes ? point->outlet_pa : -(double)INFINITY;
            split->range.low_pa[from + f] = fmin(split->range.low_pa[from + f], outlet_pa);
        }
    }
    for (size_t i = 0; i < peaks_of(split); i++) {
        double outlet_pa = room->walk.lead.peak_pa[i];
        split->range.low_peak_pa[i] =
            fmin(split->range.low_peak_pa[i], isnan(outlet_pa) ? -(double)INFINITY : outlet_pa);
    }
}

/* Every part that may be alone or the larger of two, at its lowest set-point. */
static void lower_all(const qll_split *split, qll_split_room *room)
{
    qll_searching *searching = split->searching;
    const size_t offsets = split->branches_most > 1 ? QLL_OFFSET_COUNT : 0;
    for (size_t c = 0; c < searching->yardstick->duty->scenario_count; c++) {
        double most_m3s = 0.0;
        for (size_t i = 0; i < searching->pool.count; i++) {
            const qll_part *part = &searching->pool.parts[room->by_kv[i]];
            most_m3s = fmax(most_m3s, qll_part_hard_m3s(searching, &split->first, part,
                                                        split->between_pa_gauge, c));
            room->hard_m3s[c * searching->pool.count + i] = most_m3s;
        }
    }
    for (size_t i = 0; i < searching->pool.count; i++) {
        bool has_lower = false;
        for (size_t o = offsets; o-- > 0 && !has_lower;) {
            double set_pa_gauge = split->between_pa_gauge - qll_offsets_pa[o];
            has_lower = may_hold(split, room, i, set_pa_gauge, false);
            if (has_lower) {
                lower(split, room, i, set_pa_gauge);
            }
        }
        if (!has_lower && may_hold(split, room, i, split->between_pa_gauge, true)) {
            lower(split, room, i, split->between_pa_gauge);
        }
        if (!qll_searching_looks(searching, QLL_LOOKS_PER_TRIAL)) {
            return;
        }
    }
}

/* What a first stage gives hangs little on the supply: the ends over all of them let a lead be solved once for all. */
static void level_supplies(const qll_split *split)
{
    const qll_duty *duty = split->searching->yardstick->duty;
    const qll_inlet_ends *ends = &split->second.ends;
    for (size_t i = 0; i < grid_of(split); i++) {
        split->range.low_pa[i] = ends->low_pa[i % duty->flow_count];
        split->range.high_pa[i] = ends->high_pa[i % duty->flow_count];
    }
}

static void place_second(qll_split *split)
{
    const qll_between_range *range = &split->range;
    split->second.inlets = (qll_inlets){
        .grid_pa = range->low_pa, .peak_pa = range->low_peak_pa, .rest_pa = range->rest_low_pa};
    split->range.highest = (qll_inlets){
        .grid_pa = range->high_pa, .peak_pa = range->high_peak_pa, .rest_pa = range->rest_low_pa};
    split->second.highest = &split->range.highest;
    qll_place_ends(split->searching->yardstick->duty, &split->second);
    level_supplies(split);
}

/* At least what it must hold; no number where nothing is known. */
static void finish_foreseen(const qll_split *split, const double *inlet_pa, const double *flow_m3s,
                            size_t count, double *low_pa, double *high_pa)
{
    for (size_t i = 0; i < count; i++) {
        low_pa[i] = fmax(low_pa[i], must_hold_pa(split, inlet_pa[i], flow_m3s[i]));
        const double moved_pa =
            qll_effects_most_pa(split->searching->pool.effects, change_pa(split, inlet_pa[i]));
        high_pa[i] = fmin(inlet_pa[i], between_pa(split, moved_pa));
        low_pa[i] = fmin(low_pa[i], high_pa[i]);
        if (!isfinite(low_pa[i])) {
            low_pa[i] = NAN;
        }
    }
}

void qll_split_foresee(qll_split *split, qll_split_room *room)
{
    const qll_yardstick *yardstick = split->searching->yardstick;
    const qll_duty *duty = yardstick->duty;
    for (size_t i = 0; i < grid_of(split); i++) {
        split->range.low_pa[i] = INFINITY;
    }
    for (size_t i = 0; i < peaks_of(split); i++) {
        split->range.low_peak_pa[i] = INFINITY;
    }
    lower_all(split, room);
    for (size_t s = 0; s < duty->supply_count; s++) {
        const size_t from = s * duty->flow_count;
        finish_foreseen(split, duty->inlet_pa + from, duty->flow_m3s, duty->flow_count,
                        split->range.low_pa + from, split->range.high_pa + from);
    }
    for (size_t c = 0; c < duty->scenario_count; c++) {
        const size_t from = c * QLL_SUPPLY_LEVELS;
        const double peak_m3s = yardstick->peak_m3s[c];
        const double flow_m3s[QLL_SUPPLY_LEVELS] = {peak_m3s, peak_m3s, peak_m3s};
        finish_foreseen(split, yardstick->peak_inlet_pa + from, flow_m3s, QLL_SUPPLY_LEVELS,
                        split->range.low_peak_pa + from, split->range.high_peak_pa + from);
    }
    const double moved_pa = qll_effects_least_pa(split->searching->pool.effects,
                                                 change_pa(split, split->first.inlets.rest_pa));
    split->range.rest_low_pa = between_pa(split, moved_pa);
    place_second(split);
}

/* ---- what the stages listed give ---- */

static qll_half half_of(const qll_split *split, const qll_trial *trial)
{
    qll_half made = {.pick = trial->pick,
                     .placing = trial->placing,
                     .cost = trial->cost,
                     .dearest = trial->dearest};
    made.chance = qll_searching_chance(split->searching, trial->survival, NULL);
    made.gives_pa = trial->gives_pa;
    made.needs_pa = trial->needs_pa;
    made.highest_pa_gauge = -INFINITY;
    made.rated_pa_gauge =
        split->searching->pool.parts[trial->pick.part[0]].branch.valve->inlet_max_pa_gauge;
    for (size_t j = 0; j < trial->pick.count; j++) {
        made.highest_pa_gauge = fmax(made.highest_pa_gauge, trial->pick.set_pa_gauge[j]);
    }
    memcpy(made.survival, trial->survival, sizeof made.survival);
    return made;
}

/* Least that a first stage holds at the peaks and the middle supply, less hysteresis. */
static double held_pa_gauge(const qll_split *split, const qll_trial *trial)
{
    const qll_yardstick *yardstick = split->searching->yardstick;
    double least = INFINITY;
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        double outlet_pa_gauge =
            trial->outlets.peak_pa[c * QLL_SUPPLY_LEVELS + QLL_SUPPLY_LEVELS / 2]
            - yardstick->site->barometric_pa;
        for (size_t j = 0; j < trial->pick.count; j++) {
            const qll_part *part = &split->searching->pool.parts[trial->pick.part[j]];
            double held = fmin(trial->pick.set_pa_gauge[j], outlet_pa_gauge);
            least = fmin(least, held - part->hysteresis_pa);
        }
    }
    return least;
}

static void widen(double *low, double *high, const double *with, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (!isnan(with[i])) {
            low[i] = with[i] < low[i] ? with[i] : low[i];
            high[i] = with[i] > high[i] ? with[i] : high[i];
        }
    }
}

static qll_status put_first(void *context, const qll_trial *trial)
{
    qll_split *split = context;
    qll_half made = half_of(split, trial);
    made.held_pa_gauge = held_pa_gauge(split, trial);
    made.peak_pa = trial->outlets.peak_pa[0];
    made.rest_pa_gauge = trial->outlets.rest_pa - split->searching->yardstick->site->barometric_pa;
    widen(split->range.low_pa, split->range.high_pa, trial->outlets.grid_pa, grid_of(split));
    widen(split->range.low_peak_pa, split->range.high_peak_pa, trial->outlets.peak_pa,
          peaks_of(split));
    split->range.rest_low_pa = fmin(split->range.rest_low_pa, trial->outlets.rest_pa);
    return qll_halves_put(&split->firsts, &made, split->searching->arena);
}

static qll_status put_second(void *context, const qll_trial *trial)
{
    qll_split *split = context;
    qll_arena *arena = split->searching->arena;
    qll_half made = half_of(split, trial);
    if (trial->seconds != NULL) {
        qll_second *seconds = qll_arena_take(arena, trial->second_count, sizeof *seconds);
        if (seconds == NULL) {
            return QLL_NO_MEMORY;
        }
        memcpy(seconds, trial->seconds, trial->second_count * sizeof *seconds);
        made.seconds = seconds;
        made.second_count = trial->second_count;
        memcpy(made.open_share, trial->open_share, sizeof made.open_share);
        made.open_from = trial->open_from;
        made.floor = trial->floor;
        made.dearest = split->searching->pool.parts[trial->pick.part[0]].cost;
    }
    return qll_halves_put(&split->seconds, &made, arena);
}

/* Where no first stage passes a flow nothing is known of what comes: no number. */
static void leave_unknown(double *low, double *high, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (!(low[i] <= high[i])) {
            low[i] = NAN;
            high[i] = NAN;
        }
    }
}

static void forget(qll_split *split)
{
    for (size_t i = 0; i < grid_of(split); i++) {
        split->range.low_pa[i] = INFINITY;
        split->range.high_pa[i] = -INFINITY;
    }
    for (size_t i = 0; i < peaks_of(split); i++) {
        split->range.low_peak_pa[i] = INFINITY;
        split->range.high_peak_pa[i] = -INFINITY;
    }
    split->range.rest_low_pa = INFINITY;
}

static qll_status walk_stage(qll_split *split, const qll_stage_place *place,
                             const qll_rest_of_station *rest, qll_walk_sink *sink,
                             const qll_marks *left, qll_split_room *room)
{
    const qll_walk walk = {.searching = split->searching,
                           .place = place,
                           .rest = rest,
                           .branches_most = split->branches_most,
                           .sink = sink,
                           .context = split,
                           .by_lead = sink != put_first,
                           .left = left,
                           .tells_progress = true};
    return qll_walk_stage(&walk, &room->walk);
}

static qll_status put_lead(void *context, const qll_trial *trial)
{
    qll_split *split = context;
    qll_half made = half_of(split, trial);
    made.dearest = split->searching->pool.parts[trial->pick.part[0]].cost;
    const size_t grid = grid_of(split);
    for (size_t i = 0; i < grid + peaks_of(split); i++) {
        double outlet_pa = i < grid ? trial->outlets.grid_pa[i] : trial->outlets.peak_pa[i - grid];
        /* What the lead cannot pass alone it may pass with another. */
        outlet_pa = isnan(outlet_pa) ? -(double)INFINITY : outlet_pa;
        split->lead_pa[i] = fmin(split->lead_pa[i], outlet_pa);
    }
    return qll_halves_put(&split->firsts, &made, split->searching->arena);
}

static void narrow(const double *lead_pa, size_t count, double *low_pa, const double *high_pa)
{
    for (size_t i = 0; i < count; i++) {
        low_pa[i] = fmin(fmax(low_pa[i], lead_pa[i]), high_pa[i]);
    }
}

qll_status qll_split_list_leads(qll_split *split, const qll_rest_of_station *rest,
                                qll_split_room *room)
{
    const size_t grid = grid_of(split);
    for (size_t i = 0; i < grid + peaks_of(split); i++) {
        split->lead_pa[i] = INFINITY;
    }
    split->firsts = (qll_halves){0};
    qll_status status = walk_stage(split, &split->first, rest, put_lead, NULL, room);
    narrow(split->lead_pa, grid, split->range.low_pa, split->range.high_pa);
    narrow(split->lead_pa + grid, peaks_of(split), split->range.low_peak_pa,
           split->range.high_peak_pa);
    place_second(split);
    return status;
}

qll_status qll_split_list_firsts(qll_split *split, const qll_rest_of_station *rest,
                                 qll_split_room *room)
{
    forget(split);
    split->firsts = (qll_halves){0};
    qll_status status =
        walk_stage(split, &split->first, rest, put_first, &split->firsts_left, room);
    leave_unknown(split->range.low_pa, split->range.high_pa, grid_of(split));
    leave_unknown(split->range.low_peak_pa, split->range.high_peak_pa, peaks_of(split));
    place_second(split);
    return status;
}

qll_status qll_split_list_seconds(qll_split *split, const qll_rest_of_station *rest,
                                  const qll_marks *left, qll_split_room *room)
{
    split->seconds = (qll_halves){0};
    return walk_stage(split, &split->second, rest, put_second, left, room);
}
