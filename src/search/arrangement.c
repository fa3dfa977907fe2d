#include "search/arrangement.h"

#include "station/connection.h"

#include <math.h>
#include <string.h>

/* Share of its fall-off to full travel within which the valve before must have handed over; the
 * rest is the margin (our assumption). */
#define QLL_HANDOVER_TRAVEL 0.9

/* A trade paper on parallel reducing valves sets the small one 3 to 5 psi above the large one; the
 * larger steps are our addition, for valves of larger fall-off. */
static const double offsets_psi[] = {3.0, 4.0, 5.0, 6.0, 8.0, 10.0};
#define QLL_OFFSET_STEPS (sizeof offsets_psi / sizeof offsets_psi[0])
_Static_assert(QLL_OFFSET_STEPS + 1 <= QLL_OFFSETS_MOST, "room for the steps and the one by rule");

static bool comes_before(const qll_branch *a, const qll_branch *b)
{
    if (a->valve->kv_m3h != b->valve->kv_m3h) {
        return a->valve->kv_m3h < b->valve->kv_m3h;
    }
    return strcmp(a->valve->id, b->valve->id) < 0;
}

qll_status qll_pool_make(const qll_site *site, const qll_catalogue *catalogue, qll_arena *arena,
                         qll_pool *pool)
{
    qll_branch *branches = qll_arena_take(arena, catalogue->count, sizeof *branches);
    if (branches == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < catalogue->count; i++) {
        const qll_valve *valve = &catalogue->valves[i];
        qll_branch added = {.valve = valve, .law = &catalogue->laws[i], .set_pa_gauge = NAN};
        if (qll_branch_connect(site, arena, &added) != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        size_t at = i;
        while (at > 0 && comes_before(&added, &branches[at - 1])) {
            branches[at] = branches[at - 1];
            at--;
        }
        branches[at] = added;
    }
    *pool = (qll_pool){.branches = branches, .count = catalogue->count};
    return QLL_OK;
}

qll_stage qll_stage_choice_view(const qll_stage_choice *choice)
{
    return (qll_stage){.branches = choice->branches,
                       .branch_count = choice->branch_count,
                       .set_inlet_pa_gauge = choice->set_inlet_pa_gauge};
}

static double hysteresis_pa(const qll_branch *a, const qll_branch *b)
{
    return a->valve->hysteresis_pa + b->valve->hysteresis_pa;
}

double qll_offset_by_rule_pa(const qll_branch *small, const qll_branch *next,
                             const qll_stage_plan *plan, const qll_site *site)
{
    const double bands_pa = hysteresis_pa(small, next);
    const double most_pa =
        fmin(QLL_HANDOVER_TRAVEL * small->law->full_falloff_pa, plan->offset_most_pa);
    /* Its share: what its connecting pipe carries at the top of the velocity band. */
    double area_m2 = acos(-1.0) / 4.0 * small->pipe_bore_m * small->pipe_bore_m;
    double share_m3s = area_m2 * site->limits.velocity_high_m_s;
    double kv_m3h =
        qll_valve_kv_m3h(share_m3s, plan->set_inlet_pa_gauge + site->barometric_pa,
                         plan->set_pa_gauge + site->barometric_pa, small->valve->fl, &site->water);
    double falloff_pa = qll_curve_inverse(small->law->kv_of_falloff, kv_m3h);
    double offset_pa = most_pa;
    if (falloff_pa + bands_pa < most_pa) {
        offset_pa = falloff_pa + bands_pa;
    }
    double whole_pa = ceil(offset_pa / QLL_PSI_PA) * QLL_PSI_PA;
    return whole_pa <= most_pa ? whole_pa : floor(most_pa / QLL_PSI_PA) * QLL_PSI_PA;
}

/** Offsets of one stage, none twice. */
typedef struct offset_list {
    double pa[QLL_OFFSETS_MOST];
    size_t count;
} offset_list;

static void add_offset(offset_list *list, double offset_pa)
{
    for (size_t i = 0; i < list->count; i++) {
        /* One offset is one arrangement, however it was found. */
        if (fabs(list->pa[i] - offset_pa) < 0.01 * QLL_PSI_PA) {
            return;
        }
    }
    list->pa[list->count] = offset_pa;
    list->count += 1;
}

static offset_list offsets_of(const qll_branch *const *branches, size_t branch_count,
                              const qll_stage_plan *plan, const qll_site *site)
{
    offset_list list = {.count = 0};
    double by_rule_pa = 0.0;
    for (size_t i = 0; i + 1 < branch_count; i++) {
        by_rule_pa =
            fmax(by_rule_pa, qll_offset_by_rule_pa(branches[i], branches[i + 1], plan, site));
    }
    add_offset(&list, by_rule_pa);
    for (size_t i = 0; i < QLL_OFFSET_STEPS && branch_count > 1 && plan->all_offsets; i++) {
        add_offset(&list, offsets_psi[i] * QLL_PSI_PA);
    }
    return list;
}

static void set_at_offset(qll_stage_choice *choice, double set_pa_gauge, double offset_pa)
{
    for (size_t i = 0; i < choice->branch_count; i++) {
        choice->branches[i].set_pa_gauge = set_pa_gauge - (double)i * offset_pa;
    }
}

size_t qll_stage_choice_offsets(const qll_stage_choice *choice, const qll_stage_plan *plan,
                                const qll_site *site, qll_stage_choice made[QLL_OFFSETS_MOST])
{
    const qll_branch *branches[QLL_BRANCHES_MOST];
    for (size_t i = 0; i < choice->branch_count; i++) {
        branches[i] = &choice->branches[i];
    }
    const offset_list list = offsets_of(branches, choice->branch_count, plan, site);
    for (size_t i = 0; i < list.count; i++) {
        made[i] = *choice;
        set_at_offset(&made[i], plan->set_pa_gauge, list.pa[i]);
    }
    return list.count;
}

static void list_offsets(qll_stage_walk *walk)
{
    const qll_branch *branches[QLL_BRANCHES_MOST];
    for (size_t i = 0; i < walk->branch_count; i++) {
        branches[i] = &walk->pool->branches[walk->valves[i]];
    }
    const offset_list list = offsets_of(branches, walk->branch_count, &walk->plan, walk->site);
    memcpy(walk->offsets_pa, list.pa, sizeof list.pa);
    walk->offset_count = list.count;
    walk->offset_next = 0;
}

qll_stage_walk qll_stage_walk_begin(const qll_pool *pool, const qll_site *site, qll_stage_plan plan)
{
    qll_stage_walk walk = {
        .pool = pool, .site = site, .plan = plan, .branch_count = plan.branches_least};
    if (pool->count > 0) {
        list_offsets(&walk);
    }
    return walk;
}

/* The next combination with repetition, in which indices never fall. */
static void next_valves(qll_stage_walk *walk)
{
    size_t at = walk->branch_count;
    while (at > 0 && walk->valves[at - 1] + 1 == walk->pool->count) {
        at--;
    }
    if (at == 0) {
        walk->branch_count += 1;
        memset(walk->valves, 0, sizeof walk->valves);
        return;
    }
    size_t index = walk->valves[at - 1] + 1;
    for (size_t i = at - 1; i < walk->branch_count; i++) {
        walk->valves[i] = index;
    }
}

bool qll_stage_walk_next(qll_stage_walk *walk, qll_stage_choice *choice)
{
    if (walk->pool->count == 0) {
        return false;
    }
    if (walk->offset_next == walk->offset_count) {
        next_valves(walk);
        if (walk->branch_count > walk->plan.branches_most) {
            walk->offset_count = 0;
            walk->offset_next = 0;
            return false;
        }
        list_offsets(walk);
    }
    const double offset_pa = walk->offsets_pa[walk->offset_next];
    walk->offset_next += 1;
    choice->branch_count = walk->branch_count;
    choice->set_inlet_pa_gauge = walk->plan.set_inlet_pa_gauge;
    for (size_t i = 0; i < walk->branch_count; i++) {
        choice->branches[i] = walk->pool->branches[walk->valves[i]];
    }
    set_at_offset(choice, walk->plan.set_pa_gauge, offset_pa);
    return true;
}

double qll_branch_moved_set_pa(const qll_branch *branch, double inlet_change_pa)
{
    return branch->set_pa_gauge + branch->valve->inlet_effect * inlet_change_pa;
}

bool qll_handover_holds(const qll_stage_choice *choice, const qll_stage_plan *plan)
{
    const double inlets_pa_gauge[] = {plan->inlet_low_pa_gauge, plan->inlet_high_pa_gauge};
    /* Set-points are whole psi below one another; the last bit of the difference must not decide. */
    const double slack_pa = 1e-6 * QLL_PSI_PA;
    for (size_t i = 0; i + 1 < choice->branch_count; i++) {
        const qll_branch *before = &choice->branches[i];
        const qll_branch *after = &choice->branches[i + 1];
        for (size_t k = 0; k < 2; k++) {
            double change_pa = inlets_pa_gauge[k] - plan->set_inlet_pa_gauge;
            double apart_pa = qll_branch_moved_set_pa(before, change_pa)
                              - qll_branch_moved_set_pa(after, change_pa);
            bool holds =
                apart_pa > 0.0 && apart_pa >= hysteresis_pa(before, after) - slack_pa
                && apart_pa <= QLL_HANDOVER_TRAVEL * before->law->full_falloff_pa + slack_pa;
            if (!holds) {
                return false;
            }
        }
    }
    return true;
}

size_t qll_between_pressures(const qll_site *site, const qll_duty *duty,
                             double between_pa_gauge[QLL_BETWEEN_MOST])
{
    double high_pa = 0.0;
    for (size_t i = 0; i < duty->supply_count; i++) {
        high_pa = fmax(high_pa, duty->inlet_static_pa[i]);
    }
    const double set_pa = site->set_pa_gauge + site->barometric_pa;
    double middle_pa = NAN;
    if (!(high_pa > set_pa)
        || !qll_stage_split(high_pa, set_pa, site->water.vapour_pressure_pa, 2, NULL, false,
                            &middle_pa)) {
        return 0;
    }
    const double least_pa_gauge = site->set_pa_gauge + QLL_BETWEEN_STEP_PA;
    const double most_pa_gauge = high_pa - site->barometric_pa - QLL_BETWEEN_STEP_PA;
    const double middle_step = round((middle_pa - site->barometric_pa) / QLL_BETWEEN_STEP_PA);
    size_t count = 0;
    for (int i = 0; i <= 2 * QLL_BETWEEN_STEPS; i++) {
        int step = i % 2 == 1 ? -(i + 1) / 2 : i / 2; /* 0, -1, 1, -2, 2 */
        double pa_gauge = (middle_step + step) * QLL_BETWEEN_STEP_PA;
        if (pa_gauge >= least_pa_gauge && pa_gauge <= most_pa_gauge) {
            between_pa_gauge[count] = pa_gauge;
            count += 1;
        }
    }
    return count;
}
