#include "search/pair_least.h"

#include <math.h>
#include <string.h>

/* Classes of less weight than this at every node are not worth a look. */
#define QLL_LOOK_WEIGHT 4e-3

static void find_weighs(const qll_unknowns *unknowns, bool *weighs)
{
    for (size_t f = 0; f < unknowns->flow_count; f++) {
        double most = 0.0;
        for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
            most = fmax(most, unknowns->flow_weight[f][i]);
        }
        weighs[f] = most >= QLL_LOOK_WEIGHT;
    }
}

qll_status qll_least_room_make(const qll_searching *searching, qll_least_room *room)
{
    const size_t count = searching->yardstick->duty->flow_count;
    qll_arena *arena = searching->arena;
    room->weighs = qll_arena_take(arena, count, sizeof *room->weighs);
    room->classes = qll_arena_take(arena, count, sizeof *room->classes);
    const size_t points = QLL_LEAST_PARTS + 1;
    room->inlet_pa = qll_arena_take(arena, count, points * sizeof *room->inlet_pa);
    room->flow_m3s = qll_arena_take(arena, count, points * sizeof *room->flow_m3s);
    room->points = qll_arena_take(arena, count, points * sizeof *room->points);
    if (room->weighs == NULL || room->classes == NULL || room->inlet_pa == NULL
        || room->flow_m3s == NULL || room->points == NULL) {
        return QLL_NO_MEMORY;
    }
    find_weighs(searching->yardstick->unknowns, room->weighs);
    return qll_solver_room_make(2, 2 * searching->pool.knots_most, arena, &room->solver);
}

qll_status qll_ends_make(const qll_duty *duty, qll_arena *arena, qll_inlet_ends *ends)
{
    ends->low_pa = qll_arena_take(arena, duty->flow_count, sizeof *ends->low_pa);
    ends->high_pa = qll_arena_take(arena, duty->flow_count, sizeof *ends->high_pa);
    return ends->low_pa == NULL || ends->high_pa == NULL ? QLL_NO_MEMORY : QLL_OK;
}

void qll_place_ends(const qll_duty *duty, qll_stage_place *place)
{
    const qll_inlets *high = place->highest == NULL ? &place->inlets : place->highest;
    for (size_t f = 0; f < duty->flow_count; f++) {
        double low_pa = INFINITY;
        double high_pa = -INFINITY;
        for (size_t s = 0; s < duty->supply_count; s++) {
            const size_t at = s * duty->flow_count + f;
            /* Once no number, always none. */
            low_pa = place->inlets.grid_pa[at] >= low_pa ? low_pa : place->inlets.grid_pa[at];
            high_pa = high->grid_pa[at] <= high_pa ? high_pa : high->grid_pa[at];
        }
        place->ends.low_pa[f] = low_pa;
        place->ends.high_pa[f] = high_pa;
    }
}

/* Whether outlet and drop of all its valves rise with the inlet. */
bool qll_pick_rises(const qll_searching *searching, const qll_pick *pick)
{
    bool all = true;
    for (size_t j = 0; j < pick->count; j++) {
        const double effect = searching->pool.parts[pick->part[j]].branch.valve->inlet_effect;
        all = all && effect >= 0.0 && effect <= 1.0;
    }
    return all;
}

/* Inlets from the least to the most: the ends of so many parts. */
static void list_inlets(double low_pa, double high_pa, size_t parts, double *inlet_pa)
{
    for (size_t i = 0; i <= parts; i++) {
        inlet_pa[i] = i < parts ? low_pa + (high_pa - low_pa) * (double)i / (double)parts : high_pa;
    }
}

/* Behind inlets that rise, at one flow: of the parts between neighbors each row at its least. False where it is not known
 * at all of them. */
static bool put_least(const qll_stage_ruler *ruler, const double *inlet_pa,
                      const qll_stage_point *points, size_t parts, double flow_m3s, double need_pa,
                      double *row)
{
    for (size_t i = 0; i <= parts; i++) {
        if (isnan(inlet_pa[i]) || !points[i].passes) {
            return false;
        }
    }
    const size_t rows = QLL_ROWS(ruler->branch_count);
    for (size_t i = 0; i < parts; i++) {
        const qll_hazard_ends ends = {inlet_pa[i], inlet_pa[i + 1], points[i].outlet_pa,
                                      points[i + 1].outlet_pa};
        double part[QLL_ROWS(QLL_BRANCHES_MOST)];
        qll_hazard_least(ruler, &ends, flow_m3s, need_pa, i == 0 ? row : part);
        for (size_t r = 0; r < rows && i > 0; r++) {
            row[r] = part[r] < row[r] ? part[r] : row[r];
        }
    }
    return true;
}

/* The sums that peaks have at the first node, as at every other. */
static void add_peaks(const qll_stage_ruler *ruler, const qll_stage_place *place, size_t parts,
                      qll_hazard_sums *sums)
{
    const qll_yardstick *yardstick = ruler->yardstick;
    const size_t rows = QLL_ROWS(ruler->branch_count);
    const double weight = qll_peak_weight(yardstick);
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        const double flow_m3s = yardstick->peak_m3s[c];
        double inlet_pa[QLL_LEAST_PARTS + 1];
        qll_stage_point points[QLL_LEAST_PARTS + 1];
        list_inlets(place->inlets.peak_pa[c * QLL_SUPPLY_LEVELS],
                    place->highest->peak_pa[c * QLL_SUPPLY_LEVELS], parts, inlet_pa);
        for (size_t i = 0; i <= parts; i++) {
            points[i] = qll_stage_solve(ruler->solver, inlet_pa[i], flow_m3s);
        }
        double row[QLL_ROWS(QLL_BRANCHES_MOST)];
        if (!put_least(ruler, inlet_pa, points, parts, flow_m3s, yardstick->peak_need_pa[c], row)) {
            continue;
        }
        for (size_t r = 0; r < rows; r++) {
            sums->at[r][0] += weight * row[r];
        }
    }
}

double qll_peaks_least(const qll_searching *searching, const qll_stage_place *place,
                       const qll_pick *pick, qll_least_room *room)
{
    if (!qll_pick_rises(searching, pick)) {
        return 1.0;
    }
    qll_picked made;
    qll_pick_set(searching, place, pick, &room->solver, &made);
    qll_hazard_sums sums;
    memset(sums.at, 0, QLL_ROWS(pick->count) * sizeof sums.at[0]);
    add_peaks(&made.ruler, place, 1, &sums);
    return qll_survival_besides(&sums, made.rulers, pick->count, 0);
}

/* Classes that are worth a look and whose inlets are known, behind the ends of all parts. */
static size_t solve_ends(const qll_stage_ruler *ruler, const qll_inlet_ends *ends, size_t open_from,
                         size_t parts, qll_least_room *room)
{
    const qll_duty *duty = ruler->yardstick->duty;
    size_t count = 0;
    for (size_t f = open_from; f < duty->flow_count; f++) {
        if (room->weighs[f] && !isnan(ends->low_pa[f]) && !isnan(ends->high_pa[f])) {
            const size_t at = count * (parts + 1);
            room->classes[count] = f;
            list_inlets(ends->low_pa[f], ends->high_pa[f], parts, &room->inlet_pa[at]);
            for (size_t i = 0; i <= parts; i++) {
                room->flow_m3s[at + i] = duty->flow_m3s[f];
            }
            count += 1;
        }
    }
    qll_stage_solve_many(ruler->solver, room->inlet_pa, room->flow_m3s, count * (parts + 1),
                         room->points);
    return count;
}

/* Outlet below which somebody is starved at every supply. */
static double least_need_pa(const qll_yardstick *yardstick, size_t flow)
{
    const qll_duty *duty = yardstick->duty;
    double least_pa = yardstick->need_pa[flow];
    for (size_t s = 1; s < duty->supply_count; s++) {
        const double need_pa = yardstick->need_pa[s * duty->flow_count + flow];
        least_pa = need_pa < least_pa ? need_pa : least_pa;
    }
    return least_pa;
}

static void least_of(const qll_picked *made, const qll_inlet_ends *ends, size_t open_from,
                     size_t parts, const qll_hazard_sums *peaks, qll_least_room *room,
                     double survival[QLL_NODES])
{
    const qll_stage_ruler *ruler = &made->ruler;
    const qll_unknowns *unknowns = ruler->yardstick->unknowns;
    const size_t rows = QLL_ROWS(ruler->branch_count);
    qll_hazard_row *flows = room->of_flows;
    room->has_flows = true;
    memset(flows, 0, rows * sizeof flows[0]);
    const size_t count = solve_ends(ruler, ends, open_from, parts, room);
    for (size_t n = 0; n < count; n++) {
        const size_t f = room->classes[n];
        double row[QLL_ROWS(QLL_BRANCHES_MOST)];
        const size_t at = n * (parts + 1);
        if (put_least(ruler, &room->inlet_pa[at], &room->points[at], parts, room->flow_m3s[at],
                      least_need_pa(ruler->yardstick, f), row)) {
            qll_hazard_add(unknowns, f, row, rows, flows);
        }
    }
    /* Supplies weigh 1 together, at every shared node of theirs. */
    qll_hazard_sums sums;
    for (size_t r = 0; r < rows; r++) {
        for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
            sums.at[r][i] = peaks->at[r][0] + flows[r][i];
        }
    }
    for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
        survival[i] = qll_survival_besides(&sums, made->rulers, ruler->branch_count, i);
    }
    for (size_t k = QLL_DEMAND_NODES; k < QLL_NODES; k++) {
        survival[k] = survival[k - QLL_DEMAND_NODES];
    }
}

void qll_pair_least_of(const qll_picked *made, const qll_inlet_ends *ends, size_t open_from,
                       const qll_hazard_sums *peaks, qll_least_room *room,
                       double survival[QLL_NODES])
{
    least_of(made, ends, open_from, 1, peaks, room, survival);
}

void qll_pair_least(const qll_searching *searching, const qll_stage_place *place,
                    const qll_pick *pick, size_t open_from, qll_least_room *room,
                    double survival[QLL_NODES])
{
    if (!qll_pick_rises(searching, pick)) {
        for (size_t k = 0; k < QLL_NODES; k++) {
            survival[k] = 1.0;
        }
        return;
    }
    qll_picked made;
    qll_pick_set(searching, place, pick, &room->solver, &made);
    qll_hazard_sums sums;
    memset(sums.at, 0, QLL_ROWS(pick->count) * sizeof sums.at[0]);
    add_peaks(&made.ruler, place, QLL_LEAST_PARTS, &sums);
    least_of(&made, &place->ends, open_from, QLL_LEAST_PARTS, &sums, room, survival);
}
