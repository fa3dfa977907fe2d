/* The first stages of a split: solved once, they serve all second stages. */
#include "search/lead.h"
#include "search/split.h"

#include <limits.h>
#include <math.h>
#include <string.h>

size_t qll_stage_choice_count(const qll_searching *searching, const qll_stage_plan *plan)
{
    qll_stage_walk walk = qll_stage_walk_begin(&searching->pool, searching->site, *plan);
    qll_stage_choice choice;
    size_t count = 0;
    while (qll_stage_walk_next(&walk, &choice)) {
        count += 1;
    }
    return count;
}

qll_stage_plan qll_stage_plan_of_three(const qll_stage_plan *plan)
{
    qll_stage_plan three = *plan;
    three.branches_least = 3;
    three.branches_most = 3;
    return three;
}

static qll_status make_groups(qll_searching *searching, qll_split *split)
{
    const qll_duty_points *points = &searching->points;
    qll_arena *arena = searching->arena;
    split->groups = qll_arena_take(arena, searching->duty->flow_count, sizeof *split->groups);
    split->inlet_pa = qll_arena_take(arena, points->count, sizeof *split->inlet_pa);
    split->flow_m3s = qll_arena_take(arena, points->count, sizeof *split->flow_m3s);
    if (split->groups == NULL || split->inlet_pa == NULL || split->flow_m3s == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < points->count; i++) {
        const qll_duty_point *point = &points->points[i];
        split->inlet_pa[i] = point->inlet_pa;
        split->flow_m3s[i] = point->flow_m3s;
        if (i == 0 || point->flow != points->points[i - 1].flow) {
            split->groups[split->group_count] = (qll_flow_group){
                .from = i, .flow_m3s = point->flow_m3s, .low_pa = INFINITY, .high_pa = -INFINITY};
            split->group_count += 1;
        }
        qll_flow_group *group = &split->groups[split->group_count - 1];
        group->weight += point->weight;
        group->to = i + 1;
    }
    return QLL_OK;
}

void qll_first_stage_solve(const qll_split *split, const qll_duty_points *points,
                           const qll_tally_stage *of, qll_first_stage *first)
{
    qll_terms_find(of, split->inlet_pa, split->flow_m3s, points->count,
                   &split->lead_terms[first->lead * points->count], first->terms);
    first->price = qll_tally_price(&first->choice);
    first->total_noise = 0.0;
    first->total_wear = 0.0;
    for (size_t g = 0; g < split->group_count; g++) {
        first->noise[g] = 0.0;
        first->wear[g] = 0.0;
        for (size_t p = split->groups[g].from; p < split->groups[g].to; p++) {
            const qll_tally_term *term = &first->terms[p];
            first->leads_alone[p] = qll_leads_alone(of, split->inlet_pa[p], term->outlet_pa);
            first->noise[g] += points->points[p].weight * term->noise;
            first->wear[g] += points->points[p].weight * term->wear;
        }
        first->total_noise += first->noise[g];
        first->total_wear += first->wear[g];
    }
}

qll_first_stage *qll_first_stage_take(const qll_searching *searching, const qll_split *split)
{
    qll_arena *arena = searching->arena;
    qll_first_stage *first = qll_arena_take(arena, 1, sizeof *first);
    if (first == NULL) {
        return NULL;
    }
    first->terms = qll_arena_take(arena, searching->points.count, sizeof *first->terms);
    first->leads_alone = qll_arena_take(arena, searching->points.count, sizeof *first->leads_alone);
    first->noise = qll_arena_take(arena, split->group_count, sizeof *first->noise);
    first->wear = qll_arena_take(arena, split->group_count, sizeof *first->wear);
    first->cells = qll_arena_take(arena, split->group_count, 2);
    bool has_all = first->terms != NULL && first->leads_alone != NULL && first->noise != NULL
                   && first->wear != NULL && first->cells != NULL
                   && qll_stage_corners_make(searching->duty, arena, &first->corners) == QLL_OK;
    return has_all ? first : NULL;
}

/* What is found of the first stages of one plan. */
typedef struct first_search {
    size_t second_count;    /* how many second stages each would be tried with */
    bool carries;           /* some stage keeps the rules of its own */
    qll_first_stage *spare; /* taken, and not yet in use */
} first_search;

/* Adds @p choice to the first stages unless it breaks a rule, in which case all it would have been
 * tried with fall. */
static qll_status add_first(qll_searching *searching, const qll_stage_choice *choice, size_t lead,
                            qll_split *split, first_search *found)
{
    searching->counts.arrangements += found->second_count;
    if (!qll_handover_holds(choice, &split->first_plan)) {
        searching->counts.by_handover += found->second_count;
        return QLL_OK;
    }
    if (found->spare == NULL) {
        found->spare = qll_first_stage_take(searching, split);
    }
    if (found->spare == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_first_stage *first = found->spare;
    qll_arena_mark mark = qll_arena_now(searching->arena);
    qll_tally_stage *of = NULL;
    if (qll_tally_stage_make(choice, searching->site, searching->arena, &of) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_stage_corners_begin(&searching->corners, &first->corners);
    qll_stage_corners_solve(searching->duty, of->solver, choice->branch_count, &first->corners);
    qll_rule broken = qll_corner_broken_by_stage(&searching->corners, &of->stage, &first->corners);
    if (broken == QLL_RULE_COUNT) {
        first->choice = *choice;
        first->lead = lead;
        first->lead_row = lead;
        first->own_row = QLL_NO_ROW;
        qll_first_stage_solve(split, &searching->points, of, first);
        split->firsts[split->first_count] = first;
        split->first_count += 1;
        found->carries = true;
        found->spare = NULL;
    } else {
        searching->counts.by_rule[broken] += found->second_count;
    }
    qll_arena_reset(searching->arena, mark);
    return QLL_OK;
}

static qll_status find_firsts(qll_searching *searching, const qll_stage_plan *plan,
                              qll_split *split, first_search *found)
{
    size_t room = split->first_count + qll_stage_choice_count(searching, plan);
    /* NOLINTNEXTLINE(bugprone-sizeof-expression): pointers are meant */
    qll_first_stage **firsts = qll_arena_take(searching->arena, room, sizeof *firsts);
    if (firsts == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < split->first_count; i++) {
        firsts[i] = split->firsts[i];
    }
    split->firsts = firsts;
    qll_stage_walk walk = qll_stage_walk_begin(&searching->pool, searching->site, *plan);
    qll_stage_choice choice;
    while (qll_stage_walk_next(&walk, &choice)) {
        qll_status status = add_first(searching, &choice, walk.valves[0], split, found);
        if (status != QLL_OK) {
            return status;
        }
    }
    return QLL_OK;
}

static double share_of(double value, double greatest)
{
    return greatest > 0.0 ? value / greatest : 0.0;
}

/* Rising in the sum of noise, wear and price, each as a share of its greatest. */
static void order_firsts(qll_split *split)
{
    double noise = 0.0;
    double wear = 0.0;
    double price = 0.0;
    for (size_t i = 0; i < split->first_count; i++) {
        noise = fmax(noise, split->firsts[i]->total_noise);
        wear = fmax(wear, split->firsts[i]->total_wear);
        price = fmax(price, split->firsts[i]->price);
    }
    for (size_t i = 0; i < split->first_count; i++) {
        qll_first_stage *first = split->firsts[i];
        first->order = share_of(first->total_noise, noise) + share_of(first->total_wear, wear)
                       + share_of(first->price, price);
        size_t at = i;
        while (at > 0 && split->firsts[at - 1]->order > first->order) {
            split->firsts[at] = split->firsts[at - 1];
            at--;
        }
        split->firsts[at] = first;
    }
}

static bool is_no_worse(const qll_first_stage *a, const qll_first_stage *b)
{
    return a->total_noise <= b->total_noise && a->total_wear <= b->total_wear
           && a->price <= b->price;
}

/* Remembers the last ones that are no worse: they fall most easily, and with them this one. */
static void link_firsts(qll_split *split)
{
    for (size_t i = 0; i < split->first_count; i++) {
        qll_first_stage *first = split->firsts[i];
        first->better_count = 0;
        for (size_t k = i; k > 0 && first->better_count < QLL_BETTER_MOST; k--) {
            if (is_no_worse(split->firsts[k - 1], first)) {
                first->better[first->better_count] = k - 1;
                first->better_count += 1;
            }
        }
    }
}

static unsigned char cell_of(const qll_flow_group *group, double outlet_pa)
{
    double at = (outlet_pa - group->low_pa) / group->cell_pa;
    double last = (double)(group->cell_count - 1);
    return (unsigned char)fmin(fmax(at, 0.0), last);
}

static void place_in_cells(qll_flow_group *group, size_t g, qll_first_stage *first)
{
    unsigned char least = UCHAR_MAX;
    unsigned char most = 0;
    for (size_t p = group->from; p < group->to; p++) {
        unsigned char cell = cell_of(group, first->terms[p].outlet_pa);
        least = cell < least ? cell : least;
        most = cell > most ? cell : most;
    }
    first->cells[2 * g] = least;
    first->cells[2 * g + 1] = most;
    for (size_t cell = least; cell <= most; cell++) {
        group->is_occupied[cell] = true;
    }
}

static void make_cells(qll_split *split, qll_flow_group *group)
{
    double span_pa = group->high_pa - group->low_pa;
    double count = fmin(fmax(ceil(span_pa / QLL_CELL_PA), 1.0), (double)QLL_CELLS_MOST);
    group->cell_count = (size_t)count;
    group->cell_pa = fmax(QLL_CELL_PA, span_pa / count);
    group->cell_from = split->cell_count;
    split->cell_count += group->cell_count;
}

static void place_firsts(qll_split *split)
{
    for (size_t g = 0; g < split->group_count; g++) {
        qll_flow_group *group = &split->groups[g];
        for (size_t i = 0; i < split->first_count; i++) {
            for (size_t p = group->from; p < group->to; p++) {
                double outlet_pa = split->firsts[i]->terms[p].outlet_pa;
                group->low_pa = fmin(group->low_pa, outlet_pa);
                group->high_pa = fmax(group->high_pa, outlet_pa);
            }
        }
        make_cells(split, group);
        for (size_t i = 0; i < split->first_count; i++) {
            place_in_cells(group, g, split->firsts[i]);
        }
    }
}

static bool is_edge_wanted(const qll_flow_group *group, size_t edge)
{
    return (edge < group->cell_count && group->is_occupied[edge])
           || (edge > 0 && group->is_occupied[edge - 1]);
}

/* The edges of all cells that have first stages. */
static void place_edges(qll_split *split)
{
    size_t count = 0;
    for (size_t g = 0; g < split->group_count; g++) {
        qll_flow_group *group = &split->groups[g];
        group->edge_from = count;
        for (size_t i = 0; i <= group->cell_count; i++) {
            if (is_edge_wanted(group, i)) {
                split->edge_inlet_pa[count] = group->low_pa + group->cell_pa * (double)i;
                split->edge_flow_m3s[count] = group->flow_m3s;
                count += 1;
            }
        }
    }
    split->edge_count = count;
}

static qll_status take_edges(const qll_searching *searching, qll_split *split)
{
    qll_arena *arena = searching->arena;
    const size_t valves = searching->pool.count;
    const size_t room = split->cell_count + split->group_count; /* one more than cells in each */
    split->edge_inlet_pa = qll_arena_take(arena, room, sizeof *split->edge_inlet_pa);
    split->edge_flow_m3s = qll_arena_take(arena, room, sizeof *split->edge_flow_m3s);
    if (split->edge_inlet_pa == NULL || split->edge_flow_m3s == NULL) {
        return QLL_NO_MEMORY;
    }
    place_edges(split);
    if (split->edge_count != 0 && valves > SIZE_MAX / split->edge_count) {
        return QLL_NO_MEMORY;
    }
    split->edges = qll_arena_take(arena, split->edge_count, sizeof *split->edges);
    split->lead_edges =
        qll_arena_take(arena, valves * split->edge_count, sizeof *split->lead_edges);
    return split->edges == NULL || split->lead_edges == NULL ? QLL_NO_MEMORY : QLL_OK;
}

/* The highest pressures that first stages give at the peaks, for what must pass, and the lowest at no
 * flow, for what valves are rated for: what breaks a rule of its own behind them breaks it behind all. */
static void find_best(const qll_duty *duty, qll_split *split)
{
    for (size_t c = 0; c <= duty->scenario_count; c++) {
        bool is_still = c == duty->scenario_count;
        double best_pa = split->firsts[0]->corners.outlet_pa[c];
        for (size_t i = 1; i < split->first_count; i++) {
            double outlet_pa = split->firsts[i]->corners.outlet_pa[c];
            best_pa = is_still ? fmin(best_pa, outlet_pa) : fmax(best_pa, outlet_pa);
        }
        split->best.inlet_pa[c] = best_pa;
    }
}

static qll_status take_rest(qll_searching *searching, qll_split *split)
{
    qll_arena *arena = searching->arena;
    split->cells = qll_arena_take(arena, split->cell_count, sizeof *split->cells);
    split->behind = qll_arena_take(arena, split->group_count, sizeof *split->behind);
    split->rest = qll_arena_take(arena, split->group_count + 1, sizeof *split->rest);
    split->is_beaten = qll_arena_take(arena, split->first_count, sizeof *split->is_beaten);
    bool has_all = split->cells != NULL && split->behind != NULL && split->rest != NULL
                   && split->is_beaten != NULL && take_edges(searching, split) == QLL_OK
                   && qll_stage_corners_make(searching->duty, arena, &split->best) == QLL_OK;
    return has_all ? QLL_OK : QLL_NO_MEMORY;
}

static qll_status take_lead_terms(const qll_searching *searching, qll_split *split)
{
    const size_t point_count = searching->points.count;
    if (point_count != 0 && searching->pool.count > SIZE_MAX / point_count) {
        return QLL_NO_MEMORY;
    }
    split->lead_terms = qll_arena_take(searching->arena, searching->pool.count * point_count,
                                       sizeof *split->lead_terms);
    return split->lead_terms == NULL ? QLL_NO_MEMORY : QLL_OK;
}

qll_status qll_split_begin(qll_searching *searching, qll_split *split)
{
    first_search found = {.second_count = qll_stage_choice_count(searching, &split->second_plan)};
    qll_status status = make_groups(searching, split);
    if (status == QLL_OK) {
        status = take_lead_terms(searching, split);
    }
    if (status == QLL_OK) {
        status = find_firsts(searching, &split->first_plan, split, &found);
    }
    if (status == QLL_OK && searching->options->branches_max >= 3 && !found.carries) {
        const qll_stage_plan three = qll_stage_plan_of_three(&split->first_plan);
        status = find_firsts(searching, &three, split, &found);
    }
    if (status != QLL_OK || split->first_count == 0) {
        return status;
    }
    order_firsts(split);
    link_firsts(split);
    place_firsts(split);
    status = take_rest(searching, split);
    if (status == QLL_OK) {
        find_best(searching->duty, split);
    }
    return status;
}
