/* docs/theory/search.md, B6. */
#include "station/hazard_terms.h"

#include <math.h>
#include <string.h>

/* Its fall-off at least and at most. */
typedef struct falloffs {
    double least_pa, most_pa;
} falloffs;

/* Between set-point and outlet as they stand at either end; and it rises with the inlet by no more than the set-point
 * moves ahead of that which moves least, so it lies near what it is at the ends themselves: docs/theory/search.md, B6. */
static falloffs falloffs_of(const qll_stage_solver *solver, size_t branch,
                            const qll_hazard_ends *ends)
{
    const qll_leg *leg = &solver->legs[branch];
    double ahead = 0.0;
    for (size_t j = 0; j < solver->stage->branch_count; j++) {
        ahead = fmax(ahead, leg->set_per_inlet - solver->legs[j].set_per_inlet);
    }
    const double rise_pa = ahead * (ends->high_inlet_pa - ends->low_inlet_pa);
    const double low_set_pa = qll_leg_set_pa(leg, ends->low_inlet_pa);
    const double high_set_pa = qll_leg_set_pa(leg, ends->high_inlet_pa);
    return (falloffs){.least_pa = fmax(low_set_pa, high_set_pa - rise_pa) - ends->high_outlet_pa,
                      .most_pa = fmin(high_set_pa, low_set_pa + rise_pa) - ends->low_outlet_pa};
}

/* False where it is not surely open. */
static bool find_between(const qll_stage_solver *solver, size_t branch, const qll_hazard_ends *ends,
                         double flow_m3s, qll_branch_between *made)
{
    const qll_leg *leg = &solver->legs[branch];
    const double pv_pa = solver->water.vapour_pressure_pa;
    const falloffs falloff = falloffs_of(solver, branch, ends);
    const double low_drop_pa = ends->low_inlet_pa - ends->low_outlet_pa;
    const double high_drop_pa = ends->high_inlet_pa - ends->high_outlet_pa;
    const double choked_pa = qll_choked_drop_pa(solver, leg->fl_squared, ends->low_inlet_pa);
    const double driving_pa = low_drop_pa < choked_pa ? low_drop_pa : choked_pa;
    if (!(falloff.least_pa > 0.0) || !(driving_pa > 0.0)) {
        return false;
    }
    const qll_branch_c least = qll_branch_curve_at(&leg->curve, falloff.least_pa);
    const qll_branch_c most = qll_branch_curve_at(&leg->curve, falloff.most_pa);
    const double most_m3s = most.c * sqrt(high_drop_pa);
    *made = (qll_branch_between){.least_m3s = least.c * sqrt(driving_pa),
                                 .most_m3s = most_m3s < flow_m3s ? most_m3s : flow_m3s,
                                 .least_kv_m3h = least.kv_m3h,
                                 .most_kv_m3h = most.kv_m3h,
                                 .head_pa = ends->high_inlet_pa - pv_pa};
    const double loss_root = made->most_m3s * leg->series_per_flow;
    const double loss_pa = loss_root * loss_root;
    made->inlet_pa = ends->low_inlet_pa - loss_pa;
    const double own_choked_pa = leg->fl_squared * (made->inlet_pa - pv_pa);
    made->drop_pa = low_drop_pa - loss_pa;
    made->drop_pa = made->drop_pa < own_choked_pa ? made->drop_pa : own_choked_pa;
    return made->least_m3s > 0.0;
}

static void put_least_cavitation(const qll_branch *of, const qll_branch_ruler *own,
                                 const qll_branch_between *at, double share, double *row)
{
    const double power_w = at->least_m3s * at->drop_pa;
    const double xfz_most = qll_branch_xfz(of, at->least_kv_m3h);
    /* The margin times xFz: what is left of it is a fraction of the drop. */
    const double scaled = at->drop_pa / at->head_pa / qll_xfz_scaled(1.0, at->inlet_pa);
    const double weight = share * power_w / (power_w + QLL_CAVITATION_HALF_W);
    for (size_t d = 0; d < QLL_OWN_NODES; d++) {
        row[d] = weight * qll_cavitation_severity(xfz_most + own->xfz_moves[d], scaled);
    }
}

double qll_branch_least(const qll_branch *branch, const qll_branch_ruler *ruler,
                        const qll_branch_between *at, double share, double row[QLL_ROWS_PER_BRANCH])
{
    if (!(at->drop_pa > 0.0)) {
        return 0.0;
    }
    const double xfz = qll_branch_xfz(branch, at->least_kv_m3h);
    const qll_chatter_terms chatters = {
        .least_over = qll_over_stable(at->least_m3s, at->most_stable_m3s),
        .most_over = qll_over_stable(at->most_m3s, at->least_stable_m3s),
        .opening = at->most_kv_m3h / branch->valve->kv_m3h,
        .share = share,
        .power_w = at->least_m3s * at->drop_pa};
    put_least_cavitation(branch, ruler, at, share, row);
    qll_put_chatter(ruler, &chatters, row + QLL_OWN_NODES);
    return qll_flow_noise_energy(&ruler->noise, at->least_m3s, at->drop_pa, at->least_kv_m3h,
                                 qll_xfz_scaled(xfz, at->inlet_pa), pow(at->head_pa, -0.57));
}

/* The least stable flow of a branch at one of the ends. */
static double stable_at(const qll_stage_solver *solver, size_t branch, double inlet_pa,
                        double outlet_pa)
{
    const qll_stability_here here =
        qll_stability_at(inlet_pa - outlet_pa, outlet_pa - solver->barometric_pa);
    return qll_least_flow_m3s(&solver->legs[branch].least_flow, &here);
}

static void find_stable(const qll_stage_solver *solver, size_t branch, const qll_hazard_ends *ends,
                        qll_branch_between *made)
{
    const double low_m3s = stable_at(solver, branch, ends->low_inlet_pa, ends->low_outlet_pa);
    const double high_m3s = stable_at(solver, branch, ends->high_inlet_pa, ends->high_outlet_pa);
    made->least_stable_m3s = low_m3s < high_m3s ? low_m3s : high_m3s;
    made->most_stable_m3s = low_m3s < high_m3s ? high_m3s : low_m3s;
}

void qll_hazard_least(const qll_stage_ruler *ruler, const qll_hazard_ends *ends, double flow_m3s,
                      double need_pa, double *row)
{
    const qll_stage_solver *solver = ruler->solver;
    qll_branch_between found[QLL_HAZARD_BRANCHES];
    memset(row, 0, QLL_ROWS(ruler->branch_count) * sizeof *row);
    for (size_t j = 0; j < ruler->branch_count; j++) {
        if (!find_between(solver, j, ends, flow_m3s, &found[j])) {
            return;
        }
    }
    double energy = 0.0;
    for (size_t j = 0; j < ruler->branch_count; j++) {
        qll_branch_between *at = &found[j];
        const qll_branch_ruler *own = &ruler->branches[j];
        const double share = at->least_m3s / flow_m3s;
        row[QLL_ROW_WEAR] += qll_wear_severity(share, at->least_m3s * own->speed_per_flow);
        find_stable(solver, j, ends, at);
        energy += qll_branch_least(&solver->stage->branches[j], own, at, share,
                                   &row[qll_row_cavitation(j)]);
    }
    row[QLL_ROW_NOISE] = qll_heard_severity(ruler->yardstick, energy);
    if (ruler->is_last) {
        row[QLL_ROW_STARVED] = qll_short_chance(need_pa - ends->high_outlet_pa);
    }
}
