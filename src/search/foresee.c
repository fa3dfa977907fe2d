/* What any first stage can give, before one is solved: docs/theory/search.md, 4, step 1. */
#include "search/split.h"

#include <math.h>

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
    for (size_t i = 0; i < qll_split_peaks(split); i++) {
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
    for (size_t i = 0; i < qll_split_grid(split); i++) {
        split->range.low_pa[i] = INFINITY;
    }
    for (size_t i = 0; i < qll_split_peaks(split); i++) {
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
    qll_split_place_second(split);
}
